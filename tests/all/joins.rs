// SPDX-License-Identifier: MIT
//! Joins: a piece is made in several where no sheet takes it whole on the machine that cuts it, and nowhere else.

use crate::common::{album, cutter};
use hingeleaf::cutter::Cutter;
use hingeleaf::finding::{Finding, stops};
use hingeleaf::parts::{self, Kit};
use hingeleaf::usable::{Keeps, Usable};
use hingeleaf::work::Work;

/// What may be made in pieces.
const JOINED: [&str; 3] = ["wrap cover", "belly band", "concertina"];

/// A row of random numbers that is the same every time.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    fn among(&mut self, from: u32, to: u32) -> u32 {
        from + u32::try_from(self.next() % u64::from(to - from + 1)).unwrap()
    }

    fn pick<'t>(&mut self, of: &[&'t str]) -> &'t str {
        of[usize::try_from(self.next()).unwrap_or(0) % of.len()]
    }

    fn maybe(&mut self, one_in: u64) -> bool {
        self.next().is_multiple_of(one_in)
    }
}

/// An album; its page stands open, so that it can be made smaller.
struct Drawn {
    rest: String,
    page: (u32, u32),
}

impl Drawn {
    fn text(&self, (width, height): (u32, u32)) -> String {
        format!(
            r#"{{ "format": "hingeleaf-album/1", "page": {{ "width": {width}, "height": {height} }}, {} }}"#,
            self.rest
        )
    }
}

fn drawn(dice: &mut Dice) -> Drawn {
    let page = (dice.among(60, 210), dice.among(60, 240));
    let pages = [
        r#"{ "kind": "pocket" }"#,
        r#"{ "kind": "pocket", "content": 2 }"#,
        r#"{ "kind": "divider" }"#,
        r#"{ "kind": "divider", "index": 10 }"#,
        r#"{ "kind": "wallet", "pocket": 40, "overflap": 30 }"#,
        r#"{ "kind": "side-loading" }"#,
        r#"{ "kind": "gate-fold" }"#,
        r#"{ "kind": "waterfall" }"#,
    ];
    let count = dice.among(1, 14);
    let pages: Vec<&str> = (0..count).map(|_| dice.pick(&pages)).collect();
    let spines = [
        r#"{ "kind": "flexi-hinge" }"#,
        r#"{ "kind": "concertina" }"#,
        r#"{ "kind": "concertina", "flap": 25 }"#,
        r#"{ "kind": "concertina", "longest": 250, "grain": "free" }"#,
        r#"{ "kind": "plain-hinge" }"#,
        r#"{ "kind": "stubs" }"#,
    ];
    let spine = dice.pick(&spines);
    let mut wrap = r#"{ "kind": "wrap", "stock": "cover""#.to_owned();
    for (field, from, to, one_in) in
        [("flap", 20, 60, 3), ("ties", 5, 20, 3), ("spine", 20, 500, 4), ("band", 30, 60, 3), ("lap", 7, 30, 3)]
    {
        if dice.maybe(one_in) {
            wrap = format!(r#"{wrap}, "{field}": {}"#, dice.among(from, to));
        }
    }
    if dice.maybe(3) {
        let [width, height] = [0; 2].map(|_| dice.among(20, 120));
        wrap = format!(r#"{wrap}, "window_width": {width}, "window_height": {height}"#);
    }
    wrap += if dice.maybe(3) { r#", "grain": "free" }"# } else { " }" };
    let case = r#"{ "kind": "case", "board": "cover", "covering": "cover", "endpaper": "card" }"#.to_owned();
    let cover = if dice.maybe(5) { case } else { wrap };
    let sheets = [
        r#""A4""#,
        r#""A3""#,
        r#""letter""#,
        r#""12x12in""#,
        r#""320x450mm""#,
        r#"[{ "sheet": "A4" }, { "sheet": "400x250mm" }]"#,
    ];
    let stock = |dice: &mut Dice| {
        let sheet = dice.pick(&sheets);
        let grain = dice.pick(&["", "", r#", "grain": "long""#, r#", "grain": "short""#]);
        let pattern = dice.pick(&["", "", "", r#", "pattern": "one-way""#, r#", "pattern": "all-over""#]);
        format!(r#"{{ "sheet": {sheet}, "caliper": 0.{}{grain}{pattern} }}"#, dice.among(2, 9))
    };
    let (card, of_cover) = (stock(dice), stock(dice));
    let bound = dice.pick(&["left", "left", "right", "top"]);
    let panels = if dice.maybe(3) { r#", "panels": { "stock": "card", "runs_on": true }"# } else { "" };
    let rest = format!(
        r#""bound": "{bound}", "stocks": {{ "card": {card}, "cover": {of_cover} }}, "pages": [{}],
           "spine": {spine}, "cover": {cover}{panels}"#,
        pages.join(", ")
    );
    Drawn { rest, page }
}

/// So many albums, each from a number of its own.
fn albums(count: u64) -> impl Iterator<Item = (Drawn, Dice)> {
    let count = if std::env::var_os("HINGELEAF_LONG").is_some() { 20 * count } else { count };
    (1..=count).map(|number| {
        let mut dice = Dice(number.wrapping_mul(0x9E37_79B9_7F4A_7C15));
        (0..8).for_each(|_| _ = dice.next());
        (drawn(&mut dice), dice)
    })
}

/// How often each kind is joined.
fn joins(kit: &Kit) -> Vec<usize> {
    let pieces = |kind| kit.pieces.iter().filter(|piece| kit.parts[piece.part].kind == kind).count();
    JOINED.map(|kind| pieces(kind).saturating_sub(1)).to_vec()
}

/// The kit, where it goes together.
fn goes(text: &str, machine: &Cutter) -> Option<Kit> {
    let work = Work::fit(album(text), machine.clone());
    (!work.stopped()).then_some(work.kit)
}

fn stopped_by(text: &str, machine: &Cutter) -> Vec<String> {
    let work = Work::fit(album(text), machine.clone());
    work.findings.iter().filter(|finding| stops(std::slice::from_ref(*finding))).map(Finding::headline).collect()
}

/// What takes more of a sheet never turns a refusal into a kit, and never saves a join.
#[test]
fn a_larger_margin_kerf_or_gap_only_takes() {
    let (mut kits, mut refused, mut more) = (0, 0, 0);
    for (drawn, mut dice) in albums(400) {
        let text = drawn.text(drawn.page);
        let tenths = |dice: &mut Dice, most| f64::from(dice.among(0, most)) / 10.0;
        let small = [tenths(&mut dice, 20), tenths(&mut dice, 30), tenths(&mut dice, 80)];
        let mut large = small;
        for (side, most) in large.iter_mut().zip([20, 30, 120]) {
            if dice.maybe(2) {
                *side += tenths(&mut dice, most);
            }
        }
        let [one, other] = [small, large].map(|[kerf, gap, margin]| cutter(kerf, gap, margin));
        match (goes(&text, &one), goes(&text, &other)) {
            (Some(before), Some(after)) => {
                kits += 1;
                let (before, after) = (joins(&before), joins(&after));
                more += usize::from(before != after);
                assert!(
                    before.iter().zip(&after).all(|(before, after)| before <= after),
                    "{before:?} {after:?} {small:?} {large:?}\n{text}"
                );
            }
            (None, Some(_)) => {
                panic!("{small:?} refuses, {large:?} does not\n{}\n{text}", stopped_by(&text, &one).join("\n"))
            }
            _ => refused += 1,
        }
    }
    assert!(kits > 60 && refused > 20 && more > 3, "{kits} {refused} {more}: that is no trial");
}

/// A cover is in pieces where no sheet takes it whole, and in one where a sheet does.
#[test]
fn a_join_is_where_the_whole_goes_onto_no_sheet() {
    let (mut whole_ones, mut joined) = (0, 0);
    for (drawn, mut dice) in albums(400) {
        let text = drawn.text(drawn.page);
        let machine = cutter(f64::from(dice.among(0, 10)) / 10.0, 1.0, f64::from(dice.among(0, 100)) / 10.0);
        let here = album(&text);
        let Some(kit) = parts::kit(&here, &machine).value else { continue };
        for kind in ["wrap cover", "belly band"] {
            let pieces = kit.pieces.iter().filter(|piece| kit.parts[piece.part].kind == kind).count();
            // On a sheet without end nothing is joined. Other stocks keep theirs: a spine in pieces is thicker by its laps, and
            // what goes round it is longer.
            let Some(stock) = kit.parts.iter().find(|part| part.kind == kind).map(|part| part.stock) else { continue };
            let mut endless = here.clone();
            for sheet in &mut endless.stocks[stock].sheets {
                sheet.width = hingeleaf::length::Length::from_mm(9000.0);
                sheet.height = sheet.width;
            }
            let Some(whole) = parts::kit(&endless, &machine).value else { continue };
            let Some(part) = whole.parts.iter().find(|part| part.kind == kind) else { continue };
            let keeps = Keeps { along_grain: part.along_grain, sideways: part.sideways };
            let mut usable = Usable::of(&here.stocks[part.stock], &machine);
            if whole.parts.iter().any(|other| other.stock == part.stock && other.along_grain) {
                usable = usable.with_grain(part.sideways);
            }
            let takes = usable.takes((part.flat.width, part.flat.height), keeps);
            assert!(pieces == 1 || !takes, "{kind} in {pieces}, and a sheet takes it\n{text}");
            // Pieces that were made all go onto a sheet.
            let fits = |part: &&parts::Part| usable.takes((part.flat.width, part.flat.height), keeps);
            let all = kit.parts.iter().filter(|part| part.kind == kind).all(|part| fits(&part));
            assert!(pieces == 1 || all, "{kind} in pieces that go onto no sheet\n{text}");
            *(if pieces > 1 { &mut joined } else { &mut whole_ones }) += 1;
        }
    }
    assert!(whole_ones > 60 && joined > 20, "{whole_ones} {joined}: that is no trial");
}

/// A smaller page never needs a join that a larger one did not.
#[test]
fn a_smaller_page_needs_no_join_that_a_larger_did_not() {
    let (mut kits, mut fewer) = (0, 0);
    for (drawn, mut dice) in albums(400) {
        let machine = cutter(f64::from(dice.among(0, 10)) / 10.0, 1.0, f64::from(dice.among(0, 100)) / 10.0);
        let small = (drawn.page.0 - dice.among(0, 30), drawn.page.1 - dice.among(0, 30));
        let kit = |page| parts::kit(&album(&drawn.text(page)), &machine).value;
        let (Some(large_kit), Some(small_kit)) = (kit(drawn.page), kit(small)) else { continue };
        // What can't be cut for its sheets at all stays whole, and is refused.
        if goes(&drawn.text(drawn.page), &machine).is_none() {
            continue;
        }
        let (large, less) = (joins(&large_kit), joins(&small_kit));
        kits += 1;
        fewer += usize::from(less != large);
        assert!(
            less.iter().zip(&large).all(|(less, large)| less <= large),
            "{small:?}: {less:?} {large:?} {machine:?}\n{}",
            drawn.text(drawn.page)
        );
    }
    assert!(kits > 60 && fewer > 3, "{kits} {fewer}: that is no trial");
}

/// At a margin of 8 a page of 126 is joined as one of 128 is, and at none a cover that fits whole is in one piece.
#[test]
fn the_machine_says_whether_a_cover_is_joined() {
    let text = |width: u32, sheet: &str| {
        format!(
            r#"{{ "format": "hingeleaf-album/1", "stocks": {{ "card": {{ "sheet": "{sheet}", "caliper": 0.3 }} }},
              "page": {{ "width": {width}, "height": 150 }}, "pages": [{{ "kind": "pocket" }}, {{ "kind": "pocket" }}],
              "cover": {{ "kind": "wrap" }} }}"#
        )
    };
    let [small, large] = [0.0, 8.0].map(|margin| cutter(0.0, 0.0, margin));
    let pieces = |text: &str, machine: &Cutter| goes(text, machine).map(|kit| joins(&kit)[0] + 1);
    for width in 100..=190 {
        let whole = pieces(&text(width, "A4"), &small).unwrap();
        let with_margin = pieces(&text(width, "A4"), &large);
        assert!(with_margin.is_some_and(|pieces| pieces >= whole), "{width}: {whole} {with_margin:?}");
        // As long as the sheet itself, to the last step.
        let part = parts::kit(&album(&text(width, "2000x2000mm")), &small).value.unwrap();
        let cover = &part.parts.iter().find(|part| part.kind == "wrap cover").unwrap().flat;
        let just = text(width, &format!("{}x{}mm", cover.width, cover.height.max(330.0)));
        assert_eq!(pieces(&just, &small), Some(1), "{width}");
        let kerf = cutter(0.1, 0.0, 0.0);
        assert!(
            pieces(&just, &kerf).is_none_or(|pieces| pieces > 1 || cover.width + 0.1 <= cover.height.max(330.0)),
            "{width}"
        );
    }
}
