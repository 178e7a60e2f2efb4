// SPDX-License-Identifier: MIT
//! Cut planning: the cuts that take a laid sheet apart.
//!
//! In: a sheet's boxes, which edge-to-edge cuts can part. Out: the cut tree, with few cuts and few settings of the
//! trimmer's stop, and the boxes where that tree leaves them. Never: cuts a box.

use std::collections::BTreeSet;

use crate::layout::heuristic::max_rects::empty_rects;
use crate::layout::model::cut_tree::{CutDirection, CutNode, CutTree};

use crate::layout::model::instance::Instance;
use crate::layout::model::packing::{PackedSheet, PlacedBox};
use crate::layout::model::rect::Rect;
use crate::layout::trimmer::separate::{apart, separable};

/// Rectangles that are tried in two directions before the first direction has to do.
const MOST_TRIED: usize = 3_000;
/// The same where layouts are only compared.
const FEW_TRIED: usize = 300;
/// Number of the offcut that is kept whole.
const OFFCUT: usize = usize::MAX;

/// The largest empty rectangle that can be cut out whole; grown by the gap, as boxes are.
pub(crate) fn largest_offcut(instance: &Instance, laid: &PackedSheet) -> Option<Rect> {
    /// No more empty rectangles are tried.
    const MOST_EMPTY: usize = 12;
    let mut members: Vec<(usize, Rect)> = laid.placed.iter().map(PlacedBox::rect).enumerate().collect();
    let mut empty = empty_rects(instance, laid);
    empty.sort_by_key(|rect| (std::cmp::Reverse(rect.area()), rect.bottom, rect.left, rect.right));
    empty.into_iter().take(MOST_EMPTY).find(|&rect| {
        members.push((OFFCUT, rect));
        let whole = separable(&members);
        members.pop();
        whole
    })
}

/// How many cuts a laid sheet takes, and the settings of the stop. `None` if edge-to-edge cuts cannot part its boxes.
pub(crate) fn work(instance: &Instance, laid: &PackedSheet) -> Option<(usize, BTreeSet<i64>)> {
    let plan = plan(instance, laid, FEW_TRIED)?;
    Some((plan.cuts, plan.stops))
}

fn plan(instance: &Instance, laid: &PackedSheet, tries: usize) -> Option<CutPlan> {
    let size = &instance.sizes[laid.size];
    let mut members: Vec<(usize, Rect)> = laid.placed.iter().map(PlacedBox::rect).enumerate().collect();
    // An offcut that nobody would keep is not worth a cut.
    let kept = |rect: &Rect| (rect.width() - instance.gap) * (rect.height() - instance.gap) >= size.area() / 16;
    let offcut = largest_offcut(instance, laid).filter(|rect| rect.width() > instance.gap && kept(rect));
    members.extend(offcut.map(|rect| (OFFCUT, rect)));
    Planner { gap: instance.gap, tries }.take_apart(Rect::new(0, 0, size.width, size.height), members)
}

/// The cuts of a laid sheet, and its boxes where these leave them. `None` if edge-to-edge cuts cannot part them.
pub(crate) fn cuts(instance: &Instance, laid: &PackedSheet) -> Option<(CutTree, Vec<PlacedBox>)> {
    let plan = plan(instance, laid, MOST_TRIED)?;
    let mut placed: Vec<(usize, PlacedBox)> = laid.placed.iter().copied().enumerate().collect();
    for (number, x, y) in plan.places {
        (placed[number].1.x, placed[number].1.y) = (x, y);
    }
    // From bottom to top, as in every layout.
    placed.sort_unstable_by_key(|(_, put)| (put.y, put.x));
    let mut numbers = vec![0; placed.len()];
    for (new, &(old, _)) in placed.iter().enumerate() {
        numbers[old] = new;
    }
    let mut piece = plan.piece;
    piece.renumber(&numbers);
    Some((piece, placed.into_iter().map(|(_, put)| put).collect()))
}

/// A way to cut a rectangle, and how good it is.
struct CutPlan {
    cuts: usize,
    /// Distances that the trimmer's stop is set to.
    stops: BTreeSet<i64>,
    piece: CutTree,
    places: Vec<(usize, i64, i64)>,
}

struct Planner {
    gap: i64,
    /// Rectangles that are still tried in both directions.
    tries: usize,
}

impl Planner {
    fn offcut(&self, rect: &Rect) -> CutPlan {
        let size = [rect.width(), rect.height()].map(|side| (side - self.gap).max(0));
        let piece = CutTree::Offcut([rect.left, rect.bottom, size[0], size[1]]);
        CutPlan { cuts: 0, stops: BTreeSet::new(), piece, places: Vec::new() }
    }

    /// Cuts a rectangle that holds these boxes. They are pushed left and down in it as far as they go together.
    fn take_apart(&mut self, whole: Rect, mut members: Vec<(usize, Rect)>) -> Option<CutPlan> {
        let left = members.iter().map(|(_, rect)| rect.left).min()? - whole.left;
        let bottom = members.iter().map(|(_, rect)| rect.bottom).min()? - whole.bottom;
        for (_, rect) in &mut members {
            *rect = Rect::new(rect.left - left, rect.bottom - bottom, rect.width(), rect.height());
        }
        if let [(number, rect)] = members[..]
            && rect == whole
        {
            if number == OFFCUT {
                return Some(self.offcut(&whole));
            }
            let places = vec![(number, rect.left, rect.bottom)];
            return Some(CutPlan { cuts: 0, stops: BTreeSet::new(), piece: CutTree::Part(number), places });
        }
        let mut best: Option<CutPlan> = None;
        for way in [CutDirection::Level, CutDirection::Upright] {
            if best.is_some() && self.tries == 0 {
                break;
            }
            self.tries = self.tries.saturating_sub(1);
            if let Some(plan) = self.cut(&whole, &members, way)
                && best.as_ref().is_none_or(|best| (plan.cuts, plan.stops.len()) < (best.cuts, best.stops.len()))
            {
                best = Some(plan);
            }
        }
        best
    }

    /// All cuts of one direction; `None` if there are none or they lead nowhere.
    fn cut(&mut self, whole: &Rect, members: &[(usize, Rect)], way: CutDirection) -> Option<CutPlan> {
        let groups = apart(members, way);
        let near = |rect: &Rect| if way == CutDirection::Upright { rect.left } else { rect.bottom };
        let far = |rect: &Rect| if way == CutDirection::Upright { rect.right } else { rect.top };
        // Where each piece begins; a last one for what is left over.
        let mut begins: Vec<i64> =
            groups.iter().filter_map(|group| group.iter().map(|(_, rect)| near(rect)).min()).collect();
        let used = members.iter().map(|(_, rect)| far(rect)).max()?;
        if used < far(whole) {
            begins.push(used);
        }
        if begins.len() < 2 {
            return None;
        }
        let mut plan = CutPlan {
            cuts: begins.len() - 1,
            stops: begins.windows(2).map(|pair| pair[1] - pair[0] - self.gap).collect(),
            piece: CutTree::Offcut([0; 4]),
            places: Vec::new(),
        };
        let mut pieces = Vec::with_capacity(begins.len());
        let mut groups = groups.into_iter();
        for (number, &from) in begins.iter().enumerate() {
            let to = begins.get(number + 1).copied().unwrap_or_else(|| far(whole));
            let rect = match way {
                CutDirection::Upright => Rect { left: from, right: to, ..*whole },
                CutDirection::Level => Rect { bottom: from, top: to, ..*whole },
            };
            let inner = match groups.next() {
                Some(group) => self.take_apart(rect, group)?,
                None => self.offcut(&rect),
            };
            plan.cuts += inner.cuts;
            plan.stops.extend(inner.stops);
            plan.places.extend(inner.places);
            pieces.push(inner.piece);
        }
        plan.piece = CutTree::Cut(CutNode {
            left: whole.left,
            bottom: whole.bottom,
            width: whole.width() - self.gap,
            height: whole.height() - self.gap,
            way,
            at: begins[1..].iter().map(|at| at - self.gap).collect(),
            pieces,
        });
        Some(plan)
    }
}
