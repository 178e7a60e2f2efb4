// SPDX-License-Identifier: MIT
//! The small album about each kind's example.

use super::kinds::kinds;
use crate::album::{self, Album, Role};
use crate::fields::Source;
use crate::parts::maker::Maker;

/// Pages that hang on a spine, or that a cover goes round, when one is shown.
const FOUR: &str = r#"{ "kind": "pocket" }, { "kind": "pocket" }, { "kind": "pocket" }, { "kind": "pocket" }"#;

/// What the album about an example is called in findings.
pub(crate) const EXAMPLE: &str = "example.json";

/// The text of an album with the kind's example in it: a single page, a spine with four pages, a cover round them, an
/// insert in one page's pocket. Sizes in mm, pages 148 x 190 mm; our choice.
#[must_use]
pub fn example(maker: &Maker) -> String {
    about(maker, maker.example, (148.0, 190.0, 12.0))
}

/// The album with the kind's example in it, whether the kind is built in or one's own.
#[must_use]
pub fn example_album(maker: &'static Maker) -> Option<Album> {
    read_about(maker, &example(maker))
}

/// Reads the text of an album that may be of this kind besides the built-in ones.
pub(crate) fn read_about(maker: &'static Maker, text: &str) -> Option<Album> {
    let source = Source::new(EXAMPLE, text.as_bytes().to_vec()).ok()?;
    let mut all = kinds();
    if maker.kind.file.is_some_and(|file| !file.is_built_in()) {
        all.push(&maker.kind);
    }
    album::read(&source, &all).value
}

/// The text of an album with this entry of a kind in it; width and height of its pages, their seams, mm.
pub(crate) fn about(maker: &Maker, entry: &str, (width, height, seam): (f64, f64, f64)) -> String {
    let (pages, rest) = match maker.kind.role {
        Role::Page => (entry, String::new()),
        Role::Spine => (FOUR, format!(", \"spine\": {entry}")),
        Role::Cover => (FOUR, format!(", \"cover\": {entry}")),
        Role::Insert => (r#"{ "kind": "pocket" }"#, format!(", \"inserts\": [{entry}]")),
    };
    format!(
        r#"{{
  "format": "hingeleaf-album/1", "title": "{}", "units": "mm",
  "stocks": {{
    "card": {{ "sheet": "A2", "caliper": 0.3 }},
    "paper": {{ "sheet": "A2", "caliper": 0.15, "pattern": "all-over" }},
    "board": {{ "sheet": "A2", "caliper": 2 }}
  }},
  "page": {{ "width": {width}, "height": {height}, "seam": {seam}, "stock": "card" }},
  "pages": [{pages}]{rest}
}}
"#,
        maker.kind.name
    )
}
