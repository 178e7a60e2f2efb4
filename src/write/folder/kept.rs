// SPDX-License-Identifier: MIT
//! The maker's own files in a folder of ours: told from those that we wrote, and kept when it is replaced.
//!
//! A folder's report lists every file that was written into it, with a digest. Whatever else lies there is the maker's: a file
//! that no list names, and one of ours that was changed since. It is linked into the new folder before the two change
//! places, so that at no moment it is in neither; what came into the old folder meanwhile is moved over before that goes.

use crate::write::catalogue::{FILE as CATALOGUE_FILE, FORMAT as CATALOGUE_FORMAT};
use crate::write::digest::{digest, is_sealed};
use crate::write::report::FORMAT;
use serde_json::Value;
use std::collections::BTreeMap;
use std::ffi::OsStr;
use std::fs::{self, Metadata};
use std::io;
use std::path::{Path, PathBuf};

/// What a folder of ours holds: it is known by one file in it, which says its own format.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FolderContent {
    /// A kit, by its report.
    Kit,
    /// Sheets that are cut again, by their report, which says that it is of no whole kit.
    Recut,
    /// The catalogue's plates, by their list.
    Catalogue,
}

impl FolderContent {
    pub(super) const fn mark(self) -> (&'static str, &'static str) {
        match self {
            Self::Kit | Self::Recut => ("report.json", FORMAT),
            Self::Catalogue => (CATALOGUE_FILE, CATALOGUE_FORMAT),
        }
    }
}

/// The files that a folder's report says we wrote, by their path in it, with their digests.
#[derive(Debug)]
pub(super) struct Ours {
    /// The report itself.
    mark: &'static str,
    files: BTreeMap<PathBuf, String>,
}

/// Why nothing says what of a folder is ours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NoList {
    /// It holds nothing of ours.
    NotOurs,
    /// Its report lists no files: an earlier version's.
    Earlier,
}

impl Ours {
    /// The list of a folder.
    ///
    /// # Errors
    /// [`NoList`]: it holds nothing of ours, or nothing says what.
    pub(super) fn of(folder: &Path, holds: FolderContent) -> Result<Self, NoList> {
        let (mark, format) = holds.mark();
        let text = fs::read_to_string(folder.join(mark)).map_err(|_| NoList::NotOurs)?;
        let report: Value = serde_json::from_str(&text).map_err(|_| NoList::NotOurs)?;
        let of_recut = report.get("recut").and_then(Value::as_bool) == Some(true);
        if report.get("format").and_then(Value::as_str) != Some(format) || of_recut != (holds == FolderContent::Recut) {
            return Err(NoList::NotOurs);
        }
        let files = report.get("files").and_then(Value::as_array).ok_or(NoList::Earlier)?;
        let file = |file: &Value| {
            let digest = file.get("sha256")?.as_str()?;
            Some((PathBuf::from(file.get("name")?.as_str()?), digest.to_owned()))
        };
        Ok(Self { mark, files: files.iter().filter_map(file).collect() })
    }

    /// Whether we wrote what stands at a path in the folder.
    fn wrote(&self, folder: &Path, path: &Path) -> bool {
        let Some(wanted) = self.files.get(path) else { return false };
        fs::read(folder.join(path)).is_ok_and(|bytes| {
            if path == Path::new(self.mark) { is_sealed(&bytes, wanted) } else { digest(&bytes) == *wanted }
        })
    }

    /// Whether a folder within is one that we made to hold our files.
    fn holds_ours(&self, path: &Path) -> bool {
        self.files.keys().any(|ours| ours.starts_with(path))
    }
}

/// Everything in a folder that is not ours, by its path in it: files and links, and folders that hold nothing of ours, whole.
pub(super) fn foreign(folder: &Path, ours: &Ours) -> io::Result<Vec<PathBuf>> {
    fn walk(root: &Path, within: &Path, ours: &Ours, found: &mut Vec<PathBuf>) -> io::Result<()> {
        for entry in fs::read_dir(root.join(within))? {
            let entry = entry?;
            let path = within.join(entry.file_name());
            if entry.file_type()?.is_dir() {
                if ours.holds_ours(&path) {
                    walk(root, &path, ours, found)?;
                } else {
                    found.push(path);
                }
            } else if !ours.wrote(root, &path) {
                found.push(path);
            }
        }
        Ok(())
    }
    let mut found = Vec::new();
    walk(folder, Path::new(""), ours, &mut found)?;
    found.sort();
    Ok(found)
}

/// Those of some paths at which something else stands in another folder.
pub(super) fn taken(paths: &[PathBuf], folder: &Path) -> Vec<PathBuf> {
    paths.iter().filter(|path| fs::symlink_metadata(folder.join(path)).is_ok()).cloned().collect()
}

/// Lets what stands in one folder stand in another as well: the same file under two names where the system can do that,
/// else a copy.
pub(super) fn link_all(from: &Path, paths: &[PathBuf], to: &Path) -> io::Result<()> {
    paths.iter().try_for_each(|path| link(&from.join(path), &to.join(path)))
}

fn link(from: &Path, to: &Path) -> io::Result<()> {
    let found = fs::symlink_metadata(from)?;
    if let Some(parent) = to.parent() {
        fs::create_dir_all(parent)?;
    }
    if found.is_dir() {
        fs::create_dir(to)?;
        for entry in fs::read_dir(from)? {
            let name = entry?.file_name();
            link(&from.join(&name), &to.join(&name))?;
        }
        return fs::set_permissions(to, found.permissions());
    }
    if fs::hard_link(from, to).is_ok() {
        return Ok(());
    }
    #[cfg(unix)]
    if found.is_symlink() {
        return std::os::unix::fs::symlink(fs::read_link(from)?, to);
    }
    if !found.is_file() {
        return Err(io::Error::other(format!("{} is neither a file nor a folder", from.display())));
    }
    fs::copy(from, to)?;
    if let Ok(changed) = found.modified() {
        // The time is a courtesy.
        let _ = fs::File::options().write(true).open(to).and_then(|file| file.set_modified(changed));
    }
    Ok(())
}

/// Takes away a folder of ours that is no longer wanted; what is the maker's in it and not in `goal` goes there first. Gives
/// the names that it got where its own was taken.
pub(super) fn discard(folder: &Path, holds: FolderContent, goal: &Path) -> io::Result<()> {
    match fs::symlink_metadata(folder) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(()),
        // Nothing of ours is a link or a file under this name.
        Ok(found) if !found.is_dir() => return fs::remove_file(folder),
        _ => {}
    }
    // A folder without a report was broken off in the making, and holds the maker's files by a second name only.
    if let Ok(ours) = Ours::of(folder, holds) {
        for path in foreign(folder, &ours)? {
            rescue(&folder.join(&path), &goal.join(&path))?;
        }
    }
    remove(folder).or_else(|_| {
        // What is somebody else's can't be emptied, but it can stand aside: nobody waits for it.
        let aside = (1..u32::MAX).map(|number| {
            let name = format!("{}-{number}", folder.file_name().unwrap_or_default().to_string_lossy());
            folder.with_file_name(name)
        });
        let free = aside.into_iter().find(|path| fs::symlink_metadata(path).is_err());
        free.map_or(Ok(()), |free| fs::rename(folder, free))
    })
}

/// Takes a folder away; folders in it that nobody may write to are opened first.
fn remove(folder: &Path) -> io::Result<()> {
    #[cfg(unix)]
    fn open(folder: &Path) -> io::Result<()> {
        use std::os::unix::fs::PermissionsExt;
        let mut rights = fs::metadata(folder)?.permissions();
        if rights.mode() & 0o700 != 0o700 {
            rights.set_mode(rights.mode() | 0o700);
            fs::set_permissions(folder, rights)?;
        }
        for entry in fs::read_dir(folder)? {
            let entry = entry?;
            if entry.file_type()?.is_dir() {
                open(&entry.path())?;
            }
        }
        Ok(())
    }
    #[cfg(unix)]
    let _ = open(folder);
    fs::remove_dir_all(folder)
}

/// Moves something to where it should stand, unless it stands there already; under another name where that one is taken.
fn rescue(from: &Path, to: &Path) -> io::Result<()> {
    let found = fs::symlink_metadata(from)?;
    let there = fs::symlink_metadata(to).ok();
    match there {
        Some(there) if found.is_dir() && there.is_dir() => {
            for entry in fs::read_dir(from)? {
                let name = entry?.file_name();
                rescue(&from.join(&name), &to.join(&name))?;
            }
            Ok(())
        }
        Some(there) if is_same(from, &found, to, &there) => Ok(()),
        there => {
            if let Some(parent) = to.parent() {
                fs::create_dir_all(parent)?;
            }
            let to = if there.is_some() { beside(to) } else { to.to_path_buf() };
            fs::rename(from, to)
        }
    }
}

/// A free name like `list (kept 1).csv`.
fn beside(path: &Path) -> PathBuf {
    let stem = path.file_stem().unwrap_or(OsStr::new("file")).to_string_lossy().into_owned();
    let ending = path.extension().map(|ending| format!(".{}", ending.to_string_lossy())).unwrap_or_default();
    let name = |number: u32| path.with_file_name(format!("{stem} (kept {number}){ending}"));
    (1..u32::MAX).map(name).find(|path| fs::symlink_metadata(path).is_err()).unwrap_or_else(|| name(u32::MAX))
}

fn is_same(one: &Path, found: &Metadata, other: &Path, there: &Metadata) -> bool {
    if found.file_type() != there.file_type() {
        return false;
    }
    if found.is_symlink() {
        return fs::read_link(one).ok() == fs::read_link(other).ok();
    }
    if same_inode(found, there) {
        return true;
    }
    found.is_file()
        && found.len() == there.len()
        && matches!((fs::read(one), fs::read(other)), (Ok(one), Ok(other)) if one == other)
}

/// Whether two names stand for one file.
#[cfg(unix)]
pub(super) fn same_inode(one: &Metadata, two: &Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    (one.dev(), one.ino()) == (two.dev(), two.ino())
}

#[cfg(not(unix))]
pub(super) fn same_inode(_: &Metadata, _: &Metadata) -> bool {
    false
}
