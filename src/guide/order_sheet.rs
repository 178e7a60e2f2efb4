// SPDX-License-Identifier: MIT
//! The job sheet of a batch: what is cut and scored is told of the whole order, what is packed of each kit.

use super::audience::Audience;
use super::bits::{Block, Guide, Section, Table};
use super::class::{self, TaughtGroup};
use super::desk::Desk;
use super::job::GuideJob;
use super::line::{Line, What};
use super::{cautions, cost, cutting, fits, folding, measure, mixes, need, packing, shaping, shop};
use crate::batch::{Chosen, Class};
use crate::stock::By;

/// One kit of an order.
#[derive(Clone, Copy, Debug)]
pub struct KitOfOrder<'a> {
    /// Its name.
    pub name: &'a str,
    /// The kit; its album's copies are how many are made, its letters those of the order.
    pub job: GuideJob<'a>,
    /// What its mixes take, where its pages are chosen.
    pub chosen: Option<&'a Chosen>,
}

/// A class whose groups the kits of an order are.
#[derive(Clone, Debug)]
pub struct ClassOfOrder<'a> {
    /// What the class has besides.
    pub class: &'a Class,
    /// How many makers each group has.
    pub makers: Vec<u32>,
    /// Whether anything is made besides, for what goes wrong.
    pub spare: bool,
}

/// The job sheet of several kits that are made as one order. `whole` has the parts of all kits with their counts over the
/// order, and its sheets; `besides` says how many of a part are spare.
#[must_use]
pub fn order_sheet(
    whole: &GuideJob<'_>,
    kits: &[KitOfOrder<'_>],
    class: Option<&ClassOfOrder<'_>>,
    besides: &dyn Fn(usize) -> u32,
) -> Guide {
    let desk = Desk::new(whole, Audience::Shop);
    let groups: Vec<TaughtGroup<'_>> = kits
        .iter()
        .zip(class.map_or(&[][..], |of| &of.makers))
        .map(|(kit, makers)| TaughtGroup { name: kit.name, makers: *makers, desk: Desk::new(&kit.job, Audience::Kit) })
        .collect();
    let taught = class.map(|of| class::section(&desk, of.class, &groups, of.spare));
    let chosen: Vec<(&str, &GuideJob<'_>, &Chosen)> =
        kits.iter().filter_map(|kit| Some((kit.name, &kit.job, kit.chosen?))).collect();
    let whole_kits = kits;
    let kits: Vec<(&str, Desk<'_>)> = kits.iter().map(|kit| (kit.name, Desk::new(&kit.job, Audience::Shop))).collect();
    let all = class.and_then(|_| for_all(&desk, whole_kits));
    let mut sections = vec![order(&desk, &kits), need(&desk, &kits, all)];
    // Where each maker cuts for themselves, there is no first kit to look at.
    let cuts = taught.is_none() || (0..desk.kit().parts.len()).any(|part| desk.cuts(part));
    sections.extend(taught);
    sections.extend(mixes::section(&desk, &chosen));
    // Whoever loads the files at a table wants to know what they are made for.
    let at_tables = groups.iter().flat_map(|group| group.desk.cut_by(By::Machine));
    let cut: Vec<_> = desk.cut_by(By::Machine).into_iter().chain(at_tables).collect();
    sections.extend(shop::machine_of(&desk, &cut));
    sections.extend(cuts.then(|| shop::first(&desk, None)));
    sections.extend(cutting::section(&desk));
    sections.extend(shaping::section(&desk));
    sections.extend(folding::scoring(&desk));
    let mut packed = packed(&desk, &kits);
    packed.blocks.extend(packing::over(&desk, besides));
    sections.push(packed);
    sections.extend(cost::section(&desk));
    sections.push(cautions::last(&desk));
    desk.guide(sections)
}

/// The kits, and how many of each.
fn order(desk: &Desk<'_>, kits: &[(&str, Desk<'_>)]) -> Section {
    let many: u64 = kits.iter().map(|(_, kit)| u64::from(kit.kits)).sum();
    let row = |(name, kit): &(&str, Desk<'_>)| {
        vec![
            Line::text(*name),
            Line::text(kit.job.album.title.as_str()),
            measure::count(u64::from(kit.kits), What::Kits, name),
            measure::count(kit.kit().parts.iter().map(|part| u64::from(part.count)).sum(), What::Many, name),
        ]
    };
    let table = Table {
        caption: desk.say("batch-caption", vec![("n", measure::count(many, What::Kits, ""))]),
        head: ["batch-head-kit", "batch-head-album", "batch-head-copies", "batch-head-pieces"]
            .map(|key| desk.tell(key))
            .to_vec(),
        rows: kits.iter().map(row).collect(),
    };
    let mut blocks = vec![Block::Words(desk.tell("batch-words")), Block::Table(table)];
    blocks.extend(shop::handed(desk));
    Section { id: "order", heading: desk.tell("order-made"), blocks }
}

/// Tape and the like for all kits at once, where each takes the same.
fn for_all(desk: &Desk<'_>, kits: &[KitOfOrder<'_>]) -> Option<Vec<Block>> {
    let mut desks: Vec<Desk<'_>> = kits.iter().map(|kit| Desk::new(&kit.job, Audience::Shop)).collect();
    let all = desks.iter().map(|kit| kit.kits).sum();
    for kit in &mut desks {
        kit.kits = 1;
    }
    let plain = |kit: &Desk<'_>| need::supplies(kit).iter().map(Line::plain).collect::<Vec<_>>();
    let first = plain(desks.first()?);
    if desks.iter().any(|kit| plain(kit) != first) {
        return None;
    }
    let one = desks.first_mut()?;
    one.kits = all;
    Some(vec![Block::Heading(desk.tell("class-stick")), Block::List(need::supplies(one))])
}

/// Sheets for the whole order, tape and the like for all at once, or kit by kit.
fn need(desk: &Desk<'_>, kits: &[(&str, Desk<'_>)], for_all: Option<Vec<Block>>) -> Section {
    let mut section = need::of_order(desk);
    if let Some(all) = for_all {
        section.blocks.extend(all);
        return section;
    }
    for (name, kit) in kits {
        let supplies = need::supplies(kit);
        if !supplies.is_empty() {
            section.blocks.push(Block::Heading(heading(desk, "batch-stick", name, kit)));
            section.blocks.push(Block::List(supplies));
        }
    }
    section
}

fn packed(desk: &Desk<'_>, kits: &[(&str, Desk<'_>)]) -> Section {
    let (mut blocks, mut told): (Vec<Block>, Vec<Vec<String>>) = (Vec::new(), Vec::new());
    for (number, (name, kit)) in kits.iter().enumerate() {
        let section = packing::section(kit);
        blocks.push(Block::Heading(heading(desk, "batch-kit", name, kit)));
        // How it is done is told once.
        blocks.extend(
            section.blocks.into_iter().enumerate().filter(|(at, _)| number == 0 || *at > 0).map(|(_, one)| one),
        );
        // What fits where is told again where it is otherwise; where pages are chosen, the guide tells it of each kind.
        if let Some(fits) = fits::section(kit).filter(|_| kit.job.others.is_empty()) {
            let words: Vec<String> = fits.lines().into_iter().map(Line::plain).collect();
            if !told.contains(&words) {
                blocks.extend(fits.blocks);
                told.push(words);
            }
        }
    }
    Section { id: "pack", heading: desk.tell("pack-heading"), blocks }
}

fn heading(desk: &Desk<'_>, key: &str, name: &str, kit: &Desk<'_>) -> Line {
    desk.say(key, vec![("kit", Line::text(name)), ("n", measure::count(u64::from(kit.kits), What::Kits, name))])
}
