// SPDX-License-Identifier: MIT
//! Page sizes that would take fewer sheets, for the page.

use super::words;
use crate::album::Album;
use crate::length::{Length, Ruler};
use crate::sheets::Tally;
use crate::sizes::{Jump, Size, Survey, jumps};
use serde_json::{Value, json};

/// The sizes of a survey that save something, or cost nothing more and are larger.
pub(super) fn sizes(album: &Album, survey: &Survey) -> Value {
    let Some(own) = &survey.own else { return json!({ "sentence": "", "sizes": [] }) };
    let jumps: Vec<Jump> = jumps(survey).into_iter().filter(|jump| !matches!(jump, Jump::Costs(_))).collect();
    let saving = jumps.iter().filter(|jump| matches!(jump, Jump::Saves(_))).count() as u64;
    let sentence = match saving {
        0 => format!("None of {} sizes near yours takes fewer sheets.", survey.tried),
        many => format!("{} near yours would save something.", words::counted(many, "size")),
    };
    let rows: Vec<Value> = jumps.iter().map(|jump| row(album, own, jump)).collect();
    json!({ "sentence": sentence, "sizes": rows })
}

fn row(album: &Album, own: &Size, jump: &Jump) -> Value {
    let size = jump.size();
    let counts: Vec<String> = size.tallies.iter().filter_map(|tally| instead(album, own, tally)).collect();
    let counts = if counts.is_empty() { "as many sheets".to_owned() } else { counts.join(", ") };
    let money = own.cost.zip(size.cost).map(|(own, cost)| cost - own).filter(|more| more.abs() >= 0.005);
    let money = money.map_or_else(String::new, |more| {
        format!(", {:.2} {} a kit", more.abs(), if more < 0.0 { "less" } else { "more" })
    });
    json!({
        "saves": matches!(jump, Jump::Saves(_)),
        "words": format!("{} ({})", words::sides(album, size.width, size.height), apart(album, own, size)),
        "counts": format!("{counts}{money}"),
        "width": size.width.eighths(),
        "height": size.height.eighths(),
    })
}

/// `8 sheets of card instead of 9`, where it is another number.
fn instead(album: &Album, own: &Size, tally: &Tally) -> Option<String> {
    let before = own.sheets(tally.stock);
    let name = album.stocks.get(tally.stock).map_or("", |stock| stock.name.as_str());
    let unsure = if tally.proven_least { "" } else { " or fewer" };
    (before != tally.sheets)
        .then(|| format!("{} of {name}{unsure} instead of {before}", words::counted(tally.sheets, "sheet")))
}

/// `1 mm narrower and 2 mm shorter`
fn apart(album: &Album, own: &Size, size: &Size) -> String {
    let way = |off: Length, less: &str, more: &str| {
        let word = if off < Length::ZERO { less } else { more };
        (off.eighths() != 0).then(|| format!("{} {word}", off.abs().show(album.units, Ruler::SixtyFourth)))
    };
    let across = way(size.width - own.width, "narrower", "wider");
    let up = way(size.height - own.height, "shorter", "taller");
    across.into_iter().chain(up).collect::<Vec<_>>().join(" and ")
}
