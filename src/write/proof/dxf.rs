// SPDX-License-Identifier: MIT
//! DXF files, read by a library for them.

use super::cubic::cubic;
use super::{Bow, Pull, Rounding, in_order, pulls};
use crate::contour::{Edge, Point, Rect};
use crate::cutter::{Curves, Cutter, DxfLayers, DxfLines, nearest_index};
use crate::length::tolerance::READ;
use crate::toolpath::{Layer, SheetPaths, StrokePath};
use crate::write::dxf::known;
use crate::write::layers::{self, layer_colour, layer_name};
use dxf::Header;
use dxf::entities::{Entity, EntityType, Spline};
use dxf::enums::{AcadVersion, DrawingUnits, Units};

/// Six decimals, mm.
const SIX_DECIMALS: Rounding = Rounding { step: 1e-6 };

/// Reads a DXF file back.
///
/// # Errors
/// What is not as it was meant.
pub(in crate::write) fn dxf(text: &str, sheet: &SheetPaths, cutter: &Cutter) -> Result<(), String> {
    let drawing = dxf::Drawing::load(&mut text.as_bytes()).map_err(|error| format!("it can't be read: {error}"))?;
    let found = drawing.entities().map(read).collect::<Result<Vec<_>, _>>()?;
    let sheet = known(sheet, cutter);
    let meant: Vec<(LayerMark, Pull<Edge>)> = layers::runs(&sheet)
        .flat_map(|(layer, run)| {
            let mark = LayerMark::meant(layer, cutter);
            one_by_one(run, cutter).into_iter().map(move |pull| (mark.clone(), pull))
        })
        .collect();
    let same = |(mark, found): &(LayerMark, Pull<Bow>), (wanted, meant): &(LayerMark, Pull<Edge>)| {
        if mark != wanted {
            return Err(format!("it is on the layer {} instead of {}", mark.told(), wanted.told()));
        }
        SIX_DECIMALS.pull(found, meant)
    };
    in_order("stroke", &found, &meant, same, |(_, meant)| SIX_DECIMALS.is_tiny(meant))?;
    header(&drawing.header, meant.iter().flat_map(|(_, pull)| &pull.edges))
}

/// What a machine knows an entity's layer by: its name, and the numbered colour where that is its own.
#[derive(Clone, Debug, PartialEq)]
struct LayerMark {
    layer: String,
    colour: Option<u8>,
}

impl LayerMark {
    fn meant(layer: Option<Layer>, cutter: &Cutter) -> Self {
        if cutter.forms.dxf_layers != DxfLayers::Colours {
            return Self { layer: layer_name(layer).into(), colour: None };
        }
        Self { layer: "0".into(), colour: Some(nearest_index(layer_colour(layer, &cutter.colours))) }
    }

    fn told(&self) -> String {
        self.colour.map_or_else(|| self.layer.clone(), |colour| format!("{}, colour {colour}", self.layer))
    }
}

/// What stands by itself in the file: a stroke's lines, or each of their edges. An arc by itself runs counter-clockwise.
fn one_by_one(run: &StrokePath, cutter: &Cutter) -> Vec<Pull<Edge>> {
    let pulls = pulls(run);
    if cutter.forms.dxf_lines == DxfLines::Polylines {
        return pulls;
    }
    let arcs = cutter.manner.curves != Curves::Cubics;
    let one = |edge: Edge| {
        let edge = if arcs && edge.bulge < 0.0 && !edge.is_line() { edge.reversed() } else { edge };
        Pull { closed: false, edges: vec![edge] }
    };
    pulls.into_iter().flat_map(|pull| pull.edges).map(one).collect()
}

/// An entity's layer and where it runs.
fn read(entity: &Entity) -> Result<(LayerMark, Pull<Bow>), String> {
    let pull = match &entity.specific {
        EntityType::Line(line) => polyline(&[(line.p1.x, line.p1.y, 0.0), (line.p2.x, line.p2.y, 0.0)], false),
        EntityType::LwPolyline(line) => {
            let corners: Vec<_> = line.vertices.iter().map(|corner| (corner.x, corner.y, corner.bulge)).collect();
            polyline(&corners, line.is_closed())
        }
        EntityType::Polyline(line) => {
            let corners: Vec<_> =
                line.vertices().map(|corner| (corner.location.x, corner.location.y, corner.bulge)).collect();
            polyline(&corners, line.is_closed())
        }
        EntityType::Arc(arc) => {
            let end = |degrees: f64| {
                let (sin, cos) = degrees.to_radians().sin_cos();
                (arc.center.x + arc.radius * cos, arc.center.y + arc.radius * sin)
            };
            let (from, to) = (end(arc.start_angle), end(arc.end_angle));
            let turn = (arc.end_angle - arc.start_angle).rem_euclid(360.0).to_radians();
            polyline(&[(from.0, from.1, (turn / 4.0).tan()), (to.0, to.1, 0.0)], false)
        }
        EntityType::Spline(spline) => curve(spline)?,
        _ => return Err("it has an entity that was never meant".into()),
    };
    Ok((LayerMark { layer: entity.common.layer.clone(), colour: entity.common.color.index() }, pull))
}

/// The arcs and lines that a curve stands for: cubics of their own, one after the other.
fn curve(spline: &Spline) -> Result<Pull<Bow>, String> {
    let strange = || "it has a curve that was never meant".to_owned();
    let places: Vec<Point> = spline.control_points.iter().map(|at| Point::new(at.x, at.y)).collect();
    let count = places.len().saturating_sub(1) / 3;
    let one_more = |place: usize| usize::from(place == 0 || place == count);
    let mut knots = (0..=count).flat_map(|place| std::iter::repeat_n(place, 3 + one_more(place)));
    let in_their_places = spline.knot_values.len() == 3 * count + 5
        && spline.knot_values.iter().all(|knot| {
            knots
                .next()
                .and_then(|place| u32::try_from(place).ok())
                .is_some_and(|place| super::near(*knot, place.into(), 0.0))
        });
    let plain = spline.degree_of_curve == 3 && spline.weight_values.iter().all(|weight| super::near(*weight, 1.0, 0.0));
    if count == 0 || places.len() != 3 * count + 1 || !in_their_places || !plain {
        return Err(strange());
    }
    let edges = places.windows(4).step_by(3).map(|ends| {
        let ends = [ends[0], ends[1], ends[2], ends[3]];
        cubic(ends, SIX_DECIMALS).ok_or_else(strange)
    });
    let edges = edges.collect::<Result<Vec<Bow>, String>>()?;
    Ok(Pull { closed: spline.flags & 1 == 1, edges })
}

/// From the corners, each with the bulge of the edge that leaves it.
fn polyline(corners: &[(f64, f64, f64)], closed: bool) -> Pull<Bow> {
    let ends = corners.iter().skip(1).chain(corners.first().filter(|_| closed));
    let edges = corners.iter().zip(ends).map(|(&(x0, y0, bulge), &(x1, y1, _))| {
        let (from, to) = (Point::new(x0, y0), Point::new(x1, y1));
        Bow { from, to, rise: bulge * (to - from).hypot() / 2.0 }
    });
    Pull { closed, edges: edges.collect() }
}

/// The unit and the box that other programs zoom to.
fn header<'a>(header: &Header, meant: impl Iterator<Item = &'a Edge>) -> Result<(), String> {
    let old = header.version <= AcadVersion::R12;
    if !old && (header.default_drawing_units, header.drawing_units) != (Units::Millimeters, DrawingUnits::Metric) {
        return Err("it is not in millimetres".into());
    }
    let extent: Option<Rect> = meant.map(|edge| edge.bounds()).reduce(|all, one| all.union(one));
    let Some(extent) = extent else { return Ok(()) };
    let (low, high) = (&header.minimum_drawing_extents, &header.maximum_drawing_extents);
    let sides = [(low.x, extent.x0), (low.y, extent.y0), (high.x, extent.x1), (high.y, extent.y1)];
    let right = sides.iter().all(|&(found, wanted)| super::near(found, wanted, READ));
    if right { Ok(()) } else { Err("its header names another extent than it has".into()) }
}
