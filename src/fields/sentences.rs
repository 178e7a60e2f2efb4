// SPDX-License-Identifier: MIT
//! Parts of sentences that findings about fields share: the form that is wanted, what a misspelt name was meant to be.

use super::field::{Takes, nearest};
use crate::finding::{Arg, Said};
use crate::length::excerpt;

pub(super) fn wanted(takes: Takes) -> Arg {
    match takes {
        Takes::Length { .. } | Takes::Caliper => Said::new("form-length").into(),
        Takes::Count { .. } => Said::new("form-count").into(),
        Takes::CountOr { word, .. } => Said::new("form-count-or").with("word", Arg::quoted(word)).into(),
        Takes::Amount => Said::new("form-amount").into(),
        Takes::Text => Said::new("form-text").into(),
        Takes::Choice(words) => Arg::Either(words.iter().copied().map(Arg::quoted).collect()),
        Takes::Flag => Said::new("form-flag").into(),
        Takes::Counts => Said::new("form-counts").into(),
        Takes::Texts(form) | Takes::AmountOrText(form) | Takes::Nested(form) => Arg::term(form),
    }
}

/// What a field is, and what is to be said of that.
pub(super) fn is(key: &'static str, name: &str, found: impl Into<Arg>) -> Said {
    Said::new(key).with("field", Arg::field(name)).with("found", found)
}

pub(super) fn unknown_word(name: &str, word: &str) -> Said {
    Said::new("unknown-word").with("field", Arg::field(name)).with("word", Arg::quoted(excerpt(word)))
}

/// What a misspelt name was meant to be.
pub(super) fn meant(name: &str) -> Said {
    Said::new("did-you-mean").with("name", Arg::quoted(name))
}

/// What a misspelt name was meant to be; where nothing is near, the sentence of this key with all the names that there are.
#[must_use]
pub fn meant_or<'a>(key: &'static str, name: &str, known: impl Iterator<Item = &'a str> + Clone) -> Said {
    let near = nearest(name, known.clone()).map(meant);
    near.unwrap_or_else(|| Said::new(key).with("names", Arg::Row(known.map(Arg::code).collect())))
}

/// The way to a field of what stands at `path`.
pub(crate) fn join(path: &str, name: &str) -> String {
    let name = excerpt(name);
    if path.is_empty() { name } else { format!("{path}.{name}") }
}
