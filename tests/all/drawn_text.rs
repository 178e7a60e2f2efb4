// SPDX-License-Identifier: MIT
//! Words that a machine draws: those that are asked for, as they are read on the side that they are drawn on, clear of scores and cuts by
//! the pen's width, inside their part; told where they do not fit.

use crate::common::broken_cutters::{BrokenCutter, broken_cutters_are_answered};
use crate::common::instances::Dice;
use crate::common::{album, cutter, said};
use hingeleaf::contour::{Contour, Edge, Point, turned};
use hingeleaf::cutter::{Cutter, DrawnText, TextSide, Writing};
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::length::Length;
use hingeleaf::sheets::Search;
use hingeleaf::toolpath::{Labels, Layer, Stroke, StrokePath, back, lettering};
use hingeleaf::work::Work;
use std::collections::{BTreeMap, BTreeSet};

/// Pockets with papers on their faces, a hinge, a tag with round corners and a hole.
const PAPERED: &str = r#"{
    "format": "hingeleaf-album/1", "title": "Fächer",
    "stocks": { "card": { "sheet": "A4", "caliper": 0.3 }, "paper": { "sheet": "A4", "caliper": 0.2 } },
    "page": { "width": 120, "height": 150, "seam": 14, "stock": "card" },
    "pages": [{ "kind": "pocket" }, { "kind": "wallet", "pocket": 80, "overflap": 40 }, { "kind": "pocket" }],
    "panels": { "reveal": 3, "stock": "paper" },
    "inserts": [{ "kind": "tag", "width": 70, "height": 100, "hole": 5, "corner": 8 }]
}"#;

fn made(text: &str, writing: Writing, labels: Labels) -> Work {
    let search = Search { effort: Effort::Low, trimmer: false, threads: 1 };
    let work = Work::new(album(text), Cutter { writing, ..cutter(0.1, 1.0, 3.0) }, labels, search, &Unwatched);
    assert!(!work.stopped(), "{}", said(&work.findings));
    work
}

fn writing(text: DrawnText, side: TextSide, pen: f64) -> Writing {
    Writing { text, side, pen: Length::from_mm(pen) }
}

type Lines = Vec<Vec<Point>>;

/// What is drawn on each copy of a part, in the part's frame as seen from the front.
fn drawn(work: &Work, behind: bool) -> BTreeMap<(usize, u32), Lines> {
    let mut all: BTreeMap<(usize, u32), Lines> = BTreeMap::new();
    let sheets = work.stocks.iter().flat_map(|stock| &stock.sheets);
    for (sheet, paths) in sheets.zip(&work.paths) {
        let strokes: &[Stroke] = if behind { &paths.behind } else { &paths.strokes };
        for stroke in strokes.iter().filter(|stroke| stroke.layer == Layer::Draw) {
            let key = (stroke.part, stroke.copy);
            let placed = sheet.placements.iter().find(|placed| (placed.part, placed.copy) == key).unwrap();
            let flat = &work.kit.parts[stroke.part].flat;
            let size = if placed.quarters % 2 == 0 { (flat.width, flat.height) } else { (flat.height, flat.width) };
            let home =
                |point: Point| turned(Point::new(point.x - placed.x, point.y - placed.y), 4 - placed.quarters, size);
            let StrokePath::Open(edges) = &stroke.run else { panic!("a word that is no open line") };
            let points = edges.iter().map(|edge| edge.from).chain(edges.last().map(|edge| edge.to));
            all.entry(key).or_default().push(points.map(home).collect());
        }
    }
    all
}

/// Whether words can be read in strokes: moved, turned and scaled, never mirrored, each stroke one way or the other.
fn reads(strokes: &Lines, words: &str) -> bool {
    let letters = lettering(words, 1.0).strokes;
    let longest = letters.iter().max_by_key(|stroke| stroke.len()).unwrap();
    let far =
        (1..longest.len()).max_by(|a, b| longest[0].distance(longest[*a]).total_cmp(&longest[0].distance(longest[*b])));
    let far = far.unwrap();
    let same = |one: &[Point], two: &[Point]| {
        let near =
            |mut pairs: Box<dyn Iterator<Item = (&Point, &Point)> + '_>| pairs.all(|(a, b)| a.distance(*b) < 1e-3);
        one.len() == two.len()
            && (near(Box::new(one.iter().zip(two))) || near(Box::new(one.iter().zip(two.iter().rev()))))
    };
    let both_ways = strokes.iter().flat_map(|stroke| [stroke.clone(), stroke.iter().rev().copied().collect()]);
    both_ways.filter(|stroke| stroke.len() == longest.len()).any(|stroke| {
        let (from, to) = (longest[far] - longest[0], stroke[far] - stroke[0]);
        // A turn and a scale, as one complex number.
        let (re, im) = (from.dot(to) / from.hypot2(), from.cross(to) / from.hypot2());
        let map = |point: &Point| {
            let way = *point - longest[0];
            Point::new(stroke[0].x + re * way.x - im * way.y, stroke[0].y + im * way.x + re * way.y)
        };
        letters.iter().all(|letter| {
            let letter: Vec<Point> = letter.iter().map(map).collect();
            strokes.iter().any(|stroke| same(&letter, stroke))
        })
    })
}

fn ids(work: &Work) -> BTreeSet<&str> {
    work.findings.iter().map(|finding| finding.id).collect()
}

/// Words by words, on the front: the name with its copy; the size as the maker measures it; the title, its umlaut among it; or none.
#[test]
fn the_words_that_are_asked_for_are_drawn() {
    use DrawnText::{All, Names, Nothing, Sizes};
    for (text, title, name, size) in [
        (Nothing, false, false, false),
        (Names, false, true, false),
        (Sizes, false, true, true),
        (All, true, true, true),
    ] {
        let work = made(PAPERED, writing(text, TextSide::Front, 0.4), Labels::Everywhere);
        let drawn = drawn(&work, false);
        assert!(work.paths.iter().all(|sheet| sheet.behind.is_empty()));
        let mut seen = 0;
        for (number, part) in work.kit.parts.iter().enumerate().filter(|(_, part)| part.kind == "tag") {
            let strokes = drawn.get(&(number, 1)).cloned().unwrap_or_default();
            let found = ["Fächer", &format!("{} 1", part.id), "70 x 100 mm"].map(|words| reads(&strokes, words));
            assert_eq!(found, [title, name, size], "{text:?}: {}", part.id);
            seen += 1;
        }
        assert!(seen > 0);
    }
}

/// On the back of what is glued down, read from behind; the file of the back has them as its reader sees them, and the front none.
#[test]
fn words_on_the_back_are_read_from_behind() {
    let work = made(PAPERED, writing(DrawnText::Names, TextSide::Back, 0.4), Labels::Hidden);
    let plain = made(PAPERED, writing(DrawnText::Nothing, TextSide::Front, 0.4), Labels::Hidden);
    let (front, behind, bare) = (drawn(&work, false), drawn(&work, true), drawn(&plain, false));
    assert_eq!(front.values().map(Vec::len).sum::<usize>(), bare.values().map(Vec::len).sum::<usize>());
    let mut read = 0;
    for ((part, copy), strokes) in &behind {
        let words = format!("{} {copy}", work.kit.parts[*part].id);
        let seen: Lines = strokes.iter().map(|line| line.iter().map(|at| Point::new(-at.x, at.y)).collect()).collect();
        assert!(reads(&seen, &words) && !reads(strokes, &words), "{words}");
        read += usize::from(work.kit.parts[*part].id.contains("panel"));
    }
    assert!(read >= 4, "{read} papers are named");
    let mut files = 0;
    for sheet in work.paths.iter().filter(|sheet| !sheet.behind.is_empty()) {
        let turned = back(sheet, &work.cutter).unwrap();
        assert_eq!(
            (turned.name.as_str(), turned.strokes.len()),
            (format!("{}.back", sheet.name).as_str(), sheet.behind.len())
        );
        for part in turned.strokes.iter().map(|stroke| (stroke.part, stroke.copy)).collect::<BTreeSet<_>>() {
            let of_part = turned.strokes.iter().filter(|stroke| (stroke.part, stroke.copy) == part);
            let lines = of_part.map(|stroke| match &stroke.run {
                StrokePath::Open(edges) => {
                    edges.iter().map(|edge| edge.from).chain(edges.last().map(|edge| edge.to)).collect()
                }
                _ => panic!("a word that is no open line"),
            });
            let words = format!("{} {}", work.kit.parts[part.0].id, part.1);
            assert!(reads(&lines.collect(), &words), "{words} in {}", turned.name);
        }
        files += 1;
    }
    assert!(files > 0);
}

/// Points along a line, close enough that nothing lies between them.
fn along(line: &[Point]) -> impl Iterator<Item = Point> + '_ {
    line.windows(2).flat_map(|pair| (0..=10).map(|step| pair[0].lerp(pair[1], f64::from(step) / 10.0)))
}

/// Whatever the pen, the side and the words: inside the part, and off every score and cut by the pen's width.
#[test]
fn words_keep_clear_of_scores_and_cuts() {
    let mut dice = Dice(21);
    let mut points = 0;
    let shapes = r#""stocks": { "card": { "sheet": "A3", "caliper": 0.3 } }, "page": { "width": 150, "height": 170, "seam": 16 },
        "pages": [{ "kind": "pocket" }, { "kind": "gate-fold" }, { "kind": "fold-out" }, { "kind": "library-card" }, { "kind": "pocket" }],
        "inserts": [{ "kind": "tag", "width": 60, "height": 90, "hole": 6, "corner": 14 }, { "kind": "envelope", "width": 80, "height": 60 }]"#;
    let shapes = format!(r#"{{ "format": "hingeleaf-album/1", "title": "Čaj á ß", {shapes} }}"#);
    for round in 0..12 {
        let text = if round % 2 == 0 { PAPERED } else { shapes.as_str() };
        let pen = f64::from(i32::try_from(dice.from(1, 25)).unwrap()) / 10.0;
        let words = [DrawnText::Names, DrawnText::Sizes, DrawnText::All][round % 3];
        let side = [TextSide::Front, TextSide::Back][usize::try_from(dice.from(0, 1)).unwrap()];
        let labels = [Labels::Hidden, Labels::Everywhere][usize::try_from(dice.from(0, 1)).unwrap()];
        let work = made(text, writing(words, side, pen), labels);
        let bare = made(text, writing(DrawnText::Nothing, side, pen), labels);
        let key = |line: &Vec<Point>| {
            let mut ends = line.iter().map(|at| [at.x, at.y].map(|mm| format!("{mm:.3}"))).collect::<Vec<_>>();
            ends.sort();
            ends
        };
        let others: BTreeMap<_, BTreeSet<_>> =
            drawn(&bare, false).into_iter().map(|(of, lines)| (of, lines.iter().map(key).collect())).collect();
        let (front, behind) = (drawn(&work, false), drawn(&work, true));
        for ((part, copy), lines) in front.iter().chain(&behind) {
            let flat = &work.kit.parts[*part].flat;
            let is_word =
                |line: &&Vec<Point>| !others.get(&(*part, *copy)).is_some_and(|others| others.contains(&key(line)));
            for at in lines.iter().filter(is_word).flat_map(|line| along(line)) {
                let cuts = std::iter::once(&flat.outline).chain(&flat.holes).map(|cut: &Contour| cut.distance(at));
                let scores =
                    flat.scores.iter().map(|score| Edge { from: score.from, to: score.to, bulge: 0.0 }.distance(at));
                let near = cuts.chain(scores).fold(f64::INFINITY, f64::min);
                let name = &work.kit.parts[*part].id;
                assert!(near >= pen - 1e-6, "{name}, pen {pen}, {side:?}, {labels:?}: {near} mm at {at:?}");
                assert!(
                    flat.outline.contains(at) && flat.holes.iter().all(|hole| !hole.contains(at)),
                    "{name}: {at:?}"
                );
                points += 1;
            }
        }
    }
    assert!(points > 20_000, "only {points} points");
}

/// A seam of 8 mm takes a name and no three lines; one of 14 mm takes all.
#[test]
fn what_does_not_fit_is_told() {
    let seam = |seam: u32, text: DrawnText| {
        // What papers cover would have room for all of them.
        let bare = PAPERED.replace("\"panels\": { \"reveal\": 3, \"stock\": \"paper\" },", "");
        let narrow = bare.replace("\"seam\": 14", &format!("\"seam\": {seam}"));
        let work = made(&narrow, writing(text, TextSide::Front, 0.4), Labels::Hidden);
        let told = work.findings.iter().find(|finding| finding.id == "shortened-words");
        told.map(|finding| finding.text.to_string())
    };
    assert!(seam(8, DrawnText::All).is_some_and(|text| text.contains("page-1")));
    assert_eq!(seam(8, DrawnText::Names), None);
    assert!(!seam(14, DrawnText::Sizes).is_some_and(|text| text.contains("page-1-front")));
    // Nothing is missed where nothing is asked for.
    assert!(
        !ids(&made(PAPERED, writing(DrawnText::Nothing, TextSide::Front, 0.4), Labels::Hidden))
            .contains("unnamed-parts")
    );
    let title = |title: &str, text: DrawnText| {
        let album = PAPERED.replace("Fächer", title);
        ids(&made(&album, writing(text, TextSide::Front, 0.4), Labels::Everywhere)).contains("undrawn-letters")
    };
    assert!(title("Tide ☂", DrawnText::All));
    assert!(!title("Tide ☂", DrawnText::Sizes) && !title("Żółć, Größe, ¿qué?", DrawnText::All));
}

/// Whoever has all words, fewer or none is what the notes count: held against what can be read on the parts.
#[test]
fn the_notes_count_the_parts_without_all_their_words() {
    let mut dice = Dice(77);
    let (mut told, mut quiet) = (0, 0);
    for round in 0..24 {
        let seam = dice.from(5, 20);
        let text = PAPERED.replace("\"seam\": 14", &format!("\"seam\": {seam}"));
        let words = [DrawnText::Names, DrawnText::Sizes, DrawnText::All][round % 3];
        let pen = f64::from(i32::try_from(dice.from(1, 20)).unwrap()) / 10.0;
        let behind = dice.from(0, 1) == 1;
        let labels = [Labels::Hidden, Labels::Everywhere][usize::try_from(dice.from(0, 1)).unwrap()];
        let work = made(&text, writing(words, if behind { TextSide::Back } else { TextSide::Front }, pen), labels);
        let mut drawn = drawn(&work, behind);
        if behind {
            // Read from behind.
            drawn.values_mut().flatten().flatten().for_each(|at| at.x = -at.x);
        }
        let mm = |mm: f64| format!("{mm:.2}").trim_end_matches('0').trim_end_matches('.').to_owned();
        let (mut unnamed, mut short) = (0, 0);
        for (number, part) in work.kit.parts.iter().enumerate().filter(|(_, part)| part.count > 0) {
            let strokes = drawn.get(&(number, 1)).cloned().unwrap_or_default();
            let reads = |words: &str| reads(&strokes, words);
            let size = format!("{} x {} mm", mm(part.flat.width), mm(part.flat.height));
            if !reads(&format!("{} 1", part.id)) {
                unnamed += 1;
            } else if (words != DrawnText::Names && !reads(&size)) || (words == DrawnText::All && !reads("Fächer")) {
                short += 1;
            }
        }
        for (id, count) in [("unnamed-parts", unnamed), ("shortened-words", short)] {
            let note = work.findings.iter().find(|finding| finding.id == id);
            let counted = note.map_or(0, |note| {
                let about = note.about.to_string();
                about.split(' ').next().and_then(|number| number.parse().ok()).unwrap_or(usize::MAX)
            });
            assert_eq!(counted, count, "{id}, seam {seam}, {words:?}, pen {pen}, behind {behind}, {labels:?}");
            if count > 0 { told += 1 } else { quiet += 1 }
        }
    }
    assert!(told > 10 && quiet > 10, "{told} told, {quiet} quiet");
}

/// Letters of a title without strokes are named, each of them and no other, wherever they stand.
#[test]
fn letters_without_strokes_are_named() {
    let (known, other) = ("abcXYZ 019-äßłøñÉ", "☂жΩ中あ");
    let mut dice = Dice(5);
    for round in 0..40 {
        let mut pick = |from: &str| {
            let letters: Vec<char> = from.chars().collect();
            letters[usize::try_from(dice.from(0, i64::try_from(letters.len()).unwrap() - 1)).unwrap()]
        };
        let title: String =
            (0..8).map(|at| if round % 4 > 0 && at % 3 == 0 { pick(other) } else { pick(known) }).collect();
        let album = PAPERED.replace("Fächer", &format!("T{title}"));
        let work = made(&album, writing(DrawnText::All, TextSide::Front, 0.4), Labels::Everywhere);
        let note = work.findings.iter().find(|finding| finding.id == "undrawn-letters");
        let named = note.map(|note| note.text.to_string()).unwrap_or_default();
        for letter in other.chars() {
            assert_eq!(named.contains(letter), title.contains(letter), "{title}: {named}");
        }
        assert_eq!(note.is_some(), round % 4 > 0, "{title}");
    }
}

const BROKEN: &[BrokenCutter] = &[
    (r#""text": "shouting""#, "\"shouting\"", &["text", "names-and-sizes"]),
    (r#""text": true"#, "true", &["text"]),
    (r#""text_side": "behind""#, "\"behind\"", &["text_side", "front", "back"]),
    (r#""pen": 0"#, "0", &["pen", "0.05 mm", "5 mm"]),
    (r#""pen": "broad""#, "\"broad\"", &["pen", "broad"]),
    (r#""shared_cuts": "yes""#, "\"yes\"", &["shared_cuts", "true or false"]),
];

#[test]
fn broken_words_are_answered() {
    broken_cutters_are_answered("", BROKEN);
}
