// SPDX-License-Identifier: MIT
//! What carries the pages: the one description that pages, checks and pictures have of any spine.

use crate::album::Album;
use crate::net::bend::sleeve_loss;
use crate::parts::spines::fields::TAB;

/// How a spine carries its pages, mm.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Carry {
    /// Distance between neighbouring pages.
    pub pitch: f64,
    /// What slides into a page, or is stuck on it.
    pub tab: f64,
    /// What is free between the tab and the root; 0 where a page turns right at its root.
    pub gusset: f64,
    /// Clipped off the tab's outer corners, along its edge.
    pub lead_in: f64,
    /// How much shorter than the page the tab is.
    pub ease: f64,
    /// The narrowest strip that is stuck on what is beneath it, and what that is; none where nothing is.
    pub stuck: Option<(f64, Stuck)>,
    /// The wings of a page that stands alone in the middle, where there is one.
    pub wing: Option<f64>,
    /// By page: how much of the spine it takes.
    pub steps: Vec<f64>,
    /// By page: how thick the spine takes it to be; empty where it does not ask.
    pub thick: Vec<f64>,
    /// By page: how far its root, or what holds its root, stands above the spine's lowest base.
    pub rises: Vec<f64>,
}

/// A strip that is stuck on what is beneath it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stuck {
    /// The base between two pages.
    Base,
    /// The root of a page's guard.
    Root,
    /// A page's wing.
    Wing,
}

impl Carry {
    /// How far tabs stop short of their scores in sleeves of card this thick, mm: with sharp folds and with round ones; the
    /// whole tab where there is no way in (H6; derived: similar triangles).
    #[must_use]
    pub fn short(&self, caliper: f64) -> [f64; 2] {
        sleeve_loss(caliper).map(|loss| {
            let over = loss - self.ease;
            if over <= 0.0 {
                0.0
            } else if over >= 2.0 * self.lead_in {
                self.tab
            } else {
                over * self.tab / (2.0 * self.lead_in)
            }
        })
    }

    /// The width of what slides into a page, mm: the one thing that pages must know before there is a spine.
    #[must_use]
    pub fn tab_of(album: &Album) -> f64 {
        album.spine.mm(TAB)
    }

    /// What the spine gives all pages together, mm.
    #[must_use]
    pub fn spine(&self) -> f64 {
        self.steps.iter().sum()
    }
}
