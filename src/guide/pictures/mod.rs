// SPDX-License-Identifier: MIT
//! The guide's pictures: at the trimmer, at the fence, folding, sticking, sliding.
//!
//! In: what a step does. Out: a [`Picture`] as wide as a step's picture is. Never: a number that the words do not have.

mod bench;
mod joint;
mod pieces;
mod solid;

pub(super) use bench::{at_fence, trim};
pub(super) use joint::stick;
pub(super) use pieces::pieces;
pub(super) use solid::{finished, fold, hang, is_shown_over};

use super::desk::Desk;
use super::draw::{Draw, GLUE, THIN, WORDS};
use crate::album::Language;
use crate::contour::{Point, Rect};
use crate::net::Sense;
use crate::picture::{self, CUT, PartWords, Pen, Picture, Stuff};

/// Room for the picture of a step, mm.
const ROOM: (f64, f64) = (78.0, 50.0);

/// A part lying flat with its distances from the left and the top edge.
pub(super) fn flat(desk: &Desk<'_>, number: usize) -> Picture {
    let Some(part) = desk.part(number) else { return Draw::default().picture() };
    let stuff = stuff(desk, number);
    let say = PartWords { length: &|mm| desk.measure.own(mm), name: &|name| panel_name(desk, name) };
    picture::part_worded(part, &stuff, (86.0, 86.0), say).0
}

/// English pictures have the model's own short names.
fn panel_name(desk: &Desk<'_>, name: &str) -> String {
    if desk.job.language == Language::English { name.to_owned() } else { desk.words.term(name) }
}

fn stuff(desk: &Desk<'_>, number: usize) -> Stuff {
    desk.part(number).map_or(Stuff::CARD, |part| picture::stuff(desk.job.album, part))
}

fn caliper(desk: &Desk<'_>, number: usize) -> f64 {
    desk.part(number).and_then(|part| desk.stock(part.stock)).map_or(0.3, |stock| stock.caliper.mm())
}

/// What the lines of the pictures mean.
pub(super) fn key(desk: &Desk<'_>) -> Picture {
    let mut draw = Draw::default();
    let lines = [
        ("key-cut", CUT),
        ("key-valley", Pen::fold(Sense::Valley)),
        ("key-mountain", Pen::fold(Sense::Mountain)),
        ("key-both", Pen::fold(Sense::Both)),
    ];
    for (row, (word, pen)) in (0..).zip(lines) {
        let y = -7.0 * f64::from(row);
        draw.line(Point::new(0.0, y), Point::new(22.0, y), pen);
        label(&mut draw, &desk.words.text(word), 25.0, y);
    }
    for (row, (word, pen)) in (0..).zip([("key-tape", Some(THIN)), ("key-glue", None)]) {
        let y = -7.0 * f64::from(row);
        draw.rectangle(Rect::new(56.0, y - 2.0, 78.0, y + 2.0), Some(GLUE), pen);
        label(&mut draw, &desk.words.text(word), 81.0, y);
    }
    draw.picture()
}

/// Words that begin at a point.
fn label(draw: &mut Draw, text: &str, x: f64, y: f64) {
    draw.words(Point::new(x + picture::measure(text, WORDS) / 2.0, y), WORDS, text, false);
}
