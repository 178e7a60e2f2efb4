// SPDX-License-Identifier: MIT
//! The edges of an entry by their names: `pocket/mouth`, `front/fore-edge`, `back/flap/head`.
//!
//! A name is words with strokes between them: of the piece (`front`), of the panel (`flap`), of the side. A side is called by
//! where it looks in the flat piece: `head`, `tail` (or `foot`), `left`, `right`; the one at the spine `spine`, the one over
//! against it `fore-edge`; the open ones of a pocket's front `mouth`. A word that is left out says nothing: `fore-edge` is that of
//! every piece.

use super::kept::{Barrier, Uncut};
use crate::album::{Bound, Entry};
use crate::contour::Edge;
use crate::length::tolerance::{PARALLEL, READ, SAME};
use crate::net::SideName;
use crate::parts::name::PieceName;
use crate::parts::pocket::Pocket;

/// A free run shorter than this is no edge to speak of, mm: our choice.
const LEAST: f64 = 5.0;

/// Why an edge can't be cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum TakenEdge {
    /// It is a fold.
    Fold,
    /// It is stuck.
    Seam,
    /// The spine holds it.
    Hinge,
}

/// A straight edge of a piece.
#[derive(Clone, Debug)]
pub(super) struct NamedSide {
    /// Numbers of the piece, of its panel, of the edge in the panel's outline.
    pub at: (usize, usize, usize),
    pub line: Edge,
    /// The run that is free, or why none is.
    pub run: Result<[f64; 2], TakenEdge>,
    /// Whether something goes into a pocket over it.
    pub mouth: bool,
    piece: Vec<String>,
    panel: &'static str,
    /// The word to show first.
    side: Vec<&'static str>,
}

/// A corner where two named edges meet.
#[derive(Clone, Copy, Debug)]
pub(super) struct NamedCorner<'s> {
    /// The edges that arrive at it and leave it.
    pub sides: [&'s NamedSide; 2],
}

/// All straight edges of an entry's pieces.
pub(super) fn sides(uncut: &Uncut, entry: &Entry, bound: Bound, pockets: &[Pocket]) -> Vec<NamedSide> {
    let mut sides = Vec::new();
    for (piece, called) in uncut.pieces.iter().map(|piece| piece_words(&piece.of_owner(), entry)).enumerate() {
        let net = uncut.net(piece);
        let free: Vec<(usize, usize)> = net.free_sides().iter().map(|side| (side.panel, side.edge)).collect();
        for (panel, own) in net.panels.iter().enumerate() {
            let wall = pockets.iter().any(|pocket| (pocket.inside.piece, pocket.inside.panel) == (piece, panel));
            for (edge, line) in own.outline.edges().enumerate() {
                let Some(looks) = SideName::of(line) else { continue };
                let run = if free.contains(&(panel, edge)) {
                    run(uncut, (piece, panel), line)
                } else {
                    Err(if net.is_folded(panel, line) { TakenEdge::Fold } else { TakenEdge::Seam })
                };
                let mouth = wall && run.is_ok();
                let mut side = side_words(looks, bound);
                if let Some(word) = at_spine(uncut, (piece, panel), line) {
                    side.insert(0, word);
                }
                if mouth {
                    side.insert(0, "mouth");
                }
                let at = (piece, panel, edge);
                sides.push(NamedSide { at, line, run, mouth, piece: called.clone(), panel: own.name, side });
            }
        }
    }
    sides
}

fn run(uncut: &Uncut, (piece, panel): (usize, usize), line: Edge) -> Result<[f64; 2], TakenEdge> {
    let (run, barrier) = uncut.run(piece, panel, line);
    if run[1] - run[0] >= LEAST {
        return Ok(run);
    }
    Err(if barrier == Some(Barrier::Hinge) { TakenEdge::Hinge } else { TakenEdge::Seam })
}

/// The corners of a piece at which two free edges meet.
pub(super) fn corners(sides: &[NamedSide]) -> Vec<NamedCorner<'_>> {
    let corner = |leaving: &'_ NamedSide| -> Option<usize> {
        sides.iter().position(|arriving| {
            let same = (arriving.at.0, arriving.at.1) == (leaving.at.0, leaving.at.1);
            let meets = arriving.line.to.distance(leaving.line.from) < SAME;
            let starts = leaving.run.is_ok_and(|run| run[0] < SAME);
            let ends = arriving.run.is_ok_and(|run| run[1] > arriving.line.length() - SAME);
            same && meets && starts && ends && arriving.line.bend_to(leaving.line) > PARALLEL
        })
    };
    let found = sides.iter().filter_map(|leaving| Some((corner(leaving)?, leaving)));
    found.map(|(arriving, leaving)| NamedCorner { sides: [&sides[arriving], leaving] }).collect()
}

/// `spine` or `fore-edge`, of a panel that the spine holds.
fn at_spine(uncut: &Uncut, (piece, panel): (usize, usize), line: Edge) -> Option<&'static str> {
    let (at, along) = uncut.spine(piece, panel)?;
    let level = (line.to - line.from).cross(along).abs() < READ * line.length();
    level.then(|| if line.distance(at) < READ { "spine" } else { "fore-edge" })
}

/// What an edge is called by where it looks. An album bound at the right is made as the mirror image of what is worked out here.
fn side_words(looks: SideName, bound: Bound) -> Vec<&'static str> {
    match (looks, bound == Bound::Right) {
        (SideName::Head, _) => vec!["head"],
        (SideName::Tail, _) => vec!["tail", "foot"],
        (SideName::Left, false) | (SideName::Right, true) => vec!["left"],
        (SideName::Right, false) | (SideName::Left, true) => vec!["right"],
    }
}

/// What a piece is called within its entry: `front`; an insert by its kind, a leaf of it by its number.
fn piece_words(name: &PieceName, entry: &Entry) -> Vec<String> {
    let kind = || vec![entry.kind.name.replace('-', " "), entry.kind.name.to_owned()];
    match name {
        PieceName::Leaf(_, number) => std::iter::once(format!("leaf {number}")).chain(kind()).collect(),
        PieceName::OfInsert(_, what) => std::iter::once(what.to_string()).chain(kind()).collect(),
        PieceName::Counted(what, _) | PieceName::Copy(what, _) if is_kind(what, entry) => kind(),
        other => vec![other.to_string()],
    }
}

fn is_kind(name: &PieceName, entry: &Entry) -> bool {
    match name {
        PieceName::Term(term) => *term == entry.kind.name.replace('-', " "),
        PieceName::Counted(what, _) => is_kind(what, entry),
        _ => false,
    }
}

/// The words of a name.
pub(super) fn words(name: &str) -> Vec<String> {
    name.split('/').map(|word| word.trim().to_lowercase()).filter(|word| !word.is_empty()).collect()
}

impl NamedSide {
    /// Whether each of these words is one of its own.
    pub(super) fn is(&self, words: &[String]) -> bool {
        words.iter().all(|word| self.is_called(word))
    }

    fn is_called(&self, word: &str) -> bool {
        self.piece.iter().any(|own| own == word) || self.panel == word || self.is_side(word)
    }

    /// Whether a word says which side it is.
    pub(super) fn is_side(&self, word: &str) -> bool {
        self.side.contains(&word)
    }

    /// Its whole name: without the panel where its piece has one such side alone.
    fn name(&self, all: &[Self]) -> String {
        let like = |other: &&Self| other.at.0 == self.at.0 && other.at.1 != self.at.1 && other.side[0] == self.side[0];
        let alone = !all.iter().filter(|other| other.run.is_ok()).any(|other| like(&other));
        let panel = if alone { String::new() } else { format!("{}/", self.panel) };
        format!("{}/{panel}{}", self.piece[0], self.side[0])
    }
}

impl NamedCorner<'_> {
    /// Whether each of these words is one of either of its edges.
    pub(super) fn is(&self, words: &[String]) -> bool {
        words.iter().all(|word| self.sides.iter().any(|side| side.is_called(word)))
    }
}

/// The names of all that is free, each once.
pub(super) fn free_names(sides: &[NamedSide]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for name in sides.iter().filter(|side| side.run.is_ok()).map(|side| side.name(sides)) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

/// The pieces that have a free corner, each once.
pub(super) fn cornered(corners: &[NamedCorner<'_>]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for name in corners.iter().map(|corner| &corner.sides[0].piece[0]) {
        if !names.contains(name) {
            names.push(name.clone());
        }
    }
    names
}
