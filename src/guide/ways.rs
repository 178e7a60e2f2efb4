// SPDX-License-Identifier: MIT
//! By what sheets are cut: on a trimmer, by a machine, or some so and some so.

use super::bits::Block;
use super::desk::Desk;
use super::line::Line;
use crate::stock::By;

/// How sheets are cut, whichever they are; where some are cut on a trimmer and some by a machine, which.
pub(super) fn told(desk: &Desk<'_>) -> Vec<Block> {
    if desk.stocks.is_empty() {
        return vec![Block::Words(desk.tell("cut-no-sheets"))];
    }
    let all = [
        (desk.cut_by(By::Trimmer), "ways-trimmer", &["plan-words", "plan-words-names"][..]),
        (desk.cut_by(By::Machine), "ways-machine", &["machine-words"]),
    ];
    let both = all.iter().all(|(stocks, ..)| !stocks.is_empty());
    let mut blocks = Vec::new();
    for (stocks, which, words) in all.into_iter().filter(|(stocks, ..)| !stocks.is_empty()) {
        if both {
            let stocks = stocks.iter().map(|stock| Line::text(stock.name.clone())).collect();
            blocks.push(Block::Words(desk.say(which, vec![("stocks", desk.words.list(stocks))])));
        }
        blocks.extend(words.iter().map(|key| Block::Words(desk.tell(key))));
    }
    blocks
}
