// SPDX-License-Identifier: MIT
//! Which kinds there are. A new kind is a new file in its folder, and one line of [`ALL`].

use super::build::builder::Builder;
use super::spines::carry::Carry;
use super::{covers, inserts, pages, spines};
use crate::album::{Album, Entry, Kind};

/// Every kind that there is.
pub const ALL: &[&Maker] = &[
    &pages::pocket::MAKER,
    &pages::wallet::MAKER,
    &pages::corner::MAKER,
    &pages::divider::MAKER,
    &pages::fold_out::MAKER,
    &pages::frame::MAKER,
    &pages::gate::MAKER,
    &pages::library::MAKER,
    &pages::notched::MAKER,
    &pages::side::MAKER,
    &pages::sleeve::MAKER,
    &pages::tuck::MAKER,
    &pages::waterfall::MAKER,
    // The first spine holds where an album names none.
    &spines::flexi_hinge::MAKER,
    &spines::concertina::MAKER,
    &spines::plain_hinge::MAKER,
    &spines::stubs::MAKER,
    &inserts::accordion::MAKER,
    &inserts::belly_band::MAKER,
    &inserts::booklet::MAKER,
    &inserts::envelope::MAKER,
    &inserts::file_tab::MAKER,
    &inserts::journal_card::MAKER,
    &inserts::photo_mat::MAKER,
    &inserts::tag::MAKER,
    &covers::case::MAKER,
    &covers::wrap::MAKER,
];

/// A kind, and how its parts are made.
#[derive(Debug)]
pub struct Maker {
    /// How it stands in the album file.
    pub kind: Kind,
    /// Adds its parts; the number says which page (from 1) or insert (from 1) it is.
    pub make: fn(&mut Builder<'_>, &Entry, usize),
    /// For a spine: how it carries its pages.
    pub carry: Option<fn(&Album) -> Carry>,
    /// An entry of the album file that makes a usual one, its sizes in mm; see [`example`].
    pub example: &'static str,
}

/// The kinds, as the album file's reader wants them.
#[must_use]
pub fn kinds() -> Vec<&'static Kind> {
    ALL.iter().map(|maker| &maker.kind).collect()
}

/// Adds the parts of one entry; the number says which page or insert it is, from 1.
pub(super) fn make(builder: &mut Builder<'_>, entry: &Entry, number: usize) {
    let maker = ALL.iter().find(|maker| maker.kind.role == entry.kind.role && maker.kind.name == entry.kind.name);
    if let Some(maker) = maker {
        (maker.make)(builder, entry, number);
    }
}
