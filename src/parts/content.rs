// SPDX-License-Identifier: MIT
//! How thick what is on each page besides card and paper is. It counts all over the page, wherever it will lie.

use crate::album::Album;
use crate::parts::kit::{Kit, PagePrint};
use crate::parts::pages::leaf::CONTENT;

impl Kit {
    /// By page: what its entry says of it; else the print that it is made for, unless an insert lies in that one's place, mm.
    #[must_use]
    pub fn contents(&self, album: &Album) -> Vec<f64> {
        let taken =
            |print: &PagePrint| print.pocket.is_some_and(|one| self.inserts.iter().any(|put| put.pocket == Some(one)));
        let mut prints = vec![0.0; album.pages.len()];
        for print in self.prints.iter().filter(|print| !taken(print)) {
            if let Some(of_page) = print.page.checked_sub(1).and_then(|page| prints.get_mut(page)) {
                *of_page += print.thickness;
            }
        }
        let said = album.pages.iter().map(|page| page.values.length_of(CONTENT.name()));
        said.zip(prints).map(|(said, print)| said.map_or(print, |content| content.mm())).collect()
    }
}
