// SPDX-License-Identifier: MIT
//! Exact search: tries everything, where there is little enough of it.

pub(crate) mod answer;
pub(crate) mod few_boxes;
pub(crate) mod one_sheet;
pub(crate) mod relation_search;
pub(crate) mod relations;
pub(crate) mod skyline;
pub(crate) mod skyline_search;
#[cfg(test)]
pub(crate) mod slow;
