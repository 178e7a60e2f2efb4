// SPDX-License-Identifier: MIT
//! How well a sound album goes together, in a few sentences for its maker.

use super::Fit;
use crate::album::Album;
use crate::finding::{Arg, Said};

/// A page that rises less than this lies flat, mm: our choice.
const FLAT: f64 = 0.5;

impl Fit {
    /// A sentence each for what is left of the pitch and what is tightest; none for an album that does not go together.
    #[must_use]
    pub fn sentences(&self, album: &Album) -> Vec<Said> {
        let mut sentences = Vec::new();
        let Some(closed) = &self.closed else { return sentences };
        let fullest = closed.pages.iter().enumerate().min_by(|(_, one), (_, two)| one.room.total_cmp(&two.room));
        if let Some((index, page)) = fullest {
            let sentence = Said::new(if page.room < 0.0 { "closed-too-thick" } else { "closed-with-room" })
                .with("thickest", album.rough(closed.thickest))
                .with("at-spine", album.rough(closed.at_spine))
                .with("at-fore-edge", album.rough(closed.at_fore_edge))
                .with("spine", album.rough(closed.spine));
            sentences.push(sentence.with("page", index + 1).with("room", album.rough(page.room.abs())));
        }
        if let Some(openings) = &self.openings {
            let worst = &openings.worst;
            let gains = openings.one_score > worst.lift + 1.0;
            let sentence = Said::new(if worst.lift < FLAT { "open-flat" } else { "open-least-flat" })
                .with("page", worst.between)
                .with("next", worst.between + 1)
                .with("lift", album.rough(worst.lift))
                .with("gains", usize::from(gains));
            sentences.push(sentence.with("one-score", album.rough(openings.one_score)));
        }
        if let Some(tightest) = self.clearances.first() {
            let tolerance = album.tolerance.mm();
            let by_hand = tightest.by_hand(tolerance);
            let left = if by_hand < 0.0 { Said::new("nothing").into() } else { album.rough(by_hand) };
            let sentence = Said::new("tightest").with("about", tightest.about.clone());
            let sentence = sentence.with("spare", album.rough(tightest.spare)).with("way", Arg::term(tightest.what));
            sentences.push(sentence.with("left", left).with("off", album.rough(tolerance)));
        }
        sentences
    }
}
