// SPDX-License-Identifier: MIT
//! What an order costs, in a line or two at the terminal.

use hingeleaf::cost::{Cost, KitCost};

/// More kits than this are not listed one by one: our choice.
const MOST_KITS: usize = 8;

/// `A kit costs 12.34 EUR, ask 29.90 EUR; one more costs 9.80 EUR.`
pub(super) fn words(cost: Option<&Cost>) -> String {
    let Some(cost) = cost else { return String::new() };
    let mut lines: Vec<String> = cost.kits.iter().take(MOST_KITS).map(|kit| of_kit(cost, kit)).collect();
    if cost.kits.len() > MOST_KITS {
        lines.push(format!("… and {} kits more, in cost.csv.\n", cost.kits.len() - MOST_KITS));
    }
    if cost.kits.iter().any(|kit| kit.made > 1) || cost.kits.len() > 1 {
        lines.push(format!("All kits cost {}.\n", money(cost, &cost.order.cost)));
    }
    let without: Vec<&str> = cost.without_price().map(|row| row.name.as_str()).collect();
    if !without.is_empty() {
        lines.push(format!("In no amount, for want of a price or of knowing how much: {}.\n", without.join(", ")));
    }
    lines.concat()
}

fn of_kit(cost: &Cost, kit: &KitCost) -> String {
    let who = kit.name.as_deref().map_or_else(|| "A kit".to_owned(), |name| format!("A kit \"{name}\""));
    let ask = if kit.asked.price == kit.asked.cost {
        String::new()
    } else {
        format!(", ask {}", money(cost, &kit.asked.price))
    };
    let packs: Vec<&str> =
        kit.another_pack.iter().filter_map(|row| cost.rows.get(*row)).map(|row| row.name.as_str()).collect();
    let packs = if packs.is_empty() {
        String::new()
    } else {
        format!(", what it uses of another pack of {} among it", packs.join(", "))
    };
    format!(
        "{who} costs {}{ask}; one more takes {}{packs}.\n",
        money(cost, &kit.asked.cost),
        money(cost, &kit.one_more)
    )
}

fn money(cost: &Cost, amount: &hingeleaf::exact::Exact) -> String {
    let shown = cost.shown(amount);
    cost.currency.as_deref().map_or_else(|| shown.clone(), |currency| format!("{shown} {currency}"))
}
