// SPDX-License-Identifier: MIT
//! How much of a picture's lines is seen: faces that are drawn later cover what lies under them.

use super::{Mark, Picture};
use crate::contour::{Contour, Point};

/// Where each line is looked at, as shares of its length.
const LOOKS: [f64; 3] = [0.17, 0.5, 0.83];

impl Picture {
    /// The length of what is seen of all lines, to about a third of each, mm.
    #[must_use]
    pub fn lines_seen(&self) -> f64 {
        let mut seen = 0.0;
        for (number, mark) in self.marks.iter().enumerate() {
            let Mark::Line { points, .. } = mark else { continue };
            for (from, to) in points.iter().zip(points.iter().skip(1)) {
                let each = from.distance(*to) / 3.0;
                let free = LOOKS.iter().filter(|share| !self.covered(number, from.lerp(*to, **share)));
                seen += free.map(|_| each).sum::<f64>();
            }
        }
        seen
    }

    /// Whether a face that is drawn after a mark covers a point.
    fn covered(&self, after: usize, point: Point) -> bool {
        self.marks.iter().skip(after + 1).any(|mark| match mark {
            Mark::Shape { contours, fill: Some(_), .. } => is_in(contours, point),
            _ => false,
        })
    }
}

/// Where one contour lies in another, it is a hole.
fn is_in(contours: &[Contour], point: Point) -> bool {
    contours.iter().filter(|contour| contour.contains(point)).count() % 2 == 1
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::{Fill, INK, Pen};

    const PEN: Pen = Pen { width: 0.2, colour: INK, dash: &[] };

    fn line(from: (f64, f64), to: (f64, f64)) -> Mark {
        Mark::Line { points: vec![from.into(), to.into()], pen: PEN }
    }

    fn face(contours: Vec<Contour>) -> Mark {
        Mark::Shape { contours, fill: Some(Fill::Flat(INK)), pen: None }
    }

    fn seen(marks: Vec<Mark>) -> f64 {
        Picture { width: 100.0, height: 100.0, marks }.lines_seen()
    }

    /// A face hides what is drawn before it, not what is drawn on it, nor what is seen through its hole.
    #[test]
    fn what_is_covered_is_not_seen() {
        let square = |size: f64| Contour::rectangle(50.0 - size / 2.0, 50.0 - size / 2.0, size, size);
        let across = || line((20.0, 50.0), (80.0, 50.0));
        assert!((seen(vec![across()]) - 60.0).abs() < 1e-9);
        assert!((seen(vec![face(vec![square(40.0)]), across()]) - 60.0).abs() < 1e-9);
        // Looked at in three places, of which the middle one is covered.
        assert!((seen(vec![across(), face(vec![square(10.0)])]) - 40.0).abs() < 1e-9);
        assert!(seen(vec![across(), face(vec![square(90.0)])]).abs() < 1e-9);
        assert!((seen(vec![across(), face(vec![square(90.0), square(70.0)])]) - 60.0).abs() < 1e-9);
        let open = Mark::Shape { contours: vec![square(90.0)], fill: None, pen: Some(PEN) };
        assert!((seen(vec![across(), open]) - 60.0).abs() < 1e-9);
    }
}
