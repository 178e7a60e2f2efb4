// SPDX-License-Identifier: MIT
//! One page of the album as it lies on the table, spine at the left, its flaps not quite closed.

use super::Picture;
use super::album::lying;
use super::space::Scene;
use super::stuff_of_piece;
use crate::album::Album;
use crate::folded::Folded;
use crate::net::{Net, Use};
use crate::parts::{Face, Kit, Owner};
use glam::DAffine3;

/// How a page lies on the table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LyingPage {
    /// Its number, from 1.
    pub page: usize,
    /// Which of its faces is up.
    pub up: Face,
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
    lies: LyingPage,
    show: &dyn Fn(usize) -> bool,
    room: (f64, f64),
) -> Picture {
    let LyingPage { page, up, ajar } = lies;
    let turn = if up == Face::Back { DAffine3::from_rotation_y(std::f64::consts::PI) } else { DAffine3::IDENTITY };
    let lying = turn * lying(album.bound);
    let mut scene = Scene::default();
    let mine =
        kit.pieces.iter().enumerate().filter(|(number, piece)| piece.owner == Owner::Page(page) && show(*number));
    for (number, piece) in mine {
        let Some(stand) = folded.stand(number, 0) else { continue };
        let caliper = folded.calipers.get(number).copied().unwrap_or(0.0);
        let stuff = stuff_of_piece(album, kit, piece);
        let stands = piece.net.folded_to(caliper, &|fold| turned(&piece.net, fold, ajar));
        scene.piece(&piece.net, &stands, caliper, &stuff, &(lying * *stand));
    }
    scene.picture(room)
}

/// How far a fold is turned, degrees: flaps only a share of their way.
fn turned(net: &Net, fold: usize, ajar: f64) -> f64 {
    let Some(fold) = net.folds.get(fold) else { return 0.0 };
    let flap = net.panels.get(fold.between[1]).is_some_and(|panel| panel.purpose == Use::Flap);
    if flap { fold.angle * ajar } else { fold.angle }
}
