// SPDX-License-Identifier: MIT
//! Another unit for an album file without another size: every length stays what it is.
//!
//! A bare number gets its unit, as a text; a text that then carries the file's own unit becomes a bare number again. What
//! is left out has one default in metric files and another in inch files, so it is written out first.

use super::hand::{Hand, plain};
use crate::album::{self, Album, Entry, PAGE_FIELDS, PANEL_FIELDS, TOP_FIELDS};
use crate::cutter::{Cutter, DASH_FIELDS, MARKS_FIELDS, NICKS_FIELDS, SETTINGS};
use crate::fields::{Change, Fallback, Field, Node, Source, Takes, Tree};
use crate::finding::{Arg, Finding, Said};
use crate::length::tolerance::SAME;
use crate::length::{Length, Units};
use crate::outline::OUTLINE_FIELDS;
use crate::stock::STOCK_FIELDS;
use crate::trial::Trial;
use serde_json::{Value, json};

/// Lets an album file be in other units.
pub(super) fn convert(hand: &mut Hand, album: &Album, to: Units) -> Result<(), Box<Finding>> {
    if to == album.units {
        return Ok(());
    }
    let root = Node::read(&hand.source)?;
    // A spine that the file leaves out has lengths of its own all the same.
    if root.at("spine").is_none() {
        let mut spine = json!({ "kind": album.spine.kind.name });
        for field in album.spine.kind.fields {
            if let Some(value) = left_out(field, album.units, to) {
                spine[field.name] = value;
            }
        }
        if spine.as_object().is_some_and(|spine| spine.len() > 1) {
            hand.alter(&Change::Set { path: "spine".into(), value: spine })?;
        }
    }
    for (way, fields) in objects(album, &root) {
        let Some(object) = root.at(&way) else { continue };
        for field in fields {
            let path = if way.is_empty() { field.name.to_owned() } else { format!("{way}.{}", field.name) };
            let value = match object.get(field.name) {
                Some(node) => rewritten(field, node, album.units, to),
                None => left_out(field, album.units, to),
            };
            if let Some(value) = value {
                hand.alter(&Change::Set { path, value })?;
            }
        }
    }
    hand.alter(&Change::Set { path: "units".into(), value: to.name().into() })
}

/// What a maker should know of the change: sizes that are worked out lie on the marks of the new unit's ruler.
pub(super) fn moved(before: &Album, after: &Source) -> Option<Said> {
    let cutter = Cutter::default();
    let mut after = album::read(after, &before.kinds).value?;
    after.draw_like(before);
    let (one, other) = (Trial::of(before.clone(), &cutter), Trial::of(after, &cutter));
    let (one, other) = (one.kit()?, other.kit()?);
    let apart = one.parts.iter().zip(&other.parts).map(|(one, other)| {
        let (width, height) = (one.flat.width - other.flat.width, one.flat.height - other.flat.height);
        width.abs().max(height.abs())
    });
    let most = apart.fold(0.0, f64::max);
    // Arithmetic alone moves less than this, mm.
    (most > SAME).then(|| {
        let most = Length::from_mm((most * 100.0).ceil() / 100.0);
        Said::new("on-another-ruler").with("most", Arg::Length(most, Units::Mm))
    })
}

/// The objects of a file that hold lengths, by their ways.
fn objects(album: &Album, root: &Node) -> Vec<(String, Vec<&'static Field>)> {
    let all = |fields: &'static [Field]| fields.iter().collect::<Vec<_>>();
    let of =
        |way: String, entry: &Entry| (way, entry.kind.fields.iter().chain(entry.kind.common()).collect::<Vec<_>>());
    let mut objects = vec![(String::new(), all(TOP_FIELDS)), ("page".into(), all(PAGE_FIELDS))];
    objects.push(("panels".into(), all(PANEL_FIELDS)));
    objects.extend(album.stocks.iter().map(|stock| (format!("stocks.{}", stock.name), all(STOCK_FIELDS))));
    for stock in &album.stocks {
        let cutter = format!("stocks.{}.cutter", stock.name);
        // What says its own units keeps them.
        if root.at(&format!("{cutter}.units")).is_some() {
            continue;
        }
        objects.push((format!("{cutter}.score"), all(DASH_FIELDS)));
        objects.push((format!("{cutter}.nicks"), all(NICKS_FIELDS)));
        objects.push((format!("{cutter}.marks"), all(MARKS_FIELDS)));
        objects.push((cutter, all(SETTINGS)));
    }
    for (list, entries) in [("pages", &album.pages), ("inserts", &album.inserts)] {
        objects.extend(entries.iter().enumerate().map(|(index, entry)| of(format!("{list}[{index}]"), entry)));
        let outlines = entries.iter().enumerate().filter(|(_, entry)| entry.outline.is_some());
        objects.extend(outlines.map(|(index, _)| (format!("{list}[{index}].outline"), all(OUTLINE_FIELDS))));
    }
    objects.push(of("spine".into(), &album.spine));
    objects.extend(album.cover.iter().map(|cover| of("cover".into(), cover)));
    objects
}

/// The same length in a file of other units, where it has to be written otherwise.
fn rewritten(field: &Field, node: &Node, from: Units, to: Units) -> Option<Value> {
    if !matches!(field.takes, Takes::Length { .. } | Takes::Caliper) {
        return None;
    }
    match &node.tree {
        // Nothing is nothing in every unit.
        Tree::Number(number) if *number != 0.0 => Some(format!("{number} {}", from.name()).into()),
        Tree::Text(text) => {
            let text = text.trim();
            // A unit, or a mark that stands for one, comes last.
            let bare = text.ends_with(char::is_numeric);
            if bare {
                return Some(format!("{text} {}", from.name()).into());
            }
            let number = text.strip_suffix(to.name())?.trim_end();
            let value: f64 = number.parse().ok().filter(|_| number.chars().all(|c| c.is_ascii_digit() || c == '.'))?;
            let number = Node { range: 0..0, tree: Tree::Number(value) };
            plain(&number)
        }
        _ => None,
    }
}

/// What has to be written for a field that is left out and means another length in other units.
fn left_out(field: &Field, from: Units, to: Units) -> Option<Value> {
    let Fallback::Length { .. } = field.fallback else { return None };
    let (before, after) = (field.fallback.length(from)?, field.fallback.length(to)?);
    (before.eighths() != after.eighths()).then(|| {
        let unit = if from == Units::In { Units::In } else { Units::Mm };
        format!("{} {}", before.plain(unit), unit.name()).into()
    })
}
