// SPDX-License-Identifier: MIT
//! What fits where: common prints and cards against this album's pockets and frames.

use super::bits::{Block, Section, Table};
use super::desk::Desk;
use super::line::{Line, What};
use super::measure;
use crate::fit::SLIDES;
use crate::length::tolerance::SAME;
use crate::parts::prints::{Print, THICK, named_prints};
use crate::parts::{Deed, Owner, Pocket};

/// More places than these would not stand side by side: our choice.
const MOST: usize = 5;

/// What takes a print.
enum Holder<'a> {
    /// A pocket that it slides into.
    Pocket(&'a Pocket),
    /// A frame made for one size: its width and height, mm.
    Frame((f64, f64)),
}

/// A table of prints against places; nothing where the album has none, or none of these prints goes anywhere.
pub(super) fn section(desk: &Desk<'_>) -> Option<Section> {
    let mut places = places(desk);
    let all = places.len();
    places.truncate(MOST);
    let mut rows: Vec<Vec<Line>> = Vec::new();
    for print in named_prints().iter().filter(|print| first_of_size(print)) {
        let cells: Vec<Line> = places.iter().map(|(place, _)| cell(desk, place, print)).collect();
        if cells.iter().all(Line::is_empty) {
            continue;
        }
        let size = vec![
            ("name", names(desk, print)),
            ("width", desk.length(print.width.mm(), What::Length, print.name)),
            ("height", desk.length(print.height.mm(), What::Length, print.name)),
        ];
        let none = || desk.tell("fits-not");
        let cells = cells.into_iter().map(|cell| if cell.is_empty() { none() } else { cell });
        rows.push(std::iter::once(desk.say("fits-print", size)).chain(cells).collect());
    }
    if rows.is_empty() {
        return None;
    }
    let head = places.iter().map(|(place, pages)| {
        let others = places.iter().filter(|(_, others)| others.iter().any(|page| pages.contains(page))).count();
        match place {
            // Which of the page's pockets: by its size, which its front shows.
            Holder::Pocket(pocket) if others > 1 => {
                let size = |key: &'static str, length: f64| (key, desk.length(length, What::Length, key));
                let sizes = vec![size("width", pocket.width), size("height", pocket.height)];
                desk.say("fits-place", std::iter::once(("page", desk.pages(pages))).chain(sizes).collect())
            }
            _ => desk.pages(pages),
        }
    });
    let head = std::iter::once(desk.tell("fits-head-print")).chain(head).collect();
    let table = Table { caption: desk.tell("fits-caption"), head, rows };
    let mut blocks = vec![Block::Words(desk.tell("fits-words")), Block::Table(table)];
    if all > places.len() {
        blocks.push(Block::Words(desk.tell("fits-more")));
    }
    Some(Section { id: "fits", heading: desk.tell("fits-heading"), blocks })
}

fn like(one: &Print, other: &Print) -> bool {
    one.width == other.width && one.height == other.height
}

/// Sizes that go by several names have one row.
fn first_of_size(print: &Print) -> bool {
    named_prints().iter().find(|one| like(one, print)).is_some_and(|first| first.name == print.name)
}

fn names(desk: &Desk<'_>, print: &Print) -> Line {
    let called = |one: &Print| Line::text(desk.words.term_of("print", one.name, one.name));
    desk.words.row(named_prints().iter().filter(|one| like(one, print)).map(called).collect())
}

/// Places that take the same, each once with its pages.
fn places<'a>(desk: &Desk<'a>) -> Vec<(Holder<'a>, Vec<Owner>)> {
    let mut places: Vec<(Holder<'a>, Vec<Owner>)> = Vec::new();
    let kit = desk.kit();
    let pockets = kit.pockets.iter().map(|pocket| (Holder::Pocket(pocket), pocket.page));
    let frames = kit.deeds.iter().filter_map(|deed| match deed {
        Deed::Print { page, print, .. } => Some((Holder::Frame(*print), *page)),
        _ => None,
    });
    for (place, page) in pockets.chain(frames) {
        let owner = Owner::Page(page);
        match places.iter_mut().find(|(known, _)| alike(known, &place)) {
            Some((_, pages)) if pages.contains(&owner) => {}
            Some((_, pages)) => pages.push(owner),
            None => places.push((place, vec![owner])),
        }
    }
    places
}

fn alike(one: &Holder<'_>, other: &Holder<'_>) -> bool {
    let near = |one: f64, other: f64| (one - other).abs() < SAME;
    match (one, other) {
        (Holder::Pocket(one), Holder::Pocket(other)) => {
            let [takes, as_well] = [one, other].map(|pocket| pocket.takes(THICK, SLIDES));
            let [deep, as_deep] = [one, other].map(|pocket| pocket.deep((0.0, 0.0)));
            takes.iter().zip(as_well).all(|(one, other)| near(*one, other))
                && deep.0 == as_deep.0
                && near(deep.1, as_deep.1)
        }
        (Holder::Frame(one), Holder::Frame(other)) => near(one.0, other.0) && near(one.1, other.1),
        _ => false,
    }
}

/// Which ways a print goes in, and how much of it shows beyond the front.
fn cell(desk: &Desk<'_>, place: &Holder<'_>, print: &Print) -> Line {
    let ways = [("fits-upright", "fits-upright-shows", *print), ("fits-lying", "fits-lying-shows", print.turned())];
    let found = ways.into_iter().filter_map(|(key, shown_key, print)| {
        let (width, height, off) = (print.width.mm(), print.height.mm(), print.off.mm());
        let shows = match place {
            Holder::Frame((wide, high)) => {
                ((width - wide).abs() <= off + SAME && (height - high).abs() <= off + SAME).then_some(0.0)
            }
            Holder::Pocket(pocket) => {
                let [across, up] = pocket.takes(THICK, SLIDES);
                let goes = width + off <= across + SAME && height + off <= up + SAME;
                goes.then(|| (-pocket.deep((width, height)).1).max(0.0))
            }
        }?;
        let shown = super::given::roughly(desk, shows);
        let key = if shows < SLIDES { key } else { shown_key };
        Some(desk.say(key, vec![("shows", measure::number(desk.measure.show(shown), shown, What::Length, "shows"))]))
    });
    let found: Vec<Line> = found.collect();
    desk.words.either(found)
}
