// SPDX-License-Identifier: MIT
//! The album's cross-section: closed, laid open where it lies least flat, and its spine enlarged.
//!
//! ```text
//!      Closed              At the spine
//!      1 2 3 4             (enlarged)
//!      | | | |            ___\_/___
//!    Open between pages 3 and 4
//!    ____________________\_/____________________
//!         pages 1 to 3           page 4
//! ```

mod titles;

use self::titles::{flat, name, names, title, upper};
use super::plate::Plate;
use super::words::measure;
use super::{BOARD, CARD, CUT, FAINT, Fill, INK, Mark, Pen, Picture};
use crate::contour::{Point, Rect, Vec2};
use crate::fit::linkage::{Bar, Opening};
use crate::length::tolerance::{PARALLEL, SAME};

/// Largest width and height of the drawings, mm.
const SHEET: f64 = 400.0;
/// White around everything, mm.
const MARGIN: f64 = 10.0;
/// Height of titles' and of other letters' em, mm.
const TITLE: f64 = 5.0;
const SMALL: f64 = 3.4;
/// How much larger the spine is drawn, at most.
const LARGER: f64 = 5.0;
/// Drawn sizes over true ones, the largest that fits is taken.
const SCALES: [(f64, &str); 7] = [
    (1.0, "drawn at true size"),
    (1.0 / 1.5, "drawn at two thirds of the true size"),
    (0.5, "drawn at half the true size"),
    (1.0 / 3.0, "drawn at a third of the true size"),
    (0.25, "drawn at a quarter of the true size"),
    (0.2, "drawn at a fifth of the true size"),
    (0.1, "drawn at a tenth of the true size"),
];

/// However far an album is out of all measure, it is drawn no smaller.
const SMALLEST_ALBUM: f64 = 1e-18;

const NOTE: &str = "Seen from the tail, ";

const BASE: Pen = Pen { width: 0.5, colour: INK, dash: &[] };
const GUSSET: Pen = Pen { width: 0.25, colour: INK, dash: &[] };
const TABLE: Pen = Pen { width: 0.35, colour: FAINT, dash: &[] };

/// The cross-section seen from the tail, left to right as the pages follow.
///
/// `base` is the width of the base in mm, `closed` the leaves standing on it, `opening` the album laid open, where it
/// has more than one leaf. `show` writes a length in mm as the maker reads it.
#[must_use]
pub fn section(base: f64, closed: &[Bar], opening: Option<&Opening>, show: &dyn Fn(f64) -> String) -> Picture {
    // The linkage keeps to sizes like this.
    let base = if base.is_finite() { base.clamp(0.0, 1e6) } else { 0.0 };
    let drawn = |scale: f64| {
        let mut top = vec![of_closed(base, closed, scale, show)];
        top.extend(opening.and_then(|opening| of_spine(base, opening, scale)));
        (top, opening.map(|opening| of_opening(opening, scale, show)))
    };
    let notes = SCALES.iter().map(|(_, said)| measure(&format!("{NOTE}{said}"), SMALL));
    let widest = notes.fold(0.0, f64::max);
    let size = |top: &[Plate], below: Option<&Plate>| {
        let across: f64 = top.iter().map(Plate::width).sum::<f64>() + 3.0 * MARGIN;
        let (low, high) = levels(top);
        let tall = high - low;
        let below = below.map_or((0.0, 0.0), |plate| (plate.width(), plate.height() + MARGIN));
        let across = across.max(below.0).max(widest);
        (across + 2.0 * MARGIN, tall + below.1 + 2.0 * MARGIN + 2.0 * SMALL)
    };
    let fits = |scale: f64| {
        let (top, below) = drawn(scale);
        let (width, height) = size(&top, below.as_ref());
        width <= SHEET + 0.1 && height <= SHEET + 0.1
    };
    let known = SCALES.into_iter().find(|(scale, _)| fits(*scale));
    // Albums of metres: any scale that fits.
    let (scale, said) = known.unwrap_or_else(|| {
        let halves = (4..64).map(|power| 0.5_f64.powi(power)).find(|scale| fits(*scale));
        (halves.unwrap_or(SMALLEST_ALBUM), "drawn much smaller")
    });
    let (top, below) = drawn(scale);
    let (width, height) = size(&top, below.as_ref());
    let mut picture = Picture { width, height, marks: Vec::new() };
    let note = format!("{NOTE}{said}");
    let at = Point::new(width / 2.0, MARGIN * 0.7);
    picture.marks.push(Mark::Words { at, size: SMALL, text: note, upwards: false });
    let mut floor = MARGIN + 2.0 * SMALL;
    if let Some(plate) = below {
        let tall = plate.height();
        plate.put(&mut picture, Point::new(width / 2.0, floor));
        floor += tall + MARGIN;
    }
    let free = width - top.iter().map(Plate::width).sum::<f64>();
    #[allow(clippy::cast_precision_loss, reason = "one or two")]
    let gap = free / (top.len() as f64 + 1.0);
    let ((low, _), mut x) = (levels(&top), gap);
    for plate in top {
        let (wide, above) = (plate.width(), plate.bounds().y0 - low);
        // All bases stand at the same height.
        plate.put(&mut picture, Point::new(x + wide / 2.0, floor + above));
        x += wide + gap;
    }
    picture
}

/// The lowest and the highest of drawings whose bases stand at the same height.
fn levels(plates: &[Plate]) -> (f64, f64) {
    let bounds = plates.iter().map(Plate::bounds);
    bounds.fold((0.0, 0.0), |(low, high), bounds| (f64::min(low, bounds.y0), f64::max(high, bounds.y1)))
}

/// The leaves standing closed, numbered, with the thickness of the whole.
fn of_closed(base: f64, bars: &[Bar], scale: f64, show: &dyn Fn(f64) -> String) -> Plate {
    let mut plate = Plate::default();
    let ends = [Point::ZERO, Point::new(base, 0.0)];
    drawing(&mut plate, ends, bars, scale, None);
    numbers(&mut plate, bars, scale);
    let edges: Vec<f64> = bars.iter().flat_map(shape).map(|point| point.x).collect();
    let low = edges.iter().copied().fold(f64::INFINITY, f64::min);
    let high = edges.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if low < high {
        let lowest = plate.bounds().y0;
        let ends = [Point::new(low * scale, lowest - 6.0), Point::new(high * scale, lowest - 6.0)];
        for end in ends {
            plate.line([end + Vec2::new(0.0, 4.5), end - Vec2::new(0.0, 1.5)], Pen { width: 0.18, ..GUSSET });
        }
        plate.dimension(ends);
        plate.words(ends[0].midpoint(ends[1]) - Vec2::new(0.0, 1.0 + SMALL), SMALL, show(high - low));
    }
    plate.title(&["Closed".into()], TITLE, SMALL);
    plate
}

/// The pages' numbers above them: all, or every fifth, tenth … where they would run into each other.
fn numbers(plate: &mut Plate, bars: &[Bar], scale: f64) {
    let places: Vec<f64> = bars.iter().filter(|bar| !bar.cover).map(|bar| bar.to.x * scale).collect();
    let room = measure(&places.len().to_string(), SMALL) + 1.8;
    let apart = |step: usize| places.iter().skip(step).zip(&places).all(|(two, one)| two - one >= room);
    let steps = (0..12).flat_map(|power| [1, 5].map(|step| step * 10_usize.pow(power)));
    let step = steps.into_iter().find(|step| apart(*step)).unwrap_or(1);
    let y = plate.bounds().y1 + SMALL * 0.8;
    let first = places.first().copied().unwrap_or_default();
    for (number, &x) in (1..).zip(&places) {
        if number == 1 || (number % step == 0 && x - first >= room) {
            plate.words(Point::new(x, y), SMALL, number.to_string());
        }
    }
}

/// The leaves laid open, on the table.
fn of_opening(opening: &Opening, scale: f64, show: &dyn Fn(f64) -> String) -> Plate {
    let mut plate = Plate::default();
    drawing(&mut plate, opening.base, &opening.bars, scale, None);
    let drawn = plate.bounds();
    let table = [Point::new(drawn.x0 - 6.0, 0.0), Point::new(drawn.x1 + 6.0, 0.0)];
    plate.under(table, TABLE);
    let (left, right) = opening.bars.split_at(opening.between.min(opening.bars.len()));
    for (side, first, out) in [(left, 0, -1.0), (right, left.len(), 1.0)] {
        let Some(lowest) = (if first == 0 { side.first() } else { side.last() }) else { continue };
        let text = names(&opening.bars, first..first + side.len());
        // In the middle of its pages, and clear of the other side's words however small the drawing is.
        let middle = opening.base[0].midpoint(opening.base[1]).x * scale;
        let least = measure(&text, SMALL) / 2.0 + 2.0;
        let out = ((lowest.from.midpoint(lowest.to).x * scale - middle) * out).max(least) * out;
        plate.words(Point::new(middle + out, -1.5 - SMALL), SMALL, text);
    }
    if let Some(bar) = opening.bars.get(opening.leaf)
        && flat(opening).is_none()
    {
        lift(&mut plate, bar, scale, show(opening.lift));
    }
    let mut words = vec![title(opening)];
    words.push(flat(opening).unwrap_or_else(|| {
        let name = upper(&name(&opening.bars, opening.leaf));
        let size = show(opening.lift);
        if opening.slope > 0.0 {
            format!("{name} lifts: its fore-edge stands {size} above its spine edge")
        } else {
            format!("{name} hangs: its fore-edge lies {size} below its spine edge")
        }
    }));
    plate.title(&words, TITLE, SMALL);
    plate
}

/// Where the leaves meet the base, enlarged; none where that would not be much larger.
fn of_spine(base: f64, opening: &Opening, scale: f64) -> Option<Plate> {
    let mut plate = Plate::default();
    let roots = opening.bars.iter().flat_map(|bar| [bar.root, bar.from]).chain(opening.base);
    let mut view: Option<Rect> = None;
    for point in roots {
        let here = Rect::from_points(point, point);
        view = Some(view.map_or(here, |view| view.union(here)));
    }
    let view = view?;
    let thickest = opening.bars.iter().map(|bar| bar.thickness).fold(0.0, f64::max);
    let around = 3.0 + base * 0.05 + thickest;
    let view = Rect { y0: 0.0, y1: view.y1 + thickest / 2.0 + 2.0, x0: view.x0 - around, x1: view.x1 + around };
    // In a space of this size, and never smaller than the rest.
    let larger = (170.0 / view.width()).min(110.0 / view.height()).clamp(scale, scale * LARGER);
    let larger = if larger > 1.0 { (larger * 2.0).floor() / 2.0 } else { larger };
    let times = larger / scale;
    if times < 1.4 {
        return None;
    }
    let frame = Rect::new(view.x0 * larger, view.y0 * larger, view.x1 * larger, view.y1 * larger);
    drawing(&mut plate, opening.base, &opening.bars, larger, Some(frame));
    plate.under([Point::new(frame.x0, 0.0), Point::new(frame.x1, 0.0)], TABLE);
    plate.keep(frame);
    let size = format!("{} times as large", (times * 10.0).round() / 10.0);
    plate.title(&["At the spine".into(), size], TITLE, SMALL);
    Some(plate)
}

/// Base, gussets and leaves; only what lies in `frame`, where there is one.
fn drawing(plate: &mut Plate, base: [Point; 2], bars: &[Bar], scale: f64, frame: Option<Rect>) {
    let shoulders = shoulders(base, bars);
    let block = [base[0], base[1], shoulders[1], shoulders[0]].map(|point| scaled(point, scale));
    if block[0].distance(block[3]) > BASE.width {
        plate.shape(&block, Fill::Flat(CARD), Some(GUSSET));
    }
    for bar in bars {
        let points: Vec<Point> = gusset(shoulders, bar).into_iter().map(|point| scaled(point, scale)).collect();
        plate.polyline(points, GUSSET);
    }
    for bar in bars {
        let mut corners: Vec<Point> = shape(bar).into_iter().map(|point| scaled(point, scale)).collect();
        let outline = Pen { width: (bar.thickness * scale / 4.0).clamp(0.12, CUT.width), ..CUT };
        let fill = Fill::Flat(if bar.cover { BOARD } else { CARD });
        let Some(frame) = frame else {
            plate.shape(&corners, fill, Some(outline));
            continue;
        };
        for (x, keep) in [(frame.x0, 1.0), (frame.x1, -1.0)] {
            corners = clipped(&corners, x, keep);
        }
        if corners.len() < 3 {
            continue;
        }
        plate.shape(&corners, fill, None);
        // No outline where the view ends: the leaf goes on.
        for (index, &one) in corners.iter().enumerate() {
            let two = corners[(index + 1) % corners.len()];
            let ends = [frame.x0, frame.x1].iter().any(|x| (one.x - x).abs() < SAME && (two.x - x).abs() < SAME);
            if !ends {
                plate.line([one, two], outline);
            }
        }
    }
    plate.line([scaled(base[0], scale), scaled(base[1], scale)], BASE);
}

/// The upper corners of what all roots stand on: the base's ends, or higher ones where guards are stuck to a block.
fn shoulders(base: [Point; 2], bars: &[Bar]) -> [Point; 2] {
    let along = if base[0] == base[1] { Vec2::new(1.0, 0.0) } else { (base[1] - base[0]).normalize() };
    let up = Vec2::new(-along.y, along.x);
    let least = bars.iter().map(|bar| (bar.root - base[0]).dot(up)).fold(f64::INFINITY, f64::min);
    if least.is_finite() && least > 0.0 { base.map(|end| end + up * least) } else { base }
}

/// A gusset at its true length: straight where it is taut, over the base's end where that is in its way, else kinked.
fn gusset(base: [Point; 2], bar: &Bar) -> Vec<Point> {
    let (from, to) = (bar.root, bar.from);
    let way = to - from;
    let length = way.hypot();
    for end in base {
        let aside = (end - from).hypot();
        let above = (to - from).cross(end - from) * (end.x - base[0].midpoint(base[1]).x);
        let over = aside > SAME && above > PARALLEL && (end.x - from.x) * (to.x - from.x) > 0.0;
        if over && aside + (to - end).hypot() <= bar.gusset + SAME {
            return vec![from, end, to];
        }
    }
    if length >= bar.gusset - 0.05 {
        return vec![from, to];
    }
    let out = ((bar.gusset - length) * (bar.gusset + length)).max(0.0).sqrt() / 2.0;
    let across = if length > PARALLEL { Vec2::new(-way.y, way.x) / length } else { Vec2::new(0.0, 1.0) };
    let up = if across.y < 0.0 { -across } else { across };
    vec![from, from.midpoint(to) + up * out, to]
}

/// The dimension of a leaf's lift, beyond its fore-edge.
fn lift(plate: &mut Plate, bar: &Bar, scale: f64, text: String) {
    let out = if bar.to.x >= bar.from.x { 1.0 } else { -1.0 };
    let (high, low) = (bar.to.y.max(bar.from.y) * scale, bar.to.y.min(bar.from.y) * scale);
    let bounds = plate.bounds();
    let edge = if out > 0.0 { bounds.x1 } else { bounds.x0 };
    let x = edge + 4.0 * out;
    let thin = Pen { width: 0.18, ..GUSSET };
    let ends = [Point::new(x, low), Point::new(x, high)];
    let fore_edge = bar.to.x * scale;
    plate.under(
        [Point::new(fore_edge + 1.0 * out, bar.to.y * scale), Point::new(x + 1.5 * out, bar.to.y * scale)],
        thin,
    );
    plate.under([Point::new(x - 3.0 * out, bar.from.y * scale), Point::new(x + 1.5 * out, bar.from.y * scale)], thin);
    plate.dimension(ends);
    let half = measure(&text, SMALL) / 2.0;
    plate.words(Point::new(x + (half + 3.0) * out, f64::midpoint(low, high)), SMALL, text);
}

fn scaled(point: Point, scale: f64) -> Point {
    Point::new(point.x * scale, point.y * scale)
}

/// Unit vector from spine edge to fore-edge.
fn along(bar: &Bar) -> Vec2 {
    let way = bar.to - bar.from;
    if way.hypot() > PARALLEL { way.normalize() } else { Vec2::new(0.0, 1.0) }
}

fn shape(bar: &Bar) -> [Point; 4] {
    let along = along(bar);
    let up = Vec2::new(-along.y, along.x) * (bar.thickness / 2.0);
    [bar.from - up, bar.to - up, bar.to + up, bar.from + up]
}

/// What of a convex shape lies to the right of `x` (`keep` 1) or to the left (-1).
fn clipped(corners: &[Point], x: f64, keep: f64) -> Vec<Point> {
    let mut kept = Vec::new();
    for (index, &one) in corners.iter().enumerate() {
        let two = corners[(index + 1) % corners.len()];
        let (from, to) = ((one.x - x) * keep, (two.x - x) * keep);
        if from >= 0.0 {
            kept.push(one);
        }
        if (from < 0.0) != (to < 0.0) {
            kept.push(one.lerp(two, from / (from - to)));
        }
    }
    kept
}
