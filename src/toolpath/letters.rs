// SPDX-License-Identifier: MIT
//! Single-stroke letters for the draw layer, accents composed.
//!
//! The table beside this file names those who made the letters.

use crate::contour::Point;
use std::collections::BTreeMap;
use std::sync::LazyLock;
use unicode_normalization::UnicodeNormalization;

/// Height of a capital in the table's units.
const CAPITAL: f64 = 21.0;

/// Height of a small letter in the table's units.
const SMALL: f64 = 14.0;

/// A letter: its width and its strokes.
struct Letter {
    width: f64,
    strokes: Vec<Vec<(f64, f64)>>,
}

static LETTERS: LazyLock<BTreeMap<char, Letter>> = LazyLock::new(|| {
    let lines = include_str!("letters.txt").lines();
    lines.filter_map(letter).collect()
});

/// One line of the table; the space has no strokes, and remarks begin with `# `.
fn letter(line: &str) -> Option<(char, Letter)> {
    let mut rest = line.chars();
    let character = rest.next()?;
    let mut words = rest.as_str().strip_prefix(' ')?.splitn(2, ' ');
    let width = words.next()?.parse().ok()?;
    let point = |text: &str| text.split_once(',').and_then(|(x, y)| Some((x.parse().ok()?, y.parse().ok()?)));
    let stroke = |text: &str| text.split_whitespace().filter_map(point).collect::<Vec<_>>();
    let strokes = words.next().map(|text| text.split(" / ").map(stroke).collect()).unwrap_or_default();
    Some((character, Letter { width, strokes }))
}

/// One stroke of an accent.
type AccentStroke = &'static [(f64, f64)];

/// An accent's strokes: x from the letter's middle, y from the top of the letter (or, below, from its foot).
fn accent(mark: char) -> Option<(bool, &'static [AccentStroke])> {
    Some(match mark {
        '\u{300}' => (true, &[&[(-2.0, 6.0), (1.0, 2.5)]]),
        '\u{301}' => (true, &[&[(2.0, 6.0), (-1.0, 2.5)]]),
        '\u{302}' => (true, &[&[(-3.0, 2.5), (0.0, 6.0), (3.0, 2.5)]]),
        '\u{303}' => (true, &[&[(-4.0, 3.0), (-2.5, 4.5), (2.5, 3.0), (4.0, 4.5)]]),
        '\u{304}' => (true, &[&[(-3.5, 4.0), (3.5, 4.0)]]),
        '\u{306}' => (true, &[&[(-3.0, 5.5), (-1.5, 3.0), (1.5, 3.0), (3.0, 5.5)]]),
        '\u{307}' => (true, &[&[(0.0, 3.0), (0.0, 4.0)]]),
        '\u{308}' => (true, &[&[(-3.0, 3.0), (-3.0, 4.0)], &[(3.0, 3.0), (3.0, 4.0)]]),
        '\u{30a}' => (true, &[&[(0.0, 2.0), (2.0, 4.0), (0.0, 6.0), (-2.0, 4.0), (0.0, 2.0)]]),
        '\u{30b}' => (true, &[&[(-0.5, 6.0), (-3.0, 2.5)], &[(3.5, 6.0), (1.0, 2.5)]]),
        '\u{30c}' => (true, &[&[(-3.0, 6.0), (0.0, 2.5), (3.0, 6.0)]]),
        '\u{327}' => (false, &[&[(0.5, 0.0), (0.0, -1.5), (1.5, -3.0), (0.5, -4.5), (-1.5, -4.5)]]),
        '\u{328}' => (false, &[&[(1.0, 0.0), (0.0, -2.0), (0.5, -4.0), (2.0, -4.0)]]),
        _ => return None,
    })
}

/// Letters without a decomposition, and what stands for them.
fn plain(character: char) -> Option<&'static str> {
    Some(match character {
        'æ' => "ae",
        'Æ' => "AE",
        'œ' => "oe",
        'Œ' => "OE",
        '–' | '—' => "-",
        '‘' | '’' => "'",
        '“' | '”' => "\"",
        '×' => "x",
        '\u{a0}' | '\u{2009}' | '\u{202f}' => " ",
        _ => return None,
    })
}

/// Words as strokes, their first letter's foot at the origin, y up.
#[derive(Clone, Debug, Default)]
#[non_exhaustive]
pub struct Lettering {
    /// Lines through points, mm.
    pub strokes: Vec<Vec<Point>>,
    /// Width, mm.
    pub width: f64,
    /// Characters that could not be drawn.
    pub missing: Vec<char>,
}

/// Draws words with capitals `height` millimetres tall.
///
/// ```
/// use hingeleaf::toolpath::lettering;
/// let word = lettering("Fächer 2", 4.0);
/// assert!(word.missing.is_empty());
/// assert_eq!(lettering("☂", 4.0).missing, ['☂']);
/// ```
#[must_use]
pub fn lettering(text: &str, height: f64) -> Lettering {
    let scale = height / CAPITAL;
    let mut drawn = Lettering::default();
    let mut at = 0.0;
    // The letter that an accent belongs to: its left edge, width, and whether it is a small one.
    let mut base = (0.0, 0.0, false);
    let spelt: String = text.chars().map(|c| plain(c).map_or_else(|| c.to_string(), ToOwned::to_owned)).collect();
    let mut characters = spelt.nfd().peekable();
    while let Some(mut character) = characters.next() {
        // An accent above stands in place of the dot.
        let dotted =
            character == 'i' && characters.peek().and_then(|next| accent(*next)).is_some_and(|(above, _)| above);
        if dotted {
            character = 'ı';
        }
        if let Some(letter) = LETTERS.get(&character) {
            base = (at, letter.width, character.is_lowercase() && !"bdfhklt".contains(character));
            drawn.add(&letter.strokes, (at, 0.0), scale);
            at += letter.width;
        } else if let Some((above, strokes)) = accent(character) {
            let top = if base.2 { SMALL } else { CAPITAL };
            let strokes: Vec<Vec<(f64, f64)>> = strokes.iter().map(|stroke| stroke.to_vec()).collect();
            drawn.add(&strokes, (base.0 + base.1 / 2.0, if above { top } else { 0.0 }), scale);
        } else if !drawn.missing.contains(&character) {
            drawn.missing.push(character);
        }
    }
    drawn.width = at * scale;
    drawn
}

impl Lettering {
    fn add(&mut self, strokes: &[Vec<(f64, f64)>], (x, y): (f64, f64), scale: f64) {
        let place = |&(dx, dy): &(f64, f64)| Point::new((x + dx) * scale, (y + dy) * scale);
        self.strokes
            .extend(strokes.iter().filter(|stroke| stroke.len() > 1).map(|stroke| stroke.iter().map(place).collect()));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_holds_every_printable_ascii_character() {
        let missing: String = (' '..='~').filter(|c| !LETTERS.contains_key(c)).collect();
        assert_eq!(missing, "");
        assert!(('!'..='~').all(|c| LETTERS[&c].strokes.iter().all(|stroke| stroke.len() > 1)));
    }

    /// The letters of the alphabets that the Unicode CLDR's exemplar sets list for these languages, beyond those of English.
    #[test]
    fn languages_around_have_their_letters_each_its_own() {
        for (language, letters) in [
            ("de", "äöüßÄÖÜẞ"),
            ("fr", "àâæçéèêëîïôœùûüÿÀÂÆÇÉÈÊËÎÏÔŒÙÛÜŸ"),
            ("es", "áéíñóúü¡¿ÁÉÍÑÓÚÜ"),
            ("pl", "ąćęłńóśźżĄĆĘŁŃÓŚŹŻ"),
            ("cs", "áčďéěíňóřšťúůýžÁČĎÉĚÍŇÓŘŠŤÚŮÝŽ"),
            ("da", "åøÅØ"),
        ] {
            assert_eq!(lettering(letters, 4.0).missing, Vec::<char>::new(), "{language}");
            let mut drawn: Vec<String> =
                letters.chars().map(|one| format!("{:?}", lettering(&one.to_string(), 21.0).strokes)).collect();
            drawn.sort();
            drawn.dedup();
            assert_eq!(drawn.len(), letters.chars().count(), "{language}: two letters are drawn alike");
        }
    }

    #[test]
    fn capitals_are_as_tall_as_asked() {
        for letter in ["H", "T", "X"] {
            let top = lettering(letter, 5.0).strokes.iter().flatten().map(|point| point.y).fold(0.0, f64::max);
            assert!((top - 5.0).abs() < 1e-9, "{letter}: {top}");
        }
    }

    #[test]
    fn umlauts_are_the_letter_and_two_strokes_more() {
        let count = |text| lettering(text, 4.0).strokes.len();
        assert_eq!(count("Ä"), count("A") + 2);
        // The acute takes the place of the dot.
        assert_eq!(count("í"), count("i"));
        assert_eq!(count("u\u{308}"), count("u") + 2);
        assert_eq!(lettering("ü", 4.0).width.to_bits(), lettering("u", 4.0).width.to_bits());
    }
}
