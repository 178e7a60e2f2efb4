// SPDX-License-Identifier: MIT
//! From the description of one folded-card photo album to every sheet, cut and score it needs.

pub mod album;
pub mod contour;
pub mod cutter;
pub mod fields;
pub mod finding;
pub mod fit;
pub mod layout;
pub mod length;
pub mod net;
pub mod parts;
pub mod sheets;
pub mod stock;
pub mod toolpath;
pub mod work;
pub mod write;
