// SPDX-License-Identifier: MIT
//! The foot of a page of templates: two lengths to check the print by, what to do if it is not so, how to read the lines.

use super::draw::GLUED;
use crate::contour::{Contour, Point, Vec2};
use crate::finding::Said;
use crate::net::Sense;
use crate::picture::{CUT, INK, Mark, Pen, Picture, measure};

/// How much of a page it takes, mm.
pub(super) const FOOT: f64 = 23.0;
/// Em of its words, mm.
const SIZE: f64 = 2.7;
/// From line to line, mm.
const LINE: f64 = 3.6;
const SCALE: Pen = Pen { width: 0.25, colour: INK, dash: &[] };
/// The lengths to check, mm: a metric ruler's and an inch ruler's.
const CHECKS: [(f64, &str); 2] = [(100.0, "100 mm"), (101.6, "4 in")];
/// How long a line of the key is, mm.
const SAMPLE: f64 = 12.0;

/// Draws the foot, its lower left at a point, `wide` mm wide; `said` is what the page is.
pub(super) fn foot(picture: &mut Picture, at: Point, wide: f64, said: &Said, tiled: bool) {
    checks(picture, at + Vec2::new(1.0, 17.5));
    key(picture, at + Vec2::new(1.0, 2.0));
    let keys: &[&'static str] = if tiled { &["template-check", "template-tiles"] } else { &["template-check"] };
    let (left, top) = (at.x + 108.0, at.y + FOOT - 2.0);
    let lines = std::iter::once(said.to_string()).chain(keys.iter().map(|key| Said::new(key).to_string()));
    for (line, text) in (0_i32..).zip(lines.flat_map(|text| wrapped(&text, SIZE, at.x + wide - left))) {
        words(picture, Point::new(left, f64::from(line).mul_add(-LINE, top)), text);
    }
}

/// The lengths to check, one below the other.
fn checks(picture: &mut Picture, at: Point) {
    for (index, (length, name)) in (0_i32..).zip(CHECKS) {
        let from = at - Vec2::new(0.0, 7.5 * f64::from(index));
        let to = from + Vec2::new(length, 0.0);
        let tick = Vec2::new(0.0, 1.8);
        picture.marks.push(Mark::Line { points: vec![from, to], pen: SCALE });
        for end in [from, to] {
            picture.marks.push(Mark::Line { points: vec![end - tick, end + tick], pen: SCALE });
        }
        let middle = from.midpoint(to) + Vec2::new(0.0, 2.2);
        picture.marks.push(Mark::Words { at: middle, size: SIZE, text: name.to_owned(), upwards: false });
    }
}

/// What the lines mean, side by side.
fn key(picture: &mut Picture, at: Point) {
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
        from.x += SAMPLE + 1.5 + words(picture, from + Vec2::new(SAMPLE + 1.5, 0.0), Said::new(name).to_string()) + 5.0;
    }
    let patch = Contour::rectangle(from.x, from.y - 1.4, SAMPLE, 2.8);
    picture.marks.push(Mark::Shape { contours: vec![patch], fill: Some(GLUED), pen: None });
    words(picture, from + Vec2::new(SAMPLE + 1.5, 0.0), Said::new("template-glued").to_string());
}

/// Words from a point on; says how wide they are, mm.
fn words(picture: &mut Picture, from: Point, text: String) -> f64 {
    let wide = measure(&text, SIZE);
    picture.marks.push(Mark::Words { at: from + Vec2::new(wide / 2.0, 0.0), size: SIZE, text, upwards: false });
    wide
}

/// A text in lines that are no wider than there is room, broken between words.
fn wrapped(text: &str, size: f64, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split(' ') {
        match lines.last_mut() {
            Some(line) if measure(line, size) + measure(" ", size) + measure(word, size) <= room => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}
