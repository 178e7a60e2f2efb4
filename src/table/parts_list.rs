// SPDX-License-Identifier: MIT
//! The parts and the way they go together, for the page.

use super::{pictures, words};
use crate::finding::Said;
use crate::length::Length;
use crate::picture;
use crate::work::Work;
use crate::write;
use serde_json::{Value, json};

/// Room of a part's picture, mm.
const ROOM: (f64, f64) = (110.0, 110.0);

/// How the album looks closed, how hands put it together, and each part flat with its sizes.
pub(super) fn folds(work: &Work) -> Value {
    let (album, kit) = (&work.album, &work.kit);
    let say = |mm: f64| Length::from_mm(mm).read_off(album.units).plain(album.units);
    let drawn: Vec<String> = kit
        .parts
        .iter()
        .map(|part| write::linked(&picture::part_within(part, &picture::stuff(album, part), ROOM, &say).0))
        .collect();
    let folded = pictures::folded(album, kit);
    let closed = (!work.stopped()).then(|| pictures::closed(album, kit, &folded));
    let laid = pictures::laid(work, &folded).map(|(picture, between)| {
        let said = Said::new("laid-open").with("page", between).with("next", between + 1);
        json!({ "picture": picture, "words": words::say(&said) })
    });
    json!({ "closed": closed, "laid": laid, "steps": pictures::steps(work), "parts": drawn })
}

/// The parts of a kit, each once.
pub(super) fn parts(work: &Work) -> Value {
    let rows: Vec<Value> = work
        .kit
        .parts
        .iter()
        .map(|part| {
            let size = words::sides(&work.album, Length::from_mm(part.flat.width), Length::from_mm(part.flat.height));
            let stock = work.album.stock_name(part.stock);
            json!({
                "id": part.id,
                "kind": part.kind,
                "size": size,
                "count": part.count,
                "stock": stock,
                "scores": part.flat.scores.len(),
                "used": part.used_in.iter().map(ToString::to_string).collect::<Vec<_>>().join(", "),
            })
        })
        .collect();
    let pieces = work.kit.pieces.len() as u64;
    let sentence = Said::new("pieces-of-a-kit").with("pieces", pieces).with("different", rows.len());
    json!({ "sentence": words::say(&sentence), "parts": rows })
}
