// SPDX-License-Identifier: MIT
//! Clip, round, punch: parts that are more than rectangles.

use super::bites::{self, Bite, Cut, Rim};
use super::bits::{Block, Figure, Section, Step};
use super::desk::Desk;
use super::line::{Line, What};
use super::list::Row;
use super::measure;
use super::pictures;
use super::told::Told;
use crate::album::FinishWord;
use crate::contour::{Contour, Point, slot};
use crate::length::tolerance::READ;
use crate::parts::Part;

/// Holes narrower than this are pierced, not punched, mm: our choice.
pub(super) const PUNCHED: f64 = 3.0;

/// Holes wider than this are drawn with a compass and cut, not punched, mm: our choice.
pub(super) const WIDEST_PUNCH: f64 = 12.0;

pub(super) fn section(desk: &Desk<'_>) -> Option<Section> {
    let mut steps: Vec<(Step, Vec<&Row>)> = Vec::new();
    for row in desk.rows.iter().filter(|row| row.shaped && desk.cuts(row.part)) {
        let Some(step) = step(desk, row.part) else { continue };
        let words = |step: &Step| step.lines.iter().map(Line::plain).collect::<Vec<_>>();
        // What its picture alone shows is like nothing else.
        let own = |part: usize| {
            let outline = desk.part(part).map(|part| &part.flat.outline);
            outline.is_some_and(|outline| bites::bites(outline).iter().any(|bite| bite.cut == Cut::Other))
        };
        let like = |(one, _): &&mut (Step, Vec<&Row>)| words(one) == words(&step) && !own(row.part);
        match steps.iter_mut().find(like) {
            Some((one, rows)) => {
                one.of.extend(step.of);
                rows.push(row);
            }
            None => steps.push((step, vec![row])),
        }
    }
    if steps.is_empty() {
        return None;
    }
    let named = |(mut step, rows): (Step, Vec<&Row>)| {
        let (head, more) = desk.several(&rows, "shape-head", "shape-heads");
        step.head = head;
        step.lines.splice(0..0, more);
        step
    };
    let steps = steps.into_iter().map(named).collect();
    let blocks = vec![Block::Words(desk.tell("shape-words")), Block::Steps(steps)];
    Some(Section { id: "shape", heading: desk.tell("shape-heading"), blocks })
}

/// What is done to a part; its name is left open.
fn step(desk: &Desk<'_>, number: usize) -> Option<Step> {
    let part = desk.part(number)?;
    let bites = bites::bites(&part.flat.outline);
    let mut step = Step::default();
    if part.patterns.is_empty() && is_traced(&part.flat.outline, &bites) {
        step.lines.push(desk.tell("shape-trace"));
    } else {
        step.lines = outline(desk, part, &bites);
        step.lines.extend(holes(desk, part));
    }
    if !bites.is_empty() {
        step.of.push(Told::Outline(number));
    }
    step.of.extend((0..part.flat.holes.len()).map(|hole| Told::Hole(number, hole)));
    let shows = desk.say("shape-picture", vec![("part", desk.named(number))]);
    step.figure = Some(Figure { picture: pictures::flat(desk, number), shows });
    Some(step)
}

/// Whether an outline bends in a way that no distances say: it is traced from its template, its holes with it.
fn is_traced(outline: &Contour, bites: &[Bite]) -> bool {
    let bends = outline.edges().any(|edge| !edge.is_line());
    bends && !bites.is_empty() && bites.iter().all(|bite| bite.cut == Cut::Other)
}

/// What is cut off or out at the edges: what is alike once, with its places.
fn outline(desk: &Desk<'_>, part: &Part, bites: &[Bite]) -> Vec<Line> {
    let length = |mm: f64| desk.length(mm, What::Length, &part.id);
    let mut lines = Vec::new();
    let mut done = vec![false; bites.len()];
    for (number, bite) in bites.iter().enumerate() {
        if std::mem::replace(&mut done[number], true) {
            continue;
        }
        let mut alike = vec![bite];
        for (other, one) in bites.iter().enumerate().skip(number + 1) {
            if !done[other] && one.is_like(bite) {
                done[other] = true;
                alike.push(one);
            }
        }
        let corners = || match alike.as_slice() {
            [_, _, _, _] => desk.tell("corners-all"),
            some => desk.words.list(some.iter().map(|one| desk.tell(corner(one.rims))).collect()),
        };
        let several = || measure::count(u64::try_from(alike.len()).unwrap_or(u64::MAX), What::Many, "bites");
        let at = |rim: Rim| {
            let places = alike
                .iter()
                .map(|one| length(if rim.is_level() { one.middle.x } else { part.flat.height - one.middle.y }));
            desk.words.list(places.collect())
        };
        lines.push(match bite.cut {
            Cut::Clip { across, up } => desk.say(
                "shape-clip",
                vec![("corners", corners()), ("n", several()), ("across", length(across)), ("up", length(up))],
            ),
            Cut::Round(radius) => {
                desk.say("shape-round", vec![("corners", corners()), ("n", several()), ("radius", length(radius))])
            }
            Cut::Step { across, up } => desk.say(
                "shape-step",
                vec![("corners", corners()), ("n", several()), ("across", length(across)), ("up", length(up))],
            ),
            Cut::Notch { kind, wide, deep } => {
                let rim = bite.rims[0];
                let key = match (kind, rim.is_level()) {
                    (bites::Notch::Round, true) => "shape-notch-round-level",
                    (bites::Notch::Round, false) => "shape-notch-round-upright",
                    (bites::Notch::Pointed, true) => "shape-notch-pointed-level",
                    (bites::Notch::Pointed, false) => "shape-notch-pointed-upright",
                    (bites::Notch::Square, true) => "shape-notch-square-level",
                    (bites::Notch::Square, false) => "shape-notch-square-upright",
                };
                let places = vec![
                    ("edge", desk.tell(edge(rim))),
                    ("n", several()),
                    ("wide", length(wide)),
                    ("deep", length(deep)),
                    ("at", at(rim)),
                ];
                desk.say(key, places)
            }
            Cut::Other if part.patterns.is_empty() && bite.bends => desk.tell("shape-trace-edge"),
            Cut::Other if part.patterns.is_empty() => desk.tell("shape-mark"),
            Cut::Other => patterned(desk, part),
        });
    }
    lines.dedup();
    lines
}

const fn corner(rims: [Rim; 2]) -> &'static str {
    match rims {
        [Rim::Lower, _] => "corner-lower-right",
        [Rim::Right, _] => "corner-upper-right",
        [Rim::Upper, _] => "corner-upper-left",
        [Rim::Left, _] => "corner-lower-left",
    }
}

const fn edge(rim: Rim) -> &'static str {
    match rim {
        Rim::Lower => "edge-below",
        Rim::Right => "edge-right",
        Rim::Upper => "edge-above",
        Rim::Left => "edge-left",
    }
}

/// Width of a round hole, mm; none where it is not round.
pub(super) fn across(hole: &Contour) -> Option<f64> {
    let bounds = hole.bounds();
    let (middle, radius) = (bounds.center(), bounds.width() / 2.0);
    // Curves in a square box may be anything: all of them go round its middle.
    let round = |edge: crate::contour::Edge| {
        !edge.is_line() && edge.centre().distance(middle) < READ && (edge.radius() - radius).abs() < READ
    };
    hole.edges().all(round).then_some(bounds.width())
}

/// Edges that are cut in a pattern: no distances say how they run, and a trimmer cuts none of them.
fn patterned(desk: &Desk<'_>, part: &Part) -> Line {
    let key = |word: &FinishWord| match word {
        FinishWord::Scallop => "cut-scallop",
        FinishWord::Wave => "cut-wave",
        FinishWord::Zigzag => "cut-zigzag",
        FinishWord::Deckle => "cut-deckle",
        FinishWord::Notch | FinishWord::Perforated | FinishWord::Slits => "cut-notch",
    };
    let edges = part.patterns.iter().map(|word| desk.tell(key(word))).collect();
    desk.say("shape-edge", vec![("edges", desk.words.list(edges))])
}

/// So many equal slits make a row.
const ROW: usize = 3;

/// Rows of slits that stand straight and are equally far apart, each as one line; what is left are holes for themselves.
fn rows<'p>(desk: &Desk<'_>, part: &'p Part, lines: &mut Vec<Line>) -> Vec<&'p Contour> {
    let length = |mm: f64| desk.length(mm, What::Length, &part.id);
    let near = |one: f64, other: f64| (one - other).abs() < READ;
    let mut left: Vec<&Contour> = part.flat.holes.iter().collect();
    let mut alone = Vec::new();
    while let Some(first) = left.first().map(|hole| hole.bounds()) {
        let like = |hole: &Contour| {
            let bounds = hole.bounds();
            bites::is_box(hole) && near(bounds.width(), first.width()) && near(bounds.height(), first.height())
        };
        let row = [true, false].into_iter().find_map(|level| {
            let beside = |hole: &&&Contour| {
                let bounds = hole.bounds();
                like(hole) && if level { near(bounds.y0, first.y0) } else { near(bounds.x0, first.x0) }
            };
            let at = |hole: &Contour| if level { hole.bounds().x0 } else { part.flat.height - hole.bounds().y1 };
            let mut row: Vec<f64> = left.iter().filter(beside).map(|hole| at(hole)).collect();
            row.sort_by(f64::total_cmp);
            let even = row.len() >= ROW && row.windows(3).all(|three| near(three[1] - three[0], three[2] - three[1]));
            even.then(|| (level, row, left.iter().copied().filter(|hole| !beside(&hole)).collect::<Vec<_>>()))
        });
        let Some((level, row, others)) = row else {
            alone.push(left.remove(0));
            continue;
        };
        left = others;
        let count = u64::try_from(row.len()).unwrap_or(u64::MAX);
        let aside = if level { part.flat.height - first.y1 } else { first.x0 };
        let places = vec![
            ("n", measure::count(count, What::Many, "slits")),
            ("width", length(first.width())),
            ("height", length(first.height())),
            ("aside", length(aside)),
            ("first", length(row[0])),
            ("apart", length(row[1] - row[0])),
        ];
        lines.push(desk.say(if level { "shape-row-level" } else { "shape-row-upright" }, places));
    }
    alone
}

/// Holes: their sizes, and where they are from the left and the top edge. Round ones above one another are one line.
fn holes(desk: &Desk<'_>, part: &Part) -> Vec<Line> {
    let length = |mm: f64| desk.length(mm, What::Length, &part.id);
    let mut lines = Vec::new();
    let mut round: Vec<(f64, f64, Vec<f64>)> = Vec::new();
    for hole in rows(desk, part, &mut lines) {
        let (bounds, middle) = (hole.bounds(), hole.bounds().center());
        if let Some(wide) = across(hole) {
            let near = |one: f64, other: f64| (one - other).abs() < READ;
            match round.iter_mut().find(|(known, left, _)| near(*known, wide) && near(*left, middle.x)) {
                Some((.., tops)) => tops.push(part.flat.height - middle.y),
                None => round.push((wide, middle.x, vec![part.flat.height - middle.y])),
            }
        } else if let Some((ends, wide)) = slot(hole) {
            let from_top = |point: Point| length(part.flat.height - point.y);
            let places = vec![
                ("width", length(wide)),
                ("left", length(ends[0].x)),
                ("top", from_top(ends[0])),
                ("to_left", length(ends[1].x)),
                ("to_top", from_top(ends[1])),
            ];
            lines.push(desk.say("shape-slot", places));
        } else {
            let square = bites::is_box(hole);
            let places = vec![
                ("width", length(bounds.width())),
                ("height", length(bounds.height())),
                ("left", length(bounds.x0)),
                ("top", length(part.flat.height - bounds.y1)),
            ];
            let soft = bites::soft_box(hole);
            let bends = hole.edges().any(|edge| !edge.is_line());
            let key = match (square, soft, bends) {
                (true, ..) => "shape-open",
                (_, Some(_), _) => "shape-open-soft",
                (_, None, true) => "shape-open-trace",
                (_, None, false) => "shape-open-shape",
            };
            let radius = soft.map(|radius| ("radius", length(radius)));
            lines.push(desk.say(key, places.into_iter().chain(radius).collect()));
        }
    }
    for (wide, left, mut tops) in round {
        tops.sort_by(f64::total_cmp);
        let many = measure::count(u64::try_from(tops.len()).unwrap_or(u64::MAX), What::Many, "holes");
        let places = vec![
            ("n", many),
            ("across", length(wide)),
            ("left", length(left)),
            ("top", desk.words.list(tops.into_iter().map(length).collect())),
        ];
        let key = if wide < PUNCHED {
            "shape-pierce"
        } else if wide > WIDEST_PUNCH {
            "shape-compass"
        } else {
            "shape-punch"
        };
        lines.push(desk.say(key, places));
    }
    lines
}
