// SPDX-License-Identifier: MIT
//! What the tests of both kinds of layout are made from.

use hingeleaf::layout::{Effort, Item, Problem, SheetType, Turns, Watch};

/// An inch and a millimetre in eighths of a micrometre.
pub(crate) const INCH: i64 = 64 * 3175;
pub(crate) const MM: i64 = 8000;

pub(crate) fn item(width: i64, height: i64, turns: Turns, count: u32) -> Item {
    Item { width, height, contour: None, holes: Vec::new(), turns, count }
}

pub(crate) fn endless(width: i64, height: i64) -> SheetType {
    SheetType { width, height, count: None, price: None }
}

pub(crate) fn problem<'a>(items: &'a [Item], sheets: &'a [SheetType], gap: i64, effort: Effort) -> Problem<'a> {
    Problem { items, sheets, gap, effort, threads: 1 }
}

/// Wants the search to end at once.
#[derive(Debug)]
pub(crate) struct Halted;

impl Watch for Halted {
    fn at(&self, done: u64, of: u64) {
        assert!(done <= of);
    }

    fn stop(&self) -> bool {
        true
    }
}

/// Numbers that look random and are the same on every run.
#[derive(Debug)]
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    pub(crate) fn from(&mut self, least: i64, most: i64) -> i64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        least + i64::try_from(self.0 >> 33).unwrap() % (most - least + 1)
    }
}

/// Instances by the published rules: classes 1-6 of J. O. Berkey and P. Y. Wang, Two-dimensional finite bin-packing
/// algorithms, JORS 38 (1987) 423-429; 7-10 of S. Martello and D. Vigo, Exact solution of the two-dimensional finite bin
/// packing problem, Management Science 44 (1998) 388-399.
pub(crate) fn generated(class: u64, count: u64, seed: u64, turns: Turns) -> (Vec<Item>, SheetType) {
    let mut dice = Dice(class * 1_000_003 + count * 101 + seed);
    let side = [10, 30, 40, 100, 100, 300].get(usize::try_from(class).unwrap() - 1).copied().unwrap_or(100);
    let most = [10, 10, 35, 35, 100, 100];
    let items = (0..count).map(|_| {
        let (width, height) = if let Some(&most) = most.get(usize::try_from(class).unwrap() - 1) {
            (dice.from(1, most), dice.from(1, most))
        } else {
            // Seven in ten of the class's own type, one in ten of each other.
            let own = i64::try_from(class).unwrap() - 7;
            let other = dice.from(0, 9);
            let kind = if other < 3 { (own + 1 + other) % 4 } else { own };
            let (half, third) = (side / 2, 2 * side / 3);
            match kind {
                0 => (dice.from(third, side), dice.from(1, half)),
                1 => (dice.from(1, half), dice.from(third, side)),
                2 => (dice.from(half, side), dice.from(half, side)),
                _ => (dice.from(1, half), dice.from(1, half)),
            }
        };
        item(width, height, turns, 1)
    });
    (items.collect(), endless(side, side))
}

/// The parts of so many kits of a small album.
pub(crate) fn kit(count: u32) -> [Item; 4] {
    [
        item(148 * MM, 202 * MM, Turns::ANY, 4 * count),
        item(148 * MM, 202 * MM, Turns::ANY, 2 * count),
        item(40 * MM, 190 * MM, Turns::HALF, 3 * count),
        item(90 * MM, 130 * MM, Turns::ANY, 4 * count),
    ]
}
