// SPDX-License-Identifier: MIT
//! Words on pictures: how wide they stand, how fractions are set, and how labels keep off each other.

use crate::contour::{Point, Rect, Vec2};

/// Advance of the bundled font's letters from the space to the tilde, in 2048ths of the em.
const WIDTHS: [u16; 95] = [
    651, 821, 942, 1716, 1303, 1946, 1597, 563, 799, 799, 1024, 1716, 651, 739, 651, 690, 1303, 1303, 1303, 1303, 1303,
    1303, 1303, 1303, 1303, 1303, 690, 690, 1716, 1716, 1716, 1087, 2048, 1401, 1405, 1430, 1577, 1294, 1178, 1587,
    1540, 604, 604, 1343, 1141, 1767, 1532, 1612, 1235, 1612, 1423, 1300, 1251, 1499, 1401, 2025, 1403, 1251, 1403,
    799, 690, 799, 1716, 1024, 1024, 1255, 1300, 1126, 1300, 1260, 721, 1300, 1298, 569, 569, 1186, 569, 1995, 1298,
    1253, 1300, 1300, 842, 1067, 803, 1298, 1212, 1675, 1212, 1212, 1075, 1303, 690, 1303, 1716,
];

/// Fractions that the font has as one letter.
const WHOLE: [(&str, char); 9] = [
    ("1/2", '½'),
    ("1/4", '¼'),
    ("3/4", '¾'),
    ("1/8", '⅛'),
    ("3/8", '⅜'),
    ("5/8", '⅝'),
    ("7/8", '⅞'),
    ("1/3", '⅓'),
    ("2/3", '⅔'),
];

/// How wide words stand in the bundled font, mm.
///
/// ```
/// // Four figures of 1303 2048ths of the em.
/// assert!((hingeleaf::picture::measure("1984", 10.0) - 4.0 * 6.3623).abs() < 0.001);
/// ```
#[must_use]
pub fn measure(text: &str, size: f64) -> f64 {
    let letter = |letter: char| match letter {
        ' '..='~' => WIDTHS.get(letter as usize - 32).copied().unwrap_or(1303),
        '\u{a0}' => 651,
        '\u{2009}' | '\u{202f}' => 409,
        '×' => 1716,
        '…' => 2048,
        '½' | '¼' | '¾' | '⅛' | '⅜' | '⅝' | '⅞' | '⅓' | '⅔' => 1985,
        // None of the others is wider.
        _ => 2191,
    };
    text.chars().map(|one| f64::from(letter(one))).sum::<f64>() / 2048.0 * size
}

/// The box that words about a point take up, mm: their width, and the height of capitals with a little air.
#[must_use]
pub fn words_box(at: Point, size: f64, text: &str, upwards: bool) -> Rect {
    let (along, across) = (measure(text, size) / 2.0, size * 0.45);
    let half = if upwards { Vec2::new(across, along) } else { Vec2::new(along, across) };
    Rect::from_points(at - half, at + half)
}

/// A size as it is set: fractions as one letter where the font has it, a thin space before the unit. (A fraction slash between
/// plain figures runs into them, so others keep their slash.)
///
/// ```
/// use hingeleaf::picture::set;
/// assert_eq!(set("6 1/4 in"), "6¼\u{2009}in");
/// assert_eq!(set("7 5/16 in"), "7\u{2009}5/16\u{2009}in");
/// assert_eq!(set("148 mm"), "148\u{2009}mm");
/// assert_eq!(set("3/8"), "⅜");
/// ```
#[must_use]
pub fn set(text: &str) -> String {
    let mut out = String::new();
    for (index, word) in text.split(' ').enumerate() {
        let whole = WHOLE.iter().find(|(written, _)| *written == word);
        let after_figure = out.ends_with(|last: char| last.is_ascii_digit());
        let fraction = word.split_once('/').is_some_and(|(over, under)| {
            let figures = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
            figures(over) && figures(under)
        });
        let unit = matches!(word, "in" | "mm" | "cm");
        if index > 0 && !(whole.is_some() && after_figure) {
            out.push(if fraction || unit { '\u{2009}' } else { ' ' });
        }
        match whole {
            Some((_, letter)) => out.push(*letter),
            None => out.push_str(word),
        }
    }
    out
}

/// Where labels stand so that none touches its neighbour: each as near as can be to where it is wanted.
///
/// `wanted` rises; `half` is half of each one's room. Those that would touch stand side by side about their common middle.
pub(super) fn spread(wanted: &[f64], half: &[f64]) -> Vec<f64> {
    // Blocks of labels that touch: how many, where the first one is wanted in the mean, and the block's length so far.
    struct LabelBlock {
        first: usize,
        count: usize,
        sum: f64,
    }
    // Taken off each label is what stands between it and the very first, so that side by side is equal.
    let mut run = 0.0;
    let offsets: Vec<f64> = (0..wanted.len())
        .map(|index| {
            if index > 0 {
                run += half.get(index - 1).copied().unwrap_or(0.0) + half.get(index).copied().unwrap_or(0.0);
            }
            run
        })
        .collect();
    #[allow(clippy::cast_precision_loss, reason = "a picture has few labels")]
    let mean = |block: &LabelBlock| block.sum / block.count as f64;
    let mut blocks: Vec<LabelBlock> = Vec::new();
    for (index, (at, offset)) in wanted.iter().zip(&offsets).enumerate() {
        let mut block = LabelBlock { first: index, count: 1, sum: at - offset };
        while let Some(before) = blocks.pop_if(|before| mean(before) > mean(&block)) {
            block = LabelBlock { first: before.first, count: before.count + block.count, sum: before.sum + block.sum };
        }
        blocks.push(block);
    }
    let mut places = Vec::with_capacity(wanted.len());
    for block in &blocks {
        let here = mean(block);
        places.extend(offsets.iter().skip(block.first).take(block.count).map(|offset| here + offset));
    }
    places
}

/// A text in lines that are no wider than there is room, broken between words.
#[must_use]
pub fn wrapped(text: &str, size: f64, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split(' ') {
        match lines.last_mut() {
            Some(line) if measure(line, size) + measure(" ", size) + measure(word, size) <= room => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::spread;

    /// Two labels that would touch move apart by the same way each; a third one far off stays.
    #[test]
    fn labels_that_touch_share_the_way() {
        assert_eq!(spread(&[10.0, 12.0, 40.0], &[3.0, 3.0, 3.0]), [8.0, 14.0, 40.0]);
        assert_eq!(spread(&[0.0, 10.0], &[2.0, 3.0]), [0.0, 10.0]);
        assert!(spread(&[], &[]).is_empty());
    }
}
