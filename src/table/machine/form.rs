// SPDX-License-Identifier: MIT
//! The machine's form: the fields of a cutter file in groups, what is wrong with them, what was measured.

use super::{CUTTER, Machine, measured, within};
use crate::cutter::{COLOUR_FIELDS, DASH_FIELDS, NICKS_FIELDS, PASSES_FIELDS, SETTINGS, SPEED_FIELDS};
use crate::fields::{Field, Node, Tree};
use crate::finding::{Finding, Said};
use crate::length::Units;
use crate::table::form::{self, FormFile};
use crate::table::words;
use serde_json::{Value, json};

/// The fields that are seen together, each group under a heading of the page's words.
const GROUPS: [(&str, &[&str]); 5] = [
    ("machine-sheet", &["margin", "gap", "kerf", "bed"]),
    (
        "machine-strokes",
        &[
            "passes.cut",
            "passes.score",
            "passes.draw",
            "score",
            "score.dash",
            "score.gap",
            "both_ways",
            "nicks",
            "nicks.length",
            "nicks.count",
            "nicks.small_count",
            "nicks.small_under",
        ],
    ),
    (
        "machine-way",
        &["overrun", "trail", "corner_help", "start", "order", "direction", "shared_cuts", "smallest_inner"],
    ),
    (
        "machine-files",
        &[
            "curves",
            "curve_tolerance",
            "layer_order",
            "split_layers",
            "svg_units",
            "svg_lines",
            "hairline",
            "dxf_version",
            "dxf_layers",
            "dxf_lines",
            "colours.cut",
            "colours.score",
            "colours.draw",
        ],
    ),
    ("machine-time", &["speed.cut", "speed.score", "speed.draw", "lift"]),
];

/// The fields of an object within a cutter file; `""` is the file itself.
pub(super) fn fields(way: &str) -> &'static [Field] {
    match way {
        "" => SETTINGS,
        "passes" => PASSES_FIELDS,
        "score" => DASH_FIELDS,
        "nicks" => NICKS_FIELDS,
        "speed" => SPEED_FIELDS,
        "colours" => COLOUR_FIELDS,
        _ => &[],
    }
}

/// The form; `findings` are those of the settings' reader.
pub(in crate::table) fn form(machine: &Machine, findings: &[Finding]) -> Value {
    let root = machine.source().ok().and_then(|source| Node::read(&source).ok());
    let root = within(CUTTER, root.unwrap_or(Node { range: 0..0, tree: Tree::Object(Vec::new()) }));
    let file = FormFile { root: &root, units: units(&root), stocks: &[] };
    let group = |(title, names): &(&'static str, &[&str])| {
        let rows: Vec<Value> = names.iter().filter_map(|name| row(&file, name)).collect();
        json!({ "key": title, "title": words::say(&Said::new(title)), "rows": rows })
    };
    json!({
        "findings": machine.told(findings),
        "groups": GROUPS.iter().map(group).collect::<Vec<_>>(),
        "measured": measured::form(machine),
    })
}

/// The unit of the file's bare numbers.
fn units(root: &Node) -> Units {
    match root.at("cutter.units").map(|node| &node.tree) {
        Some(Tree::Text(units)) => Units::parse(units).unwrap_or(Units::Mm),
        _ => Units::Mm,
    }
}

fn row(file: &FormFile<'_>, name: &str) -> Option<Value> {
    let node = file.root.at(&format!("{CUTTER}.{name}"));
    if matches!(name, "score" | "nicks") {
        return Some(either(name, node));
    }
    let (way, field) = name.rsplit_once('.').unwrap_or(("", name));
    let head = file.root.at(&format!("{CUTTER}.{way}")).map(|node| &node.tree);
    // What only says more of a choice is there once that is made.
    if matches!(way, "score" | "nicks") && !matches!(head, Some(Tree::Object(_))) {
        return None;
    }
    let at = if way.is_empty() { CUTTER.to_owned() } else { format!("{CUTTER}.{way}") };
    let found = fields(way).iter().find(|known| known.name == field)?;
    let mut row = form::row(file, &at, found, None)?;
    // One number may stand for all three.
    if let (Some(Tree::Number(all)), None) = (head.filter(|_| !way.is_empty()), node) {
        row["value"] = all.to_string().into();
        row["given"] = true.into();
    }
    if way == "colours" {
        row["takes"] = "colour".into();
    }
    row["label"] = words::label(&format!("cutter-{}", name.replace('.', "-"))).into();
    if let Some(about) = words::about(&format!("cutter-{}", name.replace('.', "-"))) {
        row["about"] = about.into();
    }
    Some(row)
}

/// A choice between a word and an object that says more.
fn either(name: &str, node: Option<&Node>) -> Value {
    let more = node.is_some_and(|node| matches!(node.tree, Tree::Object(_)));
    let said = |key: &'static str| words::say(&Said::new(key));
    let (usual, other) = if name == "score" { ("score-line", "score-dashes") } else { ("nicks-none", "nicks-some") };
    json!({
        "path": format!("{CUTTER}.{name}"),
        "label": words::label(&format!("cutter-{name}")),
        "about": words::about(&format!("cutter-{name}")),
        "value": if more { "more" } else { "" },
        "given": more,
        "needed": false,
        "usual": said(usual),
        "takes": "choice",
        "choices": [{ "value": "more", "label": said(other) }],
    })
}
