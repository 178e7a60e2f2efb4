// SPDX-License-Identifier: MIT
//! Outlines from drawings: what comes out is what was drawn, and whatever is wrong with a drawing is told at its place.
//! Areas and lengths are worked out by hand; `tests/outside/test_outline.py` holds curves against other people's libraries.

use crate::common::{TempDir, hingeleaf, project};
use hingeleaf::finding::{Checked, Finding};
use hingeleaf::outline::{AskedOutline, DrawnShape, DrawnUnit, drawing, read};
use hingeleaf::words::{self, Voice};
use std::f64::consts::PI;
use std::fmt::Write;
use std::path::Path;

fn of(name: &str, text: &str, asked: &AskedOutline) -> Checked<DrawnShape> {
    read(&drawing(name, text.into()).unwrap(), asked)
}

/// What comes of an SVG drawing of 100 x 80 mm, a unit to the mm.
fn svg(inside: &str) -> Checked<DrawnShape> {
    svg_with(inside, &AskedOutline::of("a.svg"))
}

fn svg_with(inside: &str, asked: &AskedOutline) -> Checked<DrawnShape> {
    of(
        "a.svg",
        &format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"100mm\" height=\"80mm\" viewBox=\"0 0 100 80\">\n{inside}\n</svg>"
        ),
        asked,
    )
}

fn dxf(entities: &str) -> Checked<DrawnShape> {
    of("a.dxf", &dxf_text("4", entities), &AskedOutline::of("a.dxf"))
}

/// A DXF file; each word of what is drawn is a line.
fn dxf_text(unit: &str, entities: &str) -> String {
    let entities = entities.split_whitespace().collect::<Vec<_>>().join("\n");
    format!(
        "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n{unit}\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n{entities}\n0\nENDSEC\n0\nEOF\n"
    )
}

fn near(found: f64, wanted: f64, by: f64) {
    assert!((found - wanted).abs() <= by, "{found} instead of {wanted}");
}

/// The findings in words.
fn said(findings: &[Finding]) -> String {
    let mut all = String::new();
    for finding in findings {
        let place = finding.place.as_ref().map_or(String::new(), ToString::to_string);
        let (text, help) = (words::say(&finding.text, Voice::File), words::say(&finding.help, Voice::File));
        writeln!(all, "{}[{}] {place}: {text}; {help}", finding.level.word(), finding.id).unwrap();
    }
    all
}

/// A sound shape that nothing is said of.
fn quiet(checked: Checked<DrawnShape>) -> DrawnShape {
    assert!(checked.findings.is_empty(), "{}", said(&checked.findings));
    checked.value.unwrap()
}

/// Refused, in these words.
fn refused(checked: &Checked<DrawnShape>, id: &str, words: &[&str]) {
    assert!(checked.value.is_none(), "it went through");
    tells(checked, id, words);
}

fn tells(checked: &Checked<DrawnShape>, id: &str, words: &[&str]) {
    let said = said(&checked.findings);
    assert!(checked.findings.iter().any(|finding| finding.id == id), "{said}");
    for word in words {
        assert!(said.contains(word), "{word} is not in:\n{said}");
    }
}

const SQUARE: &str = r#"<path d="M10 10 H60 V50 H10 Z"/>"#;

#[test]
fn every_basic_shape_is_read() {
    let area = |inside: &str| quiet(svg(inside)).outline.area();
    near(area(SQUARE), 50.0 * 40.0, 1e-9);
    near(area(r#"<path d="m10,10 50,0 0,40 -50,0z"/>"#), 2000.0, 1e-9);
    near(area(r#"<rect x="5" y="5" width="50" height="40"/>"#), 2000.0, 1e-9);
    // Four quarters of a circle lack (4 - pi) r².
    near(area(r#"<rect width="50" height="40" rx="5"/>"#), 2000.0 - (4.0 - PI) * 25.0, 1e-6);
    near(area(r#"<circle cx="50" cy="40" r="20"/>"#), 400.0 * PI, 1e-6);
    near(area(r#"<polygon points="0,0 40,0 40,30"/>"#), 600.0, 1e-9);
    // Ends that meet close it.
    near(area(r#"<polyline points="0,0 40,0 40,30 0,0"/>"#), 600.0, 1e-9);
    near(area(r#"<path d="M20 40 A20 20 0 0 1 60 40 Z"/>"#), 200.0 * PI, 1e-6);
    // pi a b, and 0.004 mm all round is the most that arcs may take from it or add.
    near(area(r#"<ellipse cx="50" cy="40" rx="40" ry="15"/>"#), 600.0 * PI, 0.004 * 185.0);
    // A parabola takes two thirds of its box's height times its width: control point 40 up is 20 high.
    near(area(r#"<path d="M10 60 Q40 20 70 60 Z"/>"#), 2.0 / 3.0 * 60.0 * 20.0, 0.004 * 150.0);
    near(area(r#"<path d="M10 60 C30 33.33333333 50 33.33333333 70 60 Z"/>"#), 2.0 / 3.0 * 60.0 * 20.0, 0.004 * 150.0);
}

#[test]
fn the_shape_stands_upright_with_its_lower_left_at_the_origin() {
    // The long side of this right-angled shape lies at the bottom of the drawing.
    let shape = quiet(svg(r#"<path d="M10 10 H20 V40 H50 V50 H10 Z"/>"#));
    assert_eq!((shape.outline.bounds().x0, shape.outline.bounds().y0), (0.0, 0.0));
    assert!(shape.outline.contains(hingeleaf::contour::Point::new(35.0, 5.0)));
    assert!(!shape.outline.contains(hingeleaf::contour::Point::new(35.0, 35.0)));
}

#[test]
fn transforms_of_groups_and_shapes_are_worked_in() {
    let plain = quiet(svg(SQUARE));
    let moved = r#"<g transform="translate(3 4) rotate(90)"><g transform="scale(.5)"><path transform="matrix(2 0 0 2 7 7)"
        d="M10 10 H60 V50 H10 Z"/></g></g>"#;
    let moved = quiet(svg(moved));
    let (one, two) = (plain.outline.bounds(), moved.outline.bounds());
    near(one.width(), two.height(), 1e-9);
    near(one.height(), two.width(), 1e-9);
    // A circle stretched one way is an ellipse, turned it is still one.
    let stretched = quiet(svg(r#"<circle r="10" transform="translate(50 40) rotate(30) scale(3 1)"/>"#));
    near(stretched.outline.area(), 300.0 * PI, 0.004 * 140.0);
}

#[test]
fn the_unit_is_the_drawings_or_asked_for() {
    let wide = |head: &str, asked: &AskedOutline| {
        let text = format!("<svg xmlns=\"http://www.w3.org/2000/svg\" {head}><rect width=\"48\" height=\"24\"/></svg>");
        of("a.svg", &text, asked)
    };
    let plain = AskedOutline::of("a.svg");
    let width = |head: &str, asked: &AskedOutline| quiet(wide(head, asked)).outline.bounds().width();
    near(width(r#"width="2in" height="1in" viewBox="0 0 96 48""#, &plain), 25.4, 1e-9);
    near(width(r#"width="20cm" viewBox="0 0 96 48""#, &plain), 100.0, 1e-9);
    near(width(r#"width="30mm" height="30mm""#, &plain), 12.7, 1e-9);
    near(width("", &plain.clone().in_unit(DrawnUnit::Px)), 12.7, 1e-9);
    near(width("", &plain.clone().in_unit(DrawnUnit::Mm)), 48.0, 1e-9);
    near(width("", &plain.clone().wide(80.0)), 80.0, 1e-9);
    // What is asked for wins over what the drawing says.
    near(width(r#"width="2in" viewBox="0 0 96 48""#, &plain.clone().wide(80.0)), 80.0, 1e-9);
    for head in ["", "viewBox=\"0 0 96 48\"", "width=\"100%\" height=\"100%\"", "width=\"96px\" height=\"48\""] {
        refused(&wide(head, &plain), "outline-no-unit", &["in which unit", "\"width\": \"80 mm\""]);
    }
    let lines = "0 LWPOLYLINE 70 1 10 0 20 0 10 2 20 0 10 2 20 3";
    let width =
        |unit: &str| quiet(of("a.dxf", &dxf_text(unit, lines), &AskedOutline::of("a.dxf"))).outline.bounds().width();
    near(width("1"), 50.8, 1e-9);
    near(width("4"), 2.0, 1e-9);
    near(width("5"), 20.0, 1e-9);
    refused(&of("a.dxf", &dxf_text("0", lines), &AskedOutline::of("a.dxf")), "outline-no-unit", &[]);
}

#[test]
fn holes_are_what_lies_within() {
    let shape = quiet(svg(&format!("{SQUARE}<circle cx=\"30\" cy=\"30\" r=\"5\"/>")));
    near(shape.outline.area(), 2000.0, 1e-9);
    assert_eq!(shape.holes.len(), 1);
    near(shape.holes[0].area(), -25.0 * PI, 1e-6);
    // Whichever way round they are drawn, and in one path.
    let shape = quiet(svg(r#"<path d="M10 10 V50 H60 V10 Z M20 20 h10 v10 h-10 z m20 0 v10 h10 v-10 z"/>"#));
    assert_eq!((shape.holes.len(), shape.outline.area() > 0.0), (2, true));
    assert!(shape.holes.iter().all(|hole| hole.area() < 0.0));
    let island =
        format!("{SQUARE}<circle cx=\"30\" cy=\"30\" r=\"9\"/>\n<circle id=\"isle\" cx=\"30\" cy=\"30\" r=\"2\"/>");
    refused(
        &svg(&island),
        "outline-island",
        &["circle isle", "fall out", "line 3", "20 mm from the left and 20 mm from the bottom"],
    );
}

#[test]
fn dxf_entities_are_read() {
    let area = |entities: &str| quiet(dxf(entities)).outline.area();
    near(area("0 LWPOLYLINE 5 2A 8 0 90 4 70 1 10 0 20 0 10 50 20 0 10 50 20 40 10 0 20 40"), 2000.0, 1e-9);
    near(area("0 CIRCLE 10 5 20 5 40 20"), 400.0 * PI, 1e-6);
    // A half circle on a line: bulge 1 is a half turn.
    near(area("0 LWPOLYLINE 70 1 10 0 20 0 42 0 10 40 20 0 42 1"), 200.0 * PI, 1e-6);
    near(area("0 LINE 10 0 20 0 11 40 21 0 0 ARC 10 20 20 0 40 20 50 0 51 180"), 200.0 * PI, 1e-6);
    let old = "0 POLYLINE 66 1 70 1 0 VERTEX 10 0 20 0 0 VERTEX 10 40 20 0 42 1 0 SEQEND";
    near(area(old), 200.0 * PI, 1e-6);
    near(area("0 ELLIPSE 10 0 20 0 11 40 21 0 40 0.375 41 0 42 6.283185307179586"), 600.0 * PI, 0.004 * 185.0);
    // Two quarter turns of a circle as a rational spline of degree 2, weights 1, cos 45°, 1; the chord closes it.
    let w = 0.5_f64.sqrt();
    let spline = format!(
        "0 LINE 10 -20 20 0 11 20 21 0 0 SPLINE 71 2 40 0 40 0 40 0 40 1 40 1 40 2 40 2 40 2 41 1 41 {w} 41 1 41 {w} 41 1
         10 20 20 0 10 20 20 20 10 0 20 20 10 -20 20 20 10 -20 20 0"
    );
    near(area(&spline), 200.0 * PI, 0.004 * 103.0);
    // Seen from below, x runs the other way: the bulge bows up all the same.
    let below = quiet(dxf("0 LWPOLYLINE 70 1 230 -1 10 0 20 0 10 -40 20 0 42 -1 10 -40 20 5 10 0 20 5"));
    near(below.outline.bounds().width(), 42.5, 1e-6);
}

/// One shape drawn both ways is one shape.
#[test]
fn svg_and_dxf_of_one_shape_are_one_shape() {
    let svg = quiet(svg(r#"<path d="M0 40 H60 V20 A20 20 0 0 0 40 0 H0 Z"/><circle cx="20" cy="20" r="6"/>"#));
    let dxf = quiet(dxf("0 LINE 10 0 20 0 11 60 21 0 0 LINE 10 60 20 20 11 60 21 0 0 ARC 10 40 20 20 40 20 50 0 51 90
         0 LINE 10 40 20 40 11 0 21 40 0 LINE 10 0 20 40 11 0 21 0 0 CIRCLE 10 20 20 20 40 6"));
    near(svg.outline.area(), dxf.outline.area(), 1e-9);
    near(svg.outline.length(), dxf.outline.length(), 1e-9);
    for vertex in svg.outline.vertices() {
        near(dxf.outline.distance(vertex.at), 0.0, 1e-9);
    }
    for vertex in svg.holes[0].vertices() {
        near(dxf.holes[0].distance(vertex.at), 0.0, 1e-9);
    }
}

#[test]
fn loose_lines_that_meet_are_joined_and_others_told() {
    let loose = |gap: f64| {
        format!(
            "<path d=\"M10 10 H60\"/>\n<path d=\"M60 50 V10\"/>\n<path d=\"M60 50 H10\"/>\n<path d=\"M10 50 V{}\"/>",
            10.0 + gap
        )
    };
    near(quiet(svg(&loose(0.0))).outline.area(), 2000.0, 1e-9);
    near(quiet(svg(&loose(0.002))).outline.area(), 2000.0, 0.2);
    refused(&svg(&loose(0.4)), "outline-open", &["0.4 mm away, 0 mm from the left", "join the two ends"]);
    refused(&svg(r#"<path d="M10 10 H60 V50"/>"#), "outline-open", &["path is open", "line 2, column 1"]);
    let three = format!("{}\n<path d=\"M60 50 L70 70\"/>", loose(0.0));
    refused(&svg(&three), "outline-branches", &["3 lines meet"]);
    refused(&dxf("0 LINE 5 1F 10 0 20 0 11 9 21 0"), "outline-open", &["LINE 1F", "a.dxf, line 16"]);
}

#[test]
fn what_crosses_or_touches_is_told_where() {
    refused(
        &svg(r#"<path d="M10 10 L60 50 H10 L60 10 Z"/>"#),
        "outline-crosses",
        &["itself", "25 mm from the left and 20 mm"],
    );
    refused(
        &svg(&format!("{SQUARE}<circle id=\"c\" cx=\"60\" cy=\"30\" r=\"5\"/>")),
        "outline-crosses",
        &["path and circle c cross"],
    );
    refused(
        &svg(&format!("{SQUARE}<path id=\"slit\" d=\"M20 20 H40 Z\"/>")),
        "outline-flat",
        &["path slit", "encloses nothing"],
    );
    // A hole that touches the edge in a point.
    refused(&svg(&format!("{SQUARE}<circle cx=\"15\" cy=\"30\" r=\"5\"/>")), "outline-crosses", &[]);
    quiet(svg(&format!("{SQUARE}<circle cx=\"15.2\" cy=\"30\" r=\"5\"/>")));
}

#[test]
fn several_pieces_are_told_and_a_layer_picks_one() {
    let two = format!("<g id=\"one\">{SQUARE}</g>\n<g id=\"two\"><circle cx=\"80\" cy=\"20\" r=\"10\"/></g>");
    refused(&svg(&two), "outline-several", &["circle, 20 mm x 20 mm", "beside path", "\"layer\""]);
    let layer = |name: &str| svg_with(&two, &AskedOutline::of("a.svg").on_layer(name));
    near(quiet(layer("one")).outline.area(), 2000.0, 1e-9);
    near(quiet(layer("two")).outline.area(), 100.0 * PI, 1e-6);
    refused(&layer("twoo"), "outline-no-layer", &["\"two\""]);
}

#[test]
fn doubles_and_specks_are_left_out_and_told() {
    let twice = svg(&format!("{SQUARE}\n{SQUARE}"));
    tells(&twice, "outline-twice", &["line 3"]);
    near(twice.value.unwrap().outline.area(), 2000.0, 1e-9);
    let twice = dxf("0 LINE 10 0 20 0 11 40 21 0 0 LINE 10 40 20 0 11 0 21 0 0 ARC 10 20 20 0 40 20 50 0 51 180");
    tells(&twice, "outline-twice", &["LINE"]);
    near(twice.value.unwrap().outline.area(), 200.0 * PI, 1e-6);
    let speck = svg(&format!("{SQUARE}<circle cx=\"30\" cy=\"30\" r=\".2\"/>"));
    tells(&speck, "outline-speck", &["0.4 mm"]);
    assert!(speck.value.unwrap().holes.is_empty());
    assert_eq!(quiet(svg(&format!("{SQUARE}<circle cx=\"30\" cy=\"30\" r=\".4\"/>"))).holes.len(), 1);
}

#[test]
fn what_is_no_shape_is_said() {
    for (inside, words) in [
        ("<text x=\"5\" y=\"5\">sea</text>", "<text> is text"),
        ("<image href=\"a.png\"/>", "<image> is a picture"),
        ("<defs><path id=\"p\" d=\"M0 0 H9 V9 Z\"/></defs><use href=\"#p\"/>", "<use> is a copy"),
        ("<g clip-path=\"url(#c)\"/>", "clip-path is not looked at"),
    ] {
        let found = svg(&format!("{SQUARE}{inside}"));
        tells(&found, "outline-left-out", &[words, "warn"]);
        near(found.value.unwrap().outline.area(), 2000.0, 1e-9);
    }
    let block = dxf("0 CIRCLE 10 0 20 0 40 9 0 INSERT 2 BOLT 10 0 20 0");
    tells(&block, "outline-left-out", &["is a block"]);
    assert!(block.value.is_some());
    // What is not shown, or no more than a description, is no shape and no matter.
    quiet(svg(&format!("<title>a</title><desc>b</desc><g style=\"display: none\"><text/></g>{SQUARE}")));
}

#[test]
fn scores_come_from_a_layer_of_their_own() {
    let with = |score: &str| {
        let text = format!("{SQUARE}<circle cx=\"30\" cy=\"30\" r=\"4\"/><g id=\"fold\">\n{score}</g>");
        svg_with(&text, &AskedOutline::of("a.svg").scored("fold"))
    };
    let scores = quiet(with("<path d=\"M10 30 H60.3\"/><line x1=\"10.2\" y1=\"20\" x2=\"60\" y2=\"20\"/>")).scores;
    assert_eq!(scores.len(), 2);
    near(scores[0][0].x, 0.0, 1e-9);
    near(scores[0][1].x, 50.0, 1e-9);
    near(scores[1][0].x, 0.0, 1e-9);
    near(scores[1][0].y, 30.0, 1e-9);
    refused(&with("<path d=\"M10 30 H50\"/>"), "outline-score-ends", &["does not run from edge to edge", "line 3"]);
    refused(&with("<path d=\"M10 30 Q35 0 60 30\"/>"), "outline-score-bent", &["is bent"]);
    refused(
        &with("<path d=\"M10 20 L60 40 M10 40 L60 20\"/>"),
        "outline-scores-cross",
        &["25 mm from the left and 20 mm"],
    );
}

#[test]
fn a_size_out_of_measure_is_told() {
    let size = |mm: f64| svg_with(SQUARE, &AskedOutline::of("a.svg").wide(mm));
    refused(&size(1.1), "outline-size", &["can be made"]);
    near(quiet(size(1.3)).outline.bounds().width(), 1.3, 1e-9);
    let mut both = AskedOutline::of("a.svg").wide(100.0);
    both.height = Some(hingeleaf::length::Length::from_mm(100.0));
    refused(&svg_with(SQUARE, &both), "outline-proportions", &["80 mm tall"]);
    both.height = Some(hingeleaf::length::Length::from_mm(80.0));
    quiet(svg_with(SQUARE, &both));
}

#[test]
fn what_is_no_drawing_is_refused() {
    for text in [
        "",
        " ",
        "a",
        "0",
        "0\n",
        "{}",
        "<",
        "<a/>",
        "<svg",
        "<svg/>",
        "<svg xmlns='http://www.w3.org/2000/svg'/>",
        "\0\0",
    ] {
        let found = of("a", text, &AskedOutline::of("a").wide(50.0));
        assert!(found.value.is_none() && !found.findings.is_empty(), "{text:?}");
        assert!(said(&found.findings).len() > 20);
    }
    let deep = format!("{}{SQUARE}{}", "<g>".repeat(3000), "</g>".repeat(3000));
    refused(&svg(&deep), "outline-too-deep", &[]);
    let doubled = "<!DOCTYPE svg [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;&a;\">]>";
    let entities = format!("{doubled}<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 9 9'><desc>&b;</desc></svg>");
    assert!(of("a.svg", &entities, &AskedOutline::of("a.svg")).value.is_none());
}

/// Draws that depend on nothing but their number (an xorshift; Marsaglia 2003).
struct Draws(u64);

impl Draws {
    fn below(&mut self, most: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % most as u64).unwrap()
    }
}

/// A text with a few faults.
fn spoilt(sound: &str, draws: &mut Draws) -> Vec<u8> {
    let pieces = [
        "0",
        "9",
        "-",
        "1e308",
        "-1e-308",
        ".",
        "nan",
        "inf",
        "\n",
        " ",
        "<g>",
        "</g>",
        "z",
        "A",
        "M",
        "42",
        "0\nLINE\n",
        "\u{e9}",
        "999999999999",
        "scale(0)",
        "skewX(90)",
        "\"",
        "70\n1\n",
    ];
    let mut bytes = sound.to_owned().into_bytes();
    for _ in 0..=draws.below(6) {
        let at = draws.below(bytes.len());
        match draws.below(5) {
            0 => bytes[at] = u8::try_from(draws.below(256)).unwrap(),
            1 => drop(bytes.splice(at..at, pieces[draws.below(pieces.len())].bytes())),
            2 => drop(bytes.drain(at..(at + 1 + draws.below(9)).min(bytes.len()))),
            3 => {
                let digits = b"0123456789.-e";
                bytes[at] = digits[draws.below(digits.len())];
            }
            _ => {
                let from = draws.below(bytes.len());
                let part = bytes[from..(from + draws.below(60)).min(bytes.len())].to_vec();
                drop(bytes.splice(at..at, part));
            }
        }
        if bytes.is_empty() {
            bytes.push(b'0');
        }
    }
    bytes
}

/// Whatever stands in a file, it is read or refused in words.
#[test]
fn no_bytes_make_it_fall_over() {
    let sound_svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"100mm\" viewBox=\"0 0 100 80\"><g id=\"a\" transform=\"rotate(3)\">
        {SQUARE}<path d=\"M20 20 c1 2 3 4 5 0 s1-3 2 0 q2 3-1 4 t-3 2 a3 2 10 0 1-3-2z\"/><ellipse cx=\"40\" cy=\"30\" rx=\"5\" ry=\"3\"/>
        <line x1=\"10\" y1=\"30\" x2=\"60\" y2=\"30\" id=\"fold\"/></g></svg>"
    );
    let sound_dxf = dxf_text(
        "4",
        "0 LWPOLYLINE 5 2A 8 0 90 4 70 1 10 0 20 0 42 .3 10 50 20 0 10 50 20 40 10 0 20 40 0 CIRCLE 10 9 20 9 40 3
         0 ELLIPSE 10 30 20 20 11 4 21 0 40 .4 41 0 42 6.283185307179586 0 POLYLINE 70 1 0 VERTEX 10 40 20 30 0 VERTEX 10 44 20 30
         42 1 0 SEQEND 0 SPLINE 71 2 40 0 40 0 40 0 40 1 40 1 40 1 10 2 20 30 10 4 20 38 10 6 20 30 0 LINE 10 2 20 30 11 6 21 30 0 LINE 8 fold 10 0 20 25 11 50 21 25",
    );
    for text in [&sound_svg, &sound_dxf] {
        quiet(of("a", text, &AskedOutline::of("a").scored("fold")));
    }
    let mut draws = Draws(0x9E37_79B9_7F4A_7C15);
    let mut read_whole = 0;
    for round in 0..12_000 {
        let sound = if round % 2 == 0 { &sound_svg } else { &sound_dxf };
        let bytes = spoilt(sound, &mut draws);
        let asked = AskedOutline::of("a").scored("fold");
        let asked = if round % 3 == 0 { asked.wide(70.0) } else { asked };
        let found = read(&drawing("a", bytes).unwrap(), &asked);
        assert!(found.value.is_some() || !found.findings.is_empty());
        said(&found.findings);
        if let Some(shape) = found.value {
            read_whole += 1;
            assert!(shape.outline.is_simple() && shape.outline.area() > 0.0);
            assert!(shape.holes.iter().all(|hole| hole.area() < 0.0));
        }
    }
    assert!(read_whole > 500, "only {read_whole} were still sound");
}

/// A file of so many curves.
fn frilled(curves: usize) -> String {
    let mut data = String::new();
    for number in 0..=curves {
        #[allow(clippy::cast_precision_loss, reason = "small")]
        let turn = 2.0 * PI * number as f64 / curves as f64;
        let at = |radius: f64, turn: f64| {
            format!("{:.12} {:.12}", radius.mul_add(turn.cos(), 500.0), radius.mul_add(turn.sin(), 500.0))
        };
        #[allow(clippy::cast_precision_loss, reason = "small")]
        let step = 2.0 * PI / curves as f64;
        if number == 0 {
            write!(data, "M{}", at(400.0, turn)).unwrap();
        } else {
            let before = turn - step;
            let (one, two) = (at(401.0, before + step / 3.0), at(399.0, turn - step / 3.0));
            write!(data, "\nC{one} {two} {}", at(400.0, if number == curves { 0.0 } else { turn })).unwrap();
        }
    }
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"1000mm\" viewBox=\"0 0 1000 1000\"><path d=\"{data}Z\"/></svg>"
    )
}

#[test]
fn a_large_drawing_is_read() {
    let text = frilled(10_000);
    let shape = quiet(of("a.svg", &text, &AskedOutline::of("a.svg")));
    near(shape.outline.area(), 160_000.0 * PI, 0.004 * 3000.0);
}

/// Scores part an outline into panels; laid flat again it is the outline, the scores on it.
#[test]
fn scores_part_the_outline_and_leave_it_what_it_is() {
    use hingeleaf::net::{Net, Sense};
    let text = format!(
        "<ellipse cx=\"50\" cy=\"40\" rx=\"40\" ry=\"25\"/><circle cx=\"50\" cy=\"40\" r=\"4\"/><g id=\"fold\">{}</g>",
        "<path d=\"M30 10 V70 M50 10 V70 M70 10 V70 M72 40 H95\"/>"
    )
    .replace("M30 10 V70", "M30 18.35 V61.65")
    .replace("M50 10 V70", "M50 15 V65")
    .replace("M70 10 V70", "M70 18.35 V61.65")
    .replace("M72 40 H95", "M70 40 H90");
    let shape = svg_with(&text, &AskedOutline::of("a.svg").scored("fold"));
    // The last one ends at another score, not at an edge.
    refused(&shape, "outline-score-ends", &[]);
    let shape = quiet(svg_with(&text.replace(" M70 40 H90", ""), &AskedOutline::of("a.svg").scored("fold")));
    let mut net = Net::scored("shape", &shape.outline, &shape.scores, Sense::Mountain);
    assert_eq!((net.panels.len(), net.folds.len()), (4, 3));
    let parts: f64 = net.panels.iter().map(|panel| panel.outline.area()).sum();
    near(parts, shape.outline.area(), 1e-6);
    net = net.with_hole(shape.holes[0].clone());
    let flat = net.flat().unwrap();
    near(flat.outline.area(), shape.outline.area(), 1e-6);
    near(flat.outline.length(), shape.outline.length(), 1e-6);
    // The middle one is split by the hole.
    assert_eq!(flat.scores.len(), 4);
    near(flat.area(), shape.outline.area() - 16.0 * PI, 1e-6);
}

#[test]
fn an_album_takes_drawn_shapes() {
    let folder = TempDir::new("drawn");
    let album = project().join("fixtures/drawn/kite-day.json");
    let run = |album: &Path, out: &str| {
        let out = folder.join(out).into_os_string();
        hingeleaf([
            "kit".as_ref(),
            album.as_os_str(),
            "--kerf=0.15mm".as_ref(),
            "--formats=svg,dxf,csv".as_ref(),
            "--out".as_ref(),
            &out,
        ])
    };
    let made = run(&album, "kit");
    assert_eq!(made.code, 0, "{}", made.err);
    let list = std::fs::read_to_string(folder.join("kit/cutting-list.csv")).unwrap();
    for row in ["shape-1,paper,90,123.75,2,left 45 valley,any", "shape-2,paper,104,44,1,,any"] {
        assert!(list.lines().any(|line| line.trim_end() == row), "{list}");
    }
    // Drawings lie where the album lies.
    let moved = folder.put("album.json", std::fs::read(&album).unwrap());
    let lost = run(&moved, "lost");
    assert_eq!(lost.code, 2);
    assert!(lost.err.contains("kite.svg") && lost.err.contains("fish.dxf"), "{}", lost.err);
    folder.put("kite.svg", "<svg xmlns='http://www.w3.org/2000/svg'>\n<path d='M0 0 H9 V9'/></svg>");
    folder.put("fish.dxf", "no drawing");
    let faulty = run(&moved, "faulty");
    assert_eq!(faulty.code, 2);
    for word in ["fish.dxf, line 1", "\"fold\"", "inserts[0].outline"] {
        assert!(faulty.err.contains(word), "{word}: {}", faulty.err);
    }
}
