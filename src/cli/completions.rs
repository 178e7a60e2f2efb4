// SPDX-License-Identifier: MIT
//! What a shell needs to complete what is typed.

use super::arguments::Arguments;
use super::end::ExitStatus;
use super::program_arguments::Completions;
use super::say;
use clap::CommandFactory as _;

pub(super) fn completions(wanted: &Completions) -> ExitStatus {
    let mut script = Vec::new();
    clap_complete::generate(wanted.shell, &mut Arguments::command(), "hingeleaf", &mut script);
    say::out(&String::from_utf8_lossy(&script), ExitStatus::Done)
}
