// SPDX-License-Identifier: MIT
//! How the test piece is cut, measured and judged, with places to write into.

use super::bits::{Block, Figure, Guide, Section, Step, Table};
use super::desk::PAGE;
use super::line::Line;
use super::words::Words;
use crate::album::Language;
use crate::contour::Point;
use crate::coupon::{Coupon, NICKS, OVERRUNS, SCORES, TRAILS, save_name};
use crate::paper::Paper;
use crate::picture::{CUT, Mark, Pen, Picture};
use crate::toolpath::{Layer, StrokePath};

/// Where a number is written.
const BLANK: &str = "____________";

/// How the test piece is used; `file` is the cutter file that it is made with, as it is typed.
#[must_use]
pub fn coupon(piece: &Coupon, file: Option<&str>, (language, paper): (Language, Paper)) -> Guide {
    let words = Words::new(language);
    let tell = |key: &str| words.line(key, Vec::new());
    let cautions = ["caution-rules", "caution-machine", "caution-laser", "caution-laser-light", "caution-laser-vinyl"];
    let cautions = cautions.into_iter().chain(["caution-blade", "caution-first", "caution-keep"]);
    let section = |id: &'static str, heading: &str, blocks| Section { id, heading: tell(heading), blocks };
    let steps = |keys: &[&str]| Block::Steps(keys.iter().map(|key| Step::new(tell(key))).collect());
    let figure = Figure { picture: picture(piece), shows: tell("coupon-shows") };
    let before = section(
        "before",
        "coupon-before",
        vec![
            Block::Words(tell("coupon-words")),
            Block::Caution(cautions.map(tell).collect()),
            Block::Figure(figure),
            steps(&["coupon-step-card", "coupon-step-scale", "coupon-step-cut", "coupon-step-wait"]),
        ],
    );
    let measure = section(
        "measure",
        "coupon-measure",
        vec![
            steps(&["coupon-step-marks", "coupon-step-strips", "coupon-step-slot", "coupon-step-square"]),
            boxes(
                &words,
                &[
                    ("A", "coupon-box-across", "scale.across"),
                    ("A", "coupon-box-up", "scale.up"),
                    ("B", "coupon-box-strips", "strips"),
                    ("B", "coupon-box-slots", "slots"),
                ],
            ),
        ],
    );
    let judge = section("judge", "coupon-judge", judged(&words));
    let save = vec![("save", Line::text(save_name(file)))];
    let save = match file {
        // All else that it says goes into the new one.
        Some(file) => words.line("coupon-step-save-from", [save, vec![("cutter", Line::text(file))]].concat()),
        None => words.line("coupon-step-save", save),
    };
    let after = [tell("coupon-step-write"), save, tell("coupon-step-again")].map(Step::new);
    let after = section("after", "coupon-after", vec![Block::Steps(after.into())]);
    Guide {
        title: words.text("coupon-title"),
        maker: None,
        edition: None,
        notes: Vec::new(),
        language: words.language(),
        paper,
        page: PAGE.into_iter().map(|name| (name, words.text(name))).collect(),
        sections: vec![before, measure, judge, after],
    }
}

/// What is judged by hand and eye, with boxes to write it into, and what its numbers stand for.
fn judged(words: &Words) -> Vec<Block> {
    let steps = [
        "coupon-step-fold",
        "coupon-step-clean",
        "coupon-step-free",
        "coupon-step-sharp",
        "coupon-step-held",
        "coupon-step-read",
        "coupon-step-hang",
    ];
    let rows = [
        ("D", "coupon-box-valley", "folds.d_valley"),
        ("D", "coupon-box-mountain", "folds.d_mountain"),
        ("E", "coupon-box-valley", "folds.e_valley"),
        ("E", "coupon-box-mountain", "folds.e_mountain"),
        ("D, E", "coupon-box-score", "best_score"),
        ("F", "coupon-box-overrun", "best_overrun"),
        ("G", "coupon-box-trail", "best_trail"),
        ("H", "coupon-box-nick", "nick_held"),
        ("K", "coupon-box-hang", "hang.k"),
        ("L", "coupon-box-hang", "hang.l"),
    ];
    let steps = steps.iter().map(|key| Step::new(words.line(key, Vec::new()))).collect();
    vec![Block::Steps(steps), boxes(words, &rows), Block::Table(ladders(words))]
}

/// Rows to write into: by which letter, what, as what in the file.
fn boxes(words: &Words, rows: &[(&str, &str, &str)]) -> Block {
    let tell = |key: &str| words.line(key, Vec::new());
    let row = |(letter, what, field): &(&str, &str, &str)| {
        vec![Line::text(*letter), tell(what), Line::text(BLANK), Line::text(*field)]
    };
    Block::Table(Table {
        caption: tell("coupon-boxes"),
        head: ["coupon-head-letter", "coupon-head-what", "coupon-head-read", "coupon-head-field"].map(tell).to_vec(),
        rows: rows.iter().map(row).collect(),
    })
}

/// What the numbers on the piece stand for.
fn ladders(words: &Words) -> Table {
    let tell = |key: &str| words.line(key, Vec::new());
    let notation = words.notation();
    let mm = |mm: f64| notation.write(&format!("{mm}"));
    let of = |all: &[f64], index: usize| Line::text(all.get(index).map_or_else(String::new, |one| mm(*one)));
    let score = |index: usize| match SCORES[index] {
        None => tell("machine-score-line"),
        Some(dash) => {
            let places = vec![("dash", Line::text(mm(dash.cut))), ("gap", Line::text(mm(dash.tie)))];
            words.line("machine-score-dash", places)
        }
    };
    let head =
        ["coupon-head-number", "coupon-head-score", "coupon-head-overrun", "coupon-head-trail", "coupon-head-nick"];
    Table {
        caption: tell("coupon-ladders"),
        head: head.map(tell).to_vec(),
        rows: (0..SCORES.len())
            .map(|index| {
                let number = Line::text(format!("{}", index + 1));
                vec![number, score(index), of(&OVERRUNS, index), of(&TRAILS, index), of(&NICKS, index)]
            })
            .collect(),
    }
}

/// The piece as it is cut.
fn picture(piece: &Coupon) -> Picture {
    let mut picture = Picture { width: piece.size.0, height: piece.size.1, marks: Vec::new() };
    for stroke in &piece.sheet.strokes {
        let pen = match stroke.layer {
            Layer::Cut => CUT,
            Layer::Score => Pen { width: 0.25, ..CUT },
            Layer::Draw => Pen { width: 0.18, ..CUT },
        };
        let mut line = |points: Vec<Point>| picture.marks.push(Mark::Line { points, pen });
        match &stroke.run {
            StrokePath::Straight(pieces) => pieces.iter().for_each(|(from, to)| line(vec![*from, *to])),
            StrokePath::Closed(contour) => {
                let all = contour.edges().map(|edge| edge.from);
                line(all.chain(contour.edges().next().map(|edge| edge.from)).collect());
            }
            StrokePath::Open(edges) => {
                line(edges.first().map(|edge| edge.from).into_iter().chain(edges.iter().map(|edge| edge.to)).collect());
            }
        }
    }
    picture
}
