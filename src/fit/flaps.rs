// SPDX-License-Identifier: MIT
//! Whether what folds over something thick still reaches.
//!
//! With one score it drapes over the far edge of what it lies on and reaches sqrt(d^2 + h^2) - d less far, h thick and its
//! edge d from the score (H11). Two scores h + t apart square the fold: of h they leave what is more than that (D6).

use crate::album::Album;
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::net::bend::{draped, wrapper};
use crate::parts::{DEPTH, Flap, Kit, Way};

/// A flap that overlaps by less holds loosely, mm: our choice (H11).
pub(super) const HOLDS: f64 = 6.0;

/// What something on one score may lie over without a word, mm: our choice.
const QUIET: f64 = 2.0;

/// How many sizes decide how far a flap reaches: its own, what it closes, the page.
pub(super) const SIZES: u32 = 3;

/// Less than a cut is ever off, mm: so little short still closes.
pub(super) const HAIR: f64 = 0.05;

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    let stacks = kit.held();
    kit.flaps.iter().filter_map(|flap| one(album, flap, &over(kit, &stacks, flap))).collect()
}

/// Flaps that close something, and by how much they reach over it, mm.
pub(super) fn reaches(kit: &Kit) -> impl Iterator<Item = (&Flap, f64)> {
    let stacks = kit.held();
    kit.flaps.iter().filter_map(move |flap| Some((flap, left(flap.overlap?, &over(kit, &stacks, flap)))))
}

/// What a flap loses of its reach at most, however long it is, mm.
pub(super) fn most_lost(kit: &Kit, flap: &Flap) -> f64 {
    over(kit, &kit.held(), flap).most
}

/// What is left of an overlap, mm.
fn left(overlap: f64, over: &Over) -> f64 {
    let left = overlap - over.lost;
    if left < -HAIR { left } else { left.max(0.0) }
}

/// What a flap lies over: how thick it is, how much of its reach that costs, and how much at most, were it longer.
struct Over {
    thick: f64,
    lost: f64,
    most: f64,
}

fn over(kit: &Kit, stacks: &[f64], flap: &Flap) -> Over {
    let [under, edge] = flap.over;
    let inside = flap.pocket.and_then(|(pocket, way, from)| {
        let stack = stacks.get(pocket).copied().filter(|stack| *stack > 0.0)?;
        let of = |insert: &crate::parts::Insert| if way == Way::Up { insert.height } else { insert.width };
        let longest = kit.inserts.iter().filter(|insert| insert.pocket == Some(pocket)).map(of).fold(0.0, f64::max);
        Some((under + stack, (from - longest).max(0.0)))
    });
    let (thick, away) = inside.unwrap_or((under, edge));
    let squared = if flap.depth > 0.0 { flap.depth - flap.caliper } else { 0.0 };
    let high = (thick - squared).max(0.0);
    let most = away.hypot(high) - away;
    Over { thick, lost: flap.long - draped(flap.long, away, high), most }
}

fn one(album: &Album, flap: &Flap, over: &Over) -> Option<Finding> {
    let mm = Length::from_mm;
    let [depth, _] = wrapper(over.thick, flap.caliper);
    let apart = album.at_least(depth);
    let depth = album.length(apart.mm());
    let Some(overlap) = flap.overlap else {
        let key = if flap.what == "doors" { "one-score" } else { "one-score-leaf" };
        let text = Said::new(key).with("thick", album.rough(over.thick)).with("lost", album.rough(over.lost));
        let finding = Finding::warn("one-score", Said::named(&flap.name), text).measured(mm(over.lost), mm(QUIET));
        let help = Said::new("one-score-help").with("field", Arg::field(DEPTH.name())).with("depth", depth);
        let finding = finding.help(help).mend(format!("{}.{}", flap.path, DEPTH.name()), apart);
        return (over.lost > QUIET + SAME).then(|| finding.at(flap.place.as_ref()));
    };
    // Where it does not even reach when all is flat, that is said elsewhere; where it may not when cut by hand, too.
    let left = left(overlap, over);
    let by_hand = f64::from(SIZES) * album.tolerance.mm();
    if overlap < -SAME || left >= HOLDS - HAIR {
        return None;
    }
    let longer = album.at_least(flap.length[0] + HOLDS + over.most - overlap);
    let mend = |finding: Finding| {
        let can = !flap.field.is_empty() && longer.mm() <= flap.length[1] + SAME;
        if can { finding.mend(format!("{}.{}", flap.path, flap.field), longer) } else { finding }
    };
    let help = |key| {
        Said::new(key)
            .with("field", Arg::field(flap.field))
            .with("least", album.length(longer.mm()))
            .with("depth", Arg::field(DEPTH.name()))
            .with("apart", depth.clone())
    };
    if left < 0.0 {
        let text = Said::new("flap-open").with("thick", album.rough(over.thick)).with("short", album.rough(-left));
        let key = if flap.two { "flap-open-help-two" } else { "flap-open-help" };
        let finding = Finding::stop("flap-open", Said::named(&flap.name), text).measured(mm(left), Length::ZERO);
        return Some(mend(finding.help(help(key)).at(flap.place.as_ref())));
    }
    if left < by_hand {
        return None;
    }
    let text = Said::new("flap-barely").with("left", album.rough(left)).with("holds", album.rough(HOLDS));
    let finding = Finding::note("flap-barely", Said::named(&flap.name), text).measured(mm(left), mm(HOLDS));
    Some(mend(finding.help(help("flap-barely-help")).at(flap.place.as_ref())))
}
