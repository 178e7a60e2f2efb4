// SPDX-License-Identifier: MIT
//! Shapes of drawings that were read before: an album is read again at each edit, and its drawings are mostly as they were.
//!
//! Only what was read without a word is kept: what is said names places, and those may have changed.

use crate::outline::{AskedOutline, DrawnShape};
use std::collections::BTreeMap;
use std::sync::{Arc, LazyLock, Mutex, PoisonError};

/// Most bytes of drawings that are kept; all go when there are more. Our choice, some hundred drawings.
const MOST_BYTES: usize = 16 * 1024 * 1024;

#[derive(Default)]
struct Shapes {
    /// By what is asked, and the drawing's text.
    known: BTreeMap<(String, String), Arc<DrawnShape>>,
    bytes: usize,
}

static SHAPES: LazyLock<Mutex<Shapes>> = LazyLock::new(Mutex::default);

/// What of the asking bears on the shape: its file's name says what it is read as.
fn key(asked: &AskedOutline, text: &str) -> (String, String) {
    let AskedOutline { file, layer, scores, unit, fold, .. } = asked;
    (format!("{file:?} {layer:?} {scores:?} {unit:?} {fold:?}"), text.to_owned())
}

/// The shape of a drawing that was read before, byte for byte as it is now.
pub(super) fn known(asked: &AskedOutline, text: &str) -> Option<Arc<DrawnShape>> {
    SHAPES.lock().unwrap_or_else(PoisonError::into_inner).known.get(&key(asked, text)).cloned()
}

pub(super) fn keep(asked: &AskedOutline, text: &str, shape: &Arc<DrawnShape>) {
    let mut shapes = SHAPES.lock().unwrap_or_else(PoisonError::into_inner);
    if text.len() > MOST_BYTES {
        return;
    }
    shapes.bytes += text.len();
    if shapes.bytes > MOST_BYTES {
        shapes.known.clear();
        shapes.bytes = text.len();
    }
    shapes.known.insert(key(asked, text), shape.clone());
}
