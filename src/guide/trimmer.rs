// SPDX-License-Identifier: MIT
//! The trimmer plan: what to cut, step by step, so that the stop moves little.
//!
//! In: a sheet's cut tree, its parts. Out: a [`Plan`]: numbered cuts, each with the setting of the stop, what lies between
//! stop and blade, what is left. Never: words, pictures.
//!
//! A stop at the left, the blade upright to its right: what lies between them is cut off, the rest is pushed up to the stop.
//! Pieces are cut from a fresh edge one after the other, so a gap between parts is never trimmed: what it takes gathers in
//! what is left over. Equal pieces are cut on together. Among all that could come next, first what needs no other
//! setting, then the setting that serves most pieces, then the piece that was in the hands last (our choice).

use crate::parts::Kit;
use crate::sheets::{Sheet, StockSheets, TrimPiece, WORTH_KEEPING};

/// Settings nearer than this are one setting, mm: no hand sets a stop finer.
const SAME_STOP: f64 = 0.05;

/// Nothing thinner than this is cut off, mm: the step of a ruler. No hand sets a stop so near to an edge, and a blade that has
/// so little card on its one side slips; what is so little too large is used as it is (our choice).
const SLIVER: f64 = 0.5 - 1e-6;

/// How a sheet, or several equal ones, are cut apart.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The sheet's name: `card-01`.
    pub sheet: String,
    /// Number of its stock.
    pub stock: usize,
    /// How many such sheets there are.
    pub times: u32,
    /// Width as it lies, mm.
    pub width: f64,
    /// Height as it lies, mm.
    pub height: f64,
    /// The cuts in order.
    pub steps: Vec<TrimStep>,
}

impl Plan {
    /// The leftovers worth keeping.
    #[must_use]
    pub fn offcuts(&self) -> Vec<Lying> {
        let all = self.steps.iter().flat_map(|step| step.off.iter().chain([&step.rest]));
        all.filter(|lying| matches!(lying.is, Thing::Offcut(_))).copied().collect()
    }
}

/// Something that lies on the table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lying {
    /// What it is.
    pub is: Thing,
    /// Its width and height as it lay on its sheet, mm.
    pub size: [f64; 2],
    /// How many there are of each sheet.
    pub many: u32,
}

/// What a rectangle is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Thing {
    /// The sheet itself, or what is left of it to be cut.
    Sheet,
    /// A piece that is cut again, by number.
    Strip(usize),
    /// A finished part: its number and the quarter turns it lies in.
    Part(usize, u8),
    /// A leftover worth keeping, by number.
    Offcut(usize),
    /// Waste.
    Waste,
}

/// How a piece gets from where it lay to where it is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PieceTurn {
    /// It stays as it is.
    Keep,
    /// A quarter turn clockwise: its lower edge comes to the stop.
    Clockwise,
    /// A quarter turn back: its left edge comes to the stop.
    Back,
}

/// One setting of the stop on one piece: one cut, or several of the same size.
#[derive(Clone, Debug, PartialEq)]
pub struct TrimStep {
    /// What is cut.
    pub piece: Lying,
    /// Distance of the stop from the blade, mm.
    pub stop: f64,
    /// Whether the stop moves for it.
    pub moves: bool,
    /// How the piece is turned first.
    pub turn: PieceTurn,
    /// Whether the cut runs up the sheet as it lay; its left edge is at the stop then, else its lower edge.
    pub upright: bool,
    /// What comes off, in order; each is one cut.
    pub off: Vec<Lying>,
    /// What is left of the piece.
    pub rest: Lying,
}

impl TrimStep {
    /// How many cuts it takes, of one sheet.
    #[must_use]
    pub fn cuts(&self) -> u32 {
        self.off.iter().map(|off| off.many).sum()
    }

    /// How long the blade's way is, mm.
    #[must_use]
    pub const fn length(&self) -> f64 {
        if self.upright { self.piece.size[1] } else { self.piece.size[0] }
    }
}

/// The plans for all sheets that a trimmer can cut, offcuts numbered through all of them.
#[must_use]
pub fn plans(kit: &Kit, stocks: &[StockSheets]) -> Vec<Plan> {
    let mut offcuts = 0;
    let mut plans = Vec::new();
    for laid in stocks {
        for sheet in &laid.sheets {
            let made = plan(kit, laid.stock, sheet, offcuts);
            offcuts += made.as_ref().map_or(0, |plan| plan.offcuts().len());
            plans.extend(made);
        }
    }
    plans
}

fn plan(kit: &Kit, stock: usize, sheet: &Sheet, offcuts: usize) -> Option<Plan> {
    let tree = sheet.cuts.as_ref()?;
    let mut table = Trimming { kit, sheet, waiting: Vec::new(), strips: 0, offcuts, steps: Vec::new(), stop: None };
    table.begin(tree);
    while table.step() {}
    let (name, times) = (sheet.name.clone(), sheet.times);
    Some(Plan { sheet: name, stock, times, width: sheet.width, height: sheet.height, steps: table.steps })
}

/// A piece that waits to be cut.
struct Waiting<'a> {
    lying: Lying,
    /// Whether its lower edge is towards the stop, from an earlier turn.
    turned: bool,
    upright: bool,
    /// What is to come off, in order, and what it is then.
    next: Vec<(f64, &'a TrimPiece)>,
}

struct Trimming<'a> {
    kit: &'a Kit,
    sheet: &'a Sheet,
    waiting: Vec<Waiting<'a>>,
    strips: usize,
    offcuts: usize,
    steps: Vec<TrimStep>,
    stop: Option<f64>,
}

impl<'a> Trimming<'a> {
    /// The whole sheet; a margin is trimmed off its left and its lower edge first.
    fn begin(&mut self, tree: &'a TrimPiece) {
        let mut lying = Lying { is: Thing::Sheet, size: [self.sheet.width, self.sheet.height], many: 1 };
        let margin = match tree {
            TrimPiece::Cut(cut) => [cut.rect[0], cut.rect[1]],
            TrimPiece::Part(number) => {
                self.sheet.placements.get(*number).map_or([0.0; 2], |placed| [placed.x, placed.y])
            }
            TrimPiece::Offcut(_) => return,
        };
        let mut turned = false;
        for axis in [0, 1] {
            if margin[axis] < SLIVER {
                continue;
            }
            let mut rest = lying;
            rest.size[axis] -= margin[axis];
            let waste = Lying { is: Thing::Waste, size: sized(lying.size, axis, margin[axis]), many: 1 };
            self.note(lying, (margin[axis], axis), turned, vec![waste], rest);
            turned = axis == 1;
            lying = rest;
        }
        let tree = self.resolved(tree, lying.size);
        let fits = (0..2).all(|axis| lying.size[axis] < self.need(tree)[axis] + SLIVER);
        if !(fits && matches!(tree, TrimPiece::Part(_))) {
            self.wait(lying, turned, tree);
        }
    }

    /// Sets a piece aside that is still to be cut down to what `piece` needs.
    fn wait(&mut self, lying: Lying, turned: bool, piece: &'a TrimPiece) {
        let need = self.need(piece);
        let too_large = |axis: usize| lying.size[axis] >= need[axis] + SLIVER;
        let (axis, next) = match piece {
            TrimPiece::Cut(cut) => {
                let axis = usize::from(!cut.upright);
                if lying.is != Thing::Sheet && too_large(1 - axis) {
                    // Only kerf or gap make a strip broader than what is in it.
                    (1 - axis, vec![(need[1 - axis], piece)])
                } else {
                    let pieces = wanted(&cut.pieces).into_iter();
                    (axis, pieces.map(|piece| (self.need(piece)[axis], piece)).collect())
                }
            }
            TrimPiece::Part(_) | TrimPiece::Offcut(_) => {
                let axis = usize::from(!too_large(0));
                (axis, vec![(need[axis], piece)])
            }
        };
        self.waiting.push(Waiting { lying, turned, upright: axis == 0, next });
    }

    /// What a piece needs to the right and up, mm.
    fn need(&self, piece: &TrimPiece) -> [f64; 2] {
        match piece {
            TrimPiece::Offcut(_) => [0.0, 0.0],
            TrimPiece::Part(number) => {
                let placed = self.sheet.placements.get(*number);
                let part = placed.and_then(|placed| Some((self.kit.parts.get(placed.part)?, placed.quarters)));
                let Some((part, quarters)) = part else { return [0.0, 0.0] };
                let size = [part.flat.width, part.flat.height];
                if quarters.is_multiple_of(2) { size } else { [size[1], size[0]] }
            }
            TrimPiece::Cut(cut) => {
                let along = usize::from(!cut.upright);
                let needs = cut.pieces.iter().map(|piece| self.need(piece));
                needs.fold([0.0, 0.0], |mut sum: [f64; 2], need| {
                    sum[along] += need[along];
                    sum[1 - along] = sum[1 - along].max(need[1 - along]);
                    sum
                })
            }
        }
    }

    /// Takes one step; false when nothing waits any more.
    fn step(&mut self) -> bool {
        let Some(index) = self.choose() else { return false };
        let mut waiting = self.waiting.remove(index);
        let (piece, axis) = (waiting.lying, usize::from(!waiting.upright));
        let Some(&(stop, _)) = waiting.next.first() else { return true };
        let equal = waiting.next.iter().take_while(|(size, _)| (size - stop).abs() < SAME_STOP).count();
        let mut left = piece.size;
        let mut off: Vec<(Lying, &'a TrimPiece)> = Vec::new();
        let mut last = None;
        for (_, target) in waiting.next.drain(..equal) {
            if left[axis] - stop < SLIVER {
                // What is left is the last piece itself.
                let lying = Lying { is: piece.is, size: left, many: piece.many };
                let target = self.resolved(target, lying.size);
                last = Some(self.like_or_new(&mut off, target, lying, !waiting.upright, false));
                break;
            }
            left[axis] -= stop;
            let lying = Lying { is: piece.is, size: sized(left, axis, stop), many: piece.many };
            let target = self.resolved(target, lying.size);
            let lying = self.like_or_new(&mut off, target, lying, !waiting.upright, true);
            if !off.iter().any(|(other, _)| other.is == lying.is) {
                off.push((lying, target));
            }
        }
        let off: Vec<Lying> = off.into_iter().map(|(lying, _)| lying).collect();
        let (turned_before, turned) = (waiting.turned, !waiting.upright);
        let rest = match (last, &waiting.next[..]) {
            (Some(last), _) => last,
            (None, []) => self.leftover(left, piece.many),
            (None, [(size, target)]) if left[axis] - size < SLIVER => self.become_of(target, left, piece.many, turned),
            _ => {
                let rest = Lying { size: left, ..piece };
                self.waiting.push(Waiting { lying: rest, turned, ..waiting });
                rest
            }
        };
        if !off.is_empty() {
            self.note(piece, (stop, axis), turned_before, off, rest);
        }
        true
    }

    fn note(&mut self, piece: Lying, (stop, axis): (f64, usize), turned: bool, off: Vec<Lying>, rest: Lying) {
        let turn = match (turned, axis) {
            (false, 1) => PieceTurn::Clockwise,
            (true, 0) => PieceTurn::Back,
            _ => PieceTurn::Keep,
        };
        let moves = self.stop.is_none_or(|set| (set - stop).abs() >= SAME_STOP);
        self.stop = Some(stop);
        self.steps.push(TrimStep { piece, stop, moves, turn, upright: axis == 0, off, rest });
    }

    /// What a rectangle becomes: one more of what came off in this step and is cut on in the same way, or something new.
    fn like_or_new(
        &mut self,
        off: &mut [(Lying, &'a TrimPiece)],
        target: &'a TrimPiece,
        lying: Lying,
        turned: bool,
        comes_off: bool,
    ) -> Lying {
        let like = off.iter_mut().find(|(_, other)| self.is_like(other, target));
        let Some((before, _)) = like else { return self.become_of(target, lying.size, lying.many, turned) };
        let is = before.is;
        if comes_off {
            before.many += lying.many;
        }
        if let Some(waiting) = self.waiting.iter_mut().find(|waiting| waiting.lying.is == is) {
            waiting.lying.many += lying.many;
        }
        Lying { is, ..lying }
    }

    /// The piece itself, where nothing comes off that a stop could be set to.
    fn resolved(&self, target: &'a TrimPiece, size: [f64; 2]) -> &'a TrimPiece {
        let mut target = target;
        while let TrimPiece::Cut(cut) = target
            && let [only] = wanted(&cut.pieces)[..]
            && size[usize::from(!cut.upright)] < self.need(only)[usize::from(!cut.upright)] + SLIVER
        {
            target = only;
        }
        target
    }

    /// What a rectangle that was cut off becomes: a part, or a strip that waits.
    fn become_of(&mut self, target: &'a TrimPiece, size: [f64; 2], many: u32, turned: bool) -> Lying {
        let target = self.resolved(target, size);
        let need = self.need(target);
        let fits = (0..2).all(|axis| size[axis] < need[axis] + SLIVER);
        match target {
            TrimPiece::Part(number) if fits => {
                let placed = self.sheet.placements.get(*number);
                let is = placed.map_or(Thing::Waste, |placed| Thing::Part(placed.part, placed.quarters));
                Lying { is, size, many }
            }
            TrimPiece::Part(_) | TrimPiece::Cut(_) => {
                self.strips += 1;
                let lying = Lying { is: Thing::Strip(self.strips), size, many };
                self.wait(lying, turned, target);
                lying
            }
            TrimPiece::Offcut(_) => self.leftover(size, many),
        }
    }

    fn leftover(&mut self, size: [f64; 2], many: u32) -> Lying {
        let is = if size.iter().all(|side| *side >= WORTH_KEEPING) {
            self.offcuts += 1;
            Thing::Offcut(self.offcuts)
        } else {
            Thing::Waste
        };
        Lying { is, size, many }
    }

    /// The piece whose turn it is.
    fn choose(&self) -> Option<usize> {
        let serves = |stop: f64| self.waiting.iter().filter(|waiting| waiting.is_set(stop)).count();
        let setting = |index: usize| self.waiting.get(index).and_then(|waiting| Some(waiting.next.first()?.0));
        let indices = || 0..self.waiting.len();
        let here = self.stop.and_then(|stop| indices().rev().find(|&index| self.waiting[index].is_set(stop)));
        here.or_else(|| indices().max_by_key(|&index| (setting(index).map_or(0, serves), index)))
    }

    /// Whether two pieces are cut on in the same way to the same parts.
    fn is_like(&self, one: &TrimPiece, other: &TrimPiece) -> bool {
        match (one, other) {
            (TrimPiece::Part(one), TrimPiece::Part(other)) => {
                let placed =
                    |number: &usize| self.sheet.placements.get(*number).map(|placed| (placed.part, placed.quarters));
                placed(one) == placed(other)
            }
            (TrimPiece::Cut(one), TrimPiece::Cut(other)) => {
                let (ones, others) = (wanted(&one.pieces), wanted(&other.pieces));
                one.upright == other.upright
                    && ones.len() == others.len()
                    && ones.iter().zip(&others).all(|(one, other)| self.is_like(one, other))
            }
            _ => false,
        }
    }
}

impl Waiting<'_> {
    /// Whether its next cut is made at this setting.
    fn is_set(&self, stop: f64) -> bool {
        self.next.first().is_some_and(|(size, _)| (size - stop).abs() < SAME_STOP)
    }
}

/// The pieces that are wanted.
fn wanted(pieces: &[TrimPiece]) -> Vec<&TrimPiece> {
    pieces.iter().filter(|piece| !matches!(piece, TrimPiece::Offcut(_))).collect()
}

/// A size with one of its sides changed.
const fn sized(mut size: [f64; 2], axis: usize, side: f64) -> [f64; 2] {
    size[axis] = side;
    size
}
