// SPDX-License-Identifier: MIT
//! The small album about each kind's example.

use crate::album::Role;
use crate::parts::maker::Maker;

/// Pages that hang on a spine, or that a cover goes round, when one is shown.
const FOUR: &str = r#"{ "kind": "pocket" }, { "kind": "pocket" }, { "kind": "pocket" }, { "kind": "pocket" }"#;

/// The text of an album with the kind's example in it: a single page, a spine with four pages, a cover round them, an
/// insert in one page's pocket. Sizes in mm, pages 148 x 190 mm; our choice.
#[must_use]
pub fn example(maker: &Maker) -> String {
    let entry = maker.example;
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
  "page": {{ "width": 148, "height": 190, "seam": 12, "stock": "card" }},
  "pages": [{pages}]{rest}
}}
"#,
        maker.kind.name
    )
}
