// SPDX-License-Identifier: MIT
//! Parts that are larger than a page, cut into tiles that overlap.

use crate::contour::Rect;
use crate::layout::Turn;
use crate::length::tolerance::SAME;

/// By so much neighbouring tiles overlap, mm: enough for a strip of tape beside the line that they meet on; our choice.
pub(super) const OVERLAP: f64 = 12.0;

/// A tile is not narrower than this, mm, overlap included: it would be lost, or cut off with the overlap; our choice.
const LEAST: f64 = 30.0;

/// The tiles of a part, row by row from its lower left.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Tiles {
    /// From where to where each column reaches, mm.
    pub columns: Vec<[f64; 2]>,
    /// From where to where each row reaches, mm.
    pub rows: Vec<[f64; 2]>,
}

impl Tiles {
    /// The fewest tiles that go on pages with this much room, upright or turned.
    pub(super) fn of((width, height): (f64, f64), (across, up): (f64, f64)) -> Self {
        let upright = Self { columns: along(width, across), rows: along(height, up) };
        let turned = Self { columns: along(width, up), rows: along(height, across) };
        if turned.count() < upright.count() { turned } else { upright }
    }

    pub(super) fn count(&self) -> usize {
        self.columns.len() * self.rows.len()
    }

    /// Each tile: its column, its row, its box on the part.
    pub(super) fn each(&self) -> impl Iterator<Item = (usize, usize, Rect)> + '_ {
        (0..self.rows.len()).flat_map(move |row| {
            (0..self.columns.len()).map(move |column| {
                let ([x0, x1], [y0, y1]) = (self.columns[column], self.rows[row]);
                (column, row, Rect::new(x0, y0, x1, y1))
            })
        })
    }

    /// The number of a tile, from 1.
    pub(super) const fn number(&self, column: usize, row: usize) -> usize {
        row * self.columns.len() + column + 1
    }
}

/// As few tiles as a length takes, the last one what is left, and not too narrow.
fn along(length: f64, room: f64) -> Vec<[f64; 2]> {
    let mut tiles = Vec::new();
    let mut from = 0.0;
    while length - from > room + SAME {
        let left = length - (from + room - OVERLAP);
        // So much less of this one as the last one lacks.
        let to = from + room - (LEAST - left).max(0.0);
        tiles.push([from, to]);
        from = to - OVERLAP;
    }
    tiles.push([from, length]);
    tiles
}

/// Whether a part goes on a page whole.
pub(super) fn whole((width, height): (f64, f64), (across, up): (f64, f64)) -> bool {
    let goes = |width: f64, height: f64| width <= across + SAME && height <= up + SAME;
    goes(width, height) || goes(height, width)
}

/// How many quarter turns a layout gave.
pub(super) const fn quarters(turn: Turn) -> u8 {
    match turn {
        Turn::None => 0,
        Turn::Quarter => 1,
        Turn::Half => 2,
        Turn::ThreeQuarter => 3,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tiles_cover_a_length_and_overlap() {
        for tenths in 10..9000_u32 {
            let (length, room) = (f64::from(tenths) / 10.0, 197.3);
            let tiles = along(length, room);
            assert!(tiles[0][0] == 0.0 && (tiles[tiles.len() - 1][1] - length).abs() < 1e-9);
            for pair in tiles.windows(2) {
                assert!((pair[0][1] - pair[1][0] - OVERLAP).abs() < 1e-9, "{length}: {tiles:?}");
            }
            assert!(tiles.iter().all(|tile| tile[1] - tile[0] <= room + 1e-9), "{length}: {tiles:?}");
            assert!(
                tiles.len() == 1 || tiles.iter().all(|tile| tile[1] - tile[0] >= LEAST - 1e-9),
                "{length}: {tiles:?}"
            );
            // One fewer would not reach.
            let reach = |count: f64| count.mul_add(room - OVERLAP, OVERLAP);
            assert!(tiles.len() == 1 || reach(f64::from(u32::try_from(tiles.len() - 1).unwrap())) < length);
        }
    }
}
