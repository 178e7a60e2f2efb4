// SPDX-License-Identifier: MIT
//! How a PDF is made: to PDF/UA-1 where it can be, without that promise where a letter has no shape in the bundled font.

use krilla::configure::{Accessibility, Configuration, ConfigurationBuilder};
use krilla::{Document, SerializeSettings};
use std::io;

/// The file, made to PDF/UA-1; made again without it where it does not keep to it.
pub(in crate::write) fn sound(make: impl Fn(Configuration) -> io::Result<Vec<u8>>) -> io::Result<Vec<u8>> {
    let strict = ConfigurationBuilder::new().with_accessibility_validator(Accessibility::UA1);
    let strict = strict.finish().map_err(|error| failed(&format!("{error:?}")))?;
    make(strict).or_else(|_| make(Configuration::default()))
}

/// An empty document.
pub(in crate::write) fn made(configuration: Configuration) -> Document {
    Document::new_with(SerializeSettings { configuration, ..SerializeSettings::default() })
}

pub(in crate::write) fn failed(why: &str) -> io::Error {
    io::Error::other(format!("the PDF can't be made: {why}"))
}
