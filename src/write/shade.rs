// SPDX-License-Identifier: MIT
//! Shapes filled with pictures of stocks, drawn straight into points.

use crate::contour::Contour;
use crate::raster::PaperPicture;
use kurbo::{Affine, Point};
use resvg::tiny_skia::{
    FillRule, FilterQuality, IntSize, Paint, Path, PathBuilder, Pattern, Pixmap, SpreadMode, Transform,
};

/// What a drawing of this size is drawn with, and what was made smaller for it.
pub(super) struct Shades {
    /// From mm, y up, to points, y down.
    way: Affine,
    made: Vec<(String, u32, Pixmap)>,
}

impl Shades {
    /// For a drawing of this size in mm, in so many points.
    pub(super) fn new((width, height): (f64, f64), (across, down): (u32, u32)) -> Self {
        let (x, y) = (f64::from(across) / width, f64::from(down) / height);
        Self { way: Affine::new([x, 0.0, 0.0, -y, 0.0, f64::from(down)]), made: Vec::new() }
    }

    /// Fills contours with a picture that lies so.
    pub(super) fn fill(&mut self, map: &mut Pixmap, contours: &[Contour], (raster, tile): (&PaperPicture, Affine)) {
        let Some(path) = self.path(contours) else { return };
        let to_points = self.way * tile;
        let [a, b, ..] = to_points.as_coeffs();
        // As many points as it takes up: what is finer would flicker.
        let seen = a.hypot(b);
        if !(1.0..1e6).contains(&seen) {
            return Self::plain(map, &path, raster);
        }
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 1 and a million")]
        let across = (seen.ceil() as u32).min(raster.size().0);
        let Some(points) = self.reduced(raster, across) else { return };
        let square =
            Affine::new([1.0 / f64::from(points.width()), 0.0, 0.0, -1.0 / f64::from(points.height()), 0.0, 1.0]);
        #[allow(clippy::cast_possible_truncation, reason = "drawings are drawn in single precision")]
        let [a, b, c, d, e, f] = (to_points * square).as_coeffs().map(|number| number as f32);
        let way = Transform::from_row(a, b, c, d, e, f);
        let shader = Pattern::new(points.as_ref(), SpreadMode::Repeat, FilterQuality::Bilinear, 1.0, way);
        let paint = Paint { shader, anti_alias: true, ..Paint::default() };
        map.fill_path(&path, &paint, FillRule::EvenOdd, Transform::identity(), None);
    }

    /// A picture too small to be seen, in its colour.
    fn plain(map: &mut Pixmap, path: &Path, raster: &PaperPicture) {
        let [red, green, blue] = raster.mean().0;
        let mut paint = Paint { anti_alias: true, ..Paint::default() };
        paint.set_color_rgba8(red, green, blue, 255);
        map.fill_path(path, &paint, FillRule::EvenOdd, Transform::identity(), None);
    }

    fn reduced(&mut self, raster: &PaperPicture, across: u32) -> Option<&Pixmap> {
        let known = self.made.iter().position(|(name, wide, _)| name == raster.name() && *wide == across);
        let number = if let Some(number) = known {
            number
        } else {
            let (width, height, points) = raster.reduced(across);
            let whole = points.chunks_exact(3).flat_map(|point| [point[0], point[1], point[2], 255]).collect();
            let map = Pixmap::from_vec(whole, IntSize::from_wh(width, height)?)?;
            self.made.push((raster.name().to_owned(), across, map));
            self.made.len() - 1
        };
        self.made.get(number).map(|(.., map)| map)
    }

    fn path(&self, contours: &[Contour]) -> Option<Path> {
        let mut path = PathBuilder::new();
        #[allow(clippy::cast_possible_truncation, reason = "drawings are drawn in single precision")]
        let at = |point: Point| {
            let point = self.way * point;
            (point.x as f32, point.y as f32)
        };
        for contour in contours {
            for (index, edge) in contour.edges().enumerate() {
                if index == 0 {
                    let (x, y) = at(edge.from);
                    path.move_to(x, y);
                }
                let (x, y) = at(edge.to);
                if edge.is_line() {
                    path.line_to(x, y);
                } else {
                    let [(x1, y1), (x2, y2)] = edge.handles().map(at);
                    path.cubic_to(x1, y1, x2, y2, x, y);
                }
            }
            path.close();
        }
        path.finish()
    }
}
