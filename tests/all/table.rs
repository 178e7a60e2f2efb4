// SPDX-License-Identifier: MIT
//! The table's server, asked as nobody should: other names, other pages, no word, too much, too slowly, nonsense.

use crate::common;

use crate::common::web::{Table, reply};
use crate::common::{TempDir, not_run, project};
use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

fn tide_table() -> String {
    std::fs::read_to_string(project().join("fixtures/tide-table.json")).unwrap()
}

fn work_body() -> Vec<u8> {
    json!({ "name": "tide-table.json", "text": tide_table() }).to_string().into_bytes()
}

#[test]
fn the_page_and_its_files_come_with_a_strict_policy() {
    let table = Table::start();
    let page = table.get(&format!("/{}/", table.token));
    assert_eq!(page.status, 200);
    let policy = page.head.lines().find(|line| line.starts_with("content-security-policy:")).unwrap();
    assert!(policy.contains("default-src 'none'") && policy.contains("frame-ancestors 'none'"), "{policy}");
    for word in ["unsafe", "*", "http:", "https:", "data:"] {
        assert!(!policy.contains(word), "{policy}");
    }
    // No other origin is ever let in.
    assert!(!page.head.contains("access-control-"), "{}", page.head);
    assert!(
        page.head.contains("x-content-type-options: nosniff") && page.head.contains("referrer-policy: no-referrer")
    );
    // Every file that the page names is there, and there is nothing in it that the policy would keep out.
    let text = page.text();
    let names: Vec<&str> =
        text.split(['"', '\'']).filter(|name| [".js", ".css"].iter().any(|ending| name.ends_with(ending))).collect();
    assert!(names.len() >= 3, "{names:?}");
    for name in names {
        assert_eq!(table.get(&format!("/{}/{name}", table.token)).status, 200, "{name}");
    }
    assert!(!text.contains("style=") && !text.contains("onclick") && !text.contains("<script>"));
    assert_eq!(table.post("work", &work_body()).json()["sheets"]["counts"], 10);
}

#[test]
fn only_this_machine_can_reach_it() {
    let table = Table::start();
    // All of 127.0.0.0/8 is this machine; a server on every address would answer there, too.
    let other =
        TcpStream::connect_timeout(&format!("127.0.0.2:{}", table.port).parse().unwrap(), Duration::from_secs(2));
    assert!(other.is_err(), "it answers on other addresses");
}

#[test]
fn another_name_is_refused() {
    let table = Table::start();
    let (port, token) = (table.port, &table.token);
    let ask = |host: &str| table.send(format!("GET /{token}/ HTTP/1.1\r\n{host}Connection: close\r\n\r\n").as_bytes());
    assert_eq!(ask(&format!("Host: 127.0.0.1:{port}\r\n")).status, 200);
    for host in [
        "Host: example.org\r\n".into(),
        format!("Host: example.org:{port}\r\n"),
        format!("Host: localhost.example.org:{port}\r\n"),
        "Host: 127.0.0.1\r\n".into(),
        format!("Host: 127.0.0.1:{port}.example.org\r\n"),
        format!("Host: 127.0.0.1:{port}\r\nHost: example.org\r\n"),
        "Host:\r\n".into(),
        String::new(),
    ] {
        let reply = ask(&host);
        assert!(reply.status == 403 || reply.status == 400, "{host}: {}", reply.status);
        assert!(!reply.text().contains("<main"), "{host}");
    }
    // A name on the first line, as for a go-between.
    let named =
        format!("GET http://example.org/{token}/ HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nConnection: close\r\n\r\n");
    assert_eq!(table.send(named.as_bytes()).status, 403);
}

#[test]
fn another_page_is_refused() {
    let table = Table::start();
    let (host, token, body) = (table.host(), &table.token, work_body());
    let ask = |more: &str| {
        let head = format!(
            "POST /{token}/work HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\nContent-Length: {}\r\n{more}\r\n",
            body.len()
        );
        table.send(&[head.as_bytes(), &body].concat()).status
    };
    assert_eq!(ask(&format!("Origin: http://{host}\r\nSec-Fetch-Site: same-origin\r\n")), 200);
    for more in [
        "Origin: http://example.org\r\n".into(),
        "Origin: null\r\n".into(),
        format!("Origin: https://{host}\r\n"),
        format!("Origin: http://127.0.0.1:{}\r\n", table.port.wrapping_add(1).max(1)),
        format!("Origin: http://{host}.example.org\r\n"),
        format!("Origin: http://{host}\r\nSec-Fetch-Site: cross-site\r\n"),
        "Sec-Fetch-Site: same-site\r\n".into(),
    ] {
        assert_eq!(ask(&more), 403, "{more}");
    }
    // What a browser asks before it lets another page send such things is not granted.
    let before = format!(
        "OPTIONS /{token}/work HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\nOrigin: http://example.org\r\nAccess-Control-Request-Method: POST\r\n\r\n"
    );
    let reply = table.send(before.as_bytes());
    assert!(reply.status == 403 && !reply.head.contains("access-control-"), "{}", reply.head);
}

#[test]
fn who_does_not_know_the_word_is_refused() {
    let table = Table::start();
    let token = &table.token;
    assert!(token.len() == 32 && token.bytes().all(|byte| byte.is_ascii_hexdigit()), "{token}");
    let mut wrong: Vec<String> =
        ["/", "/open", "//", "/main.js", "/0/", "/?token=x", "/%2e/"].iter().map(|path| (*path).to_owned()).collect();
    wrong.push(format!("/{}/", token.to_uppercase() + "0"));
    wrong.push(format!("/{}/", &token[..31]));
    wrong.push(format!("/{token}"));
    wrong.push(format!("/x{token}/"));
    wrong.push(format!("/?{token}/"));
    for path in wrong {
        let reply = table.get(&path);
        assert_eq!(reply.status, 403, "{path}");
        assert!(!reply.text().contains(token.as_str()), "{path}: the word is told");
    }
    assert_ne!(*token, Table::start().token, "two runs have the same word");
}

#[test]
fn nothing_but_the_pages_own_files_can_be_read() {
    let table = Table::start();
    let token = &table.token;
    let secret = table.folder.put("secret.txt", "root:secret");
    let full = secret.display().to_string();
    for path in [
        "secret.txt".into(),
        "../secret.txt".into(),
        "../../../../../../etc/passwd".into(),
        "..%2f..%2f..%2fetc%2fpasswd".into(),
        "%2e%2e/%2e%2e/etc/passwd".into(),
        "..\\..\\etc\\passwd".into(),
        "....//....//etc/passwd".into(),
        "main.js/../../secret.txt".into(),
        "main.js%00.txt".into(),
        full.clone(),
        format!("/{full}"),
        format!("file://{full}"),
        "Cargo.toml".into(),
    ] {
        let reply = table.get(&format!("/{token}/{path}"));
        assert!(matches!(reply.status, 400 | 403 | 404), "{path}: {}", reply.status);
        assert!(!reply.text().contains("root:"), "{path}");
        // Nor as a file of a kit.
        let asked = json!({ "name": "a.json", "text": r#"{ "format": "hingeleaf-album/1", "page": { "width": 100, "height": 120 }, "pages": [{ "kind": "pocket" }] }"#, "file": path });
        let reply = table.post("file", asked.to_string().as_bytes());
        assert_ne!(reply.status, 200, "{path}");
        assert!(!reply.text().contains("root:"), "{path}");
    }
    std::fs::remove_file(secret).unwrap();
    // An album's name is a name, no place.
    let asked = json!({ "name": "/etc/passwd", "text": tide_table() });
    assert!(!table.post("work", asked.to_string().as_bytes()).text().contains("root:"));
    assert!(table.folder.names().is_empty(), "it wrote {:?}", table.folder.names());
}

/// The size of a body that is far too large, bytes.
const SIZE: usize = 100_000_000;

#[test]
fn a_body_of_100_megabytes_is_not_taken() {
    let table = Table::start();
    let (host, token) = (table.host(), &table.token);
    table.post("work", &work_body());
    let before = table.memory();
    let begun = Instant::now();
    let head = format!("POST /{token}/work HTTP/1.1\r\nHost: {host}\r\nContent-Length: {SIZE}\r\n\r\n");
    assert_eq!(table.send(head.as_bytes()).status, 413, "a large body that is announced");
    // In pieces, so that it is not known before how much will come.
    let mut stream = table.connect();
    let head = format!("POST /{token}/work HTTP/1.1\r\nHost: {host}\r\nTransfer-Encoding: chunked\r\n\r\n");
    stream.write_all(head.as_bytes()).unwrap();
    let piece = [b"10000\r\n".as_slice(), &vec![b' '; 0x10000], b"\r\n"].concat();
    let mut sent = 0;
    while sent < SIZE && stream.write_all(&piece).is_ok() {
        sent += 0x10000;
    }
    let answer = reply(&mut stream);
    assert!(answer.status == 413 || answer.status == 0, "{}", answer.status);
    assert!(sent < 20_000_000, "{sent} bytes were taken");
    assert!(begun.elapsed() < Duration::from_secs(20), "{:?}", begun.elapsed());
    assert_eq!(table.post("work", &work_body()).status, 200);
    match before.zip(table.memory()) {
        Some((before, after)) => assert!(after < before + 12.0, "{before} MiB became {after} MiB"),
        None => not_run("this system does not tell how much memory a program holds"),
    }
}

/// Forty connections that send a byte now and then hold no one up, and none of them lives long.
#[test]
fn slow_senders_are_let_go() {
    let table = Table::start();
    let (host, token) = (table.host(), &table.token);
    let begun = Instant::now();
    let heads: Vec<String> = vec![
        format!("GET /{token}/ HTTP/1.1\r\nHost: {host}\r\nX-Slow: "),
        format!("POST /{token}/work HTTP/1.1\r\nHost: {host}\r\nContent-Length: 5000\r\n\r\n"),
        format!("POST /{token}/work HTTP/1.1\r\nHost: {host}\r\nTransfer-Encoding: chunked\r\n\r\n"),
        String::new(),
    ];
    let slow: Vec<_> = (0..40)
        .map(|number| {
            let mut stream = table.connect();
            stream.write_all(heads[number % heads.len()].as_bytes()).unwrap();
            let silent = number % heads.len() == 3;
            thread::spawn(move || {
                stream.set_read_timeout(Some(Duration::from_millis(400))).unwrap();
                let begun = Instant::now();
                while begun.elapsed() < Duration::from_secs(40) {
                    let mut some = [0; 512];
                    match stream.read(&mut some) {
                        Ok(0) => return begun.elapsed(),
                        Err(error)
                            if !matches!(
                                error.kind(),
                                std::io::ErrorKind::WouldBlock | std::io::ErrorKind::TimedOut
                            ) =>
                        {
                            return begun.elapsed();
                        }
                        _ => {}
                    }
                    if !silent && stream.write_all(b"a").is_err() {
                        return begun.elapsed();
                    }
                }
                begun.elapsed()
            })
        })
        .collect();
    let asked = Instant::now();
    assert_eq!(table.post("work", &work_body()).status, 200);
    assert!(asked.elapsed() < Duration::from_secs(5), "slow senders held others up for {:?}", asked.elapsed());
    for one in slow {
        // Ten seconds are allowed; this machine may be busy.
        let lived = one.join().unwrap();
        assert!(lived < Duration::from_secs(25), "a slow sender was borne for {lived:?}");
    }
    assert!(begun.elapsed() < Duration::from_secs(45));
}

#[test]
fn ten_thousand_rapid_requests_leave_memory_flat() {
    let table = Table::start();
    let (host, token, body) = (table.host(), table.token.clone(), work_body());
    let get = format!("GET /{token}/main.js HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n");
    let post = format!(
        "POST /{token}/work HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\nContent-Length: {}\r\n\r\n",
        body.len()
    );
    let post = [post.as_bytes(), &body].concat();
    // Every fiftieth asks for work, every tenth is nonsense.
    let rapid = |count: usize| {
        thread::scope(|scope| {
            for crew in 0..4 {
                let (table, get, post) = (&table, &get, &post);
                scope.spawn(move || {
                    for number in (crew..count).step_by(4) {
                        let (bytes, status) = match number {
                            number if number % 50 == 0 => (post.as_slice(), 200),
                            number if number % 10 == 0 => (b"GET / HTTP/1.1\r\nHost: x\r\n\r\n".as_slice(), 403),
                            _ => (get.as_bytes(), 200),
                        };
                        assert_eq!(table.send(bytes).status, status, "request {number}");
                    }
                });
            }
        });
    };
    rapid(2_000);
    let before = table.memory();
    rapid(10_000);
    match before.zip(table.memory()) {
        Some((before, after)) => {
            println!("memory: {before:.1} MiB after 2,000 requests, {after:.1} MiB after 12,000");
            assert!(after < before + 8.0, "{before} MiB became {after} MiB");
        }
        None => not_run("this system does not tell how much memory a program holds"),
    }
    assert!(table.folder.names().is_empty(), "it wrote {:?}", table.folder.names());
}

/// Bodies of more than a thousand kinds that are none: each is answered, none with a failure, and the program goes on.
#[test]
#[expect(clippy::too_many_lines, reason = "a table of nonsense")]
fn nonsense_is_answered_and_never_a_failure() {
    let mut table = Table::start();
    let good = String::from_utf8(work_body()).unwrap();
    let mut bodies: Vec<Vec<u8>> = Vec::new();
    // Broken off at 400 places.
    bodies.extend((0..400).map(|part| good.as_bytes()[..good.len() * part / 400].to_vec()));
    // One byte another: 400 places, the byte chosen by a fixed rule.
    bodies.extend((0..400_usize).map(|part| {
        let mut bytes = good.clone().into_bytes();
        let at = (part * 7919) % bytes.len();
        bytes[at] = [b'{', b'}', b'[', b']', b'"', b'\\', b',', b'0', 0x00, 0xff, b'-', b'e'][part % 12];
        bytes
    }));
    // Something else for each field, and fields that there are not.
    let odd = [
        json!(null),
        json!(true),
        json!(-1),
        json!(1e308),
        json!([]),
        json!({}),
        json!("\u{0}"),
        json!(["a"]),
        json!({ "do": 1 }),
    ];
    for field in ["name", "text", "machine", "change", "file", "formats", "other"] {
        for value in &odd {
            let mut body: Value = serde_json::from_str(&good).unwrap();
            body[field] = value.clone();
            bodies.push(body.to_string().into_bytes());
        }
    }
    // Changes at places that there are not, with values that nothing takes.
    let paths = [
        "",
        ".",
        "pages",
        "pages[99].kind",
        "pages[-1]",
        "pages[99999999999999999999]",
        "page..width",
        "spine.\u{0}",
        "stocks..sheet",
        "cover.kind.kind",
        "[0]",
        "inserts[0]",
    ];
    let typed = ["", "-1", "1e999", "NaN", "9".repeat(400).as_str(), "\u{202e}1 in", "½", "{\"a\":1}", "[1,2", "true"]
        .map(str::to_owned);
    for path in paths {
        for typed in &typed {
            bodies.push(changing(&good, &json!({ "do": "set", "path": path, "typed": typed })));
        }
        for change in [
            json!({ "do": "kind", "path": path, "kind": "wallet" }),
            json!({ "do": "take", "path": path }),
            json!({ "do": "add", "list": path, "at": u64::MAX, "kind": "pocket" }),
            json!({ "do": "copy", "list": path, "at": 3 }),
            json!({ "do": "move", "list": path, "from": 0, "to": u64::MAX }),
            json!({ "do": "mend", "path": path, "eighths": i64::MAX }),
            json!({ "do": "stock", "name": path }),
            json!({ "do": "units", "units": path }),
            json!({ "do": path }),
        ] {
            bodies.push(changing(&good, &change));
        }
    }
    for eighths in [i64::MIN, -1, 0, i64::MAX] {
        bodies.push(changing(&good, &json!({ "do": "page-size", "width": eighths, "height": 1_000_000 })));
    }
    // Very deep, and very odd.
    for depth in [100, 1_000, 100_000] {
        bodies.push("[".repeat(depth).into_bytes());
        let deep = format!("{}{}", "[".repeat(depth), "]".repeat(depth));
        bodies.push(json!({ "name": "a", "text": deep }).to_string().into_bytes());
    }
    bodies.push(vec![0xff; 1000]);
    assert!(bodies.len() >= 1_000, "only {} kinds", bodies.len());
    let mut seen = std::collections::BTreeMap::new();
    for (number, body) in bodies.iter().enumerate() {
        let name = ["work", "work", "better", "folds", "sizes"][if number < 800 { 0 } else { number % 2 }];
        let reply = table.post(name, body);
        let shown = String::from_utf8_lossy(&body[..body.len().min(300)]);
        assert!(matches!(reply.status, 200 | 400), "{}: {shown}", reply.status);
        assert!(!reply.body.is_empty(), "nothing is said to {shown}");
        *seen.entry(reply.status).or_insert(0) += 1;
    }
    assert!(seen.get(&400).is_some_and(|count| *count > 300), "{seen:?}");
    assert!(table.is_alive());
    assert_eq!(table.post("work", good.as_bytes()).status, 200);
}

fn changing(good: &str, change: &Value) -> Vec<u8> {
    let mut body: Value = serde_json::from_str(good).unwrap();
    body["change"] = change.clone();
    body.to_string().into_bytes()
}

#[test]
fn a_file_is_opened_and_left_alone() {
    let folder = TempDir::new("opened");
    let file = folder.put("mine.json", tide_table());
    let refused = common::hingeleaf(["table", "--no-browser", folder.join("none.json").to_str().unwrap()]);
    assert_eq!(refused.code, 2);
    assert!(refused.err.contains("there is no file"), "{}", refused.err);
    let table = Table::start_with(&[file.to_str().unwrap()]);
    let opened = table.post("open", b"{}").json();
    assert_eq!(opened["file"]["name"], "mine.json");
    assert_eq!(opened["file"]["text"], tide_table());
    assert_eq!(opened["examples"].as_array().unwrap().len(), 3);
    // The port is taken: that is said, not passed over.
    let port = table.port.to_string();
    let second = common::hingeleaf(["table", "--no-browser", "--port", &port]);
    assert_eq!(second.code, 2);
    assert!(second.err.contains("another program uses port"), "{}", second.err);
    assert_eq!(folder.names(), ["mine.json"]);
    assert_eq!(std::fs::read_to_string(file).unwrap(), tide_table());
}

/// Started from a desktop, without words and without a terminal, the program opens the page; with nothing to open it with
/// it says the address all the same.
#[test]
fn without_words_and_terminal_it_opens_the_page() {
    let folder = TempDir::new("desktop");
    let mut child = Command::new(env!("CARGO_BIN_EXE_hingeleaf"))
        .env("PATH", folder.path())
        .current_dir(folder.path())
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
    let address = lines.next().unwrap().unwrap();
    assert!(address.starts_with("http://127.0.0.1:") && address.ends_with('/'), "{address}");
    assert!(lines.next().unwrap().unwrap().contains("No browser could be started"));
    child.kill().unwrap();
    child.wait().unwrap();
}

/// Connections that say nothing keep nobody out: 193 of them are more than there are places and than the system lets wait.
#[test]
fn half_open_connections_shut_no_one_out() {
    let table = Table::start();
    let (host, token) = (table.host(), &table.token);
    let half = format!("GET /{token}/ HTTP/1.1\r\nHost: {host}\r\n");
    let held: Vec<TcpStream> = (0..193)
        .map_while(|number| {
            let address = format!("127.0.0.1:{}", table.port).parse().unwrap();
            let mut stream = TcpStream::connect_timeout(&address, Duration::from_secs(3)).ok()?;
            if number % 2 == 0 {
                // Who is cut off already can't write.
                let _ = stream.write_all(half.as_bytes());
            }
            Some(stream)
        })
        .collect();
    for _ in 0..5 {
        let begun = Instant::now();
        assert_eq!(table.post("work", &work_body()).status, 200);
        assert!(begun.elapsed() < Duration::from_secs(2), "it took {:?} with {} held", begun.elapsed(), held.len());
    }
    assert_eq!(held.len(), 193, "a connection was not taken");
}

/// Whoever is being answered is not cut off by others that come.
#[test]
fn who_is_being_answered_stays() {
    let table = Table::start();
    let body = json!({ "name": "a.json", "text": tide_table() }).to_string();
    thread::scope(|scope| {
        let long = scope.spawn(|| table.post("kit", body.as_bytes()));
        thread::sleep(Duration::from_millis(50));
        let held: Vec<TcpStream> = (0..300).map(|_| table.connect()).collect();
        let reply = long.join().unwrap();
        assert_eq!((reply.status, &reply.body[..2]), (200, b"PK".as_slice()), "{} are held", held.len());
    });
}
