// SPDX-License-Identifier: MIT
//! What each kit bears of an order's cost, and what one more of it would cost.

use super::asking::AskingPrice;
use super::needs::{KitNeeds, OrderNeeds, SharedRow};
use super::{CostWhat, KitCost, KitShare};
use crate::exact::Exact;

/// What one kit costs.
pub(super) fn kit(order: &OrderNeeds<'_>, rows: &[SharedRow], needs: &KitNeeds) -> KitCost {
    let number = order.kits.iter().position(|kit| std::ptr::eq(kit, needs)).unwrap_or_default();
    let (made, sold) = (Exact::whole(needs.made.into()), Exact::whole(needs.sold.into()));
    let (mut shares, mut one_more, mut another_pack) = (Vec::new(), Exact::zero(), Vec::new());
    for (at, shared) in rows.iter().enumerate() {
        let part = part(order, shared, number);
        if part.is_zero() || shared.row.quantity.is_none() {
            continue;
        }
        let borne = shared.row.cost().and_then(|cost| cost.times(&part).over(&sold));
        // A spare kit goes out in nothing.
        let kits = if shared.row.what == CostWhat::Packaging { &sold } else { &made };
        let takes = shared.row.quantity.as_ref().and_then(|all| all.times(&part).over(kits));
        one_more =
            one_more.plus(&shared.row.at_use().and_then(|all| all.times(&part).over(kits)).unwrap_or_else(Exact::zero));
        let in_packs = shared.row.sold.as_ref().is_some_and(|sold| sold.whole && sold.per > Exact::whole(1));
        if in_packs && shared.row.left().zip(takes).is_some_and(|(left, takes)| left < takes) {
            another_pack.push(at);
        }
        // Of what is counted as the row is, it has what it pays for: what the order takes once is shared, too.
        let quantity = if shared.unit == shared.row.unit {
            shared.row.quantity.as_ref().map(|all| all.times(&part))
        } else {
            shared.each.get(number).cloned()
        };
        let quantity = quantity.unwrap_or_else(Exact::zero);
        shares.push(KitShare { row: at, quantity, unit: shared.unit, cost: borne });
    }
    let cost = shares.iter().filter_map(|share| share.cost.clone()).sum();
    KitCost {
        name: needs.name.clone(),
        made: needs.made,
        sold: needs.sold,
        shares,
        asked: AskingPrice::of(cost, &order.terms.selling),
        one_more,
        another_pack,
    }
}

/// A kit's part of a row: by what it has of it; where no kit has any, by how many are made.
fn part(order: &OrderNeeds<'_>, shared: &SharedRow, kit: usize) -> Exact {
    let of = |each: &[Exact]| each.get(kit)?.over(&each.iter().cloned().sum());
    of(&shared.each).unwrap_or_else(|| {
        let made: Vec<Exact> = order.kits.iter().map(|kit| Exact::whole(kit.made.into())).collect();
        of(&made).unwrap_or_else(Exact::zero)
    })
}
