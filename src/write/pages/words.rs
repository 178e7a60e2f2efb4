// SPDX-License-Identifier: MIT
//! The words of a line, each with what it must not be parted from.
//!
//! Lines break at spaces and after hyphens; never within a number and its unit, nor between a letter's box and what leans on it.

use super::super::pdf::FontFaces;
use crate::guide::{Bit, Line};

/// How words look.
#[derive(Clone, Copy, Debug)]
pub(super) struct Style {
    /// The em, mm.
    pub(super) size: f64,
    /// From one base line to the next, mm.
    pub(super) leading: f64,
    /// Whether all are bold; numbers are.
    pub(super) bold: bool,
    /// Whether they are grey.
    pub(super) soft: bool,
}

/// Letters of a word in one look.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct TextRun {
    pub(super) text: String,
    pub(super) bold: bool,
    /// Whether it is a letter that stands for a part, set in a box.
    pub(super) framed: bool,
}

/// Runs that stand on one line, and whether a space follows.
#[derive(Clone, Debug, Default)]
pub(super) struct TypesetWord {
    pub(super) runs: Vec<TextRun>,
    pub(super) space: bool,
}

impl TypesetWord {
    fn push(&mut self, letter: char, bold: bool) {
        match self.runs.last_mut() {
            Some(last) if last.bold == bold && !last.framed => last.text.push(letter),
            _ => self.runs.push(TextRun { text: letter.into(), bold, framed: false }),
        }
    }
}

/// How wide a run stands, mm; a letter's box has air about it.
pub(super) fn width(faces: &FontFaces, run: &TextRun, size: f64) -> f64 {
    let wide = if run.bold { &faces.bold } else { &faces.plain }.width(&run.text, size);
    if run.framed { (wide + 0.6 * size).max(1.5 * size) } else { wide }
}

/// The words of a line.
pub(super) fn words(line: &Line, style: Style) -> Vec<TypesetWord> {
    let mut words = vec![TypesetWord::default()];
    for bit in &line.0 {
        match bit {
            Bit::Text(text) => {
                for letter in text.chars() {
                    running(&mut words, letter, style.bold);
                }
            }
            Bit::Number(number) => {
                for letter in number.shown.chars().filter_map(clean) {
                    last(&mut words).push(letter, true);
                }
            }
            Bit::Mark(mark) => {
                let text = mark.chars().filter_map(clean).collect();
                last(&mut words).runs.push(TextRun { text, bold: true, framed: true });
            }
        }
    }
    words.retain(|word| !word.runs.is_empty());
    words
}

fn running(words: &mut Vec<TypesetWord>, letter: char, bold: bool) {
    match clean(letter) {
        None => {}
        Some(' ') => {
            let word = last(words);
            if !word.runs.is_empty() {
                word.space = true;
                words.push(TypesetWord::default());
            }
        }
        Some(letter) => {
            last(words).push(letter, bold);
            if letter == '-' {
                words.push(TypesetWord::default());
            }
        }
    }
}

/// The word that goes on.
fn last(words: &mut Vec<TypesetWord>) -> &mut TypesetWord {
    if words.is_empty() {
        words.push(TypesetWord::default());
    }
    let end = words.len() - 1;
    &mut words[end]
}

/// A letter as it can be printed: every break is a space, what has no shape is left out.
fn clean(letter: char) -> Option<char> {
    match letter {
        '\t' | '\n' | '\r' | ' ' => Some(' '),
        // Where a word may be parted, which way it is read: nothing to be seen.
        '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}' => None,
        letter if letter.is_control() => Some('\u{fffd}'),
        letter => Some(letter),
    }
}
