// SPDX-License-Identifier: MIT
//! How a batch begins: from an album on the table, or from a batch file whose albums lie in other folders.

use crate::album::Album;
use crate::batch;
use crate::fields::{Change, Node, Source, Tree, alter};
use crate::parts;
use serde_json::{Value, json};

/// A batch of one kit: the album as it is; none where it can't be read.
pub(in crate::table) fn start(source: &Source) -> Option<Value> {
    let album = parts::read_album(source, &mut parts::no_kind_files).value?;
    let kit = kit(&album, source.name());
    let stem = source.name().strip_suffix(".json").unwrap_or(source.name());
    let line = |value: &Value| value.to_string();
    let text = format!(
        "{{\n  \"format\": {},\n  \"title\": {},\n  \"units\": {},\n  \"kits\": [\n    {{ \"name\": {}, \"album\": {}, \"copies\": {} }}\n  ]\n}}\n",
        line(&json!(batch::FORMAT)),
        line(&json!(album.title)),
        line(&json!(album.units.name())),
        line(&kit["name"]),
        line(&kit["album"]),
        line(&kit["copies"]),
    );
    Some(json!({ "name": format!("{stem}-batch.json"), "text": text }))
}

/// A kit that is the album as it is.
pub(super) fn kit(album: &Album, file: &str) -> Value {
    json!({ "name": name(&album.title), "album": file, "copies": album.copies })
}

/// A kit's name from an album's: `tide-table`.
fn name(title: &str) -> String {
    let letter = |c: char| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' };
    let slug: String = title.chars().map(letter).take(32).collect();
    let mut words = slug.split('-').filter(|word| !word.is_empty());
    let first = words.next().unwrap_or("kit").to_owned();
    words.fold(first, |name, word| name + "-" + word)
}

/// A batch file, and album files by the names that it calls them by, as they lie on the table: all in one place, so what stood in
/// another folder loses its way.
#[must_use]
pub fn brought(name: &str, text: &str, albums: &[(String, String)]) -> (String, Vec<(String, String)>) {
    let mut laid: Vec<(String, String)> = Vec::new();
    let Ok(mut source) = Source::new(name, text.as_bytes().to_vec()) else { return (text.to_owned(), laid) };
    let mut named: Vec<(&str, String)> = Vec::new();
    for (way, text) in albums {
        let file = way.rsplit(['/', '\\']).next().unwrap_or(way);
        let (stem, end) = file.rsplit_once('.').map_or((file, String::new()), |(stem, end)| (stem, format!(".{end}")));
        let numbered = (2..).map(|number| format!("{stem}-{number}{end}"));
        let taken = |one: &String| one == name || laid.iter().any(|(known, _)| known == one);
        let Some(own) = std::iter::once(file.to_owned()).chain(numbered).find(|one| !taken(one)) else { continue };
        named.push((way, own.clone()));
        laid.push((own, text.clone()));
    }
    let count = Node::read(&source).ok().map_or(0, |root| match root.get("kits").map(|kits| &kits.tree) {
        Some(Tree::Array(kits)) => kits.len(),
        _ => 0,
    });
    for number in 0..count {
        let path = format!("kits[{number}].album");
        let Ok(root) = Node::read(&source) else { break };
        let Some(Tree::Text(said)) = root.at(&path).map(|node| node.tree.clone()) else { continue };
        let Some((_, own)) = named.iter().find(|(way, own)| *way == said && *own != said) else { continue };
        let Ok(text) = alter(&source, &Change::Set { path, value: own.clone().into() }) else { continue };
        let Ok(next) = Source::new(name, text.into_bytes()) else { continue };
        source = next;
    }
    (source.mark().to_owned() + source.text(), laid)
}
