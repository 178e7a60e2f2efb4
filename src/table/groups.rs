// SPDX-License-Identifier: MIT
//! All pages of a kind at once: one form for them, which says where they differ, and the ways of all that one change concerns.
//!
//! `pages[wallet].pocket` is that field of every wallet of the album.

use super::words;
use crate::fields::{Node, Tree};
use crate::finding::{Arg, Said};
use serde_json::{Value, json};

/// The ways that one for all pages of a kind stands for; none where it stands for none.
pub(super) fn ways(root: &Node, path: &str) -> Option<Vec<String>> {
    let (kind, rest) = words::kind_of_all(path)?;
    let Some(Node { tree: Tree::Array(pages), .. }) = root.at("pages") else { return Some(Vec::new()) };
    let is = |page: &Node| matches!(page.get("kind"), Some(Node { tree: Tree::Text(name), .. }) if name == kind);
    let all = pages.iter().enumerate().filter(|(_, page)| is(page));
    Some(all.map(|(at, _)| format!("pages[{at}]{rest}")).collect())
}

/// The form of each kind that several pages are of, made of their forms.
pub(super) fn forms(pages: &[Value]) -> Vec<Value> {
    let mut kinds: Vec<&str> = pages.iter().filter_map(|page| page["kind"].as_str()).collect();
    kinds.sort_unstable();
    kinds.dedup();
    let of = |kind: &str| -> Vec<(usize, &Value)> {
        pages.iter().enumerate().filter(|(_, page)| page["kind"] == kind).map(|(at, page)| (at + 1, page)).collect()
    };
    kinds.into_iter().map(|kind| (kind, of(kind))).filter(|(_, all)| all.len() > 1).map(form).collect()
}

fn form((kind, all): (&str, Vec<(usize, &Value)>)) -> Value {
    let rows = |list: &str| -> Vec<Value> {
        let first = all.first().and_then(|(_, page)| page[list].as_array()).cloned().unwrap_or_default();
        (0..first.len()).map(|row| together(kind, list, row, &all)).collect()
    };
    let numbers: Vec<Arg> = all.iter().map(|(number, _)| Arg::from(*number)).collect();
    let title = Said::new("all-of-kind").with("count", all.len()).with("kind", words::kind(kind).to_lowercase());
    let which = Said::new("all-of-kind-pages").with("pages", Arg::All(numbers));
    json!({
        "kind": kind,
        "label": words::say(&title),
        "sentence": words::say(&which),
        "pages": all.iter().map(|(number, _)| number - 1).collect::<Vec<_>>(),
        "rows": rows("rows"),
        "more": rows("more"),
    })
}

/// One field of all of them: what they share, or that they differ, and in what.
fn together(kind: &str, list: &str, row: usize, all: &[(usize, &Value)]) -> Value {
    let of = |page: &Value| page[list][row].clone();
    let text = |one: &Value, name: &str| one[name].as_str().unwrap_or_default().to_owned();
    // What a file leaves out is what is usual, and no difference from one that says just that.
    let counts = |one: &Value| {
        let said = text(one, "value");
        let choice = one["choices"].as_array().into_iter().flatten().find(|choice| choice["value"] == said.as_str());
        match choice.map(|choice| text(choice, "label")) {
            Some(label) => label,
            None if said.is_empty() => text(one, "usual"),
            None => said,
        }
    };
    let held: Vec<(usize, Value)> = all.iter().map(|(number, page)| (*number, of(page))).collect();
    let mut shared = held.first().map(|(_, row)| row.clone()).unwrap_or_default();
    let name = text(&shared, "path").rsplit('.').next().unwrap_or_default().to_owned();
    shared["path"] = format!("pages[{kind}].{name}").into();
    if held.iter().any(|(_, row)| counts(row) != counts(&shared)) {
        let each = |(number, row): &(usize, Value)| {
            Arg::from(Said::new("page-has").with("page", *number).with("value", Arg::Own(counts(row))))
        };
        shared["differs"] =
            words::say(&Said::new("pages-differ").with("each", Arg::Row(held.iter().map(each).collect()))).into();
        shared["value"] = "".into();
        shared["usual"] = words::say(&Said::new("they-differ")).into();
        shared["given"] = false.into();
        if let Some(shared) = shared.as_object_mut() {
            shared.remove("exact");
        }
    } else if let Some((_, said)) = held.iter().find(|(_, row)| row["given"] == true) {
        for field in ["value", "given", "exact"] {
            if !said[field].is_null() {
                shared[field] = said[field].clone();
            }
        }
    }
    shared
}
