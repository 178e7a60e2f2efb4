// SPDX-License-Identifier: MIT
//! The curves of one SVG shape, in its own frame.

use super::curve::Curve;
use crate::contour::{Point, Vec2};
use roxmltree::Node;
use svgtypes::{Length, LengthUnit, PathParser, PathSegment, PointsParser};

/// Curves drawn in one go, and whether they are closed.
pub(super) type Runs = Vec<(Vec<Curve>, bool)>;

/// An attribute that can't be read.
pub(super) struct BadAttribute {
    pub attribute: &'static str,
    pub value: String,
}

/// A shape's runs.
///
/// # Errors
/// The attribute that can't be read.
pub(super) fn runs(node: Node<'_, '_>) -> Result<Runs, BadAttribute> {
    let number = |attribute: &'static str| number(node, attribute);
    let polygon = |closed| {
        let text = node.attribute("points").unwrap_or_default();
        let points: Vec<Point> = PointsParser::from(text).map(|(x, y)| Point::new(x, y)).collect();
        let mut curves: Vec<Curve> = points.windows(2).map(|pair| Curve::Line([pair[0], pair[1]])).collect();
        if let Some((first, last)) = points.first().zip(points.last()).filter(|_| closed) {
            curves.push(Curve::Line([*last, *first]));
        }
        vec![(curves, closed)]
    };
    Ok(match node.tag_name().name() {
        "path" => path(node.attribute("d").unwrap_or_default())?,
        "line" => {
            let from = Point::new(number("x1")?.unwrap_or(0.0), number("y1")?.unwrap_or(0.0));
            let to = Point::new(number("x2")?.unwrap_or(0.0), number("y2")?.unwrap_or(0.0));
            vec![(vec![Curve::Line([from, to])], false)]
        }
        "polyline" => polygon(false),
        "polygon" => polygon(true),
        "rect" => {
            let [x, y] = [number("x")?.unwrap_or(0.0), number("y")?.unwrap_or(0.0)];
            let [width, height] = [number("width")?.unwrap_or(0.0), number("height")?.unwrap_or(0.0)];
            // One radius stands for both (SVG 1.1, 9.2).
            let (rx, ry) = (number("rx")?, number("ry")?);
            let radius = |own: Option<f64>, other: Option<f64>, most: f64| {
                own.or(other).unwrap_or(0.0).clamp(0.0, most.max(0.0))
            };
            let round = (radius(rx, ry, width / 2.0), radius(ry, rx, height / 2.0));
            rectangle(Point::new(x, y), Vec2::new(width, height), round)
        }
        "circle" | "ellipse" => {
            let centre = Point::new(number("cx")?.unwrap_or(0.0), number("cy")?.unwrap_or(0.0));
            let radius = number("r")?;
            let rx = radius.or(number("rx")?).unwrap_or(0.0);
            let ry = radius.or(number("ry")?).unwrap_or(0.0);
            if rx > 0.0 && ry > 0.0 { vec![(vec![Curve::ellipse(centre, rx, ry)], true)] } else { Vec::new() }
        }
        _ => Vec::new(),
    })
}

/// A length in user units; units of paper count 1/96 in (CSS Values 3, 5.2).
fn number(node: Node<'_, '_>, attribute: &'static str) -> Result<Option<f64>, BadAttribute> {
    let Some(text) = node.attribute(attribute) else { return Ok(None) };
    let fault = || BadAttribute { attribute, value: text.to_owned() };
    let length: Length = text.trim().parse().map_err(|_| fault())?;
    let px = match length.unit {
        LengthUnit::None | LengthUnit::Px => 1.0,
        LengthUnit::Mm => 96.0 / 25.4,
        LengthUnit::Cm => 960.0 / 25.4,
        LengthUnit::In => 96.0,
        LengthUnit::Pt => 96.0 / 72.0,
        LengthUnit::Pc => 16.0,
        _ => return Err(fault()),
    };
    Ok(Some(length.number * px))
}

fn rectangle(at: Point, size: Vec2, (rx, ry): (f64, f64)) -> Runs {
    if size.x <= 0.0 || size.y <= 0.0 {
        return Vec::new();
    }
    let corner = |x: f64, y: f64| at + Vec2::new(x, y);
    let mut curves = Vec::new();
    let quarter = std::f64::consts::FRAC_PI_2;
    let sides = [
        ([corner(rx, 0.0), corner(size.x - rx, 0.0)], corner(size.x - rx, ry), -quarter),
        ([corner(size.x, ry), corner(size.x, size.y - ry)], corner(size.x - rx, size.y - ry), 0.0),
        ([corner(size.x - rx, size.y), corner(rx, size.y)], corner(rx, size.y - ry), quarter),
        ([corner(0.0, size.y - ry), corner(0.0, ry)], corner(rx, ry), 2.0 * quarter),
    ];
    for (side, centre, start) in sides {
        curves.push(Curve::Line(side));
        if rx > 0.0 && ry > 0.0 {
            let (across, up) = (Vec2::new(rx, 0.0), Vec2::new(0.0, ry));
            curves.push(Curve::Round { centre, across, up, start, sweep: quarter });
        }
    }
    vec![(curves, true)]
}

/// The pen that follows path data.
struct PathPen {
    runs: Runs,
    /// Where the run began, and where the pen is.
    start: Point,
    at: Point,
    /// The point that a smooth curve mirrors, of a cubic or a quadratic one.
    cubic: Option<Point>,
    quadratic: Option<Point>,
}

fn path(data: &str) -> Result<Runs, BadAttribute> {
    let mut pen = PathPen { runs: Vec::new(), start: Point::ORIGIN, at: Point::ORIGIN, cubic: None, quadratic: None };
    for segment in PathParser::from(data) {
        let segment = segment.map_err(|_| BadAttribute { attribute: "d", value: data.to_owned() })?;
        pen.follow(segment);
    }
    pen.runs.retain(|(curves, _)| !curves.is_empty());
    Ok(pen.runs)
}

impl PathPen {
    fn draw(&mut self, curve: Curve, to: Point) {
        if !matches!(self.runs.last(), Some((_, false))) {
            self.runs.push((Vec::new(), false));
        }
        if let Some((curves, _)) = self.runs.last_mut() {
            curves.push(curve);
        }
        self.at = to;
    }

    fn line(&mut self, to: Point) {
        self.draw(Curve::Line([self.at, to]), to);
    }

    fn follow(&mut self, segment: PathSegment) {
        let (start, at) = (self.start, self.at);
        let (cubic, quadratic) = (self.cubic.take(), self.quadratic.take());
        let point = |abs: bool, x: f64, y: f64| if abs { Point::new(x, y) } else { at + Vec2::new(x, y) };
        let mirrored = |handle: Option<Point>| handle.map_or(at, |handle| at + (at - handle));
        match segment {
            PathSegment::MoveTo { abs, x, y } => {
                self.at = point(abs, x, y);
                self.start = self.at;
                self.runs.push((Vec::new(), false));
            }
            PathSegment::LineTo { abs, x, y } => self.line(point(abs, x, y)),
            PathSegment::HorizontalLineTo { abs, x } => self.line(Point::new(if abs { x } else { at.x + x }, at.y)),
            PathSegment::VerticalLineTo { abs, y } => self.line(Point::new(at.x, if abs { y } else { at.y + y })),
            PathSegment::CurveTo { abs, x1, y1, x2, y2, x, y } => {
                self.curve([point(abs, x1, y1), point(abs, x2, y2), point(abs, x, y)]);
            }
            PathSegment::SmoothCurveTo { abs, x2, y2, x, y } => {
                self.curve([mirrored(cubic), point(abs, x2, y2), point(abs, x, y)]);
            }
            PathSegment::Quadratic { abs, x1, y1, x, y } => self.bend(point(abs, x1, y1), point(abs, x, y)),
            PathSegment::SmoothQuadratic { abs, x, y } => self.bend(mirrored(quadratic), point(abs, x, y)),
            PathSegment::EllipticalArc { abs, rx, ry, x_axis_rotation, large_arc, sweep, x, y } => {
                let to = point(abs, x, y);
                self.draw(arc(at, (rx, ry), x_axis_rotation, (large_arc, sweep), to), to);
            }
            PathSegment::ClosePath { .. } => {
                if at != start {
                    self.line(start);
                }
                if let Some((_, closed)) = self.runs.last_mut() {
                    *closed = true;
                }
                self.at = start;
            }
        }
    }

    fn curve(&mut self, [one, two, to]: [Point; 3]) {
        self.draw(Curve::bezier(&[self.at, one, two, to]), to);
        self.cubic = Some(two);
    }

    fn bend(&mut self, handle: Point, to: Point) {
        self.draw(Curve::bezier(&[self.at, handle, to]), to);
        self.quadratic = Some(handle);
    }
}

/// An arc from its end points (SVG 1.1, F.6.5 and F.6.6).
fn arc(from: Point, radii: (f64, f64), degrees: f64, (large_arc, sweep): (bool, bool), to: Point) -> Curve {
    let given = kurbo::SvgArc {
        from,
        to,
        radii: Vec2::new(radii.0.abs(), radii.1.abs()),
        x_rotation: degrees.to_radians(),
        large_arc,
        sweep,
    };
    let Some(arc) = kurbo::Arc::from_svg_arc(&given) else { return Curve::Line([from, to]) };
    let (sine, cosine) = arc.x_rotation.sin_cos();
    Curve::Round {
        centre: arc.center,
        across: Vec2::new(cosine, sine) * arc.radii.x,
        up: Vec2::new(-sine, cosine) * arc.radii.y,
        start: arc.start_angle,
        sweep: arc.sweep_angle,
    }
}
