// SPDX-License-Identifier: MIT
//! What a stock looks like: pictures of its sheet that lie beside the file.

use super::{SheetSize, Stock};
use crate::fields::Source;
use crate::finding::{Arg, Finding, Place, Said};
use crate::length::{Length, Units};
use crate::raster::{LONGEST_READ, MOST_READ, PaperPicture, RasterFault};
use std::sync::Arc;

/// A picture's proportions may differ from the sheet's by this share: our choice, what a crop by hand is off.
const PROPORTION: f64 = 0.02;

/// Pictures of a stock's sheet, as it lies when its width is across: the upper left of each is the sheet's. Where it is smaller
/// than the sheet it is shown again and again.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StockPictures {
    /// Its front.
    pub front: Option<PictureFile>,
    /// Its back.
    pub back: Option<PictureFile>,
    /// How wide the paper in them is, where it is not as wide as the sheet.
    pub width: Option<Length>,
}

/// A picture as a file names it.
#[derive(Clone, Debug)]
pub struct PictureFile {
    /// Its name, to be found from the folder of the file that names it.
    pub name: String,
    /// Where it is named.
    pub place: Option<Place>,
    /// The units of the file that names it; findings speak in them.
    pub units: Units,
    /// What it shows; none as long as nobody read it, or where it could not be read.
    pub raster: Option<Arc<PaperPicture>>,
}

impl PartialEq for PictureFile {
    /// Where it is named does not matter, nor what it is called once it is read.
    fn eq(&self, other: &Self) -> bool {
        match (&self.raster, &other.raster) {
            (Some(raster), Some(other)) => raster == other,
            (None, None) => self.name == other.name,
            _ => false,
        }
    }
}

impl Stock {
    /// The sheet that it is bought as, the first one of several.
    #[must_use]
    pub(crate) fn first_sheet(&self) -> Option<&SheetSize> {
        self.sheets.iter().find(|size| size.lies.is_none()).or(self.sheets.first())
    }

    /// How wide the paper in its pictures is, mm: as wide as its sheet, where nothing else is said.
    #[must_use]
    pub fn picture_width(&self) -> f64 {
        let sheet = || self.first_sheet().map_or(0.0, |size| size.width.mm());
        self.pictures.width.map_or_else(sheet, Length::mm)
    }
}

impl StockPictures {
    /// Both, as far as they are named.
    pub fn files(&mut self) -> impl Iterator<Item = &mut PictureFile> {
        self.front.iter_mut().chain(&mut self.back)
    }

    /// What they show, as far as they are read.
    pub fn read(&self) -> impl Iterator<Item = &PaperPicture> {
        self.front.iter().chain(&self.back).filter_map(|file| file.raster.as_deref())
    }
}

impl PictureFile {
    /// One of this name that nobody read.
    #[must_use]
    pub const fn new(name: String, place: Option<Place>, units: Units) -> Self {
        Self { name, place, units, raster: None }
    }

    /// Reads it from its bytes; what there is to say of it comes back. `stock` is what it shows.
    pub fn read(&mut self, bytes: &[u8], stock: &Stock) -> Vec<Finding> {
        self.take(PaperPicture::read(bytes, stock.picture_width()).map(Arc::new), stock)
    }

    /// The same of one that was read.
    pub fn take(&mut self, read: Result<Arc<PaperPicture>, RasterFault>, stock: &Stock) -> Vec<Finding> {
        match read {
            Ok(raster) => {
                let told = self.shaped(&raster, stock);
                self.raster = Some(raster);
                told.into_iter().collect()
            }
            Err(fault) => vec![self.unread(fault)],
        }
    }

    /// That its file has more bytes than are read.
    #[must_use]
    pub fn too_large(&self) -> Finding {
        self.told(Said::new("heavy-stock-picture").with("megabytes", Source::LARGEST >> 20))
    }

    fn unread(&self, fault: RasterFault) -> Finding {
        let text = match fault {
            RasterFault::NoPicture => Said::new("no-stock-picture"),
            RasterFault::Broken => Said::new("broken-stock-picture"),
            RasterFault::TooLarge(across, down) => Said::new("large-stock-picture")
                .with("across", u64::from(across))
                .with("down", u64::from(down))
                .with("side", u64::from(LONGEST_READ))
                .with("millions", MOST_READ / 1_000_000),
        };
        self.told(text)
    }

    fn told(&self, text: Said) -> Finding {
        let text = text.with("file", Arg::quoted(&self.name));
        let finding = Finding::warn("picture-unread", Said::NOTHING, text).help(Said::new("no-stock-picture-help"));
        finding.at(self.place.as_ref())
    }

    /// That a picture which should be of the whole sheet has other proportions.
    fn shaped(&self, raster: &PaperPicture, stock: &Stock) -> Option<Finding> {
        let sheet = stock.first_sheet().filter(|_| stock.pictures.width.is_none())?;
        let (wide, tall) = (sheet.width.mm(), sheet.height.mm());
        let is = |other: f64| (raster.proportion() / other - 1.0).abs() <= PROPORTION;
        if is(tall / wide) {
            return None;
        }
        let (text, help) = if is(wide / tall) {
            ("turned-stock-picture", "turned-stock-picture-help")
        } else {
            ("shaped-stock-picture", "shaped-stock-picture-help")
        };
        let mm = |mm: f64| Arg::Roughly(Length::from_mm(mm), self.units);
        let text = Said::new(text)
            .with("file", Arg::quoted(&self.name))
            .with("width", mm(wide))
            .with("height", mm(tall))
            .with("tall", mm(wide * raster.proportion()));
        Some(Finding::note("picture-shape", Said::NOTHING, text).help(Said::new(help)).at(self.place.as_ref()))
    }
}
