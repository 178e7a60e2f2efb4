// SPDX-License-Identifier: MIT
//! What belongs to the machine, not to the album: kerf, margin, gap, how it scores, which files it reads.
//!
//! In: a cutter file's text, flags. Out: a [`Cutter`]. Never: knows what is cut.

use crate::fields::{Fallback, Field, Node, Reader, Source, Takes, Tree, file_schema, object_schema};
use crate::finding::{Checked, Finding};
use crate::length::Length;
use crate::stock::{self, SheetSize};
use serde_json::{Value, json};

const FORMAT: &str = "hingeleaf-cutter/1";

/// The names of `dxf_version`, oldest first.
pub const DXF_VERSIONS: &[&str] = &["R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"];

/// The names of `svg_units`.
pub const SVG_UNITS: &[&str] = &["mm", "in", "px72", "px90", "px96"];

/// The fields of a cutter file.
pub const CUTTER_FIELDS: &[Field] = &[
    Field::new("format", Takes::Text, Fallback::Needed, "which kind of file this is: \"hingeleaf-cutter/1\""),
    Field::new("units", Takes::Choice(&["mm", "cm", "in"]), Fallback::Choice("mm"), "the unit of bare numbers"),
    Field::new(
        "kerf",
        Takes::Length { least: 0.0, most: 5.0 },
        Fallback::Length { mm: 0.0, inch: 0.0 },
        "width of material that the tool removes",
    ),
    Field::new(
        "margin",
        Takes::Length { least: 0.0, most: 200.0 },
        Fallback::Length { mm: 0.0, inch: 0.0 },
        "border of the sheet that can't be used",
    ),
    Field::new(
        "gap",
        Takes::Length { least: 0.0, most: 200.0 },
        Fallback::Length { mm: 0.0, inch: 0.0 },
        "least distance between the tool's paths",
    ),
    Field::new(
        "bed",
        Takes::Text,
        Fallback::Rule("as large as the sheets"),
        "the largest sheet that goes in: \"300x300mm\"",
    ),
    Field::new(
        "score",
        Takes::Nested("\"line\", or { \"dash\": 2, \"gap\": 1 }"),
        Fallback::Rule("line"),
        "how scores are made",
    ),
    Field::new(
        "colours",
        Takes::Nested("an object with cut, score and draw"),
        Fallback::Rule("#000000, #E69F00, #CC79A7"),
        "the colours of the layers",
    ),
    Field::new("svg_units", Takes::Choice(SVG_UNITS), Fallback::Choice("mm"), "the unit of SVG files"),
    Field::new("dxf_version", Takes::Choice(DXF_VERSIONS), Fallback::Choice("R2000"), "the version of DXF files"),
    Field::new("shared_cuts", Takes::Flag, Fallback::Flag(false), "whether neighbours share one cut"),
];

const DASH_FIELDS: &[Field] = &[
    Field::new("dash", Takes::Length { least: 0.1, most: 100.0 }, Fallback::Needed, "length of a cut"),
    Field::new(
        "gap",
        Takes::Length { least: 0.1, most: 100.0 },
        Fallback::Needed,
        "length of the card left between two cuts",
    ),
];

const COLOUR_FIELDS: &[Field] = &[
    Field::new("cut", Takes::Text, Fallback::Rule("#000000"), "colour of cuts"),
    Field::new("score", Takes::Text, Fallback::Rule("#E69F00"), "colour of scores"),
    Field::new("draw", Takes::Text, Fallback::Rule("#CC79A7"), "colour of marks"),
];

/// The machine.
#[derive(Clone, Debug, PartialEq)]
pub struct Cutter {
    /// Width of material that the tool removes.
    pub kerf: Length,
    /// Border of the sheet that it can't use.
    pub margin: Length,
    /// Least distance between its paths.
    pub gap: Length,
    /// The largest sheet that goes in.
    pub bed: Option<(Length, Length)>,
    /// How scores are made.
    pub score: ScoreMode,
    /// Colours of the layers.
    pub colours: Colours,
    /// One of [`SVG_UNITS`].
    pub svg_units: &'static str,
    /// One of [`DXF_VERSIONS`].
    pub dxf_version: &'static str,
    /// Whether neighbours share one cut.
    pub shared_cuts: bool,
}

/// How scores are made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ScoreMode {
    /// One stroke.
    Line,
    /// A perforation.
    Dash {
        /// Length of a cut.
        dash: Length,
        /// Length of the card left between two cuts.
        gap: Length,
    },
}

/// `#RRGGBB` of each layer. The defaults are from the colour-blind-safe palette of Okabe and Ito, Color
/// Universal Design, 2002.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Colours {
    /// Of cuts.
    pub cut: String,
    /// Of scores.
    pub score: String,
    /// Of marks.
    pub draw: String,
}

impl Default for Colours {
    fn default() -> Self {
        Self { cut: "#000000".into(), score: "#E69F00".into(), draw: "#CC79A7".into() }
    }
}

impl Default for Cutter {
    fn default() -> Self {
        Self {
            kerf: Length::ZERO,
            margin: Length::ZERO,
            gap: Length::ZERO,
            bed: None,
            score: ScoreMode::Line,
            colours: Colours::default(),
            svg_units: "mm",
            dxf_version: "R2000",
            shared_cuts: false,
        }
    }
}

impl Cutter {
    /// How far the tool's path runs outside a part's edge: half the kerf. A 100 mm square cut with a kerf
    /// of 0.2 mm has a 100.2 mm path.
    ///
    /// ```
    /// use hingeleaf::{cutter::Cutter, length::Length};
    /// let laser = Cutter { kerf: Length::from_mm(0.2), ..Cutter::default() };
    /// assert_eq!(laser.offset(), Length::from_mm(0.1));
    /// ```
    #[must_use]
    pub fn offset(&self) -> Length {
        self.kerf / 2.0
    }

    /// Whether a sheet goes into the machine, either way round.
    #[must_use]
    pub fn takes(&self, size: &SheetSize) -> bool {
        let fits = |across: Length, up: Length| size.width <= across && size.height <= up;
        self.bed.is_none_or(|(width, height)| fits(width, height) || fits(height, width))
    }

    /// The machine's limits that no sheet changes, checked together.
    #[must_use]
    pub fn findings(&self) -> Vec<Finding> {
        let mut findings = Vec::new();
        if self.shared_cuts && self.gap > Length::ZERO {
            findings.push(
                Finding::stop(
                    "shared-cuts-gap",
                    "",
                    "neighbours can only share a cut when no gap is left between their paths",
                )
                .help("set gap to 0, or shared_cuts to false"),
            );
        }
        findings
    }
}

/// The JSON Schema of a cutter file.
#[must_use]
pub fn schema() -> Value {
    let score = json!({ "anyOf": [{ "const": "line" }, object_schema(&[DASH_FIELDS], &[])] });
    let colour = json!({ "type": "string", "pattern": "^#[0-9A-Fa-f]{6}$" });
    let colours =
        object_schema(&[COLOUR_FIELDS], &[("cut", colour.clone()), ("score", colour.clone()), ("draw", colour)]);
    file_schema("A cutter file", FORMAT, CUTTER_FIELDS, &[("score", score), ("colours", colours)])
}

/// Reads a cutter file.
#[must_use]
pub fn read(source: &Source) -> Checked<Cutter> {
    let mut reader = Reader::new(source);
    let Some(values) = reader.top(CUTTER_FIELDS, FORMAT) else {
        return Checked::none(reader.findings);
    };
    let bed = values.text("bed").map(ToOwned::to_owned).and_then(|text| match stock::sheet_size(&text) {
        Ok((_, width, height)) => Some((width, height)),
        Err((what, help)) => {
            reader.findings.push(Finding::stop("bad-bed", "", what).help(help).at(values.place("bed")));
            None
        }
    });
    let score = values.nested("score").map_or(ScoreMode::Line, |node| score(&mut reader, node));
    let colours = values.nested("colours").map_or_else(Colours::default, |node| colours(&mut reader, node));
    let one_of = |words: &[&'static str], name: &str, fallback: &'static str| {
        values.text(name).and_then(|said| words.iter().copied().find(|word| *word == said)).unwrap_or(fallback)
    };
    let cutter = Cutter {
        kerf: values.length("kerf"),
        margin: values.length("margin"),
        gap: values.length("gap"),
        bed,
        score,
        colours,
        svg_units: one_of(SVG_UNITS, "svg_units", "mm"),
        dxf_version: one_of(DXF_VERSIONS, "dxf_version", "R2000"),
        shared_cuts: values.flag("shared_cuts"),
    };
    Checked::new(cutter, reader.findings)
}

fn score(reader: &mut Reader<'_>, node: &Node) -> ScoreMode {
    match &node.tree {
        Tree::Text(word) if word == "line" => ScoreMode::Line,
        Tree::Object(_) => {
            reader.object(node, "score", "\"score\"", &[DASH_FIELDS]).map_or(ScoreMode::Line, |values| {
                ScoreMode::Dash { dash: values.length("dash"), gap: values.length("gap") }
            })
        }
        _ => {
            let place = reader.place(&node.range, "score");
            reader.problem("wrong-type", "\"score\" takes \"line\", or { \"dash\": 2, \"gap\": 1 }", "", &place);
            ScoreMode::Line
        }
    }
}

fn colours(reader: &mut Reader<'_>, node: &Node) -> Colours {
    let mut colours = Colours::default();
    let Some(values) = reader.object(node, "colours", "\"colours\"", &[COLOUR_FIELDS]) else { return colours };
    for (name, colour) in [("cut", &mut colours.cut), ("score", &mut colours.score), ("draw", &mut colours.draw)] {
        let Some(said) = values.text(name) else { continue };
        match colour_code(said) {
            Some(code) => *colour = code,
            None => reader.findings.push(
                Finding::stop("bad-colour", "", format!("the colour of \"{name}\" can't be read"))
                    .help("write it as \"#RRGGBB\": \"#E69F00\"")
                    .at(values.place(name)),
            ),
        }
    }
    colours
}

/// A colour as `#RRGGBB` in capitals, if it is one.
#[must_use]
pub fn colour_code(text: &str) -> Option<String> {
    let digits = text.strip_prefix('#')?;
    (digits.len() == 6 && digits.bytes().all(|byte| byte.is_ascii_hexdigit()))
        .then(|| format!("#{}", digits.to_ascii_uppercase()))
}
