// SPDX-License-Identifier: MIT
//! Forms of a kind that a drawing shows: a window's, or that of a panel at the end of a row.
//!
//! A kind says the drawing's name and one of its sides, by a formula; the other side follows.

use super::formula::Formula;
use crate::contour::Contour;
use crate::outline::{AskedOutline, DrawnShape};
use std::sync::Arc;

/// A drawing that a kind names.
#[derive(Debug)]
pub struct KindDrawing {
    /// What is asked of it.
    pub asked: AskedOutline,
    /// Its shape; none as long as nobody has read it.
    pub shape: Option<Arc<DrawnShape>>,
    /// Its text.
    pub text: String,
    /// Whether it is a window: what lies inside its outline would fall out.
    pub window: bool,
}

/// A form that a drawing shows, by the drawing's number; so wide, or so tall.
#[derive(Debug)]
pub struct DrawnForm {
    /// The number among the kind's drawings.
    pub drawing: usize,
    /// How wide it is.
    pub width: Option<Formula>,
    /// How tall it is.
    pub height: Option<Formula>,
}

/// A contour of a drawing at another scale.
#[must_use]
pub fn scaled(contour: &Contour, by: f64) -> Contour {
    contour.mapped(|point| (point.to_vec2() * by).to_point())
}
