// SPDX-License-Identifier: MIT
//! The commands. In: arguments. Out: printed words, files, an exit code. Never: a rule about albums.

mod album_inputs;
mod arguments;
mod batch;
mod catalogue;
mod check;
mod choice;
mod commands;
mod compare;
mod compare_again;
mod completions;
mod cost;
mod coupon;
mod coupon_arguments;
mod drawer;
mod drawings;
mod end;
mod hand_over;
mod handbook;
mod inputs;
mod kind;
mod kind_files;
mod kit_folder;
mod machine_arguments;
mod man;
mod offcuts;
mod own_cutters;
mod pictures;
mod program_arguments;
mod refusals;
mod say;
mod sizes;
mod table;
mod values;
mod watch;
mod wrong_arguments;

use arguments::{Arguments, Command};
use clap::Parser;
use end::ExitStatus;
use hingeleaf::finding::Said;
use std::ffi::OsString;
use std::process::ExitCode;

pub(crate) fn run(words: impl Iterator<Item = OsString>) -> ExitCode {
    let words: Vec<OsString> = words.collect();
    if words.len() < 2 {
        return ExitCode::from(alone() as u8);
    }
    let json = words.iter().any(|word| word == "--json");
    let end = match Arguments::try_parse_from(&words) {
        Ok(arguments) => match arguments.command {
            Command::New(new) => commands::new(&new),
            Command::Check(check) if kind::is_kind(&check.file) => kind::check(&check),
            Command::Check(check) if batch::is_batch(&check.file) => batch::check(&check),
            Command::Check(check) => check::check(&check),
            Command::Kit(kit) if batch::is_batch(&kit.file) => batch::kit(&kit),
            Command::Kit(kit) => commands::kit(&kit),
            Command::Compare(wanted) => compare::compare(&wanted),
            Command::Sizes(wanted) => sizes::sizes(&wanted),
            Command::Catalogue(catalogue) => catalogue::catalogue(&catalogue),
            Command::Coupon(wanted) => coupon::coupon(&wanted),
            Command::Table(wanted) => table::table(&wanted),
            Command::Schema(schema) => commands::schema(&schema),
            Command::Licences => commands::licences(),
            Command::Completions(wanted) => completions::completions(&wanted),
            Command::Man(wanted) => man::man(&wanted),
            Command::Handbook(wanted) => handbook::handbook(&wanted),
        },
        // A program that asked for JSON gets it for wrong arguments too.
        Err(error) if error.use_stderr() => {
            say::findings(&[wrong_arguments::wrong_arguments(&error)], &[], json, ExitStatus::WrongInput)
        }
        Err(error) => say::out(&error.render().to_string(), ExitStatus::Done),
    };
    ExitCode::from(end as u8)
}

/// The program's name alone.
fn alone() -> ExitStatus {
    if table::has_terminal() {
        return say::out(&format!("{}\n", Said::new("first-steps")), ExitStatus::Done);
    }
    // Started from a desktop: nobody could read help or type a command.
    table::table(&arguments::TableArguments { file: None, port: None, no_browser: false })
}
