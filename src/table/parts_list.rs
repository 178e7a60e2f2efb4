// SPDX-License-Identifier: MIT
//! The parts and the way they go together, for the page.

use super::words;
use crate::length::Length;
use crate::work::Work;
use serde_json::{Value, json};

/// The parts of a kit, each once.
pub(super) fn parts(work: &Work) -> Value {
    let rows: Vec<Value> = work
        .kit
        .parts
        .iter()
        .map(|part| {
            let size = words::sides(&work.album, Length::from_mm(part.flat.width), Length::from_mm(part.flat.height));
            let stock = work.album.stocks.get(part.stock).map_or("", |stock| stock.name.as_str());
            json!({
                "id": part.id,
                "kind": part.kind,
                "size": size,
                "count": part.count,
                "stock": stock,
                "scores": part.flat.scores.len(),
                "used": part.used_in.join(", "),
            })
        })
        .collect();
    let pieces = work.kit.pieces.len() as u64;
    let sentence = format!("{}, {} of them different.", words::counted(pieces, "piece"), rows.len());
    json!({ "sentence": sentence, "parts": rows })
}
