// SPDX-License-Identifier: MIT
//! The test piece on the page: what was read off it, what that says, the cutter file that it makes.

use super::{Machine, within};
use crate::coupon::{self, GROUPS, READINGS, saved, worked};
use crate::cutter;
use crate::fields::{Field, Node, Source, Tree};
use crate::finding::{Finding, Said, stops};
use crate::length::Units;
use crate::table::form::{self, FormFile};
use crate::table::{said, words};
use serde_json::{Value, json};

/// The name under which findings speak of what was measured.
pub(super) const MEASURED: &str = "measured";

/// A file of readings that says nothing yet.
pub(in crate::table) fn empty() -> String {
    format!("{:#}\n", json!({ "format": coupon::FORMAT }))
}

/// The field of a reading.
pub(super) fn field(path: &str) -> Option<&'static Field> {
    match path.split_once('.') {
        Some((group, name)) => {
            let (_, fields) = GROUPS.into_iter().find(|(known, _)| *known == group)?;
            fields.iter().find(|field| field.name == name)
        }
        None => READINGS.into_iter().flatten().find(|field| field.name == path),
    }
}

/// The readings as rows, what they say, and the cutter file with it, which is none as long as something in them is wrong.
pub(super) fn form(machine: &Machine) -> Value {
    let text = if machine.measured.trim().is_empty() { empty() } else { machine.measured.clone() };
    let Ok(source) = Source::new(MEASURED, text.into_bytes()) else { return Value::Null };
    let none = Node { range: 0..0, tree: Tree::Object(Vec::new()) };
    let root = within(MEASURED, Node::read(&source).unwrap_or(none));
    let file = FormFile { root: &root, units: Units::Mm, stocks: &[] };
    let named = |row: &mut Value| {
        let key = row["path"].as_str().unwrap_or_default().replace(['.', '_'], "-");
        row["label"] = words::label(&key).into();
    };
    // In the order of the letters on the piece.
    let group = |name: &str| {
        let fields = GROUPS.into_iter().find(|(known, _)| *known == name).map_or(&[][..], |(_, fields)| fields);
        form::rows(&file, &format!("{MEASURED}.{name}"), fields, &|_| None)
    };
    let [sizes, chosen] = READINGS.map(|fields| form::rows(&file, MEASURED, fields, &|_| None));
    let mut rows: Vec<Value> = [group("scale"), sizes, group("folds"), chosen, group("hang")].concat();
    rows.iter_mut().for_each(named);
    let read = coupon::read(&source);
    let mut findings = read.findings;
    let worked = read.value.map(|measured| worked(&measured));
    findings.extend(worked.iter().flat_map(|worked| worked.findings.clone()));
    let settings = worked.and_then(|worked| worked.value).filter(|_| !stops(&findings));
    let from = machine.source().ok().filter(|_| !machine.text.trim().is_empty());
    let from = from.and_then(|source| cutter::read(&source).value.map(|cutter| (source, cutter)));
    let says = machine.text.trim().is_empty() || from.is_some();
    let text = settings
        .filter(|one| says && !one.is_nothing())
        .map(|settings| saved(&settings, from.as_ref().map(|(source, cutter)| (source, cutter))));
    findings.iter_mut().for_each(own);
    json!({ "rows": rows, "findings": said::findings(&findings, &source), "text": text })
}

fn own(finding: &mut Finding) {
    if let Some(place) = &mut finding.place {
        finding.about = Said::new("about-measured");
        place.path = format!("{MEASURED}.{}", place.path);
    }
}
