// SPDX-License-Identifier: MIT
//! How much is too much: the table in `DEVELOPERS.md`, each limit tried just below it, at it, and past it, where a sentence says so.

use crate::common::{TempDir, hingeleaf, kind_files, project, said};
use hingeleaf::fields::Source;
use hingeleaf::finding::{Finding, Level};
use hingeleaf::{batch, drawer, kind_file, parts};
use std::fs;

/// What is limited as the table has it, how far it goes, a file with so much of it, words of the refusal.
struct Limit {
    what: &'static str,
    most: u64,
    file: fn(u64) -> String,
    refused: &'static str,
}

fn album(page: &str, top: &str) -> String {
    format!("{{ \"format\": \"hingeleaf-album/1\", \"title\": \"T\", \"page\": {{ {page} }},\n{top} }}")
}

fn repeated(one: &str, times: u64) -> String {
    vec![one; usize::try_from(times).unwrap()].join(",")
}

const PAGE: &str = "\"width\": 148, \"height\": 190";
const POCKET: &str = "\"pages\": [{ \"kind\": \"pocket\" }]";

const LIMITS: [Limit; 14] = [
    Limit {
        what: "entries of a list, pages among them",
        most: 2000,
        file: |n| album(PAGE, &format!("\"pages\": [{}]", repeated("{\"kind\":\"pocket\"}", n))),
        refused: "at most 2000 make sense",
    },
    Limit {
        what: "letters of a title, a note or a name",
        most: 2000,
        file: |n| album(PAGE, &format!("{POCKET}, \"maker\": \"{}\"", "m".repeat(usize::try_from(n).unwrap()))),
        refused: "has more than 2000 letters",
    },
    Limit {
        what: "kits of an album",
        most: 10_000,
        file: |n| album(PAGE, &format!("{POCKET}, \"copies\": {n}")),
        refused: "from 1 to 10000",
    },
    Limit {
        what: "inserts of an entry",
        most: 1000,
        file: |n| {
            album(
                PAGE,
                &format!(
                    "{POCKET}, \"inserts\": [{{ \"kind\": \"tag\", \"width\": 80, \"height\": 150, \"count\": {n} }}]"
                ),
            )
        },
        refused: "from 1 to 1000",
    },
    Limit {
        what: "inserts of a kit",
        most: 5000,
        file: |n| {
            let tag = |count| format!("{{ \"kind\": \"tag\", \"width\": 80, \"height\": 150, \"count\": {count} }}");
            album(PAGE, &format!("{POCKET}, \"inserts\": [{}, {}]", repeated(&tag(900), 5), tag(n - 4500)))
        },
        refused: "5000",
    },
    Limit {
        what: "spare kits",
        most: 1000,
        file: |n| album(PAGE, &format!("{POCKET}, \"spares\": {{ \"kits\": {n} }}")),
        refused: "from 0 to 1000",
    },
    Limit {
        what: "a price, an hour, a weight",
        most: 1_000_000,
        file: |n| album(PAGE, &format!("{POCKET}, \"selling\": {{ \"currency\": \"EUR\", \"hour\": {n} }}")),
        refused: "1000000",
    },
    Limit {
        what: "sheets of a pack",
        most: 1_000_000,
        file: |n| {
            album(
                PAGE,
                &format!(
                    "{POCKET}, \"stocks\": {{ \"card\": {{ \"sheet\": \"A4\" }} }}, \"packs\": {{ \"card\": {{ \"of\": {n}, \"price\": 9 }} }}"
                ),
            )
        },
        refused: "from 1 to 1000000",
    },
    Limit {
        what: "bytes of a file",
        most: 8 * 1024 * 1024,
        file: |n| {
            let text = album(PAGE, POCKET);
            let room = usize::try_from(n).unwrap() - text.len();
            text + &" ".repeat(room)
        },
        refused: "8 MB",
    },
    Limit {
        what: "kinds of kit in a batch",
        most: 200,
        file: |n| {
            let kits: Vec<String> =
                (0..n).map(|number| format!("{{ \"name\": \"k{number}\", \"album\": \"a.json\" }}")).collect();
            format!("{{ \"format\": \"hingeleaf-batch/1\", \"kits\": [{}] }}", kits.join(","))
        },
        refused: "at most 200 make sense",
    },
    Limit {
        what: "kits of a batch",
        most: 10_000,
        file: |n| {
            format!(
                "{{ \"format\": \"hingeleaf-batch/1\", \"kits\": [{{ \"name\": \"a\", \"album\": \"a.json\", \"copies\": 5000 }}, \
                 {{ \"name\": \"b\", \"album\": \"a.json\", \"copies\": {} }}] }}",
                n - 5000
            )
        },
        refused: "10000",
    },
    Limit {
        what: "sizes of a stock in a drawer",
        most: 500,
        file: |n| {
            let sizes = repeated("{ \"sheet\": \"A4\", \"count\": 1 }", n);
            format!("{{ \"format\": \"hingeleaf-drawer/1\", \"stocks\": {{ \"card\": [{sizes}] }} }}")
        },
        refused: "at most 500 make sense",
    },
    Limit {
        what: "letters of a formula in a kind file",
        most: 300,
        file: |n| kind(&format!("10{}", " ".repeat(usize::try_from(n).unwrap() - 9))),
        refused: "300",
    },
    Limit {
        what: "sheets of a size that are there",
        most: 1_000_000,
        file: |n| {
            format!(
                "{{ \"format\": \"hingeleaf-drawer/1\", \"stocks\": {{ \"card\": [{{ \"sheet\": \"A4\", \"count\": {n} }}] }} }}"
            )
        },
        refused: "from 0 to 1000000",
    },
];

/// A kept kind whose first usual size is another formula.
fn kind(formula: &str) -> String {
    let text = include_str!("../../fixtures/kept/kind-1.json");
    text.replacen("\"ruler(height / 2)\"", &format!("\"{formula} * 1 mm\""), 1)
}

/// What stops a file from being read, by whichever reader it is for.
fn stops(text: &str) -> Vec<Finding> {
    let source = match Source::new("a.json", text.as_bytes().to_vec()) {
        Ok(source) => source,
        Err(finding) => return vec![*finding],
    };
    let findings = if text.contains("hingeleaf-batch/") {
        let mut albums = |_: &str| Source::new("a.json", album(PAGE, POCKET).into_bytes());
        batch::read(&source, &parts::kinds(), &mut albums).findings
    } else if text.contains("hingeleaf-drawer/") {
        drawer::read(&source).findings
    } else if text.contains("hingeleaf-kind/") {
        kind_file::read(&source).findings
    } else {
        parts::read_album(&source, &mut kind_files).findings
    };
    findings.into_iter().filter(|finding| finding.level == Level::Stop).collect()
}

#[test]
fn limits_hold_at_them_and_say_so_past_them() {
    let mut wrong = Vec::new();
    for limit in &LIMITS {
        for fine in [limit.most - 1, limit.most] {
            let found = said(&stops(&(limit.file)(fine)));
            if !found.is_empty() {
                wrong.push(format!("{}, {fine}: {found}", limit.what));
            }
        }
        // Nothing is said where nothing is wrong, so this fails there, too.
        let words = said(&stops(&(limit.file)(limit.most + 1))).replace(',', "");
        if !words.contains(limit.refused) {
            wrong.push(format!("{}, one more: {words}", limit.what));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The table has each of them, with this very number and a reason.
#[test]
fn the_table_of_limits_is_true() {
    let text = fs::read_to_string(project().join("DEVELOPERS.md")).unwrap();
    let table = text.split("## Limits").nth(1).unwrap().split("\n## ").next().unwrap();
    let rows: Vec<Vec<&str>> = table
        .lines()
        .filter(|line| line.starts_with("| "))
        .map(|line| line.trim_matches('|').split('|').map(str::trim).collect())
        .collect();
    for limit in &LIMITS {
        let row = rows.iter().find(|row| row[0] == limit.what).unwrap_or_else(|| panic!("no row for {}", limit.what));
        assert_eq!(row[1].replace(',', "").parse::<u64>().ok(), Some(limit.most), "{}", limit.what);
    }
    assert!(rows.iter().all(|row| row.len() == 4 && row.iter().all(|cell| !cell.is_empty())), "{rows:?}");
}

/// What options take, tried as they are typed; `tests/all/kit.rs` has copies and threads.
#[test]
fn options_end_where_the_table_says() {
    let temp = TempDir::new("limits");
    let file = temp.put("album.json", album(PAGE, POCKET));
    for (option, fine, past) in [("--threads", "256", "257"), ("--copies", "10000", "10001")] {
        let run = |value: &str| {
            hingeleaf([
                "sizes".as_ref(),
                file.as_os_str(),
                option.as_ref(),
                value.as_ref(),
                "--within".as_ref(),
                "-1".as_ref(),
            ])
        };
        let below = (fine.parse::<u32>().unwrap() - 1).to_string();
        assert!(run(&below).err.contains("--within"), "{option} {below}: {}", run(&below).err);
        // Within less than nothing no size is tried: all options have been read then.
        assert!(run(fine).err.contains("--within"), "{option} {fine}: {}", run(fine).err);
        assert!(
            run(past).err.contains(past) && !run(past).err.contains("can't be tried"),
            "{option} {past}: {}",
            run(past).err
        );
    }
}
