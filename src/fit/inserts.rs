// SPDX-License-Identifier: MIT
//! Whether inserts go into their pockets.

use crate::album::Album;
use crate::finding::Finding;
use crate::length::Length;
use crate::parts::{Insert, Kit, Pocket};
use std::collections::BTreeSet;

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    let mut findings = Vec::new();
    // How thick everything in a pocket is together.
    let mut stacks = vec![0.0; kit.pockets.len()];
    for insert in &kit.inserts {
        if let Some(stack) = insert.pocket.and_then(|pocket| stacks.get_mut(pocket)) {
            *stack += insert.thickness;
        }
    }
    // Many tags of one entry that do not fit are one finding.
    let mut said = BTreeSet::new();
    for insert in &kit.inserts {
        let found = match insert.pocket.and_then(|number| Some((kit.pockets.get(number)?, stacks.get(number)?))) {
            Some((pocket, stack)) => one(album, insert, pocket, *stack),
            None => vec![
                Finding::warn("no-pocket", &insert.name, "there is no pocket for it on the pages named")
                    .help("name pages that have a pocket, or leave \"pages\" out")
                    .at(insert.places[0].as_ref()),
            ],
        };
        for finding in found {
            if said.insert((finding.id, finding.place.as_ref().map(ToString::to_string))) {
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
    if up <= 0.0 {
        let text = format!(
            "{} of thickness is too much for the pocket of page {}: nothing goes in",
            album.show(stack),
            pocket.page
        );
        findings.push(
            Finding::stop("insert-too-thick", &insert.name, text)
                .measured(mm(stack), mm(pocket.height))
                .help("put fewer of them into one pocket, or thinner ones")
                .at(insert.places[1].as_ref()),
        );
    } else if insert.height > up + 1e-6 {
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
