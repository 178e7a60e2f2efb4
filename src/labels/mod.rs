// SPDX-License-Identifier: MIT
//! Labels on sheets of paper: on a grid that the maker states, or on plain paper with lines to cut along.
//!
//! In: an album, the words of its labels. Out: [`PrintedPage`]s at true size; a finding where labels are too small for their words.
//! Never: a word of its own, a file format.

use crate::album::{Album, LabelGrid};
use crate::contour::Point;
use crate::finding::{Finding, Said};
use crate::guide::{Label, Line};
use crate::length::tolerance::SAME;
use crate::paper::Paper;
use crate::picture::{FAINT, INK, Mark, Pen, Picture, PrintedPage, measure, wrapped};

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
pub fn labels(album: &Album, labels: &[Label]) -> Vec<PrintedPage> {
    let grid = grid(album);
    let all: Vec<&Label> =
        labels.iter().flat_map(|label| std::iter::repeat_n(label, usize::try_from(label.times).unwrap_or(0))).collect();
    let [across, down] = grid.count;
    let a_sheet = usize::try_from(across * down).unwrap_or(1).max(1);
    let sheet = |(number, some): (usize, &[&Label])| {
        let (width, height) = grid.paper.size();
        let mut picture = Picture { width, height, marks: Vec::new() };
        if album.labels.is_none() {
            cut_lines(&mut picture, &grid);
        }
        for (place, label) in (0..).zip(some) {
            let [left, top] = grid.corner([place % across, place / across]);
            put(&mut picture, Point::new(left, height - top), label, Fitted::of(label, grid.size));
        }
        PrintedPage::new(picture, (number + 1).to_string(), shows(some))
    };
    all.chunks(a_sheet).enumerate().map(sheet).collect()
}

/// Says that labels are too small for all that is to stand on them; nothing where all of it does.
#[must_use]
pub fn check(album: &Album, labels: &[Label]) -> Option<Finding> {
    let [width, height] = grid(album).size;
    let lacking = |label: &&Label| Fitted::of(label, [width, height]).left_out > 0;
    let first = labels.iter().find(lacking)?;
    let text = Said::new("labels-small")
        .with("width", album.length(width))
        .with("height", album.length(height))
        .with("name", first.mark.clone().unwrap_or_else(|| first.head.plain()))
        .with("more", labels.iter().filter(lacking).count() - 1);
    Some(Finding::note("labels-small", Said::NOTHING, text).help(Said::new("labels-small-help")))
}

/// The maker's sheets of labels, else plain paper.
fn grid(album: &Album) -> LabelGrid {
    album.labels.unwrap_or_else(|| plain(album.paper()))
}

fn plain(paper: Paper) -> LabelGrid {
    let (wide, high) = paper.size();
    let size = [(wide, 0), (high, 1)].map(|(side, way)| 2.0f64.mul_add(-MARGIN, side) / f64::from(PLAIN[way]));
    LabelGrid { paper, count: PLAIN, size, start: [MARGIN; 2], gap: [0.0; 2] }
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

/// A label's words as large as they go on it.
struct Fitted {
    /// Their em.
    em: f64,
    /// The lines, each with its em.
    lines: Vec<(f64, String)>,
    /// How many lines find no room, even in the smallest letters.
    left_out: usize,
}

impl Fitted {
    fn of(label: &Label, [width, height]: [f64; 2]) -> Self {
        let room = 2.0f64.mul_add(-PAD, height);
        let set = |em: f64| lines(label, em, 2.0f64.mul_add(-PAD, width) - beside(label, em));
        let tall = |lines: &[(f64, String)]| lines.iter().map(|(em, _)| em * LINE).sum::<f64>();
        let fits = |em: &f64| tall(&set(*em)) <= room && beside(label, *em) <= room;
        let em = (0..=25_u32).map(|step| LARGEST - 0.1 * f64::from(step)).find(fits).unwrap_or(SMALLEST);
        let mut lines = set(em);
        let all = lines.len();
        while tall(&lines) > room + SAME {
            lines.pop();
        }
        Self { em, left_out: all - lines.len(), lines }
    }
}

/// The room that a part's letter takes beside words of an em.
fn beside(label: &Label, em: f64) -> f64 {
    label.mark.as_ref().map_or(0.0, |_| em * LETTER * 1.25)
}

/// Words in lines, each with its em.
fn lines(label: &Label, size: f64, room: f64) -> Vec<(f64, String)> {
    let head = size * HEAD;
    let heads = wrapped(&label.head.plain(), head, room).into_iter().map(|line| (head, line));
    let lines = label.lines.iter().flat_map(|line| wrapped(&line.plain(), size, room));
    heads.chain(lines.map(|line| (size, line))).collect()
}

/// Puts a label's words into its place, given by its upper left.
fn put(picture: &mut Picture, corner: Point, label: &Label, fitted: Fitted) {
    let (mut left, mut top) = (corner.x + PAD, corner.y - PAD);
    if let Some(mark) = &label.mark {
        let side = fitted.em * LETTER;
        let middle = Point::new(left + side / 2.0, top - side / 2.0);
        let square = [(0.0, 0.0), (side, 0.0), (side, -side), (0.0, -side), (0.0, 0.0)];
        let points = square.map(|(x, y)| Point::new(left + x, top + y)).to_vec();
        picture.marks.push(Mark::Line { points, pen: BOX });
        // As tall as the box lets it, and no wider.
        let size = side * 0.7 / measure(mark, 1.0).max(1.0);
        picture.marks.push(Mark::Words { at: middle, size, text: mark.clone(), upwards: false });
        left += beside(label, fitted.em);
    }
    for (em, text) in fitted.lines {
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
