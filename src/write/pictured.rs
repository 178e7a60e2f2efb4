// SPDX-License-Identifier: MIT
//! Pictures of stocks in SVG: each file of points once, a pattern for each way in which it lies.

use super::number::text;
use crate::picture::{Fill, Mark, Picture};
use crate::raster::{PaperPicture, RasterFile};
use kurbo::Affine;
use sha2::{Digest, Sha256};
use std::fmt::Write;

/// How a picture's points lie on a page of this height: from points, the first row at the top, to mm, y down.
fn way(raster: &PaperPicture, tile: Affine, height: f64) -> String {
    let (across, down) = raster.size();
    let points = Affine::new([1.0 / f64::from(across), 0.0, 0.0, -1.0 / f64::from(down), 0.0, 1.0]);
    let page = Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, height]);
    let numbers = (page * tile * points).as_coeffs();
    let written: Vec<String> =
        numbers.iter().enumerate().map(|(at, number)| text(*number, if at < 4 { 7 } else { 4 })).collect();
    written.join(" ")
}

/// The name of the pattern that fills so.
pub(super) fn pattern_name(raster: &PaperPicture, tile: Affine, height: f64) -> String {
    let mut name = format!("{}-", raster.name());
    for byte in &Sha256::digest(way(raster, tile, height))[..6] {
        let _ = write!(name, "{byte:02x}");
    }
    name
}

/// The pictures and patterns that these want, each once, for a `defs`; `linked` leaves the pictures themselves to whoever shows it:
/// there stands a picture's name and a colon.
pub(super) fn patterns(out: &mut String, pictures: &[&Picture], linked: bool) {
    let (mut rasters, mut names): (Vec<&str>, Vec<String>) = (Vec::new(), Vec::new());
    for picture in pictures {
        for mark in &picture.marks {
            let Mark::Shape { fill: Some(Fill::Pictured { raster, tile }), .. } = mark else { continue };
            if !rasters.contains(&raster.name()) {
                rasters.push(raster.name());
                out.push_str(&image(raster, linked));
            }
            let name = pattern_name(raster, *tile, picture.height);
            if !names.contains(&name) {
                let (width, height) = raster.size();
                let way = way(raster, *tile, picture.height);
                let _ = writeln!(
                    out,
                    "<pattern id=\"{name}\" width=\"{width}\" height=\"{height}\" patternUnits=\"userSpaceOnUse\" \
                     patternTransform=\"matrix({way})\"><use href=\"#{}\"/></pattern>",
                    raster.name()
                );
                names.push(name);
            }
        }
        assert_eq!(from_base64("not: these"), None);
    }
}

/// A picture's points as an element that others use.
fn image(raster: &PaperPicture, linked: bool) -> String {
    let (width, height) = raster.size();
    format!(
        "<image id=\"{}\" width=\"{width}\" height=\"{height}\" preserveAspectRatio=\"none\" href=\"{}\"/>\n",
        raster.name(),
        if linked { format!("{}:", raster.name()) } else { address(raster.file()) }
    )
}

/// A picture as an address that holds it, at most so many points wide.
#[must_use]
pub fn picture_address(raster: &PaperPicture, across: u32) -> String {
    address(&raster.small_file(across))
}

fn address(file: &RasterFile) -> String {
    format!("data:image/{};base64,{}", if file.jpeg { "jpeg" } else { "png" }, base64(&file.bytes))
}

/// RFC 4648, section 4.
pub(crate) fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut out = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for three in bytes.chunks(3) {
        let at = |index: usize| u32::from(three.get(index).copied().unwrap_or(0));
        let bits = at(0) << 16 | at(1) << 8 | at(2);
        for index in 0..4 {
            let letter = LETTERS[(bits >> (18 - 6 * index) & 63) as usize];
            out.push(if index > three.len() { '=' } else { char::from(letter) });
        }
    }
    out
}

/// The bytes of such letters; none where they are none.
pub(crate) fn from_base64(text: &str) -> Option<Vec<u8>> {
    let (mut out, mut bits, mut held) = (Vec::with_capacity(text.len() / 4 * 3), 0_u32, 0);
    for letter in text.trim_end_matches('=').bytes() {
        let value = match letter {
            b'A'..=b'Z' => letter - b'A',
            b'a'..=b'z' => letter - b'a' + 26,
            b'0'..=b'9' => letter - b'0' + 52,
            b'+' => 62,
            b'/' => 63,
            _ => return None,
        };
        bits = bits << 6 | u32::from(value);
        held += 6;
        if held >= 8 {
            held -= 8;
            #[allow(clippy::cast_possible_truncation, reason = "one byte of them is wanted")]
            out.push((bits >> held) as u8);
            bits &= (1 << held) - 1;
        }
    }
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::{base64, from_base64};
    use ::base64::Engine;

    #[test]
    fn bytes_are_written_as_the_library_writes_them() {
        for length in 0..70_u8 {
            let bytes: Vec<u8> = (0..length).map(|at| at.wrapping_mul(37) ^ length).collect();
            assert_eq!(base64(&bytes), ::base64::engine::general_purpose::STANDARD.encode(&bytes), "{length}");
            assert_eq!(from_base64(&base64(&bytes)), Some(bytes));
        }
        assert_eq!(from_base64("not: these"), None);
    }
}
