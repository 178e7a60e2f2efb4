// SPDX-License-Identifier: MIT
//! Holes and notches that are smaller than the machine makes well.

use crate::contour::{Contour, Edge, OffsetProblem, grow};
use crate::cutter::Cutter;
use crate::finding::{Arg, Finding, Said};
use crate::length::Units;
use crate::parts::Part;

/// Half of what may be lacking, mm: offsets of less leave nothing that can be told from nothing.
const HAIR: f64 = 0.02;

/// An arc that bends back so far round is a notch of its own, not the round corner of one, radians: our choice.
const NOTCH: f64 = 2.5;

/// What is narrower than the machine makes well, if anything. A notch that tapers has no width, and is not judged.
pub(super) fn too_small(part: &Part, cutter: &Cutter) -> Vec<Finding> {
    let least = cutter.manner.smallest_inner;
    let half = least.mm() / 2.0 - HAIR;
    if half <= 0.0 {
        return Vec::new();
    }
    let narrow = |hole: &Contour| {
        let bounds = hole.bounds().inflate(least.mm(), least.mm());
        let around = Contour::rectangle(bounds.x0, bounds.y0, bounds.width(), bounds.height());
        grow(&around, std::slice::from_ref(hole), half).is_err()
    };
    let holes = part.flat.holes.iter().filter(|hole| narrow(hole)).count();
    let outline = &part.flat.outline;
    let splits = |problems: Vec<OffsetProblem>| problems.contains(&OffsetProblem::OutlineSplits);
    let notched = grow(outline, &[], half).err().is_some_and(splits) || tight_arc(outline, half);
    let told = |text: Said| {
        let text = text.with("least", Arg::Length(least, Units::Mm));
        let finding = Finding::warn("inner-too-small", Said::named(part.called()), text);
        finding.help(Said::new("inner-too-small-help")).at(part.place.as_ref())
    };
    let holes = (holes > 0).then(|| told(Said::new("narrow-holes").with("holes", holes)));
    holes.into_iter().chain(notched.then(|| told(Said::new("narrow-notch")))).collect()
}

/// Whether arcs of one circle that is smaller than this bend back into the part.
fn tight_arc(outline: &Contour, radius: f64) -> bool {
    let edges: Vec<Edge> = outline.edges().collect();
    (0..edges.len()).any(|first| {
        let one = edges[first];
        let tight = one.bulge < 0.0 && one.radius() < radius;
        let same = |edge: &&Edge| edge.bulge < 0.0 && edge.centre().distance(one.centre()) < HAIR;
        let run = edges[first..].iter().chain(&edges[..first]).take_while(same);
        tight && run.map(|edge| -edge.angle()).sum::<f64>() > NOTCH
    })
}
