// SPDX-License-Identifier: MIT
//! Words set in lines of a width.

use super::super::pdf::FontFaces;
use super::placed::{PlacedContent, TaggedAs, TypesetBlock, TypesetContent};
use super::words::{Style, TextRun, TypesetWord, width, words};
use crate::guide::Line;
use crate::length::tolerance::SAME;

/// What stands on one line: runs, and where each begins.
#[derive(Debug, Default)]
struct TypesetLine {
    runs: Vec<(f64, TextRun)>,
    /// How far it reaches, a space at the end included.
    end: f64,
}

/// A line of words in as many lines as its width takes, flush left.
pub(super) fn set<'a>(faces: &FontFaces, line: &Line, style: Style, wide: f64, of: TaggedAs) -> TypesetBlock<'a> {
    let mut block = TypesetBlock::default();
    for (row, y) in rows(faces, &words(line, style), style, wide).into_iter().zip(tops(style.leading)) {
        for (x, run) in row.runs {
            put(&mut block, faces, run, [x, y], style, of);
        }
        block.height = y + style.leading;
    }
    block
}

/// How wide it is on one line.
pub(super) fn on_one(faces: &FontFaces, line: &Line, style: Style) -> f64 {
    let wide = |row: &TypesetLine| row.runs.last().map_or(0.0, |(x, run)| x + width_seen(faces, run, style.size));
    rows(faces, &words(line, style), style, f64::INFINITY).first().map_or(0.0, wide)
}

/// The widest of its words.
pub(super) fn widest(faces: &FontFaces, line: &Line, style: Style) -> f64 {
    words(line, style).iter().map(|word| word_width(faces, word, style.size)).fold(0.0, f64::max)
}

#[allow(clippy::cast_precision_loss, reason = "no page has that many lines")]
fn tops(leading: f64) -> impl Iterator<Item = f64> {
    (0_u32..).map(move |number| f64::from(number) * leading)
}

fn word_width(faces: &FontFaces, word: &TypesetWord, size: f64) -> f64 {
    word.runs.iter().map(|run| width(faces, run, size)).sum()
}

fn width_seen(faces: &FontFaces, run: &TextRun, size: f64) -> f64 {
    let text = run.text.trim_end_matches(' ').to_owned();
    width(faces, &TextRun { text, ..run.clone() }, size)
}

fn rows(faces: &FontFaces, words: &[TypesetWord], style: Style, wide: f64) -> Vec<TypesetLine> {
    let mut rows: Vec<TypesetLine> = Vec::new();
    let mut row = TypesetLine::default();
    // A hair more room than is measured, so that what just fits does.
    let room = wide + SAME;
    for word in words.iter().flat_map(|word| fitting(faces, word, style.size, room)) {
        if !row.runs.is_empty() && row.end + word_width(faces, &word, style.size) > room {
            rows.push(std::mem::take(&mut row));
        }
        for run in word.runs {
            join(&mut row, faces, run, style.size);
        }
        if word.space {
            join(&mut row, faces, TextRun { text: " ".into(), bold: style.bold, framed: false }, style.size);
        }
    }
    if !row.runs.is_empty() {
        rows.push(row);
    }
    rows
}

/// Adds a run to a line; what looks the same is one run.
fn join(row: &mut TypesetLine, faces: &FontFaces, run: TextRun, size: f64) {
    let wide = width(faces, &run, size);
    match row.runs.last_mut() {
        Some((_, last)) if last.bold == run.bold && !last.framed && !run.framed => last.text.push_str(&run.text),
        _ => row.runs.push((row.end, run)),
    }
    row.end += wide;
}

/// A word that is wider than a line, parted between any two letters; others as they are.
fn fitting(faces: &FontFaces, word: &TypesetWord, size: f64, room: f64) -> Vec<TypesetWord> {
    if word_width(faces, word, size) <= room {
        return vec![word.clone()];
    }
    let (mut parts, mut part, mut wide) = (Vec::new(), TypesetWord::default(), 0.0);
    for run in &word.runs {
        for letter in run.text.chars() {
            // A letter's box that is too long for a line is set as words.
            let one = TextRun { text: letter.into(), bold: run.bold, framed: false };
            let step = width(faces, &one, size);
            if wide + step > room && wide > 0.0 {
                parts.push(std::mem::take(&mut part));
                wide = 0.0;
            }
            wide += step;
            match part.runs.last_mut() {
                Some(last) if last.bold == one.bold => last.text.push(letter),
                _ => part.runs.push(one),
            }
        }
    }
    part.space = word.space;
    parts.push(part);
    parts
}

fn put(block: &mut TypesetBlock<'_>, faces: &FontFaces, run: TextRun, [x, y]: [f64; 2], style: Style, of: TaggedAs) {
    let Style { size, leading, soft, .. } = style;
    let wide = width_seen(faces, &run, size);
    let letters = |text: String, x: f64, width: f64| PlacedContent {
        what: TypesetContent::Words { text, size, bold: run.bold, soft, width },
        of,
        x,
        y,
        width,
        height: leading,
    };
    if run.framed {
        let high = size * 1.24;
        let frame = TypesetContent::Frame { line: (size * 0.09).max(0.2) };
        block.placed.push(PlacedContent {
            what: frame,
            of,
            x,
            y: y + (leading - high) / 2.0,
            width: wide,
            height: high,
        });
        let own = faces.bold.width(&run.text, size);
        block.placed.push(letters(run.text, x + (wide - own) / 2.0, own));
    } else {
        block.placed.push(letters(run.text.clone(), x, wide));
    }
}
