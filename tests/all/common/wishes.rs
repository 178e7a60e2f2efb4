// SPDX-License-Identifier: MIT
//! What a maker likes in a layout, measured by code that shares nothing with the engine: the largest leftover, different sheets,
//! sheets that straight cuts take apart, settings of the stop; and random kits to measure it on.

use super::instances::{Dice, MM, item};
use hingeleaf::layout::{CutTree, Cuts, Effort, Item, LaidSheet, Layout, Problem, SheetType, Turns};
use std::collections::BTreeSet;

/// A kit for measuring: parts like those of an album on sheets that one buys.
#[derive(Debug)]
pub(crate) struct RandomKit {
    pub(crate) items: Vec<Item>,
    pub(crate) sheet: SheetType,
    pub(crate) gap: i64,
    pub(crate) cuts: Cuts,
}

impl RandomKit {
    pub(crate) fn new(number: u64) -> Self {
        let mut dice = Dice(7_919 * (number + 1));
        let sheets = [(210, 297), (297, 420), (305, 305), (320, 450)];
        let sheet = sheets[usize::try_from(dice.from(0, 3)).unwrap()];
        let sheet = SheetType { width: sheet.0 * MM, height: sheet.1 * MM, count: None, price: None };
        let copies = if dice.from(0, 3) == 0 { u32::try_from(dice.from(2, 6)).unwrap() } else { 1 };
        let pages = dice.from(2, 7);
        let (width, height) = (dice.from(100, 190), dice.from(120, 200));
        let mut items = Vec::new();
        let mut add = |width: i64, height: i64, turns: Turns, count: i64| {
            items.push(item(width * MM, height * MM, turns, copies * u32::try_from(count).unwrap()));
        };
        let reveal = dice.from(3, 8);
        add(width, height, Turns::ANY, pages);
        add(
            width - 2 * reveal,
            height - 2 * reveal,
            if dice.from(0, 2) == 0 { Turns::NONE } else { Turns::ANY },
            pages,
        );
        add(dice.from(25, 60), height - 6, Turns::HALF, dice.from(1, 3));
        for _ in 0..dice.from(1, 6) {
            add(dice.from(40, width), dice.from(50, 160), Turns::ANY, dice.from(1, 4));
        }
        let gap = dice.from(0, 3) * MM / 2;
        let cuts = if dice.from(0, 2) == 0 { Cuts::Trimmer } else { Cuts::Free };
        Self { items, sheet, gap, cuts }
    }

    pub(crate) fn problem(&self, effort: Effort) -> Problem<'_> {
        Problem { items: &self.items, sheets: std::slice::from_ref(&self.sheet), gap: self.gap, effort, threads: 1 }
    }
}

/// What was measured of a layout.
#[derive(Debug, Default)]
pub(crate) struct Wishes {
    pub(crate) sheets: u64,
    /// Area of the largest free rectangle of any sheet, part of a sheet.
    pub(crate) leftover: f64,
    pub(crate) different: usize,
    /// How many of these cuts from edge to edge take apart.
    pub(crate) straight: usize,
    /// How many distances the stop is set to, for a trimmer.
    pub(crate) settings: usize,
}

impl Wishes {
    pub(crate) fn of(layout: &Layout, problem: &Problem) -> Self {
        let boxes: Vec<Vec<[i64; 4]>> = layout.sheets.iter().map(|sheet| boxes(sheet, problem.items)).collect();
        let free = |(laid, boxes): (&LaidSheet, &Vec<[i64; 4]>)| {
            let sheet = &problem.sheets[laid.sheet];
            #[allow(clippy::cast_precision_loss, reason = "a measure")]
            let part = largest_free(boxes, sheet, problem.gap) as f64 / (sheet.width * sheet.height) as f64;
            part
        };
        let mut settings = BTreeSet::new();
        for tree in layout.sheets.iter().filter_map(|sheet| sheet.cuts.as_ref()) {
            stops(tree, problem.gap, &mut settings);
        }
        Self {
            sheets: layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum(),
            leftover: layout.sheets.iter().zip(&boxes).map(free).fold(0.0, f64::max),
            different: layout.sheets.len(),
            straight: boxes.iter().filter(|boxes| is_straight(boxes)).count(),
            settings: settings.len(),
        }
    }
}

/// Nothing overlaps or stands out, everything is there, turned as it may be; a trimmer's sheets are cut from edge to edge.
pub(crate) fn assert_sound(layout: &Layout, problem: &Problem, cuts: Cuts) {
    let mut left: Vec<i64> = problem.items.iter().map(|item| i64::from(item.count)).collect();
    for sheet in &layout.sheets {
        let (size, boxes) = (&problem.sheets[sheet.sheet], boxes(sheet, problem.items));
        for (number, (put, one)) in sheet.placements.iter().zip(&boxes).enumerate() {
            left[put.item] -= i64::from(sheet.times);
            assert!(problem.items[put.item].turns.allows(put.turn), "turned as it may not be");
            assert!(one[0] >= 0 && one[1] >= 0 && one[2] <= size.width && one[3] <= size.height, "off the sheet");
            let clear = |other: &[i64; 4]| {
                (0..2).any(|at| other[at] >= one[at + 2] + problem.gap || one[at] >= other[at + 2] + problem.gap)
            };
            assert!(boxes[number + 1..].iter().all(clear), "too close");
        }
        assert!(cuts == Cuts::Free || (sheet.cuts.is_some() && is_straight(&boxes)), "no trimmer cuts this");
    }
    assert!(left.iter().all(|left| *left == 0), "too many or too few");
}

/// Left, bottom, right and top of the parts of a sheet.
fn boxes(sheet: &LaidSheet, items: &[Item]) -> Vec<[i64; 4]> {
    let one = |put: &hingeleaf::layout::Placement| {
        let (width, height) = put.turn.turned(items[put.item].width, items[put.item].height);
        [put.x, put.y, put.x + width, put.y + height]
    };
    sheet.placements.iter().map(one).collect()
}

/// Area of the largest rectangle that keeps the gap to all boxes: between any two upright lines, the tallest room.
pub(crate) fn largest_free(boxes: &[[i64; 4]], sheet: &SheetType, gap: i64) -> i64 {
    let lefts: Vec<i64> = std::iter::once(0).chain(boxes.iter().map(|one| one[2] + gap)).collect();
    let rights: Vec<i64> = std::iter::once(sheet.width).chain(boxes.iter().map(|one| one[0] - gap)).collect();
    let mut largest = 0;
    for &left in &lefts {
        for &right in rights.iter().filter(|right| **right > left) {
            let across = boxes.iter().filter(|one| one[0] - gap < right && one[2] + gap > left);
            let mut spans: Vec<(i64, i64)> = across.map(|one| (one[1] - gap, one[3] + gap)).collect();
            spans.sort_unstable();
            spans.push((sheet.height, sheet.height));
            let mut reached = 0;
            for (from, to) in spans {
                largest = largest.max((right - left) * (from - reached).max(0));
                reached = reached.max(to);
            }
        }
    }
    largest
}

/// Whether cuts from edge to edge part all boxes.
pub(crate) fn is_straight(boxes: &[[i64; 4]]) -> bool {
    let parted = |low: usize, high: usize| {
        boxes.iter().map(|one| one[low]).find_map(|at| {
            let (before, after): (Vec<[i64; 4]>, Vec<[i64; 4]>) = boxes.iter().partition(|one| one[high] <= at);
            let clean = !before.is_empty() && !after.is_empty() && after.iter().all(|one| one[low] >= at);
            clean.then_some((before, after))
        })
    };
    boxes.len() < 2
        || parted(0, 2).or_else(|| parted(1, 3)).is_some_and(|(one, other)| is_straight(&one) && is_straight(&other))
}

/// The distances from a piece's edge, or from the cut before, at which it is cut.
fn stops(tree: &CutTree, gap: i64, found: &mut BTreeSet<i64>) {
    if let CutTree::Cut(cut) = tree {
        let edge = if cut.way == hingeleaf::layout::CutDirection::Upright { cut.left } else { cut.bottom };
        found.extend(cut.at.first().map(|at| at - edge));
        found.extend(cut.at.windows(2).map(|pair| pair[1] - pair[0] - gap));
        for piece in &cut.pieces {
            stops(piece, gap, found);
        }
    }
}
