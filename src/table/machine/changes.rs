// SPDX-License-Identifier: MIT
//! What the page asks to change of a cutter file, or of what was measured. What can't be used is written all the same: it is told
//! at its field, and nothing is cut with it.

use super::CUTTER;
use super::form::{EITHER, SHEETS_A_BED, STATED, fields};
use super::measured::{self, MEASURED};
use crate::fields::{Change, Field, Node, Source, Tree};
use crate::finding::{Finding, Said};
use crate::table::change::Wanted;
use crate::table::hand::{Hand, gone, plain, value};
use crate::table::question::Question;
use crate::table::said;
use serde_json::{Value, json};

/// The text with its change; `kind` is what it is a file of.
pub(in crate::table) fn work(source: Source, question: &Question, kind: &str) -> Value {
    let Some(wanted) = &question.change else { return json!({ "text": question.text, "kind": kind }) };
    let shown = source.clone();
    let mut hand = Hand { source, notes: Vec::new() };
    match changed(&mut hand, wanted) {
        Ok(()) => json!({ "text": hand.source.mark().to_owned() + hand.source.text(), "kind": kind }),
        Err(finding) => {
            json!({ "refused": true, "kind": kind, "field": null, "findings": said::findings(&[*finding], &shown) })
        }
    }
}

fn changed(hand: &mut Hand, wanted: &Wanted) -> Result<(), Box<Finding>> {
    let Wanted::Set { path, typed } = wanted else { return Err(gone(Said::new("the-machine"))) };
    let root = Node::read(&hand.source)?;
    let typed = typed.trim();
    if let Some(path) = path.strip_prefix(MEASURED).and_then(|path| path.strip_prefix('.')) {
        return set(hand, &root, path, (measured::field(path).ok_or_else(|| gone(path))?, typed));
    }
    let path = path.strip_prefix(CUTTER).and_then(|path| path.strip_prefix('.')).ok_or_else(|| gone(path.as_str()))?;
    if EITHER.contains(&path) {
        return either(hand, &root, path, typed);
    }
    if path == SHEETS_A_BED {
        return a_bed(hand, &root, typed);
    }
    let (way, name) = path.rsplit_once('.').unwrap_or(("", path));
    let known = fields(way);
    let field = known.iter().find(|field| field.name == name).ok_or_else(|| gone(path))?;
    // One number stood for all of them.
    if let Some(Tree::Number(_)) = root.at(way).map(|node| &node.tree).filter(|_| !way.is_empty()) {
        let all = root.at(way).and_then(plain).unwrap_or_default();
        let each: Value = known.iter().map(|field| (field.name.to_owned(), all.clone())).collect();
        hand.alter(&Change::Set { path: way.into(), value: each })?;
    }
    let root = Node::read(&hand.source)?;
    // Without the speed of cuts nothing is said of speeds.
    let path = if typed.is_empty() && path == "speed.cut" { way } else { path };
    set(hand, &root, path, (field, typed))
}

fn set(hand: &mut Hand, root: &Node, path: &str, (field, typed): (&Field, &str)) -> Result<(), Box<Finding>> {
    let path = path.to_owned();
    if !typed.is_empty() {
        return hand.alter(&Change::Set { path, value: value(field, typed) });
    }
    if root.at(&path).is_some() { hand.alter(&Change::Remove { path }) } else { Ok(()) }
}

/// How many sheets lie on the bed; places that are stated stay as they are.
fn a_bed(hand: &mut Hand, root: &Node, typed: &str) -> Result<(), Box<Finding>> {
    let path = SHEETS_A_BED.to_owned();
    match typed {
        "" if root.at(&path).is_some() => hand.alter(&Change::Remove { path }),
        "" | STATED => Ok(()),
        _ => {
            let value = typed.parse::<u32>().map_or_else(|_| typed.into(), Value::from);
            hand.alter(&Change::Set { path, value })
        }
    }
}

/// A word or nothing, or else an object with what is said of it where nothing is said: our choice, check value K4 for scores.
fn either(hand: &mut Hand, root: &Node, path: &str, typed: &str) -> Result<(), Box<Finding>> {
    let node = root.at(path).map(|node| &node.tree);
    if typed.is_empty() {
        return if node.is_some() { hand.alter(&Change::Remove { path: path.into() }) } else { Ok(()) };
    }
    if matches!(node, Some(Tree::Object(_))) {
        return Ok(());
    }
    let value = match path {
        "score" => json!({ "dash": "2 mm", "gap": "1 mm" }),
        "nicks" => json!({ "length": "0.5 mm", "count": 2 }),
        _ => json!({ "shape": "corner", "number": 4 }),
    };
    hand.alter(&Change::Set { path: path.into(), value })
}
