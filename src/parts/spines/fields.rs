// SPDX-License-Identifier: MIT
//! The fields that several spines have.

use crate::fields::{Key, rule, usual};
use crate::length::Length;

/// The distance between neighbouring pages.
pub(crate) const PITCH: Key<Length> = Key::size("pitch", usual(6.0, 0.25), "distance between neighbouring pages");

/// The tab's width.
pub const TAB: Key<Length> = Key::size("tab", usual(12.0, 0.5), "the panel that slides into a page");

/// The gusset's width.
pub(crate) const GUSSET: Key<Length> = Key::size("gusset", usual(6.0, 0.25), "the free panel that flexes");

/// What is clipped off a tab.
pub(crate) const LEAD_IN: Key<Option<Length>> =
    Key::length("lead_in", rule("half the tab"), "what is clipped off the tab's outer corners, along its edge");

/// How much shorter the strips are.
pub(crate) const EASE: Key<Length> =
    Key::length("ease", usual(0.0, 0.0), "how much shorter than the page the strips are");

/// The panel of a hinge that is glued.
pub(crate) const WING: Key<Option<Length>> =
    Key::size("wing", rule("1 mm or 1/32 in less than the pitch"), "the panel that is stuck on the backing");

/// The panel of a guard that is stuck.
pub(crate) const ROOT: Key<Length> =
    Key::size("root", usual(19.0, 0.75), "the panel of a guard that is stuck, and the stubs");
