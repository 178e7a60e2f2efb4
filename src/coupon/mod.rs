// SPDX-License-Identifier: MIT
//! The test piece by which a machine is measured once: what is cut, and what readings of it say.
//!
//! In: a cutter, a sheet; later what was read off the piece. Out: strokes; a cutter's settings, each with how sure it is.
//! Never: corrects a scale, writes a file.

mod draw;
mod folds;
mod readings;
mod save;

pub use draw::{Coupon, coupon};
pub use folds::{FoldReadings, GrainRuns};
pub use readings::{FORMAT, Measured, MeasuredSettings, empty, read, schema, worked};
pub(crate) use readings::{GROUPS, READINGS};
pub use save::{save_name, saved};

use crate::toolpath::Dashes;

/// The scores of the gauges, by their numbers from 1: a line, then perforations as the length of a cut and of the tie, mm.
/// Our choice, about the usual one (check values K4).
pub const SCORES: [Option<Dashes>; 5] = [
    None,
    Some(Dashes { cut: 1.0, tie: 2.0 }),
    Some(Dashes { cut: 1.0, tie: 1.0 }),
    Some(Dashes { cut: 2.0, tie: 1.0 }),
    Some(Dashes { cut: 3.0, tie: 1.0 }),
];

/// How long the tool stays off for each nick of the ladder, mm: our choice.
pub const NICKS: [f64; 5] = [0.2, 0.3, 0.5, 0.8, 1.2];

/// How far the squares of the corner test run on past their start, mm: our choice.
pub const OVERRUNS: [f64; 4] = [0.0, 0.5, 1.0, 1.5];

/// For which trails the others are drawn, mm: our choice.
pub const TRAILS: [f64; 5] = [0.0, 0.25, 0.5, 0.75, 1.0];

/// How many strips lie in the row.
pub const STRIPS: u32 = 10;

/// How long the row of strips, and each side of the scale, is drawn, mm.
pub const ROW: f64 = 100.0;
