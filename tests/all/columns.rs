// SPDX-License-Identifier: MIT
//! Long runs, few parts many times over: what would make their sheets too many, or the words "no layout can do it in fewer"
//! untrue, or leave them unsaid.
//!
//! The solver in this file works cell by cell, tries every way to share parts out among sheets, and shares nothing with the
//! engine but its types.

use crate::common::instances::{Dice, INCH, MM, endless, item, problem};
use hingeleaf::layout::{Cuts, Effort, Item, Layout, Problem, Turns, Unwatched, lay_out_for};
use std::collections::BTreeMap;

fn sheets(layout: &Layout) -> u64 {
    layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum()
}

/// Lays out, and checks that every part is there, on its sheet, apart from the others.
fn laid(problem: &Problem, cuts: Cuts) -> Layout {
    let layout = lay_out_for(problem, cuts, &Unwatched).unwrap();
    let mut left: Vec<u64> = problem.items.iter().map(|item| u64::from(item.count)).collect();
    for sheet in &layout.sheets {
        let size = &problem.sheets[sheet.sheet];
        let mut boxes: Vec<[i64; 4]> = Vec::new();
        for placement in &sheet.placements {
            let item = &problem.items[placement.item];
            assert!(item.turns.allows(placement.turn), "a turn that is not allowed");
            let (width, height) = placement.turn.turned(item.width, item.height);
            boxes.push([placement.x, placement.y, placement.x + width, placement.y + height]);
            left[placement.item] = left[placement.item].checked_sub(u64::from(sheet.times)).unwrap();
        }
        for (number, one) in boxes.iter().enumerate() {
            assert!(one[0] >= 0 && one[1] >= 0 && one[2] <= size.width && one[3] <= size.height, "off the sheet");
            let apart = |other: &[i64; 4]| {
                (0..2).any(|way| other[way] >= one[way + 2] + problem.gap || one[way] >= other[way + 2] + problem.gap)
            };
            assert!(boxes[number + 1..].iter().all(apart), "too close, gap {}", problem.gap);
        }
    }
    assert!(left.iter().all(|&left| left == 0), "parts are missing: {left:?}");
    assert!(layout.lower_bound <= sheets(&layout));
    assert_eq!(layout.proven_least, layout.lower_bound == sheets(&layout));
    layout
}

// --- Everything tried ---

/// Width, height, and whether it may be turned.
type Part = (i64, i64, bool);

/// So many of each part.
type Load = Vec<u8>;

/// Which loads go on one sheet, found and remembered.
struct OneSheet<'a> {
    parts: &'a [Part],
    trimmer: bool,
    cut: BTreeMap<(Load, i64, i64), bool>,
}

impl OneSheet<'_> {
    fn fits(&mut self, load: &Load, width: i64, height: i64) -> bool {
        let area: i64 = load.iter().zip(self.parts).map(|(&count, part)| i64::from(count) * part.0 * part.1).sum();
        if area > width * height {
            return false;
        }
        if self.trimmer {
            self.is_cut(load, width, height)
        } else {
            self.is_filled(&mut load.clone(), 0, width * height - area, width, height)
        }
    }

    /// Edge to edge: the first cut parts the load in two.
    fn is_cut(&mut self, load: &Load, width: i64, height: i64) -> bool {
        let boxes: u8 = load.iter().sum();
        if boxes == 0 {
            return true;
        }
        if boxes == 1 {
            let (w, h, turns) = self.parts[load.iter().position(|&count| count > 0).unwrap()];
            return (w <= width && h <= height) || (turns && h <= width && w <= height);
        }
        let key = (load.clone(), width, height);
        if let Some(&known) = self.cut.get(&key) {
            return known;
        }
        let fits = below(load).into_iter().any(|half| {
            let rest: Load = load.iter().zip(&half).map(|(all, half)| all - half).collect();
            let some = |load: &Load| load.iter().any(|&count| count > 0);
            some(&half)
                && some(&rest)
                && ((1..width).any(|at| self.is_cut(&half, at, height) && self.is_cut(&rest, width - at, height))
                    || (1..height).any(|at| self.is_cut(&half, width, at) && self.is_cut(&rest, width, height - at)))
        });
        self.cut.insert(key, fits);
        fits
    }

    /// Anyhow: the first free cell is the corner of a part, or stays empty.
    fn is_filled(&self, load: &mut Load, taken: u64, spare: i64, width: i64, height: i64) -> bool {
        if load.iter().all(|&count| count == 0) {
            return true;
        }
        let cell = i64::from((!taken).trailing_zeros());
        if spare < 0 || cell >= width * height {
            return false;
        }
        let (x, y) = (cell % width, cell / width);
        for number in 0..load.len() {
            let part = self.parts[number];
            if load[number] == 0 {
                continue;
            }
            load[number] -= 1;
            for (w, h) in [(part.0, part.1), (part.1, part.0)].into_iter().take(if part.2 { 2 } else { 1 }) {
                if x + w > width || y + h > height {
                    continue;
                }
                let row = ((1_u64 << w) - 1) << x;
                let cells = (y..y + h).fold(0, |cells, y| cells | row << (y * width));
                if taken & cells == 0 && self.is_filled(load, taken | cells, spare, width, height) {
                    return true;
                }
            }
            load[number] += 1;
        }
        self.is_filled(load, taken | 1 << cell, spare - 1, width, height)
    }
}

/// Every load that holds no more of any part.
fn below(load: &Load) -> Vec<Load> {
    let mut all = vec![Vec::new()];
    for &count in load {
        all = all.iter().flat_map(|load: &Load| (0..=count).map(move |more| [&load[..], &[more]].concat())).collect();
    }
    all
}

/// The least number of sheets.
fn fewest(parts: &[Part], counts: &Load, width: i64, height: i64, trimmer: bool) -> u64 {
    let mut one = OneSheet { parts, trimmer, cut: BTreeMap::new() };
    let most: Load = parts
        .iter()
        .zip(counts)
        .map(|(part, &count)| count.min(u8::try_from(width * height / (part.0 * part.1)).unwrap()))
        .collect();
    let fitting: Vec<Load> = below(&most).into_iter().filter(|load| one.fits(load, width, height)).collect();
    let mut least: BTreeMap<Load, u64> = BTreeMap::new();
    // Smaller loads come first.
    for load in below(counts) {
        let less = |pattern: &Load| {
            let left: Option<Load> = load.iter().zip(pattern).map(|(all, some)| all.checked_sub(*some)).collect();
            left.filter(|left| *left != load)
        };
        let best = fitting.iter().filter_map(less).map(|left| least[&left] + 1).min();
        least.insert(load, best.unwrap_or(0));
    }
    least[counts]
}

#[test]
fn the_solver_knows_two_by_three_from_five_by_five() {
    assert_eq!(fewest(&[(2, 3, true)], &vec![40], 5, 5, false), 10);
    assert_eq!(fewest(&[(2, 3, true)], &vec![40], 5, 5, true), 14);
    assert_eq!(fewest(&[(2, 3, false), (2, 2, false)], &vec![20, 20], 5, 5, true), 10);
}

/// Two or three small parts of which there are so many that no search of the engine tries everything.
#[test]
fn long_runs_agree_with_trying_everything() {
    let mut dice = Dice(31);
    let (mut cases, mut proven, mut apart) = (0, 0, 0);
    while cases < 60 {
        let (width, height, gap) = (dice.from(4, 8), dice.from(4, 7), dice.from(0, 3) / 3);
        let kinds = dice.from(2, 3);
        let parts: Vec<Part> = (0..kinds).map(|_| (dice.from(2, 5), dice.from(2, 5), dice.from(0, 1) == 1)).collect();
        let fits = |&(w, h, turns): &Part| (w <= width && h <= height) || (turns && h <= width && w <= height);
        if !parts.iter().all(fits) {
            continue;
        }
        cases += 1;
        let counts: Load = parts.iter().map(|_| u8::try_from(dice.from(10, 14)).unwrap()).collect();
        let turns = |turns: bool| if turns { Turns::ANY } else { Turns::NONE };
        let items: Vec<Item> = parts
            .iter()
            .zip(&counts)
            .map(|(part, &count)| item(part.0 - gap, part.1 - gap, turns(part.2), u32::from(count)))
            .collect();
        let sheet = [endless(width - gap, height - gap)];
        let problem = problem(&items, &sheet, gap, Effort::Normal);
        let [free, trimmed] = [Cuts::Free, Cuts::Trimmer].map(|cuts| laid(&problem, cuts));
        for (layout, trimmer) in [(&free, false), (&trimmed, true)] {
            let least = fewest(&parts, &counts, width, height, trimmer);
            let said = format!("{parts:?}, {counts:?} on {width} x {height}, gap {gap}, trimmer {trimmer}");
            assert!(layout.lower_bound <= least, "promised {} where {least} do: {said}", layout.lower_bound);
            assert!(sheets(layout) <= least + 1, "{} sheets where {least} do: {said}", sheets(layout));
            proven += u32::from(layout.proven_least);
        }
        apart += u32::from(trimmed.lower_bound > sheets(&free));
    }
    assert!(proven >= 100, "{proven} of 120 are proven");
    assert!(apart > 0, "no case where a trimmer is proven to need more");
}

// --- What a trimmer cannot do ---

/// Four panels round an empty middle need a cut that stops halfway; by trimmer there are three on a sheet.
#[test]
fn a_trimmer_is_told_that_it_needs_more_than_a_cutter() {
    let panels = [item(5 * INCH, 7 * INCH, Turns::ANY, 300)];
    let craft = [endless(12 * INCH, 12 * INCH)];
    for (cuts, least) in [(Cuts::Free, 75), (Cuts::Trimmer, 100)] {
        let layout = laid(&problem(&panels, &craft, 0, Effort::Normal), cuts);
        assert_eq!((sheets(&layout), layout.lower_bound), (least, least));
    }
}

// --- Parts of an album, many kits ---

/// Five parts of 20 to 80 pieces. A part that lies on the sheet in one way only shares it with no more than it does in that
/// way. 90 sheets are the least, by trimmer or not: of the eleven fullest loads of the four larger parts, as a constraint solver
/// finds them, no 89 hold all (CP-SAT of OR-tools 9.15, by hand).
#[test]
fn a_part_that_goes_onto_the_sheet_one_way_is_not_bounded_the_other_way() {
    let parts = [(322, 419, 20), (831, 1020, 60), (1649, 1044, 80), (1682, 2084, 40), (347, 2259, 40)];
    let items = parts.map(|(width, height, count)| item(width * MM / 10, height * MM / 10, Turns::ANY, count));
    let sheet = [endless(202 * MM, 289 * MM)];
    for cuts in [Cuts::Free, Cuts::Trimmer] {
        let layout = laid(&problem(&items, &sheet, 0, Effort::Normal), cuts);
        assert_eq!((sheets(&layout), layout.lower_bound), (90, 90));
    }
}

/// Sheets cut apart at random, each so many times: a plan that is known, with up to a few hundredths of it lost.
#[test]
fn long_runs_cut_from_so_many_sheets_are_never_said_to_need_more() {
    let mut dice = Dice(19);
    let mut near = 0;
    for number in 0..12 {
        let gap = [0, 4][number % 2];
        let turns = if number % 4 < 2 { Turns::NONE } else { Turns::ANY };
        let (mut items, mut known) = (Vec::new(), 0);
        for _ in 0..dice.from(2, 3) {
            let times = u32::try_from(dice.from(20, 70)).unwrap();
            known += u64::from(times);
            let mut open = vec![(400, 300, 2)];
            while let Some((width, height, cuts)) = open.pop() {
                let longer = width.max(height);
                if cuts == 0 || longer < 160 {
                    let lost = dice.from(0, 3);
                    items.push(item(width - lost, height - lost, turns, times));
                    continue;
                }
                let at = dice.from(70, longer - gap - 70);
                for piece in [at, longer - gap - at] {
                    open.push(if longer == width { (piece, height, cuts - 1) } else { (width, piece, cuts - 1) });
                }
            }
        }
        let sheet = [endless(400, 300)];
        let layouts = [Cuts::Free, Cuts::Trimmer].map(|cuts| laid(&problem(&items, &sheet, gap, Effort::Normal), cuts));
        for layout in &layouts {
            assert!(layout.lower_bound <= known, "{} promised for {known}", layout.lower_bound);
            near += u32::from(sheets(layout) <= layout.lower_bound + 1.max(layout.lower_bound / 100));
        }
        // Whatever a trimmer cuts, a cutter can.
        assert!(sheets(&layouts[0]) <= sheets(&layouts[1]) && layouts[0].lower_bound <= sheets(&layouts[1]));
        assert_eq!(
            lay_out_for(
                &Problem { threads: 3, ..problem(&items, &sheet, gap, Effort::Normal) },
                Cuts::Trimmer,
                &Unwatched
            )
            .unwrap(),
            layouts[1]
        );
    }
    assert!(near >= 20, "{near} of 24 are within one in a hundred of what is promised");
}
