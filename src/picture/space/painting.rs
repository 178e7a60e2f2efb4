// SPDX-License-Identifier: MIT
//! The order in which faces are painted, the farthest first: what is painted later covers what is behind it.
//!
//! The plane of one face parts all others into those behind it and those before it, as the eye sees it; a face that
//! reaches through it is divided. So nothing can lie behind in one place and before in another (Fuchs, Kedem and Naylor,
//! *On visible surface generation by a priori tree structures*, 1980).

use super::facet::{Facet, Where};

/// So many planes are tried at each parting.
const TRIED: usize = 9;

/// A divided face costs as much as this many that all lie on one side.
const DIVIDED: usize = 6;

/// The faces in the order in which they are painted.
pub(super) fn painted(faces: Vec<Facet>) -> Vec<Facet> {
    enum Task {
        Part(Vec<Facet>),
        Paint(Vec<Facet>),
    }
    let mut painted = Vec::with_capacity(faces.len());
    let mut tasks = vec![Task::Part(faces)];
    while let Some(task) = tasks.pop() {
        match task {
            Task::Paint(faces) => painted.extend(faces),
            Task::Part(faces) => {
                let Some(chosen) = best(&faces) else { continue };
                let (mut behind, mut on, mut before) = (Vec::new(), Vec::new(), Vec::new());
                let plane = faces[chosen].plane;
                for (number, face) in faces.into_iter().enumerate() {
                    // What a plane was taken from lies on it, whatever the last digits say: so every round ends.
                    let place = if number == chosen { Where::On } else { face.place(&plane) };
                    match place {
                        Where::On => on.push(face),
                        Where::Before => before.push(face),
                        Where::Behind => behind.push(face),
                        Where::Across => {
                            let [back, front] = face.divided(&plane);
                            behind.push(back);
                            before.push(front);
                        }
                    }
                }
                // The last task put on is the first one done.
                tasks.extend([Task::Part(before), Task::Paint(on), Task::Part(behind)]);
            }
        }
    }
    painted
}

/// The face whose plane divides fewest others, and parts them most evenly.
fn best(faces: &[Facet]) -> Option<usize> {
    let step = (faces.len() / TRIED).max(1);
    let cost = |chosen: usize| {
        let plane = faces[chosen].plane;
        let (mut behind, mut before, mut across) = (0_usize, 0_usize, 0);
        for face in faces {
            match face.place(&plane) {
                Where::On => {}
                Where::Before => before += 1,
                Where::Behind => behind += 1,
                Where::Across => across += 1,
            }
        }
        across * DIVIDED + before.abs_diff(behind)
    };
    (0..faces.len()).step_by(step).min_by_key(|&chosen| (cost(chosen), chosen))
}
