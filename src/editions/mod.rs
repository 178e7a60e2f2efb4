// SPDX-License-Identifier: MIT
//! Two editions of a kit, side by side: what changed, and what has to be cut and printed again.
//!
//! In: two [`Edition`]s, each of an album worked out or of an earlier report. Out: a [`Comparison`]: for each part whether it is as
//! it was, and if not by how much; what the owner of an old kit must cut; which sheets, pages, chapters are concerned; all of it in
//! sentences ([`told`]). Never: a file format other than the report that it reads.

mod any;
mod chapters;
mod comparison;
mod difference;
mod edition;
mod matching;
mod measured_score;
mod order;
mod order_comparison;
mod pages;
mod recut;
mod report;
mod report_kits;
mod report_lists;
mod report_values;
mod told;
mod told_order;

pub use any::{Again, AnyComparison, EditionPair};
pub use chapters::EditionChapter;
pub use comparison::{ComparedPart, Comparison, compare};
pub use difference::{Difference, ScoreChange};
pub use edition::{Edition, EditionBlock, EditionPart, EditionSheet};
pub use matching::PartOutcome;
pub use measured_score::{MeasuredScore, ScorePlace};
pub use order::{AnyEdition, KitEdition, OrderEdition};
pub use order_comparison::{ComparedKit, CutAgain, KitOutcome, OrderComparison, compare_orders};
pub use pages::ChangedPages;
pub use recut::Recut;
pub use report::{REPORT_FORMAT, read_report};
pub use told::{ToldChange, told};
pub use told_order::told_order;
