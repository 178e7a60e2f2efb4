// SPDX-License-Identifier: MIT
//! What there is to say of two editions of an order side by side: kit by kit, and then the whole order.

use super::order_comparison::{ComparedKit, KitOutcome, OrderComparison};
use super::told::{ToldChange, counts, of_kit, push, sheets};
use crate::finding::{Arg, Said};

/// Everything that there is to say; `names` are those of the files, the old one first.
#[must_use]
pub fn told_order(found: &OrderComparison<'_>, names: &[String; 2]) -> Vec<ToldChange> {
    let [old, new] = names;
    let same = found.kits.iter().filter(|kit| kit.outcome == KitOutcome::Same).count();
    let there = found.kits.iter().filter(|kit| kit.outcome != KitOutcome::Gone).count();
    let first = Said::new(if same == found.kits.len() { "order-all-same" } else { "order-same" });
    let first = first.with("kits", there).with("same", same).with("new", Arg::code(new)).with("old", Arg::code(old));
    let mut lines = vec![ToldChange::from(first)];
    let is = |which: KitOutcome| found.kits.iter().filter(move |kit| kit.outcome == which);
    // What several kits have in common is said once.
    let mut told: Vec<(Vec<Arg>, Vec<ToldChange>)> = Vec::new();
    for kit in found.kits.iter().filter(|kit| kit.old.is_some() && kit.new.is_some()) {
        let under = of_kit(&kit.found);
        match told.iter_mut().find(|(_, known)| *known == under) {
            Some((kits, _)) => kits.push(name(found, kit)),
            None if under.is_empty() => {}
            None => told.push((vec![name(found, kit)], under)),
        }
    }
    for (kits, under) in told {
        lines.push(ToldChange { said: Said::new("order-kits").with("kits", Arg::All(kits)), under });
    }
    for kit in is(KitOutcome::Renamed) {
        let was = kit.old.and_then(|old| found.old.kits.get(old)?.name.as_deref()).unwrap_or_default();
        lines.push(Said::new("order-renamed").with("kit", name(found, kit)).with("was", Arg::code(was)).into());
    }
    for (outcome, key) in [(KitOutcome::New, "order-new"), (KitOutcome::Gone, "order-gone")] {
        let kits: Vec<Arg> = is(outcome).map(|kit| name(found, kit)).collect();
        if !kits.is_empty() {
            lines.push(Said::new(key).with("kits", Arg::All(kits)).into());
        }
    }
    lines.extend(found.kits.iter().filter_map(|kit| copies(found, kit)));
    if found.again.is_nothing() {
        lines.push(Said::new("order-recut-nothing").into());
    }
    push(&mut lines, Said::new("order-recut"), counts(&found.new.parts, &found.again.count));
    let sheets = sheets(found.sheets());
    if !sheets.is_empty() {
        lines.push(Said::new("compare-sheets").with("sheets", Arg::Row(sheets)).into());
    }
    lines
}

/// What a kit is called: in the new edition, else in the old one.
fn name(found: &OrderComparison<'_>, kit: &ComparedKit<'_>) -> Arg {
    let new = kit.new.and_then(|kit| found.new.kits.get(kit)?.name.as_deref());
    let old = kit.old.and_then(|kit| found.old.kits.get(kit)?.name.as_deref());
    Arg::code(new.or(old).unwrap_or_default())
}

/// That there is another number of a kit of two batches.
fn copies(found: &OrderComparison<'_>, kit: &ComparedKit<'_>) -> Option<ToldChange> {
    let (was, is) = (found.old.kits.get(kit.old?)?, found.new.kits.get(kit.new?)?);
    if was.name.is_none() || is.name.is_none() || was.made == is.made {
        return None;
    }
    let key = if is.made > was.made { "order-more" } else { "order-fewer" };
    let said = Said::new(key).with("kit", name(found, kit)).with("was", was.made).with("is", is.made);
    Some(said.with("by", was.made.abs_diff(is.made)).into())
}
