// SPDX-License-Identifier: MIT
//! Where `kit` writes: its folder, the file of offcuts, the drawer; all stand at the end, or none does.

use super::arguments::KitArguments;
use super::drawer::{DrawerFile, DrawerUpdate};
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
    drawer: Option<DrawerUpdate>,
}

impl<'a> KitFolder<'a> {
    /// # Errors
    /// The folder or the file is there already, or can't be made.
    pub(super) fn new(kit: &'a KitArguments, drawer: Option<DrawerFile>) -> Result<Self, Ended> {
        let out = kit.out.as_path();
        let offcuts = kit.save_offcuts.as_deref().map(|file| Offcuts::to(file, out)).transpose()?;
        let folder = Folder::new(out, kit.replace).map_err(|problem| refused(out, problem, "kit"))?;
        let drawer = drawer.filter(|_| kit.update_drawer).map(|drawer| drawer.update(out)).transpose()?;
        Ok(Self { out, folder, offcuts, drawer })
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
        (offcuts, drawer): (impl FnOnce() -> String, impl FnOnce() -> String),
    ) -> Result<Vec<PathBuf>, Ended> {
        files(&mut self.folder).map_err(|problem| unwritten(self.out, problem))?;
        // Before the folder is released: a kit stands with its offcuts, or neither does.
        if let Some(file) = &self.offcuts {
            file.write(&offcuts(), &mut self.folder)?;
        }
        if let Some(update) = &self.drawer {
            update.write(&drawer())?;
        }
        // From here on nothing may be taken away in a hurry.
        watch.released();
        let kept = self.folder.finish().map_err(|problem| {
            self.offcuts.iter().for_each(Offcuts::take_away);
            refused(self.out, problem, "kit")
        })?;
        self.drawer.map_or(Ok(()), DrawerUpdate::finish)?;
        Ok(kept)
    }
}
