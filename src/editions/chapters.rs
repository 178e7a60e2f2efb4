// SPDX-License-Identifier: MIT
//! The chapters of a guide, and which of them are to be printed again.
//!
//! Where both guides are at hand, they are compared chapter by chapter: what is said, what is drawn. An earlier report holds no
//! guide; then a chapter counts as changed that speaks of a part which is not as it was: by a step, by its letter, by a
//! number of it.

use crate::guide::{Bit, Block, Figure, Guide, GuideJob, Line, Section, Told, list};
use crate::parts::{Deed, Kit};
use crate::picture::Picture;
use std::collections::{BTreeMap, BTreeSet};

/// A chapter of an edition's guide.
#[derive(Clone, Debug)]
pub struct EditionChapter {
    /// Its name: `pages`.
    pub id: &'static str,
    /// What it is called in the guide.
    pub heading: String,
    /// Everything that it says, line by line.
    pub lines: Vec<String>,
    /// Everything that it draws.
    pub pictures: Vec<Picture>,
    /// Numbers of the parts that it speaks of.
    pub parts: BTreeSet<usize>,
}

/// The chapters of a guide.
pub(super) fn chapters(guide: &Guide, job: &GuideJob<'_>) -> Vec<EditionChapter> {
    let rows = list::list(job.album.order(), job.kit, 1);
    let known = Known {
        marks: rows.iter().map(|row| (row.mark.as_str(), row.part)).collect(),
        ids: job.kit.parts.iter().enumerate().map(|(number, part)| (part.id.as_str(), number)).collect(),
    };
    let chapter = |section: &Section| EditionChapter {
        id: section.id,
        heading: section.heading.plain(),
        lines: section.lines().into_iter().map(Line::plain).collect(),
        pictures: pictures(section).cloned().collect(),
        parts: parts(section, job.kit, &known),
    };
    guide.sections.iter().map(chapter).collect()
}

/// Those to print again, in the new guide's order; `another` are the new parts that are not as they were.
pub(super) fn changed<'e>(
    old: Option<&[EditionChapter]>,
    new: Option<&'e [EditionChapter]>,
    another: &BTreeSet<usize>,
) -> Option<Vec<&'e EditionChapter>> {
    let is_changed = |chapter: &&EditionChapter| match old {
        Some(chapters) => !chapters.iter().any(|was| was.reads_as(chapter)),
        None => !chapter.parts.is_disjoint(another),
    };
    Some(new?.iter().filter(is_changed).collect())
}

impl EditionChapter {
    fn reads_as(&self, other: &Self) -> bool {
        self.id == other.id && self.lines == other.lines && self.pictures == other.pictures
    }
}

fn pictures(section: &Section) -> impl Iterator<Item = &Picture> {
    let alone = section.blocks.iter().filter_map(|block| match block {
        Block::Figure(figure) => Some(figure),
        _ => None,
    });
    let of_steps = section.steps().filter_map(|step| step.figure.as_ref());
    alone.chain(of_steps).map(|Figure { picture, .. }| picture)
}

/// Parts by what a guide calls them.
struct Known<'k> {
    marks: BTreeMap<&'k str, usize>,
    ids: BTreeMap<&'k str, usize>,
}

fn parts(section: &Section, kit: &Kit, known: &Known<'_>) -> BTreeSet<usize> {
    let of_bit = |bit: &Bit| match bit {
        Bit::Mark(mark) => known.marks.get(mark.as_str()).copied(),
        Bit::Number(number) => known.ids.get(number.of.as_str()).copied(),
        Bit::Text(_) => None,
    };
    let named = section.lines().into_iter().flat_map(|line| &line.0).filter_map(of_bit);
    let told = section.steps().flat_map(|step| &step.of).flat_map(|told| told_of(*told, kit));
    named.chain(told).collect()
}

/// The parts that a step speaks of.
fn told_of(told: Told, kit: &Kit) -> Vec<usize> {
    let pieces = match told {
        Told::Score(part, _) | Told::Fold(part, _) | Told::Outline(part) | Told::Hole(part, _) => return vec![part],
        Told::Bend(piece, _) | Told::EndFlap(piece, _) | Told::Base(piece, _) | Told::Loose(piece) => vec![piece],
        Told::Bond(bond) => kit.bonds.get(bond).map_or_else(Vec::new, |bond| vec![bond.one.piece, bond.other.piece]),
        Told::Deed(deed) => kit.deeds.get(deed).map_or_else(Vec::new, of_deed),
    };
    pieces.into_iter().filter_map(|piece| kit.pieces.get(piece)).map(|piece| piece.part).collect()
}

fn of_deed(deed: &Deed) -> Vec<usize> {
    match deed {
        Deed::Tie { through, .. } => through.iter().map(|(piece, _)| *piece).collect(),
        Deed::Sew { leaves, .. } => leaves.clone(),
        Deed::Mount { piece, .. } | Deed::Clip { piece, .. } | Deed::Print { piece, .. } => vec![*piece],
    }
}
