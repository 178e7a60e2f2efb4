// SPDX-License-Identifier: MIT
//! The numbered colours of DXF.

/// The three parts of `#RRGGBB`.
pub(crate) fn colour_parts(code: &str) -> Option<[u8; 3]> {
    let number = u32::from_str_radix(code.strip_prefix('#')?, 16).ok()?;
    let [_, red, green, blue] = number.to_be_bytes();
    Some([red, green, blue])
}

/// The numbered colour nearest to one of our own, the lowest number where several are as near.
///
/// 1 to 7 are red, yellow, green, cyan, blue, magenta and black or white (published DXF Reference, group 62). From 10
/// on they are 24 hues, 15 degrees apart, each in five steps of lightness, full and half saturated (from memory;
/// an open reader's table, `ezdxf`, has 219 of these 240 and 21 dark ones that break its own rows, seen).
/// The palette's own mark colour keeps 6, the neighbour by name rather than by numbers.
pub(crate) fn nearest_index(code: &str) -> u8 {
    let Some(wanted) = colour_parts(code) else { return 7 };
    if wanted == [204, 121, 167] {
        return 6;
    }
    let apart =
        |one: [u8; 3]| -> u32 { one.iter().zip(wanted).map(|(one, two)| u32::from(one.abs_diff(two)).pow(2)).sum() };
    let named = [[255, 0, 0], [255, 255, 0], [0, 255, 0], [0, 255, 255], [0, 0, 255], [255, 0, 255], [0, 0, 0]];
    let named = (1..).zip(named).chain([(7, [255, 255, 255])]);
    let hues = (10..=249).map(|index| (index, hue(index)));
    named.chain(hues).min_by_key(|&(index, colour)| (apart(colour), index)).map_or(7, |(index, _)| index)
}

/// The colour of an index from 10 to 249.
fn hue(index: u8) -> [u8; 3] {
    let turn = f64::from(index / 10 - 1) * 15.0;
    let light = [1.0, 0.65, 0.5, 0.3, 0.15][usize::from(index % 10 / 2)];
    let floor = if index % 2 == 1 { 0.5 } else { 0.0 };
    // The share of a primary that stands at 0, 120 or 240 degrees: whole within 60 degrees of it, none beyond 120.
    let share = |at: f64| {
        let away = (turn - at).rem_euclid(360.0);
        let away = away.min(360.0 - away);
        ((120.0 - away) / 60.0).clamp(0.0, 1.0)
    };
    [0.0, 120.0, 240.0].map(|at| {
        let part: f64 = (floor + (1.0 - floor) * share(at)) * light * 255.0;
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to 255")]
        {
            part as u8
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Published DXF Reference, group 62: 1 red, 2 yellow, 3 green, 4 cyan, 5 blue, 6 magenta, 7 white or black.
    #[test]
    fn the_named_colours_have_their_numbers() {
        let named = ["#FF0000", "#FFFF00", "#00FF00", "#00FFFF", "#0000FF", "#FF00FF", "#000000"];
        assert_eq!(named.map(nearest_index), [1, 2, 3, 4, 5, 6, 7]);
        assert_eq!(nearest_index("#FFFFFF"), 7);
    }

    #[test]
    fn the_palette_keeps_three_different_numbers() {
        assert_eq!(["#000000", "#E69F00", "#CC79A7"].map(nearest_index), [7, 30, 6]);
    }
}
