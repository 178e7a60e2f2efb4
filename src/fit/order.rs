// SPDX-License-Identifier: MIT
//! In which order hands can put the album together.
//!
//! In: a kit. Out: its bonds in the order in which they are made; what is wrong with an order. Everything is cut, punched
//! and scored before the first glue. Never: words for a guide.
//!
//! Pages are made first, what is stuck inside a sleeve before the sleeve is closed; then the faces; the strips, narrow on
//! wide, and last what goes round them; the spine meets its cover when both are together; pages are hung last page first,
//! so that the ones
//! before it are not in the way; inserts go in at the end (common practice, no source).

use super::assembly::{about, name};
use crate::finding::{Finding, Said};
use crate::net::Use;
use crate::parts::{Bond, Face, Hold, Kit, Owner, Piece, Purpose, Side};
use std::collections::{BTreeMap, BTreeSet};

/// What is done in a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum Doing {
    /// Something is stuck inside a sleeve that is still open.
    LineSleeve,
    /// A page's own pieces are stuck together.
    MakePage,
    /// A panel is stuck on a face.
    CoverFace,
    /// A part of the spine is stuck on another one: a hinge strip on a wider one.
    StackStrips,
    /// A cover's own pieces are joined.
    MakeCover,
    /// The spine meets its cover.
    MeetCover,
    /// What lines the cover's inside goes over the end flaps of a concertina.
    LineCover,
    /// A page is slid on its tab.
    HangPage,
    /// A panel is stuck over the tab that its page hangs by.
    CoverTab,
    /// An insert's own pieces are joined.
    MakeInsert,
    /// Something is put into a pocket.
    FillPocket,
    /// A band is put round the closed album.
    PutRound,
}

/// One bond and what it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BondStep {
    /// Number of the bond.
    pub bond: usize,
    /// What it does.
    pub doing: Doing,
}

/// The bonds in the order in which they are made.
#[must_use]
pub fn steps(kit: &Kit) -> Vec<BondStep> {
    let doings = doings(kit);
    let mut steps: Vec<BondStep> =
        doings.into_iter().enumerate().map(|(bond, doing)| BondStep { bond, doing }).collect();
    steps.sort_by_key(|step| (step.doing, rank(kit, step)));
    steps
}

fn owner(kit: &Kit, piece: usize) -> Option<Owner> {
    kit.pieces.get(piece).map(|piece| piece.owner)
}

/// What each bond does.
fn doings(kit: &Kit) -> Vec<Doing> {
    let key = |side: &Side| (side.piece, side.panel, side.face == Face::Front);
    let insides: BTreeSet<(usize, usize, bool)> = kit.pockets.iter().map(|pocket| key(&pocket.inside)).collect();
    kit.bonds.iter().map(|bond| doing(kit, bond, insides.contains(&key(&bond.other)))).collect()
}

/// What a bond does; `inside` says whether it lies on the inner face of a pocket.
fn doing(kit: &Kit, bond: &Bond, inside: bool) -> Doing {
    let (one, other) = (owner(kit, bond.one.piece), owner(kit, bond.other.piece));
    match (one, other) {
        (Some(Owner::Insert(_)), Some(Owner::Insert(_))) => Doing::MakeInsert,
        (Some(Owner::Insert(_)), _) | (_, Some(Owner::Insert(_))) => Doing::FillPocket,
        (Some(Owner::Cover), Some(Owner::Spine)) | (Some(Owner::Spine), Some(Owner::Cover)) => Doing::MeetCover,
        (Some(Owner::Cover), Some(Owner::Cover)) if bond.hold == Hold::Slid => Doing::PutRound,
        (Some(Owner::Cover), Some(Owner::Cover)) if over_a_flap(kit, bond) => Doing::LineCover,
        (Some(Owner::Cover), Some(Owner::Cover)) => Doing::MakeCover,
        (Some(Owner::Spine), Some(Owner::Spine)) => Doing::StackStrips,
        (Some(Owner::Spine), _) | (_, Some(Owner::Spine)) => Doing::HangPage,
        _ => match (is_seam(kit, &bond.one), inside) {
            (true, _) => Doing::MakePage,
            (false, true) => Doing::LineSleeve,
            (false, false) if over_a_tab(kit, bond) => Doing::CoverTab,
            (false, false) => Doing::CoverFace,
        },
    }
}

fn is_seam(kit: &Kit, side: &Side) -> bool {
    let panel = kit.pieces.get(side.piece).and_then(|piece| piece.net.panels.get(side.panel));
    panel.is_some_and(|panel| panel.purpose == Use::Seam)
}

/// Whether something lines the inside of a cover to which a concertina's end flaps are stuck.
fn over_a_flap(kit: &Kit, bond: &Bond) -> bool {
    let part = kit.pieces.get(bond.one.piece).and_then(|piece| kit.parts.get(piece.part));
    let lines = part.is_some_and(|part| match part.purpose {
        Purpose::Panel => bond.other.face == Face::Back,
        Purpose::EndPaper => true,
        Purpose::Body | Purpose::Band => false,
    });
    lines && has_end_flaps(kit)
}

/// Whether the spine has flaps that are stuck on the insides of a cover.
#[must_use]
pub(crate) fn has_end_flaps(kit: &Kit) -> bool {
    let flap =
        |piece: &Piece| piece.owner == Owner::Spine && piece.net.panels.iter().any(|panel| panel.purpose == Use::End);
    kit.pieces.iter().any(|piece| piece.owner == Owner::Cover) && kit.pieces.iter().any(flap)
}

/// Whether a bond lies on a face that a tab is stuck on: a page that is one leaf then hangs by that face, and what is stuck
/// there first would carry it (H14).
fn over_a_tab(kit: &Kit, bond: &Bond) -> bool {
    let same = |one: &Side, two: &Side| one.piece == two.piece && one.panel == two.panel && one.face == two.face;
    kit.bonds.iter().any(|other| {
        let tab = other.hold == Hold::Stuck && owner(kit, other.one.piece) == Some(Owner::Spine);
        tab && same(&other.other, &bond.other)
    })
}

/// Within the same doing: strips by their width, pages from the last.
fn rank(kit: &Kit, step: &BondStep) -> (i64, usize) {
    let bond = &kit.bonds[step.bond];
    let page = |piece: usize| match owner(kit, piece) {
        Some(Owner::Page(page)) => i64::try_from(page).unwrap_or(i64::MAX),
        _ => 0,
    };
    let first = match step.doing {
        Doing::HangPage => -page(bond.one.piece).max(page(bond.other.piece)),
        // What a strip lies on says how far out it is; a T's own tabs come first.
        Doing::StackStrips if bond.one.piece == bond.other.piece => -1,
        // What goes round the others and is closed by a seam comes when they are together.
        Doing::StackStrips if [&bond.one, &bond.other].into_iter().any(|side| is_seam(kit, side)) => i64::MAX,
        Doing::StackStrips => width(kit, bond),
        _ => page(bond.other.piece),
    };
    (first, step.bond)
}

/// Width of the lower strip, in whole micrometres so that it can be a key.
fn width(kit: &Kit, bond: &Bond) -> i64 {
    let part = kit.pieces.get(bond.other.piece).and_then(|piece| kit.parts.get(piece.part));
    #[allow(clippy::cast_possible_truncation, reason = "a part is at most 2 m wide")]
    part.map_or(0, |part| (part.flat.width * 1000.0).round() as i64)
}

/// What is wrong with an order: steps that need open what is already closed, or closed what is not yet made.
#[must_use]
pub fn check(kit: &Kit, steps: &[BondStep]) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut done = vec![false; kit.bonds.len()];
    let doings = doings(kit);
    let mut left = Left::new(kit, &doings);
    let mut hung: Option<usize> = None;
    for step in steps {
        let Some(bond) = kit.bonds.get(step.bond) else { continue };
        let stop = |key, help| {
            let text = Said::new(key).with("piece", name(kit, bond.other.piece));
            Finding::stop("wrong-order", about(kit, bond.one.piece), text).help(Said::new(help))
        };
        let doing = doings[step.bond];
        let open = |page| left.seams.get(&page).is_some_and(|seams| *seams > 0);
        match (doing, owner(kit, bond.other.piece)) {
            (Doing::LineSleeve, Some(page)) if !open(page) => {
                findings.push(stop("into-closed-seams", "into-closed-seams-help"));
            }
            (Doing::HangPage | Doing::FillPocket, Some(page @ Owner::Page(_))) if open(page) => {
                findings.push(stop("into-open-seams", "into-open-seams-help"));
            }
            (Doing::StackStrips, _) if hung.is_some() => {
                findings.push(stop("strip-behind-pages", "stack-all-strips-first"));
            }
            (Doing::MeetCover, _) if left.waits(Doing::StackStrips) => {
                findings.push(stop("cover-before-strips", "stack-all-strips-first"));
            }
            (Doing::MeetCover, _) if left.waits(Doing::MakeCover) => {
                findings.push(stop("cover-before-itself", "cover-before-itself-help"));
            }
            (Doing::HangPage, Some(Owner::Page(page))) => {
                if hung.is_some_and(|last| page > last) {
                    let finding = stop("page-behind-pages", "page-behind-pages-help");
                    findings.push(Finding { text: finding.text.clone().with("page", page), ..finding });
                }
                hung = Some(page);
            }
            _ => {}
        }
        if !std::mem::replace(&mut done[step.bond], true) {
            left.made(kit, bond, doing);
        }
    }
    for (number, bond) in kit.bonds.iter().enumerate().filter(|(number, _)| !done[*number]) {
        let text = Said::new("bond-without-step").with("bond", number);
        let finding = Finding::stop("wrong-order", about(kit, bond.one.piece), text);
        findings.push(finding.help(Said::new("bond-without-step-help")));
    }
    findings
}

/// How many bonds are still to be made.
struct Left {
    /// Of each doing.
    doings: BTreeMap<Doing, usize>,
    /// Seams that close each page.
    seams: BTreeMap<Owner, usize>,
}

impl Left {
    fn new(kit: &Kit, doings: &[Doing]) -> Self {
        let mut left = Self { doings: BTreeMap::new(), seams: BTreeMap::new() };
        for (bond, doing) in kit.bonds.iter().zip(doings) {
            *left.doings.entry(*doing).or_default() += 1;
            if let Some(page) = closes(kit, bond, *doing) {
                *left.seams.entry(page).or_default() += 1;
            }
        }
        left
    }

    fn made(&mut self, kit: &Kit, bond: &Bond, doing: Doing) {
        let seams = closes(kit, bond, doing).and_then(|page| self.seams.get_mut(&page));
        for count in [self.doings.get_mut(&doing), seams].into_iter().flatten() {
            *count = count.saturating_sub(1);
        }
    }

    fn waits(&self, doing: Doing) -> bool {
        self.doings.get(&doing).is_some_and(|count| *count > 0)
    }
}

/// What a bond closes a sleeve of.
fn closes(kit: &Kit, bond: &Bond, doing: Doing) -> Option<Owner> {
    owner(kit, bond.other.piece).filter(|_| bond.hold == Hold::Stuck && doing == Doing::MakePage)
}
