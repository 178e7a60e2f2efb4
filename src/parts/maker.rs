// SPDX-License-Identifier: MIT
//! What a kind states: how it stands in the file, and how its parts are made.

use super::build::builder::Builder;
use super::spines::carry::Carry;
use crate::album::{Album, Entry, Kind};
use crate::cutter::Cutter;

/// How a spine carries an album's pages, if it is asked how thick these are.
pub type CarryOf = fn(&Album, &Cutter, &dyn Fn() -> Vec<f64>) -> Carry;

/// A kind, and how its parts are made.
#[derive(Debug)]
pub struct Maker {
    /// How it stands in the album file.
    pub kind: Kind,
    /// Adds its parts; the number says which page (from 1) or insert (from 1) it is.
    pub make: fn(&mut Builder<'_>, &Entry, usize),
    /// For a spine: how it carries its pages; the second says how thick each page is, with everything on and in it.
    pub carry: Option<CarryOf>,
    /// An entry of the album file that makes a usual one, its sizes in mm; see [`example`](crate::parts::example).
    pub example: &'static str,
}
