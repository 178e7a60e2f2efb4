// SPDX-License-Identifier: MIT
//! Pieces beside one another at one scale, each with its letter and how many there are: what lies in a bag.

use super::stuff;
use crate::contour::{Contour, Point, Rect};
use crate::guide::desk::Desk;
use crate::guide::draw::{Draw, WORDS};
use crate::guide::list::Row;
use crate::picture::{CUT, Pen, Picture, measure};

/// Width of the picture, mm.
const WIDE: f64 = 170.0;
/// A picture is not much taller, mm, so that it goes on a page with some words.
const TALL: f64 = 190.0;
/// The longest side of the largest piece, mm.
const LONGEST: f64 = 45.0;
/// Between two pieces, mm.
const APART: f64 = 5.0;
/// Of the words below a piece, mm.
const LINE: f64 = 6.0;

/// The pieces of these rows, in order; so many pictures as they need.
pub(in crate::guide) fn pieces(desk: &Desk<'_>, rows: &[&Row]) -> Vec<Picture> {
    let parts = || rows.iter().filter_map(|row| Some((*row, desk.part(row.part)?)));
    let longest = parts().map(|(_, part)| part.flat.width.max(part.flat.height)).fold(0.0, f64::max);
    if longest <= 0.0 {
        return Vec::new();
    }
    let scale = (LONGEST / longest).min(0.5);
    let (mut pictures, mut draw) = (Vec::new(), Draw::default());
    // The next row's top, the place in it, how tall its tallest piece is.
    let (mut top, mut left, mut tall) = (0.0, 0.0f64, 0.0f64);
    for (row, part) in parts() {
        let text = format!("{} × {}", row.mark, part.count);
        let (width, height) = (part.flat.width * scale, part.flat.height * scale);
        let room = width.max(measure(&text, WORDS));
        if left > 0.0 && left + room > WIDE {
            top -= tall + LINE + APART;
            (left, tall) = (0.0, 0.0);
        }
        if -top + height.max(tall) + LINE > TALL && left == 0.0 && top < 0.0 {
            pictures.push(std::mem::take(&mut draw).picture());
            top = 0.0;
        }
        let corner = Point::new(left + (room - width) / 2.0, top - height);
        let small = |point: Point| Point::new(point.x.mul_add(scale, corner.x), point.y.mul_add(scale, corner.y));
        let outlines: Vec<Contour> =
            std::iter::once(&part.flat.outline).chain(&part.flat.holes).map(|one| one.mapped(small)).collect();
        draw.contours(outlines, Some(stuff(desk, row.part).flat().mapped(small)), Some(CUT));
        for score in &part.flat.scores {
            draw.line(small(score.from), small(score.to), Pen::fold(score.sense));
        }
        let below = Rect::new(left, top - height - LINE, left + room, top - height);
        draw.words(below.center(), WORDS, text, false);
        left += room + APART;
        tall = tall.max(height);
    }
    pictures.push(draw.picture());
    pictures
}
