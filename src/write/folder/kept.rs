// SPDX-License-Identifier: MIT
//! The maker's own files in a folder of ours: told from those that we wrote, and kept when it is replaced.
//!
//! A folder's report lists every file that was written into it, with a digest. Whatever else lies there is the maker's: a file
//! that no list names, and one of ours that was changed since. It is linked into the new folder before the two change
//! places, so that at no moment it is in neither; what came into the old folder meanwhile is moved over before that goes.

use super::Holds;
use serde_json::Value;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::ffi::OsStr;
use std::fs::{self, Metadata};
use std::io;
use std::path::{Path, PathBuf};

/// The files that a folder's report says we wrote, by their path in it; with a digest, where the report has them.
#[derive(Debug, Default)]
pub(super) struct Ours(BTreeMap<PathBuf, Option<String>>);

/// A file's digest, as a report has it: SHA-256 in small hexadecimal digits.
pub(crate) fn digest(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

impl Ours {
    /// The list of a folder; none where it holds nothing of ours.
    pub(super) fn of(folder: &Path, holds: Holds) -> Option<Self> {
        let (mark, format) = holds.mark();
        let report: Value = serde_json::from_slice(&fs::read(folder.join(mark)).ok()?).ok()?;
        if report.get("format").and_then(Value::as_str) != Some(format) {
            return None;
        }
        let mut ours = BTreeMap::from([(PathBuf::from(mark), None)]);
        match report.get("files").and_then(Value::as_array) {
            Some(files) => ours.extend(files.iter().filter_map(|file| {
                let digest = file.get("sha256")?.as_str()?;
                Some((PathBuf::from(file.get("name")?.as_str()?), Some(digest.to_owned())))
            })),
            // Reports of 0.1.0 have no list: what they are sure to stand for.
            None => ours.extend(unlisted(&report, holds).into_iter().map(|name| (PathBuf::from(name), None))),
        }
        Some(Self(ours))
    }

    /// Whether we wrote what stands at a path in the folder.
    fn wrote(&self, folder: &Path, path: &Path) -> bool {
        match self.0.get(path) {
            None => false,
            Some(None) => true,
            Some(Some(wanted)) => fs::read(folder.join(path)).is_ok_and(|bytes| digest(&bytes) == *wanted),
        }
    }

    /// Whether a folder within is one that we made to hold our files.
    fn holds_ours(&self, path: &Path) -> bool {
        self.0.keys().any(|ours| ours.starts_with(path))
    }
}

fn unlisted(report: &Value, holds: Holds) -> Vec<String> {
    let texts = |list: &str, field: &str| -> Vec<String> {
        let rows = report.get(list).and_then(Value::as_array).into_iter().flatten();
        rows.filter_map(|row| row.get(field)?.as_str().map(str::to_owned)).collect()
    };
    match holds {
        Holds::Kit => {
            let mut names: Vec<String> = ["cutting-list.csv", "guide.html", "kit-card.html"].map(String::from).into();
            for sheet in texts("sheets", "name") {
                names.push(format!("sheets/{sheet}.png"));
                for layer in ["", ".cut", ".score", ".draw"] {
                    names.extend(["svg", "dxf"].map(|ending| format!("sheets/{sheet}{layer}.{ending}")));
                }
            }
            names
        }
        Holds::Catalogue => {
            texts("parts", "kind").iter().flat_map(|kind| [format!("{kind}.svg"), format!("{kind}.png")]).collect()
        }
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
pub(super) fn discard(folder: &Path, holds: Holds, goal: &Path) -> io::Result<()> {
    match fs::symlink_metadata(folder) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(()),
        // Nothing of ours is a link or a file under this name.
        Ok(found) if !found.is_dir() => return fs::remove_file(folder),
        _ => {}
    }
    // A folder without a report was broken off in the making, and holds the maker's files by a second name only.
    if let Some(ours) = Ours::of(folder, holds) {
        for path in foreign(folder, &ours)? {
            rescue(&folder.join(&path), &goal.join(&path))?;
        }
    }
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
    if super::same_inode(found, there) {
        return true;
    }
    found.is_file()
        && found.len() == there.len()
        && matches!((fs::read(one), fs::read(other)), (Ok(one), Ok(other)) if one == other)
}
