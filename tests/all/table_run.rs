// SPDX-License-Identifier: MIT
//! The run of pages at the table: how a page stands in it, and the kinds that another one may be of.

use crate::common::project;
use crate::common::web::Table;
use crate::table_drawn::{ask, change};
use serde_json::{Value, json};

fn fixture(name: &str) -> Value {
    let text = std::fs::read_to_string(project().join("fixtures").join(name)).unwrap();
    json!({ "name": name, "text": text })
}

/// Width and height of a picture, as its own first line says.
fn size(svg: &str) -> (f64, f64) {
    let tree = roxmltree::Document::parse(svg).unwrap();
    let bounds: Vec<f64> =
        tree.root_element().attribute("viewBox").unwrap().split(' ').map(|number| number.parse().unwrap()).collect();
    (bounds[2], bounds[3])
}

/// What is offered is what one gets: in albums in mm and inches, bound left, right and at the top, with kinds of their own, each kind
/// comes to stand in its place in the run just as it was shown before, papers and all.
#[test]
fn another_page_stands_as_it_was_offered() {
    let table = Table::start();
    let mut compared = 0;
    let albums =
        ["tide-table.json", "weather-pad.json", "lighthouse-log.json", "night-train.json", "harbour-songs.json"];
    for (number, name) in albums.into_iter().enumerate() {
        let question = fixture(name);
        let answer = ask(&table, "work", &question);
        let pages = answer["album"]["pages"].as_array().unwrap().len();
        // Before the first page, in the midst, at the end.
        let at = [0, pages / 2, pages][number % 3];
        let mut placed = question.clone();
        placed["page"] = at.into();
        let offered = ask(&table, "kinds", &placed)["pictures"].clone();
        for kind in answer["album"]["kinds"]["page"].as_array().unwrap() {
            let kind = kind["kind"].as_str().unwrap();
            let mut asked = question.clone();
            let add = json!({ "do": "add", "list": "pages", "at": at, "kind": kind });
            let album = change(&table, &mut asked, &add)["album"].clone();
            // What can't be made there is offered in words alone.
            let Some(shown) = offered[kind].as_str() else {
                assert_eq!(album["drawn"], false, "{name}: {kind} is made and was not shown");
                continue;
            };
            let picture = usize::try_from(album["pages"][at]["picture"].as_u64().unwrap()).unwrap();
            assert_eq!(album["pictures"][picture], shown, "{name}: {kind} stands otherwise than it was offered");
            compared += 1;
        }
    }
    assert!(compared > 60, "{compared}");
}

/// A page of 148 x 190 that stands with its fore-edge 20 degrees nearer, looked at 47 degrees from straight down: by plain trigonometry
/// it is 148 cos 20 = 139.1 wide, and 190 sin 47 + 148 sin 20 cos 47 = 173.5 tall, whichever side is its spine.
#[test]
fn a_page_stands_upright_with_its_fore_edge_nearer() {
    let table = Table::start();
    for bound in ["left", "right", "top"] {
        let text = format!(
            r#"{{ "format": "hingeleaf-album/1", "bound": "{bound}", "page": {{ "width": 148, "height": 190 }}, "pages": [{{ "kind": "pocket" }}] }}"#
        );
        let album = ask(&table, "work", &json!({ "name": "a.json", "text": text }))["album"].clone();
        // At the top of the album is what is at the left of its page.
        let (width, height) = size(album["pictures"][0].as_str().unwrap());
        let edge = 2.0 * 2.0;
        let ratio = (width - edge) / (height - edge);
        assert!((ratio - 139.07 / 173.47).abs() < 0.02, "{bound}: {width} x {height}");
    }
}

/// Each page shows the face that its kind is about, also where papers lie on both: windows, slots, notches and steps are on the front, a
/// wallet's pocket where its file says. What is alike on both faces shows its front.
#[test]
fn a_page_shows_the_face_that_is_worked_on() {
    let table = Table::start();
    for panels in ["", r#""panels": { "reveal": 3 },"#] {
        let kinds = [
            (r#""pocket""#, "front"),
            (r#""sleeve""#, "front"),
            (r#""frame", "print": "10x15""#, "front"),
            (r#""library-card", "pocket": 60"#, "front"),
            (r#""waterfall""#, "front"),
            (r#""corner-mount", "print": "10x15""#, "front"),
            (r#""notched""#, "front"),
            (r#""wallet", "pocket": 110, "overflap": 45"#, "front"),
            (r#""wallet", "pocket": 110, "overflap": 45, "faces": "back""#, "back"),
        ];
        let pages: Vec<String> = kinds.iter().map(|(kind, _)| format!(r#"{{ "kind": {kind} }}"#)).collect();
        let text = format!(
            r#"{{ "format": "hingeleaf-album/1", {panels} "page": {{ "width": 148, "height": 190 }}, "pages": [{}] }}"#,
            pages.join(", ")
        );
        let answer = ask(&table, "work", &json!({ "name": "a.json", "text": text }));
        assert_eq!(answer["album"]["drawn"], true, "{} {}", answer["findings"], answer["fit"]["findings"]);
        for ((kind, face), page) in kinds.iter().zip(answer["album"]["pages"].as_array().unwrap()) {
            assert_eq!(page["shows"], *face, "{kind}, {panels}");
        }
    }
}

/// Where a page's file says on which of its faces its pocket, its window or its doors are, that face is shown.
#[test]
fn a_page_shows_the_face_that_its_file_says() {
    let table = Table::start();
    let mut told = 0;
    for name in ["tide-table.json", "field-notes.json", "big-quilt.json", "harbour-walk.json"] {
        let question = fixture(name);
        let file: Value = serde_json::from_str(question["text"].as_str().unwrap()).unwrap();
        let answer = ask(&table, "work", &question);
        let shown = answer["album"]["pages"].as_array().unwrap();
        for (page, shown) in file["pages"].as_array().unwrap().iter().zip(shown) {
            if let Some(face) = page["faces"].as_str().filter(|face| *face != "both") {
                assert_eq!(shown["shows"], face, "{name}: {page}");
                told += 1;
            }
        }
    }
    assert!(told >= 6, "{told}");
}

/// Beyond the last page there is no place, however far.
#[test]
fn there_is_nothing_beyond_the_end() {
    let table = Table::start();
    let mut question = fixture("tide-table.json");
    for (page, offered) in [(4, true), (5, false), (u64::MAX, false)] {
        question["page"] = page.into();
        let pictures = ask(&table, "kinds", &question)["pictures"].clone();
        assert_eq!(!pictures.as_object().unwrap().is_empty(), offered, "page {page}");
    }
}

/// A batch has no run of pages, and an album that can't be read has none to show.
#[test]
fn only_an_album_is_asked_for_kinds() {
    let table = Table::start();
    let broken = json!({ "name": "a.json", "text": "{ \"format\": \"hingeleaf-album/1\", \"pages\": 3 }" });
    assert_eq!(table.post("kinds", broken.to_string().as_bytes()).status, 400);
    let batch = std::fs::read_dir(project().join("fixtures/batches")).unwrap().flatten().map(|entry| entry.path());
    let batch = batch.filter(|path| path.extension().is_some_and(|end| end == "json")).min().unwrap();
    let text = std::fs::read_to_string(batch).unwrap();
    let asked = json!({ "name": "b.json", "text": text });
    assert!(table.post("kinds", asked.to_string().as_bytes()).status >= 400);
}
