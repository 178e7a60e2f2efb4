// SPDX-License-Identifier: MIT
//! What a kit takes besides sheets, for its cost: tape, glue, ribbon, thread, corners; minutes of hands.
//!
//! In: what a guide is made from. Out: amounts and tenths of minutes. Never: a price, a word.

use super::audience::Audience;
use super::bits::{Section, Step};
use super::desk::Desk;
use super::holding::{self, Stick};
use super::job::GuideJob;
use super::need::{A_CUT, MORE_TAPE};
use super::small::SmallThings;
use super::told::Told;
use super::{cutting, deeds, folding, joints, need, shaping, teaching, trimmer};
use crate::exact::Exact;
use crate::length::tolerance::SAME;
use crate::selling::Supplied;

/// So much card is glued with a millilitre of white glue, mm²: some 165 g on a square metre (common practice, no source).
const GLUE_COVERS: f64 = 6000.0;

/// Minutes of hands, in tenths.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct HandTime {
    /// Of the steps of one kit.
    pub each: u64,
    /// Of all sheets that are cut on a trimmer.
    pub once: u64,
}

/// What one kit takes besides sheets; lengths a tenth longer than what is stuck, as the guide says it, and up to a whole mm or ml.
#[must_use]
pub fn taken(job: &GuideJob<'_>) -> Vec<(Supplied, Exact)> {
    let desk = Desk::new(job, Audience::Kit);
    let mut all: Vec<(Supplied, f64)> = need::tape(&desk)
        .into_iter()
        .map(|(width, length)| (Supplied::Tape(Some(width)), length * MORE_TAPE))
        .collect();
    all.push((Supplied::Glue, glued(&desk) / GLUE_COVERS));
    let SmallThings { ribbons, thread, corners, cover } = SmallThings::of(&desk);
    #[allow(clippy::cast_precision_loss, reason = "a count of what is in one kit")]
    let many = |count: u64| count as f64;
    all.extend(ribbons.into_iter().map(|(width, count)| (Supplied::Ribbon(Some(width)), many(count) * deeds::RIBBON)));
    all.extend([(Supplied::Thread, thread), (Supplied::Corners, many(corners))].into_iter().filter(|one| one.1 > 0.0));
    all.extend(cover.map(|_| (Supplied::Cover, 1.0)));
    let mut sums: Vec<(Supplied, f64)> = Vec::new();
    for (what, amount) in all {
        match sums.iter_mut().find(|(known, _)| known.serves(what)) {
            Some((_, sum)) => *sum += amount,
            None => sums.push((what, amount)),
        }
    }
    sums.into_iter().map(|(what, amount)| (what, Exact::whole(whole_up(amount)))).collect()
}

/// What is stuck with glue, mm².
fn glued(desk: &Desk<'_>) -> f64 {
    let kit = desk.kit();
    let mut area = 0.0;
    for job in joints::jobs(kit) {
        let bonds = (0..job.joints.len()).flat_map(|number| job.bonds_of(number));
        for (index, bond) in bonds.enumerate() {
            match holding::stick(desk.job.album, kit, job.doing, bond) {
                Stick::Glue => area += holding::stuck_area(kit, bond),
                // The other face of a tab.
                Stick::Tab { .. } if index > 0 => area += holding::stuck_area(kit, bond),
                Stick::Tab { .. } | Stick::Tape { .. } | Stick::Round { .. } | Stick::Slides => {}
            }
        }
    }
    area
}

/// The hands' time for one kit and for all sheets, as far as `audience` does it; what a machine cuts and scores is no work of
/// hands, `by_machine` says so of a stock.
#[must_use]
pub fn hand_time(job: &GuideJob<'_>, audience: Audience, by_machine: &dyn Fn(usize) -> bool) -> HandTime {
    let desk = Desk::new(job, audience);
    let sections: Vec<Section> = match audience {
        Audience::Kit => super::of_one_kit(&desk),
        Audience::Shop => {
            [cutting::section(&desk), shaping::section(&desk), folding::scoring(&desk)].into_iter().flatten().collect()
        }
    };
    let made = |told: &Told| match told {
        Told::Score(part, _) | Told::Outline(part) | Told::Hole(part, _) => {
            desk.part(*part).is_some_and(|part| by_machine(part.stock))
        }
        _ => false,
    };
    let by_hand =
        |section: &Section, step: &Step| section.id != "cut" && (step.of.is_empty() || !step.of.iter().all(made));
    let minutes = |section: &Section| -> f64 {
        section
            .steps()
            .filter(|step| by_hand(section, step))
            .map(|step| teaching::minutes(&desk, section.id, step))
            .sum()
    };
    let cuts: f64 = desk.plans.iter().map(|plan| f64::from(cuts(plan)) * f64::from(plan.times) * A_CUT).sum();
    HandTime { each: tenths(sections.iter().map(minutes).sum()), once: tenths(cuts) }
}

/// How many cuts take a sheet apart.
pub(super) fn cuts(plan: &trimmer::Plan) -> u32 {
    plan.steps.iter().map(trimmer::TrimStep::cuts).sum()
}

fn tenths(minutes: f64) -> u64 {
    whole_up((minutes * 10.0).round())
}

/// The next whole number up; what arithmetic adds is none.
fn whole_up(amount: f64) -> u64 {
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "not below nought, and far below 2^52")]
    let whole = (amount - SAME).ceil().max(0.0) as u64;
    whole
}
