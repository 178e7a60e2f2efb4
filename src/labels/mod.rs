// SPDX-License-Identifier: MIT
//! Labels on sheets of paper: on a grid that the maker states, or on plain paper with lines to cut along.
//!
//! In: an album, the words of its labels. Out: [`LabelSheet`]s: pages as pictures at true size, with what each shows. Never: a
//! word of its own, a file format.

use crate::album::{Album, LabelGrid, LabelPaper};
use crate::contour::Point;
use crate::guide::{Label, Line, on_letter};
use crate::length::tolerance::SAME;
use crate::picture::{FAINT, INK, Mark, Pen, Picture, measure, wrapped};

/// A sheet of labels.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct LabelSheet {
    /// The whole sheet of paper, at true size.
    pub picture: Picture,
    /// Its number.
    pub name: String,
    /// What stands on it, for those who do not see it.
    pub shows: String,
}

/// On plain paper: so many labels across and down, in so wide a margin, mm. Our choice.
const PLAIN: [u32; 2] = [2, 4];
const MARGIN: f64 = 10.0;

/// Between a label's edge and its words, mm.
const PAD: f64 = 3.0;
/// Em of words, mm: as large as they go in, but not larger or smaller than this.
const LARGEST: f64 = 4.4;
const SMALLEST: f64 = 1.9;
/// The same of a label's head, in ems of its words.
const HEAD: f64 = 1.5;
/// The same of a part's letter.
const LETTER: f64 = 3.2;
/// From line to line, ems.
const LINE: f64 = 1.3;

const CUT_LINE: Pen = Pen { width: 0.18, colour: FAINT, dash: &[2.0, 2.0] };
const BOX: Pen = Pen { width: 0.4, colour: INK, dash: &[] };

/// Sheets with these labels, each as often as it is wanted.
#[must_use]
pub fn labels(album: &Album, labels: &[Label]) -> Vec<LabelSheet> {
    let paper = album.labels.and_then(|grid| grid.paper);
    let paper = paper.unwrap_or(if on_letter(album) { LabelPaper::Letter } else { LabelPaper::A4 });
    let grid = album.labels.unwrap_or_else(|| plain(paper));
    let all: Vec<&Label> =
        labels.iter().flat_map(|label| std::iter::repeat_n(label, usize::try_from(label.times).unwrap_or(0))).collect();
    let [across, down] = grid.count;
    let a_sheet = usize::try_from(across * down).unwrap_or(1).max(1);
    let sheet = |(number, some): (usize, &[&Label])| {
        let (width, height) = paper.size();
        let mut picture = Picture { width, height, marks: Vec::new() };
        if album.labels.is_none() {
            cut_lines(&mut picture, &grid);
        }
        for (place, label) in (0..).zip(some) {
            let [left, top] = grid.corner([place % across, place / across]);
            put(&mut picture, Point::new(left, height - top), grid.size, label);
        }
        let name = (number + 1).to_string();
        LabelSheet { picture, name, shows: shows(some) }
    };
    all.chunks(a_sheet).enumerate().map(sheet).collect()
}

fn plain(paper: LabelPaper) -> LabelGrid {
    let (wide, high) = paper.size();
    let size = [(wide, 0), (high, 1)].map(|(side, way)| 2.0f64.mul_add(-MARGIN, side) / f64::from(PLAIN[way]));
    LabelGrid { paper: Some(paper), count: PLAIN, size, start: [MARGIN; 2], gap: [0.0; 2] }
}

fn cut_lines(picture: &mut Picture, grid: &LabelGrid) {
    let (wide, high) = (picture.width, picture.height);
    let [across, down] = grid.count;
    for column in 0..=across {
        let x = grid.corner([column, 0])[0];
        picture.marks.push(Mark::Line { points: vec![Point::new(x, 0.0), Point::new(x, high)], pen: CUT_LINE });
    }
    for row in 0..=down {
        let y = high - grid.corner([0, row])[1];
        picture.marks.push(Mark::Line { points: vec![Point::new(0.0, y), Point::new(wide, y)], pen: CUT_LINE });
    }
}

/// Words in lines, each with its em.
fn set(label: &Label, size: f64, room: f64) -> Vec<(f64, String)> {
    let head = size * HEAD;
    let heads = wrapped(&label.head.plain(), head, room).into_iter().map(|line| (head, line));
    let lines = label.lines.iter().flat_map(|line| wrapped(&line.plain(), size, room));
    heads.chain(lines.map(|line| (size, line))).collect()
}

/// Puts a label's words into its place, given by its upper left. What goes in nowhere is left out from the end.
fn put(picture: &mut Picture, corner: Point, [width, height]: [f64; 2], label: &Label) {
    let room = 2.0f64.mul_add(-PAD, height);
    let letter = |size: f64| label.mark.as_ref().map_or(0.0, |_| size * LETTER * 1.25);
    let wide = |size: f64| 2.0f64.mul_add(-PAD, width) - letter(size);
    let tall = |size: f64| set(label, size, wide(size)).iter().map(|(em, _)| em * LINE).sum::<f64>();
    let fits = |size: &f64| tall(*size) <= room && letter(*size) <= room;
    let size = (0..=25_u32).map(|step| LARGEST - 0.1 * f64::from(step)).find(fits).unwrap_or(SMALLEST);
    let (mut left, mut top) = (corner.x + PAD, corner.y - PAD);
    if let Some(mark) = &label.mark {
        let side = size * LETTER;
        let middle = Point::new(left + side / 2.0, top - side / 2.0);
        let square = [(0.0, 0.0), (side, 0.0), (side, -side), (0.0, -side), (0.0, 0.0)];
        let points = square.map(|(x, y)| Point::new(left + x, top + y)).to_vec();
        picture.marks.push(Mark::Line { points, pen: BOX });
        let em = (side * 0.7).min(side * 0.7 * side / measure(mark, side).max(side * 0.7));
        picture.marks.push(Mark::Words { at: middle, size: em, text: mark.clone(), upwards: false });
        left += letter(size);
    }
    let foot = corner.y - height + PAD;
    for (em, text) in set(label, size, wide(size)) {
        if top - em * LINE < foot - SAME {
            break;
        }
        let at = Point::new(left + measure(&text, em) / 2.0, top - em * LINE / 2.0);
        picture.marks.push(Mark::Words { at, size: em, text, upwards: false });
        top -= em * LINE;
    }
}

/// Each label once, with how often it stands there.
fn shows(some: &[&Label]) -> String {
    let words = |label: &Label| {
        let lines = label.lines.iter().map(Line::plain);
        let mark = label.mark.iter().cloned();
        mark.chain([label.head.plain()]).chain(lines).collect::<Vec<_>>().join(" ")
    };
    let mut known: Vec<(String, usize)> = Vec::new();
    for label in some {
        let text = words(label);
        match known.iter_mut().find(|(one, _)| *one == text) {
            Some((_, many)) => *many += 1,
            None => known.push((text, 1)),
        }
    }
    known.into_iter().map(|(text, many)| format!("{many} × {text}")).collect::<Vec<_>>().join("; ")
}
