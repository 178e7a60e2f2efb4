// SPDX-License-Identifier: MIT
//! Every test of Hingeleaf's own, one module a subject: what a user could see going wrong.
//!
//! One crate, so that it is linked once. A single subject: `cargo test layout::`.
#![allow(clippy::unwrap_used, clippy::panic, clippy::expect_used, reason = "a test may stop where it fails")]

mod common;

mod advice;
mod assembly;
mod batch;
mod besides;
mod bound;
mod broken;
mod changes;
mod choice;
mod class;
mod columns;
mod contours;
mod cost;
mod costs_hunt;
mod covers;
mod drawer;
mod edges;
mod editions;
mod editions_batch;
mod everywhere;
mod faulty;
mod fit;
mod folding;
mod formats;
mod guide;
#[cfg(feature = "pdf")]
mod guide_paper;
mod guide_pictures;
mod guide_steps;
mod guide_whole;
mod guide_words;
mod handed_over;
mod house;
mod inserts;
mod joins;
mod kept;
mod kerf;
mod kills;
mod kit;
mod labels;
mod layout;
mod lengths;
mod licences;
mod marks;
mod mends;
mod messages;
mod mixed_sizes;
mod offcut;
mod opening;
mod outline;
mod own_kinds;
mod own_kinds_drawn;

mod pages;
mod paper;
mod papers;
mod parts;
mod plates;
mod price;
mod proof;
mod ready_made;
mod rounded;
mod schema;
mod section;
mod sheets;
mod sizes;
mod solid;
mod spare;
mod spines;
mod table;
mod table_album;
mod table_batch;
mod table_compare;
mod table_drawn;
mod table_kinds;
mod table_order;
mod table_seen;
mod templates;
mod trimmer;
mod two_ways;
mod verdicts_covers;
mod verdicts_hunt;
mod verdicts_pockets;
mod verdicts_sheets;
mod verdicts_spines;
mod words;
