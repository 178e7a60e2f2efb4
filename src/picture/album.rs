// SPDX-License-Identifier: MIT
//! The finished album as a solid picture: closed, its pages apart, or standing with its pages fanned.
//!
//! ```text
//!    closed           apart            fanned
//!    __________       __________         /  /
//!   /_________/|      __________        /  /__
//!   |_________|/      __________       |__|___|
//! ```

use super::Picture;
use super::space::Scene;
use super::stuff_of_piece;
use crate::album::{Album, Bound};
use crate::folded::Folded;
use crate::length::tolerance::SAME;
use crate::net::{Sense, Stand};
use crate::parts::{Kit, Owner, Purpose};
use glam::{DAffine3, DMat3, DVec3};

/// How the finished album is shown.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Pose {
    /// Lying on its back, closed.
    Closed,
    /// Lying, its pages this far above each other, mm, without its cover; what holds them is with each page.
    Apart(f64),
    /// Standing on its tail, the outermost leaves turned this far from the middle, degrees.
    Fanned(f64),
}

/// Bends of a cover this near to the spine's plane belong to the spine, mm: our choice.
const SPINE: f64 = 12.0;

/// How far aside a page lies that is still to be slid on, as a share of its width: our choice.
const SLIDE: f64 = 0.35;

/// What moves together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Group {
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
    let opened = matches!(pose, Pose::Fanned(_)).then(|| unfastened(kit, folded));
    let folded = opened.as_ref().unwrap_or(folded);
    let groups = Groups::of(kit, folded);
    let lying = base(pose, album.bound);
    let moved = |group| lying * groups.moved(group, pose, album.pages.len(), album.bound);
    let apart = matches!(pose, Pose::Apart(_));
    let covers = |piece: usize| kit.pieces.get(piece).is_some_and(|one| one.owner == Owner::Cover);
    let shown = |piece: usize| show(piece) && !(apart && covers(piece));
    scene(album, kit, folded, &|piece, panel| shown(piece).then(|| moved(groups.group(piece, panel)))).picture(room)
}

/// The album as it can be opened: without the band round it, and with what is folded over the fore-edge laid back.
fn unfastened(kit: &Kit, folded: &Folded) -> Folded {
    let mut opened = folded.clone();
    let tall = kit.pieces.iter().enumerate().filter(|(_, piece)| matches!(piece.owner, Owner::Page(_)));
    let reach = tall.filter_map(|(number, _)| Some(centre(kit, folded, number, 0)?.z)).fold(0.0, f64::max);
    for (number, piece) in kit.pieces.iter().enumerate().filter(|(_, piece)| piece.owner == Owner::Cover) {
        if kit.parts.get(piece.part).is_some_and(|part| part.purpose == Purpose::Band) {
            opened.pieces[number] = None;
            continue;
        }
        // A fold over the fore-edge lies beyond the middle of the pages.
        let over = |fold: usize| {
            let fold = piece.net.folds.get(fold)?;
            let middle = fold.from.midpoint(fold.to);
            let at = folded.stand(number, fold.between[0])?.transform_point3(DVec3::new(middle.x, middle.y, 0.0));
            Some(fold.sense != Sense::Bent && at.z > reach)
        };
        let degrees = |fold: usize| {
            if over(fold) == Some(true) { 0.0 } else { piece.net.folds.get(fold).map_or(0.0, |fold| fold.angle) }
        };
        let any = (0..piece.net.folds.len()).any(|fold| over(fold) == Some(true));
        if let (true, Some(root)) = (any, folded.stand(number, 0)) {
            let caliper = folded.calipers.get(number).copied().unwrap_or(0.0);
            let stands = piece.net.folded_to(caliper, &degrees);
            opened.pieces[number] = Some(stands.into_iter().map(|stand| *root * stand).collect());
        }
    }
    opened
}

/// Where the middle of a panel stands.
fn centre(kit: &Kit, folded: &Folded, piece: usize, panel: usize) -> Option<DVec3> {
    let middle = kit.pieces.get(piece)?.net.panels.get(panel)?.outline.bounds().center();
    Some(folded.stand(piece, panel)?.transform_point3(DVec3::new(middle.x, middle.y, 0.0)))
}

/// The lying album with one page (from 1) still to be slid on, and an arrow that shows the way.
///
/// `show` says which pieces are drawn: the pages that are on already, and what carries them.
#[must_use]
pub fn sliding(
    album: &Album,
    kit: &Kit,
    folded: &Folded,
    page: usize,
    show: &dyn Fn(usize) -> bool,
    room: (f64, f64),
) -> Picture {
    let lying = base(Pose::Closed, album.bound);
    // Pages stand on the spine, so their fore-edges are where z goes.
    let outwards = lying.transform_vector3(DVec3::Z);
    // What is put into its pockets goes with it, all its pieces.
    let groups = Groups::of(kit, folded);
    let moves = |piece: &crate::parts::Piece| matches!(piece.owner, Owner::Page(_) | Owner::Insert(_));
    let goes =
        |piece: usize| kit.pieces.get(piece).is_some_and(moves) && groups.group(piece, 0) == Some(Group::Page(page));
    let aside = outwards * album.page.width.mm() * SLIDE;
    let away = Stand::from_translation(aside);
    let mut scene =
        scene(album, kit, folded, &|piece, _| show(piece).then(|| if goes(piece) { away * lying } else { lying }));
    // From the middle of the page's spine edge to where it comes to lie.
    let first = kit.pieces.iter().position(|piece| piece.owner == Owner::Page(page));
    let middle = first.and_then(|piece| Some(lying.transform_point3(centre(kit, folded, piece, 0)?)));
    if let Some(middle) = middle {
        let start = middle + aside * 0.7;
        scene.way(vec![start, start - aside * 0.8]);
    }
    scene.picture(room)
}

/// The panels that `by` gives a move, where they stand folded.
pub(super) fn scene(album: &Album, kit: &Kit, folded: &Folded, by: &dyn Fn(usize, usize) -> Option<Stand>) -> Scene {
    let mut scene = Scene::default();
    for (number, piece) in kit.pieces.iter().enumerate() {
        let Some(Some(stands)) = folded.pieces.get(number) else { continue };
        let caliper = folded.calipers.get(number).copied().unwrap_or(0.0);
        let stuff = stuff_of_piece(album, kit, piece);
        scene.panels(&piece.net, stands, caliper, &stuff, &|panel| by(number, panel));
    }
    scene
}

/// From the folded album, which stands on its spine, to how it is shown: spine at the left, head away or up.
fn base(pose: Pose, bound: Bound) -> Stand {
    match pose {
        Pose::Fanned(_) => standing(bound),
        _ => lying(bound),
    }
}

/// From the folded album to one that stands on its tail, its front cover towards the eye.
pub(super) fn standing(bound: Bound) -> Stand {
    let (x, y, z) = (DVec3::X, DVec3::Y, DVec3::Z);
    DAffine3::from_mat3(match bound {
        Bound::Left | Bound::Top => DMat3::from_cols(y, z, x),
        Bound::Right => DMat3::from_cols(-y, z, -x),
    })
}

/// From the folded album to one that lies on the table, head away.
pub(super) fn lying(bound: Bound) -> Stand {
    let (x, y, z) = (DVec3::X, DVec3::Y, DVec3::Z);
    // Columns: where the folded album's x, y and z go.
    DAffine3::from_mat3(match bound {
        Bound::Left => DMat3::from_cols(-z, y, x),
        Bound::Right => DMat3::from_cols(z, y, -x),
        // It is made as one bound at the left, and turned so that its spine comes to be at the head.
        Bound::Top => DMat3::from_cols(-z, x, -y),
    })
}

/// Which panel moves with what, and about which line it turns.
pub(super) struct Groups {
    /// By piece and panel.
    of: Vec<Vec<Option<Group>>>,
    /// By group, x and z of the line that it turns about.
    roots: Vec<(Group, DVec3)>,
}

impl Groups {
    pub(super) fn of(kit: &Kit, folded: &Folded) -> Self {
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
        hold_together(kit, &mut of);
        hold_pages(kit, &mut of);
        close_round(kit, folded, &mut of);
        let roots = roots(kit, folded, &of);
        Self { of, roots }
    }

    pub(super) fn group(&self, piece: usize, panel: usize) -> Option<Group> {
        self.of.get(piece)?.get(panel).copied().flatten()
    }

    /// The line that a group turns about, its y nought.
    pub(super) fn root(&self, group: Group) -> Option<DVec3> {
        self.roots.iter().find(|(one, _)| *one == group).map(|(_, root)| *root)
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
                let Some(root) = self.root(group) else { return Stand::IDENTITY };
                let turn = DAffine3::from_rotation_y((side * angle).to_radians());
                Stand::from_translation(root) * turn * Stand::from_translation(-root)
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
            for fold in piece.net.folds.iter().filter(|fold| lies_flat(fold.angle)) {
                for [from, to] in [fold.between, [fold.between[1], fold.between[0]]] {
                    let based = piece.net.panels.get(to).is_none_or(|panel| panel.purpose.is_base());
                    let (Some(&group), false) = (panels.get(from), based) else { continue };
                    if let Some(its) = panels.get_mut(to).filter(|its| its.is_none()) {
                        *its = group;
                    }
                }
            }
        }
    }
}

/// Whether a fold leaves its panels in one plane or folds them onto each other.
fn lies_flat(degrees: f64) -> bool {
    degrees.abs() < 1.0 || degrees.abs() > 179.0
}

/// Pieces of an insert that are put into each other, as a booklet's leaves are, go where the first one goes.
fn hold_together(kit: &Kit, of: &mut [Vec<Option<Group>>]) {
    let insert = |piece: usize| matches!(kit.pieces.get(piece).map(|piece| piece.owner), Some(Owner::Insert(_)));
    for bond in kit.bonds.iter().filter(|bond| insert(bond.one.piece) && insert(bond.other.piece)) {
        for [from, to] in [[bond.one.piece, bond.other.piece], [bond.other.piece, bond.one.piece]] {
            let group = of.get(from).and_then(|panels| panels.first()).copied().flatten();
            if let (Some(group), Some(panels)) = (group, of.get_mut(to)) {
                panels.iter_mut().filter(|its| its.is_none()).for_each(|its| *its = Some(group));
            }
        }
    }
}

/// Panels of a cover that stand beside the pages go with the front or the back.
fn close_round(kit: &Kit, folded: &Folded, of: &mut [Vec<Option<Group>>]) {
    let covers = || (0..kit.pieces.len()).filter(|&piece| kit.pieces[piece].owner == Owner::Cover);
    let upright =
        |piece, panel| folded.stand(piece, panel).is_some_and(|stand| stand.transform_vector3(DVec3::Z).x.abs() > 0.7);
    let pages = kit.pieces.iter().enumerate().filter(|(_, piece)| matches!(piece.owner, Owner::Page(_)));
    let across: Vec<f64> = pages.filter_map(|(number, _)| Some(centre(kit, folded, number, 0)?.x)).collect();
    let (least, most) = across.iter().fold((f64::MAX, f64::MIN), |(least, most), x| (least.min(*x), most.max(*x)));
    let middle = f64::midpoint(least, most);
    for piece in covers() {
        for (panel, group) in of[piece].iter_mut().enumerate() {
            if let (Some(at), true) = (centre(kit, folded, piece, panel), upright(piece, panel)) {
                *group = Some(if at.x < middle { Group::Front } else { Group::Back });
            }
        }
        bent_along(kit, folded, piece, &mut of[piece]);
    }
}

/// What is bent round a board's edge goes with the board; what is bent out of the spine stays.
fn bent_along(kit: &Kit, folded: &Folded, piece: usize, groups: &mut [Option<Group>]) {
    let Some(net) = kit.pieces.get(piece).map(|piece| &piece.net) else { return };
    for fold in net.folds.iter().filter(|fold| fold.sense == Sense::Bent) {
        let [near, far] = fold.between;
        let middle = fold.from.midpoint(fold.to);
        let at = folded.stand(piece, near).map(|stand| stand.transform_point3(DVec3::new(middle.x, middle.y, 0.0)));
        let group = groups.get(near).copied().flatten();
        if let (Some(group), Some(at), Some(its)) = (group, at, groups.get_mut(far))
            && its.is_none()
            && at.z > SPINE
        {
            *its = Some(group);
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
                    Some((_, was, low)) if (held && !*was) || (held == *was && at.z < low.z - SAME) => {
                        (*was, *low) = (held, at);
                    }
                    Some(_) => {}
                    None => lowest.push((group, held, at)),
                }
            }
        }
    }
    lowest.into_iter().map(|(group, _, at)| (group, DVec3::new(at.x, 0.0, at.z))).collect()
}
