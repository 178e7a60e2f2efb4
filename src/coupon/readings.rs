// SPDX-License-Identifier: MIT
//! What was read off the test piece, and what follows from it.
//!
//! With a machine that draws a length L as s L and removes k beside its path (half on each side), the scale reads s 100, the row
//! of ten strips s 100 - 10 k, the slot that they came from s 100 + k. So slot less row is 11 k, whatever the scale is.
//! A ruler is read to the nearest 0.1 mm: each reading is off by 0.05 mm at most, and what follows says what that makes.

use super::draw::score;
use super::folds::{self, FOLD_READINGS, FOLDS, FoldReadings, GrainRuns, HANG, HANG_READINGS};
use super::{NICKS, OVERRUNS, ROW, STRIPS, TRAILS};
use crate::cutter::ScoreMode;
use crate::fields::{
    Fallback, Field, Key, Nested, Node, Reader, Source, Takes, Tree, file_schema, object_schema, rule,
};
use crate::finding::{Arg, Checked, Finding, Place, Said};
use crate::length::tolerance::SAME;
use crate::length::{Length, Units};
use serde_json::{Value, json};

/// What the file's `format` must say.
pub const FORMAT: &str = "hingeleaf-measured/1";

/// What a reading is off at most, mm.
const HALF_STEP: f64 = 0.05;

const SCALE_FORM: &str = "{ \"across\": 100, \"up\": 100 }";
const SCALE: Key<Nested> =
    Key::nested("scale", SCALE_FORM, Fallback::Rule("not measured"), "the marks for 100 mm, both ways");
const STRIPS_ROW: Key<Option<Length>> =
    Key::length("strips", rule("not measured"), "the ten strips pushed together").within(40.0, 110.0).unmeasured();
const SLOTS: Key<Option<Length>> =
    Key::length("slots", rule("not measured"), "the slot that the strips came from").within(90.0, 120.0).unmeasured();
const BEST_SCORE: Key<Option<u32>> =
    Key::count("best_score", (1, 5), rule("not chosen"), "the score that folds best both ways, by its number");
const NICK_HELD: Key<Option<u32>> =
    Key::count("nick_held", (1, 5), rule("not chosen"), "the first piece that its nicks held, by its number");
const BEST_OVERRUN: Key<Option<u32>> =
    Key::count("best_overrun", (1, 4), rule("not chosen"), "the first square that came free, by its number");
const BEST_TRAIL: Key<Option<u32>> =
    Key::count("best_trail", (1, 5), rule("not chosen"), "the square with the sharpest corners, by its number");
const FIELDS: &[Field] = &[
    Field::new("format", Takes::Text, Fallback::Needed, "which kind of file this is: \"hingeleaf-measured/1\""),
    Field::new("units", Takes::Choice(&["mm", "cm", "in"]), Fallback::Choice("mm"), "the unit of bare numbers"),
    SCALE.field,
    STRIPS_ROW.field,
    SLOTS.field,
    FOLDS.field,
    HANG.field,
    BEST_SCORE.field,
    NICK_HELD.field,
    BEST_OVERRUN.field,
    BEST_TRAIL.field,
];
/// The readings that stand at the file's top: those that are numbers.
pub(crate) const READINGS: [&[Field]; 2] = [&[STRIPS_ROW.field, SLOTS.field], FIELDS.split_at(7).1];
const ACROSS: Key<Option<Length>> =
    Key::length("across", rule("not measured"), "from left to right").within(90.0, 110.0).unmeasured();
const UP: Key<Option<Length>> =
    Key::length("up", rule("not measured"), "from bottom to top").within(90.0, 110.0).unmeasured();
/// The readings of the scale.
const SCALE_READINGS: &[Field] = &[ACROSS.field, UP.field];
/// The readings that stand together under a name.
pub(crate) const GROUPS: [(&str, &[Field]); 3] =
    [("scale", SCALE_READINGS), ("folds", FOLD_READINGS), ("hang", HANG_READINGS)];

/// What was read off the test piece; what was not measured is nothing.
#[derive(Clone, Debug, Default)]
pub struct Measured {
    /// The marks for 100 mm, across and up.
    pub scale: [Option<Length>; 2],
    /// The row of strips.
    pub strips: Option<Length>,
    /// The slot that they came from.
    pub slots: Option<Length>,
    /// Which scores fold clean, and how the plain strips hang.
    pub folds: FoldReadings,
    /// The number of the best score, where the maker chose it.
    pub best_score: Option<u32>,
    /// The number of the first piece that was held.
    pub nick_held: Option<u32>,
    /// The number of the first square that came free.
    pub best_overrun: Option<u32>,
    /// The number of the sharpest square.
    pub best_trail: Option<u32>,
    /// Where the scale stands, the row or the slot, the piece that was held.
    places: [Option<Place>; 3],
}

/// What follows from the readings, mm; what they don't tell is nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredSettings {
    /// The kerf, and by how much it may be off.
    pub kerf: Option<(f64, f64)>,
    /// How scores are made.
    pub score: Option<ScoreMode>,
    /// Which way the grain of the card runs; that is the card's, and no setting of the machine.
    pub grain: Option<GrainRuns>,
    /// How long the tool stays off for a nick.
    pub nick: Option<f64>,
    /// How far a closed cut runs on.
    pub overrun: Option<f64>,
    /// How far the blade's tip trails.
    pub trail: Option<f64>,
}

impl MeasuredSettings {
    /// Whether they tell of no setting that a cutter file holds.
    #[must_use]
    pub const fn is_nothing(&self) -> bool {
        let Self { kerf, score, grain: _, nick, overrun, trail } = self;
        kerf.is_none() && score.is_none() && nick.is_none() && overrun.is_none() && trail.is_none()
    }
}

/// The JSON Schema of what was read off.
#[must_use]
pub fn schema() -> Value {
    let groups = GROUPS.map(|(name, fields)| {
        let mut group = object_schema(&[fields], &[]);
        unfilled(&mut group);
        (name, group)
    });
    let mut all = file_schema("What was read off a test piece", FORMAT, FIELDS, &groups);
    unfilled(&mut all);
    all
}

/// Lets what was not measured stand as `null`.
fn unfilled(object: &mut Value) {
    let fields = object.get_mut("properties").and_then(Value::as_object_mut);
    let open = |(name, _): &(&String, &mut Value)| !matches!(name.as_str(), "format" | "units" | "$schema");
    for (_, field) in fields.into_iter().flatten().filter(open) {
        *field = json!({ "anyOf": [field.take(), { "type": "null" }] });
    }
}

/// Reads what was measured; what is `null` was not.
#[must_use]
pub fn read(source: &Source) -> Checked<Measured> {
    let mut reader = Reader::new(source);
    let node = match Node::read(source) {
        Ok(node) => filled(&node),
        Err(finding) => return Checked::none(vec![*finding]),
    };
    let Some(values) = reader.file_within(&node, "", Said::new("the-file"), (&[FIELDS], FORMAT)) else {
        return Checked::none(reader.findings);
    };
    let scale = values.get(SCALE).and_then(|node| reader.object(node, "scale", Arg::field("scale"), &[SCALE_READINGS]));
    let measured = Measured {
        scale: [ACROSS, UP].map(|key| scale.as_ref().and_then(|scale| scale.get(key))),
        strips: values.get(STRIPS_ROW),
        slots: values.get(SLOTS),
        folds: folds::read(&mut reader, &values),
        best_score: values.get(BEST_SCORE),
        nick_held: values.get(NICK_HELD),
        best_overrun: values.get(BEST_OVERRUN),
        best_trail: values.get(BEST_TRAIL),
        places: [
            values.place(SCALE).cloned(),
            values.place(SLOTS).or_else(|| values.place(STRIPS_ROW)).cloned(),
            values.place(NICK_HELD).cloned(),
        ],
    };
    Checked::new(measured, reader.findings)
}

/// Without what is not filled in.
fn filled(node: &Node) -> Node {
    let tree = match &node.tree {
        Tree::Object(fields) => {
            let said = fields.iter().filter(|(.., value)| !matches!(value.tree, Tree::Null));
            Tree::Object(said.map(|(name, at, value)| (name.clone(), at.clone(), filled(value))).collect())
        }
        other => other.clone(),
    };
    Node { range: node.range.clone(), tree }
}

/// What the readings say, and what there is to tell of it: the scale first, then the kerf.
#[must_use]
pub fn worked(measured: &Measured) -> Checked<MeasuredSettings> {
    let mut findings = Vec::new();
    for (way, read) in ["scale-across", "scale-up"].into_iter().zip(measured.scale) {
        findings.extend(read.map(|read| scale(way, read, measured)));
    }
    let kerf = kerf(measured, &mut findings);
    let nick = nick(measured, kerf, &mut findings);
    let grain = folds::grain(&measured.folds, &mut findings);
    let best = folds::best_score(&measured.folds, measured.best_score, grain, &mut findings);
    let worked = MeasuredSettings {
        kerf: kerf.ok().flatten(),
        score: best.and_then(score),
        grain,
        nick,
        overrun: of(measured.best_overrun, &OVERRUNS),
        trail: of(measured.best_trail, &TRAILS),
    };
    Checked::new(worked, findings)
}

/// What a rung of a ladder stands for, by its number from 1.
fn of(number: Option<u32>, all: &[f64]) -> Option<f64> {
    all.get(usize::try_from(number?).ok()?.checked_sub(1)?).copied()
}

fn mm(mm: f64) -> Arg {
    Arg::code(format!("{mm:.2} mm"))
}

/// A scale is told, never corrected: whatever is drawn would be off by it, and the machine is where it is mended.
fn scale(way: &'static str, read: Length, measured: &Measured) -> Finding {
    let off = read.mm() - ROW;
    let text = |key| Said::new(key).with("way", Said::new(way)).with("read", mm(read.mm())).with("off", mm(HALF_STEP));
    if off.abs() <= HALF_STEP + SAME {
        return Finding::note("scale", Said::NOTHING, text("scale-right"));
    }
    let share = Arg::code(format!("{:+.2} %", off / ROW * 100.0));
    let finding = Finding::warn("scale", Said::NOTHING, text("scale-off").with("share", share));
    finding.help(Said::new("scale-off-help")).at(measured.places[0].as_ref())
}

/// Readings of which one at least is wrong, and none says which.
#[derive(Clone, Copy, Debug)]
struct Contradictory;

/// The kerf by the best pair of readings, and by how much it may be off.
fn kerf(measured: &Measured, findings: &mut Vec<Finding>) -> Result<Option<(f64, f64)>, Contradictory> {
    let count = f64::from(STRIPS);
    let [across, strips, slots] = [measured.scale[0], measured.strips, measured.slots].map(|read| read.map(Length::mm));
    let by_row = strips.zip(across).map(|(strips, across)| ((across - strips) / count, 2.0 * HALF_STEP / count));
    let by_slot = slots.zip(across).map(|(slots, across)| (slots - across, 2.0 * HALF_STEP));
    let by_both =
        slots.zip(strips).map(|(slots, strips)| ((slots - strips) / (count + 1.0), 2.0 * HALF_STEP / (count + 1.0)));
    let mut tell =
        |finding: Finding, help| findings.push(finding.help(Said::new(help)).at(measured.places[1].as_ref()));
    let disagree = by_row.zip(by_slot).filter(|((row, row_off), (slot, slot_off))| {
        // Every pair gives another kerf, and none is better than the others.
        (row - slot).abs() > row_off + slot_off + SAME
    });
    if let Some(((row, _), (slot, _))) = disagree {
        let text = Said::new("readings-disagree").with("row", mm(row)).with("slot", mm(slot));
        tell(Finding::warn("readings-disagree", Said::NOTHING, text), "readings-disagree-help");
    }
    let Some((kerf, off)) = by_both.or(by_row).or(by_slot) else {
        if strips.or(slots).is_some() {
            let text = Said::new("kerf-unknown");
            tell(Finding::note("kerf-unknown", Said::NOTHING, text), "kerf-unknown-help");
        }
        return Ok(None);
    };
    if kerf < -off - SAME || kerf > 5.0 {
        let text = Said::new("kerf-impossible").with("kerf", mm(kerf));
        tell(Finding::stop("kerf-impossible", Said::NOTHING, text), "readings-disagree-help");
        return Err(Contradictory);
    }
    if disagree.is_some() {
        return Err(Contradictory);
    }
    let kerf = kerf.max(0.0);
    let text = Said::new("kerf-measured").with("kerf", mm(kerf)).with("off", Arg::code(format!("{off:.3} mm")));
    findings.push(Finding::note("kerf", Said::NOTHING, text));
    Ok(Some((kerf, off)))
}

/// How long the tool stayed off where a piece was held: on the part its own width is missing of that, so nothing is known of a nick where
/// the kerf contradicts itself, and no nick holds that is narrower than the kerf.
fn nick(
    measured: &Measured,
    kerf: Result<Option<(f64, f64)>, Contradictory>,
    findings: &mut Vec<Finding>,
) -> Option<f64> {
    let off = of(measured.nick_held, &NICKS)?;
    let (key, help) = match kerf {
        Err(Contradictory) => ("nick-wants-kerf", "nick-wants-kerf-help"),
        Ok(Some((kerf, sure))) if off <= kerf - sure + SAME => ("nick-impossible", "nick-impossible-help"),
        Ok(_) => return Some(off),
    };
    let mut text = Said::new(key);
    if let Ok(Some((kerf, _))) = kerf {
        text = text.with("off", mm(off)).with("kerf", mm(kerf));
    }
    findings.push(Finding::warn(key, Said::NOTHING, text).help(Said::new(help)).at(measured.places[2].as_ref()));
    None
}

/// What an empty file to write readings into says.
#[must_use]
pub fn empty() -> String {
    let nothing = |fields: &[Field]| {
        let fields: Vec<String> = fields.iter().map(|field| format!("\"{}\": null", field.name)).collect();
        format!("{{ {} }}", fields.join(", "))
    };
    let row = |field: &Field| {
        let group = GROUPS.into_iter().find(|(name, _)| *name == field.name);
        let value = group.map_or_else(|| "null".to_owned(), |(_, fields)| nothing(fields));
        format!(",\n  \"{}\": {value}", field.name)
    };
    let rows: String = FIELDS.split_at(2).1.iter().map(row).collect();
    format!("{{\n  \"format\": \"{FORMAT}\",\n  \"units\": \"mm\"{rows}\n}}\n")
}

/// A length as a file of these units has it.
pub(super) fn in_units(mm: f64, units: Units) -> Value {
    if units != Units::Mm {
        return json!(format!("{mm} mm"));
    }
    // A whole number is written as one.
    #[allow(clippy::cast_possible_truncation, reason = "a length on a sheet")]
    let whole = mm.round() as i64;
    if (mm - mm.round()).abs() < SAME { json!(whole) } else { json!(mm) }
}
