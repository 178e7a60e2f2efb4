// SPDX-License-Identifier: MIT
//! What is told of a sheet on which pieces lie in windows of others, or head to tail in pairs.

use super::desk::Desk;
use super::line::{Line, What};
use super::{list, measure};
use crate::sheets::{Sheet, hosts, partners};
use std::collections::BTreeMap;

/// One sentence for each kind of piece and window.
pub(super) fn in_windows(desk: &Desk<'_>, sheet: &Sheet) -> Vec<Line> {
    let mut all: BTreeMap<(usize, usize), u64> = BTreeMap::new();
    for (placed, host) in sheet.placements.iter().zip(hosts(desk.kit(), &sheet.placements)) {
        if let Some(host) = host.and_then(|host| sheet.placements.get(host)) {
            *all.entry((placed.part, host.part)).or_default() += 1;
        }
    }
    let mark = |part: usize| Line::text(list::mark(&desk.rows, part).to_owned());
    let one = |((part, host), count): ((usize, usize), u64)| {
        let places = vec![("n", measure::count(count, What::Many, "")), ("piece", mark(part)), ("host", mark(host))];
        desk.say("machine-window", places)
    };
    all.into_iter().map(one).collect()
}

/// One sentence for each kind of piece that lies in pairs.
pub(super) fn in_pairs(desk: &Desk<'_>, sheet: &Sheet) -> Vec<Line> {
    let mut all: BTreeMap<usize, u64> = BTreeMap::new();
    for (placed, partner) in sheet.placements.iter().zip(partners(desk.kit(), &sheet.placements)) {
        if partner.is_some() {
            *all.entry(placed.part).or_default() += 1;
        }
    }
    let one = |(part, count): (usize, u64)| {
        let piece = Line::text(list::mark(&desk.rows, part).to_owned());
        desk.say("machine-pair", vec![("n", measure::count(count, What::Many, "")), ("piece", piece)])
    };
    all.into_iter().map(one).collect()
}
