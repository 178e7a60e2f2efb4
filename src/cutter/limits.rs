// SPDX-License-Identifier: MIT
//! Where in its file a limit stands that no field is wrong of alone.

use crate::fields::{Node, Source, Tree};
use crate::finding::Finding;

/// The fields between which a limit is, the one that has to give way first.
#[must_use]
pub fn limited(id: &str) -> &'static [&'static str] {
    match id {
        "shared-cuts-gap" => &["gap", "shared_cuts"],
        "nicks-gap" => &["gap", "nicks"],
        "bleed-gap" => &["gap", "marks"],
        "bleed-margin" => &["margin", "marks"],
        "sheets-a-bed" => &["bed", "sheets_a_bed"],
        "corner-help-trail" => &["trail", "corner_help"],
        "perforated-both-sides" => &["score", "both_ways"],
        _ => &[],
    }
}

/// The findings of a cutter at the fields of its file; `elsewhere` says which of them an option has the last word of.
#[must_use]
pub fn placed(findings: Vec<Finding>, source: &Source, elsewhere: &dyn Fn(&str) -> bool) -> Vec<Finding> {
    let Ok(Node { tree: Tree::Object(fields), .. }) = Node::read(source) else { return findings };
    let place = |id: &str| {
        let mut names = limited(id).iter().filter(|name| !elsewhere(name));
        let found = names.find_map(|name| fields.iter().find(|(field, ..)| field == name));
        found.map(|(name, _, value)| source.place(&value.range, name))
    };
    let put = |finding: Finding| match place(finding.id).filter(|_| finding.place.is_none()) {
        Some(place) => finding.at(Some(&place)),
        None => finding,
    };
    findings.into_iter().map(put).collect()
}
