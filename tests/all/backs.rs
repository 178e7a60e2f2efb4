// SPDX-License-Identifier: MIT
//! The back of sheets: scores there meet those of the front once the sheet is turned over, by its edges or by its register marks.

use crate::common::strokes::{Stroke as Read, read_dxf, read_svg};
use crate::common::{cutter, near, work};
use hingeleaf::cutter::{self as machine, BackSide, BothWays, Cutter, Forms, ScoreMode, Speeds};
use hingeleaf::fields::Source;
use hingeleaf::guide;
use hingeleaf::length::Length;
use hingeleaf::net::Sense;
use hingeleaf::toolpath::{Stroke, StrokePath};
use hingeleaf::work::{Files, Work};
use hingeleaf::write::Memory;
use serde_json::Value;

/// Hinge strips, whose outer folds work both ways.
pub(crate) const HINGED: &str = r#"{
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

/// What is printed on the front is pricked through: the marks of the back's file lie where each of the front's does once the sheet is turned
/// over, in both kinds of file; the guide tells how to lay the sheet by them. Without marks it is the sheet's own edges.
#[test]
fn the_turned_sheet_is_laid_by_its_marks() {
    use hingeleaf::cutter::{MarkShape, MarkSides, RegisterMarks};
    let mm = Length::from_mm;
    let mut met = 0;
    for (shape, number) in [(MarkShape::Corner, 3), (MarkShape::Ring, 5), (MarkShape::Square, 4), (MarkShape::Cross, 6)]
    {
        let along = MarkSides::Short;
        let marks =
            RegisterMarks { shape, size: mm(6.0), inset: mm(7.0), number, line: mm(0.5), along, bleed: mm(0.0) };
        let work = work(HINGED, Cutter { marks: Some(marks), ..both(ScoreMode::Line) });
        let memory = files(&work);
        for sheet in
            work.paths.iter().filter(|sheet| memory.files.contains_key(&format!("sheets/{}.back.svg", sheet.name)))
        {
            let boxes = |strokes: &[Read], map: &dyn Fn(f64) -> f64| {
                let marks = strokes.iter().filter(|stroke| stroke.layer == "register");
                let one = |stroke: &Read| {
                    let xs = stroke.corners.iter().map(|at| map(at[0]));
                    let ys = stroke.corners.iter().map(|at| at[1]);
                    let most = |all: &mut dyn Iterator<Item = f64>| {
                        all.fold((f64::MAX, f64::MIN), |(a, b), c| (a.min(c), b.max(c)))
                    };
                    let ((x0, x1), (y0, y1)) = (most(&mut xs.into_iter()), most(&mut ys.into_iter()));
                    [x0, y0, x1, y1]
                };
                let mut all: Vec<[f64; 4]> = marks.map(one).collect();
                all.sort_by(|a, b| {
                    a.map(|mm| (mm * 100.0).round()).partial_cmp(&b.map(|mm| (mm * 100.0).round())).unwrap()
                });
                all
            };
            let read = |name: String| read_svg(&text(&memory, &name), 1.0).strokes;
            let front = boxes(&read(format!("sheets/{}.svg", sheet.name)), &|x| x);
            let svg = boxes(&read(format!("sheets/{}.back.svg", sheet.name)), &|x| sheet.width - x);
            let dxf =
                boxes(&read_dxf(&text(&memory, &format!("sheets/{}.back.dxf", sheet.name))), &|x| sheet.width - x);
            assert!(
                front.len() >= usize::try_from(number).unwrap() && front.len() == svg.len() && front.len() == dxf.len()
            );
            for ((one, two), three) in front.iter().flatten().zip(svg.iter().flatten()).zip(dxf.iter().flatten()) {
                near(*one, *two, 2e-4);
                near(*one, *three, 2e-4);
            }
            met += front.len();
        }
        let html = hingeleaf::write::guide(&guide::guide(&work.guide_job(false)));
        let [prick, back, lay, turn] =
            ["Prick every register mark", "First the back", "shift the sheet until", "lay it by its printed marks"]
                .map(|words| html.find(words).unwrap());
        assert!(prick < back && back < lay && lay < turn);
    }
    assert!(met > 20, "{met} marks met");
    let plain = hingeleaf::write::guide(&guide::guide(&work(HINGED, both(ScoreMode::Line)).guide_job(false)));
    assert!(!plain.contains("Prick every") && plain.contains("push it against the same stops"));
}

/// A bed's time has the backs of its sheets in it, and so has what the machine's time costs: counted scores at their speed, and lifts.
#[test]
fn a_back_takes_its_time_on_a_bed_and_in_the_cost() {
    let speed = Some(Speeds { cut: 20.0, score: 40.0, draw: 60.0 });
    let bed = Some((Length::from_mm(430.0), Length::from_mm(600.0)));
    let priced =
        HINGED.replacen("\"page\"", "\"selling\": { \"currency\": \"EUR\", \"machine_hour\": 6 }, \"page\"", 1);
    let [front, both] = [BothWays::Front, BothWays::BothSides].map(|both_ways| {
        let sheets_a_bed = Some(machine::SheetsABed::Fill);
        let back = BackSide { both_ways };
        work(&priced, Cutter { back, speed, lift: 0.5, bed, sheets_a_bed, ..cutter(0.1, 2.0, 5.0) })
    });
    let backs: f64 = both
        .paths
        .iter()
        .filter_map(|sheet| Some((hingeleaf::toolpath::back(sheet, &both.cutter)?, f64::from(sheet.times))))
        .map(|(back, times)| {
            let lines = back.strokes.iter().map(|stroke| match &stroke.run {
                StrokePath::Straight(pieces) => {
                    pieces.iter().map(|(from, to)| from.distance(*to) / 40.0 + 0.5).sum::<f64>()
                }
                _ => panic!("a score that is no line"),
            });
            lines.sum::<f64>() * times
        })
        .sum();
    assert!(backs > 10.0, "{backs} s");
    let beds = |work: &Work| -> f64 {
        let loads = hingeleaf::toolpath::bed_loads(&work.album.stocks, &work.paths, &work.cutter);
        assert!(!loads.is_empty());
        loads.iter().map(|load| load.paths.seconds.unwrap() * f64::from(load.paths.times)).sum()
    };
    near(beds(&both) - beds(&front), backs, 1e-6);
    let minutes = |work: &Work| -> f64 {
        let cost = work.cost().unwrap();
        let row = cost.rows.iter().find(|row| row.name == "machine").unwrap();
        cost.shown(&row.quantity.clone().unwrap()).parse().unwrap()
    };
    // Tenths of a minute, rounded up.
    near(minutes(&both) - minutes(&front), backs / 60.0, 0.11);
}

/// On beds of all sorts, at stated places and found ones, standing and turned: each sheet is turned over in its own place, every stroke of
/// its back is there once, and scores meet those of the front there; sheets on beds have no files of their own.
#[test]
fn backs_on_a_bed_are_turned_over_in_their_places() {
    let mm = Length::from_mm;
    let at = |places: &[(f64, f64)]| machine::SheetsABed::At(places.iter().map(|(x, y)| (mm(*x), mm(*y))).collect());
    let mut met = 0;
    for (width, height, asked, turned) in [
        (640.0, 300.0, machine::SheetsABed::Fill, false),
        (610.0, 420.0, machine::SheetsABed::Fill, true),
        (430.0, 600.0, machine::SheetsABed::Count(2), false),
        (700.0, 650.0, at(&[(11.0, 7.0), (235.5, 20.0), (470.0, 330.0)]), false),
    ] {
        let sheets_a_bed = Some(asked);
        let text = HINGED.replacen("\"page\"", "\"copies\": 3, \"page\"", 1);
        let work = work(&text, Cutter { bed: Some((mm(width), mm(height))), sheets_a_bed, ..both(ScoreMode::Line) });
        let loads = hingeleaf::toolpath::bed_loads(&work.album.stocks, &work.paths, &work.cutter);
        let memory = files(&work);
        let mut wanted: Vec<String> = Vec::new();
        for load in &loads {
            let back = load.back.as_ref();
            wanted.extend(back.map(|back| back.name.clone()));
            let mut left: Vec<[f64; 4]> = back.iter().flat_map(|back| lines(&back.strokes)).collect();
            for (number, place) in &load.sheets {
                assert_eq!(place.turned, turned);
                let sheet = &work.paths[*number];
                let both: Vec<_> = sheet.strokes.iter().filter(|one| one.fold == Some(Sense::Both)).cloned().collect();
                for [x0, y0, x1, y1] in lines(&both) {
                    // As it lies on the bed, then left and right change sides.
                    let lies = |x: f64, y: f64| if turned { (sheet.height - y, x) } else { (x, y) };
                    let wide = if turned { sheet.height } else { sheet.width };
                    let over = |(x, y): (f64, f64)| (place.x + wide - x, place.y + y);
                    let ends = [over(lies(x0, y0)), over(lies(x1, y1))];
                    let same = |line: &[f64; 4]| {
                        let found = [(line[0], line[1]), (line[2], line[3])];
                        found.iter().zip(ends).all(|(one, two)| (one.0 - two.0).hypot(one.1 - two.1) < 1e-6)
                    };
                    let at = left.iter().position(same).unwrap_or_else(|| panic!("{} lost {ends:?}", sheet.name));
                    left.remove(at);
                    met += 1;
                }
            }
            assert!(left.is_empty(), "{} scores too many", left.len());
        }
        let mut found: Vec<&str> = names(&memory).iter().filter_map(|name| name.strip_suffix(".svg")).collect();
        found.sort_unstable();
        wanted.sort_unstable();
        assert_eq!(found, wanted.iter().map(|name| format!("sheets/{name}")).collect::<Vec<_>>());
        assert!(!wanted.is_empty());
        let named = work.cut_names();
        assert!(wanted.iter().all(|name| named.contains(name)), "{named:?}");
    }
    assert!(met > 60, "only {met} scores met");
}

fn lines(strokes: &[Stroke]) -> Vec<[f64; 4]> {
    let pieces = strokes.iter().flat_map(|stroke| match &stroke.run {
        StrokePath::Straight(pieces) => pieces.clone(),
        _ => panic!("a score that is no line"),
    });
    pieces.map(|(from, to)| [from.x, from.y, to.x, to.y]).collect()
}

/// Whoever cuts is told which file of a bed comes first and that each sheet is turned over in its place, and how wide it has to be as it lies.
#[test]
fn it_is_told_how_sheets_on_a_bed_are_turned() {
    let mm = Length::from_mm;
    for (language, place, wide, others) in [
        ("en", "Turn each sheet over sideways in its own place", "it must be", "leave the others where they are"),
        ("de", "Jeden Bogen an seinem Platz seitlich wenden", "muss er", "die anderen bleiben liegen"),
    ] {
        for (bed, long) in [((640.0, 300.0), "210"), ((610.0, 420.0), "297")] {
            let text = HINGED.replacen("\"page\"", &format!("\"language\": \"{language}\", \"page\""), 1);
            let sheets_a_bed = Some(machine::SheetsABed::Fill);
            let bed = Some((mm(bed.0), mm(bed.1)));
            let text = text.replacen("\"page\"", "\"stocks\": { \"card\": { \"sheet\": \"A4\" } }, \"page\"", 1);
            let work = work(&text, Cutter { bed, sheets_a_bed, ..both(ScoreMode::Line) });
            for guide in [guide::guide(&work.guide_job(false)), guide::shop(&work.guide_job(false))] {
                let html = hingeleaf::write::guide(&guide);
                let at = html.find(place).unwrap_or_else(|| panic!("{language}: not told"));
                assert!(html.contains("-bed-01.back") && !html.contains("card-01.back"));
                let told: String = html[at..].chars().take(500).collect();
                assert!(told.contains(wide) && told.contains(long), "{told}");
            }
            let shop = hingeleaf::write::guide(&guide::shop(&work.guide_job(false)));
            assert!(shop.contains(others));
        }
    }
    let plain = hingeleaf::write::guide(&guide::shop(&work(HINGED, both(ScoreMode::Line)).guide_job(false)));
    assert!(!plain.contains("leave the others") && plain.contains("push it against the same stops"));
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
