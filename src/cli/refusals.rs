// SPDX-License-Identifier: MIT
//! Why nothing was written: what stands in the way of a folder, what could not be put into it.

use super::end::ExitStatus;
use super::inputs::{Ended, system};
use super::say;
use hingeleaf::finding::{Arg, Finding, Said};
use hingeleaf::write::{FolderProblem, WriteProblem};
use std::path::Path;

/// Why a file of a folder could not be written.
pub(super) fn unwritten(out: &Path, problem: WriteProblem) -> Ended {
    let finding = match problem {
        WriteProblem::System(error) => system("can-not-write", out, &error),
        WriteProblem::Differs { .. } => {
            let text = Said::new("proof-differs").with("problem", problem.to_string());
            Finding::stop("proof", Said::NOTHING, text).help(Said::new("proof-differs-help"))
        }
    };
    Ended::new(finding, ExitStatus::MachineFailed)
}

/// Why a folder is not written to; `what` is what it would hold.
pub(super) fn refused(out: &Path, problem: FolderProblem, what: &str) -> Ended {
    let (text, help, names) = match problem {
        FolderProblem::System(error) => {
            return Ended::new(system("can-not-write", out, &error), ExitStatus::MachineFailed);
        }
        FolderProblem::Exists => ("is-there-already", "folder-exists-help", Vec::new()),
        FolderProblem::NotOurs => ("folder-of-something-else", "give-another-folder", Vec::new()),
        FolderProblem::Earlier => ("folder-of-earlier-version", "folder-of-earlier-version-help", Vec::new()),
        FolderProblem::IsFile => ("folder-is-file", "give-another-name", Vec::new()),
        FolderProblem::DeadLink => ("folder-is-dead-link", "folder-is-dead-link-help", Vec::new()),
        FolderProblem::NoName => ("folder-without-name", "folder-without-name-help", Vec::new()),
        FolderProblem::Busy => ("folder-busy", "folder-busy-help", Vec::new()),
        FolderProblem::Taken(paths) => ("folder-taken", "folder-taken-help", paths),
    };
    let names = names.iter().map(|path| Arg::code(say::name(path))).collect();
    let says = |key| Said::new(key).with("what", Arg::term(what)).with("name", Arg::code(say::name(out)));
    let text = says(text).with("files", Arg::Row(names));
    Ended::new(Finding::stop("folder", Said::NOTHING, text).help(says(help)), ExitStatus::WrongInput)
}
