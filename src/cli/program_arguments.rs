// SPDX-License-Identifier: MIT
//! What may be typed behind the commands that speak of the program itself: its files' fields, its manual, its shells.

use super::values::language;
use clap::{Args, ValueEnum};
use hingeleaf::album::Language;
use std::path::PathBuf;

#[derive(Args, Debug)]
pub(super) struct Completions {
    /// The shell
    #[arg(value_enum)]
    pub shell: clap_complete::Shell,
}

#[derive(Args, Debug)]
pub(super) struct Manual {
    /// The new folder to write, a page a command
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Problems as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Args, Debug)]
pub(super) struct Handbook {
    /// The new folder to write; begin with its index.html
    #[arg(long, value_name = "DIR")]
    pub out: PathBuf,
    /// The language, where there are texts in it: en, de
    #[arg(long, value_name = "LANGUAGE", value_parser = language)]
    pub language: Option<Language>,
    /// Problems as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Args, Debug)]
pub(super) struct Schema {
    /// The kind of file
    #[arg(value_enum)]
    pub what: SchemaOf,
}

#[derive(ValueEnum, Clone, Copy, Debug)]
pub(super) enum SchemaOf {
    Album,
    Batch,
    Cutter,
    Drawer,
    Kind,
    Measured,
    Report,
    Compare,
}
