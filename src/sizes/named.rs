// SPDX-License-Identifier: MIT
//! Sizes of page with a reason of their own: so many pieces from one sheet, room for a print.
//!
//! In: an album, the cutter, how far from its size to look. Out: sizes, each with its reasons. Never: lays anything.

use super::print_sizes::{PrintSize, usual};
use super::{Range, Size};
use crate::album::Album;
use crate::cutter::Cutter;
use crate::length::tolerance::SAME;
use crate::length::{Length, Units};
use crate::net::bend::sleeve_loss;
use crate::parts::{Kit, Part, Pocket, Purpose};
use crate::stock::Stood;
use crate::trial::Trial;

/// Numbers of pieces from one sheet that are looked for: our choice.
const COUNTS: [i64; 4] = [2, 3, 4, 6];

/// How much a print may be smaller than the inside of its pocket at least, both sides together: the lower end of 1/16 to
/// 1/8 in, common practice.
const SLIDES: f64 = 1.5;

/// Thickness of a photo print: the upper end of 0.15 to 0.28 mm, from photo papers' data sheets.
const PRINT: f64 = 0.28;

/// A size, and why it is worth knowing.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct NamedSize {
    /// Width of the page.
    pub width: Length,
    /// Height of the page.
    pub height: Length,
    /// The album at that size; none where it does not go together.
    pub size: Option<Size>,
    /// The reasons.
    pub why: Vec<Why>,
}

/// Why a size is worth knowing.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// The largest, or one of the largest, at which one sheet gives so many of a piece.
    FromSheet {
        /// Number of the stock.
        stock: usize,
        /// How many.
        count: u32,
        /// Whether they are panels; else pieces of pages.
        panels: bool,
    },
    /// The smallest whose pockets take a print.
    Holds {
        /// The print.
        print: PrintSize,
        /// Whether its long side lies level.
        lying: bool,
    },
}

/// A size that is to be tried.
#[derive(Clone, Debug)]
pub(super) struct Candidate {
    pub width: Length,
    pub height: Length,
    pub why: Vec<Why>,
}

impl Candidate {
    pub(super) fn is(&self, width: Length, height: Length) -> bool {
        (self.width.eighths(), self.height.eighths()) == (width.eighths(), height.eighths())
    }
}

/// The sizes worth trying, each once.
pub(super) fn candidates(album: &Album, cutter: &Cutter, range: &Range) -> Vec<Candidate> {
    let own = Trial::of(album.clone(), cutter);
    let Some(kit) = own.kit() else { return Vec::new() };
    let mut found = from_sheets(album, kit, cutter, range);
    found.extend(prints(album, kit, range));
    let mut once: Vec<Candidate> = Vec::new();
    for one in found {
        match once.iter_mut().find(|other| other.is(one.width, one.height)) {
            Some(other) => other.why.extend(one.why),
            None => once.push(one),
        }
    }
    once
}

/// What sizes are rounded to: half a millimetre, or 1/32 in; in eighths of a micrometre.
const fn fine(units: Units) -> i64 {
    match units {
        Units::In => 2 * 3175,
        Units::Mm | Units::Cm => 4000,
    }
}

/// The largest pages at which two, three, four and six pieces come from one sheet.
fn from_sheets(album: &Album, kit: &Kit, cutter: &Cutter, range: &Range) -> Vec<Candidate> {
    let mut found = Vec::new();
    for (number, stock) in album.stocks.iter().enumerate() {
        for panels in [true, false] {
            let Some(part) = face(album, kit, cutter, number, panels) else { continue };
            for count in COUNTS {
                let mut of_count: Vec<(i64, i64)> = Vec::new();
                let usable = kit.usable(number, stock, cutter);
                for sheet in &usable.sheets {
                    let (as_drawn, turned) = usable.lie(sheet, part.keeps()).ways();
                    let cells = (1..=count).filter(|across| count % across == 0);
                    let cells = cells.map(|across| cell(&sheet.stood, stock.cutter(cutter), across, count / across));
                    for (width, height) in
                        cells.flat_map(|(w, h)| [as_drawn.then_some((w, h)), turned.then_some((h, w))]).flatten()
                    {
                        of_count.extend(page_for(album, range, part, width, height));
                    }
                }
                let largest = |&(w, h): &(i64, i64)| {
                    !of_count.iter().any(|&(other, up)| other >= w && up >= h && (other, up) != (w, h))
                };
                let mut kept: Vec<(i64, i64)> = of_count.iter().copied().filter(largest).collect();
                kept.sort_unstable();
                kept.dedup();
                found.extend(kept.into_iter().map(|(width, height)| Candidate {
                    width: Length::from_eighths(width),
                    height: Length::from_eighths(height),
                    why: vec![Why::FromSheet { stock: number, count: u32::try_from(count).unwrap_or(0), panels }],
                }));
            }
        }
    }
    found
}

/// The commonest piece of a stock that grows with the page both ways, among the panels or among the others.
fn face<'k>(album: &Album, kit: &'k Kit, cutter: &Cutter, stock: usize, panels: bool) -> Option<&'k Part> {
    // What follows the page is seen from a page that is a little smaller.
    let less = Length::from_mm(0.5);
    let tried = Trial::of(album.with_page(album.page.width - less, album.page.height - less), cutter);
    let smaller = tried.kit()?;
    let follows = |part: &Part| {
        smaller.parts.iter().find(|other| other.id == part.id).is_some_and(|other| {
            let by = |one: f64, other: f64| (one - other - less.mm()).abs() < SAME;
            by(part.flat.width, other.flat.width) && by(part.flat.height, other.flat.height)
        })
    };
    let mut best: Option<&Part> = None;
    for part in kit.parts.iter().filter(|part| part.stock == stock && (part.purpose == Purpose::Panel) == panels) {
        if follows(part) && best.is_none_or(|best| part.count > best.count) {
            best = Some(part);
        }
    }
    best
}

/// The largest piece, kerf taken off, of which so many lie across and up on one sheet; eighths of a micrometre.
fn cell(stood: &Stood, cutter: &Cutter, across: i64, up: i64) -> (i64, i64) {
    let (gap, kerf, border) = (cutter.gap.eighths(), cutter.kerf.eighths(), cutter.border(stood.width, stood.height));
    let share = |side: Length, border: Length, many: i64| {
        (side.eighths() - 2 * border.eighths() + gap).div_euclid(many) - gap - kerf
    };
    (share(stood.width, border.0, across), share(stood.height, border.1, up))
}

/// The page whose piece fills this cell. A side that is far from the limit stays as it is; nothing where the limit is out of
/// reach, or neither side is near it.
fn page_for(album: &Album, range: &Range, part: &Part, width: i64, height: i64) -> Option<(i64, i64)> {
    let within = range.within().eighths();
    let fine = fine(album.units);
    let side = |cell: i64, part: f64, page: Length| {
        let page = page.eighths();
        let largest = (page + cell - Length::from_mm(part).eighths()).div_euclid(fine) * fine;
        match largest - page {
            off if off < -within => None,
            off if off > within => Some((page, false)),
            _ => Some((largest, true)),
        }
    };
    let (width, near_width) = side(width, part.flat.width, album.page.width)?;
    let (height, near_height) = side(height, part.flat.height, album.page.height)?;
    (near_width || near_height).then_some((width, height))
}

/// The smallest pages whose pockets take the prints: those asked for wherever they are, the usual ones where they are in
/// reach.
fn prints(album: &Album, kit: &Kit, range: &Range) -> Vec<Candidate> {
    // A pocket as wide as its page grows with it; any other keeps its width.
    let as_wide = |pocket: &&Pocket| (pocket.width - album.page.width.mm()).abs() < SAME;
    let growing = kit.pockets.iter().find(as_wide);
    let widest = kit.pockets.iter().max_by(|one, two| (one.width - one.tab).total_cmp(&(two.width - two.tab)));
    let Some(pocket) = growing.or(widest) else { return Vec::new() };
    let usual: Vec<PrintSize> = usual(album.units).filter(|print| !range.prints.contains(print)).collect();
    let wanted = range.prints.iter().map(|print| (print, true)).chain(usual.iter().map(|print| (print, false)));
    let mut found = Vec::new();
    for (print, asked) in wanted {
        for lying in [false, true] {
            let (across, up) = if lying { (print.long, print.short) } else { (print.short, print.long) };
            let Some((width, height)) = smallest(album, pocket, growing.is_some(), across, up) else { continue };
            let near = |side: Length, page: Length| (side - page).abs().eighths() <= range.within().eighths();
            if asked || (near(width, album.page.width) && near(height, album.page.height)) {
                found.push(Candidate { width, height, why: vec![Why::Holds { print: print.clone(), lying }] });
            }
        }
    }
    found
}

/// The smallest page whose pocket takes something so wide and so tall.
///
/// The hinge's tab takes its part of the width. The folds at head and tail are round at worst. A thing as thick as q wants
/// height + q (derived: it opens the sleeve), and enough to slide.
fn smallest(album: &Album, pocket: &Pocket, grows: bool, across: Length, up: Length) -> Option<(Length, Length)> {
    let fine = fine(album.units);
    let round_up = |mm: f64| Length::from_eighths(-(-Length::from_mm(mm).eighths()).div_euclid(fine) * fine);
    let width = if grows {
        round_up(across.mm() + pocket.tab)
    } else if pocket.width - pocket.tab >= across.mm() {
        album.page.width
    } else {
        return None;
    };
    Some((width, round_up(up.mm() + sleeve_loss(pocket.caliper)[1] + SLIDES.max(PRINT))))
}
