// SPDX-License-Identifier: MIT
//! Whether flaps reach over the pockets that they close.

use crate::album::Album;
use crate::finding::Finding;
use crate::length::Length;
use crate::parts::{Closing, Kit};

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    kit.closings.iter().flat_map(|closing| one(album, closing)).collect()
}

fn one(album: &Album, closing: &Closing) -> Vec<Finding> {
    let Closing { name, flap, pocket, width, places, .. } = closing;
    let (flap, pocket, width) = (*flap, *pocket, *width);
    let mut findings = Vec::new();
    let mm = Length::from_mm;
    if pocket > width {
        findings.push(
            Finding::stop(
                "pocket-too-wide",
                name,
                format!("the pocket is {} wide, and its page only {}", album.show(pocket), album.show(width)),
            )
            .measured(mm(pocket), mm(width))
            .help(format!("make \"pocket\" at most {}, or the page wider", album.show(width)))
            .at(places[1].as_ref()),
        );
    }
    if flap > width {
        findings.push(
            Finding::stop(
                "flap-too-wide",
                name,
                format!(
                    "the flap is {} wide, and its page only {}: it would stick out at the spine",
                    album.show(flap),
                    album.show(width)
                ),
            )
            .measured(mm(flap), mm(width))
            .help(format!("make \"overflap\" at most {}", album.show(width)))
            .at(places[0].as_ref()),
        );
    }
    // Folded over, the flap covers `flap` from the fore-edge; the pocket covers `pocket` from the spine.
    let overlap = flap + pocket - width;
    if overlap < 0.0 {
        findings.push(
            Finding::stop(
                "flap-too-short",
                name,
                format!("the flap ends {} short of the pocket that it should close", album.show(-overlap)),
            )
            .measured(mm(overlap), Length::ZERO)
            .help(format!("make \"overflap\" at least {}, or \"pocket\" wider", album.show(width - pocket)))
            .at(places[0].as_ref()),
        );
    }
    findings
}
