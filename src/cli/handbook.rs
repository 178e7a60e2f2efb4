// SPDX-License-Identifier: MIT
//! The maker's handbook into a new folder.

use super::arguments::Arguments;
use super::commands::counted;
use super::end::ExitStatus;
use super::inputs::{Ended, exists, system};
use super::program_arguments::Handbook;
use super::refusals::refused;
use super::say;
use clap::{Command, CommandFactory as _};
use hingeleaf::album::Language;
use hingeleaf::write::{self, Folder, FolderContent, FolderProblem, HandbookCommand};

pub(super) fn handbook(wanted: &Handbook) -> ExitStatus {
    match put(wanted) {
        Ok(_) if wanted.json => say::findings(&[], &[], true, ExitStatus::Done),
        Ok(chapters) => {
            let (chapters, out) = (counted(chapters as u64, "chapter"), say::name(&wanted.out));
            say::out(&format!("Wrote {chapters} into {out}. Open its index.html in a browser.\n"), ExitStatus::Done)
        }
        Err(ended) => ended.say(wanted.json),
    }
}

fn put(wanted: &Handbook) -> Result<usize, Ended> {
    let out = &wanted.out;
    let refused = |problem| match problem {
        FolderProblem::Exists | FolderProblem::NotOurs => exists(out),
        other => refused(out, other, "catalogue"),
    };
    let mut folder = Folder::of(out, false, FolderContent::Catalogue).map_err(refused)?;
    let chapters = write::handbook(wanted.language.unwrap_or(Language::English), &commands(), &mut folder)
        .map_err(|error| Ended::new(system("can-not-write", out, &error), ExitStatus::MachineFailed))?;
    folder.finish().map_err(refused)?;
    Ok(chapters)
}

/// Every command as it is typed.
fn commands() -> Vec<HandbookCommand> {
    let mut program = Arguments::command().disable_help_subcommand(true);
    program.build();
    let commands: Vec<Command> = program.get_subcommands().filter(|command| !command.is_hide_set()).cloned().collect();
    commands.into_iter().map(command).collect()
}

fn command(mut command: Command) -> HandbookCommand {
    let usage = command.render_usage().to_string();
    let options = command.get_arguments().filter(|option| !option.is_hide_set() && option.get_id() != "help");
    let option = |option: &clap::Arg| {
        let values: Vec<String> =
            option.get_value_names().unwrap_or_default().iter().map(ToString::to_string).collect();
        let takes = option.get_action().takes_values() && option.get_long().is_some();
        let value = if takes { format!(" {}", values.join(" ")) } else { String::new() };
        let typed = option.get_long().map_or_else(|| values.join(" "), |long| format!("--{long}{value}"));
        (typed, option.get_help().map(ToString::to_string).unwrap_or_default())
    };
    let after = command.get_after_help().map(ToString::to_string).unwrap_or_default();
    let examples = after.lines().map(str::trim).filter(|line| line.starts_with("hingeleaf ")).map(str::to_owned);
    HandbookCommand {
        name: command.get_name().to_owned(),
        about: command.get_about().map(ToString::to_string).unwrap_or_default(),
        usage: usage.trim_start_matches("Usage: ").to_owned(),
        options: options.map(option).collect(),
        examples: examples.collect(),
    }
}
