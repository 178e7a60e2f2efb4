// SPDX-License-Identifier: MIT
//! Threads: runs numbered searches on several of them and tells the caller how far they are.
//!
//! In: how many searches and what one does. Out: their results in the order of their numbers, so that the number of
//! threads can change nothing but the time. Never: decides which result is best.

use std::sync::atomic::{AtomicBool, AtomicU64, AtomicUsize, Ordering};
use std::thread;

use crate::layout::model::problem::Watch;

/// More threads than this are not started, whatever is asked for.
const MOST_THREADS: usize = 64;

/// Calls `search` with every number below `searches` and returns the results by number.
pub(crate) fn run<T: Send>(threads: usize, searches: usize, search: &(dyn Fn(usize) -> T + Sync)) -> Vec<T> {
    let next = AtomicUsize::new(0);
    let work = || {
        let mut found = Vec::new();
        loop {
            let number = next.fetch_add(1, Ordering::Relaxed);
            if number >= searches {
                return found;
            }
            found.push((number, search(number)));
        }
    };
    let mut found = thread::scope(|scope| {
        let helpers = threads.clamp(1, MOST_THREADS).min(searches).saturating_sub(1);
        // A thread that the system does not grant is work for the others.
        let helpers: Vec<_> =
            (0..helpers).filter_map(|_| thread::Builder::new().spawn_scoped(scope, work).ok()).collect();
        let mut found = work();
        for helper in helpers {
            match helper.join() {
                Ok(more) => found.extend(more),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        found
    });
    found.sort_unstable_by_key(|&(number, _)| number);
    found.into_iter().map(|(_, result)| result).collect()
}

/// Adds up the counted steps of all searches, reports them and hears the call to stop.
pub(crate) struct Meter<'a> {
    watch: &'a dyn Watch,
    done: AtomicU64,
    of: u64,
    stopped: AtomicBool,
}

impl<'a> Meter<'a> {
    pub(crate) fn new(watch: &'a dyn Watch, of: u64) -> Self {
        Self { watch, done: AtomicU64::new(0), of: of.max(1), stopped: AtomicBool::new(false) }
    }

    /// Counts `steps` more. False when the search should end.
    pub(crate) fn step(&self, steps: u64) -> bool {
        let done = self.done.fetch_add(steps, Ordering::Relaxed).saturating_add(steps);
        self.watch.at(done.min(self.of), self.of);
        if self.watch.stop() {
            self.stopped.store(true, Ordering::Relaxed);
        }
        !self.stopped()
    }

    pub(crate) fn stopped(&self) -> bool {
        self.stopped.load(Ordering::Relaxed)
    }
}
