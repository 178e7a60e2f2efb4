// SPDX-License-Identifier: MIT
//! How large everything is set: the paper, its margins, the letters.

use super::words::Style;
use crate::paper::Paper;

/// What is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GuideForm {
    /// Pages to work by, such as the guide.
    Guide,
    /// A card to keep at hand: one page, set as small as that takes.
    Card,
}

/// Sizes of all that is set, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Look {
    pub(super) form: GuideForm,
    /// The paper.
    pub(super) paper: (f64, f64),
    /// What is left white at the sides and the head.
    pub(super) margin: f64,
    /// How much smaller than usual everything is.
    scale: f64,
}

/// Under what is set, for the foot.
const FOOT: f64 = 6.0;

impl Look {
    /// A form on its paper; a card may be smaller.
    pub(super) fn of(form: GuideForm, paper: Paper, scale: f64) -> Self {
        let margin = if form == GuideForm::Card { 10.0 } else { 14.0 };
        Self { form, paper: paper.size(), margin, scale }
    }

    /// How wide and high the room for words is.
    pub(super) fn room(&self) -> (f64, f64) {
        (self.paper.0 - 2.0 * self.margin, self.paper.1 - 2.0 * self.margin - FOOT)
    }

    /// The middle of the foot's line, from the page's upper edge.
    pub(super) fn foot(&self) -> f64 {
        self.paper.1 - self.margin
    }

    /// A length that shrinks with the letters.
    pub(super) fn mm(&self, mm: f64) -> f64 {
        mm * self.scale
    }

    fn style(&self, size: f64, bold: bool, soft: bool) -> Style {
        let (size, leading) = (self.mm(size), self.mm(size) * 1.38);
        Style { size, leading, bold, soft }
    }

    pub(super) fn body(&self) -> Style {
        self.style(3.1, false, false)
    }

    pub(super) fn strong(&self) -> Style {
        self.style(3.1, true, false)
    }

    /// What a step says first.
    pub(super) fn head(&self) -> Style {
        self.style(3.4, true, false)
    }

    /// A step's number.
    pub(super) fn number(&self) -> Style {
        self.style(3.4, false, true)
    }

    pub(super) fn cell(&self) -> Style {
        self.style(2.8, false, false)
    }

    pub(super) fn column(&self) -> Style {
        self.style(2.6, false, true)
    }

    pub(super) fn by(&self) -> Style {
        self.style(3.1, false, true)
    }

    pub(super) fn foot_words() -> Style {
        Style { size: 2.6, leading: 3.6, bold: false, soft: true }
    }

    /// A heading of the first, second or third level.
    pub(super) fn heading(&self, level: u16) -> Style {
        let card = self.form == GuideForm::Card;
        let size = match level {
            1 if card => 5.4,
            1 => 8.0,
            2 if card => 3.9,
            2 => 5.4,
            _ if card => 3.1,
            _ => 3.9,
        };
        let style = self.style(size, true, false);
        Style { leading: style.size * 1.25, ..style }
    }
}
