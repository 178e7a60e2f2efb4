// SPDX-License-Identifier: MIT
//! What one kit takes besides sheets, tape and glue: ribbon, thread, corners, a cover that is bought.

use super::deeds;
use super::desk::Desk;
use crate::length::tolerance::SAME;
use crate::parts::Deed;

/// What one kit takes besides sheets, tape and glue; lengths in mm.
#[derive(Debug, Default)]
pub(super) struct SmallThings {
    /// Ribbons by their width: how many of the usual length.
    pub ribbons: Vec<(f64, u64)>,
    /// Length of thread.
    pub thread: f64,
    /// Photo corners.
    pub corners: u64,
    /// The part that is a ready-made cover.
    pub cover: Option<usize>,
}

impl SmallThings {
    /// Those of a kit.
    pub(super) fn of(desk: &Desk<'_>) -> Self {
        let (kit, album) = (desk.kit(), desk.job.album);
        let mut all = Self { cover: kit.parts.iter().position(|part| album.is_ready(part.stock)), ..Self::default() };
        for deed in &kit.deeds {
            match deed {
                Deed::Tie { width, .. } => {
                    match all.ribbons.iter_mut().find(|(known, _)| (known - width).abs() < SAME) {
                        Some((_, many)) => *many += 1,
                        None => all.ribbons.push((*width, 1)),
                    }
                }
                Deed::Sew { leaves, .. } => {
                    let part = leaves.first().and_then(|leaf| desk.part(kit.pieces.get(*leaf)?.part));
                    all.thread += part.map_or(0.0, |part| part.flat.height) * deeds::THREAD;
                }
                Deed::Mount { .. } => all.corners += deeds::CORNERS,
                Deed::Clip { .. } | Deed::Print { .. } => {}
            }
        }
        all
    }
}
