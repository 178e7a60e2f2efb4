// SPDX-License-Identifier: MIT
//! From what an entry asks of its edges to cuts, or to what is wrong with it.

use super::kept::{Barrier, Uncut};
use super::named::{NamedCorner, NamedSide, cornered, corners, free_names, sides, words};
use super::rows::{SLOT, SlotRow};
use super::says::{Saying, Steep};
use crate::album::{AskedEdge, Bound, CornerWord, EdgeDone, Entry, FinishWord};
use crate::contour::{Edge, EdgeFinish, EdgePattern};
use crate::finding::Finding;
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::net::{CornerForm, EdgeCut};
use crate::parts::build::edged::PieceEdges;
use crate::parts::name::PieceName;
use crate::parts::pocket::Pocket;

/// Card left between a row of cuts and its edge, mm: our choice.
const BESIDE: f64 = 1.0;

/// How far from the edge a row of cuts usually is, mm: our choice.
const ROW: f64 = 3.0;

/// What is cut of an entry's pieces.
#[derive(Debug, Default)]
pub(super) struct ChosenEdges {
    /// Piece after piece.
    pub pieces: Vec<PieceEdges>,
    /// Every edge that is cut, or has a row of cuts beside it.
    pub sides: Vec<CutSide>,
    /// Every corner that is cut.
    pub corners: Vec<CutCorner>,
    pub findings: Vec<Finding>,
}

/// An edge that is cut.
#[derive(Clone, Copy, Debug)]
pub(super) struct CutSide {
    /// Numbers of its piece and panel.
    pub at: (usize, usize),
    /// Its cut run, the card to the left of it.
    pub line: Edge,
    /// How far into the card it is cut, mm.
    pub depth: f64,
    /// Whether the edge itself is cut.
    pub bites: bool,
    /// Whether something goes into a pocket over it.
    pub mouth: bool,
}

/// A corner that is cut.
#[derive(Clone, Copy, Debug)]
pub(super) struct CutCorner {
    /// Numbers of its piece and panel.
    pub at: (usize, usize),
    /// The edges that arrive at it and leave it.
    pub edges: [Edge; 2],
    pub form: CornerForm,
    pub size: f64,
}

/// What is asked of edges, worked out.
pub(super) fn chosen(uncut: &Uncut, entry: &Entry, bound: Bound, pockets: &[Pocket], says: &Saying<'_>) -> ChosenEdges {
    let sides = sides(uncut, entry, bound, pockets);
    let mut chosen = ChosenEdges { pieces: vec![PieceEdges::default(); uncut.pieces.len()], ..ChosenEdges::default() };
    for asked in &entry.edges {
        let found = match asked.done {
            EdgeDone::Edge(word) => edge(uncut, &mut chosen, &sides, (asked, word), says),
            EdgeDone::Corners(word) => corner(uncut, &mut chosen, &sides, (asked, word), says),
        };
        chosen.findings.extend(found.err().map(|finding| *finding));
    }
    if chosen.findings.is_empty() {
        let crossed = chosen.pieces.iter().enumerate().find(|(piece, edges)| {
            let touched = !edges.cuts.is_empty() || !edges.holes.is_empty();
            touched && edges.cut(uncut.net(*piece).clone()).flat().is_err()
        });
        let last = entry.edges.last().filter(|_| crossed.is_some());
        chosen.findings.extend(last.map(|asked| says.crosses(asked)));
    }
    chosen
}

/// Cuts the edges that a name means.
fn edge(
    uncut: &Uncut,
    chosen: &mut ChosenEdges,
    sides: &[NamedSide],
    (asked, word): (&AskedEdge, FinishWord),
    says: &Saying<'_>,
) -> Result<(), Box<Finding>> {
    let words = words(&asked.on);
    let meant: Vec<&NamedSide> = sides.iter().filter(|side| side.is(&words)).collect();
    if meant.is_empty() || words.is_empty() {
        return Err(Box::new(says.unknown(asked, &free_names(sides))));
    }
    if !words.iter().any(|word| meant.iter().any(|side| side.is_side(word))) {
        let of_it: Vec<NamedSide> = meant.into_iter().cloned().collect();
        return Err(Box::new(says.no_side(asked, &free_names(&of_it))));
    }
    let row = matches!(word, FinishWord::Perforated | FinishWord::Slits);
    let mut taken = None;
    let mut done = false;
    // Of several on one panel, what is too short for it stays as it is: the steps beside an index tab.
    let long = |side: &NamedSide| side.run.map_or(0.0, |run| run[1] - run[0]);
    let takes = |side: &&NamedSide| {
        let longer =
            |other: &&&NamedSide| (other.at.0, other.at.1) == (side.at.0, side.at.1) && long(other) > long(side);
        long(side) >= asked.size.mm() || !meant.iter().any(|other| longer(&other))
    };
    for side in meant.iter().copied().filter(takes) {
        let run = match side.run {
            Ok(run) => run,
            // A row of cuts may stand beside a fold.
            Err(super::named::TakenEdge::Fold) if row => [0.0, side.line.length()],
            Err(why) => {
                taken = taken.or(Some(why));
                continue;
            }
        };
        done = true;
        if row {
            row_of(uncut, chosen, (side, run), (asked, word), says)?;
        } else {
            pattern(uncut, chosen, (side, run), (asked, word), says)?;
        }
    }
    match taken {
        Some(why) if !done => Err(Box::new(says.taken(asked, why, &free_names(sides)))),
        _ => Ok(()),
    }
}

fn pattern(
    uncut: &Uncut,
    chosen: &mut ChosenEdges,
    (side, run): (&NamedSide, [f64; 2]),
    (asked, word): (&AskedEdge, FinishWord),
    says: &Saying<'_>,
) -> Result<(), Box<Finding>> {
    let (piece, panel, edge) = side.at;
    let (length, size) = (run[1] - run[0], asked.size.mm());
    let is_it = |cut: &EdgeCut| matches!(*cut, EdgeCut::Side { panel: of, edge: as_well, .. } if (of, as_well) == (panel, edge));
    if chosen.pieces[piece].cuts.iter().any(is_it) {
        return Err(Box::new(says.twice(asked)));
    }
    if size > length + SAME {
        return Err(Box::new(says.too_long(asked, length)));
    }
    let pattern = match word {
        FinishWord::Wave => EdgePattern::Wave,
        FinishWord::Zigzag => EdgePattern::Zigzag,
        FinishWord::Deckle => EdgePattern::Deckle(seed(&uncut.pieces[piece].name, panel, edge)),
        FinishWord::Notch => EdgePattern::Notch,
        FinishWord::Scallop | FinishWord::Perforated | FinishWord::Slits => EdgePattern::Scallop,
    };
    let usual = || says.usual(pattern.usual_depth(length, size));
    let depth = asked.depth.map_or_else(usual, Length::mm);
    let deepest = pattern.deepest(length, size);
    if depth > deepest + SAME {
        let repeat = pattern.repeats(length, size).1;
        return Err(Box::new(says.too_steep(asked, word, Steep { depth, deepest, repeat })));
    }
    let (reach, barrier) = uncut.reach(side.at, run);
    if depth > reach + SAME {
        return Err(Box::new(says.reaches(asked, barrier, [depth, reach], 0.0)));
    }
    let finish = EdgeFinish { pattern, size, depth };
    let edges = &mut chosen.pieces[piece];
    edges.cuts.push(EdgeCut::Side { panel, edge, run, finish });
    if !edges.patterns.contains(&word) {
        edges.patterns.push(word);
    }
    chosen.sides.push(cut_side(side, run, depth, true));
    Ok(())
}

fn row_of(
    uncut: &Uncut,
    chosen: &mut ChosenEdges,
    (side, run): (&NamedSide, [f64; 2]),
    (asked, word): (&AskedEdge, FinishWord),
    says: &Saying<'_>,
) -> Result<(), Box<Finding>> {
    let row = SlotRow {
        square: word == FinishWord::Slits,
        size: asked.size.mm(),
        depth: asked.depth.map_or(ROW, Length::mm),
    };
    let least = if row.square { BESIDE } else { BESIDE + SLOT / 2.0 };
    if row.depth < least - SAME {
        return Err(Box::new(says.too_near(asked, row.depth, least)));
    }
    let cuts = row.cuts(side.line, run);
    if cuts.is_empty() {
        return Err(Box::new(says.too_long(asked, run[1] - run[0])));
    }
    let (reach, barrier) = uncut.reach(side.at, run);
    if row.deep() > reach + SAME {
        return Err(Box::new(says.reaches(asked, barrier, [row.deep(), reach], row.deep() - row.depth)));
    }
    chosen.pieces[side.at.0].holes.extend(cuts);
    chosen.sides.push(cut_side(side, run, row.deep(), false));
    Ok(())
}

fn cut_side(side: &NamedSide, [start, end]: [f64; 2], depth: f64, bites: bool) -> CutSide {
    let along = (side.line.to - side.line.from).normalize();
    let line = Edge { from: side.line.from + along * start, to: side.line.from + along * end, bulge: 0.0 };
    CutSide { at: (side.at.0, side.at.1), line, depth, bites, mouth: side.mouth }
}

/// Cuts the corners that a name means.
fn corner(
    uncut: &Uncut,
    chosen: &mut ChosenEdges,
    sides: &[NamedSide],
    (asked, word): (&AskedEdge, CornerWord),
    says: &Saying<'_>,
) -> Result<(), Box<Finding>> {
    let (all, words) = (corners(sides), words(&asked.on));
    let meant: Vec<NamedCorner<'_>> = all.iter().copied().filter(|corner| corner.is(&words)).collect();
    if meant.is_empty() || words.is_empty() {
        let known = words.iter().all(|word| sides.iter().any(|side| side.is(std::slice::from_ref(word))));
        let pieces = cornered(&all);
        return Err(Box::new(if known && !words.is_empty() {
            says.no_corner(asked, &pieces)
        } else {
            says.unknown(asked, &pieces)
        }));
    }
    let size = asked.size.mm();
    let cut_too = |at: crate::contour::Point| meant.iter().any(|other| other.sides[1].line.from.distance(at) < SAME);
    for corner in &meant {
        let [arriving, leaving] = corner.sides;
        let (piece, panel, number) = leaving.at;
        let is_it = |cut: &EdgeCut| matches!(*cut, EdgeCut::Corner { panel: of, corner, .. } if (of, corner) == (panel, number));
        if chosen.pieces[piece].cuts.iter().any(is_it) {
            return Err(Box::new(says.twice(asked)));
        }
        let room = corner.sides.map(|side| {
            let run = side.run.map_or(0.0, |run| run[1] - run[0]);
            let other = if side.at.2 == number { side.line.to } else { side.line.from };
            if cut_too(other) { run.min(side.line.length() / 2.0) } else { run }
        });
        let most = room[0].min(room[1]);
        if size > most + SAME {
            return Err(Box::new(says.corner_too_large(asked, most)));
        }
        let ends = [
            arriving.line.to.lerp(arriving.line.from, size / arriving.line.length()),
            leaving.line.from.lerp(leaving.line.to, size / leaving.line.length()),
        ];
        if let Some(barrier) = uncut.corner_reaches((piece, panel), leaving.line.from, ends) {
            return Err(Box::new(says.corner_reaches(asked, barrier)));
        }
        let form = if word == CornerWord::Rounded { CornerForm::Rounded } else { CornerForm::Clipped };
        chosen.pieces[piece].cuts.push(EdgeCut::Corner { panel, corner: number, form, size });
        let edges = [arriving.line, leaving.line];
        chosen.corners.push(CutCorner { at: (piece, panel), edges, form, size });
    }
    Ok(())
}

/// What a torn edge is drawn from: the piece's name, so that copies are alike and edges are not (FNV-1a).
fn seed(name: &PieceName, panel: usize, edge: usize) -> u64 {
    let name = match name {
        PieceName::Copy(what, _) => what.to_string(),
        PieceName::OfInsert(insert, what) => match &**insert {
            PieceName::Copy(insert, _) => format!("{insert} {what}"),
            insert => format!("{insert} {what}"),
        },
        name => name.to_string(),
    };
    let text = format!("{name}/{panel}/{edge}");
    text.bytes().fold(0xCBF2_9CE4_8422_2325, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01B3))
}

impl Barrier {
    /// Its word in messages.
    pub(super) const fn word(self) -> &'static str {
        match self {
            Self::Seam => "seam",
            Self::Hinge => "hinge",
            Self::Score => "score",
            Self::Hole => "hole",
            Self::Edge => "edge",
        }
    }
}
