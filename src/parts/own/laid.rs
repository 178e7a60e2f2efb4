// SPDX-License-Identifier: MIT
//! Where panels of a kind lie once all its folds are closed and its pieces are joined: what is written about joins, pockets
//! and papers is told from there.
//!
//! Everything stands square on the page, so each direction goes by itself: a point x of the flat piece lies at
//! `k x + a`, where k is 1, or -1 where it is turned over. What stands up between two folds lies nowhere.

use crate::contour::{Point, Rect};
use crate::length::tolerance::SAME;
use crate::net::{Net, Sense};

/// How flat things lie: what becomes of each coordinate.
#[derive(Clone, Copy, Debug)]
pub(super) struct LaidFlat {
    /// 1, or -1 where it is turned over; across and up.
    pub k: [f64; 2],
    /// Where 0 lies, mm.
    pub a: [f64; 2],
}

impl LaidFlat {
    pub(super) const AS_DRAWN: Self = Self { k: [1.0; 2], a: [0.0; 2] };

    pub(super) fn point(self, at: Point) -> Point {
        Point::new(self.k[0].mul_add(at.x, self.a[0]), self.k[1].mul_add(at.y, self.a[1]))
    }

    pub(super) fn rect(self, of: Rect) -> Rect {
        Rect::from_points(self.point(Point::new(of.x0, of.y0)), self.point(Point::new(of.x1, of.y1)))
    }

    /// The same, laid once more.
    pub(super) fn then(self, next: Self) -> Self {
        let k = [0, 1].map(|axis| self.k[axis] * next.k[axis]);
        Self { k, a: [0, 1].map(|axis| next.k[axis].mul_add(self.a[axis], next.a[axis])) }
    }

    /// Whether its front looks the way that the front of what it lies on does.
    pub(super) fn is_face_up(self) -> bool {
        self.k[0] * self.k[1] > 0.0
    }

    fn is_flat(self) -> bool {
        self.k.iter().all(|k| (k.abs() - 1.0).abs() < SAME)
    }
}

/// Where each panel lies, its root as it is drawn; none for one that stands up.
pub(super) fn panels(net: &Net) -> Vec<Option<LaidFlat>> {
    // How far each is folded in all, degrees, across and up.
    let mut turned: Vec<Option<([f64; 2], LaidFlat)>> = vec![None; net.panels.len()];
    if let Some(root) = turned.first_mut() {
        *root = Some(([0.0; 2], LaidFlat::AS_DRAWN));
    }
    // Folds may come in any order; each pass places what hangs on what is placed.
    for _ in 0..net.folds.len() {
        for fold in &net.folds {
            let [parent, child] = fold.between;
            let (Some(Some((angles, laid))), Some(None)) = (turned.get(parent).copied(), turned.get(child)) else {
                continue;
            };
            let axis = usize::from((fold.to.y - fold.from.y).abs() < (fold.to.x - fold.from.x).abs());
            let at = if axis == 0 { fold.from.x } else { fold.from.y };
            let sign = if fold.sense == Sense::Mountain { -1.0 } else { 1.0 };
            let mut angles = angles;
            angles[axis] += sign * fold.angle;
            let mut next = laid;
            next.k[axis] = exact_cosine(angles[axis]);
            // The fold stays where it is.
            next.a[axis] = laid.k[axis].mul_add(at, laid.a[axis]) - next.k[axis] * at;
            turned[child] = Some((angles, next));
        }
    }
    turned.into_iter().map(|placed| placed.map(|(_, laid)| laid).filter(|laid| laid.is_flat())).collect()
}

fn exact_cosine(degrees: f64) -> f64 {
    let cosine = degrees.to_radians().cos();
    if (cosine.abs() - 1.0).abs() < SAME {
        cosine.signum()
    } else if cosine.abs() < SAME {
        0.0
    } else {
        cosine
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::net::{Along, RowPanel, Use};

    /// A row folded by hand: page 100 wide, a riser 5 up and a flap 40 back over it.
    #[test]
    fn a_flap_over_a_riser_lies_back_over_its_page() {
        let row = [
            RowPanel::new("page", Use::Plain, 100.0),
            RowPanel::new("riser", Use::Flap, 5.0).folded(Sense::Valley, 90.0),
            RowPanel::new("flap", Use::Flap, 40.0).folded(Sense::Valley, 90.0),
        ];
        let laid = panels(&Net::row(Along::Across, 60.0, &row, 0));
        assert!(laid[1].is_none());
        let flap = laid[2].map(|laid| (laid.rect(Rect::new(105.0, 0.0, 145.0, 60.0)), laid.is_face_up()));
        let (rect, up) = flap.unwrap_or_default();
        assert!((rect.x0 - 60.0).abs() < 1e-9 && (rect.x1 - 100.0).abs() < 1e-9 && !up, "{rect:?}");
    }
}
