// SPDX-License-Identifier: MIT
//! The little of Markdown that the project's own texts use, as HTML: headings, paragraphs, lists, tables, fenced text, and within a line
//! code, bold, emphasis, links and pictures.

use maud::{Markup, PreEscaped, Render, html};
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

/// A text in passages; its own title, the first line, is left to the page. `link` says where a link leads, none where it is no link here.
pub(super) fn passages(text: &str, link: &dyn Fn(&str) -> Option<String>) -> Vec<Passage> {
    let mut all = vec![Passage::default()];
    let mut lines = text.lines().peekable();
    while let Some(line) = lines.next() {
        let passage = all.last_mut().map(|passage| &mut passage.body);
        let Some(body) = passage else { break };
        if let Some(title) = line.strip_prefix("### ") {
            all.push(Passage { id: slug(title), title: title.into(), level: 3, body: String::new() });
        } else if let Some(title) = line.strip_prefix("## ") {
            all.push(Passage { id: slug(title), title: title.into(), level: 2, body: String::new() });
        } else if line.starts_with("# ") || line.trim().is_empty() {
        } else if let Some(kind) = line.strip_prefix("```") {
            let fenced: Vec<&str> = lines.by_ref().take_while(|line| !line.starts_with("```")).collect();
            let shell = kind == "sh";
            let text = if shell { commented(&fenced) } else { fenced.join("\n") };
            let class = if shell { "shell" } else { "file" };
            body.push_str(&html! { pre class=(class) tabindex="0" { code { (text) } } }.into_string());
        } else {
            let mut block = vec![line];
            let ends = |line: &str| line.trim().is_empty() || line.starts_with("```") || line.starts_with('#');
            while let Some(next) = lines.next_if(|line| !ends(line)) {
                block.push(next);
            }
            body.push_str(&self::block(&block, link));
        }
    }
    all.retain(|passage| !passage.title.is_empty() || !passage.body.is_empty());
    all
}

/// Commands, what is said of each in the line before it.
fn commented(lines: &[&str]) -> String {
    let one = |line: &&str| match line.split_once(" # ") {
        Some((command, said)) => format!("# {}\n{}", said.trim(), command.trim_end()),
        None => (*line).to_owned(),
    };
    lines.iter().map(one).collect::<Vec<_>>().join("\n")
}

fn block(lines: &[&str], link: &dyn Fn(&str) -> Option<String>) -> String {
    if lines[0].starts_with('|') {
        return table(lines, link);
    }
    let starts = |line: &str| line.starts_with("- ") || line.starts_with("* ");
    if starts(lines[0]) {
        let mut items: Vec<String> = Vec::new();
        for line in lines {
            match (starts(line), items.last_mut()) {
                (false, Some(last)) => {
                    last.push(' ');
                    last.push_str(line.trim());
                }
                _ => items.push(line[2..].to_owned()),
            }
        }
        return html! { ul { @for item in &items { li { (inline(item, link)) } } } }.into_string();
    }
    html! { p { (inline(&lines.join(" "), link)) } }.into_string()
}

fn table(lines: &[&str], link: &dyn Fn(&str) -> Option<String>) -> String {
    let cells =
        |line: &str| -> Vec<String> { line.trim_matches('|').split('|').map(|cell| cell.trim().to_owned()).collect() };
    let head = cells(lines[0]);
    html! {
        table {
            thead { tr { @for cell in &head { th scope="col" { (inline(cell, link)) } } } }
            tbody {
                @for line in lines.iter().skip(2) {
                    tr { @for cell in cells(line) { td { (inline(&cell, link)) } } }
                }
            }
        }
    }
    .into_string()
}

/// Code, bold, emphasis, links and pictures of a line.
fn inline(text: &str, link: &dyn Fn(&str) -> Option<String>) -> Markup {
    let mut out = String::new();
    let mut rest = text;
    while let Some(at) = rest.find(['`', '*', '[', '!']) {
        let (before, from) = rest.split_at(at);
        out.push_str(&before.render().into_string());
        let (shown, taken) = mark(from, link);
        out.push_str(&shown);
        rest = &from[taken..];
    }
    out.push_str(&rest.render().into_string());
    PreEscaped(out)
}

/// What a sign begins, and how many bytes of the text it takes.
fn mark(from: &str, link: &dyn Fn(&str) -> Option<String>) -> (String, usize) {
    let between = |open: &str, close: &str| {
        let inner = from.strip_prefix(open)?;
        let end = inner.find(close).filter(|end| *end > 0)?;
        Some((&inner[..end], open.len() + end + close.len()))
    };
    if let Some((code, taken)) = between("`", "`") {
        return (html! { code { (code) } }.into_string(), taken);
    }
    if let Some((bold, taken)) = between("**", "**") {
        return (html! { strong { (inline(bold, link)) } }.into_string(), taken);
    }
    if let Some((words, taken)) = between("*", "*") {
        return (html! { em { (inline(words, link)) } }.into_string(), taken);
    }
    let picture = from.strip_prefix('!');
    if let Some((words, rest)) = picture.unwrap_or(from).strip_prefix('[').and_then(|rest| rest.split_once("]("))
        && let Some((to, after)) = rest.split_once(')')
    {
        let taken = from.len() - after.len();
        let shown = match (link(to), picture) {
            (Some(to), Some(_)) => html! { img src=(to) alt=(words) loading="lazy"; },
            (Some(to), None) => html! { a href=(to) { (inline(words, link)) } },
            (None, Some(_)) => html! {},
            (None, None) => inline(words, link),
        };
        return (shown.into_string(), taken);
    }
    let first = from.chars().next().map_or(0, char::len_utf8);
    (from[..first].render().into_string(), first)
}
