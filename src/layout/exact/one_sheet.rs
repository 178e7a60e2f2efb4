// SPDX-License-Identifier: MIT
//! Exact search for one sheet: can these few boxes lie on it together? Tries everything that matters.
//!
//! In: boxes with the orientations they may take, a sheet, steps that may be spent. Out: their places, or that there are none, or
//! that the steps ran out. Never: says no before every case has been looked at.
//!
//! Two searches share the work: by relations where boxes differ, along a skyline where many are equal. Each settles in a
//! thousandth of the steps what the other cannot.

use crate::layout::exact::answer::{Answer, SameBoxes, spend, transposed};
use crate::layout::exact::relations::MOST_RELATED;
use crate::layout::exact::{relation_search, skyline_search};

/// More boxes than this are not tried.
pub(crate) const MOST_BOXES: usize = MOST_RELATED;

/// Looks for a layout of all boxes; takes what it needs from `steps`.
pub(crate) fn lie(batches: &[SameBoxes], width: i64, height: i64, steps: &mut u64) -> Answer {
    let total = batches.iter().map(|batch| batch.count).fold(0, usize::saturating_add);
    spend(steps, 1 + batches.len());
    if crowded(batches, width, height) || crowded(&transposed(batches), height, width) {
        return Answer::No;
    }
    if total > MOST_BOXES {
        return Answer::Unknown;
    }
    let kinds = batches.iter().filter(|batch| batch.count > 0).count();
    if kinds * 5 >= total * 3 {
        relation_search::lie(batches, width, height, steps)
    } else {
        skyline_search::lie(batches, width, height, steps)
    }
}

/// Boxes that cannot stand on each other and are too wide to stand side by side; or too much area; or one does not fit.
fn crowded(batches: &[SameBoxes], width: i64, height: i64) -> bool {
    let sheet = i128::from(width) * i128::from(height);
    let (mut area, mut row) = (0_i128, 0_i128);
    for batch in batches {
        let count = i128::try_from(batch.count).unwrap_or(i128::MAX);
        let fitting =
            || batch.orientations.iter().filter(|orientation| orientation.0 <= width && orientation.1 <= height);
        let Some(narrowest) = fitting().map(|orientation| orientation.0).min() else { return batch.count > 0 };
        area += i128::from(batch.area()) * count;
        if fitting().all(|orientation| 2 * orientation.1 > height) {
            row += i128::from(narrowest) * count;
        }
    }
    area > sheet || row > i128::from(width)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::exact::slow;
    use crate::layout::model::one_size::OneSizeProblem;
    use crate::layout::model::packing::PlacedBox;
    use crate::layout::random::Random;

    fn batches(problem: &OneSizeProblem) -> Vec<SameBoxes> {
        let batch = |(kind, one): (usize, &crate::layout::model::one_size::BoxType)| SameBoxes {
            kind,
            orientations: one.orientations.clone(),
            count: usize::try_from(one.count).unwrap_or(0),
        };
        problem.boxes.iter().enumerate().map(batch).collect()
    }

    /// Two thousand random loads by either search, against filling a board cell by cell; and what is said to lie does.
    #[test]
    fn the_slow_way_agrees() {
        let mut random = Random::new(2026);
        let mut said = [0; 2];
        for _ in 0..2000 {
            let problem = slow::problem(&mut random, 6);
            let counts: Vec<u64> = problem.boxes.iter().map(|kind| kind.count).collect();
            let (batches, [width, height]) = (batches(&problem), [problem.width, problem.height]);
            let fits = slow::lie(&problem, &counts);
            said[usize::from(fits)] += 1;
            let either = [
                lie(&batches, width, height, &mut u64::MAX.clone()),
                relation_search::lie(&batches, width, height, &mut u64::MAX.clone()),
                skyline_search::lie(&batches, width, height, &mut u64::MAX.clone()),
            ];
            for answer in either {
                match answer {
                    Answer::Yes(placed) => {
                        assert!(fits, "{problem:?}");
                        sound(&problem, &placed);
                    }
                    Answer::No => assert!(!fits, "{problem:?}"),
                    Answer::Unknown => panic!("no steps were missing: {problem:?}"),
                }
            }
        }
        assert!(said.iter().all(|&number| number > 300), "{said:?}");
    }

    fn sound(problem: &OneSizeProblem, placed: &[PlacedBox]) {
        for (number, one) in placed.iter().enumerate() {
            assert!(problem.boxes[one.kind].orientations.contains(&(one.width, one.height)));
            assert!(one.x >= 0 && one.y >= 0);
            assert!(one.x + one.width <= problem.width && one.y + one.height <= problem.height);
            for other in &placed[..number] {
                let beside = one.x + one.width <= other.x || other.x + other.width <= one.x;
                assert!(beside || one.y + one.height <= other.y || other.y + other.height <= one.y, "{placed:?}");
            }
        }
        for (kind, one) in problem.boxes.iter().enumerate() {
            let there = placed.iter().filter(|put| put.kind == kind).count();
            assert_eq!(u64::try_from(there).ok(), Some(one.count));
        }
    }

    /// A full board of 4 x 5 with three equal strips, and two that may turn: found only if the order of equal boxes is not taken
    /// for that of their mirror image as well. One of some thousand random loads that told the two apart.
    #[test]
    fn equal_boxes_are_not_mirrored_besides() {
        let same = |kind: usize, orientations: &[(i64, i64)], count: usize| SameBoxes {
            kind,
            orientations: orientations.to_vec(),
            count,
        };
        let boxes =
            [same(0, &[(1, 1)], 1), same(1, &[(3, 1)], 3), same(2, &[(2, 2)], 1), same(3, &[(1, 3), (3, 1)], 2)];
        let answer = relation_search::lie(&boxes, 4, 5, &mut u64::MAX.clone());
        assert!(matches!(answer, Answer::Yes(placed) if placed.len() == 7));
    }

    /// Four boxes of 3 x 2 lie around a square that stays free, which no straight cut parts; worked by hand.
    #[test]
    fn a_pinwheel_is_found_and_no_more() {
        let wheel = |count: usize| [SameBoxes { kind: 0, orientations: vec![(3, 2), (2, 3)], count }];
        let mut steps = 10_000;
        assert!(matches!(lie(&wheel(4), 5, 5, &mut steps), Answer::Yes(_)));
        assert_eq!(lie(&wheel(5), 5, 5, &mut steps), Answer::No);
        assert_eq!(lie(&wheel(4), 5, 5, &mut 3), Answer::Unknown);
    }
}
