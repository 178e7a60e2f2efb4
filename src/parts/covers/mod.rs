// SPDX-License-Identifier: MIT
//! Kinds of cover, one file a kind, and what they share: what goes `around` the pages, `covering` boards, `band`s.

pub(in crate::parts) mod around;
pub(in crate::parts) mod band;
pub(in crate::parts) mod case;
pub(in crate::parts) mod covering;
pub(in crate::parts) mod ready_made;
pub(in crate::parts) mod wrap;
