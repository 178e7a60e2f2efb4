// SPDX-License-Identifier: MIT
//! Whether inserts go into their pockets, slide there, and come out again.
//!
//! Across, the hinge's tab takes its part of the sleeve. Upwards, the folds at head and tail take from one caliper (sharp)
//! to pi calipers (round), and a stack as thick as q opens the sleeve by q: height + q <= H - d (check values C1, D5, H5;
//! derived: two flat sheets joined at both edges, a stack between them). To slide well it wants 1.5 mm in all (C2; common
//! practice; 1/8 in for a slip case: Bean & Brodhead, *Bookbinding for Beginners*, 1914).

use super::Clearance;
use crate::album::{Album, Entry};
use crate::finding::{Finding, Level};
use crate::length::Length;
use crate::parts::{Insert, Kit, Pocket};
use std::collections::BTreeSet;

/// Least clearance, in all, of something that slides, mm (C2).
const SLIDES: f64 = 1.5;

/// What lies deeper than this in its pocket cannot be taken hold of: our choice, mm.
const DEEP: f64 = 12.0;

/// One insert in its pocket, and how thick everything in there is together.
struct Put<'a> {
    insert: &'a Insert,
    pocket: &'a Pocket,
    stack: f64,
}

impl Put<'_> {
    fn across(&self) -> f64 {
        self.pocket.across()
    }

    /// How far inside the pocket's mouth its edge lies.
    fn deep(&self) -> f64 {
        self.across() - self.insert.width
    }

    /// Room upwards with sharp folds and with round ones.
    fn up(&self) -> [f64; 2] {
        self.pocket.upwards(self.stack)
    }
}

fn puts(kit: &Kit) -> impl Iterator<Item = Put<'_>> {
    let stacks = kit.stacks();
    kit.inserts.iter().filter_map(move |insert| {
        let number = insert.pocket?;
        Some(Put { insert, pocket: kit.pockets.get(number)?, stack: *stacks.get(number)? })
    })
}

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    let mut findings: Vec<Finding> = Vec::new();
    // Many tags of one entry that do not fit are one finding.
    let mut said = BTreeSet::new();
    let mut say = |finding: Finding| {
        if said.insert((finding.id, finding.place.as_ref().map(ToString::to_string))) {
            findings.push(finding);
        }
    };
    for insert in kit.inserts.iter().filter(|insert| insert.pocket.is_none_or(|pocket| pocket >= kit.pockets.len())) {
        say(Finding::warn("no-pocket", &insert.name, "there is no pocket for it on the pages named")
            .help("name pages that have a pocket, or leave \"pages\" out")
            .at(insert.places[0].as_ref()));
    }
    let mut hidden: Vec<Put<'_>> = Vec::new();
    for put in puts(kit) {
        let found: Vec<Finding> = [too_wide(album, &put), upwards(album, &put)].into_iter().flatten().collect();
        let fits = found.iter().all(|finding| finding.level != Level::Stop);
        let known = hidden.iter().any(|other| other.insert.path == put.insert.path);
        found.into_iter().for_each(&mut say);
        if fits && !known && !put.insert.pull && put.deep() > DEEP {
            hidden.push(put);
        }
    }
    findings.extend(grip(album, &hidden));
    findings
}

fn too_wide(album: &Album, put: &Put<'_>) -> Option<Finding> {
    let Put { insert, pocket, .. } = put;
    let across = put.across();
    if insert.width <= across + 1e-6 {
        return None;
    }
    let text = format!(
        "it is {} wide, and the pocket of page {} has room for {} beside the hinge's tab",
        album.show(insert.width),
        pocket.page,
        album.show(across)
    );
    let most = album.at_most(across);
    Some(
        Finding::stop("insert-too-wide", &insert.name, text)
            .measured(Length::from_mm(insert.width), Length::from_mm(across))
            .help(format!("make its \"width\" at most {}", album.show(most.mm())))
            .mend(format!("{}.width", insert.path), most)
            .at(insert.places[0].as_ref()),
    )
}

fn upwards(album: &Album, put: &Put<'_>) -> Option<Finding> {
    let Put { insert, pocket, stack } = put;
    let mm = Length::from_mm;
    let [sharp, round] = put.up();
    if sharp <= 0.0 {
        let text = format!(
            "{} of thickness is too much for the pocket of page {}: nothing goes in",
            album.show(*stack),
            pocket.page
        );
        return Some(
            Finding::stop("insert-too-thick", &insert.name, text)
                .measured(mm(*stack), mm(pocket.height))
                .help("put fewer of them into one pocket, or thinner ones")
                .at(insert.places[1].as_ref()),
        );
    }
    let slides = album.at_most(pocket.takes(*stack, SLIDES)[1]);
    if insert.height > sharp + 1e-6 {
        let text = format!(
            "it is {} tall, and the pocket of page {} takes at most {} with {} of thickness in it",
            album.show(insert.height),
            pocket.page,
            album.show(sharp),
            album.show(*stack)
        );
        return Some(
            Finding::stop("insert-too-tall", &insert.name, text)
                .measured(mm(insert.height), mm(sharp))
                .help(format!("make its \"height\" at most {}", album.show(slides.mm())))
                .mend(format!("{}.height", insert.path), slides)
                .at(insert.places[1].as_ref()),
        );
    }
    // What it has to slide in, before its thickness opens the sleeve.
    let clear = round + stack - insert.height;
    if clear >= SLIDES - 1e-6 && insert.height <= round + 1e-6 {
        return None;
    }
    let text = format!(
        "it is {} tall and binds in the pocket of page {}, which is {} tall inside where its folds are round",
        album.show(insert.height),
        pocket.page,
        album.roughly(round + stack)
    );
    Some(
        Finding::warn("insert-snug", &insert.name, text)
            .measured(mm(clear), mm(SLIDES.max(*stack)))
            .help(format!("make its \"height\" at most {}", album.show(slides.mm())))
            .mend(format!("{}.height", insert.path), slides)
            .at(insert.places[1].as_ref()),
    )
}

/// Nothing to take hold of: neither a hole for a ribbon nor an edge near the mouth. One note for all that lie so.
fn grip(album: &Album, hidden: &[Put<'_>]) -> Option<Finding> {
    let deepest = hidden.iter().max_by(|one, other| one.deep().total_cmp(&other.deep()))?;
    let (insert, deep) = (deepest.insert, album.roughly(deepest.deep()));
    let text = match hidden.len() - 1 {
        0 => format!(
            "its edge lies {deep} inside the pocket of page {}, with nothing to take hold of",
            deepest.pocket.page
        ),
        more => format!("it and {more} more lie up to {deep} inside their pockets, with nothing to take hold of"),
    };
    // A booklet's holes are for its thread.
    let ribbon = |entry: &Entry| {
        let has = |name: &str| entry.kind.fields.iter().any(|field| field.name == name);
        has("hole") && !has("holes")
    };
    let mut entries = album.inserts.iter().enumerate();
    let holed = entries.any(|(number, entry)| insert.path == format!("inserts[{number}]") && ribbon(entry));
    let help =
        if holed { "give it a hole for a ribbon, or make it wider" } else { "make it wider, or stick a ribbon on it" };
    Some(
        Finding::note("no-grip", &insert.name, text)
            .measured(Length::from_mm(deepest.deep()), Length::from_mm(DEEP))
            .help(help)
            .at(insert.places[0].as_ref()),
    )
}

/// Each insert's room, across and up; cut and score of pocket, tab and insert can all be off.
pub(super) fn clearances(kit: &Kit) -> Vec<Clearance> {
    puts(kit)
        .flat_map(|put| {
            let inside = format!("{} in the pocket of page {}", put.insert.name, put.pocket.page);
            let clearance = |what, spare: f64, sizes| Clearance { about: inside.clone(), what, spare, sizes };
            [
                clearance("across", put.across() - put.insert.width, 3),
                clearance("upwards", put.up()[0] - put.insert.height, 2),
            ]
        })
        .collect()
}
