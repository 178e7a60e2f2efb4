// SPDX-License-Identifier: MIT
//! The model: what is laid on what, and what comes out; as the caller says it, and as the searches see it.

pub(crate) mod assignment;
pub(crate) mod cut_tree;
pub(crate) mod instance;
pub(crate) mod mixed_size;
pub(crate) mod one_size;
pub(crate) mod packing;
pub(crate) mod pair;
pub(crate) mod problem;
pub(crate) mod reason;
pub(crate) mod rect;
pub(crate) mod side;
pub(crate) mod solid;
pub(crate) mod solution;
