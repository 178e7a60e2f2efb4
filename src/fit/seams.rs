// SPDX-License-Identifier: MIT
//! Whether seams and bases have room for what sticks them.

use crate::album::Album;
use crate::finding::Finding;
use crate::length::Length;
use crate::parts::Kit;

/// Widths of common tapes, mm: 1/8, 1/4 and 1/2 in (C4; common practice, no source).
pub const TAPES: [f64; 3] = [3.175, 6.35, 12.7];

/// A pasted lap narrower than this holds badly, mm (C5; Bean & Brodhead 1914 for boxes 12.7; 6.35 for small card models).
const LAP: f64 = 6.35;

/// The tape for a strip of card: the one that the album names, else the widest common one that the strip takes.
#[must_use]
pub fn tape(album: &Album, strip: f64) -> Option<f64> {
    let named = album.page.tape.map(Length::mm).filter(|tape| *tape <= strip + 1e-6);
    named.or_else(|| TAPES.iter().copied().rfind(|tape| *tape <= strip + 1e-6))
}

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    let carry = &kit.carry;
    let (page, mm) = (&album.page, Length::from_mm);
    let (seam, height) = (page.seam.mm(), page.height.mm());
    let mut findings = Vec::new();
    if !kit.pockets.is_empty() {
        // A seam is folded in over its own page.
        if seam > height {
            let text = format!("seams of {} stick out of a page {} tall", album.show(seam), album.show(height));
            findings.push(
                Finding::stop("seam-too-large", "page", text)
                    .measured(page.seam, page.height)
                    .help("make page.seam smaller; 12 mm or 1/2 in is usual")
                    .at(page.values.place("seam")),
            );
        }
        if let Some(tape) = page.tape.map(Length::mm).filter(|tape| *tape > seam + 1e-6) {
            let text = format!("a tape of {} is wider than its seam of {}", album.show(tape), album.show(seam));
            findings.push(
                Finding::stop("tape-too-wide", "page", text)
                    .measured(mm(tape), page.seam)
                    .help(format!("take a narrower tape, or make page.seam at least {}", album.show(tape)))
                    .mend("page.seam", album.at_least(tape))
                    .at(page.values.place("tape")),
            );
        } else if seam < LAP - 1e-6 && page.tape.is_none() {
            let text = format!("seams of {} hold badly: {} or more is usual", album.show(seam), album.roughly(LAP));
            findings.push(
                Finding::warn("seam-narrow", "page", text)
                    .measured(page.seam, mm(LAP))
                    .help("make page.seam wider; 12 mm or 1/2 in is usual; or name the tape: page.tape")
                    .mend("page.seam", album.at_least(LAP))
                    .at(page.values.place("seam")),
            );
        }
    }
    // The middle page's T is glued on a base of two pitches.
    if let Some(wing) = carry.wing.filter(|wing| *wing > carry.pitch) {
        let (wide, room) = (album.show(wing), album.show(carry.pitch));
        let text = format!("wings of {wide} stand over the strip below, which has room for {room} on each side");
        findings.push(
            Finding::stop("wing-too-wide", "spine", text)
                .measured(mm(wing), mm(carry.pitch))
                .help("leave spine.wing out, or make it a little smaller than spine.pitch")
                .mend("spine.wing", album.at_most(carry.pitch - 0.5))
                .at(album.spine.values.place("wing")),
        );
    }
    // What is stuck on what is beneath it: the narrowest base, a wing, a root.
    if let Some((stuck, field)) = carry.stuck.filter(|(stuck, _)| *stuck < TAPES[0] - 1e-6) {
        let what = match field {
            "wing" if carry.wing.is_some() => "wings of the T are",
            "wing" => "the wings are",
            "root" => "the roots are",
            _ => "the narrowest base is",
        };
        let larger = if field == "root" { "root" } else { "pitch" };
        let text = format!("{what} {}, and the narrowest common tape {}", album.show(stuck), album.roughly(TAPES[0]));
        findings.push(
            Finding::warn("base-narrow", "spine", text)
                .measured(mm(stuck), mm(TAPES[0]))
                .help(format!("make spine.{larger} larger, or be ready to use wet glue with care"))
                .at(album.spine.values.place(field)),
        );
    }
    findings
}
