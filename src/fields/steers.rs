// SPDX-License-Identifier: MIT
//! Characters that cannot be printed, and would steer whatever shows them.

/// Whether a character of a text steers instead of standing there: a control character, an end of a line, or a mark that
/// turns the direction of writing (Unicode 16, general category Cc, and the embeddings, overrides, isolates and
/// separators of lines among its format characters).
#[must_use]
pub fn steers(c: char) -> bool {
    c.is_control() || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{2028}' | '\u{2029}')
}
