// SPDX-License-Identifier: MIT
//! What the page may be asked, sound and not, over the wire as a browser asks.

use super::corpus::Corpus;
use super::draws::Draws;
use super::files::ALBUMS;
use super::schemas::Schema;
use super::tree::Json;
use super::{Answer, Target, spoil};
use hingeleaf::table::{Session, serve};
use hingeleaf::{album, batch, drawer, parts};
use serde_json::{Value, json};
use std::io::{Read, Write};
use std::net::{TcpListener, TcpStream};
use std::time::Duration;

/// The word of this run.
const TOKEN: &str = "0123456789abcdef0123456789abcdef";

/// What is asked. Two editions are compared with as much effort as they are made with: that takes its time, and has tests of its own.
const ASKED: [&str; 12] =
    ["work", "work", "work", "work", "page", "page", "kinds", "folds", "batch", "open", "file", "nothing"];

/// Changes that the page asks for.
const CHANGES: [&str; 26] = [
    r#"{"do":"set","path":"page.width","typed":"140"}"#,
    r#"{"do":"set","path":"pages[0].pocket","typed":"1/0"}"#,
    r#"{"do":"set","path":"spine.pitch","typed":""}"#,
    r#"{"do":"kind","path":"pages[0]","kind":"wallet"}"#,
    r#"{"do":"kind","path":"cover","kind":"wrap"}"#,
    r#"{"do":"take","path":"pages[0]"}"#,
    r#"{"do":"take","path":"cover"}"#,
    r#"{"do":"add","list":"pages","at":1,"kind":"pocket"}"#,
    r#"{"do":"add","list":"inserts","at":0,"kind":"tag"}"#,
    r#"{"do":"add-edge","path":"pages[0]","on":"fore-edge","cut":"scallop"}"#,
    r#"{"do":"copy","list":"pages","at":0}"#,
    r#"{"do":"move","list":"pages","from":0,"to":1}"#,
    r#"{"do":"panels"}"#,
    r#"{"do":"stock","name":"felt"}"#,
    r#"{"do":"mend","path":"page.width","eighths":1000000}"#,
    r#"{"do":"mend-all"}"#,
    r#"{"do":"page-size","width":1000000,"height":-5}"#,
    r#"{"do":"units","units":"in"}"#,
    r#"{"do":"sold","list":"packs","name":"card","of":"25","price":"9"}"#,
    r#"{"do":"add-kit","album":"tide-table.json"}"#,
    r#"{"do":"choose","path":"kits[0]"}"#,
    r#"{"do":"own-paper","path":"kits[0]","like":"paper","name":"ochre"}"#,
    r#"{"do":"add-group"}"#,
    r#"{"do":"call-files","names":{"a.json":"b.json"}}"#,
    r#"{"do":"add-kind-file","name":"kinds/two-shelves.json"}"#,
    r#"{"do":"lies","stock":"card","sheet":"A4","count":"3"}"#,
];

/// Files of a format that the page is asked about, and what spoils them.
struct Spoiler {
    seeds: Vec<Json>,
    schema: Schema,
}

impl Spoiler {
    fn text(&self, draws: &mut Draws) -> String {
        let json = draws.pick(&self.seeds);
        let text = if draws.once_in(3) {
            json.write().into_bytes()
        } else {
            spoil::file(&json, &self.seeds, &self.schema, draws)
        };
        String::from_utf8_lossy(&text).into_owned()
    }
}

pub(crate) fn page() -> Target {
    let corpus = Corpus::new();
    let spoilers = [
        Spoiler {
            seeds: small(corpus.of_format(&ALBUMS, "album")),
            schema: Schema::of(album::schema(&parts::kinds())),
        },
        Spoiler {
            seeds: corpus.of_format(&["batches", "broken", "kept"], "batch"),
            schema: Schema::of(batch::schema()),
        },
        Spoiler { seeds: corpus.of_format(&["drawers", "kept"], "drawer"), schema: Schema::of(drawer::schema()) },
    ];
    let beside: Vec<Value> = ["tide-table.json", "garden-year.json", "sketchbook.json"]
        .into_iter()
        .filter_map(|name| Some(json!({ "name": name, "text": corpus.source(name).ok()?.text() })))
        .collect();
    let listener = TcpListener::bind("127.0.0.1:0").expect("a port of this machine");
    let port = listener.local_addr().expect("it has an address").port();
    // It serves as long as the hunt lasts.
    std::thread::spawn(move || serve(listener, TOKEN.to_owned(), Session::new(None, 1)));
    let make = move |draws: &mut Draws| request(&spoilers, &beside, port, draws);
    Target { make: Box::new(make), run: Box::new(move |bytes| ask(port, bytes)) }
}

/// Larger ones are made in seconds.
fn small(mut seeds: Vec<Json>) -> Vec<Json> {
    let pages = |json: &Json| match json.get("pages") {
        Some(Json::List(pages)) => pages.len(),
        _ => 0,
    };
    seeds.retain(|json| pages(json) <= 5);
    seeds
}

fn request(spoilers: &[Spoiler; 3], beside: &[Value], port: u16, draws: &mut Draws) -> Vec<u8> {
    let name = draws.pick(&ASKED);
    let spoiler = &spoilers[[0, 0, 0, 0, 1, 2][draws.below(6)]];
    let mut question = Json::of(&json!({ "name": "a.json", "text": spoiler.text(draws), "files": beside }));
    if draws.once_in(2)
        && let Some(mut change) = Json::read(draws.pick(&CHANGES))
    {
        if draws.once_in(2) {
            spoilt(&mut change, draws);
        }
        question.set("change", change);
    }
    if draws.once_in(4) {
        question.set("page", Json::Bare(draws.below(9).to_string()));
    }
    if draws.once_in(20) {
        question.set("against", Json::of(&json!({ "name": "b.json", "text": spoilers[0].text(draws) })));
    }
    if draws.once_in(6) {
        let kerf = draws.pick(&["0.1", "-1", "", "wide", "1e999"]);
        let settings = json!({ "format": "hingeleaf-cutter/1", "kerf": kerf, "margin": "3 mm", "gap": "1 mm" });
        let machine = json!({ "text": settings.to_string(), "trimmer": draws.once_in(2) });
        question.set("machine", Json::of(&machine));
    }
    if draws.once_in(12) {
        spoilt(&mut question, draws);
    }
    let body = question.write();
    let host = format!("127.0.0.1:{port}");
    let length = body.len();
    let head = format!(
        "POST /{TOKEN}/{name} HTTP/1.1\r\nHost: {host}\r\nOrigin: http://{host}\r\nConnection: close\r\nContent-Length: {length}\r\n\r\n"
    );
    if draws.once_in(30) {
        // A head that no browser sends; it may not wait for a body that never comes.
        let head = spoil::text(head.into_bytes(), draws);
        return [head, b"\r\n\r\n".to_vec(), body.into_bytes()].concat();
    }
    [head.into_bytes(), body.into_bytes()].concat()
}

/// One value of what is asked is another.
fn spoilt(json: &mut Json, draws: &mut Draws) {
    let number = draws.below(json.count());
    let values = [
        "null",
        "-1",
        "1e400",
        "18446744073709551615",
        "\"\"",
        "\"pages[0]\"",
        "\"pages[9999999999]\"",
        "\"a..b\"",
        "[]",
        "{}",
        "true",
    ];
    *json.nth(number).0 = Json::Bare((draws.pick(&values)).into());
}

fn ask(port: u16, bytes: &[u8]) -> Answer {
    let mut stream = TcpStream::connect(("127.0.0.1", port)).map_err(|error| format!("the page is gone: {error}"))?;
    stream.set_read_timeout(Some(Duration::from_mins(1))).map_err(|error| error.to_string())?;
    // Who is refused may find the line closed before all is sent.
    let _ = stream.write_all(bytes);
    let head = bytes.windows(4).position(|four| four == b"\r\n\r\n").unwrap_or(bytes.len());
    let whole = format!("\r\nContent-Length: {}\r\n", bytes.len().saturating_sub(head + 4));
    if !String::from_utf8_lossy(bytes).contains(&whole) {
        // Nobody waits for a body that never comes.
        let _ = stream.shutdown(std::net::Shutdown::Write);
    }
    let mut answer = Vec::new();
    if let Err(error) = stream.read_to_end(&mut answer)
        && matches!(error.kind(), std::io::ErrorKind::WouldBlock | std::io::ErrorKind::TimedOut)
    {
        return Err("no answer within a minute".into());
    }
    let text = String::from_utf8_lossy(&answer);
    let status = text.split(' ').nth(1).unwrap_or_default();
    let body = text.split_once("\r\n\r\n").map_or("", |(_, body)| body);
    match status {
        "500" => Err(format!("500: {body}")),
        "200" if body.is_empty() => Err("an answer without words".into()),
        "200" => Ok(true),
        // Whoever sends no request gets none of our answers.
        "" if answer.is_empty() => Ok(false),
        _ if body.trim().is_empty() && status != "400" && status != "431" => Err(format!("{status} without words")),
        _ => Ok(false),
    }
}
