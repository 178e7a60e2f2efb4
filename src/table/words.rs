// SPDX-License-Identifier: MIT
//! The names of fields, kinds and choices as the page shows them: the maker's words first.

use crate::album::Album;
use crate::fields::{Node, Source, Tree};
use crate::length::{Length, excerpt};
use std::collections::BTreeSet;

/// Fields whose name on screens is not their name in the file.
const LABELS: &[(&str, &str)] = &[
    ("about", "what it is"),
    ("across", "lies across"),
    ("bound", "bound at the"),
    ("caliper", "thickness of one sheet"),
    ("content", "what goes in, thickness"),
    ("copies", "how many albums"),
    ("corner", "clipped corner"),
    ("count", "how many"),
    ("covering", "covering paper"),
    ("ease", "ease (shorter than the page by)"),
    ("endpaper", "end paper"),
    ("faces", "pocket on the"),
    ("grain", "grain"),
    ("grammage", "weight"),
    ("lead_in", "lead-in (clipped corner of the tab)"),
    ("overflap", "closing flap"),
    ("pitch", "page to page at the spine (pitch)"),
    ("price", "price of one sheet"),
    ("reveal", "border of card left showing"),
    ("square", "how far it stands out (square)"),
    ("stock", "cut from"),
    ("title", "name of the album"),
    ("tolerance", "how far off a hand may be"),
    ("turn_in", "turn-in"),
];

/// Choices whose word on screens is not their word in the file.
const CHOICES: &[(&str, &str)] = &[
    ("all-over", "all over, no up or down"),
    ("free", "any way"),
    ("height", "along its height"),
    ("long", "along the long side"),
    ("one-way", "with an up and a down"),
    ("short", "along the short side"),
    ("spine", "along the spine"),
    ("width", "along its width"),
];

fn found(list: &[(&str, &str)], name: &str) -> String {
    let known = list.iter().find(|(one, _)| *one == name);
    known.map_or_else(|| name.replace(['_', '-'], " "), |(_, word)| (*word).to_owned())
}

/// What a field is called.
pub(super) fn label(name: &str) -> String {
    capital(&found(LABELS, name))
}

/// What a field is called where it stands: a page's width is not an insert's.
pub(super) fn label_in(way: &str, name: &str) -> String {
    match (way, name) {
        ("page", "width" | "height") => format!("Page {name}"),
        _ => label(name),
    }
}

/// What the maker wrote or typed: the texts of a file and the names of its stocks, as findings quote them.
#[derive(Debug, Default)]
pub(super) struct Makers(BTreeSet<String>);

impl Makers {
    /// The maker's words in a file; none where it can't be read, of which findings quote nothing.
    pub(super) fn of(source: &Source) -> Self {
        let mut words = BTreeSet::new();
        if let Ok(root) = Node::read(source) {
            gather(&root, &mut words);
            if let Some(Node { tree: Tree::Object(stocks), .. }) = root.at("stocks") {
                words.extend(stocks.iter().map(|(name, ..)| excerpt(name)));
            }
        }
        Self(words)
    }

    /// One word more, which stands in no file.
    pub(super) fn and(mut self, word: &str) -> Self {
        self.0.insert(excerpt(word.trim()));
        self
    }

    /// The longest of these words that stands at a text's beginning and is closed by a quote there.
    fn quoted<'t>(&self, text: &'t str) -> Option<(&'t str, &'t str)> {
        let closed = |word: &String| text.strip_prefix(word.as_str()).is_some_and(|rest| rest.starts_with('"'));
        let word = self.0.iter().filter(|word| closed(word)).max_by_key(|word| word.len())?;
        Some((text.get(..word.len())?, text.get(word.len() + 1..)?))
    }
}

fn gather(node: &Node, words: &mut BTreeSet<String>) {
    match &node.tree {
        Tree::Object(fields) => fields.iter().for_each(|(_, _, node)| gather(node, words)),
        Tree::Array(items) => items.iter().for_each(|item| gather(item, words)),
        Tree::Text(text) => {
            words.insert(excerpt(text));
        }
        Tree::Number(_) | Tree::Flag(_) | Tree::Null => {}
    }
}

/// A finding's words with fields called as the page calls them: `"overflap"` and `spine.lead_in` are names in the file.
/// What the maker wrote stays as it is, even where it is called like a field.
pub(super) fn on_the_page(text: &str, makers: &Makers) -> String {
    let (mut out, mut rest) = (String::new(), text);
    while let Some((before, after)) = rest.split_once('"') {
        out += &unquoted(before);
        let own = makers.quoted(after);
        let Some((name, behind)) = own.or_else(|| after.split_once('"')) else {
            // A quote that is not closed stays as it was.
            return out + "\"" + after;
        };
        let field = own.is_none() && LABELS.iter().any(|(one, _)| *one == name);
        out.push('“');
        out += &if field { found(LABELS, name) } else { name.to_owned() };
        out.push('”');
        rest = behind;
    }
    out + &unquoted(rest)
}

/// Words outside quotes: `spine.lead_in` is called as the page calls it.
fn unquoted(text: &str) -> String {
    let word = |word: &str| {
        let name = word.trim_end_matches([',', ';', '.', ':']);
        let end = &word[name.len()..];
        let (top, field) = name.split_once('.')?;
        let objects = ["page", "spine", "cover", "panels"];
        let plain = field.chars().all(|c| c.is_ascii_lowercase() || c == '_') && !field.is_empty();
        (objects.contains(&top) && plain).then(|| format!("“{}” ({}){end}", found(LABELS, field), place(name)))
    };
    let text = without_remarks(text);
    text.split(' ').map(|part| word(part).unwrap_or_else(|| part.to_owned())).collect::<Vec<_>>().join(" ")
}

/// Without the remarks by how little a fraction of an inch is over or under: there may be six in a sentence, each less than
/// half a mark of a ruler.
pub(super) fn without_remarks(text: &str) -> String {
    let mut rest = text;
    let mut out = String::new();
    while let Some((before, after)) = rest.split_once(" (") {
        out += before;
        let remark =
            after.split_once(')').filter(|(said, _)| said.ends_with(" mm under") || said.ends_with(" mm over"));
        rest = if let Some((_, after)) = remark {
            after
        } else {
            out += " (";
            after
        };
    }
    out + rest
}

/// A field with the place that it stands at: `Page 2, closing flap`.
pub(super) fn named(path: &str) -> String {
    let name = path.rsplit_once('.').map_or(path, |(_, name)| name);
    let name = label(name).to_lowercase();
    if path.contains('.') { format!("{}, {name}", capital(&place(path))) } else { capital(&name) }
}

/// What a choice is called.
pub(super) fn choice(word: &str) -> String {
    found(CHOICES, word)
}

/// What a kind is called: `Wallet`, `Flexi hinge`.
pub(super) fn kind(name: &str) -> String {
    capital(&name.replace('-', " "))
}

/// What the place is called that a way leads to: `page 2` for `pages[1].overflap`.
pub(super) fn place(path: &str) -> String {
    let top = path.split('.').next().unwrap_or_default();
    let numbered = |list: &str, word: &str| {
        let number: usize = top.strip_prefix(list)?.strip_prefix('[')?.strip_suffix(']')?.parse().ok()?;
        Some(format!("{word} {}", number.saturating_add(1)))
    };
    let stock =
        || path.strip_prefix("stocks.").and_then(|rest| rest.split('.').next()).map(|name| format!("the {name}"));
    numbered("pages", "page").or_else(|| numbered("inserts", "insert")).or_else(stock).unwrap_or_else(|| match top {
        "page" => "every page".into(),
        "panels" => "the panels".into(),
        "spine" => "the spine".into(),
        "cover" => "the cover".into(),
        super::kit::CUTTER => "your machine".into(),
        _ => "the album".into(),
    })
}

/// `1 page`, `4 pages`
pub(super) fn counted(count: u64, what: &str) -> String {
    format!("{count} {what}{}", if count == 1 { "" } else { "s" })
}

/// `148 × 190 mm`
pub(super) fn sides(album: &Album, width: Length, height: Length) -> String {
    let (width, height) = (album.show(width.mm()), album.show(height.mm()));
    let unit = format!(" {}", album.units.name());
    format!("{} × {height}", width.strip_suffix(&unit).unwrap_or(&width))
}

/// The same words with a capital.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
