// SPDX-License-Identifier: MIT
//! Which scores fold clean, each way and both ways of the sheet, and which way its grain runs.
//!
//! The scores of a gauge stand in order: behind the line each perforation cuts away a larger share, so that from the first that folds
//! clean on all do. What folds clean in every case is the largest of their first numbers, and cuts away no more than it must.

use super::SCORES;
use crate::fields::{Fallback, Field, Key, Nested, Reader, Values, rule};
use crate::finding::{Arg, Finding, Place, Said};
use crate::length::{Length, Units};

const FOLDS_FORM: &str = "{ \"d_valley\": 2, \"d_mountain\": 2, \"e_valley\": 3, \"e_mountain\": 3 }";
pub(super) const FOLDS: Key<Nested> = Key::nested(
    "folds",
    FOLDS_FORM,
    Fallback::Rule("not folded"),
    "the first score that folds clean in each case, by its number; 0 where none does",
);
const D_VALLEY: Key<Option<u32>> = Key::count("d_valley", (0, 5), rule("not folded"), "strip D, as a valley");
const D_MOUNTAIN: Key<Option<u32>> = Key::count("d_mountain", (0, 5), rule("not folded"), "strip D, as a mountain");
const E_VALLEY: Key<Option<u32>> = Key::count("e_valley", (0, 5), rule("not folded"), "strip E, as a valley");
const E_MOUNTAIN: Key<Option<u32>> = Key::count("e_mountain", (0, 5), rule("not folded"), "strip E, as a mountain");
/// The readings of folds.
pub(crate) const FOLD_READINGS: &[Field] = &[D_VALLEY.field, D_MOUNTAIN.field, E_VALLEY.field, E_MOUNTAIN.field];

const HANG_FORM: &str = "{ \"k\": 12, \"l\": 6 }";
pub(super) const HANG: Key<Nested> = Key::nested(
    "hang",
    HANG_FORM,
    Fallback::Rule("not measured"),
    "how far the free end of each plain strip hangs below the table that it is held on",
);
const K: Key<Option<Length>> =
    Key::length("k", rule("not measured"), "the strip that was cut from left to right").within(0.0, 100.0).unmeasured();
const L: Key<Option<Length>> =
    Key::length("l", rule("not measured"), "the strip that was cut from bottom to top").within(0.0, 100.0).unmeasured();
/// The readings of the plain strips.
pub(crate) const HANG_READINGS: &[Field] = &[K.field, L.field];

/// A hanging end is read to the nearest millimetre: two of them differ for sure by more than this, mm. Our choice.
const HANGS_ALIKE: f64 = 1.0;

/// The cases of folding, as sentences call them.
const CASES: [&str; 4] = ["fold-d-valley", "fold-d-mountain", "fold-e-valley", "fold-e-mountain"];

/// What was read off folds and plain strips; what was not read is nothing.
#[derive(Clone, Debug, Default)]
pub struct FoldReadings {
    /// The number of the first score that folds clean, 0 where none does: strip D as a valley and as a mountain, then strip E.
    pub first_clean: [Option<u32>; 4],
    /// How far the strips K and L hang.
    pub hang: [Option<Length>; 2],
    /// Where the folds stand, and the strips.
    places: [Option<Place>; 2],
}

/// Which way the grain of a sheet runs as it lies on the machine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GrainRuns {
    /// From left to right.
    Across,
    /// From bottom to top.
    Up,
}

/// Reads both of them.
pub(super) fn read(reader: &mut Reader<'_>, values: &Values) -> FoldReadings {
    let mut object = |key: Key<Nested>, fields: &'static [Field]| {
        values.get(key).and_then(|node| reader.object(node, key.name(), Arg::field(key.name()), &[fields]))
    };
    let (folds, hang) = (object(FOLDS, FOLD_READINGS), object(HANG, HANG_READINGS));
    FoldReadings {
        first_clean: [D_VALLEY, D_MOUNTAIN, E_VALLEY, E_MOUNTAIN]
            .map(|key| folds.as_ref().and_then(|all| all.get(key))),
        hang: [K, L].map(|key| hang.as_ref().and_then(|all| all.get(key))),
        places: [values.place(FOLDS).cloned(), values.place(HANG).cloned()],
    }
}

/// Which way the grain runs, and what there is to tell of it: a strip is stiffer along its grain, and hangs less (K5).
pub(super) fn grain(readings: &FoldReadings, findings: &mut Vec<Finding>) -> Option<GrainRuns> {
    let [k, l] = readings.hang.map(|read| read.map(Length::mm));
    let (k, l) = k.zip(l)?;
    let mm = |mm: f64| Arg::Length(Length::from_mm(mm), Units::Mm);
    let text = |key| Said::new(key).with("k", mm(k)).with("l", mm(l));
    if (k - l).abs() <= HANGS_ALIKE {
        let finding = Finding::note("grain-not-told", Said::NOTHING, text("grain-not-told"));
        findings.push(finding.help(Said::new("grain-not-told-help")).at(readings.places[1].as_ref()));
        return None;
    }
    let (runs, key, help) = if k < l {
        (GrainRuns::Across, "grain-runs-across", "grain-runs-across-help")
    } else {
        (GrainRuns::Up, "grain-runs-up", "grain-runs-up-help")
    };
    let finding = Finding::note("grain-runs", Said::NOTHING, text(key)).help(Said::new(help));
    findings.push(finding.at(readings.places[1].as_ref()));
    Some(runs)
}

/// The number of the score that is best in all cases, and what there is to tell of it. What the maker likes best stays, where it is said.
pub(super) fn best_score(
    readings: &FoldReadings,
    liked: Option<u32>,
    grain: Option<GrainRuns>,
    findings: &mut Vec<Finding>,
) -> Option<u32> {
    let all = || CASES.into_iter().zip(readings.first_clean);
    let mut tell = |finding: Finding| findings.push(finding.at(readings.places[0].as_ref()));
    let cases = |which: &[&'static str]| Arg::All(which.iter().map(|case| Arg::Said(Said::new(case))).collect());
    let unread: Vec<_> = all().filter(|(_, first)| first.is_none()).map(|(case, _)| case).collect();
    if unread.len() == CASES.len() {
        return liked;
    }
    let cracked: Vec<_> = all().filter(|(_, first)| *first == Some(0)).map(|(case, _)| case).collect();
    if !cracked.is_empty() {
        let text = Said::new("folds-none-clean").with("cases", cases(&cracked));
        tell(Finding::warn("folds-none-clean", Said::NOTHING, text).help(Said::new(crack_help(readings, grain))));
        return liked;
    }
    let best = readings.first_clean.into_iter().flatten().max()?;
    if unread.is_empty() {
        tell(Finding::note("folds-clean", Said::NOTHING, folding(best, "folds-clean")));
    } else {
        let text = folding(best, "folds-some-clean").with("cases", cases(&unread));
        tell(Finding::note("folds-clean", Said::NOTHING, text).help(Said::new("folds-some-clean-help")));
    }
    match liked {
        Some(liked) if liked < best => {
            let text = Said::new("folds-liked").with("liked", count(liked)).with("number", count(best));
            tell(Finding::warn("folds-liked", Said::NOTHING, text).help(Said::new("folds-liked-help")));
            Some(liked)
        }
        liked => liked.or(Some(best)),
    }
}

fn count(number: u32) -> Arg {
    Arg::Count(number.into())
}

/// A sentence that names a score by its number, and what it is.
fn folding(number: u32, key: &'static str) -> Said {
    let index = usize::try_from(number).unwrap_or_default().saturating_sub(1);
    let mm = |mm: f64| Arg::Length(Length::from_mm(mm), Units::Mm);
    let score = match SCORES.get(index).copied().flatten() {
        None => Said::new("score-is-a-line"),
        Some(dash) => Said::new("score-is-cuts").with("dash", mm(dash.cut)).with("gap", mm(dash.tie)),
    };
    Said::new(key).with("number", count(number)).with("score", score)
}

/// What to do where no score folds clean: it helps to turn parts where only folds across the grain crack.
fn crack_help(readings: &FoldReadings, grain: Option<GrainRuns>) -> &'static str {
    let none = |strip: [usize; 2]| strip.iter().any(|case| readings.first_clean[*case] == Some(0));
    let clean = |strip: [usize; 2]| strip.iter().all(|case| readings.first_clean[*case].is_some_and(|first| first > 0));
    // The scores of D run up the sheet, those of E across it.
    let (with, across) = match grain {
        Some(GrainRuns::Across) => ([2, 3], [0, 1]),
        Some(GrainRuns::Up) | None => ([0, 1], [2, 3]),
    };
    if none(across) && clean(with) && grain.is_some() { "folds-across-help" } else { "folds-none-clean-help" }
}
