// SPDX-License-Identifier: MIT
//! Whether the hinge's tabs go into the pages, and how far.
//!
//! A sleeve H tall has H - d inside, d from one caliper to pi calipers (H5). A strip as tall as its page is taller than
//! that: its tab goes in as far as its lead-in makes it low enough, and stops short of its score by x = d tab / (2 lead-in)
//! (H6; derived: similar triangles). Without a lead-in there is no way in.

use crate::album::Album;
use crate::finding::Finding;
use crate::length::Length;
use crate::net::bend::sleeve_loss;
use crate::parts::{Carry, Kit, LEAD_IN, Pocket, TAB};

/// How far tabs stop short of their scores, mm: with sharp folds and with round ones; the whole tab where there is no
/// way in.
#[must_use]
pub fn short(carry: &Carry, caliper: f64) -> [f64; 2] {
    carry.short(caliper)
}

/// The pockets that the hinge's tabs go into; into one on a single leaf, none does.
fn entered(kit: &Kit) -> impl Iterator<Item = &Pocket> {
    kit.pockets.iter().filter(|pocket| pocket.tab > 0.0)
}

/// The thickest card that a sleeve is made of, mm.
pub(super) fn thickest(kit: &Kit) -> f64 {
    entered(kit).map(|pocket| pocket.caliper).fold(0.0, f64::max)
}

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    let carry = &kit.carry;
    let spine = &album.spine.values;
    let mm = Length::from_mm;
    let mut findings = Vec::new();
    // A tab that fills a sleeve leaves no way in; the narrowest sleeve decides.
    let narrowest = entered(kit).min_by(|one, two| one.width.total_cmp(&two.width));
    if let Some(pocket) = narrowest.filter(|pocket| carry.tab >= pocket.width) {
        let (tab, width) = (album.show(carry.tab), album.show(pocket.width));
        let text = format!("a tab of {tab} does not go into the sleeve of page {}, which is {width} wide", pocket.page);
        findings.push(
            Finding::stop("tab-too-wide", "spine", text)
                .measured(mm(carry.tab), mm(pocket.width))
                .help("make spine.tab smaller; 12 mm or 1/2 in is usual")
                .at(spine.place(TAB)),
        );
    }
    let caliper = thickest(kit);
    let [_, round] = short(carry, caliper);
    if entered(kit).next().is_none() || round <= carry.tab / 2.0 || carry.tab <= 0.0 {
        return findings;
    }
    let lead_in = album.at_least(carry.tab / 2.0);
    let (text, id) = if round >= carry.tab && carry.lead_in <= 0.0 {
        let text = format!(
            "tabs without a lead-in are as tall as their page, whose sleeve is up to {} lower inside: there is no way in",
            album.roughly(sleeve_loss(caliper)[1])
        );
        (text, "no-lead-in")
    } else {
        let text = format!(
            "a lead-in of {} lets the tabs in only up to {} of their {}",
            album.show(carry.lead_in),
            album.roughly(carry.tab - round),
            album.show(carry.tab)
        );
        (text, "lead-in-too-small")
    };
    findings.push(
        Finding::warn(id, "spine", text)
            .measured(mm(carry.tab - round), mm(carry.tab / 2.0))
            .help("make spine.lead_in half the tab, or give the strips a spine.ease of a millimetre")
            .mend("spine.lead_in", lead_in)
            .at(spine.place(LEAD_IN)),
    );
    findings
}
