// SPDX-License-Identifier: MIT
//! What is printed: findings with the line that they speak of, or the same facts as JSON.

use hingeleaf::fields::Source;
use hingeleaf::finding::{Finding, Place};
use hingeleaf::write;
use std::fmt::Write as _;
use std::io::Write as _;

/// A line longer than this is shown in part, characters.
const LONGEST: usize = 100;

/// Prints to standard output; a reader that went away (a closed pipe) is no failure.
pub(super) fn out(text: &str) {
    let _ = std::io::stdout().lock().write_all(text.as_bytes());
}

/// Prints findings: as JSON on standard output, or as words on standard error.
pub(super) fn findings(findings: &[Finding], sources: &[Source], json: bool) {
    if json {
        out(&write::findings(findings));
    } else {
        let _ = std::io::stderr().lock().write_all(words(findings, sources).as_bytes());
    }
}

/// Findings as words.
pub(super) fn words(findings: &[Finding], sources: &[Source]) -> String {
    let mut text = String::new();
    for finding in findings {
        let _ = writeln!(text, "{}", finding.headline());
        if let Some(place) = &finding.place {
            let _ = writeln!(text, "  where: {place}");
            if let Some(source) = sources.iter().find(|source| *source.name() == *place.file) {
                show(&mut text, source.line(place.line), place);
            }
        }
        if !finding.help.is_empty() {
            let _ = writeln!(text, "  help:  {}", finding.help);
        }
        if let Some(mend) = finding.mend.as_ref().filter(|mend| !mend.text.is_empty()) {
            let _ = writeln!(text, "  write: {}", mend.text);
        }
    }
    text
}

/// The line with the place marked below it.
fn show(text: &mut String, line: &str, place: &Place) {
    let number = place.line.to_string();
    let letters: Vec<char> = line.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    if letters.is_empty() {
        return;
    }
    let at = place.column - 1;
    let start = if letters.len() <= LONGEST { 0 } else { at.saturating_sub(LONGEST / 2).min(letters.len() - LONGEST) };
    let end = letters.len().min(start + LONGEST);
    let (before, after) = (if start > 0 { "…" } else { "" }, if end < letters.len() { "…" } else { "" });
    let shown: String = letters[start..end].iter().collect();
    let width = place.width.clamp(1, end.saturating_sub(at).max(1));
    let indent = at.saturating_sub(start) + before.chars().count();
    let gutter = " ".repeat(number.len());
    let _ = writeln!(text, "    {number} | {before}{}{after}", shown.trim_end());
    let _ = writeln!(text, "    {gutter} | {}{}", " ".repeat(indent), "^".repeat(width));
}
