// SPDX-License-Identifier: MIT
//! Folds that pages hang by, perforated: less than half of each is cut, and the note counts them.

use crate::backs::HINGED;
use crate::common::instances::Dice;
use crate::common::{cutter, said, work};
use hingeleaf::cutter::{Cutter, ScoreMode};
use hingeleaf::length::Length;
use hingeleaf::net::Use;
use hingeleaf::toolpath::{Layer, StrokePath};

/// Which folds pages hang by, from the nets: a tab's and a gusset's. Less than half of each is cut, its ends are card; other scores are
/// made as the cutter says. Random cuts and ties.
#[test]
fn less_than_half_of_a_fold_that_carries_is_cut() {
    let mut dice = Dice(5);
    let (mut carry, mut other) = (0, 0);
    for _ in 0..12 {
        let mut tenths = |least: i64, most: i64| f64::from(i32::try_from(dice.from(least, most)).unwrap()) / 10.0;
        let (dash, gap) = (tenths(5, 60), tenths(2, 30));
        let mode = ScoreMode::Dash { dash: Length::from_mm(dash), gap: Length::from_mm(gap) };
        let work = work(HINGED, Cutter { score: mode, ..cutter(0.0, 2.0, 5.0) });
        let notes = work.findings.iter().filter(|finding| finding.id == "perforated-hinge").count();
        assert_eq!(notes, 1, "{}", said(&work.findings));
        for stroke in work.paths.iter().flat_map(|sheet| &sheet.strokes).filter(|stroke| stroke.layer == Layer::Score) {
            let StrokePath::Straight(pieces) = &stroke.run else { panic!("a score that is no line") };
            let part = &work.kit.parts[stroke.part];
            let hangs = part.net.panels.iter().any(|panel| matches!(panel.purpose, Use::Tab | Use::Gusset));
            let cut: f64 = pieces.iter().map(|(from, to)| from.distance(*to)).sum();
            let ties: Vec<f64> = pieces.windows(2).map(|pair| pair[0].1.distance(pair[1].0)).collect();
            let long = pieces[0].0.distance(pieces[pieces.len() - 1].1);
            if hangs {
                // One tie more than there are cuts: that between the first and the last leaves out two of them.
                let all = long + 2.0 * ties.first().copied().unwrap_or(cut / 2.0);
                assert!(cut < 0.5 * all + 1e-6, "{cut} of {all}");
                carry += 1;
            } else {
                assert!(ties.iter().all(|tie| *tie > gap - 1e-6));
                other += usize::from(cut > 0.5 * long && dash > gap);
            }
        }
    }
    assert!(carry > 50 && other > 10, "{carry} and {other}");
}

/// The note counts every fold that a page hangs by, once a part, on parts that a machine cuts, whatever the album: counted here by the
/// panels on both sides of each score. A spine that is cut by hand is not told of.
#[test]
fn the_note_counts_the_folds_that_carry() {
    let dash = ScoreMode::Dash { dash: Length::from_mm(2.0), gap: Length::from_mm(1.0) };
    let mut dice = Dice(8);
    let mut told = 0;
    for spine in ["flexi-hinge", "plain-hinge", "stubs", "concertina"] {
        for _ in 0..3 {
            let pages = vec![r#"{ "kind": "pocket" }"#; usize::try_from(dice.from(1, 4)).unwrap()].join(", ");
            let by = ["machine", "trimmer"][usize::try_from(dice.from(0, 1)).unwrap()];
            let album = format!(
                r#"{{ "format": "hingeleaf-album/1", "stocks": {{ "card": {{ "sheet": "A4", "caliper": 0.3 }}, "strip": {{ "sheet": "A4", "caliper": 0.3, "by": "{by}" }} }},
                "page": {{ "width": 120, "height": 160, "seam": 12, "stock": "card" }}, "pages": [{pages}],
                "spine": {{ "kind": "{spine}", "stock": "strip" }} }}"#
            );
            let work = work(&album, Cutter { score: dash, ..cutter(0.1, 2.0, 5.0) });
            let mut wanted = 0;
            for part in work.kit.parts.iter().filter(|part| part.count > 0 && (part.stock == 0 || by == "machine")) {
                let side = |panel: &hingeleaf::net::Panel, score: &hingeleaf::net::Score| {
                    let off = part
                        .net
                        .panels
                        .iter()
                        .map(|panel| panel.outline.bounds())
                        .reduce(|one, two| one.union(two))
                        .unwrap();
                    let middle = score.from.midpoint(score.to);
                    let middle = hingeleaf::contour::Point::new(middle.x + off.x0, middle.y + off.y0);
                    matches!(panel.purpose, Use::Tab | Use::Gusset) && panel.outline.distance(middle) < 1e-6
                };
                wanted += part
                    .flat
                    .scores
                    .iter()
                    .filter(|score| part.net.panels.iter().any(|panel| side(panel, score)))
                    .count();
            }
            let note = work.findings.iter().find(|finding| finding.id == "perforated-hinge");
            let count = note.map_or(0, |note| {
                let text = note.text.to_string();
                text.split(' ').next().map_or(0, |first| if first == "a" { 1 } else { first.parse().unwrap() })
            });
            assert_eq!(count, wanted, "{album}");
            told += usize::from(wanted > 0);
        }
    }
    assert!(told >= 3, "told {told} times");
}

/// Nothing is said of scores as lines, nor where the hinges' own machine makes lines.
#[test]
fn perforations_that_carry_nothing_are_not_told() {
    let dash = ScoreMode::Dash { dash: Length::from_mm(2.0), gap: Length::from_mm(1.0) };
    // The stock's own machine makes lines.
    let lines = r#""stocks": { "card": { "sheet": "A4", "cutter": { "gap": 2, "margin": 5 } } }, "page""#;
    let own = HINGED.replacen("\"page\"", lines, 1);
    for (album, score) in [(HINGED, ScoreMode::Line), (own.as_str(), dash)] {
        let work = work(album, Cutter { score, ..cutter(0.1, 2.0, 5.0) });
        assert!(work.findings.iter().all(|finding| finding.id != "perforated-hinge"), "{}", said(&work.findings));
    }
}
