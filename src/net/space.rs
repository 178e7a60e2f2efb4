// SPDX-License-Identifier: MIT
//! Folds a net: where each panel ends up in space.
//!
//! In: a net, its card's caliper. Out: for every panel the move that takes its flat middle (x right, y up, z towards
//! you from the front face) to where it stands when every fold has its angle. The root panel stays where it is.
//! Never: asks whether panels meet.
//!
//! Creases are sharp. A fold up to a right angle turns in the middle of the card, so that two scores h + t apart wrap
//! a height h (check value F9); from there to a flat fold the line it turns about moves to the face on the inside, so
//! that a panel folded flat over another lies one caliper above it.

use super::{Fold, Net, Sense};
use crate::contour::{Contour, Point};
use crate::length::tolerance::ROUNDING;
use glam::{DAffine3, DMat3, DVec3};

/// Where a panel stands: from the flat part's millimetres to those of space.
pub type Stand = DAffine3;

impl Net {
    /// Folds the net of card `caliper` millimetres thick. Panels that no fold reaches stay flat.
    #[must_use]
    pub fn folded(&self, caliper: f64) -> Vec<Stand> {
        self.folded_to(caliper, &|fold| self.folds.get(fold).map_or(0.0, |fold| fold.angle))
    }

    /// The same, each fold turned as far as `degrees` says of its number: a piece on its way to being folded.
    #[must_use]
    pub fn folded_to(&self, caliper: f64, degrees: &dyn Fn(usize) -> f64) -> Vec<Stand> {
        let mut stands: Vec<Option<Stand>> = vec![None; self.panels.len()];
        if let Some(root) = stands.first_mut() {
            *root = Some(Stand::IDENTITY);
        }
        // Folds may stand in any order; each round reaches at least one panel more.
        for _ in 0..self.folds.len() {
            for (number, fold) in self.folds.iter().enumerate() {
                let [near, far] = fold.between;
                let (Some(Some(stand)), Some(None), Some(panel)) =
                    (stands.get(near).copied(), stands.get(far).copied(), self.panels.get(far))
                else {
                    continue;
                };
                let fold = Fold { angle: degrees(number), ..*fold };
                stands[far] = Some(stand * turn(&fold, &panel.outline, caliper));
            }
        }
        stands.into_iter().map(Option::unwrap_or_default).collect()
    }
}

/// The move of a panel about its fold, in the flat part.
fn turn(fold: &Fold, panel: &Contour, caliper: f64) -> Stand {
    let (from, to) = (fold.from, fold.to);
    let along = DVec3::new(to.x - from.x, to.y - from.y, 0.0);
    let Some(axis) = along.try_normalize() else { return Stand::IDENTITY };
    // A fold that works both ways is taken as a valley.
    let towards = if fold.sense == Sense::Mountain { -1.0 } else { 1.0 };
    // A right-handed turn lifts what lies to the left of the axis.
    let middle = panel.bounds().center();
    let left = (to - from).cross(middle - from) >= 0.0;
    let angle = fold.angle.to_radians() * towards * if left { 1.0 } else { -1.0 };
    let inside = caliper / 2.0 * ((fold.angle.abs() - 90.0) / 90.0).clamp(0.0, 1.0) * towards * fold.angle.signum();
    let about = DVec3::new(from.x, from.y, inside);
    Stand::from_translation(about) * Stand::from_mat3(turned(axis, angle)) * Stand::from_translation(-about)
}

/// Turns by whole right angles are made of whole numbers, so that flat folds stay flat to the last digit.
fn turned(axis: DVec3, angle: f64) -> DMat3 {
    let right_angles = angle / std::f64::consts::FRAC_PI_2;
    let (sin, cos) = if (right_angles - right_angles.round()).abs() < ROUNDING {
        let quarter = right_angles.round().rem_euclid(4.0);
        if quarter < 0.5 {
            (0.0, 1.0)
        } else if quarter < 1.5 {
            (1.0, 0.0)
        } else if quarter < 2.5 {
            (0.0, -1.0)
        } else {
            (-1.0, 0.0)
        }
    } else {
        angle.sin_cos()
    };
    // Rodrigues' formula, column by column.
    let column = |unit: DVec3| unit * cos + axis.cross(unit) * sin + axis * axis.dot(unit) * (1.0 - cos);
    DMat3::from_cols(column(DVec3::X), column(DVec3::Y), column(DVec3::Z))
}

/// A point of a panel, `above` millimetres over its middle towards the front.
#[must_use]
pub fn lifted(stand: &Stand, point: Point, above: f64) -> [f64; 3] {
    stand.transform_point3(DVec3::new(point.x, point.y, above)).to_array()
}
