// SPDX-License-Identifier: MIT
//! The kinds of page to choose from, each as it would stand in its place in the run of the album on the table.

use super::hand::Hand;
use super::pictures;
use super::question::Question;
use super::read::AlbumRead;
use crate::album::{Album, Role};
use crate::cutter::Cutter;
use crate::fields::{Node, Source};
use crate::trial::Trial;
use serde_json::{Map, Value, json};

/// A picture of each in the place that is asked for; none of one that can't be made there, or where there is no such place.
pub(super) fn drawn(source: &Source, album: &Album, cutter: &Cutter, question: &Question) -> Value {
    if question.page > album.pages.len() {
        return json!({ "pictures": {} });
    }
    let pages = album.kinds.iter().filter(|kind| kind.role == Role::Page);
    let one = |kind: &str| {
        let source = with(source, album, (question.page, kind))?;
        let trial = Trial::of(AlbumRead::of(&source, question).album.value?, cutter);
        pictures::in_run(&trial.album, trial.kit()?, question.page + 1)
    };
    let pictures: Map<String, Value> =
        pages.filter_map(|kind| Some((kind.name.to_owned(), one(kind.name)?.into()))).collect();
    json!({ "pictures": pictures })
}

/// The album with another page of a kind at a place, from 0.
fn with(source: &Source, album: &Album, (at, kind): (usize, &str)) -> Option<Source> {
    let root = Node::read(source).ok()?;
    let mut hand = Hand { source: source.clone(), notes: Vec::new() };
    let entry = hand.entry(album, &root, "pages", kind).ok()?;
    hand.insert("pages", at, entry).ok()?;
    Some(hand.source)
}
