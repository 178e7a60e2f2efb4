// SPDX-License-Identifier: MIT
//! Faults planted in sound files: each must be found in what is read back, and nothing may panic.

use super::*;
use crate::contour::Contour;
use crate::cutter::{Cutter, DXF_VERSIONS, SVG_UNITS};
use crate::net::{Net, Sense};
use crate::parts::{Part, Purpose};
use crate::toolpath::{Layer, SheetPaths, Stroke};
use crate::write;

/// Two parts alike with round holes of two sizes, scores and marks.
pub(super) fn sheet() -> SheetPaths {
    let stroke = |layer, part, copy, fold, run| Stroke { layer, part, copy, fold, run };
    let straight = |y| {
        StrokePath::Straight(vec![
            (Point::new(10.0, y), Point::new(35.0, y)),
            (Point::new(40.0, y), Point::new(60.0, y)),
        ])
    };
    let hole = |x, radius| StrokePath::Closed(Contour::circle(Point::new(x, 40.0), radius).reversed());
    let mark = |x| {
        let edge = |from: (f64, f64), to: (f64, f64), bulge| Edge { from: from.into(), to: to.into(), bulge };
        StrokePath::Open(vec![edge((x, 31.0), (x + 4.0, 31.0), 0.3), edge((x + 4.0, 31.0), (x + 4.0, 37.123_45), 0.0)])
    };
    let card = |x| StrokePath::Closed(Contour::rectangle(x, 10.0, 50.0, 60.0));
    let strokes = vec![
        stroke(Layer::Draw, 0, 1, None, mark(12.0)),
        stroke(Layer::Draw, 0, 2, None, mark(112.0)),
        stroke(Layer::Score, 0, 1, Some(Sense::Valley), straight(20.0)),
        stroke(Layer::Score, 0, 1, Some(Sense::Mountain), straight(60.0)),
        stroke(Layer::Cut, 0, 1, None, hole(30.0, 5.0)),
        stroke(Layer::Cut, 0, 1, None, hole(45.0, 4.0)),
        stroke(Layer::Cut, 0, 1, None, card(10.0)),
        stroke(Layer::Cut, 0, 2, None, card(110.0)),
        stroke(Layer::Cut, 1, 1, None, card(210.0)),
    ];
    SheetPaths {
        name: "card-01".into(),
        stock: 0,
        times: 1,
        width: 300.0,
        height: 120.0,
        strokes,
        behind: Vec::new(),
        register: Vec::new(),
        seconds: None,
    }
}

pub(super) fn parts() -> Vec<Part> {
    let net = Net::single("card", Contour::rectangle(0.0, 0.0, 50.0, 60.0));
    let part = |id: &str| Part {
        id: id.into(),
        kind: "card",
        purpose: Purpose::Body,
        flat: net.flat().unwrap(),
        net: net.clone(),
        stock: 0,
        count: 1,
        along_grain: false,
        sideways: false,
        used_in: Vec::new(),
        patterns: Vec::new(),
        place: None,
        cut: None,
    };
    vec![part("page-1-front"), part("page-2-front")]
}

/// Every way to leave out one of some records, to write one twice, in the place of another, or two in each other's.
fn shuffled(records: &[String]) -> Vec<Vec<String>> {
    let count = records.len();
    let mut spoilt = Vec::new();
    for one in 0..count {
        let mut more = records.to_vec();
        spoilt.push([&records[..one], &records[one + 1..]].concat());
        more.insert(one, records[one].clone());
        spoilt.push(more);
        for other in (0..count).filter(|other| *other != one) {
            let mut doubled = records.to_vec();
            doubled[other].clone_from(&records[one]);
            spoilt.push(doubled);
            let mut swapped = records.to_vec();
            swapped.swap(one, other);
            spoilt.push(swapped);
            // Moved to where the other stands.
            let mut moved = records.to_vec();
            let taken = moved.remove(one);
            moved.insert(other, taken);
            spoilt.push(moved);
        }
    }
    spoilt.retain(|spoilt| spoilt != records);
    spoilt
}

/// What stands before the records, the records, what stands behind.
struct Parted {
    head: String,
    records: Vec<String>,
    tail: String,
}

impl Parted {
    fn with(&self, records: &[String]) -> String {
        format!("{}{}{}", self.head, records.concat(), self.tail)
    }
}

/// An SVG file by its lines: groups and paths are the records.
fn svg_lines(text: &str) -> Parted {
    let lines: Vec<String> = text.split_inclusive('\n').map(str::to_owned).collect();
    let (head, rest) = lines.split_at(2);
    let (records, tail) = rest.split_at(rest.len() - 1);
    Parted { head: head.concat(), records: records.to_vec(), tail: tail.concat() }
}

/// A DXF file by its entities.
fn dxf_entities(text: &str) -> Parted {
    let (head, rest) = text.split_once("ENTITIES\r\n").unwrap();
    let (body, tail) = rest.split_once("0\r\nENDSEC").unwrap();
    let mut records: Vec<String> = Vec::new();
    let lines: Vec<&str> = body.split_inclusive("\r\n").collect();
    for pair in lines.chunks(2) {
        if pair[0] == "0\r\n" && !["VERTEX\r\n", "SEQEND\r\n"].contains(&pair[1]) {
            records.push(String::new());
        }
        records.last_mut().unwrap().push_str(&pair.concat());
    }
    Parted { head: format!("{head}ENTITIES\r\n"), records, tail: format!("0\r\nENDSEC{tail}") }
}

/// A number's text moved by so much.
fn nudged(number: &str, by: f64) -> String {
    format!("{:.6}", number.parse::<f64>().unwrap() + by)
}

fn found(prove: impl Fn(&str) -> Result<(), String>, spoilt: &str, from: &str) {
    assert!(prove(spoilt).is_err(), "unnoticed:\n{spoilt}\nmade from\n{from}");
}

#[test]
fn strokes_of_an_svg_lost_doubled_swapped_or_moved_are_found() {
    let (sheet, parts) = (sheet(), parts());
    for units in SVG_UNITS {
        let cutter = Cutter { svg_units: units, ..Cutter::default() };
        let prove = |text: &str| svg(text, &parts, &sheet, &cutter);
        let text = write::svg("A title", &parts, &sheet, &cutter);
        assert_eq!(prove(&text), Ok(()));
        let lines = svg_lines(&text);
        assert_eq!(lines.records.len(), 9 + 6);
        for records in shuffled(&lines.records) {
            found(prove, &lines.with(&records), &text);
        }
    }
}

/// Every word of every path, and of the root: numbers by 0.3 micrometres, arcs mirrored, lines for arcs, owners, folds.
#[test]
fn every_word_of_an_svg_is_held_to_what_was_meant() {
    let (sheet, parts) = (sheet(), parts());
    for (units, by) in [("mm", 0.0003), ("in", 0.000_012), ("px96", 0.0012)] {
        let cutter = Cutter { svg_units: units, ..Cutter::default() };
        let prove = |text: &str| svg(text, &parts, &sheet, &cutter);
        let text = write::svg("A title", &parts, &sheet, &cutter);
        let lines = svg_lines(&text);
        let mut tried = 0;
        for (number, line) in lines.records.iter().enumerate().filter(|(_, line)| line.contains(" d=\"")) {
            let with = |line: String| {
                let mut records = lines.records.clone();
                records[number] = line;
                lines.with(&records)
            };
            let (before, rest) = line.split_once(" d=\"").unwrap();
            let (data, after) = rest.split_once('"').unwrap();
            let words: Vec<&str> = data.split(' ').collect();
            for at in 0..words.len() {
                let letter: String = words[at].chars().filter(char::is_ascii_alphabetic).collect();
                let digits = words[at].trim_start_matches(char::is_alphabetic);
                let is_flag = at >= 4 && words[at - 4].starts_with('A');
                let changes: Vec<String> = match digits {
                    "" => vec![String::new()],
                    "0" | "1" if is_flag => vec![if digits == "0" { "1".into() } else { "0".into() }],
                    _ => [by, -by].map(|by| format!("{letter}{}", nudged(digits, by))).to_vec(),
                };
                for change in changes {
                    let mut words: Vec<&str> = words.clone();
                    words[at] = &change;
                    found(prove, &with(format!("{before} d=\"{}\"{after}", words.join(" "))), line);
                    tried += 1;
                }
            }
            for (from, to) in [
                ("data-copy=\"1\"", "data-copy=\"2\""),
                ("data-copy=\"2\"", "data-copy=\"1\""),
                ("page-1-front", "page-2-front"),
                ("page-2-front", "page-1-front"),
                ("\"valley\"", "\"mountain\""),
                (" data-fold=\"valley\"", ""),
                ("fill=\"none\"", "fill=\"none\" transform=\"translate(1)\""),
                ("stroke=\"#", "stroke=\"#1"),
                ("<path", "<line"),
            ] {
                if line.contains(from) {
                    found(prove, &with(line.replacen(from, to, 1)), line);
                }
            }
        }
        assert!(tried > 100, "only {tried}");
        let root = [
            ("width=\"", "width=\"1"),
            ("height=\"", "height=\"1"),
            ("viewBox=\"0", "viewBox=\"1"),
            ("<title>", "<desc>"),
        ];
        for (from, to) in root.into_iter().chain([("</svg>", "<"), ("id=\"score\"", "id=\"score\" opacity=\"0\"")]) {
            assert!(text.contains(from));
            found(prove, &text.replacen(from, to, 1), &text);
        }
    }
}

#[test]
fn the_ids_of_two_equal_parts_swapped_are_found() {
    let (mut sheet, parts, cutter) = (sheet(), parts(), Cutter::default());
    let meant = sheet.clone();
    let (one, other) = (sheet.strokes.len() - 2, sheet.strokes.len() - 1);
    let part = sheet.strokes[one].part;
    sheet.strokes[one].part = sheet.strokes[other].part;
    sheet.strokes[other].part = part;
    assert!(svg(&write::svg("A title", &parts, &sheet, &cutter), &parts, &meant, &cutter).is_err());
}

#[test]
fn strokes_of_a_dxf_lost_doubled_swapped_or_changed_are_found() {
    let sheet = sheet();
    // The others differ from these in their layers' colours alone.
    for version in ["R12", "R2000", "R2018"] {
        let cutter = Cutter { dxf_version: version, ..Cutter::default() };
        let text = write::dxf(&sheet, &cutter);
        let prove = |text: &str| dxf(text, &sheet, &cutter);
        assert_eq!(prove(&text), Ok(()), "{version}");
        let parted = dxf_entities(&text);
        assert_eq!((parted.records.len(), parted.with(&parted.records) == text), (2 + 4 + 5, true));
        for records in shuffled(&parted.records) {
            // An equal shape on an equal layer is the same stroke, whatever its handle.
            found(prove, &parted.with(&records), &text);
        }
        let mut tried = 0;
        for (number, record) in parted.records.iter().enumerate() {
            let lines: Vec<&str> = record.split_inclusive("\r\n").collect();
            // The place of a POLYLINE itself is never anything but 0.
            let skip = if record.contains("\r\nPOLYLINE") || record.starts_with("0\r\nPOLYLINE") {
                lines.iter().position(|line| *line == "VERTEX\r\n").unwrap()
            } else {
                0
            };
            for at in (0..lines.len()).step_by(2) {
                let value = lines[at + 1].trim_end();
                let changes: Vec<String> = match lines[at].trim_end() {
                    "8" if at < skip || skip == 0 => vec![if value == "cut" { "draw" } else { "cut" }.into()],
                    "70" if at < skip || skip == 0 => vec![if value == "1" { "0" } else { "1" }.into()],
                    // The bow of an open line's last corner is that of no edge.
                    "42" if value == "0" && record.contains("\r\n70\r\n0\r\n") => continue,
                    "42" if value == "0" => vec!["0.000001".into()],
                    "42" => vec![format!("{}", -value.parse::<f64>().unwrap()), nudged(value, 1e-5), "0".into()],
                    "10" | "20" | "11" | "21" if at >= skip => vec![nudged(value, 2e-6), nudged(value, -2e-6)],
                    _ => continue,
                };
                for change in changes {
                    let mut spoilt = lines.clone();
                    let change = format!("{change}\r\n");
                    spoilt[at + 1] = &change;
                    let mut records = parted.records.clone();
                    records[number] = spoilt.concat();
                    found(prove, &parted.with(&records), record);
                    tried += 1;
                }
            }
        }
        assert!(tried > 100, "{version}: only {tried}");
        let spoilt = text.replacen("\r\n10\r\n10\r\n", "\r\n10\r\n11\r\n", 1);
        assert!(spoilt != text && prove(&spoilt).is_err(), "the header's extent");
    }
}

/// Edges whose ends are one point in the file, arcs that are lines in it: left out or straight, in every format and unit.
#[test]
fn what_a_file_cant_hold_is_never_written() {
    let flat = 2.0 * 4e-6 / 80.0;
    let contour = Contour::new([
        (10.0, 10.0, flat),
        (90.0, 10.0, 0.3),
        (90.000_003, 10.000_003, 0.0),
        (90.0, 60.0, 0.4),
        (89.999_98, 60.000_02, 0.0),
        (10.0, 60.0, -0.4),
        (9.999_997, 59.999_998, 0.0),
        (9.999_997, 10.000_004, 0.2),
    ]);
    let tiny = (Point::new(1.0, 1.0), Point::new(1.000_000_2, 1.0));
    let runs = [
        StrokePath::Closed(contour),
        StrokePath::Straight(vec![tiny]),
        StrokePath::Straight(vec![tiny, (Point::ZERO, Point::new(5.0, 5.0))]),
    ];
    let strokes = runs.map(|run| Stroke { layer: Layer::Cut, part: 0, copy: 1, fold: None, run });
    let sheet = SheetPaths { strokes: strokes.to_vec(), ..sheet() };
    for units in SVG_UNITS {
        let cutter = Cutter { svg_units: units, ..Cutter::default() };
        let text = write::svg("A title", &parts(), &sheet, &cutter);
        assert_eq!(svg(&text, &parts(), &sheet, &cutter), Ok(()), "{units}: {text}");
        assert_eq!(
            (text.matches('A').count(), text.matches("<path").count()),
            (1, 2),
            "the title's letter only: {text}"
        );
    }
    for version in DXF_VERSIONS {
        let cutter = Cutter { dxf_version: version, ..Cutter::default() };
        let text = write::dxf(&sheet, &cutter);
        assert_eq!(dxf(&text, &sheet, &cutter), Ok(()), "{version}: {text}");
        assert_eq!(dxf_entities(&text).records.len(), 2, "{version}");
    }
}

/// Whatever stands in a file, reading it back ends with a verdict.
#[test]
fn reading_back_never_panics() {
    let (sheet, parts) = (sheet(), parts());
    let (mut found, mut seed) = (0, 1_u64);
    let mut dice = move |most: usize| {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(seed >> 33).unwrap() % most
    };
    let bits = [
        "",
        "0",
        "-",
        ".",
        "e999",
        "NaN",
        "A0 0 0 0 0 ",
        "A1 1 0 0 1 ",
        "Z",
        "M",
        "L",
        " ",
        "\"",
        "<",
        "&#0;",
        "\r\n",
        "9999999999",
    ];
    let cutter = Cutter::default();
    let texts = [write::svg("A title", &parts, &sheet, &cutter), write::dxf(&sheet, &cutter)];
    for number in 0..4000 {
        let mut text = texts[number % 2].clone();
        for _ in 0..=dice(3) {
            let at = dice(text.len());
            let to = (at + dice(6)).min(text.len());
            if dice(40) == 0 {
                text.truncate(at);
            } else {
                text.replace_range(at..to, bits[dice(bits.len())]);
            }
        }
        let judged = if number % 2 == 0 { svg(&text, &parts, &sheet, &cutter) } else { dxf(&text, &sheet, &cutter) };
        found += u32::from(judged.is_err());
    }
    assert!(found > 2000, "only {found}");
}
