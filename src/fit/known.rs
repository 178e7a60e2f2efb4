// SPDX-License-Identifier: MIT
//! What was reckoned for the same numbers a moment ago: the table asks several things of one album, one after the other.
//!
//! In: everything that the result depends on. Out: the result, reckoned or remembered; nobody can tell which.

use std::sync::{Mutex, PoisonError};

/// So many results are remembered: our choice. A survey of sizes tries hundreds, of which none comes again.
const MOST: usize = 8;

/// The results that were asked for last, the latest last.
pub(super) struct KnownResults<K, V>(Mutex<Vec<(K, V)>>);

impl<K: PartialEq, V: Clone> KnownResults<K, V> {
    pub(super) const fn new() -> Self {
        Self(Mutex::new(Vec::new()))
    }

    /// What `make` makes of this, or made of it before.
    pub(super) fn of(&self, key: K, make: impl FnOnce(&K) -> V) -> V {
        let known = |all: &mut Vec<(K, V)>| {
            let at = all.iter().position(|(one, _)| *one == key)?;
            let found = all.remove(at);
            let result = found.1.clone();
            all.push(found);
            Some(result)
        };
        if let Some(result) = known(&mut self.0.lock().unwrap_or_else(PoisonError::into_inner)) {
            return result;
        }
        // Others may look meanwhile.
        let result = make(&key);
        let mut all = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if all.len() >= MOST {
            all.remove(0);
        }
        all.push((key, result.clone()));
        result
    }
}
