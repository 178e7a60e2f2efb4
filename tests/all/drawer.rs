// SPDX-License-Identifier: MIT
//! The drawer: what lies there is used first, in the count that lies there; what is left is written when asked, and only then.

use crate::common::{TempDir, album, cutter, hingeleaf};
use hingeleaf::album::Album;
use hingeleaf::batch;
use hingeleaf::drawer::{self, Drawer, NamedDrawer};
use hingeleaf::fields::Source;
use hingeleaf::finding::Finding;
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::parts;
use hingeleaf::sheets::{Search, StockSheets, drawer_rows};
use hingeleaf::toolpath::Labels;
use hingeleaf::work::{BatchWork, Work};
use proptest::prelude::*;
use serde_json::Value;
use std::fs;
use std::path::Path;

const SEARCH: Search = Search { effort: Effort::Low, trimmer: false, threads: 1 };

fn read(text: &str) -> Drawer {
    let read = drawer::read(&Source::new("drawer.json", text.to_owned().into()).unwrap());
    assert!(read.findings.is_empty(), "{:?}", read.findings);
    read.value.unwrap()
}

fn lying(stock: &str, sheets: &[(&str, u32)]) -> String {
    let sheets: Vec<String> =
        sheets.iter().map(|(sheet, count)| format!(r#"{{ "sheet": "{sheet}", "count": {count} }}"#)).collect();
    format!(r#"{{ "format": "hingeleaf-drawer/1", "stocks": {{ "{stock}": [{}] }} }}"#, sheets.join(","))
}

/// Tags of 105 x 148.5 mm on their own stock: four of them are an A4 sheet (210 x 297 mm, ISO 216).
fn text(tags: u32, stock: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1",
            "stocks": {{ "card": {{ "sheet": "A3", "caliper": 0.3 }}, "notes": {{ "sheet": "A4", "caliper": 0.3 {stock} }} }},
            "page": {{ "width": 130, "height": 160, "stock": "card" }},
            "pages": [{{ "kind": "pocket" }}, {{ "kind": "pocket" }}],
            "inserts": [{{ "kind": "tag", "width": 105, "height": 148.5, "hole": 0, "corner": 0, "stock": "notes", "count": {tags} }}] }}"#
    )
}

fn worked(mut album: Album, drawer: Option<&str>, margin: f64) -> Work {
    album.drawer = drawer.map(|text| NamedDrawer::Read(read(text)));
    let work = Work::new(album, cutter(0.0, 0.0, margin), Labels::None, SEARCH, &Unwatched);
    assert!(!work.stopped(), "{:?}", work.findings);
    work
}

/// Of a stock: how many sheets are bought, and how many of each size in the drawer are taken.
fn taken(work: &Work, stock: usize) -> (u64, Vec<(String, u32)>) {
    let rows = drawer_rows(&work.album.stocks, &work.stocks).into_iter().filter(|row| row.stock == stock);
    let taken: Vec<(String, u32)> =
        rows.map(|row| (work.album.stocks[stock].sheets[row.size].name.clone(), row.taken)).collect();
    let all = work.stocks.iter().find(|laid| laid.stock == stock).map_or(0, StockSheets::count);
    (all - taken.iter().map(|(_, taken)| u64::from(*taken)).sum::<u64>(), taken)
}

/// Worked by hand: an offcut of half a sheet holds two tags, a whole one four.
#[test]
fn what_lies_there_is_used_first_and_no_more_of_it() {
    let half = ("210x148.5mm", 1);
    for (tags, sheets, bought, of) in [
        (2, vec![half, ("A4", 3)], 0, vec![1, 0]),
        (3, vec![half, ("A4", 3)], 0, vec![1, 1]),
        (6, vec![half, ("A4", 3)], 0, vec![1, 1]),
        (7, vec![half, ("A4", 3)], 0, vec![1, 2]),
        (7, vec![half, ("A4", 1)], 1, vec![1, 1]),
        (40, vec![half, ("A4", 2)], 8, vec![1, 2]),
        (4, vec![("100x100mm", 9)], 1, vec![0]),
        (4, vec![], 1, vec![]),
    ] {
        for stock in ["", r#", "price": 2"#, r#", "count": 30"#, r#", "count": 30, "price": 1"#] {
            let (album, drawer) = (album(&text(tags, stock)), lying("notes", &sheets));
            let got = taken(&worked(album, Some(&drawer), 0.0), 1);
            let counts: Vec<u32> = got.1.iter().map(|(_, count)| *count).collect();
            assert_eq!((got.0, counts), (bought, of.clone()), "{tags} tags, {sheets:?}, {stock}");
        }
    }
}

/// A grain runs up an offcut: a strip that keeps to the grain goes onto it one way alone. Without grain either way will do.
#[test]
fn an_offcut_is_as_it_lies() {
    let with = |grain: &str, offcut: &str| {
        let text = format!(
            r#"{{ "format": "hingeleaf-album/1", "stocks": {{ "card": {{ "sheet": "A3", "caliper": 0.3 }},
                "strips": {{ "sheet": "A4", "caliper": 0.3 {grain} }} }},
                "page": {{ "width": 130, "height": 160, "stock": "card" }}, "pages": [{{ "kind": "pocket" }}, {{ "kind": "pocket" }}],
                "spine": {{ "kind": "flexi-hinge", "stock": "strips" }} }}"#
        );
        let work = worked(album(&text), Some(&lying("strips", &[(offcut, 1)])), 0.0);
        taken(&work, 1).1[0].1
    };
    // The strips stand 160 mm tall along the spine, which is their grain.
    for (grain, along, across) in [("", 1, 1), (r#", "grain": "long""#, 1, 0), (r#", "grain": "short""#, 1, 0)] {
        assert_eq!(with(grain, "150x165mm"), along, "{grain}");
        assert_eq!(with(grain, "165x150mm"), across, "{grain}");
    }
    // What is a sheet of the stock's own lies as these do.
    assert_eq!(with(r#", "grain": "short""#, "A4"), 1);
}

/// What lies in the drawer changes no part: a larger sheet there does not make one of what is joined.
#[test]
fn parts_are_the_same_whatever_lies_there() {
    let text = text(3, "").replace(r#""pages""#, r#""cover": { "kind": "wrap" }, "pages""#).replace("\"A3\"", "\"A4\"");
    let plain = worked(album(&text), None, 0.0);
    let large = worked(album(&text), Some(&lying("card", &[("A2", 3), ("60x60mm", 4)])), 0.0);
    let flat =
        |work: &Work| work.kit.parts.iter().map(|part| (part.id.clone(), part.flat.digest())).collect::<Vec<_>>();
    assert_eq!(flat(&plain), flat(&large));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    /// Never more is taken than lies there, nothing more is bought than without a drawer, and nothing is bought for what a
    /// sheet that stays in the drawer would hold as well.
    #[test]
    fn the_drawer_saves_and_never_costs(
        tags in 1_u32..30,
        width in 40_u32..118,
        height in 50_u32..140,
        sheets in prop::collection::vec((30_u32..310, 30_u32..430, 0_u32..4), 0..6),
        margin in 0_u32..2,
    ) {
        let text = text(tags, "").replace("\"width\": 105, \"height\": 148.5", &format!("\"width\": {width}, \"height\": {height}"));
        let names: Vec<(String, u32)> = sheets.iter().map(|(w, h, count)| (format!("{w}x{h}mm"), *count)).collect();
        let names: Vec<(&str, u32)> = names.iter().map(|(name, count)| (name.as_str(), *count)).collect();
        let margin = f64::from(margin) * 5.0;
        let plain = worked(album(&text), None, margin);
        let work = worked(album(&text), Some(&lying("notes", &names)), margin);
        let (bought, _) = taken(&work, 1);
        prop_assert!(bought <= taken(&plain, 1).0);
        for row in drawer_rows(&work.album.stocks, &work.stocks) {
            prop_assert!(row.taken <= row.lie);
            prop_assert_eq!(row.taken + row.left(), row.lie);
            let size = &work.album.stocks[1].sheets[row.size];
            let (w, h) = (size.width.mm(), size.height.mm());
            let as_large = (w >= 210.0 && h >= 297.0) || (h >= 210.0 && w >= 297.0);
            prop_assert!(bought == 0 || row.left() == 0 || !as_large, "{} stays", size.name);
        }
        // Every tag is laid once.
        let laid = work.stocks.iter().filter(|laid| laid.stock == 1).flat_map(|laid| &laid.sheets);
        let pieces: u64 = laid.map(|sheet| sheet.placements.len() as u64 * u64::from(sheet.times)).sum();
        prop_assert_eq!(pieces, u64::from(tags));
    }
}

fn ordered(albums: &[(&str, String)], text: &str, drawer: Option<&str>) -> (BatchWork, Vec<Finding>) {
    let source = Source::new("order.json", text.to_owned().into()).unwrap();
    let mut load =
        |name: &str| Source::new(name, albums.iter().find(|(known, _)| *known == name).unwrap().1.clone().into());
    let read = batch::read(&source, &parts::kinds(), &mut load);
    let mut batch = read.value.unwrap_or_else(|| panic!("{:?}", read.findings));
    batch.drawer = drawer.map(|text| NamedDrawer::Read(self::read(text)));
    (BatchWork::new(batch, cutter(0.0, 0.0, 0.0), Labels::None, SEARCH, &Unwatched), read.findings)
}

/// A batch takes from one drawer, each sheet once, for all its kits and for each kit's own sheets.
#[test]
fn an_order_takes_each_sheet_once() {
    let albums = [("one.json", text(3, "")), ("two.json", text(5, ""))];
    for together in ["batch", "kit"] {
        let order = format!(
            r#"{{ "format": "hingeleaf-batch/1", "together": "{together}",
                "kits": [{{ "name": "a", "album": "one.json", "copies": 2 }}, {{ "name": "b", "album": "two.json" }}] }}"#
        );
        let (work, _) = ordered(&albums, &order, Some(&lying("notes", &[("A4", 2)])));
        let rows = drawer_rows(&work.merged.stocks, &work.stocks);
        assert_eq!(rows.iter().map(|row| (row.lie, row.taken)).collect::<Vec<_>>(), [(2, 2)], "{together}");
    }
}

/// A stock that is not there is a note; so is one that could be several, and one of these by its own name is used.
#[test]
fn stocks_of_the_drawer_that_are_not_used_are_told() {
    let notes = |findings: &[Finding]| findings.iter().filter(|finding| finding.id == "drawer").count();
    let work = worked(album(&text(3, "")), Some(&lying("felt", &[("A4", 2)])), 0.0);
    assert_eq!(notes(&work.findings), 1);
    assert_eq!(notes(&worked(album(&text(3, "")), Some(&lying("notes", &[("A4", 2)])), 0.0).findings), 0);
    let order = r#"{ "format": "hingeleaf-batch/1", "kits": [{ "name": "a", "album": "one.json" },
        { "name": "b", "album": "one.json", "change": { "stocks.notes.grain": "long" } }] }"#;
    for (name, told, taken) in [("notes", 1, 0), ("notes.b", 0, 1), ("notes.a", 0, 1), ("card", 0, 1)] {
        let (work, _) = ordered(&[("one.json", text(3, ""))], order, Some(&lying(name, &[("A3", 1)])));
        assert!(!work.stopped(), "{:?}", work.findings);
        let all: u32 = drawer_rows(&work.merged.stocks, &work.stocks).iter().map(|row| row.taken).sum();
        assert_eq!((notes(&work.findings), all), (told, taken), "{name}");
    }
}

/// Albums of an order that name different drawers are refused where the batch names none.
#[test]
fn one_order_has_one_drawer() {
    let named = |name: &str| text(3, "").replacen('{', &format!(r#"{{ "drawer": "{name}", "#), 1);
    let albums = [("one.json", named("a.json")), ("two.json", named("b.json"))];
    let order = |more: &str| {
        format!(
            r#"{{ "format": "hingeleaf-batch/1", {more} "kits": [{{ "name": "a", "album": "one.json" }}, {{ "name": "b", "album": "two.json" }}] }}"#
        )
    };
    let differ = |text: &str| {
        let source = Source::new("order.json", text.to_owned().into()).unwrap();
        let mut load = |name: &str| {
            let text = albums.iter().find(|(known, _)| *known == name).unwrap().1.clone();
            Source::new(name, text.into())
        };
        let read = batch::read(&source, &parts::kinds(), &mut load);
        read.findings.iter().filter(|finding| finding.id == "terms-differ").count()
    };
    assert_eq!(differ(&order("")), 1);
    assert_eq!(differ(&order(r#""drawer": "c.json","#)), 0);
    assert_eq!(differ(&order("").replace("two.json", "one.json")), 0);
}

fn json(path: &Path) -> Value {
    serde_json::from_slice(&fs::read(path).unwrap()).unwrap()
}

/// What is left is written when asked, whole, and else not; a kit that is refused leaves the drawer as it was.
#[test]
fn the_drawer_is_written_when_asked_and_only_then() {
    let dir = TempDir::new("drawer");
    let before = lying("notes", &[("A4", 3), ("210x148.5mm", 1)])
        .replace("\"stocks\": {", "\"stocks\": { \"felt\": [{ \"sheet\": \"A5\", \"count\": 2 }],");
    let drawer = dir.put("drawer.json", &before);
    let album = dir.put("album.json", text(7, "").replacen('{', r#"{ "drawer": "drawer.json", "#, 1));
    let out = dir.join("kit");
    let kit = |more: &[&str]| {
        let mut words = vec!["kit", album.to_str().unwrap(), "--out", out.to_str().unwrap(), "--formats", "csv,html"];
        words.extend(more);
        hingeleaf(words)
    };
    let run = kit(&[]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(run.out.contains("From the drawer: 2 of 3 A4 of notes; 1 left."), "{}", run.out);
    assert_eq!(fs::read_to_string(&drawer).unwrap(), before);
    assert_eq!(hingeleaf(["check", album.to_str().unwrap()]).code, 0);
    assert_eq!(fs::read_to_string(&drawer).unwrap(), before);
    // The folder is there already.
    assert_eq!(kit(&["--update-drawer"]).code, 2);
    assert_eq!(fs::read_to_string(&drawer).unwrap(), before);
    assert_eq!(kit(&["--update-drawer", "--replace"]).code, 0);
    let after = json(&drawer);
    assert_eq!(after["stocks"]["felt"][0]["count"], 2, "{after}");
    let of = |name: &str| {
        let sheets = after["stocks"]["notes"].as_array().into_iter().flatten();
        sheets.filter(|sheet| sheet["sheet"] == name).map(|sheet| sheet["count"].as_u64().unwrap()).sum::<u64>()
    };
    // Seven tags: two on the half sheet, four on a sheet, one on another, across its foot: 297 - 105 = 192 mm are left above it.
    assert_eq!((of("A4"), of("210x148.5mm"), of("210x192mm")), (1, 0, 1), "{after}");
    assert!(hingeleaf(["check", album.to_str().unwrap()]).code == 0, "what is written can be read");
    assert_eq!(dir.names(), ["album.json", "drawer.json", "kit"]);
    for page in ["guide.html"] {
        let text = fs::read_to_string(out.join(page)).unwrap();
        assert!(text.contains("Take from the drawer") && text.contains("Take it from the drawer"), "{page}");
    }
    // Nowhere to write to.
    let plain = dir.put("plain.json", text(7, ""));
    let run =
        hingeleaf(["kit", plain.to_str().unwrap(), "--out", dir.join("other").to_str().unwrap(), "--update-drawer"]);
    assert!(run.code == 2 && run.err.contains("no file names one") && !dir.join("other").exists(), "{}", run.err);
}

/// A drawer that is broken is told at its places, all of them; one that is not there is told where it is named.
#[test]
fn a_broken_drawer_is_told_where_it_is_broken() {
    let dir = TempDir::new("drawer-broken");
    let album = dir.put("album.json", text(7, "").replacen('{', r#"{ "drawer": "drawer.json", "#, 1));
    let run = hingeleaf(["check", album.to_str().unwrap()]);
    assert!(run.code == 2 && run.err.contains("album.json, line 1, column 13"), "{}", run.err);
    dir.put("drawer.json", "{ \"format\": \"hingeleaf-drawer/1\",\n \"stocks\": { \"card\": [{ \"sheet\": \"A44\" },\n { \"sheet\": \"A4\", \"cuont\": 2 }], \"Bad Name\": 3 } }");
    let run = hingeleaf(["check", album.to_str().unwrap()]);
    assert_eq!(run.code, 2);
    for says in [
        "drawer.json, line 2, column 34",
        "drawer.json, line 3, column 19",
        "\"count\"",
        "Bad Name",
        "line 3, column 34",
        "line 3, column 46",
    ] {
        assert!(run.err.contains(says), "{says} is not in {}", run.err);
    }
}
