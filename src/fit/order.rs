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

use crate::finding::Finding;
use crate::net::Use;
use crate::parts::{Bond, Face, Hold, Kit, Owner, Piece, Purpose, Side};

/// What is done in a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
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
pub struct Step {
    /// Number of the bond.
    pub bond: usize,
    /// What it does.
    pub doing: Doing,
}

/// The bonds in the order in which they are made.
#[must_use]
pub fn steps(kit: &Kit) -> Vec<Step> {
    let mut steps: Vec<Step> =
        (0..kit.bonds.len()).map(|bond| Step { bond, doing: doing(kit, &kit.bonds[bond]) }).collect();
    steps.sort_by_key(|step| (step.doing, rank(kit, step)));
    steps
}

fn owner(kit: &Kit, piece: usize) -> Option<Owner> {
    kit.pieces.get(piece).map(|piece| piece.owner)
}

fn doing(kit: &Kit, bond: &Bond) -> Doing {
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
        _ => match (is_seam(kit, &bond.one), inside_sleeve(kit, bond)) {
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
pub fn has_end_flaps(kit: &Kit) -> bool {
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

/// Whether a bond lies on the inner face of a pocket.
fn inside_sleeve(kit: &Kit, bond: &Bond) -> bool {
    kit.pockets.iter().any(|pocket| {
        let (inside, other) = (&pocket.inside, &bond.other);
        inside.piece == other.piece && inside.panel == other.panel && inside.face == other.face
    })
}

/// Within the same doing: strips by their width, pages from the last.
fn rank(kit: &Kit, step: &Step) -> (i64, usize) {
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
pub fn check(kit: &Kit, steps: &[Step]) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut done = vec![false; kit.bonds.len()];
    let mut hung: Option<usize> = None;
    for step in steps {
        let Some(bond) = kit.bonds.get(step.bond) else { continue };
        let name = |piece: usize| kit.pieces.get(piece).map_or("a piece", |piece| piece.name.as_str());
        let (one, other) = (name(bond.one.piece), name(bond.other.piece));
        let stop = |text: String, help: &str| Finding::stop("wrong-order", one, text).help(help.to_owned());
        let doing = doing(kit, bond);
        let open = |page| (0..kit.bonds.len()).any(|seam| !done[seam] && makes(kit, seam, page));
        match (doing, owner(kit, bond.other.piece)) {
            (Doing::LineSleeve, Some(page)) if !open(page) => {
                findings.push(stop(
                    format!("it goes inside {other}, which is closed by then"),
                    "stick it in before the seams",
                ));
            }
            (Doing::HangPage | Doing::FillPocket, Some(page @ Owner::Page(_))) if open(page) => {
                findings
                    .push(stop(format!("it goes into {other}, whose seams are not stuck yet"), "make the page first"));
            }
            (Doing::StackStrips, _) if hung.is_some() => {
                findings.push(stop(
                    format!("it is stuck on {other} with pages already in the way"),
                    "stack all strips first",
                ));
            }
            (Doing::MeetCover, _) if waits(kit, &done, Doing::StackStrips) => {
                findings
                    .push(stop(format!("it meets {other} before its strips are together"), "stack all strips first"));
            }
            (Doing::MeetCover, _) if waits(kit, &done, Doing::MakeCover) => {
                findings.push(stop(format!("it meets {other} before the cover is made"), "make the cover first"));
            }
            (Doing::HangPage, Some(Owner::Page(page))) => {
                if hung.is_some_and(|last| page > last) {
                    let text = format!("it carries page {page}, and a page before that is already in the way");
                    findings.push(stop(text, "hang the last page first"));
                }
                hung = Some(page);
            }
            _ => {}
        }
        done[step.bond] = true;
    }
    for (number, bond) in kit.bonds.iter().enumerate().filter(|(number, _)| !done[*number]) {
        let about = kit.pieces.get(bond.one.piece).map_or("a piece", |piece| piece.name.as_str());
        let text = format!("no step says when it is joined (bond {number})");
        findings.push(Finding::stop("wrong-order", about, text).help("add the step"));
    }
    findings
}

/// Whether a bond closes a sleeve of this page.
fn makes(kit: &Kit, bond: usize, page: Owner) -> bool {
    let bond = &kit.bonds[bond];
    bond.hold == Hold::Stuck && owner(kit, bond.other.piece) == Some(page) && doing(kit, bond) == Doing::MakePage
}

/// Whether a bond of this doing is still to be made.
fn waits(kit: &Kit, done: &[bool], what: Doing) -> bool {
    kit.bonds.iter().zip(done).any(|(bond, done)| !done && doing(kit, bond) == what)
}
