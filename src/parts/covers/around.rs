// SPDX-License-Identifier: MIT
//! What all covers share: how large they must be to go round the pages, and what stands on their spine.

use crate::album::{Album, CoverRoom, Entry};
use crate::contour::{Contour, Corner};
use crate::fields::{Field, Key, rule, usual};
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::net::Fold;
use crate::parts::bond::{Hold, Side};
use crate::parts::build::builder::Builder;
use crate::parts::build::face::{FacePlace, Looks, Plain};
use crate::parts::kit::Owner;
use crate::parts::papers::panel;
use crate::parts::thickness::all_pages;

/// How far the cover stands out beyond the pages: 3.0 to 4.8 mm is usual (B1).
pub(in crate::parts) const SQUARE: Key<Length> =
    Key::length("square", usual(3.0, 0.125), "how far it stands out beyond the pages at head, tail and fore-edge")
        .within(0.0, 50.0);

/// Its spine, where the maker says it.
pub(in crate::parts) const SPINE: Key<Option<Length>> =
    Key::size("spine", rule("what the pages need"), "its spine between the scores");

/// A spine wider than what it needs by half and by this lets the pages wander: our choice, mm.
pub(in crate::parts) const LOOSE: f64 = 6.0;

/// What a cover must go round, mm.
#[derive(Clone, Copy, Debug)]
pub(in crate::parts) struct Around {
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
    /// Thickness of the panels on its outside.
    pub decor: f64,
    /// Thickness of those on its insides, both together.
    pub lining: f64,
}

/// What an album's pages need of a cover, mm.
#[derive(Clone, Copy, Debug)]
pub(in crate::parts) struct Needs {
    /// From the foot of the pages to their fore-edge, of the page that stands out most.
    pub reach: f64,
    /// How thick all pages are together where they are thickest, with everything on and in them.
    pub pages: f64,
    /// What is stuck on the cover's insides.
    pub lining: f64,
    /// What the spine gives the pages.
    pub pitches: f64,
    /// Width of what stands on the spine, from score to score.
    pub base: f64,
    /// The same over all, with what stands up at its scores (F9).
    pub foot: f64,
}

impl Needs {
    /// What the pages need, with `lining` mm of what is stuck on the cover's insides.
    pub(in crate::parts) fn of(builder: &Builder<'_>, lining: f64) -> Self {
        let carry = builder.carry.clone();
        let sleeves = builder.pockets().iter().map(|pocket| pocket.caliper).fold(0.0, f64::max);
        let [_, short] = carry.short(sleeves);
        // Inner pages stand out by what raises them, pages with an index tab by that besides.
        let jut = |page: usize| builder.juts.get(&page).copied().unwrap_or(0.0);
        let out = |(index, rise): (usize, &f64)| rise + jut(index + 1);
        let stands_out = carry.rises.iter().enumerate().map(out).fold(0.0, f64::max);
        let reach = carry.gusset + short + builder.album.page.width.mm() + stands_out;
        let [base, foot] = widest(builder);
        Self { reach, pages: all_pages(builder), lining, pitches: carry.spine(), base, foot }
    }

    /// Room for the pages and for what stands on the spine, mm.
    pub(in crate::parts) fn spine(&self) -> f64 {
        self.pitches.max(self.pages + self.lining).max(self.foot)
    }

    /// What asks for that room, in words.
    pub(in crate::parts) fn why(&self, album: &Album) -> Said {
        let room = self.spine();
        if self.foot >= room {
            Said::new("spine-takes-foot").with("foot", album.rough(self.foot))
        } else if self.pitches >= room {
            Said::new("spine-takes-pitches").with("pitches", album.length(self.pitches))
        } else {
            let pages = Said::new(if self.lining > 0.0 { "spine-takes-lined-pages" } else { "spine-takes-pages" });
            pages.with("pages", album.rough(self.pages)).with("lining", album.rough(self.lining))
        }
    }
}

impl Around {
    /// What an album's cover must go round. Its spine is `more` wider than the room that the pages need, for the cover's own
    /// thickness, and `lined` says whether panels can be stuck on its inside; `what` is that spine in words. Nothing where the pages don't stand on it at all.
    pub(in crate::parts) fn of(
        builder: &mut Builder<'_>,
        entry: &Entry,
        (more, lined): (f64, bool),
        what: Said,
    ) -> Option<Self> {
        let square = entry.mm(SQUARE);
        let height = 2.0f64.mul_add(square, builder.album.page.height.mm());
        let (decor, inside) = panel::on_cover(builder);
        let lining = if lined { 2.0 * inside } else { 0.0 };
        let needs = Needs::of(builder, lining);
        let (reach, base) = (needs.reach, needs.base);
        let own = CoverRoom::new(reach + square, needs.spine() + more);
        builder.cover_goes_round(own);
        let CoverRoom { reach, spine: needed } = builder.album.cover_room.map_or(own, |room| room.or(own));
        let spine = entry.get(SPINE).unwrap_or_else(|| builder.album.at_least(needed)).mm();
        if spine < needed - SAME {
            let least = builder.album.length(builder.album.at_least(needed).mm());
            let help = Said::new("cover-spine-narrow-help").with("field", of_cover(SPINE)).with("least", least);
            let jams = spine < base + more - SAME;
            let text = if jams {
                Said::new("cover-spine-jams").with("foot", builder.album.rough(needs.foot))
            } else {
                // One cover goes round every mix of pages.
                let mix = needed > own.spine + SAME;
                let why = if mix { Said::new("spine-takes-mix") } else { needs.why(builder.album) };
                Said::new("cover-spine-narrow").with("why", why)
            };
            let text = text.with("what", what).with("spine", builder.album.length(spine));
            let text = text.with("needed", builder.album.rough(needed));
            let finding = if jams {
                Finding::stop("cover-spine-narrow", about(), text)
            } else {
                Finding::warn("cover-spine-narrow", about(), text)
            };
            let finding = finding.measured(Length::from_mm(spine), Length::from_mm(needed)).help(help);
            builder.find(finding.mend("cover.spine", builder.album.at_least(needed)).at(entry.values.place(SPINE)));
            if jams {
                return None;
            }
        }
        let widest = needed + (needed / 2.0).max(LOOSE);
        if spine > widest + SAME {
            let text = Said::new("cover-spine-wide")
                .with("spine", builder.album.length(spine))
                .with("needed", builder.album.rough(needed));
            let most = builder.album.at_least(needed);
            let help = Said::new("cover-spine-wide-help")
                .with("spine", of_cover(SPINE))
                .with("enough", builder.album.length(most.mm()));
            let finding = Finding::note("cover-spine-wide", about(), text)
                .measured(Length::from_mm(spine), Length::from_mm(needed));
            builder.find(finding.help(help).mend("cover.spine", most).at(entry.values.place(SPINE)));
        }
        // Leaf and cover can both be off at each edge.
        builder.spare(Said::new("the-cover"), "beyond the pages", square, 2);
        Some(Self { reach, spine, base, height, square, decor, lining })
    }
}

/// What findings about a cover are about.
pub(in crate::parts) fn about() -> Said {
    Said::new("about-cover")
}

/// A field of the cover, as sentences say it.
pub(in crate::parts) fn of_cover(field: impl Into<Field>) -> Arg {
    Arg::field(format!("cover.{}", field.into().name))
}

/// A face of the cover: its name, with what it is looked at, its size and its holes, and where it is. `slim` where nobody
/// misses its panel; outside `lies` says how far from the left end of the cover it starts.
pub(in crate::parts) fn face(
    builder: &mut Builder<'_>,
    (name, looks, slim): (&str, Looks, bool),
    (width, height): (f64, f64),
    holes: Vec<Contour>,
    side: Side,
    lies: Option<f64>,
) {
    let lies = lies.map(|from| FacePlace { at: (from, 0.0), shows: None });
    let (name, owner) = (name.into(), Owner::Cover);
    builder.plains.push(Plain {
        name,
        owner,
        looks,
        width,
        height,
        holes,
        slim,
        lies,
        corners: [Corner::Square; 4],
        side,
    });
}

/// Width of the widest thing that stands on the cover's spine: from score to score, and over what stands up there (F9).
pub(in crate::parts) fn widest(builder: &Builder<'_>) -> [f64; 2] {
    let kit = builder.kit();
    let mut widest = [0.0_f64; 2];
    for foot in &builder.feet {
        let Some(piece) = kit.pieces.get(foot.piece) else { continue };
        let Some(bounds) = piece.net.panels.get(foot.panel).map(|panel| panel.outline.bounds()) else { continue };
        let half = (bounds.x1 - foot.at.x).max(foot.at.x - bounds.x0);
        let stands_up = |fold: &Fold| {
            let outermost = (fold.from.x - foot.at.x).abs() > half - SAME;
            fold.between.contains(&foot.panel) && outermost && fold.angle.abs() >= 90.0
        };
        let caliper = kit.parts.get(piece.part).map_or(0.0, |part| builder.caliper(part.stock));
        let up = if piece.net.folds.iter().any(stands_up) { caliper } else { 0.0 };
        widest = [widest[0].max(2.0 * half), widest[1].max(2.0f64.mul_add(half, up))];
    }
    widest
}

/// Sticks the spine's feet on a face of the cover; `on` is at the middle of the spine and the tail of the pages.
pub(in crate::parts) fn stand(builder: &mut Builder<'_>, on: Side) {
    for foot in builder.feet.clone() {
        builder.bond(Hold::Stuck, foot, on);
    }
}
