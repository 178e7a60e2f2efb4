// SPDX-License-Identifier: MIT
//! Where pages end: between things, never within one that a page holds.

use super::placed::{Block, Page, Placed, What};

/// What stays on one page.
#[derive(Clone, Debug)]
pub(super) struct Piece<'a> {
    pub(super) block: Block<'a>,
    /// Room above it, unless it begins a page, mm.
    pub(super) before: f64,
    /// Whether what follows must stand on the same page.
    pub(super) keep: bool,
    /// Which of the heads stands above it where it begins a page.
    pub(super) under: Option<usize>,
}

impl<'a> Piece<'a> {
    pub(super) fn new(block: Block<'a>, before: f64) -> Self {
        Self { block, before, keep: false, under: None }
    }

    pub(super) fn kept(self) -> Self {
        Self { keep: true, ..self }
    }
}

/// Pages as they fill.
struct Pages<'a> {
    done: Vec<Page<'a>>,
    page: Block<'a>,
    height: f64,
}

/// As many pages of a height as the pieces take; `heads` are those of tables.
pub(super) fn flow<'a>(pieces: Vec<Piece<'a>>, heads: &[Block<'a>], height: f64) -> Vec<Page<'a>> {
    let mut pages = Pages { done: Vec::new(), page: Block::default(), height };
    let mut left = pieces.into_iter().peekable();
    while let Some(first) = left.next() {
        let mut together = vec![first];
        while together.last().is_some_and(|piece| piece.keep)
            && let Some(next) = left.next()
        {
            together.push(next);
        }
        let whole: f64 = together.iter().map(|piece| piece.before + piece.block.height).sum();
        let alone = whole - together.first().map_or(0.0, |piece| piece.before);
        // What no page holds together need not wait for the next one, unless little is left of this one.
        if pages.page.height + whole > height && (alone <= height || pages.page.height > height / 2.0) {
            pages.turn();
        }
        for piece in together {
            pages.add(piece, heads);
        }
    }
    pages.turn();
    pages.done
}

impl<'a> Pages<'a> {
    fn turn(&mut self) {
        if !self.page.placed.is_empty() {
            let page = std::mem::take(&mut self.page);
            self.done.push(Page { placed: page.placed });
        }
    }

    fn add(&mut self, piece: Piece<'a>, heads: &[Block<'a>]) {
        let head = piece.under.and_then(|under| heads.get(under));
        let mut block = piece.block;
        let mut begins = self.page.placed.is_empty();
        let mut before = piece.before;
        loop {
            if begins {
                before = 0.0;
                self.again(head, block.height);
            }
            let room = self.height - self.page.height - before;
            if block.height <= room + HAIR {
                break;
            }
            // What is higher than a page is parted where nothing is cut through.
            let parted = if block.height > self.height { part(&block, room) } else { None };
            if let Some((above, below)) = parted {
                self.page.below(above, 0.0, before);
                block = below;
            } else if begins {
                break;
            }
            self.turn();
            begins = true;
        }
        self.page.below(block, 0.0, before);
    }

    /// A table's head once more, where a page begins with one of its rows; not where it would take the row's room.
    fn again(&mut self, head: Option<&Block<'a>>, row: f64) {
        let room =
            |head: &&Block<'_>| if row > self.height { self.height / 2.0 } else { self.height - row } >= head.height;
        if let Some(head) = head.filter(room) {
            self.page.put(head.again(), 0.0, 0.0);
        }
    }
}

/// What of a block stands above a line, and what below it: the lowest line within the room that cuts through nothing but bars.
/// None where that would leave nothing above.
fn part<'a>(block: &Block<'a>, room: f64) -> Option<(Block<'a>, Block<'a>)> {
    let bar = |one: &Placed<'_>| matches!(one.what, What::Bar { .. });
    let mut cut = room;
    loop {
        let through = |one: &&Placed<'_>| !bar(one) && one.y < cut - HAIR && one.y + one.height > cut + HAIR;
        let Some(higher) = block.placed.iter().filter(through).map(|one| one.y).min_by(f64::total_cmp) else { break };
        cut = higher;
    }
    block.placed.iter().find(|one| !bar(one) && one.y + one.height <= cut + HAIR)?;
    let (mut above, mut below) = (Block { height: cut, ..Block::default() }, Block::default());
    below.height = block.height - cut;
    for one in &block.placed {
        let end = one.y + one.height;
        if end <= cut + HAIR {
            above.placed.push(one.clone());
        } else if one.y >= cut - HAIR {
            below.placed.push(Placed { y: one.y - cut, ..one.clone() });
        } else {
            above.placed.push(Placed { height: cut - one.y, ..one.clone() });
            below.placed.push(Placed { y: 0.0, height: end - cut, ..one.clone() });
        }
    }
    Some((above, below))
}

/// Closer than this, mm, is the same line.
const HAIR: f64 = 0.001;
