// SPDX-License-Identifier: MIT
//! How thick the album gets: each page against the pitch, all of them against the spine.
//!
//! A spine S takes pages of T in all as long as S >= T (D3); the gussets give a joint more on either side, so nothing gapes
//! until (T - S) / 2 is more than a gusset (D2). Inner pages stand out at the fore-edge by the strips beneath theirs (H7).

use super::roots::roots;
use super::sleeves;
use crate::album::Album;
use crate::contour::{Pile, columns};
use crate::finding::{Arg, Finding, Said};
use crate::folded::Folded;
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::parts::{CONTENT, Carry, Kit, PITCH};

/// A page's layers.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct PageThickness {
    /// Its greatest thickness, what is in and on it included, mm.
    pub greatest: f64,
    /// Its mean thickness, mm.
    pub mean: f64,
    /// What is left of its pitch, mm; below zero its neighbours have to give.
    pub room: f64,
    /// How far it stands out at the fore-edge beyond the outermost pages, mm.
    pub stands_out: f64,
}

/// The album closed.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Closed {
    /// How its spine carries the pages.
    pub carry: Carry,
    /// What the spine gives the pages, mm.
    pub spine: f64,
    /// How thick they are at the spine, where the tabs are, mm.
    pub at_spine: f64,
    /// How thick they are where they are thickest, mm.
    pub thickest: f64,
    /// How thick they are along the fore-edge, mm.
    pub at_fore_edge: f64,
    /// The angle by which it gapes, radians; 0 where the gussets take it up.
    pub gape: f64,
    /// The neighbouring pages that gape most; none where no run of them does.
    pub run: Option<ThickRun>,
    /// The least share of the spine, the same for every page, with which nothing would gape, mm; none where nothing does.
    pub pitch: Option<f64>,
    /// Each page.
    pub pages: Vec<PageThickness>,
    /// What a wrap cover needs for this album with a square of 3 mm: its panels' width from and to, its spine between the
    /// scores, mm (H8, F9).
    pub cover: [f64; 3],
}

/// How wide the strip along the fore-edge is over which the closed album is measured, mm.
const EDGE: f64 = 10.0;

/// The usual square, mm (B1).
const SQUARE: f64 = 3.0;

/// Works out how thick the closed album is.
#[must_use]
pub fn closed(album: &Album, kit: &Kit, folded: &Folded) -> Closed {
    let carry = &kit.carry;
    let count = album.pages.len();
    let width = album.page.width.mm();
    let stacks: Vec<Pile> = (1..=count).map(|page| folded.stack(kit, page)).collect();
    let contents: Vec<f64> = album.pages.iter().map(|page| page.mm(CONTENT)).collect();
    let lowest = carry.rises.iter().copied().fold(f64::INFINITY, f64::min);
    let pages = stacks
        .iter()
        .zip(&contents)
        .zip(carry.steps.iter().zip(&carry.rises))
        .map(|((stack, content), (step, rise))| {
            let greatest = stack.greatest() + content;
            PageThickness { greatest, mean: stack.mean + content, room: step - greatest, stands_out: rise - lowest }
        })
        .collect::<Vec<_>>();
    // By strip from the spine on: how thick each page is there.
    let columns = |from: f64, to: f64| {
        let mut columns = columns(&stacks, from, to);
        for column in &mut columns {
            column.iter_mut().zip(&contents).for_each(|(thick, content)| *thick += content);
        }
        columns
    };
    let sum = |column: &Vec<f64>| column.iter().sum::<f64>();
    let over = |from: f64, to: f64| columns(from, to).iter().map(sum).fold(0.0, f64::max);
    let whole_width = columns(0.0, width);
    let roots = roots(album, carry).1;
    let run = whole_width.iter().filter_map(|column| worst_run(column, &roots, carry.gusset));
    let run = run.max_by(|one, two| (one.wants - one.has).total_cmp(&(two.wants - two.has)));
    let spine = carry.spine();
    let thickest = whole_width.iter().map(sum).fold(0.0, f64::max);
    let excess = (thickest - spine) / 2.0;
    let pitch = (excess > carry.gusset || run.is_some()).then(|| least_pitch(&whole_width, thickest, carry.gusset));
    let cover_caliper = album.caliper(album.page.stock);
    let [_, round] = carry.short(sleeves::thickest(kit));
    let most = carry.rises.iter().copied().fold(0.0, f64::max);
    let least = carry.gusset + width + most + SQUARE;
    Closed {
        spine,
        at_spine: over(0.0, carry.tab.min(width)),
        thickest,
        at_fore_edge: over((width - EDGE).max(0.0), width),
        gape: if excess > carry.gusset { 2.0 * ((excess - carry.gusset) / width.max(1.0)).atan() } else { 0.0 },
        run,
        pitch,
        pages,
        carry: carry.clone(),
        cover: [least, least + round, spine.max(thickest).max(kit.foot) + cover_caliper],
    }
}

pub(super) fn check(album: &Album, closed: &Closed) -> Vec<Finding> {
    // A single page is held by one gusset alone, and nothing is beside it.
    if album.pages.len() < 2 {
        return Vec::new();
    }
    let carry = &closed.carry;
    let gapes = whole_gapes(album, carry, closed);
    let run = if gapes.is_none() { closed.run.and_then(|run| run_gapes(album, closed, run)) } else { None };
    let spent = if gapes.is_none() && run.is_none() { half_spent(album, carry, closed) } else { None };
    // What follows from a gape is not told again.
    let thick = if gapes.is_none() && run.is_none() { thick_page(album, closed) } else { None };
    [gapes, run, spent, thick].into_iter().flatten().collect()
}

/// All pages against all of the spine.
fn whole_gapes(album: &Album, carry: &Carry, closed: &Closed) -> Option<Finding> {
    let excess = (closed.thickest - closed.spine) / 2.0;
    if excess <= carry.gusset {
        return None;
    }
    let pitch = album.at_least(closed.pitch?);
    let text = Said::new("gapes")
        .with("thick", album.rough(closed.thickest))
        .with("spine", album.length(closed.spine))
        .with("degrees", Arg::Number(closed.gape.to_degrees().max(1.0), 0));
    let finding = Finding::warn("gapes", Said::new("about-spine"), text)
        .measured(Length::from_mm(closed.thickest), Length::from_mm(2.0f64.mul_add(carry.gusset, closed.spine)));
    Some(with_pitch(finding, "gapes-help", pitch, album))
}

/// A run of neighbours i..j gapes where half of i, all between and half of j are together thicker than the way between
/// their roots and a gusset at either end (H13). With P the roots and B the middles of the stacked pages, both counted from
/// the first page, that is B(j) - B(i) > P(j) - P(i) + 2 gussets: the least of B - P so far is all that a page needs to know
/// of those before it.
#[must_use]
pub fn worst_run(thickness: &[f64], roots: &[f64], gusset: f64) -> Option<ThickRun> {
    let mut middle = 0.0;
    let mut least: Option<(usize, f64)> = None;
    let mut worst: Option<ThickRun> = None;
    for (page, (thick, root)) in thickness.iter().zip(roots).enumerate() {
        let here = middle + thick / 2.0 - root;
        if let Some((from, before)) = least {
            let has = 2.0f64.mul_add(gusset, root - roots[from]);
            let wants = here - before + root - roots[from];
            let over = wants - has;
            if over > SAME && worst.as_ref().is_none_or(|worst| over > worst.wants - worst.has + SAME) {
                worst = Some(ThickRun { from: from + 1, to: page + 1, wants, has });
            }
        }
        if least.is_none_or(|(_, before)| here < before) {
            least = Some((page, here));
        }
        middle += thick;
    }
    worst
}

/// The least way from each root to the next, mm, all alike, so that the spine takes all pages and no run of them gapes: as
/// much as the worst run asks for, as long as one asks for more. Each run is asked but once, so it ends.
fn least_pitch(columns: &[Vec<f64>], thickest: f64, gusset: f64) -> f64 {
    let count = columns.iter().map(Vec::len).max().unwrap_or(0);
    let mut pitch = thickest / whole(count.max(1));
    let asks = |pitch: f64| {
        let roots: Vec<f64> = (0..count).map(|page| whole(page) * pitch).collect();
        let needs = |run: ThickRun| 2.0f64.mul_add(-gusset, run.wants) / whole(run.to - run.from);
        columns.iter().filter_map(|column| worst_run(column, &roots, gusset)).map(needs).max_by(f64::total_cmp)
    };
    while let Some(more) = asks(pitch).filter(|more| *more > pitch) {
        pitch = more;
    }
    pitch
}

/// Neighbouring pages that are too thick for their part of the spine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThickRun {
    /// Its first page, from 1.
    pub from: usize,
    /// Its last.
    pub to: usize,
    /// Half the first page, all between, half the last one, mm.
    pub wants: f64,
    /// What their roots and a gusset at either end give them, mm.
    pub has: f64,
}

fn run_gapes(album: &Album, closed: &Closed, run: ThickRun) -> Option<Finding> {
    let pitch = album.at_least(closed.pitch?);
    let text = Said::new("gapes-run")
        .with("from", run.from)
        .with("to", run.to)
        .with("wants", album.rough(run.wants))
        .with("has", album.rough(run.has));
    let finding = Finding::warn("gapes", Said::new("about-spine"), text)
        .measured(Length::from_mm(run.wants), Length::from_mm(run.has));
    Some(with_pitch(finding, "gapes-run-help", pitch, album))
}

/// A gusset that is more than half spent on making room has little left to flex with: our choice.
fn half_spent(album: &Album, carry: &Carry, closed: &Closed) -> Option<Finding> {
    let spent = (closed.thickest - closed.spine) / 2.0;
    if carry.gusset <= 0.0 || spent <= carry.gusset / 2.0 + SAME {
        return None;
    }
    let pitch = album.at_least((closed.thickest - carry.gusset) / whole(album.pages.len()));
    let text = Said::new("gusset-spent")
        .with("spent", album.rough(spent))
        .with("gusset", album.length(carry.gusset))
        .with("thick", album.rough(closed.thickest))
        .with("spine", album.length(closed.spine));
    let finding = Finding::warn("gusset-spent", Said::new("about-spine"), text)
        .measured(Length::from_mm(spent), Length::from_mm(carry.gusset / 2.0));
    Some(with_pitch(finding, "gapes-help", pitch, album))
}

/// A finding that a larger pitch mends.
fn with_pitch(finding: Finding, help: &'static str, pitch: Length, album: &Album) -> Finding {
    let help = Said::new(help).with("field", Arg::field("spine.pitch")).with("pitch", album.length(pitch.mm()));
    finding.help(help).mend("spine.pitch", pitch).at(album.spine.values.place(PITCH))
}

/// A page this many times as thick as its share of the spine is worth a note: our choice.
const FAR: f64 = 2.0;

/// The page that is thickest against its pitch.
fn thick_page(album: &Album, closed: &Closed) -> Option<Finding> {
    let share = |page: &PageThickness| page.greatest / (page.greatest + page.room).max(0.1);
    let far = |(_, page): &(usize, &PageThickness)| share(page) > FAR;
    let worst = closed.pages.iter().enumerate().filter(far).max_by(|one, two| share(one.1).total_cmp(&share(two.1)));
    let (number, page) = worst?;
    let pitch = page.greatest + page.room;
    let text = Said::new("page-thick").with("thick", album.rough(page.greatest)).with("pitch", album.length(pitch));
    Some(
        Finding::note("page-thick", Said::new("about-page").with("page", number + 1), text)
            .measured(Length::from_mm(page.greatest), Length::from_mm(pitch))
            .help(Said::new("page-thick-help"))
            .at(album.pages.get(number).and_then(|entry| entry.place())),
    )
}

/// Angle, radians, between covers that a block `thickest` mm thick forces apart at `from` mm from a spine `spine` mm thick
/// (D2; derived: a rigid wedge).
#[must_use]
pub fn wedge(thickest: f64, spine: f64, from: f64) -> f64 {
    2.0 * ((thickest - spine).max(0.0) / (2.0 * from)).atan()
}

#[allow(clippy::cast_precision_loss, reason = "a page count is far below 2^52")]
fn whole(count: usize) -> f64 {
    count as f64
}
