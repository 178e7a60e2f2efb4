// SPDX-License-Identifier: MIT
//! The files of a kit.
//!
//! In: finished values of the stages before. Out: named files, one at a time, into a [`Sink`]. Never: decides
//! anything; a writer reads a value and puts it into a form.

mod catalogue;
mod compared;
mod compared_order;
mod cost;
mod csv;
mod digest;
mod drawing;
mod dxf;
mod findings;
mod folder;
#[cfg(any(feature = "png", feature = "pdf"))]
mod font;
mod frame;
mod guide;
mod handbook;
#[cfg(any(feature = "pdf", feature = "png"))]
mod hatch;
mod layers;
mod measures;
mod number;
#[cfg(feature = "pdf")]
pub mod pages;
#[cfg(feature = "pdf")]
mod pdf;
mod pictured;
mod plates;
#[cfg(feature = "png")]
mod png;
mod proof;
mod report;
mod ribbon;
#[cfg(feature = "png")]
mod shade;
mod sheet;
mod shell;
mod sink;
mod sizes;
mod svg;
mod zip;

pub use catalogue::{catalogue, catalogue_json};
pub use compared_order::{compare_schema, compared, compared_order};
pub use cost::cost;
pub use csv::cutting_list;
pub use drawing::{cutout, drawing, linked};
pub use dxf::{DXF_BUILT, dxf};
pub use findings::{checked, findings, mended};
pub use folder::{Folder, FolderContent, FolderProblem};
pub use guide::{GUIDE_HASHES, GUIDE_SCRIPT, GUIDE_STYLE, guide, kit_card, teaching_sheet};
pub use handbook::{HandbookCommand, handbook};
#[cfg(feature = "pdf")]
pub use pages::guide_pdf;
#[cfg(feature = "pdf")]
pub use pdf::pdf;
pub use pictured::picture_address;
pub(crate) use pictured::{base64, from_base64};
pub use plates::plates;
#[cfg(feature = "png")]
pub use png::{png, pngs};
pub use report::{Reported, report, report_schema};
pub use sheet::{WriteProblem, dxf_files, sheet_names, svg_files};
pub use shell::for_a_shell;
pub use sink::{Listed, Memory, Sink};
pub use sizes::sizes;
pub use svg::svg;
pub use zip::zip;

use crate::parts::Part;

/// What a part is called in files: the id of the part, whatever its number.
pub(crate) fn part_id(parts: &[Part], number: usize) -> &str {
    parts.get(number).map_or("", |part| part.id.as_str())
}
