// SPDX-License-Identifier: MIT
//! A picture as PNG, with the bundled font, so that it looks the same on every machine.

use super::drawing::{FONT, drawing};
use crate::picture::Picture;
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};
use std::sync::Arc;

/// The bundled font; its licence stands beside it.
const LETTERS: &[u8] = include_bytes!("font/sans.ttf");

/// Pixels to a millimetre, about 150 to an inch.
const FINE: f64 = 6.0;

/// Longest side, pixels; larger sheets are drawn coarser.
const LONGEST: f64 = 2800.0;

/// The picture as a PNG file; none if it has no area or could not be drawn.
#[must_use]
pub fn png(picture: &Picture) -> Option<Vec<u8>> {
    let mut options = Options { font_family: FONT.into(), ..Options::default() };
    let fonts = Arc::make_mut(&mut options.fontdb);
    fonts.load_font_data(LETTERS.to_vec());
    fonts.set_sans_serif_family(FONT);
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
    map.encode_png().ok()
}
