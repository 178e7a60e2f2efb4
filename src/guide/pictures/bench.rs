// SPDX-License-Identifier: MIT
//! A piece at the trimmer's stop, and a part at the scoring board's fence.
//!
//! ```text
//!  stop              blade                 fence
//!   ||+---------+------|---------+          ||+-----¦--¦-------------+
//!   |||    A    |  A   |  rest   |          |||     ¦  ¦             |
//!   ||+---------+------|---------+          ||+-----¦--¦-------------+
//!  203.2 o------>                        12  o----->¦  ¦
//!                                        18  o-------->
//! ```

use super::super::cutting;
use super::super::desk::Desk;
use super::super::draw::{Draw, LETTER, THIN, WORDS};
use super::super::list;
use super::super::scoring::{FenceEdge, Scored, Setting};
use super::super::trimmer::{Lying, Thing, TrimStep};
use super::{ROOM, stuff};
use crate::contour::{Contour, Point, Rect};
use crate::length::tolerance::{READ, SAME};
use crate::net::Flat;
use crate::picture::{CARD, CARD_BACK, CUT, FAINT, Fill, INK, Pen, Picture, Tint, measure, words_box};

/// The stop, and the fence.
const BAR: Fill = Fill::Hatched { ground: Tint([255; 3]), line: INK, apart: 12, turn: 45 };
const EDGE: Pen = Pen { width: 0.35, colour: INK, dash: &[] };
/// The blade's way.
const BLADE: Pen = Pen { width: 0.7, colour: INK, dash: &[] };
/// Cuts of the same size that follow.
const NEXT: Pen = Pen { width: 0.35, colour: INK, dash: &[] };
/// Where something is named from outside.
const LEAD: Pen = Pen { width: 0.18, colour: FAINT, dash: &[] };

/// Places of a line that are looked at.
const SAMPLES: u8 = 64;

/// Width of the bar, mm.
const WIDE: f64 = 2.4;

/// A step at the trimmer: the piece at the stop, the blade, what comes off.
pub(in super::super) fn trim(desk: &Desk<'_>, step: &TrimStep) -> Picture {
    let mut draw = Draw::default();
    let axis = usize::from(!step.upright);
    let (long, deep) = (step.piece.size[axis], step.piece.size[1 - axis]);
    let scale = (60.0 / long.max(1.0)).min(36.0 / deep.max(1.0)).min(1.0);
    let (long, deep, stop) = (long * scale, deep * scale, step.stop * scale);
    let each = f64::from(step.cuts()) / f64::from(step.piece.many.max(1));
    let off = (stop * each).min(long);
    draw.rectangle(Rect::new(off, 0.0, long, deep), Some(Fill::Flat(CARD_BACK)), None);
    draw.rectangle(Rect::new(0.0, 0.0, off, deep), Some(Fill::Flat(CARD)), None);
    draw.rectangle(Rect::new(0.0, 0.0, long, deep), None, Some(EDGE));
    bar(&mut draw, deep, &desk.words.text("bench-stop"));
    let mut at = stop;
    while at + stop <= off + SAME && stop > 0.05 {
        at += stop;
        draw.line(Point::new(at, 0.0), Point::new(at, deep), NEXT);
    }
    draw.line(Point::new(stop, -1.5), Point::new(stop, deep + 2.5), BLADE);
    let blade = desk.words.text("bench-blade");
    draw.words(Point::new(stop + 1.4 + measure(&blade, WORDS) / 2.0, deep + 2.4), WORDS, blade, false);
    names(desk, &mut draw, step, (long, deep, stop, off));
    let y = -5.0;
    draw.line(Point::new(0.0, -1.0), Point::new(0.0, y - 1.0), THIN);
    draw.line(Point::new(stop, -1.5), Point::new(stop, y - 1.0), THIN);
    draw.running(Point::new(0.0, y), stop, &desk.measure.own(step.stop));
    draw.picture()
}

/// Names what comes off and what is left: inside where there is room, else above, with a line that leads there.
fn names(desk: &Desk<'_>, draw: &mut Draw, step: &TrimStep, (long, deep, stop, off): (f64, f64, f64, f64)) {
    let name = |lying: &Lying| match lying.is {
        Thing::Part(part, _) => list::mark(&desk.rows, part).to_owned(),
        Thing::Sheet => desk.words.text("bench-rest"),
        _ if lying.is == step.piece.is => desk.words.text("bench-rest"),
        _ => cutting::thing(desk, lying).plain(),
    };
    let mut spaces: Vec<(Rect, String)> = Vec::new();
    let mut left = 0.0;
    for lying in &step.off {
        for _ in 0..(lying.many / step.piece.many.max(1)) {
            spaces.push((Rect::new(left, 0.0, left + stop, deep), name(lying)));
            left += stop;
        }
    }
    if long - off > 0.05 {
        spaces.push((Rect::new(off, 0.0, long, deep), name(&step.rest)));
    }
    let (mut named, mut above): (Vec<String>, Vec<String>) = (Vec::new(), Vec::new());
    for (space, text) in spaces {
        let size = if text.chars().count() < 3 { LETTER } else { WORDS };
        if draw.words_in(space, size, &text) || named.contains(&text) {
            continue;
        }
        let half = measure(&text, WORDS) / 2.0;
        let middle = space.center();
        if space.x0 >= off - SAME {
            // What is left has nothing to its right.
            let at = Point::new(long + 4.0 + half, deep / 2.0);
            draw.line(middle, Point::new(long + 3.2, deep / 2.0), LEAD);
            draw.words(at, WORDS, text.clone(), false);
        } else {
            above.push(text.clone());
        }
        named.push(text);
    }
    if !above.is_empty() {
        // One line leads to the first piece, above the blade's own word; the others lie in the order of their names.
        let (x, top) = (stop / 2.0, deep + 6.4);
        draw.line(Point::new(x, deep * 0.8), Point::new(x, top - WORDS * 0.7), LEAD);
        draw.words(Point::new(x, top), WORDS, above.join(", "), false);
    }
}

/// A part at the fence of the scoring board.
pub(in super::super) fn at_fence(desk: &Desk<'_>, setting: &Setting, scored: &Scored) -> Picture {
    let mut draw = Draw::default();
    let Some(part) = desk.part(scored.part) else { return draw.picture() };
    // A quarter turn counter-clockwise brings the top edge to the left.
    let quarters = u8::from(scored.edge == FenceEdge::Top);
    let flat = part.flat.turned(quarters);
    let numbers = setting.at.iter().map(|at| measure(&desk.measure.own(*at), WORDS)).fold(0.0, f64::max);
    let scale = ((ROOM.0 - numbers - 4.0) / flat.width).min((ROOM.1 - 20.0) / flat.height).min(1.0);
    let small = |contour: &Contour| contour.mapped(|point| Point::new(point.x * scale, point.y * scale));
    let outlines: Vec<Contour> = std::iter::once(&flat.outline).chain(&flat.holes).map(small).collect();
    let turned = |point: Point| {
        let point = crate::contour::turned(point, quarters, (part.flat.width, part.flat.height));
        Point::new(point.x * scale, point.y * scale)
    };
    let fill = stuff(desk, scored.part).flat().mapped(turned);
    draw.contours(outlines.clone(), Some(fill), None);
    let chosen = |x: f64| setting.at.iter().any(|at| (at - x).abs() < READ);
    for score in &flat.scores {
        let ends = [score.from, score.to].map(|point| Point::new(point.x * scale, point.y * scale));
        let now = (score.from.x - score.to.x).abs() < READ && chosen(score.from.x);
        let pen = Pen::fold(score.sense);
        let pen = if now { Pen { width: 0.5, ..pen } } else { Pen { colour: FAINT, ..pen } };
        draw.line(ends[0], ends[1], pen);
    }
    draw.contours(outlines, None, Some(CUT));
    let deep = flat.height * scale;
    bar(&mut draw, deep, &desk.words.text("bench-fence"));
    letter(&mut draw, desk, scored, &flat, scale);
    let lowest = setting.at.len();
    for (row, at) in (1..).zip(&setting.at) {
        let y = f64::from(row).mul_add(-5.2, 0.2);
        draw.line(Point::new(at * scale, -0.8), Point::new(at * scale, y - 1.0), THIN);
        draw.running(Point::new(0.0, y), at * scale, &desk.measure.own(*at));
    }
    #[allow(clippy::cast_precision_loss, reason = "a part has few scores")]
    let foot = lowest as f64 * -5.2 - 0.8;
    draw.line(Point::new(0.0, -0.8), Point::new(0.0, foot), THIN);
    draw.picture()
}

/// The part's letter in the widest space between scores, off holes; beside the part where there is none.
fn letter(draw: &mut Draw, desk: &Desk<'_>, scored: &Scored, flat: &Flat, scale: f64) {
    let (mut across, mut up) = (vec![0.0, flat.width], vec![0.0, flat.height]);
    for score in &flat.scores {
        let level = (score.from.y - score.to.y).abs() < (score.from.x - score.to.x).abs();
        let ends = [score.from, score.to];
        if level { up.extend(ends.map(|end| end.y)) } else { across.extend(ends.map(|end| end.x)) }
    }
    for hole in flat.holes.iter().map(Contour::bounds) {
        up.extend([hole.y0, hole.y1]);
    }
    let ([left, right], [low, high]) = (widest(across), widest(up));
    let text = list::mark(&desk.rows, scored.part);
    let space = Rect::new(left * scale, low * scale, right * scale, high * scale);
    // A slanted edge or score may run through the middle of the space.
    let shown = words_box(space.center(), LETTER, text, false);
    let at = |point: Point| Point::new(point.x * scale, point.y * scale);
    let edges = flat.outline.edges().map(|edge| (edge.from, edge.to));
    let slanted = edges
        .chain(flat.scores.iter().map(|score| (score.from, score.to)))
        .filter(|(from, to)| (from.x - to.x).abs() > READ && (from.y - to.y).abs() > READ)
        .any(|(from, to)| {
            (0..=SAMPLES).any(|part| shown.contains(at(from.lerp(to, f64::from(part) / f64::from(SAMPLES)))))
        });
    if slanted || !draw.words_in(space, LETTER, text) {
        let x = flat.width.mul_add(scale, 2.0) + measure(text, LETTER) / 2.0;
        draw.words(Point::new(x, flat.height * scale / 2.0), LETTER, text, false);
    }
}

/// The widest gap between places.
fn widest(mut places: Vec<f64>) -> [f64; 2] {
    places.sort_by(f64::total_cmp);
    let gaps = places.windows(2).map(|ends| [ends[0], ends[1]]);
    gaps.max_by(|one, two| (one[1] - one[0]).total_cmp(&(two[1] - two[0]))).unwrap_or_default()
}

/// The stop or the fence at the left.
fn bar(draw: &mut Draw, deep: f64, word: &str) {
    let over = 2.0;
    draw.rectangle(Rect::new(-WIDE, -0.2, 0.0, deep + over), Some(BAR), Some(EDGE));
    let half = measure(word, WORDS) / 2.0;
    let (at, upwards) = if 2.0 * half <= deep + over {
        (Point::new(-WIDE - 2.6, deep / 2.0 + 1.0), true)
    } else {
        (Point::new(-WIDE - 1.2 - half, (deep / 2.0).max(1.6)), false)
    };
    draw.words(at, WORDS, word, upwards);
}
