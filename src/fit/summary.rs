// SPDX-License-Identifier: MIT
//! How well a sound album goes together, in a few sentences for its maker.

use super::Fit;
use crate::album::Album;

impl Fit {
    /// A sentence each for what is left of the pitch and what is tightest; none for an album that does not go together.
    #[must_use]
    pub fn sentences(&self, album: &Album) -> Vec<String> {
        let mut sentences = Vec::new();
        let Some(closed) = &self.closed else { return sentences };
        let fullest = closed.pages.iter().enumerate().min_by(|(_, one), (_, two)| one.room.total_cmp(&two.room));
        if let Some((index, page)) = fullest {
            let thick = format!(
                "Closed, the pages are {} thick and the spine gives them {}",
                album.roughly(closed.thickest),
                album.roughly(closed.spine)
            );
            sentences.push(if page.room < 0.0 {
                format!("{thick}; page {} is {} thicker than its pitch.", index + 1, album.roughly(-page.room))
            } else {
                format!("{thick}; every page has room for {} more.", album.roughly(page.room))
            });
        }
        if let Some(tightest) = self.clearances.first() {
            sentences.push(format!(
                "Tightest is {}: {} to spare {}.",
                tightest.about,
                album.roughly(tightest.spare),
                tightest.what
            ));
        }
        sentences
    }
}
