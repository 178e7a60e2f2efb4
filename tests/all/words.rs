// SPDX-License-Identifier: MIT
//! The tables of sentences: whole, used, and free of words in the source that only an edited sentence could mend.

use crate::common::{files, project};
use hingeleaf::finding::{Arg, Said};
use hingeleaf::length::{Length, Units};
use hingeleaf::words::{Voice, faults, keys, say};
use std::collections::BTreeSet;

/// Every text in double quotes in the source.
fn quoted() -> BTreeSet<String> {
    let sources = files(&project().join("src"));
    let rust = sources.into_iter().filter(|(path, _)| path.extension().is_some_and(|ending| ending == "rs"));
    rust.flat_map(|(_, bytes)| {
        let text = String::from_utf8(bytes).unwrap();
        text.split('"').map(str::to_owned).collect::<Vec<_>>()
    })
    .collect()
}

#[test]
fn the_tables_can_be_read() {
    assert_eq!(faults(), Vec::<String>::new());
    let keys = keys();
    let distinct: BTreeSet<&str> = keys.iter().copied().collect();
    assert_eq!(distinct.len(), keys.len(), "a key stands twice");
}

#[test]
fn every_sentence_is_used() {
    let quoted = quoted();
    let keys = keys();
    let looked_up = |key: &&str| {
        // What is said about a field is looked up with the field's label.
        let about = key.strip_prefix("about-").is_some_and(|name| keys.contains(&format!("field-{name}").as_str()));
        let choice = key.strip_prefix("choice-").is_some_and(|word| quoted.contains(word));
        about || choice || key.starts_with("term-") || key.starts_with("field-")
    };
    let unused: Vec<&str> =
        keys.iter().copied().filter(|key| !looked_up(key)).filter(|key| !quoted.contains(*key)).collect();
    assert!(unused.is_empty(), "nothing says {unused:?}");
}

#[test]
fn every_sentence_that_is_said_is_there() {
    let keys: BTreeSet<&str> = keys().into_iter().collect();
    let mut said = 0;
    for (path, bytes) in files(&project().join("src")) {
        let text = String::from_utf8(bytes).unwrap_or_default();
        for key in text.split("Said::new(\"").skip(1) {
            let key = key.split('"').next().unwrap();
            said += 1;
            assert!(keys.contains(key), "{}: there are no words for {key:?}", path.display());
        }
    }
    assert!(said > 0);
}

/// At the page nobody types a command: what tells one to is worded otherwise there, or left out.
#[test]
fn the_page_names_no_command() {
    let typed = |text: &str| text.contains("--") || text.contains("hingeleaf ");
    let mut worded = 0;
    for table in ["common", "reading", "parts", "fit", "sheets", "page"] {
        let text = std::fs::read_to_string(project().join(format!("src/words/en/{table}.ftl"))).unwrap();
        let lines: Vec<&str> = text.lines().collect();
        for (at, line) in lines.iter().enumerate().filter(|(_, line)| typed(line)) {
            let otherwise: Vec<&str> = lines[at + 1..].iter().map(|line| line.trim_start()).collect();
            let otherwise = otherwise.iter().take_while(|line| line.starts_with('.'));
            // Only where a file is read is its text shown.
            let wanted = if table == "reading" { vec![".page =", ".shown ="] } else { vec![".page ="] };
            for (attribute, text) in wanted.into_iter().zip(otherwise.chain([&"nothing"; 2])) {
                assert!(text.starts_with(attribute) && !typed(text), "{table}: {line}");
            }
            worded += 1;
        }
    }
    assert!(worded > 3, "only {worded} sentences name a command");
}

#[test]
fn a_field_is_called_as_its_reader_knows_it() {
    let help = Said::new("list-and").with("these", Arg::field("overflap")).with("this", Arg::field("spine.lead_in"));
    assert_eq!(say(&help, Voice::File), "\"overflap\" and spine.lead_in");
    assert_eq!(say(&help, Voice::Page), "“closing flap” and “lead-in (clipped corner of the tab)” (the spine)");
    // The maker's own words are nobody's to change, whatever they look like.
    let own = Said::new("list-and").with("these", Arg::quoted("overflap")).with("this", "spine.lead_in");
    assert_eq!(say(&own, Voice::Page), "“overflap” and spine.lead_in");
    // Where the page shows the file's text, fields are called as they stand there.
    assert_eq!(say(&help, Voice::Shown), say(&help, Voice::File));
}

/// A table's own quotes are printed on the page; what stands in a place of it is not touched.
#[test]
fn quotes_of_a_table_are_printed_on_the_page() {
    let help = Said::new("weight-without-unit-help").with("figures", Arg::code("\"8\" "));
    assert_eq!(
        say(&help, Voice::File),
        "write \"\"8\"  gsm\", or pounds with their grade, for example \"65 lb cover\""
    );
    assert_eq!(say(&help, Voice::Page), "write “\"8\"  gsm”, or pounds with their grade, for example “65 lb cover”");
    let help = Said::new("not-json-bare-fraction-help").with("fraction", Arg::code("1/2"));
    assert_eq!(say(&help, Voice::Page), "write “1/2”");
    let file = Said::new("wrong-format-help").with("format", Arg::code("a/1"));
    assert_eq!(say(&file, Voice::Page), "write “format”: “a/1” if it is one");
}

#[test]
fn the_page_leaves_out_by_how_little_a_fraction_is_off() {
    let length = Arg::Length(Length::from_mm(148.0), Units::In);
    let said = Said::new("list-and").with("these", length).with("this", 2_usize);
    assert_eq!(say(&said, Voice::File), "5 53/64 in (0.03 mm over) and 2");
    assert_eq!(say(&said, Voice::Page), "5 53/64 in and 2");
}
