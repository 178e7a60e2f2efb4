// SPDX-License-Identifier: MIT
//! Whether the hinge's tabs go into the pages, and how far.
//!
//! A sleeve H tall has H - d inside, d from one caliper to pi calipers (H5). A strip as tall as its page is taller than
//! that: its tab goes in as far as its lead-in makes it low enough, and stops short of its score by x = d tab / (2 lead-in)
//! (H6; derived: similar triangles). Without a lead-in there is no way in.

use crate::album::Album;
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::net::bend::sleeve_loss;
use crate::parts::{Kit, LEAD_IN, Pocket, TAB};

/// The usual tab, mm: 1/2 in.
const USUAL: f64 = 12.7;

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
        let text = Said::new("tab-too-wide")
            .with("tab", album.length(carry.tab))
            .with("page", pocket.page)
            .with("width", album.length(pocket.width));
        findings.push(
            Finding::stop("tab-too-wide", Said::new("about-spine"), text)
                .measured(mm(carry.tab), mm(pocket.width))
                .help(
                    Said::new(if pocket.width > USUAL { "tab-too-wide-help" } else { "make-smaller" })
                        .with("field", Arg::field("spine.tab")),
                )
                .at(spine.place(TAB)),
        );
    }
    let caliper = thickest(kit);
    let [_, round] = carry.short(caliper);
    if entered(kit).next().is_none() || round <= carry.tab / 2.0 || carry.tab <= 0.0 {
        return findings;
    }
    let lead_in = album.at_least(carry.tab / 2.0);
    let (text, id) = if round >= carry.tab && carry.lead_in <= 0.0 {
        (Said::new("no-lead-in").with("lower", album.rough(sleeve_loss(caliper)[1])), "no-lead-in")
    } else {
        let text = Said::new("lead-in-too-small")
            .with("lead", album.length(carry.lead_in))
            .with("in", album.rough(carry.tab - round))
            .with("tab", album.length(carry.tab));
        (text, "lead-in-too-small")
    };
    findings.push(
        Finding::warn(id, Said::new("about-spine"), text)
            .measured(mm(carry.tab - round), mm(carry.tab / 2.0))
            .help(
                Said::new("lead-in-help")
                    .with("lead", Arg::field("spine.lead_in"))
                    .with("ease", Arg::field("spine.ease")),
            )
            .mend("spine.lead_in", lead_in)
            .at(spine.place(LEAD_IN)),
    );
    findings
}
