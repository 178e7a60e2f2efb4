// SPDX-License-Identifier: MIT
//! Where a long row is cut so that it takes the fewest pieces, each of which goes onto a sheet with its lap.
//!
//! A row may be cut at a fold, or in a stretch of a panel that is clear of holes and of what must stay whole: each such
//! stretch is a [`StartStretch`]. From the row's end back it is worked out from where on the rest takes no cut, one, two, and so on;
//! the first of these sets that holds the row's start says how many there must be. So a larger sheet never takes more
//! pieces, and a row that can be cut for a smaller one can be cut for a larger one. Among the fewest, cuts lie at folds if
//! they can, where a seam hides, and as far along as they can.

use super::row::{Break, PanelRow, lean};
use crate::length::tolerance::SAME;
use crate::net::{RowPanel, Sense};

/// A cut keeps so far from a hole, mm, that a patch or lining behind it lies on one piece: our choice.
const KEEP: f64 = 10.0;

/// More pieces than this are no part.
const MOST: usize = 32;

/// A stretch of the row in which a piece may start; a fold is one without length, and so is the row's start.
#[derive(Clone, Copy, Debug)]
struct StartStretch {
    from: f64,
    to: f64,
    lap: f64,
    turn: (Sense, f64),
    /// Whether its seam hides behind a fold, and whether its lap is as wide as the others there.
    fold: bool,
    wide: bool,
    /// The leaf that it lies in, or that starts there; and of a fold, whether the piece before it starts in the leaf before.
    leaf: usize,
    behind_flat: bool,
    /// How much longer the piece before it is made, and the one that starts in it, to make up for calipers.
    more: (f64, f64),
}

/// Stretches from which the rest of the row takes a certain number of cuts, by the number of their spot.
type Starts = Vec<(usize, f64, f64)>;

/// A row and its longest piece.
struct Cutting {
    spots: Vec<StartStretch>,
    whole: f64,
    room: f64,
    lap: f64,
}

/// The cuts of the fewest pieces at most `room` mm long; none where that can't be done.
pub(super) fn fewest(row: &PanelRow, room: f64, caliper: f64) -> Option<Vec<Break>> {
    let whole = row.starts().last().copied()?;
    // Pieces that are as long as they can be are too many: nothing is to be worked out.
    #[allow(clippy::cast_precision_loss, reason = "a small number")]
    if whole > room * MOST as f64 {
        return None;
    }
    let cutting = Cutting { spots: spots(row, room, caliper), whole, room, lap: row.lap };
    let mut sets = vec![cutting.last_pieces()];
    while !sets.last()?.iter().any(|&(spot, ..)| spot == START) {
        let next = cutting.one_more(sets.last()?);
        if next.is_empty() || sets.len() >= MOST {
            return None;
        }
        sets.push(next);
    }
    cutting.chosen(&sets)
}

/// Number of the spot where the row starts.
const START: usize = 0;

/// Where a row may be cut, in order, behind its start.
fn spots(row: &PanelRow, room: f64, caliper: f64) -> Vec<StartStretch> {
    let starts = row.starts();
    let flat = (Sense::Bent, 0.0);
    let mut spots = vec![StartStretch {
        from: 0.0,
        to: 0.0,
        lap: 0.0,
        turn: flat,
        fold: true,
        wide: false,
        leaf: 0,
        behind_flat: false,
        more: (0.0, 0.0),
    }];
    // A panel after one that is joined flat is longer by a caliper for each of these joins.
    let longer = |index: usize| {
        let before = index.checked_sub(1).and_then(|before| row.leaves.get(before));
        let joins = before.map_or(0.0, |leaf| (leaf.depth() / (room - row.lap).max(row.lap)).ceil());
        row.leaves.get(index).map_or(0.0, |leaf| joins * caliper * lean(leaf.fold())).max(0.0)
    };
    for (index, leaf) in row.leaves.iter().enumerate() {
        let (start, end) = (starts[index], starts[index + 1]);
        let lap = row.lap.min(leaf.depth());
        // A lap may take all of a narrow panel; what must stay whole is not cut.
        let turn = leaf.fold();
        let before = if turn.1.abs() > SAME { -caliper * lean(turn) } else { 0.0 };
        // The lap turns as much before the fold as the panel before it is shorter.
        let from = start + before.min(0.0);
        if index > 0 && !leaf.is_seam() && clear(row, (from, start + lap), 0.0) {
            let wide = leaf.depth() >= row.lap - SAME;
            for behind_flat in [false, true] {
                let more = (before.max(0.0), if behind_flat { longer(index) } else { 0.0 });
                spots.push(StartStretch {
                    from: start,
                    to: start,
                    lap,
                    turn,
                    fold: true,
                    wide,
                    leaf: index,
                    behind_flat,
                    more,
                });
            }
        }
        let next = row.leaves.get(index + 1);
        // A seam that closes the row must stay in its place.
        if !leaf.is_straight() || next.is_some_and(RowPanel::is_seam) {
            continue;
        }
        for (from, to) in stretches(row, start + row.lap, end - row.lap) {
            let (lap, more) = (row.lap, (0.0, longer(index + 1)));
            let behind_flat = false;
            spots.push(StartStretch {
                from,
                to,
                lap,
                turn: flat,
                fold: false,
                wide: true,
                leaf: index,
                behind_flat,
                more,
            });
        }
    }
    spots
}

/// What must stay in one piece, holes with `keep` round them.
fn taken(row: &PanelRow, keep: f64) -> impl Iterator<Item = (f64, f64)> {
    let holes = row.holes.iter().map(|hole| row.run(hole)).map(move |(from, to)| (from - keep, to + keep));
    holes.chain(row.whole.iter().copied())
}

fn clear(row: &PanelRow, (start, end): (f64, f64), keep: f64) -> bool {
    taken(row, keep).all(|(from, to)| to <= start + SAME || from >= end - SAME)
}

/// The stretches between two places in which a lap is clear of what must stay in one piece.
fn stretches(row: &PanelRow, from: f64, to: f64) -> Vec<(f64, f64)> {
    let mut stretches = vec![(from, to)];
    for (low, high) in taken(row, KEEP) {
        let parted = |(from, to): (f64, f64)| [(from, to.min(low - row.lap)), (from.max(high), to)];
        stretches = stretches.into_iter().flat_map(parted).filter(|(from, to)| from <= to).collect();
        stretches.dedup();
    }
    stretches
}

impl Cutting {
    /// Where the row's last piece may start.
    fn last_pieces(&self) -> Starts {
        let one = |(number, spot): (usize, &StartStretch)| {
            let from = spot.from.max(self.whole + spot.more.1 - self.room - SAME);
            (from <= spot.to).then_some((number, from, spot.to))
        };
        self.spots.iter().enumerate().filter_map(one).collect()
    }

    /// How far behind its start a piece may be cut at a spot, at the least and at the most; no way from a spot that is not
    /// what the other one takes it for.
    fn reach(&self, start: &StartStretch, spot: &StartStretch) -> (f64, f64) {
        if spot.fold && spot.behind_flat == (start.fold || start.leaf + 1 != spot.leaf) {
            return (f64::INFINITY, f64::NEG_INFINITY);
        }
        // The lap of the piece before lies under this one, and ends before the next lap.
        let least = if spot.fold { start.lap.max(SAME) } else { self.lap.max(start.lap) };
        (least, self.room + SAME - spot.lap - spot.more.0 - start.more.1)
    }

    /// Where a piece may start whose end is a cut in one of these stretches.
    fn one_more(&self, ends: &Starts) -> Starts {
        let mut starts = Starts::new();
        for (number, spot) in self.spots.iter().enumerate() {
            let near = ends.iter().skip_while(|(_, _, to)| *to < spot.from);
            let near = near.take_while(|(_, from, _)| *from <= spot.to + self.room);
            let mut stretches: Vec<(f64, f64)> = near
                .filter_map(|&(end, from, to)| {
                    let (least, most) = self.reach(spot, &self.spots[end]);
                    let (from, to) = (spot.from.max(from - most), spot.to.min(to - least));
                    (least <= most && from <= to).then_some((from, to))
                })
                .collect();
            stretches.sort_by(|one, two| one.0.total_cmp(&two.0));
            for (from, to) in stretches {
                match starts.last_mut() {
                    Some(last) if last.0 == number && last.2 >= from => last.2 = last.2.max(to),
                    _ => starts.push((number, from, to)),
                }
            }
        }
        starts
    }

    /// The cuts, from the start on; the sets say from where the rest takes how many.
    fn chosen(&self, sets: &[Starts]) -> Option<Vec<Break>> {
        let (mut at, mut before) = (0.0, &self.spots[START]);
        let mut cuts = Vec::new();
        for ends in sets.iter().rev().skip(1) {
            let latest = ends.iter().filter_map(|&(end, from, to)| {
                let spot = &self.spots[end];
                let (least, most) = self.reach(before, spot);
                let cut = to.min((at + most - SAME).max(from));
                (cut >= from && cut <= at + most && cut >= at + least).then_some((spot, cut))
            });
            // At a fold the seam hides; one close by would leave a small piece.
            let rank = |spot: &StartStretch, cut: f64| match (spot.fold, cut - at >= self.room / 3.0) {
                (true, true) if spot.wide => 3,
                (true, true) => 2,
                (false, _) => 1,
                (true, false) => 0,
            };
            let best = latest.max_by(|one, two| {
                let (first, second) = (rank(one.0, one.1), rank(two.0, two.1));
                first.cmp(&second).then(one.1.total_cmp(&two.1))
            });
            (before, at) = best?;
            cuts.push(Break { at, lap: before.lap, fold: before.turn });
        }
        Some(cuts)
    }
}
