// SPDX-License-Identifier: MIT
//! The folder of a test piece: its cutting files, how it is used, a file to write readings into.

use super::texts::ReaderText;
use crate::album::Language;
use crate::coupon::{Coupon, empty};
use crate::cutter::Cutter;
use crate::guide;
use crate::paper::Paper;
use crate::write::{self, Sink, WriteProblem};

/// Writes a test piece.
///
/// # Errors
/// The sink's, or a file that read back is not what was meant.
pub fn put_coupon(
    piece: &Coupon,
    cutter: &Cutter,
    (language, paper): (Language, Paper),
    sink: &mut dyn Sink,
) -> Result<(), WriteProblem> {
    let text = guide::coupon(piece, language, paper);
    write::svg_files(&text.title, &piece.parts, &piece.sheet, cutter, false, sink)?;
    write::dxf_files(&piece.sheet, cutter, false, sink)?;
    ReaderText::Guide.put("coupon", &text, (true, true), sink)?;
    Ok(sink.put("measured.json", empty().as_bytes())?)
}
