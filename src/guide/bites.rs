// SPDX-License-Identifier: MIT
//! What an outline lacks of its box: corners, notches.
//!
//! ```text
//!   clip   round  step          notches
//!   +---\  +---.  +---+    +-----.     .------+   +---\  /---+
//!        \      \     |    |      '---'       |   |    \/    |
//!         +      +    +--  +------------------+   +----------+
//! ```
//!
//! In: an outline. Out: [`Bite`]s. Never: words.

use crate::contour::{Contour, Edge, Point, Rect};
use crate::length::tolerance::{READ, SAME};

/// An edge of the box, in the order in which an outline goes round.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Rim {
    Lower,
    Right,
    Upper,
    Left,
}

impl Rim {
    pub(super) const fn is_level(self) -> bool {
        matches!(self, Self::Lower | Self::Upper)
    }

    const fn next(self) -> Self {
        match self {
            Self::Lower => Self::Right,
            Self::Right => Self::Upper,
            Self::Upper => Self::Left,
            Self::Left => Self::Lower,
        }
    }
}

/// The form of a notch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Notch {
    /// Half a disc, or less of one.
    Round,
    /// Two slanting cuts.
    Pointed,
    /// A rectangle.
    Square,
}

/// What is cut off or out, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Cut {
    /// A corner straight across.
    Clip { across: f64, up: f64 },
    /// A corner to a radius.
    Round(f64),
    /// A rectangle at a corner.
    Step { across: f64, up: f64 },
    /// At an edge.
    Notch { kind: Notch, wide: f64, deep: f64 },
    /// Something else, as its picture shows.
    Other,
}

/// One of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Bite {
    pub cut: Cut,
    /// The rims that it leaves, and comes to again.
    pub rims: [Rim; 2],
    /// The middle of its box.
    pub middle: Point,
    /// Whether any of it bends.
    pub bends: bool,
}

impl Bite {
    /// Whether it is cut like another one, at corners or at the same edge.
    pub(super) fn is_like(&self, other: &Self) -> bool {
        let near = |one: f64, other: f64| (one - other).abs() < READ;
        match (self.cut, other.cut) {
            (Cut::Clip { across, up }, Cut::Clip { across: a, up: b })
            | (Cut::Step { across, up }, Cut::Step { across: a, up: b }) => near(across, a) && near(up, b),
            (Cut::Round(one), Cut::Round(other)) => near(one, other),
            (Cut::Notch { kind, wide, deep }, Cut::Notch { kind: as_well, wide: a, deep: b }) => {
                self.rims[0] == other.rims[0] && kind == as_well && near(wide, a) && near(deep, b)
            }
            (Cut::Other, Cut::Other) => self.bends == other.bends,
            _ => false,
        }
    }
}

/// What an outline lacks of its box.
pub(super) fn bites(outline: &Contour) -> Vec<Bite> {
    let (bounds, edges) = (outline.bounds(), outline.edges().collect::<Vec<Edge>>());
    let rims: Vec<Option<Rim>> = edges.iter().map(|edge| rim(*edge, bounds)).collect();
    let Some(start) = rims.iter().position(Option::is_some) else {
        return vec![Bite {
            cut: Cut::Other,
            rims: [Rim::Lower, Rim::Lower],
            middle: bounds.center(),
            bends: edges.iter().any(|edge| !edge.is_line()),
        }];
    };
    let mut bites = Vec::new();
    let (mut from, mut bitten): (Option<Rim>, Vec<Edge>) = (rims[start], Vec::new());
    for step in 1..=edges.len() {
        let at = (start + step) % edges.len();
        let Some(to) = rims[at] else {
            bitten.push(edges[at]);
            continue;
        };
        if let Some(from) = from.filter(|_| !bitten.is_empty()) {
            bites.push(bite(&bitten, [from, to]));
            bitten.clear();
        }
        from = Some(to);
    }
    bites
}

/// The rim that an edge lies on.
fn rim(edge: Edge, bounds: Rect) -> Option<Rim> {
    let ends = [edge.from, edge.to];
    let upright = |at: f64| ends.iter().all(|end| (end.x - at).abs() < READ);
    let level = |at: f64| ends.iter().all(|end| (end.y - at).abs() < READ);
    if !edge.is_line() {
        None
    } else if level(bounds.y0) {
        Some(Rim::Lower)
    } else if upright(bounds.x1) {
        Some(Rim::Right)
    } else if level(bounds.y1) {
        Some(Rim::Upper)
    } else if upright(bounds.x0) {
        Some(Rim::Left)
    } else {
        None
    }
}

fn bite(edges: &[Edge], rims: [Rim; 2]) -> Bite {
    let boxes = edges.iter().map(|edge| edge.bounds()).reduce(|all, one| all.union(one)).unwrap_or_default();
    let (across, up) = (boxes.width(), boxes.height());
    let level = |edge: &Edge| (edge.from.y - edge.to.y).abs() < READ;
    let upright = |edge: &Edge| (edge.from.x - edge.to.x).abs() < READ;
    let straight = edges.iter().all(|edge| edge.is_line());
    let square =
        edges.windows(2).all(|pair| (level(&pair[0]) && upright(&pair[1])) || (upright(&pair[0]) && level(&pair[1])));
    let (wide, deep) = if rims[0].is_level() { (across, up) } else { (up, across) };
    let cut = match edges {
        [one] if rims[0].next() == rims[1] && one.is_line() => Cut::Clip { across, up },
        // A quarter of a circle that bulges outwards, as far along one edge as along the other.
        [one] if rims[0].next() == rims[1] && one.bulge > 0.0 && (across - up).abs() < READ => {
            if (one.radius() - across).abs() < READ { Cut::Round(across) } else { Cut::Other }
        }
        [_, _] if rims[0].next() == rims[1] && straight && square => Cut::Step { across, up },
        [one] if rims[0] == rims[1] && one.bulge < -SAME => Cut::Notch { kind: Notch::Round, wide, deep },
        [one, other]
            if rims[0] == rims[1]
                && one.bulge < -SAME
                && other.bulge < -SAME
                && one.centre().distance(other.centre()) < READ =>
        {
            Cut::Notch { kind: Notch::Round, wide, deep }
        }
        [_, _] if rims[0] == rims[1] && straight => Cut::Notch { kind: Notch::Pointed, wide, deep },
        [_, _, _] if rims[0] == rims[1] && straight && square => Cut::Notch { kind: Notch::Square, wide, deep },
        _ => Cut::Other,
    };
    Bite { cut, rims, middle: boxes.center(), bends: !straight }
}

/// The radius of the corners of a rectangle that stands straight, mm; none of what is anything else.
pub(super) fn soft_box(hole: &Contour) -> Option<f64> {
    let bounds = hole.bounds();
    let corners: Vec<Edge> = hole.edges().filter(|edge| rim(*edge, bounds).is_none()).collect();
    let radius = corners.first()?.bounds().width();
    let quarter = |corner: &Edge| {
        let (side, other) = (corner.bounds().width(), corner.bounds().height());
        let near = |length: f64| (length - radius).abs() < READ;
        // A corner that bulges inwards has its centre at the box's own.
        let within = bounds.inset(READ - radius).contains(corner.centre());
        !corner.is_line() && near(side) && near(other) && near(corner.radius()) && within
    };
    (corners.len() == 4 && corners.iter().all(quarter)).then_some(radius)
}

/// Whether a hole is a rectangle that stands straight.
pub(super) fn is_box(hole: &Contour) -> bool {
    let bounds = hole.bounds();
    hole.edges().all(|edge| rim(edge, bounds).is_some())
}
