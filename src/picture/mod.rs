// SPDX-License-Identifier: MIT
//! Pictures for people: styled shapes, lines and words.
//!
//! In: finished values of the stages before. Out: a [`Picture`] in millimetres, y up. Never: a file format.
//!
//! Cut is a solid line, valley a dash line, mountain a dash-dot line, both ways a dash-dot-dot line
//! (Yoshizawa 1954; Randlett, *The Art of Origami*, 1961), so that a picture is complete in black and white.

mod album;
mod folding;
mod kind;
mod label;
mod likeness;
mod mark;
mod opened;
mod page;
mod part;
mod plate;
mod printed;
mod register;
mod section;
mod seen;
mod sheet;
mod sized;
mod space;
mod stuff;
mod upward;
mod words;

pub use crate::raster::Tint;
pub use album::{Pose, album, sliding};
pub use folding::Folding;
pub use kind::kind;
pub(crate) use label::{clear_of, measures, room};
pub use likeness::printed_front;
pub use mark::{BOARD, CARD, CARD_BACK, CUT, Fill, INK, Mark, PAPER, PAPER_BACK, PAPER_LINE, Pen, Picture};
pub(crate) use mark::{BOARD_EDGE, FAINT, GLUE_LINE, LABEL};
pub use opened::opened;
pub use page::{PagePose, PageView, page};
pub use part::{PartWords, part, part_within, part_worded};
pub use printed::PrintedPage;
pub use register::register_mark;
pub use section::section;
pub use sheet::{SheetWords, sheet, sheet_worded};
pub use sized::{SizeLine, SizedRoom, sized};
pub use space::Scene;
pub(crate) use stuff::stuff_of_piece;
pub use stuff::{Matter, Stuff, stuff, stuff_of, swatch};
pub use words::{measure, set, words_box, wrapped};
