// SPDX-License-Identifier: MIT
//! An album's kit, entry after entry: pages, spine, papers, inserts, and the cover round all of it.

use super::bound;
use super::build::builder::Builder;
use super::kit::Kit;
use super::library::make;
use super::papers::panel;
use crate::album::{Album, Bound};
use crate::finding::Checked;

/// Works out the parts of an album.
#[must_use]
pub fn kit(album: &Album) -> Checked<Kit> {
    let mut builder = Builder::new(album);
    for (index, page) in album.pages.iter().enumerate() {
        make(&mut builder, page, index + 1);
    }
    make(&mut builder, &album.spine, 1);
    if let Some(panels) = &album.panels {
        panel::panels(&mut builder, panels);
    }
    if album
        .inserts
        .iter()
        .any(|insert| insert.values.maybe_length("width").and(insert.values.maybe_length("height")).is_none())
    {
        // What is as large as its pocket takes has to know what else will be in there.
        let mut trial = builder.clone();
        inserts(&mut trial, album);
        builder.stacks = trial.finish().value.map(|kit| kit.held()).unwrap_or_default();
    }
    inserts(&mut builder, album);
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
        Bound::Right => Checked { value: made.value.map(bound::mirrored), findings: made.findings },
    }
}

fn inserts(builder: &mut Builder<'_>, album: &Album) {
    for (index, insert) in album.inserts.iter().enumerate() {
        make(builder, insert, index + 1);
    }
}
