// SPDX-License-Identifier: MIT
//! Pictures of stocks at the table: brought in for a stock, told where they are missing, taken away with the album.

use crate::common::web::Table;
use crate::table_drawn::{ask, change, makes_itself, zipped};
use hingeleaf::table::text_of;
use image::{ExtendedColorType, ImageEncoder};
use serde_json::{Value, json};
use std::path::Path;

const ALBUM: &str = r#"{ "format": "hingeleaf-album/1", "title": "Reeds", "stocks": { "card": { "sheet": "A4", "caliper": 0.3 },
  "paper": { "sheet": "200x200mm", "caliper": 0.2, "picture": "scans/reeds.png" } },
  "page": { "width": 90, "height": 120 }, "pages": [{ "kind": "pocket" }, { "kind": "pocket" }],
  "panels": { "reveal": 3, "stock": "paper" } }"#;

/// A picture that is green above and yellow below.
fn reeds() -> Vec<u8> {
    let points: Vec<u8> = (0..1600).flat_map(|at| if at < 800 { [170, 220, 150] } else { [240, 220, 130] }).collect();
    let mut bytes = Vec::new();
    let encoder = image::codecs::png::PngEncoder::new(&mut bytes);
    encoder.write_image(&points, 40, 40, ExtendedColorType::Rgb8).unwrap();
    bytes
}

fn reed_album() -> Value {
    let picture = json!({ "name": "scans/reeds.png", "text": text_of(&reeds()) });
    json!({ "name": "reeds.json", "text": ALBUM, "drawings": [picture] })
}

fn told(answer: &Value) -> Vec<(String, String)> {
    let all = answer["fit"]["findings"].as_array().unwrap().iter();
    let of = all.filter(|one| one["id"] == "picture-unread" || one["id"] == "picture-shape");
    of.map(|one| (one["path"].as_str().unwrap().to_owned(), one["text"].as_str().unwrap().to_owned())).collect()
}

/// Every picture calls the stock's by its name, which comes once with the answer.
#[test]
fn a_stock_is_shown_as_it_looks_and_comes_once() {
    let table = Table::start();
    let answer = ask(&table, "work", &reed_album());
    let likenesses = answer["likenesses"].as_object().unwrap();
    assert_eq!(likenesses.len(), 1);
    let (name, address) = likenesses.iter().next().unwrap();
    assert!(address.as_str().unwrap().starts_with("data:image/png;base64,"), "{address}");
    let whole = answer.to_string();
    assert_eq!(whole.matches("data:image/").count(), 1);
    assert!(whole.matches(&format!("href=\\\"{name}:\\\"")).count() > 2);
    assert_eq!(told(&answer), []);
    let paper = &answer["album"]["stocks"][1];
    assert_eq!(
        paper["pictures"][0],
        json!({ "way": "stocks.paper.picture", "file": "scans/reeds.png", "there": true, "used": true })
    );
    let rows: Vec<&str> = paper["rows"].as_array().unwrap().iter().map(|row| row["path"].as_str().unwrap()).collect();
    assert!(rows.contains(&"stocks.paper.picture_width") && !rows.contains(&"stocks.paper.picture"), "{rows:?}");
    for name in ["better", "folds", "page"] {
        let answer = ask(&table, name, &reed_album()).to_string();
        assert!(!answer.contains("data:image/"), "{name}");
    }
}

#[test]
fn a_picture_is_chosen_missed_and_let_go() {
    let table = Table::start();
    let mut question = reed_album();
    let answer = change(&table, &mut question, &json!({ "do": "take", "path": "stocks.paper.picture" }));
    assert_eq!(answer["likenesses"], json!({}));
    let set = json!({ "do": "set", "path": "stocks.paper.picture_back", "typed": "reeds.png" });
    let answer = change(&table, &mut question, &set);
    assert_eq!(answer["likenesses"].as_object().unwrap().len(), 1);
    // One that is not there is told at its field and stops nothing; one of other proportions is a note.
    question["drawings"] = json!([]);
    let answer = ask(&table, "work", &question);
    assert_eq!(answer["fit"]["stopped"], false);
    let [(path, text)] = &told(&answer)[..] else { panic!("{:?}", told(&answer)) };
    assert_eq!(path, "stocks.paper.picture_back");
    assert!(text.contains("there is no reeds.png on the table"), "{text}");
    let mut question = reed_album();
    question["text"] = ALBUM.replace("200x200mm", "A4").into();
    assert!(told(&ask(&table, "work", &question))[0].1.contains("210 mm tall"));
    question["drawings"][0]["text"] = "no picture".into();
    assert!(told(&ask(&table, "work", &question))[0].1.contains("neither PNG nor JPEG"));
}

/// The zip holds the file that was chosen, byte for byte, and what the command line makes of it is what is in the zip.
#[test]
fn the_zip_holds_the_picture_and_makes_itself_again() {
    let table = Table::start();
    let files = zipped(&table, &reed_album());
    assert_eq!(files[Path::new("reeds.png")], reeds());
    let guide = String::from_utf8(files[Path::new("guide.html")].clone()).unwrap();
    assert_eq!(guide.matches("data:image/").count(), 1);
    makes_itself(&files, "reeds.json", &["reeds.png"]);
}
