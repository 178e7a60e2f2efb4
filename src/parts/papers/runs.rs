// SPDX-License-Identifier: MIT
//! Patterns that run on: which panels are cut from one block, and where they lie in it.
//!
//! ```text
//!   the page's side, closed               the block
//!   +--+-----------+--+---------+         +-----------+.....+-------+     Panels lie in the block as they lie on the page, so
//!   |  |  pocket   |: |  flap   |   ──►   |  pocket   |     | flap  |     that a flower that starts on the pocket ends on the
//!   +--+-----------+--+---------+         +-----------+.....+-------+     flap. What lies between them is cut away.
//!                   ↑ the flap's edge
//! ```
//!
//! Where one piece reaches under another, its panel ends at the edge of the upper one, for a pattern can't be cut twice from
//! the same place; opened, a pocket then shows a wider border at its mouth (derived). Panels run on that stand in one row or
//! one column; they are all as tall, or as wide, as the least of them, if none loses more than a border at either side (our
//! choice). Others are cut each by itself.

use crate::contour::Rect;
use crate::length::tolerance::SAME;
use crate::parts::build::face::{Looks, Plain};
use crate::parts::kit::Owner;
use crate::usable::{Keeps, Usable};
use std::collections::BTreeMap;

/// Panels that are cut from one block.
#[derive(Clone, Debug)]
pub(in crate::parts) struct PanelRun {
    /// Which faces, and where the panel of each lies as its side is looked at; in order, from the left or from the tail.
    pub panels: Vec<(usize, Rect)>,
    /// The whole block.
    pub whole: Rect,
    /// Whether they stand one above the other; else side by side.
    pub upright: bool,
}

/// The runs among faces with a border `reveal` mm wide; `wide_enough` says whether a panel of that size is one.
pub(in crate::parts) fn runs(plains: &[Plain], reveal: f64, wide_enough: impl Fn(f64, f64) -> bool) -> Vec<PanelRun> {
    let mut beside: BTreeMap<(Owner, Looks), Vec<(usize, Rect)>> = BTreeMap::new();
    for (face, plain) in plains.iter().enumerate() {
        let rect = panel(plain, reveal).filter(|rect| wide_enough(rect.width(), rect.height()));
        beside.entry((plain.owner, plain.looks)).or_default().extend(rect.map(|rect| (face, rect)));
    }
    let several = beside.into_values().filter(|panels| panels.len() > 1);
    several.filter_map(|panels| in_line(&panels, false, reveal).or_else(|| in_line(&panels, true, reveal))).collect()
}

/// Where the panel of a face lies as its side is looked at.
fn panel(plain: &Plain, reveal: f64) -> Option<Rect> {
    let lies = plain.lies?;
    let face = Rect::new(lies.at.0, lies.at.1, lies.at.0 + plain.width, lies.at.1 + plain.height);
    let shows = lies.shows.unwrap_or(face);
    let low = |face: f64, shows: f64| if shows > face + SAME { shows } else { face + reveal };
    let high = |face: f64, shows: f64| if shows < face - SAME { shows } else { face - reveal };
    Some(Rect::new(low(face.x0, shows.x0), low(face.y0, shows.y0), high(face.x1, shows.x1), high(face.y1, shows.y1)))
}

/// Panels side by side, or one above the other, made equally tall or wide.
fn in_line(panels: &[(usize, Rect)], upright: bool, reveal: f64) -> Option<PanelRun> {
    let along = |rect: &Rect| if upright { (rect.y0, rect.y1) } else { (rect.x0, rect.x1) };
    let across = |rect: &Rect| if upright { (rect.x0, rect.x1) } else { (rect.y0, rect.y1) };
    let mut panels = panels.to_vec();
    panels.sort_by(|(_, one), (_, two)| along(one).0.total_cmp(&along(two).0));
    let apart = panels.windows(2).all(|pair| along(&pair[0].1).1 <= along(&pair[1].1).0 + SAME);
    let low = panels.iter().map(|(_, rect)| across(rect).0).fold(f64::NEG_INFINITY, f64::max);
    let high = panels.iter().map(|(_, rect)| across(rect).1).fold(f64::INFINITY, f64::min);
    let loses = |rect: &Rect| (low - across(rect).0).max(across(rect).1 - high);
    if !apart || high <= low || panels.iter().any(|(_, rect)| loses(rect) > reveal + SAME) {
        return None;
    }
    for (_, rect) in &mut panels {
        let (from, to) = along(rect);
        *rect = if upright { Rect::new(low, from, high, to) } else { Rect::new(from, low, to, high) };
    }
    let whole = panels.iter().map(|(_, rect)| *rect).reduce(|one, two| one.union(two))?;
    Some(PanelRun { panels, whole, upright })
}

/// Whether its block goes onto a sheet, as far apart as the machine cuts its panels; on a trimmer too.
pub(super) fn goes_on(run: &PanelRun, usable: &Usable, sideways: bool) -> bool {
    let along = |rect: &Rect| if run.upright { (rect.y0, rect.y1) } else { (rect.x0, rect.x1) };
    let sides = run.panels.iter().map(|(_, rect)| along(rect));
    let between = run.panels.windows(2).map(|pair| along(&pair[1].1).0 - along(&pair[0].1).1);
    let long = sides.map(|(from, to)| to - from).sum::<f64>() + between.map(|gap| usable.apart(gap, true)).sum::<f64>();
    let size = if run.upright { (run.whole.width(), long) } else { (long, run.whole.height()) };
    usable.takes(size, Keeps { along_grain: false, sideways })
}
