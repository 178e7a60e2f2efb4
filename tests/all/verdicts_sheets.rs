// SPDX-License-Identifier: MIT
//! Verdicts about sheets: strips that lie alike, bounds by pieces that exclude each other, sizes where the present one fits no
//! sheet.

use crate::common::instances::{endless, item, problem};
use crate::common::{TempDir, album, cutter, fixtures, hingeleaf};
use hingeleaf::cutter::Cutter;
use hingeleaf::finding::{Level, Mend};
use hingeleaf::layout::{Cuts, Effort, Turns, Unwatched, lay_out, lay_out_for};
use hingeleaf::outline;
use hingeleaf::parts::Owner;
use hingeleaf::sheets::Search;
use hingeleaf::toolpath::Labels;
use hingeleaf::work::Work;
use std::sync::Arc;

fn laid(text: &str, sheet: &str) -> Work {
    let text = text.replace("SHEET", sheet);
    let search = Search { effort: Effort::Low, trimmer: false, threads: 1 };
    Work::new(album(&text), cutter(0.0, 0.0, 0.0), Labels::None, search, &Unwatched)
}

/// By stock: whether strips of the spine lie as drawn, and whether a quarter turned.
fn ways(work: &Work) -> Vec<[bool; 2]> {
    let strip = |part: usize| {
        let folds = !work.kit.parts[part].flat.scores.is_empty();
        folds && work.kit.pieces.iter().any(|piece| piece.part == part && piece.owner == Owner::Spine)
    };
    let mut ways = vec![[false; 2]; work.album.stocks.len()];
    for laid in &work.stocks {
        for placed in laid.sheets.iter().flat_map(|sheet| &sheet.placements).filter(|placed| strip(placed.part)) {
            ways[laid.stock][usize::from(placed.quarters % 2)] = true;
        }
    }
    ways
}

/// Two kits have two strips of 42 x 100 and two of 54 x 100. A pinwheel of four lies on 154 x 154 (54 + 100); alike, three do
/// (42 + 42 + 54 = 138, and 54 more are 192), so that costs a sheet, and it is told. On 200 x 154 all lie alike.
#[test]
fn strips_without_a_grain_lie_alike_where_that_costs_nothing() {
    let text = r#"{ "format": "hingeleaf-album/1", "title": "t", "units": "mm", "copies": 2,
        "stocks": { "card": { "sheet": "A2", "caliper": 0.3 }, "strips": { "sheet": "SHEET", "caliper": 0.3GRAIN } },
        "page": { "width": 120, "height": 100, "seam": 12, "stock": "card" }, "pages": [P, P, P, P],
        "spine": { "kind": "flexi-hinge", "pitch": 6, "tab": 12, "gusset": 6, "stock": "strips" } }"#
        .replace('P', r#"{ "kind": "pocket" }"#);
    let unstated = text.replace("GRAIN", "");
    let told = |work: &Work| work.findings.iter().filter(|finding| finding.id == "grain-unknown").count();
    let mixed = laid(&unstated, "154x154mm");
    assert_eq!((told(&mixed), ways(&mixed)[1], mixed.stocks[1].count()), (1, [true, true], 1));
    for sheet in ["200x154mm", "154x200mm"] {
        let alike = laid(&unstated, sheet);
        assert_eq!((told(&alike), alike.stocks[1].count()), (0, 1), "{sheet}");
        assert_ne!(ways(&alike)[1], [true, true], "{sheet}");
    }
    // Where it is stated, that decides, and what it costs is said by its price.
    let stated = laid(&text.replace("GRAIN", r#", "grain": "height""#), "154x154mm");
    assert_eq!((told(&stated), ways(&stated)[1]), (0, [true, false]));
}

/// No album of ours has strips both ways on sheets without a grain, unless it says so.
#[test]
fn strips_lie_alike_in_every_album() {
    for path in fixtures() {
        let text = std::fs::read_to_string(&path).unwrap();
        let search = Search { effort: Effort::Low, trimmer: false, threads: 1 };
        let work = Work::new(album(&text), cutter(0.1, 1.0, 3.0), Labels::None, search, &Unwatched);
        for (stock, ways) in work.album.stocks.iter().zip(ways(&work)) {
            let told = work.findings.iter().any(|finding| finding.id == "grain-unknown");
            assert!(ways != [true, true] || told, "{}: {}", path.display(), stock.name);
        }
    }
}

/// On a sheet of 204 x 291 no two of these lie together: 193 x 190 and 148 x 202 leave nothing as broad as 110 either way; two
/// of 110 x 214, which can only stand, are 220 wide; one beside 148 is 258 wide, and above it 202 + 214 tall. So two, four and
/// two of them are eight sheets, which area (5.2) does not tell.
#[test]
fn pieces_that_exclude_each_other_are_a_bound() {
    let items = [(148, 202, 4), (193, 190, 2), (110, 214, 2)]
        .map(|(wide, tall, count)| item(wide * 8000, tall * 8000, Turns::ANY, count));
    let sheets = [endless(204 * 8000, 291 * 8000)];
    for cuts in [Cuts::Free, Cuts::Trimmer] {
        let problem = problem(&items, &sheets, 0, Effort::Low);
        let layout = lay_out_for(&problem, cuts, &Unwatched).unwrap();
        assert_eq!((layout.lower_bound, layout.proven_least), (8, true), "{cuts:?}");
    }
    // The sound neighbour: a sheet 264 wide takes 148 beside 110, and nobody says eight.
    let sheets = [endless(264 * 8000, 291 * 8000)];
    let layout = lay_out(&problem(&items, &sheets, 0, Effort::Low), &Unwatched).unwrap();
    assert!(layout.lower_bound < 8);
    // Kinds that share with their own like, but with none of the others, count by their area: 100 x 290 stands twice on
    // 204 x 291, so five of them take three sheets beside the eight.
    let mut more = items.to_vec();
    more.push(item(100 * 8000, 290 * 8000, Turns::ANY, 5));
    let sheets = [endless(204 * 8000, 291 * 8000)];
    let layout = lay_out(&problem(&more, &sheets, 0, Effort::Low), &Unwatched).unwrap();
    assert!(
        layout.lower_bound >= 11
            && layout.lower_bound <= layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum()
    );
}

fn pages(width: f64, height: f64) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "units": "mm", "stocks": {{ "card": {{ "sheet": "A4", "caliper": 0.3 }} }},
           "page": {{ "width": {width}, "height": {height}, "seam": 12 }}, "pages": [{{ "kind": "pocket" }}],
           "spine": {{ "kind": "flexi-hinge" }} }}"#
    )
}

/// A4 is 210 x 297 (ISO 216). Pieces 250 wide and 230 + 12 tall go onto no sheet; 210 wide they do, which is 40 mm less, and
/// turned they do where the page is 198 tall, which is 32 mm less and the nearest.
#[test]
fn sizes_are_found_where_the_present_one_fits_no_sheet() {
    let temp = TempDir::new("sizes-none");
    let file = temp.put("large.json", pages(250.0, 230.0));
    let run = hingeleaf(["sizes", file.to_str().unwrap(), "--json"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let all = run.json();
    assert!(all["own"].is_null());
    assert_eq!([&all["nearest"]["width_mm"], &all["nearest"]["height_mm"]], [250.0, 198.0]);
    assert!(!all["sizes"].as_array().unwrap().is_empty());
    let words = hingeleaf(["sizes", file.to_str().unwrap()]);
    assert!(words.out.contains("Your page, 250 x 230 mm, does not go together: check says why.\n"), "{}", words.out);
    assert!(words.out.contains("The nearest that does, 250 x 198 mm: "), "{}", words.out);
    // Within reach of the steps it is found among them: 212 mm are 2 mm too wide for A4 upright, and too tall for it turned.
    let file = temp.put("near.json", pages(212.0, 260.0));
    let all = hingeleaf(["sizes", file.to_str().unwrap(), "--json"]).json();
    assert_eq!([&all["nearest"]["width_mm"], &all["nearest"]["height_mm"]], [210.0, 260.0]);
    // Where no page helps, the reason is what it was: a pocket that its page has no room for.
    let none = pages(100.0, 150.0).replace(r#""caliper": 0.3"#, r#""caliper": 2"#);
    let run = hingeleaf(["sizes", temp.put("none.json", none).to_str().unwrap()]);
    assert_eq!(run.code, 1);
    assert!(run.err.contains("fold-too-thick"), "{}", run.err);
}

/// Inserts that come free need no size: they are as large as their pocket takes, whether some come free or none does.
#[test]
fn what_comes_free_needs_no_size() {
    let text =
        pages(105.0, 130.0).replace(r#""spine""#, r#""inserts": [{ "kind": "tag", "count": "spare" }], "spine""#);
    for copies in [1, 2, 3] {
        let text = text.replace(r#""units""#, &format!(r#""copies": {copies}, "units""#));
        let work = laid(&text, "");
        assert!(!work.stopped(), "{:?}", work.findings);
        assert_eq!(work.findings.iter().filter(|finding| finding.id == "spare").count(), 1);
    }
}

/// Findings of a drawn leaf, 160 x 80, of which `asked` asks, on a sheet of A6 (105 x 148, ISO 216): (id, mend).
fn leaf(asked: &str, machine: Cutter) -> Vec<(&'static str, Option<(String, f64)>)> {
    let text = r#"{ "format": "hingeleaf-album/1", "title": "t", "units": "mm",
        "stocks": { "card": { "sheet": "A3", "caliper": 0.35, "grain": "long" }, "paper": { "sheet": "A6", "caliper": 0.2 } },
        "page": { "width": 180, "height": 160, "seam": 12, "stock": "card" }, "pages": [{ "kind": "pocket" }],
        "inserts": [{ "kind": "shape", "stock": "paper", "outline": { "file": "leaf.svg", ASKED } }] }"#;
    let mut album = album(&text.replace("ASKED", asked));
    let drawing = include_str!("../../fixtures/faulty/leaf.svg");
    let source = Arc::new(outline::drawing("leaf.svg", drawing.into()).unwrap());
    for outlined in album.outlines() {
        assert!(outlined.draw(Arc::clone(&source)).is_empty(), "{asked}");
    }
    let search = Search { effort: Effort::Low, trimmer: false, threads: 1 };
    let work = Work::new(album, machine, Labels::None, search, &Unwatched);
    let mend = |mend: &Mend| (mend.path.clone(), mend.value.mm());
    let grave = work.findings.iter().filter(|finding| finding.level != Level::Note);
    grave.map(|finding| (finding.id, finding.mend.as_ref().map(mend))).collect()
}

/// Twice as wide as tall, it lies along the sheet's 148 mm; margins and kerf take of these: 148 - 2 x 3 - 0.2 = 141.8, of which a
/// ruler has 141.5, and half of that in height is 70.75, of which it has 70.5.
#[test]
fn a_drawn_shape_is_made_as_large_as_its_sheet_takes() {
    let bare = || cutter(0.0, 0.0, 0.0);
    let field = |side: &str| format!("inserts[0].outline.{side}");
    assert_eq!(leaf(r#""width": 148"#, bare()), []);
    for asked in [r#""width": 148.5"#, r#""unit": "mm""#, r#""width": "6 in""#] {
        assert_eq!(leaf(asked, bare()), [("too-big", Some((field("width"), 148.0)))], "{asked}");
    }
    let machine = || cutter(0.2, 0.0, 3.0);
    assert_eq!(leaf(r#""width": 141.5"#, machine()), []);
    assert_eq!(leaf(r#""width": 148"#, machine()), [("too-big", Some((field("width"), 141.5)))]);
    assert_eq!(leaf(r#""height": 74"#, machine()), [("too-big", Some((field("height"), 70.5)))]);
    // Of two sides that are said both would have to change.
    assert_eq!(leaf(r#""width": 150, "height": 75"#, bare()), [("too-big", None)]);
}
