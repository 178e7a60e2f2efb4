// SPDX-License-Identifier: MIT
//! A sheet as DXF: three layers, closed contours as polylines with bulges, plain ASCII, CR LF.
//!
//! Source of every group code: the published DXF Reference, HEADER, TABLES, BLOCKS, ENTITIES, OBJECTS.

mod entities;
mod objects;
mod spline;
mod tables;
mod tags;

use self::tags::DxfFile;
use crate::cutter::{Curves, Cutter};
use crate::toolpath::{SheetPaths, in_lines};
use std::borrow::Cow;

/// The versions that can be written, with the code that the file carries.
pub const DXF_BUILT: &[(&str, &str)] = &[
    ("R12", "AC1009"),
    ("R2000", "AC1015"),
    ("R2004", "AC1018"),
    ("R2007", "AC1021"),
    ("R2010", "AC1024"),
    ("R2013", "AC1027"),
    ("R2018", "AC1032"),
];

/// The strokes as the version can have them: R12 knows no cubic curves, and gets short lines for them.
pub(super) fn known<'a>(sheet: &'a SheetPaths, cutter: &Cutter) -> Cow<'a, SheetPaths> {
    if cutter.dxf_version == "R12" && cutter.manner.curves == Curves::Cubics {
        Cow::Owned(in_lines(sheet, &cutter.manner))
    } else {
        Cow::Borrowed(sheet)
    }
}

/// One sheet as a DXF file, in millimetres, y up.
#[must_use]
pub fn dxf(sheet: &SheetPaths, cutter: &Cutter) -> String {
    let sheet = known(sheet, cutter).into_owned();
    let sheet = &sheet;
    let (name, code) = DXF_BUILT.iter().copied().find(|(name, _)| *name == cutter.dxf_version).unwrap_or(DXF_BUILT[1]);
    let mut file = DxfFile {
        body: String::with_capacity(4096 + sheet.strokes.len() * 300),
        old: name == "R12",
        true_colour: name != "R2000",
        next: 1,
        space: 0,
        forms: cutter.forms,
        colours: cutter.colours.clone(),
        cubics: cutter.manner.curves == Curves::Cubics,
    };
    file.tables(cutter, !sheet.register.is_empty());
    file.blocks();
    file.entities(sheet);
    if !file.old {
        file.objects();
    }
    let mut whole = DxfFile { body: String::new(), ..file };
    whole.header(code, sheet);
    whole.body + &file.body + "0\r\nEOF\r\n"
}
