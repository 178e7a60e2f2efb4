// SPDX-License-Identifier: MIT
//! One album tried at many page sizes, on several threads.
//!
//! In: sizes. Out: for each of them the sheets that the album takes there, or nothing where it does not go together. The
//! threads change nothing but the time.

use super::Size;
use crate::album::Album;
use crate::cutter::Cutter;
use crate::layout::Watch;
use crate::length::Length;
use crate::sheets::Search;
use crate::trial::Trial;
use std::sync::atomic::{AtomicUsize, Ordering};

/// What is the same for all sizes.
#[derive(Clone, Copy)]
pub(super) struct Tries<'a> {
    pub album: &'a Album,
    pub cutter: &'a Cutter,
    pub search: Search,
    pub watch: &'a dyn Watch,
}

/// Passes the wish to stop on, and keeps the single layouts' progress to itself.
struct Quiet<'a>(&'a dyn Watch);

impl Watch for Quiet<'_> {
    fn at(&self, _done: u64, _of: u64) {}

    fn stop(&self) -> bool {
        self.0.stop()
    }
}

impl Tries<'_> {
    /// The album at one size.
    pub(super) fn at(&self, width: Length, height: Length) -> Option<Size> {
        let tried = Trial::of(self.album.with_page(width, height), self.cutter);
        // Laid first: that tells sooner than the checks whether a part is too big for its sheet.
        let tallies = tried.tally(Search { threads: 1, ..self.search }, &Quiet(self.watch))?;
        tried.goes_together().then(|| Size::of(&tried.album, width, height, tallies))
    }

    /// The album at each of these sizes, with its number. Sizes that are not reached before the search is stopped are
    /// left out, and the second value says so.
    pub(super) fn all(&self, wanted: &[(Length, Length)]) -> (Vec<(usize, Option<Size>)>, bool) {
        let next = AtomicUsize::new(0);
        let (done, of) = (AtomicUsize::new(0), count(wanted.len()));
        let work = || {
            let mut found = Vec::new();
            loop {
                let number = next.fetch_add(1, Ordering::Relaxed);
                let Some(&(width, height)) = wanted.get(number) else { return found };
                if self.watch.stop() {
                    return found;
                }
                let size = self.at(width, height);
                // What a search that was called off found is no fair count.
                if !self.watch.stop() {
                    found.push((number, size));
                }
                self.watch.at(count(done.fetch_add(1, Ordering::Relaxed) + 1), of);
            }
        };
        let threads = self.search.threads.clamp(1, wanted.len().max(1));
        let mut found = std::thread::scope(|scope| {
            let others: Vec<_> = (1..threads).map(|_| scope.spawn(work)).collect();
            let mut found = work();
            for other in others {
                found.extend(other.join().unwrap_or_default());
            }
            found
        });
        found.sort_by_key(|&(number, _)| number);
        let cut_short = found.len() < wanted.len();
        (found, cut_short)
    }
}

fn count(number: usize) -> u64 {
    u64::try_from(number).unwrap_or(u64::MAX)
}
