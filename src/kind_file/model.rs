// SPDX-License-Identifier: MIT
//! What a kind file says, checked.

use super::drawn::{DrawnForm, KindDrawing};
use super::formula::{Condition, Formula};
use super::kind_words::{CornersWord, EdgeWord, FaceWord, Fills, FoldWay, PanelUse, PocketSide, RowWay};
use crate::finding::Place;

/// A kind file, checked: every name in it means something.
#[derive(Debug)]
#[non_exhaustive]
pub struct KindFile {
    /// Its name in album files.
    pub name: String,
    /// What it fills.
    pub fills: Fills,
    /// What it is, in one sentence without a full stop.
    pub about: String,
    /// Its version, where the file says so.
    pub version: Option<String>,
    /// Its sizes.
    pub sizes: Vec<KindSize>,
    /// Its pieces.
    pub pieces: Vec<KindPiece>,
    /// Which seams are stuck on which panels.
    pub joins: Vec<KindJoin>,
    /// Its pockets.
    pub pockets: Vec<KindPocket>,
    /// Flaps that close over pockets.
    pub flaps: Vec<KindFlap>,
    /// Faces that take paper.
    pub papers: Vec<KindPaper>,
    /// The panel on whose faces the spine's tab is stuck, or the two between which it slides.
    pub hangs: Vec<PanelAt>,
    /// When it is made the other way round: left and right change places, and what is its front is the page's back.
    pub mirrored: Option<Condition>,
    /// What must hold.
    pub needs: Vec<KindNeed>,
    /// Whether it has something to pull it out by: of an insert.
    pub pull: Option<Condition>,
    /// How many cards thick an insert is.
    pub layers: Option<Formula>,
    /// Whether it takes the name of a print for its size: of an insert.
    pub prints: bool,
    /// The drawings that it names.
    pub drawings: Vec<KindDrawing>,
    /// An entry of an album file that makes a usual one.
    pub example: String,
    /// All of it, as JSON.
    pub text: String,
    /// Where it stands.
    pub place: Place,
}

/// The name that built-in kinds have for their file.
pub const BUILT_IN: &str = "built-in";

impl KindFile {
    /// Whether it is one of the program's own, which no maker can change.
    #[must_use]
    pub fn is_built_in(&self) -> bool {
        &*self.place.file == BUILT_IN
    }
}

/// A size of a kind: what an album says of one of it.
#[derive(Debug)]
pub struct KindSize {
    /// Its name.
    pub name: String,
    /// What it means, in a few words.
    pub about: String,
    /// What it takes.
    pub takes: SizeTakes,
    /// What holds where an album leaves it out; none where it must be given.
    pub usual: Option<Usual>,
    /// The least that it may be.
    pub least: Option<Formula>,
    /// The most.
    pub most: Option<Formula>,
    /// Where it stands.
    pub place: Place,
}

/// What a size takes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SizeTakes {
    /// A length.
    Length,
    /// A whole number.
    Count,
    /// One of these words.
    Words(Vec<String>),
}

/// What holds where an album leaves a size out.
#[derive(Debug)]
pub enum Usual {
    /// What this comes to.
    Formula(Formula),
    /// A length in files in mm, another one in files in inches.
    Each {
        /// In mm.
        mm: f64,
        /// In inches.
        inch: f64,
    },
    /// A word, by its place.
    Word(usize),
}

/// A piece of a kind.
#[derive(Debug)]
pub struct KindPiece {
    /// Its name in the kind.
    pub name: String,
    /// What it is called in lists.
    pub called: String,
    /// Pieces with the same word here may be one part.
    pub alike: String,
    /// Which way its row runs.
    pub runs: RowWay,
    /// How broad the row is.
    pub breadth: Formula,
    /// Its panels.
    pub panels: Vec<KindPanel>,
    /// Whether its grain must run along the spine.
    pub grain: bool,
    /// Where it stands.
    pub place: Place,
}

/// A panel of a row.
#[derive(Debug)]
pub struct KindPanel {
    /// Its name in the piece.
    pub name: String,
    /// What it is there for.
    pub purpose: PanelUse,
    /// How deep it is along the row.
    pub depth: Formula,
    /// Which way it is folded on the one before it, or on the one that it hangs on.
    pub fold: FoldWay,
    /// How far, degrees.
    pub angle: f64,
    /// How far its edges stand back where it starts and where it ends.
    pub taper: Option<[Formula; 2]>,
    /// Only where this holds.
    pub when: Option<Condition>,
    /// So many of it side by side.
    pub times: Option<Formula>,
    /// Corners that are not square.
    pub corners: Vec<KindCorner>,
    /// Half-round notches in the middle of its edges.
    pub notches: Vec<KindNotch>,
    /// The number of the drawing that shows its form, at the end of a row.
    pub outline: Option<usize>,
    /// Holes in it.
    pub holes: Vec<KindHole>,
    /// What is drawn on it.
    pub marks: Vec<KindMark>,
    /// Rows that hang on its edges, at right angles to its own row.
    pub hung: Vec<(EdgeWord, Vec<Self>)>,
    /// Where it stands.
    pub place: Place,
}

/// Corners that are not square.
#[derive(Debug)]
pub struct KindCorner {
    /// Which.
    pub at: CornersWord,
    /// How much of the edges they take.
    pub size: Formula,
    /// Whether they are round.
    pub rounded: bool,
    /// Only where this holds.
    pub when: Option<Condition>,
}

/// A half-round notch in the middle of an edge.
#[derive(Debug)]
pub struct KindNotch {
    /// Which edge.
    pub at: EdgeWord,
    /// Its diameter.
    pub across: Formula,
    /// Only where this holds.
    pub when: Option<Condition>,
}

/// A hole; its place is measured from the lower left of its panel.
#[derive(Debug)]
pub struct KindHole {
    /// Its form.
    pub form: HoleForm,
    /// Whether it reaches over a fold into the next panel.
    pub over_fold: bool,
    /// Where there are several.
    pub row: Option<Box<HoleRow>>,
    /// Only where this holds.
    pub when: Option<Condition>,
    /// Where it stands.
    pub place: Place,
}

/// Equal holes in a row, as to tear along.
#[derive(Debug)]
pub struct HoleRow {
    /// How many.
    pub times: Formula,
    /// How far each is to the right of the one before it, and how far up.
    pub step: [Formula; 2],
}

/// The form of a hole.
#[derive(Debug)]
pub enum HoleForm {
    /// Round: its centre, its diameter.
    Round(Box<[Formula; 2]>, Box<Formula>),
    /// Square: its lower left corner, its width, its height; how round its corners are.
    Window(Box<[Formula; 4]>, Option<Box<Formula>>),
    /// As a drawing shows it: the lower left corner of its box, its form.
    Drawn(Box<[Formula; 2]>, Box<DrawnForm>),
    /// A straight cut: where it begins, where it ends.
    Slit(Box<[Formula; 4]>),
}

/// A mark on a panel, from the panel's lower left.
#[derive(Debug)]
pub struct KindMark {
    /// Its form.
    pub form: MarkForm,
    /// Only where this holds.
    pub when: Option<Condition>,
    /// Where it stands.
    pub place: Place,
}

/// The form of a mark.
#[derive(Debug)]
pub enum MarkForm {
    /// A line: where it begins, where it ends.
    Line(Box<[Formula; 4]>),
    /// A cross: its middle, how large it is.
    Cross(Box<[Formula; 2]>, Option<Box<Formula>>),
}

/// A panel by its piece and its name.
#[derive(Clone, Debug)]
pub struct PanelAt {
    /// The piece's number.
    pub piece: usize,
    /// The panel's name.
    pub panel: String,
    /// As the file says it.
    pub text: String,
    /// Where.
    pub place: Place,
}

/// What is stuck on what.
#[derive(Debug)]
pub struct KindJoin {
    /// The seam.
    pub stick: PanelAt,
    /// What it is stuck on.
    pub onto: PanelAt,
    /// Which of their faces meet.
    pub faces: [FaceWord; 2],
    /// Where the lower left corner of what the seam covers lies, from the lower left of the other panel.
    pub at: [Formula; 2],
    /// Only where this holds.
    pub when: Option<Condition>,
    /// Where it stands.
    pub place: Place,
}

/// A pocket between two panels.
#[derive(Debug)]
pub struct KindPocket {
    /// Its back and its front.
    pub between: [PanelAt; 2],
    /// Which of their faces look into it.
    pub faces: [FaceWord; 2],
    /// Its width.
    pub width: Formula,
    /// Its height.
    pub height: Formula,
    /// Where hands reach in.
    pub open: Vec<PocketSide>,
    /// Only where this holds.
    pub when: Option<Condition>,
    /// Where it stands.
    pub place: Place,
}

/// A flap that folds over a pocket from the fore-edge and closes it.
#[derive(Debug)]
pub struct KindFlap {
    /// The flap.
    pub flap: PanelAt,
    /// The panel between its two scores, where it has two.
    pub riser: Option<PanelAt>,
    /// The pocket's front.
    pub over: PanelAt,
    /// The size that says how wide it is.
    pub size: Option<usize>,
    /// The size that says how wide the pocket is.
    pub pocket_size: Option<usize>,
    /// Only where this holds.
    pub when: Option<Condition>,
    /// Where it stands.
    pub place: Place,
}

/// A face that takes paper.
#[derive(Debug)]
pub struct KindPaper {
    /// The panel.
    pub on: PanelAt,
    /// Which of its faces.
    pub face: FaceWord,
    /// What it is called; nothing where it is all of its side of the page.
    pub called: Option<String>,
    /// Only where this holds.
    pub when: Option<Condition>,
    /// Where it stands.
    pub place: Place,
}

/// What must hold.
#[derive(Debug)]
pub struct KindNeed {
    /// The condition.
    pub that: Condition,
    /// Why, in the maker's words.
    pub because: String,
    /// The size at which it is mended, where that is said.
    pub size: Option<usize>,
    /// Where it stands.
    pub place: Place,
}
