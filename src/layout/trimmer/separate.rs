// SPDX-License-Identifier: MIT
//! Guillotine separation: where boxes can be parted by cuts from edge to edge.
//!
//! In: numbered boxes that do not overlap. Out: groups that parallel cuts part. Never: moves a box.

use crate::layout::model::rect::Rect;

use crate::layout::model::cut_tree::CutDirection;

/// Parts boxes by all the cuts of one direction that cross none of them; groups from left to right or bottom to top.
pub(crate) fn apart(members: &[(usize, Rect)], way: CutDirection) -> Vec<Vec<(usize, Rect)>> {
    let ends = |rect: &Rect| match way {
        CutDirection::Upright => (rect.left, rect.right),
        CutDirection::Level => (rect.bottom, rect.top),
    };
    let mut sorted = members.to_vec();
    sorted.sort_unstable_by_key(|(number, rect)| (ends(rect), *number));
    let mut groups: Vec<Vec<(usize, Rect)>> = Vec::new();
    let mut reached = i64::MIN;
    for (number, rect) in sorted {
        let (from, to) = ends(&rect);
        match groups.last_mut() {
            Some(group) if from < reached => group.push((number, rect)),
            _ => groups.push(vec![(number, rect)]),
        }
        reached = reached.max(to);
    }
    groups
}

/// Whether edge-to-edge cuts part all boxes from each other.
pub(crate) fn separable(members: &[(usize, Rect)]) -> bool {
    if members.len() < 4 {
        return true;
    }
    [CutDirection::Upright, CutDirection::Level].into_iter().any(|way| {
        let groups = apart(members, way);
        // Cuts never stand in each other's way, so the first that can be made are as good as any.
        groups.len() > 1 && groups.iter().all(|group| separable(group))
    })
}
