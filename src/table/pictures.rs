// SPDX-License-Identifier: MIT
//! Small pictures of the pages as they lie on the table.

use crate::contour::{Contour, Point};
use crate::parts::{Kit, Owner, Piece};
use crate::picture::{CARD, CUT, Fill, Mark, Pen, Picture};
use crate::write;

/// Pictures, each once, and which of them each page has.
#[derive(Debug, Default)]
pub(super) struct Strip {
    /// The pictures as SVG.
    pub pictures: Vec<String>,
    /// For each page the number of its picture.
    pub numbers: Vec<usize>,
}

/// The pictures of a run of pages.
pub(super) fn strip(kit: &Kit, pages: usize) -> Strip {
    let mut strip = Strip::default();
    for page in 1..=pages {
        let first = kit.pieces.iter().find(|piece| piece.owner == Owner::Page(page));
        let text = first.and_then(|piece| drawn(kit, piece)).unwrap_or_default();
        let number = strip.pictures.iter().position(|known| *known == text).unwrap_or_else(|| {
            strip.pictures.push(text);
            strip.pictures.len() - 1
        });
        strip.numbers.push(number);
    }
    strip
}

fn drawn(kit: &Kit, piece: &Piece) -> Option<String> {
    let part = kit.parts.get(piece.part)?;
    let mut picture = Picture { width: part.flat.width + 4.0, height: part.flat.height + 4.0, marks: Vec::new() };
    let map = |point: Point| Point::new(point.x + 2.0, point.y + 2.0);
    let contours: Vec<Contour> =
        [&part.flat.outline].into_iter().chain(&part.flat.holes).map(|contour| contour.mapped(map)).collect();
    let pen = |pen: Pen| Pen { width: pen.width * 3.0, ..pen };
    picture.marks.push(Mark::Shape { contours, fill: Some(Fill::Flat(CARD)), pen: Some(pen(CUT)) });
    for score in &part.flat.scores {
        picture.marks.push(Mark::Line { points: vec![map(score.from), map(score.to)], pen: pen(Pen::fold(score.sense)) });
    }
    Some(write::drawing(&picture))
}
