// SPDX-License-Identifier: MIT
//! Several sheets on one bed: where each of them lies.
//!
//! Places are stated, or found: side by side and row upon row from the bed's lower left, as the sheets stand or all of them
//! a quarter turned, whichever way takes more.

use super::Cutter;
use crate::contour::Rect;
use crate::length::Length;
use crate::length::tolerance::SAME;

/// How many sheets lie on a bed at once.
#[derive(Clone, Debug, PartialEq)]
pub enum SheetsABed {
    /// As many as it takes.
    Fill,
    /// So many.
    Count(u32),
    /// One at each of these places: the lower left of a sheet as it stands, from the bed's own.
    At(Vec<(Length, Length)>),
}

/// Where a sheet lies on a bed: mm, y up, from the bed's lower left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BedPlace {
    /// Left edge.
    pub x: f64,
    /// Lower edge.
    pub y: f64,
    /// Whether the sheet lies a quarter turned, counter-clockwise.
    pub turned: bool,
}

/// Why sheets can't lie on a bed as it is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BedProblem {
    /// It takes no more than so many.
    Fewer(u32),
    /// At this place, counted from 1, a sheet sticks out of it.
    Outside(usize),
    /// At these places sheets lie on each other.
    Overlap(usize, usize),
}

impl Cutter {
    /// Where sheets of these sides lie on the bed, where several are to lie on it.
    ///
    /// # Errors
    /// They can't lie as it is asked for.
    ///
    /// ```
    /// use hingeleaf::cutter::{Cutter, SheetsABed};
    /// use hingeleaf::length::Length;
    /// let mm = Length::from_mm;
    /// let bed = Some((mm(610.0), mm(420.0)));
    /// let cutter = Cutter { bed, sheets_a_bed: Some(SheetsABed::Fill), ..Cutter::default() };
    /// // Two of A4 side by side as they stand, with a second row none; turned 2 x 2 of them.
    /// assert_eq!(cutter.bed_places(mm(210.0), mm(297.0)).map(|places| places.len()), Ok(4));
    /// ```
    pub fn bed_places(&self, width: Length, height: Length) -> Result<Vec<BedPlace>, BedProblem> {
        let (Some(asked), Some((across, up))) = (&self.sheets_a_bed, self.bed) else { return Ok(Vec::new()) };
        let (bed, sheet) = ((across.mm(), up.mm()), (width.mm(), height.mm()));
        match asked {
            SheetsABed::Fill => Ok(grid(bed, sheet)),
            SheetsABed::Count(count) => {
                let mut places = grid(bed, sheet);
                let wanted = usize::try_from(*count).unwrap_or(usize::MAX);
                if places.len() < wanted {
                    return Err(BedProblem::Fewer(u32::try_from(places.len()).unwrap_or(u32::MAX)));
                }
                places.truncate(wanted);
                Ok(places)
            }
            SheetsABed::At(places) => {
                let places: Vec<BedPlace> =
                    places.iter().map(|(x, y)| BedPlace { x: x.mm(), y: y.mm(), turned: false }).collect();
                stated(&places, bed, sheet).map_or(Ok(places), Err)
            }
        }
    }
}

/// As many places as there is room for, all the same way round.
fn grid(bed: (f64, f64), (width, height): (f64, f64)) -> Vec<BedPlace> {
    let way = |(width, height): (f64, f64), turned: bool| {
        let many = |bed: f64, side: f64| if side > 0.0 { ((bed + SAME) / side).floor().clamp(0.0, MOST) } else { 0.0 };
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count within a limit")]
        let (across, up) = (many(bed.0, width) as u32, many(bed.1, height) as u32);
        let row = move |row: u32| (0..across).map(move |column| (f64::from(column) * width, f64::from(row) * height));
        (0..up).flat_map(row).map(|(x, y)| BedPlace { x, y, turned }).collect::<Vec<_>>()
    };
    let (stands, turned) = (way((width, height), false), way((height, width), true));
    if turned.len() > stands.len() { turned } else { stands }
}

/// Sheets side by side or in a row upon each other, at most: our choice.
const MOST: f64 = 20.0;

/// What is wrong with stated places.
fn stated(places: &[BedPlace], bed: (f64, f64), (width, height): (f64, f64)) -> Option<BedProblem> {
    let lies = |place: &BedPlace| Rect::new(place.x, place.y, place.x + width, place.y + height);
    for (number, place) in places.iter().enumerate() {
        let on = lies(place);
        if on.x1 > bed.0 + SAME || on.y1 > bed.1 + SAME {
            return Some(BedProblem::Outside(number + 1));
        }
        let other = places[..number].iter().position(|other| {
            let common = on.intersect(lies(other));
            common.width() > SAME && common.height() > SAME
        });
        if let Some(other) = other {
            return Some(BedProblem::Overlap(other + 1, number + 1));
        }
    }
    None
}
