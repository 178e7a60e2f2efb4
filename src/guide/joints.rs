// SPDX-License-Identifier: MIT
//! Which joints belong together at the table: the bonds in the order in which hands make them, alike ones once.
//!
//! In: a kit. Out: [`Job`]s. Never: words, pictures.

use super::holding::{faced, glued, placed};
use crate::fit::order::{self, Doing};
use crate::net::{Net, Sense, Use};
use crate::parts::{Bond, Face, Hold, Kit, Owner};

/// Several joints that are made one after the other, for one page or for several that are alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// What is done.
    pub doing: Doing,
    /// The pages, or the insert, that it is done for; all of them alike.
    pub owners: Vec<Owner>,
    /// The joints, for the first of them.
    pub joints: Vec<Joint>,
    /// The same joints in the same order, for each of the others.
    pub others: Vec<Vec<Joint>>,
}

/// What is stuck at one go, once or several times.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// Numbers of its bonds in the kit, such as the three seams of a pocket's front.
    pub bonds: Vec<usize>,
    /// The same elsewhere, each as many bonds in the same order.
    pub again: Vec<Vec<usize>>,
}

/// What makes bonds one go.
#[derive(PartialEq)]
enum Go {
    /// One piece on another one.
    Pair(usize, usize),
    /// What is turned in over the edges of boards at head and tail, or at the fore-edges.
    Turn(usize, bool),
    /// Equal pieces one on the other.
    Pile(usize),
    /// Leaves that lie in one another.
    Nest,
    /// A page's tab.
    Tab,
}

/// Doings in the order in which a person does them, joined to jobs.
#[must_use]
pub fn jobs(kit: &Kit) -> Vec<Job> {
    let mut jobs: Vec<Job> = Vec::new();
    for step in order::steps(kit) {
        let Some(bond) = kit.bonds.get(step.bond) else { continue };
        let owners = owner_of(kit, bond, step.doing);
        let known = jobs.iter().rposition(|job| job.doing == step.doing && job.owners == owners);
        let number = known.unwrap_or(jobs.len());
        if known.is_none() {
            jobs.push(Job { doing: step.doing, owners, joints: Vec::new(), others: Vec::new() });
        }
        jobs[number].add(kit, step.bond);
    }
    for job in &mut jobs {
        job.pile_first(kit);
        job.merge_alike(kit);
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
            Some(one) => {
                one.owners.extend(job.owners);
                one.others.push(job.joints);
            }
            None => told.push(job),
        }
    }
    told
}

impl Job {
    /// Adds a bond to what is done at one go with it.
    fn add(&mut self, kit: &Kit, bond: usize) {
        let go = go(kit, bond, self.doing);
        let same = |joint: &Joint| joint.bonds.first().is_some_and(|first| self::go(kit, *first, self.doing) == go);
        // A piece that is laid on another one again after something else is another go.
        let at = match go {
            Some(Go::Pair(..)) => self.joints.len().checked_sub(1).filter(|last| same(&self.joints[*last])),
            _ => self.joints.iter().position(same),
        };
        match at {
            Some(at) => self.joints[at].bonds.push(bond),
            None => self.joints.push(Joint { bonds: vec![bond], again: Vec::new() }),
        }
    }

    /// Equal pieces are stuck in piles before these go on something else, after what is closed on itself.
    fn pile_first(&mut self, kit: &Kit) {
        let rank = |joint: &Joint| {
            let bond = joint.bonds.first().and_then(|bond| kit.bonds.get(*bond));
            let pile = joint.bonds.first().and_then(|bond| go(kit, *bond, self.doing));
            match (bond, pile) {
                (Some(bond), _) if bond.one.piece == bond.other.piece => 0,
                (_, Some(Go::Pile(_))) => 1,
                _ => 2,
            }
        };
        if self.doing == Doing::StackStrips {
            let mut joints = std::mem::take(&mut self.joints);
            joints.sort_by_key(rank);
            self.joints = joints;
        }
    }

    fn merge_alike(&mut self, kit: &Kit) {
        let (mut merged, doing): (Vec<Joint>, Doing) = (Vec::new(), self.doing);
        for joint in std::mem::take(&mut self.joints) {
            let like = |one: &Joint| joint_signature(kit, one, doing) == joint_signature(kit, &joint, doing);
            match merged.iter_mut().find(|one| like(one)) {
                Some(one) => one.again.push(joint.bonds),
                None => merged.push(joint),
            }
        }
        self.joints = merged;
    }

    /// Every bond of a joint, for all owners.
    #[must_use]
    pub fn bonds_of(&self, joint: usize) -> Vec<usize> {
        let all = std::iter::once(&self.joints).chain(&self.others).filter_map(|joints| joints.get(joint));
        all.flat_map(Joint::all).collect()
    }
}

impl Joint {
    /// All its bonds, for one owner.
    pub fn all(&self) -> impl Iterator<Item = usize> + '_ {
        std::iter::once(&self.bonds).chain(&self.again).flatten().copied()
    }
}

/// What a bond is made at one go with; nothing where it names no piece.
fn go(kit: &Kit, bond: usize, doing: Doing) -> Option<Go> {
    let bond = kit.bonds.get(bond)?;
    let (glued, faced) = (glued(kit, bond), faced(kit, bond));
    let (one, other) = (kit.pieces.get(glued.piece)?, kit.pieces.get(faced.piece)?);
    let equal = one.part == other.part && one.net.panels.len() == 1 && glued.piece != faced.piece;
    Some(match doing {
        Doing::HangPage => Go::Tab,
        Doing::MakeInsert if bond.hold == Hold::Slid => Go::Nest,
        Doing::StackStrips if equal => Go::Pile(one.part),
        _ => match turned_in(&one.net, glued.panel) {
            Some(level) => Go::Turn(glued.piece, level),
            None => Go::Pair(glued.piece, faced.piece),
        },
    })
}

/// Equal pieces of the spine that lie one on the other, in order.
#[must_use]
pub fn piles(kit: &Kit) -> Vec<Vec<usize>> {
    let mut piles: Vec<Vec<usize>> = Vec::new();
    let jobs = order::steps(kit);
    for step in jobs.iter().filter(|step| matches!(go(kit, step.bond, step.doing), Some(Go::Pile(_)))) {
        let Some(ends) = kit.bonds.get(step.bond).map(|bond| [bond.one.piece, bond.other.piece]) else { continue };
        match piles.iter_mut().find(|pile| pile.iter().any(|piece| ends.contains(piece))) {
            Some(pile) => {
                let new: Vec<usize> = ends.into_iter().filter(|end| !pile.contains(end)).collect();
                pile.extend(new);
            }
            None => piles.push(ends.to_vec()),
        }
    }
    piles
}

/// The page that pieces of the spine are for: that of the tab of what they are stuck on, which is made before them.
#[must_use]
pub fn page_of(kit: &Kit, pile: &[usize]) -> Option<Owner> {
    let owner = |piece: usize| kit.pieces.get(piece).map(|piece| piece.owner);
    let first = *pile.iter().min()?;
    let joins = |bond: &&Bond| [bond.one.piece, bond.other.piece].contains(&first);
    let guards = kit.bonds.iter().filter(joins).flat_map(|bond| [bond.one.piece, bond.other.piece]);
    let guard = guards.filter(|piece| !pile.contains(piece)).min()?;
    let hung = kit.bonds.iter().filter(|bond| bond.one.piece == guard || bond.other.piece == guard);
    let pages = hung.flat_map(|bond| [bond.one.piece, bond.other.piece]).filter_map(owner);
    pages.into_iter().find(|owner| matches!(owner, Owner::Page(_)))
}

/// Whether a joint lays leaves in one another.
#[must_use]
pub fn nests(kit: &Kit, doing: Doing, joint: &Joint) -> bool {
    joint.bonds.first().is_some_and(|bond| go(kit, *bond, doing) == Some(Go::Nest))
}

/// Whether a joint turns something in.
#[must_use]
pub fn turns_in(kit: &Kit, joint: &Joint) -> bool {
    let bond = joint.bonds.first().and_then(|bond| kit.bonds.get(*bond)).map(|bond| glued(kit, bond));
    let net = bond.and_then(|side| Some((&kit.pieces.get(side.piece)?.net, side.panel)));
    net.is_some_and(|(net, panel)| turned_in(net, panel).is_some())
}

/// Whether a panel is turned in over an edge without a score: over a level one, or an upright one.
#[must_use]
pub fn turned_in(net: &Net, panel: usize) -> Option<bool> {
    let flap = net.panels.get(panel).is_some_and(|panel| panel.purpose == Use::Flap);
    let fold = net.folds.iter().find(|fold| fold.between[1] == panel && fold.sense == Sense::Bent).filter(|_| flap)?;
    let way = fold.to - fold.from;
    Some(way.x.abs() > way.y.abs())
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

fn signatures(kit: &Kit, job: &Job) -> Vec<(Vec<Vec<i64>>, usize)> {
    job.joints.iter().map(|joint| (joint_signature(kit, joint, job.doing), joint.again.len())).collect()
}

fn joint_signature(kit: &Kit, joint: &Joint, doing: Doing) -> Vec<Vec<i64>> {
    joint.bonds.iter().map(|bond| signature(kit, *bond, doing)).collect()
}

/// Numbers that are equal for two joints that hands make in the same way: parts, panels, faces, how the one lies on the other.
fn signature(kit: &Kit, bond: usize, doing: Doing) -> Vec<i64> {
    let Some(bond) = kit.bonds.get(bond) else { return Vec::new() };
    let (glued, faced) = (glued(kit, bond), faced(kit, bond));
    let mut all = vec![i64::from(bond.hold == Hold::Stuck)];
    for side in [glued, faced] {
        let Some(piece) = kit.pieces.get(side.piece) else { continue };
        let index = |number: usize| i64::try_from(number).unwrap_or(i64::MAX);
        all.extend([index(piece.part), index(side.panel), i64::from(side.face == Face::Front)]);
    }
    let (along, onto) = (glued.along, faced.along);
    match placed(kit, glued, faced).filter(|_| glued.piece != faced.piece) {
        // Strips on one backing are told with the place of each.
        Some(_) if doing == Doing::StackStrips => all.extend([along.dot(onto), along.cross(onto)].map(micrometres)),
        Some(free) => {
            all.extend([along.dot(onto), along.cross(onto)].map(micrometres));
            all.extend(free.map(micrometres));
        }
        None => {
            let sides = [glued, faced].map(|side| [side.at.x, side.at.y, side.along.x, side.along.y]);
            all.extend(sides.as_flattened().iter().map(|mm| micrometres(*mm)));
        }
    }
    all
}

#[allow(clippy::cast_possible_truncation, reason = "a float-to-integer cast saturates")]
fn micrometres(mm: f64) -> i64 {
    (mm * 1e3).round() as i64
}
