// SPDX-License-Identifier: MIT
//! Clip, round, punch: parts that are more than rectangles.

use super::bits::{Block, Figure, Section, Step};
use super::desk::Desk;
use super::line::{Line, What};
use super::measure;
use super::pictures;
use crate::contour::{Contour, Edge};
use crate::length::tolerance::READ;
use crate::parts::Part;

pub(super) fn section(desk: &Desk<'_>) -> Option<Section> {
    let steps: Vec<Step> =
        desk.rows.iter().filter(|row| row.shaped).filter_map(|row| step(desk, row.part, row.count)).collect();
    if steps.is_empty() {
        return None;
    }
    let blocks = vec![Block::Words(desk.tell("shape-words")), Block::Steps(steps)];
    Some(Section { id: "shape", heading: desk.tell("shape-heading"), blocks })
}

fn step(desk: &Desk<'_>, number: usize, count: u64) -> Option<Step> {
    let part = desk.part(number)?;
    let named = vec![("part", desk.named(number)), ("n", measure::count(count, What::Count, &part.id))];
    let mut step = Step::new(desk.say("shape-head", named));
    let edges: Vec<Edge> = part.flat.outline.edges().collect();
    if edges.iter().any(|edge| edge.is_line() && is_slanted(*edge)) {
        step.lines.push(desk.tell("shape-mark"));
        step.lines.push(desk.tell("shape-clip"));
    }
    let radii = radii(&part.flat.outline);
    if !radii.is_empty() {
        let radii = radii.iter().map(|radius| desk.length(*radius, What::Length, &part.id)).collect();
        step.lines.push(desk.say("shape-round", vec![("radius", desk.words.list(radii))]));
    }
    if step.lines.is_empty() && part.flat.holes.is_empty() {
        step.lines.push(desk.tell("shape-notch"));
    }
    step.lines.extend(part.flat.holes.iter().map(|hole| opening(desk, part, hole)));
    let shows = desk.say("shape-picture", vec![("part", desk.named(number))]);
    step.figure = Some(Figure { picture: pictures::flat(desk, number), shows });
    Some(step)
}

fn is_slanted(edge: Edge) -> bool {
    let way = edge.to - edge.from;
    way.x.abs() > READ && way.y.abs() > READ
}

fn radii(contour: &Contour) -> Vec<f64> {
    let mut radii: Vec<f64> = contour.edges().filter(|edge| !edge.is_line()).map(Edge::radius).collect();
    radii.sort_by(f64::total_cmp);
    radii.dedup_by(|one, two| (*one - *two).abs() < READ);
    radii
}

/// A hole: its size, and where it is from the left and the top edge.
fn opening(desk: &Desk<'_>, part: &Part, hole: &Contour) -> Line {
    let bounds = hole.bounds();
    let length = |mm: f64| desk.length(mm, What::Length, &part.id);
    let round = hole.edges().all(|edge| !edge.is_line());
    if round && (bounds.width() - bounds.height()).abs() < READ {
        let middle = bounds.center();
        return desk.say(
            "shape-punch",
            vec![
                ("across", length(bounds.width())),
                ("left", length(middle.x)),
                ("top", length(part.flat.height - middle.y)),
            ],
        );
    }
    desk.say(
        "shape-open",
        vec![
            ("width", length(bounds.width())),
            ("height", length(bounds.height())),
            ("left", length(bounds.x0)),
            ("top", length(part.flat.height - bounds.y1)),
        ],
    )
}
