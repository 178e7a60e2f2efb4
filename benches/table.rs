// SPDX-License-Identifier: MIT
//! How long the table takes to answer an edit: `cargo bench --bench table`. The program itself is asked over the loopback
//! address, as a browser asks it; each edit is another width of page, so that nothing is known from before. Prints the
//! median and the 99th percentile for albums of 4, 20 and 60 pages. Figures are for people to compare; nothing is asserted.

use serde_json::json;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, Command, Stdio};
use std::time::Instant;

fn main() {
    let Some((mut child, port, token)) = start() else { return println!("the table: NOT MEASURED, it does not start") };
    // Sixty pages have hinge strips that no A4 sheet takes.
    for (pages, edits, sheet) in [(4, 400, "A4"), (20, 150, "A4"), (60, 60, "A2")] {
        let mut times = Vec::new();
        let mut size = 0;
        for number in 0..=edits {
            let change = json!({ "do": "set", "path": "page.width", "typed": format!("{}", 140.0 + f64::from(number % 80) / 10.0) });
            let body = json!({ "name": "bench.json", "text": album(pages, sheet), "change": change }).to_string();
            let begun = Instant::now();
            let Some(answer) = ask(port, &token, &body) else { return println!("the table did not answer") };
            let took = begun.elapsed().as_secs_f64() * 1e3;
            if !answer.contains("\"proven\"") {
                return println!("the edit was refused: {answer:.300}");
            }
            size = answer.len();
            // The first one warms up.
            if number > 0 {
                times.push(took);
            }
        }
        times.sort_by(f64::total_cmp);
        let of = |share: usize| times[(times.len() * share / 100).min(times.len() - 1)];
        println!(
            "an edit, {pages:2} pages: median {:7.1} ms, 99th percentile {:7.1} ms, longest {:7.1} ms; {} KB ({edits} edits)",
            of(50),
            of(99),
            times[times.len() - 1],
            size / 1000
        );
    }
    let _ = child.kill();
    let _ = child.wait();
}

fn start() -> Option<(Child, u16, String)> {
    let program = env!("CARGO_BIN_EXE_hingeleaf");
    let mut child = Command::new(program).args(["table", "--no-browser"]).stdout(Stdio::piped()).spawn().ok()?;
    let mut line = String::new();
    BufReader::new(child.stdout.take()?).read_line(&mut line).ok()?;
    let (port, token) = line.trim().strip_prefix("http://127.0.0.1:")?.trim_end_matches('/').split_once('/')?;
    Some((child, port.parse().ok()?, token.to_owned()))
}

fn ask(port: u16, token: &str, body: &str) -> Option<String> {
    let mut stream = TcpStream::connect(("127.0.0.1", port)).ok()?;
    let head = format!(
        "POST /{token}/work HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nConnection: close\r\nContent-Length: {}\r\n\r\n",
        body.len()
    );
    stream.write_all(head.as_bytes()).ok()?;
    stream.write_all(body.as_bytes()).ok()?;
    let mut answer = String::new();
    stream.read_to_string(&mut answer).ok()?;
    Some(answer)
}

/// Pages of both kinds, panels on every face, a tag in every second pocket.
fn album(pages: usize, sheet: &str) -> String {
    let two = [r#"{ "kind": "pocket" }"#, r#"{ "kind": "wallet", "pocket": 110, "overflap": 45 }"#];
    let list = two.repeat(pages / 2).join(", ");
    format!(
        r#"{{ "format": "hingeleaf-album/1",
          "stocks": {{ "card": {{ "sheet": "{sheet}", "caliper": 0.35, "grain": "long" }}, "paper": {{ "sheet": "12x12in", "caliper": 0.2 }} }},
          "page": {{ "width": 148, "height": 190 }}, "pages": [{list}], "spine": {{ "kind": "flexi-hinge", "tab": 12 }},
          "panels": {{ "reveal": 3, "stock": "paper" }},
          "inserts": [{{ "kind": "tag", "width": 90, "height": 130, "count": {} }}] }}"#,
        pages / 2
    )
}
