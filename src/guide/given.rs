// SPDX-License-Identifier: MIT
//! What you get: the album in a few lines.

use super::bits::{Block, Figure, Section};
use super::desk::Desk;
use super::line::{Line, What};
use super::measure;
use super::pictures;
use crate::album::{Bound, Kind};

pub(super) fn section(desk: &Desk<'_>) -> Section {
    let mut blocks = vec![Block::Words(album(desk))];
    blocks.extend(
        pictures::finished(desk)
            .into_iter()
            .map(|(picture, key)| Block::Figure(Figure { picture, shows: desk.tell(key) })),
    );
    blocks.push(Block::List(pages(desk).into_iter().chain(rest(desk)).collect()));
    Section { id: "get", heading: desk.tell("given-heading"), blocks }
}

/// The same of an album whose pages its reader chooses: no page is this or that yet.
pub(super) fn chosen(desk: &Desk<'_>) -> Section {
    let blocks = vec![Block::Words(album(desk)), Block::List(rest(desk))];
    Section { id: "get", heading: desk.tell("given-heading"), blocks }
}

fn album(desk: &Desk<'_>) -> Line {
    let album = desk.job.album;
    let many = |count: usize| u64::try_from(count).unwrap_or(u64::MAX);
    let size = [
        ("n", measure::count(many(album.pages.len()), What::Page, "")),
        ("width", desk.length(album.page.width.mm(), What::Length, "page.width")),
        ("height", desk.length(album.page.height.mm(), What::Length, "page.height")),
    ];
    desk.say("given-album", size.to_vec())
}

/// What there is besides pages.
fn rest(desk: &Desk<'_>) -> Vec<Line> {
    let album = desk.job.album;
    let mut list = Vec::new();
    let spine = desk.words.term_of("spine", album.spine.kind.name, album.spine.kind.about);
    list.push(desk.say("given-spine", vec![("spine", Line::text(spine))]));
    list.extend(album.cover.iter().map(|cover| {
        let name = desk.words.term_of("cover", cover.kind.name, cover.kind.about);
        desk.say("given-cover", vec![("cover", Line::text(name))])
    }));
    let pocketed = |number: usize| {
        let path = format!("inserts[{number}]");
        desk.kit().inserts.iter().any(|insert| insert.path == path && insert.pocket.is_some())
    };
    list.extend(album.inserts.iter().enumerate().filter(|(_, insert)| insert.count() > 0).map(|(number, insert)| {
        let name = desk.words.term_of("insert", insert.kind.name, insert.kind.name);
        let count = measure::count(u64::from(insert.count()), What::Many, "");
        let key = if pocketed(number) { "given-insert" } else { "given-insert-loose" };
        desk.say(key, vec![("n", count), ("insert", Line::text(name))])
    }));
    if let Some(closed) = &desk.job.fit.closed {
        let thick = desk.length(roughly(desk, closed.thickest), What::Length, "thickest");
        list.push(desk.say("given-thick", vec![("thick", thick)]));
    }
    list.push(desk.tell(match album.bound {
        Bound::Left => "given-bound-left",
        Bound::Right => "given-bound-right",
        Bound::Top => "given-bound-top",
    }));
    list
}

/// The kinds of page, each once, with the pages that are of it.
fn pages(desk: &Desk<'_>) -> Vec<Line> {
    let pages = &desk.job.album.pages;
    let mut kinds: Vec<&Kind> = Vec::new();
    for page in pages {
        if !kinds.iter().any(|kind| kind.name == page.kind.name) {
            kinds.push(page.kind);
        }
    }
    let line = |kind: &&Kind| {
        let numbers = (1..).zip(pages).filter(|(_, page)| page.kind.name == kind.name).map(|(number, _)| number);
        let pages = desk.numbered(&numbers.collect::<Vec<u64>>());
        let name = desk.words.term_of("page", kind.name, kind.about);
        desk.say("given-page", vec![("pages", pages), ("kind", Line::text(name))])
    };
    kinds.iter().map(line).collect()
}

/// To what a ruler shows: a measured thickness is never finer.
pub(super) fn roughly(desk: &Desk<'_>, mm: f64) -> f64 {
    let step = if desk.measure.units == crate::length::Units::In { 25.4 / 16.0 } else { 0.5 };
    (mm / step).ceil() * step
}
