// SPDX-License-Identifier: MIT
//! Several sheets on one bed: every sheet lies on it as often as it is cut, none is lost, none is cut twice, and nothing
//! sticks out.

use crate::common::broken_cutters::{BrokenCutter, broken_cutters_are_answered};
use crate::common::{album, cutter, work};
use hingeleaf::contour::{Point, Rect};
use hingeleaf::cutter::{self as machine, BedPlace, BedProblem, Cutter, Forms, LayerOrder, SheetsABed};
use hingeleaf::fields::Source;
use hingeleaf::guide::{self, Block};
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::length::Length;
use hingeleaf::sheets::Search;
use hingeleaf::stock::Stock;
use hingeleaf::toolpath::{BedLoad, Labels, Layer, SheetPaths, StrokePath, ToolEffort, bed_loads, cut_sheets};
use hingeleaf::work::{Files, Work};
use hingeleaf::write::Memory;
use proptest::prelude::*;
use std::collections::BTreeMap;

const ALBUM: &str = r#"{
    "format": "hingeleaf-album/1", "copies": 3, "handed_over": "cut",
    "stocks": { "card": { "sheet": "A4", "caliper": 0.3 } },
    "page": { "width": 120, "height": 160, "seam": 12, "stock": "card" },
    "pages": [{ "kind": "pocket" }, { "kind": "wallet", "pocket": 90, "overflap": 40 }],
    "inserts": [{ "kind": "tag", "width": 70, "height": 40, "hole": 4, "corner": 6, "count": 3 }]
}"#;

/// Nearer than this is the same, mm.
const NEAR: f64 = 1e-6;

fn with(bed: (f64, f64), asked: SheetsABed) -> Cutter {
    let bed = Some((Length::from_mm(bed.0), Length::from_mm(bed.1)));
    Cutter { bed, sheets_a_bed: Some(asked), ..cutter(0.2, 2.0, 5.0) }
}

fn rect(place: &BedPlace, (width, height): (f64, f64)) -> Rect {
    let (width, height) = if place.turned { (height, width) } else { (width, height) };
    Rect::new(place.x, place.y, place.x + width, place.y + height)
}

/// What is wrong with places of a sheet on a bed: outside, or on each other.
fn wrong(places: &[BedPlace], bed: (f64, f64), sheet: (f64, f64)) -> Option<String> {
    for (number, place) in places.iter().enumerate() {
        let on = rect(place, sheet);
        if on.x0 < -NEAR || on.y0 < -NEAR || on.x1 > bed.0 + NEAR || on.y1 > bed.1 + NEAR {
            return Some(format!("{place:?} sticks out of {bed:?}"));
        }
        for other in &places[..number] {
            let common = on.intersect(rect(other, sheet));
            if common.width() > NEAR && common.height() > NEAR {
                return Some(format!("{place:?} lies on {other:?}"));
            }
        }
    }
    None
}

/// The corners of a run, as often as it has them.
fn points(run: &StrokePath) -> Vec<Point> {
    match run {
        StrokePath::Straight(pieces) => pieces.iter().flat_map(|(from, to)| [*from, *to]).collect(),
        StrokePath::Closed(contour) => contour.vertices().iter().map(|vertex| vertex.at).collect(),
        StrokePath::Open(edges) => edges.iter().flat_map(|edge| [edge.from, edge.to]).collect(),
    }
}

/// Every stroke of a load stands where its sheet lies, each once, and each of the sheet's is there; found by turning back.
fn whole(load: &BedLoad, paths: &[SheetPaths]) -> Result<(), String> {
    let mut left: Vec<Vec<Point>> = load.paths.strokes.iter().map(|stroke| points(&stroke.run)).collect();
    for (number, place) in &load.sheets {
        let sheet = &paths[*number];
        let back = |point: &Point| {
            let (x, y) = (point.x - place.x, point.y - place.y);
            if place.turned { Point::new(y, sheet.height - x) } else { Point::new(x, y) }
        };
        for stroke in &sheet.strokes {
            let meant = points(&stroke.run);
            let same = |found: &Vec<Point>| {
                found.len() == meant.len() && found.iter().zip(&meant).all(|(one, two)| back(one).distance(*two) < NEAR)
            };
            let at = left.iter().position(same).ok_or_else(|| format!("a stroke of {} is lost", sheet.name))?;
            left.remove(at);
        }
    }
    if left.is_empty() { Ok(()) } else { Err(format!("{} strokes too many", left.len())) }
}

/// How often each sheet is cut, over all loads.
fn counted(loads: &[BedLoad]) -> BTreeMap<usize, u32> {
    let mut all = BTreeMap::new();
    for load in loads {
        for (sheet, _) in &load.sheets {
            *all.entry(*sheet).or_default() += load.paths.times;
        }
    }
    all
}

proptest! {
    /// As many as a count of rows and columns says, the better way round; none sticks out or lies on another.
    #[test]
    fn a_bed_takes_as_many_as_it_can(bed in (50.0..2000.0, 50.0..2000.0), sheet in (20.0..700.0, 20.0..700.0)) {
        let mm = Length::from_mm;
        let cutter = with(bed, SheetsABed::Fill);
        let places = cutter.bed_places(mm(sheet.0), mm(sheet.1)).unwrap();
        prop_assert_eq!(wrong(&places, bed, sheet), None);
        let rows = |width: f64, height: f64| {
            let count = |bed: f64, side: f64| (1..=20).take_while(|many| f64::from(*many) * side <= bed + NEAR).count();
            count(bed.0, width) * count(bed.1, height)
        };
        prop_assert_eq!(places.len(), rows(sheet.0, sheet.1).max(rows(sheet.1, sheet.0)));
    }

    /// Sheets of any number, each cut any number of times: on as few beds as can be, each as often as it is cut.
    #[test]
    fn each_sheet_lies_on_a_bed_as_often_as_it_is_cut(
        times in proptest::collection::vec(1..30_u32, 1..6),
        bed in (100.0..1000.0, 100.0..1000.0),
    ) {
        let cutter = with(bed, SheetsABed::Fill);
        let sheet = |(number, times): (usize, &u32)| SheetPaths {
            name: format!("card-{number:02}"),
            stock: 0,
            times: *times,
            width: 210.0,
            height: 297.0,
            behind: Vec::new(),
        register: Vec::new(),
            strokes: Vec::new(),
            seconds: None,
        };
        let paths: Vec<SheetPaths> = times.iter().enumerate().map(sheet).collect();
        let stocks = stocks();
        let many = cutter.bed_places(Length::from_mm(210.0), Length::from_mm(297.0)).unwrap().len();
        let loads = bed_loads(&stocks, &paths, &cutter);
        if many == 0 {
            // The check says that the sheet is too large; until then it has a file of its own.
            prop_assert!(loads.is_empty() && cut_sheets(&stocks, &paths, &cutter).len() == paths.len());
            return Ok(());
        }
        let meant: BTreeMap<usize, u32> = times.iter().copied().enumerate().collect();
        prop_assert_eq!(counted(&loads), meant);
        let beds: u32 = loads.iter().map(|load| load.paths.times).sum();
        prop_assert_eq!(beds, times.iter().sum::<u32>().div_ceil(u32::try_from(many).unwrap()));
        for load in &loads {
            prop_assert!(load.sheets.len() <= many);
            let places: Vec<BedPlace> = load.sheets.iter().map(|(_, place)| *place).collect();
            prop_assert_eq!(wrong(&places, bed, (210.0, 297.0)), None);
        }
    }
}

/// One stock that has no cutter of its own.
fn stocks() -> Vec<Stock> {
    album(ALBUM).stocks
}

/// An album's sheets on a bed of two by two: all strokes are there, once, within the bed; each length is what the sheets have.
#[test]
fn strokes_are_moved_and_nothing_else() {
    for bed in [(430.0, 600.0), (600.0, 430.0), (300.0, 300.0)] {
        let cutter = with(bed, SheetsABed::Fill);
        let work = work(ALBUM, cutter.clone());
        let loads = bed_loads(&work.album.stocks, &work.paths, &cutter);
        let meant: BTreeMap<usize, u32> = work.paths.iter().map(|sheet| sheet.times).enumerate().collect();
        assert_eq!(counted(&loads), meant);
        let (mut cut, mut beds_cut) = (0.0, 0.0);
        for sheet in &work.paths {
            cut += ToolEffort::of(sheet).cut * f64::from(sheet.times);
        }
        for load in &loads {
            whole(load, &work.paths).unwrap();
            beds_cut += ToolEffort::of(&load.paths).cut * f64::from(load.paths.times);
            assert_eq!((load.paths.width, load.paths.height), bed);
            let inside = |at: &Point| at.x > 0.0 && at.y > 0.0 && at.x < bed.0 && at.y < bed.1;
            assert!(load.paths.strokes.iter().flat_map(|stroke| points(&stroke.run)).all(|at| inside(&at)));
            let layers: Vec<_> = load.paths.strokes.iter().map(|stroke| stroke.layer).collect();
            assert!(layers.is_sorted(), "marks, scores, cuts");
        }
        assert!((cut - beds_cut).abs() < 1e-3 && cut > 1000.0, "{cut} {beds_cut}");
    }
}

/// The search for lost and doubled strokes bites.
#[test]
fn a_lost_or_doubled_stroke_is_found() {
    let cutter = with((430.0, 600.0), SheetsABed::Fill);
    let work = work(ALBUM, cutter.clone());
    let load = bed_loads(&work.album.stocks, &work.paths, &cutter).swap_remove(0);
    assert_eq!(whole(&load, &work.paths), Ok(()));
    let mut lost = load.clone();
    lost.paths.strokes.pop();
    assert!(whole(&lost, &work.paths).is_err());
    let mut twice = load.clone();
    twice.paths.strokes.push(twice.paths.strokes[0].clone());
    assert!(whole(&twice, &work.paths).is_err());
    let mut moved = load;
    moved.sheets[0].1.x += 1.0;
    assert!(whole(&moved, &work.paths).is_err());
}

/// The folder has a file a bed and none of a sheet that lies on one; the report says where each lies, and the job sheet as well.
#[test]
fn there_is_a_file_a_bed() {
    let cutter = with((430.0, 300.0), SheetsABed::Count(2));
    let work = work(ALBUM, cutter);
    let mut memory = Memory::default();
    work.write(&Files::of(&["svg", "dxf"]), &mut memory).unwrap();
    let files = memory.files;
    let report: serde_json::Value = serde_json::from_slice(&files["report.json"]).unwrap();
    let beds = report["beds"].as_array().unwrap();
    let names: Vec<&str> = beds.iter().map(|bed| bed["name"].as_str().unwrap()).collect();
    assert!(names.len() > 1 && names[0] == "card-bed-01", "{names:?}");
    let meant = names.iter().flat_map(|name| ["dxf", "svg"].map(|kind| format!("sheets/{name}.{kind}")));
    let found: Vec<String> = files.keys().filter(|name| name.starts_with("sheets/")).cloned().collect();
    assert_eq!(found, meant.collect::<Vec<_>>());
    let sheets = &beds[0]["sheets"];
    assert_eq!((sheets[0]["x_mm"].as_f64(), sheets[1]["x_mm"].as_f64()), (Some(0.0), Some(210.0)));
    let job = guide::shop(&work.guide_job(false));
    let tables: Vec<String> = job
        .sections
        .iter()
        .filter(|section| section.id == "machine")
        .flat_map(|section| &section.blocks)
        .filter_map(|block| if let Block::Table(table) = block { Some(table) } else { None })
        .flat_map(|table| &table.rows)
        .map(|row| row.iter().map(guide::Line::plain).collect::<Vec<_>>().join(" | "))
        .collect();
    assert!(tables.iter().any(|row| row.starts_with("card-bed-01 | ") && row.contains("card-01")), "{tables:?}");
    // Whoever cuts a sheet is told a file that there is.
    let steps = job.sections.iter().flat_map(|section| &section.blocks);
    let steps = steps.filter_map(|block| if let Block::Steps(steps) = block { Some(steps) } else { None });
    let cut: Vec<String> =
        steps.flatten().map(|step| step.head.plain()).filter(|text| text.starts_with("Cut the sheet")).collect();
    assert!(cut.len() > 1, "{cut:?}");
    for text in cut {
        let (_, told) = text.trim_end_matches('.').split_once(" on the bed: ").unwrap_or_else(|| panic!("{text}"));
        for file in told.replace(" and ", ", ").split(", ") {
            assert!(found.contains(&format!("sheets/{file}.svg")), "{text}: {file}");
        }
    }
    // Nothing of it where nobody asks.
    let plain = crate::common::work(ALBUM, crate::common::cutter(0.2, 2.0, 5.0));
    let mut memory = Memory::default();
    plain.write(&Files::of(&["svg"]), &mut memory).unwrap();
    let files = memory.files;
    assert!(files.contains_key("sheets/card-01.svg") && !files.keys().any(|name| name.contains("bed")));
}

/// On a bed the layers follow one another as the cutter file orders them, each layer once, all its sheets in it.
#[test]
fn layers_keep_their_order_on_a_bed() {
    for order in [LayerOrder::DrawScoreCut, LayerOrder::CutScoreDraw, LayerOrder::ScoreCutDraw] {
        let forms = Forms { layer_order: order, ..Forms::default() };
        let cutter = Cutter { forms, ..with((900.0, 600.0), SheetsABed::Fill) };
        let work = work(ALBUM, cutter.clone());
        let loads = bed_loads(&work.album.stocks, &work.paths, &cutter);
        assert!(loads.iter().any(|load| load.sheets.len() > 1));
        for load in loads {
            let mut layers: Vec<Layer> = load.paths.strokes.iter().map(|stroke| stroke.layer).collect();
            layers.dedup();
            let wanted = Layer::in_order(order).into_iter().filter(|layer| layers.contains(layer));
            assert_eq!(layers, wanted.collect::<Vec<_>>(), "{order:?}");
        }
    }
}

/// A bed of 430 x 600 takes two by two of A4 and no fifth; stated places lie within it and beside each other, or are refused.
#[test]
fn a_bed_that_takes_fewer_is_told() {
    let mm = Length::from_mm;
    let places = |asked: SheetsABed| with((430.0, 600.0), asked).bed_places(mm(210.0), mm(297.0)).map(|all| all.len());
    let at = |spots: &[(f64, f64)]| SheetsABed::At(spots.iter().map(|(x, y)| (mm(*x), mm(*y))).collect());
    assert_eq!(places(SheetsABed::Count(4)), Ok(4));
    assert_eq!(places(SheetsABed::Count(5)), Err(BedProblem::Fewer(4)));
    assert_eq!(places(at(&[(0.0, 0.0), (220.0, 0.0)])), Ok(2));
    assert_eq!(places(at(&[(0.0, 0.0), (220.5, 0.0)])), Err(BedProblem::Outside(2)));
    assert_eq!(places(at(&[(0.0, 0.0), (209.0, 0.0)])), Err(BedProblem::Overlap(1, 2)));
    assert_eq!(places(at(&[(0.0, 0.0), (210.0, 0.0)])), Ok(2));
    let told = |asked: SheetsABed| {
        let search = Search { effort: Effort::Low, trimmer: false, threads: 1 };
        let work = Work::new(album(ALBUM), with((430.0, 600.0), asked), Labels::default(), search, &Unwatched);
        let told = work.findings.iter().find(|finding| finding.id == "bed-places");
        told.map(|finding| format!("{} {}", finding.text, finding.help))
    };
    assert_eq!(told(SheetsABed::Count(4)), None);
    let fewer = told(SheetsABed::Count(5)).unwrap();
    assert!(fewer.contains("4 sheets of A4") && fewer.contains("sheets_a_bed"), "{fewer}");
    assert!(told(at(&[(0.0, 0.0), (209.0, 0.0)])).unwrap().contains("at places 1 and 2"));
    assert!(told(at(&[(300.0, 0.0)])).unwrap().contains("at place 1"));
}

const BROKEN: &[BrokenCutter] = &[
    (r#""sheets_a_bed": 0"#, "0", &["sheets_a_bed", "whole number from 1 to 50", "fill"]),
    (r#""sheets_a_bed": 1.5"#, "1.5", &["sheets_a_bed"]),
    (r#""sheets_a_bed": 51"#, "51", &["sheets_a_bed", "50"]),
    (r#""sheets_a_bed": "all""#, "\"all\"", &["sheets_a_bed", "fill"]),
    (r#""sheets_a_bed": []"#, "[]", &["sheets_a_bed", "places"]),
    (r#""sheets_a_bed": true"#, "true", &["sheets_a_bed", "places"]),
    (r#""sheets_a_bed": [4]"#, "4]", &["sheets_a_bed", "places"]),
    (r#""sheets_a_bed": [{ "x": 4 }]"#, "{ \"x\"", &["needs", "y"]),
    (r#""sheets_a_bed": [{ "x": 4, "y": -1 }]"#, "-1", &["y"]),
    (r#""sheets_a_bed": [{ "x": 4, "z": 1, "y": 2 }]"#, "\"z\"", &["z"]),
];

#[test]
fn broken_beds_are_answered_at_their_place() {
    broken_cutters_are_answered("\"bed\": \"610x420mm\", ", BROKEN);
}

/// Whoever wants several sheets on a bed says how large that is.
#[test]
fn a_bed_has_a_size() {
    let stops = |fields: &str| {
        let text = format!("{{ \"format\": \"hingeleaf-cutter/1\", {fields} }}");
        let read = machine::read(&Source::new("cutter.json", text.into()).unwrap());
        assert!(read.findings.is_empty(), "{:?}", read.findings);
        read.value.unwrap().findings().iter().map(|finding| finding.id).collect::<Vec<_>>()
    };
    assert_eq!(stops(r#""sheets_a_bed": 2"#), ["sheets-a-bed"]);
    assert_eq!(stops(r#""bed": "610x420mm", "sheets_a_bed": 2"#), Vec::<&str>::new());
    assert_eq!(stops(r#""bed": "610x420mm", "sheets_a_bed": [{ "x": "1 in", "y": 0 }]"#), Vec::<&str>::new());
}
