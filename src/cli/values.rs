// SPDX-License-Identifier: MIT
//! Values of options, read as they are typed: each reader says what is wrong, and what to type.

use hingeleaf::album::Language;
use hingeleaf::finding::{Arg, Said};
use hingeleaf::length::{Allow, Length, Ruler, Units};
use hingeleaf::paper::Paper;
use hingeleaf::templates::PrinterPaper;
use std::fmt;

/// Why an option does not take a value.
#[derive(Debug)]
pub(super) struct RefusedValue {
    /// What is wrong with it; none where nothing but the help can be said.
    pub what: Option<Said>,
    /// What to type.
    pub help: Said,
}

impl fmt::Display for RefusedValue {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.what.iter().try_for_each(|what| write!(f, "{what}: "))?;
        self.help.fmt(f)
    }
}

impl std::error::Error for RefusedValue {}

impl RefusedValue {
    const fn known(what: Said, help: Said) -> Self {
        Self { what: Some(what), help }
    }
}

/// A length; a bare fraction is sure to be meant in inches, where a bare number is in mm.
pub(super) fn length(text: &str) -> Result<Length, RefusedValue> {
    let bare = !text.contains(|c: char| c.is_alphabetic() || matches!(c, '"' | '″'));
    if bare && text.contains(|c: char| matches!(c, '/' | '⁄') || (!c.is_ascii() && c.is_numeric())) {
        let what = Said::new("bare-fraction").with("found", Arg::quoted(text));
        let typed = |unit: &str| Arg::code(format!("{}{unit}", text.trim()));
        let help = Said::new("bare-fraction-help").with("inches", typed("in")).with("mm", typed("mm"));
        return Err(RefusedValue::known(what, help));
    }
    Length::parse(text, Units::Mm, Allow::Plain).map_err(|error| RefusedValue::known(error.what(), error.help()))
}

/// A whole number between two.
pub(super) fn whole<T: TryFrom<u32> + Clone>(
    least: u32,
    most: u32,
) -> impl Fn(&str) -> Result<T, RefusedValue> + Clone + Send + Sync + 'static {
    move |text| {
        let number = text.parse().ok().filter(|number| (least..=most).contains(number));
        let help =
            || Said::new("whole-number-between-help").with("least", u64::from(least)).with("most", u64::from(most));
        number.and_then(|number| T::try_from(number).ok()).ok_or_else(|| RefusedValue { what: None, help: help() })
    }
}

/// A language of what is handed over, by its tag.
pub(super) fn language(text: &str) -> Result<Language, RefusedValue> {
    let mut all = Language::ALL.into_iter();
    let tags = || Language::ALL.map(|language| Arg::code(language.word())).into();
    all.find(|language| language.word().eq_ignore_ascii_case(text)).ok_or_else(|| one_of(tags()))
}

/// What is printed on, by its name.
pub(super) fn paper(text: &str) -> Result<Paper, RefusedValue> {
    let names = || Paper::ALL.map(|paper| Arg::code(paper.word())).into();
    Paper::named(text).ok_or_else(|| one_of(names()))
}

fn one_of(names: Vec<Arg>) -> RefusedValue {
    RefusedValue { what: None, help: Said::new("allowed").with("names", Arg::Row(names)) }
}

/// What a printer leaves blank along an edge.
pub(super) fn paper_margin(text: &str) -> Result<Length, RefusedValue> {
    let most = Length::from_mm(PrinterPaper::MOST_MARGIN);
    let said = length(text)?;
    if (0.0..=most.mm()).contains(&said.mm()) {
        return Ok(said);
    }
    let help = Said::new("paper-margin-help").with("most", most.show(Units::Mm, Ruler::SixtyFourth));
    Err(RefusedValue { what: None, help })
}
