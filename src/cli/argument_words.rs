// SPDX-License-Identifier: MIT
//! Words of arguments that several commands take.

use hingeleaf::album::Language;
use hingeleaf::paper::Paper;

/// A language of what is printed.
pub(super) fn language(text: &str) -> Result<Language, String> {
    let tags = Language::ALL.map(Language::word).join(" and ");
    Language::ALL
        .into_iter()
        .find(|language| language.word().eq_ignore_ascii_case(text))
        .ok_or_else(|| format!("there are words in {tags}"))
}

/// What is printed on.
pub(super) fn paper(text: &str) -> Result<Paper, String> {
    let names = Paper::ALL.map(Paper::word).join(", ");
    Paper::named(text).ok_or_else(|| format!("templates are printed on one of {names}"))
}
