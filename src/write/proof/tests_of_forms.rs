// SPDX-License-Identifier: MIT
//! Faults planted in files of other kinds: shapes for lines, lines and arcs by themselves, curves, colours alone.

use super::tests::{parts, sheet};
use super::{dxf, svg};
use crate::cutter::{Curves, Cutter, DxfLayers, DxfLines, Forms, Manner, SvgLines};
use crate::toolpath::{SheetPaths, in_lines};
use crate::write;

/// Every number of every path by a hundredth of a mm, each way; fillings and strokes.
#[test]
fn every_number_of_a_shape_is_held_to_what_was_meant() {
    let (sheet, parts) = (sheet(), parts());
    let forms = Forms { svg_lines: SvgLines::Shapes, ..Forms::default() };
    for curves in [Curves::Arcs, Curves::Cubics] {
        let cutter = Cutter { forms, manner: Manner { curves, ..Manner::default() }, ..Cutter::default() };
        let sheet = eighths(&sheet, curves);
        let text = write::svg("A title", &parts, &sheet, &cutter);
        let prove = |text: &str| svg(text, &parts, &sheet, &cutter);
        assert_eq!(prove(&text), Ok(()));
        let mut tried = 0;
        for (from, data) in text.match_indices(" d=\"") {
            let start = from + data.len();
            let end = start + text[start..].find('"').unwrap();
            let words: Vec<&str> = text[start..end].split(' ').collect();
            for at in 0..words.len() {
                let digits = words[at].trim_start_matches(char::is_alphabetic);
                // The turn, flag and flag of an arc, and a handle along its line, change nothing or another thing.
                let of_arc = (1..=3).any(|back| at >= back && words[at - back].starts_with('A'));
                let Ok(number) = digits.parse::<f64>() else { continue };
                if (of_arc && at >= 2 && !words[at - 1].starts_with('A') && number < 1.5)
                    || curves == Curves::Cubics && !words[at].starts_with(['M', 'L'])
                {
                    continue;
                }
                for by in [0.01, -0.01] {
                    let mut spoilt: Vec<String> = words.iter().map(|word| (*word).to_owned()).collect();
                    let letters = &words[at][..words[at].len() - digits.len()];
                    spoilt[at] = format!("{letters}{:.4}", number + by);
                    let spoilt = format!("{}{}{}", &text[..start], spoilt.join(" "), &text[end..]);
                    assert!(prove(&spoilt).is_err(), "word {at} of {}", &text[start..end]);
                    tried += 1;
                }
            }
        }
        for (from, to) in [("stroke=\"none\"", "stroke=\"#000000\""), ("fill=\"#000000\"", "fill=\"none\""), (" Z", "")]
        {
            assert!(prove(&text.replacen(from, to, 1)).is_err(), "{from}");
        }
        // Half as wide, which is what another cutter asks for.
        let narrow =
            Cutter { forms: Forms { hairline: crate::length::Length::from_mm(0.05), ..forms }, ..cutter.clone() };
        assert!(prove(&write::svg("A title", &parts, &sheet, &narrow)).is_err());
        assert!(tried > 50, "only {tried}");
    }
}

/// The strokes as toolpaths have them for cubics: arcs of an eighth of a circle at most.
fn eighths(sheet: &SheetPaths, curves: Curves) -> SheetPaths {
    if curves == Curves::Cubics { crate::toolpath::in_eighths(sheet) } else { sheet.clone() }
}

/// Every place, radius, angle, knot, layer and colour of every entity.
#[test]
fn every_number_of_other_entities_is_held_to_what_was_meant() {
    let single = Forms { dxf_lines: DxfLines::Single, ..Forms::default() };
    let coloured = Forms { dxf_layers: DxfLayers::Colours, ..Forms::default() };
    for (forms, curves, version) in [
        (single, Curves::Arcs, "R12"),
        (single, Curves::Cubics, "R2018"),
        (Forms::default(), Curves::Cubics, "R2000"),
        (coloured, Curves::Arcs, "R2004"),
        (coloured, Curves::Cubics, "R12"),
    ] {
        let manner = Manner { curves, ..Manner::default() };
        let cutter = Cutter { forms, manner, dxf_version: version, ..Cutter::default() };
        let sheet = eighths(&sheet(), curves);
        let text = write::dxf(&sheet, &cutter);
        let prove = |text: &str| dxf(text, &sheet, &cutter);
        assert_eq!(prove(&text), Ok(()), "{version}");
        let (head, rest) = text.split_once("ENTITIES\r\n").unwrap();
        let (body, tail) = rest.split_once("0\r\nENDSEC").unwrap();
        let lines: Vec<&str> = body.split("\r\n").collect();
        let (mut kind, mut tried) = ("", 0);
        for at in (0..lines.len() - 1).step_by(2) {
            if lines[at] == "0" {
                kind = lines[at + 1];
            }
            let number = || lines[at + 1].parse::<f64>().unwrap();
            let changed = match (kind, lines[at]) {
                ("VERTEX" | "SEQEND" | "POLYLINE", "62" | "8" | "10" | "20") => continue,
                (_, "8") => "score-board".to_owned(),
                (_, "62") => format!("{}", number() + 1.0),
                ("SPLINE", "10" | "20") => {
                    // Both at once: a place along a line is on it still.
                    if lines[at] == "20" {
                        continue;
                    }
                    format!("{}\r\n20\r\n{}", number() + 0.01, lines[at + 3].parse::<f64>().unwrap() + 0.013)
                }
                ("SPLINE", "40") => format!("{}", number() + 0.25),
                ("SPLINE", "71") => "2".into(),
                (_, "10" | "20" | "11" | "21" | "40") => format!("{}", number() + 0.001),
                (_, "50" | "51") => format!("{}", number() + 0.01),
                _ => continue,
            };
            let skip = if kind == "SPLINE" && lines[at] == "10" { 4 } else { 2 };
            let (before, after) = (lines[..=at].join("\r\n"), lines[at + skip..].join("\r\n"));
            let spoilt = format!("{head}ENTITIES\r\n{before}\r\n{changed}\r\n{after}0\r\nENDSEC{tail}");
            assert!(prove(&spoilt).is_err(), "{version}: {kind}, {} {}", lines[at], lines[at + 1]);
            tried += 1;
        }
        assert!(tried > 20, "{version}: only {tried}");
    }
}

/// R12 has no curves: what it gets for them are lines within the tolerance, no fewer and no more than in a file that asks for lines.
#[test]
fn old_files_have_short_lines_for_curves() {
    let manner = Manner { curves: Curves::Cubics, ..Manner::default() };
    let cutter = Cutter { manner: manner.clone(), dxf_version: "R12", ..Cutter::default() };
    let of_lines = Cutter { manner: Manner { curves: Curves::Lines, ..manner.clone() }, ..cutter.clone() };
    assert_eq!(write::dxf(&sheet(), &cutter), write::dxf(&in_lines(&sheet(), &manner), &of_lines));
    assert!(write::dxf(&sheet(), &cutter) != write::dxf(&sheet(), &Cutter { dxf_version: "R12", ..Cutter::default() }));
}
