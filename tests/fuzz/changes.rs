// SPDX-License-Identifier: MIT
//! Changes of texts: whatever is changed, the rest stays, and what was put in is there.

use super::corpus::Corpus;
use super::draws::Draws;
use super::files::ALBUMS;
use super::schemas::Schema;
use super::{Answer, Target, spoil};
use hingeleaf::fields::{Change, Node, Source, Tree, alter, edit};
use hingeleaf::length::{Length, Units};
use hingeleaf::{album, parts};
use serde_json::Value;

pub(crate) fn changes() -> Target {
    let corpus = Corpus::new();
    let seeds = corpus.of_format(&ALBUMS, "album");
    let schema = Schema::of(album::schema(&parts::kinds()));
    let texts: Vec<Vec<u8>> = corpus.under(&ALBUMS, "json").map(|(_, bytes)| bytes.to_vec()).collect();
    let make = move |draws: &mut Draws| {
        // The first eight bytes draw the changes.
        let mut input = draws.next().to_le_bytes().to_vec();
        if draws.once_in(2) {
            let text = draws.pick(&texts);
            input.extend(if draws.once_in(2) { text } else { spoil::text(text, draws) });
        } else {
            let json = draws.pick(&seeds);
            input.extend(spoil::file(&json, &seeds, &schema, draws));
        }
        input
    };
    Target { make: Box::new(make), run: Box::new(run) }
}

fn run(bytes: &[u8]) -> Answer {
    let Some((head, text)) = bytes.split_first_chunk::<8>() else { return Ok(false) };
    let mut draws = Draws::of(u64::from_le_bytes(*head), 0);
    let Ok(source) = Source::new("a.json", text.to_vec()) else { return Ok(false) };
    let root = Node::read(&source);
    let ways = root.as_ref().map_or_else(|_| Vec::new(), ways);
    let mut taken = false;
    for _ in 0..3 {
        let change = change(&ways, &mut draws);
        match (alter(&source, &change), &root) {
            (Ok(_), Err(_)) => return Err(format!("{change:?} was made in what is no JSON")),
            (Ok(text), Ok(root)) => {
                taken = true;
                held(&change, root, &text)?;
            }
            (Err(problem), _) if problem.to_string().trim().is_empty() => return Err(format!("{change:?}: no words")),
            (Err(_), _) => {}
        }
    }
    lengths(&source, root.is_ok(), &ways, &mut draws)?;
    Ok(taken)
}

/// All ways into a value.
fn ways(root: &Node) -> Vec<String> {
    fn walk(node: &Node, way: &str, into: &mut Vec<String>) {
        into.push(way.to_owned());
        match &node.tree {
            Tree::Object(fields) => {
                for (name, _, value) in fields {
                    walk(value, &if way.is_empty() { name.clone() } else { format!("{way}.{name}") }, into);
                }
            }
            Tree::Array(items) => {
                items.iter().enumerate().for_each(|(number, value)| walk(value, &format!("{way}[{number}]"), into));
            }
            _ => {}
        }
    }
    let mut all = Vec::new();
    walk(root, "", &mut all);
    all
}

fn way(ways: &[String], draws: &mut Draws) -> String {
    let known = if ways.is_empty() { String::new() } else { draws.pick(ways) };
    match draws.below(8) {
        0 => format!("{known}.new"),
        1 => format!("{known}[{}]", draws.below(4)),
        2 => (draws.pick(&[
            "",
            ".",
            "[",
            "]",
            "a[",
            "a]",
            "pages[99999999999999999999]",
            "pages[-1]",
            "a..b",
            "[0]",
            "é",
        ]))
        .to_owned(),
        _ => known,
    }
}

fn change(ways: &[String], draws: &mut Draws) -> Change {
    let values =
        ["null", "1", "\"a \\\" b\"", "{}", "[]", "{\"a\":[1,{\"b\":\"\\u0000\"}]}", "1.5e-7", "\"é\\n\"", "[[]]"];
    let value: Value = serde_json::from_str(draws.pick(&values)).unwrap_or_default();
    let (way, one, other) = (way(ways, draws), draws.below(5), draws.below(5));
    let at = if draws.once_in(9) { usize::MAX } else { one };
    match draws.below(4) {
        0 => Change::Set { path: way, value },
        1 => Change::Remove { path: way },
        2 => Change::Insert { list: way, at, value },
        _ => Change::Move { list: way, from: at, to: other },
    }
}

/// Numbers as one type has them.
fn plain(value: &Value) -> String {
    fn walk(value: &Value) -> Value {
        match value {
            Value::Number(number) => number.as_f64().map_or(Value::Null, Value::from),
            Value::Array(items) => items.iter().map(walk).collect(),
            Value::Object(fields) => fields.iter().map(|(name, value)| (name.clone(), walk(value))).collect(),
            other => other.clone(),
        }
    }
    walk(value).to_string()
}

/// What was to be done is done, and nothing else.
fn held(change: &Change, before: &Node, text: &str) -> Result<(), String> {
    let source = Source::new("a.json", text.as_bytes().to_vec()).map_err(|_| format!("{change:?} makes no text"))?;
    let after = Node::read(&source).map_err(|finding| format!("{change:?} makes no JSON: {}", finding.headline()))?;
    let at = |node: &Node, way: &str| node.at(way).map(|node| plain(&node.to_value()));
    let items = |node: &Node, way: &str| match node.at(way) {
        Some(Node { tree: Tree::Array(items), .. }) => items.iter().map(|item| plain(&item.to_value())).collect(),
        _ => Vec::new(),
    };
    let (is, should) = match change {
        Change::Set { path, value } => (vec![at(&after, path).unwrap_or_default()], vec![plain(value)]),
        Change::Insert { list, at, value } => {
            let mut should: Vec<String> = items(before, list);
            should.insert((*at).min(should.len()), plain(value));
            (items(&after, list), should)
        }
        Change::Move { list, from, to } => {
            let mut should: Vec<String> = items(before, list);
            let moved = should.remove(*from);
            should.insert(*to, moved);
            (items(&after, list), should)
        }
        Change::Remove { path } => match path.strip_suffix(']').and_then(|path| path.rsplit_once('[')) {
            Some((list, number)) => {
                let mut should: Vec<String> = items(before, list);
                should.remove(number.parse().unwrap_or(0));
                (items(&after, list), should)
            }
            None => return Ok(()),
        },
        _ => return Ok(()),
    };
    if is == should { Ok(()) } else { Err(format!("{change:?} came to {is:?}, not {should:?}")) }
}

/// Single lengths are changed in the file's own way of writing them.
fn lengths(source: &Source, sound: bool, ways: &[String], draws: &mut Draws) -> Result<(), String> {
    let way = way(ways, draws);
    let length = Length::from_eighths(i64::try_from(draws.below(16_000_000)).unwrap_or(0));
    for units in Units::ALL {
        let Ok(text) = edit(source, &[(&way, length)], units, &[("spine", "flexi-hinge")]) else { continue };
        if !sound {
            return Err(format!("{way}: a length in what is no JSON"));
        }
        let next = Source::new("a.json", text.into_bytes()).map_err(|_| format!("{way}: no text"))?;
        let root = Node::read(&next).map_err(|finding| format!("{way}: no JSON: {}", finding.headline()))?;
        let read = match root.at(&way).map(|node| &node.tree) {
            Some(Tree::Number(number)) => Length::from_number(*number, units).ok(),
            Some(Tree::Text(text)) => Length::parse(text, units, hingeleaf::length::Allow::Caliper).ok(),
            _ => None,
        };
        if read.map(Length::eighths) != Some(length.eighths()) {
            return Err(format!("{way}: {length:?} in {} was written as {read:?}", units.name()));
        }
    }
    Ok(())
}
