// SPDX-License-Identifier: MIT
//! Which of many sizes are worth a look: where the sheets jump.
//!
//! In: a survey. Out: the nearest size for each saving, the nearest for each further cost, and the largest page that costs
//! nothing more.

use super::size::{ALIKE, Size};
use super::survey::Survey;

/// So many savings and costs are shown at most: our choice.
const MOST_SAVINGS: usize = 7;
const MOST_COSTS: usize = 4;

/// A size that takes more or fewer sheets than the file's own, or the largest that takes as many.
#[derive(Clone, Debug, PartialEq)]
pub enum Jump {
    /// It saves something, and no nearer size saves as much.
    Saves(Size),
    /// It costs nothing more, and no larger page does.
    Grows(Size),
    /// It costs more, and no nearer size costs as little more.
    Costs(Size),
}

impl Jump {
    /// The album at that size.
    #[must_use]
    pub const fn size(&self) -> &Size {
        match self {
            Self::Saves(size) | Self::Grows(size) | Self::Costs(size) => size,
        }
    }

    /// What it does, as files name it.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Saves(_) => "saves",
            Self::Grows(_) => "grows",
            Self::Costs(_) => "costs",
        }
    }
}

/// The jumps of a survey: savings first, the nearest first.
#[must_use]
pub fn jumps(survey: &Survey) -> Vec<Jump> {
    let Some(own) = survey.base() else { return Vec::new() };
    let counts = |size: &Size| size.tallies.iter().map(|tally| (tally.stock, tally.sheets)).collect::<Vec<_>>();
    // Nearest first; of sizes as near the larger page.
    let mut near: Vec<&Size> = survey.sizes.iter().filter(|size| *size != own).collect();
    near.sort_by(|one, two| {
        let far = |size: &Size| distance(own, size);
        far(one).total_cmp(&far(two)).then(page_area(two).total_cmp(&page_area(one)))
    });
    let own_weight = own.weight();
    let same = ALIKE * own_weight.max(1.0);
    let mut jumps = Vec::new();
    let mut best = own_weight;
    let mut seen = Vec::new();
    for size in &near {
        // A saving of money that takes more sheets of something is a saving all the same.
        if size.weight() < best - same && jumps.len() < MOST_SAVINGS {
            best = size.weight();
            seen.push(counts(size));
            jumps.push(Jump::Saves((*size).clone()));
        }
    }
    let free = near.iter().filter(|size| size.weight() <= own_weight + same && page_area(size) > page_area(own));
    if let Some(largest) = free.max_by(|one, two| page_area(one).total_cmp(&page_area(two)))
        && !seen.contains(&counts(largest))
    {
        jumps.push(Jump::Grows((*largest).clone()));
    }
    let mut costs = 0;
    for size in near {
        let grows = size.width >= own.width && size.height >= own.height;
        // What goes onto some sheets goes onto them when it is smaller: a larger page that costs no more tells that a longer
        // look would have found as much here.
        let luck = survey.sizes.iter().any(|other| {
            other.width >= size.width && other.height >= size.height && other.weight() <= own_weight + same
        });
        let known = luck || seen.contains(&counts(size));
        if grows && size.weight() > own_weight + same && !known && costs < MOST_COSTS {
            seen.push(counts(size));
            costs += 1;
            jumps.push(Jump::Costs(size.clone()));
        }
    }
    jumps
}

/// How far a size is from another: what is taken off or put on, both ways together, mm.
fn distance(own: &Size, size: &Size) -> f64 {
    (size.width - own.width).abs().mm() + (size.height - own.height).abs().mm()
}

fn page_area(size: &Size) -> f64 {
    size.width.mm() * size.height.mm()
}
