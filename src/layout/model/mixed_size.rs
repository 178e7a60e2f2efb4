// SPDX-License-Identifier: MIT
//! One size of sheet among several, and what goes on it: what the bound and the plan for several sizes work on.

use std::collections::BTreeMap;

use crate::layout::model::instance::{BinType, Instance};
use crate::layout::model::one_size::{BoxType, OneSizeProblem};
use crate::layout::numbers::share;

/// One size of sheet, and what goes on it.
#[derive(Clone, Debug)]
pub(crate) struct MixedSize {
    /// Its number in the instance.
    pub(crate) number: usize,
    pub(crate) problem: OneSizeProblem,
    /// By kind of the problem, the kind of all sizes.
    pub(crate) kinds: Vec<usize>,
    pub(crate) cost: u128,
    pub(crate) supply: Option<u64>,
    /// What a sheet costs in the programme, where the dearest costs one.
    pub(crate) share: f64,
}

impl MixedSize {
    pub(crate) fn new(
        number: usize,
        size: &BinType,
        dearest: u128,
        problem: OneSizeProblem,
        kinds: Vec<usize>,
    ) -> Self {
        let share = share(size.cost, dearest);
        Self { number, problem, kinds, cost: size.cost, supply: size.supply, share }
    }

    /// Whether it is bought, and not for nothing.
    pub(crate) fn is_bought(&self) -> bool {
        self.supply.is_none() && self.share > 0.0
    }

    /// What each of its kinds is worth.
    pub(crate) fn worths(&self, worth: &[u64]) -> Vec<u64> {
        self.kinds.iter().map(|&kind| worth[kind]).collect()
    }

    /// Boxes on one sheet of this size, so many to what the dearest one costs.
    pub(crate) fn pattern(&self, kinds: impl Iterator<Item = usize>) -> Vec<(usize, f64)> {
        let mut on_it: BTreeMap<usize, f64> = BTreeMap::new();
        for kind in kinds {
            *on_it.entry(kind).or_default() += 1.0 / self.share;
        }
        on_it.into_iter().collect()
    }
}

/// What the dearest sheet costs that is bought.
pub(crate) fn dearest(instance: &Instance) -> Option<u128> {
    instance.sizes.iter().filter(|size| size.supply.is_none()).map(|size| size.cost).max().filter(|&cost| cost > 0)
}

/// The sizes of an instance that any of its boxes goes on, the boxes being as they are laid.
pub(crate) fn sizes_as_laid(instance: &Instance) -> Vec<MixedSize> {
    let Some(dearest) = dearest(instance) else { return Vec::new() };
    let of = |(number, size): (usize, &BinType)| {
        let ways = |kind: usize| {
            let ways = instance.kinds[kind].orientations().iter();
            let ways = ways.filter(|way| way.width <= size.width && way.height <= size.height);
            let orientations: Vec<(i64, i64)> = ways.map(|way| (way.width, way.height)).collect();
            (!orientations.is_empty()).then(|| (kind, BoxType { orientations, count: instance.kinds[kind].count }))
        };
        let (kinds, boxes): (Vec<usize>, Vec<BoxType>) = (0..instance.kinds.len()).filter_map(ways).unzip();
        let problem =
            OneSizeProblem { width: size.width, height: size.height, share: vec![u128::MAX; boxes.len()], boxes };
        MixedSize::new(number, size, dearest, problem, kinds)
    };
    instance.sizes.iter().enumerate().map(of).filter(|size| !size.kinds.is_empty()).collect()
}
