// SPDX-License-Identifier: MIT
//! One stock and its parts as the layout engine sees them, and back.
//!
//! In: an album, its kit, the cutter, a stock's number. Out: sheets with parts in place, or findings why there are none.
//! Never: decides which stocks are laid, or how often.

use super::alike::{Alike, is_strip};
use super::blocks::{self, Spread};
use super::{Placed, Search, Sheet, StockSheets, TrimCut, TrimPiece};
use crate::album::Album;
use crate::cutter::Cutter;
use crate::finding::{Arg, Finding, Said};
use crate::layout::{self, CutDirection, Cuts, Item, Layout, NoLayout, Problem, Turn, Turns, Watch};
use crate::length::Length;
use crate::length::tolerance::{SAME, WHOLE};
use crate::parts::{Kit, Part};
use crate::stock::{Stock, Stood};
use crate::usable::{self, Lie, Usable};
use std::borrow::Cow;

/// More pieces than this of one stock are a mistake: our choice.
const MOST_PIECES: u64 = 1_000_000;

/// Rectangles smaller than this on a side are not worth keeping: our choice, mm.
pub const WORTH_KEEPING: f64 = 40.0;

/// Quarter turns, counter-clockwise, that bring a part's left up.
const SIDEWAYS: u8 = 3;

/// One stock and the parts that are cut from it.
#[derive(Clone)]
pub(super) struct StockParts<'a> {
    album: &'a Album,
    /// The kit as it is laid: each block as one part.
    pub(super) kit: Cow<'a, Kit>,
    pub(super) cutter: &'a Cutter,
    pub(super) number: usize,
    pub(super) stock: &'a Stock,
    /// The sheets that parts are laid on.
    pub(super) usable: Usable,
    /// How many there are of each of these sizes, where they are limited.
    pub(super) supply: Vec<Option<u32>>,
    /// Numbers of its parts.
    pub(super) parts: Vec<usize>,
    /// The blocks, which are parts behind all others, and the number of the first one.
    spreads: Vec<Spread>,
    first_spread: usize,
    search: Search,
    /// How often what is laid is cut.
    times: u32,
    /// Which way strips lie that must lie alike.
    pub(super) alike: Option<Alike>,
}

impl<'a> StockParts<'a> {
    /// Sets out one stock; nothing where no part is cut from it.
    pub(super) fn new(
        album: &'a Album,
        kit: &'a Kit,
        cutter: &'a Cutter,
        number: usize,
        search: Search,
    ) -> Option<Self> {
        let stock = album.stocks.get(number)?;
        let first_spread = kit.parts.len();
        let usable = kit.usable(number, stock, cutter);
        let (kit, spreads) = blocks::gathered(kit, number, &usable, search.trimmer);
        let mine = |part: &usize| kit.parts[*part].stock == number && kit.parts[*part].count > 0;
        let parts: Vec<usize> = (0..kit.parts.len()).filter(mine).collect();
        if parts.is_empty() {
            return None;
        }
        // Sheets that are handed over whole are each kit's own: one kit is laid, and so many times over.
        let times = if album.is_apart(number) { album.copies.max(1) } else { 1 };
        let supply = usable.sheets.iter().map(|sheet| Some(stock.sheets[sheet.size].count? / times)).collect();
        Some(Self {
            album,
            kit,
            cutter,
            number,
            stock,
            usable,
            supply,
            parts,
            spreads,
            first_spread,
            search,
            times,
            alike: None,
        })
    }

    /// Says so where there are more pieces than can be laid at once.
    pub(super) fn too_many(&self) -> Option<Finding> {
        let count = |&part: &usize| u64::from(self.kit.parts[part].count) * u64::from(self.album.copies);
        let pieces: u64 = self.parts.iter().map(count).sum();
        (pieces > MOST_PIECES).then(|| {
            let text = Said::new("too-many-pieces").with("pieces", pieces).with("most", MOST_PIECES);
            Finding::stop("too-many-pieces", self.about(), text)
                .help(Said::new("too-many-pieces-help"))
                .at(self.stock.place.as_ref())
        })
    }

    /// What findings about it are about.
    pub(super) fn about(&self) -> Said {
        Said::new("about-stock").with("stock", &self.stock.name)
    }

    /// The area of all parts needs so many sheets at least, of the first size.
    pub(super) fn least_by_area(&self) -> u64 {
        let Some(first) = self.usable.sheets.first() else { return 0 };
        let sheet = &self.stock.sheets[first.size];
        let parts = self.parts.iter().map(|&part| &self.kit.parts[part]);
        let area: f64 = parts.map(|part| part.flat.area() * f64::from(part.count)).sum();
        let sheets = area * f64::from(self.album.copies) / (sheet.width.mm() * sheet.height.mm());
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a float-to-integer cast saturates")]
        let least = (sheets - WHOLE).ceil().max(0.0) as u64;
        least
    }

    /// The sheets as the layout sees them.
    fn laid_on(&self) -> Vec<layout::SheetType> {
        let one = |(sheet, &count): (&usable::UsableSheet, &Option<u32>)| layout::SheetType {
            width: sheet.width.max(0),
            height: sheet.height.max(0),
            count,
            price: self.stock.sheets[sheet.size].price,
        };
        self.usable.sheets.iter().zip(&self.supply).map(one).collect()
    }

    /// How a part lies: all sheets that are left stand the same way with respect to grain and pattern.
    pub(super) fn lie(&self, part: &Part) -> Lie {
        self.usable.sheets.first().map_or(Lie::Any, |sheet| self.usable.lie(sheet, part.keeps()))
    }

    /// The parts, each with its count for the whole batch.
    pub(super) fn items(&self, honour_grain: bool) -> Vec<Item> {
        let one = |&number: &usize| {
            let part = &self.kit.parts[number];
            let lie = self.lie(part);
            let lie = if lie == Lie::Upright && !honour_grain { Lie::Any } else { lie };
            let item = self.item(part, lie);
            match self.alike.filter(|_| item.turns == Turns::ANY && is_strip(&self.kit, number)) {
                Some(alike) => Item { turns: alike.turns(), ..item },
                None => item,
            }
        };
        self.parts.iter().map(one).collect()
    }

    /// Lays them; the same table gives the same layout.
    pub(super) fn lay(&self, honour_grain: bool, watch: &dyn Watch) -> Result<Layout, NoLayout> {
        self.lay_items(&self.items(honour_grain), watch)
    }

    /// Lays these items instead of its own.
    pub(super) fn lay_items(&self, items: &[Item], watch: &dyn Watch) -> Result<Layout, NoLayout> {
        let problem = Problem {
            items,
            sheets: &self.laid_on(),
            gap: self.cutter.gap.eighths(),
            effort: self.search.effort,
            threads: self.search.threads,
        };
        let cuts = if self.search.trimmer { Cuts::Trimmer } else { Cuts::Free };
        let mut layout = layout::lay_out_for(&problem, cuts, watch)?;
        for sheet in &mut layout.sheets {
            sheet.times = sheet.times.saturating_mul(self.times);
        }
        layout.lower_bound = layout.lower_bound.saturating_mul(u64::from(self.times));
        Ok(layout)
    }

    /// Whether a part always lies with its left up.
    pub(super) fn is_sideways(&self, part: &Part) -> bool {
        self.lie(part) == Lie::Sideways
    }

    fn item(&self, part: &Part, lie: Lie) -> Item {
        // A part that lies sideways is laid as it lies then.
        let flat = if lie == Lie::Sideways { part.flat.turned(SIDEWAYS) } else { part.flat.clone() };
        // Where the outline is the box itself, the box says it all.
        let boxed = flat.outline.is_box();
        Item {
            width: self.usable.path(flat.width),
            height: self.usable.path(flat.height),
            contour: (!boxed).then(|| flat.outline.clone()),
            turns: match lie {
                Lie::Any => Turns::ANY,
                Lie::Upright => Turns::HALF,
                Lie::AsDrawn | Lie::Sideways | Lie::NoWay => Turns::NONE,
            },
            count: part.count.saturating_mul(self.album.copies / self.times),
        }
    }

    /// The sheets of a layout, in millimetres.
    pub(super) fn sheets(&self, layout: &Layout) -> StockSheets {
        let margin = self.cutter.margin.mm();
        let half_kerf = self.cutter.offset().mm();
        let mut copies = vec![0; self.first_spread];
        let digits = layout.sheets.len().to_string().len().max(2);
        let sheets: Vec<Sheet> = layout
            .sheets
            .iter()
            .enumerate()
            .map(|(index, laid)| {
                let usable::UsableSheet { size, stood, .. } = self.usable.sheets[laid.sheet];
                let mut placements = Vec::new();
                // What each placement of the layout is among the sheet's.
                let mut pieces = Vec::new();
                for placement in &laid.placements {
                    let quarters = match placement.turn {
                        Turn::None => 0,
                        Turn::Quarter => 1,
                        Turn::Half => 2,
                        Turn::ThreeQuarter => 3,
                    };
                    let part = self.parts[placement.item];
                    let quarters =
                        if self.is_sideways(&self.kit.parts[part]) { (quarters + SIDEWAYS) % 4 } else { quarters };
                    let [x, y] =
                        [placement.x, placement.y].map(|at| Length::from_eighths(at).mm() + margin + half_kerf);
                    let mut put = |part: usize, (x, y), quarters| {
                        copies[part] += 1;
                        placements.push(Placed { part, copy: copies[part], x, y, quarters });
                        placements.len() - 1
                    };
                    let spread = part.checked_sub(self.first_spread).and_then(|block| self.spreads.get(block));
                    let Some(spread) = spread else {
                        pieces.push(TrimPiece::Part(put(part, (x, y), quarters)));
                        continue;
                    };
                    let spots = spread.spots((x, y), quarters);
                    let numbers: Vec<usize> = spots.iter().map(|spot| put(spot.part, spot.at, spot.quarters)).collect();
                    let first = numbers.first().copied().unwrap_or_default();
                    pieces.push(spread.cuts(&spots, first, quarters, self.cutter));
                }
                Sheet {
                    name: format!("{}-{:0digits$}", self.stock.name, index + 1),
                    size,
                    width: stood.width.mm(),
                    height: stood.height.mm(),
                    times: laid.times,
                    placements,
                    offcuts: self.offcuts(laid, &stood),
                    cuts: laid.cuts.as_ref().map(|piece| self.piece(piece, &pieces)),
                }
            })
            .collect();
        let area_of = |sheet: &Sheet| {
            sheet.placements.iter().map(|placed| self.kit.parts[placed.part].flat.area()).sum::<f64>()
                * f64::from(sheet.times)
        };
        let used: f64 = sheets.iter().map(area_of).sum();
        let whole: f64 = sheets.iter().map(|sheet| sheet.width * sheet.height * f64::from(sheet.times)).sum();
        StockSheets {
            stock: self.number,
            sheets,
            lower_bound: layout.lower_bound,
            proven_least: layout.proven_least,
            used_percent: if whole > 0.0 { 100.0 * used / whole } else { 0.0 },
            cut_short: layout.cut_short,
        }
    }

    /// A piece in millimetres on the whole sheet, the margin put back.
    fn piece(&self, piece: &layout::CutTree, parts: &[TrimPiece]) -> TrimPiece {
        let margin = self.cutter.margin.mm();
        let mm = |eighths: i64| Length::from_eighths(eighths).mm();
        let rect =
            |[left, bottom, width, height]: [i64; 4]| [mm(left) + margin, mm(bottom) + margin, mm(width), mm(height)];
        match piece {
            layout::CutTree::Part(number) => parts.get(*number).cloned().unwrap_or(TrimPiece::Part(*number)),
            layout::CutTree::Offcut(offcut) => TrimPiece::Offcut(rect(*offcut)),
            layout::CutTree::Cut(cut) => TrimPiece::Cut(TrimCut {
                rect: rect([cut.left, cut.bottom, cut.width, cut.height]),
                upright: cut.way == CutDirection::Upright,
                at: cut.at.iter().map(|at| mm(*at) + margin).collect(),
                pieces: cut.pieces.iter().map(|piece| self.piece(piece, parts)).collect(),
            }),
        }
    }

    /// What is left over, the margin given back to what lies at the sheet's edge.
    fn offcuts(&self, laid: &layout::LaidSheet, stood: &Stood) -> Vec<[f64; 4]> {
        let least = Length::from_mm(WORTH_KEEPING).eighths();
        if let Some(cuts) = &laid.cuts {
            // On the trimmer only what its cuts free is an offcut, and the margin is trimmed away before.
            let margin = self.cutter.margin.mm();
            let whole =
                |[x, y, width, height]: [i64; 4]| [x, y, width, height].map(|side| Length::from_eighths(side).mm());
            let put_back = |[x, y, width, height]: [f64; 4]| [x + margin, y + margin, width, height];
            return cuts.offcuts(least).into_iter().map(whole).map(put_back).collect();
        }
        let items = self.items(true);
        let margin = self.cutter.margin;
        let whole = layout::SheetType {
            width: stood.width.eighths(),
            height: stood.height.eighths(),
            count: None,
            price: None,
        };
        let moved: Vec<layout::Placement> = laid
            .placements
            .iter()
            .map(|placement| layout::Placement {
                x: placement.x + margin.eighths(),
                y: placement.y + margin.eighths(),
                ..*placement
            })
            .collect();
        layout::offcuts(&whole, &items, &moved, self.cutter.gap.eighths(), least)
            .into_iter()
            .map(|(x, y, width, height)| [x, y, width, height].map(|side| Length::from_eighths(side).mm()))
            .collect()
    }

    /// Says where a pattern that runs on jumps, because the machine can't cut its pieces as near as they lie.
    pub(super) fn jumps(&self) -> Option<Finding> {
        let spread = self.spreads.iter().filter(|spread| spread.jump > SAME);
        let worst = spread.clone().max_by(|one, two| one.jump.total_cmp(&two.jump))?;
        let more = spread.count() - 1;
        let about = Said::new("about-more").with("first", Arg::term(&worst.name)).with("more", more);
        let text = Said::new("pattern-jumps").with("jump", self.album.length(worst.jump));
        let help = Said::new("pattern-jumps-help").with("field", Arg::field("panels.reveal"));
        Some(Finding::note("pattern-jumps", about, text).help(help).at(self.stock.place.as_ref()))
    }

    /// Says what honouring the grain costs, where it costs anything.
    pub(super) fn price_of_grain(&self, layout: &Layout, watch: &dyn Watch) -> Option<Finding> {
        let bound_by_grain =
            |&part: &usize| self.kit.parts[part].along_grain && self.lie(&self.kit.parts[part]) == Lie::Upright;
        let count = |layout: &Layout| layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum::<u64>();
        if count(layout) < 2 || !self.parts.iter().any(bound_by_grain) {
            return None;
        }
        let free = self.lay(false, watch).ok()?;
        let more = count(layout).checked_sub(count(&free)).filter(|&more| more > 0)?;
        let text = Said::new("price-of-grain").with("sheets", more);
        Some(Finding::note("price-of-grain", self.about(), text).help(Said::new("price-of-grain-help")))
    }

    /// Says what it costs that each kit has sheets of its own.
    pub(super) fn price_of_apart(&self, layout: &Layout, watch: &dyn Watch) -> Option<Finding> {
        if self.times < 2 {
            return None;
        }
        let supply = self.usable.sheets.iter().map(|sheet| self.stock.sheets[sheet.size].count).collect();
        let across = Self { times: 1, supply, ..self.clone() }.lay(true, watch).ok()?;
        let count = |layout: &Layout| layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum::<u64>();
        let more = count(layout).checked_sub(count(&across)).filter(|more| *more > 0)?;
        let text = Said::new("price-of-apart").with("sheets", more).with("field", Arg::field("handed_over"));
        Some(Finding::note("price-of-apart", self.about(), text).help(Said::new("price-of-apart-help")))
    }

    /// How many sheets more it takes than there are, where it comes in one size alone.
    fn missing(&self, watch: &dyn Watch) -> Option<(u64, u64)> {
        let [Some(count)] = self.supply.as_slice() else { return None };
        let plenty = Self { supply: vec![None], ..self.clone() };
        let layout = plenty.lay(true, watch).ok()?;
        let needed = layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum::<u64>();
        let count = count * self.times;
        Some((needed, u64::from(count))).filter(|(needed, count)| needed > count)
    }

    /// What a stock without a layout has to say.
    pub(super) fn trouble(&self, trouble: &NoLayout, watch: &dyn Watch) -> Vec<Finding> {
        let name = |item: usize| {
            let part = &self.kit.parts[self.parts[item]];
            part.used_in.first().unwrap_or(&part.id)
        };
        match trouble {
            NoLayout::TooBig { items } => items
                .iter()
                .map(|&item| {
                    let text = Said::new("too-big-for-all").with("stock", &self.stock.name);
                    Finding::stop("too-big", Said::named(name(item)), text).help(Said::new("too-big-for-all-help"))
                })
                .collect(),
            NoLayout::OutOfSheets { left } => {
                let pieces: u64 = left.iter().map(|&(_, count)| u64::from(count)).sum();
                let one = |&(item, count): &(usize, u32)| {
                    Said::new("out-of-sheets-part").with("count", count).with("part", Arg::term(name(item))).into()
                };
                let rest = (left.len() > 3).then(|| Arg::from("…"));
                let (needed, count) = self.missing(watch).unwrap_or_default();
                let text = Said::new("out-of-sheets")
                    .with("needed", needed)
                    .with("more", needed - count)
                    .with("pieces", pieces)
                    .with("parts", Arg::Row(left.iter().take(3).map(one).chain(rest).collect()));
                vec![
                    Finding::stop("out-of-sheets", self.about(), text)
                        .help(Said::new("out-of-sheets-help").with("field", Arg::field("count")))
                        .at(self.stock.place.as_ref()),
                ]
            }
        }
    }
}
