// SPDX-License-Identifier: MIT
//! Where a part's front does not show on the finished album: seams, tabs, and what others are stuck on.

use crate::contour::{Contour, Point, Rect, Vec2};
use crate::length::tolerance::SAME;
use crate::net::Use;
use crate::parts::bond::{Bond, Face, Hold};
use crate::parts::kit::{Kit, Part, Piece};

/// What of a part's front is hidden, in the part's frame.
#[derive(Clone, Debug, Default)]
#[non_exhaustive]
pub struct Hidden {
    /// Seams and tabs.
    pub panels: Vec<Rect>,
    /// Where other pieces are stuck on it, the same on every piece that is cut as this part.
    pub covered: Vec<Rect>,
}

impl Kit {
    /// What is hidden of each part.
    #[must_use]
    pub fn hidden(&self) -> Vec<Hidden> {
        self.parts
            .iter()
            .enumerate()
            .map(|(number, part)| Hidden { panels: own(part), covered: self.covered(number) })
            .collect()
    }

    fn covered(&self, part: usize) -> Vec<Rect> {
        let pieces = self.pieces.iter().enumerate().filter(|(_, piece)| piece.part == part);
        let mut covers = pieces.map(|(number, piece)| self.covers(number, piece));
        let first = covers.next().unwrap_or_default();
        let rest: Vec<Vec<Rect>> = covers.collect();
        let in_all = |rect: &Rect| rest.iter().all(|covers| covers.iter().any(|cover| same(*cover, *rect)));
        first.into_iter().filter(in_all).collect()
    }

    /// Where pieces are stuck on the front of one piece, in its part's frame.
    fn covers(&self, number: usize, piece: &Piece) -> Vec<Rect> {
        let flat = &self.parts[piece.part].flat;
        let on_front =
            |bond: &&Bond| bond.hold == Hold::Stuck && bond.other.piece == number && bond.other.face == Face::Front;
        self.bonds
            .iter()
            .filter(on_front)
            .filter_map(|bond| {
                let one = self.pieces.get(bond.one.piece)?;
                let panel = &one.net.panels.get(bond.one.panel)?.outline;
                let rect = inner(panel)?;
                let corners =
                    [Point::new(rect.x0, rect.y0), Point::new(rect.x1, rect.y1)].map(|corner| across(bond, corner));
                let [a, b] = corners.map(|corner| {
                    if piece.turned { Point::new(flat.width - corner.x, flat.height - corner.y) } else { corner }
                });
                Some(Rect::from_points(a, b))
            })
            .collect()
    }
}

/// A point of a bond's one piece in the frame of the other. Seen from the other's front, a piece that lies on
/// it with its back is seen as drawn, one that lies on it with its front is seen from behind.
fn across(bond: &Bond, point: Point) -> Point {
    let (one, other) = (&bond.one, &bond.other);
    let away = point - one.at;
    let (along, aside) = (away.dot(one.along), one.along.cross(away));
    let aside = if one.face == Face::Front { -aside } else { aside };
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
