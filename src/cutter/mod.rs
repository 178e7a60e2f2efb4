// SPDX-License-Identifier: MIT
//! What belongs to the machine, not to the album: kerf, margin, gap, how it scores, which files it reads.
//!
//! In: a cutter file's text, flags. Out: a [`Cutter`]. Never: knows what is cut.

mod back;
mod bed;
mod bed_file;
mod file;
mod forms;
mod forms_file;
mod limits;
mod manner;
mod manner_file;
mod palette;
mod register;
mod register_file;
mod writing;
mod writing_file;

pub use back::{BackSide, BothWays};
pub use bed::{BedPlace, BedProblem, SheetsABed};
pub(crate) use file::{COLOUR_FIELDS, DASH_FIELDS, SETTINGS, SPEED_FIELDS, read_own};
pub use file::{DXF_VERSIONS, FORMAT, SVG_UNITS, own_schema, read, schema};
pub use forms::{DxfLayers, DxfLines, Forms, LayerOrder, SvgLines};
pub use limits::{limited, placed};
pub use manner::{Curves, CutOrder, Direction, Manner, Nicks, Passes, Start};
pub(crate) use manner_file::{NICKS_FIELDS, PASSES_FIELDS};
pub(crate) use palette::{colour_parts, nearest_index};
pub use register::{MarkShape, MarkSides, RegisterMark, RegisterMarks};
pub(crate) use register_file::MARKS_FIELDS;
pub use writing::{DrawnText, TextSide, Writing};

use crate::finding::{Arg, Finding, Said};
use crate::length::tolerance::SAME;
use crate::length::{Length, Units};

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
    /// How many sheets lie on its bed at once; where nothing is said, each has a file of its own.
    pub sheets_a_bed: Option<SheetsABed>,
    /// How scores are made.
    pub score: ScoreMode,
    /// Colours of the layers.
    pub colours: Colours,
    /// One of [`SVG_UNITS`].
    pub svg_units: &'static str,
    /// One of [`DXF_VERSIONS`].
    pub dxf_version: &'static str,
    /// Whether neighbours share one cut, where that is said; see [`Cutter::shares_cuts`].
    pub shared_cuts: Option<bool>,
    /// How fast it works, where that is known.
    pub speed: Option<Speeds>,
    /// Seconds from one stroke to the next.
    pub lift: f64,
    /// How strokes are made.
    pub manner: Manner,
    /// The register marks of its sheets, where these are printed before they are cut.
    pub marks: Option<RegisterMarks>,
    /// What its files are like.
    pub forms: Forms,
    /// What is done on the back of sheets.
    pub back: BackSide,
    /// Which words it draws.
    pub writing: Writing,
}

/// How fast the tool works on each layer, mm a second; all above nought.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Speeds {
    /// Cuts.
    pub cut: f64,
    /// Scores.
    pub score: f64,
    /// Marks.
    pub draw: f64,
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
    /// Of register marks.
    pub register: String,
}

impl Default for Colours {
    fn default() -> Self {
        Self { cut: "#000000".into(), score: "#E69F00".into(), draw: "#CC79A7".into(), register: "#0072B2".into() }
    }
}

impl Default for Cutter {
    fn default() -> Self {
        Self {
            kerf: Length::ZERO,
            margin: Length::ZERO,
            gap: Length::ZERO,
            bed: None,
            sheets_a_bed: None,
            score: ScoreMode::Line,
            colours: Colours::default(),
            svg_units: "mm",
            dxf_version: "R2000",
            shared_cuts: None,
            speed: None,
            lift: 0.0,
            manner: Manner::default(),
            marks: None,
            forms: Forms::default(),
            back: BackSide::default(),
            writing: Writing::default(),
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

    /// Whether neighbours that touch share one cut. Where nobody says, they do if the tool removes nothing and no gap is left: both
    /// would be cut along the same line. A cut that is to run on past its start, or that leads a swivelling blade round corners,
    /// goes round each part by itself.
    ///
    /// ```
    /// use hingeleaf::{cutter::Cutter, length::Length};
    /// assert!(Cutter::default().shares_cuts());
    /// assert!(!Cutter { kerf: Length::from_mm(0.2), ..Cutter::default() }.shares_cuts());
    /// assert!(!Cutter { shared_cuts: Some(false), ..Cutter::default() }.shares_cuts());
    /// ```
    #[must_use]
    pub fn shares_cuts(&self) -> bool {
        let all_round = self.manner.overrun > Length::ZERO || self.manner.corner_help;
        let touch = self.kerf <= Length::ZERO && self.gap <= Length::ZERO;
        self.shared_cuts.unwrap_or(touch && !all_round)
    }

    /// Whether a sheet of these sides goes into the machine, either way round.
    #[must_use]
    pub fn takes(&self, width: Length, height: Length) -> bool {
        let fits = |across: Length, up: Length| width <= across && height <= up;
        self.bed.is_none_or(|(across, up)| fits(across, up) || fits(up, across))
    }

    /// The machine's limits that no sheet changes, checked together.
    #[must_use]
    pub fn findings(&self) -> Vec<Finding> {
        let mut findings = Vec::new();
        if self.shared_cuts == Some(true) && self.gap > Length::ZERO {
            let finding = Finding::stop("shared-cuts-gap", Said::NOTHING, Said::new("shared-cuts-gap"));
            findings.push(finding.help(Said::new("shared-cuts-gap-help")));
        }
        // The cut of a neighbour that touches would run through a part's nicks.
        if self.manner.nicks.is_some() && self.gap <= Length::ZERO {
            let finding = Finding::stop("nicks-gap", Said::NOTHING, Said::new("nicks-gap"));
            findings.push(finding.help(Said::new("nicks-gap-help")));
        }
        if self.manner.corner_help && self.manner.trail <= Length::ZERO {
            let finding = Finding::stop("corner-help-trail", Said::NOTHING, Said::new("corner-help-trail"));
            findings.push(finding.help(Said::new("corner-help-trail-help")));
        }
        if self.sheets_a_bed.is_some() && self.bed.is_none() {
            let finding = Finding::stop("sheets-a-bed", Said::NOTHING, Said::new("sheets-a-bed"));
            findings.push(finding.help(Said::new("sheets-a-bed-help")));
        }
        if self.back.both_ways == BothWays::BothSides && self.score != ScoreMode::Line {
            let finding = Finding::note("perforated-both-sides", Said::NOTHING, Said::new("perforated-both-sides"));
            findings.push(finding.help(Said::new("perforated-both-sides-help")));
        }
        let Colours { cut, score, draw, .. } = &self.colours;
        findings.extend(forms::told(&self.forms, [("cut", cut), ("score", score), ("draw", draw)]));
        findings.extend(self.marks.iter().flat_map(|marks| self.bleeds(marks.bleed)));
        findings
    }

    /// What is printed past a cut must not lie on a neighbour, nor run off the sheet.
    fn bleeds(&self, bleed: Length) -> Vec<Finding> {
        let length = |mm: f64| Arg::Length(Length::from_mm(mm), Units::Mm);
        let mm = bleed.mm();
        let (gap, margin) = (2.0f64.mul_add(mm, -self.kerf.mm()), mm - self.offset().mm());
        let mut findings = Vec::new();
        for (id, has, needs) in [("bleed-gap", self.gap.mm(), gap), ("bleed-margin", self.margin.mm(), margin)] {
            if mm > 0.0 && has < needs - SAME {
                let text = Said::new(id).with("bleed", length(mm)).with("has", length(has));
                let finding = Finding::stop(id, Said::NOTHING, text);
                // Rounded up to what a file says in short.
                let needs = length((needs * 100.0 - SAME).ceil() / 100.0);
                let help = if id == "bleed-gap" { "bleed-gap-help" } else { "bleed-margin-help" };
                findings.push(finding.help(Said::new(help).with("needs", needs)));
            }
        }
        findings
    }
}

/// A colour as `#RRGGBB` in capitals, if it is one.
#[must_use]
pub fn colour_code(text: &str) -> Option<String> {
    let digits = text.strip_prefix('#')?;
    (digits.len() == 6 && digits.bytes().all(|byte| byte.is_ascii_hexdigit()))
        .then(|| format!("#{}", digits.to_ascii_uppercase()))
}
