// SPDX-License-Identifier: MIT
//! Whether inserts go into their pockets and slide there.
//!
//! What a pocket has room for in each direction follows from how its sides end ([`Pocket::room`]; check values C1, D5, H5,
//! H10, H12). Between two sealed sides a thing slides along folds: to slide well it wants 1.5 mm in all (C2; common practice;
//! 1/8 in for a slip case: Bean & Brodhead, *Bookbinding for Beginners*, 1914).

use super::put::{Put, SLIDES, puts};
use crate::album::Album;
use crate::finding::{Arg, Finding, Level, Said};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::parts::{Kit, Way};
use std::collections::BTreeMap;

/// A leaf that is held flat between two seams gives way to no more than this, mm: our choice (H12).
const QUIET: f64 = 2.0;

/// By so much both sheets give in their width without a word, mm: our choice.
const GIVES: f64 = 1.0;

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    let mut findings: Vec<Finding> = Vec::new();
    // Many tags of one entry that do not fit are one finding, about the pocket that lacks most.
    let mut said = BTreeMap::new();
    let mut say = |finding: Finding| {
        let at = *said.entry((finding.id, finding.place.as_ref().map(ToString::to_string))).or_insert(findings.len());
        match findings.get_mut(at) {
            None => findings.push(finding),
            Some(before) if lack(&finding) > lack(before) => *before = finding,
            Some(_) => {}
        }
    };
    let all: Vec<Put<'_>> = puts(kit).collect();
    for insert in kit.inserts.iter().filter(|insert| insert.pocket.is_none_or(|pocket| pocket >= kit.pockets.len())) {
        let help = Said::new("no-pocket-help").with("pages", Arg::field("pages"));
        let finding = Finding::warn("no-pocket", Said::named(&insert.name), Said::new("no-pocket"));
        say(finding.help(help).at(insert.places[0].as_ref()));
    }
    let mut hidden: Vec<&Put<'_>> = Vec::new();
    for put in &all {
        let found: Vec<Finding> = one(album, &all, put);
        let fits = found.iter().all(|finding| finding.level != Level::Stop);
        let known = hidden.iter().any(|other| other.insert.path == put.insert.path);
        found.into_iter().for_each(&mut say);
        if fits && put.pocket.corners {
            say(super::grip::catches(put));
        }
        if fits && !known && super::grip::hidden(put) {
            hidden.push(put);
        }
    }
    findings.extend(super::grip::check(album, &hidden));
    findings.extend(bulges(album, kit));
    findings
}

/// By how much a size is off that a mend is known for.
fn lack(finding: &Finding) -> Option<u64> {
    finding.mend.as_ref()?;
    Some(finding.measured?.eighths().abs_diff(finding.allowed?.eighths()))
}

fn one(album: &Album, all: &[Put<'_>], put: &Put<'_>) -> Vec<Finding> {
    let ways = [Way::Across, Way::Up];
    if ways.into_iter().any(|way| put.room(way)[0] <= 0.0 && put.pocket.sealed(way) > 0) {
        return vec![too_thick(album, put)];
    }
    ways.into_iter().filter_map(|way| too_large(album, all, put, way).or_else(|| snug(album, all, put, way))).collect()
}

fn too_thick(album: &Album, put: &Put<'_>) -> Finding {
    let text = Said::new("insert-too-thick").with("stack", album.length(put.stack)).with("page", put.pocket.page);
    Finding::stop("insert-too-thick", Said::named(&put.insert.name), text)
        .measured(Length::from_mm(put.stack), Length::from_mm(put.pocket.height))
        .help(Said::new("insert-too-thick-help"))
        .at(put.insert.places[1].as_ref())
}

fn too_large(album: &Album, all: &[Put<'_>], put: &Put<'_>, way: Way) -> Option<Finding> {
    let (size, [room, _]) = (put.size(way), put.room(way));
    if size <= room + SAME {
        return None;
    }
    let pocket = put.pocket;
    let (id, key) = match way {
        Way::Up => ("insert-too-tall", "insert-too-tall"),
        Way::Across if pocket.sealed(way) > 0 => ("insert-too-wide", "insert-too-wide-sealed"),
        Way::Across if pocket.beyond[0] > 0.0 => ("insert-too-wide", "insert-too-wide-flap"),
        Way::Across => ("insert-too-wide", "insert-too-wide"),
    };
    let text = Said::new(key)
        .with("size", album.length(size))
        .with("page", pocket.page)
        .with("room", album.length(room))
        .with("stack", album.length(put.stack));
    let finding =
        Finding::stop(id, Said::named(&put.insert.name), text).measured(Length::from_mm(size), Length::from_mm(room));
    Some(put.found(album, all, way, finding))
}

/// Whether it binds between two sealed sides.
fn snug(album: &Album, all: &[Put<'_>], put: &Put<'_>, way: Way) -> Option<Finding> {
    if put.pocket.sealed(way) < 2 {
        return None;
    }
    let (size, [_, round], [_, empty]) = (put.size(way), put.room(way), put.pocket.room(way, 0.0));
    // What it has to slide in, before its thickness opens the sleeve.
    let clear = empty - size;
    if clear >= SLIDES - SAME && size <= round + SAME {
        return None;
    }
    let key = if way == Way::Up { "insert-snug" } else { "insert-snug-across" };
    let text = Said::new(key)
        .with("size", album.length(size))
        .with("page", put.pocket.page)
        .with("inside", album.rough(empty));
    let finding = Finding::warn("insert-snug", Said::named(&put.insert.name), text)
        .measured(Length::from_mm(clear), Length::from_mm(SLIDES.max(put.stack)));
    Some(put.found(album, all, way, finding))
}

/// Pockets between two seams of a leaf that is held flat, with more in them than it gives way to: once where pockets are
/// stuck one on the other.
///
/// A front as wide as the leaf behind it has to go up over the stack and down again, and lacks 2 (sqrt(x^2 + q^2) - x), x the
/// room on either side (derived). A narrow stack asks for next to nothing.
fn bulges(album: &Album, kit: &Kit) -> Vec<Finding> {
    let mut found: BTreeMap<usize, Finding> = BTreeMap::new();
    for put in puts(kit).filter(|put| put.pocket.flat && put.stack > QUIET + SAME) {
        let page = put.pocket.page;
        let beside = (put.pocket.front(Way::Across) - put.insert.width).max(0.0) / 2.0;
        if 2.0 * (beside.hypot(put.stack) - beside) <= GIVES {
            continue;
        }
        let text = Said::new("leaf-bulges").with("stack", album.rough(put.stack)).with("quiet", album.rough(QUIET));
        let entry = page.checked_sub(1).and_then(|page| album.pages.get(page));
        let finding = Finding::warn("leaf-bulges", Said::new("about-page").with("page", page), text)
            .measured(Length::from_mm(put.stack), Length::from_mm(QUIET))
            .help(Said::new("leaf-bulges-help"))
            .at(entry.and_then(|page| page.place()));
        found.entry(page).or_insert(finding);
    }
    found.into_values().collect()
}
