// SPDX-License-Identifier: MIT
//! Equal parts head to tail: they keep apart by true outlines, are taken only where they save, and no bound promises too much.

use crate::common::instances::{Dice, MM, endless, item, problem};
use crate::common::{cutter, work};
use crate::windows::{apart, checked, chords, eighths, mm};
use hingeleaf::contour::{Contour, Corner};
use hingeleaf::guide::guide;
use hingeleaf::layout::{Cuts, Effort, Item, Layout, Placement, Problem, Turn, Turns, Unwatched, lay_out, lay_out_for};
use hingeleaf::sheets::partners;
use hingeleaf::toolpath::{Layer, Stroke, StrokePath};
use hingeleaf::work::Work;
use hingeleaf::write;
use std::collections::BTreeMap;

/// Turned by quarters, never head to tail: boxes as they would be laid without pairs.
const NO_HALF: Turns = Turns::only(Turn::None).and(Turn::Quarter);

fn shaped(outline: Contour, kerf: i64, turns: Turns, count: u32) -> Item {
    let bounds = outline.bounds();
    let (width, height) = (eighths(bounds.width()) + kerf, eighths(bounds.height()) + kerf);
    Item { contour: Some(outline), ..item(width, height, turns, count) }
}

fn trapezium(wide: f64, narrow: f64, height: f64) -> Contour {
    let side = (wide - narrow) / 2.0;
    Contour::polygon([(0.0, 0.0), (wide, 0.0), (wide - side, height), (side, height)])
}

fn sheets(layout: &Layout) -> u64 {
    layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum()
}

/// Pairs on a layout's sheets: equal parts of which one is half turned.
fn half_turned(layout: &Layout) -> usize {
    let turned = |put: &&Placement| put.turn.degrees() >= 180;
    layout.sheets.iter().flat_map(|sheet| &sheet.placements).filter(turned).count()
}

/// Two of 100 (above 60) x 80 take 100 + 60 + 2 x 20/2 = 180, and where they keep g apart, g / cos of the slant more: the slant
/// leans by 20 in 80, so that is g sqrt(1 + 1/16). A hundredth of a millimetre less, and they don't go on.
#[test]
fn a_pair_takes_what_its_outlines_take() {
    for (gap, kerf) in [(0.0, 0.0), (2.0, 0.0), (1.0, 0.2), (0.0, 0.3)] {
        let apart: f64 = gap + kerf;
        let needs = 180.0 + apart * (1.0_f64 + 1.0 / 16.0).sqrt() + kerf;
        let items = [shaped(trapezium(100.0, 60.0, 80.0), eighths(kerf), Turns::HALF, 2)];
        for (room, most) in [(needs + 0.001, 1), (needs - 0.01, 2)] {
            let sheets_of = [endless(eighths(room), eighths(80.0 + kerf))];
            for effort in [Effort::Low, Effort::Normal] {
                let problem = problem(&items, &sheets_of, eighths(gap), effort);
                let layout = lay_out(&problem, &Unwatched).unwrap();
                checked(&problem, &layout);
                assert_eq!(sheets(&layout), most, "{room} for {needs}");
                assert!(layout.lower_bound <= most);
                let cut = lay_out_for(&problem, Cuts::Trimmer, &Unwatched).unwrap();
                assert_eq!(sheets(&cut), 2, "a trimmer would go through one of them");
            }
        }
    }
}

/// Quarter discs of radius 100 whose arcs face each other, level: 2 x 100 x sin 60 degrees wide. Arcs are held by tangents, at
/// most 0.005 mm off each.
#[test]
fn arcs_stay_arcs_in_a_pair() {
    let disc = Contour::new([(0.0, 0.0, 0.0), (100.0, 0.0, 2.0_f64.sqrt() - 1.0), (0.0, 100.0, 0.0)]);
    let items = [shaped(disc, 0, Turns::HALF, 2)];
    let needs = 200.0 * 60.0_f64.to_radians().sin();
    for (room, most) in [(needs + 0.02, 1), (needs - 0.01, 2)] {
        let sheets_of = [endless(eighths(room), 100 * MM)];
        let problem = problem(&items, &sheets_of, 0, Effort::Normal);
        let layout = lay_out(&problem, &Unwatched).unwrap();
        checked(&problem, &layout);
        assert_eq!(sheets(&layout), most, "{room} for {needs}");
    }
}

/// A clipped corner of 80 x 80 off 100 x 100: level, two take 140 x 100; drawn along the slant until its ends meet, 120 x 120.
#[test]
fn a_pair_is_drawn_along_its_slant() {
    let clipped = Contour::polygon([(0.0, 0.0), (100.0, 0.0), (100.0, 20.0), (20.0, 100.0), (0.0, 100.0)]);
    let items = [shaped(clipped, 0, Turns::ANY, 2)];
    // No room for the level pair.
    let sheets_of = [endless(120 * MM + 80, 120 * MM + 80)];
    let problem = problem(&items, &sheets_of, 0, Effort::Normal);
    let layout = lay_out(&problem, &Unwatched).unwrap();
    checked(&problem, &layout);
    assert_eq!((sheets(&layout), half_turned(&layout)), (1, 1));
}

/// Where boxes do as well, where no half turn is allowed, or where nothing but corners is rounded, parts lie as before.
#[test]
fn what_saves_nothing_stays_as_it_was() {
    let outline = || trapezium(100.0, 60.0, 80.0);
    for (turns, room, count) in [(Turns::NONE, 181, 2), (NO_HALF, 181, 4), (Turns::ANY, 179, 2), (Turns::ANY, 181, 1)] {
        let sheets_of = [endless(room * MM, 80 * MM)];
        let (with, boxed) = ([shaped(outline(), 0, turns, count)], [item(100 * MM, 80 * MM, turns, count)]);
        let [found, plain] = [&with, &boxed].map(|items| {
            let layout = lay_out(&problem(items, &sheets_of, 0, Effort::Normal), &Unwatched).unwrap();
            checked(&problem(items, &sheets_of, 0, Effort::Normal), &layout);
            layout.sheets
        });
        assert_eq!(found, plain, "{turns:?} {room}");
    }
    let corner = Corner::Rounded(5.0);
    let items = [shaped(Contour::with_corners((0.0, 0.0), (100.0, 80.0), [corner; 4]), 0, Turns::ANY, 8)];
    let layout = lay_out(&problem(&items, &[endless(199 * MM, 300 * MM)], 0, Effort::Normal), &Unwatched).unwrap();
    assert_eq!(half_turned(&layout), 0);
}

/// Sheets that pairs fill to the rim: so many are enough, and no bound may say more.
#[test]
fn no_bound_promises_more_than_pairs_need() {
    let mut dice = Dice(11);
    for _ in 0..6 {
        let (narrow, lean, height) = (dice.from(10, 80), dice.from(8, 60), dice.from(30, 90));
        let (across, up) = (dice.from(1, 2), dice.from(1, 3));
        let count = u32::try_from(dice.from(1, 2)).unwrap();
        let wide = narrow + 2 * lean;
        let [bottom, top, tall] = [wide, narrow, height].map(|size| mm(size * MM));
        let pieces = count * u32::try_from(2 * across * up).unwrap();
        let items = [shaped(trapezium(bottom, top, tall), 0, Turns::ANY, pieces)];
        // A few eighths of a micrometre for the pair's guard.
        let sheets_of = [endless(across * ((wide + narrow + lean) * MM + 8), up * height * MM)];
        let problem = problem(&items, &sheets_of, 0, Effort::Normal);
        let layout = lay_out(&problem, &Unwatched).unwrap();
        checked(&problem, &layout);
        assert!(layout.lower_bound <= u64::from(count), "{} promised, {count} do", layout.lower_bound);
        assert!(sheets(&layout) <= u64::from(count), "{} sheets, {count} do", sheets(&layout));
    }
}

/// Saws of hundreds of teeth, straight and round, are paired, or not, in the time that other parts take.
#[test]
fn outlines_of_many_corners_take_no_longer() {
    let begun = std::time::Instant::now();
    for teeth in [20, 120, 249, 300] {
        for bulge in [0.0, 0.3] {
            let side = (0..teeth).flat_map(|tooth| {
                let low = 100.0 * f64::from(tooth) / f64::from(teeth);
                let lean = 90.0 - 0.5 * low;
                [(lean, low, bulge), (lean - 30.0, low + 50.0 / f64::from(teeth), 0.0)]
            });
            let outline = Contour::new([(0.0, 0.0, 0.0)].into_iter().chain(side).chain([(0.0, 100.0, 0.0)]));
            let items = [shaped(outline, 0, Turns::ANY, 4)];
            let sheets_of = [endless(250 * MM, 250 * MM)];
            let layout = lay_out(&problem(&items, &sheets_of, MM, Effort::Low), &Unwatched).unwrap();
            assert!(sheets(&layout) > 0);
        }
    }
    assert!(begun.elapsed() < std::time::Duration::from_secs(50), "{:?}", begun.elapsed());
}

/// A part with a slanted or a round side.
fn slanted(dice: &mut Dice, kerf: i64) -> Item {
    let (width, height) = (mm(dice.from(50, 170) * MM), mm(dice.from(40, 170) * MM));
    let share = mm(dice.from(10, 80) * MM) / 100.0;
    let outline = match dice.from(0, 5) {
        0 => trapezium(width, width * share, height),
        1 => Contour::polygon([(0.0, 0.0), (width, 0.0), (width, height * share), (0.0, height)]),
        2 => Contour::polygon([(0.0, 0.0), (width, 0.0), (width * share, height)]),
        3 => Contour::polygon([
            (0.0, 0.0),
            (width, 0.0),
            (width, height * share),
            (width * share, height),
            (0.0, height),
        ]),
        // A slant with a round shoulder that bends out, and one that bends in.
        4 => Contour::new([(0.0, 0.0, 0.0), (width, 0.0, 0.3), (width * share, height, 0.0), (0.0, height, 0.0)]),
        _ => Contour::new([(0.0, 0.0, 0.0), (width, 0.0, -0.25), (width * share, height, 0.0), (0.0, height, 0.0)]),
    };
    let sound = outline.is_simple() && outline.area() > 0.0;
    let outline = if sound { outline } else { trapezium(width, width * share, height) };
    let turns = [Turns::ANY, Turns::ANY, Turns::HALF, Turns::NONE][usize::try_from(dice.from(0, 3)).unwrap()];
    shaped(outline, kerf, turns, u32::try_from(dice.from(2, 7)).unwrap())
}

/// Kits of slanted parts among others: sheets without pairs and with them, in how many the sheets are fewer, and pairs in all.
fn hunt(jobs: u64) -> [u64; 4] {
    let mut sums = [0; 4];
    for seed in 0..jobs {
        let mut dice = Dice(seed * 6133 + 7);
        let (kerf, gap) = (dice.from(0, 2) * 800, dice.from(0, 2) * MM);
        let mut items: Vec<Item> = (0..dice.from(1, 3)).map(|_| slanted(&mut dice, kerf)).collect();
        for _ in 0..dice.from(0, 2) {
            let (width, height) = (dice.from(20, 120) * MM, dice.from(20, 120) * MM);
            items.push(item(width, height, Turns::ANY, u32::try_from(dice.from(1, 5)).unwrap()));
        }
        let sheets_of = [endless(210 * MM, 297 * MM)];
        let effort = if seed % 8 == 3 { Effort::Normal } else { Effort::Low };
        let laid = |items: &[Item]| {
            let problem = problem(items, &sheets_of, gap, effort);
            let layout = lay_out(&problem, &Unwatched).unwrap();
            checked(&problem, &layout);
            layout
        };
        let with = laid(&items);
        // The same boxes with no half turn are laid as they would be without pairs.
        let upright = |item: &Item| match item.turns {
            Turns::ANY => NO_HALF,
            Turns::HALF => Turns::NONE,
            turns => turns,
        };
        let plain: Vec<Item> = items.iter().map(|item| Item { turns: upright(item), ..item.clone() }).collect();
        let without = laid(&plain);
        assert!(sheets(&with) <= sheets(&without), "pairs take more: {seed}");
        let pairs = u64::try_from(half_turned(&with)).unwrap();
        sums = [
            sums[0] + sheets(&without),
            sums[1] + sheets(&with),
            sums[2] + u64::from(sheets(&with) < sheets(&without)),
            sums[3] + pairs,
        ];
    }
    sums
}

/// As many as an everyday run has time for, or as many as `HINGELEAF_PAIRS` says.
#[test]
fn random_kits_keep_every_promise() {
    let jobs = std::env::var("HINGELEAF_PAIRS").ok().and_then(|jobs| jobs.parse().ok()).unwrap_or(8);
    let [without, with, fewer, pairs] = hunt(jobs);
    println!("{jobs} kits: {without} sheets without pairs, {with} with, fewer in {fewer}, {pairs} parts half turned");
    assert!(pairs * 2 > jobs && fewer * 8 >= jobs, "hardly used: {pairs} pairs, fewer sheets in {fewer} of {jobs}");
}

#[test]
fn threads_change_nothing() {
    let items = [
        shaped(trapezium(90.0, 50.0, 70.0), 0, Turns::ANY, 9),
        shaped(Contour::polygon([(0.0, 0.0), (80.0, 0.0), (80.0, 30.0), (0.0, 60.0)]), 0, Turns::HALF, 6),
        item(48 * MM, 30 * MM, Turns::ANY, 11),
    ];
    let sheets_of = [endless(210 * MM, 297 * MM)];
    let run = |threads| lay_out(&Problem { threads, ..problem(&items, &sheets_of, MM, Effort::Normal) }, &Unwatched);
    let one = run(1).unwrap();
    assert!(half_turned(&one) > 0);
    for threads in [2, 8] {
        assert_eq!(run(threads).unwrap(), one);
    }
}

/// Library cards with slanted pockets, all of one stock.
fn pockets(stock: &str) -> String {
    let page = r#"{ "kind": "library-card", "pocket": 80, "height": 120, "slant": 70 }"#;
    format!(
        r#"{{ "format": "hingeleaf-album/1", "stocks": {{ "card": {{ {stock}, "caliper": 0.3 }} }},
        "page": {{ "width": 110, "height": 140, "stock": "card" }}, "pages": [{page}, {page}, {page}, {page}] }}"#
    )
}

/// How many pairs lie on the sheets; each is found from both of it.
fn in_pairs(work: &Work) -> usize {
    let mut found = 0;
    for sheet in work.stocks.iter().flat_map(|laid| &laid.sheets) {
        let partners = partners(&work.kit, &sheet.placements);
        for (at, partner) in partners.iter().enumerate() {
            let Some(partner) = *partner else { continue };
            let [one, other] = [at, partner].map(|at| &sheet.placements[at]);
            assert_eq!(partners[partner], Some(at));
            assert_eq!((one.part, (one.quarters + 2) % 4), (other.part, other.quarters));
            found += 1;
        }
    }
    found / 2
}

/// Pairs of a kit keep the gap between their paths; a pattern with an up and a down and a trimmer have none.
#[test]
fn a_kit_has_pairs_where_its_stock_lets_it() {
    let count = |work: &Work| work.stocks.iter().map(hingeleaf::sheets::StockSheets::count).sum::<u64>();
    let of = |stock: &str| work(&pockets(stock), cutter(0.2, 1.0, 3.0));
    let free = of(r#""sheet": "A4""#);
    let way = of(r#""sheet": "A4", "pattern": "one-way""#);
    let trimmed = of(r#""sheet": "A4", "by": "trimmer""#);
    assert!(count(&free) < count(&way), "{} and {}", count(&free), count(&way));
    assert!(in_pairs(&free) > 0);
    assert_eq!((in_pairs(&way), in_pairs(&trimmed)), (0, 0));
    // Report and guide say it of those that there are, and of no others.
    let told = |work: &Work| {
        let page = write::guide(&guide(&work.guide_job(false)));
        (work.report(&BTreeMap::new()).matches("\"pair_of\"").count(), page.contains("head to tail"))
    };
    assert_eq!(told(&free), (2 * in_pairs(&free), true));
    assert_eq!([told(&way), told(&trimmed)], [(0, false); 2]);
    for (sheet, paths) in free.stocks.iter().flat_map(|laid| &laid.sheets).zip(&free.paths) {
        for (at, partner) in partners(&free.kit, &sheet.placements).into_iter().enumerate() {
            let Some(partner) = partner else { continue };
            let rings = [at, partner].map(|at| {
                let placed = &sheet.placements[at];
                let mine =
                    |cut: &&Stroke| cut.layer == Layer::Cut && (cut.part, cut.copy) == (placed.part, placed.copy);
                match &paths.strokes.iter().rfind(mine).unwrap().run {
                    StrokePath::Closed(contour) => chords(contour),
                    _ => panic!("an open cut"),
                }
            });
            let apart = apart(&rings[0], &rings[1]);
            assert!(apart > 1.0 - 2e-3 && apart < 1.02, "{apart} apart");
        }
    }
}
