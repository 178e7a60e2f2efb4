// SPDX-License-Identifier: MIT
//! Lists the built-in kinds that stand in kind files, when the program is built, so that such a kind is one file and nothing besides.

use std::fmt::Write as _;
use std::path::PathBuf;
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let folder = "src/parts/filed";
    println!("cargo::rerun-if-changed={folder}");
    println!("cargo::rerun-if-changed=src/parts/list_filed.rs");
    let variable = |name: &str| env::var_os(name).map(PathBuf::from).ok_or(io::ErrorKind::NotFound);
    let mut files: Vec<PathBuf> = fs::read_dir(variable("CARGO_MANIFEST_DIR")?.join(folder))?
        .map(|entry| entry.map(|entry| entry.path()))
        .collect::<io::Result<_>>()?;
    files.retain(|file| file.extension().is_some_and(|ending| ending == "json"));
    // Whatever order the disk has them in, the program is the same.
    files.sort();
    let mut list = String::from("[\n");
    for file in &files {
        let path = file.to_str().ok_or(io::ErrorKind::InvalidFilename)?;
        writeln!(list, "    include_str!({path:?}),").map_err(io::Error::other)?;
    }
    list.push_str("]\n");
    fs::write(variable("OUT_DIR")?.join("filed.rs"), list)
}
