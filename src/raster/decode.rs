// SPDX-License-Identifier: MIT
//! A file of points decoded: upright, as the camera says that it was held.

use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageFormat, ImageReader, Limits};
use std::io::Cursor;

/// The longest side of a picture that is read, points.
pub const LONGEST_READ: u32 = 16_000;
/// As many points of a picture are read: what cameras make, and no more than fits into memory several times.
pub const MOST_READ: u64 = 40_000_000;
/// What decoding may take, bytes.
const MEMORY: u64 = 400_000_000;

/// Why a file is no raster.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RasterFault {
    /// It is neither PNG nor JPEG.
    NoPicture,
    /// It is one, and broken.
    Broken,
    /// It has more points than are read: across and down.
    TooLarge(u32, u32),
}

/// What a file holds.
pub(super) struct DecodedRaster {
    /// Its points, upright.
    pub(super) image: DynamicImage,
    /// Whether it is a JPEG; else a PNG.
    pub(super) jpeg: bool,
    /// Whether the file itself has it upright.
    pub(super) upright: bool,
    /// What its colours mean, as the file says it.
    pub(super) profile: Option<Vec<u8>>,
}

/// Decodes a PNG or JPEG.
pub(super) fn decoded(bytes: &[u8]) -> Result<DecodedRaster, RasterFault> {
    let mut reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format().map_err(|_| RasterFault::NoPicture)?;
    let jpeg = match reader.format() {
        Some(ImageFormat::Jpeg) => true,
        Some(ImageFormat::Png) => false,
        _ => return Err(RasterFault::NoPicture),
    };
    let mut limits = Limits::default();
    limits.max_alloc = Some(MEMORY);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(|_| RasterFault::Broken)?;
    let (across, down) = decoder.dimensions();
    if across.max(down) > LONGEST_READ || u64::from(across) * u64::from(down) > MOST_READ {
        return Err(RasterFault::TooLarge(across, down));
    }
    // A camera that was held on its side says so beside the points.
    let held = decoder.orientation().map_err(|_| RasterFault::Broken)?;
    let profile = decoder.icc_profile().ok().flatten();
    let mut image = DynamicImage::from_decoder(decoder).map_err(|_| RasterFault::Broken)?;
    if image.width() == 0 || image.height() == 0 {
        return Err(RasterFault::Broken);
    }
    image.apply_orientation(held);
    Ok(DecodedRaster { image, jpeg, upright: held == Orientation::NoTransforms, profile })
}
