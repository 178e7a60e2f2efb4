// SPDX-License-Identifier: MIT
//! Steps that differ in nothing but their places, told once: panels on the faces of many pages, strips on strips.

use super::bits::{Figure, Step};
use super::desk::Desk;
use super::holding::{self, Stick};
use super::joints::{Job, Joint};
use super::line::Line;
use super::told::Told;
use super::{pictures, places, sticking};
use crate::fit::order::Doing;
use crate::parts::{Owner, Side};

/// Joints that are made alike, with all their places.
struct ToldAlike<'a> {
    held: Stick,
    /// How it is made, its place left open.
    how: Vec<Line>,
    warn: Vec<Line>,
    places: Vec<StuckAt>,
    bonds: Vec<usize>,
    first: (&'a Side, &'a Side),
    /// The joint by itself, where there is no other.
    alone: (&'a Job, usize),
    joints: usize,
}

/// What goes where, on which pages.
struct StuckAt {
    what: Line,
    side: Line,
    on: Line,
    owners: Vec<Owner>,
}

/// The steps of jobs that may be made in any order, or of one whose joints follow one another.
pub(super) fn steps(desk: &Desk<'_>, jobs: &[&Job]) -> Vec<Step> {
    let mut groups: Vec<Result<ToldAlike<'_>, Step>> = Vec::new();
    for job in jobs {
        let any_order = matches!(job.doing, Doing::CoverFace | Doing::CoverTab);
        for number in 0..job.joints.len() {
            let Some(one) = group(desk, job, number) else {
                groups.extend(sticking::step(desk, job, number).map(Err));
                continue;
            };
            let from = if any_order { 0 } else { groups.len().saturating_sub(1) };
            let like = |group: &&mut Result<ToldAlike<'_>, Step>| group.as_ref().is_ok_and(|group| group.is_like(&one));
            match groups[from..].iter_mut().find(like) {
                Some(Ok(known)) => known.join(one),
                _ => groups.push(Ok(one)),
            }
        }
    }
    let told = |group: Result<ToldAlike<'_>, Step>| match group {
        Err(step) => Some(step),
        Ok(group) if group.joints == 1 => sticking::step(desk, group.alone.0, group.alone.1),
        Ok(group) => Some(group.step(desk)),
    };
    groups.into_iter().filter_map(told).collect()
}

/// A joint of one bond at each of its places, where it lies on all of them alike.
fn group<'a>(desk: &Desk<'a>, job: &'a Job, number: usize) -> Option<ToldAlike<'a>> {
    let kit = desk.kit();
    let joint = job.joints.get(number)?;
    let all: Vec<&Joint> = std::iter::once(joint).chain(job.others.iter().filter_map(|one| one.get(number))).collect();
    if joint.bonds.len() != 1 || (job.doing == Doing::StackStrips && !joint.again.is_empty()) {
        return None;
    }
    let sides = |bond: usize| {
        let bond = kit.bonds.get(bond)?;
        Some((holding::glued(kit, bond), holding::faced(kit, bond)))
    };
    let first = sides(*joint.bonds.first()?)?;
    let held = holding::stick(desk.job.album, kit, job.doing, *joint.bonds.first()?);
    if first.0.piece == first.1.piece || !matches!(held, Stick::Round { .. } | Stick::Glue) {
        return None;
    }
    let lies = places::borders(desk, first.0, first.1);
    let mut places: Vec<StuckAt> = Vec::new();
    for (owner, joint) in (0..).zip(&all) {
        for bond in joint.all() {
            let (glued, faced) = sides(bond)?;
            if places::borders(desk, glued, faced) != lies {
                return None;
            }
            let owners = job.owners.get(owner).copied().into_iter().collect();
            let side = sticking::face(desk, faced.face);
            add(&mut places, StuckAt { what: desk.panel(glued), side, on: desk.panel(faced), owners });
        }
    }
    let mut how = sticking::spread(desk, &[first], &[held], &|side| desk.panel_name(side));
    how.push(desk.tell(if held == Stick::Glue { "together-press" } else { "together-lay" }));
    how.extend(lies);
    let warn = if held == Stick::Glue { vec![sticking::warning(desk, job.doing, first.0)?] } else { Vec::new() };
    let bonds = job.bonds_of(number);
    Some(ToldAlike { held, how, warn, places, bonds, first, alone: (job, number), joints: 1 })
}

fn add(places: &mut Vec<StuckAt>, place: StuckAt) {
    let like = |one: &&mut StuckAt| one.what == place.what && one.side == place.side && one.on == place.on;
    match places.iter_mut().find(like) {
        Some(one) => one.owners.extend(place.owners),
        None => places.push(place),
    }
}

impl ToldAlike<'_> {
    fn is_like(&self, other: &Self) -> bool {
        let plain = |lines: &[Line]| lines.iter().map(Line::plain).collect::<Vec<_>>();
        self.alone.0.doing == other.alone.0.doing
            && self.held.is_like(other.held)
            && plain(&self.how) == plain(&other.how)
            && plain(&self.warn) == plain(&other.warn)
    }

    fn join(&mut self, other: Self) {
        for place in other.places {
            add(&mut self.places, place);
        }
        self.bonds.extend(other.bonds);
        self.joints += other.joints;
    }

    fn step(self, desk: &Desk<'_>) -> Step {
        let key = if self.held == Stick::Glue { "together-glue" } else { "together-stick" };
        let (what, on) = (desk.piece(self.first.0.piece), desk.piece(self.first.1.piece));
        let shows = desk.say("stick-picture", vec![("what", what), ("on", on)]);
        let line = |mut place: StuckAt| {
            place.owners.sort();
            place.owners.dedup();
            let at = vec![("what", place.what), ("side", place.side), ("on", place.on)];
            match place.owners[..] {
                [] => desk.say("together-place", at),
                _ => desk.say("together-page", at.into_iter().chain([("pages", desk.pages(&place.owners))]).collect()),
            }
        };
        let mut step = Step::new(desk.tell(key));
        step.lines = self.places.into_iter().map(line).chain(self.how).collect();
        step.warn = self.warn;
        step.of = self.bonds.into_iter().map(Told::Bond).collect();
        let picture = pictures::stick(desk, &[(*self.first.0, *self.first.1)], self.held);
        step.figure = picture.map(|picture| Figure { picture, shows });
        step
    }
}
