// SPDX-License-Identifier: MIT
//! Reads what was written again, by other code than wrote it, and compares it with what was meant.
//!
//! A file that says something else than the tool paths must never reach a machine.

use super::svg::unit;
use crate::contour::{Contour, Edge, Point, Rect, Vertex};
use crate::cutter::Cutter;
use crate::toolpath::{Layer, Run, SheetPaths};
use dxf::Header;
use dxf::entities::EntityType;
use dxf::enums::{AcadVersion, DrawingUnits, Units};
use std::collections::BTreeMap;
use svg::node::element::path::{Command, Data, Parameters, Position};
use svg::parser::Event;

/// What a layer holds.
#[derive(Clone, Copy, Debug, Default)]
struct Tally {
    /// Strokes that close.
    closed: usize,
    /// Strokes that don't: straight pieces and open runs.
    open: usize,
    /// Edges of all strokes.
    edges: usize,
    /// Length of all strokes, mm.
    length: f64,
    /// Area that the closed ones enclose, holes counted against it, mm²: tells an arc from its mirror image.
    area: f64,
    /// The box around them, mm, y up.
    extent: Option<Rect>,
}

type Tallies = BTreeMap<&'static str, Tally>;

impl Tally {
    fn add(&mut self, length: f64, bounds: Rect) {
        self.edges += 1;
        self.length += length;
        self.extent = Some(self.extent.map_or(bounds, |extent| extent.union(bounds)));
    }

    fn edge(&mut self, edge: Edge) {
        self.add(edge.length(), edge.bounds());
    }

    /// What differs, in words; `step` is the file's rounding in mm.
    fn differs(&self, meant: &Self, step: f64) -> Option<String> {
        if (self.closed, self.open) != (meant.closed, meant.open) {
            return Some(format!(
                "{} closed and {} open strokes instead of {} and {}",
                self.closed, self.open, meant.closed, meant.open
            ));
        }
        #[allow(clippy::cast_precision_loss, reason = "a count of edges")]
        let slack = 0.01 + 4.0 * step * meant.edges as f64;
        if (self.length - meant.length).abs() > slack {
            return Some(format!("{:.3} mm of strokes instead of {:.3}", self.length, meant.length));
        }
        if (self.area - meant.area).abs() > 0.01 + 4.0 * step * meant.length {
            return Some(format!("{:.3} mm² enclosed instead of {:.3}", self.area, meant.area));
        }
        let corners =
            |extent: Option<Rect>| extent.map_or([0.0; 4], |extent| [extent.x0, extent.y0, extent.x1, extent.y1]);
        let (found, wanted) = (corners(self.extent), corners(meant.extent));
        let apart = found.iter().zip(wanted).any(|(found, wanted)| (found - wanted).abs() > 0.002 + 2.0 * step);
        apart.then(|| format!("strokes within {found:.3?} mm instead of {wanted:.3?}"))
    }
}

fn layer_name(name: &str) -> Option<&'static str> {
    Layer::ALL.iter().map(|layer| layer.name()).find(|known| *known == name)
}

fn compare(found: &Tallies, meant: &Tallies, step: f64) -> Result<(), String> {
    for layer in Layer::ALL {
        let one = |tallies: &Tallies| tallies.get(layer.name()).copied().unwrap_or_default();
        if let Some(difference) = one(found).differs(&one(meant), step) {
            return Err(format!("layer {} came back with {difference}", layer.name()));
        }
    }
    Ok(())
}

/// What a sheet's file is meant to hold.
fn meant(sheet: &SheetPaths) -> Tallies {
    let mut tallies = Tallies::new();
    for stroke in &sheet.strokes {
        let tally = tallies.entry(stroke.layer.name()).or_default();
        match &stroke.run {
            Run::Straight(pieces) => {
                for &(from, to) in pieces {
                    tally.open += 1;
                    tally.edge(Edge { from, to, bulge: 0.0 });
                }
            }
            Run::Closed(contour) => {
                tally.closed += 1;
                tally.area += contour.area();
                contour.edges().for_each(|edge| tally.edge(edge));
            }
            Run::Open(edges) => {
                tally.open += 1;
                for &edge in edges {
                    tally.edge(edge);
                }
            }
        }
    }
    tallies
}

/// Reads a DXF file back.
///
/// # Errors
/// What is not as it was meant.
pub(super) fn dxf(text: &str, sheet: &SheetPaths) -> Result<(), String> {
    let drawing = dxf::Drawing::load(&mut text.as_bytes()).map_err(|error| format!("it can't be read: {error}"))?;
    let mut found = Tallies::new();
    for entity in drawing.entities() {
        let layer =
            layer_name(&entity.common.layer).ok_or_else(|| format!("it has a layer {}", entity.common.layer))?;
        let tally = found.entry(layer).or_default();
        match &entity.specific {
            EntityType::Line(line) => {
                tally.open += 1;
                tally.edge(Edge {
                    from: Point::new(line.p1.x, line.p1.y),
                    to: Point::new(line.p2.x, line.p2.y),
                    bulge: 0.0,
                });
            }
            EntityType::LwPolyline(line) => {
                let corners = line
                    .vertices
                    .iter()
                    .map(|corner| Vertex { at: Point::new(corner.x, corner.y), bulge: corner.bulge });
                tally.polyline(&corners.collect::<Vec<_>>(), line.is_closed());
            }
            EntityType::Polyline(line) => {
                let corners = line
                    .vertices()
                    .map(|corner| Vertex { at: Point::new(corner.location.x, corner.location.y), bulge: corner.bulge });
                tally.polyline(&corners.collect::<Vec<_>>(), line.is_closed());
            }
            _ => return Err("it has an entity that was never meant".into()),
        }
    }
    let meant = meant(sheet);
    compare(&found, &meant, 1e-6)?;
    header(&drawing.header, &meant)
}

/// The unit and the box that other programs zoom to.
fn header(header: &Header, meant: &Tallies) -> Result<(), String> {
    let old = header.version <= AcadVersion::R12;
    if !old && (header.default_drawing_units, header.drawing_units) != (Units::Millimeters, DrawingUnits::Metric) {
        return Err("it is not in millimetres".into());
    }
    let extent = meant.values().filter_map(|tally| tally.extent).reduce(|all, one| all.union(one));
    let Some(extent) = extent else { return Ok(()) };
    let (low, high) = (&header.minimum_drawing_extents, &header.maximum_drawing_extents);
    let apart = [(low.x, extent.x0), (low.y, extent.y0), (high.x, extent.x1), (high.y, extent.y1)];
    let far = apart.iter().any(|(found, wanted)| (found - wanted).abs() > 0.001);
    if far { Err("its header names another extent than it has".into()) } else { Ok(()) }
}

impl Tally {
    fn polyline(&mut self, corners: &[Vertex], closed: bool) {
        if closed {
            self.closed += 1;
            self.area += Contour::new(corners.iter().map(|corner| (corner.at.x, corner.at.y, corner.bulge))).area();
        } else {
            self.open += 1;
        }
        let ends = corners.iter().skip(1).chain(corners.first().filter(|_| closed));
        for (corner, next) in corners.iter().zip(ends) {
            self.edge(Edge { from: corner.at, to: next.at, bulge: corner.bulge });
        }
    }
}

/// Reads an SVG file back.
///
/// # Errors
/// What is not as it was meant.
pub(super) fn svg(text: &str, sheet: &SheetPaths, cutter: &Cutter) -> Result<(), String> {
    let (scale, _) = unit(cutter.svg_units);
    let mut found = Tallies::new();
    let mut layer = None;
    let mut groups = Vec::new();
    for event in svg::read(text).map_err(|error| error.to_string())? {
        match event {
            Event::Error(error) => return Err(format!("it can't be read: {error}")),
            Event::Tag("g", _, attributes) => {
                if let Some(name) = attributes.get("id") {
                    layer = layer_name(name);
                    groups.push(name.to_string());
                }
            }
            Event::Tag("path", _, attributes) => {
                let layer = layer.ok_or("it has a path outside its layers")?;
                let data = attributes.get("d").ok_or("it has a path without data")?;
                let data = Data::parse(data).map_err(|error| format!("it has a path that can't be read: {error}"))?;
                found.entry(layer).or_default().path(&data, scale, sheet.height)?;
            }
            _ => {}
        }
    }
    if groups != ["draw", "score", "cut"] {
        return Err(format!("it has the groups {}", groups.join(", ")));
    }
    // Four decimals of the file's unit, and the reader's single precision.
    compare(&found, &meant(sheet), 1e-4 / scale + 1e-7 * sheet.width.max(sheet.height))
}

impl Tally {
    fn path(&mut self, data: &Data, scale: f64, height: f64) -> Result<(), String> {
        let point = |x: f32, y: f32| Point::new(f64::from(x) / scale, height - f64::from(y) / scale);
        let line = |from: Point, to: Point| Edge { from, to, bulge: 0.0 };
        let strange = || "it has a path that was never meant".to_owned();
        let (mut start, mut at) = (None, None);
        // Twice the area, by Green's theorem.
        let mut swept = 0.0;
        for command in data.iter() {
            match command {
                Command::Move(Position::Absolute, numbers) => {
                    let [x, y] = numbers[..] else { return Err(strange()) };
                    self.open += 1;
                    start = Some(point(x, y));
                    at = start;
                    swept = 0.0;
                }
                Command::Line(Position::Absolute, numbers) => {
                    let ([x, y], Some(from)) = (&numbers[..], at) else { return Err(strange()) };
                    let to = point(*x, *y);
                    self.edge(line(from, to));
                    swept += from.to_vec2().cross(to.to_vec2());
                    at = Some(to);
                }
                Command::EllipticalArc(Position::Absolute, numbers) => {
                    let Some(from) = at else { return Err(strange()) };
                    let (to, bow) = self.arc(from, numbers, scale, &point).ok_or_else(strange)?;
                    swept += from.to_vec2().cross(to.to_vec2()) + 2.0 * bow;
                    at = Some(to);
                }
                Command::Close => {
                    let (Some(first), Some(last)) = (start, at) else { return Err(strange()) };
                    self.open -= 1;
                    self.closed += 1;
                    self.area += f64::midpoint(swept, last.to_vec2().cross(first.to_vec2()));
                    // Where an arc closes the contour, Z draws nothing.
                    if first.distance(last) > 1e-3 {
                        self.edge(line(last, first));
                    }
                    at = start;
                }
                _ => return Err(strange()),
            }
        }
        Ok(())
    }

    /// Adds an arc; gives its end, and the area between it and its chord.
    fn arc(
        &mut self,
        from: Point,
        numbers: &Parameters,
        scale: f64,
        point: &impl Fn(f32, f32) -> Point,
    ) -> Option<(Point, f64)> {
        let [across, down, _, large, sweep, x, y] = numbers[..] else { return None };
        let to = point(x, y);
        let arc = lyon_geom::SvgArc {
            from: lyon_geom::point(from.x, from.y),
            to: lyon_geom::point(to.x, to.y),
            radii: lyon_geom::vector(f64::from(across) / scale, f64::from(down) / scale),
            x_rotation: lyon_geom::Angle::zero(),
            // The frame is turned over, so an arc that sweeps one way in the file sweeps the other way here.
            flags: lyon_geom::ArcFlags { large_arc: large != 0.0, sweep: sweep == 0.0 },
        };
        let arc = arc.to_arc();
        let bounds = arc.bounding_box();
        self.add(
            arc.radii.x * arc.sweep_angle.radians.abs(),
            Rect::new(bounds.min.x, bounds.min.y, bounds.max.x, bounds.max.y),
        );
        let angle = arc.sweep_angle.radians;
        Some((to, arc.radii.x * arc.radii.y * (angle - angle.sin()) / 2.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::net::Sense;
    use crate::toolpath::Stroke;
    use crate::write;

    /// A part with a round hole and a score.
    fn sheet() -> SheetPaths {
        let stroke = |layer, fold, run| Stroke { layer, part: 0, copy: 1, fold, run };
        let strokes = vec![
            stroke(
                Layer::Score,
                Some(Sense::Valley),
                Run::Straight(vec![(Point::new(10.0, 20.0), Point::new(60.0, 20.0))]),
            ),
            stroke(Layer::Cut, None, Run::Closed(Contour::circle(Point::new(30.0, 40.0), 5.0).reversed())),
            stroke(Layer::Cut, None, Run::Closed(Contour::rectangle(10.0, 10.0, 50.0, 60.0))),
        ];
        SheetPaths { name: "card-01".into(), times: 1, width: 100.0, height: 120.0, strokes }
    }

    /// Each fault is planted in a sound file, and must be found in what is read back.
    fn bites(sound: &str, prove: impl Fn(&str) -> Result<(), String>, faults: &[(&str, &str)]) {
        assert_eq!(prove(sound), Ok(()));
        for (from, to) in faults {
            assert!(sound.contains(from), "no {from:?} to spoil in {sound}");
            assert!(prove(&sound.replacen(from, to, 1)).is_err(), "{from:?} became {to:?} unnoticed");
        }
    }

    #[test]
    fn a_spoilt_svg_is_found() {
        let (sheet, cutter) = (sheet(), Cutter::default());
        let text = write::svg("A title", &[], &sheet, &cutter);
        let faults = [
            ("L60 100", "L61 100"),
            ("A5 5 0 0 1", "A5 5 0 0 0"),
            (" Z", ""),
            ("<g id=\"score\">", "<g id=\"cuts\">"),
            ("M10 110", "M10 109"),
            ("</svg>", "<"),
        ];
        bites(&text, |text| svg(text, &sheet, &cutter), &faults);
    }

    #[test]
    fn a_spoilt_dxf_is_found() {
        for version in ["R12", "R2000", "R2018"] {
            let (sheet, cutter) = (sheet(), Cutter { dxf_version: version, ..Cutter::default() });
            let text = write::dxf(&sheet, &cutter);
            let faults = [
                ("\r\n60\r\n", "\r\n61\r\n"),
                ("\r\nLINE\r\n", "\r\nPOINT\r\n"),
                ("\r\n-0.414213562373\r\n", "\r\n0.414213562373\r\n"),
                ("\r\n70\r\n1\r\n10\r\n35\r\n", "\r\n70\r\n0\r\n10\r\n35\r\n"),
                ("8\r\nscore\r\n", "8\r\ncut\r\n"),
            ];
            let present: Vec<(&str, &str)> = faults.into_iter().filter(|(from, _)| text.contains(from)).collect();
            assert!(present.len() >= 4, "{version}: only {present:?}");
            bites(&text, |text| dxf(text, &sheet), &present);
        }
    }
}
