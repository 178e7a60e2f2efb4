// SPDX-License-Identifier: MIT
//! What would make the words "no layout can do it in fewer sheets" untrue, or leave them unsaid where they are true.
//!
//! The exhaustive searches in this file work cell by cell and share nothing with the engine but its types.

use crate::common::instances::{Dice, Halted, INCH, MM, endless, generated, item, kit, problem};
use hingeleaf::contour::{Contour, Corner};
use hingeleaf::layout::{Cuts, Effort, Item, Layout, Problem, SheetType, Turns, Unwatched, lay_out_for};
use hingeleaf::length::Length;
use std::collections::BTreeMap;

fn laid(problem: &Problem, cuts: Cuts) -> (u64, Layout) {
    let layout = lay_out_for(problem, cuts, &Unwatched).unwrap();
    let sheets = layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum();
    assert!(layout.lower_bound <= sheets, "promised {} and laid {sheets}", layout.lower_bound);
    assert_eq!(layout.proven_least, layout.lower_bound == sheets);
    check(problem, &layout);
    (sheets, layout)
}

/// Every part is there, on its sheet, apart from the others.
fn check(problem: &Problem, layout: &Layout) {
    let mut left: Vec<u64> = problem.items.iter().map(|item| u64::from(item.count)).collect();
    for laid in &layout.sheets {
        let sheet = &problem.sheets[laid.sheet];
        let mut boxes: Vec<[i64; 4]> = Vec::new();
        for placement in &laid.placements {
            let item = &problem.items[placement.item];
            assert!(item.turns.allows(placement.turn), "a turn that is not allowed");
            let (width, height) = placement.turn.turned(item.width, item.height);
            boxes.push([placement.x, placement.y, placement.x + width, placement.y + height]);
            left[placement.item] = left[placement.item].checked_sub(u64::from(laid.times)).unwrap();
        }
        boxes.sort_unstable();
        for (number, one) in boxes.iter().enumerate() {
            assert!(one[0] >= 0 && one[1] >= 0 && one[2] <= sheet.width && one[3] <= sheet.height, "off the sheet");
            for other in boxes[number + 1..].iter().take_while(|other| other[0] < one[2] + problem.gap) {
                assert!(
                    other[1] >= one[3] + problem.gap || one[1] >= other[3] + problem.gap,
                    "too close: {one:?}, {other:?}"
                );
            }
        }
    }
    assert!(left.iter().all(|&left| left == 0), "parts are missing: {left:?}");
}

// --- Every case of up to six small parts ---

/// Width, height, and whether it may be turned.
pub(crate) type Part = (i64, i64, bool);

/// The least number of sheets, if `fits` says which sets of parts share one.
fn fewest(parts: usize, fits: &mut dyn FnMut(usize) -> bool) -> u64 {
    let mut least = vec![0_u64];
    for set in 1..1_usize << parts {
        let mut best = if fits(set) { 1 } else { u64::MAX };
        let mut half = (set - 1) & set;
        while half > 0 {
            best = best.min(least[half].saturating_add(least[set & !half]));
            half = (half - 1) & set;
        }
        least.push(best);
    }
    least[(1 << parts) - 1]
}

pub(crate) fn chosen(parts: &[Part], set: usize) -> Vec<Part> {
    parts.iter().enumerate().filter(|(number, _)| set >> number & 1 == 1).map(|(_, part)| *part).collect()
}

/// Whether parts fit on one sheet: the first free cell is the corner of one of them, or stays empty.
pub(crate) fn fits_free(left: &mut Vec<Part>, taken: u64, spare: i64, width: i64, height: i64) -> bool {
    if left.is_empty() {
        return true;
    }
    let cell = i64::from((!taken).trailing_zeros());
    if spare < 0 || cell >= width * height {
        return false;
    }
    let (x, y) = (cell % width, cell / width);
    for number in 0..left.len() {
        let part = left.remove(number);
        for (w, h) in [(part.0, part.1), (part.1, part.0)].into_iter().take(if part.2 { 2 } else { 1 }) {
            if x + w > width || y + h > height {
                continue;
            }
            let row = ((1_u64 << w) - 1) << x;
            let cells = (y..y + h).fold(0, |cells, y| cells | row << (y * width));
            if taken & cells == 0 && fits_free(left, taken | cells, spare, width, height) {
                return true;
            }
        }
        left.insert(number, part);
    }
    fits_free(left, taken | 1 << cell, spare - 1, width, height)
}

/// Whether a set can be cut from a rectangle edge to edge: the first cut parts it in two.
pub(crate) fn fits_cut(
    parts: &[Part],
    set: usize,
    width: i64,
    height: i64,
    known: &mut BTreeMap<(usize, i64, i64), bool>,
) -> bool {
    if set.is_power_of_two() {
        let (w, h, turns) = chosen(parts, set)[0];
        return (w <= width && h <= height) || (turns && h <= width && w <= height);
    }
    if let Some(&known) = known.get(&(set, width, height)) {
        return known;
    }
    let mut fits = false;
    let mut half = (set - 1) & set;
    while half > 0 && !fits {
        let rest = set & !half;
        fits = (1..width)
            .any(|at| fits_cut(parts, half, at, height, known) && fits_cut(parts, rest, width - at, height, known))
            || (1..height)
                .any(|at| fits_cut(parts, half, width, at, known) && fits_cut(parts, rest, width, height - at, known));
        half = (half - 1) & set;
    }
    known.insert((set, width, height), fits);
    fits
}

fn fewest_free(parts: &[Part], width: i64, height: i64) -> u64 {
    fewest(parts.len(), &mut |set| {
        let mut left = chosen(parts, set);
        let spare = width * height - left.iter().map(|part| part.0 * part.1).sum::<i64>();
        fits_free(&mut left, 0, spare, width, height)
    })
}

fn fewest_cut(parts: &[Part], width: i64, height: i64) -> u64 {
    let mut known = BTreeMap::new();
    fewest(parts.len(), &mut |set| fits_cut(parts, set, width, height, &mut known))
}

#[test]
fn the_exhaustive_searches_know_five_by_seven_from_twelve() {
    // Halved sizes would not be whole, so a smaller square with the same pattern: 2 x 3 round an empty middle of 5 x 5.
    assert_eq!(fewest_free(&[(2, 3, true); 4], 5, 5), 1);
    assert_eq!(fewest_cut(&[(2, 3, true); 4], 5, 5), 2);
    assert_eq!(fewest_cut(&[(2, 3, true); 3], 5, 5), 1);
    assert_eq!(fewest_free(&[(2, 3, false); 3], 5, 5), 2);
    assert_eq!(fewest_free(&[(5, 5, false), (1, 1, true)], 5, 5), 2);
}

#[test]
fn trying_everything_agrees_and_is_always_proven() {
    let mut dice = Dice(4);
    let mut split = 0;
    for number in 0..400 {
        let gap = dice.from(0, 1) * dice.from(0, 1);
        let (width, height) = (dice.from(4, 8), dice.from(4, 7));
        let count = dice.from(1, 6);
        let most = dice.from(2, width.min(height));
        let turning = dice.from(0, 2);
        let parts: Vec<Part> = (0..count)
            .map(|_| (dice.from(1, most), dice.from(1, most), turning == 2 || (turning == 1 && dice.from(0, 1) == 1)))
            .collect();
        let items: Vec<Item> =
            parts.iter().map(|&(w, h, turns)| item(w, h, if turns { Turns::ANY } else { Turns::NONE }, 1)).collect();
        let sheet = [endless(width - gap, height - gap)];
        let fitting = parts.iter().all(|&(w, h, turns)| {
            let fits = |w: i64, h: i64| w <= width - gap && h <= height - gap;
            fits(w, h) || (turns && fits(h, w))
        });
        if !fitting {
            continue;
        }
        let grown: Vec<Part> = parts.iter().map(|&(w, h, turns)| (w + gap, h + gap, turns)).collect();
        let (free, cut) = (fewest_free(&grown, width, height), fewest_cut(&grown, width, height));
        split += u32::from(free < cut);
        let effort = [Effort::Low, Effort::Normal, Effort::High][number % 3];
        let problem = problem(&items, &sheet, gap, effort);
        let (sheets, layout) = laid(&problem, Cuts::Free);
        assert_eq!(sheets, free, "{parts:?} on {width} x {height}, gap {gap}");
        // With a gap, corners may come closer than the engine lays them, so the proof may be missing.
        assert!(layout.proven_least || gap > 0, "{parts:?} on {width} x {height}");
        let (sheets, layout) = laid(&problem, Cuts::Trimmer);
        assert_eq!(sheets, cut, "{parts:?} by trimmer on {width} x {height}, gap {gap}");
        assert!(layout.proven_least, "{parts:?} by trimmer on {width} x {height}, gap {gap}");
    }
    assert!(split > 0, "no case where a trimmer needs more");
}

// --- Parts that are known to fit ---

/// Cuts sheets into parts at random, edge to edge, with as much lost at each cut as the gap.
fn cut_up(dice: &mut Dice, sheets: u32, side: i64, gap: i64, least: i64) -> Vec<(i64, i64)> {
    let mut parts = Vec::new();
    let mut open: Vec<(i64, i64, i64)> = (0..sheets).map(|_| (side, side, dice.from(1, 3))).collect();
    while let Some((width, height, depth)) = open.pop() {
        let (along, across) = if dice.from(0, 1) == 0 { (width, height) } else { (height, width) };
        if depth == 0 || along < 2 * least + gap {
            parts.push((width, height));
            continue;
        }
        let at = dice.from(least, along - gap - least);
        for piece in [at, along - gap - at] {
            open.push(if along == width { (piece, across, depth - 1) } else { (across, piece, depth - 1) });
        }
    }
    parts
}

#[test]
fn what_was_cut_from_so_many_sheets_is_never_said_to_need_more() {
    let mut dice = Dice(77);
    let mut met = 0;
    for number in 0..60 {
        let gap = [0, 0, 3, 10][number % 4];
        let (count, shrink) = (u32::try_from(dice.from(2, 6)).unwrap(), dice.from(0, 4));
        let turns = if number % 2 == 0 { Turns::NONE } else { Turns::ANY };
        let items: Vec<Item> = cut_up(&mut dice, count, 200, gap, 40)
            .into_iter()
            .map(|(width, height)| item(width - dice.from(0, shrink), height - dice.from(0, shrink), turns, 1))
            .collect();
        let sheet = [endless(200, 200)];
        for (cuts, effort) in [(Cuts::Free, Effort::Normal), (Cuts::Trimmer, Effort::Low)] {
            let (_, layout) = laid(&problem(&items, &sheet, gap, effort), cuts);
            assert!(layout.lower_bound <= u64::from(count), "{} promised for {count}", layout.lower_bound);
            met += u32::from(layout.lower_bound == u64::from(count));
        }
    }
    assert!(met > 60, "bounds that promise next to nothing: {met} of 120 are met");
}

#[test]
fn copies_of_what_fits_fit_as_often() {
    let mut dice = Dice(5);
    for copies in [2, 7, 50] {
        let parts = cut_up(&mut dice, 3, 300, 0, 50);
        let items: Vec<Item> = parts.iter().map(|&(width, height)| item(width, height, Turns::ANY, copies)).collect();
        let (_, layout) = laid(&problem(&items, &[endless(300, 300)], 0, Effort::Normal), Cuts::Free);
        assert_eq!(layout.lower_bound, 3 * u64::from(copies), "no room is left, so area alone says this");
    }
}

// --- Parts with outlines of their own ---

#[test]
fn round_corners_do_not_hide_that_two_parts_share_no_sheet() {
    // By area two would fit: 2 x 14,400 of 42,000 square millimetres.
    let round = Contour::with_corners((0.0, 0.0), (120.0, 120.0), [Corner::Rounded(5.0); 4]);
    let items = [Item { contour: Some(round), ..item(120 * MM, 120 * MM, Turns::ANY, 3) }];
    let (sheets, layout) = laid(&problem(&items, &[endless(210 * MM, 200 * MM)], MM, Effort::Low), Cuts::Free);
    assert_eq!((sheets, layout.lower_bound), (3, 3));
}

#[test]
fn parts_that_nest_are_promised_no_more_sheets_than_nested() {
    // Two hooks 40 wide, one of them head to tail 40 further each way, lie in a square of 140: worked out by hand.
    let hook = Contour::polygon([(0.0, 0.0), (100.0, 0.0), (100.0, 40.0), (40.0, 40.0), (40.0, 100.0), (0.0, 100.0)]);
    // A comb of two teeth and one of one tooth close to a box of 90 x 60.
    let two = Contour::polygon([
        (0.0, 0.0),
        (90.0, 0.0),
        (90.0, 60.0),
        (60.0, 60.0),
        (60.0, 20.0),
        (30.0, 20.0),
        (30.0, 60.0),
        (0.0, 60.0),
    ]);
    let tooth = Contour::rectangle(0.0, 0.0, 30.0, 40.0);
    let bay = Contour::new([
        (0.0, 0.0, 0.0),
        (60.0, 0.0, 0.0),
        (60.0, 40.0, 0.0),
        (40.0, 40.0, -0.414_213_562_373_095),
        (20.0, 20.0, 0.0),
        (0.0, 20.0, 0.0),
    ]);
    let shaped = |contour: &Contour, count| {
        let size = contour.bounds();
        let eighths = |mm: f64| i64::from(u32::try_from(Length::from_mm(mm).eighths()).unwrap());
        Item {
            contour: Some(contour.clone()),
            ..item(eighths(size.width()), eighths(size.height()), Turns::ANY, count)
        }
    };
    for (items, (width, height), most) in [
        (vec![shaped(&hook, 2)], (140, 140), 1),
        (vec![shaped(&hook, 8)], (140, 140), 4),
        (vec![shaped(&two, 3), shaped(&tooth, 3)], (90, 60), 3),
        (vec![shaped(&bay, 1)], (60, 40), 1),
    ] {
        let sheets_of = [endless(width * MM, height * MM)];
        let problem = problem(&items, &sheets_of, 0, Effort::Normal);
        let layout = lay_out_for(&problem, Cuts::Free, &Unwatched).unwrap();
        crate::windows::checked(&problem, &layout);
        assert!(layout.lower_bound <= most, "{} promised, {most} do", layout.lower_bound);
    }
}

// --- The published random classes ---

/// Freedom can only help: to turn parts, to cut as one likes.
#[test]
fn bounds_and_layouts_stand_in_order() {
    for class in 1..=10 {
        for (count, seed) in [(20, 1), (40, 2)] {
            let run = |turns, cuts| {
                let (items, sheet) = generated(class, count, seed, turns);
                let (sheets, layout) = laid(&problem(&items, &[sheet], 0, Effort::Normal), cuts);
                (layout.lower_bound, sheets)
            };
            let turned = run(Turns::ANY, Cuts::Free);
            let free = run(Turns::NONE, Cuts::Free);
            let cut = run(Turns::NONE, Cuts::Trimmer);
            let place = format!("class {class}, {count} parts: {turned:?} {free:?} {cut:?}");
            assert!(turned.0 <= free.0 && free.0 <= cut.0, "bounds, {place}");
            assert!(turned.1 <= free.1 && free.1 <= cut.1, "sheets, {place}");
        }
    }
}

/// Our own goal, no source: a bound that proves less often is not worth its steps. Instances by the published rules.
#[test]
fn nine_in_ten_are_proven_least() {
    let (mut proven, mut all) = (0, 0);
    for class in 1..=10 {
        for seed in 1..=4 {
            let (items, sheet) = generated(class, 20, 100 + seed, Turns::NONE);
            let (_, layout) = laid(&problem(&items, &[sheet], 0, Effort::Normal), Cuts::Free);
            proven += u32::from(layout.proven_least);
            all += 1;
        }
    }
    assert!(10 * proven >= 9 * all, "{proven} of {all}");
}

// --- Edges ---

#[test]
fn odd_jobs_end_and_promise_nothing_wrong() {
    let sheet: [SheetType; 1] = [endless(210 * MM, 297 * MM)];
    let hair = item(1, 297 * MM, Turns::NONE, 30);
    let whole = item(210 * MM, 297 * MM, Turns::ANY, 3);
    let crumbs = item(1, 1, Turns::ANY, 4000);
    let half = item(105 * MM, 297 * MM, Turns::HALF, 3);
    for items in
        [vec![hair.clone()], vec![whole.clone(), crumbs.clone()], vec![half.clone(), hair], vec![whole, half, crumbs]]
    {
        for gap in [0, 1, MM] {
            for cuts in [Cuts::Free, Cuts::Trimmer] {
                laid(&problem(&items, &sheet, gap, Effort::Normal), cuts);
            }
        }
    }
    // Thousands on a sheet, and many different ones: the dear searches must leave such problems alone.
    let tags = [item(3 * MM, 4 * MM, Turns::ANY, 9000), item(5 * MM, 2 * MM, Turns::ANY, 9000)];
    laid(&problem(&tags, &sheet, 0, Effort::Normal), Cuts::Free);
    let mut dice = Dice(300);
    let different: Vec<Item> =
        (0..300).map(|_| item(dice.from(20, 190) * MM, dice.from(20, 190) * MM, Turns::ANY, 1)).collect();
    laid(&problem(&different, &sheet, MM, Effort::Normal), Cuts::Free);
    // Two halves of a sheet do not fit with any gap between them: three sheets and no doubt.
    let halves = [item(105 * MM, 297 * MM, Turns::HALF, 3)];
    let (sheets, layout) = laid(&problem(&halves, &sheet, 1, Effort::Low), Cuts::Free);
    assert_eq!((sheets, layout.lower_bound), (3, 3));
}

#[test]
fn called_off_at_once_it_still_promises_nothing_wrong() {
    for class in [1, 5, 10] {
        let (items, sheet) = generated(class, 40, 3, Turns::NONE);
        let sheet = [sheet];
        let called_off = lay_out_for(&problem(&items, &sheet, 0, Effort::High), Cuts::Free, &Halted).unwrap();
        let (sheets, _) = laid(&problem(&items, &sheet, 0, Effort::Normal), Cuts::Free);
        assert!(called_off.lower_bound <= sheets, "class {class}");
    }
}

#[test]
fn a_small_album_is_proven_least() {
    for (width, height) in [(297 * MM, 420 * MM), (12 * INCH, 12 * INCH)] {
        for copies in [1, 2, 10] {
            let items = kit(copies);
            let (_, layout) = laid(&problem(&items, &[endless(width, height)], MM, Effort::Normal), Cuts::Free);
            assert!(layout.proven_least || copies > 2, "{copies} copies on {width} x {height}");
        }
    }
}
