// SPDX-License-Identifier: MIT
//! Steps that differ in nothing but their places, told once: panels on the faces of many pages, strips on strips.

use super::bits::{Figure, Step, Table};
use super::desk::Desk;
use super::holding::{self, SEEN, Stick};
use super::joints::{Job, Joint};
use super::line::{Line, What};
use super::told::Told;
use super::{pictures, places, sticking};
use crate::contour::Rect;
use crate::fit::order::Doing;
use crate::length::tolerance::SAME;
use crate::parts::{Bond, Face, Kit, Owner, Side};

/// Joints that are made alike, with all their places.
struct ToldAlike<'a> {
    held: Stick,
    /// What is put on it.
    spread: Vec<Line>,
    /// How it is made then, its place left open.
    how: Vec<Line>,
    warn: Vec<Line>,
    places: Vec<StuckAt>,
    bonds: Vec<usize>,
    first: (&'a Side, &'a Side),
    /// The joint by itself, where there is no other.
    alone: (&'a Job, usize),
    joints: usize,
}

/// What goes where, on which pages, with how much tape round it, mm.
#[derive(Clone)]
struct StuckAt {
    what: Line,
    side: Line,
    on: Line,
    tape: Option<f64>,
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
            let tape = if let Stick::Round { length, .. } = held { Some(length) } else { None };
            add(&mut places, StuckAt { what: desk.panel(glued), side, on: desk.panel(faced), tape, owners });
        }
    }
    let spread = sticking::spread(desk, &[first], &[held], &|side| desk.panel_name(side));
    let mut how = vec![desk.tell(if held == Stick::Glue { "together-press" } else { "together-lay" })];
    how.extend(lies);
    let warn = if held == Stick::Glue { vec![sticking::warning(desk, job.doing, first.0)?] } else { Vec::new() };
    let bonds = job.bonds_of(number);
    Some(ToldAlike { held, spread, how, warn, places, bonds, first, alone: (job, number), joints: 1 })
}

fn add(places: &mut Vec<StuckAt>, place: StuckAt) {
    let like = |one: &&mut StuckAt| {
        one.what == place.what && one.side == place.side && one.on == place.on && as_long(one.tape, place.tape)
    };
    match places.iter_mut().find(like) {
        Some(one) => one.owners.extend(place.owners),
        None => places.push(place),
    }
}

fn as_long(one: Option<f64>, other: Option<f64>) -> bool {
    (one.unwrap_or_default() - other.unwrap_or_default()).abs() < SAME
}

/// What goes where, a row for each.
fn table(desk: &Desk<'_>, places: Vec<StuckAt>) -> Table {
    let row = |mut place: StuckAt| {
        place.owners.sort();
        place.owners.dedup();
        let pages = if place.owners.is_empty() { Line::default() } else { desk.pages(&place.owners) };
        let on = desk.say("together-on", vec![("side", place.side), ("on", place.on)]);
        let tape = place.tape.map(|length| desk.length(length, What::Tape, ""));
        vec![place.what, on, pages, tape.unwrap_or_default()]
    };
    let head = ["cut-head-piece", "together-head-on", "together-head-pages", "together-head-tape"]
        .map(|key| desk.tell(key))
        .to_vec();
    let rows = places.into_iter().map(row).collect();
    Table { caption: Line::default(), head, rows }.without_empty_columns()
}

/// Whether the order of some joints matters: one of them lies where a later one comes to lie, too, and would find its place
/// covered if it were made after that.
fn in_order(kit: &Kit, bonds: &[usize]) -> bool {
    let covers: Vec<_> = bonds.iter().filter_map(|bond| kit.bonds.get(*bond)).map(|bond| covered(kit, bond)).collect();
    let meet = |one: &(Face, [usize; 2], Rect), other: &(Face, [usize; 2], Rect)| {
        let both = one.2.intersect(other.2);
        (one.0, one.1) == (other.0, other.1) && both.width() > SEEN && both.height() > SEEN
    };
    let pairs =
        covers.iter().enumerate().flat_map(|(index, one)| covers[index + 1..].iter().map(move |two| (one, two)));
    pairs.into_iter().any(|(one, two)| one.iter().any(|place| two.iter().any(|other| meet(place, other))))
}

/// What a bond hides: of which face of which panel, and where on that.
fn covered(kit: &Kit, bond: &Bond) -> Vec<(Face, [usize; 2], Rect)> {
    let (glued, faced) = (holding::glued(kit, bond), holding::faced(kit, bond));
    let outline = |side: &Side| Some(&kit.pieces.get(side.piece)?.net.panels.get(side.panel)?.outline);
    let Some((of, on)) = outline(glued).zip(outline(faced)) else { return Vec::new() };
    let laid = of.vertices().iter().map(|vertex| holding::laid(glued, faced, vertex.at));
    let laid = laid.map(|point| Rect::from_points(point, point)).reduce(|all, one| all.union(one));
    let place = |side: &Side, rect: Rect| (side.face, [side.piece, side.panel], rect);
    let on_faced = laid.map(|laid| place(faced, laid.intersect(on.bounds())));
    on_faced.into_iter().chain([place(glued, of.bounds())]).collect()
}

impl ToldAlike<'_> {
    /// Whether it is told at one go with another: the length of tape stands with each place.
    fn is_like(&self, other: &Self) -> bool {
        let plain = |lines: &[Line]| lines.iter().map(Line::plain).collect::<Vec<_>>();
        let held = match (self.held, other.held) {
            (Stick::Round { width, .. }, Stick::Round { width: as_wide, .. }) => {
                (width - as_wide).abs() < SAME && self.first.0.face == other.first.0.face
            }
            _ => self.held.is_like(other.held) && plain(&self.spread) == plain(&other.spread),
        };
        self.alone.0.doing == other.alone.0.doing
            && held
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
        let key = match self.held {
            Stick::Glue if in_order(desk.kit(), &self.bonds) => "together-glue-order",
            Stick::Glue => "together-glue",
            _ => "together-stick",
        };
        let (what, on) = (desk.piece(self.first.0.piece), desk.piece(self.first.1.piece));
        let shows = desk.say("stick-picture", vec![("what", what), ("on", on)]);
        let mut step = Step::new(desk.tell(key));
        let first = self.places.first().and_then(|place| place.tape);
        let own_tape = self.places.iter().any(|place| !as_long(place.tape, first));
        step.lines = match self.held {
            Stick::Round { width, .. } if own_tape => vec![sticking::round_each(desk, self.first.0, width)],
            _ => self.spread,
        };
        step.lines.extend(self.how);
        let places = self.places.into_iter().map(|place| StuckAt { tape: place.tape.filter(|_| own_tape), ..place });
        step.table = Some(table(desk, places.collect()));
        step.warn = self.warn;
        step.of = self.bonds.into_iter().map(Told::Bond).collect();
        let picture = pictures::stick(desk, &[(*self.first.0, *self.first.1)], self.held);
        step.figure = picture.map(|picture| Figure { picture, shows });
        step
    }
}
