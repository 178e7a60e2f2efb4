// SPDX-License-Identifier: MIT
//! Which of several rings is the outline, which are its holes; what crosses, lies beside it or would fall out.

use super::drawing::{Notices, stop};
use super::join::Ring;
use crate::contour::{Contour, Edge, Point};
use crate::finding::{Arg, Said, stops};
use crate::length::tolerance::READ;
use cavalier_contours::polyline::{PlineSegIntr, PlineVertex, pline_seg_intr};
use cavalier_contours::static_aabb2d_index::{Control, StaticAABB2DIndex, StaticAABB2DIndexBuilder};

/// Points nearer than this are one to the library that finds where edges meet, mm: what it takes itself.
const ONE_POINT: f64 = 1e-5;

/// More pairs of edges than this that come near each other are no outline: our choice.
const MOST_PAIRS: usize = 4_000_000;

/// The outline, counter-clockwise, and its holes, clockwise; nothing where something stands in the way, which is told.
pub(super) fn whole(rings: &[Ring], notices: &mut Notices) -> Option<(Contour, Vec<Contour>)> {
    if !cross(rings, notices) {
        return None;
    }
    for ring in rings {
        // There and back on one line.
        if ring.contour.area().abs() <= READ * ring.contour.length() {
            let text = Said::new("outline-flat").with("what", Arg::code(&ring.what));
            let text = text.with("at", notices.spot(ring.bounds.center()));
            notices.tell(stop("outline-flat", text, "outline-flat-help", &ring.place));
        }
    }
    if stops(&notices.findings) {
        return None;
    }
    let boxes = boxes(rings.iter().map(|ring| ring.bounds))?;
    let mut outer: Vec<usize> = Vec::new();
    let mut holes: Vec<usize> = Vec::new();
    let mut sound = true;
    for (number, ring) in rings.iter().enumerate() {
        let Some(start) = ring.contour.vertices().first().map(|vertex| vertex.at) else { continue };
        // Outline, hole, or a piece in a hole: nobody asks further.
        let mut around = 0;
        let mut visit = |other: usize| {
            let round: &Ring = &rings[other];
            if other != number && round.bounds.contains(start) && round.contour.contains(start) {
                around += 1;
            }
            if around > 1 { Control::Break(()) } else { Control::Continue }
        };
        boxes.visit_query(start.x, start.y, start.x, start.y, &mut visit);
        match around {
            0 => outer.push(number),
            1 => holes.push(number),
            _ => {
                sound = false;
                let text = Said::new("outline-island").with("what", Arg::code(&ring.what));
                let text = text.with("at", notices.spot(ring.bounds.center()));
                notices.tell(stop("outline-island", text, "outline-island-help", &ring.place));
            }
        }
    }
    let largest = outer.iter().copied().max_by(|&one, &two| {
        rings[one].contour.area().abs().total_cmp(&rings[two].contour.area().abs()).then(two.cmp(&one))
    })?;
    for &other in outer.iter().filter(|&&other| other != largest) {
        sound = false;
        let ring = &rings[other];
        let text = Said::new("outline-several")
            .with("what", Arg::code(&ring.what))
            .with("width", notices.length(ring.bounds.width()))
            .with("height", notices.length(ring.bounds.height()))
            .with("at", notices.spot(ring.bounds.center()))
            .with("first", Arg::code(&rings[largest].what));
        notices.tell(stop("outline-several", text, "outline-several-help", &ring.place));
    }
    if !sound {
        return None;
    }
    let holes = holes.into_iter().map(|hole| rings[hole].contour.clone().clockwise()).collect();
    Some((rings[largest].contour.clone().counter_clockwise(), holes))
}

fn boxes(all: impl ExactSizeIterator<Item = kurbo::Rect>) -> Option<StaticAABB2DIndex<f64>> {
    let mut builder = StaticAABB2DIndexBuilder::new(all.len());
    for one in all {
        builder.add(one.x0, one.y0, one.x1, one.y1);
    }
    builder.build().ok()
}

/// Tells where edges cross or touch that are no neighbours; whether none do.
fn cross(rings: &[Ring], notices: &mut Notices) -> bool {
    let edges: Vec<(usize, usize, Edge)> = rings
        .iter()
        .enumerate()
        .flat_map(|(ring, of)| of.contour.edges().enumerate().map(move |(number, edge)| (ring, number, edge)))
        .collect();
    let Some(boxes) = boxes(edges.iter().map(|(.., edge)| edge.bounds())) else { return false };
    let (mut pairs, mut sound) = (0, true);
    // Of two rings, or one, the first place is enough.
    let mut told: Vec<[usize; 2]> = Vec::new();
    for (first, &(ring, number, edge)) in edges.iter().enumerate() {
        let bounds = edge.bounds().inflate(ONE_POINT, ONE_POINT);
        let mut visit = |second: usize| {
            pairs += 1;
            if pairs > MOST_PAIRS {
                return Control::Break(());
            }
            let Some(&(other, beside, next)) = edges.get(second).filter(|_| second > first) else {
                return Control::Continue;
            };
            if told.contains(&[ring, other]) || told.len() > 200 {
                return Control::Continue;
            }
            let count = rings[ring].contour.vertices().len();
            let shared = if ring == other {
                let follows = [(number + 1) % count == beside, (beside + 1) % count == number];
                [follows[0].then_some(edge.to), follows[1].then_some(edge.from)]
            } else {
                [None, None]
            };
            if let Some(at) = meet(edge, next, shared) {
                sound = false;
                told.push([ring, other]);
                let key = if ring == other { "drawn-crosses-itself" } else { "drawn-crosses" };
                let text = Said::new(key)
                    .with("what", Arg::code(&rings[ring].what))
                    .with("other", Arg::code(&rings[other].what))
                    .with("at", notices.spot(at));
                notices.tell(stop("outline-crosses", text, "drawn-crosses-help", &rings[other].place));
            }
            Control::Continue
        };
        boxes.visit_query(bounds.x0, bounds.y0, bounds.x1, bounds.y1, &mut visit);
        if pairs > MOST_PAIRS {
            let text = Said::new("outline-tangled").with("what", Arg::code(&rings[ring].what));
            notices.tell(stop("outline-tangled", text, "outline-too-many-help", &rings[ring].place));
            return false;
        }
    }
    sound
}

/// Where two edges cross or touch, the points aside that they share as neighbours.
fn meet(one: Edge, two: Edge, shared: [Option<Point>; 2]) -> Option<Point> {
    let vertex = |point: Point, bulge: f64| PlineVertex::new(point.x, point.y, bulge);
    let found = pline_seg_intr(
        vertex(one.from, one.bulge),
        vertex(one.to, 0.0),
        vertex(two.from, two.bulge),
        vertex(two.to, 0.0),
        ONE_POINT,
    );
    let point = |at: cavalier_contours::core::math::Vector2<f64>| Point::new(at.x, at.y);
    let points = match found {
        PlineSegIntr::NoIntersect => [None, None],
        PlineSegIntr::TangentIntersect { point: at } | PlineSegIntr::OneIntersect { point: at } => {
            [Some(point(at)), None]
        }
        PlineSegIntr::TwoIntersects { point1, point2 }
        | PlineSegIntr::OverlappingLines { point1, point2 }
        | PlineSegIntr::OverlappingArcs { point1, point2 } => [Some(point(point1)), Some(point(point2))],
    };
    let is_shared = |at: &Point| shared.iter().flatten().any(|shared| shared.distance(*at) < READ);
    points.into_iter().flatten().find(|at| !is_shared(at))
}
