// SPDX-License-Identifier: MIT
//! What each thing on the pages is, in the order of reading: what a screen reader goes by.

/// What something is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum StructureRole {
    /// A section with its heading.
    Section,
    /// A heading of a level, and what it says.
    Heading(u16, String),
    /// A paragraph.
    Words,
    /// Things one after the other, numbered or not.
    List {
        /// Whether they are numbered.
        numbered: bool,
    },
    /// One thing of a list.
    Item,
    /// Its number or dash.
    Label,
    /// What it says.
    Body,
    /// What to mind.
    Caution,
    /// A table.
    Table,
    /// What it holds.
    Caption,
    /// Its heads.
    Head,
    /// Its rows.
    Rows,
    /// A row.
    Row,
    /// The head of a column.
    ColumnHead,
    /// The head of a row.
    RowHead,
    /// A cell.
    Cell,
    /// A picture, and what it shows in words.
    Figure(String),
}

/// A thing, and what it belongs to.
#[derive(Clone, Debug)]
pub struct StructureNode {
    /// What it is.
    pub role: StructureRole,
    /// The number of what it is a part of; none is the whole.
    pub of: Option<usize>,
}

/// All things of a guide; a part stands after its whole.
#[derive(Clone, Debug, Default)]
pub struct StructureTree(pub Vec<StructureNode>);

impl StructureTree {
    pub(super) fn add(&mut self, of: Option<usize>, role: StructureRole) -> usize {
        self.0.push(StructureNode { role, of });
        self.0.len() - 1
    }
}
