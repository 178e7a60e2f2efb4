// SPDX-License-Identifier: MIT
//! What may be typed.

use super::coupon_arguments::CouponArguments;
use super::machine_arguments::{EffortArgument, LabelsArgument, MachineArguments};
use super::program_arguments::{Completions, Handbook, Manual, Schema};
use super::values::{language, length, paper, paper_margin, whole};
use clap::{Args, Parser, Subcommand, ValueEnum};
use hingeleaf::album::Language;
use hingeleaf::length::Length;
use hingeleaf::paper::Paper;
use std::path::PathBuf;

/// From the description of one folded-card photo album to every sheet, cut and score it needs.
#[derive(Parser, Debug)]
#[command(name = "hingeleaf", version, arg_required_else_help = true, after_help = CAUTIONS)]
pub(super) struct Arguments {
    #[command(subcommand)]
    pub command: Command,
}

const CAUTIONS: &str = "\
Cautions: never leave a laser unattended, never cut PVC or vinyl with it, extract the fumes, keep an
extinguisher at hand; keep fingers behind the straightedge; ventilate where you glue. The machine's manual,
local rules and licensed practice come first.";

#[derive(Subcommand, Debug)]
pub(super) enum Command {
    /// Write a small album file to start from
    #[command(after_help = "Example:\n  hingeleaf new my-album.json --units in")]
    New(New),
    /// Say whether an album goes together and onto its sheets
    #[command(after_help = "Examples:\n  hingeleaf check my-album.json\n  \
        hingeleaf check my-album.json --mend mended.json\nEnds with 0 when it does, 1 when it does not.")]
    Check(Check),
    /// Write everything that the album needs into a folder
    #[command(after_help = "Example:\n  hingeleaf kit my-album.json --out kit --kerf 0.15 --gap 1 --margin 5\n\
        writes kit/report.json, kit/cutting-list.csv, kit/guide.html and kit/sheets/*.svg and *.dxf, at true size.")]
    Kit(KitArguments),
    /// Say which page sizes near the album's take fewer sheets, or no more
    #[command(after_help = "Example:\n  hingeleaf sizes my-album.json --margin 5 --holds 4x6in")]
    Sizes(SizesArguments),
    /// Say which parts changed from one edition to the next, and what to cut again
    #[command(after_help = "Examples:\n  hingeleaf compare first/report.json my-album.json\n  \
        hingeleaf compare first-edition.json my-album.json --only-changed --out changed\n\
        Ends with 0 whether or not anything changed.")]
    Compare(CompareArguments),
    /// List the kinds of page, spine and insert with their sizes, and the sheets
    #[command(after_help = "Examples:\n  hingeleaf catalogue\n  hingeleaf catalogue --out plates")]
    Catalogue(Catalogue),
    /// Write a test piece for a machine, or the cutter file that its readings make
    #[command(after_help = "Examples:\n  hingeleaf coupon --out coupon --sheet A4\n  \
        hingeleaf coupon --measured coupon/measured.json --save my-cutter.json")]
    Coupon(CouponArguments),
    /// Open a page in your browser that does all of this: served by this program, on this machine alone
    #[command(after_help = "Example:\n  hingeleaf table my-album.json\n\
        The first line printed is the page's address. Albums stay in the browser, under that address's port.")]
    Table(TableArguments),
    /// Print the JSON Schema (draft 2020-12) of a kind of file
    #[command(after_help = "Example:\n  hingeleaf schema album > album.schema.json")]
    Schema(Schema),
    /// Print the licences of the fonts and libraries that this program is made with
    #[command(after_help = "Example:\n  hingeleaf licences")]
    Licences,
    /// Print the script by which a shell completes commands and options
    #[command(
        after_help = "Example:\n  hingeleaf completions bash > ~/.local/share/bash-completion/completions/hingeleaf"
    )]
    Completions(Completions),
    /// Print the program's manual page, or write the pages of all commands into a folder
    #[command(after_help = "Examples:\n  hingeleaf man > hingeleaf.1\n  hingeleaf man --out man1")]
    Man(Manual),
    /// Write the maker's handbook: pages that work without a network
    #[command(
        after_help = "Examples:\n  hingeleaf handbook --out handbook\n  hingeleaf handbook --out handbuch --language de"
    )]
    Handbook(Handbook),
}

#[derive(Args, Debug)]
pub(super) struct TableArguments {
    /// An album file to open; it is read once and never written
    pub file: Option<PathBuf>,
    /// The port, where it should be the same each time (any free one unless said)
    #[arg(long, value_name = "N", value_parser = whole::<u16>(1, 65_535))]
    pub port: Option<u16>,
    /// Only print the address
    #[arg(long)]
    pub no_browser: bool,
}

#[derive(Args, Debug)]
pub(super) struct New {
    /// The file to write; one that is there already is left alone
    pub file: PathBuf,
    /// What the album is measured in
    #[arg(long, value_enum, default_value = "mm")]
    pub units: NewUnits,
    /// Problems as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(ValueEnum, Clone, Copy, Debug)]
pub(super) enum NewUnits {
    Mm,
    In,
}

#[derive(Args, Debug)]
pub(super) struct Check {
    /// The album file, or a batch file
    pub file: PathBuf,
    /// Write the album with every mend that is known to this new file
    #[arg(long, value_name = "NEW", conflicts_with = "rounded")]
    pub mend: Option<PathBuf>,
    /// Draw the album's cross-section, closed and laid open, into this new SVG file
    #[arg(long, value_name = "FILE")]
    pub picture: Option<PathBuf>,
    /// Round every size to the nearest multiple of what your ruler has, 1/16in or 1mm, and work all parts out anew
    #[arg(long, value_name = "STEP", value_parser = length, allow_hyphen_values = true)]
    pub rounded: Option<Length>,
    #[command(flatten)]
    pub machine: MachineArguments,
    /// Findings as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Args, Debug)]
#[allow(clippy::struct_excessive_bools, reason = "each is an option of its own on the command line")]
pub(super) struct KitArguments {
    /// The album file, or a batch file: several kits as one order
    pub file: PathBuf,
    /// The folder to write
    #[arg(long, value_name = "DIR")]
    pub out: PathBuf,
    /// Replace the folder if it holds an earlier kit
    #[arg(long)]
    pub replace: bool,
    /// How many kits, instead of what the file says
    #[arg(long, value_parser = whole::<u32>(1, 10_000))]
    pub copies: Option<u32>,
    /// In what state card is handed over, for every stock (scored) or for one (card=cut): sheets, cut or scored; may be given
    /// several times
    #[arg(long, value_name = "[STOCK=]STATE")]
    pub handed_over: Vec<String>,
    /// Round every size to the nearest multiple of what your ruler has, 1/16in or 1mm, and work all parts out anew
    #[arg(long, value_name = "STEP", value_parser = length, allow_hyphen_values = true)]
    pub rounded: Option<Length>,
    /// Which files, with commas between (everything that this build writes unless said)
    #[arg(long, value_delimiter = ',')]
    pub formats: Vec<String>,
    /// A file of its own for each layer: card-01.cut.svg, card-01.score.svg, card-01.draw.svg
    #[arg(long)]
    pub split_layers: bool,
    /// Every length of the guide in millimetres and in inches
    #[arg(long)]
    pub both_units: bool,
    /// The language of guide, job sheet and templates, en or de, instead of what the file says
    #[arg(long, value_name = "LANGUAGE", value_parser = language)]
    pub language: Option<Language>,
    /// The guide on one page as well, for those who have made one before: kit-card.html, with PDFs kit-card.pdf
    #[arg(long = "kit-card")]
    pub card: bool,
    /// A sheet to teach by as well, every step in one line: teaching-sheet.html
    #[arg(long)]
    pub teaching_sheet: bool,
    /// What the templates are printed on: letter, tabloid, A4 or A3 (letter or A4 unless said, as the album's card is)
    #[arg(long, value_name = "PAPER", value_parser = paper)]
    pub paper: Option<Paper>,
    /// What your printer leaves blank along every edge (1/4in)
    #[arg(long, value_name = "LENGTH", value_parser = paper_margin, allow_hyphen_values = true)]
    pub paper_margin: Option<Length>,
    /// Where names and marks are drawn on the parts
    #[arg(long, value_enum, default_value = "hidden")]
    pub labels: LabelsArgument,
    /// Write what is left of the sheets to this new file, as a drawer that another album can name
    #[arg(long, value_name = "FILE")]
    pub save_offcuts: Option<PathBuf>,
    /// Write into the drawer's file what is left in it, and what is left of the sheets
    #[arg(long, conflicts_with = "save_offcuts")]
    pub update_drawer: bool,
    /// Only layouts that a trimmer can cut, from edge to edge; the cuts come in the report
    #[arg(long)]
    pub trimmer: bool,
    /// How hard to look for fewer sheets
    #[arg(long, value_enum, default_value = "normal")]
    pub effort: EffortArgument,
    /// On how many threads; the result is the same for any number
    #[arg(long, value_parser = whole::<u16>(1, 256))]
    pub threads: Option<u16>,
    #[command(flatten)]
    pub machine: MachineArguments,
    /// Findings as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Args, Debug)]
pub(super) struct SizesArguments {
    /// The album file
    pub file: PathBuf,
    /// From one size to the next (1 mm; 1/16in in inch albums)
    #[arg(long, value_parser = length, allow_hyphen_values = true)]
    pub step: Option<Length>,
    /// How much narrower, wider, shorter and taller at most (6 mm; 1/4in in inch albums)
    #[arg(long, value_parser = length, allow_hyphen_values = true)]
    pub within: Option<Length>,
    /// Also the smallest page whose pockets take this print: 4R, 10x15, 4x6in, 100x150mm; may be given several times
    #[arg(long, value_name = "PRINT")]
    pub holds: Vec<String>,
    /// How many kits, instead of what the file says
    #[arg(long, value_parser = whole::<u32>(1, 10_000))]
    pub copies: Option<u32>,
    /// Only layouts that a trimmer can cut, from edge to edge
    #[arg(long)]
    pub trimmer: bool,
    /// How hard to look for fewer sheets at the sizes that are named; all others get a quick look
    #[arg(long, value_enum, default_value = "normal")]
    pub effort: EffortArgument,
    /// On how many threads; the result is the same for any number
    #[arg(long, value_parser = whole::<u16>(1, 256))]
    pub threads: Option<u16>,
    #[command(flatten)]
    pub machine: MachineArguments,
    /// Every size as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Args, Debug)]
#[allow(clippy::struct_excessive_bools, reason = "each is an option of its own on the command line")]
pub(super) struct CompareArguments {
    /// The old edition: its album file, or the report.json that it was written with
    pub old: PathBuf,
    /// The new edition, the same
    pub new: PathBuf,
    /// Write the sheets of what the owner of an old kit must cut, and of nothing else, into the folder of --out
    #[arg(long, requires = "out")]
    pub only_changed: bool,
    /// The folder to write
    #[arg(long, value_name = "DIR", requires = "only_changed")]
    pub out: Option<PathBuf>,
    /// Replace the folder if it holds earlier sheets of changed parts
    #[arg(long, requires = "out")]
    pub replace: bool,
    /// How many kits, instead of what the new file says
    #[arg(long, value_parser = whole::<u32>(1, 10_000))]
    pub copies: Option<u32>,
    /// Which files, with commas between: svg, dxf, png, csv (all that this build writes unless said)
    #[arg(long, value_delimiter = ',', requires = "out")]
    pub formats: Vec<String>,
    /// A file of its own for each layer: card-01.cut.svg, card-01.score.svg, card-01.draw.svg
    #[arg(long, requires = "out")]
    pub split_layers: bool,
    /// Where names and marks are drawn on the parts
    #[arg(long, value_enum, default_value = "hidden")]
    pub labels: LabelsArgument,
    /// Only layouts that a trimmer can cut, from edge to edge
    #[arg(long)]
    pub trimmer: bool,
    /// How hard to look for fewer sheets
    #[arg(long, value_enum, default_value = "normal")]
    pub effort: EffortArgument,
    /// On how many threads; the result is the same for any number
    #[arg(long, value_parser = whole::<u16>(1, 256))]
    pub threads: Option<u16>,
    #[command(flatten)]
    pub machine: MachineArguments,
    /// Everything as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Args, Debug)]
pub(super) struct Catalogue {
    /// Draw a plate of each kind, flat and folded, as SVG and PNG into this folder
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Print the kind file that states this built-in kind, to copy and change
    #[arg(long, value_name = "KIND", conflicts_with_all = ["out", "json"])]
    pub source: Option<String>,
    /// Replace the folder if it holds an earlier catalogue
    #[arg(long, requires = "out")]
    pub replace: bool,
    /// As JSON
    #[arg(long)]
    pub json: bool,
}
