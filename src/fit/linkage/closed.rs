// SPDX-License-Identifier: MIT
//! The pages of a closed album, side by side on its base.

use super::section::{Bar, CrossSection, Leaf};
use crate::contour::Point;

impl CrossSection {
    /// The pages standing on the flat base, side by side where they are too thick for their roots.
    ///
    /// Where they are, they stand as near to their roots as they can (least squares). A page never stands further
    /// aside than its gusset lets it; then it leans, its fore-edge where it has room.
    #[must_use]
    pub fn closed(&self) -> Vec<Bar> {
        let section = self.tamed();
        let places = section.side_by_side();
        let bar = |(leaf, place): (&Leaf, f64)| {
            let aside = (place - leaf.root).clamp(-leaf.gusset, leaf.gusset);
            let rise = ((leaf.gusset - aside) * (leaf.gusset + aside)).max(0.0).sqrt();
            let from = Point::new(leaf.root + aside, leaf.stands_back + rise);
            let lean = (place - from.x).clamp(-leaf.width, leaf.width);
            let tall = ((leaf.width - lean) * (leaf.width + lean)).max(0.0).sqrt();
            let root = Point::new(leaf.root, leaf.stands_back);
            leaf.bar(root, from, Point::new(from.x + lean, from.y + tall))
        };
        section.leaves.iter().zip(places).map(bar).collect()
    }

    /// Where the leaves' middles stand when each needs its thickness: as near to their roots as can be, by pooling
    /// neighbours that are too close (Ayer and others, *Annals of Mathematical Statistics* 26, 1955).
    fn side_by_side(&self) -> Vec<f64> {
        // Less the room that the leaves before it take, places only have to rise.
        let mut room = 0.0;
        let mut rooms = Vec::with_capacity(self.leaves.len());
        let mut pools: Vec<(f64, u32)> = Vec::with_capacity(self.leaves.len());
        for (index, leaf) in self.leaves.iter().enumerate() {
            if let Some(before) = index.checked_sub(1) {
                room += f64::midpoint(self.leaves[before].thickness, leaf.thickness);
            }
            rooms.push(room);
            let mut pool = (leaf.root - room, 1);
            while let Some(&(sum, count)) = pools.last()
                && sum / f64::from(count) > pool.0 / f64::from(pool.1)
            {
                pool = (pool.0 + sum, pool.1 + count);
                pools.pop();
            }
            pools.push(pool);
        }
        let means = pools.iter().flat_map(|&(sum, count)| (0..count).map(move |_| sum / f64::from(count)));
        means.zip(rooms).map(|(mean, room)| mean + room).collect()
    }
}
