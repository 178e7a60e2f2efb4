// SPDX-License-Identifier: MIT
//! A side whose roots stand on a block that goes down to the base: where a page rests beside it, over it or over its foot.

use super::{LaidSide, PRESS, Page, Rest, SLACK, STANDS, TOUCHING, lowered, normal, share, tangent};
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
        let fits = |page: Page, rest: Rest| free(page, rest) && self.clears(page, rest);
        let flush_fits = fits(page, flush);
        // Flat on what is there nothing lies lower.
        if flush_fits && (flush.along - self.surface.1).hypot() < TOUCHING {
            return flush;
        }
        let middle = |page: Page, rest: Rest| (page.width / 2.0).mul_add(rest.along.y, rest.from.y);
        // Of each way, where it rests and where it rests beside the block, if it can; what is no lower than the other need
        // not be asked.
        let both = |page: Page, rest: Rest, rest_fits: bool| {
            let (low, beside) = (middle(page, rest), self.beside(page));
            let low_beside = middle(page, beside);
            let beside_fits = (!rest_fits || low_beside < low) && fits(page, beside);
            [(low, rest, rest_fits), (low_beside, beside, beside_fits)]
                .map(|(low, rest, fits)| fits.then_some((low, rest)))
        };
        let of_hung = ways[1].map_or([None; 2], |hung| {
            let rest = self.settle(hung);
            both(hung, rest, fits(hung, rest))
        });
        let known = [both(page, flush, flush_fits), of_hung];
        let lowest = known.as_flattened().iter().flatten().map(|(low, _)| *low).fold(f64::INFINITY, f64::min);
        let leans = |way: Page, corner: Point| tangent(way.root, way.gusset, way.half, corner);
        let mut best: Option<(f64, Rest)> = None;
        let lower = |best: &Option<(f64, Rest)>, low: f64| best.is_none_or(|(least, _)| low < least - TOUCHING);
        for (way, known) in ways.into_iter().zip(known) {
            let Some(way) = way else { continue };
            for (low, rest) in known.into_iter().flatten() {
                if lower(&best, low) {
                    best = Some((low, rest));
                }
            }
            for corner in corners.into_iter().filter(|corner| self.over_at_least(way, *corner) < lowest) {
                let along = leans(way, corner);
                let from = Rest { from: way.root + normal(along) * way.gusset, along };
                let Some(rest) = self.lies_over(corner, way, from) else { continue };
                let low = middle(way, rest);
                if lower(&best, low) && fits(way, rest) {
                    best = Some((low, rest));
                }
            }
        }
        if let Some((_, rest)) = best {
            return rest;
        }
        // One that can't come down leans.
        for way in ways.into_iter().flatten() {
            for corner in corners {
                let rest = self.clear_of_corners(way, leans(way, corner));
                let low = middle(way, rest);
                if lower(&best, low) && fits(way, rest) {
                    best = Some((low, rest));
                }
            }
        }
        best.map_or(upright, |(_, rest)| rest)
    }

    /// What the middle of a page that lies over a corner, and clears what is there, can't be lower than.
    ///
    /// Say its line runs along `a`, turned down from the surface by an angle of sine s >= 0 and cosine c >= 0; so it does
    /// where the corner is half a page over the surface or more. Heights are told from the surface. With the page's half
    /// thickness d and its width w, the line touches at T, d over the corner K, square to it: T = K + d c. The spine edge is
    /// at T + o a with o <= 0, the fore-edge at T - (o + w) s. That has to be d c over the surface at least, so
    /// (o + w) s <= K. The middle is at T - (o + w/2) s, and as o + w/2 <= (o + w) / 2, it is at d c + K/2 or higher.
    /// Along the surface the middle is w/2 + d beyond the corner at most, and before it by no more than the spine edge, which its
    /// gusset holds at the root.
    fn over_at_least(&self, page: Page, corner: Point) -> f64 {
        let (start, surface) = self.surface;
        let way = corner - start;
        let high = way.dot(normal(surface));
        if high < page.half + SAME || surface.x < 0.0 {
            return f64::NEG_INFINITY;
        }
        let aside = if surface.y > 0.0 {
            -(page.gusset + (page.root - corner).hypot() + page.half + SAME)
        } else {
            page.width / 2.0 + page.half
        };
        start.y + (way.dot(surface) + aside) * surface.y + high / 2.0 * surface.x - SLACK
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
