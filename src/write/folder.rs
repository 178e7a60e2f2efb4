// SPDX-License-Identifier: MIT
//! A folder that appears whole or not at all.

use super::report::FORMAT;
use super::sink::Sink;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// A folder in the making: files go into a temporary folder beside it, and [`Folder::finish`] puts that in
/// its place. Dropped before, it leaves nothing behind.
#[derive(Debug)]
pub struct Folder {
    goal: PathBuf,
    made: PathBuf,
    done: bool,
}

/// Why a folder can't be written.
#[derive(Debug)]
pub enum FolderProblem {
    /// It exists, and was not to be replaced.
    Exists,
    /// It exists and holds something other than a kit of ours.
    NotOurs,
    /// It is a file.
    IsFile,
    /// The system refused.
    System(io::Error),
}

impl From<io::Error> for FolderProblem {
    fn from(error: io::Error) -> Self {
        Self::System(error)
    }
}

impl Folder {
    /// Starts on a folder.
    ///
    /// # Errors
    /// [`FolderProblem`]; nothing has been changed then.
    pub fn new(goal: &Path, replace: bool) -> Result<Self, FolderProblem> {
        may_take(goal, replace)?;
        let parent = match goal.parent() {
            Some(parent) if !parent.as_os_str().is_empty() => parent.to_path_buf(),
            _ => PathBuf::from("."),
        };
        fs::create_dir_all(&parent)?;
        let name = goal.file_name().map_or_else(|| "kit".into(), |name| name.to_string_lossy().into_owned());
        let made = parent.join(format!(".{name}.new-{}", std::process::id()));
        fs::create_dir(&made)?;
        Ok(Self { goal: goal.to_path_buf(), made, done: false })
    }

    /// Puts the folder in its place.
    ///
    /// # Errors
    /// [`FolderProblem`]; what was there before is there still.
    pub fn finish(mut self, replace: bool) -> Result<(), FolderProblem> {
        // It may have come into being in the meantime.
        may_take(&self.goal, replace)?;
        if self.goal.exists() {
            let old = self.made.with_extension(format!("old-{}", std::process::id()));
            fs::rename(&self.goal, &old)?;
            if let Err(error) = fs::rename(&self.made, &self.goal) {
                // Back to what was there; if even that fails, the first error says more.
                let _ = fs::rename(&old, &self.goal);
                return Err(error.into());
            }
            self.done = true;
            fs::remove_dir_all(&old)?;
        } else {
            fs::rename(&self.made, &self.goal)?;
            self.done = true;
        }
        Ok(())
    }
}

impl Sink for Folder {
    fn put(&mut self, name: &str, bytes: &[u8]) -> io::Result<()> {
        let path = self.made.join(name);
        if let Some(parent) = path.parent() {
            fs::create_dir_all(parent)?;
        }
        fs::write(path, bytes)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        if !self.done {
            // Nothing half-written stays; there is nobody left to tell if the system refuses.
            let _ = fs::remove_dir_all(&self.made);
        }
    }
}

/// Whether a folder may be written: it is not there, or it may be replaced and holds a report of ours.
fn may_take(goal: &Path, replace: bool) -> Result<(), FolderProblem> {
    match fs::metadata(goal) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
        Err(error) => Err(error.into()),
        Ok(found) if !found.is_dir() => Err(FolderProblem::IsFile),
        Ok(_) if !replace => Err(FolderProblem::Exists),
        Ok(_) => {
            let report = fs::read(goal.join("report.json"))
                .ok()
                .and_then(|bytes| serde_json::from_slice::<serde_json::Value>(&bytes).ok());
            let ours =
                report.is_some_and(|report| report.get("format").and_then(serde_json::Value::as_str) == Some(FORMAT));
            if ours { Ok(()) } else { Err(FolderProblem::NotOurs) }
        }
    }
}
