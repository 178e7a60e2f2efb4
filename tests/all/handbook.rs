// SPDX-License-Identifier: MIT
//! The maker's handbook: every link leads somewhere, every command in it runs, nothing is written over, German is German.

use crate::common::{Run, TempDir, files, hingeleaf, project};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The handbook's pages by name.
fn pages(out: &Path) -> BTreeMap<String, String> {
    let html = |path: &PathBuf| path.extension().is_some_and(|ending| ending == "html");
    let all = files(out).into_iter().filter(|(path, _)| html(path));
    all.map(|(path, bytes)| (path.to_str().unwrap().to_owned(), String::from_utf8(bytes).unwrap())).collect()
}

fn made(temp: &TempDir, name: &str, more: &[&str]) -> PathBuf {
    let out = temp.join(name);
    let run = hingeleaf(["handbook", "--out", out.to_str().unwrap()].iter().chain(more));
    assert_eq!((run.code, run.err.as_str()), (0, ""), "{run:?}");
    out
}

/// What stands between two texts, wherever it does.
fn between<'t>(text: &'t str, open: &'t str, close: &'t str) -> impl Iterator<Item = &'t str> {
    text.split(open).skip(1).map(move |rest| rest.split(close).next().unwrap())
}

/// Text as it was before it was HTML.
fn plain(html: &str) -> String {
    html.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&amp;", "&")
}

#[test]
fn every_link_leads_somewhere() {
    let temp = TempDir::new("handbook-links");
    for (name, more) in [("en", &[][..]), ("de", &["--language", "de"])] {
        let out = made(&temp, name, more);
        let pages = pages(&out);
        assert!(pages.len() >= 9, "{:?}", pages.keys());
        let ids: BTreeMap<&String, BTreeSet<&str>> =
            pages.iter().map(|(page, text)| (page, between(text, " id=\"", "\"").collect())).collect();
        let mut links = 0;
        for (page, text) in &pages {
            let search = fs::read_to_string(out.join("search.js")).unwrap();
            let found = search.split("\nsearch(").nth(1).unwrap();
            let places: serde_json::Value = serde_json::from_str(&found[..=found.find("], \"").unwrap()]).unwrap();
            let found = places.as_array().unwrap().iter().map(|place| place[0].as_str().unwrap().to_owned());
            let said = ["href", "src"].into_iter().flat_map(|name| {
                text.split(&format!(" {name}=\""))
                    .skip(1)
                    .map(|rest| rest.split('"').next().unwrap().to_owned())
                    .collect::<Vec<_>>()
            });
            for link in said.chain(found) {
                let (to, at) = link.split_once('#').unwrap_or((&link, ""));
                let to = if to.is_empty() { page } else { to };
                assert!(out.join(to).is_file(), "{page}: {link}");
                assert!(at.is_empty() || ids[&to.to_owned()].contains(at), "{page}: nothing is called {link}");
                links += 1;
            }
            // A place that is called twice is found once.
            assert_eq!(ids[page].len(), between(text, " id=\"", "\"").count(), "{page}");
            assert!(!text.contains("http://") || text.contains("www.w3.org"), "{page} asks for a network");
            assert!(!text.contains("fixtures/") && !text.contains("cargo run"), "{page} speaks of the sources");
        }
        assert!(links > 300, "only {links} links");
    }
}

/// What the chapter on kinds links to beside itself lies in the handbook, and is linked to there: a link that leads nowhere
/// is left out, so it would not be missed.
#[test]
fn what_the_chapter_on_kinds_links_to_is_there() {
    let temp = TempDir::new("handbook-files");
    let out = made(&temp, "en", &[]);
    let pages = pages(&out);
    let text = fs::read_to_string(project().join("fixtures/kinds/README.md")).unwrap();
    let mut links = 0;
    for to in between(&text, "](", ")").filter(|to| !to.contains(['#', ':', '/'])) {
        let here = format!("files/kinds/{to}");
        assert!(out.join(&here).is_file(), "{to}");
        assert!(pages["own-kinds.html"].contains(&format!("=\"{here}\"")), "no link to {to}");
        links += 1;
    }
    assert!(links >= 12, "only {links} links");
}

/// Words that are searched for are found at the passage that has them.
#[test]
fn what_is_searched_for_is_there() {
    let temp = TempDir::new("handbook-search");
    let out = made(&temp, "en", &[]);
    let search = fs::read_to_string(out.join("search.js")).unwrap();
    for (word, place) in [
        ("overflap", "parts.html#wallet"),
        ("kerf", "files.html"),
        ("comma", "messages.html#comma-missing"),
        ("trimmer", "mind.html"),
    ] {
        let rows = search.split("[\"").filter(|row| row.starts_with(place));
        assert!(rows.into_iter().any(|row| row.contains(word)), "{word} is not at {place}");
    }
}

/// A run of a command as it stands in the handbook, with what would only take time left out.
fn run(line: &str, folder: &Path) -> Run {
    let words: Vec<&str> = line.split('#').next().unwrap().split_whitespace().collect();
    let mut words: Vec<&str> = words.into_iter().take_while(|word| *word != ">").skip(1).collect();
    match words[0] {
        "sizes" => words.extend(["--effort", "low", "--within", "1"]),
        "compare" => words.extend(["--effort", "low"]),
        _ => {}
    }
    if words[0] == "kit" && !words.contains(&"--help") {
        words.extend(["--effort", "low"]);
        if !words.contains(&"--formats") {
            words.extend(["--formats", "svg,csv"]);
        }
    }
    Run::of(Command::new(env!("CARGO_BIN_EXE_hingeleaf")).args(words).current_dir(folder).output().unwrap())
}

/// What the handbook takes for granted: an album of one's own, an earlier one, two orders, a machine that was measured, a kind.
fn prepared(folder: &Path, text: &str) {
    let starts = |name: &str| text.contains(name) && !text.contains(&format!("new {name}"));
    for name in ["my-album.json", "first.json", "first-edition.json"] {
        if starts(name) {
            assert_eq!(run(&format!("hingeleaf new {name}"), folder).code, 0);
        }
    }
    if text.contains("first/report.json") {
        assert_eq!(run("hingeleaf kit my-album.json --out first", folder).code, 0);
    }
    for name in ["old-order.json", "new-order.json"] {
        let order =
            r#"{ "format": "hingeleaf-batch/1", "kits": [{ "name": "a", "album": "my-album.json", "copies": 2 }] }"#;
        fs::write(folder.join(name), order).unwrap();
    }
}

/// Every line of every block of commands, block by block in a folder of its own; and every command within a sentence. What stands twice
/// runs once.
#[test]
fn every_command_runs() {
    let temp = TempDir::new("handbook-commands");
    let out = made(&temp, "book", &[]);
    let pages = pages(&out);
    let (mut ran, mut number) = (0, 0);
    let mut fresh = |text: &str| {
        number += 1;
        let folder = temp.join(&format!("{number}"));
        for (path, bytes) in files(&out.join("files")) {
            let to = folder.join("files").join(path);
            fs::create_dir_all(to.parent().unwrap()).unwrap();
            fs::write(to, bytes).unwrap();
        }
        prepared(&folder, text);
        folder
    };
    for (page, text) in &pages {
        let first =
            between(text, "<pre class=\"file\" tabindex=\"0\"><code>", "</code>").next().map(plain).unwrap_or_default();
        let blocks = between(text, "<pre class=\"shell\" tabindex=\"0\"><code>", "</code>").map(plain);
        // Within a sentence; a command of several words that stands for others has capitals in it.
        let inline = between(text, "<code>hingeleaf ", "</code>").map(|rest| format!("hingeleaf {}", plain(rest)));
        let inline =
            inline.filter(|line| !line.contains(['…', '\n']) && !line.contains("NEW") && !line.contains("FILE"));
        let blocks: BTreeSet<String> = blocks.chain(inline).collect();
        for block in blocks {
            let folder = fresh(&block);
            if page == "own-kinds.html" {
                fs::write(folder.join("fold-card.json"), &first).unwrap();
            }
            fs::create_dir_all(folder.join("coupon")).unwrap();
            for line in block.lines().flat_map(|line| line.split("; ")).filter(|line| line.starts_with("hingeleaf ")) {
                // The page serves until it is ended, plates are drawn for seconds; both have tests of their own.
                if line.starts_with("hingeleaf table") || line.ends_with("--out plates") {
                    continue;
                }
                if line.contains("--out coupon") {
                    fs::remove_dir_all(folder.join("coupon")).unwrap();
                }
                let run = run(line, &folder);
                assert_eq!(run.code, 0, "{page}: {line}\n{run:?}");
                ran += 1;
                // Between the two commands the maker reads the piece; without a reading no cutter file is made.
                if line.contains("--out coupon") {
                    let (file, nothing) = (folder.join("coupon/measured.json"), "\"best_overrun\": null");
                    let empty = fs::read_to_string(&file).unwrap();
                    assert!(empty.contains(nothing));
                    fs::write(file, empty.replace(nothing, "\"best_overrun\": 2")).unwrap();
                }
            }
        }
    }
    assert!(ran > 35, "only {ran} commands");
}

#[test]
fn nothing_is_written_over() {
    let temp = TempDir::new("handbook-there");
    let out = made(&temp, "book", &[]);
    let before = files(&out);
    let again = hingeleaf(["handbook", "--out", out.to_str().unwrap()]);
    assert!(again.code == 2 && again.err.contains("is there already"), "{again:?}");
    assert_eq!(files(&out), before);
    // The same bytes wherever it is written.
    assert_eq!(files(&made(&temp, "other", &[])), before);
}

/// All that there is in German is German; what is not says so, and is marked for whoever reads it aloud.
#[test]
fn german_is_german() {
    let temp = TempDir::new("handbook-german");
    let pages = pages(&made(&temp, "book", &["--language", "de"]));
    for (page, text) in &pages {
        assert!(text.contains("<html lang=\"de\">") && text.contains("Das Handbuch"), "{page}");
        let english = ["album.html", "machine.html", "own-kinds.html"].contains(&page.as_str());
        assert_eq!(text.contains("<div lang=\"en\">"), english, "{page}");
        let partly = ["parts.html", "files.html", "messages.html", "commands.html"].contains(&page.as_str());
        assert_eq!(text.contains(" lang=\"en\">") && !english, partly, "{page}");
        assert_eq!(text.contains("class=\"other\""), english || partly, "{page}");
        assert!(!text.contains("page-book-") && !text.contains("caution-"), "{page} shows a key");
        if !english {
            let german = without_english(text);
            for word in ["The ", " the ", "What it", "Field", "Typed"] {
                assert!(!german.contains(word), "{page}: {word}");
            }
        }
    }
    assert!(pages["mind.html"].contains("Klinge") && pages["mind.html"].contains("Laser"));
    assert!(pages["parts.html"].contains("Blatt mit Tasche am Rücken") && pages["parts.html"].contains(">Einbände<"));
}

/// A page without what is marked as English, without pictures, code and the script's own words.
fn without_english(text: &str) -> String {
    let mut text = text.to_owned();
    for (open, close) in [
        ("<tbody lang=\"en\"", "</tbody>"),
        ("<pre class=\"answer\" tabindex=\"0\" lang=\"en\"", "</pre>"),
        ("<p lang=\"en\"", "</p>"),
        ("<svg", "</svg>"),
        ("<pre", "</pre>"),
        ("<code", "</code>"),
    ] {
        let mut rest = text.as_str();
        let mut kept = String::new();
        while let Some((before, from)) = rest.split_once(open) {
            kept.push_str(before);
            rest = from.split_once(close).unwrap().1;
        }
        kept.push_str(rest);
        text = kept;
    }
    text
}

/// The first chapter says the same commands in both languages, so that what runs in one runs in the other.
#[test]
fn the_first_kit_is_made_alike_in_german() {
    let temp = TempDir::new("handbook-first");
    let commands = |name: &str, more: &[&str]| -> BTreeSet<String> {
        let pages = pages(&made(&temp, name, more));
        let blocks: Vec<&str> =
            between(&pages["first-kit.html"], "<pre class=\"shell\" tabindex=\"0\"><code>", "</code>").collect();
        let lines = blocks.iter().flat_map(|block| block.lines());
        lines.filter(|line| line.starts_with("hingeleaf ")).map(str::to_owned).collect()
    };
    let (english, german) = (commands("en", &[]), commands("de", &["--language", "de"]));
    assert!(english.len() >= 10, "{english:?}");
    assert_eq!(german, english);
}
