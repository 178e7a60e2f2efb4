// SPDX-License-Identifier: MIT
//! Which kinds there are. A new kind is a kind file in `filed`, and nothing besides; or, where that can't say it, a new file in its
//! folder and a line of `IN_CODE`.

use super::build::builder::Builder;
use super::maker::Maker;
use super::{covers, edges, inserts, own, pages, spines};
use crate::album::{Entry, Kind, Role};
use std::sync::LazyLock;

/// The kinds that code states.
const IN_CODE: &[&Maker] = &[
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
    &spines::flexi_hinge::MAKER,
    &spines::concertina::MAKER,
    &spines::plain_hinge::MAKER,
    &spines::stubs::MAKER,
    &inserts::accordion::MAKER,
    &inserts::belly_band::MAKER,
    &inserts::booklet::MAKER,
    &inserts::envelope::MAKER,
    &inserts::file_tab::MAKER,
    &inserts::photo_mat::MAKER,
    &inserts::shape::MAKER,
    &covers::case::MAKER,
    &covers::wrap::MAKER,
    &covers::ready_made::MAKER,
];

/// The texts of all kind files that lie in `filed`, by their names.
static IN_FILES: &[&str] = &include!(concat!(env!("OUT_DIR"), "/filed.rs"));

/// What comes first among its like: the plain kinds of page; the spine that holds where an album names none.
const FIRST: [&str; 3] = ["pocket", "wallet", "flexi-hinge"];

/// Every kind that there is: pages, spines, inserts, covers, each by name behind those that come first. Covers have no order of their own.
pub static ALL: LazyLock<Vec<&'static Maker>> = LazyLock::new(|| {
    let mut all: Vec<&'static Maker> = IN_CODE.to_vec();
    all.extend(IN_FILES.iter().filter_map(|text| own::built_in(text)));
    all.sort_by_key(|maker| {
        let (role, name) = (maker.kind.role, maker.kind.name);
        let place = [Role::Page, Role::Spine, Role::Insert, Role::Cover].iter().position(|one| *one == role);
        let first = FIRST.iter().position(|first| *first == name).unwrap_or(FIRST.len());
        (place, first, if role == Role::Cover { "" } else { name })
    });
    all
});

/// The kind file that states a built-in kind; none where code does.
#[must_use]
pub fn source_of(name: &str) -> Option<&'static str> {
    let is_it = |text: &&'static str| own::built_in(text).is_some_and(|maker| maker.kind.name == name);
    IN_FILES.iter().copied().find(is_it)
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
