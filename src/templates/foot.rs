// SPDX-License-Identifier: MIT
//! The foot of a page of templates: two lengths to check the print by, what to do if it is not so, how to read the lines.

use super::draw::GLUED;
use crate::contour::{Contour, Point, Vec2};
use crate::guide::Words;
use crate::net::Sense;
use crate::picture::{CUT, INK, Mark, Pen, Picture, measure, wrapped};

/// How much of a page it takes, mm.
pub(super) const FOOT: f64 = 23.0;
/// Em of its words, mm.
const SIZE: f64 = 2.7;
/// Smaller ones can't be read, mm.
const SMALLEST: f64 = 1.5;
/// From line to line, ems.
const LINE: f64 = 1.33;
/// How much of the foot the key takes, mm.
const KEY: f64 = 4.0;
const SCALE: Pen = Pen { width: 0.25, colour: INK, dash: &[] };
/// The lengths to check, mm: a metric ruler's and an inch ruler's.
const CHECKS: [(f64, &str); 2] = [(100.0, "100 mm"), (101.6, "4 in")];
/// How long a line of the key is, mm.
const SAMPLE: f64 = 12.0;

/// Draws the foot, its lower left at a point, `wide` mm wide; `said` is what the page is.
pub(super) fn foot(picture: &mut Picture, words: &Words, (at, wide): (Point, f64), said: String, tiled: bool) {
    checks(picture, words, at + Vec2::new(1.0, 17.5));
    key(picture, words, at + Vec2::new(1.0, 2.0));
    let keys: &[&'static str] = if tiled { &["template-check", "template-tiles"] } else { &["template-check"] };
    let said: Vec<String> = std::iter::once(said).chain(keys.iter().map(|key| words.text(key))).collect();
    let (left, top) = (at.x + 108.0, at.y + FOOT - 2.0);
    // A wide margin leaves a narrow foot: the letters are as large as they go in.
    let set =
        |size: f64| -> Vec<String> { said.iter().flat_map(|text| wrapped(text, size, at.x + wide - left)).collect() };
    let above_key = FOOT - 2.0 - KEY;
    let fits = |size: &f64| f64::from(u32::try_from(set(*size).len()).unwrap_or(u32::MAX)) * size * LINE <= above_key;
    let size = (0..12_u32).map(|step| SIZE - 0.1 * f64::from(step)).find(fits).unwrap_or(SMALLEST);
    for (line, text) in (0_i32..).zip(set(size)) {
        print(picture, Point::new(left, f64::from(line).mul_add(-LINE * size, top)), size, text);
    }
}

/// The lengths to check, one below the other.
fn checks(picture: &mut Picture, words: &Words, at: Point) {
    for (index, (length, name)) in (0_i32..).zip(CHECKS) {
        let from = at - Vec2::new(0.0, 7.5 * f64::from(index));
        let to = from + Vec2::new(length, 0.0);
        let tick = Vec2::new(0.0, 1.8);
        picture.marks.push(Mark::Line { points: vec![from, to], pen: SCALE });
        for end in [from, to] {
            picture.marks.push(Mark::Line { points: vec![end - tick, end + tick], pen: SCALE });
        }
        let middle = from.midpoint(to) + Vec2::new(0.0, 2.2);
        picture.marks.push(Mark::Words { at: middle, size: SIZE, text: words.notation().write(name), upwards: false });
    }
}

/// What the lines mean, side by side.
fn key(picture: &mut Picture, words: &Words, at: Point) {
    let fold = |sense| Pen { width: 0.25, ..Pen::fold(sense) };
    let lines = [
        (CUT, "template-cut"),
        (fold(Sense::Valley), "template-valley"),
        (fold(Sense::Mountain), "template-mountain"),
        (fold(Sense::Both), "template-both"),
    ];
    let mut from = at;
    for (pen, name) in lines {
        picture.marks.push(Mark::Line { points: vec![from, from + Vec2::new(SAMPLE, 0.0)], pen });
        let told = print(picture, from + Vec2::new(SAMPLE + 1.5, 0.0), SIZE, words.text(name));
        from.x += SAMPLE + 1.5 + told + 5.0;
    }
    let patch = Contour::rectangle(from.x, from.y - 1.4, SAMPLE, 2.8);
    picture.marks.push(Mark::Shape { contours: vec![patch], fill: Some(GLUED), pen: None });
    print(picture, from + Vec2::new(SAMPLE + 1.5, 0.0), SIZE, words.text("template-glued"));
}

/// Words from a point on; says how wide they are, mm.
fn print(picture: &mut Picture, from: Point, size: f64, text: String) -> f64 {
    let wide = measure(&text, size);
    picture.marks.push(Mark::Words { at: from + Vec2::new(wide / 2.0, 0.0), size, text, upwards: false });
    wide
}
