// SPDX-License-Identifier: MIT
//! What slips of the hand and ill will make of a file: fields lost, doubled, swapped, renamed, filled with what is at the edge; letters
//! lost and put elsewhere.

use super::draws::Draws;
use super::schemas::Schema;
use super::tree::Json;

/// Values at the edge of what means something.
const EDGES: [&str; 44] = [
    "null",
    "true",
    "false",
    "0",
    "-0",
    "-0.0",
    "-1",
    "1",
    "2",
    "0.5",
    "1e-9",
    "1e-320",
    "1e9",
    "1e308",
    "1e999",
    "2000",
    "2001",
    "10000",
    "4294967296",
    "9007199254740993",
    "18446744073709551616",
    "\"\"",
    "\" \"",
    "\"0\"",
    "\"1/0 in\"",
    "\"1/64 in\"",
    "\"-5 mm\"",
    "\"0 mm\"",
    "\"2000 mm\"",
    "\"99999999 mm\"",
    "\"1e5 mm\"",
    "\"8 1/2\"",
    "\"½ in\"",
    "\"\\u0000\"",
    "\"\\ud83d\\ude00\"",
    "\"é\"",
    "\"e\\u0301\"",
    "\"\\u202e\"",
    "\"offcut\"",
    "\"free\"",
    "[]",
    "{}",
    "[[]]",
    "[null]",
];

/// Pieces of text that mean something somewhere.
const BITS: [&str; 18] = [
    "\"",
    "width",
    "1e999",
    "-",
    "((((",
    "null",
    "[]",
    "{}",
    "mm",
    "\"when\": \"width > 0\",",
    "min(",
    "\u{2212}",
    "\u{0}",
    ",",
    "\n",
    "\\",
    "\u{feff}",
    "0",
];

/// Letters lost, doubled, changed, pieces of the text elsewhere.
pub(crate) fn letters(mut text: Vec<u8>, bits: &[&str], draws: &mut Draws) -> Vec<u8> {
    for _ in 0..=draws.below(3) {
        let at = draws.below(text.len().max(1)).min(text.len());
        let end = (at + draws.below(40)).min(text.len());
        match draws.below(6) {
            0 => drop(text.drain(at..end)),
            1 => text.insert(at, u8::try_from(draws.below(256)).unwrap_or(0)),
            2 => drop(text.splice(at..at, draws.pick(bits).bytes())),
            3 => {
                let piece: Vec<u8> = text[at..end].to_vec();
                let to = draws.below(text.len().max(1)).min(text.len());
                text.splice(to..to, piece);
            }
            4 => {
                if let Some(byte) = text.get_mut(at) {
                    *byte ^= 1 << draws.below(8);
                }
            }
            _ => drop(text.splice(at..end, draws.pick(bits).bytes())),
        }
    }
    text
}

/// The same of a text in JSON or of words.
pub(crate) fn text(text: Vec<u8>, draws: &mut Draws) -> Vec<u8> {
    letters(text, &BITS, draws)
}

/// A file with one to three things wrong or otherwise; `others` lend it their parts.
pub(crate) fn file(json: &Json, others: &[Json], schema: &Schema, draws: &mut Draws) -> Vec<u8> {
    let mut json = if draws.once_in(40) { schema.whole(draws) } else { json.clone() };
    // Most are a slip or two from a sound one.
    for _ in 0..=draws.below(5).saturating_sub(2) {
        once(&mut json, others, schema, draws);
    }
    let written = json.write().into_bytes();
    if draws.once_in(10) { text(written, draws) } else { written }
}

fn once(json: &mut Json, others: &[Json], schema: &Schema, draws: &mut Draws) {
    let number = draws.below(json.count());
    let (there, name) = json.nth(number);
    match (draws.below(12), there) {
        (0, Json::Object(fields)) if !fields.is_empty() => drop(fields.remove(draws.below(fields.len()))),
        (1, Json::Object(fields)) if !fields.is_empty() => {
            let field = draws.pick(fields);
            fields.push(field);
        }
        (2, Json::Object(fields)) if fields.len() > 1 => {
            let (one, other) = (draws.below(fields.len()), draws.below(fields.len()));
            let kept = fields[one].1.clone();
            fields[one].1 = std::mem::replace(&mut fields[other].1, kept);
        }
        (3, Json::Object(fields)) if !fields.is_empty() => {
            let at = draws.below(fields.len());
            let name = schema.field(&[], draws).map_or_else(String::new, |(name, _)| name);
            fields[at].0 = if draws.once_in(3) { fields[at].0.to_uppercase() } else { name };
        }
        (0..=7, Json::Object(fields)) => {
            let names: Vec<String> = fields.iter().map(|(name, _)| name.clone()).collect();
            if let Some((name, value)) = schema.field(&names, draws) {
                let at = fields.iter().position(|(known, _)| *known == name);
                match at {
                    Some(at) => fields[at].1 = value,
                    None => fields.push((name, value)),
                }
            }
        }
        (0, Json::List(items)) if !items.is_empty() => drop(items.remove(draws.below(items.len()))),
        (1..=3, Json::List(items)) if !items.is_empty() => {
            let item = draws.pick(items);
            items.extend(std::iter::repeat_n(item, 1 + draws.below(6)));
        }
        (4, Json::List(items)) if items.len() > 1 => {
            let (one, other) = (draws.below(items.len()), draws.below(items.len()));
            items.swap(one, other);
        }
        (0..=2, Json::Bare(value)) => {
            if let Ok(number) = value.parse::<f64>() {
                let factor = draws.pick(&[0.5, 2.0, -1.0, 0.1, 10.0, 1.001, 0.999, 3.0]);
                *value = format!("{}", number * factor);
            } else {
                let spoilt = text(value.clone().into_bytes(), draws);
                *value = Json::text(String::from_utf8_lossy(&spoilt).trim_matches('"')).write();
            }
        }
        (8, there) => {
            let mut other = draws.pick(others);
            let number = draws.below(other.count());
            *there = other.nth(number).0.clone();
        }
        (9..=10, there) => *there = Json::Bare((draws.pick(&EDGES)).into()),
        (_, there) => match schema.named(&name, draws) {
            Some(value) => *there = value,
            None => *there = Json::Bare((draws.pick(&EDGES)).into()),
        },
    }
}
