// SPDX-License-Identifier: MIT
//! Two editions, each of a kit or of an order: what they are compared as.

use super::comparison::{Comparison, compare};
use super::edition::Edition;
use super::order::{AnyEdition, OrderEdition};
use super::order_comparison::{CutAgain, OrderComparison, compare_orders};
use super::recut::Recut;
use super::told::{ToldChange, told};
use super::told_order::told_order;

/// Two editions of the same sort: a kit beside an order is an order of one.
#[derive(Clone, Debug)]
pub enum EditionPair {
    /// Two kits, the old one first.
    Kits(Box<[Edition; 2]>),
    /// Two orders, the old one first.
    Orders(Box<[OrderEdition; 2]>),
}

/// The one or the other comparison.
#[derive(Clone, Debug)]
pub enum AnyComparison<'e> {
    /// Of two kits.
    Kits(Comparison<'e>),
    /// Of two orders.
    Orders(OrderComparison<'e>),
}

/// What is cut again, of a kit or of an order.
#[derive(Clone, Copy, Debug)]
pub enum Again<'f> {
    /// For one kit.
    Kit(&'f Recut),
    /// Over the whole order.
    Order(&'f CutAgain),
}

impl EditionPair {
    /// An old edition and a new one.
    #[must_use]
    pub fn of(old: AnyEdition, new: AnyEdition) -> Self {
        match (old, new) {
            (AnyEdition::Kit(old), AnyEdition::Kit(new)) => Self::Kits(Box::new([old, new])),
            (old, new) => Self::Orders(Box::new([old, new].map(OrderEdition::from))),
        }
    }

    /// What the new one has to do with the old one.
    #[must_use]
    pub fn compare(&self) -> AnyComparison<'_> {
        match self {
            Self::Kits(pair) => AnyComparison::Kits(compare(&pair[0], &pair[1])),
            Self::Orders(pair) => AnyComparison::Orders(compare_orders(&pair[0], &pair[1])),
        }
    }
}

impl AnyComparison<'_> {
    /// Everything that there is to say; `names` are those of the files, the old one first.
    #[must_use]
    pub fn told(&self, names: &[String; 2]) -> Vec<ToldChange> {
        match self {
            Self::Kits(found) => told(found, names),
            Self::Orders(found) => told_order(found, names),
        }
    }

    /// What is cut again; none where nothing is.
    #[must_use]
    pub fn again(&self) -> Option<Again<'_>> {
        match self {
            Self::Kits(found) => (!found.recut.is_nothing()).then_some(Again::Kit(&found.recut)),
            Self::Orders(found) => (!found.again.is_nothing()).then_some(Again::Order(&found.again)),
        }
    }
}
