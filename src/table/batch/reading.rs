// SPDX-License-Identifier: MIT
//! A batch file read with the albums that lie beside it, its cutters and its drawer.

use super::beside;
use crate::batch::{self, Batch};
use crate::fields::Source;
use crate::finding::Checked;
use crate::parts;
use crate::table::beside::NamedFiles;
use crate::table::on_table::TableAlbum;

/// A batch, which of its albums are not on the table, and what it names besides.
pub(super) struct Read {
    pub batch: Checked<Batch>,
    pub missing: Vec<String>,
    pub files: NamedFiles,
}

pub(super) fn read(source: &Source, beside: &[TableAlbum]) -> Read {
    let mut missing = Vec::new();
    let mut load = |name: &str| {
        beside::album(beside, name).inspect_err(|finding| {
            if finding.id == beside::MISSING {
                missing.push(name.to_owned());
            }
        })
    };
    let mut batch = batch::read(source, &parts::kinds(), &mut load);
    let mut files = NamedFiles::default();
    if let Some(batch) = &mut batch.value {
        files.cutters(batch.kits.iter_mut().map(|kit| &mut kit.album), beside);
        files.drawer(&mut batch.drawer, beside);
    }
    Read { batch, missing, files }
}
