// SPDX-License-Identifier: MIT
//! The library of parts: from an album to its flat parts and how they are joined.
//!
//! In: a checked [`Album`](crate::album::Album), the cutter. Out: a [`Kit`]: each distinct part once, every piece of the album, and the
//! bonds that join them. Never: lays out a sheet, judges whether it goes together.
//!
//! `kit` says what parts are, `kinds` which kinds there are; `build` is what a kind states its pieces with. One file of
//! `pages`, `spines`, `covers`, `inserts` holds one kind; its doc comment draws it and says where its sizes come from.

mod assemble;
mod bond;
mod bound_right;
mod build;
mod covers;
mod edges;
mod example;
mod hidden;
mod inserts;
mod kinds;
mod kit;
mod maker;
mod name;
mod own;
mod page_print;
mod pages;
mod papers;
mod pocket;
pub mod prints;
mod read_album;
mod spines;
mod thickness;
mod twin;

pub use assemble::{free_edges, kit};
pub use bond::{Bond, Face, Hold, Side};
pub use build::builder::Builder;
pub use build::new_piece::NewPiece;
pub(crate) use example::{EXAMPLE, about, read_about};
pub use example::{example, example_album};
pub use hidden::Hidden;
pub use inserts::insert::is_sized;
pub(crate) use kinds::usual_size;
pub use kinds::{ALL, kinds, maker_of_kind, source_of};
pub use kit::{
    BlockPart, Closing, CutFrom, Deed, Flap, Holds, Insert, Kit, Owner, PagePrint, Part, PatternBlock, Piece,
    PieceForm, Purpose, Resized, Round, Spare, Tucked,
};
pub use maker::{CarryOf, Maker};
pub use name::PieceName;
pub use own::{KindFiles, KindsRead, kinds_of, no_kind_files, shelved};
pub use pages::leaf::CONTENT;
pub(crate) use pages::leaf::DEPTH;
pub use pocket::{Pocket, PocketEnd, Way};
pub use read_album::read_album;
pub use spines::carry::{Carry, Stuck};
pub use spines::fields::TAB;
pub(crate) use spines::fields::{GUSSET, LEAD_IN, PITCH, ROOT, WING};
pub use spines::stubs::stubs_for;
pub use thickness::page_thickness;
