// SPDX-License-Identifier: MIT
//! Progress on a terminal, and what Ctrl-C does: once, the search ends with the best so far; twice, nothing is
//! written.

use hingeleaf::layout::Watch;
use std::io::{IsTerminal, Write};
use std::path::PathBuf;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// Work shorter than this is not reported.
const LONG: Duration = Duration::from_millis(800);

static STOP: AtomicBool = AtomicBool::new(false);
/// Only a search has something to show when it is stopped.
static SEARCHING: AtomicBool = AtomicBool::new(false);
static UNFINISHED: Mutex<Vec<PathBuf>> = Mutex::new(Vec::new());

/// Watches a search from a terminal.
#[derive(Debug)]
pub(super) struct Terminal {
    begun: Instant,
    shows: bool,
    /// What was shown last, percent.
    shown: Mutex<Option<u64>>,
}

impl Terminal {
    /// Starts to watch; `unfinished` is taken away should the maker stop us twice.
    pub(super) fn new(unfinished: &[PathBuf]) -> Self {
        *UNFINISHED.lock().unwrap_or_else(PoisonError::into_inner) = unfinished.to_vec();
        // Where no handler can be set, Ctrl-C does what it always does.
        let _ = ctrlc::set_handler(|| {
            if STOP.swap(true, Ordering::SeqCst) || !SEARCHING.load(Ordering::SeqCst) {
                for path in UNFINISHED.lock().unwrap_or_else(PoisonError::into_inner).iter() {
                    let _ = std::fs::remove_dir_all(path).or_else(|_| std::fs::remove_file(path));
                }
                std::process::exit(130);
            }
        });
        Self { begun: Instant::now(), shows: std::io::stderr().is_terminal(), shown: Mutex::new(None) }
    }

    /// What was unfinished goes into its place, and must not be taken away any more.
    #[allow(clippy::unused_self, reason = "only who watches has something to release")]
    pub(super) fn released(&self) {
        UNFINISHED.lock().unwrap_or_else(PoisonError::into_inner).clear();
    }

    /// Takes the last line away.
    pub(super) fn done(&self) {
        SEARCHING.store(false, Ordering::SeqCst);
        if self.shown.lock().unwrap_or_else(PoisonError::into_inner).is_some() {
            let _ = write!(std::io::stderr(), "\r{:60}\r", "");
        }
    }
}

impl Watch for Terminal {
    fn at(&self, done: u64, of: u64) {
        SEARCHING.store(true, Ordering::SeqCst);
        if !self.shows || self.begun.elapsed() < LONG {
            return;
        }
        let percent = done.saturating_mul(100) / of.max(1);
        let mut shown = self.shown.lock().unwrap_or_else(PoisonError::into_inner);
        if *shown != Some(percent) {
            *shown = Some(percent);
            let mut to = std::io::stderr();
            let _ = write!(to, "\rLooking for fewer sheets: {percent} % (Ctrl-C takes the best so far)");
            let _ = to.flush();
        }
    }

    fn stop(&self) -> bool {
        STOP.load(Ordering::Relaxed)
    }
}
