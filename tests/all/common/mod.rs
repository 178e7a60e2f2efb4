// SPDX-License-Identifier: MIT
//! What several test files share: albums from text, runs of the program, folders of their own.

pub(crate) mod broken_cutters;
pub(crate) mod golden;
pub(crate) mod instances;
pub(crate) mod strokes;
pub(crate) mod tried;
pub(crate) mod web;
pub(crate) mod wishes;

use hingeleaf::album::Album;
use hingeleaf::contour::Contour;
use hingeleaf::cutter::Cutter;
use hingeleaf::fields::Source;
use hingeleaf::finding::Finding;
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::length::Length;
use hingeleaf::parts::{self, Kit, Part};
use hingeleaf::sheets::Search;
use hingeleaf::toolpath::Labels;
use hingeleaf::work::Work;
use serde_json::Value;
use std::collections::BTreeMap;
use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::atomic::{AtomicU32, Ordering};

/// An inch in millimetres (exact since 1959).
pub(crate) const INCH: f64 = 25.4;

#[track_caller]
pub(crate) fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found} is not {expected} +- {tolerance}");
}

/// Findings as a failing test shows them.
pub(crate) fn said(findings: &[Finding]) -> String {
    let lines: Vec<String> = findings.iter().map(Finding::headline).collect();
    lines.join("\n")
}

/// An album from its text, which must be sound.
#[track_caller]
pub(crate) fn album(text: &str) -> Album {
    let source = Source::new("test.json", text.as_bytes().to_vec()).unwrap();
    let read = parts::read_album(&source, &mut kind_files);
    read.value.unwrap_or_else(|| panic!("{text}\n{}", said(&read.findings)))
}

/// The kind files that albums of `fixtures` name.
pub(crate) fn kind_files(name: &str) -> Result<Vec<Source>, Box<Finding>> {
    let path = project().join("fixtures").join(name);
    let named = |path: PathBuf| {
        let bytes = fs::read(&path).map_err(|_| parts::no_kind_files(name).unwrap_err())?;
        Source::new(&path.to_string_lossy(), bytes)
    };
    if path.is_dir() {
        files(&path)
            .into_keys()
            .filter(|file| file.extension().is_some_and(|ending| ending == "json"))
            .map(|file| named(path.join(file)))
            .collect()
    } else {
        Ok(vec![named(path)?])
    }
}

/// The parts of an album, which must be sound.
#[track_caller]
pub(crate) fn kit(text: &str) -> Kit {
    let made = parts::kit(&album(text), &Cutter::default());
    made.value.unwrap_or_else(|| panic!("{text}\n{}", said(&made.findings)))
}

#[track_caller]
pub(crate) fn part<'a>(kit: &'a Kit, id: &str) -> &'a Part {
    let ids: Vec<&str> = kit.parts.iter().map(|part| part.id.as_str()).collect();
    kit.parts.iter().find(|part| part.id == id).unwrap_or_else(|| panic!("no {id} in {ids:?}"))
}

/// An album laid out with little effort; it must go together.
#[track_caller]
pub(crate) fn work(text: &str, cutter: Cutter) -> Work {
    let search = Search { effort: Effort::Low, trimmer: false, threads: 1 };
    let work = Work::new(album(text), cutter, Labels::default(), search, &Unwatched);
    assert!(!work.stopped(), "{text}\n{}", said(&work.findings));
    work
}

pub(crate) fn cutter(kerf: f64, gap: f64, margin: f64) -> Cutter {
    let mm = Length::from_mm;
    Cutter { kerf: mm(kerf), gap: mm(gap), margin: mm(margin), ..Cutter::default() }
}

/// A contour's corners and bulges as plain numbers.
pub(crate) fn corners(contour: &Contour) -> Vec<[f64; 3]> {
    contour.vertices().iter().map(|vertex| [vertex.at.x, vertex.at.y, vertex.bulge]).collect()
}

/// A folder under the build's own, empty at first and taken away at the end of a test that passes.
#[derive(Debug)]
pub(crate) struct TempDir(PathBuf);

impl TempDir {
    pub(crate) fn new(name: &str) -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let number = COUNT.fetch_add(1, Ordering::Relaxed);
        let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}-{}-{number}", std::process::id()));
        let _ = fs::remove_dir_all(&path);
        fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    pub(crate) fn path(&self) -> &Path {
        &self.0
    }

    pub(crate) fn join(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }

    /// Writes a file into it.
    pub(crate) fn put(&self, name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
        let path = self.join(name);
        fs::write(&path, bytes).unwrap();
        path
    }

    /// The names in it, sorted.
    pub(crate) fn names(&self) -> Vec<String> {
        names(&self.0)
    }
}

impl Drop for TempDir {
    fn drop(&mut self) {
        if !std::thread::panicking() {
            let _ = fs::remove_dir_all(&self.0);
        }
    }
}

pub(crate) fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> =
        fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

/// Every file under a folder, by its path within it.
pub(crate) fn files(folder: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    fn walk(root: &Path, folder: &Path, into: &mut BTreeMap<PathBuf, Vec<u8>>) {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                walk(root, &path, into);
            } else {
                into.insert(path.strip_prefix(root).unwrap().to_path_buf(), fs::read(&path).unwrap());
            }
        }
    }
    let mut all = BTreeMap::new();
    walk(folder, folder, &mut all);
    all
}

/// How a run of the program ended and what it said.
#[derive(Debug)]
pub(crate) struct Run {
    pub code: i32,
    pub out: String,
    pub err: String,
}

impl Run {
    pub(crate) fn of(output: Output) -> Self {
        Self {
            code: output.status.code().expect("the program was ended by a signal"),
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
        }
    }

    /// What it wrote to standard output, as JSON.
    #[track_caller]
    pub(crate) fn json(&self) -> Value {
        serde_json::from_str(&self.out).unwrap_or_else(|error| panic!("{error}: {self:?}"))
    }
}

/// Runs the program.
pub(crate) fn hingeleaf<S: AsRef<OsStr>>(words: impl IntoIterator<Item = S>) -> Run {
    Run::of(Command::new(env!("CARGO_BIN_EXE_hingeleaf")).args(words).output().unwrap())
}

/// The project's own folder.
pub(crate) fn project() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Every album in `fixtures/`.
pub(crate) fn fixtures() -> Vec<PathBuf> {
    let mut found: Vec<PathBuf> = fs::read_dir(project().join("fixtures"))
        .map(|entries| entries.map(|entry| entry.unwrap().path()).collect())
        .unwrap_or_default();
    found.retain(|path| path.extension() == Some(OsStr::new("json")));
    found.sort();
    assert!(!found.is_empty(), "there are no fixtures");
    found
}

/// A check that can't run here says so loudly, and fails where nobody would read it.
pub(crate) fn not_run(why: &str) {
    eprintln!("\nNOT RUN: {why}\n");
    let allowed = std::env::var_os("HINGELEAF_ALLOW_SKIPS").is_some_and(|value| value == "1");
    let ci = std::env::var_os("CI").is_some();
    assert!(allowed && !ci, "NOT RUN: {why} (HINGELEAF_ALLOW_SKIPS=1 lets that pass, not in CI)");
}
