// SPDX-License-Identifier: MIT
//! Which kinds there are. A new kind is a kind file in `filed`, or, where that can't say it, a new file in its folder; and one
//! line of `STATED`.

use super::build::builder::Builder;
use super::maker::Maker;
use super::{covers, edges, inserts, own, pages, spines};
use crate::album::{Entry, Kind};
use std::sync::LazyLock;

/// How a kind is stated.
enum Stated {
    /// In code.
    InCode(&'static Maker),
    /// In a kind file: its text.
    InFile(&'static str),
}

use Stated::{InCode, InFile};

const STATED: &[Stated] = &[
    InFile(include_str!("filed/pocket.json")),
    InFile(include_str!("filed/wallet.json")),
    InCode(&pages::corner::MAKER),
    InCode(&pages::divider::MAKER),
    InCode(&pages::fold_out::MAKER),
    InCode(&pages::frame::MAKER),
    InCode(&pages::gate::MAKER),
    InCode(&pages::library_card::MAKER),
    InCode(&pages::notched::MAKER),
    InCode(&pages::side::MAKER),
    InCode(&pages::sleeve::MAKER),
    InCode(&pages::tuck::MAKER),
    InCode(&pages::waterfall::MAKER),
    // The first spine holds where an album names none.
    InCode(&spines::flexi_hinge::MAKER),
    InCode(&spines::concertina::MAKER),
    InCode(&spines::plain_hinge::MAKER),
    InCode(&spines::stubs::MAKER),
    InCode(&inserts::accordion::MAKER),
    InCode(&inserts::belly_band::MAKER),
    InCode(&inserts::booklet::MAKER),
    InCode(&inserts::envelope::MAKER),
    InCode(&inserts::file_tab::MAKER),
    InFile(include_str!("filed/journal-card.json")),
    InCode(&inserts::photo_mat::MAKER),
    InCode(&inserts::shape::MAKER),
    InFile(include_str!("filed/tag.json")),
    InCode(&covers::case::MAKER),
    InCode(&covers::wrap::MAKER),
    InCode(&covers::ready_made::MAKER),
];

/// Every kind that there is.
pub static ALL: LazyLock<Vec<&'static Maker>> = LazyLock::new(|| {
    let maker = |stated: &Stated| match stated {
        InCode(maker) => Some(*maker),
        InFile(text) => own::built_in(text),
    };
    STATED.iter().filter_map(maker).collect()
});

/// The kind file that states a built-in kind; none where code does.
#[must_use]
pub fn source_of(name: &str) -> Option<&'static str> {
    let text = |stated: &Stated| match stated {
        InCode(_) => None,
        InFile(text) => Some(*text),
    };
    STATED.iter().filter_map(text).find(|text| own::built_in(text).is_some_and(|maker| maker.kind.name == name))
}

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

/// How a kind stands in albums, whether it is built in or one's own.
#[must_use]
pub fn maker_of_kind(kind: &Kind) -> Option<&'static Maker> {
    match kind.file.filter(|file| !file.is_built_in()) {
        Some(file) => own::kept(file),
        None => ALL.iter().copied().find(|maker| maker.kind.role == kind.role && maker.kind.name == kind.name),
    }
}

/// How the kind of an entry is made.
pub(super) fn maker(entry: &Entry) -> Option<&'static Maker> {
    ALL.iter().copied().find(|maker| maker.kind.role == entry.kind.role && maker.kind.name == entry.kind.name)
}

/// How the parts of an entry are added; none as long as it is not known how large it is.
pub(super) fn how(entry: &Entry) -> Option<fn(&mut Builder<'_>, &Entry, usize)> {
    if entry.follows_offcuts() {
        return None;
    }
    if entry.kind.file.is_some() { Some(own::make) } else { maker(entry).map(|maker| maker.make) }
}

/// Adds the parts of one entry; the number says which page or insert it is, from 1.
pub(super) fn make(builder: &mut Builder<'_>, entry: &Entry, number: usize) {
    let Some(how) = how(entry) else { return };
    if entry.edges.is_empty() {
        how(builder, entry, number);
    } else {
        edges::make(builder, how, entry, number);
    }
}
