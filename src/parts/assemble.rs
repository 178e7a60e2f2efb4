// SPDX-License-Identifier: MIT
//! An album's kit, entry after entry: pages, spine, papers, inserts, and the cover round all of it.

use super::bound_right;
use super::build::builder::Builder;
use super::covers;
use super::edges;
use super::inserts::insert::is_sized;
use super::kinds::{how, make, maker};
use super::kit::Kit;
use super::papers::panel;
use super::spines::carry::Carry;
use super::thickness::page_thickness;
use crate::album::{Album, Bound};
use crate::cutter::Cutter;
use crate::finding::Checked;

/// Works out the parts of an album for a machine: what it leaves of a sheet says what has to be joined.
#[must_use]
pub fn kit(album: &Album, cutter: &Cutter) -> Checked<Kit> {
    let mut builder = Builder::new(album, cutter);
    for (index, page) in album.pages.iter().enumerate() {
        make(&mut builder, page, index + 1);
    }
    builder.carry = Carry::of(album, cutter);
    make(&mut builder, &album.spine, 1);
    if let Some(panels) = &album.panels {
        panel::panels(&mut builder, panels);
    }
    if !album.inserts.iter().all(is_sized) {
        // What is as large as its pocket takes has to know what else will be in there.
        let mut trial = builder.clone();
        inserts(&mut trial, album);
        builder.stacks = trial.finish().value.map(|kit| kit.held()).unwrap_or_default();
    }
    inserts(&mut builder, album);
    builder.kit_mut().foot = covers::around::widest(&builder)[1];
    // Last, for it goes round all of it.
    if let Some(cover) = &album.cover {
        make(&mut builder, cover, 1);
        if let Some(panels) = &album.panels {
            panel::panels(&mut builder, panels);
        }
    }
    let made = builder.finish();
    match album.bound {
        Bound::Left | Bound::Top => made,
        Bound::Right => Checked { value: made.value.map(bound_right::mirrored), findings: made.findings },
    }
}

/// What may be cut of each page and of each insert, in the file's order: its free edges, and the pieces that have free corners.
#[must_use]
pub fn free_edges(album: &Album, cutter: &Cutter) -> [Vec<Vec<String>>; 2] {
    let mut builder = Builder::new(album, cutter);
    [&album.pages, &album.inserts].map(|entries| {
        let mut all = Vec::new();
        for (index, entry) in entries.iter().enumerate() {
            all.push(how(entry).map(|how| edges::free(&builder, how, entry, index + 1)).unwrap_or_default());
            make(&mut builder, entry, index + 1);
        }
        all
    })
}

impl Carry {
    /// How an album's spine carries its pages; a strip that no sheet of the machine takes whole is made in pieces, which lie on
    /// each other.
    #[must_use]
    pub fn of(album: &Album, cutter: &Cutter) -> Self {
        let carry = maker(&album.spine).and_then(|maker| maker.carry);
        carry.map(|carry| carry(album, cutter, &|| page_thickness(album, cutter))).unwrap_or_default()
    }
}

fn inserts(builder: &mut Builder<'_>, album: &Album) {
    for (index, insert) in album.inserts.iter().enumerate() {
        make(builder, insert, index + 1);
    }
}
