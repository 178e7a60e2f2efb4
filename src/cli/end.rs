// SPDX-License-Identifier: MIT
//! How a command ended.

/// How a command ended. The numbers are the exit codes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum ExitStatus {
    /// Done, warnings and notes too.
    Done = 0,
    /// The album does not go together or does not fit its sheets.
    DoesNotFit = 1,
    /// The input or the arguments are wrong.
    WrongInput = 2,
    /// The machine failed us.
    MachineFailed = 3,
}
