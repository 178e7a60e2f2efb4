// SPDX-License-Identifier: MIT
//! What is seen of an album at the table comes first, in a line of its own, and the rest when it is known.

use crate::common::project;
use crate::common::web::Table;
use serde_json::{Value, json};
use std::io::{BufRead, BufReader, ErrorKind, Read, Write};

fn fixture(name: &str) -> Value {
    let text = std::fs::read_to_string(project().join("fixtures").join(name)).unwrap();
    json!({ "name": name, "text": text })
}

/// The lines of an answer of which what is seen is to come first.
fn lines(table: &Table, question: &Value) -> Vec<Value> {
    let mut question = question.clone();
    question["first"] = true.into();
    let reply = table.post("work", question.to_string().as_bytes());
    assert_eq!(reply.status, 200, "{}", reply.text());
    reply
        .text()
        .lines()
        .map(|line| serde_json::from_str(line).unwrap_or_else(|error| panic!("{error}: {line}")))
        .collect()
}

/// Many pages that lean on one another: to lay them open takes much longer than to draw them.
fn many() -> Value {
    let pages = vec![r#"{ "kind": "pocket" }"#; 40].join(", ");
    let text = format!(
        r#"{{ "format": "hingeleaf-album/1", "stocks": {{ "card": {{ "sheet": "A2", "caliper": 0.35 }} }},
          "page": {{ "width": 148, "height": 190 }}, "pages": [{pages}] }}"#
    );
    json!({ "name": "many.json", "text": text })
}

/// Both lines together say what one answer says, with a change and without, also of albums that do not go together or whose pictures
/// show paper of which there is a picture.
#[test]
fn what_comes_first_and_the_rest_are_the_whole_answer() {
    let table = Table::start();
    let flap = json!({ "do": "set", "path": "pages[1].overflap", "typed": "20" });
    let wider = json!({ "do": "set", "path": "page.width", "typed": "151" });
    for (name, change, stopped) in [
        ("tide-table.json", Value::Null, false),
        ("tide-table.json", wider, false),
        ("tide-table.json", flap, true),
        ("weather-pad.json", Value::Null, false),
        ("night-train.json", Value::Null, false),
    ] {
        let mut question = fixture(name);
        question["change"] = change;
        let whole = table.post("work", question.to_string().as_bytes()).json();
        assert_eq!(whole["fit"]["stopped"], stopped, "{name}: {}", whole["fit"]["findings"]);
        let [first, mut rest] = <[Value; 2]>::try_from(lines(&table, &question)).unwrap();
        assert!(first["album"]["open"].as_str().unwrap().starts_with("<svg"), "{name}: nothing is seen first");
        assert_eq!(rest["album"]["open"], Value::Null, "{name}: it is sent twice");
        for name in ["open", "pictures"] {
            rest["album"][name] = first["album"][name].clone();
        }
        rest["likenesses"] = first["likenesses"].clone();
        let seen = first["album"]["pages"].as_array().unwrap();
        let pages = rest["album"]["pages"].as_array_mut().unwrap();
        assert_eq!(seen.len(), pages.len());
        for (seen, page) in seen.iter().zip(pages) {
            assert_eq!(seen["kind"], page["kind"]);
            for name in ["picture", "shows"] {
                page[name] = seen[name].clone();
            }
        }
        assert_eq!(rest, whole, "{name}");
    }
}

/// What can't be read, is refused, or waits for what sheets leave over is answered in one line.
#[test]
fn what_is_not_seen_before_the_rest_is_one_answer() {
    let table = Table::start();
    let album = fixture("tide-table.json");
    let mut refused = album.clone();
    refused["change"] = json!({ "do": "set", "path": "page.width", "typed": "wide" });
    let mut torn = album.clone();
    torn["text"] = "{".into();
    let text = album["text"].as_str().unwrap();
    let mut spare: Value = serde_json::from_str(text).unwrap();
    spare["inserts"] = json!([{ "kind": "tag", "width": 60, "height": 90, "count": "spare" }]);
    let mut spared = album.clone();
    spared["text"] = spare.to_string().into();
    for (question, says) in [(&refused, "refused"), (&torn, "unread"), (&spared, "sheets")] {
        let answers = lines(&table, question);
        assert_eq!(answers.len(), 1, "{says}");
        assert_ne!(answers[0][says], Value::Null, "{}", answers[0]);
        assert_eq!(answers[0], table.post("work", question.to_string().as_bytes()).json());
    }
}

/// The first line is there while the rest is still being worked out.
#[test]
fn what_is_seen_is_sent_before_the_rest_is_known() {
    let table = Table::start();
    let mut question = many();
    question["first"] = true.into();
    let (body, host) = (question.to_string(), table.host());
    let head = format!(
        "POST /{}/work HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\nContent-Length: {}\r\n\r\n",
        table.token,
        body.len()
    );
    let mut stream = table.connect();
    stream.write_all((head + &body).as_bytes()).unwrap();
    let mut reader = BufReader::new(stream.try_clone().unwrap());
    let mut line = String::new();
    while !line.starts_with('{') {
        line.clear();
        assert!(reader.read_line(&mut line).unwrap() > 0, "nothing is answered");
    }
    assert!(serde_json::from_str::<Value>(&line).unwrap()["album"]["open"].is_string());
    // Behind it stands at most the end of its chunk.
    stream.set_nonblocking(true).unwrap();
    let mut more = Vec::new();
    assert_eq!(reader.read_to_end(&mut more).unwrap_err().kind(), ErrorKind::WouldBlock);
    assert!(!String::from_utf8_lossy(&more).contains('{'), "the rest was waited for");
    stream.set_nonblocking(false).unwrap();
    reader.read_to_end(&mut more).unwrap();
    assert!(String::from_utf8_lossy(&more).contains("\"fit\""));
}
