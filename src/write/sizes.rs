// SPDX-License-Identifier: MIT
//! An album at many page sizes, for programs.

use super::number;
use crate::album::Album;
use crate::length::Length;
use crate::sizes::{Size, Survey, Why, jumps};
use serde_json::{Value, json};

/// One object: the file's `own` size (or, where it does not go together there, the `nearest` at which it does), the `jumps` worth a look, the `named` sizes, and all `sizes` that were tried. Sheets
/// and their cost are those of the whole batch, `cost_per_kit` is one kit's share.
#[must_use]
pub fn sizes(album: &Album, survey: &Survey) -> String {
    let size = |size: &Size| one(album, size);
    let named = survey.named.iter().map(|named| {
        let mut object = named.size.as_ref().map_or_else(
            || json!({ "width_mm": mm(named.width), "height_mm": mm(named.height), "sheets": null, "cost_per_kit": null }),
            size,
        );
        object["why"] = named.why.iter().map(|why| reason(album, why)).collect();
        object
    });
    let jumps = jumps(survey).into_iter().map(|jump| {
        let mut object = size(jump.size());
        object["what"] = jump.word().into();
        object
    });
    let all = json!({
        "title": album.title,
        "copies": album.copies,
        "own": survey.own.as_ref().map(size),
        "nearest": survey.nearest.as_ref().map(size),
        "jumps": jumps.collect::<Vec<Value>>(),
        "named": named.collect::<Vec<Value>>(),
        "sizes": survey.sizes.iter().map(size).collect::<Vec<Value>>(),
        "tried": survey.tried,
        "left_out": survey.left_out,
        "cut_short": survey.cut_short,
        "findings": [],
    });
    format!("{all:#}\n")
}

fn one(album: &Album, size: &Size) -> Value {
    let tally = |tally: &crate::sheets::Tally| {
        json!({
            "stock": album.stock_name(tally.stock),
            "sheets": tally.sheets,
            "lower_bound": tally.lower_bound,
            "proven_least": tally.proven_least,
            "cost": tally.cost,
        })
    };
    json!({
        "width_mm": mm(size.width),
        "height_mm": mm(size.height),
        "sheets": size.tallies.iter().map(tally).collect::<Vec<_>>(),
        "cost_per_kit": size.cost,
    })
}

fn reason(album: &Album, why: &Why) -> Value {
    match why {
        Why::FromSheet { stock, count, panels } => json!({
            "from_one_sheet": count,
            "of": if *panels { "panel" } else { "page piece" },
            "stock": album.stock_name(*stock),
        }),
        Why::Holds { print, lying } => json!({
            "holds": print.name,
            "width_mm": mm(if *lying { print.long } else { print.short }),
            "height_mm": mm(if *lying { print.short } else { print.long }),
        }),
    }
}

/// Rounded to a tenth of a micrometre, as in the report.
fn mm(length: Length) -> f64 {
    number::rounded(length.mm(), 4)
}
