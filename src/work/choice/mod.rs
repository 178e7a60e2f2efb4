// SPDX-License-Identifier: MIT
//! A kit whose pages are chosen: the mixes worked out, what they take, what is packed so that every one can be made.
//!
//! In: a kit of a batch, the cutter, how hard to search. Out: a [`Chosen`], a [`ChoiceWork`], and the [`Work`] that stands for the kit in its
//! batch. Never: more than the stages do.
//!
//! All mixes get one cover: as far round and as wide at its spine as the one that needs the most ([`CoverRoom`]). A mix is laid as
//! an album of its own would be, all copies of the same mix.

mod bound;
mod told;

use super::{ReaderText, Work};
use crate::album::{Album, CoverRoom};
use crate::batch::{BatchKit, Chosen, MixPack, MixRow, MixSheets, MixTable, WorstMix};
use crate::cutter::Cutter;
use crate::finding::stops;
use crate::fit::Fit;
use crate::guide::{self, ChosenJob, Guide, GuideJob};
use crate::layout::{Effort, Watch};
use crate::parts::Kit;
use crate::sheets::{self, Search, StockSheets};
use crate::trial::Trial;

/// A choice worked out, for who tells how each of its mixes is made.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct ChoiceWork {
    /// How each mix that was worked out goes together, in the cover that all mixes share.
    pub works: Vec<Work>,
    /// Number of the thickest of them: it stands for all where one must.
    pub thickest: usize,
}

impl ChoiceWork {
    /// What the kit may be made as.
    pub(super) fn albums(&self) -> impl Iterator<Item = (&Album, &Kit)> {
        self.works.iter().map(|work| (&work.album, &work.kit))
    }

    /// Gives every part of every mix the letter that it has in what is packed.
    pub(super) fn letter(&mut self, part_of: &[Vec<usize>], letters: &[String]) {
        for (work, part_of) in self.works.iter_mut().zip(part_of) {
            let letter = |part: &usize| letters.get(*part).cloned().unwrap_or_default();
            work.letters = Some(part_of.iter().map(letter).collect());
        }
    }

    /// A text for who chooses the pages; `packed` is the kit as it is packed.
    pub(super) fn text(&self, text: ReaderText, packed: GuideJob<'_>, chosen: &Chosen) -> Guide {
        let alone = |kind: usize| chosen.table.rows.iter().position(|row| row.mix.alone() == Some(kind));
        let kinds: Vec<&Work> = (0..chosen.table.kinds.len()).filter_map(|kind| self.works.get(alone(kind)?)).collect();
        // How thick the album gets depends on the mix.
        let fits: Vec<Fit> = kinds.iter().map(|work| Fit { closed: None, ..work.fit.clone() }).collect();
        let of_kind = kinds.iter().zip(&fits);
        let of_kind = of_kind.map(|(work, fit)| GuideJob { fit, ..work.guide_job(packed.both_units) });
        let kinds: Vec<GuideJob<'_>> = of_kind.collect();
        let job = ChosenJob { packed, kinds: &kinds, chosen };
        match text {
            ReaderText::Guide => guide::chosen(&job),
            ReaderText::Teaching => guide::chosen_teaching(&job),
            ReaderText::Card => guide::chosen_card(&job),
            ReaderText::Job => text.made(&packed),
        }
    }
}

/// Works out the mixes of a kit that is made so many times; nothing where its pages are not chosen. The last work stands for the
/// kit in its batch: its parts are those that are packed.
pub(super) fn chosen(
    kit: &BatchKit,
    times: u32,
    cutter: &Cutter,
    search: Search,
    watch: &dyn Watch,
) -> Option<(Chosen, ChoiceWork, Work)> {
    let choice = kit.choice.as_ref()?;
    let kinds = kit.album.pages.clone();
    let mixes = choice.tried(kinds.len());
    let albums: Vec<Album> = mixes.iter().map(|mix| Album { copies: times, ..kit.with_mix(mix) }).collect();
    let room = cover_room(&albums, cutter);
    let works: Vec<Work> =
        albums.into_iter().map(|album| Work::fit(Album { cover_room: room, ..album }, cutter.clone())).collect();
    let thick = |work: &Work| work.fit.closed.as_ref().map_or(0.0, |closed| closed.thickest);
    // The first of those that are equally thick.
    let thickest = (0..works.len()).rev().max_by(|one, two| thick(&works[*one]).total_cmp(&thick(&works[*two])))?;
    let number = choice.mixes(kinds.len());
    let mut table = MixTable::new(kinds, (choice.pages, number), mixes);
    let of_mixes: Vec<_> = table.rows.iter().map(|row| &row.mix).zip(works.iter().map(|work| &work.kit)).collect();
    let packed = MixPack::of(kit, &of_mixes, thickest, table.is_whole());
    let mut findings = told::findings(kit, &table, &works);
    if !stops(&findings) {
        // A table of many layouts is laid quickly; what it takes to be sure of is said with each.
        let quick = Search { effort: Effort::Low, ..search };
        lay(&mut table, &works, quick, watch);
        worst(&mut table, || bound::at_most(&packed, (&works[thickest], choice.pages), quick, watch));
        findings.extend(told::of_sheets(&table, &packed, (&works, thickest)));
    }
    let shown = &works[thickest];
    let of = (shown.album.clone(), cutter.clone());
    let work = Work::begun(of, packed.kit.clone(), shown.fit.clone(), findings);
    Some((Chosen::new(packed, table), ChoiceWork { works, thickest }, work))
}

/// Lays all mixes that were worked out.
fn lay(table: &mut MixTable, works: &[Work], search: Search, watch: &dyn Watch) {
    for (row, Work { album, kit, cutter, .. }) in table.rows.iter_mut().zip(works) {
        let (laid, findings) = sheets::lay(album.order(), kit, cutter, search, watch);
        let of = |laid: &StockSheets| MixSheets::new(laid.stock, laid.count(), laid.lower_bound);
        row.sheets = (!stops(&findings)).then(|| laid.iter().map(of).collect());
    }
}

/// Finds the mix that takes the most sheets; `at_most` says how many any takes, where not all are laid.
fn worst(table: &mut MixTable, at_most: impl FnOnce() -> Option<u64>) {
    // The first of those that take equally many.
    let laid = |row: &usize| table.rows[*row].all();
    let Some((row, sheets)) =
        (0..table.rows.len()).rev().filter_map(|row| Some((row, laid(&row)?))).max_by_key(|one| one.1)
    else {
        return;
    };
    let at_least = table.rows.iter().filter_map(MixRow::least).max().unwrap_or(0);
    // What is laid is one layout of each; there is none that is known to need more.
    let at_most = if table.is_whole() { Some(sheets) } else { at_most().map(|most| most.max(sheets)) };
    table.worst = Some(WorstMix::new(row, sheets, at_most, at_least));
}

/// What a cover goes round that is enough for all of these; none where they have none.
fn cover_room(albums: &[Album], cutter: &Cutter) -> Option<CoverRoom> {
    let room = |album: &Album| Trial::of(album.clone(), cutter).kit()?.cover_room;
    albums.first()?.cover.as_ref()?;
    albums.iter().filter_map(room).reduce(CoverRoom::or)
}
