// SPDX-License-Identifier: MIT
//! Joins the pieces of a kind, and says where they lie on the page.

use super::laid::{self, LaidFlat};
use super::net::KindNet;
use super::sizes::MadeKind;
use crate::contour::{Contour, Corner, Point, Rect, Vec2};
use crate::finding::{Arg, Finding, Said};
use crate::kind_file::{FaceWord, Fills, KindJoin, PanelAt, Scope};
use crate::length::tolerance::SAME;
use crate::parts::bond::{Face, Hold, Side};
use crate::parts::build::builder::Builder;

/// A seam that covers more than this beside what it is stuck on holds on nothing there, mm.
const BESIDE: f64 = 0.05;

/// A piece that is made: its number in the kit, its net, where its panels lie, where it lies itself.
pub(super) struct Tied {
    pub piece: usize,
    pub net: KindNet,
    laid: Vec<Option<LaidFlat>>,
    on_page: Option<LaidFlat>,
}

/// All pieces of one of a kind, and what seams cover on the page.
#[derive(Default)]
pub(super) struct Ties {
    /// By the kind's piece.
    pub pieces: Vec<Option<Tied>>,
    /// What each seam covers, as it lies on the page.
    pub covered: Vec<Rect>,
    /// The same by the face of the panel that it is stuck on, as the piece lies flat.
    stuck: Vec<(PanelAt, Face, Rect)>,
}

pub(super) const fn face(word: FaceWord) -> Face {
    match word {
        FaceWord::Front => Face::Front,
        FaceWord::Back => Face::Back,
    }
}

impl Ties {
    /// Adds a piece; the first one lies on the page with its root, the other way round where all is mirrored.
    pub(super) fn add(&mut self, made: Option<(usize, KindNet)>, mirrored: bool) {
        let first = self.pieces.is_empty();
        self.pieces.push(made.map(|(piece, net)| {
            let laid = laid::panels(&net.net);
            let root = net.net.panels.first().map(|panel| panel.outline.bounds()).unwrap_or_default();
            let on_page = if mirrored {
                LaidFlat { k: [-1.0, 1.0], a: [root.x1, -root.y0] }
            } else {
                LaidFlat { k: [1.0; 2], a: [-root.x0, -root.y0] }
            };
            Tied { piece, net, laid, on_page: first.then_some(on_page) }
        }));
    }

    /// The number of the first piece in the kit.
    pub(super) fn first(&self) -> Option<usize> {
        Some(self.pieces.first()?.as_ref()?.piece)
    }

    /// Where the panels of a piece lie, as the first piece lies flat.
    pub(super) fn lying(&self, piece: usize) -> Vec<Option<LaidFlat>> {
        let Some(Some(first)) = self.pieces.first() else { return Vec::new() };
        let Some(Some(tied)) = self.pieces.get(piece) else { return Vec::new() };
        let back = first.on_page.map(undone);
        let lies = |laid: &Option<LaidFlat>| Some((*laid)?.then(tied.on_page?).then(back?));
        tied.laid.iter().map(lies).collect()
    }

    fn tied(&self, at: &PanelAt) -> Option<(&Tied, usize)> {
        let tied = self.pieces.get(at.piece)?.as_ref()?;
        Some((tied, tied.net.panel(&at.panel)?))
    }

    /// The box of a panel as its piece lies flat.
    pub(super) fn bounds(&self, at: &PanelAt) -> Option<Rect> {
        let (tied, panel) = self.tied(at)?;
        Some(tied.net.net.panels[panel].outline.bounds())
    }

    /// Width and height of a panel, mm.
    pub(super) fn size(&self, at: &PanelAt) -> Option<(f64, f64)> {
        let (tied, panel) = self.tied(at)?;
        Some(tied.net.size(panel))
    }

    /// Whether a hole that reaches over a fold lies within a box of the flat piece.
    pub(super) fn is_cut_over_a_fold(&self, at: &PanelAt, within: Rect) -> bool {
        let Some((tied, _)) = self.tied(at) else { return false };
        let holes = tied.net.over_folds().filter_map(|number| tied.net.net.holes.get(number));
        holes.map(|hole| hole.bounds().intersect(within)).any(|both| both.width() > SAME && both.height() > SAME)
    }

    /// Whether a drawing shows the form of a panel.
    pub(super) fn is_drawn(&self, at: &PanelAt) -> bool {
        self.tied(at).is_some_and(|(tied, panel)| tied.net.is_drawn(panel))
    }

    /// The box of a panel that no notch or taper takes of, and its width and height, mm.
    pub(super) fn whole(&self, at: &PanelAt) -> Option<(Rect, (f64, f64))> {
        let (tied, panel) = self.tied(at)?;
        let (bounds, (width, height)) = (tied.net.net.panels[panel].outline.bounds(), tied.net.size(panel));
        let [left, right, tail, head] = tied.net.inset(panel);
        let whole = Rect { x0: bounds.x0 + left, y0: bounds.y0 + tail, x1: bounds.x1 - right, y1: bounds.y1 - head };
        Some((whole, (width - left - right, height - tail - head)))
    }

    /// How deep a panel is notched at the fore-edge and at the head of the page, mm.
    pub(super) fn notches(&self, at: &PanelAt) -> [f64; 2] {
        let laid = self.on_page(at);
        let notches = self.tied(at).and_then(|(tied, panel)| tied.net.away(panel)).map(|away| away.notches);
        let Some((laid, [left, right, tail, head])) = laid.zip(notches) else { return [0.0; 2] };
        [if laid.k[0] > 0.0 { right } else { left }, if laid.k[1] > 0.0 { head } else { tail }]
    }

    /// The corners of a panel as they are seen with `right` to the right and `up` up, each 1 or -1 of the flat piece; square
    /// beside an edge that is notched or tapered.
    pub(super) fn corners(&self, at: &PanelAt, (right, up): (f64, f64)) -> [Corner; 4] {
        let Some((tied, panel)) = self.tied(at) else { return [Corner::Square; 4] };
        let Some(away) = tied.net.away(panel) else { return [Corner::Square; 4] };
        let [left_in, right_in, tail_in, head_in] = tied.net.inset(panel);
        let beside = [left_in.max(tail_in), right_in.max(tail_in), right_in.max(head_in), left_in.max(head_in)];
        [0, 1, 2, 3].map(|seen: usize| {
            let mirrored = if right < 0.0 { seen ^ 1 } else { seen };
            let corner = if up < 0.0 { 3 - mirrored } else { mirrored };
            if beside[corner] > 0.0 { Corner::Square } else { away.corners[corner] }
        })
    }

    /// A panel by the numbers of its piece in the kit and of itself.
    pub(super) fn number(&self, at: &PanelAt) -> Option<(usize, usize)> {
        let (tied, panel) = self.tied(at)?;
        Some((tied.piece, panel))
    }

    /// Whether something is stuck on a face of a panel within a box of it.
    pub(super) fn is_stuck(&self, at: &PanelAt, face: Face, within: Rect) -> bool {
        self.stuck.iter().any(|(on, side, covered)| {
            let both = covered.intersect(within);
            on.piece == at.piece
                && on.panel == at.panel
                && *side == face
                && both.width() > BESIDE
                && both.height() > BESIDE
        })
    }

    /// How a panel lies on the page.
    pub(super) fn on_page(&self, at: &PanelAt) -> Option<LaidFlat> {
        let (tied, panel) = self.tied(at)?;
        Some(tied.laid[panel]?.then(tied.on_page?))
    }

    /// A face of a panel, from a point of its piece as it lies flat.
    pub(super) fn side(&self, at: &PanelAt, face: Face, point: Point, along: Vec2) -> Option<Side> {
        let (tied, panel) = self.tied(at)?;
        Some(Side { piece: tied.piece, panel, face, at: point, along })
    }

    /// Joins what is to be joined, in the file's order as often as something new can be placed.
    pub(super) fn join(
        &mut self,
        builder: &mut Builder<'_>,
        made: &MadeKind<'_>,
        joins: &[KindJoin],
        scope: &Scope<'_>,
    ) {
        let mut waiting: Vec<&KindJoin> =
            joins.iter().filter(|join| join.when.as_ref().is_none_or(|when| when.holds(scope))).collect();
        loop {
            let before = waiting.len();
            waiting.retain(|join| !self.join_one(builder, made, join, scope));
            if waiting.len() == before || waiting.is_empty() {
                break;
            }
        }
        for join in waiting {
            self.untold(builder, made, join);
        }
        for (number, tied) in self.pieces.iter().enumerate() {
            if let (Some(Tied { on_page: None, .. }), Some(piece)) = (tied, made.file.pieces.get(number)) {
                let text = Said::new("kind-piece-loose").with("piece", Arg::quoted(&piece.name));
                let finding = Finding::stop("joined-to-nothing", made.about.clone(), text);
                builder.find(finding.help(Said::new("kind-piece-loose-help")).at(made.at(&piece.place)));
            }
        }
    }

    /// A join with a panel that is not there, or stands up.
    fn untold(&self, builder: &mut Builder<'_>, made: &MadeKind<'_>, join: &KindJoin) {
        for at in [&join.stick, &join.onto] {
            let key = match (self.pieces.get(at.piece).is_some_and(Option::is_some), self.tied(at)) {
                (true, None) => "kind-join-gone",
                (true, Some((tied, panel))) if tied.laid[panel].is_none() => "kind-join-stands",
                (false, _) | (true, Some(_)) => continue,
            };
            let text = Said::new(key).with("panel", Arg::code(&at.text));
            let finding = Finding::stop("kind-join", made.about.clone(), text).help(Said::new("kind-join-help"));
            builder.find(finding.at(made.at(&at.place)));
        }
    }

    /// Whether a join could be made.
    fn join_one(&mut self, builder: &mut Builder<'_>, made: &MadeKind<'_>, join: &KindJoin, scope: &Scope<'_>) -> bool {
        let (Some((seam, panel)), Some((ground, under))) = (self.tied(&join.stick), self.tied(&join.onto)) else {
            return false;
        };
        let (Some(seam_laid), Some(ground_laid)) = (seam.laid[panel], ground.laid[under]) else { return false };
        let own = join.stick.piece == join.onto.piece;
        if seam.on_page.is_none() && ground.on_page.is_none() {
            return false;
        }
        let (Some(x), Some(y)) = (made.finite(builder, &join.at[0], scope), made.finite(builder, &join.at[1], scope))
        else {
            return true;
        };
        let (seam, ground) = (self.tied(&join.stick), self.tied(&join.onto));
        let (Some((seam, panel)), Some((ground, under))) = (seam, ground) else { return true };
        let (on, from) = (ground.net.net.panels[under].outline.bounds(), seam.net.net.panels[panel].outline.bounds());
        // Faces of one kind meet where one is turned over, front and back where neither is or both are.
        let turned_over = join.faces[0] == join.faces[1];
        let relative = LaidFlat { a: [0.0; 2], ..seam_laid.then(LaidFlat { a: [0.0; 2], ..ground_laid }) };
        let whole = if own || relative.is_face_up() != turned_over { [1.0, 1.0] } else { [-1.0, 1.0] };
        let k = [0, 1].map(|axis| relative.k[axis] * whole[axis]);
        let size = <[f64; 2]>::from(seam.net.size(panel));
        let left = if made.mirrored(scope) { on.x1 - x - size[0] } else { on.x0 + x };
        let corner = [left, on.y0 + y];
        let at = [0, 1].map(|axis| corner[axis] + if k[axis] < 0.0 { size[axis] } else { 0.0 });
        let one = Side {
            piece: seam.piece,
            panel,
            face: face(join.faces[0]),
            at: Point::new(from.x0, from.y0),
            along: Vec2::new(1.0, 0.0),
        };
        let other = Side {
            piece: ground.piece,
            panel: under,
            face: face(join.faces[1]),
            at: Point::new(at[0], at[1]),
            along: Vec2::new(k[0], 0.0),
        };
        // How the seam's flat piece lies as the other piece is drawn, and so the pieces on the page.
        let onto = LaidFlat { k, a: [0, 1].map(|axis| at[axis] - k[axis] * [from.x0, from.y0][axis]) };
        let covered = Rect::new(corner[0], corner[1], corner[0] + size[0], corner[1] + size[1]);
        let (seam_page, ground_page) = (seam.on_page, ground.on_page);
        self.stuck.push((join.onto.clone(), face(join.faces[1]), covered));
        if let Some(page) = ground_page {
            let area = ground_laid.then(page).rect(covered);
            self.covered.push(area);
            let placed = undone(seam_laid).then(onto).then(ground_laid).then(page);
            match seam_page {
                None => self.place(join.stick.piece, placed),
                Some(page) => misses(builder, made, join, (area, seam_laid.then(page), from)),
            }
        } else if let Some(page) = seam_page {
            let placed = undone(ground_laid).then(undone(onto)).then(seam_laid).then(page);
            self.covered.push(ground_laid.then(placed).rect(covered));
            self.place(join.onto.piece, placed);
        }
        // What is known of the built-in kinds is checked where all sizes are, in words of their own.
        if !made.file.is_built_in() {
            on_something(builder, made, join, (covered, on), scope);
        }
        builder.bond(Hold::Stuck, one, other);
        true
    }

    fn place(&mut self, piece: usize, laid: LaidFlat) {
        if let Some(Some(tied)) = self.pieces.get_mut(piece) {
            tied.on_page = Some(laid);
        }
    }
}

/// The way back.
fn undone(laid: LaidFlat) -> LaidFlat {
    LaidFlat { k: laid.k, a: [0, 1].map(|axis| -laid.a[axis] * laid.k[axis]) }
}

/// Says that a seam comes to lie elsewhere than it is to be stuck, once its piece is where another join has put it.
fn misses(builder: &mut Builder<'_>, made: &MadeKind<'_>, join: &KindJoin, (area, seam, from): (Rect, LaidFlat, Rect)) {
    let lies = seam.rect(from);
    let off = [lies.x0 - area.x0, lies.y0 - area.y0, lies.x1 - area.x1, lies.y1 - area.y1];
    let most = off.into_iter().map(f64::abs).fold(0.0, f64::max);
    if most <= BESIDE + SAME {
        return;
    }
    let text = Said::new("kind-join-misses").with("seam", Arg::code(&join.stick.text));
    let text = text.with("panel", Arg::code(&join.onto.text)).with("by", builder.album.rough(most));
    let lies_at = |mm: f64| builder.album.rough(mm);
    let insert = made.file.fills == Fills::Insert;
    let help = Said::new(if insert { "kind-join-misses-help-insert" } else { "kind-join-misses-help" });
    let help = help.with("x", lies_at(lies.x0)).with("y", lies_at(lies.y0));
    builder.find(Finding::stop("kind-join-misses", made.about.clone(), text).help(help).at(made.at(&join.place)));
}

/// Says that a seam lies beside what it is to be stuck on.
fn on_something(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    join: &KindJoin,
    (covered, on): (Rect, Rect),
    scope: &Scope<'_>,
) {
    let beyond = [on.x0 - covered.x0, on.y0 - covered.y0, covered.x1 - on.x1, covered.y1 - on.y1];
    let most = beyond.into_iter().fold(0.0, f64::max);
    if most <= BESIDE + SAME {
        return;
    }
    let mut sizes = join.at[0].sizes();
    sizes.extend(join.at[1].sizes());
    let text = Said::new("kind-seam-beside")
        .with("seam", Arg::code(&join.stick.text))
        .with("panel", Arg::code(&join.onto.text));
    let text = text.with("by", builder.album.rough(most)).with("with", made.values(builder, &sizes, scope));
    let finding = Finding::stop("kind-seam-beside", made.about.clone(), text).help(Said::new("kind-seam-beside-help"));
    builder.find(finding.at(made.at(&join.place)));
}

impl Ties {
    /// The holes in a panel, from a corner of it, `along` being to the right.
    pub(super) fn holes(&self, at: &PanelAt, corner: Point, along: Vec2) -> Vec<Contour> {
        let Some((tied, panel)) = self.tied(at) else { return Vec::new() };
        let Some(laid) = tied.laid[panel].zip(tied.on_page).map(|(laid, page)| laid.then(page)) else {
            return Vec::new();
        };
        let (right, up) = (along.x.signum(), laid.k[1].signum());
        let outline = &tied.net.net.panels[panel].outline;
        let over: Vec<usize> = tied.net.over_folds().collect();
        let own =
            tied.net.net.holes.iter().enumerate().filter(|(number, _)| !over.contains(number)).map(|(_, hole)| hole);
        let inside = own.filter(|hole| outline.contains(hole.bounds().center()));
        let seen = |point: Point| Point::new((point.x - corner.x) * right, (point.y - corner.y) * up);
        let turned = right * up < 0.0;
        inside.map(|hole| if turned { hole.mirrored(seen) } else { hole.mapped(seen) }).collect()
    }
}
