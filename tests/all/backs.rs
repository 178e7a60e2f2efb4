// SPDX-License-Identifier: MIT
//! The back of sheets: scores there meet those of the front once the sheet is turned over; folds that pages hang by, perforated.

use crate::common::instances::Dice;
use crate::common::strokes::{Stroke as Read, read_dxf, read_svg};
use crate::common::{cutter, near, said, work};
use hingeleaf::cutter::{self as machine, BackSide, BothWays, Cutter, Forms, ScoreMode, Speeds};
use hingeleaf::fields::Source;
use hingeleaf::guide;
use hingeleaf::length::Length;
use hingeleaf::net::Use;
use hingeleaf::toolpath::{Layer, StrokePath};
use hingeleaf::work::{Files, Work};
use hingeleaf::write::Memory;
use serde_json::Value;

/// Hinge strips, whose outer folds work both ways.
const HINGED: &str = r#"{
    "format": "hingeleaf-album/1",
    "page": { "width": 120, "height": 160, "seam": 12 },
    "pages": [
        { "kind": "pocket" }, { "kind": "wallet", "pocket": 90, "overflap": 40 }, { "kind": "pocket" }, { "kind": "pocket" },
        { "kind": "wallet", "pocket": 90, "overflap": 40 }, { "kind": "pocket" }
    ],
    "spine": { "kind": "flexi-hinge", "pitch": 6, "tab": 12, "gusset": 6, "lead_in": 6 }
}"#;

/// Plain hinges: pages hang by them, and none of their folds works both ways.
const PLAIN: &str = r#"{
    "format": "hingeleaf-album/1",
    "page": { "width": 120, "height": 160, "seam": 12 },
    "pages": [{ "kind": "pocket" }],
    "spine": { "kind": "plain-hinge" }
}"#;

fn both(score: ScoreMode) -> Cutter {
    Cutter { back: BackSide { both_ways: BothWays::BothSides }, score, ..cutter(0.1, 2.0, 5.0) }
}

fn files(work: &Work) -> Memory {
    let mut memory = Memory::default();
    work.write(&Files::of(&["svg", "dxf"]), &mut memory).unwrap();
    memory
}

fn text(memory: &Memory, name: &str) -> String {
    String::from_utf8(memory.files[name].clone()).unwrap()
}

fn names(memory: &Memory) -> Vec<&str> {
    memory.files.keys().filter(|name| name.contains(".back.")).map(String::as_str).collect()
}

/// The ends of lines, in an order of their own.
fn ends(strokes: &[Read], map: impl Fn(f64) -> f64) -> Vec<[f64; 4]> {
    let one = |stroke: &Read| {
        let [a, b] = [stroke.corners[0], stroke.corners[1]].map(|end| [map(end[0]), end[1]]);
        let (a, b) = if (a[1], a[0]) < (b[1], b[0]) { (a, b) } else { (b, a) };
        [a[0], a[1], b[0], b[1]]
    };
    let mut all: Vec<[f64; 4]> = strokes.iter().filter(|stroke| stroke.layer == "score").map(one).collect();
    all.sort_by(|one, two| {
        one.map(|mm| (mm * 100.0).round()).partial_cmp(&two.map(|mm| (mm * 100.0).round())).unwrap()
    });
    all
}

/// The sheet's back is turned over: x becomes the width less x. Every score of the back lies on one of the front that works both ways,
/// none is missing, in both kinds of file and in inches; nothing else is done there.
#[test]
fn scores_of_both_sides_meet_after_turning() {
    let mut met = 0;
    for (units, mm) in [("mm", 1.0), ("in", 25.4)] {
        let work = work(HINGED, Cutter { svg_units: units, ..both(ScoreMode::Line) });
        let memory = files(&work);
        for sheet in &work.paths {
            let front = read_svg(&text(&memory, &format!("sheets/{}.svg", sheet.name)), mm);
            let of_both: Vec<Read> = front
                .paths
                .iter()
                .zip(&front.strokes)
                .filter(|((_, path), _)| path.get("data-fold").is_some_and(|fold| fold == "both"))
                .map(|(_, stroke)| stroke.clone())
                .collect();
            let wanted = ends(&of_both, |x| x);
            let name = format!("sheets/{}.back", sheet.name);
            assert_eq!(memory.files.contains_key(&format!("{name}.svg")), !wanted.is_empty());
            if wanted.is_empty() {
                continue;
            }
            let back = read_svg(&text(&memory, &format!("{name}.svg")), mm);
            let dxf = read_dxf(&text(&memory, &format!("{name}.dxf")));
            assert!(back.strokes.iter().chain(&dxf).all(|stroke| stroke.layer == "score"));
            assert_eq!(back.root, front.root, "the back is as large as the front");
            for strokes in [&back.strokes, &dxf] {
                let found = ends(strokes, |x| sheet.width - x);
                assert_eq!(found.len(), wanted.len());
                for (one, other) in found.iter().flatten().zip(wanted.iter().flatten()) {
                    near(*one, *other, 2e-4);
                }
                met += found.len();
            }
        }
    }
    assert!(met > 20, "only {met} scores met");
}

/// No file for a back where scores are made on the front, where nothing works both ways, where they are perforations.
#[test]
fn backs_are_made_only_where_they_are_needed() {
    let dash = ScoreMode::Dash { dash: Length::from_mm(2.0), gap: Length::from_mm(1.0) };
    assert!(!names(&files(&work(HINGED, both(ScoreMode::Line)))).is_empty());
    assert_eq!(names(&files(&work(HINGED, cutter(0.1, 2.0, 5.0)))), Vec::<&str>::new());
    assert_eq!(names(&files(&work(PLAIN, both(ScoreMode::Line)))), Vec::<&str>::new());
    assert_eq!(names(&files(&work(HINGED, both(dash)))), Vec::<&str>::new());
    let forms = Forms { split_layers: true, ..Forms::default() };
    let made = work(HINGED, Cutter { forms, ..both(ScoreMode::Line) });
    let split = files(&made);
    // The page offers each of these.
    let named: Vec<String> = made.cut_names().iter().map(|name| format!("sheets/{name}")).collect();
    let there: Vec<&str> = split.files.keys().filter_map(|name| name.strip_suffix(".svg")).collect();
    assert!(named.len() == there.len() && named.iter().all(|name| there.contains(&name.as_str())), "{named:?}");
    assert!(names(&split).iter().any(|name| name.ends_with(".back.score.svg")), "{:?}", names(&split));
}

/// The report says what is done on the back, and the machine's time has it in; guide and job sheet say what comes first, in both languages.
#[test]
fn the_back_is_told() {
    let speed = Some(Speeds { cut: 20.0, score: 40.0, draw: 60.0 });
    let [one, two] = [BothWays::Front, BothWays::BothSides].map(|both_ways| {
        work(HINGED, Cutter { back: BackSide { both_ways }, speed, lift: 0.5, ..cutter(0.1, 2.0, 5.0) })
    });
    let report = |work: &Work| -> Value { serde_json::from_str(&text(&files(work), "report.json")).unwrap() };
    let (plain, more) = (report(&one), report(&two));
    let mut told = 0;
    for (plain, more) in plain["sheets"].as_array().unwrap().iter().zip(more["sheets"].as_array().unwrap()) {
        assert!(plain.get("tool_back").is_none());
        let number = |value: &Value| value.as_f64().unwrap();
        let seconds = |sheet: &Value| number(&sheet["tool"]["seconds"]);
        let Some(back) = more.get("tool_back") else { continue };
        let (score, lifts) = (number(&back["score_mm"]), number(&back["lifts"]));
        near(seconds(more) - seconds(plain), score / 40.0 + lifts * 0.5, 0.11);
        assert!(score > 100.0 && number(&back["cut_mm"]) == 0.0);
        told += 1;
    }
    assert!(told > 0);
    for (language, first) in [("en", "First the back"), ("de", "Zuerst die Rückseite")] {
        let text = HINGED.replacen("\"page\"", &format!("\"language\": \"{language}\", \"page\""), 1);
        let work = work(&text, both(ScoreMode::Line));
        for guide in [guide::guide(&work.guide_job(false)), guide::shop(&work.guide_job(false))] {
            let html = hingeleaf::write::guide(&guide);
            let (back, cut) = (html.find(first).unwrap_or_else(|| panic!("{language}")), html.find(".back").unwrap());
            assert!(back < cut);
        }
    }
}

/// Which folds pages hang by, from the nets: a tab's and a gusset's. Less than half of each is cut, its ends are card; other scores are
/// made as the cutter says. Random cuts and ties.
#[test]
fn less_than_half_of_a_fold_that_carries_is_cut() {
    let mut dice = Dice(5);
    let (mut carry, mut other) = (0, 0);
    for _ in 0..12 {
        let mut tenths = |least: i64, most: i64| f64::from(i32::try_from(dice.from(least, most)).unwrap()) / 10.0;
        let (dash, gap) = (tenths(5, 60), tenths(2, 30));
        let mode = ScoreMode::Dash { dash: Length::from_mm(dash), gap: Length::from_mm(gap) };
        let work = work(HINGED, Cutter { score: mode, ..cutter(0.0, 2.0, 5.0) });
        let notes = work.findings.iter().filter(|finding| finding.id == "perforated-hinge").count();
        assert_eq!(notes, 1, "{}", said(&work.findings));
        for stroke in work.paths.iter().flat_map(|sheet| &sheet.strokes).filter(|stroke| stroke.layer == Layer::Score) {
            let StrokePath::Straight(pieces) = &stroke.run else { panic!("a score that is no line") };
            let part = &work.kit.parts[stroke.part];
            let hangs = part.net.panels.iter().any(|panel| matches!(panel.purpose, Use::Tab | Use::Gusset));
            let cut: f64 = pieces.iter().map(|(from, to)| from.distance(*to)).sum();
            let ties: Vec<f64> = pieces.windows(2).map(|pair| pair[0].1.distance(pair[1].0)).collect();
            let long = pieces[0].0.distance(pieces[pieces.len() - 1].1);
            if hangs {
                // One tie more than there are cuts: that between the first and the last leaves out two of them.
                let all = long + 2.0 * ties.first().copied().unwrap_or(cut / 2.0);
                assert!(cut < 0.5 * all + 1e-6, "{cut} of {all}");
                carry += 1;
            } else {
                assert!(ties.iter().all(|tie| *tie > gap - 1e-6));
                other += usize::from(cut > 0.5 * long && dash > gap);
            }
        }
    }
    assert!(carry > 50 && other > 10, "{carry} and {other}");
}

/// Nothing is said of scores as lines, nor where the hinges' own machine makes lines.
#[test]
fn perforations_that_carry_nothing_are_not_told() {
    let dash = ScoreMode::Dash { dash: Length::from_mm(2.0), gap: Length::from_mm(1.0) };
    // The stock's own machine makes lines.
    let lines = r#""stocks": { "card": { "sheet": "A4", "cutter": { "gap": 2, "margin": 5 } } }, "page""#;
    let own = HINGED.replacen("\"page\"", lines, 1);
    for (album, score) in [(HINGED, ScoreMode::Line), (own.as_str(), dash)] {
        let work = work(album, Cutter { score, ..cutter(0.1, 2.0, 5.0) });
        assert!(work.findings.iter().all(|finding| finding.id != "perforated-hinge"), "{}", said(&work.findings));
    }
}

#[test]
fn what_is_asked_of_the_back_is_checked() {
    let read = |fields: &str| {
        let text = format!("{{ \"format\": \"hingeleaf-cutter/1\", {fields} }}");
        machine::read(&Source::new("cutter.json", text.into()).unwrap())
    };
    let broken = read(r#""both_ways": "back""#);
    let words = format!("{} {}", broken.findings[0].text, broken.findings[0].help);
    assert!(words.contains("both_ways") && words.contains("both-sides"), "{words}");
    let told = |fields: &str| read(fields).value.unwrap().findings().iter().map(|one| one.id).collect::<Vec<_>>();
    let dash = r#""score": { "dash": 2, "gap": 1 }"#;
    assert_eq!(told(&format!("\"both_ways\": \"both-sides\", {dash}")), ["perforated-both-sides"]);
    assert_eq!(told(r#""both_ways": "both-sides""#), Vec::<&str>::new());
    assert_eq!(told(dash), Vec::<&str>::new());
}
