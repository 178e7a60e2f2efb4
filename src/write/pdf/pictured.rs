// SPDX-License-Identifier: MIT
//! Pictures of stocks in a PDF: as often beside each other as what they fill is large, cut off at its edge.

use super::points::points;
use crate::contour::{Contour, Rect};
use crate::raster::PaperPicture;
use krilla::geom::{Path, Size, Transform};
use krilla::image::Image;
use krilla::paint::FillRule;
use krilla::surface::Surface;
use kurbo::Affine;
use std::cell::RefCell;

/// A picture so small that more of them lie on one part is a colour from afar: our choice. What is printed is looked at from nearer, and
/// a sheet of A3 takes as many of a millimetre and a quarter.
const MOST: f64 = 2000.0;
const MOST_PRINTED: f64 = 80_000.0;

/// Less than this is nothing: of an area, mm²; of a side of a square.
const NO_AREA: f64 = 1e-6;
const TOUCHING: f64 = 1e-9;
/// So many pictures are ready to be drawn.
const READY: usize = 4;

thread_local! {
    /// Pictures as the library wants them, by their names: it looks through all their bytes first, and there are hundreds of faces.
    static IMAGES: RefCell<Vec<(String, Image)>> = const { RefCell::new(Vec::new()) };
}

fn image(raster: &PaperPicture) -> Option<Image> {
    IMAGES.with_borrow_mut(|images| {
        if let Some((_, image)) = images.iter().find(|(name, _)| name == raster.name()) {
            return Some(image.clone());
        }
        let file = raster.file();
        let data = file.bytes.clone().into();
        let image = if file.jpeg { Image::from_jpeg(data, true) } else { Image::from_png(data, true) }.ok()?;
        images.truncate(READY - 1);
        images.insert(0, (raster.name().to_owned(), image.clone()));
        Some(image)
    })
}

/// Fills a path with a picture, which lies so on a page of this height; says whether it could: one that is too small to be seen is a
/// colour.
pub(super) fn pictured(
    surface: &mut Surface<'_>,
    (path, contours): (&Path, &[Contour]),
    (raster, tile): (&PaperPicture, Affine),
    height: f64,
) -> bool {
    let bounds = contours.iter().map(Contour::bounds).reduce(|all, one| all.union(one));
    let (Some(bounds), Some(image)) = (bounds, image(raster)) else { return false };
    let most = if raster.is_to_print() { MOST_PRINTED } else { MOST };
    let (Some(tiles), Some(size)) = (tiles(bounds, tile, most), Size::from_wh(1.0, 1.0)) else { return false };
    surface.push_clip_path(path, &FillRule::EvenOdd);
    for (across, up) in tiles {
        // The file's first row is at the top of the square, and the page counts down from its own top.
        let down = Affine::new([1.0, 0.0, 0.0, -1.0, across, up + 1.0]);
        let page = Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, height]);
        let [a, b, c, d, e, f] = (page * tile * down).as_coeffs().map(points);
        surface.push_transform(&Transform::from_row(a, b, c, d, e, f));
        surface.draw_image(image.clone(), size);
        surface.pop();
    }
    surface.pop();
    true
}

/// Which squares cover a box; none where they are too many or too small.
fn tiles(bounds: Rect, tile: Affine, most: f64) -> Option<Vec<(f64, f64)>> {
    if tile.determinant().abs() < NO_AREA {
        return None;
    }
    let covered = tile.inverse().transform_rect_bbox(bounds);
    // What only touches a square need not be filled from it.
    let [left, low, right, high] = [covered.x0, covered.y0, covered.x1, covered.y1];
    let (left, low) = ((left + TOUCHING).floor(), (low + TOUCHING).floor());
    let (across, up) = ((right - TOUCHING).ceil() - left, (high - TOUCHING).ceil() - low);
    if across * up > most {
        return None;
    }
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "some thousands at most")]
    let (columns, rows) = (across.max(0.0) as u32, up.max(0.0) as u32);
    let row = |row: u32| (0..columns).map(move |column| (left + f64::from(column), low + f64::from(row)));
    Some((0..rows).flat_map(row).collect())
}
