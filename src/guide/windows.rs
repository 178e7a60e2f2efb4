// SPDX-License-Identifier: MIT
//! What is told of a sheet on which pieces lie in windows of others.

use super::desk::Desk;
use super::line::{Line, What};
use super::{list, measure};
use crate::sheets::{Sheet, hosts};
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
