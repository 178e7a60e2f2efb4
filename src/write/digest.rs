// SPDX-License-Identifier: MIT
//! Digests (SHA-256) of the files of a folder, by which a later run knows them again.

use sha2::{Digest, Sha256};
use std::fmt::Write;

/// What stands for a report's own digest while that is taken.
pub(in crate::write) const UNSEALED: &str = "0000000000000000000000000000000000000000000000000000000000000000";

/// A report with its own digest in it, in the place of [`UNSEALED`].
pub(in crate::write) fn sealed(report: &str) -> String {
    report.replacen(UNSEALED, &digest(report.as_bytes()), 1)
}

/// Whether a report still holds what it held when it was sealed.
pub(in crate::write) fn is_sealed(report: &[u8], seal: &str) -> bool {
    std::str::from_utf8(report).is_ok_and(|text| digest(text.replacen(seal, UNSEALED, 1).as_bytes()) == seal)
}

/// A file's digest, as a report has it: SHA-256 in small hexadecimal digits.
pub(in crate::write) fn digest(bytes: &[u8]) -> String {
    let mut hex = String::with_capacity(64);
    for byte in Sha256::digest(bytes) {
        let _ = write!(hex, "{byte:02x}");
    }
    hex
}
