// SPDX-License-Identifier: MIT
//! Lower bounds: how many sheets are needed at least, whoever lays them.
//!
//! Cheap ones first: area and boxes that cannot share a sheet, dual feasible functions, then the linear programme over
//! patterns, whose columns are priced by branch and bound.

pub(crate) mod area;
pub(crate) mod closing;
pub(crate) mod counting;
pub(crate) mod dual_feasible;
pub(crate) mod dual_pairs;
pub(crate) mod exclusive;
pub(crate) mod fitting;
pub(crate) mod guillotine_knapsack;
pub(crate) mod guillotine_pricing;
pub(crate) mod heaviest_set;
pub(crate) mod inscribed;
pub(crate) mod knapsack;
pub(crate) mod lower_bound;
pub(crate) mod mixed_sizes;
pub(crate) mod patterns;
pub(crate) mod pricing;
pub(crate) mod raster;
pub(crate) mod reason;
pub(crate) mod relaxation;
pub(crate) mod simplex;
pub(crate) mod whole_sums;
