// SPDX-License-Identifier: MIT
//! What pictures are made of: marks, how they are filled and drawn, the colours.

use crate::contour::{Contour, Point};
use crate::net::Sense;
use crate::raster::{PaperPicture, Tint};
use kurbo::Affine;
use std::sync::Arc;

/// A picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// Width, mm.
    pub width: f64,
    /// Height, mm.
    pub height: f64,
    /// What is drawn, the lowest first.
    pub marks: Vec<Mark>,
}

impl Picture {
    /// Puts another picture onto this one, its lower left at a point.
    pub fn put(&mut self, other: Self, at: Point) {
        self.marks.extend(other.marks.into_iter().map(|mark| mark.mapped(|point| point + at.to_vec2())));
    }
}

/// One thing drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// Contours filled together: where one lies in another, it is a hole.
    Shape {
        /// The contours.
        contours: Vec<Contour>,
        /// How they are filled.
        fill: Option<Fill>,
        /// How they are outlined.
        pen: Option<Pen>,
    },
    /// A line through points.
    Line {
        /// The points.
        points: Vec<Point>,
        /// How it is drawn.
        pen: Pen,
    },
    /// Words, centred on a point.
    Words {
        /// The middle of the words.
        at: Point,
        /// Height of the letters' em, mm.
        size: f64,
        /// What they say.
        text: String,
        /// Read from below, or turned to read from the right.
        upwards: bool,
    },
}

/// How a shape is filled.
#[derive(Clone, Debug, PartialEq)]
pub enum Fill {
    /// One colour.
    Flat(Tint),
    /// Lines on a ground.
    Hatched {
        /// Colour between the lines.
        ground: Tint,
        /// Colour of the lines.
        line: Tint,
        /// How far apart they are, tenths of a millimetre.
        apart: u8,
        /// Which way they go: degrees from level, counter-clockwise as it is drawn.
        turn: u8,
    },
    /// A picture, again and again beside itself.
    Pictured {
        /// The picture.
        raster: Arc<PaperPicture>,
        /// From a square of side 1, the picture's lower left at its origin, to where it lies once, mm.
        tile: Affine,
    },
}

impl Fill {
    /// The same where all is moved, by a way that keeps lines straight and parallel: only a picture goes along.
    #[must_use]
    pub fn mapped(self, map: impl Fn(Point) -> Point) -> Self {
        match self {
            Self::Pictured { raster, tile } => {
                let (origin, across, up) = (map(Point::ZERO), map(Point::new(1.0, 0.0)), map(Point::new(0.0, 1.0)));
                let way = Affine::new([
                    across.x - origin.x,
                    across.y - origin.y,
                    up.x - origin.x,
                    up.y - origin.y,
                    origin.x,
                    origin.y,
                ]);
                Self::Pictured { raster, tile: way * tile }
            }
            other => other,
        }
    }

    /// Its colour from afar.
    #[must_use]
    pub fn ground(&self) -> Tint {
        match self {
            Self::Flat(colour) => *colour,
            Self::Hatched { ground, .. } => *ground,
            Self::Pictured { raster, .. } => raster.mean(),
        }
    }
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pen {
    /// Width, mm.
    pub width: f64,
    /// Colour.
    pub colour: Tint,
    /// Lengths on and off in turn, mm; empty for a solid line.
    pub dash: &'static [f64],
}

/// Ink of lines and words.
pub const INK: Tint = Tint([0x22, 0x20, 0x1C]);
/// Front face of card.
pub const CARD: Tint = Tint([0xED, 0xE6, 0xDA]);
/// Back face of card, and card that is glued over.
pub const CARD_BACK: Tint = Tint([0xD9, 0xCF, 0xBF]);
/// Patterned paper.
pub const PAPER: Tint = Tint([0xD7, 0xE6, 0xEA]);
/// Lines on patterned paper.
pub const PAPER_LINE: Tint = Tint([0xC3, 0xD7, 0xDC]);
/// Back face of patterned paper.
pub const PAPER_BACK: Tint = Tint([0xF1, 0xF3, 0xF2]);
/// Board.
pub const BOARD: Tint = Tint([0xCB, 0xB9, 0x9F]);
/// The edges of board and other thick things.
pub(crate) const BOARD_EDGE: Tint = Tint([0xB0, 0x9D, 0x80]);
/// Under words on a part.
pub(crate) const LABEL: Tint = Tint([0xF7, 0xF3, 0xEC]);
/// Lines on what is glued.
pub(crate) const GLUE_LINE: Tint = Tint([0xB7, 0xAA, 0x95]);
/// What is of no account.
pub(crate) const FAINT: Tint = Tint([0x8A, 0x85, 0x7C]);

/// The outline of a part.
pub const CUT: Pen = Pen { width: 0.35, colour: INK, dash: &[] };

impl Pen {
    /// The line of what is drawn on a part.
    pub const MARK: Self = Self { width: 0.2, colour: FAINT, dash: &[] };

    /// The line of a fold.
    #[must_use]
    pub const fn fold(sense: Sense) -> Self {
        let dash: &[f64] = match sense {
            Sense::Valley => &[3.0, 1.5],
            Sense::Mountain => &[4.0, 1.2, 0.6, 1.2],
            // A bend is not scored, so it is never drawn.
            Sense::Bent => &[],
            Sense::Both => &[4.0, 1.2, 0.6, 1.2, 0.6, 1.2],
        };
        Self { width: 0.25, colour: INK, dash }
    }
}

impl Mark {
    /// The mark with every point of it moved, by a way that keeps shapes; words stay level, or upwards.
    #[must_use]
    pub fn mapped(self, map: impl Fn(Point) -> Point) -> Self {
        match self {
            Self::Shape { contours, fill, pen } => {
                let contours = contours.iter().map(|contour| contour.mapped(&map)).collect();
                Self::Shape { contours, fill: fill.map(|fill| fill.mapped(&map)), pen }
            }
            Self::Line { points, pen } => Self::Line { points: points.into_iter().map(map).collect(), pen },
            Self::Words { at, size, text, upwards } => Self::Words { at: map(at), size, text, upwards },
        }
    }
}
