// SPDX-License-Identifier: MIT
//! The words on a part: lines one below the other, as large as they go into a space, and an arrow beside them.

use super::letters::{Lettering, lettering};
use crate::contour::{Point, Rect};

/// Letters are no taller than this, and no smaller than that, mm: our choice.
const TALLEST: f64 = 4.0;
const SMALLEST: f64 = 1.8;

/// How far words keep from the edges of their space at least, mm.
const CLEAR: f64 = 1.0;

/// What lies beyond a line of capitals, accents and descenders, reaches so far into the room that is kept at most, mm.
const BEYOND: f64 = 0.6;

/// How tall one line is taken to be, and how far the next one is, in capitals.
const LINE: f64 = 1.4;
const PITCH: f64 = 1.9;

/// The words on a part.
#[derive(Clone, Debug, Default)]
pub(super) struct Caption {
    /// What stands above the name.
    title: Option<String>,
    /// The part's name; each copy has its number behind it.
    pub name: String,
    /// What stands below.
    size: Option<String>,
    /// Where they go.
    pub space: Option<Rect>,
    /// How far they keep from the edges of their space.
    pub clear: f64,
    /// On the back: the line about which all of it is turned over.
    pub mirror: Option<f64>,
    /// An arrow towards the head.
    arrow: Vec<Vec<Point>>,
}

impl Caption {
    /// The words as title, name and size, drawn with a pen of this breadth.
    pub(super) fn of([title, name, size]: [Option<String>; 3], pen: f64) -> Self {
        let clear = CLEAR.max(pen + BEYOND);
        Self { title, name: name.unwrap_or_default(), size, clear, ..Self::default() }
    }

    /// The lines of one copy.
    pub(super) fn lines(&self, copy: u32) -> Vec<String> {
        let name = format!("{} {copy}", self.name);
        self.title.iter().cloned().chain([name]).chain(self.size.clone()).collect()
    }

    /// Adds the arrow, where the words find room beside it: they are worth more.
    pub(super) fn add_arrow(&mut self, copies: u32) {
        let Some(space) = self.space else { return };
        let (arrow, rest) = head_arrow(space, self.clear);
        if fits(rest, &self.lines(copies), self.clear).is_some() {
            self.arrow = arrow;
            self.space = Some(rest);
        }
    }

    /// Its strokes on one copy, as they are read.
    pub(super) fn drawn(&self, copy: u32) -> Vec<Vec<Point>> {
        let mut strokes = self.arrow.clone();
        let lines = self.lines(copy);
        let fit = self.space.and_then(|space| fits(space, &lines, self.clear).map(|fit| (space, fit)));
        let Some((space, (height, upwards))) = fit else { return strokes };
        let middle = space.center();
        let mut foot = behind_first(lines.len()) * PITCH * height;
        let all = foot + height;
        for line in &lines {
            let Lettering { strokes: letters, width, .. } = lettering(line, height);
            let place = |point: &Point| {
                let (along, up) = (point.x - width / 2.0, point.y + foot - all / 2.0);
                if upwards {
                    Point::new(middle.x - up, middle.y + along)
                } else {
                    Point::new(middle.x + along, middle.y + up)
                }
            };
            strokes.extend(letters.iter().map(|stroke| stroke.iter().map(place).collect::<Vec<_>>()));
            foot -= PITCH * height;
        }
        strokes
    }
}

/// How many lines stand below the first.
fn behind_first(lines: usize) -> f64 {
    f64::from(u32::try_from(lines.saturating_sub(1)).unwrap_or_default())
}

/// The height at which lines go into a space, and whether upwards.
fn fits(space: Rect, lines: &[String], clear: f64) -> Option<(f64, bool)> {
    let width = lines.iter().map(|line| lettering(line, 1.0).width).fold(0.0, f64::max);
    let tall = behind_first(lines.len()).mul_add(PITCH, LINE);
    let fit = |along: f64, across: f64| ((along - 2.0 * clear) / width).min((across - 2.0 * clear) / tall).min(TALLEST);
    let (level, upright) = (fit(space.width(), space.height()), fit(space.height(), space.width()));
    let best = if level >= upright { (level, false) } else { (upright, true) };
    (best.0 >= SMALLEST).then_some(best)
}

/// The space in which lines stand tallest.
pub(super) fn roomiest<'r>(rects: impl Iterator<Item = &'r Rect>, lines: &[String], clear: f64) -> Option<Rect> {
    let fitting = rects.filter_map(|rect| fits(*rect, lines, clear).map(|(height, _)| (height, *rect)));
    fitting
        .max_by(|one, two| {
            one.0.total_cmp(&two.0).then(two.1.x0.total_cmp(&one.1.x0)).then(two.1.y0.total_cmp(&one.1.y0))
        })
        .map(|(_, rect)| rect)
}

/// An arrow towards the head at one end of a space, and what is left of the space.
fn head_arrow(space: Rect, clear: f64) -> (Vec<Vec<Point>>, Rect) {
    let tall = (space.height() - 2.0 * clear).min(8.0);
    let (wide, barb) = (tall * 0.4, tall * 0.3);
    let room = wide + 3.0 * clear;
    if tall < 3.0 || space.width() < 2.0 * room {
        return (Vec::new(), space);
    }
    let (x, y) = (space.x0 + clear + wide / 2.0, space.center().y - tall / 2.0);
    let tip = Point::new(x, y + tall);
    let barbs = vec![Point::new(x - wide / 2.0, tip.y - barb), tip, Point::new(x + wide / 2.0, tip.y - barb)];
    (vec![vec![Point::new(x, y), tip], barbs], Rect { x0: space.x0 + room, ..space })
}
