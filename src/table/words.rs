// SPDX-License-Identifier: MIT
//! The names of fields, kinds and choices as the page shows them: the maker's words first.

use crate::album::Album;
use crate::length::Length;

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

/// A finding's words with fields called as the page calls them: `"overflap"` and `spine.lead_in` are names in the file.
pub(super) fn on_the_page(text: &str) -> String {
    let known = |name: &str| LABELS.iter().any(|(one, _)| *one == name);
    let quoted: Vec<String> = text
        .split('"')
        .enumerate()
        .map(|(number, part)| match number % 2 {
            1 if known(part) => format!("“{}”", found(LABELS, part)),
            1 => format!("“{part}”"),
            _ => part.to_owned(),
        })
        .collect();
    // A quote that is not closed stays as it was.
    let text = if text.matches('"').count().is_multiple_of(2) { quoted.concat() } else { text.to_owned() };
    let word = |word: &str| {
        let name = word.trim_end_matches([',', ';', '.', ':']);
        let end = &word[name.len()..];
        let (top, field) = name.split_once('.')?;
        let objects = ["page", "spine", "cover", "panels"];
        let plain = field.chars().all(|c| c.is_ascii_lowercase() || c == '_') && !field.is_empty();
        (objects.contains(&top) && plain).then(|| format!("“{}” ({}){end}", found(LABELS, field), place(name)))
    };
    let text = without_remarks(&text);
    text.split(' ').map(|part| word(part).unwrap_or_else(|| part.to_owned())).collect::<Vec<_>>().join(" ")
}

/// Without the remarks by how little a fraction of an inch is over or under: there may be six in a sentence, each less than
/// half a mark of a ruler.
fn without_remarks(text: &str) -> String {
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
