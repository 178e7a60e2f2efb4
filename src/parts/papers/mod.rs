// SPDX-License-Identifier: MIT
//! Patterned paper on faces: which face gets which design, and patterns that run on over several panels.

pub(in crate::parts) mod designs;
pub(in crate::parts) mod panel;
pub(in crate::parts) mod runs;
