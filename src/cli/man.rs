// SPDX-License-Identifier: MIT
//! The manual's pages: one for the program, one for each command.

use super::arguments::Arguments;
use super::end::ExitStatus;
use super::inputs::{Ended, exists, system};
use super::program_arguments::Manual;
use super::refusals::refused;
use super::say;
use clap::{Command, CommandFactory as _};
use clap_mangen::Man;
use hingeleaf::write::{Folder, FolderContent, FolderProblem, Sink as _};
use std::io;
use std::path::Path;

/// When the commands last changed. A fixed day: the pages are the same bytes whenever they are made.
const DATE: &str = "2026-11-29";

pub(super) fn man(wanted: &Manual) -> ExitStatus {
    match put(wanted) {
        Ok(_) if wanted.json && wanted.out.is_some() => say::findings(&[], &[], true, ExitStatus::Done),
        Ok(said) => say::out(&said, ExitStatus::Done),
        Err(ended) => ended.say(wanted.json),
    }
}

fn put(wanted: &Manual) -> Result<String, Ended> {
    let unwritten =
        |error: io::Error, to: &Path| Ended::new(system("can-not-write", to, &error), ExitStatus::MachineFailed);
    let pages = pages().map_err(|error| unwritten(error, Path::new("hingeleaf.1")))?;
    let Some(out) = &wanted.out else {
        return Ok(pages.into_iter().next().map(|(_, text)| text).unwrap_or_default());
    };
    let refused = |problem| match problem {
        FolderProblem::Exists | FolderProblem::NotOurs => exists(out),
        other => refused(out, other, "catalogue"),
    };
    let mut folder = Folder::of(out, false, FolderContent::Catalogue).map_err(refused)?;
    for (name, text) in &pages {
        folder.put(name, text.as_bytes()).map_err(|error| unwritten(error, out))?;
    }
    folder.finish().map_err(refused)?;
    Ok(format!("Wrote {} pages into {}.\n", pages.len(), say::name(out)))
}

/// Every page with its file's name, the program's own first.
fn pages() -> io::Result<Vec<(String, String)>> {
    let mut program = Arguments::command().disable_help_subcommand(true);
    // Gives each command its name as it is typed.
    program.build();
    let commands = program.get_subcommands().filter(|command| !command.is_hide_set()).cloned();
    let commands = commands.collect::<Vec<_>>();
    std::iter::once(program).chain(commands).map(page).collect()
}

fn page(command: Command) -> io::Result<(String, String)> {
    let page =
        Man::new(command).date(DATE).source(concat!("hingeleaf ", env!("CARGO_PKG_VERSION"))).manual("Hingeleaf");
    let mut text = Vec::new();
    page.render(&mut text)?;
    Ok((page.get_filename(), String::from_utf8_lossy(&text).into_owned()))
}
