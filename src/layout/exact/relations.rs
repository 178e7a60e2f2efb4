// SPDX-License-Identifier: MIT
//! Relations: which of two boxes lies before which, to the left or below, and where that leaves each at the earliest.
//!
//! In: boxes, a sheet, one choice after the other. Out: what may still be chosen, and places. Never: takes a choice back; who
//! wants to try another goes on from a copy.
//!
//! Two boxes on a sheet lie beside or above each other, so a layout is a choice among four relations for each pair, and a turn for
//! each box. Along one side the relations are a network: its longest ways say where a box begins at the earliest, and how
//! much must follow (Onodera, Taniguchi and Tamaru 1991; Pisinger and Sigurd 2007).

/// No more boxes.
pub(crate) const MOST_RELATED: usize = 20;

/// One side of the sheet, with what every box takes of it.
#[derive(Clone)]
struct SideRelations {
    sheet: i64,
    /// The shorter way as long as no turn is chosen.
    size: [i64; MOST_RELATED],
    /// No box begins before this.
    early: [i64; MOST_RELATED],
    /// From where a box begins to the sheet's far edge it takes so much at least.
    tail: [i64; MOST_RELATED],
    /// The boxes that a box lies before, and those that lie before it.
    after: [u32; MOST_RELATED],
    before: [u32; MOST_RELATED],
    begun: bool,
}

impl SideRelations {
    fn new(sheet: i64, sizes: impl Iterator<Item = i64>) -> Self {
        let mut size = [0; MOST_RELATED];
        size.iter_mut().zip(sizes).for_each(|(size, given)| *size = given);
        let none = [0; MOST_RELATED];
        Self { sheet, size, early: [0; MOST_RELATED], tail: size, after: none, before: none, begun: false }
    }

    fn may_precede(&self, first: usize, second: usize) -> bool {
        self.early[first] + self.size[first] + self.tail[second] <= self.sheet
    }

    /// Whether a box may be so long.
    fn takes(&self, number: usize, size: i64) -> bool {
        self.early[number] + self.tail[number] - self.size[number] + size <= self.sheet
    }

    /// The same as below for all of these; false as soon as one goes beyond the sheet.
    fn all_begin(&mut self, numbers: u32, at: i64) -> bool {
        numbers == 0 || (0..MOST_RELATED).all(|number| numbers >> number & 1 == 0 || self.begins(number, at))
    }

    /// A box begins no earlier than this. False if that takes it beyond the sheet.
    fn begins(&mut self, number: usize, at: i64) -> bool {
        if at <= self.early[number] {
            return true;
        }
        self.early[number] = at;
        at + self.tail[number] <= self.sheet && self.all_begin(self.after[number], at + self.size[number])
    }

    /// A box and what follows take no less than this. False if that is more than there is.
    fn needs(&mut self, number: usize, length: i64) -> bool {
        if length <= self.tail[number] {
            return true;
        }
        self.tail[number] = length;
        let before = self.before[number];
        length + self.early[number] <= self.sheet
            && (before == 0
                || (0..MOST_RELATED)
                    .all(|other| before >> other & 1 == 0 || self.needs(other, length + self.size[other])))
    }

    fn grow(&mut self, number: usize, size: i64) -> bool {
        let more = size - self.size[number];
        if more <= 0 {
            return true;
        }
        self.size[number] = size;
        self.needs(number, self.tail[number] + more) && self.all_begin(self.after[number], self.early[number] + size)
    }

    fn precede(&mut self, first: usize, second: usize) -> bool {
        self.begun = true;
        self.after[first] |= 1 << second;
        self.before[second] |= 1 << first;
        self.begins(second, self.early[first] + self.size[first])
            && self.needs(first, self.tail[second] + self.size[first])
    }

    /// Whether two boxes, each at its earliest, take the same stretch.
    fn meet(&self, one: usize, two: usize) -> bool {
        self.early[one] < self.early[two] + self.size[two] && self.early[two] < self.early[one] + self.size[one]
    }
}

/// Along which side one box lies before another: 0 to the left, 1 below.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Precedence {
    pub(crate) side: usize,
    pub(crate) first: usize,
    pub(crate) second: usize,
}

/// One choice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum RelationChoice {
    Order(Precedence),
    /// How a box lies: its width and height.
    Turn(usize, [i64; 2]),
}

/// What has been chosen.
#[derive(Clone)]
pub(crate) struct Relations {
    sides: [SideRelations; 2],
    /// The boxes to which each has no relation yet.
    open: [u32; MOST_RELATED],
    /// The boxes that may lie in several ways yet.
    unturned: u32,
}

impl Relations {
    /// Nothing yet. `boxes` has the ways in which each may lie, [width, height]; no more than [`MOST_RELATED`] of them.
    pub(crate) fn new(sheet: [i64; 2], boxes: &[Vec<[i64; 2]>]) -> Self {
        let along = |side: usize| {
            let least = |ways: &Vec<[i64; 2]>| ways.iter().map(|way| way[side]).min().unwrap_or(0);
            SideRelations::new(sheet[side], boxes.iter().map(least))
        };
        let all = (1_u32 << boxes.len().min(MOST_RELATED)) - 1;
        let (mut open, mut unturned) = ([0; MOST_RELATED], 0);
        for (number, (open, ways)) in open.iter_mut().zip(boxes).enumerate() {
            *open = all & !(1 << number);
            unturned |= u32::from(ways.len() > 1) << number;
        }
        Self { sides: [along(0), along(1)], open, unturned }
    }

    /// Whether no relation of two boxes has been chosen.
    pub(crate) fn open(&self, one: usize, two: usize) -> bool {
        self.open[one] >> two & 1 == 1
    }

    /// Whether no turn of a box has been chosen.
    pub(crate) fn unturned(&self, number: usize) -> bool {
        self.unturned >> number & 1 == 1
    }

    /// Whether no two boxes have been ordered along a side, so that its mirror image is as good.
    pub(crate) fn untouched(&self, side: usize) -> bool {
        !self.sides[side].begun
    }

    /// Whether the sheet leaves room for a choice, as far as that is seen at once.
    pub(crate) fn possible(&self, choice: RelationChoice) -> bool {
        match choice {
            RelationChoice::Order(Precedence { side, first, second }) => self.sides[side].may_precede(first, second),
            RelationChoice::Turn(number, [width, height]) => {
                self.sides[0].takes(number, width) && self.sides[1].takes(number, height)
            }
        }
    }

    /// Chooses. False if there is no layout with that.
    pub(crate) fn choose(&mut self, choice: RelationChoice) -> bool {
        match choice {
            RelationChoice::Order(Precedence { side, first, second }) => {
                self.open[first] &= !(1 << second);
                self.open[second] &= !(1 << first);
                self.sides[side].precede(first, second)
            }
            RelationChoice::Turn(number, [width, height]) => {
                self.unturned &= !(1 << number);
                self.sides[0].grow(number, width) && self.sides[1].grow(number, height)
            }
        }
    }

    /// Whether two boxes lie on each other where each begins at its earliest.
    pub(crate) fn overlap(&self, one: usize, two: usize) -> bool {
        self.sides[0].meet(one, two) && self.sides[1].meet(one, two)
    }

    /// Where a box begins at the earliest, and its size.
    pub(crate) fn place(&self, number: usize) -> ([i64; 2], [i64; 2]) {
        let [across, upward] = &self.sides;
        ([across.early[number], upward.early[number]], [across.size[number], upward.size[number]])
    }
}
