// SPDX-License-Identifier: MIT
//! Exact search: tries everything, where there is little enough of it.

pub(crate) mod few_boxes;
pub(crate) mod one_sheet;
pub(crate) mod skyline;
