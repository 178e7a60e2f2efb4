// SPDX-License-Identifier: MIT
//! A folder that appears whole or not at all.
//!
//! Files go into a temporary folder beside the goal; the two then change places in one step, where the system
//! can do that, so that whoever looks, or kills the program, finds the old folder or the new one. Elsewhere two
//! renames do it, and the next run on the same folder puts right what was broken off between them.
//!
//! What lies in the folder and is not ours is the maker's, and is kept (`kept`).

mod kept;

use super::sink::Sink;
pub use kept::FolderContent;

use kept::{NoList, Ours, same_inode};
use std::ffi::OsString;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// A folder in the making. Dropped before [`Folder::finish`], it leaves nothing behind.
#[derive(Debug)]
pub struct Folder {
    goal: PathBuf,
    beside: Beside,
    replace: bool,
    holds: FolderContent,
    done: bool,
    parents: Parents,
    /// What was put into it, with its size in bytes.
    put: Vec<(PathBuf, u64)>,
    /// Held while the folder is made, so that two runs don't make it at once.
    _lock: File,
}

/// The paths beside the goal that a run uses.
#[derive(Debug)]
struct Beside {
    /// The folder in the making.
    new: PathBuf,
    /// The folder that was there before, while two renames take its place.
    old: PathBuf,
    lock: PathBuf,
}

/// Why a folder can't be written.
#[derive(Debug)]
pub enum FolderProblem {
    /// It exists, and was not to be replaced.
    Exists,
    /// It exists and holds something other than a kit of ours, or than a catalogue where one is written.
    NotOurs,
    /// It holds a kit of an earlier version, which does not say what of it is ours.
    Earlier,
    /// It is a file.
    IsFile,
    /// It has no name of its own: `..`, `/`.
    NoName,
    /// It is a link to nothing.
    DeadLink,
    /// Another run is writing it.
    Busy,
    /// Files of the maker's own, or changed since they were written, stand where new ones must go.
    Taken(Vec<PathBuf>),
    /// The system refused.
    System(io::Error),
}

impl FolderProblem {
    fn is_missing(&self) -> bool {
        matches!(self, Self::System(error) if error.kind() == io::ErrorKind::NotFound)
    }
}

impl From<io::Error> for FolderProblem {
    fn from(error: io::Error) -> Self {
        Self::System(error)
    }
}

impl From<NoList> for FolderProblem {
    fn from(why: NoList) -> Self {
        match why {
            NoList::NotOurs => Self::NotOurs,
            NoList::Earlier => Self::Earlier,
        }
    }
}

impl Folder {
    /// Starts on a kit's folder.
    ///
    /// # Errors
    /// [`FolderProblem`]; nothing has been changed then.
    pub fn new(goal: &Path, replace: bool) -> Result<Self, FolderProblem> {
        Self::of(goal, replace, FolderContent::Kit)
    }

    /// Starts on a folder, after putting right what an earlier run that was killed left beside it.
    ///
    /// # Errors
    /// [`FolderProblem`]; nothing has been changed then.
    pub fn of(goal: &Path, replace: bool, holds: FolderContent) -> Result<Self, FolderProblem> {
        // A link stands for the folder that it leads to.
        let goal = &match fs::symlink_metadata(goal) {
            Ok(found) if found.is_symlink() => fs::canonicalize(goal).map_err(|_| FolderProblem::DeadLink)?,
            _ => goal.to_path_buf(),
        };
        let name = goal.file_name().ok_or(FolderProblem::NoName)?;
        let parent = match goal.parent() {
            Some(parent) if !parent.as_os_str().is_empty() => parent.to_path_buf(),
            _ => PathBuf::from("."),
        };
        let beside = Beside::of(&parent, name);
        if !is_there(&beside.old) {
            may_take(goal, replace, holds)?;
        }
        let (parents, lock) = beside.begin(&parent)?;
        let started = beside.heal(goal, holds).map_err(FolderProblem::from).and_then(|()| {
            may_take(goal, replace, holds)?;
            Ok(fs::create_dir(&beside.new)?)
        });
        if let Err(problem) = started {
            let _ = fs::remove_file(&beside.lock);
            return Err(problem);
        }
        Ok(Self { goal: goal.clone(), beside, replace, holds, done: false, parents, put: Vec::new(), _lock: lock })
    }

    /// The temporary folder and the lock beside the goal, for whoever must take them away in a hurry.
    #[must_use]
    pub fn unfinished(&self) -> [PathBuf; 2] {
        [self.beside.new.clone(), self.beside.lock.clone()]
    }

    /// Puts the folder in its place. Gives what lay in it before that is not ours, and lies there still.
    ///
    /// # Errors
    /// [`FolderProblem`]; what was there before is there still.
    pub fn finish(mut self) -> Result<Vec<PathBuf>, FolderProblem> {
        self.is_whole()?;
        // It may have come into being in the meantime.
        may_take(&self.goal, self.replace, self.holds)?;
        let Beside { new, old, .. } = &self.beside;
        if !is_there(&self.goal) {
            fs::rename(new, &self.goal)?;
            self.done = true;
            return Ok(Vec::new());
        }
        let kept = self.keep()?;
        if exchange(new, &self.goal) {
            // The goal is the new folder from here on; what is left beside it is the old one.
            self.done = true;
            // The kit is in its place; what can't be taken away now, the next run takes away.
            let _ = kept::discard(new, self.holds, &self.goal);
        } else {
            fs::rename(&self.goal, old)?;
            if let Err(error) = fs::rename(new, &self.goal) {
                // Back to what was there; if even that fails, the first error says more.
                let _ = fs::rename(old, &self.goal);
                return Err(error.into());
            }
            self.done = true;
            let _ = kept::discard(old, self.holds, &self.goal);
        }
        Ok(kept)
    }

    /// Whether all that was put into it lies there still: somebody may have taken it away under us.
    fn is_whole(&self) -> io::Result<()> {
        for (path, bytes) in &self.put {
            if fs::symlink_metadata(path)?.len() != *bytes {
                return Err(io::Error::other("a file is not as it was written"));
            }
        }
        Ok(())
    }

    /// Lets what is the maker's in the folder lie in the new one as well.
    fn keep(&self) -> Result<Vec<PathBuf>, FolderProblem> {
        let ours = Ours::of(&self.goal, self.holds)?;
        let foreign = kept::foreign(&self.goal, &ours)?;
        let taken = kept::taken(&foreign, &self.beside.new);
        if !taken.is_empty() {
            return Err(FolderProblem::Taken(taken));
        }
        kept::link_all(&self.goal, &foreign, &self.beside.new)?;
        Ok(foreign)
    }
}

impl Sink for Folder {
    fn put(&mut self, name: &str, bytes: &[u8]) -> io::Result<()> {
        let path = self.beside.new.join(name);
        // The folder itself is never made again: what lay in it would be missing.
        let within = Path::new(name).parent().into_iter().flat_map(Path::ancestors);
        let mut folders: Vec<PathBuf> = within.map(|folder| self.beside.new.join(folder)).collect();
        folders.pop();
        for folder in folders.iter().rev().filter(|folder| !folder.is_dir()) {
            fs::create_dir(folder)?;
        }
        // Two files of one name would be one of them lost.
        File::create_new(&path).and_then(|mut file| file.write_all(bytes))?;
        self.put.push((path, bytes.len() as u64));
        Ok(())
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // There is nobody left to tell if the system refuses.
        if !self.done {
            let _ = fs::remove_dir_all(&self.beside.new);
        }
        let _ = fs::remove_file(&self.beside.lock);
        if self.done {
            self.parents.keep();
        }
    }
}

/// Folders made on the way to the goal; dropped, they are taken away again.
#[derive(Debug)]
struct Parents(Vec<PathBuf>);

impl Parents {
    fn make(parent: &Path) -> io::Result<Self> {
        let missing = parent.ancestors().take_while(|path| !path.as_os_str().is_empty() && !path.exists());
        let mut wanted: Vec<PathBuf> = missing.map(Path::to_path_buf).collect();
        wanted.reverse();
        let mut made = Self(Vec::new());
        for path in wanted {
            match fs::create_dir(&path) {
                Ok(()) => made.0.push(path),
                // Another run made it in the meantime.
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists && path.is_dir() => {}
                Err(error) => return Err(error),
            }
        }
        Ok(made)
    }

    fn keep(&mut self) {
        self.0.clear();
    }
}

impl Drop for Parents {
    fn drop(&mut self) {
        // One that holds something by now is somebody else's, and stays.
        for path in self.0.iter().rev() {
            let _ = fs::remove_dir(path);
        }
    }
}

impl Beside {
    fn of(parent: &Path, name: &std::ffi::OsStr) -> Self {
        let path = |ending: &str| {
            let mut file = OsString::from(".");
            file.push(name);
            file.push(ending);
            parent.join(file)
        };
        Self { new: path(".hingeleaf-new"), old: path(".hingeleaf-old"), lock: path(".hingeleaf-lock") }
    }

    /// Makes the folders on the way and holds the lock. Another run that is refused takes away the folders that it made, maybe
    /// between our two steps: then they are made again.
    fn begin(&self, parent: &Path) -> Result<(Parents, File), FolderProblem> {
        let mut missing = FolderProblem::Busy;
        for _ in 0..10 {
            let parents = Parents::make(parent)?;
            match self.lock() {
                Err(problem @ FolderProblem::System(_)) if problem.is_missing() => missing = problem,
                locked => return Ok((parents, locked?)),
            }
        }
        // Nobody is in the way: the folder is one that somebody took away under us.
        Err(missing)
    }

    /// Holds the lock, whose file is the one that stands there (and not one that another run just removed).
    fn lock(&self) -> Result<File, FolderProblem> {
        // A link under this name is none of ours, and would have us open another file.
        if fs::symlink_metadata(&self.lock).is_ok_and(|found| found.is_symlink()) {
            fs::remove_file(&self.lock)?;
        }
        for _ in 0..10 {
            let file = File::options().create(true).truncate(false).write(true).open(&self.lock)?;
            match file.try_lock() {
                Ok(()) if same_file(&file, &self.lock) => return Ok(file),
                Ok(()) => {}
                Err(fs::TryLockError::WouldBlock) => return Err(FolderProblem::Busy),
                // Where files can't be locked, two runs at once are the maker's own affair.
                Err(fs::TryLockError::Error(_)) => return Ok(file),
            }
        }
        Err(FolderProblem::Busy)
    }

    /// With the lock held, whatever stands beside the goal was left by a run that was killed.
    fn heal(&self, goal: &Path, holds: FolderContent) -> io::Result<()> {
        if is_there(&self.old) && !is_there(goal) && self.old.is_dir() {
            fs::rename(&self.old, goal)?;
        }
        kept::discard(&self.old, holds, goal)?;
        kept::discard(&self.new, holds, goal)
    }
}

/// Whether anything has this name, a link to nothing too.
fn is_there(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok()
}

/// Lets two folders change places in one step; says whether the system could.
#[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
fn exchange(one: &Path, two: &Path) -> bool {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    renameat_with(CWD, one, CWD, two, RenameFlags::EXCHANGE).is_ok()
}

#[cfg(not(any(target_os = "linux", target_os = "android", target_vendor = "apple")))]
fn exchange(_: &Path, _: &Path) -> bool {
    false
}

fn same_file(file: &File, path: &Path) -> bool {
    match (file.metadata(), fs::metadata(path)) {
        (Ok(one), Ok(two)) => cfg!(not(unix)) || same_inode(&one, &two),
        _ => false,
    }
}

/// Whether a folder may be written: it is not there, or it may be replaced and holds what we wrote before.
fn may_take(goal: &Path, replace: bool, holds: FolderContent) -> Result<(), FolderProblem> {
    match fs::metadata(goal) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
        Err(error) => Err(error.into()),
        Ok(found) if !found.is_dir() => Err(FolderProblem::IsFile),
        Ok(_) if !replace => Err(FolderProblem::Exists),
        Ok(_) => Ok(Ours::of(goal, holds).map(drop)?),
    }
}
