// SPDX-License-Identifier: MIT
//! The guide: what the maker hands to the next pair of hands.
//!
//! In: an album, its kit, how it goes together, its sheets. Out: a [`Guide`]: sections of words, tables, steps, pictures, every
//! number in them still knowing what it is. Never: a file format, a word of its own (those are in `words/en.ftl`).

mod assembly;
mod audience;
mod backs;
mod bag;
mod beds;
mod bites;
mod bits;
mod brief;
mod cautions;
mod chosen;
mod class;
mod cost;
mod coupon;
mod cutting;
mod deeds;
mod desk;
mod draw;
mod fits;
mod folding;
mod given;
mod hanging;
pub mod holding;
mod job;
pub mod joints;
mod labels;
mod line;
pub mod list;
mod machine_times;
pub mod measure;
mod mixes;
mod need;
mod order_sheet;
mod packing;
mod pictures;
mod places;
mod remedies;
pub mod scoring;
mod shaping;
mod shop;
mod small;
mod sticking;
mod taken;
mod teaching;
mod together;
mod told;
pub mod trimmer;
mod ways;
mod windows;
mod words;

pub use audience::Audience;
pub use bits::{Block, Figure, Guide, Section, Step, Table};
pub use chosen::{ChosenJob, chosen, chosen_card, chosen_teaching};
pub use class::makers;
pub use coupon::coupon;
pub use job::GuideJob;
pub use labels::Label;
pub use line::{Bit, Line, Number, What};
pub use order_sheet::{ClassOfOrder, KitOfOrder, order_sheet};
pub use taken::{HandTime, hand_time, taken};
pub use told::Told;
pub use words::Words;

use desk::Desk;

/// The guide of a kit, for who puts one together.
#[must_use]
pub fn guide(job: &GuideJob<'_>) -> Guide {
    let desk = Desk::new(job, Audience::Kit);
    let sections = of_one_kit(&desk);
    desk.guide(sections)
}

fn of_one_kit(desk: &Desk<'_>) -> Vec<Section> {
    let mut sections = vec![given::section(desk), need::section(desk)];
    sections.extend(bag::section(desk));
    sections.extend(cutting::section(desk));
    sections.extend(shaping::section(desk));
    sections.extend(folding::scoring(desk));
    sections.extend(folding::section(desk));
    sections.extend(assembly::sections(desk));
    sections.extend(fits::section(desk));
    sections.extend(remedies::section(desk));
    sections.push(cautions::last(desk));
    sections
}

/// The guide's steps in one line each, for who shows others how an album is made.
#[must_use]
pub fn teaching(job: &GuideJob<'_>) -> Guide {
    let desk = Desk::new(job, Audience::Kit);
    let mut sections = vec![need::teaching(&desk)];
    sections.extend(teaching::sections(&desk, &of_one_kit(&desk)));
    sections.push(cautions::short(&desk));
    desk.guide(sections)
}

/// The job sheet, for who makes all kits: sheets and how often, machine, scoring in runs, what to buy, what goes into each bag.
#[must_use]
pub fn shop(job: &GuideJob<'_>) -> Guide {
    let desk = Desk::new(job, Audience::Shop);
    let mut sections = vec![shop::order(&desk), need::section(&desk)];
    sections.extend(shop::machine(&desk));
    sections.extend((desk.kits > 1).then(|| shop::first(&desk, desk.job.fit.closed.as_ref())));
    sections.extend(cutting::section(&desk));
    sections.extend(shaping::section(&desk));
    sections.extend(folding::scoring(&desk));
    let order = job.album.order();
    let mut packed = packing::section(&desk);
    packed.blocks.extend(packing::over(&desk, |part| order.besides(job.kit.parts[part].count)));
    sections.push(packed);
    sections.extend(fits::section(&desk));
    sections.extend(cost::section(&desk));
    sections.push(cautions::last(&desk));
    desk.guide(sections)
}

/// The words of labels for bags, parts and stacks.
#[must_use]
pub fn labels(job: &GuideJob<'_>) -> Vec<Label> {
    labels::all(&Desk::new(job, Audience::Shop))
}

/// What a person who has made one before keeps at hand: the list, the scores, the order, on one page.
#[must_use]
pub fn card(job: &GuideJob<'_>) -> Guide {
    let mut desk = Desk::new(job, Audience::Kit);
    if brief::is_in_one_system(&desk) {
        // The other system is in the guide.
        desk.measure = desk.measure.alone();
    }
    let mut sections: Vec<Section> = need::short(&desk).into_iter().collect();
    sections.extend([brief::section(&desk), assembly::short(&desk), cautions::short(&desk)]);
    desk.guide(sections)
}
