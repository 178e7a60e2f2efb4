// SPDX-License-Identifier: MIT
//! Whether flaps reach over the pockets that they close, when nothing is in them.

use crate::album::Album;
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::parts::{Closing, Kit};

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    kit.closings.iter().flat_map(|closing| one(album, closing)).collect()
}

/// Less than this is arithmetic, not card, mm: our choice.
const NOTHING: f64 = 1e-6;

fn one(album: &Album, closing: &Closing) -> Vec<Finding> {
    let Closing { name, flap, pocket, width, places, .. } = closing;
    let (flap, pocket, width) = (*flap, *pocket, *width);
    let mut findings = Vec::new();
    let mm = Length::from_mm;
    let mend = |finding: Finding, overflap: Length| match &places[0] {
        Some(place) => finding.mend(&place.path, overflap),
        None => finding,
    };
    if pocket > width + NOTHING {
        let text =
            Said::new("pocket-too-wide-wallet").with("pocket", album.length(pocket)).with("page", album.length(width));
        let help = Said::new("pocket-too-wide-wallet-help")
            .with("field", Arg::field("pocket"))
            .with("most", album.length(width));
        let finding = Finding::stop("pocket-too-wide", Said::named(name), text).measured(mm(pocket), mm(width));
        findings.push(finding.help(help).at(places[1].as_ref()));
    }
    if flap > width + NOTHING {
        let text = Said::new("flap-too-wide-wallet").with("flap", album.length(flap)).with("page", album.length(width));
        let help = Said::new("flap-too-wide-wallet-help")
            .with("field", Arg::field("overflap"))
            .with("most", album.length(width));
        let finding = Finding::stop("flap-too-wide", Said::named(name), text).measured(mm(flap), mm(width));
        findings.push(mend(finding.help(help).at(places[0].as_ref()), album.at_most(width)));
    }
    // Folded over, the flap covers `flap` from the fore-edge; the pocket covers `pocket` from the spine.
    let overlap = flap + pocket - width;
    if overlap < -NOTHING {
        let text = Said::new("flap-too-short").with("short", album.length(-overlap));
        let help = Said::new("flap-too-short-help")
            .with("flap", Arg::field("overflap"))
            .with("least", album.length(width - pocket))
            .with("pocket", Arg::field("pocket"));
        let finding = Finding::stop("flap-too-short", Said::named(name), text).measured(mm(overlap), Length::ZERO);
        findings.push(mend(finding.help(help).at(places[0].as_ref()), album.at_least(width - pocket)));
    }
    findings
}
