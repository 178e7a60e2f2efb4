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
        let fits = |page: Page, rest: Rest| self.fits(page, rest);
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
            for corner in corners {
                let over = || {
                    let along = leans(way, corner);
                    self.lies_over(corner, way, Rest { from: way.root + normal(along) * way.gusset, along })
                };
                if !self.may_lie_lower(way, corner, lowest) {
                    let lower = |rest: Rest| middle(way, rest) < lowest && fits(way, rest);
                    debug_assert!(!over().is_some_and(lower), "{way:?} lies over {corner:?} lower than {lowest}");
                    continue;
                }
                let Some(rest) = over() else { continue };
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

    /// Whether a page passes through nothing: neither the block, nor what is laid.
    fn fits(&self, page: Page, rest: Rest) -> bool {
        !Self::is_in_the_way(self.end, page, rest)
            && !Self::is_in_the_way(self.foot, page, rest)
            && self.beside_the_block(page, rest)
            && self.clears(page, rest)
    }

    /// Whether a page that lies over a corner could rest with its middle lower than this, as far as is known beforehand.
    ///
    /// Heights are told from the surface, and ways along it, from the upper corner C of the last spine edge. The page's half
    /// thickness is d, its width w; it is turned down from the surface by an angle of sine s and cosine c. The corner K is
    /// `high`; square to it by d is T, on the page's line: T = K + d c. As [`Self::lies_over`] works it out, the spine edge is at
    /// T + o along the line, with o between 0 and -b, `back`: no further from T than the root is. The fore-edge is at T - (o + w) s
    /// and about d c high, for its lower corner is to be on the surface: so |s| <= (|K| + d) / (w - b), `steepest`, and s has
    /// the sign of K - d (1 - c).
    ///
    /// The root R is off the page's line by c |RK| up, less or more s |RK| along, less d: more than a gusset is too far.
    ///
    /// Under the surface (K < 0) the page rises by |s| >= |K| / w. C is in front of the spine edge by o and |s| |K|, less the c a
    /// by which K is further out than C; and over the page's line by c |K| + |s| a, less d: there the page goes through C.
    ///
    /// Over it, where s >= 0, the lower corner of the fore-edge is not under the surface: (o + w) s <= K. The middle is at
    /// T - (o + w/2) s, and as o + w/2 <= (o + w) / 2, at d c + K/2 or higher; where s < 0, at T or higher, for o + w/2 >= 0.
    /// Along the surface it is from w/2 - b less d to w/2 and d beyond the corner.
    fn may_lie_lower(&self, page: Page, corner: Point, lowest: f64) -> bool {
        let Page { root, gusset, width, half } = page;
        let (start, surface) = self.surface;
        let up = normal(surface);
        let way = corner - start;
        let (aside, high) = (way.dot(surface), way.dot(up));
        let back = (root - corner).hypot() + half;
        let steepest = (high.abs() + half + SLACK) / (width - back);
        // No page that is turned by so little from such a surface points inward.
        if !(0.0..0.5).contains(&steepest) || surface.x < 0.6 {
            return true;
        }
        let cosine = 1.0 - steepest * steepest;
        let to_root = root - corner;
        if cosine * to_root.dot(up) - steepest * to_root.dot(surface).abs() - half > gusset + SLACK {
            return false;
        }
        if high < 0.0 {
            let in_front = high * high / width - aside > SLACK;
            let over_it = steepest * aside.min(0.0) - cosine * high > SLACK;
            return self.corners.is_empty() || !(in_front && over_it);
        }
        let beyond = if surface.y > 0.0 { (width / 2.0 - back) * cosine - half } else { width / 2.0 + half };
        let low = start.y + (aside + beyond) * surface.y + (high / 2.0 + half * cosine) * surface.x;
        width < 2.0 * back || low - SLACK < lowest
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
