// SPDX-License-Identifier: MIT
//! What several commands take: the machine and its sheets, how hard to look, where to write names.

use clap::{Args, ValueEnum};
use hingeleaf::album::Language;
use hingeleaf::cutter::{DXF_VERSIONS, SVG_UNITS};
use hingeleaf::length::{Allow, Length, Units};
use hingeleaf::paper::Paper;
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
    /// Whether neighbours share one cut
    #[arg(long, num_args = 0..=1, default_missing_value = "true", require_equals = true)]
    pub shared_cuts: Option<bool>,
}

/// A length; a bare fraction is sure to be meant in inches, where a bare number is in mm.
pub(super) fn length(text: &str) -> Result<Length, String> {
    let bare = !text.contains(|c: char| c.is_alphabetic() || matches!(c, '"' | '″'));
    if bare && text.contains(|c: char| matches!(c, '/' | '⁄') || (!c.is_ascii() && c.is_numeric())) {
        return Err(format!(
            "a bare number is in mm here, and \"{text}\" looks like inches: write {text}in or {text}mm"
        ));
    }
    Length::parse(text, Units::Mm, Allow::Plain).map_err(|error| error.to_string())
}

/// A language of what is handed over, by its tag.
pub(super) fn language(text: &str) -> Result<Language, String> {
    let tags = Language::ALL.map(Language::word).join(" and ");
    Language::ALL
        .into_iter()
        .find(|language| language.word().eq_ignore_ascii_case(text))
        .ok_or_else(|| format!("there are words in {tags}"))
}

/// What is printed on, by its name.
pub(super) fn paper(text: &str) -> Result<Paper, String> {
    let names = Paper::ALL.map(Paper::word).join(", ");
    Paper::named(text).ok_or_else(|| format!("templates are printed on one of {names}"))
}
