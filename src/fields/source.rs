// SPDX-License-Identifier: MIT
//! A file's text, and where in it a byte lies.

use crate::finding::{Finding, Place, Said};
use std::ops::Range;
use std::sync::Arc;

/// The text of one file, with its name.
#[derive(Clone, Debug)]
pub struct Source {
    name: Arc<str>,
    text: String,
    /// Whether a byte order mark stands before it.
    marked: bool,
    /// The byte at which each line starts.
    starts: Vec<usize>,
    /// The file whose places stand behind this one's, where values of it were put in.
    behind: Option<Arc<Self>>,
}

impl Source {
    /// Larger files are not albums, bytes: our choice.
    pub const LARGEST: u64 = 8 * 1024 * 1024;

    /// Whether a file of so many bytes may be taken, asked before it is read.
    ///
    /// # Errors
    /// A finding when it is too large to be an album or cutter file.
    pub fn fits(name: &str, bytes: u64) -> Result<(), Box<Finding>> {
        if bytes <= Self::LARGEST {
            return Ok(());
        }
        let text = Said::new("file-too-large").with("megabytes", bytes / 1_000_000);
        let finding = Finding::stop("file-too-large", Said::NOTHING, text).help(Said::new("file-too-large-help"));
        let place = Place { file: name.into(), path: String::new(), line: 1, column: 1, width: 1 };
        Err(Box::new(finding.at(Some(&place))))
    }

    /// Takes a file's bytes.
    ///
    /// # Errors
    /// A finding when the file is too large to be an album or cutter file, or not UTF-8 text.
    pub fn new(name: &str, bytes: Vec<u8>) -> Result<Self, Box<Finding>> {
        Self::fits(name, bytes.len() as u64)?;
        let whole = |line, column| Place { file: name.into(), path: String::new(), line, column, width: 1 };
        let text = String::from_utf8(bytes).map_err(|error| {
            let good = error.utf8_error().valid_up_to();
            let before = &error.as_bytes()[..good];
            let line = before.split(|&byte| byte == b'\n').count();
            let tail = before.rsplit(|&byte| byte == b'\n').next().unwrap_or_default();
            let column = String::from_utf8_lossy(tail).chars().count() + 1;
            let finding = Finding::stop("not-text", Said::NOTHING, Said::new("not-text"));
            Box::new(finding.help(Said::new("not-text-help")).at(Some(&whole(line, column))))
        })?;
        // A byte order mark is what some editors add to "UTF-8"; it means nothing here.
        let (text, marked) = match text.strip_prefix('\u{feff}') {
            Some(rest) => (rest.to_owned(), true),
            None => (text, false),
        };
        let starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Ok(Self { name: name.into(), text, marked, starts, behind: None })
    }

    /// The file's name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The byte order mark that the file begins with, if it does.
    #[must_use]
    pub const fn mark(&self) -> &'static str {
        if self.marked { "\u{feff}" } else { "" }
    }

    /// The whole text, without the mark.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The same file, the places of another one behind its own.
    #[must_use]
    pub(super) fn followed_by(&self, other: &Self) -> Self {
        Self { behind: Some(Arc::new(other.clone())), ..self.clone() }
    }

    /// Line `number` (from 1) without its end, or nothing where there is no such line.
    #[must_use]
    pub fn line(&self, number: usize) -> &str {
        let Some(&start) = number.checked_sub(1).and_then(|index| self.starts.get(index)) else {
            return "";
        };
        self.text[start..].lines().next().unwrap_or_default()
    }

    /// The place of a byte range, under the path that leads to it.
    #[must_use]
    pub fn place(&self, range: &Range<usize>, path: &str) -> Place {
        if let Some(other) = self.behind.as_ref().filter(|_| range.start > self.text.len()) {
            let first = self.text.len() + 1;
            return other.place(&(range.start - first..range.end - first), path);
        }
        let start = range.start.min(self.text.len());
        let line = self.starts.partition_point(|&at| at <= start);
        let from = self.starts[line - 1];
        let column = self.text.get(from..start).map_or(0, |part| part.chars().count()) + 1;
        let end = range.end.min(self.text.len()).max(start);
        let shown = self.text.get(start..end).unwrap_or_default();
        let width = shown.lines().next().unwrap_or_default().chars().count().max(1);
        Place { file: Arc::clone(&self.name), path: path.to_owned(), line, column, width }
    }

    /// The place of a line and column, both from 1.
    #[must_use]
    pub fn spot(&self, line: usize, column: usize) -> Place {
        Place { file: Arc::clone(&self.name), path: String::new(), line: line.max(1), column: column.max(1), width: 1 }
    }
}
