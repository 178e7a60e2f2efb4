// SPDX-License-Identifier: MIT
//! One sheet's question and answer: some boxes, and whether they lie on it together.

use crate::layout::model::packing::PlacedBox;

/// What was found out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Answer {
    /// They lie like this.
    Yes(Vec<PlacedBox>),
    /// There is no such layout.
    No,
    /// The steps did not suffice.
    Unknown,
}

/// What is known of some boxes, without their places.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Feasibility {
    /// They lie on one sheet.
    Fits,
    /// They do not.
    Never,
    /// Nobody knows.
    Unsettled,
}

impl Answer {
    /// The same without places.
    pub(crate) fn fit(&self) -> Feasibility {
        match self {
            Self::Yes(_) => Feasibility::Fits,
            Self::No => Feasibility::Never,
            Self::Unknown => Feasibility::Unsettled,
        }
    }
}

/// Some equal boxes.
#[derive(Clone, Debug)]
pub(crate) struct SameBoxes {
    /// The caller's number for them.
    pub(crate) kind: usize,
    /// Width and height in every orientation allowed; one or two of them.
    pub(crate) orientations: Vec<(i64, i64)>,
    pub(crate) count: usize,
}

impl SameBoxes {
    pub(crate) fn area(&self) -> i64 {
        self.orientations.first().map_or(0, |orientation| orientation.0 * orientation.1)
    }
}

pub(crate) fn spend(steps: &mut u64, count: usize) {
    *steps = steps.saturating_sub(u64::try_from(count).unwrap_or(u64::MAX));
}

pub(crate) fn transposed(batches: &[SameBoxes]) -> Vec<SameBoxes> {
    let exchange = |batch: &SameBoxes| SameBoxes {
        orientations: batch.orientations.iter().map(|&(width, height)| (height, width)).collect(),
        ..batch.clone()
    };
    batches.iter().map(exchange).collect()
}
