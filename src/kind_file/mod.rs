// SPDX-License-Identifier: MIT
//! Kinds of one's own: what a kind file says.
//!
//! In: a kind file's text. Out: a [`KindFile`] in which every name means something and every formula comes to what is wanted
//! there, or all that is wrong with it, each at its line and column. Never: knows an album; makes a part.
//!
//! ```
//! use hingeleaf::{fields::Source, kind_file};
//!
//! let text = r#"{ "format": "hingeleaf-kind/1", "name": "ticket", "is": "insert", "about": "a card with a stub",
//!   "sizes": { "stub": { "about": "height of the stub", "usual": "height / 4 + 2" } },
//!   "pieces": { "ticket": { "row": "up", "width": "width", "panels": [
//!     { "name": "stub", "height": "stub" }, { "name": "card", "height": "height - stub", "fold": "both", "angle": 0 } ] } } }"#;
//! let read = kind_file::read(&Source::new("ticket.json", text.into()).unwrap());
//! // A length and a number do not add.
//! let place = read.findings[0].place.as_ref().unwrap();
//! assert_eq!((place.line, place.column), (2, 76));
//! ```

mod draw;
mod drawn;
mod formula;
mod kind_words;
mod known_shapes;
mod model;
mod parse;
mod read;
mod read_drawn;
mod read_holes;
mod read_pieces;
mod read_ties;
mod reading;
mod schema;
mod scope;
mod symbol;
mod tables;
mod token;

pub use drawn::{DrawnForm, KindDrawing, scaled};
pub use formula::{Condition, Formula, Quantity};
pub use kind_words::{CornersWord, EdgeWord, FaceWord, Fills, FoldWay, PanelUse, PocketSide, RowWay};
pub use model::{
    BUILT_IN, HoleForm, KindCorner, KindFile, KindFlap, KindHole, KindJoin, KindMark, KindNeed, KindNotch, KindPanel,
    KindPaper, KindPiece, KindPocket, KindSize, MarkForm, PanelAt, SizeTakes, Usual,
};
pub use read::{is_kind_file, read, read_at};
pub use schema::schema;
pub use scope::{Scope, SizeValue};
pub use symbol::Symbol;
pub use tables::FORMAT;
