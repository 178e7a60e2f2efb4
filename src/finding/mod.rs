// SPDX-License-Identifier: MIT
//! Findings: what any stage has to tell the maker, as data.
//!
//! In: nothing. Out: [`Finding`]s with a level, a place in the file, the two numbers that matter and
//! a way out. Never: knows what an album is, reads or prints a file.

mod said;

pub use said::{Arg, Said};

use crate::length::Length;
use std::fmt;
use std::sync::Arc;

/// How grave a finding is. The order is the order of printing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Nothing is made until this is mended.
    Stop,
    /// It can be made, but is likely to disappoint.
    Warn,
    /// Worth knowing.
    Note,
}

impl Level {
    /// The word that reports and screens use.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Stop => "stop",
            Self::Warn => "warn",
            Self::Note => "note",
        }
    }
}

/// A place in a file that the maker wrote.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Place {
    /// The file's name as the maker gave it.
    pub file: Arc<str>,
    /// The way to the value: `pages[1].pocket`; empty for the whole file.
    pub path: String,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// How many characters of that line belong to the value, at least 1.
    pub width: usize,
}

impl fmt::Display for Place {
    /// `tide-table.json, line 14, column 46 (spine.lead_in)`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}, line {}, column {}", self.file, self.line, self.column)?;
        if self.path.is_empty() { Ok(()) } else { write!(f, " ({})", self.path) }
    }
}

/// A change of one length in the maker's file that mends a finding.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Mend {
    /// The way to the length: `pages[1].overflap`; it need not be in the file yet.
    pub path: String,
    /// What it should be.
    pub value: Length,
    /// That as it can be put into the file: `"overflap": 45`; empty until the album is at hand.
    pub text: String,
}

/// Another sheet of a stock that would end a finding.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct OtherSheet {
    /// The stock's name, as the file has it.
    pub stock: String,
    /// The sheet's name: `A3`.
    pub sheet: String,
}

/// One thing that the maker should hear.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Finding {
    /// How grave it is.
    pub level: Level,
    /// A short fixed name for programs: `too-wide`.
    pub id: &'static str,
    /// What it is about, in the maker's words: `page 2`.
    pub about: Said,
    /// What is wrong, with both numbers and their units.
    pub text: Said,
    /// What was measured.
    pub measured: Option<Length>,
    /// What is allowed.
    pub allowed: Option<Length>,
    /// What to do about it; empty where nothing need be done.
    pub help: Said,
    /// Where in the file it can be mended.
    pub place: Option<Place>,
    /// What to change there, where one length does it and nothing else suffers.
    pub mend: Option<Mend>,
    /// The sheet that ends it, where another sheet of a stock does.
    pub sheet: Option<OtherSheet>,
}

impl Finding {
    const fn new(level: Level, id: &'static str, about: Said, text: Said) -> Self {
        Self {
            level,
            id,
            about,
            text,
            measured: None,
            allowed: None,
            help: Said::NOTHING,
            place: None,
            mend: None,
            sheet: None,
        }
    }

    /// A finding that stops the work.
    #[must_use]
    pub const fn stop(id: &'static str, about: Said, text: Said) -> Self {
        Self::new(Level::Stop, id, about, text)
    }

    /// A finding that warns.
    #[must_use]
    pub const fn warn(id: &'static str, about: Said, text: Said) -> Self {
        Self::new(Level::Warn, id, about, text)
    }

    /// A finding worth knowing.
    #[must_use]
    pub const fn note(id: &'static str, about: Said, text: Said) -> Self {
        Self::new(Level::Note, id, about, text)
    }

    /// Adds what was measured and what is allowed.
    #[must_use]
    pub const fn measured(mut self, measured: Length, allowed: Length) -> Self {
        self.measured = Some(measured);
        self.allowed = Some(allowed);
        self
    }

    /// Adds a way out.
    #[must_use]
    pub fn help(mut self, help: Said) -> Self {
        self.help = help;
        self
    }

    /// Adds the sheet that ends it, of a stock of this name.
    #[must_use]
    pub fn other_sheet(mut self, stock: &str, sheet: Option<&str>) -> Self {
        self.sheet = sheet.map(|sheet| OtherSheet { stock: stock.to_owned(), sheet: sheet.to_owned() });
        self
    }

    /// Adds the change that mends it.
    #[must_use]
    pub fn mend(mut self, path: impl Into<String>, value: Length) -> Self {
        self.mend = Some(Mend { path: path.into(), value, text: String::new() });
        self
    }

    /// Adds which kit of a batch it is about.
    #[must_use]
    pub fn of_kit(self, kit: &str) -> Self {
        self.of(vec![kit.into()])
    }

    fn of(mut self, kits: Vec<Arg>) -> Self {
        let about = std::mem::take(&mut self.about);
        self.about = Said::new(if about.is_empty() { "about-kit" } else { "about-of-kit" })
            .with("kits", Arg::All(kits))
            .with("about", about);
        self
    }

    /// Adds the place.
    #[must_use]
    pub fn at(mut self, place: Option<&Place>) -> Self {
        self.place = place.cloned();
        self
    }
}

/// A value as far as it could be worked out, and all that the maker should hear about it.
#[derive(Clone, Debug)]
pub struct Checked<T> {
    /// The value; none where a finding stops the work.
    pub value: Option<T>,
    /// The findings, gravest first.
    pub findings: Vec<Finding>,
}

impl<T> Checked<T> {
    /// Sorts the findings, and lets the value go if one of them stops the work.
    #[must_use]
    pub fn new(value: T, mut findings: Vec<Finding>) -> Self {
        gravest_first(&mut findings);
        let value = if stops(&findings) { None } else { Some(value) };
        Self { value, findings }
    }

    /// No value, and why.
    #[must_use]
    pub fn none(mut findings: Vec<Finding>) -> Self {
        gravest_first(&mut findings);
        Self { value: None, findings }
    }
}

/// What is found of each kit of a batch, the kit named; what is found of several kits alike is told once.
pub(crate) fn of_kits<'a>(kits: impl Iterator<Item = (&'a str, &'a [Finding])>) -> Vec<Finding> {
    let mut all: Vec<(&Finding, Vec<Arg>)> = Vec::new();
    for (kit, findings) in kits {
        for finding in findings {
            match all.iter_mut().find(|(known, _)| *known == finding) {
                Some((_, kits)) => kits.push(kit.into()),
                None => all.push((finding, vec![kit.into()])),
            }
        }
    }
    all.into_iter().map(|(finding, kits)| finding.clone().of(kits)).collect()
}

/// Whether any finding stops the work.
#[must_use]
pub fn stops(findings: &[Finding]) -> bool {
    findings.iter().any(|finding| finding.level == Level::Stop)
}

/// Sorts findings by level; within a level those about a file come in its order, and before the others.
pub fn gravest_first(findings: &mut [Finding]) {
    let spot = |finding: &Finding| finding.place.as_ref().map_or((usize::MAX, 0), |place| (place.line, place.column));
    findings.sort_by_key(|finding| (finding.level, spot(finding)));
}
