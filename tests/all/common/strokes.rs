// SPDX-License-Identifier: MIT
//! Strokes as other programs read them from SVG and DXF files.

use dxf::entities::EntityType;
use std::collections::BTreeMap;
use svg::node::element::tag::Type;
use svg::parser::Event;

/// A stroke as a file has it: corners with the bulge of the edge that leaves each, in mm with y up.
#[derive(Clone, Debug)]
pub(crate) struct Stroke {
    pub(crate) layer: String,
    pub(crate) closed: bool,
    pub(crate) corners: Vec<[f64; 3]>,
}

/// What an SVG file holds.
#[derive(Debug)]
pub(crate) struct Svg {
    pub(crate) root: BTreeMap<String, String>,
    pub(crate) title: String,
    pub(crate) groups: Vec<String>,
    pub(crate) strokes: Vec<Stroke>,
    pub(crate) paths: Vec<(String, BTreeMap<String, String>)>,
}

/// Reads an SVG file whose unit is `unit` mm.
pub(crate) fn read_svg(text: &str, unit: f64) -> Svg {
    let mut svg =
        Svg { root: BTreeMap::new(), title: String::new(), groups: Vec::new(), strokes: Vec::new(), paths: Vec::new() };
    let mut height = 0.0;
    for event in svg::read(text).unwrap() {
        match event {
            Event::Tag("svg", Type::Start, attributes) => {
                svg.root = attributes.iter().map(|(name, value)| (name.clone(), value.to_string())).collect();
                height = svg.root["viewBox"].rsplit(' ').next().unwrap().parse().unwrap();
            }
            Event::Tag("g", Type::Start, attributes) => {
                svg.groups.push(attributes["id"].to_string());
                assert_eq!(attributes.len(), 1, "a group has its id and nothing else");
            }
            Event::Tag("path", Type::Empty, attributes) => {
                let layer = svg.groups.last().unwrap().clone();
                svg.strokes.extend(subpaths(&attributes["d"], &layer, height, unit));
                let attributes = attributes.iter().map(|(name, value)| (name.clone(), value.to_string())).collect();
                svg.paths.push((layer, attributes));
            }
            Event::Text(text) => svg.title += text,
            Event::Tag("svg" | "g" | "title", ..) => {}
            other => panic!("{other:?} has no place here"),
        }
    }
    svg
}

/// The commands of path data, each with its numbers.
fn commands(data: &str) -> Vec<(char, Vec<f64>)> {
    let mut commands: Vec<(char, Vec<f64>)> = Vec::new();
    for word in data.split(' ') {
        let number = word.trim_start_matches(|c: char| c.is_ascii_uppercase());
        assert!(word.len() - number.len() <= 1, "{word} in {data}");
        commands.extend(word.chars().next().filter(char::is_ascii_uppercase).map(|letter| (letter, Vec::new())));
        if !number.is_empty() {
            commands.last_mut().unwrap().1.push(number.parse().unwrap());
        }
    }
    commands
}

/// SVG 1.1, 8.3.8 and F.6: sweep 1 goes the way of growing angles, which with y down is clockwise to the eye.
fn subpaths(data: &str, layer: &str, height: f64, unit: f64) -> Vec<Stroke> {
    let mut strokes: Vec<Stroke> = Vec::new();
    let place = |x: f64, y: f64| [x * unit, (height - y) * unit, 0.0];
    for (letter, numbers) in commands(data) {
        match (letter, &numbers[..]) {
            ('M', &[x, y]) => {
                strokes.push(Stroke { layer: layer.into(), closed: false, corners: vec![place(x, y)] });
            }
            ('L', &[x, y]) => strokes.last_mut().unwrap().corners.push(place(x, y)),
            ('A', &[rx, ry, turn, large, sweep, x, y]) => {
                let corners = &mut strokes.last_mut().unwrap().corners;
                assert!((rx - ry).abs() < 1e-9 && rx > 0.0 && turn == 0.0 && large == 0.0, "{numbers:?}");
                let (from, to) = (*corners.last().unwrap(), place(x, y));
                let half = ((to[0] - from[0]).hypot(to[1] - from[1]) / 2.0 / (rx * unit)).min(1.0).asin();
                corners.last_mut().unwrap()[2] = (half / 2.0).tan() * if sweep == 0.0 { 1.0 } else { -1.0 };
                corners.push(to);
            }
            ('C', &[x1, y1, x2, y2, x, y]) => {
                let corners = &mut strokes.last_mut().unwrap().corners;
                let from = *corners.last().unwrap();
                corners.extend(bezier([from, place(x1, y1), place(x2, y2), place(x, y)]));
            }
            ('Z', []) => {
                let stroke = strokes.last_mut().unwrap();
                stroke.closed = true;
                let (first, last) = (stroke.corners[0], *stroke.corners.last().unwrap());
                if (first[0] - last[0]).hypot(first[1] - last[1]) < 1e-9 {
                    stroke.corners.pop();
                }
            }
            other => panic!("{other:?} has no place here"),
        }
    }
    strokes
}

/// A cubic as 32 short lines, without its start.
fn bezier(ends: [[f64; 3]; 4]) -> Vec<[f64; 3]> {
    let at = |t: f64| {
        let weights = [(1.0 - t).powi(3), 3.0 * t * (1.0 - t).powi(2), 3.0 * t * t * (1.0 - t), t.powi(3)];
        let sum = |axis: usize| ends.iter().zip(weights).map(|(end, weight)| end[axis] * weight).sum();
        [sum(0), sum(1), 0.0]
    };
    (1..=32).map(|step| at(f64::from(step) / 32.0)).collect()
}

pub(crate) fn read_dxf(text: &str) -> Vec<Stroke> {
    let drawing = dxf::Drawing::load(&mut text.as_bytes()).unwrap();
    drawing
        .entities()
        .map(|entity| {
            let (closed, corners) = match &entity.specific {
                EntityType::LwPolyline(line) => {
                    (line.is_closed(), line.vertices.iter().map(|vertex| [vertex.x, vertex.y, vertex.bulge]).collect())
                }
                EntityType::Polyline(line) => (
                    line.is_closed(),
                    line.vertices().map(|vertex| [vertex.location.x, vertex.location.y, vertex.bulge]).collect(),
                ),
                EntityType::Line(line) => (false, vec![[line.p1.x, line.p1.y, 0.0], [line.p2.x, line.p2.y, 0.0]]),
                EntityType::Arc(arc) => {
                    let end = |degrees: f64, bulge| {
                        let (sin, cos) = degrees.to_radians().sin_cos();
                        [arc.center.x + arc.radius * cos, arc.center.y + arc.radius * sin, bulge]
                    };
                    let turn = (arc.end_angle - arc.start_angle).rem_euclid(360.0).to_radians();
                    (false, vec![end(arc.start_angle, (turn / 4.0).tan()), end(arc.end_angle, 0.0)])
                }
                EntityType::Spline(curve) => {
                    let ends: Vec<[f64; 3]> = curve.control_points.iter().map(|at| [at.x, at.y, 0.0]).collect();
                    let cubics = ends.windows(4).step_by(3).map(|ends| bezier(ends.try_into().unwrap()));
                    (false, std::iter::once(ends[0]).chain(cubics.flatten()).collect())
                }
                other => panic!("{other:?} has no place here"),
            };
            Stroke { layer: entity.common.layer.clone(), closed, corners }
        })
        .collect()
}
