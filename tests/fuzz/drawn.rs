// SPDX-License-Identifier: MIT
//! Drawings that are brought along: SVG and DXF.

use super::corpus::Corpus;
use super::draws::Draws;
use super::{Answer, Target, reasoned, spoil, told};
use hingeleaf::contour::Contour;
use hingeleaf::outline::{AskedOutline, DrawnShape, drawing, read};
use std::fmt::Write;

/// Pieces of SVG.
const SVG: [&str; 44] = [
    "M",
    "m",
    "L",
    "H",
    "v",
    "C",
    "S",
    "Q",
    "t",
    "A",
    "a",
    "Z",
    " ",
    ",",
    "-",
    ".5",
    "1e9",
    "1e-9",
    "1e400",
    "0",
    "10",
    "nan",
    "<g>",
    "</g>",
    "<path d=\"M0 0 L9 0 L9 9 Z\"/>",
    "<circle r=\"5\"/>",
    "<rect width=\"9\" height=\"9\"/>",
    "transform=\"scale(0)\"",
    "transform=\"rotate(45)\"",
    "transform=\"matrix(1 2 3 4 5 6)\"",
    "transform=\"skewX(90)\"",
    "viewBox=\"0 0 0 0\"",
    "width=\"1e9mm\"",
    "<use href=\"#a\"/>",
    "id=\"a\"",
    "<!--",
    "-->",
    "<![CDATA[",
    "&lt;",
    "&a;",
    "<svg>",
    "\"",
    ">",
    "</svg>",
];

/// Pieces of DXF.
const DXF: [&str; 30] = [
    "0\n",
    "10\n",
    "20\n",
    "42\n",
    "70\n",
    "8\n",
    "LINE\n",
    "ARC\n",
    "CIRCLE\n",
    "LWPOLYLINE\n",
    "SPLINE\n",
    "ELLIPSE\n",
    "INSERT\n",
    "BLOCK\n",
    "ENDBLK\n",
    "ENDSEC\n",
    "SECTION\n",
    "EOF\n",
    "VERTEX\n",
    "SEQEND\n",
    "1e308\n",
    "-1\n",
    "0.0\n",
    "99999999999\n",
    "nan\n",
    "90\n",
    "72\n",
    "73\n",
    "\r\n",
    "\u{0}",
];

/// Sound shapes to spoil, beside the drawings that there are.
const SHAPES: [&str; 5] = [
    "<path d=\"M10 10 H60 V50 H10 Z\"/><circle cx=\"30\" cy=\"30\" r=\"5\"/>",
    "<path d=\"M10 60 C30 33 50 33 70 60 Z\" transform=\"rotate(30 40 50)\"/>",
    "<g transform=\"translate(3 4)\"><ellipse cx=\"50\" cy=\"40\" rx=\"40\" ry=\"15\"/></g>",
    "<polygon points=\"0,0 40,0 40,30\"/><g id=\"scores\"><line x1=\"0\" y1=\"0\" x2=\"40\" y2=\"30\"/></g>",
    "<path d=\"M20 40 A20 20 0 0 1 60 40 Q50 60 40 40 T20 40 Z\"/>",
];

fn head(inside: &str) -> String {
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"100mm\" height=\"80mm\" viewBox=\"0 0 100 80\">{inside}</svg>"
    )
}

pub(crate) fn svg() -> Target {
    let corpus = Corpus::new();
    let mut seeds: Vec<Vec<u8>> =
        corpus.under(&["drawn", "kinds", "broken/kinds", "outlines"], "svg").map(|(_, bytes)| bytes.to_vec()).collect();
    seeds.extend(SHAPES.map(|shape| head(shape).into_bytes()));
    let make = move |draws: &mut Draws| {
        if draws.once_in(4) {
            // A path of random commands.
            let path: String = (0..=draws.below(20)).map(|_| command(draws)).collect();
            return head(&format!("<path d=\"M5 5 {path} Z\"/>")).into_bytes();
        }
        let seed = draws.pick(&seeds);
        spoil::letters(seed, &SVG, draws)
    };
    Target { make: Box::new(make), run: Box::new(|bytes| shape("a.svg", bytes)) }
}

fn command(draws: &mut Draws) -> String {
    const COMMANDS: [(char, usize); 16] = [
        ('L', 2),
        ('l', 2),
        ('H', 1),
        ('h', 1),
        ('V', 1),
        ('v', 1),
        ('C', 6),
        ('c', 6),
        ('S', 4),
        ('s', 4),
        ('Q', 4),
        ('q', 4),
        ('T', 2),
        ('t', 2),
        ('M', 2),
        ('Z', 0),
    ];
    if draws.once_in(6) {
        let far = |draws: &mut Draws| draws.below(90);
        return format!(
            "A{} {} {} {} {} {} {} ",
            far(draws),
            far(draws),
            far(draws),
            draws.below(2),
            draws.below(2),
            far(draws),
            far(draws)
        );
    }
    let (letter, count) = draws.pick(&COMMANDS);
    let mut text = letter.to_string();
    for _ in 0..count {
        let _ = match draws.below(12) {
            0 => write!(text, "{} ", draws.pick(&["1e9", "-1e9", "1e-9", "0", "1e300", "-0"])),
            1..=3 => write!(text, "-{} ", draws.below(60)),
            _ => write!(text, "{}.{} ", draws.below(90), draws.below(100)),
        };
    }
    text
}

pub(crate) fn dxf() -> Target {
    let corpus = Corpus::new();
    let mut seeds: Vec<Vec<u8>> =
        corpus.under(&["drawn", "kinds", "outlines"], "dxf").map(|(_, bytes)| bytes.to_vec()).collect();
    seeds.extend(ENTITIES.map(|entities| of_entities(entities).into_bytes()));
    let make = move |draws: &mut Draws| {
        let seed = draws.pick(&seeds);
        if draws.once_in(2) {
            return spoil::letters(seed, &DXF, draws);
        }
        // Lines of it lost, doubled, or other numbers.
        let text = String::from_utf8_lossy(&seed).into_owned();
        let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
        for _ in 0..=draws.below(4) {
            let at = draws.below(lines.len());
            match draws.below(4) {
                0 => drop(lines.remove(at)),
                1 => {
                    let line = draws.pick(&lines);
                    lines.insert(at, line);
                }
                2 => {
                    let line =
                        draws.pick(&["0", "-1", "1e9", "1e308", "1", "2", "3", "70", "42", "0.5", "LINE", "ARC", ""]);
                    line.clone_into(&mut lines[at]);
                }
                _ => {
                    let other = draws.below(lines.len());
                    lines.swap(at, other);
                }
            }
            if lines.is_empty() {
                break;
            }
        }
        lines.join("\n").into_bytes()
    };
    Target { make: Box::new(make), run: Box::new(|bytes| shape("a.dxf", bytes)) }
}

/// One of every thing that is drawn, each word a line.
const ENTITIES: [&str; 4] = [
    "0 LWPOLYLINE 8 cut 90 4 70 1 10 0 20 0 42 0.5 10 50 20 0 10 50 20 40 42 -0.2 10 0 20 40",
    "0 CIRCLE 8 cut 10 20 20 20 40 15 0 LINE 8 score 10 0 20 0 11 40 21 40",
    "0 ARC 8 cut 10 20 20 20 40 15 50 0 51 180 0 LINE 8 cut 10 5 20 20 11 35 21 20 0 ELLIPSE 8 b 10 90 20 20 11 9 21 0 40 0.5 41 0 42 6.283185307",
    "0 SPLINE 8 cut 70 8 71 3 72 8 73 4 40 0 40 0 40 0 40 0 40 1 40 1 40 1 40 1 10 0 20 0 10 10 20 30 10 30 20 30 10 40 20 0 0 LINE 8 cut 10 40 20 0 11 0 21 0",
];

fn of_entities(entities: &str) -> String {
    let entities = entities.split_whitespace().collect::<Vec<_>>().join("\n");
    format!(
        "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n{entities}\n0\nENDSEC\n0\nEOF\n"
    )
}

fn shape(name: &str, bytes: &[u8]) -> Answer {
    let Ok(source) = drawing(name, bytes.to_vec()) else { return Ok(false) };
    let asked = AskedOutline::of(name);
    // Asked otherwise: it may only be told otherwise.
    let scored = read(&source, &asked.clone().scored("scores").wide(80.0));
    told(&scored.findings, false)?;
    let found = read(&source, &asked);
    // That no unit is known is told of the file that asks, which here is none.
    reasoned(found.value.as_ref(), &found.findings)
        .or_else(|wrong| if wrong.contains("has no place") { Ok(()) } else { Err(wrong) })?;
    let Some(found) = found.value else { return Ok(false) };
    let area = found.outline.area();
    if !(area.is_finite() && area > 0.0) || found.holes.iter().any(|hole| hole.area() >= 0.0) {
        return Err(format!(
            "an outline of {area} mm² with holes of {:?}",
            found.holes.iter().map(Contour::area).collect::<Vec<_>>()
        ));
    }
    if found.scores.iter().flatten().any(|point| !(point.x.is_finite() && point.y.is_finite())) {
        return Err("a score that ends nowhere".into());
    }
    again(&found).map(|()| true)
}

/// The shape drawn again as it was read.
fn again(found: &DrawnShape) -> Result<(), String> {
    let mut text = String::new();
    for contour in std::iter::once(&found.outline).chain(&found.holes) {
        let _ = write!(text, "<path d=\"{}\"/>", path(contour));
    }
    let bounds = found.outline.bounds();
    let (width, height) = (bounds.width(), bounds.height());
    let svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\">{text}</svg>"
    );
    let source = drawing("again.svg", svg.clone().into_bytes()).map_err(|_| "too large")?;
    let read = read(&source, &AskedOutline::of("again.svg"));
    let Some(other) = read.value else {
        let words: Vec<String> = read.findings.iter().map(hingeleaf::finding::Finding::headline).collect();
        return Err(format!("drawn again it is refused: {words:?} {svg}"));
    };
    let (one, two) = (found.outline.area(), other.outline.area());
    if (one - two).abs() > 1e-3 * (1.0 + found.outline.length()) || other.holes.len() != found.holes.len() {
        return Err(format!("drawn again it has {two} mm², not {one}: {svg}"));
    }
    Ok(())
}

/// A contour as SVG draws it; its up is down there.
fn path(contour: &Contour) -> String {
    let corners = contour.vertices();
    let mut text = String::new();
    for (number, vertex) in corners.iter().enumerate() {
        if number == 0 {
            let _ = write!(text, "M{} {}", vertex.at.x, -vertex.at.y);
        }
        let next = corners[(number + 1) % corners.len()].at;
        if vertex.bulge == 0.0 {
            let _ = write!(text, " L{} {}", next.x, -next.y);
        } else {
            // The radius by chord and bulge: c (1 + b²) / 4 |b|.
            let chord = (next - vertex.at).hypot();
            let radius = chord * (1.0 + vertex.bulge * vertex.bulge) / (4.0 * vertex.bulge.abs());
            let sweep = u8::from(vertex.bulge < 0.0);
            let _ = write!(text, " A{radius} {radius} 0 0 {sweep} {} {}", next.x, -next.y);
        }
    }
    text + " Z"
}
