// SPDX-License-Identifier: MIT
//! Which joints belong together at the table: the bonds in the order in which hands make them, alike ones once.
//!
//! In: a kit. Out: [`Job`]s. Never: words, pictures.

use crate::contour::{Point, Rect};
use crate::fit::order::{self, Doing};
use crate::fit::tape;
use crate::length::tolerance::SAME;
use crate::net::Use;
use crate::parts::{Bond, Face, Hold, Kit, Owner, Side};

/// Several joints that are made one after the other, for one page or for several that are alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// What is done.
    pub doing: Doing,
    /// The pages, or the insert, that it is done for; all of them alike.
    pub owners: Vec<Owner>,
    /// The joints, for one of them.
    pub joints: Vec<Joint>,
}

/// A joint that is made once or several times.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// Numbers of its bonds in the kit, the first one for the picture; all alike.
    pub bonds: Vec<usize>,
}

/// What holds a joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stick {
    /// Tape of a width along a strip, mm.
    Tape {
        /// How long, mm.
        length: f64,
        /// How wide, mm.
        width: f64,
    },
    /// Tape along all four edges, mm.
    Round {
        /// How long all of it is, mm.
        length: f64,
        /// How wide, mm.
        width: f64,
    },
    /// Wet glue.
    Glue,
    /// A tab in its page: tape on its one face, glue on the other.
    Tab {
        /// Length of the tape, mm.
        length: f64,
        /// Its width, mm.
        width: f64,
    },
    /// Nothing: it slides in.
    Slides,
}

/// Doings in the order in which a person does them, joined to jobs.
#[must_use]
pub fn jobs(kit: &Kit) -> Vec<Job> {
    let mut jobs: Vec<Job> = Vec::new();
    for step in order::steps(kit) {
        let Some(bond) = kit.bonds.get(step.bond) else { continue };
        let owner = owner_of(kit, bond, step.doing);
        let last = jobs.iter_mut().rfind(|job| job.doing == step.doing && job.owners == owner);
        match last {
            Some(job) => job.joints.push(Joint { bonds: vec![step.bond] }),
            None => jobs.push(Job { doing: step.doing, owners: owner, joints: vec![Joint { bonds: vec![step.bond] }] }),
        }
    }
    for job in &mut jobs {
        if !matches!(job.doing, Doing::HangPage) {
            merge_alike(kit, &mut job.joints);
        }
    }
    // What is done to one page just as to another is told once.
    let mut told: Vec<Job> = Vec::new();
    for job in jobs {
        let likes = |one: &Job| {
            one.doing == job.doing
                && !matches!(job.doing, Doing::HangPage | Doing::StackStrips)
                && signatures(kit, one) == signatures(kit, &job)
        };
        match told.iter_mut().find(|one| likes(one)) {
            Some(one) => one.owners.extend(job.owners),
            None => told.push(job),
        }
    }
    told
}

/// The page or insert that a joint belongs to; none for the spine and the cover.
fn owner_of(kit: &Kit, bond: &Bond, doing: Doing) -> Vec<Owner> {
    let owners = [bond.one.piece, bond.other.piece].map(|piece| kit.pieces.get(piece).map(|piece| piece.owner));
    let page = owners.into_iter().flatten().find(|owner| matches!(owner, Owner::Page(_)));
    let insert = owners.into_iter().flatten().find(|owner| matches!(owner, Owner::Insert(_)));
    match doing {
        Doing::LineSleeve | Doing::MakePage | Doing::CoverFace | Doing::HangPage | Doing::CoverTab => {
            page.into_iter().collect()
        }
        Doing::MakeInsert | Doing::FillPocket => insert.into_iter().collect(),
        Doing::StackStrips | Doing::MakeCover | Doing::MeetCover | Doing::LineCover | Doing::PutRound => Vec::new(),
    }
}

fn merge_alike(kit: &Kit, joints: &mut Vec<Joint>) {
    let mut merged: Vec<Joint> = Vec::new();
    for joint in joints.drain(..) {
        let like = |one: &Joint| {
            let pair = (one.bonds.first(), joint.bonds.first());
            matches!(pair, (Some(one), Some(two)) if signature(kit, *one) == signature(kit, *two) || is_peak(kit, *one, *two))
        };
        match merged.iter_mut().find(|one| like(one)) {
            Some(one) => one.bonds.extend(joint.bonds),
            None => merged.push(joint),
        }
    }
    *joints = merged;
}

/// Whether two joints each close a part on itself at panels of the same names, as the peaks of a concertina do.
fn is_peak(kit: &Kit, one: usize, two: usize) -> bool {
    let of = |bond: usize| {
        let bond = kit.bonds.get(bond).filter(|bond| bond.one.piece == bond.other.piece)?;
        let name = |side: &Side| {
            let piece = kit.pieces.get(side.piece)?;
            Some((piece.part, piece.net.panels.get(side.panel)?.name, side.face))
        };
        Some((name(&bond.one)?, name(&bond.other)?))
    };
    of(one).is_some() && of(one) == of(two)
}

fn signatures(kit: &Kit, job: &Job) -> Vec<(Vec<i64>, usize)> {
    let of = |joint: &Joint| joint.bonds.first().map(|bond| (signature(kit, *bond), joint.bonds.len()));
    job.joints.iter().filter_map(of).collect()
}

/// Numbers that are equal for two joints that hands make in the same way.
fn signature(kit: &Kit, bond: usize) -> Vec<i64> {
    let Some(bond) = kit.bonds.get(bond) else { return Vec::new() };
    let mut all = vec![i64::from(bond.hold == Hold::Stuck)];
    for side in [&bond.one, &bond.other] {
        let Some(piece) = kit.pieces.get(side.piece) else { continue };
        let index = |number: usize| i64::try_from(number).unwrap_or(i64::MAX);
        all.extend([index(piece.part), index(side.panel), i64::from(side.face == Face::Front)]);
        all.extend([side.at.x, side.at.y, side.along.x, side.along.y].map(micrometres));
    }
    all
}

#[allow(clippy::cast_possible_truncation, reason = "a float-to-integer cast saturates")]
fn micrometres(mm: f64) -> i64 {
    (mm * 1e3).round() as i64
}

impl Joint {
    /// What holds it: our choice, except that nothing that must still be moved gets tape on both faces.
    #[must_use]
    pub fn stick(&self, album: &crate::album::Album, kit: &Kit, doing: Doing) -> Stick {
        let Some(bond) = self.bonds.first().and_then(|bond| kit.bonds.get(*bond)) else { return Stick::Slides };
        let side = glued(kit, bond);
        let [across, along] = sides(kit, side);
        let width = tape(album, across);
        match (bond.hold, doing, width) {
            (Hold::Slid, Doing::HangPage, Some(width)) => Stick::Tab { length: along, width },
            (Hold::Slid, ..) => Stick::Slides,
            (_, Doing::HangPage | Doing::StackStrips | Doing::MakeCover | Doing::MeetCover | Doing::LineCover, _)
            | (.., None) => Stick::Glue,
            (.., Some(_)) if is_whole(kit, side) => {
                // Tape round a panel, wide enough to hold and narrow enough to stay hidden.
                let width = tape(album, across.min(6.5) + SAME).unwrap_or(across);
                Stick::Round { length: 2.0 * (across + along), width }
            }
            (.., Some(width)) => Stick::Tape { length: along, width },
        }
    }
}

/// The side of a bond that tape or glue goes on: a seam, a tab, a base, else the one that is put on the other.
#[must_use]
pub fn glued<'a>(kit: &Kit, bond: &'a Bond) -> &'a Side {
    let purpose = |side: &Side| {
        let piece = kit.pieces.get(side.piece)?;
        piece.net.panels.get(side.panel).map(|panel| panel.purpose)
    };
    let takes = |side: &Side| matches!(purpose(side), Some(Use::Seam | Use::Tab | Use::Base | Use::End));
    if !takes(&bond.one) && takes(&bond.other) { &bond.other } else { &bond.one }
}

/// The other one.
#[must_use]
pub fn faced<'a>(kit: &Kit, bond: &'a Bond) -> &'a Side {
    if std::ptr::eq(glued(kit, bond), &raw const bond.one) { &bond.other } else { &bond.one }
}

/// The shorter and the longer side of the panel that takes tape or glue, mm.
fn sides(kit: &Kit, side: &Side) -> [f64; 2] {
    let panel = kit.pieces.get(side.piece).and_then(|piece| piece.net.panels.get(side.panel));
    let bounds = panel.map(|panel| panel.outline.bounds()).unwrap_or_default();
    [bounds.width().min(bounds.height()), bounds.width().max(bounds.height())]
}

/// Whether the whole piece is one panel, stuck on as it is.
fn is_whole(kit: &Kit, side: &Side) -> bool {
    kit.pieces.get(side.piece).is_some_and(|piece| piece.net.panels.len() == 1)
}

/// What a glued panel leaves free of the panel that it lies on, as seen on that panel's face: left, right, above, below, mm;
/// less than nothing where it stands out.
#[must_use]
pub fn borders(kit: &Kit, glued: &Side, faced: &Side) -> Option<[f64; 4]> {
    let on = kit.pieces.get(faced.piece)?.net.panels.get(faced.panel)?.outline.bounds();
    free_of(kit, glued, faced, on)
}

/// The same of the whole flat piece that it lies on.
#[must_use]
pub fn borders_of_piece(kit: &Kit, glued: &Side, faced: &Side) -> Option<[f64; 4]> {
    let panels = kit.pieces.get(faced.piece)?.net.panels.iter().map(|panel| panel.outline.bounds());
    free_of(kit, glued, faced, panels.reduce(|all, one| all.union(one))?)
}

fn free_of(kit: &Kit, glued: &Side, faced: &Side, on: Rect) -> Option<[f64; 4]> {
    let panel = kit.pieces.get(glued.piece)?.net.panels.get(glued.panel)?;
    let what = panel.outline.mapped(|point| laid(glued, faced, point)).bounds();
    let (left, right) = (what.x0 - on.x0, on.x1 - what.x1);
    let [left, right] = if faced.face == Face::Front { [left, right] } else { [right, left] };
    Some([left, right, on.y1 - what.y1, what.y0 - on.y0])
}

/// A point of the glued side's flat piece as it comes to lie on the other side's flat piece.
///
/// Along goes to along. What is up on the faced side, seen from its face, is up on the glued piece seen from the face
/// that looks away from the joint.
#[must_use]
pub fn laid(glued: &Side, faced: &Side, point: Point) -> Point {
    let sign = |face: Face| if face == Face::Front { 1.0 } else { -1.0 };
    let unit = |side: &Side| if side.along.hypot() > 0.0 { side.along / side.along.hypot() } else { side.along };
    let (along, onto) = (unit(glued), unit(faced));
    let up = kurbo::Vec2::new(-along.y, along.x) * -sign(glued.face);
    let up_on = kurbo::Vec2::new(-onto.y, onto.x) * sign(faced.face);
    let from = point - glued.at;
    faced.at + onto * from.dot(along) + up_on * from.dot(up)
}
