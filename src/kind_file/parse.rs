// SPDX-License-Identifier: MIT
//! Reads formulas and conditions, and checks that lengths go with lengths.
//!
//! ```text
//! condition = all { "or" all }          all     = compared { "and" compared }
//! compared  = sum sign sum              sum     = product { "+"|"-" product }
//! product   = factor { "*"|"/" factor } factor  = ["-"] ( value | name | "(" sum ")" | min(…) | max(…) | ruler(…) )
//! ```

use super::formula::{Compares, Operation, Quantity, Term, Test};
use super::symbol::Symbol;
use super::token::{FormulaFault, Spotted, Token, tokens};
use crate::fields::meant_or;
use crate::finding::{Arg, Said};

/// Brackets within brackets: our choice; no sound formula has as many.
const DEEPEST: usize = 24;

/// What a name stands for.
#[derive(Clone, Debug)]
pub(super) enum KnownName {
    Value(Symbol, Quantity),
    /// A choice: its place among the sizes, its words.
    Choice(usize, Vec<String>),
}

/// The names that a formula may use.
#[derive(Clone, Debug, Default)]
pub(super) struct Names(pub Vec<(String, KnownName)>);

impl Names {
    fn get(&self, name: &str) -> Option<&KnownName> {
        self.0.iter().find(|(known, _)| known == name).map(|(_, known)| known)
    }
}

/// Words of the formulas themselves; no size may be called so.
pub(super) const OWN_WORDS: &[&str] = &["min", "max", "ruler", "and", "or", "mm", "cm", "in"];

/// What is measured: a value that is 0 whatever its unit goes with both.
#[derive(Clone, Debug)]
struct Typed {
    term: Term,
    measure: Option<Quantity>,
    at: usize,
}

/// A formula that comes to this.
pub(super) fn formula(text: &str, names: &Names, wanted: Quantity) -> Result<Term, FormulaFault> {
    let mut parser = Parser::new(text, names)?;
    let sum = parser.sum(0)?;
    parser.ended()?;
    match sum.measure {
        Some(measure) if measure != wanted => Err(if wanted == Quantity::Length {
            FormulaFault::new(sum.at, Said::new("formula-wants-length"), Said::new("formula-wants-length-help"))
        } else {
            FormulaFault::new(sum.at, Said::new("formula-wants-number"), Said::new("formula-wants-number-help"))
        }),
        _ => Ok(sum.term),
    }
}

/// A condition.
pub(super) fn condition(text: &str, names: &Names) -> Result<Test, FormulaFault> {
    let mut parser = Parser::new(text, names)?;
    let test = parser.any()?;
    parser.ended()?;
    Ok(test)
}

struct Parser<'n> {
    tokens: Vec<Spotted>,
    next: usize,
    letters: usize,
    names: &'n Names,
}

impl<'n> Parser<'n> {
    fn new(text: &str, names: &'n Names) -> Result<Self, FormulaFault> {
        let tokens = tokens(text)?;
        if tokens.is_empty() {
            return Err(FormulaFault::new(0, Said::new("formula-empty"), Said::new("formula-empty-help")));
        }
        Ok(Self { tokens, next: 0, letters: text.chars().count(), names })
    }

    fn peek(&self) -> Option<&Token> {
        self.tokens.get(self.next).map(|spotted| &spotted.token)
    }

    fn at(&self) -> usize {
        self.tokens.get(self.next).map_or(self.letters, |spotted| spotted.at)
    }

    fn take(&mut self, sign: char) -> bool {
        let is = self.peek() == Some(&Token::Sign(sign));
        self.next += usize::from(is);
        is
    }

    fn take_word(&mut self, word: &str) -> bool {
        let is = matches!(self.peek(), Some(Token::Word(found)) if found == word);
        self.next += usize::from(is);
        is
    }

    /// What stands here does not belong here.
    fn unexpected(&self) -> FormulaFault {
        match self.tokens.get(self.next) {
            Some(found) => {
                let text = Said::new("formula-unexpected").with("found", Arg::quoted(&found.text));
                FormulaFault::new(found.at, text, Said::new("formula-unexpected-help"))
            }
            None => FormulaFault::new(self.letters, Said::new("formula-ends"), Said::new("formula-ends-help")),
        }
    }

    fn ended(&self) -> Result<(), FormulaFault> {
        if self.next < self.tokens.len() { Err(self.unexpected()) } else { Ok(()) }
    }

    fn sum(&mut self, depth: usize) -> Result<Typed, FormulaFault> {
        let mut all = self.product(depth)?;
        loop {
            let (at, operation) = match self.peek() {
                Some(Token::Sign('+')) => (self.at(), Operation::Plus),
                Some(Token::Sign('-')) => (self.at(), Operation::Minus),
                _ => return Ok(all),
            };
            self.next += 1;
            let other = self.product(depth)?;
            let measure = alike(&all, &other, at)?;
            all = Typed { term: both(operation, all.term, other.term), measure, at: all.at };
        }
    }

    fn product(&mut self, depth: usize) -> Result<Typed, FormulaFault> {
        let mut all = self.factor(depth)?;
        loop {
            let (at, times) = match self.peek() {
                Some(Token::Sign('*')) => (self.at(), true),
                Some(Token::Sign('/')) => (self.at(), false),
                _ => return Ok(all),
            };
            self.next += 1;
            let other = self.factor(depth)?;
            let is_length = |one: &Typed| one.measure == Some(Quantity::Length);
            let measure = match (times, is_length(&all), is_length(&other)) {
                (true, true, true) => {
                    return Err(FormulaFault::new(at, Said::new("formula-area"), Said::new("formula-area-help")));
                }
                (false, false, true) => {
                    return Err(FormulaFault::new(
                        at,
                        Said::new("formula-over-length"),
                        Said::new("formula-over-length-help"),
                    ));
                }
                (false, true, true) => Quantity::Number,
                (_, one, other) if one || other => Quantity::Length,
                _ => Quantity::Number,
            };
            let operation = if times { Operation::Times } else { Operation::Over };
            all = Typed { term: both(operation, all.term, other.term), measure: Some(measure), at: all.at };
        }
    }

    fn factor(&mut self, depth: usize) -> Result<Typed, FormulaFault> {
        let at = self.at();
        if depth > DEEPEST {
            let text = Said::new("formula-too-deep").with("most", DEEPEST);
            return Err(FormulaFault::new(at, text, Said::new("formula-too-deep-help")));
        }
        let Some(token) = self.peek().cloned() else { return Err(self.unexpected()) };
        let value = |term, measure| Ok(Typed { term, measure, at });
        match token {
            Token::Sign('-') => {
                self.next += 1;
                let inner = self.factor(depth + 1)?;
                value(Term::Minus(inner.term.into()), inner.measure)
            }
            Token::Sign('(') => {
                self.next += 1;
                let inner = self.sum(depth + 1)?;
                self.closed(at)?;
                Ok(Typed { at, ..inner })
            }
            Token::Number(number) => {
                self.next += 1;
                let nothing = number == 0.0;
                value(Term::Value(number), (!nothing).then_some(Quantity::Number))
            }
            Token::Length(mm) => {
                self.next += 1;
                value(Term::Value(mm), Some(Quantity::Length))
            }
            Token::Word(word) => {
                self.next += 1;
                if self.peek() == Some(&Token::Sign('(')) { self.call(&word, at, depth) } else { self.named(&word, at) }
            }
            _ => Err(self.unexpected()),
        }
    }

    fn named(&self, word: &str, at: usize) -> Result<Typed, FormulaFault> {
        match self.names.get(word) {
            Some(KnownName::Value(symbol, measure)) => {
                Ok(Typed { term: Term::Name(*symbol), measure: Some(*measure), at })
            }
            Some(KnownName::Choice(..)) => {
                let text = Said::new("formula-is-word").with("name", Arg::code(word));
                Err(FormulaFault::new(at, text, Said::new("formula-is-word-help").with("name", word)))
            }
            None => Err(self.unknown(word, at)),
        }
    }

    fn unknown(&self, word: &str, at: usize) -> FormulaFault {
        let text = Said::new("formula-unknown-name").with("name", Arg::quoted(word));
        let values = self.names.0.iter().filter(|(_, known)| matches!(known, KnownName::Value(..)));
        FormulaFault::new(at, text, meant_or("formula-names-help", word, values.map(|(name, _)| name.as_str())))
    }

    fn closed(&mut self, opened: usize) -> Result<(), FormulaFault> {
        if self.take(')') {
            return Ok(());
        }
        if self.peek().is_some() {
            return Err(self.unexpected());
        }
        Err(FormulaFault::new(opened, Said::new("formula-open"), Said::new("formula-open-help")))
    }

    fn call(&mut self, word: &str, at: usize, depth: usize) -> Result<Typed, FormulaFault> {
        if !["min", "max", "ruler"].contains(&word) {
            let text = Said::new("formula-unknown-call").with("name", Arg::quoted(word));
            return Err(FormulaFault::new(at, text, Said::new("formula-unknown-call-help")));
        }
        let opened = self.at();
        self.next += 1;
        let first = self.sum(depth + 1)?;
        let mut measure = first.measure;
        let mut terms = vec![first];
        while self.take(',') {
            let one = self.sum(depth + 1)?;
            measure = alike(&Typed { measure, ..one.clone() }, &one, one.at)?;
            terms.push(one);
        }
        self.closed(opened)?;
        let single = word == "ruler";
        if single != (terms.len() == 1) {
            let text = if single { "formula-ruler-one" } else { "formula-one-value" };
            let text = Said::new(text).with("name", Arg::code(word));
            return Err(FormulaFault::new(at, text, Said::new("formula-calls-help")));
        }
        if single && measure == Some(Quantity::Number) {
            return Err(FormulaFault::new(
                at,
                Said::new("formula-ruler-number"),
                Said::new("formula-wants-length-help"),
            ));
        }
        let mut terms: Vec<Term> = terms.into_iter().map(|typed| typed.term).collect();
        let term = match (word, terms.pop()) {
            ("ruler", Some(term)) => Term::Ruler(term.into()),
            ("min", Some(last)) => Term::Least(terms.into_iter().chain([last]).collect()),
            (_, last) => Term::Most(terms.into_iter().chain(last).collect()),
        };
        Ok(Typed { term, measure, at })
    }

    fn any(&mut self) -> Result<Test, FormulaFault> {
        let mut tests = vec![self.all()?];
        while self.take_word("or") {
            tests.push(self.all()?);
        }
        Ok(if tests.len() == 1 { tests.remove(0) } else { Test::Any(tests) })
    }

    fn all(&mut self) -> Result<Test, FormulaFault> {
        let mut tests = vec![self.compared()?];
        while self.take_word("and") {
            tests.push(self.compared()?);
        }
        Ok(if tests.len() == 1 { tests.remove(0) } else { Test::All(tests) })
    }

    fn compared(&mut self) -> Result<Test, FormulaFault> {
        if let Some(Token::Word(name)) = self.peek()
            && let Some(KnownName::Choice(size, words)) = self.names.get(name)
        {
            let (size, words) = (*size, words.clone());
            self.next += 1;
            return self.word_of(size, &words);
        }
        let one = self.sum(0)?;
        let at = self.at();
        let Some(Token::Compare(comparison)) = self.peek().cloned() else {
            if self.peek().is_some() {
                return Err(self.unexpected());
            }
            return Err(FormulaFault::new(
                at,
                Said::new("formula-no-comparison"),
                Said::new("formula-no-comparison-help"),
            ));
        };
        self.next += 1;
        let other = self.sum(0)?;
        alike(&one, &other, at)?;
        Ok(Test::Compare(one.term, comparison, other.term))
    }

    fn word_of(&mut self, size: usize, words: &[String]) -> Result<Test, FormulaFault> {
        if self.peek() != Some(&Token::Compare(Compares::Equal)) {
            return Err(self.unexpected());
        }
        self.next += 1;
        let Some(Token::Word(word)) = self.peek().cloned() else { return Err(self.unexpected()) };
        let Some(number) = words.iter().position(|known| *known == word) else {
            let text = Said::new("formula-unknown-word").with("word", Arg::quoted(&word));
            let help = meant_or("formula-words-help", &word, words.iter().map(String::as_str));
            return Err(FormulaFault::new(self.at(), text, help));
        };
        self.next += 1;
        Ok(Test::Word(size, number))
    }
}

fn both(operation: Operation, one: Term, other: Term) -> Term {
    Term::Both(operation, one.into(), other.into())
}

/// What two values are that are added or compared; a length and a number do not go together.
fn alike(one: &Typed, other: &Typed, at: usize) -> Result<Option<Quantity>, FormulaFault> {
    match (one.measure, other.measure) {
        (Some(one), Some(other)) if one != other => {
            Err(FormulaFault::new(at, Said::new("formula-mixed"), Said::new("formula-mixed-help")))
        }
        (one, other) => Ok(one.or(other)),
    }
}
