// SPDX-License-Identifier: MIT
//! Long rows that no sheet takes whole: cut in pieces that are joined by overlap seams.
//!
//! ```text
//!   +--------+---+--------+          +--------+---+--+   +--------+
//!   |  back  ¦ s ¦ front  |   ──►    |  back  ¦ s ¦l |   | front  |     The lap l is a seam that turns like the panel
//!   +--------+---+--------+          +--------+---+--+   +--------+     whose back it is stuck on, and hides under it.
//! ```
//!
//! A row is cut at a fold where one is at hand, so that the seam hides behind the fold; else within a panel, where the
//! seam runs on flat. A lap of 12.7 mm is usual for boxes (Bean & Brodhead 1914).

use super::cuts;
use super::row::{Break, PanelRow, lean};
use crate::album::Bound;
use crate::contour::Vec2;
use crate::length::tolerance::SAME;
use crate::net::{Along, Net, RowPanel, Use};
use crate::parts::bond::{Face, Hold, Side};
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::new_piece::NewPiece;
use crate::parts::name::PieceName;
use crate::usable::Keeps;

/// The usual lap, mm and in (C5).
pub(in crate::parts) const LAP: (f64, f64) = (13.0, 0.5);

/// A narrower lap holds badly, mm (C5).
pub(in crate::parts) const LEAST_LAP: f64 = 6.35;

/// A row as it was made: whole or in pieces.
#[derive(Clone, Debug)]
pub(in crate::parts) struct Joined {
    along: Along,
    spans: Vec<Span>,
}

/// One panel of one piece, and the stretch of the row that it is.
#[derive(Clone, Copy, Debug)]
struct Span {
    leaf: usize,
    from: f64,
    to: f64,
    piece: usize,
    panel: usize,
    /// Where the row's start lies in its piece, the other way round.
    start: f64,
}

impl Joined {
    /// A side of a leaf, its point and direction as they lie in the whole row.
    pub(in crate::parts) fn side(&self, leaf: usize, face: Face, at: (f64, f64), along: (f64, f64)) -> Option<Side> {
        let run = if self.along == Along::Across { at.0 } else { at.1 };
        let off = |span: &&Span| (span.from - run).max(run - span.to).max(0.0);
        let of_leaf = self.spans.iter().filter(|span| span.leaf == leaf);
        let span = of_leaf.min_by(|one, two| off(one).total_cmp(&off(two)))?;
        let at = if self.along == Along::Across { (at.0 - span.start, at.1) } else { (at.0, at.1 - span.start) };
        Some(side(span.piece, span.panel, face, at, along))
    }
}

impl PanelRow {
    /// Adds it, whole or in pieces. `cut` says what it is; its own net is not looked at.
    pub(in crate::parts) fn make(&self, builder: &mut Builder<'_>, cut: &NewPiece<'_>) -> Option<Joined> {
        let starts = self.starts();
        let whole = starts.last().copied().unwrap_or(0.0);
        let caliper = builder.caliper(cut.stock);
        let keeps = Keeps { along_grain: cut.along_grain, sideways: builder.album.bound == Bound::Top };
        let usable = builder.usable(cut.stock, cut.along_grain);
        let across = self.along == Along::Across;
        let size = if across { (whole, self.breadth) } else { (self.breadth, whole) };
        let room = usable.filter(|usable| !usable.takes(size, keeps));
        let room = room.and_then(|usable| usable.longest(self.breadth, across, keeps));
        let cuts = room.and_then(|room| cuts::fewest(self, room, caliper)).unwrap_or_default();
        let mut joined = Joined { along: self.along, spans: Vec::new() };
        let mut ends: Vec<f64> = cuts.iter().map(|cut| cut.at).collect();
        ends.push(whole);
        let mut start = 0.0;
        let mut before: Option<(usize, usize, f64)> = None;
        for (number, &end) in ends.iter().enumerate() {
            let piece = self.piece(&starts, (start, end), &cuts, caliper);
            let name = cut.name.clone();
            let name = if cuts.is_empty() { name } else { PieceName::Length(name.into(), number + 1) };
            let id = if cuts.is_empty() { cut.id.clone() } else { format!("{}-{}", cut.id, number + 1) };
            let (patterns, form) = (Vec::new(), cut.form.clone());
            let made = builder.piece(NewPiece { id, name, net: piece.net, patterns, form, ..*cut })?;
            joined.spans.extend(piece.panels.iter().map(|span| Span { piece: made, ..*span }));
            let (run, up) = match self.along {
                Along::Across => ((1.0, 0.0), (0.0, 1.0)),
                Along::Up => ((0.0, 1.0), (1.0, 0.0)),
            };
            if let Some((lower, seam, at)) = before {
                let first = joined.spans.iter().find(|span| span.piece == made).map_or(0, |span| span.panel);
                builder.bond(
                    Hold::Stuck,
                    side(lower, seam, Face::Front, (run.0 * at, run.1 * at), up),
                    side(made, first, Face::Back, (0.0, 0.0), up),
                );
            }
            before = piece.seam.map(|(seam, at)| (made, seam, at));
            start = end;
        }
        Some(joined)
    }

    /// The net of one stretch of the row, with a seam at its end where it is cut there.
    fn piece(&self, starts: &[f64], (start, end): (f64, f64), cuts: &[Break], caliper: f64) -> Stretch {
        let after = cuts.iter().find(|cut| (cut.at - end).abs() < SAME);
        let mut leaves: Vec<RowPanel> = Vec::new();
        let mut panels = Vec::new();
        let mut at = 0.0;
        for (index, (leaf, bounds)) in self.leaves.iter().zip(starts.windows(2)).enumerate() {
            let (from, to) = (bounds[0].max(start), bounds[1].min(end));
            if to - from <= SAME {
                continue;
            }
            // A piece lies a caliper over the lap under it. Panels next to it make up for that, so that all stands where it
            // stands in one piece: the one before a lap that turns, the one after a panel that is joined flat.
            let turns = after.filter(|cut| (to - end).abs() < SAME && cut.fold.1.abs() > SAME);
            let less = turns.map_or(0.0, |cut| caliper * lean(cut.fold));
            let mut more = 0.0;
            if from <= bounds[0] + SAME && index > 0 {
                let flat = |cut: &&Break| cut.fold.1.abs() <= SAME && starts[index - 1] < cut.at && cut.at < bounds[0];
                more = cuts.iter().filter(flat).map(|_| caliper * lean(leaf.fold())).sum();
            }
            let depth = (to - from + more - less).max((to - from) / 2.0);
            panels.push(Span { leaf: index, from, to, piece: 0, panel: 0, start: from - at - more });
            leaves.push(leaf.so_deep(depth));
            at += depth;
        }
        let nearest = |&(_, span): &(usize, &Span)| span.leaf.abs_diff(self.root);
        let root = panels.iter().enumerate().min_by_key(nearest).map_or(0, |(index, _)| index);
        // Net::row puts the root first.
        let number = |index: usize| {
            if index == root {
                0
            } else if index == 0 {
                root
            } else {
                index
            }
        };
        for (index, span) in panels.iter_mut().enumerate() {
            span.panel = number(index);
        }
        let seam = after.map(|cut| {
            // What the next piece has before a lap of its own that turns is a caliper less: this lap lies under no more.
            let next = cuts.iter().find(|next| next.at > cut.at + SAME);
            let under = next.map_or(f64::INFINITY, |next| next.at - cut.at - caliper * lean(next.fold).max(0.0));
            let lap = cut.lap.min(under);
            leaves.push(RowPanel::new("lap", Use::Seam, lap).folded(cut.fold.0, cut.fold.1));
            (number(leaves.len() - 1), at)
        });
        let mut net = Net::row(self.along, self.breadth, &leaves, root);
        for hole in &self.holes {
            let middle = f64::midpoint(self.run(hole).0, self.run(hole).1);
            if let Some(span) = panels.iter().find(|span| (span.from..span.to).contains(&middle)) {
                let back = if self.along == Along::Across { (-span.start, 0.0) } else { (0.0, -span.start) };
                net = net.with_hole(hole.mapped(|point| point + Vec2::from(back)));
            }
        }
        Stretch { net, panels, seam }
    }
}

/// One piece of a row.
struct Stretch {
    net: Net,
    panels: Vec<Span>,
    /// Number of its lap, and where that starts.
    seam: Option<(usize, f64)>,
}
