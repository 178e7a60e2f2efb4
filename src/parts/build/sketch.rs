// SPDX-License-Identifier: MIT
//! What several kinds of page draw: pocket fronts with seams that turn under, thumb notches.

use crate::contour::{Contour, Point, Vec2};
use crate::net::{Fold, Net, Panel, Sense, Use};
use crate::parts::bond::{Face, Hold, Side};
use crate::parts::build::builder::Builder;

/// A panel.
pub(in crate::parts) const fn panel(name: &'static str, purpose: Use, outline: Contour) -> Panel {
    Panel { name, purpose, outline }
}

/// A panel that hangs on another one, folded flat by half a turn.
pub(in crate::parts) fn flat_fold(between: [usize; 2], (from, to): ((f64, f64), (f64, f64)), sense: Sense) -> Fold {
    Fold { between, from: from.into(), to: to.into(), sense, angle: 180.0 }
}

/// Which edges of a pocket's front have a seam beside the one at the tail; the others are its mouth.
#[derive(Clone, Copy, Debug)]
pub(in crate::parts) struct Seams {
    pub left: bool,
    pub right: bool,
    pub head: bool,
}

/// The front of a pocket that is stuck on a leaf: its outline, with its lower left at the origin, and seams `depth` deep
/// that turn under it.
///
/// The outline's left edge is as tall as `sides.0`, its right one as `sides.1`, its lower and upper edges run the whole
/// width. Where two seams meet at a corner of 90 degrees, each is cut at 45, half the corner's angle: folded to one face
/// they do not overlap (D7; 45 degrees is common practice, G1). The front is panel 0; where its lower left is in the net is
/// given beside it.
pub(in crate::parts) fn pocket_front(outline: Contour, sides: (f64, f64), seams: Seams, depth: f64) -> (Net, Vec2) {
    let (left, right) = (0.0, outline.bounds().x1);
    let back = |meets: bool| if meets { depth } else { 0.0 };
    let mut net = Net {
        panels: vec![panel("pocket", Use::Plain, outline)],
        folds: Vec::new(),
        holes: Vec::new(),
        marks: Vec::new(),
    };
    let mut add = |name, (from, to): ((f64, f64), (f64, f64)), (out, starts, ends): (Vec2, f64, f64)| {
        // From one end of the fold to the other and back outside; `starts` and `ends` are what the corners take off.
        let along = (Point::from(to) - Point::from(from)).normalize();
        let (one, two) = (Point::from(from) + out + along * starts, Point::from(to) + out - along * ends);
        let corners = [from, to, (two.x, two.y), (one.x, one.y)];
        net.panels.push(panel(name, Use::Seam, Contour::polygon(corners).counter_clockwise()));
        net.folds.push(flat_fold([0, net.panels.len() - 1], (from, to), Sense::Mountain));
    };
    let head = back(seams.head);
    // Under a slanted mouth a seam keeps below it.
    let fall = (sides.0 - sides.1) / right * depth;
    if seams.left {
        add("left seam", ((left, 0.0), (left, sides.0)), (Vec2::new(-depth, 0.0), depth, head.max(fall)));
    }
    if seams.right {
        add("right seam", ((right, 0.0), (right, sides.1)), (Vec2::new(depth, 0.0), depth, head.max(-fall)));
    }
    let (at_left, at_right) = (back(seams.left), back(seams.right));
    add("lower seam", ((left, 0.0), (right, 0.0)), (Vec2::new(0.0, -depth), at_left, at_right));
    if seams.head {
        add("upper seam", ((left, sides.0), (right, sides.1)), (Vec2::new(0.0, depth), at_left, at_right));
    }
    settled(net)
}

/// A net moved to where parts lie, its lower left at the origin, and by how much it was moved.
pub(in crate::parts) fn settled(mut net: Net) -> (Net, Vec2) {
    let boxes = net.panels.iter().map(|panel| panel.outline.bounds());
    let by = boxes.reduce(|all, one| all.union(one)).map_or(Vec2::ZERO, |all| Vec2::new(-all.x0, -all.y0));
    for panel in &mut net.panels {
        panel.outline = panel.outline.shifted(by);
    }
    for fold in &mut net.folds {
        (fold.from, fold.to) = (fold.from + by, fold.to + by);
    }
    net.holes = net.holes.iter().map(|hole| hole.shifted(by)).collect();
    for mark in &mut net.marks {
        *mark = mark.map(|end| end + by);
    }
    (net, by)
}

/// The same side in a net that was moved.
pub(in crate::parts) fn moved(mut side: Side, by: Vec2) -> Side {
    side.at += by;
    side
}

/// Sticks the seams of a pocket's front on the front of what is beneath it, `by` away from where they are drawn.
pub(in crate::parts) fn stick(
    builder: &mut Builder<'_>,
    (piece, net): (usize, &Net),
    (on, panel): (usize, usize),
    by: Vec2,
) {
    for fold in &net.folds {
        let along = (fold.to - fold.from).normalize();
        let side = |piece, panel, at| Side { piece, panel, face: Face::Front, at, along };
        builder.bond(Hold::Stuck, side(piece, fold.between[1], fold.from), side(on, panel, fold.from + by));
    }
}

/// A rectangle with its lower left at the origin and a half-round notch, `diameter` wide, in the middle of its right edge.
pub(in crate::parts) fn notched_right((width, height): (f64, f64), diameter: f64) -> Contour {
    let (middle, radius) = (height / 2.0, diameter / 2.0);
    Contour::new([
        (0.0, 0.0, 0.0),
        (width, 0.0, 0.0),
        (width, middle - radius, -1.0),
        (width, middle + radius, 0.0),
        (width, height, 0.0),
        (0.0, height, 0.0),
    ])
}

/// The same with the notch in the middle of its upper edge; none where its diameter is 0.
pub(in crate::parts) fn notched_head((width, height): (f64, f64), diameter: f64) -> Contour {
    let (middle, radius) = (width / 2.0, diameter / 2.0);
    Contour::new([
        (0.0, 0.0, 0.0),
        (width, 0.0, 0.0),
        (width, height, 0.0),
        (middle + radius, height, -1.0),
        (middle - radius, height, 0.0),
        (0.0, height, 0.0),
    ])
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The rectangle less half a disc.
    #[test]
    fn a_notch_takes_half_a_disc() {
        let disc = std::f64::consts::PI * 100.0;
        for notched in [notched_right((100.0, 150.0), 20.0), notched_head((150.0, 100.0), 20.0)] {
            assert!((notched.area() - (15_000.0 - disc / 2.0)).abs() < 1e-9);
            assert!(notched.is_simple());
        }
        assert!((notched_head((150.0, 100.0), 0.0).area() - 15_000.0).abs() < 1e-9);
    }

    /// Seams at three edges: the middle one is a trapeze, the others are cut at one end.
    #[test]
    fn seams_that_meet_are_cut_at_half_the_corner() {
        let seams = Seams { left: true, right: true, head: false };
        let (net, low) = pocket_front(Contour::rectangle(0.0, 0.0, 100.0, 60.0), (60.0, 60.0), seams, 10.0);
        let area = |name| net.panel(name).map_or(0.0, |panel| net.panels[panel].outline.area());
        assert!((area("lower seam") - 10.0 * (100.0 + 80.0) / 2.0).abs() < 1e-9);
        assert!((area("left seam") - 10.0 * (60.0 + 50.0) / 2.0).abs() < 1e-9);
        assert!((area("left seam") - area("right seam")).abs() < 1e-9);
        assert_eq!(low, Vec2::new(10.0, 10.0));
    }
}
