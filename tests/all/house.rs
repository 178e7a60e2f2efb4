// SPDX-License-Identifier: MIT
//! The house rules of the source: which stage may name which, how a file opens, how long it may be.

use crate::common::{files, project};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// The stages; each may name only those before it.
const ORDER: [&str; 39] = [
    "length",
    "exact",
    "finding",
    "words",
    "fields",
    "contour",
    "outline",
    "paper",
    "cutter",
    "raster",
    "stock",
    "selling",
    "drawer",
    "kind_file",
    "usable",
    "album",
    "net",
    "parts",
    "trial",
    "batch",
    "folded",
    "fit",
    "layout",
    "sheets",
    "sizes",
    "toolpath",
    "coupon",
    "cost",
    "picture",
    "guide",
    "templates",
    "labels",
    "prepress",
    "editions",
    "write",
    "work",
    "kind_trial",
    "mend",
    "table",
];

/// Stages that may name even less.
const ONLY: [(&str, &[&str]); 1] = [("layout", &["length", "contour"])];

/// A file that is longer is telling something.
pub(crate) const LONGEST: usize = 350;

/// Longer files, none of them over 500 lines, and why they are one.
const LONGER: [(&str, &str); 5] = [
    ("guide/trimmer.rs", "one plan, made cut by cut: every step needs what the others keep of the sheet"),
    ("parts/covers/case.rs", "a kind is a file: its figure, its fields, its pieces, what of its sizes can't be"),
    ("parts/covers/wrap.rs", "a kind is a file: its figure, its fields, its pieces, what of its sizes can't be"),
    ("parts/kit.rs", "what a kit is made of, type by type, next to no code"),
    ("write/proof/tests.rs", "the faults that the proof must find, one after the other"),
];

/// Every Rust file under src, by its path in it.
fn sources() -> BTreeMap<String, String> {
    let found: BTreeMap<String, String> = files(&project().join("src"))
        .into_iter()
        .filter(|(path, _)| path.extension().is_some_and(|ending| ending == "rs"))
        .map(|(path, bytes)| (path.to_str().unwrap().replace('\\', "/"), String::from_utf8(bytes).unwrap()))
        .collect();
    assert!(found.len() > 30, "src was not found");
    found
}

/// The stage that a file belongs to.
fn stage(path: &str) -> &str {
    Path::new(path).iter().next().unwrap().to_str().unwrap().trim_end_matches(".rs")
}

/// The stages that a file names: `crate::stage`, each in a list `crate::{stage, …}`, or by the way up and over.
fn named(path: &str, text: &str) -> Vec<String> {
    let up = match path.split('/').collect::<Vec<_>>()[..] {
        [_] | [_, "mod.rs"] => "super::",
        _ => "super::super::",
    };
    let mut found = Vec::new();
    for line in text.lines().filter(|line| !line.trim_start().starts_with("//")) {
        for after in line.split("crate::").skip(1).chain(line.split(up).skip(1)) {
            let list = after.strip_prefix('{').map_or(after, |list| list.split('}').next().unwrap_or(list));
            let count = if after.starts_with('{') { usize::MAX } else { 1 };
            found.extend(list.split(',').take(count).filter_map(|one| {
                let word = one.trim().split(|c: char| !c.is_alphanumeric() && c != '_').next()?;
                ORDER.contains(&word).then(|| word.to_owned())
            }));
        }
    }
    found
}

#[test]
fn a_stage_names_only_the_stages_before_it() {
    let mut checked = 0;
    for (path, text) in sources() {
        let Some(at) = ORDER.iter().position(|name| *name == stage(&path)) else { continue };
        let only = ONLY.iter().find(|(name, _)| *name == ORDER[at]).map_or(&ORDER[..at], |(_, only)| *only);
        for name in named(&path, &text).into_iter().filter(|name| *name != ORDER[at]) {
            assert!(only.contains(&name.as_str()), "src/{path} names {name}, and may name only {only:?}");
            checked += 1;
        }
    }
    assert!(checked > 50, "only {checked} imports were found");
}

/// All who try an album with another size, count or text try it alike: `trial` alone makes parts of an album, and its later
/// answers stand in the rooms that know them.
#[test]
fn albums_are_tried_in_one_place() {
    let mut calls = BTreeSet::new();
    for (path, text) in sources() {
        for line in without_tests(&text).lines().filter(|line| !line.trim_start().starts_with("//")) {
            if ["parts::kit(", "fit::check(", "sheets::tally("].into_iter().any(|call| line.contains(call)) {
                calls.insert(path.clone());
            }
        }
    }
    assert_eq!(calls, BTreeSet::from(["trial.rs".to_owned()]));
}

/// Nothing is built beside the list: a stage is in the order, or it is a root file or the command line.
#[test]
fn every_stage_has_its_place_in_the_order() {
    for path in sources().keys() {
        let stage = stage(path);
        assert!(ORDER.contains(&stage) || ["lib", "main", "cli"].contains(&stage), "src/{path} has no place");
    }
}

/// The library never asks for the command line, and only the two ends touch files: `cli` reads, `write` writes.
#[test]
fn only_the_ends_touch_files_and_the_screen() {
    // One file is no part of the program: it runs when that is built.
    let script = "parts/list_filed.rs";
    assert!(include_str!("../../Cargo.toml").contains(&format!("build = \"src/{script}\"")));
    for (path, text) in sources().into_iter().filter(|(path, _)| path != script) {
        let stage = stage(&path);
        let code: Vec<&str> = text.lines().filter(|line| !line.trim_start().starts_with("//")).collect();
        let says = |word: &str| code.iter().any(|line| line.contains(word));
        if !["cli", "write", "main", "table"].contains(&stage) {
            assert!(!says("std::fs") && !says("println!") && !says("std::process"), "src/{path} touches the outside");
        }
        // The page's server answers from what it was given.
        if stage == "table" {
            assert!(
                !says("std::fs") && !says("tokio::fs") && !says("println!"),
                "src/{path} touches files or the screen"
            );
        }
        if !["cli", "main", "table"].contains(&stage) {
            assert!(!says("SystemTime") && !says("Instant::now"), "src/{path} looks at the clock");
            assert!(!says("HashMap") && !says("HashSet"), "src/{path}: the order of a hash map is not ours to know");
        }
    }
}

#[test]
fn every_file_opens_with_its_licence_and_says_what_it_is() {
    for (path, text) in sources() {
        let mut lines = text.lines();
        assert_eq!(lines.next(), Some("// SPDX-License-Identifier: MIT"), "src/{path}");
        assert!(lines.next().is_some_and(|line| line.starts_with("//! ")), "src/{path} does not say what it is");
    }
}

/// Ends of the names of files that somebody wrote and that have remarks; those without an end are scripts.
const WRITTEN: [&str; 9] = ["rs", "py", "mjs", "js", "css", "html", "ftl", "svg", ""];

/// Those that don't say their licence in their first lines, where it belongs: behind what must be the first.
fn without_licence(files: &BTreeMap<PathBuf, Vec<u8>>) -> Vec<&Path> {
    let written = |path: &Path| WRITTEN.iter().any(|end| path.extension().unwrap_or_default() == *end);
    let says = |bytes: &[u8]| {
        String::from_utf8_lossy(bytes).lines().take(2).any(|line| line.contains("SPDX-License-Identifier: MIT"))
    };
    files.iter().filter(|(path, bytes)| written(path) && !says(bytes)).map(|(path, _)| path.as_path()).collect()
}

#[test]
fn sources_scripts_styles_and_pages_say_their_licence() {
    for (folder, least) in [("src", 500), ("tests", 100), ("benches", 5), (".ci", 1)] {
        let mut found = files(&project().join(folder));
        // What other programs leave there.
        found.retain(|path, _| !path.iter().any(|part| part == "__pycache__" || part == "node_modules"));
        assert!(found.len() >= least, "{folder} was not found");
        let without = without_licence(&found);
        assert!(without.is_empty(), "in {folder}: {without:?}");
    }
    let one = |name: &str, text: &str| BTreeMap::from([(PathBuf::from(name), text.as_bytes().to_vec())]);
    for name in ["new.rs", "look.css", "page.js", "page.html", "words.ftl", "run", "icon.svg", "test_x.py"] {
        assert_eq!(without_licence(&one(name, "x\n")), [Path::new(name)]);
        assert!(without_licence(&one(name, "x\n# SPDX-License-Identifier: MIT\n")).is_empty(), "{name}");
    }
    assert!(without_licence(&one("starter.json", "{}")).is_empty(), "JSON has no remarks");
}

#[test]
fn no_file_is_too_long_without_a_reason() {
    let longer: BTreeMap<&str, &str> = LONGER.into();
    for (path, text) in sources() {
        let lines = text.lines().count();
        assert!(lines <= 500, "src/{path} has {lines} lines: it holds more than one thing");
        let known = longer.contains_key(path.as_str());
        assert!(
            lines <= LONGEST || known,
            "src/{path} has {lines} lines: it holds more than one thing, or say why not"
        );
        assert!(lines > LONGEST || !known, "src/{path} needs no reason any more");
    }
}

/// What is taken for the same has a name, a unit and a reason, and what is said of `length::tolerance` is said there alone.
#[test]
fn tolerances_have_names() {
    let mut named: BTreeMap<String, (String, String)> = BTreeMap::new();
    let sources = sources();
    for (path, text) in sources.iter().filter(|(path, _)| !path.ends_with("tests.rs")) {
        for line in without_tests(text).lines().filter(|line| !line.trim_start().starts_with("//")) {
            let constant = line.split_once("const ").and_then(|(_, constant)| constant.split_once(": "));
            let Some((name, (_, value))) = constant.and_then(|(name, rest)| Some((name, rest.split_once(" = ")?)))
            else {
                assert!(!has_small_number(line), "src/{path}: a tolerance without a name: {line}");
                continue;
            };
            if !has_small_number(value) || path.starts_with("layout") {
                continue;
            }
            if let Some((file, before)) = named.insert(name.to_owned(), (path.clone(), value.to_owned())) {
                assert_eq!(before, value, "{name} is one thing in src/{file} and another in src/{path}");
            }
        }
    }
    assert!(named.len() > 10, "only {} tolerances were found", named.len());
}

/// Whether a line holds a number like 1e-6.
fn has_small_number(line: &str) -> bool {
    let digit = |byte: Option<&u8>| byte.is_some_and(u8::is_ascii_digit);
    let bytes = line.as_bytes();
    line.match_indices("e-").any(|(at, _)| at > 0 && digit(bytes.get(at - 1)) && digit(bytes.get(at + 2)))
}

/// Imports run one way between files, inside rooms too. A room's `mod.rs` is a file like others, but what it only hands on
/// (`pub use`) counts as taken from where it stands.
#[test]
fn files_do_not_import_each_other_in_circles() {
    let found: Vec<String> = circles(&imports(&sources())).iter().map(|circle| circle.join(", ")).collect();
    assert!(found.is_empty(), "files of src/ import each other in circles:\n{}", found.join("\n"));
}

/// The reading of imports and the search for circles, on a room made up for it.
#[test]
fn a_circle_of_files_is_found() {
    let room = |middle: &str| {
        BTreeMap::from([
            ("a/mod.rs".to_owned(), "mod one;\nmod two;\npub use two::{Two, three::Three as Far};\n".to_owned()),
            ("a/one.rs".to_owned(), "// crate::a::two\nuse crate::{\n    a::Far,\n    b,\n};\n".to_owned()),
            ("a/two/mod.rs".to_owned(), "pub mod three;\npub struct Two;\n".to_owned()),
            ("a/two/three.rs".to_owned(), middle.to_owned()),
            ("b.rs".to_owned(), String::new()),
        ])
    };
    let found = |middle: &str| circles(&imports(&room(middle)));
    assert_eq!(imports(&room(""))["a/one.rs"], ["a/two/three.rs", "b.rs"].map(str::to_owned).into());
    assert!(found("use super::Two;").is_empty());
    assert_eq!(found("fn f() { super::super::one::f() }"), [["a/one.rs", "a/two/three.rs"]]);
    // A module of the file's own, named in passing; and tests within a file, which see what is above them.
    let mut passing = room("use super::super::two::Two;");
    passing.insert("a/two/mod.rs".to_owned(), "pub mod three;\npub struct Two(three::Three);\n".to_owned());
    assert_eq!(circles(&imports(&passing)), [["a/two/mod.rs", "a/two/three.rs"]]);
    passing.insert("a/two/three.rs".to_owned(), "#[cfg(test)]\nmod tests {\n    use super::*;\n}\n".to_owned());
    assert!(circles(&imports(&passing)).is_empty());
}

/// One word, one thing: a type that others than its file can name shares its name with none.
#[test]
fn no_two_types_share_a_name() {
    let found = shared_names(&sources());
    assert!(found.is_empty(), "types of src/ share a name though they are two things:\n{}", found.join("\n"));
}

/// The reading of types, on a room made up for it.
#[test]
fn a_shared_name_is_found() {
    let room = |one: &str, two: &str| {
        BTreeMap::from([("a.rs".to_owned(), one.to_owned()), ("b/c.rs".to_owned(), two.to_owned())])
    };
    let found = |one: &str, two: &str| shared_names(&room(one, two)).len();
    assert_eq!(found("pub struct Row;\n", "fn f() {\n    struct Row<'a>(&'a str);\n}\n"), 1);
    assert_eq!(found("words! {\n    pub(in crate::a) enum Row { A = \"a\" }\n}\n", "type Row = u8;\n"), 1);
    assert_eq!(found("pub(crate) trait Row {}\n", "pub(super) struct Row {\n"), 1);
    // Two files' own; what a trait calls a type of its own; a longer name; a comment; what tests have.
    assert_eq!(found("struct Row;\n", "struct Row;\n"), 0);
    assert_eq!(found("pub struct Row;\n", "impl A for B {\n    type Row = u8;\n}\n"), 0);
    assert_eq!(found("pub struct Row;\n", "pub struct Rows;\n// struct Row\n"), 0);
    assert_eq!(found("pub struct Row;\n", "#[cfg(test)]\nmod tests {\n    struct Row;\n}\n"), 0);
}

/// Names that two types of the sources have, unless each is known in its own file alone; with the files.
fn shared_names(sources: &BTreeMap<String, String>) -> Vec<String> {
    let mut types: BTreeMap<&str, Vec<(&str, bool)>> = BTreeMap::new();
    for (path, text) in sources {
        for line in without_tests(text).lines() {
            let public = line.trim_start().starts_with("pub");
            let mut words = line.split_whitespace().skip_while(|word| word.starts_with("pub") || word.ends_with(')'));
            let is_type = match words.next() {
                Some("struct" | "enum" | "trait") => true,
                // Types within others belong to a trait.
                Some("type") => !line.starts_with(' '),
                _ => false,
            };
            let name = words.next().and_then(|word| word.split(|c: char| !c.is_alphanumeric()).next());
            if let Some(name) = name.filter(|_| is_type) {
                types.entry(name).or_default().push((path, public));
            }
        }
    }
    let shared = types.into_iter().filter(|(_, of)| of.len() > 1 && of.iter().any(|(_, public)| *public));
    shared
        .map(|(name, of)| format!("{name}: {}", of.iter().map(|(path, _)| *path).collect::<Vec<_>>().join(", ")))
        .collect()
}

/// The place of a file among the modules: `parts/build.rs` is `parts::build`, `parts/mod.rs` is `parts`.
fn module(path: &str) -> Vec<&str> {
    let path = path.trim_end_matches(".rs");
    path.split('/').filter(|part| !["mod", "lib", "main"].contains(part)).collect()
}

/// By file, the files that it imports from.
fn imports(sources: &BTreeMap<String, String>) -> BTreeMap<String, BTreeSet<String>> {
    let by_module: BTreeMap<String, &str> =
        sources.keys().filter(|path| *path != "main.rs").map(|path| (module(path).join("::"), path.as_str())).collect();
    let mut handed_on: BTreeMap<(String, String), Vec<String>> = BTreeMap::new();
    let mut taken: Vec<(&str, Vec<String>)> = Vec::new();
    for (path, text) in sources {
        for Import { names, name, public } in imports_of(path, text, &by_module) {
            if public {
                handed_on.insert((path.clone(), name), names);
            } else {
                taken.push((path, names));
            }
        }
    }
    let mut found: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for (path, mut names) in taken {
        // A name that is handed on in a circle of `pub use` does not compile.
        let from = loop {
            let Some(count) = (0..=names.len()).rev().find(|&n| by_module.contains_key(&names[..n].join("::"))) else {
                break None;
            };
            let file = by_module[&names[..count].join("::")];
            let next = names.get(count).and_then(|name| handed_on.get(&(file.to_owned(), name.clone())));
            let Some(next) = next else { break Some(file) };
            names = next.iter().chain(&names[count + 1..]).cloned().collect();
        };
        if let Some(from) = from.filter(|from| *from != path) {
            found.entry(path.to_owned()).or_default().insert(from.to_owned());
        }
    }
    found
}

/// A path of names from the crate's root, what it is called from here on, and whether that is handed on to others.
struct Import {
    names: Vec<String>,
    name: String,
    public: bool,
}

/// A file without the tests that stand at its end: they see what is above them.
fn without_tests(text: &str) -> &str {
    text.split("#[cfg(test)]\nmod tests {").next().unwrap_or_default()
}

/// What a file names of the crate, in `use` or in passing: `crate::…`, `super::…`, `self::…`, `child::…`.
fn imports_of(path: &str, text: &str, by_module: &BTreeMap<String, &str>) -> Vec<Import> {
    let text = without_tests(text);
    let lines = text.lines().filter(|line| !line.trim_start().starts_with("//"));
    let text: String = lines.collect::<Vec<_>>().join("\n");
    let word = |c: char| c.is_alphanumeric() || c == '_';
    let own: Vec<String> = module(path).into_iter().map(str::to_owned).collect();
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(next) = text[at..].find("::") {
        let (before, mut rest) = (&text[at..at + next], &text[at + next + 2..]);
        let start = before.rfind(|c| !word(c)).map_or(0, |place| place + 1);
        let (statement, first) = (before[..start].trim_end(), &before[start..]);
        let in_use = statement.ends_with("use");
        let mut base = own.clone();
        match first {
            "crate" | "hingeleaf" => base.clear(),
            "self" => {}
            "super" => {
                base.pop();
                while let Some(above) = rest.strip_prefix("super::") {
                    base.pop();
                    rest = above;
                }
            }
            child if by_module.contains_key(&[&own[..], &[child.to_owned()]].concat().join("::")) => {
                base.push(child.to_owned());
            }
            _ => {
                at += next + 2;
                continue;
            }
        }
        let statement = statement.rsplit([';', '}']).next().unwrap_or_default();
        let public = in_use && statement.split_whitespace().any(|word| word.starts_with("pub"));
        rest = names(rest, &base, &mut |names, name| found.push(Import { names, name, public }));
        at = text.len() - rest.len();
    }
    found
}

/// Reads `a::{b, c::d as e}`; returns what comes after it.
fn names<'t>(text: &'t str, base: &[String], found: &mut dyn FnMut(Vec<String>, String)) -> &'t str {
    let text = text.trim_start();
    if let Some(mut list) = text.strip_prefix('{') {
        loop {
            list = list.trim_start_matches(|c: char| c.is_whitespace() || c == ',');
            if let Some(after) = list.strip_prefix('}') {
                return after;
            }
            let after = names(list, base, found);
            if after.len() == list.len() {
                return after;
            }
            list = after;
        }
    }
    let end = text.find(|c: char| !c.is_alphanumeric() && c != '_').unwrap_or(text.len());
    let (word, rest) = text.split_at(end);
    let names_so_far = [base, &[word.to_owned()]].concat();
    if let Some(rest) = rest.strip_prefix("::") {
        return names(rest, &names_so_far, found);
    }
    if let Some(renamed) = rest.strip_prefix(" as ") {
        let end = renamed.find(|c: char| !c.is_alphanumeric() && c != '_').unwrap_or(renamed.len());
        found(names_so_far, renamed[..end].to_owned());
        return &renamed[end..];
    }
    found(names_so_far, word.to_owned());
    rest
}

/// All files that a file reaches by its imports.
fn reached<'a>(from: &'a str, imports: &'a BTreeMap<String, BTreeSet<String>>) -> BTreeSet<&'a str> {
    let mut reached = BTreeSet::new();
    let mut open: Vec<&str> = vec![from];
    while let Some(file) = open.pop() {
        let next = imports.get(file).into_iter().flatten().map(String::as_str);
        open.extend(next.filter(|next| reached.insert(*next)));
    }
    reached
}

/// Files that reach themselves by their imports, those together that reach each other.
pub(crate) fn circles(imports: &BTreeMap<String, BTreeSet<String>>) -> Vec<Vec<String>> {
    let reached: BTreeMap<&str, BTreeSet<&str>> =
        imports.keys().map(|file| (file.as_str(), reached(file, imports))).collect();
    let mut circles: Vec<Vec<String>> = Vec::new();
    for (file, from_here) in reached.iter().filter(|(file, from_here)| from_here.contains(*file)) {
        let circle: Vec<String> = from_here
            .iter()
            .filter(|other| reached.get(*other).is_some_and(|back| back.contains(file)))
            .map(|&other| other.to_owned())
            .collect();
        if !circles.contains(&circle) {
            circles.push(circle);
        }
    }
    circles
}
