// SPDX-License-Identifier: MIT
//! Whether the hinge's and the seams' sizes leave the pages what they need.

use crate::album::Album;
use crate::finding::Finding;
use crate::length::Length;
use crate::parts::{Hinge, Kit};

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    let hinge = Hinge::of(album);
    let spine = &album.spine.values;
    let mm = Length::from_mm;
    let mut findings = Vec::new();
    // A tab that fills a sleeve leaves no way in; the narrowest sleeve decides.
    let narrowest = kit.pockets.iter().min_by(|one, two| one.width.total_cmp(&two.width));
    if let Some(pocket) = narrowest.filter(|pocket| hinge.tab >= pocket.width) {
        let (tab, width) = (album.show(hinge.tab), album.show(pocket.width));
        let text = format!("a tab of {tab} does not go into the sleeve of page {}, which is {width} wide", pocket.page);
        findings.push(
            Finding::stop("tab-too-wide", "spine", text)
                .measured(mm(hinge.tab), mm(pocket.width))
                .help("make spine.tab smaller; 12 mm or 1/2 in is usual")
                .at(spine.place("tab")),
        );
    }
    // The middle page's T is glued on a base of two pitches.
    if album.pages.len() % 2 == 1 && album.pages.len() > 1 && hinge.wing > hinge.pitch {
        let (wing, pitch) = (album.show(hinge.wing), album.show(hinge.pitch));
        let text = format!("wings of {wing} stand over the strip below, which has room for {pitch} on each side");
        findings.push(
            Finding::stop("wing-too-wide", "spine", text)
                .measured(mm(hinge.wing), mm(hinge.pitch))
                .help("leave spine.wing out, or make it a little smaller than spine.pitch")
                .at(spine.place("wing")),
        );
    }
    // A seam is folded in over its own page.
    let (seam, height) = (album.page.seam, album.page.height);
    if seam > height && !kit.pockets.is_empty() {
        let text = format!("seams of {} stick out of a page {} tall", album.show(seam.mm()), album.show(height.mm()));
        findings.push(
            Finding::stop("seam-too-large", "page", text)
                .measured(seam, height)
                .help("make page.seam smaller; 12 mm or 1/2 in is usual")
                .at(album.page.values.place("seam")),
        );
    }
    findings
}
