// SPDX-License-Identifier: MIT
//! Parts in windows and corners of others: nothing overlaps by true outlines, the gap is kept, no bound promises too much.
//!
//! Outlines are checked as polygons of short chords by ray casting and distances of segments, both worked out here.

use crate::common::instances::{Dice, MM, endless, item, problem};
use crate::common::{cutter, work};
use hingeleaf::contour::{Contour, Corner, Point};
use hingeleaf::layout::{Cuts, Effort, Item, Layout, Placement, Problem, Turns, Unwatched, lay_out, lay_out_for};
use hingeleaf::sheets::hosts;
use hingeleaf::toolpath::{Layer, Stroke, StrokePath};

pub(crate) type Ring = Vec<(f64, f64)>;

/// Millimetres of whole eighths of a micrometre.
#[allow(clippy::cast_precision_loss, reason = "sizes on a sheet are far below 2^52")]
pub(crate) fn mm(eighths: i64) -> f64 {
    eighths as f64 / 8000.0
}

/// Chords of at most a degree or so: a bulge is the tangent of a quarter of the arc's angle.
pub(crate) fn chords(contour: &Contour) -> Ring {
    let vertices = contour.vertices();
    let mut ring = Vec::new();
    for (at, vertex) in vertices.iter().enumerate() {
        let (from, to) = (vertex.at, vertices[(at + 1) % vertices.len()].at);
        ring.push((from.x, from.y));
        if vertex.bulge != 0.0 {
            let half = 2.0 * vertex.bulge.atan();
            let middle = from.midpoint(to);
            // The centre lies square on the chord's middle.
            let off = 0.5 / half.tan();
            let centre = Point::new(middle.x - (to.y - from.y) * off, middle.y + (to.x - from.x) * off);
            for step in 1..60 {
                let angle = 2.0 * half * f64::from(step) / 60.0;
                let (x, y) = (from.x - centre.x, from.y - centre.y);
                ring.push((centre.x + x * angle.cos() - y * angle.sin(), centre.y + x * angle.sin() + y * angle.cos()));
            }
        }
    }
    ring
}

/// The item's rings on the sheet: its outline, then its holes. The box is the outline's, and what it is larger is shared out all round.
fn rings(item: &Item, put: &Placement) -> Vec<Ring> {
    let (width, height) = (mm(item.width), mm(item.height));
    let own = Contour::rectangle(0.0, 0.0, width, height);
    let outline = item.contour.as_ref().unwrap_or(&own);
    let bounds = outline.bounds();
    let half = ((width - bounds.width()) / 2.0, (height - bounds.height()) / 2.0);
    let place = |(x, y): (f64, f64)| {
        let (x, y) = (x - bounds.x0 + half.0, y - bounds.y0 + half.1);
        let (x, y) = match put.turn.degrees() {
            0 => (x, y),
            90 => (height - y, x),
            180 => (width - x, height - y),
            _ => (y, width - x),
        };
        (x + mm(put.x), y + mm(put.y))
    };
    std::iter::once(outline).chain(&item.holes).map(|ring| chords(ring).into_iter().map(place).collect()).collect()
}

fn inside(ring: &Ring, (x, y): (f64, f64)) -> bool {
    let sides = ring.iter().zip(ring.iter().cycle().skip(1));
    let crossed = sides.filter(|(a, b)| (a.1 > y) != (b.1 > y) && x < a.0 + (y - a.1) / (b.1 - a.1) * (b.0 - a.0));
    crossed.count() % 2 == 1
}

fn from_segment(point: (f64, f64), a: (f64, f64), b: (f64, f64)) -> f64 {
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    let share = (((point.0 - a.0) * dx + (point.1 - a.1) * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
    (point.0 - a.0 - share * dx).hypot(point.1 - a.1 - share * dy)
}

/// Farther apart than any gap here, mm.
const FAR: f64 = 5.0;

/// How near two rings come, 0 where they cross; no more than [`FAR`].
pub(crate) fn apart(one: &Ring, other: &Ring) -> f64 {
    let sides = |ring: &Ring| -> Vec<((f64, f64), (f64, f64))> {
        ring.iter().copied().zip(ring.iter().copied().cycle().skip(1)).take(ring.len()).collect()
    };
    let turn = |a: (f64, f64), b: (f64, f64), c: (f64, f64)| (b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0);
    // What is far from the other's box is no nearer to the other.
    let near_box = |ring: &Ring, (a, b): &((f64, f64), (f64, f64))| {
        let beyond = |pick: fn(&(f64, f64)) -> f64| {
            let (low, high) = ring
                .iter()
                .map(pick)
                .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)));
            pick(a).max(pick(b)) < low - FAR || pick(a).min(pick(b)) > high + FAR
        };
        !beyond(|at| at.0) && !beyond(|at| at.1)
    };
    let kept = |ring: &Ring, box_of: &Ring| -> Vec<((f64, f64), (f64, f64))> {
        sides(ring).into_iter().filter(|side| near_box(box_of, side)).collect()
    };
    let (ones, others) = (kept(one, other), kept(other, one));
    let mut least = FAR;
    for &(a, b) in &ones {
        for &(c, d) in &others {
            let crosses = turn(a, b, c) * turn(a, b, d) < -1e-9 && turn(c, d, a) * turn(c, d, b) < -1e-9;
            let near = [from_segment(a, c, d), from_segment(b, c, d), from_segment(c, a, b), from_segment(d, a, b)];
            least = near.into_iter().fold(if crosses { 0.0 } else { least }, f64::min);
        }
    }
    least
}

/// Whether a placed part holds a spot: within its outline, in none of its holes.
fn holds(part: &[Ring], at: (f64, f64)) -> bool {
    inside(&part[0], at) && !part[1..].iter().any(|hole| inside(hole, at))
}

/// Checks everything that a layout promises, and counts parts that lie within a hole of another.
pub(crate) fn checked(problem: &Problem, layout: &Layout) -> usize {
    let mut laid = vec![0_u64; problem.items.len()];
    let mut nested = 0;
    for sheet in &layout.sheets {
        let size = &problem.sheets[sheet.sheet];
        let parts: Vec<(usize, Vec<Ring>)> =
            sheet.placements.iter().map(|put| (put.item, rings(&problem.items[put.item], put))).collect();
        for put in &sheet.placements {
            laid[put.item] += u64::from(sheet.times);
            assert!(problem.items[put.item].turns.allows(put.turn), "a turn that is not allowed");
        }
        for (_, part) in &parts {
            let on = |(x, y): &(f64, f64)| {
                *x > -1e-3 && *y > -1e-3 && *x < mm(size.width) + 1e-3 && *y < mm(size.height) + 1e-3
            };
            assert!(part[0].iter().all(on), "off the sheet");
        }
        for (number, (one, first)) in parts.iter().enumerate() {
            for (other, second) in &parts[number + 1..] {
                // Between paths: the tool's way round each part is in its box.
                let way = |item: &Item| {
                    item.contour.as_ref().map_or(0.0, |outline| mm(item.width) - outline.bounds().width()) / 2.0
                };
                let least = mm(problem.gap) + way(&problem.items[*one]) + way(&problem.items[*other]);
                let near = first.iter().flat_map(|a| second.iter().map(move |b| apart(a, b)));
                let near = near.fold(FAR, f64::min);
                assert!(near > least - 2e-3, "{one} and {other} are {near} apart, not {least}");
                // Neither begins within the other's card; where both fill their boxes up to one line, that line decides nothing.
                assert!(near < 1e-3 || (!holds(first, second[0][0]) && !holds(second, first[0][0])), "one on another");
                let within = |host: &[Ring], guest: &[Ring]| host[1..].iter().any(|hole| inside(hole, guest[0][0]));
                nested += usize::from(within(first, second) || within(second, first));
            }
        }
    }
    for (number, item) in problem.items.iter().enumerate() {
        assert_eq!(laid[number], u64::from(item.count), "copies of item {number}");
    }
    let sheets: u64 = layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum();
    assert!(layout.lower_bound <= sheets, "fewer sheets than possible");
    nested
}

fn sheets(layout: &Layout) -> u64 {
    layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum()
}

/// Whole eighths of a micrometre, as the layout counts.
#[allow(clippy::cast_possible_truncation, reason = "a few hundred millimetres")]
pub(crate) fn eighths(mm: f64) -> i64 {
    (mm * 8000.0).round() as i64
}

/// A frame of so many millimetres with a window in its middle.
fn frame(outer: f64, window: f64, kerf: i64, count: u32) -> Item {
    let edge = (outer - window) / 2.0;
    let side = eighths(outer) + kerf;
    Item {
        contour: Some(Contour::rectangle(0.0, 0.0, outer, outer)),
        holes: vec![Contour::rectangle(edge, edge, window, window).reversed()],
        ..item(side, side, Turns::ANY, count)
    }
}

/// Four squares and three gaps each way: 2 x 57 + 3 x 2 = 120. A hair larger, and only one goes in.
#[test]
fn a_window_is_filled_to_its_gap() {
    for (side, kerf, most) in [(57 * MM, 0, 1), (57 * MM + 1, 0, 2), (57 * MM, 8, 2), (57 * MM - 12, 8, 1)] {
        let items = [frame(200.0, 120.0, kerf, 1), item(side, side, Turns::ANY, 4)];
        let sheets_of = [endless(200 * MM + kerf, 200 * MM + kerf)];
        for effort in [Effort::Low, Effort::Normal] {
            let problem = problem(&items, &sheets_of, 2 * MM, effort);
            let layout = lay_out(&problem, &Unwatched).unwrap();
            let nested = checked(&problem, &layout);
            assert_eq!((sheets(&layout), nested > 1), (most, most == 1), "{side} with {kerf}");
            assert_eq!(layout.lower_bound, 1, "by area alone one sheet would do");
            // A trimmer would have to cut through the frame.
            let cut = lay_out_for(&problem, Cuts::Trimmer, &Unwatched).unwrap();
            assert_eq!(sheets(&cut), 2);
        }
    }
}

/// A cross of 120 with corners of 40 x 40 left over, as of an envelope laid open.
#[test]
fn a_corner_takes_what_goes_into_it() {
    let (a, b, c) = (40.0, 80.0, 120.0);
    let cross = Contour::polygon([
        (a, 0.0),
        (b, 0.0),
        (b, a),
        (c, a),
        (c, b),
        (b, b),
        (b, c),
        (a, c),
        (a, b),
        (0.0, b),
        (0.0, a),
        (a, a),
    ]);
    for (side, most) in [(40 * MM, 1), (40 * MM + 1, 2)] {
        let items = [
            Item { contour: Some(cross.clone()), ..item(120 * MM, 120 * MM, Turns::NONE, 1) },
            item(side, side, Turns::NONE, 4),
        ];
        let sheets_of = [endless(120 * MM, 120 * MM)];
        let problem = problem(&items, &sheets_of, 0, Effort::Normal);
        let layout = lay_out(&problem, &Unwatched).unwrap();
        checked(&problem, &layout);
        assert_eq!(sheets(&layout), most);
    }
}

/// Frames on whole sheets whose windows hold a grid of cards exactly: so many sheets are enough, and no bound may say more.
#[test]
fn no_bound_promises_more_than_full_windows_need() {
    let mut dice = Dice(5);
    for _ in 0..12 {
        let (across, up, gap) = (dice.from(1, 3), dice.from(1, 3), dice.from(0, 3));
        let (width, height) = (dice.from(20, 60), dice.from(20, 60));
        let count = u32::try_from(dice.from(1, 5)).unwrap();
        let window = (across * (width + gap) + gap, up * (height + gap) + gap);
        let (rail, mm) = (dice.from(5, 30), |size: i64| mm(size * MM));
        let outer = (window.0 + 2 * rail, window.1 + 2 * rail);
        let frame = Item {
            contour: Some(Contour::rectangle(0.0, 0.0, mm(outer.0), mm(outer.1))),
            holes: vec![Contour::rectangle(mm(rail), mm(rail), mm(window.0), mm(window.1)).reversed()],
            ..item(outer.0 * MM, outer.1 * MM, Turns::ANY, count)
        };
        let cards = item(width * MM, height * MM, Turns::ANY, count * u32::try_from(across * up).unwrap());
        let (items, sheets_of) = ([frame, cards], [endless(outer.0 * MM, outer.1 * MM)]);
        let problem = problem(&items, &sheets_of, gap * MM, Effort::Normal);
        let layout = lay_out(&problem, &Unwatched).unwrap();
        checked(&problem, &layout);
        assert!(layout.lower_bound <= u64::from(count), "{} promised, {count} do", layout.lower_bound);
        assert_eq!(sheets(&layout), u64::from(count));
    }
}

/// A part of one of many shapes, with or without a window.
fn shaped(dice: &mut Dice, kerf: i64) -> Item {
    let (width, height) = (mm(dice.from(60, 180) * MM), mm(dice.from(60, 180) * MM));
    let least = width.min(height);
    let outline = match dice.from(0, 4) {
        0 => Contour::rectangle(0.0, 0.0, width, height),
        1 => Contour::with_corners((0.0, 0.0), (width, height), [Corner::Rounded(least / 4.0); 4]),
        2 => Contour::polygon([(0.0, 0.0), (width, 0.0), (width * 0.7, height), (width * 0.2, height)]),
        3 => Contour::polygon([
            (0.0, 0.0),
            (width, 0.0),
            (width, height * 0.3),
            (width * 0.3, height * 0.3),
            (width * 0.3, height),
            (0.0, height),
        ]),
        _ => Contour::circle(Point::new(least / 2.0, least / 2.0), least / 2.0),
    };
    let bounds = outline.bounds();
    let hole = match dice.from(0, 3) {
        0 => Some(Contour::circle(bounds.center(), least * 0.28)),
        1 => Some(Contour::rectangle(width * 0.31, least * 0.28, least * 0.3, least * 0.3)),
        2 => Some(Contour::rectangle(width * 0.25, height * 0.25, width * 0.5, height * 0.5)),
        _ => None,
    };
    let sound = |hole: &Contour| !outline.meets(hole) && outline.contains(hole.vertices()[0].at);
    Item {
        holes: hole.filter(sound).map(Contour::clockwise).into_iter().collect(),
        contour: Some(outline),
        ..item(
            eighths(bounds.width()) + kerf,
            eighths(bounds.height()) + kerf,
            turns(dice),
            u32::try_from(dice.from(1, 3)).unwrap(),
        )
    }
}

fn turns(dice: &mut Dice) -> Turns {
    [Turns::ANY, Turns::ANY, Turns::HALF, Turns::NONE][usize::try_from(dice.from(0, 3)).unwrap()]
}

fn hunt(jobs: u64) -> (usize, usize) {
    let (mut with, mut nested) = (0, 0);
    for seed in 0..jobs {
        let mut dice = Dice(seed * 7919 + 1);
        let (kerf, gap) = (dice.from(0, 2) * 800, dice.from(0, 2) * MM);
        let mut items: Vec<Item> = (0..dice.from(1, 3)).map(|_| shaped(&mut dice, kerf)).collect();
        for _ in 0..dice.from(1, 4) {
            let (width, height) = (dice.from(15, 70) * MM, dice.from(15, 70) * MM);
            let outline = Contour::rectangle(0.0, 0.0, mm(width), mm(height));
            let count = u32::try_from(dice.from(3, 12)).unwrap();
            items.push(Item { contour: Some(outline), ..item(width + kerf, height + kerf, turns(&mut dice), count) });
        }
        let sheets_of = [endless(210 * MM, 297 * MM)];
        let effort = if seed % 8 == 3 { Effort::Normal } else { Effort::Low };
        let problem = problem(&items, &sheets_of, gap, effort);
        let layout = lay_out(&problem, &Unwatched).unwrap();
        let found = checked(&problem, &layout);
        with += usize::from(found > 0);
        nested += found;
    }
    (with, nested)
}

/// As many as an everyday run has time for, or as many as `HINGELEAF_WINDOWS` says.
#[test]
fn random_jobs_keep_every_promise() {
    let jobs = std::env::var("HINGELEAF_WINDOWS").ok().and_then(|jobs| jobs.parse().ok()).unwrap_or(12);
    let (with, nested) = hunt(jobs);
    println!("{jobs} jobs, {with} with parts in windows, {nested} parts in windows");
    assert!(with * 6 > usize::try_from(jobs).unwrap(), "windows are hardly used: {with} of {jobs}");
}

#[test]
fn threads_change_nothing() {
    let items =
        [frame(150.0, 100.0, 0, 3), item(48 * MM, 30 * MM, Turns::ANY, 17), item(95 * MM, 20 * MM, Turns::HALF, 6)];
    let sheets_of = [endless(150 * MM, 160 * MM)];
    let run = |threads| lay_out(&Problem { threads, ..problem(&items, &sheets_of, MM, Effort::Normal) }, &Unwatched);
    let one = run(1).unwrap();
    assert!(checked(&problem(&items, &sheets_of, MM, Effort::Normal), &one) > 0);
    for threads in [2, 8] {
        assert_eq!(run(threads).unwrap(), one);
    }
}

/// Two prints' mats with windows of 90 x 130, and tags that go into them.
fn mats(window: bool, (width, height): (u32, u32)) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "stocks": {{ "card": {{ "sheet": "160x200mm", "caliper": 0.3 }},
        "board": {{ "sheet": "A3", "caliper": 0.3 }} }},
        "page": {{ "width": 200, "height": 240, "stock": "board" }}, "pages": [{{ "kind": "pocket" }}, {{ "kind": "pocket" }}],
        "inserts": [{{ "kind": "photo-mat", "print": "100x140mm", "window": {window}, "overlap": 5, "width": 150, "height": 190,
                      "count": 2, "pages": [1, 2], "stock": "card" }},
                    {{ "kind": "tag", "width": {width}, "height": {height}, "count": 2, "pages": [1, 2], "stock": "card" }}] }}"#
    )
}

/// What is in a window is cut first, its own holes before it; who has no window has no such sheet, and hears nothing of one.
#[test]
fn a_part_in_a_window_is_cut_before_the_window() {
    in_windows((60, 90), (0.2, 1.0, 2.0));
    // Without kerf and gap a tag fills its window.
    in_windows((90, 130), (0.0, 0.0, 0.0));
}

fn in_windows(tag: (u32, u32), (kerf, gap, margin): (f64, f64, f64)) {
    let told = |work: &hingeleaf::work::Work| work.findings.iter().filter(|one| one.id == "in-windows").count();
    let with = work(&mats(true, tag), cutter(kerf, gap, margin));
    let mut nested = 0;
    for (sheet, paths) in with.stocks.iter().flat_map(|laid| &laid.sheets).zip(&with.paths) {
        let cuts: Vec<&Stroke> = paths.strokes.iter().filter(|stroke| stroke.layer == Layer::Cut).collect();
        let at = |part: usize, copy: u32| {
            cuts.iter().enumerate().filter(move |(_, cut)| (cut.part, cut.copy) == (part, copy))
        };
        for (placed, host) in sheet.placements.iter().zip(hosts(&with.kit, &sheet.placements)) {
            let Some(host) = host.map(|host| &sheet.placements[host]) else { continue };
            nested += 1;
            let last = at(placed.part, placed.copy).map(|(at, _)| at).max().unwrap();
            let first = at(host.part, host.copy).map(|(at, _)| at).min().unwrap();
            assert!(last < first, "{} after {}", sheet.name, with.kit.parts[host.part].id);
            // Twice the kerf's half and the gap are between the two paths.
            let ring = |at: usize| match &cuts[at].run {
                StrokePath::Closed(contour) => chords(contour),
                _ => panic!("an open cut"),
            };
            assert!(apart(&ring(last), &ring(first)) > gap - 2e-3);
        }
    }
    let count =
        |work: &hingeleaf::work::Work| work.stocks.iter().map(hingeleaf::sheets::StockSheets::count).sum::<u64>();
    let plain = work(&mats(false, tag), cutter(kerf, gap, margin));
    assert!(nested > 0, "no tag lies in a window");
    assert_eq!((told(&with), told(&plain)), (1, 0));
    assert!(count(&with) < count(&plain), "{} and {}", count(&with), count(&plain));
}
