// SPDX-License-Identifier: MIT
//! Kinds of spine, one file a kind, and what they share: the `guard` that pages hang on, what a spine `carry`s.

pub(in crate::parts) mod carry;
pub(in crate::parts) mod concertina;
pub(in crate::parts) mod fields;
pub(in crate::parts) mod flexi_hinge;
pub(in crate::parts) mod guard;
pub(in crate::parts) mod plain_hinge;
pub(in crate::parts) mod stubs;
