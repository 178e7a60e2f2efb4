// SPDX-License-Identifier: MIT
//! A page of a kind that stands in a file.

use super::laid::LaidFlat;
use super::net::net;
use super::sizes::{Given, MadeKind, with_scope};
use super::ties::{Ties, face};
use crate::album::{Entry, KIND};
use crate::contour::{Point, Rect, Vec2};
use crate::finding::{Arg, Finding, Said};
use crate::kind_file::{
    KindFile, KindFlap, KindPanel, KindPaper, KindPocket, PanelAt, PanelUse, PocketSide, RowWay, Scope,
};
use crate::length::tolerance::SAME;
use crate::parts::bond::{Face, Hold, Side};
use crate::parts::build::builder::Builder;
use crate::parts::build::face::FacePlace;
use crate::parts::kit::{Closing, Flap};
use crate::parts::pages::leaf::DEPTH;
use crate::parts::pages::page::NewPage;
use crate::parts::pages::side::wrong_height;
use crate::parts::pocket::{Pocket, PocketEnd, Way};
use crate::parts::spines::carry::Carry;

/// What of a pocket's side a seam must cover to close it, and may cover where it is open: our choice.
const MOSTLY: f64 = 0.5;

/// How far beside a pocket's edge a seam still closes it, mm: our choice.
const NEAR: f64 = 1.0;

pub(super) fn make(builder: &mut Builder<'_>, file: &'static KindFile, entry: &Entry, number: usize) {
    let page = NewPage::new(builder, entry, number);
    let made = MadeKind { entry, file, about: page.about(), path: page.path() };
    let NewPage { width, height, seam, caliper, .. } = page;
    let given = Given { width, height, seam, tab: Carry::tab_of(builder.album), caliper };
    with_scope(builder, &made, given, |builder, scope| one(builder, &page, &made, scope));
}

fn one(builder: &mut Builder<'_>, page: &NewPage<'_>, made: &MadeKind<'_>, scope: &Scope<'_>) {
    if made.file.pockets.iter().any(|pocket| seams_meet(builder, page, made, pocket, scope)) {
        return;
    }
    let mut ties = Ties::default();
    for piece in &made.file.pieces {
        let net = net(builder, made, piece, scope);
        let added = net.and_then(|net| {
            let form = made.form(builder, piece, scope);
            let piece = page.piece_of_file(builder, piece, net.net.clone(), form)?;
            Some((piece, net))
        });
        ties.add(added, made.mirrored(scope));
    }
    // What has no shape is told; what hangs on it would only be told again.
    if ties.pieces.iter().any(Option::is_none) {
        return;
    }
    ties.join(builder, made, &made.file.joins, scope);
    let carried = carried(builder, &ties, made, made.mirrored(scope));
    let there = |flap: &&KindFlap| flap.when.as_ref().is_none_or(|when| when.holds(scope));
    let flaps: Vec<&KindFlap> = made.file.flaps.iter().filter(there).collect();
    for flap in &flaps {
        close(builder, page, (&ties, made, scope), flap);
    }
    for pocket in made.file.pockets.iter().filter(|pocket| pocket.when.as_ref().is_none_or(|when| when.holds(scope))) {
        add_pocket(builder, page, (&ties, made, scope), (pocket, &carried, &flaps));
    }
    for paper in made.file.papers.iter().filter(|paper| paper.when.as_ref().is_none_or(|when| when.holds(scope))) {
        add_paper(builder, page, (&ties, made), (paper, &flaps));
    }
}

/// Says that the seams above and below a pocket's front, which turn under it, would lie on each other.
fn seams_meet(
    builder: &mut Builder<'_>,
    page: &NewPage<'_>,
    made: &MadeKind<'_>,
    pocket: &KindPocket,
    scope: &Scope<'_>,
) -> bool {
    let front = &pocket.between[1];
    let Some(piece) = made.file.pieces.get(front.piece) else { return false };
    let turned = |panel: &&KindPanel| panel.purpose == PanelUse::Seam;
    let both = piece.runs == RowWay::Up && piece.panels.iter().filter(turned).count() >= 2;
    // Seams taller than the page are told for all pages at once.
    let height = pocket.height.value(scope);
    both && page.seam <= page.height && height.is_finite() && wrong_height(builder, page, height, KIND)
}

/// Says how the page is carried; gives the two panels between which a tab slides.
fn carried<'k>(
    builder: &mut Builder<'_>,
    ties: &Ties,
    made: &MadeKind<'k>,
    mirrored: bool,
) -> Option<[&'k PanelAt; 2]> {
    let file = made.file;
    if let [front, back] = file.hangs.as_slice() {
        let [front, back] = if mirrored { [back, front] } else { [front, back] };
        let inner = |at: &PanelAt, towards_back: bool| {
            let laid = ties.on_page(at)?;
            let up = laid.is_face_up();
            let face = if up == towards_back { Face::Back } else { Face::Front };
            at_spine(ties, at, laid, face)
        };
        let sides = (inner(front, true), inner(back, false));
        if let (Some(to_front), Some(to_back)) = sides {
            builder.carried(Hold::Slid, to_front, to_back);
            return Some([front, back]);
        }
        return None;
    }
    let first = file.pieces.first().and_then(|piece| {
        let panel = piece.panels.iter().find(|panel| panel.purpose == PanelUse::Plain);
        let panel = panel.or(piece.panels.first())?;
        Some(PanelAt { piece: 0, panel: panel.name.clone(), text: String::new(), place: panel.place.clone() })
    });
    let at = file.hangs.first().or(first.as_ref())?;
    let laid = ties.on_page(at)?;
    // What looks to the page's front lies behind the tab, what looks to its back before it.
    let [front, back] = if laid.is_face_up() { [Face::Front, Face::Back] } else { [Face::Back, Face::Front] };
    let to_front = at_spine(ties, at, laid, back);
    if let (Some(to_front), Some(to_back)) = (to_front, at_spine(ties, at, laid, front)) {
        builder.carried(Hold::Stuck, to_front, to_back);
    }
    None
}

/// A face of a panel, at the tail of its edge nearest the spine, going up.
fn at_spine(ties: &Ties, at: &PanelAt, laid: LaidFlat, face: Face) -> Option<Side> {
    let bounds = ties.bounds(at)?;
    let point = Point::new(low(laid, 0, bounds), low(laid, 1, bounds));
    ties.side(at, face, point, Vec2::new(0.0, laid.k[1]))
}

/// The coordinate of a flat panel that lies lowest on the page, across (0) or up (1).
fn low(laid: LaidFlat, axis: usize, of: Rect) -> f64 {
    let ends = if axis == 0 { [of.x0, of.x1] } else { [of.y0, of.y1] };
    if laid.k[axis] > 0.0 { ends[0] } else { ends[1] }
}

fn add_pocket(
    builder: &mut Builder<'_>,
    page: &NewPage<'_>,
    (ties, made, scope): (&Ties, &MadeKind<'_>, &Scope<'_>),
    (pocket, carried, flaps): (&KindPocket, &Option<[&PanelAt; 2]>, &[&KindFlap]),
) {
    let [behind, before] = &pocket.between;
    let (width, height) = (made.positive(builder, &pocket.width, scope), made.positive(builder, &pocket.height, scope));
    let (Some(width), Some(height), Some(laid)) = (width, height, ties.on_page(before)) else { return };
    let Some(inside) = at_spine(ties, before, laid, face(pocket.faces[1])) else { return };
    let Some(bounds) = ties.bounds(before) else { return };
    let flap = flaps.iter().any(|flap| same(&flap.over, before));
    let end = |side: PocketSide| match (pocket.open.contains(&side), flap && side == PocketSide::ForeEdge) {
        (_, true) => PocketEnd::Flap,
        (true, false) => PocketEnd::Open,
        (false, false) => PocketEnd::Sealed,
    };
    shut_as_said(builder, (ties, made, scope), (pocket, flap), laid.rect(bounds));
    let across = [end(PocketSide::Spine), end(PocketSide::ForeEdge)];
    let up = [end(PocketSide::Tail), end(PocketSide::Head)];
    // A tab that slides in between takes of its room.
    let slides = carried.is_some_and(|walls| {
        let is = |wall: &PanelAt| same(behind, wall) || same(before, wall);
        walls.into_iter().all(is)
    });
    let tab = if slides { Carry::tab_of(builder.album) } else { 0.0 };
    let flat = across == [PocketEnd::Sealed; 2]
        && ties
            .on_page(behind)
            .is_some_and(|laid| ties.bounds(behind).is_some_and(|bounds| laid.rect(bounds).width() > width + SAME));
    // What is inside may stand out of it under its flap, up to the flap's fold; at least half of it is inside.
    let beyond = if flap { [(page.width - width).min(width - tab).max(0.0), 0.0] } else { [0.0; 2] };
    let notch = ties.notches(before);
    builder.pocket(Pocket { beyond, notch, tab, flat, ..page.pocket((width, height), across, up, inside) });
}

/// Says where a pocket is closed although it is said to be open, or open although it is not said to be.
fn shut_as_said(
    builder: &mut Builder<'_>,
    (ties, made, scope): (&Ties, &MadeKind<'_>, &Scope<'_>),
    (pocket, flap): (&KindPocket, bool),
    front: Rect,
) {
    if made.file.is_built_in() {
        return;
    }
    for side in PocketSide::ALL.into_iter().filter(|side| !(flap && *side == PocketSide::ForeEdge)) {
        let (strip, long) = match side {
            PocketSide::Spine => (Rect::new(front.x0 - NEAR, front.y0, front.x0 + NEAR, front.y1), front.height()),
            PocketSide::ForeEdge => (Rect::new(front.x1 - NEAR, front.y0, front.x1 + NEAR, front.y1), front.height()),
            PocketSide::Tail => (Rect::new(front.x0, front.y0 - NEAR, front.x1, front.y0 + NEAR), front.width()),
            PocketSide::Head => (Rect::new(front.x0, front.y1 - NEAR, front.x1, front.y1 + NEAR), front.width()),
        };
        let upright = matches!(side, PocketSide::Spine | PocketSide::ForeEdge);
        let shares = ties.covered.iter().map(|seam| {
            let both = seam.intersect(strip);
            if both.width() <= SAME || both.height() <= SAME {
                0.0
            } else if upright {
                both.height()
            } else {
                both.width()
            }
        });
        // Seams at the neighbouring sides end here, too: only one that runs along this side closes it.
        let closed = shares.fold(0.0, f64::max) > MOSTLY * long;
        let said_open = pocket.open.contains(&side);
        let key = match (closed, said_open) {
            (true, true) => "kind-pocket-shut",
            (false, false) => "kind-pocket-open",
            _ => continue,
        };
        let text = Said::new(key).with("side", Arg::code(side.word())).with("with", made.values(builder, &[], scope));
        let help = if closed { "kind-pocket-shut-help" } else { "kind-pocket-open-help" };
        let help = Said::new(help).with("side", Arg::quoted(side.word()));
        builder.find(Finding::stop("kind-pocket", made.about.clone(), text).help(help).at(made.at(&pocket.place)));
    }
}

fn add_paper(
    builder: &mut Builder<'_>,
    page: &NewPage<'_>,
    (ties, made): (&Ties, &MadeKind<'_>),
    (paper, flaps): (&KindPaper, &[&KindFlap]),
) {
    let (Some(laid), Some((bounds, size))) = (ties.on_page(&paper.on), ties.whole(&paper.on)) else { return };
    // What is cut away altogether takes no paper.
    if size.0 <= SAME || size.1 <= SAME {
        return;
    }
    if ties.is_drawn(&paper.on) {
        let text = Said::new("kind-paper-drawn").with("panel", Arg::code(&paper.on.text));
        let finding = Finding::stop("kind-paper-drawn", made.about.clone(), text);
        builder.find(finding.help(Said::new("kind-paper-drawn-help")).at(made.at(&paper.place)));
        return;
    }
    let drawn = face(paper.face);
    if !made.file.is_built_in() && ties.is_stuck(&paper.on, drawn, bounds) {
        let text = Said::new("kind-paper-under-seam").with("panel", Arg::code(&paper.on.text));
        let finding = Finding::stop("kind-paper-under-seam", made.about.clone(), text);
        builder.find(finding.help(Said::new("kind-paper-under-seam-help")).at(made.at(&paper.place)));
        return;
    }
    // A paper has holes, and ends at its border: a cut that begins beyond that would be under it.
    let papered = builder.album.panels.as_ref().map(|panels| bounds.inset(-panels.reveal.mm()));
    if papered.is_some_and(|papered| ties.is_cut_over_a_fold(&paper.on, papered)) {
        let text = Said::new("kind-paper-over-cut").with("panel", Arg::code(&paper.on.text));
        let finding = Finding::stop("kind-paper-over-cut", made.about.clone(), text);
        builder.find(finding.help(Said::new("kind-paper-over-cut-help")).at(made.at(&paper.place)));
        return;
    }
    let on = if laid.is_face_up() == (drawn == Face::Front) { Face::Front } else { Face::Back };
    // As its reader sees the side: from the front the page runs to the right, from the back to the left.
    let to_right = if on == Face::Front { 1.0 } else { -1.0 };
    let spine = low(laid, 0, bounds);
    let left = if on == Face::Front { spine } else { bounds.x0 + bounds.x1 - spine };
    let corner = Point::new(left, low(laid, 1, bounds));
    let along = Vec2::new(laid.k[0] * to_right, 0.0);
    let Some(side) = ties.side(&paper.on, drawn, corner, along) else { return };
    let lies = laid.rect(bounds);
    let all = (lies.width() - page.width).abs() < SAME && (lies.height() - page.height).abs() < SAME;
    let what = paper.called.as_deref().unwrap_or_default();
    if all && paper.called.is_none() {
        page.face(builder, (on, what), size, side);
    } else {
        let [near, far] =
            if on == Face::Front { [lies.x0, page.width - lies.x1] } else { [page.width - lies.x1, lies.x0] };
        // At an edge to the last bit: patterns run on from there.
        let x = match (near.abs() < SAME, far.abs() < SAME) {
            (true, _) => 0.0,
            (false, true) => page.width - size.0,
            (false, false) => near,
        };
        let shows = flaps.iter().find(|flap| same(&flap.over, &paper.on)).and_then(|flap| beside(ties, page, flap, on));
        page.face_beside(builder, (on, what), size, side, FacePlace { at: (x, lies.y0), shows });
    }
    let holes = ties.holes(&paper.on, corner, along);
    if let Some(plain) = builder.plains.last_mut() {
        plain.holes = holes;
        plain.corners = ties.corners(&paper.on, (along.x, laid.k[1]));
    }
}

fn same(one: &PanelAt, other: &PanelAt) -> bool {
    one.piece == other.piece && one.panel == other.panel
}

/// What of its side of the page a flap from the fore-edge leaves free, as its reader sees that side.
fn beside(ties: &Ties, page: &NewPage<'_>, flap: &KindFlap, on: Face) -> Option<Rect> {
    let (wide, _) = ties.size(&flap.flap)?;
    let (from, to) = if on == Face::Front { (0.0, page.width - wide) } else { (wide, page.width) };
    Some(Rect { x0: from, y0: 0.0, x1: to, y1: page.height })
}

/// Says that a flap closes over a pocket.
fn close(
    builder: &mut Builder<'_>,
    page: &NewPage<'_>,
    (ties, made, scope): (&Ties, &MadeKind<'_>, &Scope<'_>),
    flap: &KindFlap,
) {
    let (Some(by), Some(over)) = (ties.number(&flap.flap), ties.number(&flap.over)) else { return };
    let (Some((overflap, _)), Some((pocket, _))) = (ties.size(&flap.flap), ties.size(&flap.over)) else { return };
    let depth = flap.riser.as_ref().and_then(|riser| ties.size(riser)).map_or(0.0, |(depth, _)| depth);
    let width = page.width;
    let named = |size: Option<usize>| size.and_then(|size| made.file.sizes.get(size));
    let field = |size: Option<usize>| named(size).map_or("", |size| size.name.as_str());
    let place = |size: Option<usize>| made.entry.values.place_of(field(size)).cloned();
    let [size, pocket_size] = [flap.size, flap.pocket_size];
    let path = page.path();
    builder.flap(Flap {
        name: page.name(),
        what: "flap",
        overlap: Some(overflap + pocket - width),
        long: overflap,
        length: [overflap, width],
        depth,
        caliper: page.caliper,
        over: [page.caliper, (width - pocket).max(0.0)],
        pocket: Some((builder.pockets().len(), Way::Across, width - scope.tab)),
        field: field(size),
        path: path.clone(),
        place: place(size),
        two: made.file.sizes.iter().any(|size| size.name == DEPTH.name()),
    });
    let (name, places, fields) = (page.name(), [place(size), place(pocket_size)], [field(size), field(pocket_size)]);
    let bitten = 0.0;
    builder.closing(Closing { name, flap: overflap, pocket, width, by, over, path, bitten, places, fields });
}
