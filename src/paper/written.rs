// SPDX-License-Identifier: MIT
//! A sheet as people write it: by name, or by its sides.

use super::{PaperError, named_sheets, parse_size, sheet};
use crate::fields::nearest;
use crate::finding::{Arg, Said};
use crate::length::{Length, excerpt};

/// A sheet by its standard name, or by its width and height with a unit: its name, width and height.
///
/// # Errors
/// What is wrong and what to do about it.
///
/// ```
/// let (name, width, _) = hingeleaf::paper::sheet_size("12x12in").unwrap();
/// assert_eq!((name.as_str(), width.mm()), ("12x12in", 304.8));
/// assert!(hingeleaf::paper::sheet_size("A44").unwrap_err().help.to_string().contains("\"A4\""));
/// ```
pub fn sheet_size(text: &str) -> Result<(String, Length, Length), PaperError> {
    if let Some(named) = sheet(text.trim()) {
        return Ok((named.name.to_owned(), named.width, named.height));
    }
    let shown = excerpt(text);
    let looks_like_size =
        text.chars().any(|c| matches!(c, 'x' | 'X' | '×')) && text.chars().any(|c| c.is_ascii_digit());
    if !looks_like_size {
        let names: Vec<&str> = named_sheets().iter().map(|sheet| sheet.name).collect();
        let help = match nearest(text.trim(), names.iter().copied()) {
            Some(name) => Said::new("bad-sheet-help-meant").with("name", Arg::quoted(name)),
            None => Said::new("bad-sheet-help").with("names", Arg::Row(names.into_iter().map(Arg::code).collect())),
        };
        return Err(PaperError { what: Said::new("bad-sheet").with("name", Arg::quoted(shown)), help });
    }
    let (width, height) = parse_size(text)?;
    let side = |length: Length| (5.0..=5000.0).contains(&length.mm());
    if !side(width) || !side(height) {
        let what = Said::new("bad-sheet-sides").with("size", shown);
        return Err(PaperError { what, help: Said::new("bad-sheet-sides-help") });
    }
    Ok((text.trim().to_owned(), width, height))
}
