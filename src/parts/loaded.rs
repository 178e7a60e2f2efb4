// SPDX-License-Identifier: MIT
//! How thick pages get with all that is in and on them, before anything is folded in space.

use crate::album::Album;
use crate::contour::{Point, Rect};
use crate::length::tolerance::READ;
use crate::net::{Net, Use, lifted};
use crate::parts::bond::Hold;
use crate::parts::kit::{Kit, Owner};
use crate::parts::pages::leaf::CONTENT;

impl Kit {
    /// By page: at most how thick it is where it is thickest, mm: its pieces, panels and tabs, its content, everything in its
    /// pockets. Pieces are taken to lie over one another everywhere, so a page whose seams lie at different edges counts a
    /// caliper or two more than it has; never less.
    pub(super) fn loaded(&self, album: &Album) -> Vec<f64> {
        let mut loaded: Vec<f64> = album.pages.iter().map(|page| page.mm(CONTENT)).collect();
        let mut add = |page: usize, thickness: f64| {
            if let Some(sum) = page.checked_sub(1).and_then(|page| loaded.get_mut(page)) {
                *sum += thickness;
            }
        };
        let caliper = |piece: usize| {
            let part = self.pieces.get(piece).and_then(|piece| self.parts.get(piece.part));
            part.map_or(0.0, |part| album.caliper(part.stock))
        };
        for (number, piece) in self.pieces.iter().enumerate() {
            if let Owner::Page(page) = piece.owner {
                add(page, f64::from(layers(&piece.net)) * caliper(number));
            }
        }
        let owner = |piece: usize| self.pieces.get(piece).map(|piece| piece.owner);
        for bond in &self.bonds {
            if let (Some(Owner::Spine), Some(Owner::Page(page))) = (owner(bond.one.piece), owner(bond.other.piece)) {
                let mut tabs = 1.0;
                // A leaf has one of two tabs stuck on it that are stuck to each other.
                if bond.hold == Hold::Stuck && self.twin((bond.one.piece, bond.one.panel)).is_some() {
                    tabs = 2.0;
                }
                add(page, tabs * caliper(bond.one.piece));
            }
        }
        for insert in &self.inserts {
            if let Some(pocket) = insert.pocket.and_then(|pocket| self.pockets.get(pocket)) {
                add(pocket.page, insert.thickness);
            }
        }
        loaded
    }

    /// The tab of the same piece that is stuck to the back of this one, a piece and its panel.
    pub(crate) fn twin(&self, (piece, panel): (usize, usize)) -> Option<usize> {
        let of = |panel: usize| self.pieces.get(piece).and_then(|piece| piece.net.panels.get(panel));
        let is_tab = |panel: usize| of(panel).is_some_and(|panel| panel.purpose == Use::Tab);
        let pair = self
            .bonds
            .iter()
            .filter(|bond| bond.one.piece == piece && bond.other.piece == piece && bond.hold == Hold::Stuck)
            .map(|bond| [bond.one.panel, bond.other.panel])
            .find(|pair| pair.contains(&panel) && pair.iter().all(|panel| is_tab(*panel)))?;
        pair.into_iter().find(|other| *other != panel)
    }
}

/// The most panels of a piece that lie over one another when it is folded; boxes stand for panels.
fn layers(net: &Net) -> u32 {
    let boxes: Vec<Rect> = net
        .panels
        .iter()
        .zip(net.folded(0.0))
        .map(|(panel, stand)| {
            let bounds = panel.outline.bounds();
            let corner = |x: f64, y: f64| {
                let [x, y, _] = lifted(&stand, Point::new(x, y), 0.0);
                Point::new(x, y)
            };
            Rect::from_points(corner(bounds.x0, bounds.y0), corner(bounds.x1, bounds.y1))
        })
        .collect();
    // The most boxes lie over a spot just inside some box's left and some box's lower edge.
    let spots = boxes.iter().flat_map(|left| boxes.iter().map(move |low| Point::new(left.x0 + READ, low.y0 + READ)));
    let over = |spot: Point| boxes.iter().filter(|one| one.contains(spot)).map(|_| 1).sum();
    spots.map(over).max().unwrap_or(1)
}
