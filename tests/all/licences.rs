// SPDX-License-Identifier: MIT
//! What `hingeleaf licences` prints: the true list of libraries, each under a permissive licence, with the text that it comes
//! under; the fonts' and the stroke letters' own.
//!
//! The texts are those that lie in the libraries' packages. Of licences that one may choose among, [`CHOICE`] says which is
//! taken; what else lies there (notices, authors) is printed, too.

use crate::common::{hingeleaf, project};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use std::process::Command;

const HEAD: &str = "The libraries that this program is made with, and their licences:\n\n";

/// Licences that ask for no more than a notice, and MPL-2.0 for libraries used as they are.
const ALLOWED: &[&str] = &[
    "MIT",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "ISC",
    "Zlib",
    "0BSD",
    "CC0-1.0",
    "Unlicense",
    "Unicode-3.0",
    "MPL-2.0",
    "BSL-1.0",
];

/// Of these the first that a library offers is the one it is used under; words by which its text is known.
const CHOICE: &[(&str, &str)] = &[
    ("MIT", "Permission is hereby granted, free of charge"),
    ("MIT-0", "Permission is hereby granted, free of charge"),
    ("Zlib", "This software is provided 'as-is'"),
    ("BSD-2-Clause", "Redistributions of source code must retain"),
    ("BSD-3-Clause", "Neither the name of"),
    ("ISC", "Permission to use, copy, modify, and"),
    ("Unicode-3.0", "UNICODE LICENSE V3"),
    ("BSL-1.0", "Boost Software License"),
    ("Apache-2.0", APACHE),
];

const APACHE: &str = "TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION";

/// What a file's name says of the licence in it.
const TAGS: &[(&str, &str)] = &[
    ("APACHE", "Apache-2.0"),
    ("MIT0", "MIT-0"),
    ("MIT", "MIT"),
    ("ZLIB", "Zlib"),
    ("0BSD", "0BSD"),
    ("BSD", "BSD-2-Clause"),
    ("WHATWG", "BSD-3-Clause"),
    ("CC0", "CC0-1.0"),
    ("BOOST", "BSL-1.0"),
    ("GPL", "GPL-2.0-only"),
    ("UNICODE", "Unicode-3.0"),
    ("UNLICENSE", "Unlicense"),
];

/// Before the libraries that a text is for.
const FOR: &str = "=== ";

/// A library that goes into the program.
#[derive(Clone, Debug)]
struct Library {
    /// Its name and version, `adler2 v2.0.1`.
    name: String,
    licence: String,
}

impl Library {
    /// What holds together of its licences, each with those that one may choose among.
    fn licences(&self) -> Vec<Vec<String>> {
        let plain = self.licence.replace('/', " OR ").replace(['(', ')'], "");
        plain.split(" AND ").map(|all| all.split(" OR ").map(|one| one.trim().to_owned()).collect()).collect()
    }

    /// The licences that it is used under, each with words of its text.
    fn used(&self) -> Vec<(&'static str, &'static str)> {
        let first = |of: &Vec<String>| {
            CHOICE.iter().find(|(name, _)| of.iter().any(|one| one == name)).unwrap_or_else(|| panic!("{self:?}"))
        };
        self.licences().iter().map(first).copied().collect()
    }
}

/// The libraries of a `cargo tree` of the lock file.
fn libraries() -> Vec<Library> {
    let tree = Command::new(env!("CARGO"))
        .current_dir(project())
        .args(["tree", "--locked", "--edges", "normal", "--prefix", "none", "--format", "{p}: {l}"])
        .output()
        .unwrap();
    assert!(tree.status.success(), "{}", String::from_utf8_lossy(&tree.stderr));
    let text = String::from_utf8(tree.stdout).unwrap();
    let lines: BTreeSet<String> = text
        .lines()
        .map(|line| line.trim_end_matches(" (*)").replace(" (proc-macro)", ""))
        .filter(|line| !line.starts_with("hingeleaf "))
        .collect();
    assert!(lines.len() > 20, "only {} libraries: the list can't be whole", lines.len());
    let library = |line: &String| {
        let (name, licence) = line.split_once(": ").unwrap();
        Library { name: name.to_owned(), licence: licence.to_owned() }
    };
    lines.iter().map(library).collect()
}

/// Where each package of the lock file lies, by name and version.
fn folders() -> BTreeMap<String, String> {
    let found = Command::new(env!("CARGO"))
        .current_dir(project())
        .args(["metadata", "--locked", "--format-version", "1"])
        .output()
        .unwrap();
    assert!(found.status.success(), "{}", String::from_utf8_lossy(&found.stderr));
    let found: Value = serde_json::from_slice(&found.stdout).unwrap();
    let word = |of: &Value, name: &str| of[name].as_str().unwrap().to_owned();
    let place = |of: &Value| (format!("{} v{}", word(of, "name"), word(of, "version")), word(of, "manifest_path"));
    found["packages"].as_array().unwrap().iter().map(place).collect()
}

/// The texts in a library's folder that go with it.
fn texts(library: &Library, folder: &Path) -> Vec<String> {
    const HEADS: [&str; 6] = ["LICENSE", "LICENCE", "COPYING", "COPYRIGHT", "NOTICE", "AUTHORS"];
    let used = library.used();
    let mut names: Vec<String> =
        fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    let wanted = |name: &&String| {
        let name = name.to_uppercase();
        let tag = TAGS.iter().find(|(tag, _)| name.contains(tag));
        HEADS.iter().any(|head| name.starts_with(head))
            && tag.is_none_or(|(_, licence)| used.iter().any(|(one, _)| one == licence))
    };
    names.iter().filter(wanted).map(|name| plain(&fs::read_to_string(folder.join(name)).unwrap())).collect()
}

/// A text as a terminal shows it: its lines, without what stands behind them.
fn plain(text: &str) -> String {
    let text = text.replace("\r\n", "\n").replace(['\r', '\u{c}'], "\n").replace('\t', "    ").replace('\u{feff}', "");
    let lines: Vec<&str> = text.lines().map(str::trim_end).collect();
    lines.join("\n").trim_matches('\n').to_owned() + "\n"
}

/// Every text once, with the libraries that it is for.
fn notices(libraries: &[Library]) -> String {
    let folders = folders();
    let mut by_text: Vec<(String, Vec<&str>)> = Vec::new();
    // The same words on other lines are the same text.
    let mut known: BTreeMap<Vec<String>, usize> = BTreeMap::new();
    let mut without = Vec::new();
    for library in libraries {
        let found = texts(library, Path::new(&folders[&library.name]).parent().unwrap());
        if found.is_empty() {
            without.push(library);
        }
        for text in found {
            let words = text.split_whitespace().map(str::to_owned).collect();
            let place = *known.entry(words).or_insert(by_text.len());
            if place == by_text.len() {
                by_text.push((text, Vec::new()));
            }
            by_text[place].1.push(&library.name);
        }
    }
    // A package without any text names licences whose text is the same for all: Apache-2.0 is.
    let (_, names) = by_text.iter_mut().find(|(text, _)| text.contains(APACHE)).unwrap();
    for library in without {
        assert!(library.licences().iter().flatten().any(|one| one == "Apache-2.0"), "no text for {library:?}");
        names.push(&library.name);
    }
    let mut all = String::from("The texts that these libraries come under, and their notices:\n");
    for (text, names) in by_text {
        all += &format!("\n{FOR}{}\n\n{text}", names.join(", "));
    }
    all
}

/// The libraries whose licence's text does not stand in what is printed.
fn missing(libraries: &[Library], printed: &str) -> Vec<String> {
    let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let begin = format!("\n{FOR}");
    let parts = printed.split(&begin).skip(1).filter_map(|part| part.split_once('\n'));
    let parts: Vec<(&str, String)> = parts.map(|(names, text)| (names, flat(text))).collect();
    let has = |library: &Library, words: &str| {
        let own = |names: &str| names.split(", ").any(|name| name == library.name);
        parts.iter().any(|(names, text)| own(names) && text.contains(words))
    };
    let lacks = |library: &&Library| {
        let all = library.used().iter().all(|(_, words)| has(library, words));
        let apache = library.licences().len() == 1 && library.licence.contains("Apache-2.0") && has(library, APACHE);
        !(all || apache)
    };
    libraries.iter().filter(lacks).map(|library| library.name.clone()).collect()
}

/// Holds a file to what it should say; `UPDATE_GOLDEN=1` writes it.
#[track_caller]
fn hold(name: &str, expected: &str) {
    let path = project().join("src/cli").join(name);
    let written = fs::read_to_string(&path).unwrap_or_default();
    if written != expected && std::env::var_os("UPDATE_GOLDEN").is_some() {
        fs::write(&path, expected).unwrap();
    }
    assert!(written == expected, "src/cli/{name}: run again with UPDATE_GOLDEN=1 and look at what changes");
}

#[test]
fn the_list_of_libraries_is_true() {
    let libraries = libraries();
    for library in &libraries {
        // Of licences joined by OR one must do, of those joined by AND all.
        let fine = library.licences().iter().all(|all| all.iter().any(|one| ALLOWED.contains(&one.as_str())));
        assert!(fine, "a licence to look at: {library:?}");
    }
    let lines: Vec<String> = libraries.iter().map(|one| format!("{}: {}", one.name, one.licence)).collect();
    hold("libraries.txt", &(HEAD.to_owned() + &lines.join("\n") + "\n"));
}

#[test]
fn every_library_has_its_text() {
    let libraries = libraries();
    hold("notices.txt", &notices(&libraries));
    let printed = hingeleaf(["licences"]);
    assert_eq!((printed.code, printed.err.as_str()), (0, ""));
    assert!(!printed.out.contains('\u{fffd}'), "a letter was lost");
    assert_eq!(missing(&libraries, &printed.out), [""; 0]);
    assert!(printed.out.contains(include_str!("../../src/cli/letters.txt")));
}

#[test]
fn a_missing_text_is_found() {
    let libraries = libraries();
    let printed = include_str!("../../src/cli/notices.txt");
    let (_, from) = printed.split_once(&format!("{FOR}arrayref")).unwrap();
    let (own, _) = from.split_once(&format!("\n{FOR}")).unwrap();
    // Without the text, without the name, with another licence's text.
    let without = printed.replace(own, "\n");
    assert_eq!(missing(&libraries, &without), ["arrayref v0.3.9"]);
    let without = printed.replace("encoding_rs v0.8.44", "another v0.8.44");
    assert_eq!(missing(&libraries, &without), ["encoding_rs v0.8.44"]);
    let new = Library { name: "new v1.0.0".into(), licence: "MIT".into() };
    assert_eq!(missing(&[new], printed), ["new v1.0.0"]);
}

/// The fonts carry their licence in themselves (name 13 of a font's names, ISO/IEC 14496-22); what is printed is all of it.
#[cfg(feature = "pdf")]
#[test]
fn the_fonts_licence_is_the_one_in_the_fonts() {
    let printed = include_str!("../../src/write/font/LICENCE.txt");
    for font in [&include_bytes!("../../src/write/font/sans.ttf")[..], include_bytes!("../../src/write/font/bold.ttf")]
    {
        let face = ttf_parser::Face::parse(font, 0).unwrap();
        let name = |id| face.names().into_iter().filter(|name| name.name_id == id).find_map(|name| name.to_string());
        let own = name(ttf_parser::name_id::LICENSE).unwrap();
        assert!(own.contains("Bitstream") && own.contains("Tavmjong Bah"), "two notices");
        assert!(printed.ends_with(&plain(&own)), "the licence in the font is another one");
    }
    assert!(hingeleaf(["licences"]).out.contains(printed));
}
