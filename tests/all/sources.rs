// SPDX-License-Identifier: MIT
//! Where figures come from: `tests/check-values.md` has every check value and every work that a remark names, each with how it is
//! known, and nothing that no remark names.

use crate::common::{files, project};
use std::collections::{BTreeMap, BTreeSet};

/// Bodies whose standards are named by a number.
const BODIES: [&str; 9] = ["ISO", "ISO/IEC", "IEC", "ASME", "ANSI", "ASTM", "RFC", "WCAG", "TAPPI"];

/// One of these says how a figure is known.
const KNOWN: [&str; 6] = ["derived", "computed", "seen", "from memory", "common practice, no source", "our choice"];

/// The list: rows of four and of five cells, by the first.
#[derive(Debug, Default)]
struct SourceList {
    values: BTreeMap<String, Vec<String>>,
    works: BTreeMap<String, Vec<String>>,
}

impl SourceList {
    fn of(text: &str) -> Self {
        let mut list = Self::default();
        for line in text
            .lines()
            .filter(|line| line.starts_with("| ") && !line.starts_with("| id") && !line.starts_with("| work"))
        {
            let cells: Vec<String> = line.trim_matches('|').split('|').map(|cell| cell.trim().to_owned()).collect();
            let rows = if cells.len() == 4 { &mut list.values } else { &mut list.works };
            assert!(rows.insert(cells[0].clone(), cells).is_none(), "twice: {line}");
        }
        list
    }

    /// What is wrong with the rows themselves.
    fn faults(&self) -> Vec<String> {
        let mut faults = Vec::new();
        for (id, cells) in &self.values {
            let known = cells.last().unwrap();
            let says = KNOWN.iter().any(|word| known.contains(word));
            if cells.iter().any(String::is_empty) || !says {
                faults.push(format!("{id} does not say how it is known"));
            }
            faults
                .extend(self.unlisted(known).into_iter().map(|work| format!("{id} names {work}, which is not listed")));
        }
        for (work, cells) in &self.works {
            let year = cells.get(3).is_some_and(|year| is_year(year) || year == "from memory");
            if cells.len() != 5 || cells.iter().any(String::is_empty) || !year {
                faults.push(format!("{work} lacks title, body, year or clause"));
            }
        }
        faults
    }

    /// Works that a text names and the list does not have.
    fn unlisted(&self, text: &str) -> BTreeSet<String> {
        // A remark may say authors, title and year: then the year stands behind the title.
        let titled = |cells: &Vec<String>, work: &str| format!("{} {}", cells[1], cells[3]).ends_with(work);
        let known = |work: &str| self.works.iter().any(|(name, cells)| name.ends_with(work) || titled(cells, work));
        works(text).into_iter().filter(|work| !known(work)).collect()
    }
}

fn is_year(word: &str) -> bool {
    word.len() == 4 && word.parse::<u32>().is_ok_and(|year| (1800..2100).contains(&year))
}

/// The words of a text without what stands about them.
fn words(text: &str) -> Vec<&str> {
    text.split_whitespace().map(|word| word.trim_matches(|c: char| !c.is_alphanumeric())).collect()
}

/// Standards by body and number, and authors followed by a year: `ISO 216`, `Brodhead 1914`.
fn works(text: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for pair in words(text).windows(2) {
        let number = pair[1].split([':', '/', '\u{2019}']).next().unwrap_or_default();
        let numbered = number.contains(|c: char| c.is_ascii_digit());
        if BODIES.contains(&pair[0]) && numbered {
            found.insert(format!("{} {number}", pair[0]));
        }
        let author = pair[0].chars().next().is_some_and(char::is_uppercase) && pair[0].chars().all(char::is_alphabetic);
        if author && is_year(pair[1]) {
            found.insert(format!("{} {}", pair[0], pair[1]));
        }
    }
    found
}

/// Check values that a text names, `M4 to M8` as all of them.
fn ids(text: &str) -> BTreeSet<String> {
    let id = |word: &str| {
        let (letter, number) = word.split_at_checked(1)?;
        let number = (!number.is_empty() && number.len() <= 2).then(|| number.parse::<u32>().ok()).flatten()?;
        "BCDFGHKMPSTW".contains(letter).then(|| (letter.to_owned(), number))
    };
    let mut found = BTreeSet::new();
    let words: Vec<&str> = text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    for (place, word) in words.iter().enumerate() {
        let Some((letter, number)) = id(word) else { continue };
        let from = place.checked_sub(2).filter(|_| words[place - 1] == "to").and_then(|from| id(words[from]));
        let from = from.filter(|(other, _)| *other == letter).map_or(number, |(_, from)| from);
        found.extend((from..=number).map(|number| format!("{letter}{number}")));
    }
    found
}

/// The remarks of every source and test, by file, each run of lines as one.
fn remarks() -> BTreeMap<String, String> {
    let mut all = BTreeMap::new();
    for folder in ["src", "tests/all", "tests/outside", "benches"] {
        for (path, bytes) in files(&project().join(folder)) {
            let begins = match path.extension().and_then(|end| end.to_str()) {
                Some("rs" | "mjs" | "js") => "//",
                Some("py" | "ftl") => "#",
                _ => continue,
            };
            let remark = |line: &str| {
                let line = line.trim();
                line.starts_with(begins).then(|| line.trim_start_matches(['/', '!', '#', ':']).trim().to_owned())
            };
            let text = String::from_utf8(bytes).unwrap();
            let lines: Vec<String> = text.lines().map(|line| remark(line).unwrap_or_default()).collect();
            all.insert(format!("{folder}/{}", path.display()), lines.join(" "));
        }
    }
    assert!(all.len() > 500, "the sources were not found");
    all
}

#[test]
fn every_source_that_a_remark_names_is_listed() {
    let list = SourceList::of(include_str!("../check-values.md"));
    assert!(list.values.len() > 40 && list.works.len() > 30, "the list was not read");
    assert_eq!(list.faults(), [""; 0]);
    let (mut missing, mut named) = (Vec::new(), BTreeSet::new());
    for (file, text) in remarks() {
        let found = ids(&text);
        missing.extend(found.iter().filter(|id| !list.values.contains_key(*id)).map(|id| format!("{file}: {id}")));
        missing.extend(list.unlisted(&text).into_iter().map(|work| format!("{file}: {work}")));
        named.extend(found);
    }
    assert_eq!(missing, [""; 0], "to be entered in tests/check-values.md");
    // What another row reasons with is of use as well.
    named.extend(list.values.values().flat_map(|cells| ids(&cells[2..].join(" "))));
    let idle: Vec<_> = list.values.keys().filter(|id| !named.contains(*id)).collect();
    assert_eq!(idle, [""; 0], "no remark names these");
}

#[test]
fn a_missing_source_is_found() {
    let text = include_str!("../check-values.md");
    let list = SourceList::of(text);
    assert_eq!(
        ids("derived (C2, H5); see M4 to M6, `M10 10`"),
        ["C2", "H5", "M10", "M4", "M5", "M6"].map(Into::into).into()
    );
    assert_eq!(ids("A4 and 12 in, D2x, SRA3, H500"), BTreeSet::new());
    assert_eq!(
        works("(ISO 216; Bean & Brodhead, then Gomory 1961)"),
        ["ISO 216", "Gomory 1961"].map(Into::into).into()
    );
    assert_eq!(list.unlisted("by ISO 216, ISO 9999 and Brodhead 1914, Nobody 1914, the inch of 1959").len(), 2);
    let mut bare = SourceList::of(text);
    bare.values.get_mut("C4").unwrap()[3] = "everybody knows".into();
    bare.works.get_mut("ISO 216").unwrap()[3] = String::new();
    assert_eq!(bare.faults(), ["C4 does not say how it is known", "ISO 216 lacks title, body, year or clause"]);
    bare = SourceList::of(text);
    bare.works.remove("FEFCO/ESBO");
    bare.works.remove("ISO 1008");
    assert_eq!(bare.faults(), ["P1 names ISO 1008, which is not listed"]);
}
