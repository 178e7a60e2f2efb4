// SPDX-License-Identifier: MIT
//! Which kinds there are. A new kind is a new file in its folder, and one line of [`ALL`].

use super::build::builder::Builder;
use super::maker::Maker;
use super::{covers, edges, inserts, pages, spines};
use crate::album::{Entry, Kind};

/// Every kind that there is.
pub const ALL: &[&Maker] = &[
    &pages::pocket::MAKER,
    &pages::wallet::MAKER,
    &pages::corner::MAKER,
    &pages::divider::MAKER,
    &pages::fold_out::MAKER,
    &pages::frame::MAKER,
    &pages::gate::MAKER,
    &pages::library_card::MAKER,
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
    &inserts::shape::MAKER,
    &inserts::tag::MAKER,
    &covers::case::MAKER,
    &covers::wrap::MAKER,
    &covers::ready_made::MAKER,
];

/// The kinds, as the album file's reader wants them.
#[must_use]
pub fn kinds() -> Vec<&'static Kind> {
    ALL.iter().map(|maker| &maker.kind).collect()
}

/// Width and height of a usual one of a kind, mm: its proportion. None where its example does not say both.
#[must_use]
pub(crate) fn usual_size(kind: &Kind) -> Option<[f64; 2]> {
    let maker = ALL.iter().find(|maker| maker.kind.role == kind.role && maker.kind.name == kind.name)?;
    let example: serde_json::Value = serde_json::from_str(maker.example).ok()?;
    Some([example["width"].as_f64()?, example["height"].as_f64()?])
}

/// How the kind of an entry is made.
pub(super) fn maker(entry: &Entry) -> Option<&'static Maker> {
    ALL.iter().copied().find(|maker| maker.kind.role == entry.kind.role && maker.kind.name == entry.kind.name)
}

/// Adds the parts of one entry; the number says which page or insert it is, from 1.
pub(super) fn make(builder: &mut Builder<'_>, entry: &Entry, number: usize) {
    // Nobody knows yet how large it is.
    if let Some(maker) = maker(entry).filter(|_| !entry.follows_offcuts()) {
        if entry.edges.is_empty() {
            (maker.make)(builder, entry, number);
        } else {
            edges::make(builder, maker.make, entry, number);
        }
    }
}
