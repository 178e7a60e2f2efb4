// SPDX-License-Identifier: MIT
//! A picture as PNG, with the bundled font, so that it looks the same on every machine.

use super::drawing::{FONT, drawing};
use super::font::LETTERS;
use crate::picture::Picture;
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::fontdb::Database;
use resvg::usvg::{Options, Tree};
use std::sync::{Arc, LazyLock};

/// The font as the drawing library wants it; no font of the machine's own is ever looked at.
static FONTS: LazyLock<Arc<Database>> = LazyLock::new(|| {
    let mut fonts = Database::new();
    fonts.load_font_data(LETTERS.to_vec());
    fonts.set_sans_serif_family(FONT);
    Arc::new(fonts)
});

/// Pixels to a millimetre, 127 to an inch.
const FINE: f64 = 5.0;

/// Longest side, pixels; larger sheets are drawn coarser.
const LONGEST: f64 = 2800.0;

/// The picture as a PNG file; none if it has no area or could not be drawn.
#[must_use]
pub fn png(picture: &Picture) -> Option<Vec<u8>> {
    let options = Options { font_family: FONT.into(), fontdb: Arc::clone(&FONTS), ..Options::default() };
    let tree = Tree::from_str(&drawing(picture), &options).ok()?;
    let scale = FINE.min(LONGEST / picture.width.max(picture.height));
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "at most the longest side")]
    let pixels = |mm: f64| (mm * scale).round().max(1.0) as u32;
    let (width, height) = (pixels(picture.width), pixels(picture.height));
    let mut map = Pixmap::new(width, height)?;
    let size = tree.size();
    #[allow(clippy::cast_precision_loss, reason = "a picture's sides are a few thousand pixels")]
    let (across, down) = (width as f32 / size.width(), height as f32 / size.height());
    resvg::render(&tree, Transform::from_scale(across, down), &mut map.as_mut());
    encoded(&map, scale)
}

/// The finished map as a file that also says how large it is meant to be.
fn encoded(map: &Pixmap, scale: f64) -> Option<Vec<u8>> {
    // A sheet covers its picture, so nothing is transparent, and three bytes a pixel are all of it.
    let colours: Vec<u8> = map.pixels().iter().flat_map(|pixel| [pixel.red(), pixel.green(), pixel.blue()]).collect();
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, map.width(), map.height());
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::Fast);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few thousand to a metre")]
    let to_a_metre = (scale * 1000.0).round() as u32;
    encoder.set_pixel_dims(Some(png::PixelDimensions { xppu: to_a_metre, yppu: to_a_metre, unit: png::Unit::Meter }));
    let mut writer = encoder.write_header().ok()?;
    writer.write_image_data(&colours).ok()?;
    writer.finish().ok()?;
    Some(file)
}
