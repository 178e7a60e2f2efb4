// SPDX-License-Identifier: MIT
//! Where files go, one at a time.

use super::folder::{UNSEALED, digest, sealed};
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

/// Hands files on, and remembers each with its digest for the report.
pub struct Listed<'a> {
    sink: &'a mut dyn Sink,
    files: BTreeMap<String, String>,
}

impl<'a> Listed<'a> {
    /// Nothing yet.
    pub fn new(sink: &'a mut dyn Sink) -> Self {
        Self { sink, files: BTreeMap::new() }
    }

    /// Hands on the last file, which lists all of them and itself: their names, and their SHA-256 in small hexadecimal digits.
    /// Its own digest is that of its text with as many noughts in the place of the digest.
    ///
    /// # Errors
    /// The sink's.
    pub fn finish(mut self, name: &str, text: impl FnOnce(&BTreeMap<String, String>) -> String) -> io::Result<()> {
        self.files.insert(name.to_owned(), UNSEALED.to_owned());
        self.sink.put(name, sealed(&text(&self.files)).as_bytes())
    }
}

impl Sink for Listed<'_> {
    fn put(&mut self, name: &str, bytes: &[u8]) -> io::Result<()> {
        self.sink.put(name, bytes)?;
        self.files.insert(name.to_owned(), digest(bytes));
        Ok(())
    }
}
