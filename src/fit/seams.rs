// SPDX-License-Identifier: MIT
//! Whether seams and bases have room for what sticks them.

use crate::album::{Album, SEAM, TAPE};
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::parts::{Carry, Kit, PITCH, ROOT, Stuck, WING};

/// Widths of common tapes, mm: 1/8, 1/4 and 1/2 in (C4; common practice, no source).
pub const TAPES: [f64; 3] = [3.175, 6.35, 12.7];

/// A pasted lap narrower than this holds badly, mm (C5; Bean & Brodhead 1914 for boxes 12.7; 6.35 for small card models).
const LAP: f64 = 6.35;

/// The tape for a strip of card: the one that the album names, else the widest common one that the strip takes.
#[must_use]
pub fn tape(album: &Album, strip: f64) -> Option<f64> {
    let named = album.page.tape.map(Length::mm).filter(|tape| *tape <= strip + SAME);
    named.or_else(|| TAPES.iter().copied().rfind(|tape| *tape <= strip + SAME))
}

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    let mut findings = if kit.pockets.is_empty() { Vec::new() } else { seam(album) };
    findings.extend(wing(album, &kit.carry));
    findings.extend(base(album, &kit.carry));
    findings
}

/// Whether the seams of pockets fold in, and hold the tape.
fn seam(album: &Album) -> Vec<Finding> {
    let page = &album.page;
    let (seam, height) = (page.seam.mm(), page.height.mm());
    let mut findings = Vec::new();
    // A seam is folded in over its own page.
    if seam > height {
        let text = Said::new("seam-too-large").with("seam", album.length(seam)).with("tall", album.length(height));
        findings.push(
            Finding::stop("seam-too-large", Said::new("about-the-page"), text)
                .measured(page.seam, page.height)
                .help(
                    Said::new(if height >= TAPES[2] { "seam-too-large-help" } else { "make-smaller" })
                        .with("field", Arg::field("page.seam")),
                )
                .at(page.values.place(SEAM)),
        );
    }
    if let Some(tape) = page.tape.map(Length::mm).filter(|tape| *tape > seam + SAME) {
        let text = Said::new("tape-too-wide").with("tape", album.length(tape)).with("seam", album.length(seam));
        findings.push(
            Finding::stop("tape-too-wide", Said::new("about-the-page"), text)
                .measured(Length::from_mm(tape), page.seam)
                .help(
                    Said::new("tape-too-wide-help")
                        .with("field", Arg::field("page.seam"))
                        .with("tape", album.length(tape)),
                )
                .mend("page.seam", album.at_least(tape))
                .at(page.values.place(TAPE)),
        );
    } else if seam < LAP - SAME && page.tape.is_none() {
        let text = Said::new("seam-narrow").with("seam", album.length(seam)).with("usual", album.rough(LAP));
        findings.push(
            Finding::warn("seam-narrow", Said::new("about-the-page"), text)
                .measured(page.seam, Length::from_mm(LAP))
                .help(
                    Said::new("seam-narrow-help")
                        .with("field", Arg::field("page.seam"))
                        .with("tape", Arg::field("page.tape")),
                )
                .mend("page.seam", album.at_least(LAP))
                .at(page.values.place(SEAM)),
        );
    }
    findings
}

/// The middle page's T is glued on a base of two pitches.
fn wing(album: &Album, carry: &Carry) -> Option<Finding> {
    let wing = carry.wing.filter(|wing| *wing > carry.pitch)?;
    let text = Said::new("wing-over-strip").with("wing", album.length(wing)).with("room", album.length(carry.pitch));
    Some(
        Finding::stop("wing-too-wide", Said::new("about-spine"), text)
            .measured(Length::from_mm(wing), Length::from_mm(carry.pitch))
            .help(
                Said::new("wing-over-strip-help")
                    .with("wing", Arg::field("spine.wing"))
                    .with("pitch", Arg::field("spine.pitch")),
            )
            .mend("spine.wing", album.at_most(carry.pitch - 0.5))
            .at(album.spine.values.place(WING)),
    )
}

/// What is stuck on what is beneath it: the narrowest base, a wing, a root.
fn base(album: &Album, carry: &Carry) -> Option<Finding> {
    let (stuck, strip) = carry.stuck.filter(|(stuck, _)| *stuck < TAPES[0] - SAME)?;
    let (key, field) = match strip {
        Stuck::Wing if carry.wing.is_some() => ("base-narrow-wings-of-the-t", WING.field),
        Stuck::Wing => ("base-narrow-wings", WING.field),
        Stuck::Root => ("base-narrow-roots", ROOT.field),
        Stuck::Base => ("base-narrow", PITCH.field),
    };
    let larger = if strip == Stuck::Root { "spine.root" } else { "spine.pitch" };
    let text = Said::new(key).with("wide", album.length(stuck)).with("tape", album.rough(TAPES[0]));
    Some(
        Finding::warn("base-narrow", Said::new("about-spine"), text)
            .measured(Length::from_mm(stuck), Length::from_mm(TAPES[0]))
            .help(Said::new("base-narrow-help").with("field", Arg::field(larger)))
            .at(album.spine.values.place(field)),
    )
}
