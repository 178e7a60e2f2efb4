// SPDX-License-Identifier: MIT
//! How long reading and checking an album takes: `cargo bench --bench pages`. For every spine, cover and kind of pages one
//! row: 40, 300 and 1,000 pages, in milliseconds; in brackets where the album does not go together. Figures are for people to
//! compare; nothing is asserted. The sheets are large enough that nothing is refused for their sake.

use hingeleaf::album;
use hingeleaf::cutter::Cutter;
use hingeleaf::fields::Source;
use hingeleaf::parts;
use hingeleaf::work::Work;
use serde_json::{Value, json};
use std::time::Instant;

const COUNTS: [usize; 3] = [40, 300, 1000];

fn main() {
    println!("{:36} {:>10} {:>10} {:>10}", "read and checked, ms", COUNTS[0], COUNTS[1], COUNTS[2]);
    for spine in ["flexi-hinge", "concertina", "plain-hinge", "stubs"] {
        for cover in ["none", "wrap", "case"] {
            for pages in ["plain", "mixed", "loaded"] {
                let times = COUNTS.map(|count| took(&text(count, spine, cover, pages)));
                println!(
                    "{:36} {:>10} {:>10} {:>10}",
                    format!("{spine}, {cover}, {pages}"),
                    times[0],
                    times[1],
                    times[2]
                );
            }
        }
    }
}

fn took(text: &str) -> String {
    let begun = Instant::now();
    let read = Source::new("bench.json", text.as_bytes().to_vec()).ok();
    let album = read.and_then(|source| album::read(&source, &parts::kinds()).value);
    let Some(album) = album else { return "unread".into() };
    let work = Work::fit(album, Cutter::default());
    let ms = begun.elapsed().as_secs_f64() * 1e3;
    if work.stopped() { format!("({ms:.0})") } else { format!("{ms:.0}") }
}

fn text(count: usize, spine: &str, cover: &str, pages: &str) -> String {
    let kinds = [
        json!({ "kind": "pocket" }),
        json!({ "kind": "wallet", "pocket": 100, "overflap": 60 }),
        json!({ "kind": "divider" }),
        json!({ "kind": "side-loading" }),
    ];
    let of = if pages == "mixed" { &kinds[..] } else { &kinds[..1] };
    let list: Vec<&Value> = of.iter().cycle().take(count).collect();
    let stock = |caliper: f64| json!({ "sheet": "2000x2000mm", "caliper": caliper });
    let mut album = json!({
        "format": "hingeleaf-album/1",
        "stocks": { "card": stock(0.3), "board": stock(2.0) },
        "page": { "width": 150, "height": 190 },
        "pages": list,
        "spine": { "kind": spine },
    });
    match cover {
        "wrap" => album["cover"] = json!({ "kind": "wrap" }),
        "case" => album["cover"] = json!({ "kind": "case", "board": "board", "covering": "card", "endpaper": "card" }),
        _ => {}
    }
    if pages == "loaded" {
        album["inserts"] = json!([{ "kind": "tag", "count": count, "thickness": 1 }]);
    }
    album.to_string()
}
