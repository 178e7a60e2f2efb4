// SPDX-License-Identifier: MIT
//! How thick each page is with everything on and in it, before anything is folded in space.
//!
//! A page lies flat: every piece of it is drawn where it lies on the wall that its tab slides along, and thickness is counted
//! from layer to layer. Folds of more than a right angle turn their panel over, all others are taken as flat. Before there is a
//! spine each page is taken to hang by one tab, afterwards by those that it has. The closed album is as thick as the pages are
//! where all of them together are thickest: seams of one page may lie where the next has none.

use crate::album::Album;
use crate::contour::{Contour, Pile, columns, pile};
use crate::cutter::Cutter;
use crate::finding::Level;
use crate::length::Length;
use crate::net::{Fold, Net};
use crate::parts::bond::{Bond, Face, Hold, Side};
use crate::parts::build::builder::Builder;
use crate::parts::kinds::make;
use crate::parts::kit::{Kit, Owner};
use crate::parts::pages::leaf::CONTENT;
use crate::parts::papers::panel;
use crate::parts::spines::carry::Carry;
use crate::parts::spines::fields::PITCH;
use kurbo::Affine;
use std::collections::VecDeque;

/// By page: its greatest thickness, mm: its card, the tab of its spine, its panels, what is in its pockets, its content. 0
/// for an album whose pages do not come out.
#[must_use]
pub fn page_thickness(album: &Album, cutter: &Cutter) -> Vec<f64> {
    // A spine that asks for its pages' thickness is told one, so that nothing runs in circles.
    let mut alone = album.clone();
    alone.spine.values.set_length(PITCH.name(), Length::from_mm(1.0));
    let mut builder = Builder::new(&alone, cutter);
    for (index, page) in alone.pages.iter().enumerate() {
        make(&mut builder, page, index + 1);
    }
    if let Some(panels) = &alone.panels {
        panel::panels(&mut builder, panels);
    }
    for (index, insert) in alone.inserts.iter().enumerate() {
        make(&mut builder, insert, index + 1);
    }
    if builder.findings().iter().any(|finding| finding.level == Level::Stop) {
        return vec![0.0; album.pages.len()];
    }
    piles(&builder).iter().zip(&album.pages).map(|(pile, page)| pile.greatest() + page.mm(CONTENT)).collect()
}

/// How thick all pages are together where they are thickest, mm, as they hang on their spine.
pub(in crate::parts) fn all_pages(builder: &Builder<'_>) -> f64 {
    let content: f64 = builder.album.pages.iter().map(|page| page.mm(CONTENT)).sum();
    let columns = columns(&piles(builder), 0.0, builder.album.page.width.mm());
    content + columns.iter().map(|column| column.iter().sum()).fold(0.0, f64::max)
}

/// By page: its layers, x from the spine.
fn piles(builder: &Builder<'_>) -> Vec<Pile> {
    let (kit, album) = (builder.kit(), builder.album);
    let of = |(index, of_page): (usize, OfPage)| {
        let layers = builder.mounts.get(index).map(|mount| of_page.layers(kit, album, &mount.front));
        pile(&layers.unwrap_or_default())
    };
    sorted(kit, album).into_iter().enumerate().map(of).collect()
}

/// What belongs to one page: pieces with their thickness, and the bonds between them.
#[derive(Clone, Debug, Default)]
struct OfPage {
    pieces: Vec<(usize, f64)>,
    bonds: Vec<usize>,
    /// How many tabs of the spine it hangs by.
    tabs: u16,
}

/// Sorts pieces and bonds by page, in one walk over each.
fn sorted(kit: &Kit, album: &Album) -> Vec<OfPage> {
    let mut by_page = vec![OfPage::default(); album.pages.len()];
    let mut page_of: Vec<Option<usize>> = kit
        .pieces
        .iter()
        .map(|piece| if let Owner::Page(page) = piece.owner { page.checked_sub(1) } else { None })
        .collect();
    let mut thick: Vec<f64> = kit
        .pieces
        .iter()
        .map(|piece| kit.parts.get(piece.part).map_or(0.0, |part| album.caliper(part.stock)))
        .collect();
    for insert in &kit.inserts {
        let page =
            insert.pocket.and_then(|pocket| kit.pockets.get(pocket)).and_then(|pocket| pocket.page.checked_sub(1));
        if let (Some(of), Some(thickness)) = (page_of.get_mut(insert.piece), thick.get_mut(insert.piece)) {
            (*of, *thickness) = (page, insert.thickness);
        }
    }
    for (piece, page) in page_of.iter().enumerate() {
        if let Some(of_page) = page.and_then(|page| by_page.get_mut(page)) {
            of_page.pieces.push((piece, thick[piece]));
        }
    }
    let page = |side: &Side| page_of.get(side.piece).copied().flatten();
    for (number, bond) in kit.bonds.iter().enumerate() {
        if let Some(of_page) =
            page(&bond.one).filter(|one| page(&bond.other) == Some(*one)).and_then(|page| by_page.get_mut(page))
        {
            of_page.bonds.push(number);
        }
        let hangs = kit.pieces.get(bond.one.piece).is_some_and(|piece| piece.owner == Owner::Spine);
        if let Some(of_page) = page(&bond.other).filter(|_| hangs).and_then(|page| by_page.get_mut(page)) {
            // A leaf has one of two tabs stuck on it that are stuck to each other.
            let twin = bond.hold == Hold::Stuck && kit.twin((bond.one.piece, bond.one.panel)).is_some();
            of_page.tabs += if twin { 2 } else { 1 };
        }
    }
    by_page
}

/// An outline in the frame of the page's wall, and how thick it is, mm.
type PageLayer = (Contour, f64);

impl OfPage {
    fn layers(&self, kit: &Kit, album: &Album, ground: &Side) -> Vec<PageLayer> {
        let mut layers = Vec::new();
        for (piece, place) in self.places(kit, ground) {
            let thickness =
                self.pieces.iter().find(|(number, _)| *number == piece).map_or(0.0, |(_, thickness)| *thickness);
            let net = &kit.pieces[piece].net;
            // What is folded and put in has one thickness in all, where its root lies.
            let put_in = matches!(kit.pieces[piece].owner, Owner::Insert(_));
            let folded = net.folds.iter().any(|fold| fold.angle.abs() > 0.0);
            let count = if put_in && folded { 1 } else { net.panels.len() };
            for (panel, own) in net.panels.iter().zip(flattened(net)).take(count) {
                let to = place * own;
                layers.push((moved(&panel.outline, to), thickness));
            }
            if let Owner::Page(page) = kit.pieces[piece].owner {
                let prints = kit.prints_on(page).filter(|print| print.piece == piece);
                let lies = place * flattened(net).first().copied().unwrap_or_default();
                layers.extend(prints.filter_map(|print| Some((moved(&print.outline(kit)?, lies), print.thickness))));
            }
        }
        // The tabs lie along the spine edge, on the side where the wall is.
        let wall = kit.pieces.get(ground.piece).and_then(|piece| piece.net.panels.get(ground.panel));
        if let Some(wall) = wall.map(|panel| panel.outline.bounds()) {
            let tab = Carry::tab_of(album);
            let inwards = if ground.at.x < wall.center().x {
                (ground.at.x, ground.at.x + tab)
            } else {
                (ground.at.x - tab, ground.at.x)
            };
            let outline = Contour::rectangle(inwards.0, wall.y0, inwards.1 - inwards.0, wall.height());
            layers.push((outline, f64::from(self.tabs.max(1)) * album.caliper(album.spine.stock)));
            // Counted from the spine on.
            let from_spine = if inwards.0 < ground.at.x {
                Affine::new([-1.0, 0.0, 0.0, 1.0, ground.at.x, 0.0])
            } else {
                Affine::translate((-ground.at.x, 0.0))
            };
            for (outline, _) in &mut layers {
                *outline = moved(outline, from_spine);
            }
        }
        layers
    }

    /// Where each piece lies, as a move from its own frame.
    fn places(&self, kit: &Kit, ground: &Side) -> Vec<(usize, Affine)> {
        let own = |side: &Side| {
            let net = &kit.pieces.get(side.piece)?.net;
            flattened(net).get(side.panel).copied()
        };
        let Some(first) = own(ground) else { return Vec::new() };
        let mut places = vec![(ground.piece, first.inverse())];
        let mut next = VecDeque::from(places.clone());
        while let Some((piece, place)) = next.pop_front() {
            for bond in self.bonds.iter().filter_map(|&bond| kit.bonds.get(bond)) {
                for (here, there) in [(&bond.one, &bond.other), (&bond.other, &bond.one)] {
                    if here.piece != piece || places.iter().any(|(placed, _)| *placed == there.piece) {
                        continue;
                    }
                    let (Some(on), Some(its)) = (own(here), own(there)) else { continue };
                    let place = place * on * across(bond, here, there) * its.inverse();
                    places.push((there.piece, place));
                    next.push_back((there.piece, place));
                }
            }
        }
        places
    }
}

fn moved(outline: &Contour, to: Affine) -> Contour {
    let map = |point| to * point;
    let moved = if to.determinant() < 0.0 { outline.mirrored(map) } else { outline.mapped(map) };
    moved.counter_clockwise()
}

/// By panel: where it lies when its net is folded flat, seen from the root's front.
fn flattened(net: &Net) -> Vec<Affine> {
    let mut places: Vec<Option<Affine>> = vec![None; net.panels.len()];
    if let Some(root) = places.first_mut() {
        *root = Some(Affine::IDENTITY);
    }
    for _ in 0..net.folds.len() {
        for fold in &net.folds {
            let [near, far] = fold.between;
            if let (Some(Some(place)), Some(None)) = (places.get(near).copied(), places.get(far)) {
                // Two quarter turns are half a turn about the middle of what stands between them.
                let before = net.folds.iter().find(|before| before.between[1] == near && is_quarter(before));
                places[far] = Some(match before.filter(|before| is_quarter(fold) && before.sense == fold.sense) {
                    Some(before) => place * Affine::reflect(before.from.midpoint(fold.from), fold.to - fold.from),
                    None => place * turned_over(fold),
                });
            }
        }
    }
    places.into_iter().map(Option::unwrap_or_default).collect()
}

fn is_quarter(fold: &Fold) -> bool {
    fold.angle.abs() > 0.0 && fold.angle.abs() <= 90.0 && fold.from != fold.to
}

fn turned_over(fold: &Fold) -> Affine {
    let along = fold.to - fold.from;
    if fold.angle.abs() > 90.0 && along.hypot2() > 0.0 { Affine::reflect(fold.from, along) } else { Affine::IDENTITY }
}

/// From the plane of one side of a bond to that of the other. Two fronts, or two backs, lie on each other mirrored.
fn across(bond: &Bond, here: &Side, there: &Side) -> Affine {
    let frame = |side: &Side, mirrored: bool| {
        let (x, sign) = (side.along, if mirrored { -1.0 } else { 1.0 });
        Affine::new([x.x, x.y, -x.y * sign, x.x * sign, side.at.x, side.at.y])
    };
    let same = (bond.one.face == Face::Front) == (bond.other.face == Face::Front);
    frame(here, false) * frame(there, same).inverse()
}
