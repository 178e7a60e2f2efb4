// SPDX-License-Identifier: MIT
//! The album laid open as a plane linkage: how its leaves lie, and by how much they don't.

use crate::common::tried::{TOUCH, corners, through, tried};
use crate::common::{self, INCH, near};
use hingeleaf::contour::{Point, Vec2};
use hingeleaf::fit;
use hingeleaf::fit::linkage::{Bar, CrossSection, Leaf, Opening, reach};
use proptest::prelude::*;
use std::f64::consts::FRAC_PI_2;

/// Pages a pitch apart, all alike.
fn album(pages: u32, pitch: f64, gusset: f64, thickness: f64, width: f64) -> CrossSection {
    let leaf = |number: u32| Leaf {
        root: f64::from(number) * pitch,
        gusset,
        width,
        thickness,
        weight: 1.0,
        stands_back: 0.0,
        cover: false,
    };
    CrossSection {
        base: f64::from(pages.saturating_sub(1)) * pitch,
        leaves: (0..pages).map(leaf).collect(),
        free: true,
        loose: false,
    }
}

/// The four-page album of 6 1/4 x 8 1/2 in with pitch and gussets of 1/4 in (sizes: common practice, no source).
fn classic(thickness: f64) -> CrossSection {
    album(4, INCH / 4.0, INCH / 4.0, thickness, 6.25 * INCH)
}

/// Pages on a block of guards and stubs 19 mm deep, as thick as they are; guards are 0.6 thick.
fn on_stubs(pages: u32, thickness: f64, gusset: f64) -> CrossSection {
    let mut section = album(pages, thickness, gusset, thickness, 148.0);
    section.base = f64::from(pages) * thickness;
    for leaf in &mut section.leaves {
        (leaf.root, leaf.stands_back) = (leaf.root + 0.3, 19.0);
    }
    section
}

fn held(section: CrossSection) -> CrossSection {
    CrossSection { free: false, ..section }
}

/// Every opening of an album.
fn openings(section: &CrossSection) -> impl Iterator<Item = Opening> {
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
        let slope =
            |gusset| openings(&section.with_gussets(gusset)).map(|opening| opening.slope.abs()).fold(0.0, f64::max);
        assert!(slope(found) <= limit, "{found}");
        for steps in (0..).map_while(|steps| Some(f64::from(steps) * 0.5).filter(|gusset| *gusset < found)) {
            assert!(slope(steps) > limit, "{steps} does as well as {found}");
        }
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
    let none = CrossSection { base: 0.0, leaves: Vec::new(), free: true, loose: false };
    assert!(none.worst().is_none() && none.closed().is_empty() && none.opened(3).bars.is_empty());
    assert_eq!(album(1, 6.0, 6.0, 1.0, 150.0).opened(0).bars.len(), 1);
    assert_eq!(album(1, 6.0, 6.0, 1.0, 150.0).opened(9).bars.len(), 1);
}

fn energy(section: &CrossSection, opening: &Opening) -> f64 {
    section.leaves.iter().zip(&opening.bars).map(|(leaf, bar)| leaf.weight * bar.from.midpoint(bar.to).y).sum()
}

/// Albums, and the openings of each that are tried. No page under another slopes so much that it would slide inward
/// against the pull.
fn small_albums() -> Vec<(&'static str, CrossSection, Vec<usize>)> {
    let mut mixed = album(4, 6.0, 6.0, 1.2, 150.0);
    mixed.leaves[1].thickness = 4.0;
    mixed.leaves[3].thickness = 6.0;
    mixed.leaves[2].weight = 3.0;
    vec![
        ("classic", classic(1.2), vec![1, 2]),
        ("three thick", album(3, 6.0, 6.0, 5.0, 150.0), vec![1]),
        ("four thick", album(4, 6.0, 6.0, 5.0, 150.0), vec![1, 2]),
        ("five thick", album(5, 7.0, 6.0, 4.0, 150.0), vec![1, 2]),
        ("six thick", album(6, 7.0, 6.0, 5.0, 150.0), vec![1, 2]),
        ("short gussets", album(4, 8.0, 2.0, 2.0, 120.0), vec![1, 2]),
        ("wide pitch", album(4, 14.0, 6.0, 4.0, 100.0), vec![2]),
        ("two", album(2, 12.0, 5.0, 9.0, 100.0), vec![1]),
        ("mixed", mixed, vec![1, 2, 3]),
        ("ten", album(10, 6.5, 6.0, 1.5, 150.0), vec![2]),
        ("six on stubs", on_stubs(6, 1.2, 6.0), vec![1, 3]),
    ]
}

/// At the tilt found, the many positions tried find the same slopes and no lower energy; at no other tilt do they
/// find a lower one. What they find is a little higher, as they are samples: 0.1 mm and 0.025 degrees a page.
#[test]
fn many_positions_tried_find_no_lower_rest() {
    for (name, section, places) in small_albums() {
        for between in places {
            let opening = section.opened(between);
            let ours = energy(&section, &opening);
            let pages = f64::from(u32::try_from(section.leaves.len()).unwrap());
            let (same, slopes) = tried(&section, between, opening.tilt).unwrap();
            assert!((-1e-3 * pages..0.1 * pages).contains(&(same - ours)), "{name} {between}: {same} for {ours}");
            let slope = |bar: &Bar| ((bar.to.y - bar.from.y) / bar.from.distance(bar.to)).asin();
            for (found, index) in slopes.into_iter().zip([between - 1, between]) {
                let slope = slope(&opening.bars[index]).to_degrees();
                assert!((slope - found.to_degrees()).abs() < 0.025 * pages, "{name} {between}: {found} for {slope}");
            }
            let (mut least, mut best) = (f64::MAX, 0.0);
            for (count, spread) in [(16, 80.0), (5, 5.0), (4, 1.0)] {
                let middle = best;
                for step in -count..=count {
                    let tilt = middle + f64::from(step) / f64::from(count) * f64::to_radians(spread);
                    if let Some((energy, _)) = tried(&section, between, tilt).filter(|tried| tried.0 < least) {
                        (least, best) = (energy, tilt);
                    }
                }
            }
            assert!((-1e-3 * pages..0.1 * pages).contains(&(least - ours)), "{name} {between}: {least} for {ours}");
        }
    }
}

/// What passes through what in an opening.
fn collisions(section: &CrossSection, opening: &Opening) -> Vec<String> {
    let shape = |bar: &Bar| {
        let way = bar.to - bar.from;
        corners(bar.from, way / way.hypot().max(1e-9), way.hypot(), bar.thickness - 0.02)
    };
    let shapes: Vec<[Point; 4]> = opening.bars.iter().map(shape).collect();
    let mut found = Vec::new();
    for (index, one) in shapes.iter().enumerate() {
        let mut find = |what: String| found.push(format!("{index} and {what}"));
        if one.iter().any(|corner| corner.y < -TOUCH) {
            find("the table".into());
        }
        if through(one, &opening.base) {
            find("the base".into());
        }
        (index + 1..shapes.len())
            .filter(|other| through(one, &shapes[*other]))
            .for_each(|other| find(other.to_string()));
        let bar = &opening.bars[index];
        if bar.from.distance(bar.root) > section.leaves[index].gusset + 1e-6 {
            find("its gusset".into());
        }
    }
    found
}

/// Thicknesses of many kinds of albums, each thinner than its pitch, gussets at least half as long.
fn many_albums() -> impl Iterator<Item = CrossSection> {
    let sizes = |pages: u32| {
        [4.0, 6.0, 8.0, 12.0].into_iter().flat_map(move |pitch| {
            [0.6, 1.2, 2.5, 4.0, 8.0].into_iter().filter(move |thickness| *thickness < pitch).flat_map(
                move |thickness| {
                    [4.0, 6.0, 12.0, 24.0].map(move |gusset| album(pages, pitch, gusset, thickness, 150.0))
                },
            )
        })
    };
    [2, 3, 4, 5, 8, 12, 20, 40].into_iter().flat_map(sizes)
}

/// Openings that lift more than this are outside what the linkage promises, mm.
const STEEP: f64 = 25.0;

/// Where a page lifts much, both sides may lean so far that the two pages on top meet over the middle; below that
/// nothing passes through anything.
#[test]
fn nothing_passes_through_anything() {
    let mut seen = 0;
    for section in many_albums() {
        for opening in openings(&section).filter(|opening| opening.lift < STEEP) {
            let found = collisions(&section, &opening);
            let leaf = &section.leaves[0];
            assert!(
                found.is_empty(),
                "{} pages, pitch {}, gusset {}, thickness {}, at {}: {found:?}",
                section.leaves.len(),
                section.leaves[1].root,
                leaf.gusset,
                leaf.thickness,
                opening.between
            );
            seen += 1;
        }
    }
    assert!(seen > 500, "only {seen}");
}

const GUSSETS: [f64; 18] =
    [0.0, 0.5, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 50.0, 100.0];

/// With the base held flat a longer gusset never makes the worst opening worse. Where the base tips as it likes, that
/// holds once the pages are nearly flat: it is what the search for the least gusset builds on.
#[test]
fn longer_gussets_do_not_lift_more() {
    for mut section in many_albums().filter(|section| section.leaves[0].gusset < 4.5) {
        for free in [false, true] {
            section.free = free;
            let worst = GUSSETS.map(|gusset| section.with_gussets(gusset).worst().unwrap().1);
            for pair in worst.windows(2).filter(|pair| !free || pair[0].slope.abs() < 2.0_f64.to_radians()) {
                let lifts = [pair[0].lift, pair[1].lift];
                assert!(lifts[1] <= lifts[0] + 1e-3, "{} pages, free {free}: {lifts:?}", section.leaves.len());
            }
            let stack: f64 = section.leaves.iter().map(|leaf| leaf.thickness).sum();
            assert!(stack > 100.0 || worst[17].lift < 1e-9, "a gusset longer than the stack is high");
        }
    }
}

/// Leaves of any size, as many as there are numbers; the numbers are anything at all.
fn wild_section() -> impl Strategy<Value = CrossSection> {
    let size = |most: f64| prop_oneof![Just(0.0), 0.0..most, any::<f64>()];
    let sizes = (size(120.0), size(20.0), size(200.0), size(8.0), size(5.0), size(2.0));
    let leaf = sizes.prop_map(|(root, gusset, width, thickness, weight, stands_back)| Leaf {
        root,
        gusset,
        width,
        thickness,
        weight,
        stands_back,
        cover: false,
    });
    let leaves = prop::collection::vec(leaf, 0..12);
    (size(120.0), leaves, any::<[bool; 2]>()).prop_map(|(base, leaves, [free, loose])| CrossSection {
        base,
        leaves,
        free,
        loose,
    })
}

/// An album that could be made: roots further apart than the pages are thick, gussets over half as long as that.
fn sound_section() -> impl Strategy<Value = CrossSection> {
    let sizes = (0.5..8.0, 1.05..3.0, 0.6..4.0, 60.0..200.0, 0.1..5.0, 0.0..0.6);
    let leaf = sizes.prop_map(|(thickness, pitch, gusset, width, weight, stands_back)| Leaf {
        root: thickness * pitch,
        gusset: thickness * gusset,
        width,
        thickness,
        weight,
        stands_back,
        cover: false,
    });
    (prop::collection::vec(leaf, 1..12), any::<[bool; 2]>()).prop_map(|(mut leaves, [free, loose])| {
        let (mut base, mut before) = (0.0, None);
        for leaf in &mut leaves {
            // Half of the way belongs to this page, half to the one before it.
            base += before.map_or(0.0, |before: f64| f64::midpoint(before, leaf.root));
            before = Some(leaf.root);
            leaf.root = base;
        }
        CrossSection { base, leaves, free, loose }
    })
}

/// Pages on a block of stubs, as thick as they are or a little thicker; gussets that let them hang beside it, or do not.
fn section_on_stubs() -> impl Strategy<Value = CrossSection> {
    let leaf = (0.5..3.0, 1.0..1.3, 0.0..0.6, 0.5..3.0);
    let block = (5.0..40.0, prop_oneof![0.0..8.0, 0.0..40.0], 60.0..200.0);
    (prop::collection::vec(leaf, 1..24), block, any::<bool>()).prop_map(|(sizes, (depth, gusset, width), loose)| {
        let mut base = 0.0;
        let leaf = |(thickness, pitch, more, weight)| {
            let root = base;
            base += thickness * pitch;
            Leaf { root, gusset, width, thickness, weight, stands_back: depth + more, cover: false }
        };
        let leaves = sizes.into_iter().map(leaf).collect();
        CrossSection { base, leaves, free: true, loose }
    })
}

fn finite(opening: &Opening) -> bool {
    let points = opening.bars.iter().flat_map(|bar| [bar.from, bar.to, bar.root]).chain(opening.base);
    points.into_iter().all(Point::is_finite)
        && [opening.tilt, opening.lift, opening.slope].iter().all(|number| number.is_finite())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn whatever_the_numbers_the_answer_is_a_number(section in wild_section()) {
        for between in 0..=section.leaves.len() {
            prop_assert!(finite(&section.opened(between)));
        }
        prop_assert!(section.closed().iter().all(|bar| bar.from.is_finite() && bar.to.is_finite()));
        let _ = section.gusset_for(0.02, 3.0);
    }

    /// Seen from the head instead of the tail, left is right.
    #[test]
    fn a_mirrored_album_lies_the_same(section in sound_section()) {
        let mut other = section.clone();
        other.leaves.reverse();
        other.leaves.iter_mut().for_each(|leaf| leaf.root = section.base - leaf.root);
        for between in 0..=section.leaves.len() {
            let (one, two) = (section.opened(between), other.opened(section.leaves.len() - between));
            let (low, high) = (energy(&section, &one), energy(&other, &two));
            prop_assert!((low - high).abs() <= 1e-4 * low.max(1.0), "{low} {high}");
        }
    }

    #[test]
    fn twice_the_album_lifts_twice_as_much(section in sound_section()) {
        let mut other = section.clone();
        other.base *= 2.0;
        for leaf in &mut other.leaves {
            for size in [&mut leaf.root, &mut leaf.gusset, &mut leaf.width, &mut leaf.thickness, &mut leaf.stands_back] {
                *size *= 2.0;
            }
        }
        for between in 0..=section.leaves.len() {
            let (one, two) = (section.opened(between), other.opened(between));
            prop_assert!((2.0 * one.lift - two.lift).abs() < 1e-3 * one.lift.max(1.0), "{} {}", one.lift, two.lift);
        }
    }

    /// No gusset is drawn longer than it is, but for the lowest leaf's where it is under half a leaf thick.
    #[test]
    fn no_gusset_is_stretched(section in sound_section()) {
        for between in 0..=section.leaves.len() {
            let opening = section.opened(between);
            for (index, bar) in opening.bars.iter().enumerate() {
                let lowest = index == 0 || index + 1 == opening.bars.len();
                let more = if lowest { (bar.thickness / 2.0 - bar.gusset).max(0.0) } else { 0.0 };
                prop_assert!(bar.from.distance(bar.root) <= bar.gusset + more + 1e-6);
            }
        }
    }
}

proptest! {
    // Each opening laid by itself takes its time without optimisation.
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// What openings share, and what is not laid because it can't be lower (a debug build lays it all the same), changes not
    /// a bit: each opening laid by itself tells the same worst, and the same gussets that do and do not do.
    #[test]
    fn openings_laid_together_are_those_laid_alone(
        section in prop_oneof![wild_section(), sound_section(), section_on_stubs(), section_on_stubs()],
        step in prop_oneof![Just(1.0), 0.3..4.0],
        degrees in 1.0..15.0_f64,
    ) {
        let higher = |worst: Option<Opening>, next: Opening| {
            Some(match worst {
                Some(worst) if next.lift <= worst.lift + 1e-6 => worst,
                _ => next,
            })
        };
        let alone = openings(&section).fold(None, higher);
        prop_assert_eq!(format!("{:?}", section.worst().map(|worst| worst.1)), format!("{alone:?}"));
        let limit = degrees.to_radians();
        if let Some(found) = section.gusset_for(limit, step) {
            let does = |gusset| openings(&section.with_gussets(gusset)).all(|opening| opening.slope.abs() <= limit);
            prop_assert!(does(found), "{found}");
            // The length before, as the search reckons it: a whole number of steps.
            let before = ((found / step).round() - 1.0) * step;
            prop_assert!(found <= 0.0 || !does(before), "{before} does as well as {found}");
        }
    }
}

/// A loose base floats: opened in the middle, where a tilt helps neither side, two pages a side lie flat as soon as the
/// gusset is half as long as a page is thick. The roots then stand half way up, the top pages' gussets go up and the
/// lowest ones' down (derived). On the table it takes the whole thickness and a half.
#[test]
fn a_loose_base_is_drawn_up_and_takes_a_shorter_gusset() {
    for (gusset, flat) in [(2.05, true), (1.9, false)] {
        let opened = |loose| CrossSection { loose, ..album(4, 6.0, gusset, 4.0, 150.0) }.opened(2);
        let (loose, tied) = (opened(true), opened(false));
        assert_eq!(loose.lift < 0.05, flat, "{gusset}: {loose:?}");
        assert!(loose.base[0].y > 3.0 || !flat, "{loose:?}");
        assert!(tied.lift > 20.0 && tied.lift > loose.lift + 1.0, "{tied:?}");
    }
    let tied = album(4, 6.0, 6.05, 4.0, 150.0).opened(2);
    assert!(tied.lift < 1e-6, "{tied:?}");
}

/// Of very many openings not all are laid; the worst of those that are is all but the worst of all, so that the verdict is
/// the same but for its last tenth.
#[test]
fn the_worst_of_many_openings_is_found_among_a_few() {
    let uneven = |pages: u32, pitch: f64, gusset: f64| {
        let mut section = album(pages, pitch, gusset, pitch, 150.0);
        for (index, leaf) in section.leaves.iter_mut().enumerate() {
            leaf.thickness *= [0.6, 1.3, 1.0, 2.0][index % 4];
        }
        section
    };
    let stubs = |section: CrossSection| CrossSection { loose: true, ..section };
    for (what, section) in [
        ("even", album(90, 1.2, 6.0, 1.2, 150.0)),
        ("even, thick", album(110, 3.0, 6.0, 5.0, 150.0)),
        ("uneven", uneven(100, 1.5, 12.0)),
        ("uneven, loose", CrossSection { loose: true, ..uneven(80, 2.0, 20.0) }),
        ("on stubs", stubs(on_stubs(90, 1.2, 12.0))),
    ] {
        let all = openings(&section).map(|opening| opening.lift).fold(0.0, f64::max);
        let found = section.worst().unwrap().1.lift;
        assert!(found <= all + 1e-6 && found >= 0.9 * all, "{what}: {found} of {all}");
    }
}

/// What passes through the block that stubs and guards make; a spine edge that hangs aslant presses against it by a tenth of
/// the page's thickness at most.
fn through_the_block(opening: &Opening) -> Vec<usize> {
    let along = (opening.base[1] - opening.base[0]).normalize();
    let (up, press) = (Vec2::new(-along.y, along.x), 0.13);
    let ends = [opening.base[0] + along * press, opening.base[1] - along * press];
    let block =
        [ends[0] + up * press, ends[1] + up * press, ends[1] + up * (19.0 - press), ends[0] + up * (19.0 - press)];
    let hits = |bar: &Bar| {
        let way = bar.to - bar.from;
        through(&corners(bar.from, way / way.hypot(), way.hypot(), bar.thickness - 0.02), &block)
    };
    (0..opening.bars.len()).filter(|index| hits(&opening.bars[*index])).collect()
}

/// Twenty pages of 1.2 mm on guards that are stuck to a block 19 mm deep and 24 wide, gussets of 12, opened in the middle.
/// The block's upper left corner is 0.3 from the first root. The first page hangs from it by 12 - 0.3 = 11.7, its middle at
/// 19 - 11.7 = 7.3 over the table, its fore-edge's middle at 0.6: it falls by 6.7. Each page further in has 1.2 less of its
/// gusset left and lies 1.2 higher, so all ten lie on one another and fall alike. At the right the last root is 0.9 from the
/// corner: 19 - 11.1 - 0.6 = 7.3 (derived).
#[test]
fn twenty_pages_on_stubs_fall_from_their_block_as_worked_by_hand() {
    let section = on_stubs(20, 1.2, 12.0);
    let opening = held(section).opened(10);
    for (index, fall) in [(9, 6.7), (10, 7.3)] {
        let bar = &opening.bars[index];
        assert!(((bar.from.y - bar.to.y) / fall - 1.0).abs() < 0.1, "page {}: {bar:?}", index + 1);
    }
    near(opening.lift, 7.3, 0.73);
    // Turned over alone, a page lies over the block, which lies on its side: from 24.6 down to 0.6, with nothing of 24 to
    // spare but what the other pages let the block tip.
    let section = on_stubs(20, 1.2, 6.0);
    let first = section.opened(1);
    near(first.lift, 24.0, 2.4);
    assert!(first.slope < 0.0, "it falls: {first:?}");
    let mut crossing = Vec::new();
    for gusset in [6.0, 12.0, 24.0] {
        let section = on_stubs(20, 1.2, gusset);
        for opening in openings(&section) {
            let which = (gusset, opening.between);
            crossing
                .extend(through_the_block(&opening).into_iter().map(|page| (which, format!("{page} and the block"))));
            crossing.extend(collisions(&section, &opening).into_iter().map(|what| (which, what)));
        }
    }
    assert!(crossing.is_empty(), "{crossing:?}");
}

/// The same album from its file: twenty pockets of 0.3 mm card 148 wide, gussets and tabs of 12. Four layers of card are 1.2
/// mm a page, 24 in all; a guard is 19 deep (what the cover reaches over is 182: 19 + 12 + 148 + the square of 3). Opened in
/// the middle with its base held, its pages fall as worked out there, and wherever it is drawn open, no page crosses
/// another, its gusset, the table or the block.
#[test]
fn a_stub_album_drawn_open_is_the_one_worked_by_hand() {
    let pages = vec![r#"{ "kind": "pocket" }"#; 20].join(", ");
    let text = format!(
        r#"{{ "format": "hingeleaf-album/1", "stocks": {{ "card": {{ "sheet": "700x1000mm", "caliper": 0.3 }} }},
          "page": {{ "width": 148, "height": 190 }}, "pages": [{pages}],
          "spine": {{ "kind": "stubs", "gusset": 12, "tab": 12, "lead_in": 6 }} }}"#
    );
    let fit = fit::check(&common::album(&text), &common::kit(&text), &common::cutter(0.0, 1.0, 0.0));
    let section = fit.openings.unwrap().section;
    near(section.base, 24.0, 1e-9);
    section.leaves.iter().for_each(|leaf| near(leaf.stands_back, 19.0, 1e-9));
    let middle = held(section.clone()).opened(10);
    let falls = middle.bars[9..=10].iter().map(|bar| bar.from.y - bar.to.y);
    falls.zip([6.7, 7.3]).for_each(|(fall, by_hand)| near(fall, by_hand, by_hand / 10.0));
    assert!(section.loose, "without a cover its base is drawn up");
    for opening in openings(&section) {
        let (block, pages) = (through_the_block(&opening), collisions(&section, &opening));
        assert!(block.is_empty() && pages.is_empty(), "at {}: {block:?} {pages:?}", opening.between);
    }
}
