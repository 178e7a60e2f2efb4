// SPDX-License-Identifier: MIT
//! What size should my page be: where the sheets jump, against arithmetic by hand.

use crate::common::{INCH, Run, TempDir, fixtures, hingeleaf, near};
use serde_json::Value;
use std::path::Path;

/// Four pocket pages whose eight pieces, `width` x (136.5 + 12) mm, are alone on A4 sheets; the strips lie elsewhere.
fn quarters(width: f64) -> String {
    format!(
        r#"{{
            "format": "hingeleaf-album/1",
            "copies": 2,
            "stocks": {{
                "card": {{ "sheet": "A4", "caliper": 0.3, "price": 1 }},
                "strips": {{ "sheet": "A3", "caliper": 0.3, "price": 3 }}
            }},
            "page": {{ "width": {width}, "height": 136.5, "seam": 12, "stock": "card" }},
            "pages": [{}],
            "spine": {{ "kind": "flexi-hinge", "stock": "strips" }}
        }}"#,
        [r#"{ "kind": "pocket" }"#; 4].join(",")
    )
}

fn run(file: &Path, options: &[&str]) -> Run {
    hingeleaf([["sizes", file.to_str().unwrap()].as_slice(), options].concat())
}

fn sheets(size: &Value, stock: &str) -> u64 {
    let all = size["sheets"].as_array().unwrap_or_else(|| panic!("no sheets in {size}"));
    all.iter().find(|tally| tally["stock"] == stock).unwrap()["sheets"].as_u64().unwrap()
}

fn sides(size: &Value) -> [f64; 2] {
    ["width_mm", "height_mm"].map(|side| size[side].as_f64().unwrap())
}

/// A4 is 210 x 297 mm (ISO 216). Pieces of 105 x 148.5 mm come four from a sheet. At 105.5 mm only two do: side by side they
/// need 211 mm; upright beside lying 254 mm; so they can only stand above each other, and no third finds 105.5 mm beside or
/// above them. Taller than 148.5 mm, but 105 mm wide, two stand side by side and a third lies above them: 149.5 + 105 is less
/// than 297. Two kits have sixteen pieces: 4 sheets, 8 or 6, at 1.00 each; two strips a kit come from one sheet at 3.00.
#[test]
fn half_a_millimetre_halves_the_sheets() {
    let temp = TempDir::new("sizes");
    let file = temp.put("quarters.json", quarters(105.5));
    let all = run(&file, &["--json", "--step", "0.5", "--within", "1"]).json();
    assert_eq!(sheets(&all["own"], "card"), 8);
    near(all["own"]["cost_per_kit"].as_f64().unwrap(), 5.5, 1e-9);
    let jump = &all["jumps"][0];
    assert_eq!((jump["what"].as_str(), sides(jump), sheets(jump, "card")), (Some("saves"), [105.0, 136.5], 4));
    assert_eq!(all["sizes"].as_array().unwrap().len(), 25);
    for size in all["sizes"].as_array().unwrap() {
        let [width, height] = sides(size);
        let wanted = match (width < 105.25, height < 136.75) {
            (true, true) => 4,
            (true, false) => 6,
            (false, _) => 8,
        };
        assert_eq!(sheets(size, "card"), wanted, "{size}");
    }
    let words = run(&file, &["--step", "0.5", "--within", "1"]);
    assert_eq!(words.code, 0);
    let line = "0.5 mm narrower (105 x 136.5 mm): 4 sheets of card instead of 8, 2.00 less a kit";
    assert!(words.out.contains(line), "{}", words.out);
}

/// An insert wanted as often as it comes free is no part at all where what is clipped off its corners meets: the check stops,
/// and so no size of the page is offered.
#[test]
fn what_may_come_free_has_to_be_a_part_at_every_size() {
    let temp = TempDir::new("sizes");
    let album = |corner: u32| {
        format!(
            r#"{{ "format": "hingeleaf-album/1", "page": {{ "width": 148, "height": 190 }}, "pages": [{{ "kind": "pocket" }}],
                "inserts": [{{ "kind": "tag", "width": 90, "height": 130, "corner": {corner}, "count": "spare" }}] }}"#
        )
    };
    let sizes = |corner: u32| {
        let file = temp.put("spare.json", album(corner));
        let run = run(&file, &["--step", "1", "--within", "1"]);
        (run.code, run.out.contains("Your page, 148 x 190 mm"), run.err.contains("stop[corner-too-large]"))
    };
    assert_eq!(sizes(10), (0, true, false));
    assert_eq!(sizes(60), (1, false, true));
}

/// With a kerf of 0.2 mm two pieces and their kerfs must share 210 and 297 mm: four come from a sheet at 104.8 x 148.3 mm
/// at most, three, one of them lying above the other two, at a width of 104.8 mm alone.
#[test]
fn the_kerf_moves_the_jump() {
    let temp = TempDir::new("sizes");
    let file = temp.put("quarters.json", quarters(105.5));
    let all = run(&file, &["--json", "--step", "0.5", "--within", "1", "--kerf", "0.2"]).json();
    let jumps: Vec<_> = all["jumps"].as_array().unwrap().iter().filter(|jump| jump["what"] == "saves").collect();
    let seen: Vec<_> = jumps.iter().map(|jump| (sides(jump), sheets(jump, "card"))).collect();
    assert_eq!(seen, [([104.5, 136.5], 6), ([104.5, 136.0], 4)]);
}

/// From the other side: at 105 mm the next wider page costs twice the card, the next taller one half more (three from a
/// sheet), and none is named that costs no more.
#[test]
fn the_nearest_size_that_costs_more_is_named() {
    let temp = TempDir::new("sizes");
    let file = temp.put("quarters.json", quarters(105.0));
    let all = run(&file, &["--json"]).json();
    let jumps = all["jumps"].as_array().unwrap();
    assert!(jumps.iter().all(|jump| jump["what"] == "costs"), "{jumps:?}");
    let seen: Vec<_> = jumps.iter().map(|jump| (sides(jump), sheets(jump, "card"))).collect();
    assert_eq!(seen, [([106.0, 136.5], 8), ([105.0, 137.5], 6)]);
}

/// Common practice, no source: a border of 1/8 in leaves 6 x 8 1/4 in of a page of 6 1/4 x 8 1/2 in, and two such panels come
/// from a 12 x 12 in sheet when nothing is lost between them. A gap of 1/16 in leaves 5 31/32 in for each.
#[test]
fn the_page_whose_panels_come_two_from_a_sheet_is_named() {
    let temp = TempDir::new("sizes");
    let album = r#"{
        "format": "hingeleaf-album/1", "units": "in",
        "stocks": { "card": { "sheet": "tabloid", "caliper": "12 pt" }, "paper": { "sheet": "12x12in", "caliper": "6 pt" } },
        "page": { "width": "6 3/8", "height": "8 1/2", "seam": "1/2" },
        "pages": [{ "kind": "pocket" }, { "kind": "pocket" }],
        "panels": { "reveal": "1/8", "stock": "paper" }
    }"#;
    let file = temp.put("panels.json", album);
    for (gap, width) in [("0", 6.25), ("1/16in", 6.0 + 7.0 / 32.0)] {
        let all = run(&file, &["--json", "--gap", gap]).json();
        let two = all["named"].as_array().unwrap().iter().find(|named| {
            named["why"].as_array().unwrap().iter().any(|why| why["from_one_sheet"] == 2 && why["stock"] == "paper")
        });
        let two = two.unwrap_or_else(|| panic!("{}", all["named"]));
        near(sides(two)[0], width * INCH, 1e-3);
        near(sides(two)[1], 8.5 * INCH, 1e-3);
        // Four panels, two from a sheet.
        assert_eq!((sheets(two, "paper"), sheets(&all["own"], "paper")), (2, 4), "gap {gap}");
    }
}

/// A 4 x 6 in print, 101.6 x 152.4 mm, beside a tab of 12 mm, wants a page 113.6 mm wide. Upwards it wants 1.5 mm to slide
/// (1/16 in, common practice) and what two round folds of 0.3 mm card take (pi x 0.3 mm): 154.84 mm. In half millimetres
/// that is 114 x 155 mm; lying, 164.5 x 104.5 mm.
#[test]
fn the_smallest_pages_that_hold_a_print_are_named_when_asked() {
    let temp = TempDir::new("sizes");
    let file = temp.put("quarters.json", quarters(150.0));
    let all = run(&file, &["--json", "--holds", "4R"]).json();
    let of_print = |name: &str| -> Vec<[f64; 2]> {
        let named = all["named"].as_array().unwrap().iter();
        named.filter(|named| named["why"][0]["holds"] == name).map(sides).collect()
    };
    assert_eq!(of_print("4R"), [[114.0, 155.0], [164.5, 104.5]]);
    // 9 x 13 cm was not asked for and is out of reach.
    assert!(of_print("9x13").is_empty());
}

/// The check of a whole album agrees: a print goes into the page that is named for it without a remark, is too wide for a page
/// half a millimetre narrower, and binds in one half a millimetre shorter.
#[test]
fn the_page_named_for_a_print_takes_it() {
    let said = |width: f64, height: f64| -> Vec<String> {
        let print = r#"{ "kind": "tag", "width": 101.6, "height": 152.4, "hole": 0, "corner": 0 }"#;
        let text = quarters(width)
            .replace("136.5", &height.to_string())
            .replace("\"spine\"", &format!("\"inserts\": [{print}], \"spine\""))
            .replace("A4", "A3");
        let temp = TempDir::new("sizes");
        let all = hingeleaf(["check", temp.put("print.json", text).to_str().unwrap(), "--json"]).json();
        let findings =
            all["findings"].as_array().unwrap().iter().map(|finding| finding["id"].as_str().unwrap().to_owned());
        findings.filter(|id| id.starts_with("insert")).collect()
    };
    assert!(said(114.0, 155.0).is_empty());
    assert_eq!(said(113.5, 155.0), ["insert-too-wide"]);
    assert_eq!(said(114.0, 154.5), ["insert-snug"]);
}

/// 207 mm wide pages of 200 + 12 mm: up to 210 mm they stand on A4; at 211 to 213 mm they can only lie, and that only with 12 mm
/// and at most 198 mm of height: 199 to 206 mm, eight heights of thirteen, do not.
#[test]
fn sizes_at_which_the_album_does_not_go_together_are_counted() {
    let temp = TempDir::new("sizes");
    let file = temp.put("wide.json", quarters(207.0).replace("136.5", "200"));
    let all = run(&file, &["--json"]).json();
    assert_eq!((all["sizes"].as_array().unwrap().len(), all["left_out"].as_u64()), (145, Some(24)));
}

/// What `sizes` says of the file's own size is what `kit` then lays.
#[test]
fn the_files_own_size_takes_what_the_kit_takes() {
    for file in fixtures() {
        let temp = TempDir::new("sizes");
        let out = temp.join("kit");
        let machine = ["--kerf", "0.1", "--gap", "1", "--margin", "3"];
        let all = run(&file, &[["--json", "--within", "2"].as_slice(), &machine].concat()).json();
        let (file, out) = (file.to_str().unwrap(), out.to_str().unwrap());
        let kit = hingeleaf([["kit", file, "--out", out, "--formats", "csv"].as_slice(), &machine].concat());
        assert_eq!(kit.code, 0, "{kit:?}");
        let report: Value =
            serde_json::from_slice(&std::fs::read(Path::new(out).join("report.json")).unwrap()).unwrap();
        for layout in report["layouts"].as_array().unwrap() {
            let stock = layout["stock"].as_str().unwrap();
            assert_eq!(layout["sheets"].as_u64(), Some(sheets(&all["own"], stock)), "{file}: {stock}");
        }
    }
}

#[test]
fn threads_change_nothing() {
    let file = &fixtures()[0];
    let [one, four] = ["1", "4"].map(|threads| run(file, &["--json", "--within", "2", "--threads", threads]).out);
    assert_eq!(one, four);
}

#[test]
fn what_can_not_be_tried_is_refused() {
    let temp = TempDir::new("sizes");
    let sound = temp.put("quarters.json", quarters(105.0));
    for (options, says) in [
        (["--step", "0"], "make --step larger"),
        (["--step", "-1"], "make --step larger"),
        (["--within", "500"], "at most 24 steps"),
        (["--holds", "4Q"], "4x6in, 100x150mm"),
        (["--holds", "0x6in"], "4x6in, 100x150mm"),
    ] {
        let refused = run(&sound, &options);
        assert_eq!((refused.code, refused.out.as_str()), (2, ""), "{options:?}");
        assert!(refused.err.contains(says), "{}", refused.err);
        assert_eq!(run(&sound, &[options.as_slice(), &["--json"]].concat()).json()["findings"][0]["level"], "stop");
    }
    // Board does not fold, whatever the page.
    let board = temp.put("board.json", quarters(105.0).replace(r#""A4", "caliper": 0.3"#, r#""A4", "caliper": 2"#));
    let refused = run(&board, &[]);
    assert_eq!(refused.code, 1);
    assert!(refused.err.starts_with("stop[fold-too-thick]"), "{}", refused.err);
}
