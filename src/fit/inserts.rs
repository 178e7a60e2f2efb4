// SPDX-License-Identifier: MIT
//! Whether inserts go into their pockets.

use crate::album::Album;
use crate::finding::Finding;
use crate::length::Length;
use crate::parts::{Insert, Kit, Pocket};
use std::collections::BTreeSet;

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    let mut findings = Vec::new();
    // Many tags of one size in pockets of one size are one finding.
    let mut said = BTreeSet::new();
    for insert in &kit.inserts {
        let Some(pocket) = insert.pocket.and_then(|number| kit.pockets.get(number)) else {
            findings.push(
                Finding::warn("no-pocket", &insert.name, "there is no pocket for it on the pages named")
                    .help("name pages that have a pocket, or leave \"pages\" out")
                    .at(insert.places[0].as_ref()),
            );
            continue;
        };
        let stack = kit.inserts.iter().filter(|other| other.pocket == insert.pocket).map(|other| other.thickness).sum();
        for finding in one(album, insert, pocket, stack) {
            let key = (finding.id, finding.text.clone(), finding.place.as_ref().map(ToString::to_string));
            if said.insert(key) {
                findings.push(finding);
            }
        }
    }
    findings
}

fn one(album: &Album, insert: &Insert, pocket: &Pocket, stack: f64) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mm = Length::from_mm;
    // Across, the hinge's tab takes its part of the sleeve.
    let across = pocket.width - pocket.tab;
    if insert.width > across + 1e-6 {
        findings.push(
            Finding::stop(
                "insert-too-wide",
                &insert.name,
                format!(
                    "it is {} wide, and the pocket of page {} has room for {} beside the hinge's tab",
                    album.show(insert.width),
                    pocket.page,
                    album.show(across)
                ),
            )
            .measured(mm(insert.width), mm(across))
            .help(format!("make its \"width\" at most {}", album.show(across)))
            .at(insert.places[0].as_ref()),
        );
    }
    // Upwards, the folds at head and tail take at least one caliper, and a stack as thick as q opens the
    // sleeve by q: height + q <= H - t. Derived: two flat sheets joined at both edges, a stack between them.
    let up = pocket.height - pocket.caliper - stack;
    if insert.height > up + 1e-6 {
        findings.push(
            Finding::stop(
                "insert-too-tall",
                &insert.name,
                format!(
                    "it is {} tall, and the pocket of page {} takes at most {} with {} of thickness in it",
                    album.show(insert.height),
                    pocket.page,
                    album.show(up),
                    album.show(stack)
                ),
            )
            .measured(mm(insert.height), mm(up))
            .help(format!("make its \"height\" at most {}", album.show(up)))
            .at(insert.places[1].as_ref()),
        );
    }
    findings
}
