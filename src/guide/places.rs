// SPDX-License-Identifier: MIT
//! Where what is stuck lies: how far from the edges, at which other places, on which other pages.

use super::desk::{A_LINE, Desk};
use super::holding::{self, SEEN};
use super::joints::{Job, Joint};
use super::line::{Line, What};
use super::measure;
use crate::parts::{Owner, Side};

/// How far from the edges a piece is stuck on another one, where it leaves any of that free.
pub(super) fn borders(desk: &Desk<'_>, glued: &Side, faced: &Side) -> Vec<Line> {
    place(desk, glued, faced).unwrap_or_default()
}

fn place(desk: &Desk<'_>, glued: &Side, faced: &Side) -> Option<Vec<Line>> {
    let free = holding::placed(desk.kit(), glued, faced)?;
    if free.iter().any(|free| *free < -SEEN) || free.iter().all(|free| *free < SEEN) {
        return None;
    }
    let length = |mm: f64| desk.length(mm, What::Length, "border");
    let [left, right, above, below] = free;
    if free.iter().all(|one| (one - left).abs() < SEEN) {
        return Some(vec![desk.say("border-round", vec![("border", length(left))])]);
    }
    // The nearer edge says it all, both where it stands in the middle.
    let sides = [
        (["side-left", "edge-left"], left, right),
        (["side-right", "edge-right"], right, left),
        (["side-above", "edge-above"], above, below),
        (["side-below", "edge-below"], below, above),
    ];
    let near = |one: f64, two: f64| one >= SEEN && one <= two + SEEN;
    let flush = |one: f64, two: f64| one < SEEN && two >= SEEN;
    let free: Vec<Line> = sides
        .into_iter()
        .filter(|(_, one, two)| near(*one, *two))
        .map(|([side, _], free, _)| desk.say(side, vec![("free", length(free))]))
        .collect();
    let edges: Vec<Line> =
        sides.into_iter().filter(|(_, one, two)| flush(*one, *two)).map(|([_, edge], ..)| desk.tell(edge)).collect();
    let mut lines = Vec::new();
    if !free.is_empty() {
        lines.push(desk.say("border-sides", vec![("sides", desk.words.list(free))]));
    }
    if !edges.is_empty() {
        let many = measure::count(u64::try_from(edges.len()).unwrap_or(u64::MAX), What::Many, "edges");
        lines.push(desk.say("border-flush", vec![("edges", desk.words.list(edges)), ("n", many)]));
    }
    Some(lines)
}

/// The other places at which the same is done: pieces in one sentence, a piece on another one in a sentence each, and what lies
/// otherwise with how it lies.
pub(super) fn again(desk: &Desk<'_>, joint: &Joint) -> Vec<Line> {
    let kit = desk.kit();
    let sides = |bonds: &Vec<usize>| {
        let bond = kit.bonds.get(*bonds.first()?)?;
        Some([holding::glued(kit, bond), holding::faced(kit, bond)])
    };
    let Some([first, on_first]) = sides(&joint.bonds) else { return Vec::new() };
    let (mut alone, mut pairs): (Vec<Line>, Vec<Line>) = (Vec::new(), Vec::new());
    let same = |places: Line| desk.say("stick-again", vec![("places", places)]);
    let as_first = borders(desk, first, on_first);
    for [glued, faced] in joint.again.iter().filter_map(sides) {
        let (what, on) = (desk.piece(glued.piece), desk.piece(faced.piece));
        let place = if glued.piece == faced.piece || faced.piece == on_first.piece {
            what
        } else if glued.piece == first.piece {
            on
        } else {
            pairs.push(same(desk.say("place-on", vec![("what", what), ("on", on)])));
            continue;
        };
        let lies = if glued.piece == faced.piece { as_first.clone() } else { borders(desk, glued, faced) };
        if lies == as_first {
            alone.push(place);
        } else {
            pairs.push(same(place));
            pairs.extend(lies);
        }
    }
    let few = alone.chunks(A_LINE).map(|few| same(desk.words.list(few.to_vec())));
    few.chain(pairs).collect()
}

/// What the pieces are called on other pages for which the step is told, where that is otherwise: at the back, not at the front.
pub(super) fn elsewhere(desk: &Desk<'_>, job: &Job, number: usize) -> Vec<Line> {
    let kit = desk.kit();
    let called = |joint: &Joint| {
        let bond = kit.bonds.get(*joint.bonds.first()?)?;
        let sides = [holding::glued(kit, bond), holding::faced(kit, bond)];
        Some(sides.map(|side| desk.piece(side.piece)))
    };
    let first = job.joints.get(number).and_then(called);
    let mut others: Vec<([Line; 2], Vec<Owner>)> = Vec::new();
    for (owner, joints) in job.owners.iter().skip(1).zip(&job.others) {
        let Some(names) = joints.get(number).and_then(called).filter(|names| Some(names) != first.as_ref()) else {
            continue;
        };
        match others.iter_mut().find(|(known, _)| *known == names) {
            Some((_, owners)) => owners.push(*owner),
            None => others.push((names, vec![*owner])),
        }
    }
    let line = |([what, on], owners): ([Line; 2], Vec<Owner>)| {
        desk.say("stick-elsewhere", vec![("pages", desk.pages(&owners)), ("what", what), ("on", on)])
    };
    others.into_iter().map(line).collect()
}
