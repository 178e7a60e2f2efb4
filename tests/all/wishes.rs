// SPDX-License-Identifier: MIT
//! What a maker would rather have among layouts of as few sheets and is not given: one large leftover, equal sheets, straight cuts.
//!
//! What is measured here is measured by code that shares nothing with the engine but its types.

use crate::common::instances::{INCH, MM, endless, item, problem};
use crate::common::wishes::{RandomKit, Wishes, assert_sound, is_straight, largest_free};
use hingeleaf::layout::{Cuts, Effort, Item, Problem, SheetType, Turns, Unwatched, lay_out_for};

fn measured(problem: &Problem, cuts: Cuts) -> Wishes {
    let layout = lay_out_for(problem, cuts, &Unwatched).unwrap();
    assert_sound(&layout, problem, cuts);
    Wishes::of(&layout, problem)
}

fn near(one: f64, other: f64) -> bool {
    (one - other).abs() < 1e-9
}

/// What the engine makes of boxes in millimetres, each so often, on sheets of 40 x 40 mm.
fn on_small_sheets(boxes: &[(i64, i64, u32)], turns: Turns, cuts: Cuts) -> Wishes {
    let items: Vec<Item> =
        boxes.iter().map(|&(width, height, count)| item(width * MM, height * MM, turns, count)).collect();
    measured(&problem(&items, &[endless(40 * MM, 40 * MM)], 0, Effort::Normal), cuts)
}

#[test]
fn what_is_left_over_is_left_in_one_piece() {
    // Constructive rules alone leave 55 and 32.5 % in one piece.
    let first = [(15, 22, 1), (27, 9, 1), (12, 15, 1), (28, 9, 1), (21, 10, 1), (27, 16, 1)];
    let second = [(25, 12, 1), (13, 18, 1), (10, 27, 1), (19, 17, 1), (16, 14, 1), (30, 14, 1), (20, 23, 1)];
    for (boxes, least) in [(&first[..], 0.6), (&second[..], 0.5)] {
        let of = on_small_sheets(boxes, Turns::NONE, Cuts::Free);
        assert!(of.sheets == 2 && of.leftover > least - 1e-9, "{of:?}");
    }
}

#[test]
fn what_is_as_large_as_can_be_stays() {
    // Sound neighbour: boxes as tall as the sheet, 97 of 120 mm wide in all. One sheet is filled to the rim (19 + 17 + 13 + 11), so
    // that the 23 mm that are left are left of the other; the full sheet's last box needs no cut, and one width is on both.
    let items: Vec<Item> =
        [19, 17, 13, 11, 14, 12, 11].iter().map(|width| item(width * MM, 60 * MM, Turns::NONE, 1)).collect();
    let sheet = [endless(60 * MM, 60 * MM)];
    for (cuts, settings) in [(Cuts::Free, 0), (Cuts::Trimmer, 6)] {
        let of = measured(&problem(&items, &sheet, 0, Effort::Normal), cuts);
        assert!(of.sheets == 2 && near(of.leftover, 23.0 / 60.0) && of.settings <= settings, "{cuts:?}: {of:?}");
    }
}

#[test]
fn sheets_are_alike_where_they_can_be() {
    // Constructive rules alone make four different sheets of these.
    let of = on_small_sheets(&[(8, 8, 3), (19, 27, 3), (22, 29, 3)], Turns::ANY, Cuts::Free);
    assert!(of.sheets == 5 && of.different <= 3 && of.leftover > 0.525 - 1e-9, "{of:?}");
}

#[test]
fn straight_cuts_do_where_they_are_free() {
    // Constructive rules alone leave two sheets that no straight cuts part.
    let boxes = [(12, 11), (19, 17), (11, 24), (30, 14), (27, 26), (23, 9), (12, 16), (10, 8)];
    let of = on_small_sheets(&boxes.map(|(width, height)| (width, height, 1)), Turns::NONE, Cuts::Free);
    assert!(of.straight == of.different && of.leftover > 0.325 - 1e-9, "{of:?}");
}

#[test]
fn four_panels_round_an_empty_middle_stay_where_no_straight_cuts_do() {
    // Sound neighbour: the only layout of four 5 x 7 in on 12 x 12 in; no straight cut parts it, and it stays one sheet.
    let items = [item(5 * INCH, 7 * INCH, Turns::ANY, 4)];
    let sheet = [endless(12 * INCH, 12 * INCH)];
    let of = measured(&problem(&items, &sheet, 0, Effort::Normal), Cuts::Free);
    assert_eq!((of.sheets, of.straight), (1, 0), "{of:?}");
    // Three of them are cut straight for nothing.
    let items = [item(5 * INCH, 7 * INCH, Turns::ANY, 3)];
    let of = measured(&problem(&items, &sheet, 0, Effort::Normal), Cuts::Free);
    assert_eq!((of.sheets, of.straight), (1, 1), "{of:?}");
}

#[test]
fn the_measures_themselves_are_right() {
    // Ten by ten with a two by two box in the middle of the left edge: 8 x 10 is free, 7 x 10 with a gap of one.
    let (sheet, one) = (SheetType { width: 10, height: 10, count: None, price: None }, [[0, 4, 2, 6]]);
    assert_eq!((largest_free(&one, &sheet, 0), largest_free(&one, &sheet, 1)), (80, 70));
    let wheel = [[0, 0, 5, 7], [5, 0, 12, 5], [7, 5, 12, 12], [0, 7, 7, 12]];
    assert!(!is_straight(&wheel) && is_straight(&wheel[..3]));
}

#[test]
fn random_kits_are_laid_as_makers_like_them_for_no_sheet_more() {
    let small = |kit: &RandomKit| kit.items.iter().map(|item| item.count).sum::<u32>() <= 22;
    let kits: Vec<RandomKit> = (0..60).map(RandomKit::new).filter(small).take(16).collect();
    let (mut plain, mut liked) = (Vec::new(), Vec::new());
    for kit in &kits {
        let before = measured(&kit.problem(Effort::Low), kit.cuts);
        let after = measured(&kit.problem(Effort::Normal), kit.cuts);
        assert!(after.sheets <= before.sheets, "{before:?} {after:?}");
        // A sheet that is saved takes its leftover with it.
        if after.sheets == before.sheets {
            assert!(after.leftover + 1e-9 >= before.leftover, "{before:?} {after:?}");
            plain.push(before);
            liked.push(after);
        }
    }
    let left = |all: &[Wishes]| all.iter().map(|of| of.leftover).sum::<f64>();
    let crooked = |all: &[Wishes]| all.iter().map(|of| of.different - of.straight).sum::<usize>();
    assert!(left(&liked) > left(&plain) + 0.1, "{} {}", left(&plain), left(&liked));
    assert!(crooked(&liked) <= crooked(&plain), "{} {}", crooked(&plain), crooked(&liked));
    assert!(liked.len() > 10);
}

#[test]
fn threads_do_not_change_what_is_liked() {
    let kits = (0..40).map(RandomKit::new).filter(|kit| kit.cuts == Cuts::Free).take(3);
    for kit in kits {
        let one = kit.problem(Effort::Normal);
        let layouts = [1, 2, 8].map(|threads| lay_out_for(&Problem { threads, ..one }, kit.cuts, &Unwatched).unwrap());
        let texts = layouts.map(|layout| format!("{:?}", layout.sheets));
        assert!(texts[0] == texts[1] && texts[0] == texts[2]);
    }
}
