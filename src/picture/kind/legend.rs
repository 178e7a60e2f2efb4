// SPDX-License-Identifier: MIT
//! The key of a kind's plate: what its lines and areas mean, those that it has.

use super::{MARGIN, SIZE, SMALL, Subject};
use crate::contour::{Contour, Point};
use crate::net::{Sense, Use};
use crate::parts::Part;
use crate::picture::words::measure;
use crate::picture::{CARD, CUT, Fill, INK, Mark, Matter, Pen, Picture, stuff};

const EDGE: Pen = Pen { width: 0.35, colour: INK, dash: &[] };
const THIN: Pen = Pen { width: 0.18, colour: INK, dash: &[] };

impl Subject<'_> {
    /// What the lines mean, those that the plate has.
    pub(super) fn key(&self, picture: &mut Picture, scale: &str) {
        let parts = self.parts();
        let scored = |sense| parts.iter().any(|part| part.flat.scores.iter().any(|score| score.sense == sense));
        let mut items: Vec<(Sample, &str)> = vec![(Sample::Line(CUT), "cut")];
        for (sense, words) in
            [(Sense::Valley, "valley fold"), (Sense::Mountain, "mountain fold"), (Sense::Both, "works both ways")]
        {
            if scored(sense) {
                items.push((Sample::Line(Pen::fold(sense)), words));
            }
        }
        let seam = |part: &&Part| part.net.panels.iter().any(|panel| panel.purpose == Use::Seam);
        if let Some(part) = parts.iter().find(|part| seam(part)) {
            items.push((Sample::Area(stuff(self.album, part).glued()), "takes tape or glue"));
        }
        let papers = parts.iter().map(|part| stuff(self.album, part)).find(|stuff| stuff.matter == Matter::Paper);
        if let Some(paper) = papers {
            items.push((Sample::Area(paper.flat()), "patterned paper"));
        } else {
            items.push((Sample::Area(Fill::Flat(CARD)), "front face"));
        }
        items.push((Sample::Ring, "sizes count from here, the edge at the fence"));
        let (sample, gap) = (13.0, 6.0);
        let width = |words: &str| sample + 1.5 + measure(words, SMALL);
        let mut rows: Vec<(Vec<(Sample, &str)>, f64)> = Vec::new();
        for (item, words) in items {
            match rows.last_mut() {
                Some((row, used)) if *used + gap + width(words) <= SIZE.0 - 2.0 * MARGIN => {
                    *used += gap + width(words);
                    row.push((item, words));
                }
                _ => rows.push((vec![(item, words)], width(words))),
            }
        }
        let mut y = MARGIN + 4.5;
        for (row, used) in rows.into_iter().rev() {
            let mut x = (SIZE.0 - used) / 2.0;
            for (item, words) in row {
                item.draw(picture, x, y, sample);
                let at = Point::new(x + sample + 1.5 + measure(words, SMALL) / 2.0, y);
                picture.words(at, SMALL, words.into());
                x += width(words) + gap;
            }
            y += 5.5;
        }
        let say = format!("Flat parts {scale}, front up; sizes in {}.", self.album.units.name());
        picture.words(Point::new(SIZE.0 / 2.0, MARGIN - 1.5), SMALL, say);
    }
}

/// What stands before the words of the key.
enum Sample {
    Line(Pen),
    Area(Fill),
    Ring,
}

impl Sample {
    fn draw(self, picture: &mut Picture, x: f64, y: f64, width: f64) {
        match self {
            Self::Line(pen) => {
                picture.marks.push(Mark::Line { points: vec![Point::new(x, y), Point::new(x + width, y)], pen });
            }
            Self::Area(fill) => {
                let contours = vec![Contour::rectangle(x + 4.0, y - 1.8, width - 4.0, 3.6)];
                picture.marks.push(Mark::Shape { contours, fill: Some(fill), pen: Some(EDGE) });
            }
            Self::Ring => {
                let ring = Contour::circle(Point::new(x + 6.0, y), 0.7);
                picture.marks.push(Mark::Shape { contours: vec![ring], fill: None, pen: Some(THIN) });
                let points = vec![Point::new(x + 6.7, y), Point::new(x + width, y)];
                picture.marks.push(Mark::Line { points, pen: THIN });
            }
        }
    }
}
