// SPDX-License-Identifier: MIT
//! What an album takes at many page sizes.

use super::named::NamedSize;
use super::size::Size;
use crate::length::Length;

/// An album at many sizes.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Survey {
    /// Width and height that its file says.
    pub page: [Length; 2],
    /// At the size that its file says; none where it does not go together there.
    pub own: Option<Size>,
    /// At the nearest size at which it does, where it does not at its own.
    pub nearest: Option<Size>,
    /// At every size tried at which it goes together, its own too: from narrow to wide, then from short to tall.
    pub sizes: Vec<Size>,
    /// Sizes that are worth knowing by name.
    pub named: Vec<NamedSize>,
    /// How many sizes were tried.
    pub tried: usize,
    /// At how many of them it does not go together.
    pub left_out: usize,
    /// Whether the search was stopped before its end; sizes that were not reached count as not tried.
    pub cut_short: bool,
}

impl Survey {
    /// What all others are compared with: the album at its own size, or else at the nearest one at which it goes together.
    #[must_use]
    pub const fn base(&self) -> Option<&Size> {
        match &self.own {
            Some(own) => Some(own),
            None => self.nearest.as_ref(),
        }
    }
}
