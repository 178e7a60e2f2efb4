// SPDX-License-Identifier: MIT
//! Tolerances: what is taken for the same, and why. Each stands here once.

/// Points nearer than this are one point, lengths one length, mm. Arithmetic on sizes of a few metres leaves some 1e-12 mm
/// behind; nobody makes anything of a nanometre.
pub(crate) const SAME: f64 = 1e-6;

/// Distances nearer than this are one to whoever reads them off, mm: files have three decimals at least.
pub(crate) const READ: f64 = 1e-3;

/// Directions whose sine is smaller are one direction; shares of a line that differ by less are one.
pub(crate) const PARALLEL: f64 = 1e-9;

/// What is left of a number near 1 by a few roundings: sines, shares of a turn.
pub(crate) const ROUNDING: f64 = 1e-12;

/// What a count of steps, sheets or marks may be off a whole number: the arithmetic behind it loses far less, and a millionth
/// of a step is none.
pub(crate) const WHOLE: f64 = 1e-6;

/// Half of the noise that sums of lengths carry, in eighths of a micrometre. People's lengths are whole eighths or halves of
/// one: a shift by an odd part keeps them away from the point where noise would decide how they are rounded.
pub(crate) const OFF_THE_HALF: f64 = 0.137;
