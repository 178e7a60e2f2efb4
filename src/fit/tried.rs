// SPDX-License-Identifier: MIT
//! How well an album goes together that is tried, from its parts on.

use super::{Fit, check};
use crate::finding::{gravest_first, stops};
use crate::trial::Trial;

impl Trial<'_> {
    /// Everything that there is to say of its parts and of how they go together, gravest first; a mend is worded as the
    /// album's file takes it.
    #[must_use]
    pub fn fit(&self) -> Fit {
        let mut fit = self.kit().map_or_else(Fit::default, |kit| check(&self.album, kit, self.cutter));
        fit.findings.splice(0..0, self.findings().iter().cloned());
        self.album.word_mends(&mut fit.findings);
        gravest_first(&mut fit.findings);
        fit
    }

    /// How well it goes together where what may come free is put in, if that stops the work: it has to go in before it is
    /// known how many do.
    #[must_use]
    pub(crate) fn spoilt(&self) -> Option<(Self, Fit)> {
        let spared = self.with_a_spare_each()?;
        let fit = spared.fit();
        stops(&fit.findings).then_some((spared, fit))
    }

    /// Whether it goes together, with what may come free too.
    #[must_use]
    pub fn goes_together(&self) -> bool {
        !stops(&self.with_a_spare_each().as_ref().unwrap_or(self).fit().findings)
    }
}
