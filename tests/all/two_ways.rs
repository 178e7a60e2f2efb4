// SPDX-License-Identifier: MIT
//! Two ways of cutting in one job: what is trimmed lies from edge to edge on the whole sheet, what a machine cuts keeps clear of
//! its border, each has the files it wants, and whoever cuts is told which is which.

use crate::common::web::Table;
use crate::common::{TempDir, album, cutter, fixtures, hingeleaf, work};
use hingeleaf::album;
use hingeleaf::batch;
use hingeleaf::cutter::Cutter;
use hingeleaf::fields::Source;
use hingeleaf::finding::{Finding, stops};
use hingeleaf::guide;
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::parts;
use hingeleaf::sheets::{self, Search, Sheet, StockSheets, TrimPiece};
use hingeleaf::stock::{By, OwnCutter};
use hingeleaf::toolpath::Labels;
use hingeleaf::work::{BatchWork, Files, Work};
use hingeleaf::write::Memory;
use std::collections::{BTreeMap, BTreeSet};

const SEARCH: Search = Search { effort: Effort::Low, trimmer: false, threads: 1 };

/// Two stocks, with what is said of each, of the spine and of the tags.
fn text([card, paper, spine, tags]: [&str; 4]) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "copies": 3,
        "stocks": {{ "card": {{ "sheet": "A4", "caliper": 0.35{card} }},
                     "paper": {{ "sheet": "A4", "caliper": 0.2{paper} }} }},
        "page": {{ "width": 148, "height": 190 }}, "panels": {{ "stock": "paper" }},
        "pages": [{{ "kind": "pocket" }}, {{ "kind": "wallet", "pocket": 110, "overflap": 45 }}],
        "spine": {{ "kind": "flexi-hinge"{spine} }},
        "inserts": [{{ "kind": "tag", "width": 60, "height": 90, "count": 2, "pages": [1]{tags} }}] }}"#
    )
}

const BOTH: [&str; 4] = [r#", "by": "trimmer""#, "", r#", "by": "machine""#, r#", "by": "machine""#];

fn found(text: &str) -> Vec<Finding> {
    album::read(&Source::new("album.json", text.into()).unwrap(), &parts::kinds()).findings
}

fn said(finding: &Finding) -> String {
    let place = finding.place.as_ref().map(|place| place.path.clone()).unwrap_or_default();
    format!("{} {place}: {} / {}", finding.id, finding.text, finding.help)
}

fn sheets_of<'w>(work: &'w Work, name: &str) -> &'w [Sheet] {
    let laid = work.stocks.iter().find(|laid| work.album.stocks[laid.stock].name == name);
    laid.map_or(&[], |laid| &laid.sheets)
}

#[test]
fn what_is_wrong_is_told_where_it_stands() {
    let one = |stock: &str| {
        let found = found(&text([stock, "", "", ""]));
        let [one] = found.as_slice() else { panic!("{stock}: {found:?}") };
        said(one)
    };
    for (stock, words) in [
        (r#", "by": "hand""#, ["stocks.card.by", "machine"]),
        (r#", "by": "trimer""#, ["stocks.card.by", "trimmer"]),
        (r#", "cutter": 3"#, ["stocks.card.cutter", "laser.json"]),
        (r#", "cutter": " ""#, ["stocks.card.cutter", "laser.json"]),
        (r#", "cutter": { "kerf": 9 }"#, ["stocks.card.cutter.kerf", "5 mm"]),
        (r#", "cutter": { "margn": 9 }"#, ["stocks.card.cutter.margn", "margin"]),
        (r#", "cutter": { "bed": "A44" }"#, ["stocks.card.cutter.bed", "A4"]),
        (r#", "cutter": { "colours": { "cut": "red" } }"#, ["stocks.card.cutter.colours.cut", "#"]),
        (r#", "cutter": { "score": { "dash": 1 } }"#, ["stocks.card.cutter.score", "gap"]),
        (r#", "cutter": { "format": "hingeleaf-album/1" }"#, ["stocks.card.cutter.format", "hingeleaf-cutter/1"]),
        (r#", "cutter": { "gap": 1, "shared_cuts": true }"#, ["stocks.card.cutter", "gap"]),
    ] {
        let told = one(stock);
        assert!(words.iter().all(|word| told.contains(word)), "{stock}: {told}");
    }
    let wrong = found(&text(["", "", r#", "by": "laser""#, ""]));
    assert!(said(&wrong[0]).contains("spine.by"), "{wrong:?}");
    // What shares the sheets of a stock is no stock that the file has.
    let named = found(&text([r#", "by": "trimmer""#, "", r#", "by": "machine""#, r#", "stock": "card.machine""#]));
    assert!(named.iter().any(|one| one.id == "unknown-stock" && !one.help.to_string().contains("card.machine")));
}

#[test]
fn a_cutter_of_its_own_is_in_the_albums_units_unless_it_says_others() {
    let of = |cutter: &str| {
        let text = text([&format!(r#", "cutter": {cutter}"#), "", "", ""]).replacen('{', r#"{ "units": "in","#, 1);
        let text = text.replace("148", "5").replace("190", "7").replace("110", "4").replace("45", "1.5");
        let text = text.replace("60", "2").replace("90,", "3,");
        let album = album(&text);
        let Some(OwnCutter::Settings(own)) = album.stocks[0].own.clone() else { panic!("no settings") };
        own
    };
    let inch = of(r#"{ "kerf": 0.01, "margin": 0.25 }"#);
    assert_eq!((inch.kerf.mm(), inch.margin.mm()), (0.254, 6.35));
    let metric = of(r#"{ "format": "hingeleaf-cutter/1", "units": "mm", "kerf": 0.1, "margin": 6 }"#);
    assert_eq!((metric.kerf.mm(), metric.margin.mm()), (0.1, 6.0));
}

/// Carries the cuts of a trimmed sheet out, each through the whole piece in hand; the parts that come off, with their boxes.
fn trimmed(piece: &TrimPiece, hand: [f64; 4], off: &mut Vec<(usize, [f64; 4])>) {
    let cut = match piece {
        TrimPiece::Part(number) => return off.push((*number, hand)),
        TrimPiece::Offcut(rect) => return assert!(rect.iter().zip(hand).all(|(one, two)| (one - two).abs() < 1e-3)),
        TrimPiece::Cut(cut) => cut,
    };
    assert_eq!(cut.pieces.len(), cut.at.len() + 1);
    let [x, y, width, height] = hand;
    let mut from = if cut.upright { x } else { y };
    let end = if cut.upright { x + width } else { y + height };
    for (number, inner) in cut.pieces.iter().enumerate() {
        let to = cut.at.get(number).copied().unwrap_or(end);
        assert!(to >= from - 1e-6 && to <= end + 1e-6, "a cut at {to} of {hand:?}");
        let piece = if cut.upright { [from, y, to - from, height] } else { [x, from, width, to - from] };
        trimmed(inner, piece, off);
        from = to;
    }
}

#[test]
fn trimmed_sheets_are_cut_from_edge_to_edge_and_machine_sheets_keep_their_border() {
    let work = work(&text(BOTH), cutter(0.2, 1.0, 7.0));
    let mut parts_by: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for (name, by) in [("card", By::Trimmer), ("card.machine", By::Machine), ("paper", By::Machine)] {
        let sheets = sheets_of(&work, name);
        assert!(!sheets.is_empty(), "{name}");
        for sheet in sheets {
            assert!(sheet.by() == by && sheet.name.starts_with(&format!("{name}-0")), "{}", sheet.name);
            for placed in &sheet.placements {
                parts_by.entry(name).or_default().insert(work.kit.parts[placed.part].kind);
                let flat = &work.kit.parts[placed.part].flat;
                let (width, height) =
                    if placed.quarters % 2 == 0 { (flat.width, flat.height) } else { (flat.height, flat.width) };
                // The margin and half the kerf, or nothing.
                let free = if by == By::Machine { 7.1 } else { 0.0 };
                let clear = |at: f64, side: f64, of: f64| at >= free - 1e-4 && at + side <= of - free + 1e-4;
                assert!(clear(placed.x, width, sheet.width) && clear(placed.y, height, sheet.height), "{placed:?}");
            }
            if by == By::Machine {
                continue;
            }
            let mut off = Vec::new();
            trimmed(sheet.cuts.as_ref().unwrap(), [0.0, 0.0, sheet.width, sheet.height], &mut off);
            assert_eq!(off.iter().map(|(number, _)| *number).collect::<BTreeSet<_>>().len(), sheet.placements.len());
            for (number, [x, y, width, height]) in off {
                let placed = &sheet.placements[number];
                let flat = &work.kit.parts[placed.part].flat;
                let mut size = [flat.width, flat.height];
                if placed.quarters % 2 == 1 {
                    size.reverse();
                }
                let off = [x - placed.x, y - placed.y, width - size[0], height - size[1]];
                assert!(off.iter().all(|off| off.abs() < 1e-3), "{placed:?} comes off as {:?}", [x, y, width, height]);
            }
        }
    }
    assert_eq!(parts_by["card.machine"], BTreeSet::from(["hinge strip", "tag"]));
    assert!(!parts_by["card"].contains("tag"));
}

#[test]
fn each_way_has_its_files_and_both_are_told() {
    let made = |said| {
        let work = work(&text(said), cutter(0.0, 0.0, 5.0));
        let mut files = Memory::default();
        work.write(&Files::of(&["svg", "dxf", "csv", "html"]), &mut files).unwrap();
        let texts = [guide::shop(&work.guide_job(false))];
        let lines: Vec<String> =
            texts[0].sections.iter().flat_map(guide::Section::lines).map(guide::Line::plain).collect();
        (files.files, lines)
    };
    let (files, lines) = made(BOTH);
    let names: Vec<&str> = files.keys().map(String::as_str).filter(|name| name.starts_with("sheets/")).collect();
    assert!(names.iter().any(|name| name.starts_with("sheets/card.machine-") && is_a(name, "dxf")), "{names:?}");
    assert!(names.iter().any(|name| name.starts_with("sheets/paper-") && is_a(name, "svg")), "{names:?}");
    assert!(names.iter().all(|name| !name.starts_with("sheets/card-")), "{names:?}");
    let says = |lines: &[String], words: &str| lines.iter().any(|line| line.contains(words));
    assert!(says(&lines, "On the trimmer: card.") && says(&lines, "By machine: paper and card.machine."), "{lines:#?}");
    for words in ["Keep the trimmer's guard down", "Never leave a laser", "Measure from the blade", "Load each file"] {
        assert!(says(&lines, words), "{words}");
    }
    // What is cut both ways is bought once, and the CSV tells the ways apart.
    let list = String::from_utf8(files["cutting-list.csv"].clone()).unwrap();
    assert!(list.contains("tag-1,card.machine,") && list.contains("page-1-front,card,"), "{list}");
    let report: serde_json::Value = serde_json::from_slice(&files["report.json"]).unwrap();
    for sheet in report["sheets"].as_array().unwrap() {
        let by = sheet.get("by").and_then(serde_json::Value::as_str);
        let trimmed = sheet["name"].as_str().unwrap().starts_with("card-");
        assert_eq!((by, sheet.get("cuts").is_some()), (trimmed.then_some("trimmer"), trimmed));
        assert!(["card", "paper"].contains(&sheet["stock"].as_str().unwrap()));
    }
    // Where all is cut one way nothing is said of ways.
    for all in [["", "", "", ""], [r#", "by": "trimmer""#, r#", "by": "trimmer""#, "", ""]] {
        let (files, lines) = made(all);
        assert!(!says(&lines, "On the trimmer:") && !says(&lines, "By machine:"));
        let machine = all[0].is_empty();
        assert_eq!(files.keys().any(|name| is_a(name, "svg")), machine);
        assert_eq!(says(&lines, "Never leave a laser"), machine);
        assert_eq!(says(&lines, "Keep the trimmer's guard down"), !machine);
    }
}

#[test]
fn files_are_for_the_machine_that_reads_them() {
    let own = r##", "cutter": { "kerf": 1, "svg_units": "in", "colours": { "cut": "#123456" } }"##;
    let work = work(&text(["", own, "", ""]), cutter(0.2, 0.0, 0.0));
    let mut files = Memory::default();
    work.write(&Files::of(&["svg"]), &mut files).unwrap();
    let of = |name: &str| String::from_utf8(files.files[name].clone()).unwrap();
    let (card, paper) = (of("sheets/card-01.svg"), of("sheets/paper-01.svg"));
    assert!(paper.contains("#123456") && paper.contains("in\""), "{}", &paper[..300]);
    assert!(!card.contains("#123456") && card.contains("mm\""), "{}", &card[..300]);
    let reach = |sheet: &str| {
        let paths = work.paths.iter().find(|paths| paths.name == sheet).unwrap();
        assert!(!paths.strokes.is_empty());
        work.album.stocks[paths.stock].cutter(&work.cutter).kerf.mm()
    };
    assert_eq!((reach("card-01"), reach("paper-01")), (0.2, 1.0));
}

#[test]
fn what_no_trimmer_cuts_is_named_at_its_line() {
    let told = |said| {
        let work = work(&text(said), Cutter::default());
        work.findings.into_iter().filter(|one| one.id == "shaped-on-trimmer").collect::<Vec<_>>()
    };
    // A tag has a hole; its clipped corners and those of the hinge's tabs are straight.
    let found = told([r#", "by": "trimmer""#, "", "", ""]);
    let [one] = found.as_slice() else { panic!("{found:?}") };
    assert!(one.about.to_string().contains("tag") && one.text.to_string().contains("an opening"), "{}", said(one));
    assert!(one.place.as_ref().is_some_and(|place| place.path.starts_with("inserts[0]")), "{}", said(one));
    assert!(one.help.to_string().contains(r#""by": "machine""#));
    for quiet in [BOTH, ["", "", "", ""], ["", r#", "by": "trimmer""#, "", ""]] {
        assert_eq!(told(quiet).len(), 0, "{quiet:?}");
    }
    let without = [r#", "by": "trimmer""#, "", "", r#", "hole": 0"#];
    assert_eq!(told(without).len(), 0);
}

/// Two sheets of 148 x 205 mm lie on an A4 sheet, 210 x 297, that loses nothing, and no two where it loses 3 mm a side.
#[test]
fn a_stock_that_takes_fewer_the_other_way_is_told_with_both_counts() {
    let text = |by: &str, panel: &str| {
        format!(
            r#"{{ "format": "hingeleaf-album/1",
            "stocks": {{ "card": {{ "sheet": "A3", "caliper": 0.3 }}, "paper": {{ "sheet": "A4", "caliper": 0.2{by} }} }},
            "page": {{ "width": 154, "height": {panel} }}, "panels": {{ "stock": "paper", "reveal": 3, "on": "pages" }},
            "pages": [{{ "kind": "pocket" }}, {{ "kind": "pocket" }}] }}"#
        )
    };
    let notes = |text: &str, machine: Cutter| {
        let mut work = work(text, machine);
        work.advise(SEARCH, &Unwatched);
        let counts: Vec<u64> = work.stocks.iter().map(StockSheets::count).collect();
        (work.findings.into_iter().filter(|one| one.id == "other-way").collect::<Vec<_>>(), counts)
    };
    // Panels of 148 x 205: one a sheet within 204 x 291, two from edge to edge.
    let (found, counts) = notes(&text("", "211"), cutter(0.0, 0.0, 3.0));
    let [one] = found.as_slice() else { panic!("{found:?} {counts:?}") };
    let line = said(one);
    assert!(line.contains("stocks.paper") && line.contains("4 sheets") && line.contains("and 2 on"), "{line}");
    assert_eq!(counts[1], 4);
    let (found, counts) = notes(&text(r#", "by": "trimmer""#, "211"), cutter(0.0, 0.0, 3.0));
    assert!(found.is_empty() && counts[1] == 2, "{found:?} {counts:?}");
    // Nothing is lost to a machine that loses nothing, nor by panels of which two lie within the margin.
    for (text, machine) in [(text("", "211"), Cutter::default()), (text("", "150"), cutter(0.0, 0.0, 3.0))] {
        assert!(notes(&text, machine).0.is_empty());
    }
}

#[test]
fn what_is_cut_both_ways_shares_the_sheets_that_there_are() {
    let tried = |count: u32| {
        let card = format!(r#", "by": "trimmer", "count": {count}"#);
        let text = text([&card, "", r#", "by": "machine""#, r#", "by": "machine""#]);
        let work = Work::new(album(&text), cutter(0.0, 0.0, 5.0), Labels::None, SEARCH, &Unwatched);
        let used: u64 = work
            .stocks
            .iter()
            .filter(|laid| work.album.stocks[laid.stock].bought() == "card")
            .map(StockSheets::count)
            .sum();
        (work.findings.iter().any(|one| one.id == "out-of-sheets"), used)
    };
    let (short, used) = tried(1000);
    assert!(!short && used > 2, "{used}");
    let enough = u32::try_from(used).unwrap();
    assert_eq!(tried(enough), (false, used));
    assert!(tried(enough - 1).0);
}

/// Whatever is cut which way, each stock takes what it takes where all are cut that way.
#[test]
fn each_stock_takes_what_it_takes_alone() {
    let counts = |album: &album::Album, ways: &[By]| -> Option<BTreeMap<usize, u64>> {
        let mut album = album.clone();
        for (stock, by) in album.stocks.iter_mut().zip(ways) {
            stock.by = *by;
        }
        let made = Work::fit(album, cutter(0.1, 1.0, 4.0));
        if made.stopped() {
            return None;
        }
        let (laid, findings) = sheets::lay(made.album.order(), &made.kit, &made.cutter, SEARCH, &Unwatched);
        (!stops(&findings)).then(|| laid.iter().map(|laid| (laid.stock, laid.count())).collect())
    };
    let (mut seen, mut mixed) = (0, 0);
    for path in fixtures() {
        let read = album(&std::fs::read_to_string(&path).unwrap());
        let stocks = read.stocks.len();
        // Papers that take turns are dealt by what every one of them takes; hundreds of kits take too long here.
        let turns = read.panels.as_ref().is_some_and(|panels| panels.stocks.len() > 1);
        if turns || read.copies > 12 || read.pages.len() > 12 {
            continue;
        }
        let all = [By::Machine, By::Trimmer].map(|by| counts(&read, &vec![by; stocks]));
        let [Some(machine), Some(trimmer)] = all else { continue };
        seen += 1;
        for mask in 1..(1_usize << stocks.min(3)) - 1 {
            let ways: Vec<By> =
                (0..stocks).map(|stock| if mask >> stock & 1 == 1 { By::Trimmer } else { By::Machine }).collect();
            let Some(found) = counts(&read, &ways) else { continue };
            for (stock, count) in found {
                let alone = if ways[stock] == By::Trimmer { &trimmer } else { &machine };
                assert_eq!(Some(&count), alone.get(&stock), "{}: {ways:?}, stock {stock}", path.display());
                mixed += 1;
            }
        }
    }
    assert!(seen > 3 && mixed > 10, "{seen} albums, {mixed} counts");
}

#[test]
fn a_cutter_file_is_found_beside_the_album_and_an_argument_wins() {
    let folder = TempDir::new("two-ways");
    std::fs::create_dir(folder.join("machines")).unwrap();
    folder.put("machines/fine.json", r#"{ "format": "hingeleaf-cutter/1", "kerf": 0.1, "margin": 9 }"#);
    let file = |name: &str| text(["", &format!(r#", "cutter": "{name}""#), "", ""]);
    folder.put("album.json", file("machines/fine.json"));
    folder.put("gone.json", file("machines/gone.json"));
    let kit = |album: &str, out: &str, more: &[&str]| {
        let (album, out) = (folder.join(album), folder.join(out));
        let mut words = vec!["kit", album.to_str().unwrap(), "--out", out.to_str().unwrap(), "--formats", "csv"];
        words.extend(more);
        hingeleaf(words)
    };
    let run = kit("album.json", "one", &[]);
    assert!(run.out.contains("paper: kerf 0.1 mm, gap 0 mm, margin 9 mm."), "{}{}", run.out, run.err);
    let run = kit("album.json", "two", &["--margin", "4"]);
    assert!(run.out.contains("paper: kerf 0.1 mm, gap 0 mm, margin 4 mm."), "{}{}", run.out, run.err);
    let run = kit("gone.json", "three", &[]);
    assert!(run.code == 2 && run.err.contains("stocks.paper.cutter") && run.err.contains("gone.json"), "{}", run.err);
}

/// The page shows the sheets of both ways with the one stock that the file has, and what it can't read is told.
#[test]
fn the_page_shows_both_ways_with_their_stock() {
    let page = Table::start();
    let view = page.work(&text(BOTH), &serde_json::Value::Null);
    let of = |list: &serde_json::Value, key: &str| -> Vec<String> {
        list.as_array().unwrap().iter().map(|one| one[key].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(of(&view["album"]["stocks"], "name"), ["card", "paper"]);
    assert_eq!(of(&view["sheets"]["stocks"], "way"), ["stocks.card", "stocks.paper", "stocks.card"]);
    assert_eq!(of(&view["sheets"]["stocks"], "name"), ["card", "paper", "card.machine"]);
    let unread = text(["", r#", "cutter": "laser.json""#, "", ""]);
    let told = page.work(&unread, &serde_json::Value::Null).to_string();
    assert!(told.contains("its cutter file “laser.json” is not read here"), "{told}");
}

/// Kits share sheets of a stock that they cut alike, and no others.
#[test]
fn kits_share_sheets_of_what_is_cut_alike() {
    let text = text(BOTH);
    let order = |change: &str| {
        let order = format!(
            r#"{{ "format": "hingeleaf-batch/1", "kits": [{{ "name": "one", "album": "album.json", "copies": 2 }},
            {{ "name": "two", "album": "album.json", "copies": 3, "change": {{ {change} }} }}] }}"#
        );
        let source = Source::new("order.json", order.into()).unwrap();
        let read = batch::read(&source, &parts::kinds(), &mut |name: &str| Source::new(name, text.clone().into()));
        let batch = read.value.unwrap_or_else(|| panic!("{:?}", read.findings));
        BatchWork::new(batch, cutter(0.0, 0.0, 5.0), Labels::None, SEARCH, &Unwatched)
    };
    let names = |work: &BatchWork| -> Vec<String> {
        assert!(!work.stopped(), "{:?}", work.findings);
        let names: Vec<String> =
            work.stocks.iter().flat_map(|laid| &laid.sheets).map(|sheet| sheet.name.clone()).collect();
        assert_eq!(names.iter().collect::<BTreeSet<_>>().len(), names.len(), "{names:?}");
        names
            .iter()
            .map(|name| name.rsplit_once('-').unwrap().0.to_owned())
            .collect::<BTreeSet<_>>()
            .into_iter()
            .collect()
    };
    assert_eq!(names(&order("")), ["card", "card.machine", "paper"]);
    let work = order(r#""stocks.paper.by": "trimmer""#);
    assert_eq!(names(&work), ["card", "card.machine", "paper.one", "paper.two"]);
    let by = |name: &str| {
        let sheets = || work.stocks.iter().flat_map(|laid| &laid.sheets);
        sheets().find(|sheet| sheet.name.starts_with(name)).map(Sheet::by)
    };
    assert_eq!((by("paper.one"), by("paper.two")), (Some(By::Machine), Some(By::Trimmer)));
    assert_eq!(
        names(&order(r#""stocks.paper.cutter": { "margin": 2 }"#)),
        ["card", "card.machine", "paper.one", "paper.two"]
    );
}

/// Whether a file is of a kind, by how its name ends.
fn is_a(name: &str, kind: &str) -> bool {
    std::path::Path::new(name).extension().is_some_and(|ending| ending == kind)
}
