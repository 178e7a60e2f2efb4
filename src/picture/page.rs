// SPDX-License-Identifier: MIT
//! One page of the album as it lies on the table or stands in a fan of them, spine at the left, its flaps not quite closed.

use super::Picture;
use super::album::{lying, standing};
use super::space::{Scene, TURN};
use super::stuff_of_piece;
use crate::album::{Album, Bound};
use crate::folded::Folded;
use crate::net::{Net, Use};
use crate::parts::{Face, Kit, Owner};
use glam::DAffine3;

/// How far the fore-edge of a page that stands comes nearer than its spine, degrees: our choice, so that its whole face is seen.
const NEARER: f64 = 20.0;

/// What a page does on a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PagePose {
    /// It lies on the table.
    Lying,
    /// It stands on its tail, as it does in an album whose pages are fanned out.
    Standing,
}

/// A page as it is shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PageView {
    /// Its number, from 1.
    pub page: usize,
    /// Which of its faces is seen.
    pub face: Face,
    /// What it does.
    pub pose: PagePose,
    /// How far its flaps are turned, as a share of their whole way.
    pub ajar: f64,
}

/// A page as large as the room (width and height, mm) takes it, at most at true size; nothing is drawn where there
/// is no such page. `show` says which pieces are drawn.
#[must_use]
pub fn page(
    album: &Album,
    kit: &Kit,
    folded: &Folded,
    view: PageView,
    show: &dyn Fn(usize) -> bool,
    room: (f64, f64),
) -> Picture {
    let PageView { page, face, pose, ajar } = view;
    let over = if face == Face::Back { std::f64::consts::PI } else { 0.0 };
    let placed = match pose {
        PagePose::Lying => DAffine3::from_rotation_y(over) * lying(album.bound),
        PagePose::Standing => standing_turned(album.bound, over),
    };
    let mut scene = Scene::default();
    let mine =
        kit.pieces.iter().enumerate().filter(|(number, piece)| piece.owner == Owner::Page(page) && show(*number));
    for (number, piece) in mine {
        let Some(stand) = folded.stand(number, 0) else { continue };
        let caliper = folded.calipers.get(number).copied().unwrap_or(0.0);
        let stuff = stuff_of_piece(album, kit, piece);
        let stands = piece.net.folded_to(caliper, &|fold| turned(&piece.net, fold, ajar));
        scene.piece(&piece.net, &stands, caliper, &stuff, &(placed * *stand));
    }
    scene.picture(room)
}

/// A page that stands, its fore-edge nearer than its spine, turned `over` to its back, radians.
fn standing_turned(bound: Bound, over: f64) -> DAffine3 {
    // Seen from behind, and bound at the right, the spine is on the picture's right.
    let right = (bound == Bound::Right) != (over > 0.0);
    let nearer = if right { NEARER - TURN } else { -NEARER - TURN };
    DAffine3::from_rotation_z(nearer.to_radians() + over) * standing(bound)
}

/// How far a fold is turned, degrees: flaps only a share of their way.
fn turned(net: &Net, fold: usize, ajar: f64) -> f64 {
    let Some(fold) = net.folds.get(fold) else { return 0.0 };
    let flap = net.panels.get(fold.between[1]).is_some_and(|panel| panel.purpose == Use::Flap);
    if flap { fold.angle * ajar } else { fold.angle }
}
