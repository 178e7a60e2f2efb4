// SPDX-License-Identifier: MIT
//! Sheets that are printed before they are cut: their register marks stand where they are asked for, no part comes near them,
//! what is printed is what is cut. Other people's readers look at the files in `tests/outside/test_templates.py`.

use crate::common::broken_cutters::{BrokenCutter, broken_cutters_are_answered};
use crate::common::{TempDir, album, cutter, hingeleaf, work};
use hingeleaf::contour::{Contour, Point, Rect, grow, turned};
use hingeleaf::cutter::{self as machine, Cutter, MarkShape, MarkSides, RegisterMarks};
use hingeleaf::fields::Source;
use hingeleaf::guide::{self, Block};
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::length::Length;
use hingeleaf::picture::{Fill, Mark, Tint};
use hingeleaf::prepress;
use hingeleaf::sheets::Search;
use hingeleaf::toolpath::{Labels, StrokePath};
use hingeleaf::work::Work;
use proptest::prelude::*;

/// Parts small and large, with holes, and a stock of its own for the papers, small enough to try marks out on.
const ALBUM: &str = r##"{
    "format": "hingeleaf-album/1",
    "stocks": { "card": { "sheet": "A4", "caliper": 0.3, "colour": "#8FA3B0" }, "slip": { "sheet": "150x120mm", "caliper": 0.3 } },
    "page": { "width": 120, "height": 160, "seam": 12, "stock": "card" },
    "pages": [{ "kind": "pocket" }, { "kind": "wallet", "pocket": 90, "overflap": 40 }],
    "inserts": [{ "kind": "tag", "width": 70, "height": 40, "hole": 4, "corner": 6, "stock": "slip", "count": 3 }]
}"##;

/// Nearer than this is the same, mm.
const NEAR: f64 = 1e-6;

fn marks() -> RegisterMarks {
    let mm = Length::from_mm;
    RegisterMarks {
        shape: MarkShape::Corner,
        size: mm(8.0),
        inset: mm(10.0),
        number: 4,
        line: mm(0.5),
        along: MarkSides::Short,
        bleed: mm(0.0),
    }
}

fn with(marks: RegisterMarks) -> Cutter {
    Cutter { marks: Some(marks), ..cutter(0.2, 2.0, 5.0) }
}

/// Worked out, as far as it goes together.
fn tried(text: &str, cutter: Cutter) -> Work {
    let search = Search { effort: Effort::Low, trimmer: false, threads: 1 };
    Work::new(album(text), cutter, Labels::default(), search, &Unwatched)
}

fn ids(work: &Work) -> Vec<&str> {
    work.findings.iter().map(|finding| finding.id).collect()
}

/// The box of a run of the tool.
fn bounds(run: &StrokePath) -> Rect {
    match run {
        StrokePath::Straight(pieces) => {
            pieces.iter().map(|(from, to)| Rect::from_points(*from, *to)).reduce(|all, one| all.union(one)).unwrap()
        }
        StrokePath::Closed(contour) => contour.bounds(),
        StrokePath::Open(edges) => edges.iter().map(|edge| edge.bounds()).reduce(|all, one| all.union(one)).unwrap(),
    }
}

/// The corners of A4, 10 mm in: an angle of two arms of 8 mm opens towards the middle of the sheet.
#[test]
fn marks_stand_at_the_corners() {
    let work = work(ALBUM, with(marks()));
    let sheet = work.stocks.iter().flat_map(|stock| &stock.sheets).find(|sheet| sheet.name == "card-01").unwrap();
    let outer: Vec<(f64, f64)> = sheet.register.iter().map(|mark| (mark.lines[0][1].x, mark.lines[0][1].y)).collect();
    assert_eq!(outer, [(10.0, 10.0), (200.0, 287.0), (200.0, 10.0), (10.0, 287.0)]);
    for mark in &sheet.register {
        let ends = [mark.lines[0][0], mark.lines[0][2]];
        let near = ends.iter().all(|end| (end.x - 105.0).abs() <= 95.0 && (end.y - 148.5).abs() <= 138.5);
        let arms = ends.map(|end| end.distance(mark.lines[0][1]));
        assert!(near && arms.iter().all(|arm| (arm - 8.0).abs() < NEAR), "{mark:?}");
    }
    // The cut file's layer has the same lines, and none of them is a stroke of the tool.
    let paths = work.paths.iter().find(|paths| paths.name == "card-01").unwrap();
    assert_eq!(paths.register.len(), 4);
}

/// A part that would lie nearer than it may, by how much; `None` where all keep off.
fn too_near(work: &Work, cutter: &Cutter) -> Option<String> {
    for (stock, sheet) in work.stocks.iter().flat_map(|laid| laid.sheets.iter().map(move |sheet| (laid.stock, sheet))) {
        let ink: Vec<Rect> = sheet
            .register
            .iter()
            .map(|mark| {
                let half = mark.line / 2.0;
                Rect::new(mark.at.x, mark.at.y, mark.at.x + mark.size, mark.at.y + mark.size).inflate(half, half)
            })
            .collect();
        let clear = |what: Rect, by: f64, ink: &Rect| {
            let across = (what.x0 - ink.x1).max(ink.x0 - what.x1);
            let up = (what.y0 - ink.y1).max(ink.y0 - what.y1);
            across.max(up) >= by - NEAR
        };
        for placed in &sheet.placements {
            let part = &work.kit.parts[placed.part];
            assert_eq!(part.stock, stock);
            let (path, _) = grow(&part.flat.outline, &part.flat.holes, cutter.offset().mm()).unwrap();
            let map = |point: Point| {
                let point = turned(point, placed.quarters, (part.flat.width, part.flat.height));
                Point::new(point.x + placed.x, point.y + placed.y)
            };
            let path: Contour = path.mapped(map);
            if let Some(ink) = ink.iter().find(|ink| !clear(path.bounds(), cutter.gap.mm(), ink)) {
                return Some(format!("{} on {}: {:?} and the mark {ink:?}", part.id, sheet.name, path.bounds()));
            }
        }
        for (number, one) in ink.iter().enumerate() {
            if ink[number + 1..].iter().any(|other| !clear(*one, 0.0, other)) {
                return Some(format!("marks of {} lie on each other", sheet.name));
            }
        }
        for &[x, y, width, height] in &sheet.offcuts {
            let offcut = Rect::new(x, y, x + width, y + height);
            if ink.iter().any(|ink| !clear(offcut, 0.0, ink)) {
                return Some(format!("an offcut of {} is printed on", sheet.name));
            }
        }
    }
    None
}

/// The check bites: on a sheet that is laid without marks, some part lies where they would be.
#[test]
fn parts_of_a_plain_sheet_lie_where_marks_would_be() {
    let plain = cutter(0.2, 2.0, 5.0);
    let mut work = work(ALBUM, plain.clone());
    let marked = with(marks());
    for sheet in work.stocks.iter_mut().flat_map(|stock| &mut stock.sheets) {
        sheet.register = marked.register(Length::from_mm(sheet.width), Length::from_mm(sheet.height));
    }
    assert!(too_near(&work, &plain).is_some());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, ..ProptestConfig::default() })]

    #[test]
    fn no_part_comes_near_a_mark(
        shape in proptest::sample::select(MarkShape::ALL.to_vec()),
        along in proptest::sample::select(MarkSides::ALL.to_vec()),
        (size, inset, number) in (2.0..14.0, 1.0..14.0, 2..=6_u32),
        (line, kerf, gap, margin) in (0.1..2.0, 0.0..0.5, 0.0..4.0, 0.0..8.0),
    ) {
        let mm = Length::from_mm;
        let asked = RegisterMarks { shape, size: mm(size), inset: mm(inset), number, line: mm(line), along, bleed: mm(0.0) };
        let cutter = Cutter { marks: Some(asked), ..cutter(kerf, gap, margin) };
        let work = tried(ALBUM, cutter.clone());
        if work.stopped() {
            // What the marks leave is too small for a part, and that is told.
            prop_assert!(ids(&work).contains(&"too-big"), "{:?}", work.findings);
            return Ok(());
        }
        prop_assert_eq!(too_near(&work, &cutter), None);
        for laid in &work.stocks {
            let stock = &work.album.stocks[laid.stock];
            for sheet in &laid.sheets {
                // All of them or none, and none is told.
                let told = work.findings.iter().any(|finding| {
                    finding.id == "marks-left-out" && finding.about.to_string().contains(stock.name.as_str())
                });
                let here = u32::try_from(sheet.register.len()).unwrap();
                prop_assert!(here == number || here == 0);
                prop_assert_eq!(here == 0, told, "{}: {:?}", sheet.name, ids(&work));
                for mark in &sheet.register {
                    prop_assert!(mark.at.x >= inset - NEAR && mark.at.x + mark.size <= sheet.width - inset + NEAR);
                    prop_assert!(mark.at.y >= inset - NEAR && mark.at.y + mark.size <= sheet.height - inset + NEAR);
                }
            }
        }
    }
}

/// Marks of 30 mm, 12 in from the edge, take more than half of a slip of 150 x 120; of 8 mm they don't.
#[test]
fn sheets_without_room_for_marks_are_told() {
    let small = work(ALBUM, with(marks()));
    assert!(!ids(&small).contains(&"marks-left-out"), "{:?}", small.findings);
    let large =
        work(ALBUM, with(RegisterMarks { size: Length::from_mm(30.0), inset: Length::from_mm(12.0), ..marks() }));
    let told: Vec<String> = large
        .findings
        .iter()
        .filter(|finding| finding.id == "marks-left-out")
        .map(|finding| format!("{}: {}", finding.about, finding.text))
        .collect();
    let [one] = told.as_slice() else { panic!("{told:?}") };
    assert!(one.contains("slip") && one.contains("150x120mm") && one.contains("30 mm"), "{one}");
}

/// What lies in the drawer is used first, marked or not; what has no room for marks is told, once a size, and what has is not.
#[test]
fn small_sheets_of_a_drawer_are_told() {
    let with_drawer = |size: &str, long: f64| {
        let drawer = format!(
            r#"{{ "format": "hingeleaf-drawer/1", "stocks": {{ "slip": [{{ "sheet": "{size}", "count": 3 }}] }} }}"#
        );
        let mut album = album(ALBUM);
        let read = hingeleaf::drawer::read(&Source::new("drawer.json", drawer.into()).unwrap());
        let unused = read.value.unwrap().offer(&mut album.stocks);
        assert!(unused.is_empty(), "{unused:?}");
        let search = Search { effort: Effort::Low, trimmer: false, threads: 1 };
        let work = Work::new(album, with(marks()), Labels::default(), search, &Unwatched);
        assert!(!work.stopped(), "{:?}", work.findings);
        let slips = work.stocks.iter().flat_map(|laid| &laid.sheets).filter(|sheet| sheet.name.starts_with("slip"));
        let of_drawer = slips.filter(|sheet| (sheet.width.max(sheet.height) - long).abs() < NEAR).count();
        let told = work.findings.iter().filter(|finding| finding.id == "marks-left-out").count();
        (of_drawer > 0, told)
    };
    assert_eq!(with_drawer("76x46mm", 76.0), (false, 0));
    assert_eq!(with_drawer("80.6x58mm", 80.6), (true, 1));
    assert_eq!(with_drawer("160x100mm", 160.0), (true, 0));
}

/// A tag of 90 x 262 goes onto A4 with marks along its long sides, or with none: along the short ones they take 20.25 mm
/// of its length twice.
#[test]
fn a_part_that_marks_leave_no_room_for_is_told_so() {
    let text = r#"{ "format": "hingeleaf-album/1", "page": { "width": 100, "height": 100 }, "pages": [{ "kind": "pocket" }],
        "inserts": [{ "kind": "tag", "width": 90, "height": 262, "pages": [] }] }"#;
    let why = |marks: Option<RegisterMarks>| {
        let work = tried(text, Cutter { marks, ..with(self::marks()) });
        let big = work.findings.iter().find(|finding| finding.id == "too-big");
        big.map(|finding| finding.text.to_string())
    };
    assert_eq!(why(None), None);
    assert_eq!(why(Some(RegisterMarks { along: MarkSides::Long, ..marks() })), None);
    let told = why(Some(marks())).unwrap();
    // 10 from the edge, 8 large, a quarter of its line, a gap of 2.
    assert!(told.contains("register marks, which take 20.25 mm of two sides"), "{told}");
}

/// What is printed stands where it is cut: each part's outline in its stock's colour, the marks in black, nothing besides where
/// nothing is drawn; bleed is a line of that colour along the outline, twice as broad.
#[test]
fn the_printed_page_agrees_with_the_cut_file() {
    let asked = RegisterMarks { shape: MarkShape::Square, bleed: Length::from_mm(1.0), ..marks() };
    let cutter = with(asked);
    let work = work(ALBUM, cutter.clone());
    let sheets: Vec<_> = work.stocks.iter().flat_map(|laid| &laid.sheets).collect();
    let laid = (work.stocks.as_slice(), work.paths.as_slice());
    let pages = prepress::pages(work.album.order(), &work.kit, laid, &cutter, work.album.language);
    assert_eq!(pages.len(), sheets.len());
    let own = Tint([0x8F, 0xA3, 0xB0]);
    let mut outlines = 0;
    for (page, sheet) in pages.iter().zip(sheets) {
        assert_eq!((page.picture.width, page.picture.height), (sheet.width, sheet.height));
        assert!(page.name.starts_with(&sheet.name), "{}", page.name);
        let coloured = page.picture.marks.iter().filter_map(|mark| match mark {
            Mark::Shape { contours, fill: Some(Fill::Flat(colour)), pen: Some(pen) } if *colour == own => {
                assert_eq!((pen.width, pen.colour), (2.0, own));
                Some(contours)
            }
            _ => None,
        });
        let coloured: Vec<_> = coloured.collect();
        // The slips have no colour of their own.
        assert_eq!(coloured.len(), if sheet.name.starts_with("card") { sheet.placements.len() } else { 0 });
        for (placed, contours) in sheet.placements.iter().zip(&coloured) {
            let part = &work.kit.parts[placed.part];
            let bounds = contours[0].bounds();
            assert!((bounds.x0 - placed.x).abs() < NEAR && (bounds.y0 - placed.y).abs() < NEAR, "{}", part.id);
            assert_eq!(contours.len(), 1 + part.flat.holes.len());
            outlines += 1;
        }
        let paths = work.paths.iter().find(|paths| paths.name == sheet.name).unwrap();
        let black = page.picture.marks.iter().filter_map(|mark| match mark {
            Mark::Shape { contours, fill: Some(Fill::Flat(Tint([0, 0, 0]))), pen: None } => Some(contours[0].bounds()),
            _ => None,
        });
        assert_eq!(black.collect::<Vec<_>>(), paths.register.iter().map(bounds).collect::<Vec<_>>());
    }
    assert!(outlines > 3, "{outlines}");
}

/// What is wrong, at the first letter of what, and words of the answer.
const BROKEN: &[BrokenCutter] = &[
    (r#""marks": 4"#, "4", &["marks", "shape", "number"]),
    (r#""marks": "corner""#, "\"corner\"", &["marks", "shape"]),
    (r#""marks": { "shape": "star" }"#, "\"star\"", &["shape", "corner", "ring", "square", "cross"]),
    (r#""marks": { "shape": "sqare" }"#, "\"sqare\"", &["did you mean \"square\""]),
    (r#""marks": { "shapes": "ring" }"#, "\"shapes\"", &["did you mean \"shape\""]),
    (r#""marks": { "number": 1 }"#, "1 }", &["number", "2", "6"]),
    (r#""marks": { "number": 7 }"#, "7", &["number", "2", "6"]),
    (r#""marks": { "size": 0.5 }"#, "0.5", &["size", "2 mm"]),
    (r#""marks": { "size": "8 pounds" }"#, "\"8 pounds\"", &["size"]),
    (r#""marks": { "inset": 0 }"#, "0", &["inset", "1 mm"]),
    (r#""marks": { "line": 9 }"#, "9", &["line", "5 mm"]),
    (r#""marks": { "along": "short" }"#, "\"short\"", &["along", "short-sides", "long-sides"]),
    (r#""marks": { "bleed": -1 }"#, "-1", &["bleed"]),
    (r#""marks": { "bleed": 30 }"#, "30", &["bleed", "20 mm"]),
    (r#""colours": { "register": "blue" }"#, "\"blue\"", &["register", "#"]),
];

#[test]
fn broken_marks_are_answered_at_their_place() {
    broken_cutters_are_answered("", BROKEN);
}

fn read(fields: &str) -> Cutter {
    let text = format!("{{ \"format\": \"hingeleaf-cutter/1\", {fields} }}");
    let read = machine::read(&Source::new("cutter.json", text.into()).unwrap());
    assert!(read.findings.is_empty(), "{:?}", read.findings);
    read.value.unwrap()
}

/// Left out, each is the usual one; inches have usual sizes of their own.
#[test]
fn marks_have_usual_sizes() {
    assert_eq!(read(r#""marks": {}"#).marks, Some(marks()));
    assert_eq!(read(r#""kerf": 0"#).marks, None);
    let inches = read(r#""units": "in", "marks": { "inset": "1/2" }"#).marks.unwrap();
    assert_eq!((inches.size, inches.inset), (Length::from_mm(6.35), Length::from_mm(12.7)));
}

/// A bleed of 2 mm wants a gap of 4 less the kerf, and a margin of 2 less half of it; with these it is sound.
#[test]
fn bleed_wants_room() {
    let stops = |fields: &str| {
        let findings = read(fields).findings();
        findings.iter().map(|finding| (finding.id, finding.help.to_string())).collect::<Vec<_>>()
    };
    let told = stops(r#""kerf": 0.2, "gap": 3.7, "margin": 1.8, "marks": { "bleed": 2 }"#);
    let [(gap, set_gap), (margin, set_margin)] = told.as_slice() else { panic!("{told:?}") };
    assert_eq!((*gap, *margin), ("bleed-gap", "bleed-margin"));
    assert!(set_gap.contains("3.8 mm") && set_margin.contains("1.9 mm"), "{told:?}");
    assert_eq!(stops(r#""kerf": 0.2, "gap": 3.8, "margin": 1.9, "marks": { "bleed": 2 }"#), []);
    assert_eq!(stops(r#""marks": { "bleed": 0 }"#), []);
}

/// The file is shown where gap and margin stand, or what asks for them; what an option says stands in no file.
#[test]
fn a_bleed_without_room_is_shown_in_its_file() {
    let folder = TempDir::new("bleed-place");
    let album = folder.put("album.json", ALBUM);
    let of = |fields: &str, more: &[&str]| {
        let cutter = folder.put("cutter.json", format!("{{ \"format\": \"hingeleaf-cutter/1\",\n{fields} }}"));
        let words = ["check", album.to_str().unwrap(), "--cutter", cutter.to_str().unwrap()];
        hingeleaf(words.iter().chain(more)).err
    };
    let said = of("\"kerf\": 0.2,\n\"gap\": 1,\n\"margin\": 1, \"marks\": { \"bleed\": 2 }", &[]);
    assert!(said.contains("cutter.json, line 3, column 8 (gap)"), "{said}");
    assert!(said.contains("cutter.json, line 4, column 11 (margin)"), "{said}");
    let said = of("\"kerf\": 0.2,\n\"marks\": { \"bleed\": 2 }", &["--margin", "5"]);
    assert!(said.contains("cutter.json, line 3, column 10 (marks)") && !said.contains("bleed-margin"), "{said}");
    let said = of("\"gap\": 4,\n\"marks\": { \"bleed\": 2 }", &["--margin", "5", "--gap", "1"]);
    assert!(said.contains("cutter.json, line 3, column 10 (marks)"), "{said}");
    let said = of("\"kerf\": 0.2, \"gap\": 4, \"margin\": 5, \"marks\": { \"bleed\": 2 }", &[]);
    assert!(!said.contains("bleed-") && !said.contains("cutter.json, line"), "{said}");
}

/// Whoever cuts is told to print first, and only where something is.
#[test]
fn the_job_sheet_says_what_is_printed_first() {
    let says = |marks: Option<RegisterMarks>| {
        let text = ALBUM.replace("\"page\":", "\"copies\": 3, \"handed_over\": \"cut\", \"page\":");
        let work = work(&text, Cutter { marks, ..with(self::marks()) });
        let job = guide::shop(&work.guide_job(false));
        let machine = job.sections.iter().find(|section| section.id == "machine").unwrap().clone();
        let mut lines: Vec<String> = Vec::new();
        for block in &machine.blocks {
            match block {
                Block::List(list) => lines.extend(list.iter().map(guide::Line::plain)),
                Block::Table(table) => lines.extend(
                    table.rows.iter().map(|row| row.iter().map(guide::Line::plain).collect::<Vec<_>>().join(": ")),
                ),
                _ => {}
            }
        }
        lines
    };
    let told = says(Some(RegisterMarks { bleed: Length::from_mm(1.0), ..marks() }));
    let has = |lines: &[String], words: &str| lines.iter().any(|line| line.contains(words));
    assert!(has(&told, "print-first.pdf") && has(&told, "4 corners, 8"), "{told:?}");
    let plain = says(None);
    assert!(!plain.is_empty() && !has(&plain, "print-first.pdf") && !has(&plain, "Register"), "{plain:?}");
}
