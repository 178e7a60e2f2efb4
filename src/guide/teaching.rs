// SPDX-License-Identifier: MIT
//! The teaching sheet: every step in one line with its sizes, for a class, or to film by.
//!
//! In: the sections of the guide. Out: the same ones, each with its minutes, its steps in a line each, what goes wrong in it.

use super::bits::{Block, Section, Step};
use super::desk::Desk;
use super::line::{Bit, Line, What};
use super::need::{A_JOINT, A_SCORE};
use super::told::Told;
use super::{measure, remedies};

/// Minutes that more things take a practised hand: our choice.
const A_FOLD: f64 = 0.2;
const A_FILL: f64 = 0.5;
const A_STEP: f64 = 1.0;

/// Minutes are said to the nearest so many, up.
const TO: f64 = 5.0;

/// So many sentences stand behind a step: our choice.
const MOST_LINES: usize = 3;

/// The sections that have steps; steps count through as in the guide.
pub(super) fn sections(desk: &Desk<'_>, all: &[Section]) -> Vec<Section> {
    let mut number = 0;
    let mut short = Vec::new();
    for section in all {
        let steps: Vec<&Step> = section.steps().collect();
        if steps.is_empty() {
            continue;
        }
        let minutes = (steps.iter().map(|step| minutes(desk, section.id, step)).sum::<f64>() / TO).ceil() * TO;
        let shown = format!("{minutes}{}min", measure::THIN);
        let time = measure::number(shown, minutes, What::Time, "");
        let mut blocks = vec![Block::Words(desk.say("teach-time", vec![("time", time)]))];
        let line = |step: &&Step| {
            number += 1;
            one_line(desk, number, step)
        };
        blocks.push(Block::List(steps.iter().map(line).collect()));
        let wrong = remedies::of_section(desk, section.id);
        if !wrong.is_empty() {
            blocks.push(Block::Caution(wrong));
        }
        short.push(Section { id: section.id, heading: section.heading.clone(), blocks });
    }
    short
}

/// The minutes of one step for one kit.
pub(super) fn minutes(desk: &Desk<'_>, section: &str, step: &Step) -> f64 {
    let times = |part: &usize| desk.part(*part).map_or(1.0, |part| f64::from(part.count));
    let of = |told: &Told| match told {
        Told::Bond(_) if section == "fill" => A_FILL,
        Told::Bond(_) | Told::Deed(_) | Told::EndFlap(..) | Told::Base(..) => A_JOINT,
        Told::Score(part, _) => A_SCORE * times(part),
        Told::Fold(part, _) | Told::Bend(part, _) => A_FOLD * times(part),
        Told::Outline(part) | Told::Hole(part, _) => A_STEP * times(part),
        Told::Loose(_) => 0.0,
    };
    step.of.iter().map(of).sum::<f64>().max(A_STEP)
}

/// What a step says first. Of pieces that are done alike, which ones stands in a line of its own: that belongs to it here.
fn head(desk: &Desk<'_>, step: &Step) -> Line {
    let marked = |line: &&Line| line.0.iter().any(|bit| matches!(bit, Bit::Mark(_)));
    let to_a_part = |told: &Told| {
        !matches!(told, Told::Bond(_) | Told::Deed(_) | Told::EndFlap(..) | Told::Base(..) | Told::Loose(_))
    };
    let named = step.lines.iter().find(marked).filter(|_| !marked(&&step.head) && step.of.iter().any(to_a_part));
    let tabled = step.table.iter().flat_map(|table| table.rows.iter().map(|row| of_row(desk, &table.head, row)));
    let head = tabled.fold(step.head.clone(), |head, row| head.then(&row));
    named.map_or_else(|| head.clone(), |pieces| head.clone().then(pieces))
}

/// A row of a step's table: its piece, and what is so of it under each head.
fn of_row(desk: &Desk<'_>, heads: &[Line], row: &[Line]) -> Line {
    let cells = row.iter().zip(heads).enumerate().filter(|(_, (cell, _))| !cell.is_empty());
    let told = cells.map(|(column, (cell, head))| match column {
        0 => cell.clone(),
        _ => desk.say("card-sheets", vec![("what", head.clone()), ("n", cell.clone())]),
    });
    desk.words.row(told.collect())
}

/// `12 · Stick the seam of A to B. Run 148 mm of tape, 6.4 mm wide, along the front face of the seam.`: what of a step has sizes.
fn one_line(desk: &Desk<'_>, number: u64, step: &Step) -> Line {
    let sizes = |what: What| !matches!(what, What::Page | What::Many | What::Count | What::Sheets | What::Time);
    let sized = |line: &&Line| line.numbers().any(|size| sizes(size.what));
    let number = measure::count(number, What::Many, "step");
    let line = desk.say("teach-step", vec![("n", number), ("head", head(desk, step))]);
    let more = step.lines.iter().filter(sized).take(MOST_LINES);
    more.fold(line, Line::then)
}
