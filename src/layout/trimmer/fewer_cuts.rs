// SPDX-License-Identifier: MIT
//! The same boxes on the same sheets, with fewer cuts and fewer settings of the trimmer's stop.
//!
//! In: a draft. Out: the same draft with sheets laid again where that is less work. Never: moves a box to another sheet,
//! makes the largest offcut smaller.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use crate::layout::heuristic::builder::Bench;
use crate::layout::heuristic::constructive::fill;
use crate::layout::heuristic::open_sheet::Rule;
use crate::layout::heuristic::order::{Key, by_size};
use crate::layout::model::instance::Frame;
use crate::layout::model::packing::{Draft, Laid, Put, largest_empty};

use super::cut_plan::work;
use super::open_tree::OpenTree;

/// With more boxes on a sheet than this it stays as it is.
const MOST_BOXES: usize = 120;
/// No more different sheets are laid again.
const MOST_SHEETS: usize = 300;

/// Lays each sheet again by a few `rules` over all orders and keeps the least work.
pub(crate) fn neater(frame: &Frame, mut draft: Draft, rules: &[Rule]) -> Draft {
    let emptiest = draft.emptiest(frame);
    let orders: Vec<Vec<usize>> = Key::ALL.into_iter().map(|key| by_size(frame, key)).collect();
    // Sheets with the same boxes become equal, so that they are listed once.
    let mut known: BTreeMap<(usize, Vec<usize>), Vec<Put>> = BTreeMap::new();
    for (number, laid) in draft.laid.iter_mut().enumerate() {
        if laid.puts.len() > MOST_BOXES {
            continue;
        }
        let mut kinds: Vec<usize> = laid.puts.iter().map(|put| put.kind).collect();
        kinds.sort_unstable();
        let keep_offcut = emptiest == Some(number);
        let key = (laid.size, kinds);
        if keep_offcut {
            laid.puts = again(frame, laid, &orders, rules, true);
        } else if let Some(puts) = known.get(&key) {
            laid.puts.clone_from(puts);
        } else if known.len() < MOST_SHEETS {
            laid.puts = again(frame, laid, &orders, rules, false);
            known.insert(key, laid.puts.clone());
        }
    }
    draft
}

/// The least work among some layouts of the boxes on one sheet.
fn again(frame: &Frame, old: &Laid, orders: &[Vec<usize>], rules: &[Rule], keep_offcut: bool) -> Vec<Put> {
    let judge = |laid: &Laid| {
        let offcut = if keep_offcut { largest_empty(frame, laid) } else { 0 };
        Some((Reverse(offcut), work(frame, laid)?))
    };
    let mut left = vec![0; frame.kinds.len()];
    for put in &old.puts {
        left[put.kind] += 1;
    }
    let mut best = (judge(old), old.puts.clone());
    let mut bench = OpenTree::default();
    let mut seen: Vec<Vec<usize>> = Vec::new();
    for order in orders {
        let order: Vec<usize> = order.iter().copied().filter(|&kind| left[kind] > 0).collect();
        if seen.contains(&order) {
            continue;
        }
        for &rule in rules {
            bench.open(&frame.sizes[old.size], frame.least(&order));
            fill(frame, &order, &left, rule, &mut bench);
            if bench.laid() < old.puts.len() {
                continue;
            }
            let laid = Laid { size: old.size, times: old.times, puts: bench.puts() };
            let judged = judge(&laid);
            if judged.is_some() && (best.0.is_none() || judged < best.0) {
                best = (judged, laid.puts);
            }
        }
        seen.push(order);
    }
    best.1
}
