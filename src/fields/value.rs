// SPDX-License-Identifier: MIT
//! What one field of an object held.

use super::tree::Node;
use crate::finding::Place;
use crate::length::Length;

/// What one field held.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub enum Value {
    /// A length.
    Length(Length),
    /// A whole number.
    Count(u32),
    /// A number without a unit.
    Amount(f64),
    /// A text.
    Text(String),
    /// One of the field's words.
    Choice(&'static str),
    /// Yes or no.
    Flag(bool),
    /// Whole numbers, each with its place.
    Counts(Vec<(u32, Place)>),
    /// Texts, each with its place.
    Texts(Vec<(String, Place)>),
    /// A value for another reader.
    Nested(Node),
}
