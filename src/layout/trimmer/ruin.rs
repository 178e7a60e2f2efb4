// SPDX-License-Identifier: MIT
//! One sheet fewer, for trimmer layouts: takes boxes out of the trees of a few sheets and puts them and what is left
//! over back in, many times, until nothing is left over.
//!
//! In: sheets, and boxes that have no place on them. Out: the same sheets with as little as possible left over. This is
//! goal-driven ruin and recreate with blinks (Gardeyn and Wauters 2022) and late acceptance (Burke and Bykov 2017).
//! Never: opens a sheet.

use std::cmp::Reverse;

use crate::layout::heuristic::open_sheet::Rule;
use crate::layout::heuristic::order::{Key, misjudged};
use crate::layout::heuristic::ruin_recreate::{One, Pursuit, State, missing};
use crate::layout::model::instance::Frame;
use crate::layout::random::Dice;

use super::open_tree::OpenTree;
use super::slicing_tree::Tree;

/// A change is taken if it is no worse than what was held this many changes ago.
const MEMORY: usize = 200;
/// No more sheets are taken apart at once.
const MOST_RUINED: usize = 3;
/// Steps between two looks at the watch.
const BREATH: u64 = 20_000;
/// In a hundred times, so often the second best room is taken.
const BLINKS: usize = 3;

/// The sheets' trees and the boxes without a place.
#[derive(Clone)]
struct Held {
    trees: Vec<Tree>,
    pool: Vec<usize>,
}

/// The best state found, and the steps it took.
pub(crate) fn run(pursuit: &Pursuit, state: State, number: u64) -> (State, u64) {
    let frame = pursuit.frame;
    let sizes: Vec<usize> = state.sheets.iter().map(|one| one.size).collect();
    let mut held = Held { trees: Vec::new(), pool: state.pool };
    for one in &state.sheets {
        let size = &frame.sizes[one.size];
        let (tree, lost) = Tree::of(&one.puts, size.width, size.height);
        held.trees.push(tree);
        held.pool.extend(lost);
    }
    let (best, spent) = improve(pursuit, held, number);
    let sheets = sizes.iter().zip(&best.trees).map(|(&size, tree)| One { size, puts: tree.puts() }).collect();
    (State { sheets, pool: best.pool }, spent)
}

fn improve(pursuit: &Pursuit, mut held: Held, number: u64) -> (Held, u64) {
    let frame = pursuit.frame;
    let mut dice = Dice::new(number);
    let mut benches: [OpenTree; MOST_RUINED] = Default::default();
    let mut now = missing(frame, &held.pool);
    let mut best = held.clone();
    let mut least = now;
    let mut memory = vec![now; MEMORY];
    let (mut spent, mut told) = (0, 0);
    let mut turn = 0;
    while least > 0 && spent < pursuit.budget && !held.trees.is_empty() {
        let ruined = pick(held.trees.len(), &mut dice);
        let pool = relay(frame, &held, &ruined, &mut benches, &mut dice);
        let then = missing(frame, &pool);
        let slot = turn % MEMORY;
        turn += 1;
        if then <= now || then <= memory[slot] {
            for (&sheet, bench) in ruined.iter().zip(&mut benches) {
                std::mem::swap(&mut held.trees[sheet], &mut bench.tree);
            }
            held.pool = pool;
            now = then;
            if now < least {
                least = now;
                best.clone_from(&held);
            }
        }
        memory[slot] = now;
        spent += 1 + benches.iter_mut().map(OpenTree::spent).sum::<u64>();
        if spent - told >= BREATH {
            if !(pursuit.step)(spent - told) {
                return (best, spent);
            }
            told = spent;
        }
    }
    (pursuit.step)(spent - told);
    (best, spent)
}

/// One to three different sheets.
fn pick(sheets: usize, dice: &mut Dice) -> Vec<usize> {
    let wanted = match dice.below(10) {
        0..3 => 1,
        3..8 => 2,
        _ => MOST_RUINED,
    };
    let mut ruined: Vec<usize> = (0..wanted).map(|_| dice.below(sheets)).collect();
    ruined.sort_unstable();
    ruined.dedup();
    ruined
}

/// Which nodes of a tree go.
fn ruin(tree: &Tree, gone: &mut Vec<bool>, dice: &mut Dice) {
    gone.clear();
    gone.resize(tree.len(), false);
    if tree.len() == 0 {
        return;
    }
    match dice.below(if tree.len() < 11 { 5 } else { 10 }) {
        0..3 => gone.fill(true),
        3..6 => {
            // A few whole rows and columns.
            for _ in 0..=dice.below(3) {
                let node = dice.below(tree.len());
                gone[node..node + tree.span(node)].fill(true);
            }
        }
        6 => {
            // All but one.
            let node = dice.below(tree.len());
            gone.fill(true);
            gone[node..node + tree.span(node)].fill(false);
        }
        _ => {
            let percent = 20 + dice.below(60);
            for gone in gone.iter_mut() {
                *gone = dice.chance(percent);
            }
        }
    }
}

/// Lays boxes of the ruined sheets and the pool again on the benches; returns the new pool.
fn relay(frame: &Frame, held: &Held, ruined: &[usize], benches: &mut [OpenTree], dice: &mut Dice) -> Vec<usize> {
    let mut gone: [Vec<bool>; MOST_RUINED] = Default::default();
    let mut loose: Vec<usize> = Vec::with_capacity(held.pool.len() + 16);
    for (&sheet, gone) in ruined.iter().zip(&mut gone) {
        let tree = &held.trees[sheet];
        ruin(tree, gone, dice);
        let blocks = (0..tree.len()).filter(|&node| gone[node]).filter_map(|node| tree.block(node));
        loose.extend(blocks.map(|block| block.kind));
    }
    let from_sheets = loose.len();
    loose.extend(&held.pool);
    let least = frame.least(&loose);
    for ((&sheet, gone), bench) in ruined.iter().zip(&gone).zip(&mut *benches) {
        bench.take_up(&held.trees[sheet], &|node| !gone[node], least);
    }
    let key = Key::ALL[dice.below(Key::ALL.len())];
    let percent = [5, 20, 60, 100][dice.below(4)];
    let eager = dice.chance(40);
    let mut keyed: Vec<(Reverse<i64>, usize)> = loose
        .iter()
        .enumerate()
        .map(|(number, &kind)| {
            let size = misjudged(key.of(frame.kinds[kind].pose()).0, percent, dice);
            // Boxes that have waited may go first.
            let size = if eager && number >= from_sheets { size.saturating_mul(2) } else { size };
            (Reverse(size), kind)
        })
        .collect();
    keyed.sort_unstable();
    let rule = Rule::ALL[dice.below(Rule::ALL.len())];
    let first_fit = dice.chance(50);
    let mut pool = Vec::new();
    for (_, kind) in keyed {
        let shape = &frame.kinds[kind];
        let blink = dice.chance(BLINKS);
        let choose = |bench: &mut OpenTree| {
            let best = bench.choose(shape, rule, None)?;
            if blink { bench.choose(shape, rule, Some(&best)).or(Some(best)) } else { Some(best) }
        };
        let open = benches[..ruined.len()].iter_mut();
        let found = if first_fit {
            open.enumerate().find_map(|(number, bench)| Some((number, choose(bench)?)))
        } else {
            open.enumerate()
                .filter_map(|(number, bench)| Some((number, choose(bench)?)))
                .min_by_key(|(_, choice)| choice.worth)
        };
        match found {
            Some((number, choice)) => benches[number].lay(kind, &choice, 1, 1),
            None => pool.push(kind),
        }
    }
    pool
}
