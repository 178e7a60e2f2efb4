// SPDX-License-Identifier: MIT
//! Where a part's faces do not show on the finished album: on its front seams, tabs, and what others are stuck on; on its back
//! what is stuck on others, and what others are stuck on.

use crate::contour::{Contour, Point, Rect, Vec2};
use crate::length::tolerance::SAME;
use crate::net::Use;
use crate::parts::bond::{Bond, Face, Hold};
use crate::parts::kit::{Kit, Part, Piece};

/// What of a part's faces is hidden, in the part's frame, seen from the front.
#[derive(Clone, Debug, Default)]
#[non_exhaustive]
pub struct Hidden {
    /// Seams and tabs.
    pub panels: Vec<Rect>,
    /// Where other pieces are stuck on it, the same on every piece that is cut as this part.
    pub covered: Vec<Rect>,
    /// What of its back lies on another piece, or under one, the same on every piece that is cut as this part.
    pub backs: Vec<Rect>,
}

impl Kit {
    /// What is hidden of each part.
    #[must_use]
    pub fn hidden(&self) -> Vec<Hidden> {
        self.parts
            .iter()
            .enumerate()
            .map(|(number, part)| Hidden {
                panels: own(part),
                covered: self.in_all(number, |number, piece| self.covers(number, piece, Face::Front)),
                backs: self.in_all(number, |number, piece| {
                    [self.stuck_by_its_back(number, piece), self.covers(number, piece, Face::Back)].concat()
                }),
            })
            .collect()
    }

    /// What all pieces have in common that are cut as a part.
    fn in_all(&self, part: usize, hides: impl Fn(usize, &Piece) -> Vec<Rect>) -> Vec<Rect> {
        let pieces = self.pieces.iter().enumerate().filter(|(_, piece)| piece.part == part);
        let mut covers = pieces.map(|(number, piece)| hides(number, piece));
        let first = covers.next().unwrap_or_default();
        let rest: Vec<Vec<Rect>> = covers.collect();
        let in_all = |rect: &Rect| rest.iter().all(|covers| covers.iter().any(|cover| same(*cover, *rect)));
        first.into_iter().filter(in_all).collect()
    }

    /// The panels of a piece that are stuck on others by their backs.
    fn stuck_by_its_back(&self, number: usize, piece: &Piece) -> Vec<Rect> {
        let by_its_back =
            |bond: &&Bond| bond.hold == Hold::Stuck && bond.one.piece == number && bond.one.face == Face::Back;
        let panels = self.bonds.iter().filter(by_its_back).filter_map(|bond| piece.net.panels.get(bond.one.panel));
        panels.filter_map(|panel| inner(&panel.outline)).map(|rect| self.in_part(piece, rect)).collect()
    }

    /// Where pieces are stuck on a face of one piece, in its part's frame.
    fn covers(&self, number: usize, piece: &Piece, face: Face) -> Vec<Rect> {
        let on_face = |bond: &&Bond| bond.hold == Hold::Stuck && bond.other.piece == number && bond.other.face == face;
        self.bonds
            .iter()
            .filter(on_face)
            .filter_map(|bond| {
                let one = self.pieces.get(bond.one.piece)?;
                let panel = &one.net.panels.get(bond.one.panel)?.outline;
                let rect = inner(panel)?;
                let [a, b] =
                    [Point::new(rect.x0, rect.y0), Point::new(rect.x1, rect.y1)].map(|corner| across(bond, corner));
                Some(self.in_part(piece, Rect::from_points(a, b)))
            })
            .collect()
    }

    /// A rectangle of a piece in the frame of its part, as which it may be cut upside down.
    fn in_part(&self, piece: &Piece, rect: Rect) -> Rect {
        if !piece.turned {
            return rect;
        }
        let flat = &self.parts[piece.part].flat;
        Rect::new(flat.width - rect.x1, flat.height - rect.y1, flat.width - rect.x0, flat.height - rect.y0)
    }
}

/// A point of a bond's one piece in the frame of the other. Seen from the other's front, a piece whose back lies on that front, or whose
/// front on its back, is seen as drawn; where equal faces lie on each other it is seen from behind.
fn across(bond: &Bond, point: Point) -> Point {
    let (one, other) = (&bond.one, &bond.other);
    let away = point - one.at;
    let (along, aside) = (away.dot(one.along), one.along.cross(away));
    let aside = if one.face == other.face { -aside } else { aside };
    other.at + other.along * along + Vec2::new(-other.along.y, other.along.x) * aside
}

fn own(part: &Part) -> Vec<Rect> {
    let glued = part.net.panels.iter().filter(|panel| matches!(panel.purpose, Use::Seam | Use::Tab));
    glued.filter_map(|panel| inner(&panel.outline)).collect()
}

/// An upright rectangle inside a panel: its box, with tapered ends taken off above and below, or else at the sides.
fn inner(panel: &Contour) -> Option<Rect> {
    let bounds = panel.bounds();
    let middle = bounds.center();
    let corners = || panel.vertices().iter().map(|vertex| vertex.at);
    let low = corners().filter(|corner| corner.y < middle.y).map(|corner| corner.y).fold(bounds.y0, f64::max);
    let high = corners().filter(|corner| corner.y > middle.y).map(|corner| corner.y).fold(bounds.y1, f64::min);
    let left = corners().filter(|corner| corner.x < middle.x).map(|corner| corner.x).fold(bounds.x0, f64::max);
    let right = corners().filter(|corner| corner.x > middle.x).map(|corner| corner.x).fold(bounds.x1, f64::min);
    let inside = |rect: &Rect| {
        let corners = [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)];
        let held = |point: Point| panel.distance(point) < SAME || panel.contains(point);
        rect.area() > 0.0 && corners.into_iter().all(|(x, y)| held(Point::new(x, y)))
    };
    [Rect { y0: low, y1: high, ..bounds }, Rect { x0: left, x1: right, ..bounds }].into_iter().find(inside)
}

fn same(one: Rect, two: Rect) -> bool {
    let corners = |rect: Rect| [rect.x0, rect.y0, rect.x1, rect.y1];
    corners(one).iter().zip(corners(two)).all(|(one, two)| (one - two).abs() < SAME)
}
