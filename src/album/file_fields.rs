// SPDX-License-Identifier: MIT
//! The fields of an album file: of its top object, of `page` and of `panels`. Those of entries stand with their kinds.

use super::kind::{BY, STOCK};
use super::spares::SPARES;
use super::{Bound, Decorated, Language};
use crate::drawer::DRAWER;
use crate::fields::{Fallback, Field, Key, Nested, Takes, Text, Texts, needed, number, rule, usual};
use crate::length::Length;
use crate::selling::{PACKS, SELLING, SUPPLIES};

/// What the file's `format` must say.
/// What an album file's `format` says.
pub const FORMAT: &str = "hingeleaf-album/1";

/// The form of a list of entries, in words.
const ENTRY_FORMS: &str = "objects with a \"kind\"";

/// The kinds that an album brings along; whoever says which kinds there are has read them.
pub(super) const KINDS: Key<Nested> = Key::nested(
    "kinds",
    "a list of kind files, folders of these, or kinds",
    Fallback::Rule("the built-in ones"),
    "kinds of one's own: files, folders of files, or the kinds themselves",
);
pub(super) const TITLE: Key<Option<Text>> = Key::text("title", rule("Album"), "the album's name");
pub(super) const MAKER: Key<Option<Text>> = Key::text("maker", rule("nobody"), "who designed it, for the guide");
pub(super) const EDITION: Key<Option<Text>> = Key::text("edition", rule("none"), "its edition, for the guide");
pub(super) const NOTES: Key<Texts> = Key::texts(
    "notes",
    "a text or a list of texts",
    Fallback::Rule("none"),
    "what the maker tells those who put it together, for the guide",
);
pub(super) const BOUND: Key<Bound> = Key::choice(
    "bound",
    Bound::Left.usual(),
    "the edge where it is bound, seen from its front; an album bound at the top is described as if bound at the left, its \
     width from the spine down",
);
pub(super) const LANGUAGE: Key<Language> = Key::choice(
    "language",
    Language::English.usual(),
    "the language of what is handed over: guide, job sheet, templates",
);
pub(super) const COPIES: Key<u32> = Key::count("copies", (1, 10_000), number(1), "how many kits to make");
/// In what state kits are handed over.
pub(crate) const HANDED_OVER: Key<Nested> = Key::nested(
    "handed_over",
    "\"sheets\", \"cut\" or \"scored\", or { … } that says so of each stock",
    Fallback::Rule("sheets"),
    "in what state card is handed to those who put the kits together; the guide leaves out what is done",
);
pub(super) const LABELS: Key<Nested> = Key::nested(
    "labels",
    "{ … } with across, down, width and height",
    Fallback::Rule("plain paper with cut lines"),
    "sheets of labels that you have, for labels.pdf",
);
pub(super) const STOCKS: Key<Nested> =
    Key::nested("stocks", "{ … } of stocks by name", Fallback::Rule("A4 card"), "the card and paper to cut from");
pub(super) const PAGE: Key<Nested> =
    Key::nested("page", "{ … } with width and height", Fallback::Needed, "the size of a page");
pub(super) const PAGES: Key<Nested> = Key::nested("pages", ENTRY_FORMS, Fallback::Needed, "the pages in order");
pub(super) const SPINE: Key<Nested> =
    Key::nested("spine", ENTRY_FORMS, Fallback::Rule("a flexi-hinge"), "what carries the pages");
pub(super) const COVER: Key<Nested> =
    Key::nested("cover", ENTRY_FORMS, Fallback::Rule("none"), "what goes round the pages");
pub(super) const PANELS: Key<Nested> = Key::nested(
    "panels",
    "{ … } with reveal and stock",
    Fallback::Rule("none"),
    "panels of patterned paper on the faces",
);
pub(super) const INSERTS: Key<Nested> =
    Key::nested("inserts", ENTRY_FORMS, Fallback::Rule("none"), "what goes into the pockets");

pub(super) const TOLERANCE: Key<Length> =
    Key::length("tolerance", usual(0.5, 0.02), "how far off a cut or score may be when it is made by hand")
        .unmeasured();

/// The fields of the file's top object.
pub(crate) const TOP_FIELDS: &[Field] = &[
    Field::new("format", Takes::Text, Fallback::Needed, "which kind of file this is: \"hingeleaf-album/1\""),
    TITLE.field,
    MAKER.field,
    EDITION.field,
    NOTES.field,
    Field::new("units", Takes::Choice(&["mm", "cm", "in"]), Fallback::Choice("mm"), "the unit of bare numbers"),
    BOUND.field,
    LANGUAGE.field,
    COPIES.field,
    HANDED_OVER.field,
    SPARES.field,
    DRAWER.field,
    KINDS.field,
    STOCKS.field,
    PAGE.field,
    PAGES.field,
    SPINE.field,
    COVER.field,
    PANELS.field,
    INSERTS.field,
    LABELS.field,
    PACKS.field,
    SUPPLIES.field,
    SELLING.field,
    TOLERANCE.field,
];

/// From spine to fore-edge.
pub const WIDTH: Key<Length> = Key::size("width", needed(), "from spine to fore-edge");
/// From tail to head.
pub(crate) const HEIGHT: Key<Length> = Key::size("height", needed(), "from tail to head");
/// The strip that takes tape or glue.
pub(crate) const SEAM: Key<Length> = Key::size("seam", usual(12.0, 0.5), "the strip that takes tape or glue");
/// Width of the tape.
pub(crate) const TAPE: Key<Option<Length>> =
    Key::length("tape", rule("one that fits the seam"), "width of the tape that the seams are stuck with").unmeasured();

/// The fields of `page`.
pub(crate) const PAGE_FIELDS: &[Field] = &[
    WIDTH.field,
    HEIGHT.field,
    SEAM.field,
    TAPE.field,
    STOCK.otherwise(rule("the first stock")).worded("the stock that pages are cut from").field,
];

/// The border of card left showing round a panel.
pub const REVEAL: Key<Length> = Key::length("reveal", usual(3.0, 0.125), "the border of card left showing");
/// The stocks of panels.
pub(super) const PANEL_STOCK: Key<Texts> = Key::texts(
    "stock",
    "a stock's name, or a list of them",
    Fallback::Rule("the page's stock"),
    "the stock that panels are cut from; several take turns, one for each pair of facing pages",
);
/// What has panels.
pub(crate) const ON: Key<Decorated> =
    Key::choice("on", Decorated::Everything.usual(), "what has panels: the pages, the cover, or both");
/// Whether the pattern runs on.
pub(crate) const RUNS_ON: Key<bool> = Key::flag(
    "runs_on",
    "whether the pattern runs on over the pieces of a page's side, which are cut from one block then",
);

/// The fields of `panels`.
pub(crate) const PANEL_FIELDS: &[Field] = &[
    REVEAL.field,
    PANEL_STOCK.field,
    ON.field,
    RUNS_ON.field,
    BY.otherwise(rule("as their stock is")).worded("what they are cut by").field,
];
