// SPDX-License-Identifier: MIT
//! By how much a part differs from what it was.

use super::edition::EditionPart;
use super::measured_score::MeasuredScore;
use crate::length::tolerance::{READ, SAME};

/// In what a part differs; each pair is what it was and what it is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Difference {
    /// What it is.
    pub kind: Option<[String; 2]>,
    /// Its stock.
    pub stock: Option<[String; 2]>,
    /// Its width, mm.
    pub width: Option<[f64; 2]>,
    /// Its height, mm.
    pub height: Option<[f64; 2]>,
    /// How many a kit needs.
    pub count: Option<[u32; 2]>,
    /// Its scores.
    pub scores: Vec<ScoreChange>,
    /// Its area, mm².
    pub area: Option<[f64; 2]>,
    /// Whether it is cut another way though nothing of the above says so: corners, notches, holes.
    pub outline: bool,
}

/// What became of a score.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ScoreChange {
    /// It lies elsewhere: where it was, where it is.
    Moved(MeasuredScore, MeasuredScore),
    /// It is folded the other way: as it was, as it is.
    Refolded(MeasuredScore, MeasuredScore),
    /// There was none.
    New(MeasuredScore),
    /// There is none any more.
    Gone(MeasuredScore),
}

impl ScoreChange {
    /// How far it moved, mm.
    fn moved(&self) -> f64 {
        match self {
            Self::Moved(was, is) => was.place.apart(&is.place),
            Self::Refolded(..) | Self::New(_) | Self::Gone(_) => 0.0,
        }
    }
}

impl Difference {
    pub(super) fn of(was: &EditionPart, is: &EditionPart) -> Self {
        let word = |was: &String, is: &String| (was != is).then(|| [was.clone(), is.clone()]);
        let number = |was: f64, is: f64| ((was - is).abs() >= SAME).then_some([was, is]);
        let scores = fewest(was, is);
        let (width, height) = (number(was.width, is.width), number(was.height, is.height));
        let said = width.is_some() || height.is_some() || !scores.is_empty();
        Self {
            kind: word(&was.kind, &is.kind),
            stock: word(&was.stock, &is.stock),
            width,
            height,
            count: (was.count != is.count).then_some([was.count, is.count]),
            scores,
            // An area is a product, with the noise of one.
            area: ((was.area - is.area).abs() >= READ).then_some([was.area, is.area]),
            outline: was.digest != is.digest && was.turned.as_ref() != Some(&is.digest) && !said,
        }
    }
}

/// The scores' changes. A part that serves upside down as well may have been stated so before: the way that changes less counts.
fn fewest(was: &EditionPart, is: &EditionPart) -> Vec<ScoreChange> {
    let as_made = scores(&was.scores, &is.scores);
    let turned = is.turned.as_ref().and(was.turned_scores()).map(|was| scores(&was, &is.scores));
    let moved = |changes: &[ScoreChange]| -> f64 { changes.iter().map(ScoreChange::moved).sum() };
    let less = |turned: &Vec<ScoreChange>| {
        turned.len().cmp(&as_made.len()).then(moved(turned).total_cmp(&moved(&as_made))).is_lt()
    };
    turned.filter(less).unwrap_or(as_made)
}

/// Scores that stay are left out. Of the rest one at the same place is folded the other way; then those of one way and sense
/// are taken in their order: each has moved, and what has no partner came or went.
fn scores(was: &[MeasuredScore], is: &[MeasuredScore]) -> Vec<ScoreChange> {
    let (mut was, mut is) = (was.to_vec(), is.to_vec());
    take_pairs(&mut was, &mut is, |one, other| one.sense == other.sense && one.place.is(&other.place));
    let refolded = take_pairs(&mut was, &mut is, |one, other| one.place.is(&other.place));
    let moved =
        take_pairs(&mut was, &mut is, |one, other| one.sense == other.sense && one.place.way() == other.place.way());
    let mut changes: Vec<ScoreChange> = moved.into_iter().map(|(was, is)| ScoreChange::Moved(was, is)).collect();
    changes.extend(refolded.into_iter().map(|(was, is)| ScoreChange::Refolded(was, is)));
    changes.extend(is.into_iter().map(ScoreChange::New));
    changes.extend(was.into_iter().map(ScoreChange::Gone));
    changes
}

/// Takes out of both lists what belongs together.
fn take_pairs(
    was: &mut Vec<MeasuredScore>,
    is: &mut Vec<MeasuredScore>,
    together: impl Fn(&MeasuredScore, &MeasuredScore) -> bool,
) -> Vec<(MeasuredScore, MeasuredScore)> {
    let mut pairs = Vec::new();
    was.retain(|one| {
        let Some(at) = is.iter().position(|other| together(one, other)) else { return true };
        pairs.push((*one, is.remove(at)));
        false
    });
    pairs
}
