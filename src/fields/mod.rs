// SPDX-License-Identifier: MIT
//! Reading a JSON file field by field.
//!
//! In: a file's text and the [`Field`]s that an object may have. Out: [`Values`], each with its place in
//! the file, and findings for *every* problem, not only the first. Never: knows what an album is.
//!
//! One table of fields serves reading, the suggestions for misspelt names, and the catalogue. [`edit`] changes single
//! lengths in a text, [`alter`] single values and entries; both leave the rest as it is.

mod alter;
mod choice;
mod edit;
mod fault;
mod field;
mod format;
mod graft;
mod held;
mod key;
mod reader;
mod schema;
mod sentences;
mod source;
mod steers;
mod tree;
mod value;
mod value_reader;
mod values;

pub use alter::{Change, alter};
pub(crate) use choice::words;
pub use edit::{EditProblem, edit, paste};
pub use field::{Fallback, Field, Takes, nearest};
pub use format::{of_kind, raised};
pub use graft::{Grafted, NoSuchPlace};
pub use held::{Amount, AmountOrText, Choices, CountOrWord, Counts, Held, Nested, Text, Texts, Word};
pub use key::{Key, Of, Otherwise, needed, number, rule, usual};
pub use reader::Reader;
pub use schema::{file_schema, object_schema};
pub(crate) use sentences::join;
pub use sentences::meant_or;
pub use source::Source;
pub use steers::steers;
pub use tree::{Node, Tree};
pub use value::Value;
pub use values::Values;
