// SPDX-License-Identifier: MIT
//! Ruin and recreate of free layouts: a sheet is a list of boxes, of which one side or some here and there go.

use crate::layout::heuristic::open_sheet::{OpenSheet, SheetSpot};
use crate::layout::heuristic::ruin_recreate::Ruin;
use crate::layout::heuristic::rule::Rule;
use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::model::instance::{BinType, Instance, ItemType, Orientation};
use crate::layout::model::packing::PlacedBox;
use crate::layout::random::Random;

/// A sheet with fewer boxes than this is mostly taken apart whole.
const FEW_BOXES: usize = 8;

/// Which boxes of a sheet go.
#[derive(Clone, Copy)]
enum Region {
    All,
    LeftOf(i64),
    RightOf(i64),
    Below(i64),
    Above(i64),
    Some(usize),
}

impl Region {
    fn any(random: &mut Random, width: i64, height: i64, few: bool) -> Self {
        if random.chance(if few { 75 } else { 25 }) {
            return Self::All;
        }
        let eighths = |size: i64, random: &mut Random| size / 8 * i64::try_from(2 + random.below(5)).unwrap_or(4);
        match random.below(5) {
            0 => Self::LeftOf(eighths(width, random)),
            1 => Self::RightOf(eighths(width, random)),
            2 => Self::Below(eighths(height, random)),
            3 => Self::Above(eighths(height, random)),
            _ => Self::Some(20 + random.below(60)),
        }
    }

    fn spares(self, put: &PlacedBox, random: &mut Random) -> bool {
        match self {
            Self::All => false,
            Self::LeftOf(x) => put.x >= x,
            Self::RightOf(x) => put.x + put.width <= x,
            Self::Below(y) => put.y >= y,
            Self::Above(y) => put.y + put.height <= y,
            Self::Some(percent) => !random.chance(percent),
        }
    }
}

impl Ruin for OpenSheet {
    type Content = Vec<PlacedBox>;
    type Spared = Vec<PlacedBox>;
    type Spot = SheetSpot;

    const MEMORY: usize = 20;
    const TURN_STEPS: u64 = 60;
    const WAITED_FIRST: usize = 20;
    const BLINKS: usize = 0;

    fn content(_size: &BinType, placed: Vec<PlacedBox>) -> (Self::Content, Vec<usize>) {
        (placed, Vec::new())
    }

    fn boxes(content: Self::Content) -> Vec<PlacedBox> {
        content
    }

    fn ruin(
        content: &Self::Content,
        size: &BinType,
        random: &mut Random,
        spared: &mut Self::Spared,
        loose: &mut Vec<usize>,
    ) {
        spared.clear();
        let region = Region::any(random, size.width, size.height, content.len() < FEW_BOXES);
        for put in content {
            if region.spares(put, random) {
                spared.push(*put);
            } else {
                loose.push(put.kind);
            }
        }
    }

    fn reopen(
        &mut self,
        _content: &Self::Content,
        (instance, size): (&Instance, usize),
        spared: &Self::Spared,
        least: Orientation,
    ) {
        self.open(instance, size, least);
        for put in spared {
            self.keep(*put);
        }
    }

    fn exchange(&mut self, content: &mut Self::Content) {
        std::mem::swap(content, &mut self.placed);
    }

    fn best_spot(&mut self, kind: &ItemType, rule: Rule, _not: Option<&SheetSpot>) -> Option<SheetSpot> {
        self.spot(kind, rule)
    }

    fn worth(spot: &SheetSpot) -> (i64, i64) {
        spot.worth
    }

    fn lay_one(&mut self, kind: usize, spot: &SheetSpot) {
        self.lay(kind, spot);
    }
}
