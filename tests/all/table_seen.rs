// SPDX-License-Identifier: MIT
//! What the page shows: faces, stocks, money, sizes, the way out of a sheet that is too small.

use crate::common::project;
use crate::common::web::Table;
use serde_json::{Value, json};

fn fixture(name: &str) -> String {
    std::fs::read_to_string(project().join(format!("fixtures/{name}.json"))).unwrap()
}

/// The same album, one value of it another.
fn with(text: &str, way: &str, value: Value) -> String {
    let mut album: Value = serde_json::from_str(text).unwrap();
    *album.pointer_mut(way).unwrap_or_else(|| panic!("no {way}")) = value;
    album.to_string()
}

/// A wallet is seen from the face that its pocket is on, as its file says; a page that is alike on both faces from the front.
#[test]
fn pages_are_seen_from_the_face_that_is_worked() {
    let table = Table::start();
    let mut behind = 0;
    for name in ["tide-table", "seed-ledger", "garden-year"] {
        let text = fixture(name);
        let file: Value = serde_json::from_str(&text).unwrap();
        let answer = table.work(&text, &Value::Null);
        for (page, shown) in file["pages"].as_array().unwrap().iter().zip(answer["album"]["pages"].as_array().unwrap())
        {
            let face = if page["kind"] == "wallet" { page["faces"].as_str().unwrap_or("front") } else { "front" };
            assert_eq!(shown["shows"], face, "{name}: {page}");
            behind += usize::from(face == "back");
        }
    }
    assert!(behind >= 3, "{behind}");
}

/// 6 sheets at 0.25 and 4 at 0.90 are 1.50 and 3.60, 5.10 in all.
#[test]
fn money_says_what_it_is_and_what_it_is_called() {
    let table = Table::start();
    let plain = fixture("tide-table");
    let mut named: Value = serde_json::from_str(&plain).unwrap();
    named["selling"] = json!({ "currency": "EUR" });
    let named = table.work(&named.to_string(), &Value::Null);
    assert_eq!(named["sheets"]["line"], "6 sheets of card, 4 sheets of paper (cost in all: 5.10 EUR)");
    let of_paper = named["sheets"]["stocks"][1]["sentence"].as_str().unwrap();
    assert!(of_paper.starts_with("4 sheets (cost: 3.60 EUR), "), "{of_paper}");
    let without = plain.replace(", \"price\": 0.25", "").replace(", \"price\": 0.9", "");
    let without = table.work(&without, &Value::Null);
    assert_eq!(without["sheets"]["line"], "6 sheets of card, 4 sheets of paper");
}

/// A headline is for the eye: one fraction for each size, the nearest 1/64 in (148 mm are 5 52.9/64 in, 190 mm 7 30.7/64 in).
/// The field says what the file says.
#[test]
fn headlines_have_no_fraction_of_a_fraction() {
    let table = Table::start();
    let answer = table.work(&fixture("tide-table"), &json!({ "do": "units", "units": "in" }));
    let said = answer["album"]["sentence"].as_str().unwrap();
    assert!(said.starts_with("4 pages of 5 53/64 × 7 31/64 in, "), "{said}");
    assert!(!said.contains("mm") && !said.contains('('), "{said}");
    let width = answer["album"]["page"].as_array().unwrap().iter().find(|row| row["path"] == "page.width").unwrap();
    assert_eq!(width["exact"], "148 mm");
}

/// Where a larger sheet ends it, it can be taken; one that has several sizes keeps them.
#[test]
fn a_sheet_that_is_too_small_can_be_changed_at_once() {
    let table = Table::start();
    let tall = with(&fixture("tide-table"), "/page/height", json!(280));
    let answer = table.work(&tall, &Value::Null);
    let offers: Vec<&Value> =
        answer["fit"]["findings"].as_array().unwrap().iter().filter(|one| one["id"] == "too-big").collect();
    assert!(!offers.is_empty(), "{}", answer["fit"]["findings"]);
    for finding in &offers {
        assert_eq!(finding["sheet"]["path"], "stocks.card.sheet", "{finding}");
    }
    let offer = &offers[0]["sheet"];
    let taken = table.work(&tall, &json!({ "do": "set", "path": offer["path"], "typed": offer["typed"] }));
    assert_eq!(taken["fit"]["stopped"], false, "{}", taken["fit"]["findings"]);
    let several = with(&tall, "/stocks/card/sheet", json!(["A4", "A5"]));
    let answer = table.work(&several, &Value::Null);
    let left = answer["fit"]["findings"].as_array().unwrap().iter().find(|one| one["id"] == "too-big").unwrap();
    assert_eq!(left["sheet"], Value::Null, "{left}");
}

/// Twice a lead-in of 6 mm is more than 5 mm: no strip can be made, and nothing stands on it.
#[test]
fn it_is_said_where_nothing_can_be_drawn() {
    let table = Table::start();
    let nothing = table.work(&with(&fixture("tide-table"), "/page/height", json!(5)), &Value::Null);
    assert_eq!((&nothing["album"]["drawn"], &nothing["album"]["open"]), (&json!(false), &Value::Null));
    let faulty = table.work(&with(&fixture("tide-table"), "/pages/1/overflap", json!(30)), &Value::Null);
    assert_eq!(faulty["fit"]["stopped"], true);
    assert_eq!(faulty["album"]["drawn"], true);
}

/// The plainest album.
const PLAIN: &str =
    r#"{ "format": "hingeleaf-album/1", "page": { "width": 148, "height": 190 }, "pages": [{ "kind": "pocket" }] }"#;

fn stocks(own: &str) -> String {
    let one = |name: &str, more: &str| format!("\"{name}\": {{ \"sheet\": \"A4\"{more} }}");
    let paper = ", \"pattern\": \"all-over\"";
    let board = ", \"caliper\": 2";
    let all = [
        one("oak", own),
        one("ash", ""),
        one("elm", ""),
        one("fir", ""),
        one("moss", paper),
        one("fern", paper),
        one("reed", paper),
        one("rush", paper),
        one("sedge", paper),
        one("slab", board),
        one("plank", board),
    ];
    format!(
        "{{ \"format\": \"hingeleaf-album/1\", \"stocks\": {{ {} }}, \"page\": {{ \"width\": 120, \"height\": 150, \"stock\": \"oak\" }}, \"pages\": [{{ \"kind\": \"pocket\" }}] }}",
        all.join(", ")
    )
}

/// The relative luminance of a colour, 0 to 1 (WCAG 2.2, worked out here once more).
fn luminance(code: &str) -> f64 {
    let part = |at: usize| f64::from(u8::from_str_radix(&code[at..at + 2], 16).unwrap()) / 255.0;
    let linear = |part: f64| if part <= 0.04045 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) };
    0.2126 * linear(part(1)) + 0.7152 * linear(part(3)) + 0.0722 * linear(part(5))
}

/// No two stocks look alike; the maker's own colour is the one that is shown, on sheets and in the album; words stay readable.
#[test]
fn stocks_look_like_themselves() {
    let table = Table::start();
    let answer = table.work(&stocks(", \"colour\": \"#8fa3b0\""), &Value::Null);
    let looks: Vec<&str> =
        answer["album"]["stocks"].as_array().unwrap().iter().map(|stock| stock["looks"].as_str().unwrap()).collect();
    assert_eq!(looks.len(), 11);
    for (at, one) in looks.iter().enumerate() {
        assert!(!looks[..at].contains(one), "stock {at} looks like one before it");
    }
    assert_eq!(answer["album"]["stocks"][0]["colour"], "#8FA3B0");
    let sheet = answer["sheets"]["stocks"][0]["sheets"][0]["picture"].as_str().unwrap();
    let open = answer["album"]["open"].as_str().unwrap();
    assert!(sheet.contains("#8FA3B0") && open.contains("#8FA3B0"), "{sheet}");
    // Black card is shown as dark as ink upon it lets it be: a contrast of 4.5 to #22201C.
    let black = table.work(&stocks(", \"colour\": \"#000000\""), &Value::Null);
    let shown = black["album"]["stocks"][0]["colour"].as_str().unwrap();
    let contrast = (luminance(shown) + 0.05) / (luminance("#22201C") + 0.05);
    assert!((4.5..5.0).contains(&contrast), "{shown}: {contrast}");
    let refused = table.work(&stocks(""), &json!({ "do": "set", "path": "stocks.oak.colour", "typed": "sky" }));
    assert_eq!(refused["refused"], true);
    assert_eq!(refused["findings"][0]["id"], "bad-colour", "{refused}");
}

/// The drawing of one page of an album.
fn drawing(table: &Table, text: &str, page: usize) -> Value {
    table.post("page", json!({ "name": "a.json", "text": text, "page": page }).to_string().as_bytes()).json()
}

/// The drawing of the spine or the cover.
fn part(table: &Table, text: &str, part: &str) -> Value {
    table.post("page", json!({ "name": "a.json", "text": text, "part": part }).to_string().as_bytes()).json()
}

fn numbers(drawing: &Value) -> Vec<&Value> {
    let pieces = drawing["pieces"].as_array().unwrap_or_else(|| panic!("no pieces: {drawing}"));
    pieces.iter().flat_map(|piece| piece["numbers"].as_array().unwrap()).collect()
}

/// Two wallets of one part: each has its own sizes as numbers, and none is another page's. What no panel is as large as
/// (the depth of a fold that has one score) has no number.
#[test]
fn the_drawing_of_a_page_has_the_sizes_of_its_file() {
    let table = Table::start();
    let text = fixture("tide-table");
    for page in [1, 2] {
        let drawn = drawing(&table, &text, page);
        let mut paths: Vec<&str> = numbers(&drawn).iter().map(|number| number["path"].as_str().unwrap()).collect();
        paths.sort_unstable();
        let own = ["overflap", "pocket"].map(|field| format!("pages[{page}].{field}"));
        assert_eq!(paths, ["page.height", "page.seam", "page.width", &own[0], &own[1]]);
    }
    assert_eq!(drawing(&table, &text, 9), Value::Null);
    // 48 mm of flap are on the drawing what 45 are not.
    let other = drawing(&table, &with(&text, "/pages/1/overflap", json!(60)), 1);
    assert_ne!(drawing(&table, &text, 1)["pieces"], other["pieces"]);
}

/// The spine and the cover have the sizes of their file as pages do, and what is not there has no drawing.
#[test]
fn the_drawing_of_a_spine_has_the_sizes_of_its_file() {
    let table = Table::start();
    let text = fixture("tide-table");
    let drawn = part(&table, &text, "spine");
    let mut paths: Vec<&str> = numbers(&drawn).iter().map(|number| number["path"].as_str().unwrap()).collect();
    paths.sort_unstable();
    assert_eq!(paths, ["page.height", "spine.gusset", "spine.pitch", "spine.tab"]);
    assert_eq!((&drawn["way"], &drawn["folded"]), (&json!("spine"), &Value::Null));
    assert_eq!(part(&table, &text, "cover"), Value::Null);
    let other = part(&table, &with(&text, "/spine/tab", json!(15)), "spine");
    assert_ne!(drawn["pieces"], other["pieces"]);
}

/// Numbers of 72 x 40 px (19.05 x 10.58 mm) lie within the drawing, none over another, of a page, spine or cover of any kind; the drawing goes
/// into a screen of 360 px less its margins (292 px, 77.3 mm).
#[test]
fn numbers_on_a_drawing_keep_off_each_other() {
    let table = Table::start();
    let opened = table.post("open", b"{}").json();
    let mut seen = 0;
    let all = [("page", "pages[0]"), ("spine", "spine"), ("cover", "cover")];
    let kinds = all
        .iter()
        .flat_map(|(role, way)| opened["kinds"][role].as_array().unwrap().iter().map(move |kind| (way, kind)));
    for (way, kind) in kinds {
        let added = table.work(PLAIN, &json!({ "do": "kind", "path": way, "kind": kind["kind"] }));
        let text = added["text"].as_str().unwrap();
        let drawn = if *way == "pages[0]" { drawing(&table, text, 0) } else { part(&table, text, way) };
        for piece in drawn["pieces"].as_array().unwrap() {
            let (width, height) = (piece["width"].as_f64().unwrap(), piece["height"].as_f64().unwrap());
            assert!(width <= 78.0, "{}: {width} mm wide", piece["name"]);
            let at = |number: &Value| (number["x"].as_f64().unwrap(), number["y"].as_f64().unwrap());
            let numbers = piece["numbers"].as_array().unwrap();
            for (index, number) in numbers.iter().enumerate() {
                let (x, y) = at(number);
                let inside = x >= 9.5 && x <= width - 9.5 && y >= 5.2 && y <= height - 5.2;
                assert!(inside, "{}: {number} lies outside of {width} x {height}", piece["name"]);
                for other in &numbers[..index] {
                    let (there, up) = at(other);
                    assert!((x - there).abs() >= 19.05 || (y - up).abs() >= 10.58, "{number} lies over {other}");
                }
                seen += 1;
            }
        }
    }
    assert!(seen > 30, "{seen}");
}
