// SPDX-License-Identifier: MIT
//! The command line: parses arguments, calls the library, prints, sets the exit code.

mod cli;

use std::process::ExitCode;

fn main() -> ExitCode {
    cli::run(std::env::args_os())
}
