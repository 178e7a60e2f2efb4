// SPDX-License-Identifier: MIT
//! One piece on its way to being folded, with arrows for the folds that come next.

use super::Picture;
use super::Stuff;
use super::space::Scene;
use crate::length::tolerance::PARALLEL;
use crate::net::{Net, Stand};
use glam::{DMat3, DVec3};

/// An arrow's arc is drawn as so many chords.
const STEPS: u32 = 16;

/// A piece partly folded.
#[derive(Clone, Debug)]
pub struct Folding<'a> {
    /// The piece.
    pub net: &'a Net,
    /// Thickness of its card, mm.
    pub caliper: f64,
    /// What it is made of.
    pub stuff: Stuff,
    /// By fold, how far it is turned, degrees; folds beyond the list lie flat.
    pub degrees: &'a [f64],
    /// The folds that get an arrow, and how far each is to be turned, degrees.
    pub next: &'a [(usize, f64)],
    /// Whether it lies on its front, so that its back is up; turned over about an upright line.
    pub over: bool,
}

impl<'a> Folding<'a> {
    /// A piece that lies flat, its front up.
    #[must_use]
    pub const fn flat(net: &'a Net, caliper: f64, stuff: Stuff) -> Self {
        Self { net, caliper, stuff, degrees: &[], next: &[], over: false }
    }

    /// The picture, as large as the room (width and height, mm) takes it, at most at true size.
    #[must_use]
    pub fn picture(&self, room: (f64, f64)) -> Picture {
        let mut scene = Scene::default();
        self.onto(&mut scene, &Stand::IDENTITY);
        scene.picture(room)
    }

    /// Adds it to a scene, moved by `by`.
    pub fn onto(&self, scene: &mut Scene, by: &Stand) {
        let degrees = |fold: usize| self.degrees.get(fold).copied().unwrap_or(0.0);
        let stands = self.net.folded_to(self.caliper, &degrees);
        let lying = if self.over {
            // About an upright line: left and right change places, the head stays.
            Stand::from_mat3(DMat3::from_cols(-DVec3::X, DVec3::Y, -DVec3::Z))
        } else {
            Stand::IDENTITY
        };
        let by = *by * lying;
        scene.piece(self.net, &stands, self.caliper, &self.stuff, &by);
        for &(fold, goal) in self.next {
            scene
                .way(self.arc(fold, degrees(fold), goal).into_iter().map(|point| by.transform_point3(point)).collect());
        }
    }

    /// The way that the outer edge of a fold's panel goes, from where it is to where it is to be.
    fn arc(&self, fold: usize, from: f64, to: f64) -> Vec<DVec3> {
        let Some(its) = self.net.folds.get(fold) else { return Vec::new() };
        let Some(panel) = self.net.panels.get(its.between[1]) else { return Vec::new() };
        // A point over the fold's middle, four fifths of the panel's depth from it.
        let (middle, along) = (its.from.midpoint(its.to), its.to - its.from);
        if along.hypot() < PARALLEL {
            return Vec::new();
        }
        let across = kurbo::Vec2::new(-along.y, along.x).normalize();
        let depths = panel.outline.vertices().iter().map(|vertex| (vertex.at - middle).dot(across));
        let depth = depths.fold(0.0, |far: f64, depth| if depth.abs() > far.abs() { depth } else { far });
        // Of a narrow panel the way would be too short to be seen, so it is taken beyond its edge.
        let bounds = self.net.panels.iter().map(|panel| panel.outline.bounds()).reduce(|all, one| all.union(one));
        let least = bounds.map_or(0.0, |bounds| bounds.width().hypot(bounds.height()) * 0.13);
        let point = middle + across * (depth.abs() * 0.8).max(least).copysign(depth);
        // The end stops a little short, so that the head is seen above the panel that it comes to.
        let last = from + (to - from) * 0.94;
        (0..=STEPS)
            .filter_map(|step| {
                let angle = from + (last - from) * f64::from(step) / f64::from(STEPS);
                let others = |other: usize| {
                    if other == fold { angle } else { self.degrees.get(other).copied().unwrap_or(0.0) }
                };
                let stands = self.net.folded_to(self.caliper, &others);
                Some(stands.get(its.between[1])?.transform_point3(DVec3::new(point.x, point.y, 0.0)))
            })
            .collect()
    }
}
