// SPDX-License-Identifier: MIT
//! The job sheet of a batch: what is cut and scored is told of the whole order, what is packed of each kit.

use super::audience::Audience;
use super::bits::{Block, Guide, Section, Table};
use super::desk::Desk;
use super::job::GuideJob;
use super::line::{Line, What};
use super::{cautions, cost, cutting, fits, folding, measure, mixes, need, packing, shaping, shop};
use crate::batch::Chosen;

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

/// The job sheet of several kits that are made as one order. `whole` has the parts of all kits with their counts over the
/// order, and its sheets; `besides` says how many of a part are spare.
#[must_use]
pub fn order_sheet(whole: &GuideJob<'_>, kits: &[KitOfOrder<'_>], besides: &dyn Fn(usize) -> u32) -> Guide {
    let desk = Desk::new(whole, Audience::Shop);
    let chosen: Vec<(&str, &GuideJob<'_>, &Chosen)> =
        kits.iter().filter_map(|kit| Some((kit.name, &kit.job, kit.chosen?))).collect();
    let kits: Vec<(&str, Desk<'_>)> = kits.iter().map(|kit| (kit.name, Desk::new(&kit.job, Audience::Shop))).collect();
    let mut sections = vec![order(&desk, &kits), need(&desk, &kits)];
    sections.extend(mixes::section(&desk, &chosen));
    sections.extend(shop::machine(&desk));
    sections.push(shop::first(&desk, None));
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

/// Sheets for the whole order, tape and the like kit by kit.
fn need(desk: &Desk<'_>, kits: &[(&str, Desk<'_>)]) -> Section {
    let mut section = need::of_order(desk);
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
