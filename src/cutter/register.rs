// SPDX-License-Identifier: MIT
//! Register marks: what is printed on a sheet before it is cut, so that whoever cuts it finds the print again.
//!
//! ```text
//!   3 --------- 2     The marks stand in two bands along opposite sides of the sheet, at its corners: first the lower left
//!   |           |     (1) and the upper right (2), then the lower right (3) and the upper left (4), then the middles of
//!   |   parts   |     the bands (5, 6). Three or five of them tell which way round the sheet lies. Parts keep off both
//!   |           |     bands, by the gap, whatever the number.
//!   1 --- 5 --- 4
//! ```

use super::Cutter;
use crate::contour::{Contour, Point};
use crate::fields::words;
use crate::length::Length;
use crate::length::tolerance::SAME;

words! {
    /// What a register mark looks like.
    pub enum MarkShape {
        /// Two lines that meet at right angles in the outer corner.
        Corner = "corner",
        /// A circle.
        Ring = "ring",
        /// A square filled with ink.
        Square = "square",
        /// Two lines that cross.
        Cross = "cross",
    }
}

words! {
    /// Along which sides of a sheet its register marks stand.
    pub enum MarkSides {
        /// Along the two shorter ones: that takes the least of a sheet.
        Short = "short-sides",
        /// Along the two longer ones: that leaves a sheet its length.
        Long = "long-sides",
    }
}

/// The register marks of sheets that are printed before they are cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RegisterMarks {
    /// What each looks like.
    pub shape: MarkShape,
    /// How wide and tall each is, from line to line.
    pub size: Length,
    /// How far it stands from the sheet's edges.
    pub inset: Length,
    /// How many a sheet has, two to six.
    pub number: u32,
    /// How broad its printed lines are.
    pub line: Length,
    /// Along which sides they stand.
    pub along: MarkSides,
    /// How far what is printed on a part runs on past its cut.
    pub bleed: Length,
}

/// A register mark on a sheet: mm, y up.
#[derive(Clone, Debug, PartialEq)]
pub struct RegisterMark {
    /// The lower left of its box.
    pub at: Point,
    /// How wide and tall it is.
    pub size: f64,
    /// Its lines, each through these points.
    pub lines: Vec<Vec<Point>>,
    /// Or its outline.
    pub outline: Option<Contour>,
    /// How broad its lines are.
    pub line: f64,
    /// Whether the outline is filled.
    pub solid: bool,
}

/// Marks take no more than this share of a sheet's other side: our choice. What is smaller is cut without.
const MOST: f64 = 0.5;

/// How many corners of a sheet there are; what is beyond stands between them.
const CORNERS: u32 = 4;

impl RegisterMarks {
    /// How far its ink reaches into the sheet, mm.
    fn reach(&self) -> f64 {
        self.inset.mm() + self.size.mm() + self.line.mm() / 2.0
    }

    /// Whether the bands of a sheet of these sides lie at its head and foot.
    fn at_the_ends(&self, width: f64, height: f64) -> bool {
        (width <= height) == (self.along == MarkSides::Short)
    }

    /// Whether they have room on a sheet of these sides, mm: clear of each other by the gap, on half of it at most.
    fn fit(&self, width: f64, height: f64, gap: f64) -> bool {
        let (along, across) = if self.at_the_ends(width, height) { (width, height) } else { (height, width) };
        let side_by_side = if self.number > CORNERS { 3.0 } else { 2.0 };
        let apart = (side_by_side - 1.0) * (self.line.mm() + gap);
        let needs = 2.0f64.mul_add(self.inset.mm(), side_by_side * self.size.mm()) + apart;
        needs <= along + SAME && 2.0 * (self.reach() + gap) <= across * MOST + SAME
    }

    /// The marks of a sheet of these sides.
    fn placed(&self, width: f64, height: f64) -> Vec<RegisterMark> {
        let (inset, size) = (self.inset.mm(), self.size.mm());
        let (right, top) = (width - inset - size, height - inset - size);
        let (first, last) = if self.at_the_ends(width, height) {
            let middle = (width - size) / 2.0;
            ((middle, inset), (middle, top))
        } else {
            let middle = (height - size) / 2.0;
            ((inset, middle), (right, middle))
        };
        let corners = [(inset, inset), (right, top), (right, inset), (inset, top)];
        let number = usize::try_from(self.number).unwrap_or(usize::MAX);
        let spots = corners.into_iter().chain([first, last]).take(number);
        spots.map(|(x, y)| self.mark(Point::new(x, y), (x > width / 2.0, y > height / 2.0))).collect()
    }

    /// One mark, in the right or the upper half of its sheet.
    fn mark(&self, at: Point, (right, upper): (bool, bool)) -> RegisterMark {
        let size = self.size.mm();
        let spot = |x: f64, y: f64| Point::new(at.x + x * size, at.y + y * size);
        let (lines, outline) = match self.shape {
            MarkShape::Corner => {
                let (x, y) = (f64::from(u8::from(right)), f64::from(u8::from(upper)));
                (vec![vec![spot(1.0 - x, y), spot(x, y), spot(x, 1.0 - y)]], None)
            }
            MarkShape::Cross => {
                (vec![vec![spot(0.0, 0.5), spot(1.0, 0.5)], vec![spot(0.5, 0.0), spot(0.5, 1.0)]], None)
            }
            MarkShape::Ring => (Vec::new(), Some(Contour::circle(spot(0.5, 0.5), size / 2.0))),
            MarkShape::Square => (Vec::new(), Some(Contour::rectangle(at.x, at.y, size, size))),
        };
        RegisterMark { at, size, lines, outline, line: self.line.mm(), solid: self.shape == MarkShape::Square }
    }
}

impl Cutter {
    /// The register marks of a sheet of these sides, where it has any and they find room.
    #[must_use]
    pub fn register(&self, width: Length, height: Length) -> Vec<RegisterMark> {
        let (width, height) = (width.mm(), height.mm());
        let fitting = self.marks.filter(|marks| marks.fit(width, height, self.gap.mm()));
        fitting.map(|marks| marks.placed(width, height)).unwrap_or_default()
    }

    /// The border of a sheet of these sides that parts keep off: at its left and right, at its foot and head. It is the margin,
    /// or what its register marks take and the gap.
    ///
    /// ```
    /// use hingeleaf::cutter::{Cutter, MarkShape, MarkSides, RegisterMarks};
    /// use hingeleaf::length::Length;
    /// let mm = Length::from_mm;
    /// let (shape, along) = (MarkShape::Ring, MarkSides::Short);
    /// let marks = RegisterMarks { shape, size: mm(6.0), inset: mm(8.0), number: 4, line: mm(0.5), along, bleed: mm(0.0) };
    /// let cutter = Cutter { margin: mm(5.0), gap: mm(2.0), marks: Some(marks), ..Cutter::default() };
    /// // 8 from the edge, 6 large, half a line of 0.5, and the gap of 2.
    /// assert_eq!(cutter.border(mm(210.0), mm(297.0)), (mm(5.0), mm(16.25)));
    /// ```
    #[must_use]
    pub fn border(&self, width: Length, height: Length) -> (Length, Length) {
        let Some(marks) = self.marks.filter(|_| !self.register(width, height).is_empty()) else {
            return (self.margin, self.margin);
        };
        let band = Length::from_mm(marks.reach() + self.gap.mm());
        let band = if band < self.margin { self.margin } else { band };
        if marks.at_the_ends(width.mm(), height.mm()) { (self.margin, band) } else { (band, self.margin) }
    }
}
