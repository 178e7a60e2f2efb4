// SPDX-License-Identifier: MIT
//! The chapters of a guide, and which of them are to be printed again.
//!
//! Where both guides are at hand, they are compared chapter by chapter: what is said of parts and steps, by words or in a picture;
//! and how a part looks that is cut another way. How many sheets there are, what they are called and which of them a part lies
//! on, cost, weight and time are no reason to print a chapter again. An earlier report holds no guide; then a chapter counts
//! as changed that speaks of a part which is not as it was: by a step, by its letter, by a number of it.

use crate::guide::{Bit, Block, Figure, Guide, GuideJob, Line, Section, Told, What, list};
use crate::parts::{Deed, Kit};
use crate::picture::{Mark, Picture};
use std::collections::{BTreeMap, BTreeSet};

/// A chapter of an edition's guide.
#[derive(Clone, Debug)]
pub struct EditionChapter {
    /// Its name: `pages`.
    pub id: &'static str,
    /// What it is called in the guide.
    pub heading: String,
    /// What it says of parts and steps, line by line.
    pub lines: Vec<String>,
    /// What it draws of them.
    pub pictures: Vec<Picture>,
    /// Numbers of the parts that it speaks of.
    pub parts: BTreeSet<usize>,
}

/// The chapters of a guide.
pub(super) fn chapters(guide: &Guide, job: &GuideJob<'_>) -> Vec<EditionChapter> {
    let rows = list::list(job.album.order(), job.kit, 1);
    let known = Known {
        // In a kit of a batch letters are those of the order.
        marks: match job.letters {
            Some(letters) => letters.iter().enumerate().map(|(part, mark)| (mark.as_str(), part)).collect(),
            None => rows.iter().map(|row| (row.mark.as_str(), row.part)).collect(),
        },
        ids: job.kit.parts.iter().enumerate().map(|(number, part)| (part.id.as_str(), number)).collect(),
    };
    let sheets = job.stocks.iter().flat_map(|laid| &laid.sheets).map(|sheet| sheet.name.as_str()).collect();
    let chapter = |section: &Section| {
        let told = without_sheets(section, &sheets);
        EditionChapter {
            id: section.id,
            heading: section.heading.plain(),
            lines: told.lines().into_iter().filter(|line| !names_one(line, &sheets)).map(read).collect(),
            pictures: pictures(&told).filter(|figure| !names_one(&figure.shows, &sheets)).map(drawn).collect(),
            parts: parts(section, job, &known),
        }
    };
    guide.sections.iter().map(chapter).collect()
}

/// New parts by what became of them.
pub(super) struct OtherParts {
    /// Those that are not as they were: some are called otherwise, or a kit has more of them.
    pub any: BTreeSet<usize>,
    /// Those among them that are cut or scored another way.
    pub cut: BTreeSet<usize>,
}

/// Those to print again, in the new guide's order.
pub(super) fn changed<'e>(
    old: Option<&[EditionChapter]>,
    new: Option<&'e [EditionChapter]>,
    others: &OtherParts,
) -> Option<Vec<&'e EditionChapter>> {
    let is_changed = |chapter: &&EditionChapter| match old {
        Some(chapters) => !chapters.iter().any(|was| was.tells_as(chapter, &others.cut)),
        None => !chapter.parts.is_disjoint(&others.any),
    };
    Some(new?.iter().filter(is_changed).collect())
}

impl EditionChapter {
    /// Whether another one tells the same; `cut` are parts that look otherwise.
    fn tells_as(&self, other: &Self, cut: &BTreeSet<usize>) -> bool {
        let looks = other.parts.is_disjoint(cut) || self.pictures == other.pictures;
        looks && self.id == other.id && self.lines == other.lines && self.words().eq(other.words())
    }

    /// What is to be read in its pictures, each picture's words in order.
    fn words(&self) -> impl Iterator<Item = Vec<&str>> {
        self.pictures.iter().map(move |picture| picture.marks.iter().filter_map(word).collect())
    }
}

fn word(mark: &Mark) -> Option<&str> {
    match mark {
        Mark::Words { text, .. } => Some(text),
        Mark::Shape { .. } | Mark::Line { .. } => None,
    }
}

/// A chapter without what it says of a sheet as such: how it is laid, whether there are several to be cut in a stack.
fn without_sheets(section: &Section, sheets: &BTreeSet<&str>) -> Section {
    let mut of_sheet = false;
    let mut told = section.clone();
    told.blocks.retain(|block| {
        if let Block::Heading(line) = block {
            of_sheet = names_one(line, sheets);
        }
        !(of_sheet && matches!(block, Block::Words(_)))
    });
    told
}

/// Whether a line is about a sheet.
fn names_one(line: &Line, sheets: &BTreeSet<&str>) -> bool {
    let is_part = |character: char| character.is_alphanumeric() || matches!(character, '-' | '.');
    line.0.iter().any(|bit| match bit {
        Bit::Text(text) => text.split(|character| !is_part(character)).any(|word| sheets.contains(word)),
        Bit::Mark(_) | Bit::Number(_) => false,
    })
}

/// A line as it is compared: what it counts of sheets, money, weight and time may be another number.
fn read(line: &Line) -> String {
    let bit = |bit: &Bit| match bit {
        Bit::Text(text) | Bit::Mark(text) => text.clone(),
        Bit::Number(number) => match number.what {
            What::Sheets | What::SheetsInBag | What::Kits | What::Price | What::Weight | What::Time => String::new(),
            _ => number.shown.clone(),
        },
    };
    line.0.iter().map(bit).collect()
}

fn drawn(figure: &Figure) -> Picture {
    figure.picture.clone()
}

fn pictures(section: &Section) -> impl Iterator<Item = &Figure> {
    let alone = section.blocks.iter().filter_map(|block| match block {
        Block::Figure(figure) => Some(figure),
        _ => None,
    });
    let of_steps = section.steps().filter_map(|step| step.figure.as_ref());
    alone.chain(of_steps)
}

/// Parts by what a guide calls them.
struct Known<'k> {
    marks: BTreeMap<&'k str, usize>,
    ids: BTreeMap<&'k str, usize>,
}

fn parts(section: &Section, job: &GuideJob<'_>, known: &Known<'_>) -> BTreeSet<usize> {
    let of_bit = |bit: &Bit| match bit {
        Bit::Mark(mark) => known.marks.get(mark.as_str()).copied(),
        Bit::Number(number) => known.ids.get(number.of.as_str()).copied(),
        Bit::Text(_) => None,
    };
    let named = section.lines().into_iter().flat_map(|line| &line.0).filter_map(of_bit);
    // Where pages are chosen, steps speak of mixes, which number their parts otherwise: letters lead to these.
    let steps = section.steps().filter(|_| job.others.is_empty());
    let told = steps.flat_map(|step| &step.of).flat_map(|told| told_of(*told, job.kit));
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
