// SPDX-License-Identifier: MIT
//! Changes of an album file's text: what is asked for changes, and not a byte besides.

use crate::common::fixtures;
use hingeleaf::fields::{Change, EditProblem, Source, alter};
use serde_json::{Value, json};

fn source(text: &str) -> Source {
    Source::new("a.json", text.as_bytes().to_vec()).unwrap()
}

#[track_caller]
fn becomes(text: &str, change: &Change, expected: &str) {
    assert_eq!(alter(&source(text), change).unwrap(), expected, "{text}\n{change:?}");
}

fn set(path: &str, value: Value) -> Change {
    Change::Set { path: path.into(), value }
}

fn remove(path: &str) -> Change {
    Change::Remove { path: path.into() }
}

fn insert(list: &str, at: usize, value: Value) -> Change {
    Change::Insert { list: list.into(), at, value }
}

fn moved(list: &str, from: usize, to: usize) -> Change {
    Change::Move { list: list.into(), from, to }
}

#[test]
fn a_value_is_set_where_it_stands() {
    becomes("{ \"a\":1 ,\n\"b\" : 2 }", &set("a", json!("5 1/2 in")), "{ \"a\":\"5 1/2 in\" ,\n\"b\" : 2 }");
    becomes(r#"{"l":[{"w":1},{"w":2}]}"#, &set("l[1].w", json!(3)), r#"{"l":[{"w":1},{"w":3}]}"#);
}

#[test]
fn a_value_that_is_not_there_comes_last_in_the_objects_own_style() {
    becomes(r#"{"a":1}"#, &set("b", json!(2)), r#"{"a":1,"b":2}"#.replace("\"b\":2", "\"b\": 2").as_str());
    becomes("{\n  \"a\": 1\n}", &set("b", json!(2)), "{\n  \"a\": 1,\n  \"b\": 2\n}");
    // Objects on the way are made.
    becomes(
        r#"{ "a": 1 }"#,
        &set("stocks.card.sheet", json!("A3")),
        r#"{ "a": 1, "stocks": { "card": { "sheet": "A3" } } }"#,
    );
}

#[test]
fn what_goes_takes_one_comma_with_it() {
    let text = r#"{ "a": 1, "b": 2, "c": 3 }"#;
    becomes(text, &remove("a"), r#"{ "b": 2, "c": 3 }"#);
    becomes(text, &remove("b"), r#"{ "a": 1, "c": 3 }"#);
    becomes(text, &remove("c"), r#"{ "a": 1, "b": 2 }"#);
    becomes(r#"{ "l": [1, 2, 3] }"#, &remove("l[2]"), r#"{ "l": [1, 2] }"#);
    becomes(r#"{ "l": [1] }"#, &remove("l[0]"), r#"{ "l": [] }"#);
}

#[test]
fn entries_come_in_and_change_places() {
    let text = "{ \"l\": [\n  1,\n  2\n] }";
    becomes(text, &insert("l", 0, json!(9)), "{ \"l\": [\n  9,\n  1,\n  2\n] }");
    becomes(text, &insert("l", 2, json!(9)), "{ \"l\": [\n  1,\n  2,\n  9\n] }");
    becomes(r#"{ "l": [] }"#, &insert("l", 5, json!({ "k": [1, 2] })), r#"{ "l": [ { "k": [1, 2] } ] }"#);
    becomes(r#"{ "a": 1 }"#, &insert("l", 0, json!(9)), r#"{ "a": 1, "l": [ 9 ] }"#);
    becomes("{ \"l\": [1, 22,\n 333] }", &moved("l", 0, 2), "{ \"l\": [22, 333,\n 1] }");
    becomes("{ \"l\": [1, 22,\n 333] }", &moved("l", 2, 0), "{ \"l\": [333, 1,\n 22] }");
}

#[test]
fn what_has_no_place_changes_nothing() {
    let of = |change: &Change| alter(&source(r#"{ "a": 1, "l": [1] }"#), change).unwrap_err();
    for change in
        [set("a.b", json!(1)), set("l[3].b", json!(1)), set("", json!(1)), remove("z"), remove("l[1]"), remove("")]
    {
        assert!(matches!(of(&change), EditProblem::NoPlace(_)), "{change:?}");
    }
    // Ways that end in no field: none is made of that name.
    let odd = [set("l[1]", json!(1)), set(".", json!(1)), set(".a", json!(1)), set("a]", json!(1))];
    let odd =
        odd.into_iter().chain([insert("l[1]", 0, json!(1)), insert(".l", 0, json!(1)), insert("a[2]", 0, json!(1))]);
    for change in odd.chain([moved("l", 0, 1), moved("z", 0, 0), insert("a", 0, json!(1)), insert("z.z", 0, json!(1))])
    {
        assert!(matches!(of(&change), EditProblem::NoPlace(_)), "{change:?}");
    }
    assert_eq!(alter(&source("{"), &remove("a")), Err(EditProblem::NotJson));
}

/// There and back again is the same file, byte for byte: moved and moved back, put in and taken out, added and taken away.
#[test]
fn there_and_back_is_the_same_text() {
    let mut tried = 0;
    for path in fixtures() {
        let text = std::fs::read_to_string(path).unwrap();
        let pages = serde_json::from_str::<Value>(&text).unwrap()["pages"].as_array().unwrap().len();
        let both = |one: &Change, other: &Change| {
            let there = alter(&source(&text), one).unwrap();
            assert_ne!(there, text, "{one:?}");
            assert!(serde_json::from_str::<Value>(&there).is_ok(), "{there}");
            assert_eq!(alter(&source(&there), other).unwrap(), text, "{one:?} {other:?}");
        };
        for from in 0..pages {
            both(&insert("pages", from, json!({ "kind": "new" })), &remove(&format!("pages[{from}]")));
            for to in (0..pages).filter(|to| *to != from) {
                let there = alter(&source(&text), &moved("pages", from, to)).unwrap();
                assert_eq!(alter(&source(&there), &moved("pages", to, from)).unwrap(), text);
                tried += 1;
            }
        }
        both(&insert("pages", pages, json!({ "kind": "new" })), &remove(&format!("pages[{pages}]")));
        both(&set("page.new", json!("5 in")), &remove("page.new"));
        both(&set("new", json!({ "a": [1] })), &remove("new"));
    }
    assert!(tried > 100, "only {tried} moves were tried");
}
