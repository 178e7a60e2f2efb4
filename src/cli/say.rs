// SPDX-License-Identifier: MIT
//! What is printed: findings with the line that they speak of, or the same facts as JSON.

use super::end::ExitStatus;
use hingeleaf::fields::{Source, steers};
use hingeleaf::finding::{Finding, Place};
use hingeleaf::write;
use std::borrow::Cow;
use std::fmt::Write as _;
use std::io::{ErrorKind, Write as _};
use std::path::Path;

/// A line longer than this is shown in part, characters.
const LONGEST: usize = 100;

/// Prints to standard output, and gives `end` if that could be done. A reader that went away (a closed pipe) is no failure.
pub(super) fn out(text: &str, end: ExitStatus) -> ExitStatus {
    let mut to = std::io::stdout().lock();
    match to.write_all(printable(text).as_bytes()).and_then(|()| to.flush()) {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => {
            err(&format!("stop[machine]: what there is to say can't be written: {error}\n"));
            ExitStatus::MachineFailed
        }
        _ => end,
    }
}

/// Prints to standard error. Nobody can be told where that fails.
fn err(text: &str) {
    let _ = std::io::stderr().lock().write_all(printable(text).as_bytes());
}

/// Prints findings, as JSON on standard output or as words on standard error, and gives `end`.
pub(super) fn findings(findings: &[Finding], sources: &[Source], json: bool, end: ExitStatus) -> ExitStatus {
    if json {
        return out(&write::findings(findings), end);
    }
    err(&words(findings, sources));
    end
}

/// A text without what would steer a terminal: control characters but for the ends of lines, and marks that turn the
/// direction of writing. A name out of a file may hold any of them.
fn printable(text: &str) -> Cow<'_, str> {
    let odd = |c: char| steers(c) && c != '\n';
    if !text.contains(odd) {
        return text.into();
    }
    text.chars().map(|c| if odd(c) { '\u{fffd}' } else { c }).collect()
}

/// A file's name in a sentence: an end of a line in it would begin another.
pub(super) fn name(path: &Path) -> String {
    path.to_string_lossy().chars().map(|c| if c.is_control() { '\u{fffd}' } else { c }).collect()
}

/// A file's name as a shell takes it.
pub(super) fn for_a_shell(path: &Path) -> String {
    write::for_a_shell(&path.to_string_lossy())
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
