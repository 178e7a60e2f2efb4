// SPDX-License-Identifier: MIT
//! A picture of paper as it is printed: in its own colours and as fine as it came, for ink shows what pictures for people leave out.
//!
//! A file that is upright and hides nothing is kept point for point; what its camera wrote beside the points (where, when, with what) is
//! nobody's business at a print shop and is left out. Anything else is written anew, as fine.

use super::decode::{DecodedRaster, decoded};
use super::{PaperPicture, RasterFile, mean, named, on_white, smaller};
use image::codecs::jpeg::JpegEncoder;
use image::codecs::png::{CompressionType, FilterType, PngEncoder};
use image::{ExtendedColorType, ImageEncoder, RgbImage};
use std::sync::OnceLock;

/// How faithful a photograph is that has to be written anew, of 100: our choice, beyond what print shows.
const FAITHFUL: u8 = 95;

/// Markers of a JPEG.
const START_OF_SCAN: u8 = 0xDA;
const COMMENT: u8 = 0xFE;

impl PaperPicture {
    /// The same to be printed; none where its file can't be read any more, which was read once.
    #[must_use]
    pub fn to_print(&self) -> Option<Self> {
        let read = decoded(&self.source).ok()?;
        let points = on_white(&read.image);
        let file = printed(&read, &points, &self.source);
        // What drawings on a screen take of it; the file is finer.
        let shown = smaller(&points, 0.0);
        let (width, height) = shown.dimensions();
        let points = shown.into_raw();
        Some(Self {
            width,
            height,
            mean: mean(points.chunks_exact(3)),
            points,
            name: named("print-", &[&file.bytes]),
            source: self.source.clone(),
            across: self.across,
            proportion: self.proportion,
            to_print: true,
            encoded: OnceLock::from(file),
        })
    }
}

/// The file that is printed.
fn printed(read: &DecodedRaster, points: &RgbImage, source: &[u8]) -> RasterFile {
    let kept = match (read.upright, read.jpeg) {
        (true, true) => bare(source),
        (true, false) => (!read.image.color().has_alpha()).then(|| source.to_vec()),
        (false, _) => None,
    };
    let bytes = kept.unwrap_or_else(|| anew(read, points));
    RasterFile { bytes, jpeg: read.jpeg }
}

/// These points as a file of the same kind as they came in.
fn anew(read: &DecodedRaster, points: &RgbImage) -> Vec<u8> {
    let mut bytes = Vec::new();
    let (width, height) = points.dimensions();
    let rgb = ExtendedColorType::Rgb8;
    // A profile that is none of red, green and blue is passed over by whoever reads the file.
    let profile = read.profile.clone().unwrap_or_default();
    let written = if read.jpeg {
        let mut encoder = JpegEncoder::new_with_quality(&mut bytes, FAITHFUL);
        let _ = encoder.set_icc_profile(profile);
        encoder.write_image(points, width, height, rgb)
    } else {
        let mut encoder = PngEncoder::new_with_quality(&mut bytes, CompressionType::Default, FilterType::Adaptive);
        let _ = encoder.set_icc_profile(profile);
        encoder.write_image(points, width, height, rgb)
    };
    // Points that fill their box, written into memory, can't fail; an empty file is a colour.
    written.map(|()| bytes).unwrap_or_default()
}

/// A JPEG (ITU-T T.81, annex B) without what stands beside its points but for what their colours mean; none where it is not of eight bits
/// and grey, or red, green and blue, which every reader of a PDF shows alike.
fn bare(bytes: &[u8]) -> Option<Vec<u8>> {
    let (mut out, mut at, mut plain) = (bytes.get(..2)?.to_vec(), 2, false);
    loop {
        let &[first, marker, high, low] = bytes.get(at..at + 4)? else { return None };
        if first != 0xFF {
            return None;
        }
        if marker == START_OF_SCAN {
            out.extend_from_slice(&bytes[at..]);
            return plain.then_some(out);
        }
        let segment = bytes.get(at..at + 2 + usize::from(u16::from_be_bytes([high, low])))?;
        let kept = match marker {
            // A frame: the bits of a value, height, width, how many colours.
            0xC0..=0xC2 => {
                plain = segment.get(4) == Some(&8) && matches!(segment.get(9), Some(1 | 3));
                true
            }
            0xE2 => segment.get(4..).is_some_and(|said| said.starts_with(b"ICC_PROFILE\0")),
            0xE1 | 0xE3..=0xED | 0xEF | COMMENT => false,
            _ => true,
        };
        if kept {
            out.extend_from_slice(segment);
        }
        at += segment.len();
    }
}

#[cfg(test)]
mod tests {
    use super::bare;
    use image::ExtendedColorType;
    use image::ImageEncoder;
    use image::codecs::jpeg::JpegEncoder;

    fn jpeg(colours: ExtendedColorType, each: usize) -> Vec<u8> {
        let mut bytes = Vec::new();
        let mut encoder = JpegEncoder::new_with_quality(&mut bytes, 90);
        encoder.set_icc_profile(vec![7; 40]).unwrap();
        encoder.set_exif_metadata(b"II*\0where it was taken".to_vec()).unwrap();
        let points: Vec<u8> = (0..16 * 16 * each).map(|at| u8::try_from(at % 251).unwrap()).collect();
        encoder.write_image(&points, 16, 16, colours).unwrap();
        bytes
    }

    fn has(bytes: &[u8], words: &[u8]) -> bool {
        bytes.windows(words.len()).any(|some| some == words)
    }

    #[test]
    fn what_a_camera_says_is_left_out_and_every_point_stays() {
        for (colours, each) in [(ExtendedColorType::Rgb8, 3), (ExtendedColorType::L8, 1)] {
            let whole = jpeg(colours, each);
            let bare = bare(&whole).unwrap();
            assert!(has(&whole, b"where it was taken") && !has(&bare, b"where it was taken"));
            assert!(has(&bare, &[7; 40]), "what the colours mean is kept");
            let points = |bytes: &[u8]| image::load_from_memory(bytes).unwrap();
            assert_eq!(points(&whole), points(&bare));
        }
    }

    #[test]
    fn what_is_no_plain_jpeg_is_not_kept() {
        let whole = jpeg(ExtendedColorType::Rgb8, 3);
        for length in 0..whole.len().min(900) {
            let _ = bare(&whole[..length]);
        }
        assert_eq!(bare(&whole[..60]), None);
        // Four colours: cyan, magenta, yellow, black.
        let frame = whole.windows(2).position(|two| two[0] == 0xFF && (0xC0..=0xC2).contains(&two[1])).unwrap();
        let mut four = whole;
        four[frame + 9] = 4;
        assert_eq!(bare(&four), None);
    }
}
