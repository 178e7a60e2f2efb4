// SPDX-License-Identifier: MIT
//! The usable sheet: what a sheet of a stock takes on one machine.
//!
//! In: a stock, the cutter. Out: a [`Usable`]: each size that goes into the machine as it stands, its margin off, in whole
//! eighths of a micrometre, and how a part may lie on it. Never: knows a part, lays one out.
//!
//! ```text
//!   +-------------------+       margin    the machine can't reach it; what runs within it is the tool, not the part's edge
//!   | margin            |       kerf      the tool runs half of it outside the part: a part takes its size and one kerf
//!   |   +-----------+   |       gap       between the paths of two parts
//!   |   |   kerf    |   |
//!   |   | +-------+ |   |       Everything that asks whether something goes onto a sheet asks here: the joins of a row,
//!   |   | | part  | |   |       the pieces of a strip, patterns that run on, the checks, and the sheets themselves.
//! ```

use crate::cutter::Cutter;
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::stock::{Pattern, SheetSize, Stock, Stood};

/// What a trimmer leaves between two cuts at the least, mm: our choice.
const STRIP: f64 = 0.1;

/// How a part may lie on a sheet that stands as [`Stock::stood`] says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lie {
    /// Any way.
    Any,
    /// Upright, or upside down.
    Upright,
    /// As drawn: the pattern has an up and a down.
    AsDrawn,
    /// A quarter turned, its left up: the same in an album that is bound at the top.
    Sideways,
    /// No way: the pattern wants it upright, the grain across.
    NoWay,
}

impl Lie {
    /// Whether it may lie as it is drawn, and whether a quarter turned.
    #[must_use]
    pub const fn ways(self) -> (bool, bool) {
        match self {
            Self::Any => (true, true),
            Self::Upright | Self::AsDrawn => (true, false),
            Self::Sideways => (false, true),
            Self::NoWay => (false, false),
        }
    }
}

/// What of a part keeps to the sheet's grain and pattern.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Keeps {
    /// Whether its upright direction must lie along the grain, where that is stated.
    pub along_grain: bool,
    /// Whether what is up on the album is at its left as it is drawn.
    pub sideways: bool,
}

impl Keeps {
    /// How it may lie on a sheet.
    #[must_use]
    pub fn lie(self, pattern: Pattern, stood: &Stood) -> Lie {
        match (pattern, stood.grain_upright) {
            (Pattern::OneWay, Some(upright)) if self.along_grain && upright == self.sideways => Lie::NoWay,
            (Pattern::OneWay, _) if self.sideways => Lie::Sideways,
            (Pattern::OneWay, _) => Lie::AsDrawn,
            (_, Some(_)) if self.along_grain => Lie::Upright,
            _ => Lie::Any,
        }
    }
}

/// A size of a stock as the machine can use it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UsableSheet {
    /// Its number among the stock's sizes.
    pub size: usize,
    /// How the whole sheet stands.
    pub stood: Stood,
    /// Width within the margins, in eighths of a micrometre; below 0 where they meet.
    pub width: i64,
    /// Height within the margins.
    pub height: i64,
    /// What is off at the left and the right, at the foot and the head: the margin, or what register marks take.
    pub border: (Length, Length),
}

/// What the sheets of one stock take on one machine.
#[derive(Clone, Debug)]
pub struct Usable {
    /// The sizes that go into the machine.
    pub sheets: Vec<UsableSheet>,
    /// The stock's pattern.
    pub pattern: Pattern,
    kerf: Length,
    gap: Length,
}

impl Usable {
    /// The sheets of a stock on what it is cut with: `usual`, unless the stock says otherwise. What lies in a drawer makes no
    /// part another one, so it is not among them.
    #[must_use]
    pub fn of(stock: &Stock, usual: &Cutter) -> Self {
        let mut usable = Self::with_drawer(stock, usual);
        usable.sheets.retain(|sheet| stock.sheets[sheet.size].lies.is_none());
        usable
    }

    /// The same with what lies in a drawer.
    #[must_use]
    pub fn with_drawer(stock: &Stock, usual: &Cutter) -> Self {
        let cutter = stock.cutter(usual);
        let one = |(size, sheet): (usize, &SheetSize)| {
            let stood = stock.stood(sheet);
            let border = cutter.border(stood.width, stood.height);
            let within = |side: Length, border: Length| (side - border * 2.0).eighths();
            let (width, height) = (within(stood.width, border.0), within(stood.height, border.1));
            UsableSheet { size, stood, width, height, border }
        };
        let taken = stock.sheets.iter().enumerate().filter(|(_, sheet)| cutter.takes(sheet.width, sheet.height));
        Self { sheets: taken.map(one).collect(), pattern: stock.pattern, kerf: cutter.kerf, gap: cutter.gap }
    }

    /// The same without the sizes on which something that keeps to the grain can't lie.
    #[must_use]
    pub fn with_grain(mut self, sideways: bool) -> Self {
        let keeps = Keeps { along_grain: true, sideways };
        self.sheets.retain(|sheet| keeps.lie(self.pattern, &sheet.stood) != Lie::NoWay);
        self
    }

    /// What a side of a part takes, its tool path: the side and one kerf.
    #[must_use]
    pub fn path(&self, mm: f64) -> i64 {
        Length::from_mm(mm).eighths() + self.kerf.eighths()
    }

    /// How a part may lie on a sheet.
    #[must_use]
    pub fn lie(&self, sheet: &UsableSheet, keeps: Keeps) -> Lie {
        keeps.lie(self.pattern, &sheet.stood)
    }

    /// How far a part of this size, in mm, sticks out of a sheet either way, in the better way of lying; nothing where it
    /// may not lie on it at all.
    #[must_use]
    pub fn over(&self, sheet: &UsableSheet, (width, height): (f64, f64), keeps: Keeps) -> Option<(i64, i64)> {
        let (width, height) = (self.path(width), self.path(height));
        let over = |across: i64, up: i64| ((across - sheet.width).max(0), (up - sheet.height).max(0));
        let (as_drawn, turned) = self.lie(sheet, keeps).ways();
        let drawn = as_drawn.then(|| over(width, height));
        let quarter = turned.then(|| over(height, width)).map(|(across, up)| (up, across));
        [drawn, quarter].into_iter().flatten().min_by_key(|(across, up)| across.saturating_add(*up))
    }

    /// Whether a part of this size, in mm, goes onto some sheet.
    #[must_use]
    pub fn takes(&self, size: (f64, f64), keeps: Keeps) -> bool {
        self.sheets.iter().any(|sheet| self.over(sheet, size, keeps) == Some((0, 0)))
    }

    /// How long a part may be that is so broad, mm; nothing where that breadth goes onto no sheet. As it is drawn it runs
    /// across, or else up.
    #[must_use]
    pub fn longest(&self, breadth: f64, across: bool, keeps: Keeps) -> Option<f64> {
        let breadth = self.path(breadth);
        let on = |sheet: &UsableSheet| {
            let (as_drawn, turned) = self.lie(sheet, keeps).ways();
            let drawn = if across { (sheet.width, sheet.height) } else { (sheet.height, sheet.width) };
            let ways = [as_drawn.then_some(drawn), turned.then_some((drawn.1, drawn.0))];
            ways.into_iter().flatten().filter(|&(_, across)| breadth <= across).map(|(run, _)| run).max()
        };
        let run = self.sheets.iter().filter_map(on).max()? - self.kerf.eighths();
        (run > 0).then(|| Length::from_eighths(run).mm())
    }

    /// How many parts of one size, in mm, lie side by side on the sheet that takes the most of them; all the same way.
    #[must_use]
    pub(crate) fn grid(&self, (width, height): (f64, f64), keeps: Keeps) -> i64 {
        let gap = self.gap.eighths();
        let count = |room: i64, mm: f64| (room + gap).checked_div(self.path(mm) + gap).unwrap_or(0).max(0);
        let on = |sheet: &UsableSheet| {
            let (as_drawn, turned) = self.lie(sheet, keeps).ways();
            let grid = |width, height| count(sheet.width, width).saturating_mul(count(sheet.height, height));
            let ways = [as_drawn.then(|| grid(width, height)), turned.then(|| grid(height, width))];
            ways.into_iter().flatten().max().unwrap_or(0)
        };
        self.sheets.iter().map(on).max().unwrap_or(0)
    }

    /// How far apart, in mm, two parts of a block are cut that lie so far apart on the album. For a trimmer a strip between
    /// them is nothing or more than two gaps wide, so that two cuts free it.
    #[must_use]
    pub fn apart(&self, behind: f64, trimmer: bool) -> f64 {
        let (kerf, gap) = (self.kerf.mm(), self.gap.mm());
        let between = behind - kerf;
        let strip = 2.0f64.mul_add(gap, STRIP);
        if between <= gap + SAME {
            gap + kerf
        } else if trimmer && between < strip {
            strip + kerf
        } else {
            behind
        }
    }
}
