// SPDX-License-Identifier: MIT
//! The fields of a kind file, object by object.

use super::kind_words::{CornersWord, EdgeWord, FaceWord, Fills, FoldWay, PanelUse, RowWay};
use crate::fields::{AmountOrText, Fallback, Field, Key, Nested, Text, needed, rule};

/// What a kind file's `format` says.
pub const FORMAT: &str = "hingeleaf-kind/1";

const LENGTH: &str = "a length or a formula (\"height / 2\")";
const NUMBER: &str = "a number or a formula";
const PANEL: &str = "a panel as \"piece/panel\"";
const CONDITION: &str = "a condition (\"flap > 0\")";

const fn length(name: &'static str, about: &'static str) -> Key<AmountOrText> {
    Key::amount_or_text(name, LENGTH, needed(), about)
}

const fn length_or(name: &'static str, without: &'static str, about: &'static str) -> Key<Option<AmountOrText>> {
    Key::amount_or_text(name, LENGTH, rule(without), about)
}

const fn list(name: &'static str, form: &'static str, without: &'static str, about: &'static str) -> Key<Nested> {
    Key::nested(name, form, Fallback::Rule(without), about)
}

pub(super) const NAME: Key<Text> =
    Key::text("name", needed(), "its name in album files: small letters, digits, hyphens");
pub(super) const IS: Key<Fills> = Key::choice("is", needed(), "whether it is a page or an insert");
pub(super) const ABOUT: Key<Text> = Key::text("about", needed(), "what it is, in one sentence without a full stop");
pub(super) const VERSION: Key<Option<Text>> = Key::text("version", rule("none"), "its version");
pub(super) const SIZES: Key<Nested> =
    list("sizes", "{ … } of sizes by their names", "none", "what an album may say of each");
pub(super) const PIECES: Key<Nested> =
    Key::nested("pieces", "{ … } of pieces by their names", Fallback::Needed, "what is cut");
pub(super) const JOINS: Key<Nested> = list("joins", "a list of joins", "none", "which seams are stuck on what");
pub(super) const POCKETS: Key<Nested> = list("pockets", "a list of pockets", "none", "where things can be put in");
pub(super) const FLAPS: Key<Nested> = list("flaps", "a list of flaps", "none", "flaps that close over pockets");
pub(super) const MIRRORED: Key<Option<Text>> = Key::text(
    "mirrored",
    rule("never"),
    "when left and right change places and its front is the page's back, as a condition",
);
pub(super) const SOURCE: Key<Option<Text>> =
    Key::text("source", rule("none"), "where its form and its usual sizes come from");
pub(super) const PAPERS: Key<Nested> = list("papers", "a list of faces", "none", "faces that take patterned paper");
pub(super) const HANGS: Key<Nested> = list(
    "hangs",
    "a panel as \"piece/panel\", or a list of two",
    "the first panel of the first piece",
    "the panel that the spine's tab is stuck on, or the two between which it slides",
);
pub(super) const NEEDS: Key<Nested> = list("needs", "a list of conditions", "nothing", "what must hold");
pub(super) const PULL: Key<Option<Text>> =
    Key::text("pull", rule("never"), "of an insert: when it has something to pull it out by, as a condition");
pub(super) const LAYERS: Key<Option<AmountOrText>> =
    Key::amount_or_text("layers", NUMBER, rule("1"), "of an insert: how many cards thick it is when it is put in");
pub(super) const PRINTS: Key<bool> =
    Key::flag("prints", "of an insert: whether it takes the name of a print as its size");
pub(super) const EXAMPLE: Key<Nested> =
    list("example", "{ … }", "its name alone", "an entry of an album that makes a usual one, for its picture");

/// The fields of the file.
pub(crate) const KIND_FIELDS: &[Field] = &[
    Key::<Text>::text("format", needed(), "what kind of file it is").field,
    NAME.field,
    IS.field,
    ABOUT.field,
    VERSION.field,
    SOURCE.field,
    SIZES.field,
    PIECES.field,
    JOINS.field,
    POCKETS.field,
    FLAPS.field,
    PAPERS.field,
    HANGS.field,
    MIRRORED.field,
    NEEDS.field,
    PULL.field,
    LAYERS.field,
    PRINTS.field,
    EXAMPLE.field,
];

pub(super) const TAKES: Key<Nested> = list(
    "takes",
    "\"length\", \"count\", or a list of words",
    "length",
    "what it takes: a length, a whole number, or one of these words",
);
pub(super) const USUAL: Key<Nested> = list(
    "usual",
    "a length or formula, or a list of two lengths: in mm, in inches",
    "it must be given",
    "what holds where an album leaves it out",
);
pub(super) const LEAST: Key<Option<AmountOrText>> = length_or("least", "no limit", "the least that it may be");
pub(super) const MOST: Key<Option<AmountOrText>> = length_or("most", "no limit", "the most that it may be");

/// The fields of a size.
pub(crate) const SIZE_FIELDS: &[Field] =
    &[ABOUT.worded("what it means, in a few words").field, TAKES.field, USUAL.field, LEAST.field, MOST.field];

pub(super) const ROW: Key<RowWay> =
    Key::choice("row", RowWay::Across.usual(), "which way its panels follow each other");
pub(super) const WIDTH: Key<Option<AmountOrText>> =
    length_or("width", "as its row says", "how wide: of a row that runs up, and of each panel of one that runs across");
pub(super) const HEIGHT: Key<Option<AmountOrText>> = length_or(
    "height",
    "as its row says",
    "how tall: of a row that runs across, and of each panel of one that runs up",
);
pub(super) const PANELS: Key<Nested> =
    Key::nested("panels", "a list of panels", Fallback::Needed, "its panels in order");
pub(super) const CALLED: Key<Option<Text>> = Key::text("called", rule("its names"), "what it is called in lists");
pub(super) const ALIKE: Key<Option<Text>> =
    Key::text("alike", rule("what it is called"), "pieces with the same word here may be one part");
pub(super) const SPINE_GRAIN: Key<bool> = Key::flag("grain_along_spine", "whether its grain must run along the spine");

/// The fields of a piece.
pub(crate) const PIECE_FIELDS: &[Field] =
    &[ROW.field, WIDTH.field, HEIGHT.field, PANELS.field, CALLED.field, ALIKE.field, SPINE_GRAIN.field];

pub(super) const PANEL_NAME: Key<Text> = Key::text("name", needed(), "its name in the piece");
pub(super) const USE: Key<PanelUse> = Key::choice("use", PanelUse::Plain.usual(), "what it is there for");
pub(super) const FOLD: Key<Option<FoldWay>> =
    Key::choice("fold", rule("none before the first"), "which way it is folded on the panel before it");
pub(super) const ANGLE: Key<Option<f64>> = Key::amount("angle", rule("180"), "how far it is folded, degrees from flat");
pub(super) const TAPER: Key<Nested> = list(
    "taper",
    "a list of two lengths or formulas",
    "0 and 0",
    "how far its edges stand back on either side, where it starts and where it ends",
);
pub(super) const WHEN: Key<Option<Text>> = Key::text("when", rule("always"), "only where this condition holds");
pub(super) const TIMES: Key<Option<AmountOrText>> =
    Key::amount_or_text("times", NUMBER, rule("1"), "so many of it side by side");
pub(super) const CORNERS: Key<Nested> = list("corners", "a list of corners", "square", "corners that are cut off");
pub(super) const NOTCHES: Key<Nested> = list("notches", "a list of notches", "none", "half-round notches in its edges");
pub(super) const DRAWN: Key<Nested> = list(
    "outline",
    "{ … } with file",
    "a rectangle",
    "of the last panel of a row that hangs on another one: the drawing, SVG or DXF, that shows its form",
);
pub(super) const HOLES: Key<Nested> = list("holes", "a list of holes", "none", "holes, from its lower left corner");

pub(super) const MARKS: Key<Nested> =
    list("marks", "a list of marks", "none", "lines and crosses that are drawn on it, to place or glue by");

/// A field for the row that hangs on an edge.
pub(super) const fn hung(edge: EdgeWord) -> Key<Nested> {
    match edge {
        EdgeWord::Left => list("left", "a list of panels", "none", "a row that hangs on its left edge"),
        EdgeWord::Right => list("right", "a list of panels", "none", "a row that hangs on its right edge"),
        EdgeWord::Head => list("head", "a list of panels", "none", "a row that hangs on its upper edge"),
        EdgeWord::Tail => list("tail", "a list of panels", "none", "a row that hangs on its lower edge"),
    }
}

/// The fields of a panel.
pub(crate) const PANEL_FIELDS: &[Field] = &[
    PANEL_NAME.field,
    USE.field,
    WIDTH.field,
    HEIGHT.field,
    FOLD.field,
    ANGLE.field,
    TAPER.field,
    WHEN.field,
    TIMES.field,
    CORNERS.field,
    NOTCHES.field,
    DRAWN.field,
    HOLES.field,
    MARKS.field,
    hung(EdgeWord::Left).field,
    hung(EdgeWord::Right).field,
    hung(EdgeWord::Head).field,
    hung(EdgeWord::Tail).field,
];

pub(super) const CORNERS_AT: Key<CornersWord> = Key::choice("at", CornersWord::All.usual(), "which corners");
pub(super) const CLIPPED: Key<Option<AmountOrText>> =
    length_or("clipped", "as rounded says", "how much a straight cut takes of each edge");
pub(super) const ROUNDED: Key<Option<AmountOrText>> = length_or("rounded", "as clipped says", "their radius");

/// The fields of corners.
pub(crate) const CORNER_FIELDS: &[Field] = &[CORNERS_AT.field, CLIPPED.field, ROUNDED.field, WHEN.field];

pub(super) const NOTCH_AT: Key<EdgeWord> = Key::choice("at", EdgeWord::Head.usual(), "in the middle of which edge");
pub(super) const ACROSS: Key<AmountOrText> = length("across", "its diameter");

/// The fields of a notch.
pub(crate) const NOTCH_FIELDS: &[Field] = &[NOTCH_AT.field, ACROSS.field, WHEN.field];

pub(super) const ROUND: Key<Nested> =
    list("round", "a list of two lengths or formulas", "as window says", "the centre of a round hole");
pub(super) const WINDOW: Key<Nested> = list(
    "window",
    "a list of four lengths or formulas",
    "as round says",
    "its lower left corner, its width, its height",
);
pub(super) const HOLE_ACROSS: Key<Option<AmountOrText>> =
    length_or("across", "as window says", "a round hole's diameter");
pub(super) const HOLE_ROUNDED: Key<Option<AmountOrText>> =
    length_or("rounded", "square", "the radius of a window's corners");

pub(super) const HOLE_DRAWN: Key<Nested> = list(
    "outline",
    "{ … } with file, and width or height",
    "as round or window says",
    "the drawing, SVG or DXF, that shows a window's form",
);
pub(super) const HOLE_AT: Key<Nested> = list(
    "at",
    "a list of two lengths or formulas",
    "as round or window says",
    "where the lower left corner of a drawn window lies",
);

pub(super) const SLIT: Key<Nested> = list(
    "slit",
    "a list of four lengths or formulas",
    "as round or window says",
    "where a straight cut begins and ends",
);
pub(super) const OVER_FOLD: Key<bool> =
    Key::flag("over_fold", "whether it reaches over a fold into the next panel; the score is left out there");
pub(super) const HOLE_TIMES: Key<Option<AmountOrText>> =
    Key::amount_or_text("times", NUMBER, rule("1"), "so many of it in a row, with step");
pub(super) const STEP: Key<Nested> = list(
    "step",
    "a list of two lengths or formulas",
    "none with one of it",
    "how far each of several is to the right of the one before it, and how far up",
);

/// The fields of a hole.
pub(crate) const HOLE_FIELDS: &[Field] = &[
    ROUND.field,
    HOLE_ACROSS.field,
    WINDOW.field,
    HOLE_ROUNDED.field,
    HOLE_DRAWN.field,
    HOLE_AT.field,
    SLIT.field,
    OVER_FOLD.field,
    HOLE_TIMES.field,
    STEP.field,
    WHEN.field,
];

pub(super) const LINE: Key<Nested> =
    list("line", "a list of four lengths or formulas", "as cross says", "where a drawn line begins and ends");
pub(super) const CROSS: Key<Nested> =
    list("cross", "a list of two lengths or formulas", "as line says", "the middle of a small cross");
pub(super) const MARK_ACROSS: Key<Option<AmountOrText>> = length_or("across", "4 mm", "how large a cross is");

/// The fields of a mark.
pub(crate) const MARK_FIELDS: &[Field] = &[LINE.field, CROSS.field, MARK_ACROSS.field, WHEN.field];

pub(super) const DRAWN_FILE: Key<Text> = Key::text("file", needed(), "the drawing, SVG or DXF, beside the kind file");
pub(super) const DRAWN_LAYER: Key<Option<Text>> =
    Key::text("layer", rule("all that is drawn"), "the layer or group that it stands in");
pub(super) const DRAWN_WIDTH: Key<Option<AmountOrText>> = length_or("width", "as height says", "how wide it is to be");
pub(super) const DRAWN_HEIGHT: Key<Option<AmountOrText>> = length_or("height", "as width says", "how tall it is to be");

/// The fields of a window's form that a drawing shows.
pub(crate) const WINDOW_DRAWN_FIELDS: &[Field] =
    &[DRAWN_FILE.field, DRAWN_WIDTH.field, DRAWN_HEIGHT.field, DRAWN_LAYER.field];

/// The fields of a panel's form that a drawing shows.
pub(crate) const PANEL_DRAWN_FIELDS: &[Field] = &[DRAWN_FILE.field, DRAWN_LAYER.field];

const fn panel(name: &'static str, about: &'static str) -> Key<Nested> {
    Key::nested(name, PANEL, Fallback::Needed, about)
}

pub(super) const STICK: Key<Nested> = panel("stick", "the panel that takes tape or glue");
pub(super) const ONTO: Key<Nested> = panel("onto", "the panel that it is stuck on");
pub(super) const FACES: Key<Nested> =
    list("faces", "a list of two words, front or back", "as its list says", "which faces of the two meet");
pub(super) const AT: Key<Nested> = list(
    "at",
    "a list of two lengths or formulas",
    "0 and 0",
    "where the lower left corner of what is covered lies, from the other panel's own",
);

/// The fields of a join.
pub(crate) const JOIN_FIELDS: &[Field] = &[STICK.field, ONTO.field, FACES.field, AT.field, WHEN.field];

pub(super) const BETWEEN: Key<Nested> =
    Key::nested("between", "a list of two panels", Fallback::Needed, "the panel behind it, and the one before it");
pub(super) const POCKET_WIDTH: Key<AmountOrText> = length("width", "from the spine to the fore-edge");
pub(super) const POCKET_HEIGHT: Key<AmountOrText> = length("height", "from the tail to the head");
pub(super) const OPEN: Key<Nested> = Key::nested(
    "open",
    "one or a list of spine, fore-edge, head, tail",
    Fallback::Needed,
    "the sides at which it is open",
);

/// The fields of a pocket.
pub(crate) const POCKET_FIELDS: &[Field] =
    &[BETWEEN.field, FACES.field, POCKET_WIDTH.field, POCKET_HEIGHT.field, OPEN.field, WHEN.field];

pub(super) const FLAP: Key<Nested> = panel("flap", "the panel that folds over");
pub(super) const OVER: Key<Nested> = panel("over", "the pocket's front that it closes over");
pub(super) const RISER: Key<Nested> =
    list("riser", PANEL, "it has one score", "the panel between its two scores, for what is thick");
pub(super) const FLAP_SIZE: Key<Option<Text>> =
    Key::text("size", rule("none"), "the size that says how wide the flap is");
pub(super) const OVER_SIZE: Key<Option<Text>> =
    Key::text("over_size", rule("none"), "the size that says how wide the pocket is");

/// The fields of a flap.
pub(crate) const FLAP_FIELDS: &[Field] =
    &[FLAP.field, OVER.field, RISER.field, FLAP_SIZE.field, OVER_SIZE.field, WHEN.field];

pub(super) const PAPER_ON: Key<Nested> = panel("on", "the panel");
pub(super) const FACE: Key<FaceWord> = Key::choice("face", FaceWord::Front.usual(), "which of its faces");
pub(super) const FACE_CALLED: Key<Option<Text>> =
    Key::text("called", rule("nothing where it is all of its side"), "what the face is called");

/// The fields of a face that takes paper.
pub(crate) const PAPER_FIELDS: &[Field] = &[PAPER_ON.field, FACE.field, FACE_CALLED.field, WHEN.field];

pub(super) const THAT: Key<Text> = Key::text("that", needed(), CONDITION);
pub(super) const BECAUSE: Key<Text> = Key::text("because", needed(), "why, for whoever chose the sizes");
pub(super) const NEED_SIZE: Key<Option<Text>> = Key::text("size", rule("none"), "the size that is to be changed");

/// The fields of what must hold.
pub(crate) const NEED_FIELDS: &[Field] = &[THAT.field, BECAUSE.field, NEED_SIZE.field];
