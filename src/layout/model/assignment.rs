// SPDX-License-Identifier: MIT
//! Assignment: the boxes of a packing are given back to the items that they stand for.

use std::collections::BTreeMap;

use super::cut_tree::CutTree;
use super::instance::{Instance, trim};
use super::packing::{PackedSheet, Packing, PlacedBox};
use super::problem::Item;
use super::solution::{LaidSheet, Placement};

/// How a sheet is cut apart, where that is part of the layout; and its boxes where those cuts leave them.
pub(crate) type CutTreeOf = fn(&Instance, &PackedSheet) -> Option<(CutTree, Vec<PlacedBox>)>;

/// Gives the boxes of a packing back to the items they stand for. A sheet that repeats stays one entry as long as the
/// items' counts allow, so equal parts of several items do not break a long run into many short ones.
pub(crate) fn deal(instance: &Instance, packing: &Packing, items: &[Item], cut_tree: CutTreeOf) -> Vec<LaidSheet> {
    let mut hands: Vec<Vec<(usize, u32)>> = instance.kinds.iter().map(|kind| kind.members().to_vec()).collect();
    let mut sheets = Vec::new();
    for laid in &packing.laid {
        let slots = slots(laid);
        let cut = cut_tree(instance, laid);
        let (cuts, placed) = cut.map_or((None, laid.placed.clone()), |(piece, placed)| (Some(piece), placed));
        let mut left = laid.times;
        while left > 0 {
            let run = slots.iter().map(|(&kind, &slots)| longest_run(&hands[kind], slots)).min().unwrap_or(0);
            let run = run.min(u32::try_from(left).unwrap_or(u32::MAX));
            if run == 0 {
                break;
            }
            let placements =
                placed.iter().filter_map(|put| placement(instance, put, &mut hands[put.kind], run, items)).collect();
            sheets.push(LaidSheet { sheet: laid.size, times: run, placements, cuts: cuts.clone() });
            left -= u64::from(run);
        }
    }
    sheets
}

fn placement(
    instance: &Instance,
    put: &PlacedBox,
    hand: &mut [(usize, u32)],
    run: u32,
    items: &[Item],
) -> Option<Placement> {
    let (item, left) = hand.iter_mut().find(|(_, left)| *left >= run)?;
    *left -= run;
    let (item, wanted) = (*item, items.get(*item)?);
    let as_drawn =
        trim(wanted.width, 1) + instance.gap == put.width && trim(wanted.height, 1) + instance.gap == put.height;
    let turn = wanted.turns.taken(as_drawn)?;
    Some(Placement { item, x: put.x, y: put.y, turn })
}

/// What a packing leaves undone, by item.
pub(crate) fn left_over(instance: &Instance, packing: &Packing) -> Vec<(usize, u32)> {
    let mut left: Vec<(usize, u32)> = Vec::new();
    for (kind, &count) in instance.kinds.iter().zip(&packing.left) {
        let mut missing = count;
        for &(item, held) in kind.members().iter().rev() {
            let part = u32::try_from(missing).unwrap_or(u32::MAX).min(held);
            if part > 0 {
                left.push((item, part));
                missing -= u64::from(part);
            }
        }
    }
    left.sort_unstable();
    left
}

/// How often one sheet uses each kind.
fn slots(laid: &PackedSheet) -> BTreeMap<usize, u64> {
    let mut slots = BTreeMap::new();
    for put in &laid.placed {
        *slots.entry(put.kind).or_insert(0) += 1;
    }
    slots
}

/// The most sheets in a row that give each of `slots` places one item for all of them.
fn longest_run(hand: &[(usize, u32)], slots: u64) -> u32 {
    let enough = |run: u32| hand.iter().map(|&(_, left)| u64::from(left / run)).sum::<u64>() >= slots;
    let (mut good, mut bad) = (0, hand.iter().map(|&(_, left)| left).max().unwrap_or(0).saturating_add(1));
    while bad - good > 1 {
        let middle = good + (bad - good) / 2;
        if enough(middle) { good = middle } else { bad = middle }
    }
    good
}
