// SPDX-License-Identifier: MIT
//! Whole packs and costs over whatever a maker may state: packs against every mix there is, sums against their parts.

use crate::common::{cutter, work};
use hingeleaf::exact::Exact;
use hingeleaf::work::Work;
use proptest::prelude::*;

/// A journal card of either size in so many copies, on A5, A4 and A3 sheets of which the packs are given; a size without one is
/// not offered.
fn cards(copies: u32, card: &str, packs: [Option<(u32, u32)>; 3]) -> String {
    let sizes: Vec<(&str, (u32, u32))> =
        ["A5", "A4", "A3"].into_iter().zip(packs).filter_map(|(size, pack)| Some((size, pack?))).collect();
    let sold: Vec<String> = sizes
        .iter()
        .map(|(size, (of, cents))| {
            format!(r#""ivory {size}": {{ "of": {of}, "price": {}.{:02} }}"#, cents / 100, cents % 100)
        })
        .collect();
    let names: Vec<String> = sizes.iter().map(|(size, _)| format!("\"{size}\"")).collect();
    format!(
        r#"{{ "format": "hingeleaf-album/1", "copies": {copies}, "packs": {{ {} }},
    "stocks": {{ "card": {{ "sheet": "A3", "caliper": 0.3 }}, "ivory": {{ "sheet": [{}], "caliper": 0.3 }} }},
    "page": {{ "width": 220, "height": 160, "seam": 12, "tape": "6 mm" }}, "pages": [{{ "kind": "pocket" }}],
    "inserts": [{{ "kind": "journal-card", "size": "{card}", "pages": [1], "stock": "ivory" }}] }}"#,
        sold.join(", "),
        names.join(", ")
    )
}

/// What the cheapest packs cost in which all cards lie, in cents: all mixes of packs are tried.
fn cheapest(copies: u32, packs: &[(u32, u32, u32)]) -> u32 {
    let Some((&(on_one, of, cents), others)) = packs.split_first() else {
        return if copies == 0 { 0 } else { u32::MAX };
    };
    let all = 0..=copies.div_ceil(on_one * of);
    all.map(|count| cheapest(copies.saturating_sub(count * on_one * of), others).saturating_add(count * cents))
        .min()
        .unwrap_or(u32::MAX)
}

/// A pack of so many, its price in cents.
fn pack() -> impl Strategy<Value = (u32, u32)> {
    (2_u32..26, 100_u32..1500)
}

fn terms(card: (u32, u32), tape: u32, hour: u32, shares: [u32; 4]) -> String {
    let [overhead, profit, fees, tax] = shares;
    format!(
        r#""packs": {{ "card": {{ "of": {}, "price": {} }} }}, "supplies": {{ "tape 6 mm": {{ "of": "25 m", "price": {tape} }} }},
    "selling": {{ "currency": "EUR", "hour": {hour}, "minutes_a_kit": 35, "packaging": 1.2, "overhead": "{overhead} %",
        "profit": "{profit} %", "fees": "{fees} %", "tax": "{tax} %" }},"#,
        card.0, card.1
    )
}

/// A pocket page, which takes one A4 sheet.
fn page(copies: u32, terms: &str) -> Work {
    let text = format!(
        r#"{{ "format": "hingeleaf-album/1", "copies": {copies}, {terms}
    "stocks": {{ "card": {{ "sheet": "A4", "caliper": 0.3, "price": 1 }} }},
    "page": {{ "width": 120, "height": 150, "seam": 12, "tape": "6 mm" }}, "pages": [{{ "kind": "pocket" }}] }}"#
    );
    work(&text, cutter(0.0, 0.0, 0.0))
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(24) })]

    /// A4 takes two cards of 200 by 140 mm and four of 140 by 100, A3 twice as many, A5 half: areas allow no more.
    #[test]
    fn no_mix_of_packs_is_cheaper(
        copies in 1_u32..120,
        large in any::<bool>(),
        a5 in prop::option::of(pack()),
        a4 in pack(),
        a3 in pack(),
    ) {
        let (card, on_a5) = if large { ("200x140mm", 1) } else { ("140x100mm", 2) };
        let work = work(&cards(copies, card, [a5, Some(a4), Some(a3)]), cutter(0.0, 0.0, 0.0));
        let laid = work.stocks.iter().find(|laid| work.album.stocks[laid.stock].name == "ivory").unwrap();
        let offered: Vec<(u32, u32, u32)> = [a5, Some(a4), Some(a3)]
            .into_iter()
            .zip([on_a5, 2 * on_a5, 4 * on_a5])
            .filter_map(|(pack, on_one)| pack.map(|(of, cents)| (on_one, of, cents)))
            .collect();
        let count = |size: usize| u32::try_from(laid.by_size().get(&size).copied().unwrap_or_default()).unwrap();
        let holds: u32 = offered.iter().enumerate().map(|(size, one)| count(size) * one.0).sum();
        prop_assert!(holds >= copies);
        let paid: u32 = offered.iter().enumerate().map(|(size, one)| count(size).div_ceil(one.1) * one.2).sum();
        let least = cheapest(copies, &offered);
        prop_assert_eq!(paid, least, "{:?}", laid.by_size());
        // And no more is said to be open than there is.
        let savable = laid.savable.unwrap();
        prop_assert!((0.0..1.0).contains(&savable) && f64::from(paid) * (1.0 - savable) <= f64::from(least) + 1e-3);
    }

    /// Rows add up to the order, kits bear it whole, the price is what is left once fees and tax are off it; one more kit costs
    /// something, and an order of one kit more no less.
    #[test]
    fn costs_add_up(
        copies in 1_u32..60,
        card in (1_u32..30, 1_u32..30),
        tape in 1_u32..9,
        hour in 1_u32..40,
        shares in [0_u32..40, 0_u32..60, 0_u32..30, 0_u32..30],
    ) {
        let terms = terms(card, tape, hour, shares);
        let (work, more) = (page(copies, &terms), page(copies + 1, &terms));
        let cost = work.cost().unwrap();
        let rows: Exact = cost.rows.iter().filter_map(hingeleaf::cost::CostRow::cost).sum();
        prop_assert_eq!(&rows, &cost.order.cost);
        // Each sheet is in a pack, and no pack is empty.
        let sheets = cost.rows.iter().find(|row| row.name == "card A4").unwrap();
        prop_assert_eq!(sheets.packs(), Some(u64::from(copies.div_ceil(card.0))));
        let borne: Exact = cost.kits.iter().map(|kit| kit.asked.cost.times(&Exact::whole(kit.sold.into()))).sum();
        prop_assert_eq!(&borne, &cost.order.cost);
        let order = &cost.order;
        let parts = [&order.cost, &order.overhead, &order.profit, &order.fees, &order.tax];
        prop_assert_eq!(parts.into_iter().cloned().sum::<Exact>(), order.price.clone());
        for kit in &cost.kits {
            prop_assert!(kit.one_more > Exact::zero());
        }
        prop_assert!(more.cost().unwrap().order.cost > order.cost);
    }
}
