// SPDX-License-Identifier: MIT
//! The fields of a batch file: of its top object, of a kit.

use super::Together;
use crate::album::{HANDED_OVER, Language, SPARES};
use crate::drawer::DRAWER;
use crate::fields::{Fallback, Field, Key, Nested, Takes, Text, needed, rule};
use crate::selling::{PACKS, SELLING, SUPPLIES};

/// What the file's `format` must say.
pub const FORMAT: &str = "hingeleaf-batch/1";

pub(super) const TITLE: Key<Option<Text>> = Key::text("title", rule("Batch"), "the order's name");
pub(super) const LANGUAGE: Key<Option<Language>> =
    Key::choice("language", rule("each album's own"), "the language of what is handed over");
pub(super) const KITS: Key<Nested> =
    Key::nested("kits", "a list of objects with name and album", Fallback::Needed, "the kits of the order");
pub(super) const TOGETHER: Key<Together> = Key::choice(
    "together",
    Together::Batch.usual(),
    "what is laid together: the parts of the whole batch, or each kit and its copies",
);

/// The fields of the file's top object.
pub(crate) const TOP_FIELDS: &[Field] = &[
    Field::new("format", Takes::Text, Fallback::Needed, "which kind of file this is: \"hingeleaf-batch/1\""),
    TITLE.field,
    Field::new("units", Takes::Choice(&["mm", "cm", "in"]), Fallback::Choice("mm"), "the unit of lists over all kits"),
    LANGUAGE.field,
    KITS.field,
    TOGETHER.field,
    HANDED_OVER.field,
    SPARES.field,
    DRAWER.field,
    PACKS.field,
    SUPPLIES.field,
    SELLING.field,
];

pub(super) const NAME: Key<Text> = Key::text("name", needed(), "what the kit is called in file names");
pub(super) const ALBUM: Key<Text> = Key::text("album", needed(), "its album file, found from this file's folder");
pub(super) const COPIES: Key<Option<u32>> =
    Key::count("copies", (1, 10_000), rule("as many as its album says"), "how many of it to make");
pub(super) const CHANGE: Key<Nested> = Key::nested(
    "change",
    "an object of new values by their ways, such as \"pages[0].pocket\"",
    Fallback::Rule("nothing"),
    "what is otherwise than in its album file; null takes out",
);

pub(super) const CHOICE: Key<Nested> = Key::nested(
    "choice",
    "an object with pages and of",
    Fallback::Rule("the album's pages"),
    "how many pages each copy chooses, and of which kinds; instead of the album's pages",
);

/// The fields of a kit.
pub(crate) const KIT_FIELDS: &[Field] = &[NAME.field, ALBUM.field, COPIES.field, CHANGE.field, CHOICE.field];

pub(super) const CHOSEN_PAGES: Key<u32> = Key::count("pages", (1, 200), needed(), "how many pages each copy has");
pub(super) const CHOSEN_OF: Key<Nested> = Key::nested(
    "of",
    "a list of pages with kind and fields",
    Fallback::Needed,
    "the kinds that they are chosen from, in the order in which they stand in the album",
);

/// The fields of `choice`.
pub(crate) const CHOICE_FIELDS: &[Field] = &[CHOSEN_PAGES.field, CHOSEN_OF.field];
