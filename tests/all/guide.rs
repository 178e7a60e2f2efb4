// SPDX-License-Identifier: MIT
//! The guide: every number in it comes from the model, its words are plain, its trimmer plan ends with the list's parts.

use crate::common;

use crate::common::{album, cutter, fixtures, near, work};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use hingeleaf::album::Album;
use hingeleaf::cutter::Cutter;
use hingeleaf::guide::{self, Bit, Block, Guide, Number, What, measure, scoring};
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::length::{Allow, Length, Units};
use hingeleaf::sheets::Search;
use hingeleaf::toolpath::Labels;
use hingeleaf::work::{Files, Work};
use hingeleaf::write::{self, Memory};
use serde_json::Value;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;

/// Every album of fixtures/ laid for a trimmer, with little effort.
fn on_the_trimmer() -> Vec<(String, Work)> {
    let one = |path: &std::path::PathBuf| {
        let text = std::fs::read_to_string(path).unwrap();
        let search = Search { effort: Effort::Low, trimmer: true, threads: 2 };
        let work = Work::new(album(&text), Cutter::default(), Labels::default(), search, &Unwatched);
        (path.file_stem().unwrap().to_str().unwrap().to_owned(), work)
    };
    let all: Vec<(String, Work)> = fixtures().iter().map(one).filter(|(_, work)| !work.stopped()).collect();
    assert!(all.len() > 10, "only {} albums", all.len());
    all
}

fn made(work: &Work) -> Guide {
    guide::guide(&work.guide_job(false))
}

/// The text that speaks of all kits: the job sheet where there is one.
fn for_all(work: &Work) -> Guide {
    if work.album.has_shop() { guide::shop(&work.guide_job(false)) } else { made(work) }
}

fn report(work: &Work) -> Value {
    serde_json::from_str(&work.report(&BTreeMap::new())).unwrap()
}

/// What one reads, as a length: a ruler's fraction or a tenth of a millimetre.
fn read_back(shown: &str) -> f64 {
    let own = shown.split(" (").next().unwrap();
    let plain = own.replace(['\u{2009}', '\u{202f}'], " ").replace('⁄', "/").replace('−', "-");
    Length::parse(&plain, Units::Mm, Allow::Plain).unwrap_or_else(|error| panic!("{shown}: {error}")).mm()
}

const LENGTHS: [What; 12] = [
    What::Width,
    What::Height,
    What::FromLeft,
    What::FromTop,
    What::FromRight,
    What::FromBottom,
    What::Stop,
    What::SheetWidth,
    What::SheetHeight,
    What::Length,
    What::TapeWidth,
    What::Time,
];

/// What is read is what the model has, to half of the last mark: 0.05 mm, or 1/128 in.
#[test]
fn what_is_read_is_what_is_meant() {
    for (name, work) in on_the_trimmer() {
        let numbers = [made(&work), for_all(&work)];
        let lengths = |number: &&Number| LENGTHS.contains(&number.what) && number.what != What::Time;
        for number in numbers.iter().flat_map(Guide::numbers).filter(lengths) {
            near(
                read_back(&number.shown),
                number.value,
                if number.shown.contains("in") { 25.4 / 128.0 } else { 0.051 },
            );
            let own = number.shown.split(" (").next().unwrap();
            assert!(!own.contains("in") || !own.contains('.'), "{name}: {own}");
        }
    }
}

/// Every size, count and score of a part is the report's; every one of the report's is in the cutting list.
#[test]
fn every_number_of_a_part_is_in_the_report() {
    let mut many = 0;
    for (name, work) in on_the_trimmer() {
        let report = report(&work);
        let copies = report["copies"].as_f64().unwrap();
        check_parts(&name, &made(&work), &report, 1.0);
        check_parts(&name, &for_all(&work), &report, copies);
        check_sheets(&name, &for_all(&work), &report);
        many += usize::from(copies > 1.0);
    }
    assert!(many > 2, "{many} albums in several kits");
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

fn check_parts(name: &str, guide: &Guide, report: &Value, kits: f64) {
    let mut followed = 0;
    for part in report["parts"].as_array().unwrap() {
        let id = part["id"].as_str().unwrap();
        let (width, height) = (number(&part["width_mm"]), number(&part["height_mm"]));
        let mut meant: Vec<(What, f64)> =
            vec![(What::Width, width), (What::Height, height), (What::Count, number(&part["count"]) * kits)];
        let mut needed = meant.clone();
        for score in part["scores"].as_array().unwrap() {
            let [[x, y], [to_x, to_y]] = ["from_mm", "to_mm"].map(|end| [0, 1].map(|at| number(&score[end][at])));
            if (x - to_x).abs() < 1e-3 {
                needed.push((What::FromLeft, x));
                meant.extend([(What::FromLeft, x), (What::FromRight, width - x)]);
            } else if (y - to_y).abs() < 1e-3 {
                needed.push((What::FromTop, height - y));
                meant.extend([(What::FromTop, height - y), (What::FromBottom, y)]);
            }
        }
        let is =
            |number: &Number, (what, value): (What, f64)| number.what == what && (number.value - value).abs() < 1e-3;
        let checked =
            [What::Width, What::Height, What::Count, What::FromLeft, What::FromRight, What::FromTop, What::FromBottom];
        for said in guide.numbers().filter(|number| number.of == id && checked.contains(&number.what)) {
            assert!(meant.iter().any(|one| is(said, *one)), "{name}: {said:?} is not in the report");
            followed += 1;
        }
        let list = guide.sections.iter().find(|section| section.id == "cut").unwrap();
        let tables = list.blocks.iter().filter_map(|block| match block {
            Block::Table(table) => Some(table),
            _ => None,
        });
        let rows: Vec<&Vec<guide::Line>> = tables.flat_map(|table| &table.rows).collect();
        let row = rows.iter().find(|row| row.iter().any(|cell| cell.numbers().any(|number| number.of == id)));
        let row = row.unwrap_or_else(|| panic!("{name}: {id} is not in the list"));
        for one in needed {
            let there = row.iter().flat_map(guide::Line::numbers).any(|number| is(number, one));
            assert!(there, "{name}: the list lacks {one:?} of {id}");
        }
    }
    assert!(followed > 8, "{name}: only {followed} numbers");
}

fn check_sheets(name: &str, guide: &Guide, report: &Value) {
    for sheet in report["sheets"].as_array().unwrap() {
        let of = sheet["name"].as_str().unwrap();
        let times: Vec<&Number> =
            guide.numbers().filter(|number| number.of == of && number.what == What::Sheets).collect();
        assert!(times.iter().all(|said| (said.value - number(&sheet["times"])).abs() < 1e-9), "{name}: {of}");
        assert!(!times.is_empty() || sheet["times"] == 1, "{name}: {of} is cut more than once, and nothing says so");
    }
    for laid in report["layouts"].as_array().unwrap() {
        let of = laid["stock"].as_str().unwrap();
        let said = guide.numbers().filter(|number| number.of == of && number.what == What::Sheets);
        near(said.map(|said| said.value).sum::<f64>(), number(&laid["sheets"]), 1e-9);
    }
}

/// Every score's place is told again where it is scored: each once, from one edge or the one across.
#[test]
fn every_score_is_scored_once() {
    for (name, work) in on_the_trimmer() {
        let order: Vec<usize> = (0..work.kit.parts.len()).collect();
        let plan = scoring::plan(&work.kit, &order);
        for (number, part) in work.kit.parts.iter().enumerate() {
            let mut made: Vec<(scoring::FenceEdge, f64)> = Vec::new();
            for setting in &plan {
                for scored in setting.parts.iter().filter(|scored| scored.part == number) {
                    let whole =
                        if scored.edge == scoring::FenceEdge::Left { part.flat.width } else { part.flat.height };
                    made.extend(setting.at.iter().map(|at| (scored.edge, *at)));
                    if scored.again {
                        made.extend(setting.at.iter().map(|at| (scored.edge, whole - at)));
                    }
                }
            }
            made.sort_by(|one, two| one.0.cmp(&two.0).then(one.1.total_cmp(&two.1)));
            made.dedup_by(|one, two| one.0 == two.0 && (one.1 - two.1).abs() < 1e-6);
            let meant: Vec<(scoring::FenceEdge, f64)> =
                scoring::marks(&work.kit, number).iter().map(|mark| (mark.edge, mark.at)).collect();
            assert_eq!(made.len(), meant.len(), "{name}: {}", part.id);
            for (one, other) in made.iter().zip(&meant) {
                assert_eq!(one.0, other.0, "{name}: {}", part.id);
                near(one.1, other.1, 1e-6);
            }
        }
    }
}

/// A strip 54 wide, scored at 12, 18, 36, 42 (H4's even case with tab 12, gusset 6, pitch 6), is the same from its other end:
/// scored at 12 and 18, turned, and again. A wallet back scored once is not turned.
#[test]
fn a_piece_that_is_the_same_from_its_other_end_is_turned() {
    let text = std::fs::read_to_string(common::project().join("fixtures/tide-table.json")).unwrap();
    let kit = common::kit(&text);
    let number = |id: &str| kit.parts.iter().position(|part| part.id == id).unwrap();
    let plan = scoring::plan(&kit, &[number("hinge-2"), number("hinge-1"), number("page-2-back")]);
    assert_eq!(plan.len(), 2);
    assert_eq!(plan[0].at, [12.0, 18.0]);
    assert_eq!(plan[0].parts.iter().map(|scored| scored.again).collect::<Vec<_>>(), [true, true]);
    assert_eq!((plan[1].at.as_slice(), plan[1].parts[0].again), (&[45.0][..], false));
}

/// One rectangle on the table: its sides as it lay on its sheet, and whether it was turned a quarter clockwise.
#[derive(Clone, Copy, Debug)]
struct Rect {
    size: [f64; 2],
    turned: bool,
}

/// The steps of a guide's trimmer plan, as the page has them.
fn cuts(html: &str) -> Vec<BTreeMap<String, String>> {
    let steps = html.split("data-cut=\"").skip(1).map(|rest| rest.split('"').next().unwrap());
    let pairs = |step: &str| {
        step.split(';').map(|pair| pair.split_once('=').unwrap()).map(|(a, b)| (a.to_owned(), b.to_owned())).collect()
    };
    steps.map(pairs).collect()
}

/// Does what the page says with rectangles, and gives what lies on the table in the end, by name.
fn carried_out(html: &str, report: &Value) -> BTreeMap<String, Vec<Rect>> {
    let mut ended: BTreeMap<String, Vec<Rect>> = BTreeMap::new();
    let steps = cuts(html);
    for sheet in report["sheets"].as_array().unwrap() {
        let (name, times) = (sheet["name"].as_str().unwrap(), sheet["times"].as_u64().unwrap());
        let size = ["width_mm", "height_mm"].map(|side| sheet[side].as_f64().unwrap());
        let whole = Rect { size, turned: false };
        let mut table = BTreeMap::from([("sheet".to_owned(), vec![whole; usize::try_from(times).unwrap()])]);
        let mut mine = steps.iter().filter(|step| step["sheet"] == name).peekable();
        assert!(mine.peek().is_some(), "{name} is not cut");
        for step in mine {
            assert_eq!(step["times"], times.to_string());
            let stop: f64 = step["stop"].parse().unwrap();
            let pieces = table.remove(&step["piece"]).unwrap_or_else(|| panic!("no {} on the table", step["piece"]));
            let off: Vec<(usize, &str)> = step["off"]
                .split(' ')
                .map(|off| off.split_once('x').unwrap())
                .map(|(many, name)| (many.parse::<usize>().unwrap() * usize::try_from(times).unwrap(), name))
                .collect();
            for mut piece in pieces.iter().copied() {
                match step["turn"].as_str() {
                    "keep" => {}
                    "clockwise" => {
                        piece.turned = {
                            assert!(!piece.turned);
                            true
                        }
                    }
                    "back" => {
                        piece.turned = {
                            assert!(piece.turned);
                            false
                        }
                    }
                    other => panic!("{other}"),
                }
                let axis = usize::from(piece.turned);
                assert_eq!(step["from"], ["left", "lower"][axis], "another edge lies at the stop");
                for (many, name) in &off {
                    assert_eq!(many % pieces.len(), 0, "{step:?}");
                    for _ in 0..many / pieces.len() {
                        // No sliver thinner than a ruler's step of 0.5 mm.
                        assert!(piece.size[axis] > stop + 0.499, "nothing is left to cut: {step:?} {piece:?}");
                        let mut cut = piece;
                        cut.size[axis] = stop;
                        piece.size[axis] -= stop;
                        table.entry((*name).to_owned()).or_default().push(cut);
                    }
                }
                table.entry(step["rest"].clone()).or_default().push(piece);
            }
        }
        for (name, rects) in table {
            assert!(!name.starts_with("strip") && name != "sheet", "{name} was never cut on");
            ended.entry(name).or_default().extend(rects);
        }
    }
    ended
}

/// Carried out on rectangles, the plan ends with exactly the list's parts, each the way it may lie.
#[test]
fn the_trimmer_plan_ends_with_the_parts_of_the_list() {
    for (name, work) in on_the_trimmer() {
        check_plan(&name, &work);
    }
}

fn check_plan(name: &str, work: &Work) {
    let (html, report) = (write::guide(&for_all(work)), report(work));
    let ended = carried_out(&html, &report);
    let copies = report["copies"].as_u64().unwrap();
    for (number, part) in report["parts"].as_array().unwrap().iter().enumerate() {
        let mut count = 0;
        let stock = work.album.stocks.iter().find(|stock| stock.name == part["stock"].as_str().unwrap()).unwrap();
        for quarters in 0..4 {
            for rect in ended.get(&format!("part-{number}-{quarters}")).into_iter().flatten() {
                let [wide, tall] = if quarters % 2 == 0 { rect.size } else { [rect.size[1], rect.size[0]] };
                // As large as the list says, or less than a ruler's step larger where the sheet itself is.
                for (cut, side) in [(wide, "width_mm"), (tall, "height_mm")] {
                    let over = cut - part[side].as_f64().unwrap();
                    assert!((-0.06..0.5).contains(&over), "{name}: {} is {over} too large", part["id"]);
                }
                if stock.pattern == hingeleaf::stock::Pattern::OneWay {
                    // Bound at the top, a page is made with its head at the left.
                    let upright = if work.kit.parts[number].sideways { 3 } else { 0 };
                    assert_eq!(quarters, upright, "{name}: {} stands on its head", part["id"]);
                }
                count += 1;
            }
        }
        assert_eq!(count, part["count"].as_u64().unwrap() * copies, "{name}: {}", part["id"]);
    }
    let parts: usize = ended.iter().filter(|(name, _)| name.starts_with("part")).map(|(_, all)| all.len()).sum();
    let meant: u64 = report["parts"].as_array().unwrap().iter().map(|part| part["count"].as_u64().unwrap()).sum();
    assert_eq!(parts as u64, meant * copies, "{name}");
}

/// Gap, kerf and margin do no harm: pieces are cut from fresh edges all the same.
#[test]
fn the_plan_holds_with_gap_kerf_and_margin() {
    let text = std::fs::read_to_string(common::project().join("fixtures/tide-table.json")).unwrap();
    for (kerf, gap, margin) in [(0.0, 0.0, 4.0), (0.0, 1.5, 0.0), (0.2, 1.0, 3.0)] {
        let search = Search { effort: Effort::Low, trimmer: true, threads: 1 };
        let cutter = cutter(kerf, gap, margin);
        let work = Work::new(album(&text), cutter, Labels::default(), search, &Unwatched);
        assert!(!work.stopped());
        check_plan(&format!("kerf {kerf}, gap {gap}, margin {margin}"), &work);
    }
}

/// Pieces 209.6 mm wide from A4, which is 210 x 297: 0.4 mm are no cut, 0.5 mm are one. Two pieces 148.3 tall stand one above
/// the other with 0.4 mm to spare, so that one level cut parts them and nothing is left over.
#[test]
fn slivers_are_not_cut_off() {
    for (width, height, cuts) in [(209.6, 136.3, 1), (209.5, 136.3, 2), (209.6, 136.2, 2), (210.0, 136.5, 1)] {
        let text = format!(
            r#"{{ "format": "hingeleaf-album/1", "title": "t", "units": "mm",
               "stocks": {{ "card": {{ "sheet": "A4", "caliper": 0.3 }}, "strips": {{ "sheet": "A3", "caliper": 0.3 }} }},
               "page": {{ "width": {width}, "height": {height}, "seam": 12 }}, "pages": [{{ "kind": "pocket" }}],
               "spine": {{ "kind": "flexi-hinge", "stock": "strips" }} }}"#
        );
        let search = Search { effort: Effort::Low, trimmer: true, threads: 1 };
        let work = Work::new(album(&text), cutter(0.0, 0.0, 0.0), Labels::default(), search, &Unwatched);
        check_plan("slivers", &work);
        let plans = guide::trimmer::plans(&work.kit, &work.stocks);
        let made: u32 = plans[0].steps.iter().map(guide::trimmer::TrimStep::cuts).sum();
        assert_eq!((plans.iter().filter(|plan| plan.stock == 0).count(), made), (1, cuts), "{width} x {height}");
    }
}

/// The stop moves no oftener than when the report's tree is cut branch by branch.
#[test]
fn the_stop_moves_little() {
    fn walk(piece: &Value, stops: &mut Vec<f64>) -> Option<[f64; 4]> {
        let rect = |row: &Value| ["x_mm", "y_mm", "width_mm", "height_mm"].map(|side| row[side].as_f64().unwrap());
        let Some(cut) = piece.get("cut") else { return piece.get("offcut").map(rect) };
        let whole = rect(cut);
        let axis = usize::from(cut["way"] == "level");
        let mut from = whole[axis];
        for at in cut["at_mm"].as_array().unwrap() {
            stops.push(at.as_f64().unwrap() - from);
            from = at.as_f64().unwrap();
        }
        for piece in cut["pieces"].as_array().unwrap() {
            walk(piece, stops);
        }
        Some(whole)
    }
    let (mut planned, mut plain) = (0, 0);
    for (name, work) in on_the_trimmer() {
        let moves: usize = guide::trimmer::plans(&work.kit, &work.stocks)
            .iter()
            .flat_map(|plan| &plan.steps)
            .filter(|step| step.moves)
            .count();
        let mut branch = 0;
        for sheet in report(&work)["sheets"].as_array().unwrap() {
            let mut stops = Vec::new();
            walk(&sheet["cuts"], &mut stops);
            branch += stops
                .iter()
                .zip(std::iter::once(&f64::NAN).chain(&stops))
                .filter(|(one, before)| before.is_nan() || (*one - *before).abs() >= 0.05)
                .count();
        }
        assert!(moves <= branch, "{name}: {moves} settings, {branch} branch by branch");
        planned += moves;
        plain += branch;
    }
    assert!(planned < plain, "{planned} settings, {plain} branch by branch");
}

/// Grooves 1/16 in and 5 mm apart: 12 and 18 mm miss both, 15 mm and 1 3/8 in are met, 12.7 mm is 1/2 in.
#[test]
fn scores_between_grooves_are_told() {
    for met in [15.0, 45.0, 12.7, 34.925, 25.4 / 16.0] {
        assert!(!scoring::between_grooves(met), "{met}");
    }
    for missed in [12.0, 18.0, 25.4 / 32.0, 13.5] {
        assert!(scoring::between_grooves(missed), "{missed}");
    }
}

#[test]
fn lengths_are_set_as_a_ruler_has_them() {
    let show = |units, both, mm| measure::Measure { units, both, notation: measure::NumberSigns::default() }.show(mm);
    assert_eq!(show(Units::Mm, false, 147.637), "147.6\u{2009}mm");
    assert_eq!(show(Units::In, false, 158.75), "6¼\u{2009}in");
    assert_eq!(show(Units::In, false, 7.3125 * 25.4), "7\u{2009}5/16\u{2009}in");
    assert_eq!(show(Units::Mm, true, 12.7), "12.7\u{2009}mm (½\u{2009}in)");
    assert!(measure::on_ruler(25.4 * 5.0 / 16.0) && !measure::on_ruler(25.4 / 32.0));
}

/// Nothing that a maker writes becomes part of the page, and the page's own style and script are those that it allows.
#[test]
fn what_the_maker_writes_stays_words() {
    let text = r#"{ "format": "hingeleaf-album/1", "title": "</title><script>alert(1)</script>", "maker": "A & <b>B</b>",
        "edition": "\"2\"", "notes": ["Use <i>soft</i> card", "and 'take' your time"],
        "page": { "width": 148, "height": 190 }, "pages": [{ "kind": "pocket" }] }"#;
    let work = work(text, cutter(0.0, 0.0, 0.0));
    let html = write::guide(&made(&work));
    assert!(!html.contains("<script>alert") && !html.contains("<b>B</b>") && !html.contains("<i>soft"));
    assert!(html.contains("Use &lt;i&gt;soft&lt;/i&gt; card") && html.contains("A &amp; &lt;b&gt;B&lt;/b&gt;"));
    let hash = |text: &str| STANDARD.encode(Sha256::digest(text.as_bytes()));
    for (text, said) in [write::GUIDE_STYLE, write::GUIDE_SCRIPT].into_iter().zip(write::GUIDE_HASHES) {
        assert_eq!(hash(text), said, "write this one into GUIDE_HASHES");
        assert!(html.contains(&format!("'sha256-{said}'")));
    }
    // No handler and no style in the page's elements, nothing fetched.
    for never in [" onclick=", " onload=", " style=", "http://", "https://", "url(http"] {
        assert!(!html.contains(never), "{never}");
    }
}

/// Files come when they are asked for; the same album gives the same bytes, another album another key for its ticks.
#[test]
fn the_pages_come_when_they_are_asked_for() {
    let text = |width: u32| {
        format!(
            r#"{{ "format": "hingeleaf-album/1", "page": {{ "width": {width}, "height": 190 }}, "pages": [{{ "kind": "pocket" }}] }}"#
        )
    };
    let files = |width: u32, files: &Files<'_>| {
        let mut memory = Memory::default();
        work(&text(width), cutter(0.0, 0.0, 0.0)).write(files, &mut memory).unwrap();
        memory.files
    };
    assert!(files(148, &Files::ALL).contains_key("guide.html"));
    let csv = files(148, &Files::of(&["csv"]));
    assert!(!csv.contains_key("guide.html") && !csv.contains_key("kit-card.html"));
    let html = Files { kit_card: true, both_units: true, ..Files::of(&["html"]) };
    let (one, same, other) = (files(148, &html), files(148, &html), files(150, &html));
    assert_eq!(one["guide.html"], same["guide.html"]);
    let page = |files: &BTreeMap<String, Vec<u8>>, name: &str| String::from_utf8(files[name].clone()).unwrap();
    let key = |page: &str| page.split("data-key=\"").nth(1).unwrap().split('"').next().unwrap().to_owned();
    assert_ne!(key(&page(&one, "guide.html")), key(&page(&other, "guide.html")));
    for size in [">148\u{2009}mm<", ">5\u{2009}53/64\u{2009}in<"] {
        assert!(page(&one, "kit-card.html").contains(size), "{size}");
    }
}

/// One face of each tab gets tape and the other glue, so that the page can still be moved; the last page is hung first.
#[test]
fn tabs_take_tape_on_one_face_and_pages_come_from_the_last() {
    let text = std::fs::read_to_string(common::project().join("fixtures/tide-table.json")).unwrap();
    let guide = made(&work(&text, cutter(0.0, 0.0, 0.0)));
    let bind = guide.sections.iter().find(|section| section.id == "bind").unwrap();
    let heads: Vec<String> = bind.steps().map(|step| step.head.plain()).collect();
    let pages: Vec<f64> = bind.steps().flat_map(|step| step.head.numbers()).map(|number| number.value).collect();
    assert_eq!(pages, [4.0, 3.0, 2.0, 1.0], "{heads:?}");
    for step in bind.steps() {
        let lines: Vec<String> = step.lines.iter().map(guide::Line::plain).collect();
        assert_eq!(lines.iter().filter(|line| line.contains("of tape")).count(), 1, "{lines:?}");
        assert_eq!(lines.iter().filter(|line| line.contains("glue on the tab's other face")).count(), 1, "{lines:?}");
        assert!(!step.warn.is_empty());
    }
}

/// Tape for a page of two pocket pieces 148 wide (both seams) and its tab of 190, clipped 6 mm at both ends, which a tape as wide
/// as the tab stays clear of (H18): 2 x 148 + 178 mm, all 1/2 in wide where the seams are 12.7 wide; with a tenth to spare.
#[test]
fn tape_is_the_sum_of_what_the_steps_use() {
    let text = r#"{ "format": "hingeleaf-album/1", "page": { "width": 148, "height": 190, "seam": 12.7 },
        "pages": [{ "kind": "pocket" }], "spine": { "kind": "flexi-hinge", "tab": 12.7, "lead_in": 6 } }"#;
    let guide = made(&work(text, cutter(0.0, 0.0, 0.0)));
    let all: Vec<&Number> = guide.numbers().filter(|number| number.what == What::Tape && number.of == "all").collect();
    assert_eq!(all.len(), 1);
    near(all[0].value, (2.0 * 148.0 + 178.0) * 1.1, 1e-6);
    assert_eq!(all[0].shown, "0.6\u{2009}m"); // 0.5214 m, up to a tenth
}

/// Cost: 4 A4 sheets at 0.25 for two kits are 0.50 a kit. Weight: the parts' own area times 200 g/m².
#[test]
fn cost_and_weight_are_per_kit() {
    let text = r#"{ "format": "hingeleaf-album/1", "copies": 2,
        "stocks": { "card": { "sheet": "A4", "grammage": 200, "caliper": 0.3, "price": 0.25 } },
        "page": { "width": 148, "height": 190 }, "pages": [{ "kind": "pocket" }] }"#;
    let work = work(text, cutter(0.0, 0.0, 0.0));
    let guide = for_all(&work);
    let sheets = report(&work)["layouts"][0]["sheets"].as_f64().unwrap();
    let area: f64 = report(&work)["parts"]
        .as_array()
        .unwrap()
        .iter()
        .map(|part| part["area_mm2"].as_f64().unwrap() * part["count"].as_f64().unwrap())
        .sum();
    let prices: Vec<f64> =
        guide.numbers().filter(|number| number.what == What::Price).map(|number| number.value).collect();
    assert!(prices.len() == 2 && prices.iter().all(|price| (price - sheets * 0.25 / 2.0).abs() < 1e-9), "{prices:?}");
    let weight = guide.numbers().find(|number| number.what == What::Weight && number.of.is_empty()).unwrap();
    near(weight.value, area / 1e6 * 200.0, 1e-6);
}

/// The album's own words for the guide are read, and nothing else is taken for them.
#[test]
fn maker_edition_and_notes_are_read() {
    let with = |more: &str| -> Album {
        album(&format!(
            r#"{{ "format": "hingeleaf-album/1", {more} "page": {{ "width": 148, "height": 190 }}, "pages": [{{ "kind": "pocket" }}] }}"#
        ))
    };
    let plain = with("");
    assert_eq!((plain.maker, plain.edition, plain.notes.len()), (None, None, 0));
    let full = with(r#""maker": "Ash", "edition": "2", "notes": "Take your time.","#);
    assert_eq!((full.maker.as_deref(), full.edition.as_deref()), (Some("Ash"), Some("2")));
    assert_eq!(full.notes, ["Take your time."]);
}

/// The sample that README shows is what the program writes today.
#[test]
fn the_sample_is_the_programs_own() {
    let text = std::fs::read_to_string(common::project().join("fixtures/tide-table.json")).unwrap();
    let search = Search { effort: Effort::Normal, trimmer: true, threads: 2 };
    let work = Work::new(album(&text), Cutter::default(), Labels::default(), search, &Unwatched);
    let (page, file) = (write::guide(&made(&work)), common::project().join("fixtures/samples/tide-table-guide.html"));
    let same = std::fs::read_to_string(&file).unwrap_or_default() == page;
    if !same && std::env::var_os("UPDATE_GOLDEN").is_some() {
        std::fs::write(&file, &page).unwrap();
    }
    assert!(same, "look at the guide again, and write the sample anew with UPDATE_GOLDEN=1");
}

/// Every mark in a sentence is in the list; every page of the album is hung or made.
#[test]
fn every_letter_is_in_the_list() {
    for (name, work) in on_the_trimmer() {
        let guide = made(&work);
        let marks = |lines: Vec<&guide::Line>| -> Vec<String> {
            let bits = lines.into_iter().flat_map(|line| line.0.clone());
            bits.filter_map(|bit| if let Bit::Mark(mark) = bit { Some(mark) } else { None }).collect()
        };
        let rows = guide::list::list(work.album.order(), &work.kit, 1);
        let known: Vec<&str> = rows.iter().map(|row| row.mark.as_str()).collect();
        let all = marks(guide.sections.iter().flat_map(guide::Section::lines).collect());
        assert!(all.iter().all(|mark| known.contains(&mark.as_str())), "{name}");
        assert!(known.iter().all(|mark| all.iter().any(|one| one == mark)), "{name}");
        let hung: Vec<f64> = guide
            .sections
            .iter()
            .filter(|section| section.id == "bind")
            .flat_map(guide::Section::steps)
            .flat_map(|step| step.head.numbers())
            .map(|number| number.value)
            .collect();
        assert_eq!(hung.len(), work.album.pages.len(), "{name}: {hung:?}");
    }
}
