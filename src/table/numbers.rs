// SPDX-License-Identifier: MIT
//! The chosen page, the spine or the cover as a drawing whose numbers can be typed into: its pieces flat, and which field each number is of.
//!
//! A field is a size on the drawing where a panel is as large as the field says, and becomes as much larger as it does: so no
//! kind of page, built in or of one's own, has to say where its sizes stand.

use super::question::Question;
use super::read::AlbumRead;
use super::{pictures, words};
use crate::album::{self, Album, PAGE_FIELDS};
use crate::contour::Rect;
use crate::cutter::Cutter;
use crate::fields::{self, Field, Source, Takes};
use crate::finding::Said;
use crate::length::tolerance::SAME;
use crate::length::{Length, Units};
use crate::parts::{Kit, Owner, Part, Purpose};
use crate::picture::{self, SizeLine, SizedRoom};
use crate::trial::Trial;
use crate::write;
use serde_json::{Value, json};

/// Room on a narrow screen, mm of 96 px to the inch: a number with its name above is 85 x 55 px.
const ROOM: SizedRoom = SizedRoom { part: (48.5, 62.0), number: (22.5, 14.6) };

/// A place where a field's size stands.
struct Stands {
    path: String,
    part: usize,
    panel: &'static str,
    span: SizeLine,
}

/// What is asked for, a page, the spine or the cover, with the places of its numbers; none where it is not there, or nothing of it is made.
pub(super) fn drawn(source: &Source, album: &Album, cutter: &Cutter, question: &Question) -> Option<Value> {
    let number = question.page;
    let (way, entry, owner) = match question.part.as_str() {
        "spine" => ("spine".to_owned(), &album.spine, Owner::Spine),
        "cover" => ("cover".to_owned(), album.cover.as_ref()?, Owner::Cover),
        _ => (format!("pages[{number}]"), album.pages.get(number)?, Owner::Page(number + 1)),
    };
    let trial = Trial::of(album.clone(), cutter);
    let kit = trial.kit()?;
    let of = |way: &str, fields: &[Field]| -> Vec<String> {
        let lengths = fields.iter().filter(|field| matches!(field.takes, Takes::Length { .. }));
        lengths.map(|field| format!("{way}.{}", field.name)).collect()
    };
    let paths =
        of("page", PAGE_FIELDS).into_iter().chain(of(&way, entry.kind.fields)).chain(of(&way, entry.kind.common()));
    let mine = pieces_of(kit, owner);
    let stand: Vec<Stands> =
        paths.filter_map(|path| stands(source, (album, cutter), question, (kit, &mine), path)).collect();
    let pieces: Vec<Value> = mine.iter().map(|&one| piece(album, kit, kit.pieces[one].part, &stand)).collect();
    // The whole album stands beside the spine and the cover.
    let is_page = question.part.is_empty();
    let folded = is_page.then(|| pictures::large_page(album, kit, &pictures::folded(album, kit), number + 1)).flatten();
    Some(json!({ "way": way, "folded": folded, "pieces": pieces }))
}

/// The pieces that it is made of, one of each part; papers on its faces are not of it.
fn pieces_of(kit: &Kit, owner: Owner) -> Vec<usize> {
    let part = |piece: usize| kit.pieces.get(piece).map(|piece| piece.part);
    let mut mine: Vec<usize> = Vec::new();
    for (number, piece) in kit.pieces.iter().enumerate().filter(|(_, piece)| piece.owner == owner) {
        let body = kit.parts.get(piece.part).is_some_and(|part| part.purpose == Purpose::Body);
        if body && !mine.iter().any(|&known| part(known) == Some(piece.part)) {
            mine.push(number);
        }
    }
    mine
}

/// Where a field's size stands, if it does anywhere.
fn stands(
    source: &Source,
    (album, cutter): (&Album, &Cutter),
    question: &Question,
    (kit, mine): (&Kit, &[usize]),
    path: String,
) -> Option<Stands> {
    let value = album.length_at(&path).filter(|value| *value > Length::ZERO)?;
    let more = Length::from_mm(if album.units == Units::In { 25.4 / 4.0 } else { 2.0 });
    let other = |value: Length| {
        let edited = fields::edit(source, &[(&path, value)], album.units, &album::left_out(&album.kinds)).ok()?;
        let source = Source::new(source.name(), edited.into_bytes()).ok()?;
        let album = AlbumRead::of(&source, question).album.value?;
        let value = album.length_at(&path)?;
        Some((value, Trial::of(album, cutter).kit()?.clone()))
    };
    let tried = [value + more, value - more].into_iter().find_map(other);
    let (tried, other) = tried?;
    let by = (tried - value).mm();
    let part = |kit: &Kit, piece: usize| Some(kit.pieces.get(piece)?.part);
    let pairs = mine.iter().filter_map(|&piece| {
        // A part may have another number in the other kit, and be no other page's any more.
        let (now, then) = (part(kit, piece)?, part(&other, piece)?);
        Some((now, kit.parts.get(now)?, other.parts.get(then)?))
    });
    for (number, part, other) in pairs.filter(|(_, part, other)| part.net.panels.len() == other.net.panels.len()) {
        for (panel, wider) in part.net.panels.iter().zip(&other.net.panels) {
            let (now, then) = (panel.outline.bounds(), wider.outline.bounds());
            let is = |now: f64, then: f64| (now - value.mm()).abs() < SAME && (then - now - by).abs() < SAME;
            let upright = is(now.height(), then.height());
            if upright || is(now.width(), then.width()) {
                return Some(Stands { path, part: number, panel: panel.name, span: span(part, now, upright) });
            }
        }
    }
    None
}

/// From where to where a box of a part's net goes, from the part's lower left.
fn span(part: &Part, of: Rect, upright: bool) -> SizeLine {
    let all =
        part.net.panels.iter().map(|panel| panel.outline.bounds()).reduce(|all, one| all.union(one)).unwrap_or(of);
    let (from, to) = if upright { (of.y0 - all.y0, of.y1 - all.y0) } else { (of.x0 - all.x0, of.x1 - all.x0) };
    SizeLine { upright, from, to }
}

fn piece(album: &Album, kit: &Kit, number: usize, stand: &[Stands]) -> Value {
    let Some(part) = kit.parts.get(number) else { return Value::Null };
    let mine: Vec<&Stands> = stand.iter().filter(|one| one.part == number).collect();
    let spans: Vec<SizeLine> = mine.iter().map(|one| one.span).collect();
    let (picture, middles) = picture::sized(part, &picture::stuff(album, part), &spans, ROOM);
    let numbers: Vec<Value> = mine
        .iter()
        .zip(middles)
        .map(|(one, at)| {
            let said = Said::new(if one.span.upright { "number-up" } else { "number-across" });
            let said = said.with("panel", one.panel).with("piece", part.kind);
            let size = Length::from_mm(one.span.to - one.span.from).plain(album.units);
            json!({ "path": one.path, "name": words::say(&said), "size": size, "x": at.x, "y": at.y })
        })
        .collect();
    json!({ "name": part.kind, "width": picture.width, "height": picture.height, "picture": write::cutout(&picture), "numbers": numbers })
}
