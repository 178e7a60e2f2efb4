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

#[test]
fn what_is_left_over_is_left_in_one_piece() {
    // Boxes as tall as the sheet, 97 of 120 mm wide in all: one sheet can be filled to the rim (19 + 17 + 13 + 11), so that all
    // that is left, 23 mm, is left of the other; the largest first would leave it in two pieces.
    let widths = [19, 17, 13, 11, 14, 12, 11];
    let items: Vec<Item> = widths.iter().map(|width| item(width * MM, 60 * MM, Turns::NONE, 1)).collect();
    let sheet = [endless(60 * MM, 60 * MM)];
    for cuts in [Cuts::Free, Cuts::Trimmer] {
        let of = measured(&problem(&items, &sheet, 0, Effort::Normal), cuts);
        assert!(of.sheets == 2 && near(of.leftover, 23.0 / 60.0), "{cuts:?}: {of:?}");
        // The last box of the full sheet needs no cut, and one width is on both.
        assert!(of.settings <= if cuts == Cuts::Trimmer { 6 } else { 0 }, "{cuts:?}: {of:?}");
    }
}

#[test]
fn sheets_are_alike_where_they_can_be() {
    // Two of each fill a sheet, and so do four of the one or four of the other.
    let items = [item(50 * MM, 60 * MM, Turns::NONE, 8), item(50 * MM, 40 * MM, Turns::NONE, 8)];
    let sheet = [endless(100 * MM, 100 * MM)];
    let of = measured(&problem(&items, &sheet, 0, Effort::Normal), Cuts::Free);
    assert_eq!((of.sheets, of.different), (4, 1), "{of:?}");
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
