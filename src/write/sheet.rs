// SPDX-License-Identifier: MIT
//! The cutting files of a sheet: whole or one a layer, each read back before it goes out.

use super::layers::{layer_name, layers_of};
use super::proof;
use super::sink::Sink;
use super::{dxf, svg};
use crate::cutter::Cutter;
use crate::parts::Part;
use crate::toolpath::{Layer, SheetPaths};
use std::fmt;
use std::io;

/// Why a file could not be written.
#[derive(Debug)]
pub enum WriteProblem {
    /// The system refused.
    System(io::Error),
    /// What came back from a file is not what was meant: a fault of ours, and nothing is released.
    Differs {
        /// The file.
        file: String,
        /// In what.
        what: String,
    },
}

impl From<io::Error> for WriteProblem {
    fn from(error: io::Error) -> Self {
        Self::System(error)
    }
}

impl fmt::Display for WriteProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::System(error) => error.fmt(f),
            Self::Differs { file, what } => write!(f, "{file} is not what was meant: {what}"),
        }
    }
}

impl std::error::Error for WriteProblem {}

/// Writes a sheet as SVG.
///
/// # Errors
/// The sink's, or that the file read back differs.
pub fn svg_files(
    title: &str,
    parts: &[Part],
    sheet: &SheetPaths,
    cutter: &Cutter,
    split: bool,
    sink: &mut dyn Sink,
) -> Result<(), WriteProblem> {
    let write = |sheet: &SheetPaths| svg(title, parts, sheet, cutter);
    let prove = |text: &str, sheet: &SheetPaths| proof::svg(text, parts, sheet, cutter);
    files(sheet, ("svg", cutter, split), write, prove, sink)
}

/// Writes a sheet as DXF.
///
/// # Errors
/// The sink's, or that the file read back differs.
pub fn dxf_files(sheet: &SheetPaths, cutter: &Cutter, split: bool, sink: &mut dyn Sink) -> Result<(), WriteProblem> {
    let prove = |text: &str, sheet: &SheetPaths| proof::dxf(text, sheet, cutter);
    files(sheet, ("dxf", cutter, split), |sheet| dxf(sheet, cutter), prove, sink)
}

/// What the cutting files of a sheet are called, without their endings: one name, or one a layer where the cutter wants that.
#[must_use]
pub fn sheet_names(sheet: &SheetPaths, cutter: &Cutter) -> Vec<String> {
    if cutter.forms.split_layers {
        layers_of(sheet, cutter).map(|layer| split_name(sheet, layer)).collect()
    } else {
        vec![sheet.name.clone()]
    }
}

fn files(
    sheet: &SheetPaths,
    (ending, cutter, split): (&str, &Cutter, bool),
    write: impl Fn(&SheetPaths) -> String,
    prove: impl Fn(&str, &SheetPaths) -> Result<(), String>,
    sink: &mut dyn Sink,
) -> Result<(), WriteProblem> {
    let mut one = |file: String, sheet: &SheetPaths| {
        let text = write(sheet);
        prove(&text, sheet).map_err(|what| WriteProblem::Differs { file: file.clone(), what })?;
        sink.put(&file, text.as_bytes()).map_err(WriteProblem::System)
    };
    if !split && !cutter.forms.split_layers {
        return one(format!("sheets/{}.{ending}", sheet.name), sheet);
    }
    for layer in layers_of(sheet, cutter) {
        let strokes = sheet.strokes.iter().filter(|stroke| Some(stroke.layer) == layer).cloned().collect();
        let register = if layer.is_none() { sheet.register.clone() } else { Vec::new() };
        let alone = SheetPaths { register, strokes, ..sheet.clone() };
        one(format!("sheets/{}.{ending}", split_name(sheet, layer)), &alone)?;
    }
    Ok(())
}

/// What the file of one layer of a sheet is called, without its ending.
fn split_name(sheet: &SheetPaths, layer: Option<Layer>) -> String {
    format!("{}.{}", sheet.name, layer_name(layer))
}
