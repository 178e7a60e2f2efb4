// SPDX-License-Identifier: MIT
//! The bundled font as pages take it: how wide words stand in it, and the letters of a line of text.
//!
//! Letters stand side by side by their own widths, without kerning, so that what is measured is what is drawn.

use super::points::points;
use super::sound::failed;
use crate::write::font::{BOLD, LETTERS};
use krilla::geom::Point;
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};
use std::borrow::Cow;
use std::io;
use std::sync::LazyLock;
use unicode_normalization::{UnicodeNormalization, is_nfc};

/// Both cuts.
pub(in crate::write) struct FontFaces {
    /// For words.
    pub(in crate::write) plain: FontFace,
    /// For what is to be seen first.
    pub(in crate::write) bold: FontFace,
}

/// One cut of the font.
pub(in crate::write) struct FontFace {
    font: Font,
    letters: ttf_parser::Face<'static>,
}

static BUNDLED: LazyLock<Option<FontFaces>> =
    LazyLock::new(|| Some(FontFaces { plain: FontFace::read(LETTERS)?, bold: FontFace::read(BOLD)? }));

impl FontFaces {
    /// The bundled font's.
    pub(in crate::write) fn bundled() -> io::Result<&'static Self> {
        BUNDLED.as_ref().ok_or_else(|| failed("its font can't be read"))
    }
}

impl FontFace {
    fn read(file: &'static [u8]) -> Option<Self> {
        Some(Self { font: Font::new(file.into(), 0)?, letters: ttf_parser::Face::parse(file, 0).ok()? })
    }

    /// A letter's glyph, the box for missing ones where the font has it not, and its advance in ems.
    fn glyph(&self, letter: char) -> (u16, f32) {
        let glyph = self.letters.glyph_index(letter).unwrap_or_default();
        let advance = self.letters.glyph_hor_advance(glyph).unwrap_or_default();
        (glyph.0, f32::from(advance) / f32::from(self.letters.units_per_em()))
    }

    /// How wide words stand, in the unit of their size.
    pub(in crate::write) fn width(&self, text: &str, size: f64) -> f64 {
        composed(text).chars().map(|letter| f64::from(self.glyph(letter).1)).sum::<f64>() * size
    }

    /// Draws words from a point on their base line, all in points.
    pub(in crate::write) fn draw(&self, surface: &mut Surface<'_>, from: Point, size: f32, text: &str) {
        let text = composed(text);
        let letter = |(at, letter): (usize, char)| {
            let (glyph, advance) = self.glyph(letter);
            KrillaGlyph::new(GlyphId::new(glyph.into()), advance, 0.0, 0.0, 0.0, at..at + letter.len_utf8(), None)
        };
        let glyphs: Vec<KrillaGlyph> = text.char_indices().map(letter).collect();
        if !glyphs.is_empty() {
            surface.draw_glyphs(from, &glyphs, self.font.clone(), &text, size, false);
        }
    }

    /// The same in millimetres, centred on a point.
    pub(super) fn centred(&self, surface: &mut Surface<'_>, (x, y): (f32, f32), size: f64, text: &str) {
        // Letters begin half their width before the middle, a third of the em below it.
        let from = Point::from_xy(x - points(self.width(text, size) / 2.0), y + points(size * 0.36));
        self.draw(surface, from, points(size), text);
    }
}

/// Letters with their accents as the font has them: as one.
fn composed(text: &str) -> Cow<'_, str> {
    if is_nfc(text) { Cow::Borrowed(text) } else { Cow::Owned(text.nfc().collect()) }
}
