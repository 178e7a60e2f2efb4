// SPDX-License-Identifier: MIT
//! Edges of pages and inserts that are cut in a pattern.
//!
//! In: an entry that asks for it, and its maker. Out: the entry's pieces with their edges cut, and what that costs its pockets,
//! flaps and papers; or why it can't be. Never: knows a kind.
//!
//! An entry is made twice: first alone and uncut, to see which of its edges are free once all is folded and stuck; then for the kit.
//! `named` says what its edges are called, `kept` what of them must stay, `chosen` what is cut, `rows` where rows of cuts are,
//! `effects` what else that changes.

mod chosen;
mod effects;
mod kept;
mod named;
mod rows;
mod says;

use super::build::builder::Builder;
use crate::album::Entry;
use crate::finding::stops;
use chosen::chosen;
use effects::{Before, effects};
use kept::Uncut;
pub(in crate::parts) use rows::SLOT;
use says::Saying;

/// How the parts of an entry are added.
type Make = fn(&mut Builder<'_>, &Entry, usize);

/// What of an entry may be cut: the names of its free edges, and of the pieces that have free corners.
pub(in crate::parts) fn free(builder: &Builder<'_>, make: Make, entry: &Entry, number: usize) -> Vec<String> {
    let mut trial = builder.alone();
    let pockets = trial.pockets().len();
    make(&mut trial, entry, number);
    if stops(trial.findings()) {
        return Vec::new();
    }
    let uncut = Uncut::of(&trial);
    let sides = named::sides(&uncut, entry, builder.album.bound, &trial.pockets()[pockets..]);
    let mut names = named::free_names(&sides);
    names.extend(named::cornered(&named::corners(&sides)));
    names
}

/// Adds the parts of an entry with its edges cut.
pub(in crate::parts) fn make(builder: &mut Builder<'_>, make: Make, entry: &Entry, number: usize) {
    let mut trial = builder.alone();
    let pockets = trial.pockets().len();
    make(&mut trial, entry, number);
    // What is wrong with its sizes is told once.
    if stops(trial.findings()) {
        make(builder, entry, number);
        return;
    }
    let says = Saying::of(builder.album, entry, number);
    let uncut = Uncut::of(&trial);
    let mut chosen = chosen(&uncut, entry, builder.album.bound, &trial.pockets()[pockets..], &says);
    if !chosen.findings.is_empty() {
        chosen.findings.drain(..).for_each(|finding| builder.find(finding));
        make(builder, entry, number);
        return;
    }
    let before = Before::of(builder);
    builder.cut_edges(std::mem::take(&mut chosen.pieces));
    make(builder, entry, number);
    builder.cut_edges(Vec::new());
    effects(builder, &before, &chosen);
}
