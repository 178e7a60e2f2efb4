// SPDX-License-Identifier: MIT
//! How thick a page is, and where.

use super::Folded;
use super::overlap::points;
use crate::contour::{Contour, Point};
use crate::parts::{Bond, Insert, Kit, Owner};

/// The layers of one page over its width.
#[derive(Clone, Debug, PartialEq)]
pub struct Stack {
    /// Strips from the spine to the fore-edge: where each ends, mm from the spine, and the greatest thickness in it, mm.
    pub strips: Vec<(f64, f64)>,
    /// Mean thickness over the page's face, mm.
    pub mean: f64,
}

impl Stack {
    /// The greatest thickness, mm.
    #[must_use]
    pub fn greatest(&self) -> f64 {
        self.strips.iter().map(|strip| strip.1).fold(0.0, f64::max)
    }

    /// The greatest thickness within these distances from the spine, mm.
    #[must_use]
    pub fn between(&self, from: f64, to: f64) -> f64 {
        let mut begin = f64::NEG_INFINITY;
        let mut most: f64 = 0.0;
        for &(end, thickness) in &self.strips {
            if begin < to && end > from {
                most = most.max(thickness);
            }
            begin = end;
        }
        most
    }
}

/// Something that lies in a page, as an outline in the page's frame.
struct Layer {
    outline: Contour,
    thickness: f64,
}

impl Folded {
    /// The layers of a page (from 1), the hinge's tabs and what is in its pockets included.
    #[must_use]
    pub fn stack(&self, kit: &Kit, page: usize) -> Stack {
        let layers = self.layers(kit, page);
        let ends = |of: fn(&Contour) -> [f64; 2]| {
            let mut ends: Vec<f64> = layers.iter().flat_map(|layer| of(&layer.outline)).collect();
            ends.sort_by(f64::total_cmp);
            ends.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
            ends
        };
        let (across, up) = (ends(|o| [o.bounds().x0, o.bounds().x1]), ends(|o| [o.bounds().y0, o.bounds().y1]));
        let mut strips = Vec::new();
        let (mut volume, mut area) = (0.0, 0.0);
        for x in across.windows(2) {
            let mut most: f64 = 0.0;
            for y in up.windows(2) {
                let middle = Point::new(f64::midpoint(x[0], x[1]), f64::midpoint(y[0], y[1]));
                let here: f64 = layers.iter().filter(|l| l.outline.contains(middle)).map(|l| l.thickness).sum();
                most = most.max(here);
                let cell = (x[1] - x[0]) * (y[1] - y[0]);
                volume += here * cell;
                area += if here > 0.0 { cell } else { 0.0 };
            }
            strips.push((x[1], most));
        }
        Stack { strips, mean: if area > 0.0 { volume / area } else { 0.0 } }
    }

    /// Everything that lies in a page, x from the spine.
    fn layers(&self, kit: &Kit, page: usize) -> Vec<Layer> {
        // A page is measured in the frame of the face that the spine's tab lies on, which knows where the spine is; where
        // there is none, of a wall of its pocket.
        let pockets: Vec<usize> = (0..kit.pockets.len()).filter(|&pocket| kit.pockets[pocket].page == page).collect();
        let owner = |piece: usize| kit.pieces.get(piece).map(|piece| piece.owner);
        let hangs = |bond: &&Bond| {
            owner(bond.one.piece) == Some(Owner::Spine) && owner(bond.other.piece) == Some(Owner::Page(page))
        };
        let tabs: Vec<&Bond> = kit.bonds.iter().filter(hangs).collect();
        let hung = tabs.first().map(|bond| bond.other);
        let inside = hung.or_else(|| pockets.first().map(|&pocket| kit.pockets[pocket].inside));
        let Some(inside) = inside else { return Vec::new() };
        let ground = (inside.piece, inside.panel);
        let mut layers = Vec::new();
        let mut add = |piece: usize, panel: usize, thickness: f64| {
            let Some((seen, _)) = self.seen_on(kit, (piece, panel), ground) else { return };
            // Away from the spine is positive, whichever face the frame is seen from.
            let ahead = |point: Point| (point - inside.at).cross(inside.along);
            let corners = seen.iter().map(|&point| (ahead(point), (point - inside.at).dot(inside.along)));
            layers.push(Layer { outline: Contour::polygon(corners).counter_clockwise(), thickness });
        };
        for (number, piece) in kit.pieces.iter().enumerate() {
            let tabs = tabs.iter().filter(|bond| bond.one.piece == number);
            let caliper = self.calipers[number];
            if piece.owner == Owner::Page(page) {
                for panel in 0..piece.net.panels.len() {
                    add(number, panel, caliper);
                }
            }
            for tab in tabs {
                add(number, tab.one.panel, caliper);
            }
        }
        let mine = |insert: &&Insert| insert.pocket.is_some_and(|pocket| pockets.contains(&pocket));
        for insert in kit.inserts.iter().filter(mine) {
            add(insert.piece, 0, insert.thickness);
        }
        // Where the wall is seen from its back the spine lies at the other hand; the page's own width decides.
        let reach: f64 =
            layers.iter().map(|layer| f64::midpoint(layer.outline.bounds().x0, layer.outline.bounds().x1)).sum();
        if reach < 0.0 {
            for layer in &mut layers {
                let mirrored = points(&layer.outline).into_iter().map(|point| (-point.x, point.y)).collect::<Vec<_>>();
                layer.outline = Contour::polygon(mirrored).counter_clockwise();
            }
        }
        layers
    }
}
