// SPDX-License-Identifier: MIT
//! The paper that covers the boards of a case: one sheet, its edges turned in round the boards, its corners mitred.
//!
//! ```text
//!        ____________________________________
//!       /            turn-in                 \       Boards + 2 (turn-in + board's thickness) either way (B2).
//!     /+-----------+-+-----+-+-----------+\       Each corner is cut off at 45 degrees; 1.0 to 1.5 thicknesses of
//!    | |           | |     | |           | |      board are left between the cut and the board's corner (B3), which
//!    | |   back    | |spine| |   front   | |      are tucked in before the turn-ins of the fore-edges go over them.
//!    | |           | |     | |           | |
//!     \+-----------+-+-----+-+-----------+/       Nothing is scored: paper is bent round the boards.
//!       \____________________________________/
//! ```

use crate::contour::{Contour, Point, SAME, Vec2};
use crate::net::{Fold, Net, Panel, Sense, Use};
use crate::parts::bond::{Face, Side};
use crate::parts::build::builder::side;
use std::f64::consts::SQRT_2;

/// What the paper goes round, mm.
#[derive(Clone, Copy, Debug)]
pub(in crate::parts) struct Covering {
    /// A board: from the joint to the fore-edge, from tail to head.
    pub board: (f64, f64),
    /// Width of the spine board.
    pub spine: f64,
    /// From the spine board to a board.
    pub joint: f64,
    /// Thickness of the boards, and of the paper.
    pub thick: (f64, f64),
    /// What is turned in over the boards' edges.
    pub turn_in: f64,
    /// From a board's corner to the cut across the paper's corner.
    pub mitre: f64,
}

/// A turned-in panel and where it comes to lie.
#[derive(Clone, Copy, Debug)]
pub(in crate::parts) struct TurnIn {
    /// 0 the back board, 1 the front board.
    pub board: usize,
    /// Number of its panel.
    pub panel: usize,
    /// Its face, a corner of the board, the way along the board's edge.
    pub at: Point,
    pub along: Vec2,
    /// The same corner on the board, seen from the inside, and the way along its edge.
    pub on: Point,
    pub on_along: Vec2,
}

/// The covering paper.
#[derive(Clone, Debug)]
pub(in crate::parts) struct CoveringSheet {
    pub net: Net,
    pub turn_ins: Vec<TurnIn>,
    /// The middle of the spine at the tail, and the middle of its height.
    middle: (f64, f64),
    /// The left end of the back, the right end of the front, the tail.
    ends: (f64, f64, f64),
    back_end: f64,
}

/// What of the outside of a case is covered by a board of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::parts) enum CoveredPart {
    Back,
    Spine,
    Front,
}

/// A tuck that is narrower than this, mm, is nothing to tuck in: our choice.
const LEAST_TUCK: f64 = 0.05;

/// Numbers of the panels that boards lie on.
const SPINE: usize = 0;
const BACK: usize = 2;
const FRONT: usize = 4;

impl CoveringSheet {
    /// Where the back's board (0) or the front's (1) lies, at the corner of its tail that is at the left from the inside.
    pub(in crate::parts) fn under(&self, piece: usize, board: usize) -> Side {
        let (panel, x) = if board == 0 { (BACK, self.back_end) } else { (FRONT, self.ends.1) };
        side(piece, panel, Face::Back, (x, self.ends.2), (0.0, 1.0))
    }

    /// The middle of the spine at the tail; inside, going up.
    pub(in crate::parts) fn under_spine(&self, piece: usize) -> Side {
        side(piece, SPINE, Face::Back, (self.middle.0, self.ends.2), (0.0, 1.0))
    }

    /// The lower left corner of a part of the outside, going to the right.
    pub(in crate::parts) fn face(&self, piece: usize, part: CoveredPart) -> Side {
        let panel = match part {
            CoveredPart::Back => BACK,
            CoveredPart::Spine => SPINE,
            CoveredPart::Front => FRONT,
        };
        let left = self.net.panels.get(panel).map_or(0.0, |panel| panel.outline.bounds().x0);
        side(piece, panel, Face::Front, (left, self.ends.2), (1.0, 0.0))
    }

    /// The very middle of the spine; outside, going to the right.
    pub(in crate::parts) fn outside(&self, piece: usize) -> Side {
        side(piece, SPINE, Face::Front, self.middle, (1.0, 0.0))
    }
}

impl Covering {
    /// From a board's edge to the paper's.
    fn beyond(&self) -> f64 {
        self.turn_in + self.thick.0
    }

    /// From a board's corner along its edge to the mitre.
    pub(in crate::parts) fn leg(&self) -> f64 {
        self.mitre * SQRT_2
    }

    /// The paper, seen from the outside: the back at the left.
    pub(in crate::parts) fn sheet(&self) -> CoveringSheet {
        let (width, height) = self.board;
        let paper = self.thick.1;
        // The paper's middle turns at half its caliper outside the spine board's edges.
        let (spine, joint) = (self.spine + paper, self.joint - paper / 2.0);
        let beyond = self.beyond();
        let mut x = [beyond; 6];
        for (index, wide) in [width, joint, spine, joint, width].into_iter().enumerate() {
            x[index + 1] = x[index] + wide;
        }
        let (tail, head) = (beyond, beyond + height);
        // The spine first, so that it stays put.
        let order = [("spine", 2), ("back joint", 1), ("back", 0), ("front joint", 3), ("front", 4)];
        let panels = order.map(|(name, at)| Panel {
            name,
            purpose: Use::Plain,
            outline: Contour::rectangle(x[at], tail, x[at + 1] - x[at], height),
        });
        let upright = |between, x: f64, angle| fold(between, (x, tail).into(), (x, head).into(), angle);
        let folds = vec![
            upright([SPINE, 1], x[2], -90.0),
            upright([1, BACK], x[1], 0.0),
            upright([SPINE, 3], x[3], -90.0),
            upright([3, FRONT], x[4], 0.0),
        ];
        let mut sheet = CoveringSheet {
            net: Net { panels: panels.into(), folds, holes: Vec::new(), marks: Vec::new() },
            turn_ins: Vec::new(),
            middle: (f64::midpoint(x[2], x[3]), f64::midpoint(tail, head)),
            ends: (x[0], x[5], tail),
            back_end: x[1],
        };
        for (panel, (_, at)) in order.iter().enumerate() {
            for (y, out) in [(tail, -1.0), (head, 1.0)] {
                let edge = PanelEdge {
                    from: Point::new(x[*at], y),
                    along: Vec2::new(1.0, 0.0),
                    out: Vec2::new(0.0, out),
                    length: x[at + 1] - x[*at],
                    ends: [*at == 0, *at == 4].map(|corner| if corner { TurnInEnd::Over } else { TurnInEnd::Plain }),
                };
                self.turn(&mut sheet, panel, &edge);
            }
        }
        for (panel, x, out) in [(BACK, x[0], -1.0), (FRONT, x[5], 1.0)] {
            let edge = PanelEdge {
                from: Point::new(x, tail),
                along: Vec2::new(0.0, 1.0),
                out: Vec2::new(out, 0.0),
                length: height,
                ends: [TurnInEnd::Under; 2],
            };
            self.turn(&mut sheet, panel, &edge);
        }
        sheet
    }

    /// Adds what is turned in over one edge of a panel: the strip over the board's edge, and the turn-in.
    fn turn(&self, sheet: &mut CoveringSheet, panel: usize, edge: &PanelEdge) {
        let (leg, strip, beyond) = (self.leg(), self.thick.0 + self.thick.1, self.beyond());
        let point = |u: f64, h: f64| edge.from + edge.along * u + edge.out * h;
        // How far each end stands back at this height; below 0 it reaches beyond.
        let back = |end: TurnInEnd, h: f64| match end {
            TurnInEnd::Plain => 0.0,
            TurnInEnd::Over => h - leg,
            TurnInEnd::Under => (h - leg).max(0.0),
        };
        let mut add = |name, purpose, corners: Vec<(f64, f64)>| {
            let corners = corners.into_iter().map(|(u, h)| point(u, h)).map(|point| (point.x, point.y));
            sheet.net.panels.push(Panel { name, purpose, outline: Contour::polygon(corners).counter_clockwise() });
            sheet.net.panels.len() - 1
        };
        let [start, end] = edge.ends;
        // Where an end bends between two heights: at the mitre's leg, if it is not plain.
        let bend =
            |end: TurnInEnd, low: f64, high: f64| end != TurnInEnd::Plain && leg > low + SAME && leg < high - SAME;
        let mut corners = vec![(back(start, 0.0), 0.0), (edge.length - back(end, 0.0), 0.0)];
        if end == TurnInEnd::Under && bend(end, 0.0, strip) {
            corners.push((edge.length, leg));
        }
        corners.extend([(edge.length - back(end, strip), strip), (back(start, strip), strip)]);
        if start == TurnInEnd::Under && bend(start, 0.0, strip) {
            corners.push((0.0, leg));
        }
        let over = add("edge", Use::Plain, corners);
        // On the board nothing reaches beyond the board: that is tucked in.
        let (left, right) = (back(start, strip).max(0.0), edge.length - back(end, strip).max(0.0));
        let mut corners = vec![(left, strip), (right, strip)];
        if bend(end, strip, beyond) {
            corners.push((edge.length, leg));
        }
        corners.extend([(edge.length - back(end, beyond), beyond), (back(start, beyond), beyond)]);
        if bend(start, strip, beyond) {
            corners.push((0.0, leg));
        }
        let turned = add("turn-in", Use::Flap, corners);
        let mut tucks = Vec::new();
        for (end, at, away) in [(start, 0.0, -1.0), (end, edge.length, 1.0)] {
            let reach = -back(end, strip);
            if end == TurnInEnd::Over && reach > LEAST_TUCK {
                let tuck = add("tuck", Use::Plain, vec![(at + away * reach, strip), (at, strip), (at, leg)]);
                tucks.push(fold([turned, tuck], point(at, strip), point(at, leg), -90.0));
            }
        }
        let folds = &mut sheet.net.folds;
        folds.push(fold([panel, over], point(0.0, 0.0), point(edge.length, 0.0), -90.0));
        folds.push(fold([over, turned], point(left, strip), point(right, strip), -90.0));
        folds.extend(tucks);
        let board = match panel {
            BACK => 0,
            FRONT => 1,
            _ => return,
        };
        // From the inside left and right are swapped.
        let corner = if board == 0 { sheet.back_end } else { sheet.ends.1 };
        sheet.turn_ins.push(TurnIn {
            board,
            panel: turned,
            at: point(0.0, strip),
            along: edge.along,
            on: Point::new(corner - edge.from.x, edge.from.y - sheet.ends.2),
            on_along: Vec2::new(-edge.along.x, edge.along.y),
        });
    }
}

/// An edge of a panel: from one end along it, and the way out.
struct PanelEdge {
    from: Point,
    along: Vec2,
    out: Vec2,
    length: f64,
    ends: [TurnInEnd; 2],
}

/// What an end of a turn-in does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum TurnInEnd {
    /// The paper runs on.
    Plain,
    /// It goes round a corner of the board, and is tucked in there.
    Over,
    /// It lies over such a one.
    Under,
}

fn fold(between: [usize; 2], from: Point, to: Point, angle: f64) -> Fold {
    Fold { between, from, to, sense: Sense::Bent, angle }
}
