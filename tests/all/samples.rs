// SPDX-License-Identifier: MIT
//! The pictures that README shows: what the program draws today, or says of which version it is; small enough to be looked at.
//!
//! `UPDATE_GOLDEN=1` draws those anew that the program draws by itself, and still fails. `guide-page.png` and
//! `all-kinds.png` are put together by other programs (`tests/outside/test_samples.py`); `table.png` is a browser's window.

use crate::common::{album, cutter, project};
use hingeleaf::cutter::Cutter;
use hingeleaf::folded;
#[cfg(feature = "png")]
use hingeleaf::guide::list;
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::picture::{self, Pose};
use hingeleaf::sheets::Search;
use hingeleaf::toolpath::Labels;
use hingeleaf::work::Work;
use hingeleaf::write;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;

/// No picture is so large that a slow line waits for it, bytes: our choice.
const LARGEST: usize = 400_000;

/// How far the leaves are fanned, degrees, as in the guide.
const FANNED: f64 = 62.0;

/// The album of the pictures, laid out as the command does it unasked.
fn work() -> Work {
    let text = fs::read_to_string(project().join("fixtures/tide-table.json")).unwrap();
    let search = Search { effort: Effort::Normal, trimmer: false, threads: 1 };
    Work::new(album(&text), Cutter::default(), Labels::default(), search, &Unwatched)
}

/// What the program draws by itself, by name.
fn drawn() -> BTreeMap<&'static str, Vec<u8>> {
    let work = work();
    let calipers: Vec<f64> = work.album.stocks.iter().map(|stock| stock.caliper.mm()).collect();
    let folded = folded::fold(&work.kit, &calipers);
    let fan = picture::album(&work.album, &work.kit, &folded, Pose::Fanned(FANNED), &|_| true, (110.0, 90.0));
    #[cfg_attr(not(feature = "png"), allow(unused_mut, reason = "without PNG nothing comes on top"))]
    let mut drawn = BTreeMap::from([
        ("tide-table-album.svg", write::drawing(&fan).into_bytes()),
        ("tide-table-section.svg", write::drawing(&work.cross_section().unwrap()).into_bytes()),
    ]);
    #[cfg(feature = "png")]
    {
        let rows = list::list(work.album.order(), &work.kit, 1);
        let letter = |part: usize| list::mark(&rows, part).to_owned();
        let mut sheets = work.stocks.iter().flat_map(|stock| stock.sheets.iter().map(|sheet| (stock.stock, sheet)));
        let (stock, sheet) = sheets.find(|(_, sheet)| sheet.name == "card-04").unwrap();
        let picture = picture::sheet(work.album.order(), &work.kit, stock, sheet, &letter);
        drawn.insert("tide-table-card-04.png", write::png(&picture).unwrap());
    }
    drawn
}

#[test]
fn the_pictures_are_what_the_program_draws() {
    let folder = project().join("fixtures/samples");
    let mut different = Vec::new();
    for (name, bytes) in drawn() {
        if fs::read(folder.join(name)).unwrap_or_default() != bytes {
            if std::env::var_os("UPDATE_GOLDEN").is_some() {
                fs::write(folder.join(name), bytes).unwrap();
            }
            different.push(name);
        }
    }
    assert!(different.is_empty(), "look at {different:?}, and write them anew with UPDATE_GOLDEN=1");
}

/// The pictures in a text of Markdown: what they show, and where they lie.
fn pictures(text: &str) -> Vec<(&str, &str)> {
    text.split("![").skip(1).filter_map(|rest| rest.split_once(')')?.0.split_once("](")).collect()
}

#[test]
fn readme_shows_what_comes_out() {
    let readme = fs::read_to_string(project().join("README.md")).unwrap();
    let shown = pictures(&readme);
    let names: BTreeSet<&str> = shown.iter().filter_map(|(_, to)| to.strip_prefix("fixtures/samples/")).collect();
    for name in [
        "tide-table-album.svg",
        "tide-table-card-04.png",
        "tide-table-section.svg",
        "guide-page.png",
        "table.png",
        "all-kinds.png",
    ] {
        assert!(names.contains(name), "README does not show {name}");
    }
    for (words, to) in &shown {
        let bytes = fs::read(project().join(to)).unwrap_or_default();
        assert!(!bytes.is_empty() && bytes.len() < LARGEST, "{to} has {} bytes", bytes.len());
        assert!(words.len() > 15, "{to} has no words for those who can't see it");
    }
    // What no test can draw says when it was taken; a new version wants new pictures.
    let version = format!("hingeleaf {}", env!("CARGO_PKG_VERSION"));
    let (_, behind) = readme.split_once("fixtures/samples/table.png)").unwrap();
    let caption = behind.trim_start().split("\n\n").next().unwrap();
    assert!(caption.contains(&version), "its caption does not say {version}: {caption}");
}

/// Another width is another drawing: what is compared is no constant.
#[test]
fn another_album_is_another_picture() {
    let text = fs::read_to_string(project().join("fixtures/tide-table.json")).unwrap();
    let other = text.replacen("\"width\": 148", "\"width\": 150", 1);
    assert_ne!(text, other);
    let section = |text: &str| {
        let work = Work::fit(album(text), cutter(0.0, 0.0, 0.0));
        write::drawing(&work.cross_section().unwrap())
    };
    let kept = fs::read_to_string(project().join("fixtures/samples/tide-table-section.svg")).unwrap();
    assert_eq!(section(&text), kept);
    assert_ne!(section(&other), kept);
}
