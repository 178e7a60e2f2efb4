// SPDX-License-Identifier: MIT
//! What `coupon` is asked.

use super::values::{language, paper};
use clap::Args;
use hingeleaf::album::Language;
use hingeleaf::paper::Paper;
use std::path::PathBuf;

#[derive(Args, Debug)]
pub(super) struct CouponArguments {
    /// The folder to write the test piece into; it must not be there yet
    #[arg(long, value_name = "DIR", conflicts_with_all = ["measured", "save"])]
    pub out: Option<PathBuf>,
    /// The cutter file that the piece is made with; what is measured goes into a copy of it
    #[arg(long, value_name = "FILE")]
    pub cutter: Option<PathBuf>,
    /// The sheet that the piece is cut from
    #[arg(long, default_value = "A4")]
    pub sheet: String,
    /// The language of the instructions: en or de
    #[arg(long, value_parser = language)]
    pub language: Option<Language>,
    /// What the instructions are printed on
    #[arg(long, value_parser = paper)]
    pub paper: Option<Paper>,
    /// What was read off the piece
    #[arg(long, value_name = "FILE", requires = "save")]
    pub measured: Option<PathBuf>,
    /// The cutter file to write; one that is there already is left alone
    #[arg(long, value_name = "FILE", requires = "measured")]
    pub save: Option<PathBuf>,
    /// Problems as JSON
    #[arg(long)]
    pub json: bool,
}
