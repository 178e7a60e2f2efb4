// SPDX-License-Identifier: MIT
//! The guide as one page that needs nothing else: works from disk, prints, light and dark, ticks that stay.
//!
//! In: a finished [`Guide`]. Out: HTML. Never: a word or a number of its own.
//!
//! The policy in its head lets nothing in from outside, and runs no script and no style but its own two, by their hashes.

use super::drawing::{hatches, inline};
use crate::guide::{Bit, Block, Figure, Guide, Line, Number, Section, Step, Table};
use crate::picture::Picture;
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// How it looks.
pub const GUIDE_STYLE: &str = include_str!("guide/style.css");
/// What keeps its ticks.
pub const GUIDE_SCRIPT: &str = include_str!("guide/script.js");

/// SHA-256 of the style and of the script, in base64; a test holds them to what they are.
pub const GUIDE_HASHES: [&str; 2] =
    ["ZIIPE6kE40g8g6dG4whJa6ulVswmDetVg1OITkYhHdE=", "vLbUKW6MJElEb8jnRSU0ICCssMKJmc1xG3n+mmblNoc="];

/// The guide as a page.
#[must_use]
pub fn guide(guide: &Guide) -> String {
    page(guide, "guide")
}

/// The card as a page: the same in one column less, on one sheet.
#[must_use]
pub fn kit_card(guide: &Guide) -> String {
    page(guide, "card")
}

/// The teaching sheet as a page, set as close as the card.
#[must_use]
pub fn teaching_sheet(guide: &Guide) -> String {
    page(guide, "card teach")
}

fn page(guide: &Guide, form: &str) -> String {
    let [style, script] = GUIDE_HASHES;
    let policy = format!(
        "default-src 'none'; style-src 'sha256-{style}'; script-src 'sha256-{script}'; img-src data:; base-uri 'none'; form-action 'none'"
    );
    let paper = guide.paper.word().to_ascii_lowercase();
    let mut number = 0;
    let sections: Vec<Markup> = guide.sections.iter().map(|one| section(guide, one, &mut number)).collect();
    let key = format!("hingeleaf-{}-{:016x}", form.replace(' ', "-"), key(guide));
    let page = html! {
        (DOCTYPE)
        html lang=(guide.language) {
            head {
                meta charset="utf-8";
                meta http-equiv="Content-Security-Policy" content=(policy);
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (guide.title) }
                style { (PreEscaped(GUIDE_STYLE)) }
            }
            body class={ (form) " " (paper) } data-key=(key) data-again=(guide.word("page-again"))
                data-done=(guide.word("page-done")) {
                (shared_hatches(guide))
                header {
                    h1 { (guide.title) }
                    @if let Some(maker) = &guide.maker { p class="by" { (guide.word("page-maker")) " " (maker) } }
                    @if let Some(edition) = &guide.edition { p class="by" { (edition) } }
                }
                @if form == "guide" {
                    nav aria-label=(guide.word("page-contents")) {
                        ol { @for section in &guide.sections { li { a href={ "#" (section.id) } { (section.heading.plain()) } } } }
                    }
                }
                main {
                    @if !guide.notes.is_empty() {
                        section class="notes" aria-labelledby="notes" {
                            h2 id="notes" { (guide.word("page-notes")) }
                            @for note in &guide.notes { p { (note) } }
                        }
                    }
                    @for section in &sections { (section) }
                }
                script { (PreEscaped(GUIDE_SCRIPT)) }
            }
        }
    };
    let mut text = page.into_string();
    text.push('\n');
    text
}

/// A number that is another one for every other guide: FNV-1a over all its words.
fn key(guide: &Guide) -> u64 {
    let mut words = guide.title.clone();
    for line in guide.sections.iter().flat_map(Section::lines) {
        words.push_str(&line.plain());
    }
    words.bytes().fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3))
}

fn shared_hatches(guide: &Guide) -> Markup {
    let mut pictures: Vec<&Picture> = Vec::new();
    for block in guide.sections.iter().flat_map(|section| &section.blocks) {
        match block {
            Block::Figure(figure) => pictures.push(&figure.picture),
            Block::Steps(steps) => {
                pictures.extend(steps.iter().filter_map(|step| Some(&step.figure.as_ref()?.picture)));
            }
            _ => {}
        }
    }
    html! { svg class="hatches" width="0" height="0" aria-hidden="true" { (PreEscaped(hatches(&pictures))) } }
}

fn section(guide: &Guide, section: &Section, number: &mut usize) -> Markup {
    let id = format!("{}-heading", section.id);
    html! {
        section id=(section.id) class=(section.id) aria-labelledby=(id) {
            h2 id=(id) { (line(&section.heading)) }
            @for one in &section.blocks { (block(guide, one, section.id, number)) }
        }
    }
}

fn block(guide: &Guide, block: &Block, section: &str, number: &mut usize) -> Markup {
    match block {
        Block::Words(words) => html! { p { (line(words)) } },
        Block::Heading(words) => html! { h3 { (line(words)) } },
        Block::List(list) => html! { ul { @for one in list { li { (line(one)) } } } },
        Block::Table(one) => table(one),
        Block::Steps(list) => html! { ol class="steps" { @for one in list { (step(guide, one, section, number)) } } },
        Block::Figure(one) => html! { figure class="alone" { (figure(one)) } },
        Block::Caution(list) => caution(guide, list),
    }
}

fn caution(guide: &Guide, list: &[Line]) -> Markup {
    html! {
        div class="caution" role="note" {
            p class="mind" { (guide.word("page-caution")) }
            ul { @for one in list { li { (line(one)) } } }
        }
    }
}

fn step(guide: &Guide, step: &Step, section: &str, number: &mut usize) -> Markup {
    *number += 1;
    let id = format!("step-{number}");
    let of = step.of.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ");
    let data = step.data.iter().map(|(name, value)| format!("{name}={value}")).collect::<Vec<_>>().join(";");
    html! {
        li class="step" data-section=(section) data-of=[(!of.is_empty()).then_some(of)] data-cut=[(!data.is_empty()).then_some(data)] {
            @if let Some(one) = &step.figure { figure { (figure(one)) } }
            div class="words" {
                p class="head" {
                    input type="checkbox" id=(id);
                    label for=(id) { span class="no" { (number) } " " (line(&step.head)) }
                }
                @for one in &step.lines { p { (line(one)) } }
                @if !step.warn.is_empty() { (caution(guide, &step.warn)) }
                @if let Some(one) = &step.table { (table(one)) }
            }
        }
    }
}

fn figure(figure: &Figure) -> Markup {
    html! { (PreEscaped(inline(&figure.picture, &figure.shows.plain()))) }
}

fn table(table: &Table) -> Markup {
    html! {
        table {
            @if !table.caption.is_empty() { caption { (line(&table.caption)) } }
            thead { tr { @for head in &table.head { th scope="col" { (line(head)) } } } }
            tbody {
                @for row in &table.rows {
                    tr {
                        @for (index, (cell, head)) in row.iter().zip(&table.head).enumerate() {
                            @if index == 0 { th scope="row" data-head=(head.plain()) { span { (line(cell)) } } }
                            @else if !cell.is_empty() { td data-head=(head.plain()) { span { (line(cell)) } } }
                            @else { td {} }
                        }
                    }
                }
            }
        }
    }
}

fn line(line: &Line) -> Markup {
    html! {
        @for bit in &line.0 {
            @match bit {
                Bit::Text(text) => { (text) }
                Bit::Mark(mark) => { b class="mark" { (mark) } }
                Bit::Number(Number { shown, value, what, of }) => {
                    data value=(value) data-what=(what.word()) data-of=[(!of.is_empty()).then_some(of)] { (shown) }
                }
            }
        }
    }
}
