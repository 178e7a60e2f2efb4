// SPDX-License-Identifier: MIT
//! What formulas are once they are read, and what they come to.

use super::scope::Scope;
use super::symbol::Symbol;
use crate::finding::Place;

/// What a formula comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// So many mm.
    Length,
    /// A plain number.
    Number,
}

/// One of the four ways to join two values.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Operation {
    Plus,
    Minus,
    Times,
    Over,
}

/// A formula as a tree.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Term {
    /// A number or, in mm, a length.
    Value(f64),
    Name(Symbol),
    Minus(Box<Self>),
    Both(Operation, Box<Self>, Box<Self>),
    Least(Vec<Self>),
    Most(Vec<Self>),
    /// Rounded down to what a ruler has.
    Ruler(Box<Self>),
}

/// A formula of a kind file.
#[derive(Clone, Debug)]
pub struct Formula {
    pub(super) term: Term,
    /// What it comes to.
    pub measure: Quantity,
    /// As it is written.
    pub text: String,
    /// Where.
    pub place: Place,
}

/// How two values are compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Compares {
    Less,
    AtMost,
    More,
    AtLeast,
    Equal,
}

/// A condition as a tree.
#[derive(Clone, Debug)]
pub(super) enum Test {
    Compare(Term, Compares, Term),
    /// Whether the word of a choice is this one of its words.
    Word(usize, usize),
    All(Vec<Self>),
    Any(Vec<Self>),
}

/// A condition of a kind file: `flap > 0`.
#[derive(Clone, Debug)]
pub struct Condition {
    pub(super) test: Test,
    /// As it is written.
    pub text: String,
    /// Where.
    pub place: Place,
}

impl Term {
    fn value(&self, scope: &Scope<'_>) -> f64 {
        let all = |terms: &[Self]| terms.iter().map(|term| term.value(scope)).collect::<Vec<f64>>();
        match self {
            Self::Value(value) => *value,
            Self::Name(symbol) => scope.of(*symbol),
            Self::Minus(term) => -term.value(scope),
            Self::Both(operation, one, other) => {
                let (one, other) = (one.value(scope), other.value(scope));
                match operation {
                    Operation::Plus => one + other,
                    Operation::Minus => one - other,
                    Operation::Times => one * other,
                    Operation::Over => one / other,
                }
            }
            Self::Least(terms) => all(terms).into_iter().fold(f64::INFINITY, f64::min),
            Self::Most(terms) => all(terms).into_iter().fold(f64::NEG_INFINITY, f64::max),
            Self::Ruler(term) => scope.on_ruler(term.value(scope)),
        }
    }

    /// The sizes of the kind that it names.
    fn sizes(&self, into: &mut Vec<usize>) {
        match self {
            Self::Name(Symbol::Size(size)) => {
                if !into.contains(size) {
                    into.push(*size);
                }
            }
            Self::Value(_) | Self::Name(_) => {}
            Self::Minus(term) | Self::Ruler(term) => term.sizes(into),
            Self::Both(_, one, other) => {
                one.sizes(into);
                other.sizes(into);
            }
            Self::Least(terms) | Self::Most(terms) => terms.iter().for_each(|term| term.sizes(into)),
        }
    }

    fn is_fixed(&self) -> bool {
        match self {
            Self::Value(_) => true,
            Self::Name(_) | Self::Ruler(_) => false,
            Self::Minus(term) => term.is_fixed(),
            Self::Both(_, one, other) => one.is_fixed() && other.is_fixed(),
            Self::Least(terms) | Self::Most(terms) => terms.iter().all(Self::is_fixed),
        }
    }
}

impl Formula {
    /// What it comes to, in mm or as a number; not finite where it divides by nothing.
    #[must_use]
    pub fn value(&self, scope: &Scope<'_>) -> f64 {
        self.term.value(scope)
    }

    /// What it comes to whatever the sizes are, if it names none.
    #[must_use]
    pub fn fixed(&self) -> Option<f64> {
        self.term.is_fixed().then(|| self.term.value(&Scope::none())).filter(|value| value.is_finite())
    }

    /// The size that it is, where it is one and nothing else.
    #[must_use]
    pub fn one_size(&self) -> Option<usize> {
        match self.term {
            Term::Name(Symbol::Size(size)) => Some(size),
            _ => None,
        }
    }

    /// The sizes of the kind that it names.
    #[must_use]
    pub fn sizes(&self) -> Vec<usize> {
        let mut sizes = Vec::new();
        self.term.sizes(&mut sizes);
        sizes
    }
}

impl Test {
    fn holds(&self, scope: &Scope<'_>) -> bool {
        match self {
            Self::Compare(one, comparison, other) => {
                let (one, other) = (one.value(scope), other.value(scope));
                match comparison {
                    Compares::Less => one < other,
                    Compares::AtMost => one <= other,
                    Compares::More => one > other,
                    Compares::AtLeast => one >= other,
                    Compares::Equal => (one - other).abs() < crate::length::tolerance::SAME,
                }
            }
            Self::Word(size, word) => scope.word(*size) == Some(*word),
            Self::All(tests) => tests.iter().all(|test| test.holds(scope)),
            Self::Any(tests) => tests.iter().any(|test| test.holds(scope)),
        }
    }

    fn sizes(&self, into: &mut Vec<usize>) {
        match self {
            Self::Compare(one, _, other) => {
                one.sizes(into);
                other.sizes(into);
            }
            Self::Word(size, _) => {
                if !into.contains(size) {
                    into.push(*size);
                }
            }
            Self::All(tests) | Self::Any(tests) => tests.iter().for_each(|test| test.sizes(into)),
        }
    }
}

impl Condition {
    /// Whether it holds.
    #[must_use]
    pub fn holds(&self, scope: &Scope<'_>) -> bool {
        self.test.holds(scope)
    }

    /// The sizes of the kind that it names.
    #[must_use]
    pub fn sizes(&self) -> Vec<usize> {
        let mut sizes = Vec::new();
        self.test.sizes(&mut sizes);
        sizes
    }
}
