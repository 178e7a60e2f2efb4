// SPDX-License-Identifier: MIT
//! Lays flat parts on stock sheets so that as few sheets as possible are used, and says how few would do at least.
//!
//! In: items (a bounding box, optionally the true contour, the turns they may take, how many), sheets (usable area, how
//! many there are, price), the least gap between items, how much effort. Out: sheets with placements, equal sheets once
//! with `times`; a proven bound; what is left over as free rectangles. Never: alters an outline, knows albums, grain or
//! kerf, reads a file or a clock. The same job gives the same layout on any number of threads.
//!
//! All lengths are whole eighths of a micrometre, so 1/64 in (exactly 3175 of them) and 1 mm (8000) add up without
//! rounding. x runs right and y up from the sheet's lower left. Sizes below 1 count as 1; no sheet is used beyond 134 m or
//! for more than 20,000 parts.
//!
//! ```
//! use hingeleaf::layout::{Effort, Item, Job, Sheet, Turns, Unwatched, lay_out};
//!
//! let inch = 64 * 3175;
//! let panel = Item { width: 5 * inch, height: 7 * inch, contour: None, turns: Turns::ANY, count: 8 };
//! let sheet = Sheet { width: 12 * inch, height: 12 * inch, count: None, price: None };
//! let job = Job { items: &[panel], sheets: &[sheet], gap: 0, effort: Effort::Low, threads: 1 };
//! let layout = lay_out(&job, &Unwatched)?;
//! assert_eq!(layout.sheets.len(), 1); // four panels round an empty middle,
//! assert_eq!(layout.sheets[0].times, 2); // twice
//! assert!(layout.proven_least);
//! # Ok::<(), hingeleaf::layout::NoLayout>(())
//! ```

mod bench;
mod bound;
mod build;
mod cover;
mod crew;
mod dice;
mod draft;
mod dual;
mod exact;
mod few;
mod frame;
mod guess;
mod inner;
mod offcut;
mod order;
mod pattern;
mod pool;
mod price;
mod proof;
mod ruin;
mod search;
mod sheet;
mod simplex;
mod single;
mod space;
mod trimmer;
mod worthy;

use std::fmt;

use crate::contour::Contour;

pub use offcut::offcuts;
pub use trimmer::{Cut, Piece, Way};

/// A part to be laid, as often as `count` says.
#[derive(Clone, Debug)]
pub struct Item {
    /// Width of the bounding box as drawn, kerf included, in eighths of a micrometre.
    pub width: i64,
    /// Height of the bounding box as drawn, kerf included, in eighths of a micrometre.
    pub height: i64,
    /// The true outer outline in millimetres, where it is not the box: such parts could nest, so the bound counts
    /// its area and a box inside it. Layouts keep the boxes apart all the same.
    pub contour: Option<Contour>,
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

    /// Whether the box may stand as drawn.
    const fn upright(self) -> bool {
        self.allows(Turn::None) || self.allows(Turn::Half)
    }

    /// Whether the box may lie with width and height exchanged.
    const fn sideways(self) -> bool {
        self.allows(Turn::Quarter) || self.allows(Turn::ThreeQuarter)
    }
}

/// A sheet that can be cut from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sheet {
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
pub struct Job<'a> {
    /// The parts.
    pub items: &'a [Item],
    /// The sheets they may be cut from.
    pub sheets: &'a [Sheet],
    /// Least distance between two items' boxes, in eighths of a micrometre. None is needed to the edge of a sheet.
    pub gap: i64,
    /// How hard to try.
    pub effort: Effort,
    /// How many threads may work. Changes nothing but the time.
    pub threads: usize,
}

/// Looks on while a layout is searched for, from any of the threads.
pub trait Watch: Sync {
    /// `done` of `of` counted steps; an easy job is finished long before they are equal.
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

/// One item on a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Placement {
    /// Number of the item in the job.
    pub item: usize,
    /// Left edge of the turned item's box, from the left of the usable area, in eighths of a micrometre.
    pub x: i64,
    /// Lower edge of the turned item's box, from the bottom of the usable area, in eighths of a micrometre.
    pub y: i64,
    /// How the item is turned.
    pub turn: Turn,
}

/// A sheet with items on it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LaidSheet {
    /// Number of the sheet in the job.
    pub sheet: usize,
    /// How many sheets are laid just like this.
    pub times: u32,
    /// What lies on each of them, from bottom to top.
    pub placements: Vec<Placement>,
    /// How a trimmer cuts it; only in trimmer layouts.
    pub cuts: Option<Piece>,
}

/// Where everything goes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Layout {
    /// The sheets; where one is not full, it is the last.
    pub sheets: Vec<LaidSheet>,
    /// No layout of these items on these sheets does with fewer. 1 where sizes are mixed, 0 where there are no items.
    pub lower_bound: u64,
    /// The bound is met. Never where sizes are mixed.
    pub proven_least: bool,
    /// The watch stopped the search.
    pub cut_short: bool,
}

/// Why there is no layout.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoLayout {
    /// These items fit none of the sheets in any turn allowed.
    TooBig {
        /// Numbers of all such items in the job.
        items: Vec<usize>,
    },
    /// The counted sheets are used up, and there are no others.
    OutOfSheets {
        /// Items that found no place, and how many of each.
        left: Vec<(usize, u32)>,
    },
}

impl fmt::Display for NoLayout {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooBig { items } => write!(f, "{} of the parts fit on none of the sheets", items.len()),
            Self::OutOfSheets { left } => {
                let parts: u64 = left.iter().map(|&(_, count)| u64::from(count)).sum();
                write!(f, "there are too few sheets: {parts} parts are left over")
            }
        }
    }
}

impl std::error::Error for NoLayout {}

/// Lays all items on sheets.
///
/// The aims, first things first: as little as can be is bought beside the counted sheets and as much as can be lies on
/// them; least cost (area where a price is missing); fewest sheets; the largest free rectangle on the emptiest sheet. With
/// one size of sheet this is: fewest sheets, then the largest offcut.
///
/// # Errors
/// [`NoLayout::TooBig`] with every item that fits no sheet; [`NoLayout::OutOfSheets`] if counted sheets do not suffice.
pub fn lay_out(job: &Job, watch: &dyn Watch) -> Result<Layout, NoLayout> {
    lay_out_for(job, Cuts::Free, watch)
}

/// The same, for any cutter or for a trimmer. Trimmer layouts carry their cuts; few cuts and few settings of the stop are
/// their last aim. The bound is that of free layouts, which holds for them as well.
///
/// ```
/// use hingeleaf::layout::{Cuts, Effort, Item, Job, Sheet, Turns, Unwatched, lay_out_for};
///
/// let panel = Item { width: 5, height: 7, contour: None, turns: Turns::ANY, count: 3 };
/// let sheet = Sheet { width: 12, height: 12, count: None, price: None };
/// let job = Job { items: &[panel], sheets: &[sheet], gap: 0, effort: Effort::Low, threads: 1 };
/// let layout = lay_out_for(&job, Cuts::Trimmer, &Unwatched)?;
/// assert_eq!(layout.sheets.len(), 1); // a fourth panel would need a cut that stops halfway
/// let cuts = layout.sheets[0].cuts.as_ref().map_or(0, |piece| piece.cuts());
/// assert!(cuts <= 6);
/// # Ok::<(), hingeleaf::layout::NoLayout>(())
/// ```
///
/// # Errors
/// As [`lay_out`].
pub fn lay_out_for(job: &Job, cuts: Cuts, watch: &dyn Watch) -> Result<Layout, NoLayout> {
    let frame = frame::Frame::new(job, cuts)?;
    if frame.kinds.is_empty() {
        return Ok(Layout { sheets: Vec::new(), lower_bound: 0, proven_least: true, cut_short: false });
    }
    let mut proof = proof::Proof::new(job, &frame);
    let found = match cuts {
        Cuts::Free => search::search::<sheet::OpenSheet>(&frame, &mut proof, job.effort, job.threads, watch),
        Cuts::Trimmer => search::search::<trimmer::OpenTree>(&frame, &mut proof, job.effort, job.threads, watch),
    };
    if !found.draft.complete() {
        return Err(NoLayout::OutOfSheets { left: frame.left_over(&found.draft) });
    }
    let sheets = found.draft.sheets();
    let lower_bound = proof.reach(sheets);
    Ok(Layout {
        sheets: frame.deal(&found.draft, job.items),
        lower_bound,
        proven_least: proof.possible() && lower_bound == sheets,
        cut_short: found.cut_short,
    })
}
