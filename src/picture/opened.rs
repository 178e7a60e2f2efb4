// SPDX-License-Identifier: MIT
//! The album laid open on the table between two pages, as the plane linkage says that its leaves come to lie.
//!
//! ```text
//!      _________  _________
//!     /        / /        /
//!    /________/_/________/     drawn without its cover, which the linkage does not know
//! ```

use super::Picture;
use super::album::{Group, Groups, scene};
use crate::album::{Album, Bound};
use crate::contour::{Point, Vec2};
use crate::fit::linkage::Opening;
use crate::folded::Folded;
use crate::length::tolerance::SAME;
use crate::net::{Stand, Use};
use crate::parts::{Kit, Owner};
use glam::{DAffine3, DVec3};

/// The album laid open, as large as the room (width and height, mm) takes it, at most at true size.
#[must_use]
pub fn opened(album: &Album, kit: &Kit, folded: &Folded, opening: &Opening, room: (f64, f64)) -> Picture {
    let groups = Groups::of(kit, folded);
    let side = if album.bound == Bound::Right { -1.0 } else { 1.0 };
    let seen = |point: Point| Point::new(point.x * side, point.y);
    // By page, how it, and how its gusset, gets from where it stands to where it lies.
    let moves: Vec<Option<[Stand; 2]>> = opening
        .bars
        .iter()
        .enumerate()
        .map(|(index, bar)| {
            let group = Group::Page(index + 1);
            let foot = foot(kit, folded, index + 1)?;
            let root = groups.root(group)?;
            let (from, to, start) = (seen(bar.from), seen(bar.to), seen(bar.root));
            let stiff = upright(foot, from, to - from);
            // A gusset of no length has no way of its own.
            let reach = from - start;
            let gusset = if reach.hypot() > SAME { upright(root, start, reach) } else { stiff };
            Some([stiff, gusset])
        })
        .collect();
    let roots = [1, opening.bars.len()].map(|page| groups.root(Group::Page(page)));
    let ends = opening.base.map(seen);
    let based = match roots {
        [Some(first), Some(last)] if last.distance(first) > SAME => {
            // The base's end need not be where the first page has its root.
            let way = (ends[1] - ends[0]).normalize();
            let before = opening.bars.first().map_or(0.0, |bar| (seen(bar.root) - ends[0]).dot(way));
            level(DVec3::new(first.x, 0.0, 0.0), ends[0] + way * before, way, side)
        }
        [Some(first), _] => level(DVec3::new(first.x, 0.0, 0.0), ends[0], Vec2::new(side, 0.0), side),
        _ => Stand::IDENTITY,
    };
    let middle = roots.map(|root| root.map_or(0.0, |root| root.x));
    let middle = f64::midpoint(middle[0], middle[1]);
    let by = |piece: usize, panel: usize| {
        let its = kit.pieces.get(piece)?;
        if its.owner == Owner::Cover {
            return None;
        }
        let Some(Group::Page(page)) = groups.group(piece, panel) else {
            // What is there to be stuck on a cover lies down beside the base.
            let laid = if its.owner == Owner::Spine { flap(kit, folded, piece, panel, middle) } else { None };
            return Some(laid.map_or(based, |laid| based * laid));
        };
        let [stiff, gusset] = moves.get(page - 1).copied().flatten()?;
        let flexes =
            its.owner == Owner::Spine && its.net.panels.get(panel).is_some_and(|panel| panel.purpose == Use::Gusset);
        Some(if flexes { gusset } else { stiff })
    };
    scene(album, kit, folded, &by).picture(room)
}

/// How a spine's end flap, which a cover would hold up, is laid down, away from the middle; none for any other panel.
fn flap(kit: &Kit, folded: &Folded, piece: usize, panel: usize, middle: f64) -> Option<Stand> {
    let its = kit.pieces.get(piece)?.net.panels.get(panel)?;
    let stand = folded.stand(piece, panel)?;
    let corners = || its.outline.vertices().iter().map(|vertex| DVec3::new(vertex.at.x, vertex.at.y, 0.0));
    let corners = || corners().map(|corner| stand.transform_point3(corner));
    let low = corners().min_by(|one, two| one.z.total_cmp(&two.z))?;
    if its.purpose != Use::End {
        return None;
    }
    let low = DVec3::new(low.x, 0.0, low.z);
    let turn = std::f64::consts::FRAC_PI_2.copysign(low.x - middle);
    Some(DAffine3::from_translation(low) * DAffine3::from_rotation_y(turn) * DAffine3::from_translation(-low))
}

/// The middle of a page's spine edge as it stands; none where it stands nowhere.
fn foot(kit: &Kit, folded: &Folded, page: usize) -> Option<DVec3> {
    let mine = kit.pieces.iter().enumerate().filter(|(_, piece)| piece.owner == Owner::Page(page));
    let corners = mine.flat_map(|(number, piece)| {
        piece.net.panels.iter().enumerate().flat_map(move |(panel, its)| {
            let stand = folded.stand(number, panel);
            let corner = move |at: Point| Some(stand?.transform_point3(DVec3::new(at.x, at.y, 0.0)));
            its.outline.vertices().iter().filter_map(move |vertex| corner(vertex.at))
        })
    });
    let bounds = corners.map(|corner| (corner, corner)).reduce(|all, one| (all.0.min(one.0), all.1.max(one.1)))?;
    Some(DVec3::new(f64::midpoint(bounds.0.x, bounds.1.x), 0.0, bounds.0.z))
}

/// What stands upright on a foot, put with its foot on a point of the cross-section, along a way.
fn upright(foot: DVec3, on: Point, way: Vec2) -> Stand {
    // From straight up to the way, about the axis that runs to the head.
    let turn = way.x.atan2(way.y);
    DAffine3::from_translation(DVec3::new(on.x, 0.0, on.y))
        * DAffine3::from_rotation_y(turn)
        * DAffine3::from_translation(-foot)
}

/// What lies level from a point on, put on another point, along a way; `side` is the way it goes, 1 to the right.
fn level(from: DVec3, on: Point, way: Vec2, side: f64) -> Stand {
    let turn = -(way.y * side).atan2(way.x * side);
    DAffine3::from_translation(DVec3::new(on.x, 0.0, on.y))
        * DAffine3::from_rotation_y(turn)
        * DAffine3::from_translation(-from)
}
