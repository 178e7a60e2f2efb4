// SPDX-License-Identifier: MIT
//! How pictures of a stock lie on what is cut from it.
//!
//! ```text
//!   named sheet        as it stands for cutting     a part on it         the part as it is drawn
//!   +------+           +----------+                 +----------+         +---+
//!   | A    |   turned  |          |                 |  +----+  |         |   |
//!   |      |  ------>  | ∢        |                 |  | ∢  |  |  ---->  | A |
//!   |      |           +----------+                 |  +----+  |         +---+
//!   +------+                                        +----------+
//! ```
//!
//! A picture's upper left is the sheet's. Its back is that of the sheet turned over about an upright line: its upper left is where
//! the front has its upper right.

use super::Fill;
use crate::parts::{CutFrom, Part};
use crate::raster::PaperPicture;
use crate::stock::{Pattern, PictureFile, SheetSize, Stock};
use kurbo::Affine;
use std::sync::Arc;

/// Quarter turns that bring a part's left up, as one-way paper wants it in an album that is bound at the top.
const LEFT_UP: u8 = 3;

/// Pictures of what something is made of.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct PicturedFaces {
    front: Option<PicturedFace>,
    back: Option<PicturedFace>,
}

/// A picture, and where it lies: from a square of side 1.
#[derive(Clone, Debug, PartialEq)]
struct PicturedFace {
    raster: Arc<PaperPicture>,
    tile: Affine,
}

impl PicturedFace {
    fn fill(&self) -> Fill {
        Fill::Pictured { raster: Arc::clone(&self.raster), tile: self.tile }
    }
}

impl PicturedFaces {
    /// Nothing but colours.
    pub(super) const PLAIN: Self = Self { front: None, back: None };

    /// A stock's, as they lie at the upper left of a sheet that is at the origin; the back, seen through it, at the upper right.
    pub(super) fn of(stock: &Stock) -> Self {
        let wide = stock.picture_width();
        let face = |file: &Option<PictureFile>, side: f64| {
            let raster = Arc::clone(file.as_ref()?.raster.as_ref()?);
            let tall = wide * raster.tall();
            Some(PicturedFace { raster, tile: Affine::new([wide * side, 0.0, 0.0, tall, 0.0, -tall]) })
        };
        Self { front: face(&stock.pictures.front, 1.0), back: face(&stock.pictures.back, -1.0) }
    }

    pub(super) const fn are_pictured(&self) -> bool {
        self.front.is_some() || self.back.is_some()
    }

    pub(super) fn front(&self) -> Option<Fill> {
        self.front.as_ref().map(PicturedFace::fill)
    }

    pub(super) fn back(&self) -> Option<Fill> {
        self.back.as_ref().map(PicturedFace::fill)
    }

    /// On a part that is cut so from a sheet of the stock, as the part is drawn.
    pub(super) fn cut(self, stock: &Stock, from: CutFrom, (width, height): (f64, f64)) -> Self {
        let Some(sheet) = stock.sheets.get(from.size) else { return self };
        let (wide, tall) = (sheet.width.mm(), sheet.height.mm());
        let stood = stood(stock, sheet);
        let placed = Affine::translate((from.x, from.y)) * quarter(from.quarters, (width, height));
        let way = placed.inverse() * stood;
        let moved = |face: Option<PicturedFace>, corner: (f64, f64)| {
            face.map(|face| PicturedFace { tile: way * Affine::translate(corner) * face.tile, ..face })
        };
        Self { front: moved(self.front, (0.0, tall)), back: moved(self.back, (wide, tall)) }
    }

    /// Upside down on a part.
    pub(super) fn half_turned(self, size: (f64, f64)) -> Self {
        let over = |face: PicturedFace| PicturedFace { tile: quarter(2, size) * face.tile, ..face };
        Self { front: self.front.map(over), back: self.back.map(over) }
    }
}

/// The front of a stock as it is printed on a whole sheet of this number among its sizes, as that lies for cutting: the picture `raster`
/// at its true size and in its own proportions, its upper left at the upper left of the sheet as it is named, where pictures show it.
#[must_use]
pub fn printed_front(stock: &Stock, size: usize, raster: Arc<PaperPicture>) -> Option<Fill> {
    let sheet = stock.sheets.get(size)?;
    let wide = stock.picture_width();
    let tall = wide * raster.proportion();
    let tile = Affine::new([wide, 0.0, 0.0, tall, 0.0, sheet.height.mm() - tall]);
    Some(Fill::Pictured { raster, tile: stood(stock, sheet) * tile })
}

/// From a sheet as it is named to the same as it lies for cutting.
fn stood(stock: &Stock, sheet: &SheetSize) -> Affine {
    if stock.is_turned(sheet) { quarter(1, (sheet.width.mm(), sheet.height.mm())) } else { Affine::IDENTITY }
}

/// Quarter turns counter-clockwise of a box, its lower left at the origin again: as [`crate::contour::turned`] turns points.
fn quarter(quarters: u8, (width, height): (f64, f64)) -> Affine {
    Affine::new(match quarters % 4 {
        0 => [1.0, 0.0, 0.0, 1.0, 0.0, 0.0],
        1 => [0.0, 1.0, -1.0, 0.0, height, 0.0],
        2 => [-1.0, 0.0, 0.0, -1.0, width, height],
        _ => [0.0, -1.0, 1.0, 0.0, 0.0, width],
    })
}

/// How a part is cut first; where no sheet is laid yet, from the upper left of the first one, as its pattern wants it.
pub(super) fn cut_from(stock: &Stock, part: &Part) -> CutFrom {
    part.cut.unwrap_or_else(|| {
        let size = stock.sheets.iter().position(|size| size.lies.is_none()).unwrap_or(0);
        let left_up = part.sideways && stock.pattern == Pattern::OneWay;
        let tall = stock.sheets.get(size).map_or(0.0, |sheet| stock.stood(sheet).height.mm());
        let (quarters, height) = if left_up { (LEFT_UP, part.flat.width) } else { (0, part.flat.height) };
        CutFrom { size, x: 0.0, y: tall - height, quarters }
    })
}
