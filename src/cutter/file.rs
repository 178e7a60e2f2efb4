// SPDX-License-Identifier: MIT
//! The cutter file: its fields, its schema, and reading it.

use super::bed_file::{self, SHEETS_A_BED};
use super::forms_file::{self, DXF_LAYERS, DXF_LINES, HAIRLINE, LAYER_ORDER, SPLIT_LAYERS, SVG_LINES};
use super::manner_file::{
    self, CORNER_HELP, CURVE_TOLERANCE, CURVES, DIRECTION, NICKS, ORDER, OVERRUN, PASSES, SMALLEST_INNER, START, TRAIL,
};
use super::register_file::{self, MARKS};
use super::writing_file::{self, PEN, TEXT, TEXT_SIDE};
use super::{BackSide, BothWays, Colours, Cutter, ScoreMode, Speeds, colour_code};
use crate::fields::{
    Fallback, Field, Key, Nested, Node, Reader, Source, Takes, Text, Tree, Values, Word, file_schema, join, needed,
    object_schema, rule, usual,
};
use crate::finding::{Arg, Checked, Finding, Said};
use crate::length::Length;
use crate::paper;
use serde_json::{Value, json};
/// What the file's `format` must say.
pub const FORMAT: &str = "hingeleaf-cutter/1";

/// The names of `dxf_version`, oldest first.
pub const DXF_VERSIONS: &[&str] = &["R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"];

/// The names of `svg_units`.
pub const SVG_UNITS: &[&str] = &["mm", "in", "px72", "px90", "px96"];

const KERF: Key<Length> =
    Key::length("kerf", usual(0.0, 0.0), "width of material that the tool removes").within(0.0, 5.0).unmeasured();
const MARGIN: Key<Length> =
    Key::length("margin", usual(0.0, 0.0), "border of the sheet that can't be used").within(0.0, 200.0).unmeasured();
const GAP: Key<Length> =
    Key::length("gap", usual(0.0, 0.0), "least distance between the tool's paths").within(0.0, 200.0).unmeasured();
const BED: Key<Option<Text>> =
    Key::text("bed", rule("as large as the sheets"), "the largest sheet that goes in: \"300x300mm\"");
/// The forms of `score`, in words.
const SCORE_FORM: &str = "\"line\", or { \"dash\": 2, \"gap\": 1 }";
const SCORE: Key<Nested> = Key::nested("score", SCORE_FORM, Fallback::Rule("line"), "how scores are made");
const COLOURS: Key<Nested> = Key::nested(
    "colours",
    "{ … } with cut, score, draw and register",
    Fallback::Rule("#000000, #E69F00, #CC79A7, #0072B2"),
    "the colours of the layers",
);
const SVG_UNIT: Key<Word> = Key::word("svg_units", SVG_UNITS, "mm", "the unit of SVG files");
const DXF_VERSION: Key<Word> = Key::word("dxf_version", DXF_VERSIONS, "R2000", "the version of DXF files");
const SHARED_CUTS: Key<Option<bool>> =
    Key::flag_or("shared_cuts", rule("yes where kerf, gap and overrun are 0"), "whether neighbours share one cut");
const BOTH_WAYS: Key<BothWays> =
    Key::choice("both_ways", BothWays::Front.usual(), "where folds that work both ways are scored");
/// The forms of `speed`, in words.
const SPEED_FORM: &str = "mm a second: 40, or { \"cut\": 20, \"score\": 40, \"draw\": 60 }";
const SPEED: Key<Nested> =
    Key::nested("speed", SPEED_FORM, Fallback::Rule("not known"), "how fast it works, mm a second, for the cost");
const LIFT: Key<Option<f64>> =
    Key::amount("lift", rule("0"), "seconds from one stroke to the next, the way there among them, for the cost");

/// The fields of a cutter file: what it is and its units, then the machine's own.
const CUTTER_FIELDS: &[Field] = &[
    Field::new("format", Takes::Text, Fallback::Needed, "which kind of file this is: \"hingeleaf-cutter/1\""),
    Field::new("units", Takes::Choice(&["mm", "cm", "in"]), Fallback::Choice("mm"), "the unit of bare numbers"),
    KERF.field,
    MARGIN.field,
    GAP.field,
    BED.field,
    SHEETS_A_BED.field,
    SCORE.field,
    COLOURS.field,
    SVG_UNIT.field,
    DXF_VERSION.field,
    SHARED_CUTS.field,
    SPEED.field,
    LIFT.field,
    PASSES.field,
    NICKS.field,
    OVERRUN.field,
    TRAIL.field,
    CORNER_HELP.field,
    START.field,
    ORDER.field,
    DIRECTION.field,
    CURVES.field,
    CURVE_TOLERANCE.field,
    SMALLEST_INNER.field,
    MARKS.field,
    LAYER_ORDER.field,
    SPLIT_LAYERS.field,
    SVG_LINES.field,
    HAIRLINE.field,
    DXF_LAYERS.field,
    DXF_LINES.field,
    BOTH_WAYS.field,
    TEXT.field,
    TEXT_SIDE.field,
    PEN.field,
];

const CUT_SPEED: Key<f64> = Key::amount("cut", needed(), "speed of cuts, mm a second");
const SCORE_SPEED: Key<Option<f64>> = Key::amount("score", rule("as cuts"), "speed of scores, mm a second");
const DRAW_SPEED: Key<Option<f64>> = Key::amount("draw", rule("as cuts"), "speed of marks, mm a second");
/// The fields of a speed.
pub(crate) const SPEED_FIELDS: &[Field] = &[CUT_SPEED.field, SCORE_SPEED.field, DRAW_SPEED.field];

/// What a speed may be, mm a second: our choice.
const SPEEDS: std::ops::RangeInclusive<f64> = 0.1..=10_000.0;

/// Seconds that a lift may take at most: our choice.
const MOST_LIFT: f64 = 60.0;
/// The machine's own ones among them.
pub(crate) const SETTINGS: &[Field] = CUTTER_FIELDS.split_at(2).1;

/// What a cutter in an album may say besides: what kind of file it is and its units go without saying there.
const OWN_HEAD: &[Field] = &[
    Field::new("format", Takes::Text, Fallback::Rule("\"hingeleaf-cutter/1\""), "which kind of file it was taken from"),
    Field::new(
        "units",
        Takes::Choice(&["mm", "cm", "in"]),
        Fallback::Rule("the album's"),
        "the unit of its bare numbers",
    ),
];

const DASH: Key<Length> = Key::length("dash", needed(), "length of a cut").within(0.1, 100.0).unmeasured();
const DASH_GAP: Key<Length> =
    Key::length("gap", needed(), "length of the card left between two cuts").within(0.1, 100.0).unmeasured();
/// The fields of a perforation.
pub(crate) const DASH_FIELDS: &[Field] = &[DASH.field, DASH_GAP.field];

const CUT_COLOUR: Key<Option<Text>> = Key::text("cut", rule("#000000"), "colour of cuts");
const SCORE_COLOUR: Key<Option<Text>> = Key::text("score", rule("#E69F00"), "colour of scores");
const DRAW_COLOUR: Key<Option<Text>> = Key::text("draw", rule("#CC79A7"), "colour of marks");
const REGISTER_COLOUR: Key<Option<Text>> = Key::text("register", rule("#0072B2"), "colour of register marks");
/// The fields of the colours.
pub(crate) const COLOUR_FIELDS: &[Field] =
    &[CUT_COLOUR.field, SCORE_COLOUR.field, DRAW_COLOUR.field, REGISTER_COLOUR.field];

/// The JSON Schema of a cutter file.
#[must_use]
pub fn schema() -> Value {
    file_schema("A cutter file", FORMAT, CUTTER_FIELDS, &nested())
}

/// The JSON Schema of a cutter in an album.
#[must_use]
pub fn own_schema() -> Value {
    let mut own = nested();
    own.push(("format", json!({ "const": FORMAT })));
    object_schema(&[OWN_HEAD, SETTINGS], &own)
}

/// The schemas of the fields that have readers of their own.
fn nested() -> Vec<(&'static str, Value)> {
    let score = json!({ "anyOf": [{ "const": "line" }, object_schema(&[DASH_FIELDS], &[])] });
    let speed = json!({ "anyOf": [{ "type": "number", "exclusiveMinimum": 0 }, object_schema(&[SPEED_FIELDS], &[])] });
    let colour = json!({ "type": "string", "pattern": "^#[0-9A-Fa-f]{6}$" });
    let each = ["cut", "score", "draw", "register"].map(|layer| (layer, colour.clone()));
    let colours = object_schema(&[COLOUR_FIELDS], &each);
    let mut all = vec![("score", score), ("colours", colours), ("speed", speed)];
    all.extend(manner_file::schemas());
    all.push(register_file::schema());
    all.push(bed_file::schema());
    all
}

/// Reads a cutter file.
#[must_use]
pub fn read(source: &Source) -> Checked<Cutter> {
    let mut reader = Reader::new(source);
    let Some(values) = reader.top(CUTTER_FIELDS, FORMAT) else {
        return Checked::none(reader.findings);
    };
    let cutter = settings(&mut reader, &values, "");
    Checked::new(cutter, reader.findings)
}

/// Reads a cutter that stands in another file, at `path`; its limits are checked as well.
pub(crate) fn read_own(reader: &mut Reader<'_>, node: &Node, path: &str) -> Option<Cutter> {
    let units = reader.units;
    let values = reader.file_within(node, path, Said::new("a-cutter"), (&[OWN_HEAD, SETTINGS], FORMAT));
    let cutter = values.map(|values| {
        let cutter = settings(reader, &values, path);
        let limits = cutter.findings().into_iter().map(|finding| finding.at(values.whole()));
        reader.findings.extend(limits);
        cutter
    });
    reader.units = units;
    cutter
}

fn settings(reader: &mut Reader<'_>, values: &Values, path: &str) -> Cutter {
    let bed = values.get(BED).map(ToOwned::to_owned).and_then(|text| match paper::sheet_size(&text) {
        Ok((_, width, height)) => Some((width, height)),
        Err(error) => {
            let finding = Finding::stop("bad-bed", Said::NOTHING, error.what).help(error.help);
            reader.findings.push(finding.at(values.place(BED)));
            None
        }
    });
    let speed = values.get(SPEED).and_then(|node| speeds(reader, node, path));
    let lift = values.get(LIFT).unwrap_or_default();
    if let Some(place) = values.place(LIFT).filter(|_| lift > MOST_LIFT).cloned() {
        let text = Said::new("lift-too-long").with("field", Arg::field(LIFT.name()));
        let text = text.with("most", Arg::Number(MOST_LIFT, 0));
        reader.problem("out-of-range", text, Said::new("amount-too-large-help"), &place);
    }
    Cutter {
        kerf: values.get(KERF),
        margin: values.get(MARGIN),
        gap: values.get(GAP),
        bed,
        sheets_a_bed: bed_file::sheets_a_bed(reader, values, path),
        score: values.get(SCORE).map_or(ScoreMode::Line, |node| score(reader, node, path)),
        colours: values.get(COLOURS).map_or_else(Colours::default, |node| colours(reader, node, path)),
        svg_units: values.get(SVG_UNIT),
        dxf_version: values.get(DXF_VERSION),
        shared_cuts: values.get(SHARED_CUTS),
        speed,
        lift,
        manner: manner_file::manner(reader, values, path),
        marks: register_file::marks(reader, values, path),
        forms: forms_file::forms(values),
        back: BackSide { both_ways: values.get(BOTH_WAYS) },
        writing: writing_file::writing(values),
    }
}

fn score(reader: &mut Reader<'_>, node: &Node, path: &str) -> ScoreMode {
    let path = join(path, SCORE.name());
    match &node.tree {
        Tree::Text(word) if word == "line" => ScoreMode::Line,
        Tree::Object(_) => reader
            .object(node, &path, Arg::field(SCORE.name()), &[DASH_FIELDS])
            .map_or(ScoreMode::Line, |values| ScoreMode::Dash { dash: values.get(DASH), gap: values.get(DASH_GAP) }),
        _ => {
            let place = reader.place(&node.range, &path);
            let text = Said::new("wrong-type-score").with("field", Arg::field(SCORE.name()));
            reader.problem("wrong-type", text.with("form", Arg::term(SCORE_FORM)), Said::NOTHING, &place);
            ScoreMode::Line
        }
    }
}

fn speeds(reader: &mut Reader<'_>, node: &Node, path: &str) -> Option<Speeds> {
    let path = join(path, SPEED.name());
    let place = reader.place(&node.range, &path);
    let speeds = match &node.tree {
        Tree::Number(one) => Speeds { cut: *one, score: *one, draw: *one },
        Tree::Object(_) => {
            let values = reader.object(node, &path, Arg::field(SPEED.name()), &[SPEED_FIELDS])?;
            let cut = values.says(CUT_SPEED).then(|| values.get(CUT_SPEED))?;
            let [score, draw] = [SCORE_SPEED, DRAW_SPEED].map(|key| values.get(key).unwrap_or(cut));
            Speeds { cut, score, draw }
        }
        other => {
            reader.wrong_type(SPEED.name(), Arg::term(SPEED_FORM), other, Said::NOTHING, &place);
            return None;
        }
    };
    if ![speeds.cut, speeds.score, speeds.draw].iter().all(|speed| SPEEDS.contains(speed)) {
        let text = Said::new("bad-speed").with("field", Arg::field(SPEED.name()));
        reader.problem("out-of-range", text, Said::new("bad-speed-help"), &place);
        return None;
    }
    Some(speeds)
}

fn colours(reader: &mut Reader<'_>, node: &Node, path: &str) -> Colours {
    let mut colours = Colours::default();
    let path = join(path, COLOURS.name());
    let Some(values) = reader.object(node, &path, Arg::field(COLOURS.name()), &[COLOUR_FIELDS]) else {
        return colours;
    };
    let layers = [
        (CUT_COLOUR, &mut colours.cut),
        (SCORE_COLOUR, &mut colours.score),
        (DRAW_COLOUR, &mut colours.draw),
        (REGISTER_COLOUR, &mut colours.register),
    ];
    for (key, colour) in layers {
        let Some(said) = values.get(key) else { continue };
        if let Some(code) = colour_code(said) {
            *colour = code;
            continue;
        }
        let text = Said::new("bad-colour").with("layer", Arg::field(key.name()));
        let finding = Finding::stop("bad-colour", Said::NOTHING, text).help(Said::new("bad-colour-help"));
        reader.findings.push(finding.at(values.place(key)));
    }
    colours
}
