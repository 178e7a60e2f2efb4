// SPDX-License-Identifier: MIT
//! The names of fields, kinds and choices as the page shows them.

use crate::album::Album;
use crate::finding::Said;
use crate::length::Length;
use crate::words::{self, Voice};

/// A sentence as the page says it.
pub(super) fn say(said: &Said) -> String {
    words::say(said, Voice::Page)
}

/// What a field is called.
pub(super) fn label(name: &str) -> String {
    capital(&words::label(name))
}

/// What a field is called where it stands: a page's width is not an insert's.
pub(super) fn label_in(way: &str, name: &str) -> String {
    match (way, name) {
        ("page", "width" | "height") => label(&format!("page-{name}")),
        ("spares", _) => label(&format!("spare-{name}")),
        ("packs" | "supplies", "price") => label("sold-price"),
        ("packs" | "supplies", "of") => label(&format!("{way}-of")),
        _ if way.starts_with("kits[") && matches!(name, "name" | "copies" | "album") => label(&format!("kit-{name}")),
        _ if way.ends_with(".outline") && !matches!(name, "width" | "height") => label(&format!("outline-{name}")),
        _ if way.starts_with("class.makers[")
            && way.ends_with(']')
            && matches!(name, "name" | "count" | "album" | "by") =>
        {
            label(&format!("group-{name}"))
        }
        ("class", "album") => label("kit-album"),
        _ if way.contains(".edges[") => label(&format!("edge-{name}")),
        _ if way.ends_with(".choice") => label(&format!("choice-{name}")),
        _ => label(name),
    }
}

/// A field with the place that it stands at: `Page 2, closing flap`.
pub(super) fn named(path: &str) -> String {
    let Some((way, name)) = path.rsplit_once('.') else { return label(path) };
    if let Some((of, _)) = kind_of_all(path) {
        let field = Said::new("field-of-all").with("kind", kind(of).to_lowercase()).with("field", words::label(name));
        return capital(&say(&field));
    }
    let name = if way.contains(".edges[") { format!("edge-{name}") } else { name.to_owned() };
    let field = Said::new("field-at-place").with("place", words::place(path)).with("field", words::label(&name));
    capital(&say(&field))
}

/// The kind that a way for all pages of a kind names, and what follows it.
pub(super) fn kind_of_all(path: &str) -> Option<(&str, &str)> {
    let (kind, rest) = path.strip_prefix("pages[")?.split_once(']')?;
    (!kind.is_empty() && !kind.chars().all(|c| c.is_ascii_digit())).then_some((kind, rest))
}

/// What the page says of a field besides.
pub(super) fn about(name: &str) -> Option<String> {
    words::about(name)
}

/// What a choice is called.
pub(super) fn choice(word: &str) -> String {
    words::choice(word)
}

/// What a kind is called: `Wallet`, `Flexi hinge`.
pub(super) fn kind(name: &str) -> String {
    capital(&name.replace('-', " "))
}

/// `148 × 190 mm`
pub(super) fn sides(album: &Album, width: Length, height: Length) -> String {
    let (width, height) = (album.show(width.mm()), album.show(height.mm()));
    let unit = format!(" {}", album.units.name());
    format!("{} × {height}", width.strip_suffix(&unit).unwrap_or(&width))
}

/// The same for a headline: to the nearest mark of a ruler, without what is left.
pub(super) fn about_sides(album: &Album, width: Length, height: Length) -> String {
    format!("{} × {} {}", width.plain(album.units), height.plain(album.units), album.units.name())
}

/// The same words with a capital.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
