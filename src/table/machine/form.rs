// SPDX-License-Identifier: MIT
//! The machine's form: the fields of a cutter file in groups, what is wrong with them, what was measured.

use super::{CUTTER, Machine, measured, within};
use crate::cutter::{COLOUR_FIELDS, DASH_FIELDS, MARKS_FIELDS, NICKS_FIELDS, PASSES_FIELDS, SETTINGS, SPEED_FIELDS};
use crate::fields::{Field, Node, Tree};
use crate::finding::{Finding, Said};
use crate::length::Units;
use crate::table::form::{self, FormFile};
use crate::table::words;
use serde_json::{Value, json};

/// The fields that are seen together, each group under a heading of the page's words.
const GROUPS: [(&str, &[&str]); 6] = [
    ("machine-sheet", &["margin", "gap", "kerf", "bed", "sheets_a_bed"]),
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
            "text",
            "text_side",
            "pen",
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
        "machine-print",
        &[
            "marks",
            "marks.shape",
            "marks.size",
            "marks.inset",
            "marks.number",
            "marks.line",
            "marks.along",
            "marks.bleed",
        ],
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
            "colours.register",
        ],
    ),
    ("machine-time", &["speed.cut", "speed.score", "speed.draw", "lift"]),
];

/// The fields that take a word or nothing, or else an object that says more.
pub(super) const EITHER: [&str; 3] = ["score", "nicks", "marks"];

/// The fields of an object within a cutter file; `""` is the file itself.
pub(super) fn fields(way: &str) -> &'static [Field] {
    match way {
        "" => SETTINGS,
        "passes" => PASSES_FIELDS,
        "score" => DASH_FIELDS,
        "nicks" => NICKS_FIELDS,
        "marks" => MARKS_FIELDS,
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
    if EITHER.contains(&name) {
        return Some(either(name, node));
    }
    if name == SHEETS_A_BED {
        return Some(a_bed(node));
    }
    let (way, field) = name.rsplit_once('.').unwrap_or(("", name));
    let head = file.root.at(&format!("{CUTTER}.{way}")).map(|node| &node.tree);
    // What only says more of a choice is there once that is made.
    if EITHER.contains(&way) && !matches!(head, Some(Tree::Object(_))) {
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

/// How many sheets lie on the bed; places are a file's own, and kept.
fn a_bed(node: Option<&Node>) -> Value {
    let said = |key: &'static str| words::say(&Said::new(key));
    let value = match node.map(|node| &node.tree) {
        None => String::new(),
        Some(Tree::Text(word)) => word.clone(),
        Some(Tree::Number(count)) => count.to_string(),
        Some(_) => STATED.to_owned(),
    };
    let mut choices = vec![json!({ "value": "fill", "label": said("bed-fill") })];
    choices.extend((2..=12).map(|count| json!({ "value": count.to_string(), "label": count.to_string() })));
    if !value.is_empty() && !choices.iter().any(|choice| choice["value"] == value.as_str()) {
        let label = if value == STATED { said("bed-stated") } else { value.clone() };
        choices.push(json!({ "value": value, "label": label }));
    }
    json!({
        "path": format!("{CUTTER}.{SHEETS_A_BED}"),
        "label": words::label("cutter-sheets-a-bed"),
        "about": words::about("cutter-sheets-a-bed"),
        "value": value,
        "given": node.is_some(),
        "needed": false,
        "usual": said("bed-one"),
        "takes": "choice",
        "choices": choices,
    })
}

/// The field that has a row of its own, and what stands for places in it.
pub(super) const SHEETS_A_BED: &str = "sheets_a_bed";
pub(super) const STATED: &str = "stated";

/// A choice between a word and an object that says more.
fn either(name: &str, node: Option<&Node>) -> Value {
    let more = node.is_some_and(|node| matches!(node.tree, Tree::Object(_)));
    let said = |key: &'static str| words::say(&Said::new(key));
    let (usual, other) = match name {
        "score" => ("score-line", "score-dashes"),
        "nicks" => ("nicks-none", "nicks-some"),
        _ => ("marks-none", "marks-some"),
    };
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
