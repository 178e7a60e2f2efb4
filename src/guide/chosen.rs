// SPDX-License-Identifier: MIT
//! The guide of a kit whose pages its maker chooses: one chapter for each kind of page, the spine and what follows once.
//!
//! In: what is packed, and for each kind the album that has pages of that kind alone. Out: a [`Guide`]. Never: a word of its own.
//!
//! Steps come from the albums of one kind each. What reads the same in all of them (hinge strips, cover, how pages are hung) is
//! told once; where kinds differ, each is told under its kinds.

use super::audience::Audience;
use super::bits::{Block, Guide, Section, Table};
use super::desk::Desk;
use super::job::GuideJob;
use super::line::{Line, What};
use super::{
    assembly, bag, brief, cautions, cutting, fits, folding, given, measure, need, remedies, shaping, teaching,
};
use crate::batch::Chosen;

/// Names of the chapters for links, in the order of the kinds: as many as a choice may have.
const CHAPTERS: [&str; 24] = [
    "kind-1", "kind-2", "kind-3", "kind-4", "kind-5", "kind-6", "kind-7", "kind-8", "kind-9", "kind-10", "kind-11",
    "kind-12", "kind-13", "kind-14", "kind-15", "kind-16", "kind-17", "kind-18", "kind-19", "kind-20", "kind-21",
    "kind-22", "kind-23", "kind-24",
];

/// A kit whose pages are chosen.
#[derive(Clone, Copy, Debug)]
pub struct ChosenJob<'a> {
    /// What is packed: its parts, its letters, its sheets; its album is one that may be made of it.
    pub packed: GuideJob<'a>,
    /// By kind: the album of that kind alone, with the letters of what is packed.
    pub kinds: &'a [GuideJob<'a>],
    /// The choice.
    pub chosen: &'a Chosen,
}

/// The guide, for who chooses the pages and puts the album together.
#[must_use]
pub fn chosen(job: &ChosenJob<'_>) -> Guide {
    let desk = Desk::new(&job.packed, Audience::Kit);
    let mut sections = vec![given::chosen(&desk), choose(&desk, job), need::section(&desk)];
    sections.extend(made(&desk, job));
    sections.push(cautions::last(&desk));
    desk.guide(sections)
}

/// The same in one line a step, for who shows others how it is made.
#[must_use]
pub fn chosen_teaching(job: &ChosenJob<'_>) -> Guide {
    let desk = Desk::new(&job.packed, Audience::Kit);
    let mut sections = vec![choose(&desk, job), need::teaching(&desk)];
    sections.extend(teaching::sections(&desk, &made(&desk, job)));
    sections.push(cautions::short(&desk));
    desk.guide(sections)
}

/// What a person who has made one before keeps at hand, on one page.
#[must_use]
pub fn chosen_card(job: &ChosenJob<'_>) -> Guide {
    let desk = Desk::new(&job.packed, Audience::Kit);
    let mut sections: Vec<Section> = need::short(&desk).into_iter().collect();
    sections.extend([choose(&desk, job), brief::section(&desk)]);
    let named = |(number, kind)| Desk { of_kind: Some(number), ..Desk::new(kind, Audience::Kit) };
    let orders = job.kinds.iter().enumerate().map(named).map(|desk| assembly::short(&desk));
    sections.extend(orders.reduce(|one, other| joined(one, &other)));
    sections.push(cautions::short(&desk));
    desk.guide(sections)
}

/// Two lists as one, what both have once and in its place.
fn joined(mut one: Section, other: &Section) -> Section {
    let list = |section: &Section| match section.blocks.first() {
        Some(Block::List(lines)) => lines.clone(),
        _ => Vec::new(),
    };
    let (mut all, mut at) = (list(&one), 0);
    for line in list(other) {
        at = all.iter().position(|known| *known == line).unwrap_or_else(|| {
            all.insert(at, line);
            at
        }) + 1;
    }
    if let Some(first) = one.blocks.first_mut() {
        *first = Block::List(all);
    }
    one
}

/// All that is done.
fn made(desk: &Desk<'_>, job: &ChosenJob<'_>) -> Vec<Section> {
    let kinds: Vec<Desk<'_>> = job.kinds.iter().map(|kind| Desk::new(kind, Audience::Kit)).collect();
    let named = |(number, kind)| Desk { of_kind: Some(number), ..Desk::new(kind, Audience::Kit) };
    let by_name: Vec<Desk<'_>> = job.kinds.iter().enumerate().map(named).collect();
    let mut sections: Vec<Section> = Vec::new();
    sections.extend(bag::section(desk));
    sections.extend(cutting::section(desk));
    sections.extend(shaping::section(desk));
    sections.extend(folding::scoring(desk));
    sections.extend(folding::section(desk));
    let mut told: Vec<Vec<String>> = Vec::new();
    for (number, desk) in by_name.iter().enumerate() {
        let pages = assembly::sections(desk).into_iter().find(|section| section.id == "pages");
        let Some(mut section) = pages else { continue };
        section.id = CHAPTERS.get(number).copied().unwrap_or("kind");
        section.heading = desk.say("chosen-chapter", vec![("n", count(number)), ("kind", about(desk, job, number))]);
        section.blocks.retain(|block| !told.contains(&words(block)));
        told.extend(section.blocks.iter().map(words).filter(|words| !words.is_empty()));
        sections.push(section);
    }
    let of_kinds: Vec<Vec<Section>> = kinds.iter().map(assembly::sections).collect();
    for id in ["spine", "cover", "bind", "check", "fill"] {
        let all: Vec<(usize, Section)> = of_kinds
            .iter()
            .enumerate()
            .filter_map(|(kind, sections)| Some((kind, sections.iter().find(|section| section.id == id)?.clone())))
            .collect();
        sections.extend(told_once(desk, all, kinds.len()));
    }
    let fitting = by_name.iter().enumerate().filter_map(|(kind, desk)| Some((kind, fits::section(desk)?))).collect();
    sections.extend(told_once(desk, fitting, 0));
    sections.extend(remedies::section(desk));
    sections
}

/// One section of those of several kinds: what reads alike stands once, with the kinds that it is of where these are not all.
fn told_once(desk: &Desk<'_>, sections: Vec<(usize, Section)>, every: usize) -> Option<Section> {
    let plain = |section: &Section| section.lines().into_iter().map(Line::plain).collect::<Vec<_>>();
    let mut alike: Vec<(Vec<usize>, Section)> = Vec::new();
    for (kind, section) in sections {
        match alike.iter_mut().find(|(_, known)| plain(known) == plain(&section)) {
            Some((kinds, _)) => kinds.push(kind),
            None => alike.push((vec![kind], section)),
        }
    }
    let mut alike = alike.into_iter();
    let (kinds, first) = alike.next()?;
    let rest: Vec<(Vec<usize>, Section)> = alike.collect();
    if rest.is_empty() && kinds.len() == every {
        return Some(first);
    }
    let Section { id, heading, blocks } = first;
    let group = |kinds: &[usize]| {
        let numbers = kinds.iter().map(|kind| count(*kind)).collect();
        Block::Heading(desk.say("chosen-group", vec![("kinds", desk.words.list(numbers))]))
    };
    let told: Vec<Vec<String>> = blocks.iter().map(words).filter(|words| !words.is_empty()).collect();
    let mut all = vec![group(&kinds)];
    all.extend(blocks);
    for (kinds, section) in rest {
        all.push(group(&kinds));
        all.extend(section.blocks.into_iter().filter(|block| !told.contains(&words(block))));
    }
    Some(Section { id, heading, blocks: all })
}

/// What a paragraph or a caution says, for it is told once; nothing of other blocks.
fn words(block: &Block) -> Vec<String> {
    match block {
        Block::Words(line) => vec![line.plain()],
        Block::Caution(lines) => lines.iter().map(Line::plain).collect(),
        _ => Vec::new(),
    }
}

fn count(kind: usize) -> Line {
    measure::count(u64::try_from(kind + 1).unwrap_or(u64::MAX), What::Many, "kind")
}

/// What a kind is, in the reader's language.
fn about(desk: &Desk<'_>, job: &ChosenJob<'_>, kind: usize) -> Line {
    let kind = job.chosen.table.kinds.get(kind).map(|entry| entry.kind);
    Line::text(kind.map_or_else(String::new, |kind| desk.words.term_of("page", kind.name, kind.about)))
}

/// Which pages there are to choose from, and what is taken for each.
fn choose(desk: &Desk<'_>, job: &ChosenJob<'_>) -> Section {
    let Chosen { packed, table, .. } = job.chosen;
    let row = |kind: usize| {
        let part = |row: &super::list::Row| {
            let each = packed.each.get(row.part)?.get(kind).copied().filter(|each| *each > 0)?;
            let n = measure::count(u64::from(each), What::Many, desk.id(row.part));
            Some(if each == 1 {
                desk.mark(row.part)
            } else {
                desk.say("part-times", vec![("n", n), ("part", desk.mark(row.part))])
            })
        };
        let pieces = desk.rows.iter().filter_map(part).collect();
        vec![count(kind), about(desk, job, kind), desk.words.row(pieces)]
    };
    let head = ["chosen-head-kind", "chosen-head-page", "chosen-head-pieces"].map(|key| desk.tell(key)).to_vec();
    let rows = (0..table.kinds.len()).map(row).collect();
    let blocks = vec![
        Block::Words(desk.say("chosen-words", vec![("n", measure::count(u64::from(table.pages), What::Page, ""))])),
        Block::Table(Table { caption: desk.tell("chosen-caption"), head, rows }),
        Block::Words(desk.tell("chosen-order")),
        Block::Words(desk.tell(if packed.by_place { "chosen-places" } else { "chosen-rest" })),
    ];
    Section { id: "choose", heading: desk.tell("chosen-heading"), blocks }
}
