// SPDX-License-Identifier: MIT
//! Whether what lies in a pocket can be taken hold of, and comes out freely.

use super::put::Put;
use crate::album::{Album, Entry};
use crate::finding::{Finding, Said};
use crate::length::Length;
use crate::parts::Way;

/// What lies deeper than this in its pocket cannot be taken hold of: our choice, mm.
const DEEP: f64 = 12.0;

/// Whether there is nothing of it to take hold of: neither a hole for a ribbon nor an edge near a mouth.
pub(super) fn hidden(put: &Put<'_>) -> bool {
    !put.insert.pull && deep(put).1 > DEEP
}

fn deep(put: &Put<'_>) -> (Way, f64) {
    put.pocket.deep((put.insert.width, put.insert.height))
}

/// One note for all that lie so.
pub(super) fn check(album: &Album, hidden: &[&Put<'_>]) -> Option<Finding> {
    let deepest = hidden.iter().max_by(|one, other| deep(one).1.total_cmp(&deep(other).1))?;
    let (insert, (way, lies)) = (deepest.insert, deep(deepest));
    let key = if way == Way::Up && hidden.len() == 1 { "no-grip-sunk" } else { "no-grip" };
    let text =
        Said::new(key).with("deep", album.rough(lies)).with("page", deepest.pocket.page).with("more", hidden.len() - 1);
    // A booklet's holes are for its thread.
    let ribbon = |entry: &Entry| {
        let has = |name: &str| entry.kind.fields.iter().any(|field| field.name == name);
        has("hole") && !has("holes")
    };
    let mut entries = album.inserts.iter().enumerate();
    let holed = entries.any(|(number, entry)| insert.path == format!("inserts[{number}]") && ribbon(entry));
    let help = match (holed, way) {
        (true, Way::Across) => "no-grip-help-hole",
        (false, Way::Across) => "no-grip-help",
        (true, Way::Up) => "no-grip-sunk-help-hole",
        (false, Way::Up) => "no-grip-sunk-help",
    };
    Some(
        Finding::note("no-grip", Said::named(&insert.name), text)
            .measured(Length::from_mm(lies), Length::from_mm(DEEP))
            .help(Said::new(help))
            .at(insert.places[way as usize].as_ref()),
    )
}

/// A print whose corners are tucked through slots stands into the sleeve behind it.
pub(super) fn catches(put: &Put<'_>) -> Finding {
    let text = Said::new("catches-on-corners").with("page", put.pocket.page);
    Finding::note("catches-on-corners", Said::named(&put.insert.name), text)
        .help(Said::new("catches-on-corners-help"))
        .at(put.insert.places[0].as_ref())
}
