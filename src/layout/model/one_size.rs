// SPDX-License-Identifier: MIT
//! Bin packing on one size of sheet, of which there are as many as needed: what bounds and exact searches work on.

/// No more kinds than this fit into the bits of [`OneSizeProblem::share`].
pub(crate) const MOST_KINDS: usize = 128;

/// Boxes that are alike.
#[derive(Clone, Debug)]
pub(crate) struct BoxType {
    /// Width and height in every orientation allowed; one or two of them.
    pub(crate) orientations: Vec<(i64, i64)>,
    pub(crate) count: u64,
}

impl BoxType {
    /// The same, so much wider and higher.
    pub(crate) fn grown(&self, by: i64) -> Self {
        let grown = |&(width, height): &(i64, i64)| (width + by, height + by);
        Self { orientations: self.orientations.iter().map(grown).collect(), count: self.count }
    }
}

/// Boxes on one size of sheet.
#[derive(Clone, Debug)]
pub(crate) struct OneSizeProblem {
    pub(crate) width: i64,
    pub(crate) height: i64,
    pub(crate) boxes: Vec<BoxType>,
    /// By kind: the kinds that one box of it can share a sheet with, its own among them.
    pub(crate) share: Vec<u128>,
}
