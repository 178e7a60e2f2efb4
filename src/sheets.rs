// SPDX-License-Identifier: MIT
//! An album's parts laid on the sheets of its stocks.
//!
//! In: an album, its kit, the cutter. Out: [`StockSheets`]: every sheet to cut, with its parts in place.
//! Never: alters a part, writes a file.
//!
//! This is where grain, pattern, margin and kerf become what [`layout`] understands: each
//! sheet is stood with its grain and pattern up and loses its margin, each part's box grows by the kerf.

use crate::album::Album;
use crate::cutter::Cutter;
use crate::finding::Finding;
use crate::layout::{self, Cuts, Effort, Item, Job, Layout, NoLayout, Turn, Turns, Watch, Way};
use crate::length::Length;
use crate::parts::{Kit, Lie, Part};
use crate::stock::{Stock, Stood};

/// All sheets of one stock.
#[derive(Clone, Debug)]
pub struct StockSheets {
    /// Number of the stock.
    pub stock: usize,
    /// The sheets, equal ones once.
    pub sheets: Vec<Sheet>,
    /// No layout needs fewer sheets than this.
    pub lower_bound: u64,
    /// Whether the layout meets that bound.
    pub proven_least: bool,
    /// Part area over whole sheet area, percent.
    pub used_percent: f64,
    /// Whether the search was stopped before its end.
    pub cut_short: bool,
}

impl StockSheets {
    /// How many sheets to cut.
    #[must_use]
    pub fn count(&self) -> u64 {
        self.sheets.iter().map(|sheet| u64::from(sheet.times)).sum()
    }
}

/// One sheet with parts in place.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// Its name, and that of its files: `card-01`.
    pub name: String,
    /// Number of its size among the stock's sheets.
    pub size: usize,
    /// Width as it lies, mm.
    pub width: f64,
    /// Height as it lies, mm.
    pub height: f64,
    /// How many times it is cut.
    pub times: u32,
    /// The parts on it.
    pub placements: Vec<Placed>,
    /// What is left of it worth keeping: x, y, width and height, mm.
    pub offcuts: Vec<[f64; 4]>,
    /// How a trimmer cuts it apart, where it is laid for one.
    pub cuts: Option<Piece>,
}

/// A rectangle of a sheet, and what becomes of it on the trimmer.
#[derive(Clone, Debug, PartialEq)]
pub enum Piece {
    /// A part: the number of its placement on the sheet.
    Part(usize),
    /// What is left over: x, y, width and height, mm.
    Offcut([f64; 4]),
    /// It is cut again.
    Cut(Cut),
}

/// A rectangle that is cut from edge to edge, once or several times side by side.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// The rectangle: x, y, width and height, mm.
    pub rect: [f64; 4],
    /// Whether the cuts run upright, at an x; else level, at a y.
    pub upright: bool,
    /// Where they lie on the sheet, mm, in order.
    pub at: Vec<f64>,
    /// What they part, in the same order.
    pub pieces: Vec<Piece>,
}

/// A part in place.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// Number of the part.
    pub part: usize,
    /// Counts the part's placements over all written sheets, from 1.
    pub copy: u32,
    /// Left edge of the turned part's nominal box on the sheet, mm.
    pub x: f64,
    /// Lower edge of the turned part's nominal box on the sheet, mm.
    pub y: f64,
    /// Quarter turns counter-clockwise.
    pub quarters: u8,
}

/// How hard to look, and how.
#[derive(Clone, Copy, Debug)]
pub struct Search {
    /// How hard.
    pub effort: Effort,
    /// Whether a trimmer must be able to cut every sheet apart from edge to edge.
    pub trimmer: bool,
    /// On how many threads; the result is the same for any number.
    pub threads: usize,
}

/// More pieces than this of one stock are a mistake: our choice.
const MOST_PIECES: u64 = 1_000_000;

/// Rectangles smaller than this on a side are not worth keeping: our choice, mm.
const WORTH_KEEPING: f64 = 40.0;

/// Lays all parts of all stocks; findings of level stop mean that the sheets are not to be used.
pub fn lay(
    album: &Album,
    kit: &Kit,
    cutter: &Cutter,
    search: Search,
    watch: &dyn Watch,
) -> (Vec<StockSheets>, Vec<Finding>) {
    let mut laid = Vec::new();
    let mut findings = Vec::new();
    for (number, stock) in album.stocks.iter().enumerate() {
        let parts: Vec<usize> = (0..kit.parts.len()).filter(|&part| kit.parts[part].stock == number).collect();
        if parts.is_empty() {
            continue;
        }
        let pieces: u64 = parts.iter().map(|&part| u64::from(kit.parts[part].count) * u64::from(album.copies)).sum();
        if pieces > MOST_PIECES {
            let text = format!("{pieces} pieces are more than can be laid at once ({MOST_PIECES})");
            let finding = Finding::stop("too-many-pieces", format!("stock {}", stock.name), text);
            findings.push(finding.help("make fewer kits at a time").at(stock.place.as_ref()));
            continue;
        }
        let sizes = kit.sizes(number, stock, cutter);
        let table = Table { album, kit, cutter, stock, sizes, parts, search };
        match table.lay(true, watch) {
            Ok(layout) => {
                findings.extend(table.price_of_grain(&layout, watch));
                laid.push(table.sheets(number, &layout));
            }
            Err(trouble) => findings.extend(table.trouble(&trouble)),
        }
    }
    (laid, findings)
}

/// One stock and the parts that are cut from it.
struct Table<'a> {
    album: &'a Album,
    kit: &'a Kit,
    cutter: &'a Cutter,
    stock: &'a Stock,
    /// Numbers of the stock's sizes that parts are laid on.
    sizes: Vec<usize>,
    parts: Vec<usize>,
    search: Search,
}

impl Table<'_> {
    fn lay(&self, honour_grain: bool, watch: &dyn Watch) -> Result<Layout, NoLayout> {
        let stood: Vec<Stood> = self.sizes.iter().map(|&size| self.stock.stood(&self.stock.sheets[size])).collect();
        let margin = self.cutter.margin * 2.0;
        let sheets: Vec<layout::Sheet> = stood
            .iter()
            .zip(&self.sizes)
            .map(|(stood, &size)| layout::Sheet {
                width: (stood.width - margin).eighths().max(0),
                height: (stood.height - margin).eighths().max(0),
                count: self.stock.sheets[size].count,
                price: self.stock.sheets[size].price,
            })
            .collect();
        let items: Vec<Item> = self
            .parts
            .iter()
            .map(|&number| {
                let part = &self.kit.parts[number];
                // All sizes that are left stand the same way with respect to grain and pattern.
                let lie = stood.first().map_or(Lie::Any, |stood| part.lie(self.stock, stood));
                let lie = if lie == Lie::Upright && !honour_grain { Lie::Any } else { lie };
                self.item(part, lie)
            })
            .collect();
        let job = Job {
            items: &items,
            sheets: &sheets,
            gap: self.cutter.gap.eighths(),
            effort: self.search.effort,
            threads: self.search.threads,
        };
        let cuts = if self.search.trimmer { Cuts::Trimmer } else { Cuts::Free };
        layout::lay_out_for(&job, cuts, watch)
    }

    fn item(&self, part: &Part, lie: Lie) -> Item {
        let grown = |mm: f64| Length::from_mm(mm).eighths() + self.cutter.kerf.eighths();
        // Where the outline is the box itself, the box says it all.
        let boxed = (part.flat.outline.area() - part.flat.width * part.flat.height).abs() < 1e-6;
        Item {
            width: grown(part.flat.width),
            height: grown(part.flat.height),
            contour: (!boxed).then(|| part.flat.outline.clone()),
            turns: match lie {
                Lie::Any => Turns::ANY,
                Lie::Upright => Turns::HALF,
                Lie::AsDrawn | Lie::NoWay => Turns::NONE,
            },
            count: part.count.saturating_mul(self.album.copies),
        }
    }

    fn sheets(&self, stock: usize, layout: &Layout) -> StockSheets {
        let margin = self.cutter.margin.mm();
        let half_kerf = self.cutter.offset().mm();
        let mut copies = vec![0; self.parts.len()];
        let digits = layout.sheets.len().to_string().len().max(2);
        let sheets: Vec<Sheet> = layout
            .sheets
            .iter()
            .enumerate()
            .map(|(index, laid)| {
                let size = self.sizes[laid.sheet];
                let stood = self.stock.stood(&self.stock.sheets[size]);
                let placements = laid
                    .placements
                    .iter()
                    .map(|placement| {
                        copies[placement.item] += 1;
                        Placed {
                            part: self.parts[placement.item],
                            copy: copies[placement.item],
                            x: Length::from_eighths(placement.x).mm() + margin + half_kerf,
                            y: Length::from_eighths(placement.y).mm() + margin + half_kerf,
                            quarters: match placement.turn {
                                Turn::None => 0,
                                Turn::Quarter => 1,
                                Turn::Half => 2,
                                Turn::ThreeQuarter => 3,
                            },
                        }
                    })
                    .collect();
                Sheet {
                    name: format!("{}-{:0digits$}", self.stock.name, index + 1),
                    size,
                    width: stood.width.mm(),
                    height: stood.height.mm(),
                    times: laid.times,
                    placements,
                    offcuts: self.offcuts(laid, &stood),
                    cuts: laid.cuts.as_ref().map(|piece| self.piece(piece)),
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
            stock,
            sheets,
            lower_bound: layout.lower_bound,
            proven_least: layout.proven_least,
            used_percent: if whole > 0.0 { 100.0 * used / whole } else { 0.0 },
            cut_short: layout.cut_short,
        }
    }

    /// A piece in millimetres on the whole sheet, the margin put back.
    fn piece(&self, piece: &layout::Piece) -> Piece {
        let margin = self.cutter.margin.mm();
        let mm = |eighths: i64| Length::from_eighths(eighths).mm();
        let rect =
            |[left, bottom, width, height]: [i64; 4]| [mm(left) + margin, mm(bottom) + margin, mm(width), mm(height)];
        match piece {
            layout::Piece::Part(number) => Piece::Part(*number),
            layout::Piece::Offcut(offcut) => Piece::Offcut(rect(*offcut)),
            layout::Piece::Cut(cut) => Piece::Cut(Cut {
                rect: rect([cut.left, cut.bottom, cut.width, cut.height]),
                upright: cut.way == Way::Upright,
                at: cut.at.iter().map(|at| mm(*at) + margin).collect(),
                pieces: cut.pieces.iter().map(|piece| self.piece(piece)).collect(),
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
        let items: Vec<Item> = self.parts.iter().map(|&part| self.item(&self.kit.parts[part], Lie::Any)).collect();
        let margin = self.cutter.margin;
        let whole =
            layout::Sheet { width: stood.width.eighths(), height: stood.height.eighths(), count: None, price: None };
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

    /// Says what honouring the grain costs, where it costs anything.
    fn price_of_grain(&self, layout: &Layout, watch: &dyn Watch) -> Option<Finding> {
        let bound_by_grain =
            |&part: &usize| {
                self.kit.parts[part].along_grain
                    && self.sizes.first().map(|&size| &self.stock.sheets[size]).is_some_and(|size| {
                        self.kit.parts[part].lie(self.stock, &self.stock.stood(size)) == Lie::Upright
                    })
            };
        let count = |layout: &Layout| layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum::<u64>();
        if count(layout) < 2 || !self.parts.iter().any(bound_by_grain) {
            return None;
        }
        let free = self.lay(false, watch).ok()?;
        let more = count(layout).checked_sub(count(&free)).filter(|&more| more > 0)?;
        let text =
            format!("keeping the grain along the spine takes {more} sheet{} more", if more == 1 { "" } else { "s" });
        Some(
            Finding::note("price-of-grain", format!("stock {}", self.stock.name), text).help(
                "say \"grain\": \"free\" for the spine if that is worth more to you than strips that fold cleanly",
            ),
        )
    }

    fn trouble(&self, trouble: &NoLayout) -> Vec<Finding> {
        let about = format!("stock {}", self.stock.name);
        let name = |item: usize| {
            let part = &self.kit.parts[self.parts[item]];
            part.used_in.first().unwrap_or(&part.id).clone()
        };
        match trouble {
            NoLayout::TooBig { items } => items
                .iter()
                .map(|&item| {
                    Finding::stop("too-big", name(item), format!("it goes onto no sheet of {}", self.stock.name))
                        .help("take a larger sheet, or make it smaller")
                })
                .collect(),
            NoLayout::OutOfSheets { left } => {
                let pieces: u64 = left.iter().map(|&(_, count)| u64::from(count)).sum();
                let names: Vec<String> =
                    left.iter().take(3).map(|&(item, count)| format!("{count} x {}", name(item))).collect();
                let text = format!(
                    "there are not enough sheets: {pieces} piece{} left without one ({}{})",
                    if pieces == 1 { " is" } else { "s are" },
                    names.join(", "),
                    if left.len() > 3 { ", …" } else { "" }
                );
                vec![
                    Finding::stop("out-of-sheets", about, text)
                        .help("raise \"count\" of the stock, add another sheet size to it, or make fewer kits")
                        .at(self.stock.place.as_ref()),
                ]
            }
        }
    }
}
