// SPDX-License-Identifier: MIT
//! The entities of a DXF file (the published DXF Reference, ENTITIES): lines, arcs, circles, ellipses, polylines, splines.
//!
//! What lies in blocks is not read. Read by our own lines rather than by the library that checks what is written: it names no
//! line, and a fault must have its place.

use super::curve::Curve;
use super::drawing::{Drawing, DrawnRun, MOST_CURVES, Notices, stop, warn};
use super::dxf_groups::{DxfEntity, Faults, entities, groups, section, variable};
use super::spline;
use crate::contour::{Point, Vec2};
use crate::fields::Source;
use crate::finding::{Arg, Place, Said};
use crate::length::excerpt;
use crate::length::tolerance::PARALLEL;
use std::collections::BTreeMap;
use std::f64::consts::TAU;
use std::rc::Rc;

/// What $INSUNITS says, and how many mm that is.
const UNITS: [(&str, f64); 8] =
    [("1", 25.4), ("2", 304.8), ("4", 1.0), ("5", 10.0), ("6", 1000.0), ("9", 0.0254), ("10", 914.4), ("14", 100.0)];

/// Reads a file; nothing where it can't be read at all.
pub(super) fn read(source: &Source, notices: &mut Notices) -> Option<Drawing> {
    let groups = match groups(source.text()) {
        Ok(groups) => groups,
        Err(line) => {
            let found = Arg::quoted(excerpt(source.line(line)));
            let text = Said::new("outline-no-group").with("found", found);
            notices.tell(stop("outline-unread", text, "outline-no-group-help", &source.spot(line, 1)));
            return None;
        }
    };
    let unit = variable(&groups, "$INSUNITS", 70)
        .and_then(|said| UNITS.iter().find(|(code, _)| *code == said).map(|(_, mm)| *mm));
    let mut reading = Reading { source, drawing: Drawing { runs: Vec::new(), unit }, notices, count: 0 };
    let all = entities(section(&groups, "ENTITIES"));
    let mut next = 0;
    while let Some(entity) = all.get(next) {
        next += 1;
        // The corners of an old polyline are entities of their own, up to SEQEND.
        let corners = if entity.name == "POLYLINE" {
            all[next..].iter().take_while(|corner| corner.name == "VERTEX").count()
        } else {
            0
        };
        if !reading.entity(entity, &all[next..next + corners]) {
            return None;
        }
        next += corners;
    }
    Some(reading.drawing)
}

struct Reading<'r> {
    source: &'r Source,
    drawing: Drawing,
    notices: &'r mut Notices,
    count: usize,
}

impl Reading<'_> {
    fn place(&self, entity: &DxfEntity<'_, '_>) -> Place {
        self.source.spot(entity.line + 1, 1)
    }

    /// Adds what an entity draws; false where there is too much.
    fn entity(&mut self, entity: &DxfEntity<'_, '_>, corners: &[DxfEntity<'_, '_>]) -> bool {
        let handle = entity.text(5).map(excerpt);
        let what = handle.map_or_else(|| entity.name.to_owned(), |handle| format!("{} {handle}", entity.name));
        let place = self.place(entity);
        let mut faults = Vec::new();
        let run = match entity.name {
            "LINE" => line(entity, &mut faults),
            "ARC" | "CIRCLE" => arc(entity, &mut faults),
            "ELLIPSE" => ellipse(entity, &mut faults),
            "LWPOLYLINE" => {
                let rows = entity.rows(10, &mut faults);
                let corner = |row: &BTreeMap<i32, f64>| {
                    let bulge = row.get(&42).copied().unwrap_or(0.0);
                    Some((Point::new(*row.get(&10)?, *row.get(&20)?), bulge))
                };
                rows.iter()
                    .map(corner)
                    .collect::<Option<Vec<_>>>()
                    .map(|corners| polyline(&corners, entity.flags(70) & 1 == 1))
            }
            "POLYLINE" if entity.flags(70) & (16 | 64) == 0 => {
                let corner = |corner: &DxfEntity<'_, '_>| {
                    let bulge = corner.number(42, &mut faults).unwrap_or(0.0);
                    corner.point(10, &mut faults).map(|at| (at, bulge))
                };
                // The frame of a curve fitted through it is no part of it.
                let drawn = corners.iter().filter(|corner| corner.flags(70) & 16 == 0);
                drawn
                    .map(corner)
                    .collect::<Option<Vec<_>>>()
                    .map(|corners| polyline(&corners, entity.flags(70) & 1 == 1))
            }
            "SPLINE" => spline_of(entity, &mut faults),
            "SEQEND" | "VERTEX" | "ATTDEF" | "ATTRIB" | "VIEWPORT" | "POINT" => return true,
            _ => {
                let (key, help) = match entity.name {
                    "INSERT" => ("outline-has-block", "outline-has-block-help"),
                    "TEXT" | "MTEXT" => ("outline-has-text", "outline-has-text-help"),
                    "IMAGE" => ("outline-has-image", "outline-has-image-help"),
                    _ => ("outline-has-other", "outline-has-other-help"),
                };
                let text = Said::new(key).with("what", Arg::code(excerpt(&what)));
                self.notices.tell(warn("outline-left-out", text, help, &place));
                return true;
            }
        };
        self.put(entity, what, run, &faults)
    }

    fn put(
        &mut self,
        entity: &DxfEntity<'_, '_>,
        what: String,
        run: Option<(Vec<Curve>, bool)>,
        faults: &Faults,
    ) -> bool {
        let place = self.place(entity);
        let Some((curves, closed)) = run.filter(|_| faults.is_empty()) else {
            let place = faults.first().map_or(place, |&line| self.source.spot(line, 1));
            let text = Said::new("outline-bad-entity").with("what", Arg::code(what));
            self.notices.tell(stop("outline-unread", text, "outline-bad-entity-help", &place));
            return true;
        };
        self.count += curves.len();
        if self.count > MOST_CURVES {
            let text = Said::new("outline-too-many").with("most", MOST_CURVES);
            self.notices.tell(stop("outline-too-many", text, "outline-too-many-help", &place));
            return false;
        }
        // What looks up from below is seen from above: x runs the other way (Arbitrary Axis Algorithm).
        let below = entity.number(230, &mut Vec::new()).is_some_and(|up| up < 0.0);
        let mirrored = below && !matches!(entity.name, "LINE" | "ELLIPSE" | "SPLINE");
        let curves =
            if mirrored { curves.iter().map(|curve| curve.mapped(kurbo::Affine::FLIP_X)).collect() } else { curves };
        let layers = Rc::new(entity.text(8).map(excerpt).into_iter().collect());
        self.drawing.runs.push(DrawnRun { curves, closed, layers, id: None, what, place });
        true
    }
}

type Drawn = Option<(Vec<Curve>, bool)>;

fn line(entity: &DxfEntity<'_, '_>, faults: &mut Faults) -> Drawn {
    Some((vec![Curve::Line([entity.point(10, faults)?, entity.point(11, faults)?])], false))
}

fn arc(entity: &DxfEntity<'_, '_>, faults: &mut Faults) -> Drawn {
    let (centre, radius) = (entity.point(10, faults)?, entity.number(40, faults).filter(|radius| *radius > 0.0)?);
    if entity.name == "CIRCLE" {
        return Some((vec![Curve::ellipse(centre, radius, radius)], true));
    }
    let (start, end) = (entity.number(50, faults)?.to_radians(), entity.number(51, faults)?.to_radians());
    let (across, up) = (Vec2::new(radius, 0.0), Vec2::new(0.0, radius));
    Some((vec![Curve::Round { centre, across, up, start, sweep: swept(start, end) }], false))
}

/// How far an arc goes on counter-clockwise from one angle to another, all round where they are one.
fn swept(start: f64, end: f64) -> f64 {
    let swept = (end - start).rem_euclid(TAU);
    if swept > 0.0 { swept } else { TAU }
}

fn ellipse(entity: &DxfEntity<'_, '_>, faults: &mut Faults) -> Drawn {
    let (centre, across) = (entity.point(10, faults)?, entity.point(11, faults)?.to_vec2());
    let share = entity.number(40, faults)?;
    let (start, end) = (entity.number(41, faults).unwrap_or(0.0), entity.number(42, faults).unwrap_or(TAU));
    let below = entity.number(230, faults).is_some_and(|up| up < 0.0);
    let up = Vec2::new(-across.y, across.x) * if below { -share } else { share };
    let sweep = if (end - start - TAU).abs() < PARALLEL { TAU } else { swept(start, end) };
    let whole = sweep > TAU - PARALLEL;
    Some((vec![Curve::Round { centre, across, up, start, sweep }], whole))
}

fn polyline(corners: &[(Point, f64)], closed: bool) -> (Vec<Curve>, bool) {
    let ends = corners.iter().skip(1).chain(corners.first().filter(|_| closed));
    let curve = |(&(from, bulge), &(to, _)): (&(Point, f64), &(Point, f64))| Curve::bulged(from, to, bulge);
    (corners.iter().zip(ends).map(curve).collect(), closed)
}

fn spline_of(entity: &DxfEntity<'_, '_>, faults: &mut Faults) -> Drawn {
    let degree = usize::try_from(entity.flags(71)).ok()?;
    let (knots, weights) = (entity.numbers(40, faults), entity.numbers(41, faults));
    let points: Vec<[f64; 3]> = entity
        .rows(10, faults)
        .iter()
        .enumerate()
        .map(|(index, row)| {
            let weight = weights.get(index).copied().unwrap_or(1.0);
            Some([row.get(&10)? * weight, row.get(&20)? * weight, weight])
        })
        .collect::<Option<_>>()?;
    Some((spline::beziers(degree, &knots, &points)?, false))
}
