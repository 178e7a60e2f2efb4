// SPDX-License-Identifier: MIT
//! Files in one zip.

use super::Memory;
use std::io::{self, Cursor, Write};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

/// These files as one zip in which they stand in the order of their names. The same files give the same bytes: every date
/// is the first that a zip can hold, 1980-01-01.
///
/// # Errors
/// A name that a zip can't hold.
pub fn zip(files: &Memory) -> io::Result<Vec<u8>> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644);
    for (name, bytes) in &files.files {
        zip.start_file(name.as_str(), options)?;
        zip.write_all(bytes)?;
    }
    Ok(zip.finish()?.into_inner())
}
