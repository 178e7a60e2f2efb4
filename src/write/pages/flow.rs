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
        // What no page holds together need not wait for the next one.
        if pages.page.height + whole > height && alone <= height {
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
        let begins = self.page.placed.is_empty();
        if !begins && self.page.height + piece.before + piece.block.height > self.height {
            self.turn();
        }
        let before = if self.page.placed.is_empty() { self.again(&piece, heads) } else { piece.before };
        let mut block = piece.block;
        // What is higher than a page is parted where nothing is cut through.
        while self.page.height + before + block.height > self.height {
            let room = self.height - self.page.height - before;
            let (above, below) = part(block, room);
            self.page.below(above, 0.0, before);
            self.turn();
            block = below;
        }
        self.page.below(block, 0.0, before);
    }

    /// The table's head once more, where a page begins with one of its rows; the room below it.
    fn again(&mut self, piece: &Piece<'a>, heads: &[Block<'a>]) -> f64 {
        let head = piece.under.and_then(|under| heads.get(under));
        // A head so high that it leaves no room for its rows stands once.
        let Some(head) = head.filter(|head| head.height * 2.0 < self.height) else { return 0.0 };
        self.page.put(head.again(), 0.0, 0.0);
        piece.before
    }
}

/// What of a block stands above a line, and what below it: the lowest line within the room that cuts through nothing but bars.
fn part(block: Block<'_>, room: f64) -> (Block<'_>, Block<'_>) {
    let bar = |one: &Placed<'_>| matches!(one.what, What::Bar { .. });
    let mut cut = room;
    loop {
        let through = |one: &&Placed<'_>| !bar(one) && one.y < cut - HAIR && one.y + one.height > cut + HAIR;
        let Some(higher) = block.placed.iter().filter(through).map(|one| one.y).min_by(f64::total_cmp) else { break };
        cut = higher;
    }
    if cut <= HAIR {
        // Its first thing alone is higher than the room: that, and what stands beside it, goes over the edge for want of a better place.
        cut = block.placed.iter().filter(|one| !bar(one)).map(|one| one.y + one.height).fold(block.height, f64::min);
    }
    let (mut above, mut below) = (Block { height: cut, ..Block::default() }, Block::default());
    below.height = block.height - cut;
    for one in block.placed {
        let end = one.y + one.height;
        if end <= cut + HAIR {
            above.placed.push(one);
        } else if one.y >= cut - HAIR {
            below.placed.push(Placed { y: one.y - cut, ..one });
        } else {
            below.placed.push(Placed { y: 0.0, height: end - cut, ..one.clone() });
            above.placed.push(Placed { height: cut - one.y, ..one });
        }
    }
    (above, below)
}

/// Closer than this, mm, is the same line.
const HAIR: f64 = 0.001;
