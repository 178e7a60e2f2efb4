// SPDX-License-Identifier: MIT
//! The project's own texts, which are Markdown, as passages: the library says what stands in them, here it becomes HTML as the handbook
//! has it.

use super::passage::{Passage, slug};
use maud::{Render, html};
use pulldown_cmark::{CodeBlockKind, Event, HeadingLevel, Options, Parser, Tag, TagEnd};

/// A text in passages; its own title, the first heading, is left to the page. `link` says where a link leads, none where it is no link
/// here; a place on the same page stays one.
pub(super) fn passages(text: &str, link: &dyn Fn(&str) -> Option<String>) -> Vec<Passage> {
    let mut reader =
        PassageReader { link, all: vec![Passage::default()], aside: Vec::new(), links: Vec::new(), head: false };
    for event in Parser::new_ext(text, Options::ENABLE_TABLES) {
        reader.take(event);
    }
    let mut all = reader.all;
    all.retain(|passage| !passage.title.is_empty() || !passage.body.is_empty());
    all
}

/// Text that is wanted without its marks.
#[derive(Default)]
struct Aside {
    text: String,
    /// Where the picture lies whose text it is.
    picture: Option<String>,
    /// Whether it is made of commands.
    shell: bool,
}

struct PassageReader<'t> {
    link: &'t dyn Fn(&str) -> Option<String>,
    all: Vec<Passage>,
    /// The heading, fenced text or picture that is read, the innermost last.
    aside: Vec<Aside>,
    /// Whether each open link is one here.
    links: Vec<bool>,
    /// Whether a table's first row is read.
    head: bool,
}

impl PassageReader<'_> {
    fn take(&mut self, event: Event<'_>) {
        match event {
            Event::Start(tag) => self.begin(tag),
            Event::End(tag) => self.end(tag),
            Event::Code(text) if self.aside.is_empty() => self.put(&html! { code { (text.as_ref()) } }.into_string()),
            Event::SoftBreak => self.text(" "),
            Event::HardBreak => self.put("<br>"),
            Event::Rule => self.put("<hr>"),
            // Marks of another language are shown as they are typed.
            Event::Text(text) | Event::Code(text) | Event::Html(text) | Event::InlineHtml(text) => self.text(&text),
            // Of what is not asked for there is none.
            Event::FootnoteReference(_) | Event::TaskListMarker(_) | Event::InlineMath(_) | Event::DisplayMath(_) => {}
        }
    }

    /// HTML at the end of the passage, unless only text is wanted.
    fn put(&mut self, html: &str) {
        if self.aside.is_empty()
            && let Some(passage) = self.all.last_mut()
        {
            passage.body.push_str(html);
        }
    }

    fn text(&mut self, text: &str) {
        match self.aside.last_mut() {
            Some(aside) => aside.text.push_str(text),
            None => self.put(&text.render().into_string()),
        }
    }

    fn begin(&mut self, tag: Tag<'_>) {
        match tag {
            Tag::Heading { .. } => self.aside.push(Aside::default()),
            Tag::CodeBlock(kind) => {
                let shell = matches!(&kind, CodeBlockKind::Fenced(word) if word.as_ref() == "sh");
                self.aside.push(Aside { shell, ..Aside::default() });
            }
            Tag::Image { dest_url, .. } => {
                let picture = (self.link)(&dest_url);
                self.aside.push(Aside { picture, ..Aside::default() });
            }
            Tag::Link { dest_url, .. } => {
                let to =
                    dest_url.strip_prefix('#').map_or_else(|| (self.link)(&dest_url), |_| Some(dest_url.to_string()));
                self.links.push(to.is_some());
                if let Some(to) = to {
                    self.put(&format!("<a href=\"{}\">", to.render().into_string()));
                }
            }
            Tag::List(first) => match first {
                Some(first) => self.put(&format!("<ol start=\"{first}\">")),
                None => self.put("<ul>"),
            },
            Tag::TableHead => {
                self.head = true;
                self.put("<thead><tr>");
            }
            Tag::TableCell => self.put(if self.head { "<th scope=\"col\">" } else { "<td>" }),
            other => self.put(&named(other.to_end()).map_or_else(String::new, |name| format!("<{name}>"))),
        }
    }

    fn end(&mut self, tag: TagEnd) {
        match tag {
            TagEnd::Heading(level) => self.heading(level),
            TagEnd::CodeBlock => {
                let fenced = self.aside.pop().unwrap_or_default();
                let text = fenced.text.strip_suffix('\n').unwrap_or(&fenced.text);
                let text = if fenced.shell { commented(text) } else { text.to_owned() };
                let class = if fenced.shell { "shell" } else { "file" };
                self.put(&html! { pre class=(class) tabindex="0" { code { (text) } } }.into_string());
            }
            TagEnd::Image => {
                let Aside { text, picture, .. } = self.aside.pop().unwrap_or_default();
                match picture {
                    Some(to) => self.put(&html! { img src=(to) alt=(text) loading="lazy"; }.into_string()),
                    // Within a heading its words are the heading's.
                    None if !self.aside.is_empty() => self.text(&text),
                    None => {}
                }
            }
            TagEnd::Link => {
                if self.links.pop() == Some(true) {
                    self.put("</a>");
                }
            }
            TagEnd::TableHead => {
                self.head = false;
                self.put("</tr></thead><tbody>");
            }
            TagEnd::TableCell => self.put(if self.head { "</th>" } else { "</td>" }),
            TagEnd::Table => self.put("</tbody></table>"),
            other => self.put(&named(other).map_or_else(String::new, |name| format!("</{name}>"))),
        }
    }

    fn heading(&mut self, level: HeadingLevel) {
        let title = self.aside.pop().unwrap_or_default().text;
        let level = match level {
            // A page has its title already.
            HeadingLevel::H1 => return,
            HeadingLevel::H2 => 2,
            _ => 3,
        };
        self.all.push(Passage { id: slug(&title), title, level, body: String::new() });
    }
}

/// What the plain ones are called in HTML; nothing for what is not asked for.
fn named(tag: TagEnd) -> Option<&'static str> {
    Some(match tag {
        TagEnd::Paragraph => "p",
        TagEnd::BlockQuote(_) => "blockquote",
        TagEnd::List(true) => "ol",
        TagEnd::List(false) => "ul",
        TagEnd::Item => "li",
        TagEnd::Emphasis => "em",
        TagEnd::Strong => "strong",
        TagEnd::Table => "table",
        TagEnd::TableRow => "tr",
        _ => return None,
    })
}

/// Commands, what is said of each in the line before it.
fn commented(text: &str) -> String {
    let one = |line: &str| match line.split_once(" # ") {
        Some((command, said)) => format!("# {}\n{}", said.trim(), command.trim_end()),
        None => line.to_owned(),
    };
    text.lines().map(one).collect::<Vec<_>>().join("\n")
}
