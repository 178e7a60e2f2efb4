// SPDX-License-Identifier: MIT
//! How thick a page is, and where.

use super::Folded;
use super::overlap::points;
use crate::contour::{Contour, Pile, Point, pile};
use crate::parts::{Bond, Insert, Kit, Owner};

/// Something that lies in a page: an outline in the page's frame, and its thickness, mm.
type StackLayer = (Contour, f64);

impl Folded {
    /// The layers of a page (from 1), x from the spine, the hinge's tabs and what is in its pockets included.
    #[must_use]
    pub fn stack(&self, kit: &Kit, page: usize) -> Pile {
        pile(&self.layers(kit, page))
    }

    /// Everything that lies in a page, x from the spine.
    fn layers(&self, kit: &Kit, page: usize) -> Vec<StackLayer> {
        // A page is measured in the frame of the face that the spine's tab lies on, which knows where the spine is; where
        // there is none, of a wall of its pocket.
        let pockets: Vec<usize> = (0..kit.pockets.len()).filter(|&pocket| kit.pockets[pocket].page == page).collect();
        let owner = |piece: usize| kit.pieces.get(piece).map(|piece| piece.owner);
        let hangs = |bond: &&Bond| {
            owner(bond.one.piece) == Some(Owner::Spine) && owner(bond.other.piece) == Some(Owner::Page(page))
        };
        let tabs: Vec<&Bond> = kit.bonds.iter().filter(hangs).collect();
        let hung_by = |piece, panel| tabs.iter().any(|bond| (bond.one.piece, bond.one.panel) == (piece, panel));
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
            layers.push((Contour::polygon(corners).counter_clockwise(), thickness));
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
                // Of two tabs that are stuck to each other a leaf has but one stuck on it, and the other lies on that.
                if let Some(twin) = kit.twin((number, tab.one.panel)).filter(|twin| !hung_by(number, *twin)) {
                    add(number, twin, caliper);
                }
            }
        }
        let mine = |insert: &&Insert| insert.pocket.is_some_and(|pocket| pockets.contains(&pocket));
        for insert in kit.inserts.iter().filter(mine) {
            add(insert.piece, 0, insert.thickness);
        }
        for print in kit.prints_on(page) {
            let (Some(outline), Some(holds)) = (print.outline(kit), self.seen_on(kit, (print.piece, 0), ground)) else {
                continue;
            };
            // It lies upright in the middle of what holds it, wherever that is seen.
            let middle = Contour::polygon(holds.0.iter().map(|point| (point.x, point.y))).bounds().center();
            let by = middle - outline.bounds().center();
            let corners = points(&outline).into_iter().map(|point| {
                let at = point + by;
                ((at - inside.at).cross(inside.along), (at - inside.at).dot(inside.along))
            });
            layers.push((Contour::polygon(corners).counter_clockwise(), print.thickness));
        }
        // Where the wall is seen from its back the spine lies at the other hand; the page's own width decides.
        let reach: f64 =
            layers.iter().map(|(outline, _)| f64::midpoint(outline.bounds().x0, outline.bounds().x1)).sum();
        if reach < 0.0 {
            for (outline, _) in &mut layers {
                let mirrored = points(outline).into_iter().map(|point| (-point.x, point.y)).collect::<Vec<_>>();
                *outline = Contour::polygon(mirrored).counter_clockwise();
            }
        }
        layers
    }
}
