// SPDX-License-Identifier: MIT
//! What card does at a fold: how much it takes up, when it must be scored, how wide the crease.
//!
//! In: calipers, weights, angles. Out: lengths in mm. Never: knows a part. Every function names its source.

use std::f64::consts::{FRAC_PI_2, PI};

/// Length of the middle of the card in a bend of `angle` radians round nothing: the inside is sharp, the middle runs
/// round it at half a caliper. A flat fold takes pi/2 calipers, a right angle half of that.
///
/// Derived: the neutral line lies in the middle (K = 0.5), the inner radius is 0.
///
/// ```
/// let flat = hingeleaf::net::bend::taken_up(0.3, std::f64::consts::PI);
/// assert!((flat - 0.4712).abs() < 1e-4);
/// ```
#[must_use]
pub fn taken_up(caliper: f64, angle: f64) -> f64 {
    angle.abs() * caliper / 2.0
}

/// How far the inside height of a flat sleeve may fall short of its scored height: from one caliper, where the folds
/// at head and tail are sharp, to what two round flat folds take up.
///
/// Derived: [`taken_up`] at both ends.
#[must_use]
pub fn sleeve_loss(caliper: f64) -> [f64; 2] {
    [caliper, 2.0 * taken_up(caliper, PI)]
}

/// The panel between two right-angled scores that goes over a stack `height` thick, and what it measures outside.
///
/// Derived: crease to crease runs through the middle of both risers. Measured as the FEFCO/ESBO code does.
#[must_use]
pub fn wrapper(height: f64, caliper: f64) -> [f64; 2] {
    [height + caliper, 2.0f64.mul_add(caliper, height)]
}

/// Tilt, radians, of a flap `length` deep that has one score and lies on a stack `height` thick.
///
/// Derived: the stack's far edge carries it.
#[must_use]
pub fn one_score_tilt(height: f64, length: f64) -> f64 {
    (height / length.max(f64::MIN_POSITIVE)).clamp(-1.0, 1.0).asin()
}

/// How far a flap `length` long with one score reaches from it, mm, where it lies over a stack `height` thick whose edge is
/// `away` from the score: it drapes over that edge, or ends on the slope up to it.
///
/// Derived: the slope is the hypotenuse over `away` and `height` (H11). A flap of 50 over 20 reaches 30, with the edge 8
/// away 36.46:
///
/// ```
/// use hingeleaf::net::bend::draped;
/// assert!((draped(50.0, 0.0, 20.0) - 30.0).abs() < 1e-9);
/// assert!((draped(50.0, 8.0, 20.0) - 36.46).abs() < 0.01);
/// ```
#[must_use]
pub fn draped(length: f64, away: f64, height: f64) -> f64 {
    let slope = away.hypot(height);
    if length >= slope { away + length - slope } else { length * away / slope }
}

/// How far the edge of a sheet stands out beyond that of the sheet folded round it, both folded flat: sharp, half-round
/// and square folds.
///
/// One caliper and two are the prepress trade's band; half-round is derived: the outer fold's radius is a caliper more.
#[must_use]
pub fn creep(caliper: f64) -> [f64; 3] {
    [caliper, FRAC_PI_2 * caliper, 2.0 * caliper]
}

/// Whether card of this weight (g/m², where known) and caliper cracks when folded without a score.
///
/// 150 g/m² from a coated-paper mill's user guide; 0.13 mm is common practice.
#[must_use]
pub fn needs_score(grammage: Option<f64>, caliper: f64) -> bool {
    grammage.is_some_and(|grammage| grammage >= 150.0) || caliper > 0.13
}

/// Thickness of the rule, mm, that [`channel`] takes where none is known: a two-point creasing rule.
pub const RULE: f64 = 0.71;

/// Width of the channel that a rule `rule` thick presses a crease into: least, recommended, most.
///
/// k calipers and the rule; k is 1.3 with the grain, 1.5 across it, up to 2.0 (creasing-matrix makers' sheets, two agree;
/// a mill's guide says 2.0).
#[must_use]
pub fn channel(caliper: f64, rule: f64) -> [f64; 3] {
    [1.3, 1.5, 2.0].map(|times| caliper.mul_add(times, rule))
}

/// How far a lead-in of depth `depth` and angle `angle` from the way in lets a tongue be off when it enters: half of what
/// its end is narrower than the mouth.
///
/// Derived: the clipped corners take `depth` times the tangent off either side.
#[must_use]
pub fn lead_in_catches(depth: f64, angle: f64, mouth: f64, tongue: f64) -> f64 {
    depth.mul_add(angle.tan(), (mouth - tongue) / 2.0)
}

/// Flat widths of nested U strips whose tongues touch, from the innermost: its base, its tongue, then each strip round
/// the one before.
///
/// Derived: every strip round another has a base two calipers wider and tongues one caliper longer.
#[must_use]
pub fn nested(base: f64, tongue: f64, caliper: f64, strips: u32) -> Vec<[f64; 2]> {
    let strip = |number: u32| {
        let calipers = f64::from(number) * caliper;
        let base = 2.0f64.mul_add(calipers, base);
        [base, 2.0f64.mul_add(tongue + calipers, base)]
    };
    (0..strips).map(strip).collect()
}

/// Whether two flaps folded in at a corner of `corner` radians keep apart, their edges cut at these angles from the folds.
///
/// Derived: each may reach the corner's bisector.
#[must_use]
pub fn flaps_clear(corner: f64, one: f64, other: f64) -> bool {
    one <= corner / 2.0 && other <= corner / 2.0
}
