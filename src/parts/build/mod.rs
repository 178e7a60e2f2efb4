// SPDX-License-Identifier: MIT
//! How a kind states its pieces: the builder that gathers them, faces, nets in few words, rows that are joined from pieces.

pub(in crate::parts) mod advice;
pub(in crate::parts) mod builder;
mod cuts;
pub(in crate::parts) mod edged;
pub(in crate::parts) mod face;
pub(in crate::parts) mod joined;
pub(in crate::parts) mod new_piece;
pub(in crate::parts) mod row;
pub(in crate::parts) mod sketch;
