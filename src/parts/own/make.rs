// SPDX-License-Identifier: MIT
//! Makes one of a kind that stands in a file.

use super::{insert, page};
use crate::album::{Entry, Role};
use crate::parts::build::builder::Builder;

/// Makes one of a kind that stands in a file.
pub(in crate::parts) fn make(builder: &mut Builder<'_>, entry: &Entry, number: usize) {
    match (entry.kind.file, entry.kind.role) {
        (Some(file), Role::Page) => page::make(builder, file, entry, number),
        (Some(file), Role::Insert) => insert::make(builder, file, entry, number),
        _ => {}
    }
}
