// SPDX-License-Identifier: MIT
//! DXF files, read by a library for them.

use super::{Bow, Pull, Rounding, in_order, pulls};
use crate::contour::{Edge, Point, Rect};
use crate::length::tolerance::READ;
use crate::toolpath::{REGISTER, SheetPaths};
use dxf::Header;
use dxf::entities::{Entity, EntityType};
use dxf::enums::{AcadVersion, DrawingUnits, Units};

/// Six decimals, mm.
const SIX_DECIMALS: Rounding = Rounding { step: 1e-6 };

/// Reads a DXF file back.
///
/// # Errors
/// What is not as it was meant.
pub(in crate::write) fn dxf(text: &str, sheet: &SheetPaths) -> Result<(), String> {
    let drawing = dxf::Drawing::load(&mut text.as_bytes()).map_err(|error| format!("it can't be read: {error}"))?;
    let found = drawing.entities().map(read).collect::<Result<Vec<_>, _>>()?;
    let marks = sheet.register.iter().map(|run| (REGISTER, run));
    let runs = marks.chain(sheet.strokes.iter().map(|stroke| (stroke.layer.name(), &stroke.run)));
    let meant: Vec<(&str, Pull<Edge>)> =
        runs.flat_map(|(layer, run)| pulls(run).into_iter().map(move |pull| (layer, pull))).collect();
    let same = |(layer, found): &(String, Pull<Bow>), (name, meant): &(&str, Pull<Edge>)| {
        if layer != name {
            return Err(format!("it is on the layer {layer} instead of {name}"));
        }
        SIX_DECIMALS.pull(found, meant)
    };
    in_order("stroke", &found, &meant, same, |(_, meant)| SIX_DECIMALS.is_tiny(meant))?;
    header(&drawing.header, meant.iter().flat_map(|(_, pull)| &pull.edges))
}

/// An entity's layer and where it runs.
fn read(entity: &Entity) -> Result<(String, Pull<Bow>), String> {
    let (corners, closed): (Vec<_>, bool) = match &entity.specific {
        EntityType::Line(line) => (vec![(line.p1.x, line.p1.y, 0.0), (line.p2.x, line.p2.y, 0.0)], false),
        EntityType::LwPolyline(line) => {
            (line.vertices.iter().map(|corner| (corner.x, corner.y, corner.bulge)).collect(), line.is_closed())
        }
        EntityType::Polyline(line) => {
            let corners = line.vertices().map(|corner| (corner.location.x, corner.location.y, corner.bulge));
            (corners.collect(), line.is_closed())
        }
        _ => return Err("it has an entity that was never meant".into()),
    };
    Ok((entity.common.layer.clone(), polyline(&corners, closed)))
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
