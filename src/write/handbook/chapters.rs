// SPDX-License-Identifier: MIT
//! The chapters, from what there is.

use super::book_words::BookWords;
use super::chapter::{Chapter, HandbookCommand};
use super::markdown::passages;
use super::messages::ANSWERED;
use super::passage::Passage;
use super::{files, formats};
use crate::album::{Kind, Language, Role};
use crate::guide::Words;
use crate::picture::Picture;
use crate::write::catalogue::words as of_field;
use crate::write::drawing::{hatches, inline};
use crate::{album, batch, coupon, cutter, drawer, parts, picture};
use maud::{Markup, PreEscaped, html};

/// The first chapter in German.
const FIRST_GERMAN: &str = include_str!("first-kit.de.md");
const README: &str = include_str!("../../../README.md");
const KINDS: &str = include_str!("../../../fixtures/kinds/README.md");
const CUTTERS: &str = include_str!("../../../fixtures/cutters/README.md");

/// What is to be minded, by its key in the guide's words.
const CAUTIONS: [&str; 15] = [
    "caution-rules",
    "caution-blade",
    "caution-blade-cap",
    "caution-trimmer",
    "caution-machine",
    "caution-laser",
    "caution-laser-light",
    "caution-laser-vinyl",
    "caution-glue",
    "caution-glue-label",
    "caution-glue-photo",
    "caution-photo",
    "caution-photo-paper",
    "caution-first",
    "caution-keep",
];

pub(super) fn all(language: Language, words: &Words, commands: &[HandbookCommand]) -> Vec<Chapter> {
    let foreign = language != Language::English;
    let said = BookWords::new(words, foreign);
    let chapter = |file, key: &str, language, partly_english, passages| Chapter {
        file,
        title: words.text(key),
        language,
        partly_english,
        passages,
    };
    let english = |file, key, passages| chapter(file, key, Language::English, false, passages);
    let partly = |file, key, passages| chapter(file, key, language, foreign, passages);
    let whole = |file, key, passages| chapter(file, key, language, false, passages);
    let first = match language {
        Language::English => readme(&["Ten lines to the first kit", "Make an album"]),
        Language::German => {
            passages(FIRST_GERMAN, &|to| from_readme(to).or_else(|| (to == "mind.html").then(|| to.to_owned())))
        }
    };
    vec![
        whole("first-kit.html", "page-book-first", first),
        english("album.html", "page-book-album", readme(&["An album of your own"])),
        partly("parts.html", "page-book-parts", plates(said)),
        english("own-kinds.html", "page-book-kinds", passages(KINDS, &from_kinds)),
        english("machine.html", "page-book-machine", passages(&own(CUTTERS), &|to| of_files("cutters/", to))),
        partly("files.html", "page-book-files", of_formats(said)),
        partly("messages.html", "page-book-messages", messages(said)),
        partly("commands.html", "page-book-commands", commands.iter().map(|one| command(said, one)).collect()),
        whole("mind.html", "page-book-mind", mind(words)),
    ]
}

/// The project's texts speak of a folder of sources; here the files lie beside the pages, and the program is installed.
fn own(text: &str) -> String {
    let from_sources = "`cargo install --path .` gives you the same as plain `hingeleaf kit …`; ";
    let lines = text.lines().filter(|line| {
        !line.starts_with("cargo install")
            && !line.contains("fixtures/samples/")
            && !line.starts_with("On a machine with Rust")
    });
    let text = lines.collect::<Vec<_>>().join("\n").replace(from_sources, "");
    text.replace("cargo run --release -- ", "hingeleaf ").replace("fixtures/", "files/")
}

/// Sections of README by their headings, and what is in smaller ones within them.
fn readme(wanted: &[&str]) -> Vec<Passage> {
    let text = own(README);
    let mut found = Vec::new();
    let mut takes = false;
    for passage in passages(&text, &from_readme) {
        takes = if passage.level == 2 { wanted.contains(&passage.title.as_str()) } else { takes };
        if takes {
            found.push(passage);
        }
    }
    found
}

fn from_readme(to: &str) -> Option<String> {
    if to == "files/kinds/README.md" {
        return Some("own-kinds.html".into());
    }
    to.strip_prefix("files/").filter(|name| files::has(name)).map(|_| to.to_owned())
}

fn from_kinds(to: &str) -> Option<String> {
    of_files("kinds/", to)
}

fn of_files(folder: &str, to: &str) -> Option<String> {
    let name = format!("{folder}{to}");
    files::has(&name).then(|| format!("files/{name}"))
}

/// Every kind with its plate and its fields.
fn plates(said: BookWords<'_>) -> Vec<Passage> {
    let drawn: Vec<_> = parts::ALL.iter().map(|maker| (&maker.kind, picture::kind(maker))).collect();
    // The hatches of all pictures stand on the page once.
    let all: Vec<&Picture> = drawn.iter().filter_map(|(_, picture)| picture.as_ref()).collect();
    let shared = html! { svg class="hatches" width="0" height="0" aria-hidden="true" { (PreEscaped(hatches(&all))) } };
    let mut found = vec![Passage { body: shared.into_string(), ..Passage::default() }];
    for role in [Role::Page, Role::Spine, Role::Cover, Role::Insert] {
        found.push(Passage::new(2, &said.text(&format!("page-book-{}s", role.word())), &html! {}));
        found.extend(drawn.iter().filter(|(kind, _)| kind.role == role).map(|(kind, picture)| {
            let about = match said.english {
                Some(_) => said.words.term_of(role.word(), kind.name, kind.about),
                None => kind.about.to_owned(),
            };
            let body = html! {
                p { (about) "." }
                @if let Some(picture) = picture { figure { (PreEscaped(inline(picture, &about))) } }
                (of_kind(said, kind))
            };
            Passage::new(3, kind.name, &body)
        }));
    }
    found
}

fn of_kind(said: BookWords<'_>, kind: &Kind) -> Markup {
    html! {
        table class="fields" {
            thead { tr { @for key in ["page-book-field", "page-book-says", "page-book-takes"] { th scope="col" { (said.text(key)) } } } }
            tbody lang=[said.english] {
                @for field in kind.fields.iter().chain(&kind.common()[1..]) {
                    tr { td { code { (field.name) } } td { (field.about) } td { (of_field(field)) } }
                }
            }
        }
    }
}

fn of_formats(said: BookWords<'_>) -> Vec<Passage> {
    let link = |to, key| html! { a href=(to) { (said.text(key)) } };
    let lead = html! {
        p { strong { (said.text("page-book-files-must")) } " " (said.text("page-book-files-name")) }
        p { (said.text("page-book-files-kinds")) " " (link("parts.html", "page-book-parts")) ". "
            (said.text("page-book-files-own")) " " (link("own-kinds.html#every-field", "page-book-kinds")) "." }
    };
    let mut found = vec![Passage { body: lead.into_string(), ..Passage::default() }];
    let schemas =
        [album::schema(&parts::kinds()), batch::schema(), cutter::schema(), drawer::schema(), coupon::schema()];
    found.extend(schemas.iter().map(|schema| formats::format(said, schema)));
    found
}

fn messages(said: BookWords<'_>) -> Vec<Passage> {
    let lead = html! {
        p { @for key in ["page-book-answer-says", "page-book-answer-way", "page-book-answer-grave", "page-book-answer-all"] { (said.text(key)) " " } }
        p { (said.text("page-book-answer-of")) }
    };
    let one = |(name, file, answer): &(&str, &str, &str)| {
        let answer = answer.split_once('\n').map_or(*answer, |(_, words)| words);
        let body = html! {
            pre class="file" tabindex="0" { code { (file.trim_end()) } }
            p { (said.text("page-book-answer")) }
            pre class="answer" tabindex="0" lang=[said.english] { code { (answer.trim_end()) } }
        };
        let mut title = name.replace('-', " ");
        if let Some(first) = title.get_mut(..1) {
            first.make_ascii_uppercase();
        }
        Passage::new(2, &title, &body)
    };
    let lead = Passage { body: lead.into_string(), ..Passage::default() };
    std::iter::once(lead).chain(ANSWERED.iter().map(one)).collect()
}

fn command(said: BookWords<'_>, command: &HandbookCommand) -> Passage {
    let body = html! {
        p lang=[said.english] { (command.about) }
        p { code class="usage" { (command.usage) } }
        @if !command.options.is_empty() {
            table class="fields" {
                thead { tr { @for key in ["page-book-typed", "page-book-does"] { th scope="col" { (said.text(key)) } } } }
                tbody lang=[said.english] { @for (typed, about) in &command.options { tr { td { code { (typed) } } td { (about) } } } }
            }
        }
        @if !command.examples.is_empty() {
            pre class="shell" tabindex="0" { code { (command.examples.join("\n")) } }
        }
    };
    Passage::new(2, &command.name, &body)
}

/// What is to be minded, as the guide says it in its language.
fn mind(words: &Words) -> Vec<Passage> {
    let body = html! { ul class="caution" { @for key in CAUTIONS { li { (words.text(key)) } } } };
    vec![Passage { body: body.into_string(), ..Passage::default() }]
}
