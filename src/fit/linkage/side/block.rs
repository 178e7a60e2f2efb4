// SPDX-License-Identifier: MIT
//! A side whose roots stand on a block that goes down to the base: where a page rests beside it, over it or over its foot.

use super::{LaidSide, Over, PRESS, Page, Rest, STANDS, TOUCHING, lowered, normal, share, tangent};
use crate::contour::{Point, Vec2};
use crate::length::tolerance::SAME;

impl LaidSide {
    /// Where a page rests beside or over what all roots stand on. It hangs from the block's corner, or lies over it, or over
    /// the block's foot where it has tipped; of what passes through nothing the lowest.
    pub(super) fn over_the_block(&self, page: Page, flush: Rest) -> Rest {
        let upright = Rest { from: page.root + Vec2::new(0.0, page.gusset), along: Vec2::new(0.0, 1.0) };
        // Behind a page that stands the next one stands too.
        if self.surface.1.x < STANDS && !self.bars.is_empty() {
            return upright;
        }
        let spent = (self.end - page.root).hypot();
        let hung = Page { root: self.end, gusset: (page.gusset - spent).max(0.0), ..page };
        let ways = [Some(page), (spent <= page.gusset + TOUCHING).then_some(hung)];
        let corners = [self.end, self.foot];
        let free = |page: Page, rest: Rest| {
            !corners.into_iter().any(|corner| Self::is_in_the_way(corner, page, rest))
                && self.beside_the_block(page, rest)
        };
        // Flat on what is there nothing lies lower.
        if (flush.along - self.surface.1).hypot() < TOUCHING && free(page, flush) && self.clears(page, flush) {
            return flush;
        }
        let mut best: Option<(f64, Rest)> = None;
        let mut try_this = |page: Page, rest: Rest| {
            let low = (page.width / 2.0).mul_add(rest.along.y, rest.from.y);
            let lower = best.is_none_or(|(least, _)| low < least - TOUCHING);
            if lower && free(page, rest) && self.clears(page, rest) {
                best = Some((low, rest));
            }
        };
        try_this(page, flush);
        let leans = |way: Page, corner: Point| tangent(way.root, way.gusset, way.half, corner);
        let over_of = |way: Page| {
            corners.map(|end| {
                let along = leans(way, end);
                Over { end, page: way, rest: Rest { from: way.root + normal(along) * way.gusset, along } }
            })
        };
        let mut over = [over_of(page); 2];
        if let Some(way) = ways[1] {
            over[1] = over_of(way);
        }
        self.lie_over(if ways[1].is_some() { over.as_flattened_mut() } else { &mut over[0] });
        for (way, over) in ways.into_iter().zip(over) {
            let Some(way) = way else { continue };
            try_this(way, self.settle(way));
            try_this(way, self.beside(way));
            for lies in over.iter().filter_map(Over::held) {
                try_this(way, lies);
            }
        }
        if let Some((_, rest)) = best {
            return rest;
        }
        // One that can't come down leans.
        for way in ways.into_iter().flatten() {
            for corner in corners {
                let rest = self.clear_of_corners(way, leans(way, corner));
                let low = (way.width / 2.0).mul_add(rest.along.y, rest.from.y);
                let lower = best.is_none_or(|(least, _)| low < least - TOUCHING);
                if lower && free(way, rest) && self.clears(way, rest) {
                    best = Some((low, rest));
                }
            }
        }
        best.map_or(upright, |(_, rest)| rest)
    }

    /// A page that hangs from its root along the side of the block, its fore-edge on what is there.
    fn beside(&self, page: Page) -> Rest {
        let Page { root, gusset, width, half } = page;
        let (start, surface) = self.surface;
        let up = Vec2::new(self.inward.y, -self.inward.x);
        let aside = half.min(gusset);
        let from = root - self.inward * aside - up * ((gusset - aside) * (gusset + aside)).max(0.0).sqrt();
        let high = (from - start).dot(normal(surface)) - half;
        Rest { from, along: lowered(surface, share(high, width)) }
    }

    /// Whether a spine edge stands beside the block or over it, not in it; its lower corner may press against the side a
    /// little.
    fn beside_the_block(&self, page: Page, rest: Rest) -> bool {
        let press = page.half * PRESS;
        let up = Vec2::new(self.inward.y, -self.inward.x);
        let out = |point: Point| (point - self.end).dot(up).max((self.end - point).dot(self.inward)) > -press - SAME;
        [rest.from, rest.from - normal(rest.along) * page.half].into_iter().all(out)
    }
}
