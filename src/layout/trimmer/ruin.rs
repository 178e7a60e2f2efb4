// SPDX-License-Identifier: MIT
//! Ruin and recreate of guillotine layouts: a sheet is a slicing tree, of which nodes go.
//!
//! Goal-driven ruin and recreate with blinks (Gardeyn and Wauters 2022).

use crate::layout::heuristic::ruin_recreate::Ruin;
use crate::layout::heuristic::rule::Rule;
use crate::layout::model::instance::{BinType, Instance, ItemType, Orientation};
use crate::layout::model::packing::PlacedBox;
use crate::layout::random::Random;

use super::open_tree::{OpenTree, TreeSpot};
use super::slicing_tree::SlicingTree;

/// Which nodes of a tree go.
fn choose_gone(tree: &SlicingTree, gone: &mut Vec<bool>, random: &mut Random) {
    gone.clear();
    gone.resize(tree.len(), false);
    if tree.len() == 0 {
        return;
    }
    match random.below(if tree.len() < 11 { 5 } else { 10 }) {
        0..3 => gone.fill(true),
        3..6 => {
            // A few whole rows and columns.
            for _ in 0..=random.below(3) {
                let node = random.below(tree.len());
                gone[node..node + tree.span(node)].fill(true);
            }
        }
        6 => {
            // All but one.
            let node = random.below(tree.len());
            gone.fill(true);
            gone[node..node + tree.span(node)].fill(false);
        }
        _ => {
            let percent = 20 + random.below(60);
            for gone in gone.iter_mut() {
                *gone = random.chance(percent);
            }
        }
    }
}

impl Ruin for OpenTree {
    type Content = SlicingTree;
    /// By node, whether it goes.
    type Spared = Vec<bool>;
    type Spot = TreeSpot;

    const MEMORY: usize = 200;
    const TURN_STEPS: u64 = 1;
    const WAITED_FIRST: usize = 40;
    const BLINKS: usize = 3;

    fn content(size: &BinType, placed: Vec<PlacedBox>) -> (SlicingTree, Vec<usize>) {
        SlicingTree::of(&placed, size.width, size.height)
    }

    fn boxes(tree: SlicingTree) -> Vec<PlacedBox> {
        tree.placed()
    }

    fn ruin(tree: &SlicingTree, _size: &BinType, random: &mut Random, gone: &mut Vec<bool>, loose: &mut Vec<usize>) {
        choose_gone(tree, gone, random);
        let blocks = (0..tree.len()).filter(|&node| gone[node]).filter_map(|node| tree.block(node));
        loose.extend(blocks.map(|block| block.kind));
    }

    fn reopen(&mut self, tree: &SlicingTree, _on: (&Instance, usize), gone: &Vec<bool>, least: Orientation) {
        self.take_up(tree, &|node| !gone[node], least);
    }

    fn exchange(&mut self, tree: &mut SlicingTree) {
        std::mem::swap(tree, &mut self.tree);
    }

    fn best_spot(&mut self, kind: &ItemType, rule: Rule, not: Option<&TreeSpot>) -> Option<TreeSpot> {
        self.choose(kind, rule, not)
    }

    fn worth(spot: &TreeSpot) -> (i64, i64) {
        spot.worth
    }

    fn lay_one(&mut self, kind: usize, spot: &TreeSpot) {
        self.lay(kind, spot, 1, 1);
    }
}
