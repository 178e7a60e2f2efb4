// SPDX-License-Identifier: MIT
//! The bundled font in two cuts; its licence stands beside it. No font of the machine's own is ever looked at.

/// The font's file.
pub(super) const LETTERS: &[u8] = include_bytes!("sans.ttf");
/// Its bold cut.
#[cfg(feature = "pdf")]
pub(super) const BOLD: &[u8] = include_bytes!("bold.ttf");
