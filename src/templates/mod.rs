// SPDX-License-Identifier: MIT
//! True-size templates: every part once, on pages that a home printer takes.
//!
//! In: an album, its kit, the paper. Out: [`PrintedPage`]s at true size. Never: a file
//! format.
//!
//! What goes on a page whole does; what is larger comes in tiles that overlap, with a line on which two of them meet, and a
//! small plan of them. Pages are laid out by [`layout`](crate::layout), so that small parts share one.

mod clip;
mod draw;
mod foot;
mod paper;
mod tiles;

pub use paper::PrinterPaper;

use crate::album::Album;
use crate::contour::{Point, Vec2};
use crate::guide::Words;
use crate::guide::list::{Row, list};
use crate::layout::{Effort, Item, LaidSheet, Problem, SheetType, Turns, Unwatched, lay_out};
use crate::length::Length;
use crate::parts::Kit;
use crate::picture::{Picture, PrintedPage};
use draw::{BESIDE, BoxPlace, LetteredPart};
use foot::{FOOT, foot};
use tiles::{Tiles, quarters, whole};

/// Between two things on a page, mm: room for scissors; our choice.
const APART: f64 = 4.0;

/// Of more things than these a quicker search is enough.
const MANY: usize = 30;

/// What lies on a page.
enum PageContent {
    Whole(usize),
    Tile(usize, [usize; 2]),
    Plan(usize),
}

impl PageContent {
    const fn row(&self) -> usize {
        match self {
            Self::Whole(row) | Self::Tile(row, _) | Self::Plan(row) => *row,
        }
    }
}

/// The list of what is cut.
fn cut_list(album: &Album, kit: &Kit) -> Vec<Row> {
    let is_cut = |row: &Row| kit.parts.get(row.part).is_some_and(|part| !album.is_ready(part.stock));
    list(album.order(), kit, 1).into_iter().filter(is_cut).collect()
}

/// All parts of a kit on as few pages as are found; none where there are no parts. A margin beyond [`PrinterPaper::MOST_MARGIN`] is
/// that.
#[must_use]
pub fn templates(album: &Album, kit: &Kit, print: PrinterPaper) -> Vec<PrintedPage> {
    let rows = cut_list(album, kit);
    let words = Words::new(album.language);
    let named = |row: &usize| {
        let row = rows.get(*row)?;
        Some(LetteredPart { album, words: &words, part: kit.parts.get(row.part)?, row })
    };
    let (margin, (wide, high)) = (print.margin.mm().clamp(0.0, PrinterPaper::MOST_MARGIN), print.paper.size());
    let room = (2.0f64.mul_add(-margin, wide), 2.0f64.mul_add(-margin, high) - FOOT - APART);
    let (mut all, mut items) = (Vec::new(), Vec::new());
    let mut add = |what: PageContent, (width, height): (f64, f64), turns: Turns| {
        let [width, height] = [width, height].map(|mm| Length::from_mm(mm).eighths());
        items.push(Item { width, height, contour: None, holes: Vec::new(), turns, count: 1 });
        all.push(what);
    };
    let tiles: Vec<Option<Tiles>> = (0..rows.len())
        .map(|row| {
            let named = named(&row)?;
            (!whole(boxed(&named), room)).then(|| Tiles::of(named.size(), room))
        })
        .collect();
    for (row, tiles) in tiles.iter().enumerate() {
        let Some(named) = named(&row) else { continue };
        match tiles {
            None => add(PageContent::Whole(row), boxed(&named), Turns::ANY),
            Some(tiles) => {
                for (column, line, space) in tiles.each() {
                    add(PageContent::Tile(row, [column, line]), (space.width(), space.height()), Turns::ANY);
                }
                add(PageContent::Plan(row), named.plan_size(tiles), Turns::NONE);
            }
        }
    }
    let [across, up] = [room.0, room.1].map(|mm| Length::from_mm(mm).eighths());
    let sheet = SheetType { width: across, height: up, count: None, price: None };
    let effort = if items.len() > MANY { Effort::Low } else { Effort::Normal };
    let gap = Length::from_mm(APART).eighths();
    let problem = Problem { items: &items, sheets: &[sheet], gap, effort, threads: 1 };
    // Everything is smaller than a page, and there are as many of these as are needed.
    let Ok(layout) = lay_out(&problem, &Unwatched) else { return Vec::new() };
    let mut pages: Vec<LaidSheet> = layout.sheets;
    let first = |page: &LaidSheet| page.placements.iter().map(|placed| placed.item).min();
    pages.sort_by_key(first);
    let corner = Point::new(margin, margin + FOOT + APART);
    let count = pages.len();
    let page = |(index, laid): (usize, LaidSheet)| {
        let mut picture = Picture { width: wide, height: high, marks: Vec::new() };
        let mut on: Vec<usize> = Vec::new();
        for placed in &laid.placements {
            let what = &all[placed.item];
            let Some(named) = named(&what.row()) else { continue };
            let at = corner + Vec2::new(mm(placed.x), mm(placed.y));
            let size = (mm(items[placed.item].width), mm(items[placed.item].height));
            let lies = BoxPlace { quarters: quarters(placed.turn), size, at };
            match (what, &tiles[what.row()]) {
                (PageContent::Tile(_, tile), Some(tiles)) => named.tile(&mut picture, tiles, *tile, lies),
                (PageContent::Plan(_), Some(tiles)) => named.plan(&mut picture, tiles, at),
                _ => named.whole(&mut picture, lies),
            }
            on.push(what.row());
        }
        on.sort_unstable();
        on.dedup();
        let tiled = laid.placements.iter().any(|placed| !matches!(all[placed.item], PageContent::Whole(_)));
        let numbers = [("page", (index + 1).to_string()), ("pages", count.to_string())];
        let [page, pages] = numbers.clone();
        let said = words.with("template-page", [("title", album.title.clone()), page, pages]);
        foot(&mut picture, &words, (Point::new(margin, margin), wide - 2.0 * margin), said, tiled);
        let letters: Vec<&str> = on.iter().filter_map(|row| rows.get(*row)).map(|row| row.mark.as_str()).collect();
        PrintedPage::new(picture, letters.join(", "), shows(&words, &on, &named, numbers))
    };
    pages.into_iter().enumerate().map(page).collect()
}

/// The room that a whole part takes, its letter beside it where that has to be.
fn boxed(named: &LetteredPart<'_>) -> (f64, f64) {
    let (width, height) = named.size();
    if named.beside() { (width.max(BESIDE), height + BESIDE) } else { (width, height) }
}

fn shows<'a>(
    words: &Words,
    on: &[usize],
    named: &dyn Fn(&usize) -> Option<LetteredPart<'a>>,
    [page, pages]: [(&str, String); 2],
) -> String {
    let parts: Vec<String> =
        on.iter().filter_map(named).map(|named| format!("{} {}", named.row.mark, named.measures())).collect();
    words.with("template-shows", [page, pages, ("parts", parts.join("; "))])
}

/// Eighths of a micrometre in millimetres.
fn mm(eighths: i64) -> f64 {
    Length::from_eighths(eighths).mm()
}
