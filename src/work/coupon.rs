// SPDX-License-Identifier: MIT
//! The folder of a test piece: its cutting files, how it is used, a file to write readings into.

use super::texts::ReaderText;
use crate::album::Language;
use crate::coupon::{Coupon, empty};
use crate::cutter::Cutter;
use crate::guide;
use crate::paper::Paper;
use crate::write::{self, Sink, WriteProblem};

/// Writes a test piece; the cutter's file, where it has one, by its name.
///
/// # Errors
/// The sink's, or a file that read back is not what was meant.
pub fn put_coupon(
    piece: &Coupon,
    (cutter, file): (&Cutter, Option<&str>),
    (language, paper): (Language, Paper),
    sink: &mut dyn Sink,
) -> Result<(), WriteProblem> {
    let file = file.map(write::for_a_shell);
    let text = guide::coupon(piece, file.as_deref(), (language, paper));
    write::svg_files(&text.title, &piece.parts, &piece.sheet, cutter, false, sink)?;
    write::dxf_files(&piece.sheet, cutter, false, sink)?;
    ReaderText::Guide.put("coupon", &text, (true, true), sink)?;
    Ok(sink.put("measured.json", empty().as_bytes())?)
}
