// SPDX-License-Identifier: MIT
//! The maker's handbook: pages that work from disk, without a network and without this program.
//!
//! In: a language, the commands as they are typed. Out: a page a chapter, one style, one script that searches, the files that the
//! chapters speak of. Never: a rule of its own; it prints what README, the chapter on kinds, the catalogue, the schemas and the broken
//! files with their answers say. What exists in English alone says so in other
//! languages, and is marked for whoever reads it aloud.

mod book_words;
mod chapter;
mod chapters;
mod files;
mod formats;
mod markdown;
mod messages;
mod passage;

pub use chapter::HandbookCommand;

use super::sink::Sink;
use crate::album::Language;
use crate::guide::Words;
use chapter::Chapter;
use maud::{DOCTYPE, Markup, html};
use passage::Passage;
use serde_json::{Value, json};
use std::io;

/// How it looks.
const STYLE: &str = include_str!("style.css");
/// What searches.
const SCRIPT: &str = include_str!("search.js");

/// Writes the handbook; gives how many chapters it has.
///
/// # Errors
/// The sink's.
pub fn handbook(language: Language, commands: &[HandbookCommand], sink: &mut dyn Sink) -> io::Result<usize> {
    let words = Words::new(language);
    let all = chapters::all(language, &words, commands);
    sink.put("index.html", front(language, &words, &all).as_bytes())?;
    for number in 0..all.len() {
        sink.put(all[number].file, page(language, &words, &all, number).as_bytes())?;
    }
    sink.put("style.css", STYLE.as_bytes())?;
    sink.put("search.js", script(&all, &words).as_bytes())?;
    for (name, text) in files::FILES {
        sink.put(&format!("files/{name}"), text.as_bytes())?;
    }
    Ok(all.len())
}

fn head(title: &str) -> Markup {
    html! {
        head {
            meta charset="utf-8";
            meta name="viewport" content="width=device-width, initial-scale=1";
            meta name="color-scheme" content="light dark";
            title { (title) }
            link rel="stylesheet" href="style.css";
            script src="search.js" defer {}
        }
    }
}

/// Every chapter, the one that is read marked, and the field to search in.
fn contents(words: &Words, all: &[Chapter], here: Option<usize>) -> Markup {
    html! {
        nav aria-label=(words.text("page-book-contents")) {
            form role="search" {
                label for="search" { (words.text("page-book-search")) }
                input id="search" type="search" autocomplete="off" placeholder=(words.text("page-book-search-hint"));
            }
            div id="found" aria-live="polite" {}
            ol class="chapters" {
                @for (number, chapter) in all.iter().enumerate() {
                    li { a href=(chapter.file) aria-current=[(here == Some(number)).then_some("page")] { (chapter.title) } }
                }
            }
        }
    }
}

fn front(language: Language, words: &Words, all: &[Chapter]) -> String {
    let title = words.text("page-book-title");
    let page = html! {
        (DOCTYPE)
        html lang=(language.word()) {
            (head(&title))
            body class="front" {
                main {
                    h1 { (title) }
                    p { (words.text("page-book-about")) }
                    p { (words.text("page-book-offline")) }
                    @if language != Language::English { p { (words.text("page-book-english")) } }
                    (contents(words, all, None))
                }
            }
        }
    };
    page.into_string()
}

fn page(language: Language, words: &Words, all: &[Chapter], number: usize) -> String {
    let chapter = &all[number];
    let before = number.checked_sub(1).and_then(|before| all.get(before));
    let listed: Vec<&Passage> = chapter.passages.iter().filter(|passage| passage.level == 2).collect();
    let other = (chapter.language != language).then(|| chapter.language.word());
    let page = html! {
        (DOCTYPE)
        html lang=(language.word()) {
            (head(&format!("{} – {}", chapter.title, words.text("page-book-title"))))
            body {
                header { a href="index.html" { (words.text("page-book-title")) } }
                (contents(words, all, Some(number)))
                main {
                    h1 { (chapter.title) }
                    @if other.is_some() || chapter.partly_english { p class="other" { (words.text("page-book-english")) } }
                    @if listed.len() > 2 {
                        ul class="within" { @for passage in &listed { li { a href={ "#" (passage.id) } { (passage.title) } } } }
                    }
                    div lang=[other] { @for passage in &chapter.passages { (passage.shown()) } }
                }
                footer {
                    @if let Some(before) = before { a rel="prev" href=(before.file) { "← " (before.title) } }
                    @if let Some(next) = all.get(number + 1) { a rel="next" href=(next.file) { (next.title) " →" } }
                }
            }
        }
    };
    page.into_string()
}

/// What searches, with what there is to find: each passage's page and place, its heading, its words.
fn script(all: &[Chapter], words: &Words) -> String {
    let place = |chapter: &Chapter, passage: &Passage| {
        let at =
            if passage.id.is_empty() { chapter.file.to_owned() } else { format!("{}#{}", chapter.file, passage.id) };
        let title = if passage.title.is_empty() { &chapter.title } else { &passage.title };
        json!([at, chapter.title, title, passage.words()])
    };
    let of = |chapter: &Chapter| chapter.passages.iter().map(|passage| place(chapter, passage)).collect::<Vec<Value>>();
    let places: Vec<Value> = all.iter().flat_map(of).collect();
    let nothing = words.text("page-book-nothing");
    format!("{SCRIPT}\nsearch({}, {});\n", Value::from(places), Value::from(nothing))
}
