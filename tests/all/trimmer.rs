// SPDX-License-Identifier: MIT
//! What a maker with a trimmer could see going wrong: a cut through a part, a cut that does not go from edge to edge, a
//! part left untrimmed, cut too small or missing, and all that can go wrong with any layout.
//!
//! The checker carries the cuts out on rectangles. It and the exhaustive search in this file share nothing with the
//! engine but its types.

use crate::common::instances::{Halted, INCH, MM, endless, generated, item, kit, problem};
use hingeleaf::layout::{
    CutDirection, CutTree, Cuts, Effort, Item, Layout, Problem, SheetType, Turn, Turns, Unwatched, lay_out, lay_out_for,
};
use proptest::prelude::*;

fn checked(problem: &Problem) -> Layout {
    let layout = lay_out_for(problem, Cuts::Trimmer, &Unwatched).unwrap();
    check(problem, &layout);
    layout
}

fn sheets(layout: &Layout) -> u64 {
    layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum()
}

/// Left, bottom, width and height.
type Rect = [i64; 4];

/// What comes off the trimmer: parts, each with its rectangle, and waste.
#[derive(Default)]
struct Heap {
    parts: Vec<(usize, Rect)>,
    waste: Vec<Rect>,
}

/// Carries out the cuts on a rectangle in hand.
fn trim(piece: &CutTree, hand: Rect, gap: i64, heap: &mut Heap) {
    let [left, bottom, width, height] = hand;
    let cut = match piece {
        CutTree::Part(number) => return heap.parts.push((*number, hand)),
        CutTree::Offcut(rect) => {
            assert_eq!(*rect, hand, "an offcut that is not what is left");
            return heap.waste.push(hand);
        }
        CutTree::Cut(cut) => cut,
    };
    assert_eq!([cut.left, cut.bottom, cut.width, cut.height], hand, "cuts for another piece than the one in hand");
    assert!(!cut.at.is_empty(), "a cut without a place");
    assert_eq!(cut.pieces.len(), cut.at.len() + 1);
    let (from, to) = if cut.way == CutDirection::Upright { (left, left + width) } else { (bottom, bottom + height) };
    let mut begin = from;
    for (number, inner) in cut.pieces.iter().enumerate() {
        let end = cut.at.get(number).copied().unwrap_or(to);
        if number < cut.at.len() {
            assert!(end > begin && end < to, "a cut at {end}, not between {begin} and {to}");
        }
        let long = (end - begin).max(0);
        let rest = match cut.way {
            CutDirection::Upright => [begin, bottom, long, height],
            CutDirection::Level => [left, begin, width, long],
        };
        trim(inner, rest, gap, heap);
        begin = end + gap;
    }
}

fn check(problem: &Problem, layout: &Layout) {
    let mut laid = vec![0_u64; problem.items.len()];
    let mut used = vec![0_u64; problem.sheets.len()];
    for sheet in &layout.sheets {
        let size = &problem.sheets[sheet.sheet];
        used[sheet.sheet] += u64::from(sheet.times);
        let mut heap = Heap::default();
        trim(sheet.cuts.as_ref().unwrap(), [0, 0, size.width, size.height], problem.gap, &mut heap);
        assert!(!heap.parts.is_empty() && heap.parts.len() == sheet.placements.len(), "parts cut and placed");
        heap.parts.sort_unstable();
        for ((number, [left, bottom, width, height]), (expected, placement)) in
            heap.parts.iter().zip(sheet.placements.iter().enumerate())
        {
            assert_eq!(*number, expected, "each part is cut once");
            assert_eq!((*left, *bottom), (placement.x, placement.y), "cut from where it lies");
            let item = &problem.items[placement.item];
            let turned = matches!(placement.turn, Turn::Quarter | Turn::ThreeQuarter);
            let (wide, high) = if turned { (item.height, item.width) } else { (item.width, item.height) };
            assert_eq!((*width, *height), (wide, high), "cut to size");
            assert!(item.turns.allows(placement.turn), "a turn that is not allowed");
            laid[placement.item] += u64::from(sheet.times);
        }
        let area = |rect: &Rect| i128::from(rect[2]) * i128::from(rect[3]);
        let whole = i128::from(size.width) * i128::from(size.height);
        let all: i128 = heap.parts.iter().map(|(_, rect)| area(rect)).chain(heap.waste.iter().map(area)).sum();
        assert!(if problem.gap == 0 { all == whole } else { all <= whole }, "card that is in no piece");
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

// --- The checker itself ---

/// A cut tree of two parts that lie side by side, and what the checker says to it after a change.
#[test]
fn the_checker_sees_bad_cuts() {
    let items = [item(40, 50, Turns::NONE, 2)];
    let sheet = [endless(100, 60)];
    let problem = problem(&items, &sheet, 2, Effort::Low);
    let good = checked(&problem);
    let refused = |change: &dyn Fn(&mut Layout)| {
        let mut bad = good.clone();
        change(&mut bad);
        std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| check(&problem, &bad))).is_err()
    };
    assert!(!refused(&|_| {}));
    assert!(refused(&|bad| bad.sheets[0].cuts = None));
    assert!(refused(&|bad| bad.sheets[0].cuts = Some(CutTree::Part(0))));
    assert!(refused(&|bad| bad.sheets[0].placements[0].x += 1));
    assert!(refused(&|bad| bad.sheets[0].placements.swap(0, 1)));
    assert!(refused(&|bad| {
        let Some(CutTree::Cut(cut)) = &mut bad.sheets[0].cuts else { return };
        cut.at[0] += 1;
    }));
    assert!(refused(&|bad| {
        let Some(CutTree::Cut(cut)) = &mut bad.sheets[0].cuts else { return };
        cut.way = if cut.way == CutDirection::Level { CutDirection::Upright } else { CutDirection::Level };
    }));
}

// --- Counts that an exhaustive search found ---

#[test]
fn five_by_seven_from_twelve_by_twelve_is_three_by_trimmer() {
    let craft = [endless(12 * INCH, 12 * INCH)];
    for (gap, turns, most) in
        [(0, Turns::ANY, 3), (0, Turns::NONE, 2), (1, Turns::ANY, 2), (INCH / 10, Turns::ANY, 2), (1, Turns::HALF, 2)]
    {
        for (count, expected) in [(most, 1), (most + 1, 2), (most * 25, 25)] {
            let items = [item(5 * INCH, 7 * INCH, turns, count)];
            for effort in [Effort::Low, Effort::Normal] {
                let layout = checked(&problem(&items, &craft, gap, effort));
                assert_eq!(sheets(&layout), expected, "{count} with gap {gap}");
            }
        }
    }
}

#[test]
fn two_six_inch_squares_share_a_twelve_inch_row_only_without_any_gap() {
    let items = [item(6 * INCH, 6 * INCH, Turns::ANY, 2)];
    let row = [endless(12 * INCH, 6 * INCH)];
    let layout = checked(&problem(&items, &row, 0, Effort::Normal));
    assert_eq!((sheets(&layout), layout.sheets[0].cuts.as_ref().unwrap().cuts()), (1, 1));
    assert_eq!(sheets(&checked(&problem(&items, &row, 1, Effort::Normal))), 2);
}

/// The least number of sheets by trying everything: which sets of parts go on one sheet, cut by cut.
fn fewest(boxes: &[(i64, i64, bool)], width: i64, height: i64, gap: i64) -> u32 {
    fn halves(of: u32) -> impl Iterator<Item = u32> {
        (1..of).filter(move |half| half & !of == 0)
    }
    /// Whether the boxes of a set can be cut from a rectangle: the first cut parts them in two.
    fn fits(set: u32, boxes: &[(i64, i64, bool)], width: i64, height: i64) -> bool {
        if set.is_power_of_two() {
            let (w, h, turns) = boxes[usize::try_from(set.trailing_zeros()).unwrap()];
            return (w <= width && h <= height) || (turns && h <= width && w <= height);
        }
        halves(set).any(|half| {
            let across =
                (1..width).any(|at| fits(half, boxes, at, height) && fits(set & !half, boxes, width - at, height));
            across || (1..height).any(|at| fits(half, boxes, width, at) && fits(set & !half, boxes, width, height - at))
        })
    }
    let grown: Vec<_> = boxes.iter().map(|&(w, h, turns)| (w + gap, h + gap, turns)).collect();
    let all = (1_u32 << boxes.len()) - 1;
    let mut least = vec![0_u32; usize::try_from(all).unwrap() + 1];
    for set in 1..=all {
        let whole = fits(set, &grown, width + gap, height + gap);
        let parted = halves(set)
            .map(|half| least[usize::try_from(half).unwrap()] + least[usize::try_from(set & !half).unwrap()]);
        let best = if whole { 1 } else { parted.min().unwrap() };
        least[usize::try_from(set).unwrap()] = best;
    }
    least[usize::try_from(all).unwrap()]
}

#[test]
fn the_exhaustive_search_itself_knows_five_by_seven() {
    assert_eq!(fewest(&[(5, 7, true); 3], 12, 12, 0), 1);
    assert_eq!(fewest(&[(5, 7, true); 4], 12, 12, 0), 2);
    assert_eq!(fewest(&[(5, 7, true); 3], 12, 12, 1), 2);
    assert_eq!(fewest(&[(5, 7, false); 3], 12, 12, 0), 2);
}

// --- Edges ---

#[test]
fn a_part_as_large_as_the_sheet_needs_no_cut() {
    let whole = [item(297 * MM, 210 * MM, Turns::ANY, 7)];
    let layout = checked(&problem(&whole, &[endless(210 * MM, 297 * MM)], 10 * MM, Effort::Normal));
    assert_eq!((sheets(&layout), layout.sheets.len()), (7, 1));
    assert_eq!(layout.sheets[0].cuts, Some(CutTree::Part(0)));
}

#[test]
fn a_part_closer_to_the_edge_than_the_gap_is_trimmed() {
    let items = [item(95, 98, Turns::NONE, 1)];
    let layout = checked(&problem(&items, &[endless(100, 100)], 10, Effort::Normal));
    assert_eq!(layout.sheets[0].cuts.as_ref().unwrap().cuts(), 2);
}

#[test]
fn nothing_slivers_and_crumbs() {
    assert!(checked(&problem(&[], &[endless(10, 10)], 0, Effort::High)).sheets.is_empty());
    let slivers = [item(1, 297 * MM, Turns::ANY, 40), item(210 * MM, 1, Turns::NONE, 40)];
    checked(&problem(&slivers, &[endless(210 * MM, 297 * MM)], 0, Effort::Low));
    let crumbs = [item(3 * MM, 4 * MM, Turns::ANY, 5000), item(5 * MM, 2 * MM, Turns::ANY, 5000)];
    let layout = checked(&problem(&crumbs, &[endless(100 * MM, 100 * MM)], 0, Effort::Low));
    assert!(sheets(&layout) <= 12, "eleven sheets' worth of crumbs");
    for gap in [0, MM, i64::MAX, i64::MIN] {
        let items = [item(i64::MIN, 0, Turns::ANY, 2), item(50 * MM, 20 * MM, Turns::ANY, u32::MAX)];
        let sheets_of = [endless(i64::MAX, 60 * MM), endless(i64::MAX, i64::MAX)];
        let layout = lay_out_for(&problem(&items, &sheets_of, gap, Effort::Low), Cuts::Trimmer, &Halted).unwrap();
        assert!(layout.sheets.iter().all(|sheet| sheet.cuts.is_some()));
    }
}

#[test]
fn few_cuts_and_few_stops() {
    // Six equal parts in two rows: two cuts make rows and trim, two part each row, and what is left comes off.
    let items = [item(30, 40, Turns::NONE, 6)];
    let layout = checked(&problem(&items, &[endless(90, 80)], 0, Effort::Normal));
    assert_eq!(layout.sheets[0].cuts.as_ref().unwrap().cuts(), 5);
    let layout = checked(&problem(&items, &[endless(100, 90)], 0, Effort::Normal));
    assert!(layout.sheets[0].cuts.as_ref().unwrap().cuts() <= 8);
}

#[test]
fn the_largest_offcut_stays_whole() {
    let items = [item(50, 20, Turns::ANY, 1), item(50, 30, Turns::ANY, 1)];
    let layout = checked(&problem(&items, &[endless(100, 100)], 0, Effort::Low));
    let offcuts = layout.sheets[0].cuts.as_ref().unwrap().offcuts(10);
    assert!(offcuts[0][2] * offcuts[0][3] >= 7000, "{offcuts:?}");
}

// --- Copies ---

#[test]
fn five_hundred_copies_repeat_the_sheets_of_one() {
    let sheets_of = [endless(297 * MM, 420 * MM)];
    let one = checked(&problem(&kit(1), &sheets_of, MM, Effort::Low));
    let many = checked(&problem(&kit(500), &sheets_of, MM, Effort::Low));
    assert!(sheets(&many) <= 500 * sheets(&one));
    assert!(many.sheets.len() <= 12, "{} different sheets to cut", many.sheets.len());
}

// --- Random problems ---

fn settings(cases: u32) -> ProptestConfig {
    ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(cases) }
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
    #![proptest_config(settings(150))]

    #[test]
    fn every_layout_can_be_cut(items in some_items(8, 30, 5), gap in 0..4_i64, width in 30..50_i64) {
        checked(&problem(&items, &[endless(width, 35)], gap, Effort::Low));
        let counted = |width, height, count| SheetType { count: Some(count), ..endless(width, height) };
        let mixed = [counted(31, 31, 2), endless(width, 35), counted(20, 60, 1), endless(40, 40)];
        checked(&problem(&items, &mixed, gap, Effort::Low));
    }

    #[test]
    fn threads_change_nothing(items in some_items(10, 30, 2), gap in 0..2_i64) {
        let sheets_of = [endless(40, 33)];
        let problem = problem(&items, &sheets_of, gap, Effort::Low);
        prop_assert_eq!(lay_out_for(&problem, Cuts::Trimmer, &Unwatched), lay_out_for(&Problem { threads: 8, ..problem }, Cuts::Trimmer, &Unwatched));
    }
}

proptest! {
    #![proptest_config(settings(60))]

    #[test]
    fn trying_everything_agrees(items in some_items(5, 9, 1), gap in 0..2_i64, width in 9..13_i64, height in 9..12_i64) {
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
        let least = if boxes.is_empty() { 0 } else { fewest(&boxes, width, height, gap) };
        prop_assert_eq!(sheets(&layout), u64::from(least));
    }
}

// --- The published random classes, threads and watching ---

#[test]
fn a_trimmer_never_needs_fewer_sheets_than_promised_for_any_cutter() {
    for class in 1..=6 {
        for (count, seed) in [(20, 1), (20, 2), (40, 1), (100, 1)] {
            for turns in [Turns::NONE, Turns::ANY] {
                let (items, sheet) = generated(class, count, seed, turns);
                let sheet = [sheet];
                let trimmer = checked(&problem(&items, &sheet, 0, Effort::Low));
                let free = lay_out(&problem(&items, &sheet, 0, Effort::Low), &Unwatched).unwrap();
                assert!(free.sheets.iter().all(|sheet| sheet.cuts.is_none()));
                assert!(free.lower_bound <= sheets(&trimmer), "class {class}, {count} items");
            }
        }
    }
}

#[test]
fn threads_change_nothing_when_sheets_are_taken_apart_either() {
    for class in [1, 3, 5] {
        let (items, sheet) = generated(class, 20, 3, Turns::ANY);
        let sheets_of = [sheet];
        let problem = problem(&items, &sheets_of, 0, Effort::Normal);
        let alone = checked(&problem);
        assert_eq!(alone, lay_out_for(&Problem { threads: 8, ..problem }, Cuts::Trimmer, &Unwatched).unwrap());
        assert_eq!(alone, lay_out_for(&Problem { threads: 0, ..problem }, Cuts::Trimmer, &Unwatched).unwrap());
    }
}

#[test]
fn a_search_that_is_called_off_still_has_a_layout() {
    let (items, sheet) = generated(5, 60, 1, Turns::ANY);
    let sheets_of = [sheet];
    let problem = problem(&items, &sheets_of, 0, Effort::High);
    let layout = lay_out_for(&problem, Cuts::Trimmer, &Halted).unwrap();
    check(&problem, &layout);
    assert!(layout.cut_short);
}
