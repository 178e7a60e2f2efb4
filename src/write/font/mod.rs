// SPDX-License-Identifier: MIT
//! The bundled font; its licence stands beside it. No font of the machine's own is ever looked at.

/// The font's file.
pub(super) const LETTERS: &[u8] = include_bytes!("sans.ttf");
