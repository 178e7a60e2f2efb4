// SPDX-License-Identifier: MIT
//! The list of libraries that `hingeleaf licences` prints is the true one, and every licence on it is permissive.

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

#[test]
fn the_list_of_libraries_is_true() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let tree = Command::new(env!("CARGO"))
        .current_dir(root)
        .args(["tree", "--locked", "--edges", "normal", "--prefix", "none", "--format", "{p}: {l}"])
        .output()
        .unwrap();
    assert!(tree.status.success(), "{}", String::from_utf8_lossy(&tree.stderr));
    let text = String::from_utf8(tree.stdout).unwrap();
    let mut lines: Vec<String> = text
        .lines()
        .map(|line| line.trim_end_matches(" (*)").replace(" (proc-macro)", ""))
        .filter(|line| !line.starts_with("hingeleaf "))
        .collect();
    lines.sort();
    lines.dedup();
    assert!(lines.len() > 20, "only {} libraries: the list can't be whole", lines.len());
    for line in &lines {
        let licence = line.split_once(": ").unwrap().1;
        // Of licences joined by OR one must do, of those joined by AND all.
        let fine = licence
            .replace('/', " OR ")
            .replace(['(', ')'], "")
            .split(" AND ")
            .all(|all| all.split(" OR ").any(|one| ALLOWED.contains(&one.trim())));
        assert!(fine, "a licence to look at: {line}");
    }
    let list = HEAD.to_owned() + &lines.join("\n") + "\n";
    let path = root.join("src/cli/libraries.txt");
    let written = std::fs::read_to_string(&path).unwrap_or_default();
    if written != list && std::env::var_os("UPDATE_GOLDEN").is_some() {
        std::fs::write(&path, &list).unwrap();
    }
    assert_eq!(written, list, "run again with UPDATE_GOLDEN=1 and look at what changes");
}
