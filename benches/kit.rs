// SPDX-License-Identifier: MIT
//! How long the main job takes: `cargo bench --bench kit`. Prints the median of several runs, and for the program
//! as a whole its peak memory (Linux) and start-up time. Figures are for people to compare; nothing is asserted.

use hingeleaf::contour::{Contour, Point};
use hingeleaf::cutter::Cutter;
use hingeleaf::fields::Source;
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::length::Length;
use hingeleaf::sheets::Search;
use hingeleaf::toolpath::{Labels, Layer, SheetPaths, Stroke, StrokePath};
use hingeleaf::work::{Files, Work};
use hingeleaf::write::{self, Memory};
use hingeleaf::{album, parts, sizes};
use std::process::{Command, Stdio};
use std::time::Instant;

fn main() {
    let root = env!("CARGO_MANIFEST_DIR");
    let file = format!("{root}/fixtures/tide-table.json");
    let text = std::fs::read(&file).unwrap_or_default();
    let cutter = Cutter {
        kerf: Length::from_mm(0.1),
        gap: Length::from_mm(1.0),
        margin: Length::from_mm(3.0),
        ..Cutter::default()
    };
    let kit = |formats: &[&str]| {
        let Ok(source) = Source::new("tide-table.json", text.clone()) else { return };
        let Some(album) = album::read(&source, &parts::kinds()).value else { return };
        let search = Search { effort: Effort::Normal, trimmer: false, threads: 2 };
        let work = Work::new(album, cutter.clone(), Labels::Hidden, search, &Unwatched);
        let mut files = Memory::default();
        if work.write(&Files::of(formats), &mut files).is_err() || files.files.is_empty() {
            println!("the kit failed");
        }
    };
    timed("four pages, panels and tags: all but PNG", 15, || kit(&["svg", "dxf", "csv"]));
    if cfg!(feature = "png") {
        timed("the same with PNG", 5, || kit(&["svg", "dxf", "csv", "png"]));
    }
    if let Some(work) = worked_out(&text, &cutter) {
        timed("the guide alone, and its page", 15, || {
            println_if_empty(&write::guide(&hingeleaf::guide::guide(&work.guide_job(false))));
        });
    }
    if cfg!(feature = "pdf") {
        pages(root, &cutter);
    }
    let read = |text: &str| {
        let source = Source::new("album.json", text.into()).ok()?;
        album::read(&source, &parts::kinds()).value
    };
    let quick = Search { effort: Effort::Low, trimmer: false, threads: 1 };
    if let Some(album) = std::str::from_utf8(&text).ok().and_then(read) {
        let search = Search { effort: Effort::Normal, threads: 2, ..quick };
        let range = sizes::Range::usual(album.units);
        timed("which size of page: four pages, 169 sizes and some more", 5, || {
            if sizes::survey(&album, &cutter, search, &range, &Unwatched).own.is_none() {
                println!("the album does not go together");
            }
        });
    }
    let sheet = many_paths(100_000);
    timed("100,000 paths to SVG", 7, || println_if_empty(&write::svg("Many", &[], &sheet, &cutter)));
    timed("100,000 paths to DXF", 7, || println_if_empty(&write::dxf(&sheet, &cutter)));

    let fat = fat_album();
    timed("forty pages: read and checked, not laid out", 15, || {
        let Ok(source) = Source::new("forty.json", fat.clone().into_bytes()) else { return };
        let Some(album) = album::read(&source, &parts::kinds()).value else { return println!("forty pages: unread") };
        let work = Work::fit(album, cutter.clone());
        println_if_empty(if work.stopped() { "" } else { "it goes together" });
    });

    let program = env!("CARGO_BIN_EXE_hingeleaf");
    timed("starting the program", 15, || {
        let _ = Command::new(program).arg("--version").stdout(Stdio::null()).status();
    });
    peak_memory(program, &file);
}

/// All that is printed, with a job sheet, labels, card and teaching sheet.
fn pages(root: &str, cutter: &Cutter) {
    for (name, what) in [("tide-table", "all PDFs of four pages"), ("towpath-year", "all PDFs of 24 mixed pages")] {
        let text = std::fs::read(format!("{root}/fixtures/{name}.json")).unwrap_or_default();
        let Some(mut work) = worked_out(&text, cutter) else { continue };
        work.album.copies = work.album.copies.max(2);
        let files = Files { kit_card: true, teaching: true, ..Files::of(&["pdf"]) };
        timed(what, 7, || {
            let mut memory = Memory::default();
            if work.write(&files, &mut memory).is_err() || memory.files.len() < 6 {
                println!("{what}: only {} files", memory.files.len());
            }
        });
    }
}

/// The album laid for a trimmer, so that its guide has all there is.
fn worked_out(text: &[u8], cutter: &Cutter) -> Option<Work> {
    let source = Source::new("tide-table.json", text.to_vec()).ok()?;
    let album = album::read(&source, &parts::kinds()).value?;
    let search = Search { effort: Effort::Normal, trimmer: true, threads: 2 };
    Some(Work::new(album, cutter.clone(), Labels::Hidden, search, &Unwatched))
}

fn println_if_empty(text: &str) {
    if text.is_empty() {
        println!("nothing was written");
    }
}

fn timed(what: &str, runs: usize, mut run: impl FnMut()) {
    run();
    let mut times: Vec<f64> = (0..runs)
        .map(|_| {
            let begun = Instant::now();
            run();
            begun.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    times.sort_by(f64::total_cmp);
    println!("{what:<45} {:9.2} ms (from {:.2} to {:.2})", times[runs / 2], times[0], times[runs - 1]);
}

/// Forty pages of both kinds, with panels on every face and a tag in every pocket.
fn fat_album() -> String {
    let pages = [r#"{ "kind": "pocket" }"#, r#"{ "kind": "wallet", "pocket": 110, "overflap": 45 }"#].repeat(20);
    format!(
        r#"{{ "format": "hingeleaf-album/1",
          "stocks": {{ "card": {{ "sheet": "A3", "caliper": 0.35 }}, "paper": {{ "sheet": "12x12in", "caliper": 0.2 }} }},
          "page": {{ "width": 148, "height": 190 }}, "pages": [{}], "spine": {{ "kind": "flexi-hinge", "tab": 12 }},
          "panels": {{ "reveal": 3, "stock": "paper" }},
          "inserts": [{{ "kind": "tag", "width": 90, "height": 130, "count": 40 }}] }}"#,
        pages.join(", ")
    )
}

/// A sheet of small rounded rectangles.
fn many_paths(count: u32) -> SheetPaths {
    let stroke = |number: u32| {
        let (x, y) = (f64::from(number % 400) * 2.5, f64::from(number / 400) * 3.5);
        let corner = hingeleaf::contour::Corner::Rounded(0.4);
        let run = StrokePath::Closed(Contour::with_corners((x, y), (2.0, 3.0), [corner; 4]));
        Stroke { layer: Layer::Cut, part: 0, copy: number, fold: None, run }
    };
    let far = Point::new(1000.0, 900.0);
    SheetPaths {
        name: "many-01".into(),
        stock: 0,
        times: 1,
        width: far.x,
        height: far.y,
        behind: Vec::new(),
        register: Vec::new(),
        strokes: (0..count).map(stroke).collect(),
        seconds: None,
    }
}

/// The most memory that a run of the whole program takes, as the system's `time` tells it.
fn peak_memory(program: &str, album: &str) {
    let out = std::env::temp_dir().join(format!("hingeleaf-bench-{}", std::process::id()));
    let run = Command::new("/usr/bin/time")
        .args(["-f", "%M", program, "kit", album, "--kerf", "0.1", "--gap", "1", "--margin", "3", "--out"])
        .arg(&out)
        .output();
    let said = run.map(|run| String::from_utf8_lossy(&run.stderr).trim().lines().last().unwrap_or_default().to_owned());
    match said.as_deref().map(str::parse::<f64>) {
        Ok(Ok(kilobytes)) => {
            println!("{:<45} {:9.1} MiB", "peak memory of the program, PNG included", kilobytes / 1024.0);
        }
        _ => println!("peak memory: NOT MEASURED, it takes GNU time in /usr/bin/time"),
    }
    let _ = std::fs::remove_dir_all(out);
}
