// SPDX-License-Identifier: MIT
//! Where `kit` writes: its folder, and the file of offcuts; both stand at the end, or neither does.

use super::arguments::KitArguments;
use super::inputs::Ended;
use super::offcuts::Offcuts;
use super::refusals::{refused, unwritten};
use super::watch::Terminal;
use hingeleaf::write::{Folder, Sink, WriteProblem};
use std::path::{Path, PathBuf};

/// A folder that can be written, known before any work is done.
pub(super) struct KitFolder<'a> {
    out: &'a Path,
    folder: Folder,
    offcuts: Option<Offcuts>,
}

impl<'a> KitFolder<'a> {
    /// # Errors
    /// The folder or the file is there already, or can't be made.
    pub(super) fn new(kit: &'a KitArguments) -> Result<Self, Ended> {
        let out = kit.out.as_path();
        let offcuts = kit.save_offcuts.as_deref().map(|file| Offcuts::to(file, out)).transpose()?;
        let folder = Folder::new(out, kit.replace).map_err(|problem| refused(out, problem, "kit"))?;
        Ok(Self { out, folder, offcuts })
    }

    /// Watches a search whose folder is taken away should it be stopped twice.
    pub(super) fn watch(&self) -> Terminal {
        Terminal::new(&self.folder.unfinished())
    }

    /// Fills it, and puts it in its place; gives what of the maker's own lies in it still.
    pub(super) fn fill(
        mut self,
        watch: &Terminal,
        files: impl FnOnce(&mut dyn Sink) -> Result<(), WriteProblem>,
        offcuts: impl FnOnce() -> String,
    ) -> Result<Vec<PathBuf>, Ended> {
        files(&mut self.folder).map_err(|problem| unwritten(self.out, problem))?;
        // Before the folder is released: a kit stands with its offcuts, or neither does.
        if let Some(file) = &self.offcuts {
            file.write(&offcuts(), &mut self.folder)?;
        }
        // From here on nothing may be taken away in a hurry.
        watch.released();
        self.folder.finish().map_err(|problem| {
            self.offcuts.iter().for_each(Offcuts::take_away);
            refused(self.out, problem, "kit")
        })
    }
}
