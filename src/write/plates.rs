// SPDX-License-Identifier: MIT
//! The catalogue's plates: a picture of each kind as SVG and PNG, and the catalogue itself beside them.

use super::catalogue::{FILE, listed};
use super::drawing::drawing;
use super::sink::{Listed, Sink};
use crate::parts;
use crate::picture;
use std::io;

/// Writes the plates of all kinds, each named after its kind.
///
/// # Errors
/// The sink's, or that a plate could not be drawn.
pub fn plates(sink: &mut dyn Sink) -> io::Result<()> {
    let mut sink = Listed::new(sink);
    for maker in parts::ALL.iter() {
        let name = maker.kind.name;
        let missing = || io::Error::other(format!("the plate of {name} could not be drawn"));
        let picture = picture::kind(maker).ok_or_else(missing)?;
        sink.put(&format!("{name}.svg"), drawing(&picture).as_bytes())?;
        #[cfg(feature = "png")]
        sink.put(&format!("{name}.png"), &super::png(&picture).ok_or_else(missing)?)?;
    }
    sink.finish(FILE, |files| listed(&parts::kinds(), files))
}
