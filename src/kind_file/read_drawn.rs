// SPDX-License-Identifier: MIT
//! Reads what a kind says of forms that drawings show.

use super::drawn::{DrawnForm, KindDrawing};
use super::formula::Quantity;
use super::reading::KindReading;
use super::tables::{DRAWN_FILE, DRAWN_HEIGHT, DRAWN_LAYER, DRAWN_WIDTH, PANEL_DRAWN_FIELDS, WINDOW_DRAWN_FIELDS};
use crate::fields::{Node, Values};
use crate::finding::Arg;
use crate::outline::AskedOutline;

impl KindReading<'_, '_> {
    /// A window's form: one of its sides is said.
    pub(super) fn drawn_window(&mut self, node: &Node, path: &str) -> Option<DrawnForm> {
        let values = self.reader.object(node, path, Arg::field("outline"), &[WINDOW_DRAWN_FIELDS])?;
        let width = self.formula_or(values.get(DRAWN_WIDTH), values.place(DRAWN_WIDTH), Quantity::Length);
        let height = self.formula_or(values.get(DRAWN_HEIGHT), values.place(DRAWN_HEIGHT), Quantity::Length);
        if width.is_some() == height.is_some() {
            self.one_of_two(&values, path, ["width", "height"]);
        }
        Some(DrawnForm { drawing: self.drawing(&values, true), width, height })
    }

    /// The form of a panel, which is as deep as the panel says; gives the number of its drawing.
    pub(super) fn drawn_panel(&mut self, node: &Node, path: &str) -> Option<usize> {
        let values = self.reader.object(node, path, Arg::field("outline"), &[PANEL_DRAWN_FIELDS])?;
        Some(self.drawing(&values, false))
    }

    fn drawing(&mut self, values: &Values, window: bool) -> usize {
        let mut asked = AskedOutline::of(values.get(DRAWN_FILE));
        asked.layer = values.get(DRAWN_LAYER).map(str::to_owned);
        asked.place = values.whole().cloned();
        asked.named = values.place(DRAWN_FILE).cloned();
        asked.units = self.reader.units;
        self.drawings.push(KindDrawing { asked, shape: None, text: String::new(), window });
        self.drawings.len() - 1
    }
}
