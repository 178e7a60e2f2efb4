// SPDX-License-Identifier: MIT
//! Cutting files of random kits, in every unit and version, with any kerf and gap: what is read back is what was meant,
//! stroke by stroke.
//!
//! `HINGELEAF_LONG=1` takes 5,000 kits instead of a few.

use crate::common::cutter;
use crate::common::instances::Dice;
use crate::common::strokes::{Stroke, read_dxf, read_svg};
use crate::plates::altered;
use hingeleaf::contour::{Edge, Point};
use hingeleaf::cutter::{Cutter, DXF_VERSIONS, SVG_UNITS, ScoreMode};
use hingeleaf::fields::Source;
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::length::Length;
use hingeleaf::net::Sense;
use hingeleaf::parts::{self, example};
use hingeleaf::sheets::{self, Search};
use hingeleaf::toolpath::{self, Labels, Layer, SheetPaths, StrokePath};
use hingeleaf::work::{Files, Work};
use hingeleaf::write::Memory;
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use std::collections::BTreeSet;
use std::time::Instant;

/// How far what is read back may be off, mm.
const NEAR: f64 = 0.002;

/// A machine at random; most kerfs are usual ones.
fn machine(dice: &mut Dice) -> Cutter {
    let hundredths = |dice: &mut Dice, most| f64::from(i32::try_from(dice.from(0, most)).unwrap()) / 100.0;
    let kerf = match dice.from(0, 3) {
        0 => [0.0, 0.05, 0.1, 0.13][usize::try_from(dice.from(0, 3)).unwrap()],
        1 => hundredths(dice, 100),
        _ => hundredths(dice, 30),
    };
    let gap = [0.0, 0.0, 1.0, hundredths(dice, 400)][usize::try_from(dice.from(0, 3)).unwrap()];
    let dash = ScoreMode::Dash { dash: Length::from_mm(0.5 + hundredths(dice, 300)), gap: Length::from_mm(1.0) };
    Cutter {
        svg_units: SVG_UNITS[usize::try_from(dice.from(0, 4)).unwrap()],
        dxf_version: DXF_VERSIONS[usize::try_from(dice.from(0, 6)).unwrap()],
        shared_cuts: (gap > 0.0 || dice.from(0, 3) > 0).then_some(gap == 0.0 && dice.from(0, 1) == 0),
        score: if dice.from(0, 4) == 0 { dash } else { ScoreMode::Line },
        ..cutter(kerf, gap, hundredths(dice, 600))
    }
}

/// The album of a random kind with random fields, on pages of random size.
fn random_album(runner: &mut TestRunner, dice: &mut Dice) -> (&'static str, String) {
    let (maker, entry) = altered().new_tree(runner).unwrap().current();
    let text = example(maker).replacen(maker.example, &entry.to_string(), 1);
    let side = |dice: &mut Dice, least| format!("{}.{:02}", dice.from(least, least + 30), dice.from(0, 99));
    let size = format!(r#""width": {}, "height": {}"#, side(dice, 140), side(dice, 180));
    (maker.kind.name, text.replacen(r#""width": 148, "height": 190"#, &size, 1))
}

/// What has to be cut, if the album is sound and goes together. Nobody asks here what the cutter costs in sheets.
fn sound(text: &str, cutter: Cutter) -> Option<Work> {
    let source = Source::new("random.json", text.as_bytes().to_vec()).unwrap();
    let mut work = Work::fit(hingeleaf::album::read(&source, &parts::kinds()).value?, cutter);
    if work.stopped() {
        return None;
    }
    let search = Search { effort: Effort::Low, trimmer: false, threads: 1 };
    let (stocks, findings) = sheets::lay(work.album.order(), &work.kit, &work.cutter, search, &Unwatched);
    work.add(findings);
    if work.stopped() {
        return None;
    }
    work.paths =
        toolpath::paths(&work.kit, work.album.order(), &stocks, &work.cutter, (Labels::default(), Effort::Normal))
            .value?;
    work.stocks = stocks;
    Some(work)
}

/// The lines of a stroke: whether each closes, and its edges.
fn lines(run: &StrokePath) -> Vec<(bool, Vec<Edge>)> {
    match run {
        StrokePath::Straight(pieces) => {
            pieces.iter().map(|&(from, to)| (false, vec![Edge { from, to, bulge: 0.0 }])).collect()
        }
        StrokePath::Closed(contour) => vec![(true, contour.edges().collect())],
        StrokePath::Open(edges) => vec![(false, edges.clone())],
    }
}

/// The middle of an edge, from its bulge.
fn middle(edge: Edge) -> Point {
    let chord = edge.to - edge.from;
    edge.from.midpoint(edge.to) + kurbo::Vec2::new(chord.y, -chord.x) * (edge.bulge / 2.0)
}

/// How far off a line's edges are at worst. An edge that no file could show may be missing.
fn off(found: &Stroke, meant: &[Edge]) -> Result<f64, String> {
    let ends = found.corners.iter().skip(1).chain(found.corners.first().filter(|_| found.closed));
    let edge = |(&[x0, y0, bulge], &[x1, y1, _]): (&[f64; 3], &[f64; 3])| Edge {
        from: Point::new(x0, y0),
        to: Point::new(x1, y1),
        bulge,
    };
    let read: Vec<Edge> = found.corners.iter().zip(ends).map(edge).collect();
    if let Some(edge) = read.iter().find(|edge| edge.from.distance(edge.to) < 1e-7) {
        return Err(format!("no length: {edge:?}"));
    }
    let mut rest = read.iter();
    let (mut next, mut worst) = (rest.next(), 0.0_f64);
    for &wanted in meant {
        let apart = next.map_or(f64::INFINITY, |&edge| {
            let both = [(edge.from, wanted.from), (edge.to, wanted.to), (middle(edge), middle(wanted))];
            both.iter().map(|(one, other)| one.distance(*other)).fold(0.0, f64::max)
        });
        if apart <= NEAR {
            worst = worst.max(apart);
            next = rest.next();
        } else if wanted.length() > NEAR {
            return Err(format!("{wanted:?} came back as {next:?}"));
        }
    }
    next.map_or(Ok(worst), |edge| Err(format!("{edge:?} was never meant")))
}

/// Holds the lines of some layers to what was meant, in their order.
fn compare(found: &[Stroke], sheet: &SheetPaths, layers: &[Layer]) -> Result<f64, String> {
    let on = |layer: Layer| sheet.strokes.iter().filter(move |stroke| stroke.layer == layer);
    let meant = layers
        .iter()
        .copied()
        .flat_map(on)
        .flat_map(|stroke| lines(&stroke.run).into_iter().map(|line| (stroke.layer, line)));
    let meant: Vec<(Layer, (bool, Vec<Edge>))> = meant.collect();
    if meant.len() != found.len() {
        return Err(format!("{} lines instead of {}", found.len(), meant.len()));
    }
    let mut worst = 0.0_f64;
    for (found, (layer, (closed, edges))) in found.iter().zip(&meant) {
        if found.layer != layer.name() || found.closed != *closed {
            return Err(format!("{found:?} instead of {layer:?} {edges:?}"));
        }
        worst = worst.max(off(found, edges)?);
    }
    Ok(worst)
}

/// Whose each path is, in order.
fn owners(
    found: &[(String, std::collections::BTreeMap<String, String>)],
    work: &Work,
    sheet: &SheetPaths,
    layers: &[Layer],
) {
    let mut paths = found.iter();
    for stroke in layers.iter().flat_map(|layer| sheet.strokes.iter().filter(move |stroke| stroke.layer == *layer)) {
        let (layer, path) = paths.next().unwrap();
        let fold = path.get("data-fold").map(String::as_str);
        let said = (layer.as_str(), path["data-part"].as_str(), path["data-copy"].as_str(), fold);
        let (copy, fold) = (stroke.copy.to_string(), stroke.fold.map(Sense::word));
        assert_eq!(said, (stroke.layer.name(), work.kit.parts[stroke.part].id.as_str(), copy.as_str(), fold));
    }
    assert!(paths.next().is_none());
}

/// Millimetres to each unit of SVG files, and the decimals that its numbers may have.
fn unit(name: &str) -> (f64, usize) {
    match name {
        "mm" => (1.0, 4),
        "in" => (25.4, 6),
        pixels => (25.4 / pixels.strip_prefix("px").unwrap().parse::<f64>().unwrap(), 4),
    }
}

/// Writes a kit and reads it again; gives how far off it is at worst, mm.
fn written(work: &Work, split: bool) -> f64 {
    let mut memory = Memory::default();
    let files = Files { split_layers: split, ..Files::of(&["svg", "dxf"]) };
    work.write(&files, &mut memory).unwrap_or_else(|problem| panic!("{problem}"));
    let read = |name: &str| String::from_utf8(memory.files[name].clone()).unwrap();
    let (mm, decimals) = unit(work.cutter.svg_units);
    let mut worst = 0.0_f64;
    for sheet in &work.paths {
        let whole: Vec<(String, Vec<Layer>)> = if split {
            Layer::ALL.map(|layer| (format!("sheets/{}.{}", sheet.name, layer.name()), vec![layer])).to_vec()
        } else {
            vec![(format!("sheets/{}", sheet.name), Layer::ALL.to_vec())]
        };
        for (name, layers) in whole {
            let svg = read_svg(&read(&format!("{name}.svg")), mm);
            owners(&svg.paths, work, sheet, &layers);
            for number in svg.paths.iter().flat_map(|(_, path)| path["d"].split([' ', 'M', 'L', 'A', 'Z'])) {
                assert!(number.split_once('.').is_none_or(|(_, rest)| rest.len() <= decimals), "{number}");
            }
            for found in [svg.strokes, read_dxf(&read(&format!("{name}.dxf")))] {
                worst = worst.max(compare(&found, sheet, &layers).unwrap_or_else(|why| panic!("{name}: {why}")));
            }
        }
    }
    worst
}

#[test]
fn random_kits_are_read_back_stroke_by_stroke() {
    let long = std::env::var("HINGELEAF_LONG").is_ok_and(|long| long == "1");
    let wanted = if long { 5000 } else { 150 };
    let mut runner = TestRunner::new_with_rng(Config::default(), TestRng::from_seed(RngAlgorithm::ChaCha, &[13; 32]));
    let mut dice = Dice(13);
    let (start, mut kits, mut tried, mut strokes, mut worst) = (Instant::now(), 0, 0, 0, 0.0_f64);
    let (mut kinds, mut machines) = (BTreeSet::new(), BTreeSet::new());
    let mut failed = Vec::new();
    while kits < wanted {
        tried += 1;
        assert!(tried < 20 * wanted, "only {kits} of {tried} go together");
        let (kind, text) = random_album(&mut runner, &mut dice);
        let (cutter, split) = (machine(&mut dice), dice.from(0, 4) == 0);
        let Some(work) = sound(&text, cutter.clone()) else { continue };
        // Each failure is told, not only the first.
        match std::panic::catch_unwind(|| written(&work, split)) {
            Ok(apart) => worst = worst.max(apart),
            Err(_) => failed.push(format!("{cutter:?}\n{text}")),
        }
        kits += 1;
        strokes += work.paths.iter().map(|sheet| sheet.strokes.len()).sum::<usize>();
        kinds.insert(kind);
        machines.insert((cutter.svg_units, cutter.dxf_version));
    }
    println!(
        "{kits} kits of {tried} tries, {} kinds, {} of 35 units and versions, {strokes} strokes; at worst {worst:.7} mm off; {} failed; {:.1?}",
        kinds.len(),
        machines.len(),
        failed.len(),
        start.elapsed()
    );
    assert!(failed.is_empty(), "{} of {kits}, the first with\n{}", failed.len(), failed[0]);
    let (least_kinds, least_machines) = if long { (parts::ALL.len(), 35) } else { (parts::ALL.len() / 2, 30) };
    assert!(kinds.len() >= least_kinds && machines.len() >= least_machines, "{kinds:?} {machines:?}");
}
