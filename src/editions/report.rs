// SPDX-License-Identifier: MIT
//! Reads an earlier report as an edition. A report is a file like others: it may have been edited, cut off, or made up.
//!
//! Only what editions are compared by is read; what else stands in it, or a later version adds, is let pass.

use super::edition::{Edition, EditionPart};
use super::measured_score::MeasuredScore;
use super::order::{AnyEdition, OrderEdition};
use super::report_kits::{self, COUNTS, InKits, USES};
use super::report_lists::Lists;
use super::report_values::{COPIES, COUNT, STOCK, USED_IN, number_in};
use crate::fields::{Counts, Fallback, Field, Key, Nested, Node, Reader, Source, Text, Tree, Values, Word};
use crate::fields::{needed, rule};
use crate::finding::{Arg, Checked, Finding, Said};
use crate::length::excerpt;
use crate::net::Sense;
use std::collections::BTreeSet;

/// What a report's `format` says.
pub const REPORT_FORMAT: &str = "hingeleaf-report/1";

const FORMAT: Key<Text> = Key::text("format", needed(), "which kind of file this is");
const TITLE: Key<Option<Text>> = Key::text("title", rule("nothing"), "the album's name");
const RECUT: Key<bool> = Key::flag("recut", "whether it is of the parts alone that are cut again");
const KITS: Key<Nested> =
    Key::nested("kits", "a list of kits", Fallback::Rule("none: it is of an album"), "the kits of a batch");
const PARTS: Key<Nested> = Key::nested("parts", "a list of parts", Fallback::Needed, "the distinct parts");
const BLOCKS: Key<Nested> =
    Key::nested("blocks", "a list of blocks", Fallback::Rule("none"), "parts that are cut from one place");
const SHEETS: Key<Nested> = Key::nested("sheets", "a list of sheets", Fallback::Needed, "the sheets");
const TOP: &[Field] =
    &[FORMAT.field, TITLE.field, COPIES.field, RECUT.field, KITS.field, PARTS.field, BLOCKS.field, SHEETS.field];

const ID: Key<Text> = Key::text("id", needed(), "the part's name");
const KIND: Key<Text> = Key::text("kind", needed(), "what it is");
const WIDTH: Key<f64> = Key::amount("width_mm", needed(), "its width, mm");
const HEIGHT: Key<f64> = Key::amount("height_mm", needed(), "its height, mm");
const AREA: Key<Nested> = Key::nested("area_mm2", "a number", Fallback::Needed, "its area, square mm");
const SCORES: Key<Nested> = Key::nested("scores", "a list of scores", Fallback::Needed, "its scores");
const PAGES: Key<Option<Counts>> = Key::counts("pages", rule("none"), "the page of each of its pieces");
const DIGEST: Key<Option<Text>> = Key::text("digest", rule("none"), "the digest of what is cut and scored");
const TURNED: Key<Option<Text>> = Key::text("digest_turned", rule("none"), "the same of it upside down");
const PART: &[Field] = &[
    ID.field,
    KIND.field,
    STOCK.field,
    COUNT.field,
    WIDTH.field,
    HEIGHT.field,
    AREA.field,
    SCORES.field,
    USED_IN.field,
    PAGES.field,
    DIGEST.field,
    TURNED.field,
    COUNTS.field,
    USES.field,
];

const FROM: Key<Nested> = Key::nested("from_mm", "two numbers", Fallback::Needed, "one end");
const TO: Key<Nested> = Key::nested("to_mm", "two numbers", Fallback::Needed, "the other end");
const FOLD: Key<Word> = Key::word("fold", &["valley", "mountain", "both"], "valley", "which way it is folded");
const SCORE: &[Field] = &[FROM.field, TO.field, FOLD.field];

/// Reads a report.
#[must_use]
pub fn read_report(source: &Source) -> Checked<AnyEdition> {
    let mut reader = Reader::of_program(source);
    match edition(&mut reader) {
        Some(edition) => Checked::new(edition, reader.findings),
        None => Checked::none(reader.findings),
    }
}

fn edition(reader: &mut Reader<'_>) -> Option<AnyEdition> {
    let top = reader.top(TOP, REPORT_FORMAT)?;
    if top.get(RECUT) {
        let finding = refused("report-of-recut", "report-of-recut-help").at(top.place(RECUT));
        reader.findings.push(finding);
        return None;
    }
    let kits = top.get(KITS).map(|node| report_kits::kits(reader, node)).unwrap_or_default();
    let (parts, in_kits): (Vec<EditionPart>, Vec<InKits>) = parts(reader, top.get(PARTS)?).into_iter().unzip();
    // Where a part could not be read, whatever names it would be called wrong as well.
    if !reader.findings.is_empty() {
        return None;
    }
    if parts.iter().any(|part| part.digest.is_empty()) {
        let finding = refused("report-without-digests", "report-without-digests-help").at(top.place(PARTS));
        reader.findings.push(finding);
        return None;
    }
    let is_told = |kits: &InKits| kits.values().all(|own| own.count == 0 || !own.used_in.is_empty());
    if !kits.is_empty() && !in_kits.iter().all(is_told) {
        let finding = refused("report-without-uses", "report-without-digests-help").at(top.place(PARTS));
        reader.findings.push(finding);
        return None;
    }
    let by_id = parts.iter().enumerate().map(|(number, part)| (part.id.as_str(), number)).collect();
    let mut lists = Lists { reader, by_id };
    let blocks = top.get(BLOCKS).map_or_else(Vec::new, |node| lists.blocks(node));
    let sheets = top.get(SHEETS).map_or_else(Vec::new, |node| lists.sheets(node));
    let title = top.get(TITLE).unwrap_or_default().to_owned();
    if !kits.is_empty() {
        let kits = report_kits::filled(kits, (&parts, &in_kits), &blocks);
        return Some(AnyEdition::Order(OrderEdition { title, kits, parts, sheets }));
    }
    let blocks = blocks.into_iter().map(|(_, block)| block).collect();
    let copies = top.get(COPIES);
    Some(AnyEdition::Kit(Edition { title, copies, parts, blocks, sheets, ..Edition::default() }))
}

fn refused(key: &'static str, help: &'static str) -> Finding {
    Finding::stop(key, Said::NOTHING, Said::new(key)).help(Said::new(help))
}

fn parts(reader: &mut Reader<'_>, node: &Node) -> Vec<(EditionPart, InKits)> {
    let mut seen = BTreeSet::new();
    let mut parts = Vec::new();
    for (index, node) in reader.list(node, "parts", "parts").iter().enumerate() {
        let path = format!("parts[{index}]");
        let Some(values) = reader.object(node, &path, Said::new("a-part"), &[PART]) else { continue };
        if !seen.insert(values.get(ID).to_owned()) && values.says(ID) {
            let text = Said::new("twice-part").with("name", Arg::quoted(excerpt(values.get(ID))));
            let finding = Finding::stop("twice", Said::NOTHING, text).help(Said::new("made-again-help"));
            reader.findings.push(finding.at(values.place(ID)));
        }
        let in_kits = report_kits::in_kits(reader, &values, &path);
        parts.extend(part(reader, &values, &path).map(|part| (part, in_kits)));
    }
    parts
}

fn part(reader: &mut Reader<'_>, values: &Values, path: &str) -> Option<EditionPart> {
    let height = values.get(HEIGHT);
    let area = number_in(reader, values.get(AREA)?, &format!("{path}.area_mm2"), "area_mm2");
    let [digest, turned] = [DIGEST, TURNED].map(|key| digest(reader, values, key));
    let at = format!("{path}.scores");
    let mut scores = Vec::new();
    for (index, node) in reader.list(values.get(SCORES)?, &at, "scores").iter().enumerate() {
        scores.extend(score(reader, node, &format!("{at}[{index}]"), height));
    }
    Some(EditionPart {
        id: values.get(ID).to_owned(),
        kind: values.get(KIND).to_owned(),
        stock: values.get(STOCK).to_owned(),
        count: values.get(COUNT),
        width: values.get(WIDTH),
        height,
        area: area?,
        scores: MeasuredScore::in_order(scores),
        used_in: values.get(USED_IN).iter().map(|(text, _)| text.clone()).collect(),
        pages: values.get(PAGES).unwrap_or_default().iter().map(|(page, _)| *page as usize).collect(),
        digest: digest.unwrap_or_default(),
        turned,
    })
}

/// A digest; none where none is said, as by an earlier version.
fn digest(reader: &mut Reader<'_>, values: &Values, key: Key<Option<Text>>) -> Option<String> {
    let said = values.get(key)?;
    if said.len() == 32 && said.bytes().all(|byte| matches!(byte, b'0'..=b'9' | b'a'..=b'f')) {
        return Some(said.to_owned());
    }
    let text = Said::new("bad-digest").with("field", Arg::field(key.name()));
    let finding = Finding::stop("bad-digest", Said::NOTHING, text).help(Said::new("made-again-help"));
    reader.findings.push(finding.at(values.place(key)));
    None
}

fn score(reader: &mut Reader<'_>, node: &Node, path: &str, height: f64) -> Option<MeasuredScore> {
    let values = reader.object(node, path, Said::new("a-score"), &[SCORE])?;
    let ends = [FROM, TO].map(|key| {
        let path = format!("{path}.{}", key.name());
        let node = values.get(key)?;
        let Tree::Array(pair) = &node.tree else { return None };
        let [x, y] = pair.as_slice() else { return None };
        Some([number_in(reader, x, &path, key.name())?, number_in(reader, y, &path, key.name())?])
    });
    if let [Some(from), Some(to)] = ends {
        let sense = match values.get(FOLD) {
            "mountain" => Sense::Mountain,
            "both" => Sense::Both,
            _ => Sense::Valley,
        };
        return Some(MeasuredScore::of([from, to], sense, height));
    }
    let text = Said::new("bad-score-ends");
    let finding = Finding::stop("wrong-type", Said::NOTHING, text).help(Said::new("made-again-help"));
    reader.findings.push(finding.at(values.whole()));
    None
}
