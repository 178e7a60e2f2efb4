// SPDX-License-Identifier: MIT
//! How flat the album lies open: its cross-section at every opening, and what a longer gusset would do.

use super::known::KnownResults;
use super::linkage::{CrossSection, Leaf, Opening};
use super::roots::roots;
use super::thickness::Closed;
use crate::album::Album;
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::parts::GUSSET;
use std::thread::{self, ScopedJoinHandle};

/// A page that slopes more than this does not lie flat: our choice, degrees.
const FLAT: f64 = 10.0;

/// A page that slopes more than this is a disappointment: our choice, degrees.
const STEEP: f64 = 20.0;

/// The album laid open.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Openings {
    /// Its cross-section.
    pub section: CrossSection,
    /// The opening at which a page lies least flat.
    pub worst: Opening,
    /// The lift at the same album's worst opening, were its pages hinged on one score without a gusset, mm.
    pub one_score: f64,
}

/// The album's cross-section.
#[must_use]
pub fn section(album: &Album, closed: &Closed) -> CrossSection {
    let carry = &closed.carry;
    let width = album.page.width.mm();
    let (base, roots) = roots(album, carry);
    let leaves = closed.pages.iter().zip(&carry.rises).zip(roots).map(|((page, rise), root)| Leaf {
        root,
        gusset: carry.gusset,
        width,
        thickness: page.greatest,
        weight: page.mean * width,
        stands_back: *rise,
        cover: false,
    });
    CrossSection { base, leaves: leaves.collect(), free: true, loose: album.cover.is_none() }
}

/// With more pages than this every page of every opening takes too long to lay, many postures each: our choice.
pub(crate) const MOST_LEAVES: usize = 400;

/// Says so where there are more pages than are laid open.
pub(super) fn too_many(album: &Album) -> Option<Finding> {
    let pages = album.pages.len();
    (pages > MOST_LEAVES).then(|| {
        let text = Said::new("not-laid-open").with("pages", pages).with("most", MOST_LEAVES);
        Finding::note("not-laid-open", Said::new("about-spine"), text)
            .help(Said::new("not-laid-open-help"))
            .at(album.spine.place())
    })
}

static OPENINGS: KnownResults<CrossSection, Option<Openings>> = KnownResults::new();

/// Gussets that do, by the section, the slope that is allowed, and the step.
static GUSSETS: KnownResults<(CrossSection, [u64; 2]), Option<f64>> = KnownResults::new();

/// Works out how the album lies open; none with fewer than two pages, or more than can be laid open.
#[must_use]
pub fn openings(section: CrossSection) -> Option<Openings> {
    if section.leaves.len() > MOST_LEAVES {
        return None;
    }
    OPENINGS.of(section, |section| laid_open(section.clone()))
}

fn laid_open(section: CrossSection) -> Option<Openings> {
    let on_scores = section.one_score();
    let (worst, one_score) = if on_scores == section {
        // Pages that are hinged on one score need not be laid again.
        (section.worst(), None)
    } else {
        both(|| section.worst(), || on_scores.worst())
    };
    let (_, worst) = worst?;
    let one_score = one_score.map_or(worst.lift, |(_, worst)| worst.lift);
    Some(Openings { section, worst, one_score })
}

/// Two reckonings side by side, one after the other where the system grants no thread.
fn both<T, U: Send>(one: impl FnOnce() -> T, other: impl Fn() -> U + Sync) -> (T, U) {
    thread::scope(|scope| {
        let beside = thread::Builder::new().spawn_scoped(scope, &other);
        let one = one();
        let other = match beside.map(ScopedJoinHandle::join) {
            Ok(Ok(found)) => found,
            Ok(Err(panic)) => std::panic::resume_unwind(panic),
            Err(_) => other(),
        };
        (one, other)
    })
}

pub(super) fn check(album: &Album, openings: &Openings) -> Option<Finding> {
    let worst = &openings.worst;
    let limit = FLAT.to_radians();
    if worst.slope.abs() <= limit {
        return None;
    }
    let allowed = album.page.width.mm() * limit.sin();
    let text = Said::new("opens-high")
        .with("page", worst.between)
        .with("next", worst.between + 1)
        .with("lift", album.rough(worst.lift))
        .with("degrees", Arg::Number(worst.slope.abs().to_degrees(), 0));
    // Who chooses a spine without gussets knows that its pages do not lie flat.
    let flexes = openings.section.leaves.iter().any(|leaf| leaf.gusset > 0.0);
    let steep = flexes && worst.slope.abs() > STEEP.to_radians();
    let about = Said::new("about-spine");
    let finding =
        if steep { Finding::warn("opens-high", about, text) } else { Finding::note("opens-high", about, text) };
    let finding =
        finding.measured(Length::from_mm(worst.lift), Length::from_mm(allowed)).at(album.spine.values.place(GUSSET));
    let step = album.at_least(0.1).mm();
    let longer = || {
        let key = (openings.section.clone(), [limit, step].map(f64::to_bits));
        GUSSETS.of(key, |(section, _)| section.longer_gusset_for(limit, step))
    };
    let gusset = if flexes { longer() } else { None };
    Some(match gusset.map(|gusset| album.at_least(gusset)) {
        Some(gusset) => finding
            .help(
                Said::new("opens-high-help")
                    .with("field", Arg::field("spine.gusset"))
                    .with("gusset", album.length(gusset.mm())),
            )
            .mend("spine.gusset", gusset),
        None => finding.help(Said::new("opens-high-help-pages")),
    })
}
