// SPDX-License-Identifier: MIT
//! What a trimmer can't cut of the parts of a stock that is said to be trimmed.
//!
//! A trimmer cuts from edge to edge, so it makes the rectangle that a part lies in. Straight clips at its corners are made on
//! the spot, with scissors or a knife along a rule; openings, round edges and notches want more, and that is said.

use super::caliper::named;
use crate::album::Album;
use crate::contour::Edge;
use crate::finding::{Arg, Finding, Said};
use crate::length::tolerance::PARALLEL;
use crate::parts::{Kit, Part};
use crate::stock::By;

/// Parts of one stock that are named; the rest is counted.
const NAMED: usize = 6;

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    let trimmed = album.stocks.iter().enumerate().filter(|(_, stock)| stock.by == By::Trimmer);
    trimmed.flat_map(|(number, _)| of_stock(album, kit, number)).collect()
}

fn of_stock(album: &Album, kit: &Kit, number: usize) -> Vec<Finding> {
    let mine = kit.parts.iter().filter(|part| part.stock == number);
    let shaped: Vec<(&Part, Vec<Said>)> =
        mine.map(|part| (part, beyond_trimmer(part))).filter(|(_, why)| !why.is_empty()).collect();
    let one = |(part, why): &(&Part, Vec<Said>)| {
        let text = Said::new("shaped-on-trimmer")
            .with("width", album.length(part.flat.width))
            .with("height", album.length(part.flat.height))
            .with("what", Arg::All(why.iter().cloned().map(Arg::from).collect()));
        let finding = Finding::note("shaped-on-trimmer", named(part, 0), text);
        finding.help(Said::new("shaped-on-trimmer-help")).at(part.place.as_ref())
    };
    let mut findings: Vec<Finding> = shaped.iter().take(NAMED).map(one).collect();
    if shaped.len() > NAMED {
        let about = Said::new("about-stock").with("stock", album.stock_name(number));
        let text = Said::new("shaped-on-trimmer-more").with("parts", shaped.len() - NAMED);
        let finding = Finding::note("shaped-on-trimmer", about, text).help(Said::new("shaped-on-trimmer-help"));
        findings.push(finding.at(album.stocks[number].place.as_ref()));
    }
    findings
}

/// What of a part neither a trimmer cuts nor a straight clip makes.
#[must_use]
pub fn beyond_trimmer(part: &Part) -> Vec<Said> {
    let flat = &part.flat;
    let edges: Vec<Edge> = flat.outline.edges().collect();
    // Counter-clockwise, an outline turns right where something is cut into it.
    let into = |(one, two): (&Edge, &Edge)| one.bend_to(*two) < -PARALLEL;
    let straight = edges.iter().all(|edge| edge.is_line());
    let notched = straight && edges.iter().zip(edges.iter().cycle().skip(1)).any(into);
    let reasons = [
        (!flat.holes.is_empty(), Said::new("beyond-openings").with("count", flat.holes.len())),
        (!straight, Said::new("beyond-round")),
        (notched, Said::new("beyond-notches")),
    ];
    reasons.into_iter().filter(|(is, _)| *is).map(|(_, reason)| reason).collect()
}
