// SPDX-License-Identifier: MIT
//! What chapters are put together from: a heading with what stands below it.

use maud::{Markup, PreEscaped, html};
use std::collections::BTreeSet;

/// A heading and what stands below it, up to the next.
#[derive(Debug, Default)]
pub(super) struct Passage {
    /// Its place on the page; empty before the first heading.
    pub id: String,
    pub title: String,
    /// 2 or 3.
    pub level: u8,
    pub body: String,
}

impl Passage {
    pub(super) fn new(level: u8, title: &str, body: &Markup) -> Self {
        Self { id: slug(title), title: title.to_owned(), level, body: body.clone().into_string() }
    }

    pub(super) fn shown(&self) -> Markup {
        html! {
            @match (self.title.is_empty(), self.level) {
                (true, _) => {}
                (_, 3) => { h3 id=(self.id) { (self.title) } }
                _ => { h2 id=(self.id) { (self.title) } }
            }
            (PreEscaped(&self.body))
        }
    }

    /// Its words, each once, in small letters.
    pub(super) fn words(&self) -> String {
        let mut text = String::new();
        let mut within = true;
        for part in self.body.split('<') {
            // What stands before the first tag is text.
            let shown = if within { part } else { part.split_once('>').map_or("", |(_, text)| text) };
            within = false;
            text.push_str(shown);
            text.push(' ');
        }
        let text = text.to_lowercase();
        let words = text.split(|letter: char| !letter.is_alphanumeric() && letter != '-');
        let all: BTreeSet<&str> = words.filter(|word| word.chars().count() > 2).collect();
        all.into_iter().collect::<Vec<_>>().join(" ")
    }
}

/// What a heading is called in links.
pub(super) fn slug(title: &str) -> String {
    let letter = |letter: char| if letter.is_alphanumeric() { letter.to_ascii_lowercase() } else { '-' };
    let dashed: String = title.chars().map(letter).collect();
    dashed.split('-').filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-")
}
