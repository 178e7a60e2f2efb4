// SPDX-License-Identifier: MIT
//! `--handed-over scored` for every stock, `--handed-over card=scored` for one.

use super::inputs::{argument, of_option};
use hingeleaf::album::{Album, Handed};
use hingeleaf::fields::{meant_or, nearest};
use hingeleaf::finding::{Arg, Finding, Said};
use hingeleaf::stock;

const OPTION: &str = "--handed-over";

/// What is said, and what is wrong with the words of it.
pub(super) fn read(said: &[String]) -> (Vec<(Option<&str>, Handed)>, Vec<Finding>) {
    let (mut read, mut findings) = (Vec::new(), Vec::new());
    for text in said {
        let (stock, word) = match text.split_once('=') {
            Some((stock, word)) => (Some(stock), word),
            None => (None, text.as_str()),
        };
        if let Some(handed) = Handed::ALL.into_iter().find(|handed| handed.word() == word) {
            read.push((stock, handed));
        } else {
            let help = meant_or("allowed", word, Handed::ALL.iter().map(|handed| handed.word()));
            let text = Said::new("not-handed-over").with("word", Arg::quoted(word));
            findings.push(argument(of_option(OPTION, text), help));
        }
    }
    (read, findings)
}

/// The same of all albums of a batch: a stock that one of them has not another one has.
pub(super) fn hand_over_all<'a>(
    albums: impl Iterator<Item = &'a mut Album>,
    said: &[(Option<&str>, Handed)],
) -> Vec<Finding> {
    let wrong: Vec<Vec<Finding>> = albums.map(|album| hand_over(album, said)).collect();
    let Some(first) = wrong.first() else { return Vec::new() };
    let nowhere = |finding: &&Finding| wrong.iter().all(|other| other.iter().any(|other| other.text == finding.text));
    first.iter().filter(nowhere).cloned().collect()
}

/// Hands over as is said, instead of what the file says of these stocks; what is wrong with the stocks' names.
pub(super) fn hand_over(album: &mut Album, said: &[(Option<&str>, Handed)]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (stock, handed) in said {
        let names = || stock::names(&album.stocks);
        let number = stock.map(|stock| names().position(|name| name == stock));
        if number == Some(None) {
            let name = stock.unwrap_or_default();
            let help = match nearest(name, names()) {
                Some(near) => Said::new("option-meant").with("value", Arg::code(format!("{near}={}", handed.word()))),
                None => Said::new("stocks-there-are").with("names", Arg::Row(names().map(Arg::code).collect())),
            };
            findings
                .push(argument(of_option(OPTION, Said::new("no-such-stock").with("name", Arg::quoted(name))), help));
            continue;
        }
        album.hand_over(number.flatten(), *handed);
    }
    findings
}
