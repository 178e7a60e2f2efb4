// SPDX-License-Identifier: MIT
//! How sheets are stood and chosen: grain, pattern, the machine's bed, sheets that are counted.

use crate::common::{cutter, work};
use hingeleaf::cutter::Cutter;
use hingeleaf::length::Length;
use hingeleaf::work::Work;

fn album(stock: &str) -> String {
    format!(
        r#"{{
            "format": "hingeleaf-album/1",
            "stocks": {{ "card": {{ "caliper": 0.3, {stock} }} }},
            "page": {{ "width": 60, "height": 80, "seam": 10 }},
            "pages": [{}]
        }}"#,
        [r#"{ "kind": "pocket" }"#; 8].join(",")
    )
}

/// Each hinge strip: the width and height of its sheet as it lies, and the strip's quarter turns.
fn strips(work: &Work) -> Vec<(f64, f64, u8)> {
    let sheets = work.stocks.iter().flat_map(|stock| &stock.sheets);
    let placed = sheets.flat_map(|sheet| sheet.placements.iter().map(move |placed| (sheet, placed)));
    placed
        .filter(|(_, placed)| work.kit.parts[placed.part].kind == "hinge strip")
        .map(|(sheet, placed)| (sheet.width, sheet.height, placed.quarters))
        .collect()
}

/// Folds run cleanly along the grain (Roberts and Etherington 1982, "against the grain"): strips stand along it.
#[test]
fn hinge_strips_lie_along_the_grain_on_every_size() {
    for (grain, stood) in
        [("long", (300.0, 400.0)), ("height", (300.0, 400.0)), ("short", (400.0, 300.0)), ("width", (400.0, 300.0))]
    {
        let work = work(&album(&format!(r#""sheet": "300x400mm", "grain": "{grain}""#)), cutter(0.0, 0.0, 0.0));
        let strips = strips(&work);
        assert_eq!(strips.len(), 4);
        // The sheet stands with its grain up, and strips stand upright on it.
        assert!(
            strips.iter().all(|&(width, height, turn)| (width, height) == stood && turn % 2 == 0),
            "{grain}: {strips:?}"
        );
    }
}

/// A pattern keeps its sheet upright, so a size whose grain then runs across is no size for strips.
#[test]
fn a_size_whose_grain_runs_across_is_left_out() {
    for sizes in [r#"["300x400mm", "400x300mm"]"#, r#"["400x300mm", "300x400mm"]"#] {
        let stock = format!(r#""sheet": {sizes}, "grain": "long", "pattern": "one-way""#);
        let work = work(&album(&stock), cutter(0.0, 0.0, 0.0));
        let strips = strips(&work);
        assert_eq!(strips.len(), 4);
        assert!(
            strips.iter().all(|&(width, height, turn)| (width, height, turn) == (300.0, 400.0, 0)),
            "{sizes}: {strips:?}"
        );
    }
}

#[test]
fn a_sheet_too_large_for_the_machine_is_left_out() {
    let mm = Length::from_mm;
    let small = Cutter { bed: Some((mm(220.0), mm(300.0))), ..Cutter::default() };
    let work = work(&album(r#""sheet": ["A3", "A4"]"#), small);
    let sizes: Vec<f64> = work.stocks.iter().flat_map(|stock| &stock.sheets).map(|sheet| sheet.width).collect();
    assert!(!sizes.is_empty() && sizes.iter().all(|width| (width - 210.0).abs() < 1e-9), "{sizes:?}");
    assert!(
        work.findings.iter().any(|finding| finding.id == "bed-too-small" && finding.text.to_string().contains("A3"))
    );
}

/// Counted sheets are used before others, as the album file's order of aims says.
#[test]
fn counted_sheets_are_used_first() {
    let work = work(&album(r#""sheet": [{ "sheet": "A5", "count": 2 }, "A3"]"#), cutter(0.0, 0.0, 0.0));
    let small = work.stocks[0].sheets.iter().filter(|sheet| sheet.size == 0).map(|sheet| sheet.times).sum::<u32>();
    assert_eq!(small, 2);
}
