// SPDX-License-Identifier: MIT
//! Whether the closed album springs open because nothing holds it shut.
//!
//! Pages thicker than their spine stand apart by what they have more, held together by nothing but the gussets; left alone
//! they open like a rigid wedge, by 2 atan((T - S) / (2B)) (D2). A flap, ties or a band hold it; so does a spine that is wide
//! enough.

use super::thickness::{Closed, wedge};
use crate::album::Album;
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::parts::{Kit, PITCH};

/// Less than this nobody sees, degrees: our choice.
const SEEN: f64 = 1.5;

pub(super) fn check(album: &Album, kit: &Kit, closed: &Closed) -> Option<Finding> {
    let (thick, spine, gusset) = (closed.thickest, closed.spine, closed.carry.gusset);
    let degrees = wedge(thick, spine, album.page.width.mm().max(1.0)).to_degrees();
    // Where the gussets are half spent, that is told.
    let told = thick - spine > gusset || closed.run.is_some();
    if album.pages.len() < 2 || kit.shut || told || degrees < SEEN {
        return None;
    }
    let text = Said::new("springs-open")
        .with("thick", album.rough(thick))
        .with("spine", album.length(spine))
        .with("degrees", Arg::Number(degrees, 0));
    let finding = Finding::note("springs-open", Said::new("about-pages"), text)
        .measured(Length::from_mm(thick), Length::from_mm(spine))
        .help(
            Said::new("springs-open-help")
                .with("ways", Arg::Any(["cover.ties", "cover.flap", "cover.band"].map(Arg::field).to_vec()))
                .with("pitch", Arg::field("spine.pitch")),
        );
    Some(finding.at(album.spine.values.place(PITCH)))
}
