// SPDX-License-Identifier: MIT
//! How thick the album gets: each page against the pitch, all of them against the spine.
//!
//! A spine S takes pages of T in all as long as S >= T (D3); the gussets give a joint more on either side, so nothing gapes
//! until (T - S) / 2 is more than a gusset (D2). Inner pages stand out at the fore-edge by the strips beneath theirs (H7).

use super::sleeves;
use crate::album::Album;
use crate::finding::Finding;
use crate::folded::{Folded, Stack};
use crate::length::Length;
use crate::net::bend::sleeve_loss;
use crate::parts::{Carry, Kit, stubs_for};
use crate::stock::Stock;

/// A page's layers.
#[derive(Clone, Debug, PartialEq)]
pub struct PageThickness {
    /// Its greatest thickness, what is in and on it included, mm.
    pub greatest: f64,
    /// Its mean thickness, mm.
    pub mean: f64,
    /// What is left of its pitch, mm; below zero its neighbours have to give.
    pub room: f64,
    /// How far it stands out at the fore-edge beyond the outermost pages, mm.
    pub stands_out: f64,
}

/// The album closed.
#[derive(Clone, Debug, PartialEq)]
pub struct Closed {
    /// How its spine carries the pages.
    pub carry: Carry,
    /// What the spine gives the pages, mm.
    pub spine: f64,
    /// How thick they are at the spine, where the tabs are, mm.
    pub at_spine: f64,
    /// How thick they are where they are thickest, mm.
    pub thickest: f64,
    /// How thick they are along the fore-edge, mm.
    pub at_fore_edge: f64,
    /// The angle by which it gapes, radians; 0 where the gussets take it up.
    pub gape: f64,
    /// Each page.
    pub pages: Vec<PageThickness>,
    /// What a wrap cover needs for this album with a square of 3 mm: its panels' width from and to, its spine between the
    /// scores, mm (H8).
    pub cover: [f64; 3],
}

/// How wide the strip along the fore-edge is over which the closed album is measured, mm.
const EDGE: f64 = 10.0;

/// The usual square, mm (B1).
const SQUARE: f64 = 3.0;

/// Works out how thick the closed album is.
#[must_use]
pub fn closed(album: &Album, kit: &Kit, folded: &Folded) -> Closed {
    let carry = &kit.carry;
    let count = album.pages.len();
    let width = album.page.width.mm();
    let stacks: Vec<Stack> = (1..=count).map(|page| folded.stack(kit, page)).collect();
    let contents: Vec<f64> = album.pages.iter().map(|page| page.mm("content")).collect();
    let lowest = carry.rises.iter().copied().fold(f64::INFINITY, f64::min);
    let pages = stacks
        .iter()
        .zip(&contents)
        .zip(carry.steps.iter().zip(&carry.rises))
        .map(|((stack, content), (step, rise))| {
            let greatest = stack.greatest() + content;
            PageThickness { greatest, mean: stack.mean + content, room: step - greatest, stands_out: rise - lowest }
        })
        .collect::<Vec<_>>();
    let all: f64 = contents.iter().sum();
    let over = |from: f64, to: f64| {
        let mut ends: Vec<f64> = stacks.iter().flat_map(|stack| stack.strips.iter().map(|strip| strip.0)).collect();
        ends.extend([from, to]);
        ends.retain(|end| (from..=to).contains(end));
        ends.sort_by(f64::total_cmp);
        let thickness = |pair: &[f64]| {
            let middle = f64::midpoint(pair[0], pair[1]);
            stacks.iter().map(|stack| stack.between(middle - 1e-9, middle + 1e-9)).sum::<f64>()
        };
        ends.windows(2).filter(|pair| pair[1] - pair[0] > 1e-6).map(thickness).fold(0.0, f64::max) + all
    };
    let spine = carry.spine();
    let thickest = over(0.0, width);
    let excess = (thickest - spine) / 2.0;
    let cover_caliper = album.stocks.get(album.page.stock).map_or(0.0, |stock: &Stock| stock.caliper.mm());
    let [_, round] = sleeves::short(carry, sleeves::thickest(kit));
    let most = carry.rises.iter().copied().fold(0.0, f64::max);
    let least = carry.gusset + width + most + SQUARE;
    Closed {
        spine,
        at_spine: over(0.0, carry.tab.min(width)),
        thickest,
        at_fore_edge: over((width - EDGE).max(0.0), width),
        gape: if excess > carry.gusset { 2.0 * ((excess - carry.gusset) / width.max(1.0)).atan() } else { 0.0 },
        pages,
        carry: carry.clone(),
        cover: [least, least + round, spine.max(thickest) + cover_caliper],
    }
}

pub(super) fn check(album: &Album, closed: &Closed) -> Vec<Finding> {
    let carry = &closed.carry;
    let excess = (closed.thickest - closed.spine) / 2.0;
    // A single page is held by one gusset alone, and nothing is beside it.
    if excess <= carry.gusset || album.pages.len() < 2 {
        return Vec::new();
    }
    let pitch = album.at_least(closed.thickest / whole(album.pages.len()));
    let text = format!(
        "closed, its pages are {} thick and the spine has {}: it gapes by {:.0} degrees",
        album.roughly(closed.thickest),
        album.show(closed.spine),
        closed.gape.to_degrees().max(1.0)
    );
    vec![
        Finding::warn("gapes", "spine", text)
            .measured(Length::from_mm(closed.thickest), Length::from_mm(2.0f64.mul_add(carry.gusset, closed.spine)))
            .help(format!("make spine.pitch at least {}, or put less into the pages", album.show(pitch.mm())))
            .mend("spine.pitch", pitch)
            .at(album.spine.values.place("pitch")),
    ]
}

/// Angle, radians, between covers that a block `thickest` mm thick forces apart at `from` mm from a spine `spine` mm thick
/// (D2; derived: a rigid wedge).
#[must_use]
pub fn wedge(thickest: f64, spine: f64, from: f64) -> f64 {
    2.0 * ((thickest - spine).max(0.0) / (2.0 * from)).atan()
}

/// How many stubs a leaf needs so that it is no thicker at its body than at the spine (D3, B5).
#[must_use]
pub fn stubs(loaded: f64, hinge: f64, stub: f64) -> u32 {
    stubs_for(loaded, hinge, stub)
}

/// Inside height of a sleeve scored `height` tall, with sharp folds and with round ones (H5).
#[must_use]
pub fn inside(height: f64, caliper: f64) -> [f64; 2] {
    sleeve_loss(caliper).map(|loss| height - loss)
}

#[allow(clippy::cast_precision_loss, reason = "a page count is far below 2^52")]
fn whole(count: usize) -> f64 {
    count as f64
}
