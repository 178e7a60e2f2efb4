// SPDX-License-Identifier: MIT
//! Where pages end: between things, never within one that a page holds.

use super::placed::{FlowBlock, PlacedContent, TypesetBlock, TypesetContent, TypesetPage};
use super::step::StepRun;

/// What follows one another on pages.
pub(super) enum Flow<'a> {
    /// A block.
    Block(FlowBlock<'a>),
    /// Steps, so far below what is above them and each other: how many stand side by side follows from where pages end.
    Steps(StepRun<'a>, f64),
}

/// Pages as they fill.
struct Pagination<'a> {
    done: Vec<TypesetPage<'a>>,
    page: TypesetBlock<'a>,
    height: f64,
}

/// As many pages of a height as all takes; `heads` are those of tables.
pub(super) fn paginate<'a>(flow: Vec<Flow<'a>>, heads: &[TypesetBlock<'a>], height: f64) -> Vec<TypesetPage<'a>> {
    let mut pages = Pagination { done: Vec::new(), page: TypesetBlock::default(), height };
    let mut together: Vec<FlowBlock<'a>> = Vec::new();
    for next in flow {
        match next {
            Flow::Block(block) => {
                together.push(block);
                if together.last().is_some_and(|one| !one.keep) {
                    pages.add_together(std::mem::take(&mut together), heads);
                }
            }
            Flow::Steps(run, before) => pages.add_steps(std::mem::take(&mut together), (run, before), heads),
        }
    }
    pages.add_together(together, heads);
    pages.turn();
    pages.done
}

impl<'a> Pagination<'a> {
    fn turn(&mut self) {
        if !self.page.placed.is_empty() {
            let page = std::mem::take(&mut self.page);
            self.done.push(TypesetPage { placed: page.placed });
        }
    }

    /// Blocks that stand on one page.
    fn add_together(&mut self, together: Vec<FlowBlock<'a>>, heads: &[TypesetBlock<'a>]) {
        let whole: f64 = together.iter().map(|one| one.before + one.block.height).sum();
        let alone = whole - together.first().map_or(0.0, |one| one.before);
        // What no page holds together need not wait for the next one, unless little is left of this one.
        if self.page.height + whole > self.height && (alone <= self.height || self.page.height > self.height / 2.0) {
            self.turn();
        }
        for one in together {
            self.add(one, heads);
        }
    }

    /// Steps, and what must stand on the page of the first of them.
    fn add_steps(&mut self, led: Vec<FlowBlock<'a>>, (run, before): (StepRun<'a>, f64), heads: &[TypesetBlock<'a>]) {
        let own: f64 = led.iter().map(|one| one.before + one.block.height).sum();
        let high = self.height;
        let mut rows = run.rows(self.page.height + own, high, before);
        let first = run.height(rows.first().copied());
        if !led.is_empty() && !self.page.placed.is_empty() && self.page.height + own + before + first > high {
            self.turn();
            rows = run.rows(own - led.first().map_or(0.0, |one| one.before), high, before);
        }
        for one in led {
            self.add(one, heads);
        }
        for row in run.set(&rows) {
            self.add(FlowBlock::new(row, before), heads);
        }
    }

    fn add(&mut self, one: FlowBlock<'a>, heads: &[TypesetBlock<'a>]) {
        let head = one.under.and_then(|under| heads.get(under));
        let mut block = one.block;
        let mut begins = self.page.placed.is_empty();
        let mut before = one.before;
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
                // Where all words have had room, no page is begun for the rule below them.
                if below.placed.iter().all(is_bar) {
                    return;
                }
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
    fn again(&mut self, head: Option<&TypesetBlock<'a>>, row: f64) {
        let room =
            |head: &&TypesetBlock<'_>| if row > self.height { self.height / 2.0 } else { self.height - row } >= head.height;
        if let Some(head) = head.filter(room) {
            self.page.put(head.again(), 0.0, 0.0);
        }
    }
}

fn is_bar(one: &PlacedContent<'_>) -> bool {
    matches!(one.what, TypesetContent::Bar { .. })
}

/// What of a block stands above a line, and what below it: the lowest line within the room that cuts through nothing but bars.
/// None where that would leave nothing above.
fn part<'a>(block: &TypesetBlock<'a>, room: f64) -> Option<(TypesetBlock<'a>, TypesetBlock<'a>)> {
    let mut cut = room;
    loop {
        let through = |one: &&PlacedContent<'_>| !is_bar(one) && one.y < cut - HAIR && one.y + one.height > cut + HAIR;
        let Some(higher) = block.placed.iter().filter(through).map(|one| one.y).min_by(f64::total_cmp) else { break };
        cut = higher;
    }
    block.placed.iter().find(|one| !is_bar(one) && one.y + one.height <= cut + HAIR)?;
    let (mut above, mut below) = (TypesetBlock { height: cut, ..TypesetBlock::default() }, TypesetBlock::default());
    below.height = block.height - cut;
    for one in &block.placed {
        let end = one.y + one.height;
        if end <= cut + HAIR {
            above.placed.push(one.clone());
        } else if one.y >= cut - HAIR {
            below.placed.push(PlacedContent { y: one.y - cut, ..one.clone() });
        } else {
            above.placed.push(PlacedContent { height: cut - one.y, ..one.clone() });
            below.placed.push(PlacedContent { y: 0.0, height: end - cut, ..one.clone() });
        }
    }
    Some((above, below))
}

/// Closer than this, mm, is the same line.
const HAIR: f64 = 0.001;
