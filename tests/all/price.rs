// SPDX-License-Identifier: MIT
//! Why the count of sheets jumped: what kerf, gap and margin cost, and what a page hardly smaller would save.

use crate::common::{INCH, TempDir, album, cutter, hingeleaf, near};
use hingeleaf::cutter::Cutter;
use hingeleaf::finding::Finding;
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::sheets::{Search, StockSheets};
use hingeleaf::toolpath::Labels;
use hingeleaf::work::Work;

/// Pocket pages, two panels each, whose panels measure `width` x `height` in: a border of 1/8 in all round (common
/// practice, no source).
fn panels(pages: usize, width: f64, height: f64, pattern: &str) -> String {
    format!(
        r#"{{
            "format": "hingeleaf-album/1", "units": "in",
            "stocks": {{
                "card": {{ "sheet": "24x36in", "caliper": "12 pt" }},
                "paper": {{ "sheet": "12x12in", "caliper": "6 pt", "pattern": "{pattern}" }}
            }},
            "page": {{ "width": {}, "height": {}, "seam": "1/2" }},
            "pages": [{}],
            "panels": {{ "reveal": "1/8", "stock": "paper" }}
        }}"#,
        width + 0.25,
        height + 0.25,
        vec![r#"{ "kind": "pocket" }"#; pages].join(",")
    )
}

/// Tags of `width` x `height` in from sheets of this name.
fn tags(count: u32, width: f64, height: f64, sheet: &str) -> String {
    format!(
        r#"{{
            "format": "hingeleaf-album/1", "units": "in",
            "stocks": {{
                "card": {{ "sheet": "24x36in", "caliper": "12 pt" }},
                "paper": {{ "sheet": "{sheet}", "caliper": "6 pt" }}
            }},
            "page": {{ "width": 6, "height": 8 }},
            "pages": [{{ "kind": "pocket" }}, {{ "kind": "pocket" }}],
            "inserts": [{{
                "kind": "tag", "width": {width}, "height": {height}, "hole": 0, "corner": 0, "count": {count}, "stock": "paper"
            }}]
        }}"#
    )
}

fn laid(text: &str, cutter: Cutter, trimmer: bool) -> Work {
    let search = Search { effort: Effort::Normal, trimmer, threads: 1 };
    let work = Work::new(album(text), cutter, Labels::None, search, &Unwatched);
    assert!(!work.stopped(), "{:?}", work.findings);
    work
}

/// How many sheets of paper it takes.
fn paper(work: &Work) -> u64 {
    work.stocks.iter().find(|laid| laid.stock == 1).map_or(0, StockSheets::count)
}

fn note(work: &Work) -> Option<&Finding> {
    work.findings.iter().find(|finding| finding.id == "price-of-cutting" && finding.about.to_string() == "stock paper")
}

/// The largest counts by exhaustive search (inches, no margin): 5 x 7 in 12 x 12: four round an empty middle, three by
/// edge-to-edge cuts, two with the pattern upright or any gap. Twelve panels from six pages.
#[test]
fn five_by_seven_panels_come_four_three_or_two_from_a_sheet() {
    let text = panels(6, 5.0, 7.0, "all-over");
    let bare = laid(&text, Cutter::default(), false);
    assert_eq!((paper(&bare), note(&bare)), (3, None));
    assert_eq!(paper(&laid(&text, Cutter::default(), true)), 4);
    assert_eq!(paper(&laid(&panels(6, 5.0, 7.0, "one-way"), Cutter::default(), false)), 6);
    let spaced = laid(&text, cutter(0.0, 0.2, 0.0), false);
    assert_eq!(paper(&spaced), 6);
    let note = note(&spaced).unwrap();
    // Side by side they take 5 + 7 in, the whole sheet: 304.8 mm, of which the gap takes 0.2.
    assert!(
        note.text.to_string().starts_with("6 sheets with gap, and 3 without: a panel of 5 in and a panel of 7 in"),
        "{note:?}"
    );
    near(note.measured.unwrap().mm(), 12.0 * INCH, 1e-3);
    near(note.allowed.unwrap().mm(), 304.6, 1e-3);
    // Each 1/64 in smaller leaves 0.79 mm between them.
    assert!(note.help.to_string().starts_with("make each 1/64 in smaller that way and 3 sheets will do"), "{note:?}");
}

/// Also by exhaustive search: 4 x 6 in 12 x 12: 6, spaced 0.1 in 4; 3 x 4: 12, spaced 9; in letter (8 1/2 x 11 in) three and
/// six, spaced or not.
#[test]
fn small_cards_come_as_many_from_a_sheet_as_a_search_through_all_says() {
    let tenth = 0.1 * INCH;
    for (width, height, sheet, most, spaced) in [
        (4.0, 6.0, "12x12in", 6, 4),
        (3.0, 4.0, "12x12in", 12, 9),
        (4.0, 6.0, "letter", 3, 3),
        (3.0, 4.0, "letter", 6, 6),
    ] {
        let count = 3 * most;
        let text = tags(count, width, height, sheet);
        let [bare, apart] = [0.0, tenth].map(|gap| laid(&text, cutter(0.0, gap, 0.0), false));
        assert_eq!(paper(&bare), u64::from(count.div_ceil(most)), "{width} x {height} from {sheet}");
        assert_eq!(paper(&apart), u64::from(count.div_ceil(spaced)), "{width} x {height} from {sheet}, spaced");
        assert_eq!(note(&bare), None);
        assert_eq!(note(&apart).is_some(), paper(&apart) > paper(&bare), "{width} x {height} from {sheet}");
    }
}

/// Common practice, no source: two panels of 6 x 8 1/4 in, or four of 6 x 6 in, come from a 12 x 12 in sheet only at no gap,
/// margin and kerf. With any of them only one does, for 152.4 mm is half of 304.8.
#[test]
fn six_inch_panels_share_a_sheet_only_when_nothing_is_lost() {
    for (height, bare) in [(8.25, 2), (6.0, 1)] {
        let text = panels(2, 6.0, height, "all-over");
        let without = laid(&text, Cutter::default(), false);
        assert_eq!((paper(&without), note(&without)), (bare, None));
        for (kerf, gap, margin, lost, room) in [
            (0.1, 0.0, 0.0, "kerf", 304.6),
            (0.0, 0.2, 0.0, "gap", 304.6),
            (0.0, 0.0, 0.3, "margin", 304.2),
            (0.1, 0.2, 0.3, "kerf, gap and margin", 303.8),
        ] {
            let with = laid(&text, cutter(kerf, gap, margin), false);
            assert_eq!(paper(&with), 4, "{lost}");
            let note = note(&with).unwrap();
            let says = format!("4 sheets with {lost}, and {bare} without: 2 panels of 6 in");
            assert!(note.text.to_string().starts_with(&says), "{note:?}");
            near(note.measured.unwrap().mm(), 304.8, 1e-3);
            near(note.allowed.unwrap().mm(), room, 1e-3);
        }
    }
}

/// What the help says is true: made so much smaller, the panels come as many from a sheet as it promises. 1/64 in is
/// 0.397 mm, twice that more than the 0.2 mm that are lost: panels of 5 63/64 in come two from a sheet again.
#[test]
fn the_way_out_works() {
    let text = panels(2, 6.0, 8.25, "all-over");
    let with = laid(&text, cutter(0.0, 0.2, 0.0), false);
    assert!(
        note(&with).unwrap().help.to_string().starts_with("make each 1/64 in smaller that way and 2 sheets will do")
    );
    let mended = laid(&panels(2, 6.0 - 1.0 / 64.0, 8.25, "all-over"), cutter(0.0, 0.2, 0.0), false);
    assert_eq!((paper(&mended), note(&mended)), (2, None));
}

/// `check` and `kit` both say it; only `check` says that a page 1/16 in narrower would mend it.
#[test]
fn check_and_kit_say_why() {
    let temp = TempDir::new("price");
    let file = temp.put("panels.json", panels(2, 6.0, 8.25, "all-over"));
    let (file, out) = (file.to_str().unwrap(), temp.join("kit"));
    let check = hingeleaf(["check", file, "--gap", "0.2"]);
    assert_eq!(check.code, 0, "{check:?}");
    let why = "note[price-of-cutting]: stock paper: 4 sheets with gap, and 2 without: 2 panels of 6 in";
    let mend = "note[page-size]: page: 1/16 in narrower (6 3/16 in x 8 1/2 in) it takes 2 sheets of paper instead of 4";
    assert!(check.out.contains(why) && check.out.contains(mend), "{}", check.out);
    let kit = hingeleaf(["kit", file, "--gap", "0.2", "--formats", "csv", "--out", out.to_str().unwrap()]);
    assert_eq!(kit.code, 0, "{kit:?}");
    assert!(kit.err.contains(why) && !kit.err.contains("page-size"), "{}", kit.err);
    // Without a gap there is nothing to say, though a smaller page is no larger.
    let bare = hingeleaf(["check", file]);
    assert!(!bare.out.contains("price-of-cutting") && !bare.out.contains("page-size"), "{}", bare.out);
}

/// A page 1 mm narrower would take as many sheets, one of them letter instead of A4: that saves none, and nothing is said.
#[test]
fn smaller_sheets_are_no_fewer_sheets() {
    let kept = crate::common::project().join("fixtures/kept");
    let (album, cutter) = (kept.join("album-1.json"), kept.join("cutter-1.json"));
    let check = hingeleaf(["check".as_ref(), album.as_os_str(), "--cutter".as_ref(), cutter.as_os_str()]);
    assert_eq!(check.code, 0, "{check:?}");
    assert!(!check.out.contains("page-size"), "{}", check.out);
}

/// Where the parts' area needs as many sheets, or the count is one, nothing is lost to the tool and nothing is said.
#[test]
fn nothing_is_said_where_nothing_is_lost() {
    let two = laid(&panels(1, 5.0, 7.0, "all-over"), cutter(0.1, 1.0, 3.0), false);
    assert_eq!((paper(&two), note(&two)), (1, None));
    // Sheets of 12 x 12 in hold one panel of 11 x 11 in, gap or not.
    let large = laid(&panels(1, 11.0, 11.0, "all-over"), cutter(0.1, 1.0, 3.0), false);
    assert_eq!((paper(&large), note(&large)), (2, None));
}
