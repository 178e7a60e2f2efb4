// SPDX-License-Identifier: MIT
//! Puts the answers together.

use super::chapters::{self, EditionChapter, OtherParts};
use super::difference::Difference;
use super::edition::{Edition, EditionSheet};
use super::matching::{PartOutcome, matches};
use super::pages::ChangedPages;
use super::recut::Recut;

/// What a new edition has to do with an old one.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Comparison<'e> {
    /// The old edition.
    pub old: &'e Edition,
    /// The new one.
    pub new: &'e Edition,
    /// Every part of the new edition in its order, and then those of the old one that are gone.
    pub parts: Vec<ComparedPart>,
    /// What the owner of an old kit must cut.
    pub recut: Recut,
    /// Which pages of the album are made of other pieces.
    pub pages: ChangedPages,
    /// Whether the head of the guide changed: its title, its maker, the edition's name, notes.
    pub head: bool,
    /// The chapters of the guide that read or look otherwise; none where the new guide is not at hand.
    pub chapters: Option<Vec<&'e EditionChapter>>,
}

/// A part of two editions.
#[derive(Clone, Debug)]
pub struct ComparedPart {
    /// Its number in the old edition.
    pub old: Option<usize>,
    /// Its number in the new one.
    pub new: Option<usize>,
    /// What became of it.
    pub outcome: PartOutcome,
    /// In what it differs, where it is of both.
    pub difference: Difference,
}

/// Compares a new edition with an old one.
#[must_use]
pub fn compare<'e>(old: &'e Edition, new: &'e Edition) -> Comparison<'e> {
    let matched = matches(old, new);
    let of_new = |(number, part)| {
        let (cut, named): (Option<usize>, Option<usize>) = (matched.by_cut[number], matched.by_name[number]);
        let was = cut.or(named);
        let before = was.map(|was| &old.parts[was]);
        let difference = before.map_or_else(Difference::default, |before| Difference::of(before, part));
        let outcome = match before {
            None => PartOutcome::New,
            Some(_) if cut.is_none() => PartOutcome::Changed,
            Some(before) if before.own_id() != part.own_id() => PartOutcome::Renamed,
            Some(_) if difference.count.is_some() => PartOutcome::Counted,
            Some(_) => PartOutcome::Same,
        };
        ComparedPart { old: was, new: Some(number), outcome, difference }
    };
    let mut parts: Vec<ComparedPart> = new.parts.iter().enumerate().map(of_new).collect();
    let gone = |&old| ComparedPart {
        old: Some(old),
        new: None,
        outcome: PartOutcome::Gone,
        difference: Difference::default(),
    };
    parts.extend(matched.gone.iter().map(gone));
    let became = |which: &dyn Fn(PartOutcome) -> bool| {
        parts.iter().filter(|part| which(part.outcome)).filter_map(|part| part.new).collect()
    };
    let others = OtherParts {
        any: became(&|outcome| outcome != PartOutcome::Same),
        cut: became(&|outcome| outcome.is_another()),
    };
    Comparison {
        recut: Recut::of(old, new),
        pages: ChangedPages::of(old, new),
        head: old.title != new.title || matches!((&old.head, &new.head), (Some(was), Some(is)) if was != is),
        chapters: chapters::changed(old.chapters.as_deref(), new.chapters.as_deref(), &others),
        old,
        new,
        parts,
    }
}

impl Comparison<'_> {
    /// The parts of which this became.
    pub fn of(&self, outcome: PartOutcome) -> impl Iterator<Item = &ComparedPart> {
        self.parts.iter().filter(move |part| part.outcome == outcome)
    }

    /// The sheets of the new edition that hold something that has to be cut.
    pub fn sheets(&self) -> impl Iterator<Item = &EditionSheet> {
        self.new.sheets.iter().filter(|sheet| sheet.parts.iter().any(|part| self.is_cut(*part)))
    }

    /// Whether the owner of an old kit must cut any of a part of the new one.
    #[must_use]
    pub fn is_cut(&self, part: usize) -> bool {
        self.recut.cut.get(part).is_some_and(|count| *count > 0)
    }
}
