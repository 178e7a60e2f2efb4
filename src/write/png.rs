// SPDX-License-Identifier: MIT
//! A picture as PNG, with the bundled font, so that it looks the same on every machine.

use super::drawing::{FONT, cutout, drawing};
use super::font::LETTERS;
use super::hatch::{HATCH_LINE, hatch};
use super::shade::Shades;
use crate::contour::Point;
use crate::picture::{Fill, Mark, Pen, Picture};
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::fontdb::Database;
use resvg::usvg::{Options, Tree};
use std::ops::Range;
use std::sync::{Arc, LazyLock};
use std::thread;

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
    let scale = FINE.min(LONGEST / picture.width.max(picture.height));
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "at most the longest side")]
    let pixels = |mm: f64| (mm * scale).round().max(1.0) as u32;
    let (width, height) = (pixels(picture.width), pixels(picture.height));
    let mut map = Pixmap::new(width, height)?;
    let mut shades = Shades::new((picture.width, picture.height), (width, height));
    // What lies below a stock's picture, the picture, what lies above it.
    let mut from = 0;
    for (number, mark) in picture.marks.iter().enumerate() {
        let Mark::Shape { contours, fill: Some(Fill::Pictured { raster, tile }), pen } = mark else { continue };
        rest(picture, from..number, &mut map)?;
        shades.fill(&mut map, contours, (raster, *tile));
        from = number + 1;
        if pen.is_some() {
            let outline = Mark::Shape { contours: contours.clone(), fill: None, pen: *pen };
            let outlined = Picture { width: picture.width, height: picture.height, marks: vec![outline] };
            render(&cutout(&outlined), &mut map)?;
        }
    }
    rest(picture, from..picture.marks.len(), &mut map)?;
    encoded(&map, scale)
}

/// The same of several pictures at once, each on a thread of its own.
#[must_use]
pub fn pngs(pictures: &[Picture]) -> Vec<Option<Vec<u8>>> {
    let Some((first, others)) = pictures.split_first() else { return Vec::new() };
    thread::scope(|scope| {
        // What the system grants no thread for is drawn here.
        let begun = |picture| (picture, thread::Builder::new().spawn_scoped(scope, move || png(picture)).ok());
        let others: Vec<_> = others.iter().map(begun).collect();
        let first = png(first);
        let ended = others.into_iter().map(|(picture, helper)| match helper.map(thread::ScopedJoinHandle::join) {
            Some(Ok(file)) => file,
            Some(Err(panic)) => std::panic::resume_unwind(panic),
            None => png(picture),
        });
        std::iter::once(first).chain(ended).collect()
    })
}

/// Draws these marks of a picture, on a white ground where they are its first.
fn rest(picture: &Picture, marks: Range<usize>, map: &mut Pixmap) -> Option<()> {
    let grounded = marks.start == 0;
    if marks.is_empty() && !grounded {
        return Some(());
    }
    let marks = picture.marks.get(marks)?.iter().flat_map(lined).collect();
    let part = Picture { width: picture.width, height: picture.height, marks };
    render(&if grounded { drawing(&part) } else { cutout(&part) }, map)
}

/// A mark with the lines of its hatch one by one: a pattern of them takes twice the time of all else that is drawn.
fn lined(mark: &Mark) -> Vec<Mark> {
    let Mark::Shape { contours, fill: Some(Fill::Hatched { ground, line, apart, turn }), pen } = mark else {
        return vec![mark.clone()];
    };
    let shape = |fill, pen| Mark::Shape { contours: contours.clone(), fill, pen };
    let lines = hatch(contours, f64::from(*apart) / 10.0, f64::from(*turn));
    let hatched = Pen { width: HATCH_LINE, colour: *line, dash: &[] };
    let line = |ends: [Point; 2]| Mark::Line { points: ends.to_vec(), pen: hatched };
    let ground = shape(Some(Fill::Flat(*ground)), None);
    let outline = pen.map(|pen| shape(None, Some(pen)));
    std::iter::once(ground).chain(lines.into_iter().map(line)).chain(outline).collect()
}

fn render(text: &str, map: &mut Pixmap) -> Option<()> {
    let options = Options { font_family: FONT.into(), fontdb: Arc::clone(&FONTS), ..Options::default() };
    let tree = Tree::from_str(text, &options).ok()?;
    let size = tree.size();
    #[allow(clippy::cast_precision_loss, reason = "a picture's sides are a few thousand pixels")]
    let (across, down) = (map.width() as f32 / size.width(), map.height() as f32 / size.height());
    resvg::render(&tree, Transform::from_scale(across, down), &mut map.as_mut());
    Some(())
}

/// The finished map as a file that also says how large it is meant to be.
fn encoded(map: &Pixmap, scale: f64) -> Option<Vec<u8>> {
    // A sheet covers its picture, so nothing is transparent, and three bytes a pixel are all of it.
    let mut colours = vec![0; map.data().len() / 4 * 3];
    for (colour, pixel) in colours.chunks_exact_mut(3).zip(map.data().chunks_exact(4)) {
        colour.copy_from_slice(&pixel[..3]);
    }
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
