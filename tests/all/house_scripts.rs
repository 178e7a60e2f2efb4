// SPDX-License-Identifier: MIT
//! The house rules of the page's script: which file may import which, how long it may be, that each is part of the program.

use crate::common::{files, project};
use crate::house::{LONGEST, circles};
use std::collections::{BTreeMap, BTreeSet};

/// Every script of the page, by its name.
fn scripts() -> BTreeMap<String, String> {
    let found: BTreeMap<String, String> = files(&project().join("src/table/page"))
        .into_iter()
        .filter(|(path, _)| path.extension().is_some_and(|ending| ending == "js"))
        .map(|(path, bytes)| (path.to_str().unwrap().to_owned(), String::from_utf8(bytes).unwrap()))
        .collect();
    assert!(found.len() > 30, "the page was not found");
    found
}

/// By script, those that it imports or hands on.
fn imports(scripts: &BTreeMap<String, String>) -> BTreeMap<String, BTreeSet<String>> {
    let of = |text: &str| {
        let lines = text.lines().filter(|line| line.starts_with("import ") || line.starts_with("export {"));
        let named = lines.filter_map(|line| line.split("\"./").nth(1)?.split('"').next());
        named.map(str::to_owned).collect()
    };
    scripts.iter().map(|(name, text)| (name.clone(), of(text))).collect()
}

#[test]
fn scripts_do_not_import_each_other_in_circles() {
    let imports = imports(&scripts());
    assert!(imports["main.js"].len() > 10, "imports were not found");
    for (script, named) in &imports {
        for other in named {
            assert!(imports.contains_key(other), "{script} imports {other}, which is not there");
        }
    }
    assert!(circles(&imports).is_empty(), "{:?}", circles(&imports));
}

#[test]
fn a_circle_of_scripts_is_found() {
    let one = ("one.js".to_owned(), "import { two } from \"./two.js\";\n".to_owned());
    let two = |text: &str| imports(&[one.clone(), ("two.js".to_owned(), text.to_owned())].into());
    assert_eq!(circles(&two("export { one } from \"./one.js\";\n")), [["one.js", "two.js"]]);
    assert!(circles(&two("// one.js\nconst two = \"./one.js\";\n")).is_empty());
}

#[test]
fn no_script_is_too_long() {
    for (name, text) in scripts() {
        assert!(text.lines().count() <= LONGEST, "{name} holds more than one thing");
    }
}

#[test]
fn every_script_is_part_of_the_program_and_reached_from_the_page() {
    let scripts = scripts();
    let assets = std::fs::read_to_string(project().join("src/table/assets.rs")).unwrap();
    let imports = imports(&scripts);
    for name in scripts.keys() {
        assert!(assets.contains(&format!("\"page/{name}\"")), "{name} is not served");
        assert!(name == "main.js" || imports.values().any(|of| of.contains(name)), "nothing imports {name}");
    }
}
