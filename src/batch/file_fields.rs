// SPDX-License-Identifier: MIT
//! The fields of a batch file: of its top object, of a kit.

use super::Together;
use crate::album::{HANDED_OVER, Language, SPARES};
use crate::drawer::DRAWER;
use crate::fields::{Fallback, Field, Key, Nested, Takes, Text, Texts, needed, number, rule};
use crate::selling::{PACKS, SELLING, SUPPLIES};
use crate::stock::By;

/// What the file's `format` must say.
pub const FORMAT: &str = "hingeleaf-batch/1";

pub(super) const TITLE: Key<Option<Text>> = Key::text("title", rule("Batch"), "the order's name");
pub(super) const LANGUAGE: Key<Option<Language>> =
    Key::choice("language", rule("each album's own"), "the language of what is handed over");
pub(super) const KITS: Key<Nested> = Key::nested(
    "kits",
    "a list of objects with name and album",
    Fallback::Rule("the groups of the class"),
    "the kits of the order",
);
pub(super) const CLASS: Key<Nested> = Key::nested(
    "class",
    "{ … } with album and makers",
    Fallback::Rule("the kits"),
    "groups of makers who make one album, instead of kits",
);
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
    CLASS.field,
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
    "{ … } of new values by their ways, such as \"pages[0].pocket\"",
    Fallback::Rule("nothing"),
    "what is otherwise than in its album file; null takes out",
);

pub(super) const CHOICE: Key<Nested> = Key::nested(
    "choice",
    "{ … } with pages and of",
    Fallback::Rule("the album's pages"),
    "how many pages each copy chooses, and of which kinds; instead of the album's pages",
);

/// The fields of a kit.
pub(crate) const KIT_FIELDS: &[Field] = &[NAME.field, ALBUM.field, COPIES.field, CHANGE.field, CHOICE.field];

pub(super) const MAKERS: Key<Nested> =
    Key::nested("makers", "a list of objects with name and count", Fallback::Needed, "the groups of makers");
pub(super) const SHARED_BY: Key<u32> =
    Key::count("shared_by", (1, 100), number(4), "how many makers share a trimmer, a machine, a punch");
pub(super) const BRINGS: Key<Texts> =
    Key::texts("brings", "a list of texts", Fallback::Rule("nothing"), "what the teacher brings besides");

/// The fields of `class`.
pub(crate) const CLASS_FIELDS: &[Field] = &[ALBUM.field, CHANGE.field, MAKERS.field, SHARED_BY.field, BRINGS.field];

pub(super) const MAKER_COUNT: Key<u32> = Key::count("count", (1, 10_000), needed(), "how many makers there are");
pub(super) const MAKER_ALBUM: Key<Option<Text>> =
    Key::text("album", rule("the class's"), "its album file, found from this file's folder");
pub(super) const MAKER_SHEET: Key<Nested> = Key::nested(
    "sheet",
    "a sheet's name or size (\"A4\", \"letter\"), or { … } that says so of each stock",
    Fallback::Rule("as the album's"),
    "the sheet that the group has, for stocks that come in one of nearly that size",
);
pub(super) const MAKER_BY: Key<Option<By>> = Key::choice("by", rule("as the album's"), "what the group cuts by");
pub(super) const MAKER_CUTTER: Key<Nested> = Key::nested(
    "cutter",
    "a cutter file's name (\"laser.json\"), or { … } as it has",
    Fallback::Rule("the usual machine; on a trimmer no kerf, no margin and no gap"),
    "what the group cuts with",
);

/// The fields of a group of makers.
pub(crate) const MAKER_FIELDS: &[Field] = &[
    NAME.field,
    MAKER_COUNT.field,
    MAKER_ALBUM.field,
    CHANGE.field,
    MAKER_SHEET.field,
    MAKER_BY.field,
    MAKER_CUTTER.field,
    HANDED_OVER.field,
];

pub(super) const CHOSEN_PAGES: Key<u32> = Key::count("pages", (1, 200), needed(), "how many pages each copy has");
pub(super) const CHOSEN_OF: Key<Nested> = Key::nested(
    "of",
    "a list of pages with kind and fields",
    Fallback::Needed,
    "the kinds that they are chosen from, in the order in which they stand in the album",
);

/// The fields of `choice`.
pub(crate) const CHOICE_FIELDS: &[Field] = &[CHOSEN_PAGES.field, CHOSEN_OF.field];
