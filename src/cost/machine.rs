// SPDX-License-Identifier: MIT
//! How long the machine is busy: the length of its strokes at its speed, and a while for each stroke that it goes to.

use crate::cutter::Cutter;
use crate::stock::Stock;
use crate::toolpath::{SheetPaths, Stroke, ToolEffort, back};

/// How long the machine is busy.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MachineTime {
    /// It has nothing to do.
    Idle,
    /// So many seconds.
    Seconds(f64),
    /// Nobody says how fast it is.
    Unknown,
}

/// The seconds that the strokes of each part take on all sheets, front and back; `wanted` says which of them the machine makes here. Nothing where
/// the speed of one of the machines is not known.
fn seconds(
    paths: &[SheetPaths],
    (stocks, usual): (&[Stock], &Cutter),
    parts: usize,
    wanted: &dyn Fn(&Stroke) -> bool,
) -> Option<Vec<f64>> {
    let mut seconds = vec![0.0; parts];
    for sheet in paths {
        let cutter = stocks.get(sheet.stock).map_or(usual, |stock| stock.cutter(usual));
        let back = back(sheet, cutter);
        let behind = back.iter().flat_map(|back| &back.strokes);
        for stroke in sheet.strokes.iter().chain(behind).filter(|stroke| wanted(stroke)) {
            let each = ToolEffort::of_stroke(stroke).seconds(cutter)?;
            if let Some(sum) = seconds.get_mut(stroke.part) {
                *sum += each * f64::from(sheet.times);
            }
        }
    }
    Some(seconds)
}

/// How long the machine is busy for kits that have so much of each part's pieces, as a part of one; `wanted` says which strokes
/// the machine makes here. Each stock is cut by the cutter of its own, where it has one, else by the usual one.
#[must_use]
pub fn machine_time(
    paths: &[SheetPaths],
    cutters: (&[Stock], &Cutter),
    pieces: &[f64],
    wanted: &dyn Fn(&Stroke) -> bool,
) -> MachineTime {
    let has = |stroke: &Stroke| pieces.get(stroke.part).is_some_and(|part| *part > 0.0) && wanted(stroke);
    if !paths.iter().flat_map(|sheet| &sheet.strokes).any(has) {
        return MachineTime::Idle;
    }
    let Some(all) = seconds(paths, cutters, pieces.len(), &has) else { return MachineTime::Unknown };
    let sum: f64 = all.iter().zip(pieces).map(|(seconds, part)| seconds * part).sum();
    MachineTime::Seconds(sum)
}

impl MachineTime {
    /// Tenths of a minute, rounded up.
    #[must_use]
    pub fn tenths(seconds: f64) -> u64 {
        // Six seconds are a tenth of a minute; what arithmetic adds is none.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "bounded by what lies on sheets")]
        let tenths = (seconds / 6.0 - HAIR).ceil().max(0.0) as u64;
        tenths
    }
}

/// What adding up may be off, tenths of a minute.
const HAIR: f64 = 1e-6;
