// SPDX-License-Identifier: MIT
//! Where files go, one at a time.

use std::collections::BTreeMap;
use std::io;

/// Takes files.
pub trait Sink {
    /// Takes one file; `name` is its path within the kit, with `/`.
    ///
    /// # Errors
    /// The system's, when the file cannot be written.
    fn put(&mut self, name: &str, bytes: &[u8]) -> io::Result<()>;
}

/// Keeps files in memory, by name.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Memory {
    /// The files.
    pub files: BTreeMap<String, Vec<u8>>,
}

impl Sink for Memory {
    fn put(&mut self, name: &str, bytes: &[u8]) -> io::Result<()> {
        self.files.insert(name.to_owned(), bytes.to_vec());
        Ok(())
    }
}
