// SPDX-License-Identifier: MIT
//! What is wrong with the words behind a command, told as everything else is: what, and what to type.

use super::inputs::{argument, of_option};
use super::values::RefusedValue;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use hingeleaf::finding::{Arg, Finding, Said};
use std::error::Error as _;

/// The words as a finding.
pub(super) fn wrong_arguments(error: &clap::Error) -> Finding {
    let what = first(error, ContextKind::InvalidArg);
    let (name, value) = (short(&what), first(error, ContextKind::InvalidValue));
    let option = || Arg::code(name.as_str());
    let usage = || said_with("type-help", "usage", Arg::code(usage(error)));
    let (text, help) = match error.kind() {
        ErrorKind::MissingRequiredArgument => {
            let names = all(error, ContextKind::InvalidArg).iter().map(|name| Arg::code(bare(name))).collect();
            (said_with("arguments-missing", "names", Arg::Row(names)), usage())
        }
        ErrorKind::InvalidSubcommand => {
            let name = first(error, ContextKind::InvalidSubcommand);
            let near = first(error, ContextKind::SuggestedSubcommand);
            (said_with("no-such-command", "name", Arg::quoted(name)), meant(&near, "no-such-command-help"))
        }
        // What begins with a hyphen was meant to be an option; anything else is one word more than are taken.
        ErrorKind::UnknownArgument if what.starts_with('-') => {
            let near = first(error, ContextKind::SuggestedArg);
            let help = if near.is_empty() { usage() } else { meant(&short(&near), "") };
            (said_with("no-such-option", "option", option()), help)
        }
        ErrorKind::UnknownArgument => (
            said_with("one-word-too-many", "word", Arg::quoted(what)),
            said_with("one-word-too-many-help", "usage", Arg::code(self::usage(error))),
        ),
        ErrorKind::InvalidValue if value.is_empty() => (
            said_with("option-needs-value", "option", option()),
            said_with("option-needs-value-help", "typed", Arg::code(bare(&what))),
        ),
        ErrorKind::InvalidValue => {
            let near = first(error, ContextKind::SuggestedValue);
            let known = all(error, ContextKind::ValidValue).into_iter().map(Arg::code).collect();
            let help = if near.is_empty() { said_with("allowed", "names", Arg::Row(known)) } else { meant(&near, "") };
            (said_with("option-cant-be", "option", option()).with("value", Arg::quoted(value)), help)
        }
        ErrorKind::ValueValidation => refused_value(error, &name, &value),
        ErrorKind::ArgumentConflict => {
            let other = short(&first(error, ContextKind::PriorArg));
            let text = if other == name || other.is_empty() {
                said_with("option-twice", "option", option())
            } else {
                said_with("options-clash", "option", option()).with("other", Arg::code(other))
            };
            (text, usage())
        }
        _ => {
            let text = error.to_string();
            let lines = text.lines().take_while(|line| !line.starts_with("Usage:")).map(str::trim);
            let words = lines.filter(|line| !line.is_empty()).collect::<Vec<_>>().join(" ");
            let words = words.trim_start_matches("error: ").to_owned();
            (in_words(&words), Said::new("wrong-arguments-help"))
        }
    };
    argument(text, help)
}

/// A value that the option's own reader does not take: what it says of it.
fn refused_value(error: &clap::Error, name: &str, value: &str) -> (Said, Said) {
    let refused = error.source().and_then(|source| source.downcast_ref::<RefusedValue>());
    let cant = || said_with("option-cant-be", "option", Arg::code(name)).with("value", Arg::quoted(value));
    match refused {
        Some(RefusedValue { what: Some(what), help }) => (of_option(name, what.clone()), help.clone()),
        Some(RefusedValue { what: None, help }) => (cant(), help.clone()),
        None => (cant(), Said::new("wrong-arguments-help")),
    }
}

/// What somebody else said, as it was said.
fn in_words(words: &str) -> Said {
    said_with("wrong-arguments", "words", words)
}

fn said_with(key: &'static str, place: &'static str, arg: impl Into<Arg>) -> Said {
    Said::new(key).with(place, arg)
}

/// What was probably meant, or what else to do.
fn meant(near: &str, otherwise: &'static str) -> Said {
    if near.is_empty() { Said::new(otherwise) } else { said_with("did-you-mean", "name", Arg::code(near)) }
}

/// The texts that an error carries under a heading.
fn all(error: &clap::Error, kind: ContextKind) -> Vec<String> {
    match error.get(kind) {
        Some(ContextValue::String(text)) => vec![text.clone()],
        Some(ContextValue::Strings(texts)) => texts.clone(),
        _ => Vec::new(),
    }
}

fn first(error: &clap::Error, kind: ContextKind) -> String {
    all(error, kind).into_iter().next().unwrap_or_default()
}

/// `hingeleaf kit [OPTIONS] --out DIR FILE`
fn usage(error: &clap::Error) -> String {
    let usage = error.get(ContextKind::Usage).map(ToString::to_string).unwrap_or_default();
    bare(usage.trim_start_matches("Usage:").trim())
}

/// `--out <DIR>` as it is typed, `--out DIR`.
fn bare(text: &str) -> String {
    text.replace(['<', '>'], "")
}

/// `--out <DIR>` by its name alone, `--out`.
fn short(text: &str) -> String {
    let word = if text.starts_with('-') { text.split([' ', '=']).next().unwrap_or(text) } else { text };
    bare(word)
}
