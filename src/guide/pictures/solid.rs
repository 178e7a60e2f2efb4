// SPDX-License-Identifier: MIT
//! Folded things: a part on its way, the album finished, a page sliding onto its tab.

use super::super::desk::Desk;
use super::super::joints::Job;
use super::{ROOM, caliper, stuff};
use crate::net::{Fold, Sense};
use crate::parts::Owner;
use crate::picture::{self, Folding, Picture, Pose};

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
    let mut all =
        vec![(album(Pose::Closed), "given-picture-closed"), (album(Pose::Fanned(FANNED)), "given-picture-fan")];
    if let Some(openings) = &desk.job.fit.openings {
        let (album, kit) = (desk.job.album, desk.kit());
        let open = picture::opened(album, kit, &desk.folded, &openings.worst, (150.0, 80.0));
        all.push((open, "given-picture-open"));
    }
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

/// A page sliding onto its tab; the pages behind it hang already, and pockets are filled at the end.
pub(in super::super) fn hang(desk: &Desk<'_>, job: &Job) -> Option<Picture> {
    let kit = desk.kit();
    let Some(Owner::Page(page)) = job.owners.first().copied() else { return None };
    let there = |piece: usize| match kit.pieces.get(piece).map(|piece| piece.owner) {
        Some(Owner::Spine) => true,
        Some(Owner::Page(other)) => other >= page,
        _ => false,
    };
    Some(picture::sliding(desk.job.album, kit, &desk.folded, page, &there, ROOM))
}
