// SPDX-License-Identifier: MIT
//! What is said about a cross-section: which pages lie on which side, and what they are called.

use crate::fit::linkage::{Bar, Opening};

/// Says so where no leaf on top slopes.
pub(super) fn flat(opening: &Opening) -> Option<String> {
    (opening.lift < 0.05).then(|| "Both pages on top lie flat".into())
}

pub(super) fn title(opening: &Opening) -> String {
    let (before, after) = (opening.between.saturating_sub(1), opening.between);
    let cover = |index: usize| opening.bars.get(index).is_none_or(|bar| bar.cover);
    match (opening.between, cover(before), cover(after)) {
        (0, ..) => "Open".into(),
        (_, false, false) => {
            format!("Open between pages {} and {}", number(&opening.bars, before), number(&opening.bars, after))
        }
        _ => format!("Open between {} and {}", name(&opening.bars, before), name(&opening.bars, after)),
    }
}

/// The number of a page: covers have none.
pub(super) fn number(bars: &[Bar], index: usize) -> usize {
    bars.iter().take(index + 1).filter(|bar| !bar.cover).count()
}

pub(super) fn name(bars: &[Bar], index: usize) -> String {
    match bars.get(index) {
        Some(bar) if bar.cover && index == 0 => "the front cover".into(),
        Some(bar) if bar.cover => "the back cover".into(),
        _ => format!("page {}", number(bars, index)),
    }
}

pub(super) fn names(bars: &[Bar], range: std::ops::Range<usize>) -> String {
    let covers = range.clone().filter(|index| bars.get(*index).is_some_and(|bar| bar.cover));
    let mut words: Vec<String> = covers.map(|index| name(bars, index).trim_start_matches("the ").to_owned()).collect();
    let pages: Vec<usize> = range.filter(|index| bars.get(*index).is_some_and(|bar| !bar.cover)).collect();
    match pages[..] {
        [] => {}
        [page] => words.push(format!("page {}", number(bars, page))),
        [one, two] => words.push(format!("pages {} and {}", number(bars, one), number(bars, two))),
        [first, .., last] => words.push(format!("pages {} to {}", number(bars, first), number(bars, last))),
    }
    words.join(", ")
}

pub(super) fn upper(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().collect::<String>() + letters.as_str()).unwrap_or_default()
}
