// SPDX-License-Identifier: MIT
//! A batch file read with the albums that lie beside it, their kinds, its cutters, its drawer, its drawings.

use super::beside::{MISSING, album};
use crate::batch::{self, Batch};
use crate::fields::Source;
use crate::finding::Checked;
use crate::parts;
use crate::table::beside::NamedFiles;
use crate::table::drawn;
use crate::table::likeness;
use crate::table::on_table::TableFile;
use crate::table::question::Question;

/// A batch, which of its albums are not on the table, and what it names besides.
pub(in crate::table) struct BatchRead {
    pub batch: Checked<Batch>,
    pub missing: Vec<String>,
    pub files: NamedFiles,
}

impl BatchRead {
    pub(in crate::table) fn of(source: &Source, question: &Question) -> Self {
        let mut read = Self::without_drawings(source, &question.files);
        if let Some(batch) = &mut read.batch.value {
            read.files.drawn = drawn::of_batch(batch, &question.name, (&question.files, &question.drawings));
            let told = likeness::of_batch(batch, &question.name, (&question.files, &question.drawings));
            read.files.say(told);
        }
        read
    }

    /// The same where it does not matter what is drawn.
    pub(super) fn without_drawings(source: &Source, beside: &[TableFile]) -> Self {
        let mut missing = Vec::new();
        let mut load = |name: &str| {
            album(beside, name).inspect_err(|finding| {
                if finding.id == MISSING {
                    missing.push(name.to_owned());
                }
            })
        };
        let mut files = NamedFiles::default();
        let mut kinds = |name: &str| files.kind_file(name, (beside, &[]));
        let mut batch = batch::read_with(source, &parts::kinds(), &mut load, &mut kinds);
        if let Some(batch) = &mut batch.value {
            files.cutters(batch.kits.iter_mut().map(|kit| &mut kit.album), beside);
            files.drawer(&mut batch.drawer, beside);
        }
        Self { batch, missing, files }
    }
}
