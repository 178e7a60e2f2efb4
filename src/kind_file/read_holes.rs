// SPDX-License-Identifier: MIT
//! Reads what is cut into the panels of a kind, and what is drawn on them.

use super::formula::Quantity;
use super::model::{HoleForm, HoleRow, KindHole, KindMark, MarkForm};
use super::reading::KindReading;
use super::tables::{
    CROSS, HOLE_ACROSS, HOLE_AT, HOLE_DRAWN, HOLE_FIELDS, HOLE_ROUNDED, HOLE_TIMES, LINE, MARK_ACROSS, MARK_FIELDS,
    OVER_FOLD, ROUND, SLIT, STEP, WHEN, WINDOW,
};
use crate::fields::{Node, Values, join};
use crate::finding::Said;

impl KindReading<'_, '_> {
    /// How many of a hole there are, and how far apart: both are said or neither.
    fn hole_row(&mut self, values: &Values, path: &str) -> Option<Box<HoleRow>> {
        let times = self.formula_or(values.get(HOLE_TIMES), values.place(HOLE_TIMES), Quantity::Number);
        let step = values.get(STEP).map(|node| self.formulas::<2>(node, &join(path, "step")));
        if values.says(HOLE_TIMES) != values.says(STEP) {
            self.not_together(values, path, (Said::new("times-and-step"), Said::new("times-and-step-help")));
        }
        times.zip(step.flatten()).map(|(times, step)| HoleRow { times, step }.into())
    }

    pub(super) fn holes(&mut self, node: &Node, path: &str) -> Vec<KindHole> {
        let mut holes = Vec::new();
        for (number, node) in self.entries(node, path).iter().enumerate() {
            let path = format!("{path}[{number}]");
            let Some(values) = self.reader.object(node, &path, Said::new("a-hole"), &[HOLE_FIELDS]) else { continue };
            let across = self.formula_or(values.get(HOLE_ACROSS), values.place(HOLE_ACROSS), Quantity::Length);
            let round = self.formula_or(values.get(HOLE_ROUNDED), values.place(HOLE_ROUNDED), Quantity::Length);
            let (centre, window, slit) = (values.get(ROUND), values.get(WINDOW), values.get(SLIT));
            let drawn = values.get(HOLE_DRAWN).zip(values.get(HOLE_AT));
            let is_drawn = values.says(HOLE_DRAWN) || values.says(HOLE_AT);
            let form = match (centre, window, across, slit, is_drawn) {
                (None, None, None, None, true) if drawn.is_some() => drawn.and_then(|(outline, at)| {
                    let form = self.drawn_window(outline, &join(&path, "outline"))?;
                    let at = self.formulas::<2>(at, &join(&path, "at"))?;
                    Some(HoleForm::Drawn(at.into(), form.into()))
                }),
                (Some(node), None, Some(across), None, false) => {
                    self.formulas::<2>(node, &join(&path, "round")).map(|at| HoleForm::Round(at.into(), across.into()))
                }
                (None, Some(node), None, None, false) => self
                    .formulas::<4>(node, &join(&path, "window"))
                    .map(|sides| HoleForm::Window(sides.into(), round.map(Box::new))),
                (None, None, None, Some(node), false) => {
                    self.formulas::<4>(node, &join(&path, "slit")).map(|ends| HoleForm::Slit(ends.into()))
                }
                _ => {
                    self.not_together(&values, &path, (Said::new("one-form"), Said::new("one-form-help")));
                    None
                }
            };
            let row = self.hole_row(&values, &path);
            let when = self.condition(values.get(WHEN), values.place(WHEN));
            let whole = values.whole().cloned();
            holes.extend(form.zip(whole).map(|(form, place)| KindHole {
                form,
                over_fold: values.get(OVER_FOLD),
                row,
                when,
                place,
            }));
        }
        holes
    }

    pub(super) fn marks(&mut self, node: &Node, path: &str) -> Vec<KindMark> {
        let mut marks = Vec::new();
        for (number, node) in self.entries(node, path).iter().enumerate() {
            let path = format!("{path}[{number}]");
            let Some(values) = self.reader.object(node, &path, Said::new("a-mark"), &[MARK_FIELDS]) else { continue };
            let across = self.formula_or(values.get(MARK_ACROSS), values.place(MARK_ACROSS), Quantity::Length);
            let form = match (values.get(LINE), values.get(CROSS), across) {
                (Some(node), None, None) => {
                    self.formulas::<4>(node, &join(&path, "line")).map(|ends| MarkForm::Line(ends.into()))
                }
                (None, Some(node), across) => self
                    .formulas::<2>(node, &join(&path, "cross"))
                    .map(|at| MarkForm::Cross(at.into(), across.map(Box::new))),
                _ => {
                    self.one_of_two(&values, &path, ["line", "cross"]);
                    None
                }
            };
            let when = self.condition(values.get(WHEN), values.place(WHEN));
            let whole = values.whole().cloned();
            marks.extend(form.zip(whole).map(|(form, place)| KindMark { form, when, place }));
        }
        marks
    }
}
