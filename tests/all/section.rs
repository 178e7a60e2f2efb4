// SPDX-License-Identifier: MIT
//! The picture of the cross-section: readable, nothing over anything, sizes true.

use crate::common;

use crate::common::near;
use hingeleaf::contour::{Point, Rect};
use hingeleaf::fit::linkage::{CrossSection, Leaf};
use hingeleaf::picture::{self, Mark, Picture};
use hingeleaf::write;

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

fn covered(mut section: CrossSection) -> CrossSection {
    let cover =
        |root| Leaf { root, gusset: 8.0, width: 158.0, thickness: 2.4, weight: 3.0, stands_back: 0.0, cover: true };
    section.leaves.insert(0, cover(0.0));
    section.leaves.push(cover(section.base));
    section
}

fn drawn(section: &CrossSection) -> Picture {
    let worst = section.worst().map(|(_, opening)| opening);
    picture::section(section.base, &section.closed(), worst.as_ref(), &|mm| format!("{mm:.1} mm"))
}

fn albums() -> Vec<(String, CrossSection)> {
    let mut all = Vec::new();
    for pages in [1, 2, 4, 5, 12, 20, 40] {
        for (pitch, gusset, thickness) in [(6.0, 6.0, 1.2), (6.35, 25.4, 1.5), (8.0, 6.0, 5.0), (3.0, 4.0, 0.8)] {
            for width in [60.0, 150.0, 300.0] {
                let section = album(pages, pitch, gusset, thickness, width);
                all.push((format!("{pages} pages, pitch {pitch}, width {width}"), section.clone()));
                all.push((format!("{pages} pages, pitch {pitch}, width {width}, covers"), covered(section)));
            }
        }
    }
    all
}

fn words(picture: &Picture) -> impl Iterator<Item = (Point, f64, &str)> {
    picture.marks.iter().filter_map(|mark| match mark {
        Mark::Words { at, size, text, .. } => Some((*at, *size, text.as_str())),
        _ => None,
    })
}

/// The room that words take: figures of the bundled font are 0.64 of the em wide, small letters less on average
/// (measured on drawings of these words); capitals reach 0.36 of the em above the middle, tails as much below.
fn room(at: Point, size: f64, text: &str) -> Rect {
    let letters = f64::from(u32::try_from(text.chars().count()).unwrap());
    let half = letters * size * 0.28;
    Rect::new(at.x - half, at.y - size * 0.36, at.x + half, at.y + size * 0.36)
}

/// Whether a straight way meets a box: what of it lies between the box's four sides.
fn meets(space: Rect, from: Point, to: Point) -> bool {
    let (mut first, mut last) = (0.0_f64, 1.0_f64);
    for (at, way, low, high) in
        [(from.x, to.x - from.x, space.x0, space.x1), (from.y, to.y - from.y, space.y0, space.y1)]
    {
        if way.abs() < 1e-12 {
            if at < low || at > high {
                return false;
            }
        } else {
            let (one, two) = ((low - at) / way, (high - at) / way);
            (first, last) = (first.max(one.min(two)), last.min(one.max(two)));
        }
    }
    first < last
}

#[test]
fn words_can_be_read_and_lie_over_nothing() {
    for (name, section) in albums() {
        let picture = drawn(&section);
        let sheet = Rect::new(0.0, 0.0, picture.width, picture.height);
        let rooms: Vec<(Rect, &str)> = words(&picture).map(|(at, size, text)| (room(at, size, text), text)).collect();
        assert!(words(&picture).all(|(_, size, _)| size >= 2.4), "{name}");
        for (index, (one, text)) in rooms.iter().enumerate() {
            assert!(sheet.contains_rect(*one), "{name}: {text} leaves the picture");
            for (two, other) in &rooms[index + 1..] {
                assert!(one.intersect(*two).is_zero_area(), "{name}: {text} over {other}");
            }
            for mark in &picture.marks {
                let chains: Vec<Vec<Point>> = match mark {
                    Mark::Line { points, .. } => vec![points.clone()],
                    Mark::Shape { contours, .. } => {
                        let closed = |contour: &hingeleaf::contour::Contour| {
                            let corners = contour.vertices();
                            corners.iter().chain(corners.first()).map(|vertex| vertex.at).collect()
                        };
                        contours.iter().map(closed).collect()
                    }
                    Mark::Words { .. } => Vec::new(),
                };
                for pair in chains.iter().flat_map(|chain| chain.windows(2)) {
                    assert!(!meets(*one, pair[0], pair[1]), "{name}: a line through {text} at {:?}", pair[0]);
                }
            }
        }
    }
}

#[test]
fn the_picture_fits_and_everything_lies_on_it() {
    for (name, section) in albums() {
        let picture = drawn(&section);
        assert!(picture.width <= 400.1 && picture.height <= 400.1, "{name}: {} {}", picture.width, picture.height);
        let sheet = Rect::new(0.0, 0.0, picture.width, picture.height);
        for mark in &picture.marks {
            let inside = match mark {
                Mark::Line { points, .. } => points.iter().all(|point| sheet.contains(*point)),
                Mark::Shape { contours, .. } => contours.iter().all(|contour| sheet.contains_rect(contour.bounds())),
                Mark::Words { at, .. } => sheet.contains(*at),
            };
            assert!(inside, "{name}: {mark:?}");
        }
    }
}

/// Four pages of 158.75 mm with gussets of 6.35 lie open 4 x 6.35 + 2 x 158.75 wide at the most: true size. The page
/// standing at the left is 1.2 wide and 158.75 tall in the drawing.
#[test]
fn a_small_album_is_drawn_at_true_size() {
    let picture = drawn(&album(4, 6.35, 6.35, 1.2, 158.75));
    assert!(words(&picture).any(|(_, _, text)| text.contains("true size") && !text.contains("of the")));
    let upright = picture.marks.iter().filter_map(|mark| match mark {
        Mark::Shape { contours, .. } => Some(contours[0].bounds()),
        _ => None,
    });
    let tall: Vec<Rect> = upright.filter(|bounds| bounds.height() > 100.0).collect();
    assert_eq!(tall.len(), 4);
    near(tall[0].width(), 1.2, 1e-6);
    near(tall[0].height(), 158.75, 1e-6);
    near(tall[3].x1 - tall[0].x0, 3.0 * 6.35 + 1.2, 1e-6);
    assert!(words(&picture).any(|(_, _, text)| text == "20.2 mm"), "3 x 6.35 + 1.2 = 20.25");
}

#[test]
fn the_words_say_which_opening() {
    let said = |section: &CrossSection| words(&drawn(section)).map(|(_, _, text)| text.to_owned()).collect::<Vec<_>>();
    let flat = said(&album(4, 6.35, 6.35, 1.2, 158.75));
    for text in ["Closed", "Open between pages 1 and 2", "Both pages on top lie flat", "page 1", "pages 2 to 4"] {
        assert!(flat.iter().any(|said| said == text), "{text} in {flat:?}");
    }
    let single = said(&album(1, 6.0, 6.0, 1.2, 150.0));
    assert!(!single.iter().any(|text| text.contains("Open")), "{single:?}");
    let thick = said(&album(20, 6.0, 6.0, 1.2, 150.0));
    assert!(thick.iter().any(|text| text.contains("lifts: its fore-edge stands")), "{thick:?}");
    let covers = said(&covered(album(1, 6.0, 6.0, 1.2, 150.0)));
    assert!(covers.iter().any(|text| text == "Open between the front cover and page 1"), "{covers:?}");
}

/// Another SVG reader takes the drawing, and the size it finds is the picture's.
#[test]
fn the_drawing_is_sound_svg() {
    let picture = drawn(&album(20, 6.0, 6.0, 1.2, 150.0));
    let tree = usvg::Tree::from_str(&write::drawing(&picture), &usvg::Options { dpi: 25.4, ..Default::default() });
    let size = tree.unwrap().size();
    near(f64::from(size.width()), picture.width, 1e-3);
    near(f64::from(size.height()), picture.height, 1e-3);
}

#[test]
fn nothing_and_nonsense_are_drawn_too() {
    let none = CrossSection { base: 0.0, leaves: Vec::new(), free: true, loose: false };
    assert!(drawn(&none).width.is_finite());
    for size in [0.0, 1e-9, 1e6, f64::MAX, f64::NAN] {
        let picture = drawn(&album(6, size, size, size, size));
        assert!(picture.width.is_finite() && picture.width < 1000.0, "{size}: {}", picture.width);
        assert!(write::drawing(&picture).ends_with("</svg>\n"));
    }
}

/// `check --picture` draws the album that it checks; a file that is there is left alone.
#[test]
fn check_draws_the_cross_section() {
    let temp = common::TempDir::new("section");
    let file = common::project().join("fixtures/tide-table.json");
    let picture = temp.join("section.svg");
    let words = ["check", file.to_str().unwrap(), "--picture", picture.to_str().unwrap()];
    assert_eq!(common::hingeleaf(words).code, 0);
    let drawn = std::fs::read_to_string(&picture).unwrap();
    let tree = usvg::Tree::from_str(&drawn, &usvg::Options::default()).unwrap();
    assert!(tree.size().width() > 300.0, "two pages of 148 mm side by side");
    assert!(drawn.contains("Closed"), "{drawn}");
    let again = common::hingeleaf(words);
    assert!(again.code == 2 && again.err.contains("is there already"), "{again:?}");
    assert_eq!(std::fs::read_to_string(&picture).unwrap(), drawn);
}
