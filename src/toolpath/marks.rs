// SPDX-License-Identifier: MIT
//! The draw layer: names, head arrows, centre lines and glue corners, where they will not show; what kinds draw themselves.

use super::letters::{Lettering, lettering};
use crate::contour::{Contour, Point, Rect, within};
use crate::finding::{Arg, Finding, Said};
use crate::parts::{Hidden, Kit};

/// Where parts may be marked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[non_exhaustive]
pub enum Labels {
    /// On seams, tabs and faces that are glued over.
    #[default]
    Hidden,
    /// On every part, where it shows too.
    Everywhere,
    /// Nowhere.
    None,
}

/// Letters are no taller than this, and no smaller than that, mm: our choice.
const TALLEST: f64 = 4.0;
const SMALLEST: f64 = 1.8;

/// So many parts without a name are named.
const MOST_NAMED: usize = 3;

/// How far marks keep from a panel's edges, mm.
const CLEAR: f64 = 1.0;

/// What is marked on one part, in its frame.
#[derive(Clone, Debug, Default)]
pub(super) struct Marks {
    /// Lines that are the same on every copy.
    lines: Vec<Vec<Point>>,
    /// Where the name goes.
    space: Option<Rect>,
    name: String,
}

/// The marks of every part, whose copies go up to the numbers given, nought where no machine cuts it, and a note about what could not be named.
pub(super) fn marks(kit: &Kit, copies: &[u32], labels: Labels) -> (Vec<Marks>, Option<Finding>) {
    if labels == Labels::None {
        return (vec![Marks::default(); kit.parts.len()], None);
    }
    let hidden = kit.hidden();
    let marks: Vec<Marks> = hidden
        .iter()
        .zip(copies)
        .enumerate()
        .map(|(number, (hidden, copies))| one(kit, number, hidden, *copies, labels))
        .collect();
    let unnamed: Vec<&str> = kit
        .parts
        .iter()
        .zip(copies.iter().zip(&marks))
        .filter(|(part, (copies, marks))| part.count > 0 && **copies > 0 && marks.space.is_none())
        .map(|(part, _)| part.id.as_str())
        .collect();
    (marks, note(&unnamed, labels))
}

fn note(unnamed: &[&str], labels: Labels) -> Option<Finding> {
    if unnamed.is_empty() {
        return None;
    }
    let shown = unnamed.iter().take(MOST_NAMED);
    let rest = (unnamed.len() > MOST_NAMED).then_some(&"…");
    let (text, help) = match labels {
        Labels::Everywhere => ("unnamed-parts-everywhere", "unnamed-parts-everywhere-help"),
        _ => ("unnamed-parts", "unnamed-parts-help"),
    };
    let text = Said::new(text).with("parts", Arg::Row(shown.chain(rest).copied().map(Arg::from).collect()));
    let about = Said::new("about-parts").with("count", unnamed.len());
    Some(Finding::note("unnamed-parts", about, text).help(Said::new(help)))
}

fn one(kit: &Kit, number: usize, hidden: &Hidden, copies: u32, labels: Labels) -> Marks {
    let part = &kit.parts[number];
    let free = |rect: &&Rect| part.flat.holes.iter().all(|hole| hole.bounds().intersect(**rect).area() <= 0.0);
    let mut marks = Marks { name: part.id.clone(), ..Marks::default() };
    // What the kind itself draws.
    marks.lines.extend(part.flat.marks.iter().map(|mark| mark.to_vec()));
    let base = part.net.panels.iter().find(|panel| panel.purpose.is_base()).map(|panel| panel.outline.bounds());
    for &cover in hidden.covered.iter().filter(free) {
        match base {
            // A narrower strip goes on the middle of this one; one just as wide needs no line.
            Some(base) if cover.width() > base.width() - CLEAR => {}
            Some(base) if base.center().x - cover.x0 > CLEAR && cover.x1 - base.center().x > CLEAR => {
                marks.centre_line(base.center().x, cover);
            }
            Some(_) => {}
            None => marks.corners(cover),
        }
    }
    // The name with the longest number that a copy of this part has.
    let longest = format!("{} {copies}", part.id);
    // A seam or tab first; what is glued over else; a face that shows last, and only when asked.
    let panels: Vec<Rect> =
        part.net.panels.iter().map(|panel| below_holes(panel.outline.bounds(), &part.flat.holes)).collect();
    let shown = if labels == Labels::Everywhere { panels.as_slice() } else { &[] };
    let spaces = [&hidden.panels, &hidden.covered, shown];
    let clear = |rect: &&Rect| part.flat.marks.iter().all(|mark| within(*mark, **rect).is_none());
    let unmarked = spaces.iter().find_map(|rects| roomiest(rects.iter().filter(free).filter(clear), &longest));
    // A name over a mark is better than none.
    marks.space = unmarked.or_else(|| spaces.iter().find_map(|rects| roomiest(rects.iter().filter(free), &longest)));
    // Upside down is the same for some parts, and for some it is another piece: no arrow can be right there.
    // Bound at the top, the head is at the part's left.
    let upside_down = part.sideways
        || part.flat.likeness() == part.flat.turned(2).likeness()
        || kit.pieces.iter().any(|piece| piece.part == number && piece.turned);
    if let (Some(space), false) = (marks.space, upside_down) {
        // The name is worth more than the arrow.
        let (arrow, rest) = head_arrow(space);
        if fits(rest, &longest).is_some() {
            marks.lines.extend(arrow);
            marks.space = Some(rest);
        }
    }
    marks
}

impl Marks {
    /// The lines of one copy: those of every copy, and its name and number.
    pub(super) fn of_copy(&self, copy: u32) -> Vec<Vec<Point>> {
        let mut lines = self.lines.clone();
        let text = format!("{} {copy}", self.name);
        if let Some((space, (height, upwards))) =
            self.space.and_then(|space| fits(space, &text).map(|fit| (space, fit)))
        {
            let Lettering { strokes, width, .. } = lettering(&text, height);
            let middle = space.center();
            let place = |point: &Point| {
                let (along, up) = (point.x - width / 2.0, point.y - height / 2.0);
                if upwards {
                    Point::new(middle.x - up, middle.y + along)
                } else {
                    Point::new(middle.x + along, middle.y + up)
                }
            };
            lines.extend(strokes.iter().map(|stroke| stroke.iter().map(place).collect()));
        }
        lines
    }

    /// Short lines at both ends of a strip's middle.
    fn centre_line(&mut self, x: f64, cover: Rect) {
        let long = (cover.height() / 4.0).min(15.0);
        for (from, to) in [(cover.y0 + CLEAR, cover.y0 + CLEAR + long), (cover.y1 - CLEAR, cover.y1 - CLEAR - long)] {
            self.lines.push(vec![Point::new(x, from), Point::new(x, to)]);
        }
    }

    /// The four corners of what is stuck on, just inside it.
    fn corners(&mut self, cover: Rect) {
        let inner = cover.inset(-CLEAR / 2.0);
        let arm = (inner.width().min(inner.height()) / 3.0).min(4.0);
        if arm < 1.0 {
            return;
        }
        for (x, y, right, up) in [
            (inner.x0, inner.y0, 1.0, 1.0),
            (inner.x1, inner.y0, -1.0, 1.0),
            (inner.x1, inner.y1, -1.0, -1.0),
            (inner.x0, inner.y1, 1.0, -1.0),
        ] {
            self.lines.push(vec![Point::new(x + right * arm, y), Point::new(x, y), Point::new(x, y + up * arm)]);
        }
    }
}

/// An arrow towards the head at one end of a space, and what is left of the space.
fn head_arrow(space: Rect) -> (Vec<Vec<Point>>, Rect) {
    let tall = (space.height() - 2.0 * CLEAR).min(8.0);
    let (wide, barb) = (tall * 0.4, tall * 0.3);
    let room = wide + 3.0 * CLEAR;
    if tall < 3.0 || space.width() < 2.0 * room {
        return (Vec::new(), space);
    }
    let (x, y) = (space.x0 + CLEAR + wide / 2.0, space.center().y - tall / 2.0);
    let tip = Point::new(x, y + tall);
    let barbs = vec![Point::new(x - wide / 2.0, tip.y - barb), tip, Point::new(x + wide / 2.0, tip.y - barb)];
    (vec![vec![Point::new(x, y), tip], barbs], Rect { x0: space.x0 + room, ..space })
}

/// The height at which words go into a space, and whether upwards.
fn fits(space: Rect, text: &str) -> Option<(f64, bool)> {
    let width = lettering(text, 1.0).width;
    let fit = |along: f64, across: f64| ((along - 2.0 * CLEAR) / width).min((across - 2.0 * CLEAR) / 1.4).min(TALLEST);
    let (level, upright) = (fit(space.width(), space.height()), fit(space.height(), space.width()));
    let best = if level >= upright { (level, false) } else { (upright, true) };
    (best.0 >= SMALLEST).then_some(best)
}

fn roomiest<'r>(rects: impl Iterator<Item = &'r Rect>, text: &str) -> Option<Rect> {
    let fitting = rects.filter_map(|rect| fits(*rect, text).map(|(height, _)| (height, *rect)));
    fitting
        .max_by(|one, two| {
            one.0.total_cmp(&two.0).then(two.1.x0.total_cmp(&one.1.x0)).then(two.1.y0.total_cmp(&one.1.y0))
        })
        .map(|(_, rect)| rect)
}

/// What of a panel lies below its holes.
fn below_holes(panel: Rect, holes: &[Contour]) -> Rect {
    let lowest = holes.iter().map(|hole| hole.bounds().y0).fold(panel.y1, f64::min);
    Rect { y1: lowest.max(panel.y0), ..panel }
}
