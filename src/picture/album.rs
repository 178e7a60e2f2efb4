// SPDX-License-Identifier: MIT
//! The finished album as a solid picture: closed, its pages apart, or standing with its pages fanned.
//!
//! ```text
//!    closed           apart            fanned
//!    __________       __________         /  /
//!   /_________/|      __________        /  /__
//!   |_________|/      __________       |__|___|
//! ```

use super::space::{Scene, Stuff};
use super::{Picture, stuff};
use crate::album::{Album, Bound};
use crate::folded::Folded;
use crate::net::{Stand, Use};
use crate::parts::{Kit, Owner};
use glam::{DAffine3, DMat3, DVec3};

/// How the finished album is shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pose {
    /// Lying on its back, closed.
    Closed,
    /// Lying, its pages this far above each other, mm, without its cover; what holds them is with each page.
    Apart(f64),
    /// Standing on its tail, the outermost leaves turned this far from the middle, degrees.
    Fanned(f64),
}

/// What moves together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Group {
    Front,
    Page(usize),
    Back,
}

/// The album as it stands folded, as large as the room (width and height, mm) takes it, at most at true size.
///
/// `show` says which pieces are drawn: an album in the making has only some of them.
#[must_use]
pub fn album(
    album: &Album,
    kit: &Kit,
    folded: &Folded,
    pose: Pose,
    show: &dyn Fn(usize) -> bool,
    room: (f64, f64),
) -> Picture {
    let groups = Groups::of(kit, folded);
    let lying = base(pose, album.bound);
    let mut scene = Scene::default();
    for (number, piece) in kit.pieces.iter().enumerate() {
        let (Some(Some(stands)), true) = (folded.pieces.get(number), show(number)) else { continue };
        if matches!(pose, Pose::Apart(_)) && piece.owner == Owner::Cover {
            continue;
        }
        let caliper = folded.calipers.get(number).copied().unwrap_or(0.0);
        let stuff = kit.parts.get(piece.part).map_or(Stuff::Card, |part| stuff(album, part));
        let moved = |panel: usize| {
            let group = groups.of.get(number).and_then(|panels| panels.get(panel)).copied().flatten();
            Some(lying * groups.moved(group, pose, album.pages.len(), album.bound))
        };
        scene.panels(&piece.net, stands, caliper, stuff, &moved);
    }
    scene.picture(room)
}

/// From the folded album, which stands on its spine, to how it is shown: spine at the left, head away or up.
fn base(pose: Pose, bound: Bound) -> Stand {
    let (x, y, z) = (DVec3::X, DVec3::Y, DVec3::Z);
    // Columns: where the folded album's x, y and z go.
    DAffine3::from_mat3(match (pose, bound) {
        (Pose::Fanned(_), Bound::Left) => DMat3::from_cols(y, z, x),
        (Pose::Fanned(_), Bound::Right) => DMat3::from_cols(-y, z, -x),
        (_, Bound::Left) => DMat3::from_cols(-z, y, x),
        (_, Bound::Right) => DMat3::from_cols(z, y, -x),
    })
}

/// Which panel moves with what, and about which line it turns.
struct Groups {
    /// By piece and panel.
    of: Vec<Vec<Option<Group>>>,
    /// By group, x and z of the line that it turns about.
    roots: Vec<(Group, DVec3)>,
}

impl Groups {
    fn of(kit: &Kit, folded: &Folded) -> Self {
        let mut of: Vec<Vec<Option<Group>>> =
            kit.pieces.iter().map(|piece| vec![None; piece.net.panels.len()]).collect();
        for (piece, panels) in kit.pieces.iter().zip(&mut of) {
            if let Owner::Page(page) = piece.owner {
                panels.fill(Some(Group::Page(page)));
            }
        }
        for insert in &kit.inserts {
            let page = insert.pocket.and_then(|pocket| kit.pockets.get(pocket)).map(|pocket| pocket.page);
            if let (Some(page), Some(panels)) = (page, of.get_mut(insert.piece)) {
                panels.fill(Some(Group::Page(page)));
            }
        }
        hold_pages(kit, &mut of);
        close_round(kit, folded, &mut of);
        let roots = roots(kit, folded, &of);
        Self { of, roots }
    }

    fn moved(&self, group: Option<Group>, pose: Pose, pages: usize, bound: Bound) -> Stand {
        let Some(group) = group else { return Stand::IDENTITY };
        #[allow(clippy::cast_precision_loss, reason = "an album has few pages")]
        let (place, last) = match group {
            Group::Front => (0.0, (pages + 1) as f64),
            Group::Page(page) => (page as f64, (pages + 1) as f64),
            Group::Back => ((pages + 1) as f64, (pages + 1) as f64),
        };
        // From -1 at the front cover to 1 at the back cover, against x in an album bound at the right.
        let side = (2.0 * place / last - 1.0) * if bound == Bound::Right { -1.0 } else { 1.0 };
        match pose {
            Pose::Closed => Stand::IDENTITY,
            Pose::Apart(lift) => Stand::from_translation(DVec3::X * (side * lift * last / 2.0)),
            Pose::Fanned(angle) => {
                let Some((_, root)) = self.roots.iter().find(|(one, _)| *one == group) else { return Stand::IDENTITY };
                let turn = DAffine3::from_rotation_y((side * angle).to_radians());
                Stand::from_translation(*root) * turn * Stand::from_translation(-*root)
            }
        }
    }
}

/// Panels of the spine that hold a page go with it, and so does what runs on flat from them.
fn hold_pages(kit: &Kit, of: &mut [Vec<Option<Group>>]) {
    for bond in &kit.bonds {
        for (spine, page) in [(&bond.one, &bond.other), (&bond.other, &bond.one)] {
            let owner = |piece: usize| kit.pieces.get(piece).map(|piece| piece.owner);
            if let (Some(Owner::Spine), Some(Owner::Page(page))) = (owner(spine.piece), owner(page.piece))
                && let Some(group) = of.get_mut(spine.piece).and_then(|panels| panels.get_mut(spine.panel))
            {
                *group = Some(Group::Page(page));
            }
        }
    }
    for (piece, panels) in kit.pieces.iter().zip(of.iter_mut()).filter(|(piece, _)| piece.owner == Owner::Spine) {
        for _ in 0..piece.net.panels.len() {
            for fold in piece.net.folds.iter().filter(|fold| fold.angle.abs() < 1.0) {
                for [from, to] in [fold.between, [fold.between[1], fold.between[0]]] {
                    let based = piece.net.panels.get(to).is_none_or(|panel| panel.purpose == Use::Base);
                    let (Some(&group), false) = (panels.get(from), based) else { continue };
                    if let Some(its) = panels.get_mut(to).filter(|its| its.is_none()) {
                        *its = group;
                    }
                }
            }
        }
    }
}

/// Panels of a cover that stand beside the pages go with the front or the back.
fn close_round(kit: &Kit, folded: &Folded, of: &mut [Vec<Option<Group>>]) {
    let covers = || (0..kit.pieces.len()).filter(|&piece| kit.pieces[piece].owner == Owner::Cover);
    let centre = |piece: usize, panel: usize| {
        let middle = kit.pieces.get(piece)?.net.panels.get(panel)?.outline.bounds().center();
        let stand = folded.stand(piece, panel)?;
        let upright = stand.transform_vector3(DVec3::Z).x.abs() > 0.7;
        Some((stand.transform_point3(DVec3::new(middle.x, middle.y, 0.0)), upright))
    };
    let pages = kit.pieces.iter().enumerate().filter(|(_, piece)| matches!(piece.owner, Owner::Page(_)));
    let across: Vec<f64> = pages.filter_map(|(number, _)| Some(centre(number, 0)?.0.x)).collect();
    let (least, most) = across.iter().fold((f64::MAX, f64::MIN), |(least, most), x| (least.min(*x), most.max(*x)));
    let middle = f64::midpoint(least, most);
    for piece in covers() {
        for (panel, group) in of[piece].iter_mut().enumerate() {
            if let Some((at, true)) = centre(piece, panel) {
                *group = Some(if at.x < middle { Group::Front } else { Group::Back });
            }
        }
    }
}

/// The line that each group turns about: where it is lowest, its holding panels first.
fn roots(kit: &Kit, folded: &Folded, of: &[Vec<Option<Group>>]) -> Vec<(Group, DVec3)> {
    let mut lowest: Vec<(Group, bool, DVec3)> = Vec::new();
    for (number, (piece, groups)) in kit.pieces.iter().zip(of).enumerate() {
        let held = !matches!(piece.owner, Owner::Page(_) | Owner::Insert(_));
        for (panel, group) in
            piece.net.panels.iter().enumerate().zip(groups).filter_map(|(panel, group)| Some((panel, (*group)?)))
        {
            let Some(stand) = folded.stand(number, panel.0) else { continue };
            for vertex in panel.1.outline.vertices() {
                let at = stand.transform_point3(DVec3::new(vertex.at.x, vertex.at.y, 0.0));
                match lowest.iter_mut().find(|(one, _, _)| *one == group) {
                    Some((_, was, low)) if (held && !*was) || (held == *was && at.z < low.z - 1e-6) => {
                        (*was, *low) = (held, at)
                    }
                    Some(_) => {}
                    None => lowest.push((group, held, at)),
                }
            }
        }
    }
    lowest.into_iter().map(|(group, _, at)| (group, DVec3::new(at.x, 0.0, at.z))).collect()
}
