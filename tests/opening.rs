// SPDX-License-Identifier: MIT
//! The album laid open as a plane linkage: how its leaves lie, and by how much they don't.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop where it fails")]

mod common;

use common::{INCH, near};
use hingeleaf::contour::{Point, Vec2};
use hingeleaf::fit::linkage::{Bar, Leaf, Opening, Section, reach};
use proptest::prelude::*;
use std::f64::consts::FRAC_PI_2;

/// Pages a pitch apart, all alike.
fn album(pages: u32, pitch: f64, gusset: f64, thickness: f64, width: f64) -> Section {
    let leaf = |number: u32| Leaf {
        root: f64::from(number) * pitch,
        gusset,
        width,
        thickness,
        weight: 1.0,
        stands_back: 0.0,
        cover: false,
    };
    Section { base: f64::from(pages.saturating_sub(1)) * pitch, leaves: (0..pages).map(leaf).collect(), free: true }
}

/// The four-page album of 6 1/4 x 8 1/2 in with pitch and gussets of 1/4 in (sizes: common practice, no source).
fn classic(thickness: f64) -> Section {
    album(4, INCH / 4.0, INCH / 4.0, thickness, 6.25 * INCH)
}

fn held(section: Section) -> Section {
    Section { free: false, ..section }
}

/// Every opening of an album.
fn openings(section: &Section) -> impl Iterator<Item = Opening> {
    (1..section.leaves.len()).map(|between| section.opened(between))
}

/// w² = h² + s'², the taut gusset as the hypotenuse: w 12.7, h 8.0 gives 12.7 - sqrt(161.29 - 64) = 2.836 and
/// asin(8 / 12.7) = 39.04 degrees; with the stack's edge 10.0 away it takes sqrt(64 + 100) = 12.806.
#[test]
fn a_gusset_reaches_over_a_stack_or_not() {
    let flat = reach(12.7, 8.0, 0.0).unwrap();
    near(flat.shift, 2.836, 5e-4);
    near(flat.angle.to_degrees(), 39.04, 5e-3);
    assert_eq!(reach(12.7, 8.0, 10.0), None);
    assert!(reach(12.807, 8.0, 10.0).is_some());
    assert!(reach(12.806, 8.0, 10.0).is_none(), "sqrt(164) is 12.80625");
    // As long as the stack is high: it stands upright and is drawn in by its whole length.
    let upright = reach(8.0, 8.0, 0.0).unwrap();
    near(upright.shift, 8.0, 1e-9);
    near(upright.angle, FRAC_PI_2, 1e-9);
    assert_eq!(reach(7.999, 8.0, 0.0), None);
    near(reach(0.0, 0.0, 0.0).unwrap().shift, 0.0, 0.0);
    assert_eq!(reach(f64::NAN, 1.0, 0.0), None);
    assert_eq!(reach(12.7, -1.0, 0.0), None);
}

/// The same through the whole album, its base held flat: the upper of two pages, its middle 8 mm over the root.
#[test]
fn a_leaf_on_a_stack_is_drawn_in_as_by_the_right_triangle() {
    let mut section = held(album(3, 6.0, 12.7, 1.0, 150.0));
    section.leaves[0].thickness = 7.5;
    let bar = section.opened(2).bars[1];
    near(bar.from.y, 8.0, 1e-9);
    near(bar.to.y, 8.0, 1e-9);
    near(12.7 - (bar.root.x - bar.from.x), 2.836, 5e-4);
    // The lower page is 15 thick: 15.5 is more than the gusset, and the upper one lifts.
    section.leaves[0].thickness = 15.0;
    assert!(section.opened(2).lift > 1.0);
}

/// A page that leans: its gusset is square to it, its lower face touches the corner of the page below.
#[test]
fn a_leaning_page_touches_two_circles() {
    let mut section = held(album(3, 20.0, 5.0, 2.0, 150.0));
    section.leaves[0].thickness = 9.0;
    let opening = section.opened(2);
    let [low, high, _] = opening.bars[..] else { panic!("three leaves") };
    assert!(opening.slope > 0.01);
    let along = (high.to - high.from) / 150.0;
    near((high.from - high.root).dot(along), 0.0, 1e-9);
    near(high.from.distance(high.root), 5.0, 1e-9);
    let corner = low.from + Vec2::new(0.0, 4.5);
    near((corner - high.from).cross(along).abs(), 1.0, 1e-9);
}

/// Common practice, no source: with gussets of 1/4 in pages of 1 to 1.5 mm lie flat wherever the album is opened.
#[test]
fn the_four_page_album_lies_flat() {
    for thickness in [1.0, 1.25, 1.5] {
        for opening in openings(&classic(thickness)) {
            near(opening.lift, 0.0, 1e-9);
            near(opening.tilt, 0.0, 0.0);
        }
    }
}

/// With one score in place of the gusset a page turns at its root and has to climb over its neighbour: at least half
/// its own thickness and all of the other's within one pitch.
#[test]
fn one_score_is_worse_than_a_gusset() {
    for (pages, by) in [(3, 2.0), (4, 10.0), (8, 10.0)] {
        let section = album(pages, INCH / 4.0, INCH / 4.0, 1.2, 6.25 * INCH);
        let (gusset, score) = (section.worst().unwrap().1, section.one_score().worst().unwrap().1);
        assert!(score.lift > gusset.lift + by, "{pages} pages: {} and {}", score.lift, gusset.lift);
    }
    // Held flat, in the middle: the line is 0.6 above a corner that stands 6.35 out and 1.2 up.
    let score = held(classic(1.2)).one_score().opened(2);
    let slope = (1.2_f64 / 6.35).atan() + (0.6 / 6.35_f64.hypot(1.2)).asin();
    near(score.slope, slope, 1e-9);
    near(score.lift, 158.75 * slope.sin(), 1e-9);
}

/// A single page, the flat base of many: with gussets as long as the higher stack nothing lifts. 19 pages of 1.2 mm
/// stand 22.8 mm high, the middle of the topmost 22.2.
#[test]
fn gussets_as_long_as_the_stack_is_high_lie_flat() {
    let section = held(album(20, 6.0, 22.3, 1.2, 150.0));
    assert!(openings(&section).all(|opening| opening.lift < 1e-9));
    let section = held(album(20, 6.0, 22.0, 1.2, 150.0));
    assert!(section.worst().unwrap().1.lift > 1e-3);
    near(held(album(20, 6.0, 1.0, 1.2, 150.0)).gusset_for(0.0, 0.1).unwrap(), 22.2, 1e-6);
}

/// In the long run each page that leans rises by its thickness on the way of one pitch: sin(slope) = t / p.
#[test]
fn many_leaning_pages_take_the_slope_of_their_fan() {
    let opening = held(album(60, 6.0, 6.0, 1.2, 150.0)).opened(59);
    near(opening.slope.sin(), 0.2, 1e-3);
}

#[test]
fn the_gusset_that_is_found_is_the_least() {
    for pages in [4, 10, 20] {
        let section = album(pages, 6.0, 6.0, 1.2, 150.0);
        let limit = 2.0_f64.to_radians();
        let found = section.gusset_for(limit, 0.5).unwrap();
        let slope = |gusset| {
            openings(&section.with_gussets(gusset)).map(|opening| opening.slope.abs()).fold(0.0, f64::max)
        };
        assert!(slope(found) <= limit, "{found}");
        assert!(slope(found - 0.5) > limit, "{found}");
    }
    assert_eq!(classic(1.2).gusset_for(0.1, 0.0), None);
    assert_eq!(classic(1.2).gusset_for(0.1, 1e-9), None, "4096 steps of a nanometre are too short");
    assert_eq!(album(1, 6.0, 6.0, 1.2, 150.0).gusset_for(0.0, 1.0), Some(0.0));
}

#[test]
fn covers_keep_their_joint() {
    let mut section = classic(1.2);
    section.leaves[0].cover = true;
    let one_score = section.one_score();
    near(one_score.leaves[0].gusset, 6.35, 0.0);
    near(one_score.leaves[1].gusset, 0.0, 0.0);
}

#[test]
fn closed_pages_stand_on_their_roots_or_side_by_side() {
    let section = album(5, 6.0, 6.0, 1.2, 150.0);
    for (bar, leaf) in section.closed().iter().zip(&section.leaves) {
        near(bar.from.x, leaf.root, 1e-9);
        near(bar.from.y, 6.0, 1e-9);
        near(bar.to.x, leaf.root, 1e-9);
        near(bar.to.y, 156.0, 1e-9);
    }
    // Five pages of 8 mm need 4 x 8 from the first middle to the last, and stand about the middle of the base.
    let thick = album(5, 6.0, 6.0, 8.0, 150.0);
    let places: Vec<f64> = thick.closed().iter().map(|bar| bar.to.x).collect();
    for (place, expected) in places.iter().zip([-4.0, 4.0, 12.0, 20.0, 28.0]) {
        near(*place, expected, 1e-9);
    }
    // Only the pair that is too close moves.
    let mut uneven = album(3, 6.0, 6.0, 1.0, 150.0);
    uneven.leaves[1].root = 0.4;
    let places: Vec<f64> = uneven.closed().iter().map(|bar| bar.from.x).collect();
    near(places[0], -0.3, 1e-9);
    near(places[1], 0.7, 1e-9);
    near(places[2], 12.0, 1e-9);
}

#[test]
fn one_page_and_none_are_no_trouble() {
    assert!(album(1, 6.0, 6.0, 1.0, 150.0).worst().is_none());
    let none = Section { base: 0.0, leaves: Vec::new(), free: true };
    assert!(none.worst().is_none() && none.closed().is_empty() && none.opened(3).bars.is_empty());
    assert_eq!(album(1, 6.0, 6.0, 1.0, 150.0).opened(0).bars.len(), 1);
    assert_eq!(album(1, 6.0, 6.0, 1.0, 150.0).opened(9).bars.len(), 1);
}

// ---- The same question asked another way: no tangents, no case for each way of lying, only "does it pass through
// anything?", asked of many positions.

/// Deeper than this, mm, is through.
const TOUCH: f64 = 1e-4;
/// How hard pages are drawn outward, as a share of their weight.
const PULL: f64 = 0.05;

/// The corners of a bar.
fn corners(from: Point, along: Vec2, width: f64, thickness: f64) -> [Point; 4] {
    let (far, up) = (from + along * width, Vec2::new(-along.y, along.x) * (thickness / 2.0));
    [from - up, far - up, far + up, from + up]
}

/// Whether two convex shapes share more than their edges: no line of either separates them.
fn through(one: &[Point], two: &[Point]) -> bool {
    let separated = |shape: &[Point], other: &[Point]| {
        (0..shape.len()).any(|index| {
            let way = shape[(index + 1) % shape.len()] - shape[index];
            if way.hypot() < 1e-12 {
                return false;
            }
            let normal = Vec2::new(-way.y, way.x) / way.hypot();
            let span = |points: &[Point]| {
                points.iter().map(|point| point.to_vec2().dot(normal)).fold((f64::MAX, f64::MIN), |(low, high), at| {
                    (low.min(at), high.max(at))
                })
            };
            let ((low, high), (other_low, other_high)) = (span(shape), span(other));
            high < other_low + TOUCH || other_high < low + TOUCH
        })
    };
    !separated(one, two) && !separated(two, one)
}

/// One side in its own frame, the base's end at x = 0 and outward to the right.
struct Tried {
    base: [Point; 2],
    bars: Vec<[Point; 4]>,
    energy: f64,
    slope: f64,
}

impl Tried {
    fn new(base: f64, rise: f64) -> Self {
        let end = Point::new(0.0, (-base * rise.sin()).max(0.0));
        Self { base: [end, end + Vec2::new(-rise.cos(), rise.sin()) * base], bars: Vec::new(), energy: 0.0, slope: 0.0 }
    }

    fn free(&self, root: Point, from: Point, slope: f64, leaf: &Leaf) -> bool {
        let bar = corners(from, Vec2::new(slope.cos(), slope.sin()), leaf.width, leaf.thickness);
        let inward = self.base[1] - self.base[0];
        let below = (from - root).dot(Vec2::new(inward.y, -inward.x)) < -TOUCH * inward.hypot();
        bar.iter().all(|corner| corner.y > -TOUCH)
            && !through(&bar, &self.base)
            // A gusset leaves the base upward, but for the one at its end, and passes through no page.
            && !(below && root.distance(self.base[0]) > TOUCH)
            && !self.bars.iter().any(|other| through(&bar, other) || through(&[root, from], other))
    }

    /// How far down a page swings from upright; none where it can't even stand.
    fn swing(&self, root: Point, from: Point, leaf: &Leaf, start: f64, step: f64) -> Option<f64> {
        let mut last = None;
        let mut slope = start;
        while slope >= -FRAC_PI_2 {
            match (self.free(root, from, slope, leaf), last) {
                (true, _) => last = Some(slope),
                (false, Some(_)) => break,
                (false, None) => {}
            }
            slope -= step;
        }
        let (mut high, mut low) = (last?, last? - step);
        for _ in 0..14 {
            let middle = f64::midpoint(high, low);
            if self.free(root, from, middle, leaf) { high = middle } else { low = middle }
        }
        Some(high)
    }

    fn lay(&mut self, leaf: &Leaf, from_end: f64) -> Option<()> {
        let inward = self.base[1] - self.base[0];
        let root = if from_end > 0.0 { self.base[0] + inward / inward.hypot() * from_end } else { self.base[0] };
        let mut best: Option<(f64, f64, f64, f64)> = None;
        let mut about = (0.0, 180.0);
        for (count, spread) in [(72, 180.0), (20, 6.0), (20, 0.7)] {
            about.1 = spread;
            for number in 0..=count {
                let angle = (about.0 + spread * (2.0 * f64::from(number) / f64::from(count) - 1.0)).to_radians();
                for share in [1.0, 0.8, 0.6, 0.3] {
                    let from = root + Vec2::new(angle.cos(), angle.sin()) * (leaf.gusset * share);
                    let Some(slope) = self.swing(root, from, leaf, FRAC_PI_2, 0.06) else { continue };
                    let middle = from + Vec2::new(slope.cos(), slope.sin()) * (leaf.width / 2.0);
                    let cost = middle.y - PULL * middle.x;
                    if best.is_none_or(|best| cost < best.0) {
                        best = Some((cost, angle.to_degrees(), share, slope));
                    }
                }
            }
            about.0 = best?.1;
        }
        let (_, angle, share, slope) = best?;
        let from = root + Vec2::new(angle.to_radians().cos(), angle.to_radians().sin()) * (leaf.gusset * share);
        self.bars.push(corners(from, Vec2::new(slope.cos(), slope.sin()), leaf.width, leaf.thickness));
        self.energy += leaf.weight * (from.y + leaf.width / 2.0 * slope.sin());
        self.slope = slope;
        Some(())
    }
}

/// Both sides at one tilt: energy and the slopes of the two pages on top.
fn tried(section: &Section, between: usize, tilt: f64) -> Option<(f64, [f64; 2])> {
    let mut sides = [Tried::new(section.base, tilt), Tried::new(section.base, -tilt)];
    for leaf in &section.leaves[..between] {
        sides[0].lay(leaf, leaf.root)?;
    }
    for leaf in section.leaves[between..].iter().rev() {
        sides[1].lay(leaf, section.base - leaf.root)?;
    }
    Some((sides[0].energy + sides[1].energy, [sides[0].slope, sides[1].slope]))
}

fn energy(section: &Section, opening: &Opening) -> f64 {
    section.leaves.iter().zip(&opening.bars).map(|(leaf, bar)| leaf.weight * bar.from.midpoint(bar.to).y).sum()
}

#[test]
fn explore() {
    for (name, section) in small_albums() {
        for between in 1..section.leaves.len() {
            let opening = section.opened(between);
            let ours = energy(&section, &opening);
            let same = tried(&section, between, opening.tilt).unwrap_or_default();
            let mut best = (f64::MAX, 0.0, [0.0; 2]);
            for step in -36..=36 {
                let tilt = f64::from(step) * 2.5_f64.to_radians();
                let Some((energy, slopes)) = tried(&section, between, tilt) else { continue };
                if energy < best.0 { best = (energy, tilt, slopes) }
            }
            println!("{name} {between}: ours {ours:.3} tilt {:.1} slope {:.2} | at the same tilt {:.3} {:.2?} | best {:.3} tilt {:.1} {:.2?}",
                opening.tilt.to_degrees(), opening.slope.to_degrees(), same.0, same.1.map(f64::to_degrees), best.0, best.1.to_degrees(), best.2.map(f64::to_degrees));
        }
    }
}

fn small_albums() -> Vec<(&'static str, Section)> {
    let mut mixed = album(4, 6.0, 6.0, 1.2, 150.0);
    mixed.leaves[1].thickness = 4.0;
    mixed.leaves[3].thickness = 6.0;
    mixed.leaves[2].weight = 3.0;
    vec![
        ("classic", classic(1.2)),
        ("three thick", album(3, 6.0, 6.0, 5.0, 150.0)),
        ("four thick", album(4, 6.0, 6.0, 5.0, 150.0)),
        ("five thick", album(5, 6.0, 6.0, 4.0, 150.0)),
        ("short gussets", album(4, 8.0, 2.0, 2.0, 120.0)),
        ("wide pitch", album(4, 14.0, 6.0, 4.0, 100.0)),
        ("two", album(2, 12.0, 5.0, 9.0, 100.0)),
        ("mixed", mixed),
    ]
}
