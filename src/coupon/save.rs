// SPDX-License-Identifier: MIT
//! A cutter file with what was measured in it; all else as the file says that it comes from.

use super::readings::{MeasuredSettings, in_units};
use crate::cutter::{self, Cutter, ScoreMode};
use crate::fields::{Node, Source};
use crate::length::Units;
use serde_json::{Map, Value, json};

/// Nicks that hold are at least so long on the part, mm: a cutter file takes no shorter ones.
const LEAST: f64 = 0.1;

/// Nicks want a gap; where the file says none, this one, mm: our choice.
const GAP: f64 = 1.0;

/// What the new cutter file is called in words, beside the file that the test piece was made with: nothing is written over.
#[must_use]
pub fn save_name(from: Option<&str>) -> &'static str {
    let [usual, other] = ["my-cutter.json", "my-cutter-measured.json"];
    if from.is_some_and(|from| from == usual) { other } else { usual }
}

/// The text of a cutter file with these settings; `from` is the file that the test piece was made with, read without fault.
#[must_use]
pub fn saved(worked: &MeasuredSettings, from: Option<(&Source, &Cutter)>) -> String {
    let base = from.and_then(|(source, _)| Node::read(source).ok()).map(|node| node.to_value());
    let mut file = match base {
        Some(Value::Object(fields)) => fields,
        _ => Map::new(),
    };
    file.insert("format".into(), cutter::FORMAT.into());
    let units = match file.get("units").and_then(Value::as_str).and_then(Units::parse) {
        Some(units) => units,
        None => Units::Mm,
    };
    let known = from.map(|(_, cutter)| cutter.clone()).unwrap_or_default();
    let length = |mm: f64| in_units((mm * 100.0).round() / 100.0, units);
    if let Some((kerf, _)) = worked.kerf {
        file.insert("kerf".into(), length(kerf));
    }
    match worked.score {
        Some(ScoreMode::Line) => drop(file.insert("score".into(), json!("line"))),
        Some(ScoreMode::Dash { dash, gap }) => {
            file.insert("score".into(), json!({ "dash": length(dash.mm()), "gap": length(gap.mm()) }));
        }
        None => {}
    }
    if let Some(overrun) = worked.overrun {
        file.insert("overrun".into(), length(overrun));
    }
    if let Some(trail) = worked.trail {
        file.insert("trail".into(), length(trail));
        file.insert("corner_help".into(), json!(trail > 0.0));
    }
    if let Some(off) = worked.nick {
        // The tool stayed off so long; on the part its own width is missing of that.
        let kerf = worked.kerf.map_or(known.kerf.mm(), |(kerf, _)| kerf);
        let count = known.manner.nicks.map_or(2, |nicks| nicks.count);
        file.insert("nicks".into(), json!({ "length": length((off - kerf).max(LEAST)), "count": count }));
        if known.gap.mm() <= 0.0 {
            file.insert("gap".into(), length(GAP));
            file.remove("shared_cuts");
        }
    }
    format!("{:#}\n", Value::Object(file))
}
