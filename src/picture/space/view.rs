// SPDX-License-Identifier: MIT
//! From where folded things are looked at, the same for every picture.

use glam::DVec3;

/// How far things are turned counter-clockwise on the table, degrees.
pub(in crate::picture) const TURN: f64 = 24.0;

/// How far the look is tilted from straight down, degrees.
const TILT: f64 = 47.0;

/// Card thinner than this on the picture is drawn as one face, mm.
pub(super) const THIN: f64 = 0.5;

/// A point as it is looked at: x right, y up on the picture, z towards the eye.
pub(super) fn looked_at(point: DVec3) -> DVec3 {
    let (turn_sin, turn_cos) = TURN.to_radians().sin_cos();
    let (tilt_sin, tilt_cos) = TILT.to_radians().sin_cos();
    let (across, away) = (point.x * turn_cos - point.y * turn_sin, point.x.mul_add(turn_sin, point.y * turn_cos));
    DVec3::new(across, away.mul_add(tilt_cos, point.z * tilt_sin), point.z.mul_add(tilt_cos, -away * tilt_sin))
}
