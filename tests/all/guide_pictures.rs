// SPDX-License-Identifier: MIT
//! The guide's pictures: unchanged where they were looked at, and no word over another word or over a line.
//!
//! `UPDATE_GOLDEN=1` writes the ten pictures anew and still fails, so that nothing is accepted unseen.

use crate::common::{album, fixtures, project};
use hingeleaf::contour::{Contour, Point, Rect};
use hingeleaf::cutter::Cutter;
use hingeleaf::guide::{self, Block, Figure, Guide};
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::picture::{Mark, Picture, words_box};
use hingeleaf::sheets::Search;
use hingeleaf::toolpath::Labels;
use hingeleaf::work::Work;
use hingeleaf::write;

fn made(path: &std::path::Path) -> Guide {
    let text = std::fs::read_to_string(path).unwrap();
    let search = Search { effort: Effort::Low, trimmer: true, threads: 1 };
    let work = Work::new(album(&text), Cutter::default(), Labels::default(), search, &Unwatched);
    assert!(!work.stopped());
    guide::guide(&work.guide_job(false))
}

/// Section and number within it, from 0, of ten steps.
const LOOKED_AT: [(&str, usize); 10] = [
    ("cut", 0),
    ("cut", 1),
    ("shape", 0),
    ("score", 1),
    ("score", 3),
    ("fold", 0),
    ("pages", 0),
    ("pages", 3),
    ("spine", 0),
    ("bind", 0),
];

#[test]
fn ten_steps_look_as_they_did() {
    let guide = made(&project().join("fixtures/tide-table.json"));
    let folder = project().join("fixtures/golden/guide");
    let mut different = Vec::new();
    for (section, number) in LOOKED_AT {
        let found = guide.sections.iter().find(|one| one.id == section).unwrap();
        let step = found.steps().nth(number).unwrap_or_else(|| panic!("{section} {number}"));
        let svg = write::drawing(&step.figure.as_ref().unwrap().picture);
        let name = format!("{section}-{number}.svg");
        let beside = folder.join(&name);
        if std::fs::read_to_string(&beside).unwrap_or_default() != svg {
            if std::env::var_os("UPDATE_GOLDEN").is_some() {
                std::fs::create_dir_all(&folder).unwrap();
                std::fs::write(&beside, &svg).unwrap();
            }
            different.push(name);
        }
    }
    assert!(different.is_empty(), "{different:?} differ");
}

fn figures(guide: &Guide) -> Vec<(String, &Figure)> {
    let mut all = Vec::new();
    for section in &guide.sections {
        for block in &section.blocks {
            match block {
                Block::Figure(figure) => all.push((section.id.to_owned(), figure)),
                Block::Steps(steps) => {
                    let with = steps.iter().filter_map(|step| Some((step.head.plain(), step.figure.as_ref()?)));
                    all.extend(with.map(|(head, figure)| (format!("{}: {head}", section.id), figure)));
                }
                _ => {}
            }
        }
    }
    all
}

/// Boxes of words, a hair smaller than they are, so that what only touches is fine.
fn words(picture: &Picture) -> Vec<(Rect, &str)> {
    let one = |mark: &'_ Mark| match mark {
        Mark::Words { at, size, text, upwards } => Some(words_box(*at, *size, text, *upwards).inflate(-0.15, -0.15)),
        _ => None,
    };
    let text = |mark: &'_ Mark| match mark {
        Mark::Words { text, .. } => text.clone().leak() as &str,
        _ => "",
    };
    picture.marks.iter().filter_map(|mark| Some((one(mark)?, text(mark)))).collect()
}

/// Whether a line runs through a box: it enters one of its sides, or lies in it.
fn through(space: Rect, from: Point, to: Point) -> bool {
    let steps = 60;
    (0..=steps).any(|step| space.contains(from.lerp(to, f64::from(step) / f64::from(steps))))
}

/// The lines that are drawn, those of outlines with a pen too. What is drawn below a label's own ground is covered by it.
fn lines(picture: &Picture) -> Vec<(Point, Point, usize)> {
    let mut lines = Vec::new();
    for (index, mark) in picture.marks.iter().enumerate() {
        match mark {
            Mark::Line { points, .. } => lines.extend(points.windows(2).map(|ends| (ends[0], ends[1], index))),
            Mark::Shape { contours, pen: Some(_), .. } => {
                let edges = contours.iter().flat_map(Contour::edges);
                lines.extend(edges.map(|edge| (edge.from, edge.to, index)));
            }
            _ => {}
        }
    }
    lines
}

#[test]
fn no_word_stands_over_a_word_or_a_line() {
    let mut looked = 0;
    let mut faults = Vec::new();
    for path in fixtures() {
        let guide = made(&path);
        let name = path.file_stem().unwrap().to_str().unwrap();
        for (step, figure) in figures(&guide) {
            let (words, lines) = (words(&figure.picture), lines(&figure.picture));
            let page = Rect::new(0.0, 0.0, figure.picture.width, figure.picture.height);
            for (index, (space, text)) in words.iter().enumerate() {
                looked += 1;
                if page.union(*space).area() > page.area() + 1e-6 {
                    faults.push(format!("{name}, {step}: {text} stands out of the picture"));
                }
                for (other, over) in &words[..index] {
                    if space.intersect(*other).area() > 1e-9 {
                        faults.push(format!("{name}, {step}: {text} over {over}"));
                    }
                }
                if let Some((from, to, _)) = lines.iter().find(|(from, to, _)| through(*space, *from, *to)) {
                    faults.push(format!("{name}, {step}: {text} over a line {from} to {to}"));
                }
            }
        }
    }
    assert!(looked > 500, "only {looked} words");
    assert!(faults.is_empty(), "{} faults:\n{}", faults.len(), faults.join("\n"));
}

/// Words are at least 2.4 mm tall in print: figures are 0.73 of the em (the bundled font's capitals), so the em is 3.3 mm at least;
/// panels' names on flat parts may be a little smaller.
#[test]
fn words_can_be_read_in_print() {
    let guide = made(&project().join("fixtures/seed-ledger.json"));
    for (step, figure) in figures(&guide) {
        for mark in &figure.picture.marks {
            if let Mark::Words { size, text, .. } = mark {
                assert!(*size >= 3.0, "{step}: {text} is {size}");
            }
        }
        assert!(figure.picture.width <= 152.0 && figure.picture.height < 120.0, "{step}");
        assert!(!figure.shows.is_empty(), "{step}: nothing is said of the picture");
    }
}
