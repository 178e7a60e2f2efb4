// SPDX-License-Identifier: MIT
//! Where `kit --save-offcuts` writes: a file beside the kit, or one within its folder.

use super::end::ExitStatus;
use super::inputs::{Ended, exists, put, system};
use super::say;
use hingeleaf::finding::{Arg, Finding, Said};
use hingeleaf::write::{Folder, Sink};
use std::fs;
use std::io;
use std::path::{Component, Path, PathBuf};

/// A file that is not there yet, and can be.
#[derive(Debug)]
pub(super) enum Offcuts {
    /// A file of its own.
    Beside(PathBuf),
    /// A file in the kit's folder, by its name in it.
    Within(String),
}

impl Offcuts {
    /// # Errors
    /// It is there already, or the folder that it should lie in is not.
    pub(super) fn to(file: &Path, out: &Path) -> Result<Self, Ended> {
        if fs::symlink_metadata(file).is_ok() {
            return Err(exists(file));
        }
        if let Some(name) = within(file, out) {
            return Ok(Self::Within(name));
        }
        let folder = file.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
        if folder.is_dir() {
            return Ok(Self::Beside(file.to_path_buf()));
        }
        let text = Said::new("offcuts-no-folder").with("folder", Arg::code(say::name(folder)));
        let finding = Finding::stop("file", Said::NOTHING, text).help(Said::new("offcuts-no-folder-help"));
        Err(Ended::new(finding, ExitStatus::WrongInput))
    }

    pub(super) fn write(&self, text: &str, folder: &mut Folder) -> Result<(), Ended> {
        match self {
            Self::Beside(file) => put(file, text),
            Self::Within(name) => folder.put(name, text.as_bytes()).map_err(|error| match error.kind() {
                io::ErrorKind::AlreadyExists => {
                    let text = Said::new("offcuts-over-kit").with("file", Arg::code(name));
                    let finding = Finding::stop("exists", Said::NOTHING, text);
                    Ended::new(finding.help(Said::new("offcuts-over-kit-help")), ExitStatus::WrongInput)
                }
                _ => Ended::new(system("can-not-write", Path::new(name), &error), ExitStatus::MachineFailed),
            }),
        }
    }

    /// Takes it away again, where the kit could not be put in its place.
    pub(super) fn take_away(&self) {
        if let Self::Beside(file) = self {
            let _ = fs::remove_file(file);
        }
    }
}

/// The name of a file within a folder that need not be there yet; none where it lies elsewhere.
pub(super) fn within(file: &Path, out: &Path) -> Option<String> {
    let absolute = |path: &Path| std::path::absolute(path).ok();
    let (file, out) = (absolute(file)?, absolute(out)?);
    let rest = file.strip_prefix(&out).ok()?;
    let plain = rest.components().all(|part| matches!(part, Component::Normal(_)));
    (plain && rest.components().count() > 0).then(|| rest.to_string_lossy().into_owned())
}
