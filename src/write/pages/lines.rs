// SPDX-License-Identifier: MIT
//! Words set in lines of a width.

use super::super::pdf::Faces;
use super::placed::{Block, Of, Placed, What};
use super::words::{Piece, Style, Word, width, words};
use crate::guide::Line;
use crate::length::tolerance::SAME;

/// What stands on one line: pieces, and where each begins.
#[derive(Debug, Default)]
struct Row {
    pieces: Vec<(f64, Piece)>,
    /// How far it reaches, a space at the end included.
    end: f64,
}

/// A line of words in as many lines as its width takes, flush left.
pub(super) fn set<'a>(faces: &Faces, line: &Line, style: Style, wide: f64, of: Of) -> Block<'a> {
    let mut block = Block::default();
    for (row, y) in rows(faces, &words(line, style), style, wide).into_iter().zip(tops(style.leading)) {
        for (x, piece) in row.pieces {
            put(&mut block, faces, piece, [x, y], style, of);
        }
        block.height = y + style.leading;
    }
    block
}

/// How wide it is on one line.
pub(super) fn on_one(faces: &Faces, line: &Line, style: Style) -> f64 {
    let wide = |row: &Row| row.pieces.last().map_or(0.0, |(x, piece)| x + width_seen(faces, piece, style.size));
    rows(faces, &words(line, style), style, f64::INFINITY).first().map_or(0.0, wide)
}

/// The widest of its words.
pub(super) fn widest(faces: &Faces, line: &Line, style: Style) -> f64 {
    words(line, style).iter().map(|word| word_width(faces, word, style.size)).fold(0.0, f64::max)
}

#[allow(clippy::cast_precision_loss, reason = "no page has that many lines")]
fn tops(leading: f64) -> impl Iterator<Item = f64> {
    (0_u32..).map(move |number| f64::from(number) * leading)
}

fn word_width(faces: &Faces, word: &Word, size: f64) -> f64 {
    word.pieces.iter().map(|piece| width(faces, piece, size)).sum()
}

fn width_seen(faces: &Faces, piece: &Piece, size: f64) -> f64 {
    let text = piece.text.trim_end_matches(' ').to_owned();
    width(faces, &Piece { text, ..piece.clone() }, size)
}

fn rows(faces: &Faces, words: &[Word], style: Style, wide: f64) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    let mut row = Row::default();
    // A hair more room than is measured, so that what just fits does.
    let room = wide + SAME;
    for word in words.iter().flat_map(|word| fitting(faces, word, style.size, room)) {
        if !row.pieces.is_empty() && row.end + word_width(faces, &word, style.size) > room {
            rows.push(std::mem::take(&mut row));
        }
        for piece in word.pieces {
            join(&mut row, faces, piece, style.size);
        }
        if word.space {
            join(&mut row, faces, Piece { text: " ".into(), bold: style.bold, framed: false }, style.size);
        }
    }
    if !row.pieces.is_empty() {
        rows.push(row);
    }
    rows
}

/// Adds a piece to a row; what looks the same is one run.
fn join(row: &mut Row, faces: &Faces, piece: Piece, size: f64) {
    let wide = width(faces, &piece, size);
    match row.pieces.last_mut() {
        Some((_, last)) if last.bold == piece.bold && !last.framed && !piece.framed => last.text.push_str(&piece.text),
        _ => row.pieces.push((row.end, piece)),
    }
    row.end += wide;
}

/// A word that is wider than a line, parted between any two letters; others as they are.
fn fitting(faces: &Faces, word: &Word, size: f64, room: f64) -> Vec<Word> {
    if word_width(faces, word, size) <= room {
        return vec![word.clone()];
    }
    let (mut parts, mut part, mut wide) = (Vec::new(), Word::default(), 0.0);
    for piece in &word.pieces {
        for letter in piece.text.chars() {
            // A letter's box that is too long for a line is set as words.
            let one = Piece { text: letter.into(), bold: piece.bold, framed: false };
            let step = width(faces, &one, size);
            if wide + step > room && wide > 0.0 {
                parts.push(std::mem::take(&mut part));
                wide = 0.0;
            }
            wide += step;
            match part.pieces.last_mut() {
                Some(last) if last.bold == one.bold => last.text.push(letter),
                _ => part.pieces.push(one),
            }
        }
    }
    part.space = word.space;
    parts.push(part);
    parts
}

fn put(block: &mut Block<'_>, faces: &Faces, piece: Piece, [x, y]: [f64; 2], style: Style, of: Of) {
    let Style { size, leading, soft, .. } = style;
    let wide = width_seen(faces, &piece, size);
    let letters = |text: String, x: f64, width: f64| Placed {
        what: What::Words { text, size, bold: piece.bold, soft, width },
        of,
        x,
        y,
        width,
        height: leading,
    };
    if piece.framed {
        let high = size * 1.24;
        let frame = What::Frame { line: (size * 0.09).max(0.2) };
        block.placed.push(Placed { what: frame, of, x, y: y + (leading - high) / 2.0, width: wide, height: high });
        let own = faces.bold.width(&piece.text, size);
        block.placed.push(letters(piece.text, x + (wide - own) / 2.0, own));
    } else {
        block.placed.push(letters(piece.text.clone(), x, wide));
    }
}
