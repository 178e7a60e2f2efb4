// SPDX-License-Identifier: MIT
//! What several commands take: the machine and its sheets, how hard to look, where to write names.

use super::values::length;
use clap::{Args, ValueEnum};
use hingeleaf::cutter::{DXF_VERSIONS, SVG_UNITS};
use hingeleaf::length::Length;
use std::path::PathBuf;

#[derive(ValueEnum, Clone, Copy, Debug)]
pub(super) enum LabelsArgument {
    /// On seams, tabs and faces that are glued over
    Hidden,
    /// On every part, where they show too
    Everywhere,
    /// Nowhere
    None,
}

#[derive(ValueEnum, Clone, Copy, Debug)]
pub(super) enum EffortArgument {
    Low,
    Normal,
    High,
}

/// What belongs to the machine and its sheets. Each wins over the cutter file; a bare number is in mm.
#[derive(Args, Debug)]
#[command(next_help_heading = "The machine and its sheets (a bare number is in mm)")]
pub(super) struct MachineArguments {
    /// A cutter file; the options below win over it
    #[arg(long, value_name = "FILE")]
    pub cutter: Option<PathBuf>,
    /// Another sheet for every stock (A3), or for one (card=A3); may be given several times
    #[arg(long, value_name = "[STOCK=]SHEET")]
    pub sheet: Vec<String>,
    /// Width of material that the tool removes
    #[arg(long, value_parser = length, allow_hyphen_values = true)]
    pub kerf: Option<Length>,
    /// Border of the sheet that can't be used
    #[arg(long, value_parser = length, allow_hyphen_values = true)]
    pub margin: Option<Length>,
    /// Least distance between the tool's paths
    #[arg(long, value_parser = length, allow_hyphen_values = true)]
    pub gap: Option<Length>,
    /// The largest sheet that goes in: 300x300mm
    #[arg(long, value_name = "SIZE")]
    pub bed: Option<String>,
    /// How scores are made: line, or the cut and the tie of a perforation (2,1)
    #[arg(long, value_name = "line|CUT,TIE")]
    pub score: Option<String>,
    /// Colours of the layers: cut=#000000,score=#E69F00,draw=#CC79A7
    #[arg(long, value_delimiter = ',', value_name = "LAYER=#RRGGBB")]
    pub colours: Vec<String>,
    /// The unit of SVG files
    #[arg(long, value_parser = clap::builder::PossibleValuesParser::new(SVG_UNITS), ignore_case = true)]
    pub svg_units: Option<String>,
    /// The version of DXF files
    #[arg(long, value_parser = clap::builder::PossibleValuesParser::new(DXF_VERSIONS), ignore_case = true)]
    pub dxf_version: Option<String>,
    /// Whether neighbours share one cut; they do where kerf, gap and overrun are 0
    #[arg(long, num_args = 0..=1, default_missing_value = "true", require_equals = true)]
    pub shared_cuts: Option<bool>,
}
