// SPDX-License-Identifier: MIT
//! Kinds of insert, one file a kind, and what they share.

pub(in crate::parts) mod accordion;
pub(in crate::parts) mod belly_band;
pub(in crate::parts) mod booklet;
pub(in crate::parts) mod envelope;
pub(in crate::parts) mod file_tab;
pub(in crate::parts) mod insert;
pub(in crate::parts) mod photo_mat;
pub(in crate::parts) mod shape;
