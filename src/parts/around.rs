// SPDX-License-Identifier: MIT
//! What all covers share: how large they must be to go round the pages, and what stands on their spine.

use super::build::Builder;
use super::{Carry, Hold, Side};
use crate::album::Entry;
use crate::fields::{Fallback, Field, Takes};
use crate::finding::Finding;
use crate::length::Length;

/// How far the cover stands out beyond the pages: 3.0 to 4.8 mm is usual (B1).
pub(super) const SQUARE: Field = Field {
    name: "square",
    takes: Takes::Length { least: 0.0, most: 50.0 },
    fallback: Fallback::Length { mm: 3.0, inch: 0.125 },
    about: "how far it stands out beyond the pages at head, tail and fore-edge",
    measured: true,
};

/// What a cover must go round, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Around {
    /// From the foot of the pages to the fore-edge of the cover (H8), at least.
    pub reach: f64,
    /// Width of the cover's spine.
    pub spine: f64,
    /// Width of what stands on it.
    pub base: f64,
    /// From tail to head.
    pub height: f64,
    /// How far it stands out beyond the pages.
    pub square: f64,
}

impl Around {
    /// What an album's cover must go round. Its spine is `more` wider than the room that the pages need, for the cover's own
    /// thickness; `what` is that spine in words. Nothing where the pages don't stand on it at all.
    pub(super) fn of(builder: &mut Builder<'_>, entry: &Entry, more: f64, what: &str) -> Option<Self> {
        let carry = Carry::of(builder.album);
        let square = entry.mm("square");
        let sleeves = builder.pockets().iter().map(|pocket| pocket.caliper).fold(0.0, f64::max);
        let [_, short] = carry.short(sleeves);
        let stands_out = carry.rises.iter().copied().fold(0.0, f64::max);
        let page = &builder.album.page;
        let reach = carry.gusset + short + page.width.mm() + stands_out + square;
        let height = 2.0f64.mul_add(square, page.height.mm());
        let pages: f64 = builder.kit().loaded(builder.album).iter().sum();
        let base = base(builder);
        let needed = carry.spine().max(pages).max(base + more) + more;
        let spine = entry.values.maybe_length("spine").unwrap_or_else(|| builder.album.at_least(needed)).mm();
        if spine < needed - 1e-6 {
            let (wide, need) = (builder.album.show(spine), builder.album.roughly(needed));
            let help = format!(
                "leave cover.spine out, or make it at least {}",
                builder.album.show(builder.album.at_least(needed).mm())
            );
            let jams = spine < base + more - 1e-6;
            let text = if jams {
                format!("{what} of {wide} has no room for what stands on it: {need} is needed")
            } else {
                format!("{what} of {wide} is too narrow: with all that is in them the pages need {need}")
            };
            let finding = if jams {
                Finding::stop("cover-spine-narrow", "cover", text)
            } else {
                Finding::warn("cover-spine-narrow", "cover", text)
            };
            let finding = finding.measured(Length::from_mm(spine), Length::from_mm(needed)).help(help);
            builder.find(finding.mend("cover.spine", builder.album.at_least(needed)).at(entry.values.place("spine")));
            if jams {
                return None;
            }
        }
        Some(Self { reach, spine, base, height, square })
    }
}

/// Width of the widest thing that stands on the cover's spine.
fn base(builder: &Builder<'_>) -> f64 {
    let half = |foot: &Side| {
        let panel = builder.kit().pieces.get(foot.piece).and_then(|piece| piece.net.panels.get(foot.panel));
        let bounds = panel.map(|panel| panel.outline.bounds());
        bounds.map_or(0.0, |bounds| (bounds.x1 - foot.at.x).max(foot.at.x - bounds.x0))
    };
    builder.feet.iter().map(half).fold(0.0, f64::max) * 2.0
}

/// Sticks the spine's feet on a face of the cover; `on` is at the middle of the spine and the tail of the pages.
pub(super) fn stand(builder: &mut Builder<'_>, on: Side) {
    for foot in builder.feet.clone() {
        builder.bond(Hold::Stuck, foot, on);
    }
}
