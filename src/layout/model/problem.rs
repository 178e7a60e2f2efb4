// SPDX-License-Identifier: MIT
//! The problem: items, sheets, the least gap between items, effort.
//!
//! What a caller says. Lengths are whole eighths of a micrometre.

use crate::contour::Contour;

/// A part to be laid, as often as `count` says.
#[derive(Clone, Debug)]
pub struct Item {
    /// Width of the bounding box as drawn, kerf included, in eighths of a micrometre.
    pub width: i64,
    /// Height of the bounding box as drawn, kerf included, in eighths of a micrometre.
    pub height: i64,
    /// The true outer outline in millimetres, where it is not the box or there are holes in it: such parts could nest, so the
    /// bound counts its area and a box inside it. What the box is larger than the outline is the tool's way round it. Two of one
    /// item may lie head to tail, each reaching into the other's box, where half turns are allowed; never where a trimmer cuts.
    pub contour: Option<Contour>,
    /// What is cut out of it, in millimetres where `contour` is. In a hole that is large enough, or in a corner that the outline
    /// leaves of its box, another part may lie; never where a trimmer cuts.
    pub holes: Vec<Contour>,
    /// The quarter turns that are allowed.
    pub turns: Turns,
    /// How many are needed.
    pub count: u32,
}

/// A quarter turn, counter-clockwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Turn {
    /// As drawn.
    None,
    /// 90 degrees counter-clockwise.
    Quarter,
    /// 180 degrees.
    Half,
    /// 270 degrees counter-clockwise.
    ThreeQuarter,
}

impl Turn {
    /// All four, least first.
    pub const ALL: [Self; 4] = [Self::None, Self::Quarter, Self::Half, Self::ThreeQuarter];

    /// Degrees counter-clockwise: 0, 90, 180 or 270.
    ///
    /// ```
    /// assert_eq!(hingeleaf::layout::Turn::ThreeQuarter.degrees(), 270);
    /// ```
    #[must_use]
    pub const fn degrees(self) -> u16 {
        match self {
            Self::None => 0,
            Self::Quarter => 90,
            Self::Half => 180,
            Self::ThreeQuarter => 270,
        }
    }

    /// Width and height of a box after this turn, in the unit that they came in.
    ///
    /// ```
    /// assert_eq!(hingeleaf::layout::Turn::Quarter.turned(5, 7), (7, 5));
    /// ```
    #[must_use]
    pub const fn turned(self, width: i64, height: i64) -> (i64, i64) {
        match self {
            Self::None | Self::Half => (width, height),
            Self::Quarter | Self::ThreeQuarter => (height, width),
        }
    }

    const fn bit(self) -> u8 {
        match self {
            Self::None => 1,
            Self::Quarter => 2,
            Self::Half => 4,
            Self::ThreeQuarter => 8,
        }
    }
}

/// The turns that an item may take; never none at all.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Turns(u8);

impl Turns {
    /// As drawn and not otherwise.
    pub const NONE: Self = Self::only(Turn::None);
    /// As drawn or head to tail: for parts with grain.
    pub const HALF: Self = Self::NONE.and(Turn::Half);
    /// Every quarter turn.
    pub const ANY: Self = Self::HALF.and(Turn::Quarter).and(Turn::ThreeQuarter);

    /// This one turn.
    #[must_use]
    pub const fn only(turn: Turn) -> Self {
        Self(turn.bit())
    }

    /// One turn more.
    #[must_use]
    pub const fn and(self, turn: Turn) -> Self {
        Self(self.0 | turn.bit())
    }

    /// Whether a turn is among them.
    ///
    /// ```
    /// use hingeleaf::layout::{Turn, Turns};
    /// assert!(Turns::HALF.allows(Turn::Half) && !Turns::HALF.allows(Turn::Quarter));
    /// ```
    #[must_use]
    pub const fn allows(self, turn: Turn) -> bool {
        self.0 & turn.bit() != 0
    }

    /// The turn that is taken where the box lies as drawn, or with width and height exchanged. A square of which only quarter
    /// turns are allowed looks as drawn and is not.
    pub(crate) fn taken(self, as_drawn: bool) -> Option<Turn> {
        let turns: &[Turn] = if as_drawn { &[Turn::None, Turn::Half] } else { &[Turn::Quarter, Turn::ThreeQuarter] };
        turns.iter().chain(&Turn::ALL).copied().find(|&turn| self.allows(turn))
    }

    /// Whether the box may stand as drawn.
    pub(crate) const fn upright(self) -> bool {
        self.allows(Turn::None) || self.allows(Turn::Half)
    }

    /// Whether the box may lie with width and height exchanged.
    pub(crate) const fn sideways(self) -> bool {
        self.allows(Turn::Quarter) || self.allows(Turn::ThreeQuarter)
    }
}

/// A sheet that can be cut from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetType {
    /// Usable width, margins taken off, in eighths of a micrometre.
    pub width: i64,
    /// Usable height, margins taken off, in eighths of a micrometre.
    pub height: i64,
    /// How many there are, as of offcuts; `None` is as many as needed. Counted sheets are used first.
    pub count: Option<u32>,
    /// What one costs. Prices matter where every sheet has one; otherwise area does.
    pub price: Option<f64>,
}

/// How hard to try. Effort is counted work, not time; the times are for one core of an ordinary machine.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Effort {
    /// Simple rules: some milliseconds.
    Low,
    /// Tries to save a sheet or to prove that none can be saved: 40 ms for twenty parts, a second for a hundred.
    #[default]
    Normal,
    /// The same for ten times as long.
    High,
}

/// Which layouts will do.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Cuts {
    /// Any, for a machine that can cut round every part.
    #[default]
    Free,
    /// Those that a trimmer can cut: from edge to edge of the piece in hand, in as many stages as it takes.
    Trimmer,
}

/// What to lay on what.
#[derive(Clone, Copy, Debug)]
pub struct Problem<'a> {
    /// The parts.
    pub items: &'a [Item],
    /// The sheets they may be cut from.
    pub sheets: &'a [SheetType],
    /// Least distance between two items' boxes, in eighths of a micrometre; between the paths round true outlines where boxes
    /// reach into each other. None is needed to the edge of a sheet.
    pub gap: i64,
    /// How hard to try.
    pub effort: Effort,
    /// How many threads may work. Changes nothing but the time.
    pub threads: usize,
}

/// Looks on while a layout is searched for, from any of the threads.
pub trait Watch: Sync {
    /// `done` of `of` counted steps; an easy problem is finished long before they are equal.
    fn at(&self, done: u64, of: u64);
    /// True to be given the best layout so far.
    fn stop(&self) -> bool;
}

/// Lets the search run to its end.
#[derive(Clone, Copy, Debug, Default)]
pub struct Unwatched;

impl Watch for Unwatched {
    fn at(&self, _done: u64, _of: u64) {}

    fn stop(&self) -> bool {
        false
    }
}
