// SPDX-License-Identifier: MIT
//! Folded things: a part on its way, the album finished, a page sliding onto its tab.

use super::super::desk::Desk;
use super::super::joints::Job;
use super::{ROOM, caliper, stuff};
use crate::album::Bound;
use crate::contour::Point;
use crate::net::{Fold, Net, Sense, Stand};
use crate::parts::{Kit, Owner};
use crate::picture::{self, Folding, Picture, Pose, Scene};
use glam::{DAffine3, DMat3, DVec3};

/// How far folds are turned that are shown on their way, as a share of the whole: our choice.
const ON_THE_WAY: f64 = 0.4;

/// How far the leaves of the open album stand from the middle, degrees.
const FANNED: f64 = 62.0;

/// A flap narrower than this share of its part has no room for an arrow on the picture.
const ROOM_FOR_ARROW: f64 = 0.09;

/// How far an outer fold is worked either way, degrees.
const EITHER_WAY: f64 = 70.0;

/// The finished album: closed, and opened like a fan, each with the key of what it shows.
pub(in super::super) fn finished(desk: &Desk<'_>) -> Vec<(Picture, &'static str)> {
    let album = |pose| picture::album(desk.job.album, desk.kit(), &desk.folded, pose, &|_| true, (86.0, 80.0));
    let all = [(album(Pose::Closed), "given-picture-closed"), (album(Pose::Fanned(FANNED)), "given-picture-open")];
    all.into_iter().filter(|(picture, _)| picture.width > 5.0).collect()
}

/// A part on its way to being folded, with an arrow for every flap that has room for one. Where all its folds fall away
/// from the front, it lies on its front.
pub(in super::super) fn fold(desk: &Desk<'_>, number: usize) -> Picture {
    let Some(part) = desk.part(number) else { return super::Draw::default().picture() };
    let goal = |fold: &Fold| if fold.angle.abs() > 1.0 { fold.angle } else { EITHER_WAY };
    let degrees: Vec<f64> = part.net.folds.iter().map(|fold| goal(fold) * ON_THE_WAY).collect();
    let size = part.flat.width.max(part.flat.height);
    let roomy = |fold: &Fold| {
        let depth = part.net.panels.get(fold.between[1]).map_or(0.0, |panel| {
            let bounds = panel.outline.bounds();
            bounds.width().min(bounds.height())
        });
        depth > ROOM_FOR_ARROW * size
    };
    let folds = part.net.folds.iter().enumerate().filter(|(_, fold)| roomy(fold));
    let next: Vec<(usize, f64)> = folds.map(|(index, fold)| (index, goal(fold))).collect();
    let flat = Folding::flat(&part.net, caliper(desk, number), stuff(desk, number));
    Folding { degrees: &degrees, next: &next, over: is_shown_over(desk, number), ..flat }.picture(ROOM)
}

/// Whether a part's picture shows its back: all its folds fall away from the front.
pub(in super::super) fn is_shown_over(desk: &Desk<'_>, number: usize) -> bool {
    let folds = desk.part(number).map_or(&[][..], |part| &part.net.folds);
    !folds.is_empty() && folds.iter().all(|fold| fold.sense == Sense::Mountain)
}

/// A part whose outer folds are worked one way and then the other.
pub(in super::super) fn both_ways(desk: &Desk<'_>, number: usize) -> Picture {
    let Some(part) = desk.part(number) else { return super::Draw::default().picture() };
    let both = |fold: &Fold| fold.sense == Sense::Both;
    let degrees: Vec<f64> = part.net.folds.iter().map(|fold| if both(fold) { EITHER_WAY } else { 0.0 }).collect();
    let next: Vec<(usize, f64)> = part
        .net
        .folds
        .iter()
        .enumerate()
        .filter(|(_, fold)| both(fold))
        .map(|(index, _)| (index, -EITHER_WAY))
        .collect();
    folding(desk, number, &part.net, &degrees, &next)
}

fn folding(desk: &Desk<'_>, number: usize, net: &Net, degrees: &[f64], next: &[(usize, f64)]) -> Picture {
    let flat = Folding::flat(net, caliper(desk, number), stuff(desk, number));
    Folding { degrees, next, ..flat }.picture(ROOM)
}

/// A page sliding onto its tab; the pages behind it hang already.
pub(in super::super) fn hang(desk: &Desk<'_>, job: &Job) -> Option<Picture> {
    let kit = desk.kit();
    let Some(Owner::Page(page)) = job.owners.first().copied() else { return None };
    let lying = lying(desk.job.album.bound);
    let width = desk.job.album.page.width.mm();
    let drawn_off = Stand::from_translation(DVec3::X * width * 0.55);
    let mut scene = Scene::default();
    let mut ends: Option<(DVec3, DVec3)> = None;
    for (number, piece) in kit.pieces.iter().enumerate() {
        let Some(Some(stands)) = desk.folded.pieces.get(number) else { continue };
        let of = owner_of(kit, number);
        let by = match of {
            Owner::Spine => lying,
            Owner::Page(other) if other > page => lying,
            Owner::Page(other) if other == page => drawn_off * lying,
            _ => continue,
        };
        let caliper = desk.folded.calipers.get(number).copied().unwrap_or(0.3);
        scene.piece(&piece.net, stands, caliper, stuff(desk, piece.part), &by);
        if of == Owner::Page(page) {
            for (panel, stand) in piece.net.panels.iter().zip(stands) {
                for vertex in panel.outline.vertices() {
                    let at = (by * *stand).transform_point3(at(vertex.at));
                    let (low, high) = ends.unwrap_or((at, at));
                    ends = Some((low.min(at), high.max(at)));
                }
            }
        }
    }
    let (low, high) = ends?;
    let middle = DVec3::new(low.x, f64::midpoint(low.y, high.y), high.z + 1.0);
    scene.way(vec![middle + DVec3::X * width * 0.45, middle - DVec3::X * width * 0.18]);
    Some(scene.picture(ROOM))
}

fn at(point: Point) -> DVec3 {
    DVec3::new(point.x, point.y, 0.0)
}

/// What is inserted goes with no page here: pockets are filled at the end.
fn owner_of(kit: &Kit, piece: usize) -> Owner {
    kit.pieces.get(piece).map_or(Owner::Cover, |piece| piece.owner)
}

/// From the folded album, which stands on its spine, to one that lies: spine at the left, head away.
fn lying(bound: Bound) -> Stand {
    let (x, y, z) = (DVec3::X, DVec3::Y, DVec3::Z);
    DAffine3::from_mat3(match bound {
        Bound::Left => DMat3::from_cols(-z, y, x),
        Bound::Right => DMat3::from_cols(z, y, -x),
    })
}
