// SPDX-License-Identifier: MIT
//! Whether what goes round the fore-edge of the closed album, a cover's flap or a belly band, is as deep as the pages are
//! thick there.
//!
//! Two scores as far apart as the pages and the cover are thick square it (D6). Pages that are thicker by h cost a flap all
//! of h: it starts to rise at its score (H11 with the edge at the score). Over pages that are thinner the flap stands off the
//! front, and a band is slack, by what is left. That a band goes round follows from the cover's spine, which is held to the
//! pages itself.

use super::flaps::HOLDS;
use super::thickness::Closed;
use crate::album::Album;
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::parts::{Kit, Round};

/// So much room to spare says nothing, mm, as long as it is less than half of it: our choice.
const QUIET: f64 = 6.0;

pub(super) fn check(album: &Album, kit: &Kit, closed: &Closed) -> Option<Finding> {
    // A flap and a band that are too deep are so for one reason.
    let one = |round: &Round| short(album, round, closed).or_else(|| slack(album, round, closed));
    kit.rounds.iter().filter_map(one).min_by_key(|finding| finding.level)
}

/// What would do, by the field that says it.
fn deep(album: &Album, round: &Round, thick: f64) -> Length {
    album.at_least(thick + round.says.1)
}

fn help(album: &Album, key: &'static str, round: &Round, depth: Length) -> Said {
    Said::new(key).with("field", Arg::field(round.says.0)).with("depth", album.length(depth.mm()))
}

/// Pages that are thicker than a flap is deep.
fn short(album: &Album, round: &Round, closed: &Closed) -> Option<Finding> {
    let (mm, about) = (Length::from_mm, || Said::new("about-cover"));
    let thick = closed.thickest.max(closed.at_fore_edge);
    let (flap, high) = (round.flap?, thick - round.room);
    if high <= SAME {
        return None;
    }
    let depth = deep(album, round, thick);
    let found = |finding: Finding| {
        let help = help(album, "cover-depth-help", round, depth);
        finding.help(help).mend(round.says.0, depth).at(round.place.as_ref())
    };
    let left = flap - high;
    if left < 0.0 {
        let text = Said::new("flap-open").with("thick", album.rough(thick)).with("short", album.rough(-left));
        let finding = Finding::stop("flap-open", about(), text).measured(mm(left), Length::ZERO);
        return Some(found(finding));
    }
    if left >= HOLDS - SAME {
        return None;
    }
    let text = Said::new("flap-barely").with("left", album.rough(left)).with("holds", album.rough(HOLDS));
    let finding = Finding::note("flap-barely", about(), text).measured(mm(left), mm(HOLDS));
    Some(found(finding))
}

/// Pages that are far thinner, or will be until more goes into them.
fn slack(album: &Album, round: &Round, closed: &Closed) -> Option<Finding> {
    let gap = round.room - closed.at_fore_edge;
    if gap <= QUIET.max(round.room / 2.0) + SAME {
        return None;
    }
    let key = if round.flap.is_some() { "flap-slack" } else { "band-slack" };
    let text = Said::new(key)
        .with("thick", album.rough(closed.at_fore_edge))
        .with("room", album.rough(round.room))
        .with("gap", album.rough(gap));
    let depth = deep(album, round, closed.thickest);
    let fixed = if round.says.0 == "cover.depth" { "flap-slack-help" } else { "band-slack-help" };
    let finding = Finding::note("cover-slack", Said::new("about-cover"), text)
        .measured(Length::from_mm(round.room), Length::from_mm(closed.at_fore_edge))
        .help(help(album, fixed, round, depth).with("content", Arg::field("content")));
    Some(finding.at(round.place.as_ref()))
}
