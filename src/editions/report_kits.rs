// SPDX-License-Identifier: MIT
//! The kits of a batch's report, and what each of them has of a part.

use super::edition::{Edition, EditionBlock, EditionPart};
use super::order::{KitEdition, PartInKit};
use super::report_values::{COPIES, MOST, USED_IN};
use crate::album::MoreParts;
use crate::fields::{Counts, Fallback, Field, Key, Nested, Node, Reader, Text, Tree, Values, needed, number, rule};
use crate::finding::{Arg, Finding, Said};
use crate::length::excerpt;
use std::collections::BTreeMap;

const NAME: Key<Text> = Key::text("name", needed(), "the kit's name");
const TITLE: Key<Option<Text>> = Key::text("title", rule("nothing"), "its album's name");
const MADE: Key<Option<u32>> =
    Key::count("made", (0, MOST), rule("as many as copies"), "how many are made, spare ones among them");
const KIT: &[Field] = &[NAME.field, TITLE.field, COPIES.field, MADE.field];

/// How many of a part each kit takes.
pub(super) const COUNTS: Key<Nested> =
    Key::nested("kits", "an object of counts by kit", Fallback::Rule("none"), "how many each kit takes");
/// What a part is in each kit.
pub(super) const USES: Key<Nested> =
    Key::nested("uses", "an object by kit", Fallback::Rule("none"), "what it is in each kit");
const PAGES: Key<Option<Counts>> = Key::counts("pages", rule("none"), "the page of each of its pieces");
const USE: &[Field] = &[USED_IN.field, PAGES.field];
const TAKEN: Key<u32> = Key::count("taken", (0, MOST), number(0), "how many it takes");

/// What a part is in the kits that take it, by their names.
pub(super) type InKits = BTreeMap<String, PartInKit>;

/// The kits as the report's top lists them.
pub(super) fn kits(reader: &mut Reader<'_>, node: &Node) -> Vec<KitEdition> {
    let mut kits: Vec<KitEdition> = Vec::new();
    for (index, node) in reader.list(node, "kits", "kits").iter().enumerate() {
        let path = format!("kits[{index}]");
        let Some(values) = reader.object(node, &path, Said::new("a-kit"), &[KIT]) else { continue };
        let name = values.get(NAME).to_owned();
        if values.says(NAME) && kits.iter().any(|kit| kit.name.as_ref() == Some(&name)) {
            let text = Said::new("twice-kit").with("name", Arg::quoted(excerpt(&name)));
            let finding = Finding::stop("twice", Said::NOTHING, text).help(Said::new("made-again-help"));
            reader.findings.push(finding.at(values.place(NAME)));
        }
        let title = values.get(TITLE).unwrap_or_default().to_owned();
        let edition = Edition { title, copies: values.get(COPIES), ..Edition::default() };
        let copies = values.get(COPIES);
        let made = values.get(MADE).unwrap_or(copies);
        kits.push(KitEdition {
            name: Some(name),
            copies,
            made,
            more: MoreParts::default(),
            edition,
            part_of: Vec::new(),
        });
    }
    kits
}

/// What a part is in each kit.
pub(super) fn in_kits(reader: &mut Reader<'_>, part: &Values, path: &str) -> InKits {
    let mut kits = InKits::new();
    for (name, node, at) in by_kit(reader, part.get(COUNTS), &format!("{path}.kits")) {
        // A count by itself is read as an object's field: it is checked and told as others are.
        let alone =
            Node { tree: Tree::Object(vec![(TAKEN.name().to_owned(), node.range.clone(), node.clone())]), ..node };
        let Some(values) = reader.object(&alone, &at, Said::new("a-kit"), &[&[TAKEN.field]]) else { continue };
        kits.insert(name, PartInKit { count: values.get(TAKEN), ..PartInKit::default() });
    }
    for (name, node, at) in by_kit(reader, part.get(USES), &format!("{path}.uses")) {
        let Some(values) = reader.object(&node, &at, Said::new("a-kit"), &[USE]) else { continue };
        let own = kits.entry(name).or_default();
        own.used_in = values.get(USED_IN).iter().map(|(text, _)| text.clone()).collect();
        own.pages = values.get(PAGES).unwrap_or_default().iter().map(|(page, _)| *page as usize).collect();
    }
    kits
}

/// An object's entries, with the way to each.
fn by_kit(reader: &mut Reader<'_>, node: Option<&Node>, path: &str) -> Vec<(String, Node, String)> {
    let Some(node) = node else { return Vec::new() };
    let Tree::Object(entries) = &node.tree else {
        let place = reader.place(&node.range, path);
        let text = Said::new("wrong-type-object").with("what", Said::new("a-part")).with("found", node.tree.what());
        reader.problem("wrong-type", text, Said::new("made-again-help"), &place);
        return Vec::new();
    };
    entries.iter().map(|(name, _, node)| (name.clone(), node.clone(), format!("{path}.{name}"))).collect()
}

/// The kits with what they have of the order's parts.
pub(super) fn filled(
    kits: Vec<KitEdition>,
    (parts, in_kits): (&[EditionPart], &[InKits]),
    blocks: &[(Option<String>, EditionBlock)],
) -> Vec<KitEdition> {
    let one = |kit: KitEdition| {
        let name = kit.name.clone();
        let of_kit = |all: &InKits| name.as_ref().and_then(|name| all.get(name)).cloned().unwrap_or_default();
        let of: Vec<PartInKit> = in_kits.iter().map(of_kit).collect();
        let own = blocks.iter().filter(|(of, _)| *of == name).map(|(_, block)| block.clone()).collect();
        kit.with_parts(parts, &of, own)
    };
    kits.into_iter().map(one).collect()
}
