// SPDX-License-Identifier: MIT
//! Kinds of file: whatever a cutter file asks of them, the same lines lie on the same layers, as long and as far out.
//! Other people's readers see the same in `tests/outside/test_matrix.py`.

use crate::common::broken_cutters::{BrokenCutter, broken_cutters_are_answered};
use crate::common::instances::Dice;
use crate::common::strokes::{Stroke as Read, read_dxf, read_svg};
use crate::common::{cutter, near, said, work};
use hingeleaf::contour::{Contour, Edge, Point};
use hingeleaf::cutter::{
    self as machine, Curves, Cutter, DXF_VERSIONS, DxfLayers, DxfLines, Forms, LayerOrder, Manner, SVG_UNITS, SvgLines,
};
use hingeleaf::fields::Source;
use hingeleaf::length::Length;
use hingeleaf::toolpath::{Layer, SheetPaths, Stroke, StrokePath};
use hingeleaf::work::Files;
use hingeleaf::write::{self, Memory};
use std::collections::{BTreeMap, BTreeSet};

/// Round corners, a hole, scores of every sense, marks.
const ALBUM: &str = r#"{
    "format": "hingeleaf-album/1",
    "page": { "width": 120, "height": 160, "seam": 12 },
    "pages": [{ "kind": "pocket" }],
    "spine": { "kind": "flexi-hinge", "pitch": 6, "tab": 12, "gusset": 6, "lead_in": 6 },
    "inserts": [{ "kind": "tag", "width": 70, "height": 100, "hole": 6, "corner": 6 }]
}"#;

/// What is found on one layer: how long, how far out, how many.
#[derive(Clone, Debug, Default)]
struct Seen {
    long: f64,
    area: f64,
    around: Option<[f64; 4]>,
    count: usize,
}

/// A stroke's places, arcs in short lines.
fn places(stroke: &Read) -> Vec<[f64; 2]> {
    let corners = &stroke.corners;
    let ends = corners.iter().skip(1).chain(corners.first().filter(|_| stroke.closed));
    let mut places = vec![[corners[0][0], corners[0][1]]];
    for (one, other) in corners.iter().zip(ends) {
        let edge = Edge { from: Point::new(one[0], one[1]), to: Point::new(other[0], other[1]), bulge: one[2] };
        let steps = if edge.is_line() { 1 } else { 64 };
        places.extend((1..=steps).map(|step| {
            let share = f64::from(step) / f64::from(steps);
            let at = if edge.is_line() || step == steps { edge.from.lerp(edge.to, share) } else { arc(edge, share) };
            [at.x, at.y]
        }));
    }
    places
}

fn arc(edge: Edge, share: f64) -> Point {
    let (sin, cos) = (edge.angle() * share).sin_cos();
    let (centre, out) = (edge.centre(), edge.from - edge.centre());
    Point::new(centre.x + out.x * cos - out.y * sin, centre.y + out.x * sin + out.y * cos)
}

fn seen(strokes: &[Read]) -> BTreeMap<String, Seen> {
    let mut layers: BTreeMap<String, Seen> = BTreeMap::new();
    for stroke in strokes {
        let layer = layers.entry(stroke.layer.clone()).or_default();
        let places = places(stroke);
        layer.count += 1;
        for pair in places.windows(2) {
            let [[x0, y0], [x1, y1]] = [pair[0], pair[1]];
            layer.long += (x1 - x0).hypot(y1 - y0);
            layer.area += (x0 * y1 - x1 * y0) / 2.0;
        }
        for [x, y] in places {
            let [left, low, right, high] = layer.around.unwrap_or([x, y, x, y]);
            layer.around = Some([left.min(x), low.min(y), right.max(x), high.max(y)]);
        }
    }
    layers
}

/// The strokes of a sheet as a reader would have them, for what is meant.
fn meant(sheet: &SheetPaths) -> Vec<Read> {
    let corner = |edge: &Edge| [edge.from.x, edge.from.y, edge.bulge];
    let read = |layer: Layer, edges: &[Edge], closed: bool| {
        let last = edges.last().filter(|_| !closed).map(|edge| [edge.to.x, edge.to.y, 0.0]);
        Read { layer: layer.name().into(), closed, corners: edges.iter().map(corner).chain(last).collect() }
    };
    let of = |stroke: &Stroke| match &stroke.run {
        StrokePath::Straight(pieces) => {
            let line = |&(from, to): &(Point, Point)| Edge { from, to, bulge: 0.0 };
            pieces.iter().map(|piece| read(stroke.layer, &[line(piece)], false)).collect()
        }
        StrokePath::Closed(contour) => vec![read(stroke.layer, &contour.edges().collect::<Vec<_>>(), true)],
        StrokePath::Open(edges) => vec![read(stroke.layer, edges, false)],
    };
    sheet.strokes.iter().flat_map(of).collect()
}

/// A sheet's two files, each proved by the program itself before it is handed out.
fn files(sheet: &SheetPaths, cutter: &Cutter) -> (String, String) {
    let mut memory = Memory::default();
    write::svg_files("A title", &[], sheet, cutter, false, &mut memory)
        .unwrap_or_else(|why| panic!("{why}\n{cutter:?}"));
    write::dxf_files(sheet, cutter, false, &mut memory).unwrap_or_else(|why| panic!("{why}\n{cutter:?}"));
    let text = |kind: &str| String::from_utf8(memory.files[&format!("sheets/{}.{kind}", sheet.name)].clone()).unwrap();
    (text("svg"), text("dxf"))
}

fn with(forms: Forms, curves: Curves, version: &'static str) -> Cutter {
    let manner = Manner { curves, ..Manner::default() };
    Cutter { forms, manner, dxf_version: version, ..cutter(0.2, 2.0, 5.0) }
}

fn alike(found: &BTreeMap<String, Seen>, wanted: &BTreeMap<String, Seen>, off: f64, what: &str) {
    assert_eq!(found.keys().collect::<Vec<_>>(), wanted.keys().collect::<Vec<_>>(), "{what}");
    for (layer, seen) in found {
        let wanted = &wanted[layer];
        let share = (seen.long - wanted.long).abs() / wanted.long;
        assert!(share < off, "{what}, {layer}: {} mm instead of {}", seen.long, wanted.long);
        for (one, other) in seen.around.unwrap().into_iter().zip(wanted.around.unwrap()) {
            near(one, other, 0.03);
        }
    }
}

/// Each choice in each of the versions that differ: the layers hold lines as long and as far out as was meant.
#[test]
fn every_choice_draws_the_same_lines() {
    let mut tried = 0;
    for curves in [Curves::Arcs, Curves::Cubics, Curves::Lines] {
        let work = work(ALBUM, with(Forms::default(), curves, "R2000"));
        for version in ["R12", "R2000", "R2018"] {
            for dxf_lines in [DxfLines::Polylines, DxfLines::Single] {
                for dxf_layers in [DxfLayers::Both, DxfLayers::Names] {
                    let cutter = with(Forms { dxf_lines, dxf_layers, ..Forms::default() }, curves, version);
                    for sheet in &work.paths {
                        let what = format!("{curves:?} {version} {dxf_lines:?} {dxf_layers:?}");
                        let (svg, dxf) = files(sheet, &cutter);
                        let wanted = seen(&meant(sheet));
                        alike(&seen(&read_svg(&svg, 1.0).strokes), &wanted, 5e-4, &what);
                        alike(&seen(&read_dxf(&dxf)), &wanted, 5e-4, &what);
                        let has = |entity: &str| dxf.contains(&format!("\r\n0\r\n{entity}\r\n"));
                        let single = dxf_lines == DxfLines::Single;
                        let curved = meant(sheet).iter().any(|one| one.corners.iter().any(|corner| corner[2] != 0.0));
                        assert_eq!(has("SPLINE"), curved && curves == Curves::Cubics && version != "R12", "{what}");
                        assert_eq!(has("ARC"), curved && curves == Curves::Arcs && single, "{what}");
                        assert_eq!(has("POLYLINE"), !single && version == "R12", "{what}");
                        assert_eq!(dxf.contains("\r\n420\r\n"), version == "R2018" && dxf_layers == DxfLayers::Both);
                        tried += usize::from(curved);
                    }
                }
            }
        }
    }
    assert!(tried > 30, "only {tried} sheets had curves");
}

/// A shape holds as much as its line is long, times its width, and stands half of that out: on a sheet of plain lines and rings.
#[test]
fn shapes_for_lines_are_as_wide_as_asked() {
    let work = work(ALBUM, with(Forms::default(), Curves::Arcs, "R2000"));
    for hairline in [0.05, 0.1, 0.4] {
        let forms = Forms { svg_lines: SvgLines::Shapes, hairline: Length::from_mm(hairline), ..Forms::default() };
        for sheet in &work.paths {
            let svg = read_svg(&files(sheet, &with(forms, Curves::Arcs, "R2000")).0, 1.0);
            assert!(svg.strokes.iter().all(|stroke| stroke.closed));
            assert!(svg.paths.iter().all(|(_, path)| path["stroke"] == "none" && path["fill"].starts_with('#')));
            let (found, wanted) = (seen(&svg.strokes), seen(&meant(sheet)));
            for (layer, found) in &found {
                let wanted = &wanted[layer];
                // Marks are letters of short lines, whose corners overlap or are cut off.
                let off = if layer == "draw" { 0.1 } else { 1e-3 };
                let share = found.area.abs() / (wanted.long * hairline);
                assert!((share - 1.0).abs() < off, "{layer}: {share} of what it should hold");
                let out = |at: usize| (found.around.unwrap()[at] - wanted.around.unwrap()[at]).abs();
                let all = (0..4).map(out);
                assert!(
                    all.clone().all(|out| out < hairline)
                        && (layer == "draw" || all.clone().any(|out| out > 0.4 * hairline))
                );
            }
        }
    }
}

#[test]
fn layers_stand_in_the_order_that_is_asked() {
    for order in LayerOrder::ALL {
        let work = work(ALBUM, with(Forms { layer_order: order, ..Forms::default() }, Curves::Arcs, "R2000"));
        let wanted: Vec<&str> = order.word().split('-').collect();
        for sheet in &work.paths {
            let (svg, dxf) = files(sheet, &work.cutter);
            assert_eq!(read_svg(&svg, 1.0).groups, wanted);
            let mut layers: Vec<String> = read_dxf(&dxf).into_iter().map(|stroke| stroke.layer).collect();
            layers.dedup();
            let here: Vec<&&str> = wanted.iter().filter(|name| layers.iter().any(|layer| layer == **name)).collect();
            assert_eq!(
                layers.iter().map(String::as_str).collect::<Vec<_>>(),
                here.into_iter().copied().collect::<Vec<_>>()
            );
        }
        assert_eq!(order.cuts_last(), wanted[2] == "cut");
    }
}

/// With colours alone all lies on the layer that every DXF has, and the colours tell how much is cut, scored and drawn.
#[test]
fn colours_alone_tell_layers_apart() {
    let work = work(ALBUM, with(Forms::default(), Curves::Arcs, "R2000"));
    for version in DXF_VERSIONS {
        let forms = Forms { dxf_layers: DxfLayers::Colours, ..Forms::default() };
        for sheet in &work.paths {
            let text = files(sheet, &with(forms, Curves::Arcs, version)).1;
            let mut strokes = read_dxf(&text);
            assert!(strokes.iter().all(|stroke| stroke.layer == "0"), "{version}");
            let drawing = dxf::Drawing::load(&mut text.as_bytes()).unwrap();
            assert_eq!(drawing.layers().count(), 1, "{version}");
            for (stroke, entity) in strokes.iter_mut().zip(drawing.entities()) {
                // 7 is black or white, 30 an orange, 6 magenta (published DXF Reference, group 62).
                let name = match entity.common.color.index() {
                    Some(7) => "cut",
                    Some(30) => "score",
                    Some(6) => "draw",
                    other => panic!("{version}: colour {other:?}"),
                };
                stroke.layer = name.into();
            }
            alike(&seen(&strokes), &seen(&meant(sheet)), 1e-6, version);
        }
    }
}

#[test]
fn a_cutter_file_may_ask_for_a_file_a_layer() {
    let work = work(ALBUM, with(Forms { split_layers: true, ..Forms::default() }, Curves::Arcs, "R2000"));
    let mut memory = Memory::default();
    work.write(&Files::of(&["svg", "dxf"]), &mut memory).unwrap();
    let names: BTreeSet<&str> = memory.files.keys().filter_map(|name| name.strip_prefix("sheets/card-01.")).collect();
    assert_eq!(
        names.into_iter().collect::<Vec<_>>(),
        ["cut.dxf", "cut.svg", "draw.dxf", "draw.svg", "score.dxf", "score.svg"]
    );
}

/// What is wrong, at the first letter of what, and words of the answer.
const BROKEN: &[BrokenCutter] = &[
    (r#""layer_order": "cut-score""#, "\"cut-score\"", &["layer_order", "draw-score-cut"]),
    (r#""layer_order": ["cut"]"#, "[", &["layer_order"]),
    (r#""split_layers": "yes""#, "\"yes\"", &["split_layers", "true or false"]),
    (r#""svg_lines": "filled""#, "\"filled\"", &["svg_lines", "strokes", "shapes"]),
    (r#""hairline": 0"#, "0", &["hairline", "0.01 mm"]),
    (r#""hairline": 3"#, "3", &["hairline", "1 mm"]),
    (r#""dxf_layers": "colors""#, "\"colors\"", &["dxf_layers", "did you mean \"colours\""]),
    (r#""dxf_lines": "arcs""#, "\"arcs\"", &["dxf_lines", "polylines", "single"]),
    (r#""dxf_line": "single""#, "\"dxf_line\"", &["did you mean \"dxf_lines\""]),
];

#[test]
fn broken_cutter_files_are_answered_at_their_place() {
    broken_cutters_are_answered("", BROKEN);
}

/// Colours that are one in a DXF file are told where they alone tell layers apart, and cuts that stand before the rest; nothing is
/// said of the same colours beside names, of clearly different ones, of scores before marks.
#[test]
fn what_a_machine_would_mistake_is_told() {
    let told = |fields: &str| {
        let text = format!("{{ \"format\": \"hingeleaf-cutter/1\", {fields} }}");
        let read = machine::read(&Source::new("cutter.json", text.into()).unwrap());
        assert!(read.findings.is_empty(), "{}", said(&read.findings));
        read.value.unwrap().findings().iter().map(|finding| finding.id).collect::<Vec<_>>()
    };
    let near = r##""colours": { "cut": "#FF0000", "score": "#FE0101" }"##;
    assert_eq!(told(&format!("\"dxf_layers\": \"colours\", {near}")), ["colours-alike"]);
    assert_eq!(told(&format!("\"dxf_layers\": \"names-and-colours\", {near}")), Vec::<&str>::new());
    assert_eq!(told(r#""dxf_layers": "colours""#), Vec::<&str>::new());
    let three = r##""colours": { "cut": "#112233", "score": "#112233", "draw": "#112233" }"##;
    assert_eq!(told(&format!("\"dxf_layers\": \"colours\", {three}")), ["colours-alike", "colours-alike"]);
    assert_eq!(told(r#""layer_order": "cut-score-draw""#), ["cuts-not-last"]);
    assert_eq!(told(r#""layer_order": "score-draw-cut""#), Vec::<&str>::new());
}

/// Random lines, sharp and blunt, with arcs of every turn, down to a hundredth of a mm: whatever is chosen, what is written is what is
/// read back, by the program (or it hands out nothing) and by the readers of these tests.
#[test]
fn random_lines_are_read_back_in_every_form() {
    let mut dice = Dice(21);
    let mut pick = |most: i64| usize::try_from(dice.from(0, most)).unwrap();
    let mut told = BTreeSet::new();
    for number in 0..250 {
        let curves = [Curves::Arcs, Curves::Cubics, Curves::Lines][pick(2)];
        let forms = Forms {
            layer_order: LayerOrder::ALL[pick(5)],
            split_layers: false,
            svg_lines: SvgLines::ALL[pick(1)],
            hairline: Length::from_mm([0.01, 0.1, 0.5][pick(2)]),
            dxf_layers: DxfLayers::ALL[pick(2)],
            dxf_lines: DxfLines::ALL[pick(1)],
        };
        let cutter = Cutter { svg_units: SVG_UNITS[pick(4)], ..with(forms, curves, DXF_VERSIONS[pick(6)]) };
        let mut strokes = Vec::new();
        for layer in Layer::in_order(forms.layer_order) {
            for _ in 0..=pick(2) {
                let scale = [0.02, 1.0, 30.0][pick(2)];
                #[allow(clippy::cast_precision_loss, reason = "a few thousand")]
                let mut at = |off: f64| {
                    Point::new(off + pick(1000) as f64 / 1000.0 * scale, off + pick(1000) as f64 / 1000.0 * scale)
                };
                let corners: Vec<Point> = (0..4 + number % 3).map(|_| at(60.0)).collect();
                let bulges: Vec<f64> = corners.iter().map(|_| [0.0, 0.0, 0.05, -0.2, 0.19, -0.1][pick(5)]).collect();
                let bulges = if curves == Curves::Lines { vec![0.0; bulges.len()] } else { bulges };
                let closed = pick(1) == 0;
                let run = if closed {
                    StrokePath::Closed(Contour::new(
                        corners.iter().zip(&bulges).map(|(at, bulge)| (at.x, at.y, *bulge)),
                    ))
                } else {
                    let edge = |(pair, bulge): (&[Point], &f64)| Edge { from: pair[0], to: pair[1], bulge: *bulge };
                    StrokePath::Open(corners.windows(2).zip(&bulges).map(edge).collect())
                };
                strokes.push(Stroke { layer, part: 0, copy: 1, fold: None, run });
            }
        }
        let sheet = SheetPaths {
            name: "card-01".into(),
            stock: 0,
            times: 1,
            width: 200.0,
            height: 200.0,
            strokes,
            behind: Vec::new(),
            register: Vec::new(),
            seconds: None,
        };
        let (svg, dxf) = files(&sheet, &cutter);
        let wanted = seen(&meant(&sheet));
        let all = |layers: &BTreeMap<String, Seen>| layers.values().map(|layer| layer.long).sum::<f64>();
        let drawn = all(&seen(&read_dxf(&dxf)));
        assert!((drawn - all(&wanted)).abs() < 2e-3 * all(&wanted) + 0.05, "{number}: {drawn}");
        let units = [("mm", 1.0), ("in", 25.4), ("px72", 25.4 / 72.0), ("px90", 25.4 / 90.0), ("px96", 25.4 / 96.0)];
        let mm = units.iter().find(|(name, _)| *name == cutter.svg_units).unwrap().1;
        let svg = seen(&read_svg(&svg, mm).strokes);
        if forms.svg_lines == SvgLines::Strokes {
            assert!((all(&svg) - all(&wanted)).abs() < 2e-3 * all(&wanted) + 0.05, "{number}: {}", all(&svg));
        } else {
            // There and back along every line, and a little more or less at each corner.
            let corners = meant(&sheet).iter().map(|stroke| stroke.corners.len()).sum::<usize>();
            #[allow(clippy::cast_precision_loss, reason = "a few dozen")]
            let off = 0.02 * all(&wanted) + 5.0 * forms.hairline.mm() * corners as f64 + 0.05;
            assert!((all(&svg) - 2.0 * all(&wanted)).abs() < off, "{number}: {}, {off}", all(&svg));
        }
        told.insert((cutter.svg_units, format!("{:?}{:?}{:?}", forms.svg_lines, forms.dxf_layers, forms.dxf_lines)));
    }
    assert!(told.len() > 45, "only {}", told.len());
}
