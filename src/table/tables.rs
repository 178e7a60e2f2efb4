// SPDX-License-Identifier: MIT
//! Sections of the job sheet for the page: the mixes, what is packed, cost and price.
//!
//! In: a guide. Out: its words, lists, tables and pictures. Never: works out a number; the sheet on paper says the same.

use crate::album::Language;
use crate::guide::{self, Block, Guide, Line};
use crate::work::Work;
use crate::write;
use serde_json::{Value, json};

/// The language of the page, whatever that of the sheet on paper is.
pub(super) const PAGE: Language = Language::English;

/// The sections of these names.
pub(super) fn of(sheet: &Guide, names: &[&str]) -> Value {
    let wanted = sheet.sections.iter().filter(|section| names.contains(&section.id));
    let one = |section: &guide::Section| {
        json!({
            "id": section.id,
            "heading": section.heading.plain(),
            "blocks": section.blocks.iter().filter_map(block).collect::<Vec<_>>(),
        })
    };
    wanted.map(one).collect()
}

/// What an album costs, where it says something of selling.
pub(super) fn cost(work: &Work) -> Value {
    if work.stopped() || work.cost().is_none() {
        return Value::Null;
    }
    let job = guide::GuideJob { cost: work.cost(), language: PAGE, ..work.guide_job(false) };
    of(&guide::shop(&job), &["cost"])
}

fn block(block: &Block) -> Option<Value> {
    let lines = |lines: &[Line]| lines.iter().map(Line::plain).collect::<Vec<_>>();
    Some(match block {
        Block::Words(line) => json!({ "words": line.plain() }),
        Block::Heading(line) => json!({ "heading": line.plain() }),
        Block::List(list) | Block::Caution(list) => json!({ "list": lines(list) }),
        Block::Table(table) => json!({
            "caption": table.caption.plain(),
            "head": lines(&table.head),
            "rows": table.rows.iter().map(|row| lines(row)).collect::<Vec<_>>(),
        }),
        Block::Figure(figure) => json!({ "picture": write::linked(&figure.picture), "shows": figure.shows.plain() }),
        // Steps are for who makes it.
        Block::Steps(_) => return None,
    })
}
