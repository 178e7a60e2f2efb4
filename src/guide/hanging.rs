// SPDX-License-Identifier: MIT
//! Hang the pages on the spine: pages that are hung alike are told once, in the order in which they are hung.

use super::bits::{Figure, Step};
use super::desk::Desk;
use super::holding::{self, Stick};
use super::joints::Job;
use super::line::{Line, What};
use super::told::Told;
use super::{measure, pictures};
use crate::net::Use;
use crate::parts::{Face, Hold, Owner, Side};

pub(super) fn steps(desk: &Desk<'_>, jobs: &[&Job]) -> Vec<Step> {
    let words = |step: &Step| step.lines.iter().chain(&step.warn).map(Line::plain).collect::<Vec<_>>();
    let mut steps: Vec<(Step, Vec<&Job>)> = Vec::new();
    for job in jobs {
        let Some(step) = how(desk, job) else { continue };
        match steps.last_mut() {
            Some((last, jobs)) if words(last) == words(&step) => jobs.push(job),
            _ => steps.push((step, vec![job])),
        }
    }
    let mut known: Vec<(Vec<String>, &Job)> = Vec::new();
    let mut told = Vec::new();
    for (mut step, jobs) in steps {
        // What has been told of other pages is not told again.
        let lines = words(&step);
        let before = known.iter().find(|(one, _)| *one == lines);
        let again = before.is_some();
        match before {
            Some((_, first)) => {
                step.lines = vec![desk.say("hang-as", vec![("page", desk.pages(&first.owners))])];
                step.warn.clear();
            }
            None => known.extend(jobs.first().map(|first| (lines, *first))),
        }
        told.push(named(desk, step, &jobs, again));
    }
    told
}

/// The tab and where it goes: the first bond of a page.
fn tab<'a>(desk: &Desk<'a>, job: &Job) -> Option<(&'a Side, &'a Side, usize)> {
    let number = *job.joints.first()?.bonds.first()?;
    let bond = desk.kit().bonds.get(number)?;
    Some((holding::glued(desk.kit(), bond), holding::faced(desk.kit(), bond), number))
}

/// The same step for one page or for several: which ones, and on what; with a picture where it was not told before.
fn named(desk: &Desk<'_>, mut step: Step, jobs: &[&Job], known: bool) -> Step {
    let [first, rest @ ..] = jobs else { return step };
    let Some((side, ..)) = tab(desk, first) else { return step };
    let one = vec![("page", desk.pages(&first.owners)), ("tab", desk.panel(side))];
    if rest.is_empty() {
        step.head = desk.say("hang-head", one.clone());
    } else {
        let number = |job: &&Job| match job.owners.first() {
            Some(Owner::Page(page)) => Some(measure::count(u64::try_from(*page).ok()?, What::Page, "")),
            _ => None,
        };
        let numbers = jobs.iter().filter_map(number).collect();
        step.head = desk.say("hang-heads", vec![("pages", desk.words.list(numbers))]);
        let where_to = |job: &&Job| {
            let (side, ..) = tab(desk, job)?;
            Some(desk.say("hang-where", vec![("page", desk.pages(&job.owners)), ("tab", desk.panel(side))]))
        };
        step.lines.splice(0..0, jobs.iter().filter_map(where_to));
    }
    let all = jobs.iter().flat_map(|job| job.joints.iter().flat_map(super::joints::Joint::all));
    step.of = all.map(Told::Bond).collect();
    let shows = desk.say("hang-picture", one);
    if !known {
        step.figure = pictures::hang(desk, first).map(|picture| Figure { picture, shows });
    }
    step
}

/// How a page is hung, its name left open.
fn how(desk: &Desk<'_>, job: &Job) -> Option<Step> {
    let kit = desk.kit();
    let (side, inside, number) = tab(desk, job)?;
    let piece = kit.pieces.get(side.piece)?;
    let of = desk.id(piece.part);
    let face = |face: Face| Line::text(desk.words.text(if face == Face::Front { "face-front" } else { "face-back" }));
    let gusset = piece.net.panels.iter().any(|one| one.purpose == Use::Gusset);
    let mut step = Step::default();
    if let Stick::Tab { length, width } = holding::stick(desk.job.album, kit, job.doing, number) {
        let width = measure::number(desk.measure.show_both(width), width, What::TapeWidth, of);
        let tape = vec![("length", desk.length(length, What::Tape, of)), ("width", width), ("face", face(side.face))];
        step.lines.push(desk.say("hang-tape", tape));
        step.lines.extend(["hang-glue", "hang-slide", "hang-peel"].map(|key| desk.tell(key)));
    } else if kit.bonds.get(number)?.hold == Hold::Slid {
        step.lines.extend(["hang-glue-only", "hang-slide"].map(|key| desk.tell(key)));
    } else {
        let on = vec![("face", face(side.face)), ("side", face(inside.face))];
        step.lines.push(desk.say("leaf-glue", on));
        step.lines.push(desk.tell("leaf-press"));
    }
    step.warn.push(desk.tell(if gusset { "hang-warn" } else { "hang-warn-plain" }));
    Some(step)
}
