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
                "Closed, the pages are {} thick, {} at the spine and {} at the fore-edge; the spine gives them {}",
                album.roughly(closed.thickest),
                album.roughly(closed.at_spine),
                album.roughly(closed.at_fore_edge),
                album.roughly(closed.spine)
            );
            sentences.push(if page.room < 0.0 {
                format!("{thick}; page {} is {} thicker than its pitch.", index + 1, album.roughly(-page.room))
            } else {
                format!("{thick}; every page has room for {} more.", album.roughly(page.room))
            });
        }
        if let Some(openings) = &self.openings {
            let (worst, one_score) = (&openings.worst, album.roughly(openings.one_score));
            let place = format!("between pages {} and {}", worst.between, worst.between + 1);
            let gains = openings.one_score > worst.lift + 1.0;
            let but_for = if gains {
                format!(" Hinged on a single score, a page would rise by {one_score}.")
            } else {
                String::new()
            };
            sentences.push(if worst.lift < 0.5 {
                format!("Open, it lies flat everywhere.{but_for}")
            } else {
                format!(
                    "Open, it is least flat {place}: a page rises by {} over its width.{but_for}",
                    album.roughly(worst.lift)
                )
            });
        }
        if let Some(tightest) = self.clearances.first() {
            let by_hand = tightest.by_hand(album.tolerance.mm());
            let left = if by_hand < 0.0 { "nothing".to_owned() } else { album.roughly(by_hand) };
            sentences.push(format!(
                "Tightest is {}: {} to spare {}, {left} when all its sizes are off by {} the wrong way.",
                tightest.about,
                album.roughly(tightest.spare),
                tightest.what,
                album.roughly(album.tolerance.mm())
            ));
        }
        sentences
    }
}
