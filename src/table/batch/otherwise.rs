// SPDX-License-Identifier: MIT
//! What is otherwise in a kit, a group of makers or a class than in its album, as rows.

use super::{beside, ways};
use crate::album::Album;
use crate::fields::{Node, Tree};
use crate::stock::{STOCK_FIELDS, is_name};
use crate::table::form::{self, FormFile};
use crate::table::on_table::TableFile;
use crate::table::terms;
use serde_json::{Value, json};

/// What is otherwise in a kit, a group or a class than in its album: values, and cards and papers of its own.
pub(super) fn otherwise(file: &FormFile<'_>, way: &str, album: &str, albums: &[TableFile]) -> (Vec<Value>, Vec<Value>) {
    let of_album = beside::plain(albums, album);
    let changes = changed(file.root, way, of_album.as_ref().map(|(album, _, root)| (album, root)));
    (changes, papers(file, way))
}

/// What is otherwise in a kit than in its album, each as a row.
fn changed(root: &Node, way: &str, of_album: Option<(&Album, &Node)>) -> Vec<Value> {
    let Some(Tree::Object(entries)) = root.at(&format!("{way}.change")).map(|node| &node.tree) else {
        return Vec::new();
    };
    let one = |(within, node): (&String, &Node)| {
        let path = format!("{way}.change.{within}");
        let plain = matches!(node.tree, Tree::Text(_) | Tree::Number(_) | Tree::Flag(_));
        let row = of_album.filter(|_| plain).and_then(|(album, root)| of_field(album, root, within));
        let mut row = row.unwrap_or_else(|| json!({ "about": "", "usual": "", "takes": "text" }));
        row["path"] = path.clone().into();
        row["label"] = ways::named(&path).into();
        row["value"] = beside::shown(node).into();
        row["given"] = true.into();
        row
    };
    let others = entries.iter().filter(|(within, _, node)| !is_paper(within, node));
    others.map(|(within, _, node)| one((within, node))).collect()
}

/// Whether a change is a card or paper that this kit has for itself.
fn is_paper(within: &str, node: &Node) -> bool {
    within.strip_prefix("stocks.").is_some_and(is_name) && matches!(node.tree, Tree::Object(_))
}

/// Cards and papers that this kit has for itself, or has otherwise as a whole.
fn papers(file: &FormFile<'_>, way: &str) -> Vec<Value> {
    let Some(Tree::Object(entries)) = file.root.at(&format!("{way}.change")).map(|node| &node.tree) else {
        return Vec::new();
    };
    let own = entries.iter().filter(|(within, _, node)| is_paper(within, node));
    own.map(|(within, _, node)| {
        let way = format!("{way}.change.{within}");
        let name = within.strip_prefix("stocks.").unwrap_or(within);
        json!({ "name": name, "way": way, "rows": terms::entry_rows(file, node, ("stocks", &way), STOCK_FIELDS) })
    })
    .collect()
}

/// The row of a field of an album for a kit in which it is otherwise: the album's own value is its usual one.
pub(super) fn of_field(album: &Album, root: &Node, within: &str) -> Option<Value> {
    let (way, name) = within.rsplit_once('.').unwrap_or(("", within));
    let field = crate::table::change::field(&album.kinds, root, way, name)?;
    let mut row = form::row(&FormFile::of(album, root), way, field, None)?;
    let given = row["value"].as_str().filter(|value| !value.is_empty()).map(str::to_owned);
    row["usual"] = given.unwrap_or_else(|| row["usual"].as_str().unwrap_or_default().to_owned()).into();
    row["value"] = "".into();
    (row["given"], row["needed"]) = (false.into(), false.into());
    Some(row)
}
