// SPDX-License-Identifier: MIT
//! A formula's text in words, numbers, lengths and signs, each with the letter at which it begins.

use super::formula::Compares;
use crate::finding::{Arg, Said};
use crate::length::{Allow, Length, Units};

/// A formula longer than this is none that anyone can check: our choice.
const LONGEST: usize = 300;

/// What stands in a formula.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Token {
    Number(f64),
    /// A length, mm.
    Length(f64),
    Word(String),
    /// One of `+ - * / ( ) ,`.
    Sign(char),
    Compare(Compares),
}

/// A token, and at which letter of the text it begins, from 0.
#[derive(Clone, Debug)]
pub(super) struct Spotted {
    pub token: Token,
    pub at: usize,
    /// As it is written.
    pub text: String,
}

/// What is wrong with a formula, at which letter, and what to do.
#[derive(Debug)]
pub(super) struct FormulaFault {
    pub at: usize,
    pub text: Said,
    pub help: Said,
}

impl FormulaFault {
    pub(super) const fn new(at: usize, text: Said, help: Said) -> Self {
        Self { at, text, help }
    }
}

/// The tokens of a text.
pub(super) fn tokens(text: &str) -> Result<Vec<Spotted>, FormulaFault> {
    let letters: Vec<char> = text.chars().collect();
    if letters.len() > LONGEST {
        let text = Said::new("formula-too-long").with("letters", letters.len()).with("most", LONGEST);
        return Err(FormulaFault::new(0, text, Said::new("formula-too-long-help")));
    }
    let (mut at, mut found) = (0, Vec::new());
    while let Some(&letter) = letters.get(at) {
        if letter.is_whitespace() {
            at += 1;
            continue;
        }
        let (token, length) = if letter.is_ascii_digit() || letter == '.' {
            quantity(&letters[at..]).map_err(|(text, help)| FormulaFault::new(at, text, help))?
        } else if letter.is_alphabetic() {
            let length = run(&letters[at..], |c| c.is_alphanumeric() || c == '_');
            (Token::Word(letters[at..at + length].iter().collect()), length)
        } else {
            sign(letter, letters.get(at + 1).copied()).ok_or_else(|| {
                let text = Said::new("formula-odd-sign").with("sign", Arg::quoted(letter.to_string()));
                FormulaFault::new(at, text, Said::new("formula-odd-sign-help"))
            })?
        };
        found.push(Spotted { token, at, text: letters[at..at + length].iter().collect() });
        at += length;
    }
    Ok(found)
}

fn sign(letter: char, next: Option<char>) -> Option<(Token, usize)> {
    let or_equal = next == Some('=');
    let compare = |comparison, length| Some((Token::Compare(comparison), length));
    match letter {
        '+' | '-' | '*' | '/' | '(' | ')' | ',' => Some((Token::Sign(letter), 1)),
        // As they are printed.
        '\u{2212}' | '\u{2013}' => Some((Token::Sign('-'), 1)),
        '\u{d7}' => Some((Token::Sign('*'), 1)),
        '<' if or_equal => compare(Compares::AtMost, 2),
        '<' => compare(Compares::Less, 1),
        '>' if or_equal => compare(Compares::AtLeast, 2),
        '>' => compare(Compares::More, 1),
        '\u{2264}' => compare(Compares::AtMost, 1),
        '\u{2265}' => compare(Compares::AtLeast, 1),
        '=' => compare(Compares::Equal, 1),
        _ => None,
    }
}

/// How many letters from the start on are of this sort.
fn run(letters: &[char], of: impl Fn(char) -> bool) -> usize {
    letters.iter().take_while(|letter| of(**letter)).count()
}

/// A number, or a length with its unit: `12`, `3.2 mm`, `1/2 in`, `5 1/4 in`. Without a unit behind it only the number.
fn quantity(letters: &[char]) -> Result<(Token, usize), (Said, Said)> {
    let digits = |from: usize| from + run(&letters[from..], |c| c.is_ascii_digit());
    let spaces = |from: usize| from + run(&letters[from..], char::is_whitespace);
    let decimal = run(letters, |c| c.is_ascii_digit() || c == '.');
    // A tight fraction behind a whole number, or the number as its upper half.
    let fraction = |from: usize| {
        let over = digits(from);
        let under = (over > from && letters.get(over) == Some(&'/')).then(|| digits(over + 1))?;
        (under > over + 1).then_some(under)
    };
    let ends = [fraction(0), (spaces(decimal) > decimal).then(|| fraction(spaces(decimal))).flatten(), Some(decimal)];
    for end in ends.into_iter().flatten() {
        let unit = spaces(end);
        let after = unit + run(&letters[unit..], char::is_alphabetic);
        let name: String = letters[unit..after].iter().collect();
        if Units::parse(&name).is_some() {
            let text: String = letters[..after].iter().collect();
            let length = Length::parse(&text, Units::Mm, Allow::Plain);
            return match length {
                Ok(length) => Ok((Token::Length(length.mm()), after)),
                Err(error) => Err((Said::new("formula-bad-length").with("what", error.what()), error.help())),
            };
        }
    }
    let text: String = letters[..decimal].iter().collect();
    let number = text.parse::<f64>().ok().filter(|number| number.is_finite() && *number <= 1e6);
    number.map(|number| (Token::Number(number), decimal)).ok_or_else(|| {
        let said = Said::new("formula-bad-number").with("number", Arg::quoted(text));
        (said, Said::new("formula-bad-number-help"))
    })
}
