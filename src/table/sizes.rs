// SPDX-License-Identifier: MIT
//! Page sizes that would take fewer sheets, for the page.

use super::words;
use crate::album::Album;
use crate::finding::{Arg, Said};
use crate::length::Length;
use crate::sheets::Tally;
use crate::sizes::{Jump, Size, Survey, jumps};
use serde_json::{Value, json};

/// The sizes of a survey that save something, or cost nothing more and are larger.
pub(super) fn sizes(album: &Album, survey: &Survey) -> Value {
    let Some(own) = &survey.own else { return json!({ "sentence": "", "sizes": [] }) };
    let jumps: Vec<Jump> = jumps(survey).into_iter().filter(|jump| !matches!(jump, Jump::Costs(_))).collect();
    let saving = jumps.iter().filter(|jump| matches!(jump, Jump::Saves(_))).count() as u64;
    let sentence = Said::new("sizes-near").with("saving", saving).with("tried", survey.tried);
    let rows: Vec<Value> = jumps.iter().map(|jump| row(album, own, jump)).collect();
    json!({ "sentence": words::say(&sentence), "sizes": rows })
}

fn row(album: &Album, own: &Size, jump: &Jump) -> Value {
    let size = jump.size();
    let counts: Vec<Arg> = size.tallies.iter().filter_map(|tally| instead(album, own, tally)).collect();
    let money = own.cost.zip(size.cost).map(|(own, cost)| cost - own).filter(|more| more.abs() >= 0.005);
    let way = money.map_or("none", |more| if more < 0.0 { "less" } else { "more" });
    let counts = Said::new("size-counts")
        .with("counts", counts.len())
        .with("sheets", Arg::Row(counts))
        .with("way", Arg::code(way))
        .with("money", Arg::code(format!("{:.2}", money.unwrap_or_default().abs())));
    let named = Said::new("size-apart").with("size", words::sides(album, size.width, size.height));
    json!({
        "saves": matches!(jump, Jump::Saves(_)),
        "words": words::say(&named.with("apart", apart(album, own, size))),
        "counts": words::say(&counts),
        "width": size.width.eighths(),
        "height": size.height.eighths(),
    })
}

/// `8 sheets of card instead of 9`, where it is another number.
fn instead(album: &Album, own: &Size, tally: &Tally) -> Option<Arg> {
    let before = own.sheets(tally.stock);
    let name = album.stock_name(tally.stock);
    let said = Said::new(if tally.proven_least { "size-sheets" } else { "size-sheets-or-fewer" });
    let said = said.with("sheets", tally.sheets).with("paper", name).with("before", before);
    (before != tally.sheets).then(|| said.into())
}

/// `1 mm narrower and 2 mm shorter`
fn apart(album: &Album, own: &Size, size: &Size) -> Arg {
    let way = |off: Length, less: &'static str, more: &'static str| {
        let key = if off < Length::ZERO { less } else { more };
        (off.eighths() != 0).then(|| Said::new(key).with("by", album.length(off.abs().mm())).into())
    };
    let across = way(size.width - own.width, "narrower", "wider");
    let up = way(size.height - own.height, "shorter", "taller");
    Arg::All(across.into_iter().chain(up).collect())
}
