// SPDX-License-Identifier: MIT
//! Whether flaps reach over the pockets that they close, when nothing is in them.

use super::flaps::{HAIR, HOLDS, most_lost};
use crate::album::Album;
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::parts::{Closing, Kit};

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    kit.closings.iter().flat_map(|closing| one(album, kit, closing)).collect()
}

fn one(album: &Album, kit: &Kit, closing: &Closing) -> Vec<Finding> {
    let Closing { name, flap, pocket, width, bitten, places, fields, .. } = closing;
    let (flap, pocket, width, bitten) = (*flap, *pocket, *width, *bitten);
    let mut findings = Vec::new();
    let mm = Length::from_mm;
    let mend = |finding: Finding, overflap: Length| match &places[0] {
        Some(place) => finding.mend(&place.path, overflap),
        None => finding,
    };
    if pocket > width + SAME {
        let text =
            Said::new("pocket-too-wide-wallet").with("pocket", album.length(pocket)).with("page", album.length(width));
        let help = Said::new("pocket-too-wide-wallet-help")
            .with("field", Arg::field(fields[1]))
            .with("most", album.length(width));
        let finding = Finding::stop("pocket-too-wide", Said::named(name), text).measured(mm(pocket), mm(width));
        findings.push(finding.help(help).at(places[1].as_ref()));
    }
    if flap > width + SAME {
        let text = Said::new("flap-too-wide-wallet").with("flap", album.length(flap)).with("page", album.length(width));
        let help = Said::new("flap-too-wide-wallet-help")
            .with("field", Arg::field(fields[0]))
            .with("most", album.length(width));
        let finding = Finding::stop("flap-too-wide", Said::named(name), text).measured(mm(flap), mm(width));
        findings.push(mend(finding.help(help).at(places[0].as_ref()), album.at_most(width)));
    }
    // Folded over, the flap covers `flap` from the fore-edge; the pocket covers `pocket` from the spine.
    let overlap = flap + pocket - width - bitten;
    if overlap < -SAME {
        let text = Said::new("flap-too-short").with("short", album.length(-overlap));
        // What only just meets the pocket does not close it: it is to reach over by what holds, over what is inside, too.
        let thick = kit.flaps.iter().find(|flap| flap.path == closing.path);
        let lost = thick.map_or(0.0, |flap| most_lost(kit, flap));
        let least = album.at_least(width - pocket + bitten + HOLDS + lost - HAIR);
        let finding = Finding::stop("flap-too-short", Said::named(name), text).measured(mm(overlap), Length::ZERO);
        let finding = finding.at(places[0].as_ref());
        let help = |key| Said::new(key).with("pocket", Arg::field(fields[1]));
        findings.push(if least.mm() <= width + SAME {
            let help = help("flap-too-short-help").with("flap", Arg::field(fields[0]));
            mend(finding.help(help.with("least", album.length(least.mm()))), least)
        } else {
            finding.help(help("flap-too-short-help-pocket"))
        });
    }
    findings
}
