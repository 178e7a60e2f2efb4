// SPDX-License-Identifier: MIT
//! What is printed.

use hingeleaf::finding::Finding;
use hingeleaf::write;
use std::io::Write;

/// Prints to standard output; a reader that went away (a closed pipe) is no failure.
pub(super) fn out(text: &str) {
    let _ = std::io::stdout().lock().write_all(text.as_bytes());
}

/// Prints findings as words to standard output.
pub(super) fn lines(findings: &[Finding]) {
    for finding in findings {
        out(&format!("{finding}\n"));
    }
}

/// Prints findings: as JSON on standard output, or as words on standard error.
pub(super) fn findings(findings: &[Finding], json: bool) {
    if json {
        out(&write::findings(findings));
        return;
    }
    let mut to = std::io::stderr().lock();
    for finding in findings {
        let _ = writeln!(to, "{finding}");
    }
}
