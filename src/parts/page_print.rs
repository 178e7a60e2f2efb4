// SPDX-License-Identifier: MIT
//! The print that a page is made for, where its entry says nothing of what is on it.

use crate::contour::Contour;
use crate::parts::kit::{Kit, PagePrint};

impl PagePrint {
    /// Its outline on the root of the piece that holds it.
    #[must_use]
    pub fn outline(&self, kit: &Kit) -> Option<Contour> {
        let root = kit.pieces.get(self.piece)?.net.panels.first()?.outline.bounds().center();
        let (width, height) = self.size;
        Some(Contour::rectangle(root.x - width / 2.0, root.y - height / 2.0, width, height))
    }
}

impl Kit {
    /// The prints on a page (from 1): what an insert lies instead of is not there.
    pub fn prints_on(&self, page: usize) -> impl Iterator<Item = &PagePrint> {
        let taken =
            |print: &PagePrint| print.pocket.is_some_and(|one| self.inserts.iter().any(|put| put.pocket == Some(one)));
        self.prints.iter().filter(move |print| print.page == page && !taken(print))
    }
}
