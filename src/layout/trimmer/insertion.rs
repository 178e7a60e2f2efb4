// SPDX-License-Identifier: MIT
//! Insertion into a slicing tree: every place where one more box may be added (compare Fleszar 2013).
//!
//! In: a tree, the least size of a box. Out: the places, each with the room there is; the tree with a box more. Never: decides
//! where a box goes.

use super::slicing_tree::{Form, SimpleBlock, SlicingNode, SlicingTree, node};

/// Where a box may be added.
#[derive(Clone, Copy, Debug)]
enum Site {
    /// On an empty sheet.
    First,
    /// As the last member of this row or column.
    Last(usize),
    /// The nodes from the first up to the second become one member, the box another, of a new row or column.
    Beside(usize, usize, Form),
}

/// A place where a box may be added: the space there is, and what the box would stand next to.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Insertion {
    pub(crate) width: i64,
    pub(crate) height: i64,
    /// Size of the neighbour.
    pub(crate) by: (i64, i64),
    /// The box comes to stand beside the neighbour, not above it.
    pub(crate) beside: bool,
    site: Site,
}

/// In a row or column with more members than this, only runs from its first member are joined.
const MOST_JOINED: usize = 6;

impl SlicingTree {
    /// Adds a block at a place of this very tree.
    pub(crate) fn add(&mut self, place: &Insertion, block: SimpleBlock) {
        let leaf = node(Form::Block(block), 1);
        match place.site {
            Site::First => self.nodes.push(leaf),
            Site::Last(parent) => {
                let end = parent + self.nodes[parent].span;
                self.widen(parent + 1, parent, 1);
                self.nodes.insert(end, leaf);
            }
            Site::Beside(from, to, form) => {
                let joined = self.nodes[from].span < to - from;
                self.widen(from, from, if joined { 3 } else { 2 });
                self.nodes.insert(to, leaf);
                if joined {
                    self.nodes.insert(from, node(form.other(), to - from + 1));
                }
                self.nodes.insert(from, node(form, to - from + if joined { 3 } else { 2 }));
            }
        }
        self.measure();
    }

    /// Makes all nodes before `end` whose members include node `inside` longer.
    fn widen(&mut self, end: usize, inside: usize, by: usize) {
        for (number, node) in self.nodes[..end].iter_mut().enumerate() {
            if number + node.span > inside {
                node.span += by;
            }
        }
    }

    /// Lists every place that takes a box of at least this width and height.
    pub(crate) fn insertions(&self, width: i64, height: i64, list: &mut Vec<Insertion>) {
        list.clear();
        let Some(root) = self.nodes.first() else {
            let site = Site::First;
            list.push(Insertion { width: self.width, height: self.height, by: (0, 0), beside: true, site });
            return;
        };
        let mut offers = Offers { width, height, list };
        let all = (root.width, root.height);
        if root.form != Form::Row {
            offers.offer(beside(0, root.span, all, root));
        }
        if root.form != Form::Column {
            offers.offer(above(0, root.span, all, root));
        }
        for (number, parent) in self.nodes.iter().enumerate() {
            if parent.form.is_block() {
                continue;
            }
            let by = (parent.width, parent.height);
            let site = Site::Last(number);
            offers.offer(if parent.form == Form::Row {
                Insertion { width: parent.wider, height: parent.height + parent.taller, by, beside: true, site }
            } else {
                Insertion { width: parent.width + parent.wider, height: parent.taller, by, beside: false, site }
            });
            self.across_members(number, &mut offers);
        }
    }

    /// Offers the places above members of a row, or beside those of a column: above one, or above several next to each other.
    fn across_members(&self, number: usize, offers: &mut Offers) {
        let parent = &self.nodes[number];
        let row = parent.form == Form::Row;
        let across = |from, to, size| if row { above(from, to, size, parent) } else { beside(from, to, size, parent) };
        let end = number + parent.span;
        let (mut from, mut members) = (number + 1, 0);
        while from < end {
            members += 1;
            let (mut to, mut size, mut joined) = (from, (0, 0), 0);
            while to < end {
                let member = &self.nodes[to];
                to += member.span;
                joined += 1;
                size = if row {
                    (size.0 + member.width, size.1.max(member.height))
                } else {
                    (size.0.max(member.width), size.1 + member.height)
                };
                // One member that is a row or column itself has been asked above; all members are the parent.
                if (joined == 1 && !member.form.is_block()) || (from == number + 1 && to == end) {
                    continue;
                }
                offers.offer(across(from, to, size));
                if joined >= MOST_JOINED && from > number + 1 {
                    break;
                }
            }
            from += self.nodes[from].span;
            // Of a long row only its members one by one are left to ask.
            while members >= MOST_JOINED && from < end {
                let member = &self.nodes[from];
                let (to, size) = (from + member.span, (member.width, member.height));
                if member.form.is_block() {
                    offers.offer(across(from, to, size));
                }
                from = to;
            }
        }
    }
}

/// The places that take a box of at least this width and height.
struct Offers<'a> {
    width: i64,
    height: i64,
    list: &'a mut Vec<Insertion>,
}

impl Offers<'_> {
    #[inline]
    fn offer(&mut self, place: Insertion) {
        if place.width >= self.width && place.height >= self.height {
            self.list.push(place);
        }
    }
}

/// Above the nodes from one up to another, which are so large together.
fn above(from: usize, to: usize, size: (i64, i64), parent: &SlicingNode) -> Insertion {
    let site = Site::Beside(from, to, Form::Column);
    let width = size.0 + parent.wider;
    Insertion { width, height: parent.height + parent.taller - size.1, by: size, beside: false, site }
}

/// Beside the nodes from one up to another, which are so large together.
fn beside(from: usize, to: usize, size: (i64, i64), parent: &SlicingNode) -> Insertion {
    let site = Site::Beside(from, to, Form::Row);
    let height = size.1 + parent.taller;
    Insertion { width: parent.width + parent.wider - size.0, height, by: size, beside: true, site }
}
