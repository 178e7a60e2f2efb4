// SPDX-License-Identifier: MIT
//! Search by relations: where boxes differ, whether they lie on one sheet.
//!
//! In: boxes, a sheet, steps that may be spent. Out: their places, or that there are none, or that the steps ran out. Never: says no
//! before every case has been looked at.
//!
//! Whatever two boxes there are, one lies to the left of the other or below it. The search chooses such a relation for pair
//! after pair and a turn for each box, what leaves the least choice first, and takes at once what leaves none; it ends where
//! boxes that begin at their earliest no longer lie on each other (Pisinger and Sigurd 2007). Mirror images, and exchanges of
//! equal boxes, are looked at once; yet many equal boxes leave many orders that come to the same.

use crate::layout::exact::answer::{Answer, SameBoxes, spend};
use crate::layout::exact::relations::{Precedence, RelationChoice, Relations};
use crate::layout::model::packing::PlacedBox;

/// What comes next.
enum Next {
    /// There is no layout.
    Hopeless,
    /// No two boxes lie on each other.
    Laid,
    /// Without a choice.
    Forced(RelationChoice),
    Branch([Option<RelationChoice>; 4]),
}

/// Looks for a layout of all boxes; takes what it needs from `steps`.
pub(crate) fn lie(batches: &[SameBoxes], width: i64, height: i64, steps: &mut u64) -> Answer {
    RelationSearch::new(batches, [width, height]).answer(steps)
}

struct RelationSearch {
    sheet: [i64; 2],
    /// The caller's number for each box, the largest box first.
    kinds: Vec<usize>,
    /// The ways in which each may lie: one or two.
    ways: Vec<Vec<[i64; 2]>>,
    /// The mirror image of a layout along either side is as good as the layout.
    mirrors: bool,
}

impl RelationSearch {
    fn new(batches: &[SameBoxes], sheet: [i64; 2]) -> Self {
        let mut batches: Vec<&SameBoxes> = batches.iter().collect();
        batches.sort_by_key(|batch| (std::cmp::Reverse(batch.area()), batch.kind));
        let (mut kinds, mut ways) = (Vec::new(), Vec::new());
        for batch in &batches {
            let fitting = batch.orientations.iter().filter(|way| way.0 <= sheet[0] && way.1 <= sheet[1]);
            let fitting: Vec<[i64; 2]> = fitting.map(|way| [way.0, way.1]).collect();
            kinds.extend(std::iter::repeat_n(batch.kind, batch.count));
            ways.extend(std::iter::repeat_n(fitting, batch.count));
        }
        // Equal boxes are taken in an order that a mirror image would turn round.
        let repeated = kinds.windows(2).any(|two| two[0] == two[1]);
        Self { sheet, kinds, ways, mirrors: !repeated }
    }

    fn answer(&self, steps: &mut u64) -> Answer {
        let count = self.kinds.len();
        let mut root = Relations::new(self.sheet, &self.ways);
        let fits =
            self.along_diagonal().is_none_or(|number| root.choose(RelationChoice::Turn(number, self.ways[number][0])));
        // The next to be looked at comes last.
        let mut waiting = if fits { vec![root] } else { Vec::new() };
        while let Some(mut state) = waiting.pop() {
            loop {
                spend(steps, 4 + count * count / 4);
                if *steps == 0 {
                    return Answer::Unknown;
                }
                match self.next(&state) {
                    Next::Laid => return Answer::Yes(self.placed(&state)),
                    Next::Forced(choice) if state.choose(choice) => {}
                    Next::Forced(_) | Next::Hopeless => break,
                    Next::Branch(choices) => {
                        for &choice in choices.iter().rev().flatten() {
                            waiting.push(state.clone());
                            if waiting.last_mut().is_some_and(|next| !next.choose(choice)) {
                                waiting.pop();
                            }
                        }
                        break;
                    }
                }
            }
        }
        Answer::No
    }

    /// A box that need not be turned: every layout of a square sheet can be mirrored along its diagonal, which leaves the order of
    /// equal boxes as it is.
    fn along_diagonal(&self) -> Option<usize> {
        let both = |ways: &Vec<[i64; 2]>| ways.len() > 1 || ways.iter().all(|way| way[0] == way[1]);
        let square = self.sheet[0] == self.sheet[1] && self.ways.iter().all(both);
        (0..self.kinds.len()).find(|&number| square && self.ways[number].len() > 1)
    }

    /// What leaves the least choice. Of pairs only those are worth one that lie on each other.
    fn next(&self, state: &Relations) -> Next {
        let count = self.kinds.len();
        let mut least: Option<(usize, [Option<RelationChoice>; 4])> = None;
        for one in 0..count {
            for two in (one + 1..count).filter(|&two| state.open(one, two)) {
                let choices = self.orders(state, one, two);
                let number = choices.iter().flatten().count();
                match choices.iter().flatten().next() {
                    None => return Next::Hopeless,
                    Some(&only) if number == 1 => return Next::Forced(only),
                    Some(_) if least.as_ref().is_none_or(|(least, _)| number < *least) && state.overlap(one, two) => {
                        least = Some((number, choices));
                    }
                    Some(_) => {}
                }
            }
        }
        let mut turns = None;
        for number in (0..count).filter(|&number| state.unturned(number)) {
            let way = |which: usize| {
                let way = self.ways[number].get(which)?;
                Some(RelationChoice::Turn(number, *way)).filter(|&choice| state.possible(choice))
            };
            match (way(0), way(1)) {
                (None, None) => return Next::Hopeless,
                (Some(only), None) | (None, Some(only)) => return Next::Forced(only),
                (first, second) if turns.is_none() => turns = Some([first, second, None, None]),
                _ => {}
            }
        }
        match (least, turns) {
            (Some((2, choices)), _) | (Some((_, choices)), None) | (_, Some(choices)) => Next::Branch(choices),
            (None, None) => Next::Laid,
        }
    }

    /// The relations of two boxes that are possible, and not the image of others that are looked at. The boxes of any layout can be
    /// put in an order in which each lies to the left of or below every later one (the second sequence of Murata, Fujiyoshi,
    /// Nakatake and Kajitani 1996), so equal ones are told apart by that.
    fn orders(&self, state: &Relations, one: usize, two: usize) -> [Option<RelationChoice>; 4] {
        let alike = self.kinds[one] == self.kinds[two];
        let order = |side: usize, first: usize, second: usize| {
            let image = first > second && (alike || self.mirrors && state.untouched(side));
            let choice = RelationChoice::Order(Precedence { side, first, second });
            (!image && state.possible(choice)).then_some(choice)
        };
        [order(0, one, two), order(1, one, two), order(0, two, one), order(1, two, one)]
    }

    fn placed(&self, state: &Relations) -> Vec<PlacedBox> {
        let put = |(number, &kind): (usize, &usize)| {
            let ([x, y], [width, height]) = state.place(number);
            PlacedBox { kind, x, y, width, height }
        };
        self.kinds.iter().enumerate().map(put).collect()
    }
}
