// SPDX-License-Identifier: MIT
//! What a maker could see going wrong with a layout: parts off the sheet or too close, too few or too many of them, a turn
//! that the pattern forbids, more sheets than needed, a promise ("no layout can do it in fewer") that is not true.
//!
//! The checker and the exhaustive search in this file share nothing with the engine but its types.

use crate::common::instances::{Dice, Halted, INCH, MM, endless, generated, item, kit, problem};
use hingeleaf::contour::Contour;
use hingeleaf::layout::{
    Effort, Item, Layout, NoLayout, Placement, Problem, SheetType, Turn, Turns, Unwatched, lay_out, offcuts,
};
use proptest::prelude::*;

fn counted(width: i64, height: i64, count: u32) -> SheetType {
    SheetType { count: Some(count), ..endless(width, height) }
}

/// Lays out, checks everything that can be checked, and returns the layout.
fn checked(problem: &Problem) -> Layout {
    let layout = lay_out(problem, &Unwatched).unwrap();
    check(problem, &layout);
    layout
}

fn sheets(layout: &Layout) -> u64 {
    layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum()
}

/// Left, bottom, right and top of a placed item.
fn place(items: &[Item], placement: &Placement) -> [i64; 4] {
    let item = &items[placement.item];
    let (width, height) = match placement.turn {
        Turn::None | Turn::Half => (item.width, item.height),
        Turn::Quarter | Turn::ThreeQuarter => (item.height, item.width),
    };
    [placement.x, placement.y, placement.x + width, placement.y + height]
}

fn check(problem: &Problem, layout: &Layout) {
    let mut laid = vec![0_u64; problem.items.len()];
    let mut used = vec![0_u64; problem.sheets.len()];
    for sheet in &layout.sheets {
        let size = &problem.sheets[sheet.sheet];
        assert!(sheet.times > 0 && !sheet.placements.is_empty(), "an empty sheet");
        used[sheet.sheet] += u64::from(sheet.times);
        let boxes: Vec<[i64; 4]> = sheet.placements.iter().map(|placement| place(problem.items, placement)).collect();
        for (placement, [left, bottom, right, top]) in sheet.placements.iter().zip(&boxes) {
            laid[placement.item] += u64::from(sheet.times);
            assert!(problem.items[placement.item].turns.allows(placement.turn), "a turn that is not allowed");
            assert!(*left >= 0 && *bottom >= 0 && *right <= size.width && *top <= size.height, "off the sheet");
        }
        // Sorted by left edge, so that ten thousand parts need not all be compared with each other.
        let mut boxes = boxes;
        boxes.sort_unstable();
        for (number, one) in boxes.iter().enumerate() {
            for other in boxes[number + 1..].iter().take_while(|other| other[0] < one[2] + problem.gap) {
                let apart = other[1] >= one[3] + problem.gap || one[1] >= other[3] + problem.gap;
                assert!(apart, "too close: {one:?} and {other:?}, gap {}", problem.gap);
            }
        }
    }
    for (number, item) in problem.items.iter().enumerate() {
        assert_eq!(laid[number], u64::from(item.count), "copies of item {number}");
    }
    for (number, sheet) in problem.sheets.iter().enumerate() {
        assert!(sheet.count.is_none_or(|count| used[number] <= u64::from(count)), "more sheets than there are");
    }
    assert!(layout.lower_bound <= sheets(layout), "fewer sheets than possible");
    assert!(!layout.proven_least || layout.lower_bound == sheets(layout), "proven for no reason");
}

// --- Counts that an exhaustive search found ---

#[test]
fn a_sheet_holds_what_an_exhaustive_search_says() {
    let craft = (12 * INCH, 12 * INCH);
    let letter = (17 * INCH / 2, 11 * INCH);
    let tenth = INCH / 10;
    // Panel, sheet, gap, turns, most on one sheet by exhaustive search.
    let cases = [
        ((5, 7), craft, 0, Turns::ANY, 4),
        ((5, 7), craft, 0, Turns::NONE, 2),
        ((5, 7), craft, 0, Turns::HALF, 2),
        ((5, 7), craft, 1, Turns::ANY, 2),
        ((5, 7), craft, tenth, Turns::ANY, 2),
        ((4, 6), craft, 0, Turns::ANY, 6),
        ((4, 6), craft, tenth, Turns::ANY, 4),
        ((3, 4), craft, 0, Turns::ANY, 12),
        ((3, 4), craft, tenth, Turns::ANY, 9),
        ((4, 6), letter, 0, Turns::ANY, 3),
        ((4, 6), letter, tenth, Turns::ANY, 3),
        ((3, 4), letter, 0, Turns::ANY, 6),
        ((3, 4), letter, tenth, Turns::ANY, 6),
    ];
    for ((width, height), (sheet_width, sheet_height), gap, turns, most) in cases {
        let sheets_of = [endless(sheet_width, sheet_height)];
        for (count, expected) in [(most, 1), (most + 1, 2), (most * 25, 25)] {
            let items = [item(width * INCH, height * INCH, turns, count)];
            let layout = checked(&problem(&items, &sheets_of, gap, Effort::Low));
            assert_eq!(sheets(&layout), expected, "{count} of {width} x {height} in, gap {gap}");
        }
    }
}

#[test]
fn two_six_inch_squares_share_a_twelve_inch_row_only_without_any_gap() {
    let items = [item(6 * INCH, 6 * INCH, Turns::ANY, 2)];
    let row = [endless(12 * INCH, 6 * INCH)];
    assert_eq!(sheets(&checked(&problem(&items, &row, 0, Effort::Normal))), 1);
    let layout = checked(&problem(&items, &row, 1, Effort::Normal));
    assert_eq!((sheets(&layout), layout.lower_bound, layout.proven_least), (2, 2, true));
}

// --- Refusals and edges ---

#[test]
fn nothing_to_lay_needs_no_sheet() {
    for items in [vec![], vec![item(MM, MM, Turns::ANY, 0)]] {
        let layout = checked(&problem(&items, &[endless(10 * MM, 10 * MM)], 0, Effort::High));
        assert_eq!((layout.sheets.len(), layout.lower_bound, layout.proven_least), (0, 0, true));
    }
}

#[test]
fn all_items_that_fit_no_sheet_are_named() {
    // A 12 in square does not fit A3, and a strip longer than A4 is wide must not be turned.
    let items = [
        item(12 * INCH, 12 * INCH, Turns::ANY, 1),
        item(100 * MM, 100 * MM, Turns::ANY, 1),
        item(299 * MM, 100 * MM, Turns::HALF, 3),
        item(i64::MAX, 1, Turns::ANY, 1),
    ];
    let a3 = [endless(297 * MM, 420 * MM)];
    let refused = lay_out(&problem(&items, &a3, 0, Effort::Normal), &Unwatched).unwrap_err();
    assert_eq!(refused, NoLayout::TooBig { items: vec![0, 2, 3] });
    let ra3 = [endless(305 * MM, 430 * MM)];
    let refused = lay_out(&problem(&items[..3], &ra3, 0, Effort::Normal), &Unwatched);
    assert!(refused.is_ok(), "12 in is 304.8 mm and fits RA3 with 0.2 to spare");
}

#[test]
fn too_few_sheets_are_said_with_what_is_left() {
    let items = [item(60, 60, Turns::ANY, 3), item(10, 10, Turns::ANY, 3)];
    let two = [counted(100, 100, 2)];
    let refused = lay_out(&problem(&items, &two, 0, Effort::Normal), &Unwatched).unwrap_err();
    assert_eq!(refused, NoLayout::OutOfSheets { left: vec![(0, 1)] });
    let none: [SheetType; 0] = [];
    let refused = lay_out(&problem(&items, &none, 0, Effort::Low), &Unwatched).unwrap_err();
    assert_eq!(refused, NoLayout::OutOfSheets { left: vec![(0, 3), (1, 3)] });
    let millions = [item(60, 60, Turns::ANY, u32::MAX), item(60, 60, Turns::ANY, u32::MAX)];
    let refused = lay_out(&problem(&millions, &two, 0, Effort::High), &Unwatched).unwrap_err();
    assert!(matches!(refused, NoLayout::OutOfSheets { .. }));
}

#[test]
fn parts_as_large_as_the_sheet_slivers_and_absurd_sizes() {
    let whole = [item(297 * MM, 210 * MM, Turns::ANY, 7)];
    let layout = checked(&problem(&whole, &[endless(210 * MM, 297 * MM)], 10 * MM, Effort::Normal));
    assert_eq!((sheets(&layout), layout.sheets.len(), layout.proven_least), (7, 1, true));
    let slivers = [item(1, 297 * MM, Turns::ANY, 40), item(210 * MM, 1, Turns::NONE, 40)];
    checked(&problem(&slivers, &[endless(210 * MM, 297 * MM)], 0, Effort::Low));
    for gap in [0, MM, i64::MAX, i64::MIN] {
        let items = [item(i64::MIN, 0, Turns::ANY, 2), item(50 * MM, 20 * MM, Turns::ANY, u32::MAX)];
        let sheets_of = [endless(i64::MAX, 60 * MM), counted(0, -5, 3), endless(i64::MAX, i64::MAX)];
        for sheets_of in [&sheets_of[..1], &sheets_of[..]] {
            let layout = lay_out(&problem(&items, sheets_of, gap, Effort::Low), &Halted).unwrap();
            assert!(layout.lower_bound <= sheets(&layout));
        }
    }
    for price in [f64::NAN, f64::INFINITY, -1.0, 0.0, 1e300] {
        let items = [item(5, 5, Turns::ANY, 9)];
        let sheets_of = [SheetType { price: Some(price), ..endless(10, 10) }, endless(12, 12)];
        checked(&problem(&items, &sheets_of, 0, Effort::Normal));
    }
}

// --- Several sheets to choose from ---

#[test]
fn counted_sheets_are_used_before_bought_ones() {
    let items = [item(50, 40, Turns::NONE, 6)];
    let sheets_of = [endless(100, 120), counted(50, 80, 2)];
    let layout = checked(&problem(&items, &sheets_of, 0, Effort::Normal));
    let used = |number| layout.sheets.iter().filter(|laid| laid.sheet == number).map(|laid| laid.times).sum::<u32>();
    assert_eq!((used(0), used(1)), (1, 2), "four on the two offcuts, two on one sheet");
    assert_eq!((layout.lower_bound, layout.proven_least), (1, false), "nothing is proven where sizes are mixed");
}

#[test]
fn equal_sizes_under_several_entries_are_one_size() {
    let items = [item(50, 50, Turns::ANY, 12)];
    let sheets_of = [endless(100, 100), counted(100, 100, 2)];
    let layout = checked(&problem(&items, &sheets_of, 0, Effort::Normal));
    assert_eq!((sheets(&layout), layout.lower_bound, layout.proven_least), (3, 3, true));
    assert_eq!(layout.sheets.iter().find(|laid| laid.sheet == 1).map(|laid| laid.times), Some(2));
}

#[test]
fn price_decides_where_all_are_priced_and_area_otherwise() {
    let items = [item(50, 50, Turns::ANY, 8)];
    let small = SheetType { price: Some(1.0), ..endless(100, 100) };
    let large = SheetType { price: Some(1.5), ..endless(200, 110) };
    let layout = checked(&problem(&items, &[small, large], 0, Effort::Normal));
    assert!(layout.sheets.iter().all(|laid| laid.sheet == 1), "1.50 for eight is less than 2 x 1.00");
    let unpriced = SheetType { price: None, ..small };
    let layout = checked(&problem(&items, &[unpriced, large], 0, Effort::Normal));
    assert!(layout.sheets.iter().all(|laid| laid.sheet == 0), "2 x 10000 is less than 22000");
}

// --- Copies ---

#[test]
fn five_hundred_copies_repeat_the_sheets_of_one() {
    let sheets_of = [endless(297 * MM, 420 * MM)];
    let one = checked(&problem(&kit(1), &sheets_of, MM, Effort::Low));
    let many = checked(&problem(&kit(500), &sheets_of, MM, Effort::Low));
    assert!(sheets(&many) <= 500 * sheets(&one));
    assert!(many.sheets.len() <= 12, "{} different sheets to cut", many.sheets.len());
    let single = [item(5 * INCH, 7 * INCH, Turns::ANY, 2000)];
    let layout = checked(&problem(&single, &[endless(12 * INCH, 12 * INCH)], 0, Effort::Low));
    assert_eq!((layout.sheets.len(), layout.sheets[0].times), (1, 500));
}

#[test]
fn ten_thousand_parts_of_twenty_types() {
    let mut dice = Dice(20);
    let items: Vec<Item> =
        (0..20).map(|_| item(dice.from(20, 150) * MM, dice.from(20, 150) * MM, Turns::ANY, 500)).collect();
    let layout = checked(&problem(&items, &[endless(297 * MM, 420 * MM)], MM, Effort::Low));
    assert!(layout.sheets.len() < 400, "{} different sheets to cut", layout.sheets.len());
    let crumbs = [item(3 * MM, 4 * MM, Turns::ANY, 5000), item(5 * MM, 2 * MM, Turns::ANY, 5000)];
    let layout = checked(&problem(&crumbs, &[endless(100 * MM, 100 * MM)], 0, Effort::Low));
    assert!(sheets(&layout) <= 12, "eleven sheets' worth of crumbs");
}

/// Chvátal, *Linear Programming* (1983), ch. 13: rolls of 100 in cut into 97 of 45 in, 610 of 36, 395 of 31 and 211 of 14. If
/// rolls could be used in part 452.25 would do (48.5, 105.5, 100.75 and 197.5 of four patterns), so 453 is the least; values
/// from memory, the sum checked here.
#[test]
fn long_runs_are_cut_by_the_textbook() {
    assert!((48.5 + 105.5 + 100.75 + 197.5 - 452.25_f64).abs() < 1e-12);
    let items =
        [(45, 97), (36, 610), (31, 395), (14, 211)].map(|(width, count)| item(width * INCH, INCH, Turns::NONE, count));
    let layout = checked(&problem(&items, &[endless(100 * INCH, INCH)], 0, Effort::Normal));
    assert_eq!((sheets(&layout), layout.lower_bound, layout.proven_least), (453, 453, true));
    assert!(layout.sheets.len() <= 8, "{} different sheets to cut", layout.sheets.len());
}

/// Eighteen kinds, two hundred of each: what is in no long run is little, so that there are few different sheets to cut and
/// fewer sheets in all than simple rules need.
#[test]
fn long_runs_stay_long() {
    let mut dice = Dice(18);
    let items: Vec<Item> =
        (0..18).map(|_| item(dice.from(60, 200) * MM, dice.from(60, 200) * MM, Turns::ANY, 200)).collect();
    let sheet = [endless(297 * MM, 420 * MM)];
    let (simple, hard) =
        (checked(&problem(&items, &sheet, MM, Effort::Low)), checked(&problem(&items, &sheet, MM, Effort::Normal)));
    assert!(sheets(&hard) < sheets(&simple), "{} and {}", sheets(&hard), sheets(&simple));
    assert!(hard.sheets.len() <= 2 * items.len(), "{} different sheets to cut", hard.sheets.len());
    let threads = Problem { threads: 4, ..problem(&items, &sheet, MM, Effort::Normal) };
    assert_eq!(lay_out(&threads, &Unwatched).unwrap(), hard, "threads change nothing");
}

// --- Offcuts ---

#[test]
fn offcuts_are_free_apart_and_the_largest_first() {
    let items = [item(60, 40, Turns::ANY, 1)];
    let sheet = endless(100, 100);
    let laid = [Placement { item: 0, x: 0, y: 0, turn: Turn::None }];
    assert_eq!(offcuts(&sheet, &items, &laid, 0, 10), vec![(0, 40, 100, 60), (60, 0, 40, 40)]);
    assert_eq!(offcuts(&sheet, &items, &laid, 5, 10), vec![(0, 45, 100, 55), (65, 0, 35, 40)]);
    assert_eq!(offcuts(&sheet, &items, &laid, 0, 50), vec![(0, 40, 100, 60)]);
    assert_eq!(offcuts(&sheet, &items, &[], 5, 1), vec![(0, 0, 100, 100)]);
    assert_eq!(offcuts(&sheet, &items, &[], 0, 101), vec![]);
    let turned = [Placement { turn: Turn::Quarter, ..laid[0] }];
    assert_eq!(offcuts(&sheet, &items, &turned, 0, 1), vec![(40, 0, 60, 100), (0, 60, 40, 40)]);
}

#[test]
fn among_layouts_with_as_few_sheets_the_offcut_is_large() {
    let items = [item(50, 20, Turns::ANY, 1), item(50, 30, Turns::ANY, 1)];
    let sheet = endless(100, 100);
    let layout = checked(&problem(&items, &[sheet], 0, Effort::Low));
    let (_, _, width, height) = offcuts(&sheet, &items, &layout.sheets[0].placements, 0, 1)[0];
    assert!(width * height >= 7000, "{width} x {height}");
}

// --- Promises ---

#[test]
fn parts_that_could_nest_promise_only_their_area() {
    // Four triangles in a square sheet: as boxes they need four sheets, as shapes two.
    let triangle = Contour::polygon([(0.0, 0.0), (100.0, 0.0), (0.0, 100.0)]);
    let items = [Item { contour: Some(triangle), ..item(100 * MM, 100 * MM, Turns::ANY, 4) }];
    let sheets_of = [endless(100 * MM, 100 * MM)];
    let layout = checked(&problem(&items, &sheets_of, 0, Effort::Normal));
    assert_eq!((sheets(&layout), layout.lower_bound, layout.proven_least), (4, 2, false));
    let boxes = [Item { contour: None, ..items[0].clone() }];
    let layout = checked(&problem(&boxes, &sheets_of, 0, Effort::Normal));
    assert_eq!((layout.lower_bound, layout.proven_least), (4, true));
}

#[test]
fn a_bound_never_counts_on_corners_being_as_far_apart_as_edges() {
    // The two lie corner to corner, 3 and 4 apart: 5 in a straight line, which is the gap.
    let items = [item(47, 46, Turns::NONE, 2)];
    let layout = checked(&problem(&items, &[endless(97, 96)], 5, Effort::Normal));
    assert_eq!(layout.lower_bound, 1);
    let layout = checked(&problem(&items, &[endless(96, 95)], 5, Effort::Normal));
    assert_eq!(layout.lower_bound, 2);
}

/// The least number of sheets, by trying everything: every way to share the parts out, and for every sheet every part in
/// every turn at every place where it touches the sums of others' sides (one can always push parts down and left).
fn fewest(boxes: &[(i64, i64, bool)], width: i64, height: i64, gap: i64) -> u64 {
    fn share_out(left: &[(i64, i64, bool)], groups: &mut Vec<Vec<(i64, i64, bool)>>, sheet: (i64, i64)) -> u64 {
        let Some((&first, rest)) = left.split_first() else { return u64::try_from(groups.len()).unwrap() };
        let mut best = u64::MAX;
        for number in 0..=groups.len() {
            if number == groups.len() {
                groups.push(Vec::new());
            }
            groups[number].push(first);
            if fits(&groups[number], &mut Vec::new(), &sums(&groups[number]), sheet) {
                best = best.min(share_out(rest, groups, sheet));
            }
            groups[number].pop();
            groups.retain(|group| !group.is_empty());
        }
        best
    }
    fn sums(boxes: &[(i64, i64, bool)]) -> Vec<i64> {
        let mut sums = vec![0];
        for &(width, height, _) in boxes {
            let more: Vec<i64> = sums.iter().flat_map(|sum| [sum + width, sum + height]).collect();
            sums.extend(more);
        }
        sums.sort_unstable();
        sums.dedup();
        sums
    }
    fn fits(left: &[(i64, i64, bool)], placed: &mut Vec<[i64; 4]>, sums: &[i64], sheet: (i64, i64)) -> bool {
        let Some((&(width, height, turns), rest)) = left.split_first() else { return true };
        for (w, h) in [(width, height), (height, width)].into_iter().take(if turns { 2 } else { 1 }) {
            for &x in sums.iter().filter(|&&x| x + w <= sheet.0) {
                for &y in sums.iter().filter(|&&y| y + h <= sheet.1) {
                    let at = [x, y, x + w, y + h];
                    if placed.iter().all(|p| at[0] >= p[2] || p[0] >= at[2] || at[1] >= p[3] || p[1] >= at[3]) {
                        placed.push(at);
                        if fits(rest, placed, sums, sheet) {
                            return true;
                        }
                        placed.pop();
                    }
                }
            }
        }
        false
    }
    let grown: Vec<_> = boxes.iter().map(|&(w, h, turns)| (w + gap, h + gap, turns)).collect();
    share_out(&grown, &mut Vec::new(), (width + gap, height + gap))
}

#[test]
fn the_exhaustive_search_itself_knows_the_four_panels_round_an_empty_middle() {
    assert_eq!(fewest(&[(5, 7, true); 4], 12, 12, 0), 1);
    assert_eq!(fewest(&[(5, 7, true); 4], 12, 12, 1), 2);
    assert_eq!(fewest(&[(5, 7, false); 3], 12, 12, 0), 2);
}

fn settings() -> ProptestConfig {
    ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(150) }
}

fn some_items(most: usize, side: i64, copies: u32) -> impl Strategy<Value = Vec<Item>> {
    let turns = prop_oneof![
        Just(Turns::NONE),
        Just(Turns::HALF),
        Just(Turns::ANY),
        Just(Turns::only(Turn::Quarter)),
        Just(Turns::only(Turn::ThreeQuarter).and(Turn::Half)),
    ];
    let one = (1..=side, 1..=side, turns, 0..=copies);
    prop::collection::vec(one.prop_map(|(width, height, turns, count)| item(width, height, turns, count)), 1..=most)
}

proptest! {
    #![proptest_config(settings())]

    #[test]
    fn every_layout_passes_the_checker(items in some_items(8, 30, 5), gap in 0..4_i64, width in 30..50_i64) {
        checked(&problem(&items, &[endless(width, 35)], gap, Effort::Low));
        let mixed = [counted(31, 31, 2), endless(width, 35), counted(20, 60, 1), endless(40, 40)];
        checked(&problem(&items, &mixed, gap, Effort::Low));
    }

    #[test]
    fn leave_to_turn_never_raises_the_bound(items in some_items(12, 30, 3), gap in 0..4_i64, height in 30..40_i64) {
        let sheet = [endless(30, height)];
        let with = |turns| -> Vec<Item> { items.iter().map(|item| Item { turns, ..item.clone() }).collect() };
        for effort in [Effort::Low, Effort::High] {
            // A layout may be better than what was proven, so compare bounds with layouts as well.
            let fixed = lay_out(&problem(&with(Turns::NONE), &sheet, gap, Effort::Low), &Unwatched).unwrap();
            let free = lay_out(&problem(&with(Turns::ANY), &sheet, gap, effort), &Halted).unwrap();
            prop_assert!(free.lower_bound <= sheets(&fixed));
        }
    }

    #[test]
    fn trying_everything_agrees(items in some_items(4, 9, 1), gap in 0..2_i64, width in 9..14_i64, height in 9..12_i64) {
        let boxes: Vec<_> = items
            .iter()
            .filter(|item| item.count > 0)
            .map(|item| {
                let upright = item.turns.allows(Turn::None) || item.turns.allows(Turn::Half);
                let sideways = item.turns.allows(Turn::Quarter) || item.turns.allows(Turn::ThreeQuarter);
                let (width, height) = if upright { (item.width, item.height) } else { (item.height, item.width) };
                (width, height, upright && sideways)
            })
            .collect();
        let layout = checked(&problem(&items, &[endless(width, height)], gap, Effort::Normal));
        let least = fewest(&boxes, width, height, gap);
        prop_assert!(layout.lower_bound <= least, "{} promised, {least} possible", layout.lower_bound);
        prop_assert_eq!(sheets(&layout), least);
    }

    #[test]
    fn threads_change_nothing(items in some_items(10, 30, 2), gap in 0..2_i64) {
        let sheets_of = [endless(40, 33), counted(30, 30, 1)];
        for sheets_of in [&sheets_of[..1], &sheets_of] {
            let problem = problem(&items, sheets_of, gap, Effort::Low);
            let alone = lay_out(&problem, &Unwatched);
            prop_assert_eq!(&alone, &lay_out(&Problem { threads: 8, ..problem }, &Unwatched));
        }
    }
}

// --- Threads and watching ---

#[test]
fn threads_change_nothing_when_sheets_are_taken_apart_either() {
    for class in [1, 3, 8] {
        let (items, sheet) = generated(class, 20, 3, Turns::ANY);
        let sheets_of = [sheet];
        let problem = problem(&items, &sheets_of, 0, Effort::Normal);
        let alone = checked(&problem);
        assert_eq!(alone, lay_out(&Problem { threads: 8, ..problem }, &Unwatched).unwrap());
        assert_eq!(alone, lay_out(&Problem { threads: 0, ..problem }, &Unwatched).unwrap());
    }
}

#[test]
fn a_search_that_is_called_off_still_has_a_layout() {
    let (items, sheet) = generated(5, 60, 1, Turns::ANY);
    let sheets_of = [sheet];
    let problem = problem(&items, &sheets_of, 0, Effort::High);
    let layout = lay_out(&problem, &Halted).unwrap();
    check(&problem, &layout);
    assert!(layout.cut_short);
}

// --- The published random classes ---

#[test]
fn published_classes_pass_the_checker_and_their_bounds_hold_together() {
    for class in 1..=10 {
        for (count, seed) in [(20, 1), (20, 2), (40, 1), (100, 1)] {
            let laid = |turns| {
                let (items, sheet) = generated(class, count, seed, turns);
                checked(&problem(&items, &[sheet], 0, Effort::Low))
            };
            let (fixed, free) = (laid(Turns::NONE), laid(Turns::ANY));
            // Every layout without turning is one with turning allowed.
            assert!(free.lower_bound <= sheets(&fixed), "class {class}, {count} items");
        }
    }
}
