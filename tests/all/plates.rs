// SPDX-License-Identifier: MIT
//! Every kind of part has what it takes to be in the catalogue: a drawing in its file, a place in the schema, an example that
//! goes together, a plate on which no word stands on another or on a line.
//!
//! `UPDATE_GOLDEN=1` writes the plates of `fixtures/golden/plates` anew and still fails, so that none is accepted unseen.

use crate::common;

use crate::common::{TempDir, album, cutter, files, fixtures, hingeleaf, kit, project};
use hingeleaf::album::schema;
use hingeleaf::contour::{Contour, Point, Rect};
use hingeleaf::cutter::Cutter;
use hingeleaf::fields::{Source, Takes};
use hingeleaf::finding::Level;
use hingeleaf::net::Use;
use hingeleaf::parts::{self, Maker, Part, example};
use hingeleaf::picture::{self, Mark, Picture};
use hingeleaf::work::Work;
use hingeleaf::write;
use proptest::prelude::*;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

#[test]
fn there_are_enough_kinds_and_each_has_a_name_of_its_own() {
    let names: BTreeSet<&str> = parts::ALL.iter().map(|maker| maker.kind.name).collect();
    assert_eq!(names.len(), parts::ALL.len());
    assert!(names.len() >= 25);
}

/// The file that states a kind opens with a drawing of it, and says where its sizes come from.
#[test]
fn every_kind_is_drawn_in_its_file() {
    let sources: Vec<String> = files(&project().join("src/parts"))
        .into_values()
        .filter_map(|bytes| String::from_utf8(bytes).ok())
        .filter(|text| text.contains("const MAKER: Maker"))
        .collect();
    let (filed, coded): (Vec<&Maker>, Vec<_>) = parts::ALL.iter().partition(|maker| maker.kind.file.is_some());
    assert_eq!(sources.len(), coded.len(), "one kind a file");
    for maker in filed {
        let text = parts::source_of(maker.kind.name).unwrap();
        let file: Value = serde_json::from_str(text).unwrap();
        assert!(file["source"].as_str().is_some_and(|source| source.len() > 20), "{} names no source", maker.kind.name);
    }
    for maker in coded {
        let name = format!("name: \"{}\",", maker.kind.name);
        let mut stating = sources.iter().filter(|text| text.contains(&name));
        let text = stating.next().unwrap_or_else(|| panic!("no file states {name}"));
        assert!(stating.next().is_none(), "{name} is stated twice");
        let head: String =
            text.lines().skip(1).take_while(|line| line.starts_with("//!")).collect::<Vec<_>>().join("\n");
        assert!(head.contains("```text"), "{name} is not drawn");
        let sourced = ["ractice", "derived", "erived", "source", "our choice", "(B", "(D", "(H", "standard"];
        assert!(
            sourced.iter().any(|word| head.contains(word)),
            "{name} does not say where its sizes come from:\n{head}"
        );
    }
}

#[test]
fn every_kind_and_field_is_in_the_schema() {
    let schema = schema(&parts::kinds());
    let text = schema.to_string();
    for maker in parts::ALL.iter() {
        assert!(text.contains(&format!("\"const\":\"{}\"", maker.kind.name)), "{}", maker.kind.name);
        for field in maker.kind.fields {
            assert!(text.contains(&format!("\"{}\":", field.name)), "{} of {}", field.name, maker.kind.name);
        }
    }
}

/// Each example is an album with nothing to stop it or to warn of, and has the kind in it.
#[test]
fn every_example_goes_together() {
    for maker in parts::ALL.iter() {
        let text = example(maker);
        let entry: Value = serde_json::from_str(maker.example).unwrap();
        assert_eq!(entry["kind"], maker.kind.name);
        let work = Work::fit(album(&text), cutter(0.1, 1.0, 3.0));
        let grave: Vec<String> = work
            .findings
            .iter()
            .filter(|finding| finding.level != Level::Note)
            .map(hingeleaf::finding::Finding::headline)
            .collect();
        assert!(grave.is_empty(), "{text}\n{grave:?}");
        assert!(!work.kit.parts.is_empty());
    }
}

/// The boxes of all words, and all lines: strokes, outlines, edges of filled arrow heads.
fn laid(picture: &Picture) -> (Vec<(Rect, String)>, Vec<[Point; 2]>) {
    let (mut words, mut lines) = (Vec::new(), Vec::new());
    for (number, mark) in picture.marks.iter().enumerate() {
        match mark {
            Mark::Words { at, size, text, upwards } => {
                words.push((picture::words_box(*at, *size, text, *upwards), text.clone()));
            }
            Mark::Line { points, .. } => lines.extend(points.windows(2).map(|pair| [pair[0], pair[1]])),
            Mark::Shape { contours, fill, pen } => {
                // The ground that words stand on is there for them.
                let ground = matches!(picture.marks.get(number + 1), Some(Mark::Words { .. })) && pen.is_none();
                let unlined = pen.is_none() && fill.as_ref() != Some(&picture::Fill::Flat(picture::INK));
                if !ground && !unlined {
                    lines.extend(contours.iter().flat_map(Contour::edges).map(|edge| [edge.from, edge.to]));
                }
            }
        }
    }
    (words, lines)
}

/// Whether a line comes into a box: its ends on either side of no edge.
fn enters([from, to]: [Point; 2], space: Rect) -> bool {
    // Looked at closely enough: every 0.05 mm.
    let steps = (from.distance(to) / 0.05).ceil().max(1.0);
    let mut step = 0.0;
    while step <= steps {
        if space.contains(from.lerp(to, step / steps)) {
            return true;
        }
        step += 1.0;
    }
    false
}

#[track_caller]
fn legible(picture: &Picture, what: &str) {
    let (words, lines) = laid(picture);
    let whole = Rect::new(0.0, 0.0, picture.width, picture.height);
    for (number, (space, text)) in words.iter().enumerate() {
        assert_eq!(whole.intersect(*space), *space, "{what}: \"{text}\" reaches beyond the picture");
        for (other, with) in &words[..number] {
            assert!(space.intersect(*other).area() <= 0.0, "{what}: \"{text}\" stands on \"{with}\"");
        }
        for line in &lines {
            if Rect::from_points(line[0], line[1]).inflate(0.01, 0.01).intersect(*space).area() > 0.0 {
                assert!(!enters(*line, *space), "{what}: a line {line:?} goes through \"{text}\" {space:?}");
            }
        }
    }
}

#[test]
fn no_word_of_a_plate_stands_on_another_or_on_a_line() {
    for maker in parts::ALL.iter() {
        let plate = picture::kind(maker).unwrap();
        let sizes = plate.marks.iter().filter_map(|mark| match mark {
            Mark::Words { size, .. } => Some(*size),
            _ => None,
        });
        // 2.4 mm tall in print: the capitals of the bundled font are 0.729 of the em.
        let least = sizes.fold(f64::INFINITY, f64::min);
        assert!(least * 0.729 >= 2.4, "{}: letters of {least} mm", maker.kind.name);
        legible(&plate, maker.kind.name);
    }
}

/// Flat parts of every fixture, in millimetres and inches, in much room and in little.
#[test]
fn no_word_of_a_flat_part_stands_on_another_or_on_a_line() {
    let mut drawn = 0;
    for path in fixtures() {
        let text = fs::read_to_string(&path).unwrap();
        let (album, kit) = (album(&text), kit(&text));
        for part in &kit.parts {
            for room in [(180.0, 200.0), (85.0, 75.0)] {
                let stuff = picture::stuff(&album, part);
                let (picture, scale) = picture::part_within(part, &stuff, room, &|mm| album.roughly(mm));
                let what = format!("{} of {}", part.id, path.display());
                // It is as large as there is room, and never larger than it is.
                let filled = (part.flat.width * scale / room.0).max(part.flat.height * scale / room.1);
                assert!(filled > 0.4 || scale > 0.99, "{what}: {filled} of its room, at {scale}");
                legible(&picture, &what);
                drawn += 1;
            }
        }
    }
    assert!(drawn > 200, "only {drawn}");
}

/// Every score's place is on the picture, counted from the left or from the head, and so is the size of the whole.
#[test]
fn every_score_has_its_number() {
    for maker in parts::ALL.iter() {
        for part in &kit(&example(maker)).parts {
            let picture = picture::part(part, &picture::Stuff::CARD, 0.5, &|mm| format!("{mm:.2}"));
            let said: Vec<&str> = picture
                .marks
                .iter()
                .filter_map(|mark| if let Mark::Words { text, .. } = mark { Some(text.as_str()) } else { None })
                .collect();
            let mut wanted = vec![part.flat.width, part.flat.height];
            for score in &part.flat.scores {
                if (score.from.x - score.to.x).abs() < 1e-6 {
                    wanted.push(score.from.x);
                } else if (score.from.y - score.to.y).abs() < 1e-6 {
                    wanted.push(part.flat.height - score.from.y);
                }
            }
            for mm in wanted {
                assert!(said.contains(&format!("{mm:.2}").as_str()), "{}: {mm:.2} is not in {said:?}", part.id);
            }
        }
    }
}

#[test]
fn every_plate_is_as_it_was() {
    let folder = project().join("fixtures/golden/plates");
    let update = std::env::var_os("UPDATE_GOLDEN").is_some();
    let mut different = Vec::new();
    for maker in parts::ALL.iter() {
        let file = folder.join(format!("{}.svg", maker.kind.name));
        let drawn = write::drawing(&picture::kind(maker).unwrap());
        if fs::read_to_string(&file).unwrap_or_default() != drawn {
            if update {
                fs::create_dir_all(&folder).unwrap();
                fs::write(&file, &drawn).unwrap();
            }
            different.push(maker.kind.name);
        }
    }
    let there = fs::read_dir(&folder).map_or(0, Iterator::count);
    assert_eq!(there, parts::ALL.len(), "plates that no kind has");
    assert!(different.is_empty(), "{different:?}: run again with UPDATE_GOLDEN=1 and look at them");
}

/// The folder appears whole, is not written over unasked, and is taken for no kit.
#[test]
fn the_catalogue_draws_its_plates_into_a_folder() {
    let temp = TempDir::new("plates");
    let out = temp.join("plates");
    let words = |more: &[&str]| {
        let mut words = vec!["catalogue".into(), "--out".into(), out.clone().into_os_string()];
        words.extend(more.iter().map(Into::into));
        hingeleaf(words)
    };
    let run = words(&[]);
    assert_eq!(run.code, 0, "{run:?}");
    assert!(run.out.contains(&format!("{} plates", parts::ALL.len())), "{run:?}");
    let names = common::names(&out);
    for maker in parts::ALL.iter() {
        assert!(names.contains(&format!("{}.svg", maker.kind.name)));
        assert_eq!(names.contains(&format!("{}.png", maker.kind.name)), cfg!(feature = "png"));
    }
    assert!(names.contains(&"catalogue.json".into()));
    let again = words(&[]);
    assert_eq!((again.code, again.out.as_str()), (2, ""), "{again:?}");
    assert!(again.err.contains("is there already"), "{again:?}");
    assert_eq!(words(&["--replace"]).code, 0);
    let other = temp.join("other");
    fs::create_dir(&other).unwrap();
    fs::write(other.join("report.json"), r#"{ "format": "hingeleaf-report/1" }"#).unwrap();
    let run = hingeleaf(["catalogue".as_ref(), "--replace".as_ref(), "--out".as_ref(), other.as_os_str()]);
    assert_eq!(run.code, 2, "a kit is no catalogue: {run:?}");
    assert_eq!(common::names(&other), ["report.json"]);
    assert_eq!(temp.names(), ["other", "plates"]);
}

/// A value that a field takes, lengths near what parts of an album have.
fn value(takes: Takes) -> BoxedStrategy<Option<Value>> {
    match takes {
        Takes::Length { least, most } => {
            (least..most.min(250.0)).prop_map(|mm| Some(json!((mm * 100.0).round() / 100.0))).boxed()
        }
        Takes::Count { least, most } => (least..=most.min(least + 14)).prop_map(|count| Some(json!(count))).boxed(),
        Takes::Choice(words) => prop::sample::select(words).prop_map(|word| Some(json!(word))).boxed(),
        Takes::Flag => any::<bool>().prop_map(|flag| Some(json!(flag))).boxed(),
        _ => Just(None).boxed(),
    }
}

/// A kind's example with some of its fields set anew.
pub(crate) fn altered() -> impl Strategy<Value = (&'static Maker, Value)> {
    prop::sample::select(parts::ALL.to_vec()).prop_flat_map(|maker| {
        let fields: Vec<_> =
            maker.kind.fields.iter().map(|field| prop::option::weighted(0.3, value(field.takes))).collect();
        fields.prop_map(move |values| {
            let mut entry: Value = serde_json::from_str(maker.example).unwrap();
            for (field, value) in maker.kind.fields.iter().zip(values) {
                if let Some(Some(value)) = value {
                    entry[field.name] = value;
                }
            }
            (maker, entry)
        })
    })
}

fn sound(part: &Part) -> Result<(), String> {
    let flat = &part.flat;
    let edge = |contour: &Contour| contour.edges().all(|edge| edge.length() > 1e-6);
    let on_an_edge =
        |point: Point| std::iter::once(&flat.outline).chain(&flat.holes).any(|contour| contour.distance(point) < 1e-6);
    let bounds = part.net.panels.iter().map(|panel| panel.outline.bounds()).reduce(|all, one| all.union(one)).unwrap();
    let tests = [
        ("its outline is simple", flat.outline.is_simple() && flat.outline.area() > 0.0),
        ("no edge has no length", edge(&flat.outline) && flat.holes.iter().all(edge)),
        (
            "scores run from edge to edge",
            flat.scores.iter().all(|score| on_an_edge(score.from) && on_an_edge(score.to)),
        ),
        (
            "scores run inside",
            flat.scores.iter().all(|score| {
                let middle = score.from.midpoint(score.to);
                flat.outline.contains(middle) && !flat.holes.iter().any(|hole| hole.contains(middle))
            }),
        ),
        (
            "seams are of its card",
            part.net.panels.iter().filter(|panel| panel.purpose == Use::Seam).all(|seam| {
                seam.outline.vertices().iter().all(|vertex| {
                    let at = vertex.at - kurbo::Vec2::new(bounds.x0, bounds.y0);
                    flat.outline.contains(at) || flat.outline.distance(at) < 1e-6
                })
            }),
        ),
    ];
    tests.iter().find(|(_, holds)| !holds).map_or(Ok(()), |(what, _)| Err(format!("{}: not so: {what}", part.id)))
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(800) })]

    /// Whatever its fields are within what they take, a kind is sound or said to be none; and where it is sound it can be
    /// drawn with every word off every other.
    #[test]
    fn every_kind_is_sound_over_what_its_fields_take((maker, entry) in altered()) {
        let entry = entry.to_string();
        let text = example(maker).replacen(maker.example, &entry, 1);
        prop_assert!(text.contains(&entry));
        let source = Source::new("altered.json", text.clone().into_bytes()).unwrap();
        let read = hingeleaf::album::read(&source, &parts::kinds());
        let Some(album) = read.value else {
            prop_assert!(!read.findings.is_empty());
            return Ok(());
        };
        let made = parts::kit(&album, &Cutter::default());
        let Some(kit) = made.value else {
            prop_assert!(made.findings.iter().any(|finding| finding.level == Level::Stop), "{text}");
            return Ok(());
        };
        for part in &kit.parts {
            let judged = sound(part);
            prop_assert!(judged.is_ok(), "{}\n{text}", judged.unwrap_err());
            let stuff = picture::stuff(&album, part);
            let (drawn, _) = picture::part_within(part, &stuff, (150.0, 150.0), &|mm| album.roughly(mm));
            legible(&drawn, &text);
        }
    }
}

/// Where `HINGELEAF_OUTSIDE` names a folder, `areas.json` is written into it: every part of every kind's example with its
/// panels, outline, holes, area and the length of all cuts, for other people's geometry.
#[test]
fn areas_are_written_for_other_peoples_geometry() {
    let mut rows = Vec::new();
    for maker in parts::ALL.iter() {
        for part in &kit(&example(maker)).parts {
            let all = |contours: &[Contour]| contours.iter().map(common::corners).collect::<Vec<_>>();
            let panels: Vec<Contour> = part.net.panels.iter().map(|panel| panel.outline.clone()).collect();
            let length = part.flat.outline.length() + part.flat.holes.iter().map(Contour::length).sum::<f64>();
            rows.push(json!({
                "kind": maker.kind.name,
                "part": part.id,
                "panels": all(&panels),
                "net_holes": all(&part.net.holes),
                "outline": common::corners(&part.flat.outline),
                "holes": all(&part.flat.holes),
                "area": part.flat.area(),
                "length": length,
            }));
        }
    }
    assert!(rows.len() > 60, "only {} parts", rows.len());
    if let Some(folder) = std::env::var_os("HINGELEAF_OUTSIDE") {
        fs::write(Path::new(&folder).join("areas.json"), serde_json::to_string(&rows).unwrap()).unwrap();
    }
}
