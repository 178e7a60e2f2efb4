// SPDX-License-Identifier: MIT
//! The fields of a cutter file that say how strokes are made.

use super::manner::{Curves, CutOrder, Direction, Manner, Nicks, Passes, Start, USUAL_TOLERANCE};
use crate::fields::{
    Fallback, Field, Key, Nested, Node, Reader, Tree, Values, join, needed, number, object_schema, rule, usual,
};
use crate::finding::{Arg, Said};
use crate::length::Length;
use serde_json::{Value, json};

/// Most passes that make sense: our choice.
const MOST_PASSES: u32 = 20;
/// Most nicks that make sense on one part: our choice.
const MOST_NICKS: u32 = 40;

/// The forms of `passes`, in words.
const PASSES_FORM: &str = "a whole number from 1 to 20, or { \"cut\": 2, \"score\": 1, \"draw\": 1 }";
pub(super) const PASSES: Key<Nested> =
    Key::nested("passes", PASSES_FORM, Fallback::Rule("1"), "how often each stroke is made");
const NICKS_FORM: &str = "{ \"length\": 0.5, \"count\": 2 }";
pub(super) const NICKS: Key<Nested> =
    Key::nested("nicks", NICKS_FORM, Fallback::Rule("none"), "uncut bits that hold a part in its sheet");
pub(super) const OVERRUN: Key<Length> =
    Key::length("overrun", usual(0.0, 0.0), "how far a closed cut runs on past its start")
        .within(0.0, 20.0)
        .unmeasured();
pub(super) const TRAIL: Key<Length> =
    Key::length("trail", usual(0.0, 0.0), "how far a swivelling blade's tip trails behind its axis")
        .within(0.0, 5.0)
        .unmeasured();
pub(super) const CORNER_HELP: Key<bool> =
    Key::flag("corner_help", "whether cuts are drawn for a swivelling blade, its axis led round the corners");
pub(super) const START: Key<Start> = Key::choice("start", Start::Nearest.usual(), "where closed cuts begin");
pub(super) const ORDER: Key<CutOrder> =
    Key::choice("order", CutOrder::Travel.usual(), "in which order holes, and then parts, are cut out");
pub(super) const DIRECTION: Key<Direction> =
    Key::choice("direction", Direction::PartLeft.usual(), "which way round closed cuts run");
pub(super) const CURVES: Key<Curves> = Key::choice("curves", Curves::Arcs.usual(), "what curves are written as");
pub(super) const CURVE_TOLERANCE: Key<Length> =
    Key::length("curve_tolerance", usual(USUAL_TOLERANCE, 0.0008), "how far short lines may stand off their curve")
        .within(0.001, 1.0)
        .unmeasured();
pub(super) const SMALLEST_INNER: Key<Length> =
    Key::length("smallest_inner", usual(0.0, 0.0), "the narrowest hole or notch that comes out well")
        .within(0.0, 100.0)
        .unmeasured();

const CUT_PASSES: Key<u32> = Key::count("cut", (1, MOST_PASSES), number(1), "how often cuts are made");
const SCORE_PASSES: Key<u32> = Key::count("score", (1, MOST_PASSES), number(1), "how often scores are made");
const DRAW_PASSES: Key<u32> = Key::count("draw", (1, MOST_PASSES), number(1), "how often marks are made");
/// The fields of `passes`.
pub(crate) const PASSES_FIELDS: &[Field] = &[CUT_PASSES.field, SCORE_PASSES.field, DRAW_PASSES.field];

const NICK_LENGTH: Key<Length> =
    Key::length("length", needed(), "how long each is on the finished edge").within(0.1, 20.0).unmeasured();
const NICK_COUNT: Key<u32> = Key::count("count", (1, MOST_NICKS), needed(), "how many a part has");
const SMALL_COUNT: Key<Option<u32>> =
    Key::count("small_count", (1, MOST_NICKS), rule("one more than count"), "how many a small part has");
const SMALL_UNDER: Key<Length> =
    Key::length("small_under", usual(40.0, 1.5), "a part is small whose longer side is under this")
        .within(0.0, 500.0)
        .unmeasured();
/// The fields of `nicks`.
pub(crate) const NICKS_FIELDS: &[Field] = &[NICK_LENGTH.field, NICK_COUNT.field, SMALL_COUNT.field, SMALL_UNDER.field];

/// The schemas of the fields that are read here.
pub(super) fn schemas() -> [(&'static str, Value); 2] {
    let number = json!({ "type": "integer", "minimum": 1, "maximum": MOST_PASSES });
    let passes = json!({ "anyOf": [number, object_schema(&[PASSES_FIELDS], &[])] });
    [("passes", passes), ("nicks", object_schema(&[NICKS_FIELDS], &[]))]
}

/// How strokes are made, as the file says it.
pub(super) fn manner(reader: &mut Reader<'_>, values: &Values, path: &str) -> Manner {
    let usual = Manner::default();
    Manner {
        passes: values.get(PASSES).and_then(|node| passes(reader, node, path)).unwrap_or(usual.passes),
        nicks: values.get(NICKS).and_then(|node| nicks(reader, node, path)),
        overrun: values.get(OVERRUN),
        trail: values.get(TRAIL),
        corner_help: values.get(CORNER_HELP),
        start: values.get(START),
        order: values.get(ORDER),
        direction: values.get(DIRECTION),
        curves: values.get(CURVES),
        curve_tolerance: values.get(CURVE_TOLERANCE),
        smallest_inner: values.get(SMALLEST_INNER),
    }
}

fn passes(reader: &mut Reader<'_>, node: &Node, path: &str) -> Option<Passes> {
    let path = join(path, PASSES.name());
    let place = reader.place(&node.range, &path);
    match &node.tree {
        Tree::Object(_) => {
            let values = reader.object(node, &path, Arg::field(PASSES.name()), &[PASSES_FIELDS])?;
            let [cut, score, draw] = [CUT_PASSES, SCORE_PASSES, DRAW_PASSES].map(|key| values.get(key));
            Some(Passes { cut, score, draw })
        }
        Tree::Number(many) => {
            let known = (1..=MOST_PASSES).find(|count| (f64::from(*count) - many).abs() < f64::EPSILON);
            if known.is_none() {
                let text = Said::new("bad-passes").with("field", Arg::field(PASSES.name()));
                let text = text.with("most", MOST_PASSES as usize);
                reader.problem("out-of-range", text, Said::new("bad-passes-help"), &place);
            }
            known.map(|all| Passes { cut: all, score: all, draw: all })
        }
        other => {
            reader.wrong_type(PASSES.name(), Arg::term(PASSES_FORM), other, Said::NOTHING, &place);
            None
        }
    }
}

fn nicks(reader: &mut Reader<'_>, node: &Node, path: &str) -> Option<Nicks> {
    let path = join(path, NICKS.name());
    if !matches!(node.tree, Tree::Object(_)) {
        let place = reader.place(&node.range, &path);
        reader.wrong_type(NICKS.name(), Arg::term(NICKS_FORM), &node.tree, Said::NOTHING, &place);
        return None;
    }
    let values = reader.object(node, &path, Arg::field(NICKS.name()), &[NICKS_FIELDS])?;
    let count = values.says(NICK_COUNT).then(|| values.get(NICK_COUNT))?;
    Some(Nicks {
        length: values.get(NICK_LENGTH),
        count,
        // More for small parts, since they tip first: a rule of our own.
        small_count: values.get(SMALL_COUNT).unwrap_or(count.saturating_add(1)),
        small_under: values.get(SMALL_UNDER),
    })
}
