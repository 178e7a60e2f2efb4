// SPDX-License-Identifier: MIT
//! What all spines share: tabs and their lead-ins, how tall their strips are, how a page is hung on them.

use crate::album::{Album, Entry};
use crate::fields::Field;
use crate::finding::{Arg, Finding, Said};
use crate::length::MM_PER_INCH;
use crate::length::{Length, Units};
use crate::net::{RowPanel, Use};
use crate::parts::bond::{Hold, Side};
use crate::parts::build::advice::smaller;
use crate::parts::build::builder::Builder;
use crate::parts::spines::carry::Carry;
use crate::parts::spines::fields::{EASE, GUSSET, LEAD_IN, PITCH, TAB};

/// The sizes that every spine has, mm.
#[derive(Clone, Copy, Debug)]
pub(in crate::parts) struct Guard {
    /// Distance between neighbouring pages.
    pub pitch: f64,
    /// The panel that slides into a page.
    pub tab: f64,
    /// The free panel; 0 where there is none.
    pub gusset: f64,
    /// Clipped off the tab's outer corners, along its edge.
    pub lead_in: f64,
    /// How much shorter than the page the strips are.
    pub ease: f64,
    /// Thickness of the strips' card.
    pub caliper: f64,
}

impl Guard {
    /// The sizes of an album's spine.
    pub(in crate::parts) fn of(album: &Album) -> Self {
        let spine = &album.spine;
        let tab = spine.mm(TAB);
        // Not every spine has a gusset, and stubs have a pitch only where the maker says it.
        let size = |key| spine.values.find(key).map_or(0.0, Length::mm);
        Self {
            pitch: size(PITCH),
            tab,
            gusset: size(GUSSET),
            lead_in: spine.get(LEAD_IN).map_or(tab / 2.0, Length::mm),
            ease: spine.mm(EASE),
            caliper: album.caliper(spine.stock),
        }
    }

    /// How tall the strips are; none, and a finding, where ease or lead-in leave nothing of them.
    pub(in crate::parts) fn height(&self, builder: &mut Builder<'_>, entry: &Entry) -> Option<f64> {
        let page = builder.album.page.height.mm();
        let height = page - self.ease;
        let length = |mm: f64| builder.album.length(mm);
        let stop = |id, text: Said, help: Said, field: Field| {
            Finding::stop(id, about(), text).help(help.with("field", of_spine(field))).at(entry.values.place(field))
        };
        let finding = if height < 1.0 {
            let text = Said::new("ease-too-large").with("ease", length(self.ease)).with("page", length(page));
            stop("ease-too-large", text, Said::new("ease-too-large-help"), EASE.field)
        } else if self.lead_in * 2.0 >= height {
            let half = length(height / 2.0);
            // Where no lead-in is given it is half the tab, and the tab is what is too large.
            let (text, help, field) = if entry.values.says(LEAD_IN) {
                let text = Said::new("lead-in-too-large").with("lead_in", length(self.lead_in)).with("half", half);
                (text, Said::new("lead-in-too-large-help"), LEAD_IN.field)
            } else {
                let text = Said::new("tab-too-large").with("tab", length(self.tab)).with("half", half);
                (text, smaller("tab-too-large-help", 12.7, height), TAB.field)
            };
            stop("lead-in-too-large", text, help, field)
        } else {
            return Some(height);
        };
        builder.find(finding);
        None
    }

    /// A tab with its outer edge at its end (a row runs from its score to that edge).
    pub(in crate::parts) const fn tab_out(&self, name: &'static str) -> RowPanel {
        RowPanel::new(name, Use::Tab, self.tab).tapered(0.0, self.lead_in)
    }

    /// A tab with its outer edge at its start.
    pub(in crate::parts) const fn tab_in(&self, name: &'static str) -> RowPanel {
        RowPanel::new(name, Use::Tab, self.tab).tapered(self.lead_in, 0.0)
    }

    /// Where a page's tail lies on a strip that is shorter than the page.
    pub(in crate::parts) fn low(&self) -> f64 {
        -self.ease / 2.0
    }

    /// How it carries pages that take these shares of the spine, their roots so far above the lowest.
    pub(in crate::parts) fn carry(&self, steps: Vec<f64>, rises: Vec<f64>) -> Carry {
        Carry {
            pitch: self.pitch,
            tab: self.tab,
            gusset: self.gusset,
            lead_in: self.lead_in,
            ease: self.ease,
            thick: Vec::new(),
            stuck: None,
            wing: None,
            steps,
            rises,
        }
    }
}

/// What findings about a spine are about.
pub(in crate::parts) fn about() -> Said {
    Said::new("about-spine")
}

/// A field of the spine, as sentences say it.
pub(in crate::parts) fn of_spine(field: impl Into<Field>) -> Arg {
    Arg::field(format!("spine.{}", field.into().name))
}

/// A little less than a size: 1 mm or 1/32 in; of a very small size most is kept (our choice).
pub(in crate::parts) fn a_little_less(album: &Album, size: f64) -> f64 {
    let less = if album.units == Units::In { MM_PER_INCH / 32.0 } else { 1.0 };
    (size - less).max(size * 0.8)
}

/// Hangs a page (from 0) on a pair of tabs, back to back: the face that looks to its front, and the one that looks to its
/// back. A leaf has only one of them stuck on it.
pub(in crate::parts) fn hang(builder: &mut Builder<'_>, page: usize, to_front: Side, to_back: Option<Side>) {
    let Some(mount) = builder.mounts.get(page).copied() else { return };
    builder.bond(mount.hold, to_front, mount.front);
    if let Some(to_back) = to_back.filter(|_| mount.hold == Hold::Slid) {
        builder.bond(mount.hold, to_back, mount.back);
    }
}

/// A count as a number to reckon with.
#[allow(clippy::cast_precision_loss, reason = "a count of pages or stubs is far below 2^52")]
pub(in crate::parts) const fn whole(count: usize) -> f64 {
    count as f64
}
