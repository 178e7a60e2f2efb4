// SPDX-License-Identifier: MIT
//! Kinds that stand in kind files: from what such a file says to nets, bonds, pockets, faces.
//!
//! `shelf` keeps the kinds, `sizes` finds what their names stand for, `net` makes nets of rows and `cuts` what is cut out of them, `over_fold` what of that reaches over folds, `marks` what is drawn on them, `drawn` what drawings show, `laid` finds where panels lie
//! once all folds are closed, `page` and `insert` make one of a kind, `ties` joins its pieces.

mod cuts;
mod drawn;
mod insert;
mod laid;
mod make;
mod marks;
mod net;
mod over_fold;
mod page;
mod shelf;
mod sizes;
mod ties;

pub(in crate::parts) use make::make;
pub(in crate::parts) use shelf::built_in;
pub(super) use shelf::kept;
pub use shelf::{KindFiles, KindsRead, kinds_of, no_kind_files, shelved};
