// SPDX-License-Identifier: MIT
//! What there is to say of a kit whose pages are chosen, and of which of its mixes.
//!
//! In: the mixes worked out. Out: findings. Never: words.

use crate::album::{Entry, INSERT_PAGES};
use crate::batch::{BatchKit, Mix, MixPack, MixRow, MixTable, WorstMix, named_kind};
use crate::finding::{Arg, Finding, Mend, Place, Said};
use crate::length::Length;
use crate::work::Work;

/// What is found of the mixes, what several have in common told once; and of the choice itself.
pub(super) fn findings(kit: &BatchKit, table: &MixTable, works: &[Work]) -> Vec<Finding> {
    let mut findings = of_mixes(table, works);
    findings.extend(no_pockets(table, works));
    findings.extend(spare(kit));
    findings
}

/// A finding that mixes have in common.
struct Shared<'f> {
    finding: &'f Finding,
    /// The mix that it is taken from.
    mix: usize,
    /// The mixes that have it.
    mixes: Vec<usize>,
    /// Whether it is the very same in all of these.
    same: bool,
}

fn of_mixes(table: &MixTable, works: &[Work]) -> Vec<Finding> {
    let mut all: Vec<(SameFault<'_>, Shared<'_>)> = Vec::new();
    for (mix, work) in works.iter().enumerate() {
        for finding in &work.findings {
            let like = same_fault(finding);
            let Some((_, shared)) = all.iter_mut().find(|(known, _)| *known == like) else {
                all.push((like, Shared { finding, mix, mixes: vec![mix], same: true }));
                continue;
            };
            shared.same &= shared.finding == finding;
            if shared.mixes.last() != Some(&mix) {
                shared.mixes.push(mix);
            }
            if off(finding) > off(shared.finding) {
                (shared.finding, shared.mix) = (finding, mix);
            }
        }
    }
    // What stops a mix keeps it from being looked at any further.
    let sound: Vec<usize> = (0..works.len()).filter(|mix| !works[*mix].stopped()).collect();
    let everywhere = |shared: &Shared<'_>| {
        let has = |mix: &usize| shared.mixes.contains(mix);
        shared.same && (shared.mixes.len() == works.len() || (sound.len() > 1 && sound.iter().all(has)))
    };
    all.into_iter().map(|(_, shared)| shared.worded(table, everywhere(&shared))).collect()
}

impl Shared<'_> {
    /// The finding, and the mixes that it is of where it is not just so in all.
    fn worded(&self, table: &MixTable, everywhere: bool) -> Finding {
        let mut finding = self.finding.clone();
        let mix = &table.rows[self.mix].mix;
        if !everywhere {
            let key = if finding.about.is_empty() { "about-mix" } else { "about-of-mix" };
            let about = std::mem::take(&mut finding.about);
            let said = Said::new(key).with("mix", mix.said(&table.kinds)).with("more", self.mixes.len() - 1);
            finding.about = said.with("about", Arg::Said(about));
        }
        finding.mend = finding.mend.map(|mend| Mend { path: of_choice(mix, &table.kinds, &mend.path), ..mend });
        finding
    }
}

/// What findings of several mixes have in common that are one.
type SameFault<'f> = (&'static str, crate::finding::Level, &'static str, Option<&'f Place>, Option<&'f Said>);

fn same_fault(finding: &Finding) -> SameFault<'_> {
    let about = finding.place.is_none().then_some(&finding.about);
    (finding.id, finding.level, finding.text.key(), finding.place.as_ref(), about)
}

/// How far a size is off, mm.
fn off(finding: &Finding) -> f64 {
    finding.measured.zip(finding.allowed).map_or(0.0, |(one, two)| (one.mm() - two.mm()).abs())
}

/// `pages[2].overflap` in the mix's album is `kits[0].choice.of[1].overflap` in the file.
fn of_choice(mix: &Mix, kinds: &[Entry], path: &str) -> String {
    let page = || {
        let (number, rest) = path.strip_prefix("pages[")?.split_once(']')?;
        let kind = kinds.get(mix.kinds().nth(number.parse().ok()?)?)?;
        Some(format!("{}{rest}", kind.place()?.path))
    };
    page().unwrap_or_else(|| path.to_owned())
}

/// Pages that inserts are to go into, and that have no pocket in some mix: a place may be of any kind.
fn no_pockets(table: &MixTable, works: &[Work]) -> Vec<Finding> {
    let of_kind = |kind: usize| table.rows.iter().zip(works).find(|(row, _)| row.mix.alone() == Some(kind));
    let has = |kind: usize| of_kind(kind).is_some_and(|(_, work)| !work.kit.pockets.is_empty());
    let without: Vec<usize> = (0..table.kinds.len()).filter(|kind| !has(*kind)).collect();
    let Some(album) = works.first().map(|work| &work.album) else { return Vec::new() };
    let mut findings = Vec::new();
    for (number, insert) in album.inserts.iter().enumerate() {
        for (page, place) in insert.values.find(INSERT_PAGES).flatten().into_iter().flatten() {
            let Some(at) = usize::try_from(*page).ok().and_then(|page| page.checked_sub(1)) else { continue };
            // Of the mixes that were worked out those that have none there; each kind alone is among them.
            let bare = |row: &&MixRow| row.mix.kinds().nth(at).is_some_and(|kind| without.contains(&kind));
            let mixes: Vec<&MixRow> = table.rows.iter().filter(bare).collect();
            let Some(first) = mixes.first() else { continue };
            let kind = Arg::term(insert.kind.name.replace('-', " "));
            let about = Said::new("about-insert").with("kind", kind).with("number", number + 1);
            let text = Said::new("choice-no-pocket").with("page", u64::from(*page));
            let text = text.with("mix", first.mix.said(&table.kinds)).with("more", mixes.len() - 1);
            let kinds = without.iter().map(|kind| Arg::Said(named_kind(&table.kinds, *kind))).collect();
            let help = Said::new("choice-no-pocket-help").with("pages", Arg::field("pages"));
            let finding = Finding::warn("choice-no-pocket", about, text).help(help.with("kinds", Arg::All(kinds)));
            findings.push(finding.at(Some(place)));
        }
    }
    findings
}

/// Inserts that are to be as many as come free: that is another number for every mix.
fn spare(kit: &BatchKit) -> Option<Finding> {
    let insert = kit.album.inserts.iter().find(|insert| insert.is_spare())?;
    let text = Said::new("choice-spare");
    let help = Said::new("choice-spare-help").with("count", Arg::field("count"));
    Some(Finding::warn("choice-spare", Said::NOTHING, text).help(help).at(insert.place()))
}

/// What the mixes take, and how sure that is.
pub(super) fn of_sheets(table: &MixTable, packed: &MixPack, (works, thickest): (&[Work], usize)) -> Vec<Finding> {
    let mut findings: Vec<Finding> = table.worst.map(|worst| sheets(table, worst)).into_iter().collect();
    if !packed.proven {
        let finding = if table.is_whole() {
            let text = Said::new("choice-order-not-proven");
            Finding::warn("choice-not-proven", Said::NOTHING, text).help(Said::new("choice-order-not-proven-help"))
        } else {
            let text = Said::new("choice-not-proven").with("tried", table.rows.len()).with("mixes", table.mixes);
            Finding::warn("choice-not-proven", Said::NOTHING, text).help(Said::new("choice-not-proven-help"))
        };
        findings.push(finding);
    } else if packed.by_place {
        findings.push(Finding::note("choice-order", Said::NOTHING, Said::new("choice-order")));
    }
    findings.extend(loose(table, works, thickest));
    findings
}

fn sheets(table: &MixTable, worst: WorstMix) -> Finding {
    let WorstMix { row, sheets, at_most, at_least } = worst;
    let key = match (table.is_whole(), at_most) {
        (true, _) => "choice-mixes",
        (false, Some(_)) => "choice-mixes-bound",
        (false, None) => "choice-mixes-tried",
    };
    let text = Said::new(key).with("mixes", table.mixes).with("pages", table.pages).with("sheets", sheets);
    let text = text.with("worst", table.rows[row].mix.said(&table.kinds));
    let text = match at_most.filter(|_| !table.is_whole()) {
        Some(at_most) => text.with("at_most", at_most).with("at_least", at_least),
        None => text,
    };
    let text = if table.is_whole() {
        text.with("least", table.rows.iter().filter_map(MixRow::all).min().unwrap_or(0))
    } else {
        text.with("tried", table.rows.len())
    };
    Finding::note("choice", Said::NOTHING, text)
}

/// The cover is made for the thickest mix: how much wider that is than the thinnest one.
fn loose(table: &MixTable, works: &[Work], thickest: usize) -> Option<Finding> {
    let spines = works.iter().map(|work| work.kit.cover_room.map(|room| room.spine)).collect::<Option<Vec<f64>>>()?;
    let by_spine = |one: &usize, two: &usize| spines[*one].total_cmp(&spines[*two]);
    let thinnest = (0..spines.len()).min_by(by_spine)?;
    let widest = (0..spines.len()).rev().max_by(by_spine)?;
    let (least, most) = (spines[thinnest], spines[widest]);
    let said = |row: usize| table.rows[row].mix.said(&table.kinds);
    let text = Said::new("choice-cover").with("widest", said(widest)).with("thinnest", said(thinnest));
    let text = text.with("wider", works[thickest].album.rough(most - least));
    let finding = Finding::note("choice-cover", Said::new("about-cover"), text);
    (most - least > WORTH_SAYING).then(|| finding.measured(Length::from_mm(most), Length::from_mm(least)))
}

/// A cover that is wider by less than this is not told, mm: our choice.
const WORTH_SAYING: f64 = 0.5;
