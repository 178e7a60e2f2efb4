// SPDX-License-Identifier: MIT
//! The finished album in space: every piece folded and joined to the others.
//!
//! In: a kit, the caliper of each stock. Out: where every panel stands, how far each further bond is from meeting, how
//! thick each page is and where. Never: judges.
//!
//! Millimetres. The first piece of the spine stays where it is, its front up: pages stand on it, page 1 at the left
//! (at the right in an album bound there), head away from you. The first bond that reaches a piece places it; every further bond is a check.

mod overlap;
mod stack;

pub use overlap::Overlap;

use crate::net::Stand;
use crate::parts::{Bond, Face, Kit, Owner, Side};
use glam::{DMat3, DVec3};
use std::collections::VecDeque;

/// An album folded and joined.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Folded {
    /// By piece and panel, where it stands; none for a piece that no bond joins to the others.
    pub pieces: Vec<Option<Vec<Stand>>>,
    /// By piece, the caliper of its card.
    pub calipers: Vec<f64>,
    /// By bond, how far its two sides are from meeting; none where a piece stands nowhere.
    pub misfits: Vec<Option<Misfit>>,
}

/// How far the two sides of a bond are from lying on each other.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct Misfit {
    /// Along the faces, mm.
    pub aside: f64,
    /// From face to face, mm.
    pub apart: f64,
    /// The angle between them, radians.
    pub askew: f64,
}

/// Folds and joins a kit whose stocks have these calipers, mm.
#[must_use]
pub fn fold(kit: &Kit, calipers: &[f64]) -> Folded {
    let caliper = |piece: usize| {
        let part = kit.pieces.get(piece).and_then(|piece| kit.parts.get(piece.part));
        part.and_then(|part| calipers.get(part.stock)).copied().unwrap_or(0.0)
    };
    let calipers: Vec<f64> = (0..kit.pieces.len()).map(caliper).collect();
    let alone: Vec<Vec<Stand>> =
        kit.pieces.iter().zip(&calipers).map(|(piece, &caliper)| piece.net.folded(caliper)).collect();
    let join = Join { alone: &alone, calipers: &calipers };
    let moves = join.walk(kit);
    let pieces = moves
        .iter()
        .zip(&alone)
        .map(|(moved, panels)| moved.map(|moved| panels.iter().map(|panel| moved * *panel).collect()))
        .collect();
    let misfits = kit.bonds.iter().map(|bond| join.misfit(bond, &moves)).collect();
    Folded { pieces, calipers, misfits }
}

/// Pieces folded each by itself.
struct Join<'a> {
    alone: &'a [Vec<Stand>],
    calipers: &'a [f64],
}

impl Join<'_> {
    /// Where each piece goes, the spine's first one staying put.
    fn walk(&self, kit: &Kit) -> Vec<Option<Stand>> {
        let mut moves = vec![None; kit.pieces.len()];
        let first = kit.pieces.iter().position(|piece| piece.owner == Owner::Spine).unwrap_or(0);
        if let Some(first) = moves.get_mut(first) {
            *first = Some(Stand::IDENTITY);
        }
        let mut on: Vec<Vec<usize>> = vec![Vec::new(); kit.pieces.len()];
        for (number, bond) in kit.bonds.iter().enumerate() {
            for side in [bond.one.piece, bond.other.piece] {
                if let Some(bonds) = on.get_mut(side) {
                    bonds.push(number);
                }
            }
        }
        let mut next = VecDeque::from([first]);
        while let Some(piece) = next.pop_front() {
            for &number in on.get(piece).map_or(&[][..], Vec::as_slice) {
                let bond = &kit.bonds[number];
                for (here, there) in [(&bond.one, &bond.other), (&bond.other, &bond.one)] {
                    let free = moves.get(there.piece).is_some_and(Option::is_none);
                    let (Some(Some(stand)), true) = (moves.get(here.piece).copied(), free) else { continue };
                    let (Some(on), Some(its)) = (self.frame(here), self.frame(there)) else { continue };
                    moves[there.piece] = Some(stand * on * face_to_face() * its.inverse());
                    next.push_back(there.piece);
                }
            }
        }
        moves
    }

    /// A side's frame in its folded piece: on the face, x along, z outwards.
    fn frame(&self, side: &Side) -> Option<Stand> {
        let panel = self.alone.get(side.piece)?.get(side.panel)?;
        let outwards = if side.face == Face::Front { 1.0 } else { -1.0 };
        let x = DVec3::new(side.along.x, side.along.y, 0.0).try_normalize()?;
        let z = DVec3::Z * outwards;
        let at = DVec3::new(side.at.x, side.at.y, outwards * self.calipers.get(side.piece)? / 2.0);
        Some(*panel * Stand::from_mat3_translation(DMat3::from_cols(x, z.cross(x), z), at))
    }

    fn misfit(&self, bond: &Bond, moves: &[Option<Stand>]) -> Option<Misfit> {
        // What is stuck to itself meets or misses wherever it lies.
        let itself = (bond.one.piece == bond.other.piece).then_some(Stand::IDENTITY);
        let stands = |side: &Side| Some(moves.get(side.piece)?.or(itself)? * self.frame(side)?);
        let off = (stands(&bond.other)? * face_to_face()).inverse() * stands(&bond.one)?;
        let at = off.translation;
        // The trace of a turn by an angle is 1 + 2 cos.
        let trace = off.matrix3.x_axis.x + off.matrix3.y_axis.y + off.matrix3.z_axis.z;
        Some(Misfit {
            aside: at.truncate().length(),
            apart: at.z.abs(),
            askew: ((trace - 1.0) / 2.0).clamp(-1.0, 1.0).acos(),
        })
    }
}

/// Half a turn about x: what looks at a face looks the other way.
fn face_to_face() -> Stand {
    Stand::from_mat3(DMat3::from_cols(DVec3::X, -DVec3::Y, -DVec3::Z))
}

impl Folded {
    /// Where a panel stands.
    #[must_use]
    pub fn stand(&self, piece: usize, panel: usize) -> Option<&Stand> {
        self.pieces.get(piece)?.as_ref()?.get(panel)
    }
}
