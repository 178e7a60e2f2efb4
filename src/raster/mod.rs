// SPDX-License-Identifier: MIT
//! Pictures of paper that somebody took or drew: points of colour.
//!
//! In: the bytes of a PNG or JPEG file. Out: a [`PaperPicture`] no finer than anybody sees, as light as lines and words upon it want,
//! and the same to be printed; or why it is none. Never: opens a file, knows what it is a picture of.

mod decode;
mod print;
mod tint;

pub use decode::{LONGEST_READ, MOST_READ, RasterFault};
pub use tint::Tint;

use image::codecs::jpeg::JpegEncoder;
use image::codecs::png::{CompressionType, FilterType as RowFilter, PngEncoder};
use image::imageops::{self, FilterType};
use image::{DynamicImage, ExtendedColorType, ImageEncoder, RgbImage};
use sha2::{Digest, Sha256};
use std::fmt::Write;
use std::sync::OnceLock;

/// The longest side that is kept, points: a sheet of 300 mm has six and more to a millimetre then, our choice.
pub const LONGEST: u32 = 2000;
/// As many points to a millimetre are kept: about 300 to an inch, what print shows.
const FINEST: f64 = 11.8;
/// A file is at most so many points wide: people look at it in pictures that are smaller than the paper.
const WRITTEN: u32 = 1000;
/// What has more colours than this is a photograph, smaller as a JPEG.
const FEW_COLOURS: usize = 512;
/// How faithful a JPEG is, of 100: our choice.
const FAITHFUL: u8 = 82;

/// A picture in points, upright, without anything transparent.
pub struct PaperPicture {
    width: u32,
    height: u32,
    /// Red, green and blue of each point, row by row from the top.
    points: Vec<u8>,
    name: String,
    mean: Tint,
    /// Of the file: its bytes, the points across it, how tall it is over how wide.
    source: Vec<u8>,
    across: u32,
    proportion: f64,
    to_print: bool,
    encoded: OnceLock<RasterFile>,
}

/// A raster as a file.
#[derive(Clone, Debug)]
pub struct RasterFile {
    /// Its bytes.
    pub bytes: Vec<u8>,
    /// Whether it is a JPEG; else a PNG.
    pub jpeg: bool,
}

impl PaperPicture {
    /// Reads a file; `wide` is how wide the paper in it is, mm.
    ///
    /// # Errors
    /// Where it is no PNG or JPEG, a broken one, or one of more than 40 million points.
    pub fn read(bytes: &[u8], wide: f64) -> Result<Self, RasterFault> {
        let read = decode::decoded(bytes)?.image;
        // Made smaller it has whole points again, which bends the proportions of a strip by some per cent.
        let proportion = f64::from(read.height()) / f64::from(read.width());
        let small = smaller(&on_white(&read), wide);
        let (width, height) = small.dimensions();
        let mut points = small.into_raw();
        lighten(&mut points);
        let name = named("stock-", &[&width.to_be_bytes(), &points]);
        let (mean, source, across) = (mean(points.chunks_exact(3)), bytes.to_vec(), read.width());
        let (to_print, encoded) = (false, OnceLock::new());
        Ok(Self { width, height, points, name, mean, source, across, proportion, to_print, encoded })
    }

    /// Points across and down.
    #[must_use]
    pub const fn size(&self) -> (u32, u32) {
        (self.width, self.height)
    }

    /// How tall it is over how wide.
    #[must_use]
    pub fn tall(&self) -> f64 {
        f64::from(self.height) / f64::from(self.width)
    }

    /// The same of the file that it was read from, before it was made smaller.
    #[must_use]
    pub const fn proportion(&self) -> f64 {
        self.proportion
    }

    /// Whether it is printed: it is seen from nearer then than any drawing.
    #[must_use]
    pub const fn is_to_print(&self) -> bool {
        self.to_print
    }

    /// Points across the file that it was read from.
    #[must_use]
    pub const fn points_across(&self) -> u32 {
        self.across
    }

    /// Red, green and blue of each point, row by row from the top.
    #[must_use]
    pub fn points(&self) -> &[u8] {
        &self.points
    }

    /// A name that no other picture has: `stock-` and part of a digest of its points.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The colour that it has from afar.
    #[must_use]
    pub const fn mean(&self) -> Tint {
        self.mean
    }

    /// The same so many points wide, as a raster of red, green and blue; itself where that is none or more than it has.
    #[must_use]
    pub fn reduced(&self, across: u32) -> (u32, u32, Vec<u8>) {
        let whole = RgbImage::from_raw(self.width, self.height, self.points.clone());
        match whole {
            Some(image) if (1..self.width).contains(&across) => {
                let down = rounded(f64::from(across) * self.tall());
                let small = imageops::resize(&image, across, down, FilterType::Triangle);
                (across, down, small.into_raw())
            }
            _ => (self.width, self.height, self.points.clone()),
        }
    }

    /// It as a file of at most 1,000 points across: a PNG where it has few colours, else a JPEG. Made once. One that is to be printed is
    /// as fine as it came.
    #[must_use]
    pub fn file(&self) -> &RasterFile {
        self.encoded.get_or_init(|| self.small_file(WRITTEN.min(self.width)))
    }

    /// The same at most so many points wide.
    #[must_use]
    pub fn small_file(&self, across: u32) -> RasterFile {
        let (width, height, points) = self.reduced(across);
        self.encode((width, height), &points)
    }

    fn encode(&self, (width, height): (u32, u32), points: &[u8]) -> RasterFile {
        let (mut bytes, jpeg, rgb) = (Vec::new(), self.is_photograph(), ExtendedColorType::Rgb8);
        let written = if jpeg {
            JpegEncoder::new_with_quality(&mut bytes, FAITHFUL).encode(points, width, height, rgb)
        } else {
            let encoder = PngEncoder::new_with_quality(&mut bytes, CompressionType::Default, RowFilter::Adaptive);
            encoder.write_image(points, width, height, rgb)
        };
        // Points that fill their box, written into memory, can't fail; an empty file shows nothing.
        RasterFile { bytes: written.map(|()| bytes).unwrap_or_default(), jpeg }
    }

    fn is_photograph(&self) -> bool {
        let mut known = std::collections::BTreeSet::new();
        self.points.chunks_exact(3).any(|point| {
            known.insert([point[0], point[1], point[2]]);
            known.len() > FEW_COLOURS
        })
    }
}

impl PartialEq for PaperPicture {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name
    }
}

impl Eq for PaperPicture {}

impl std::fmt::Debug for PaperPicture {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("PaperPicture").field("name", &self.name).field("size", &self.size()).finish_non_exhaustive()
    }
}

/// A name that nothing else has.
fn named(begins: &str, of: &[&[u8]]) -> String {
    let mut hash = Sha256::new();
    for bytes in of {
        hash.update(bytes);
    }
    let mut name = String::from(begins);
    for byte in &hash.finalize()[..8] {
        let _ = write!(name, "{byte:02x}");
    }
    name
}

/// On white where something of it is transparent.
fn on_white(image: &DynamicImage) -> RgbImage {
    if !image.color().has_alpha() {
        return image.to_rgb8();
    }
    let clear = image.to_rgba8();
    RgbImage::from_fn(clear.width(), clear.height(), |x, y| {
        let [red, green, blue, alpha] = clear.get_pixel(x, y).0;
        image::Rgb(Tint([red, green, blue]).mixed(f64::from(alpha) / 255.0, Tint([255; 3])).0)
    })
}

/// No finer than print shows, no larger than is kept.
fn smaller(image: &RgbImage, wide: f64) -> RgbImage {
    let (width, height) = (f64::from(image.width()), f64::from(image.height()));
    let longest = f64::from(LONGEST) / width.max(height);
    let fine = if wide > 0.0 { (wide * FINEST).max(64.0) / width } else { 1.0 };
    let scale = longest.min(fine);
    if scale >= 1.0 {
        return image.clone();
    }
    imageops::resize(image, rounded(width * scale), rounded(height * scale), FilterType::Triangle)
}

#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "at least a point, at most those that are kept"
)]
fn rounded(points: f64) -> u32 {
    points.round().clamp(1.0, f64::from(LONGEST_READ)) as u32
}

/// Brings points nearer to white, all by the same share, until the darkest twentieth of them is as light as lines and words want.
fn lighten(points: &mut [u8]) {
    let mut order: Vec<(u32, usize)> = points
        .chunks_exact(3)
        .enumerate()
        .map(|(number, point)| (u32::from(point[0]) * 2 + u32::from(point[1]) * 7 + u32::from(point[2]), number))
        .collect();
    let dark = (order.len() / 20).max(1);
    if order.is_empty() {
        return;
    }
    order.select_nth_unstable(dark - 1);
    let darkest = mean(order[..dark].iter().map(|(_, number)| &points[number * 3..number * 3 + 3]));
    let share = darkest.share_to_read();
    if share < 1.0 {
        for value in points.iter_mut() {
            *value = Tint([*value; 3]).mixed(share, Tint([255; 3])).0[0];
        }
    }
}

fn mean<'p>(points: impl Iterator<Item = &'p [u8]>) -> Tint {
    let (mut sums, mut count) = ([0_u64; 3], 0_u64);
    for point in points {
        for (sum, value) in sums.iter_mut().zip(point) {
            *sum += u64::from(*value);
        }
        count += 1;
    }
    #[allow(clippy::cast_possible_truncation, reason = "the mean of bytes is one")]
    Tint(sums.map(|sum| (sum / count.max(1)) as u8))
}
