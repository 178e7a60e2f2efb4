// SPDX-License-Identifier: MIT
//! What there is to say of two editions side by side.

use super::comparison::{ComparedPart, Comparison};
use super::difference::{Difference, ScoreChange};
use super::edition::{EditionPart, EditionSheet};
use super::matching::PartOutcome;
use super::measured_score::{MeasuredScore, ScorePlace};
use crate::finding::{Arg, Said};
use crate::length::{Length, Units};

/// A sentence, and what stands under it.
#[derive(Clone, Debug, PartialEq)]
pub struct ToldChange {
    /// The sentence, or the heading of what is under it.
    pub said: Said,
    /// What belongs to it.
    pub under: Vec<Self>,
}

impl From<Said> for ToldChange {
    fn from(said: Said) -> Self {
        Self { said, under: Vec::new() }
    }
}

/// Everything that there is to say; `names` are those of the files, the old one first.
#[must_use]
pub fn told(found: &Comparison<'_>, names: &[String; 2]) -> Vec<ToldChange> {
    let say = InWords { found, units: found.new.units.or(found.old.units).unwrap_or(Units::Mm) };
    let [old, new] = names;
    let (parts, same) = (found.new.parts.len(), found.of(PartOutcome::Same).count());
    let whole = same == found.parts.len();
    let first = Said::new(if whole { "compare-all-same" } else { "compare-same" }).with("parts", parts);
    let first = first.with("same", same).with("new", Arg::code(new)).with("old", Arg::code(old));
    let mut told = vec![ToldChange::from(first)];
    told.extend(say.changes());
    if found.recut.is_nothing() {
        told.push(Said::new("compare-recut-nothing").into());
    }
    told.extend(say.again());
    told
}

/// What there is to say of one kit of several; nothing where it is as it was.
pub(super) fn of_kit(found: &Comparison<'_>) -> Vec<ToldChange> {
    let say = InWords { found, units: found.new.units.or(found.old.units).unwrap_or(Units::Mm) };
    [say.changes(), say.again()].concat()
}

/// A heading and what stands under it; nothing where nothing does.
pub(super) fn push(told: &mut Vec<ToldChange>, heading: Said, under: impl Iterator<Item = Said>) {
    let under: Vec<ToldChange> = under.map(ToldChange::from).collect();
    if !under.is_empty() {
        told.push(ToldChange { said: heading, under });
    }
}

/// `2 x page-1-front of card`
pub(super) fn counts<'e>(parts: &'e [EditionPart], counts: &'e [u32]) -> impl Iterator<Item = Said> {
    let counted = parts.iter().zip(counts).filter(|(_, count)| **count > 0);
    counted.map(|(part, count)| {
        let said = Said::new("compare-recut-part").with("count", *count);
        said.with("part", Arg::code(&part.id)).with("stock", Arg::code(&part.stock))
    })
}

/// Sheets, and how often each is cut.
pub(super) fn sheets<'s>(sheets: impl Iterator<Item = &'s EditionSheet>) -> Vec<Arg> {
    let sheet = |sheet: &EditionSheet| {
        let key = if sheet.times > 1 { "compare-sheet-times" } else { "compare-sheet" };
        Arg::from(Said::new(key).with("name", Arg::code(&sheet.name)).with("times", sheet.times))
    };
    sheets.map(sheet).collect()
}

struct InWords<'a> {
    found: &'a Comparison<'a>,
    units: Units,
}

impl InWords<'_> {
    /// What became of the parts.
    fn changes(&self) -> Vec<ToldChange> {
        let mut told = Vec::new();
        for (outcome, heading) in [
            (PartOutcome::Changed, "compare-changed"),
            (PartOutcome::New, "compare-new"),
            (PartOutcome::Gone, "compare-gone"),
            (PartOutcome::Renamed, "compare-renamed"),
            (PartOutcome::Counted, "compare-counted"),
        ] {
            let parts = self.found.of(outcome).filter_map(|part| self.part(part));
            push(&mut told, Said::new(heading), parts);
        }
        told
    }

    /// What is cut and printed again.
    fn again(&self) -> Vec<ToldChange> {
        let mut told = Vec::new();
        push(&mut told, Said::new("compare-recut"), counts(&self.found.new.parts, &self.found.recut.cut));
        push(&mut told, Said::new("compare-over"), counts(&self.found.old.parts, &self.found.recut.over));
        told.extend(self.to_do().into_iter().map(ToldChange::from));
        told
    }

    fn length(&self, mm: f64) -> Arg {
        Arg::Length(Length::from_mm(mm), self.units)
    }

    /// A part and in what it differs.
    fn part(&self, part: &ComparedPart) -> Option<Said> {
        let was = part.old.and_then(|old| self.found.old.parts.get(old));
        let is = part.new.and_then(|new| self.found.new.parts.get(new));
        let named = |key, part: &EditionPart| {
            let said = Said::new(key).with("part", Arg::code(&part.id)).with("kind", Arg::term(&part.kind));
            said.with("stock", Arg::code(&part.stock))
        };
        let differs = match (was, is) {
            (Some(was), None) => return Some(named("compare-part-gone", was)),
            (None, Some(is)) => self.first(is),
            (Some(was), Some(is)) => self.differs(was, is, &part.difference),
            (None, None) => return None,
        };
        Some(named("compare-part", is?).with("differs", Arg::Row(differs.into_iter().map(Arg::from).collect())))
    }

    /// How large a new part is, and how many there are.
    fn first(&self, is: &EditionPart) -> Vec<Said> {
        let size = Said::new("first-size").with("width", self.length(is.width));
        vec![size.with("height", self.length(is.height)), Said::new("differs-first-count").with("is", is.count)]
    }

    fn differs(&self, was: &EditionPart, is: &EditionPart, by: &Difference) -> Vec<Said> {
        let mut said = Vec::new();
        let two = |key, [was, is]: [Arg; 2]| Said::new(key).with("was", was).with("is", is);
        if was.own_id() != is.own_id() {
            said.push(Said::new("differs-name").with("was", Arg::code(&was.id)));
        }
        said.extend(by.kind.as_ref().map(|kinds| two("differs-kind", kinds.clone().map(Arg::term))));
        said.extend(by.stock.as_ref().map(|stocks| two("differs-stock", stocks.clone().map(Arg::code))));
        for (size, ways) in [(by.width, ["narrower", "wider"]), (by.height, ["shorter", "taller"])] {
            let Some([was, is]) = size else { continue };
            let way = Said::new(ways[usize::from(is > was)]).with("by", self.length((is - was).abs()));
            said.push(two("differs-size", [was, is].map(|mm| self.length(mm))).with("way", way));
        }
        said.extend(by.scores.iter().map(|change| self.score(change)));
        if by.outline {
            said.push(Said::new("differs-outline"));
        }
        said.extend(by.count.map(|counts| two("differs-count", counts.map(Arg::from))));
        said
    }

    fn score(&self, change: &ScoreChange) -> Said {
        let fold = |mark: &MeasuredScore| Arg::term(mark.sense.word());
        match change {
            ScoreChange::Moved(was, is) => {
                // From the same edge: that is said once.
                let was = match was.place {
                    ScorePlace::Left(at) | ScorePlace::Top(at) => self.length(at),
                    ScorePlace::Slanted(_) => self.place(was).into(),
                };
                Said::new("score-moved").with("was", was).with("is", self.place(is))
            }
            ScoreChange::Refolded(was, is) => {
                Said::new("score-refolded").with("place", self.place(is)).with("was", fold(was)).with("is", fold(is))
            }
            ScoreChange::New(is) => Said::new("score-new").with("place", self.place(is)).with("fold", fold(is)),
            ScoreChange::Gone(was) => Said::new("score-gone").with("place", self.place(was)),
        }
    }

    fn place(&self, mark: &MeasuredScore) -> Said {
        match mark.place {
            ScorePlace::Left(at) => Said::new("score-left").with("at", self.length(at)),
            ScorePlace::Top(at) => Said::new("score-top").with("at", self.length(at)),
            ScorePlace::Slanted([x, y, to_x, to_y]) => {
                let said = Said::new("score-slanted").with("x", self.length(x)).with("y", self.length(y));
                said.with("to_x", self.length(to_x)).with("to_y", self.length(to_y))
            }
        }
    }

    /// Sheets, pages and chapters.
    fn to_do(&self) -> Vec<Said> {
        let mut said = Vec::new();
        let chapters = self.found.chapters.iter().flatten().map(|chapter| Arg::quoted(&chapter.heading));
        let pages = |pages: &[usize]| pages.iter().copied().map(Arg::from).collect();
        for (key, place, row) in [
            ("compare-sheets", "sheets", sheets(self.found.sheets())),
            ("compare-pages", "pages", pages(&self.found.pages.changed)),
            ("compare-pages-gone", "pages", pages(&self.found.pages.gone)),
            ("compare-chapters", "chapters", chapters.collect()),
        ] {
            if !row.is_empty() {
                said.push(Said::new(key).with(place, Arg::Row(row)));
            }
        }
        if self.found.head {
            said.push(Said::new("compare-head"));
        }
        said
    }
}
