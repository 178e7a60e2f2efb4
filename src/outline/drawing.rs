// SPDX-License-Identifier: MIT
//! A drawing as its file has it: runs of curves on layers, in the file's own units; and what is said of it on the way.

use super::curve::Curve;
use crate::contour::{Point, Rect};
use crate::finding::{Arg, Finding, Place, Said};
use crate::length::{Length, Units};
use std::collections::BTreeMap;
use std::rc::Rc;

/// More curves than this are no outline that anybody cuts: our choice.
pub(super) const MOST_CURVES: usize = 50_000;

/// Of each sort of finding so many are told one by one: our choice.
const MOST_ALIKE: usize = 8;

/// Curves drawn in one go.
#[derive(Clone, Debug)]
pub(super) struct DrawnRun {
    pub curves: Vec<Curve>,
    /// Whether the file says that it is closed.
    pub closed: bool,
    /// The layers, or groups, that it stands in, from the outermost.
    pub layers: Rc<Vec<String>>,
    /// Its own name; a shape may be what is asked for as a layer is.
    pub id: Option<String>,
    /// What it is called there: `path`, `LINE`, with its id or handle.
    pub what: String,
    /// Where in the file it stands.
    pub place: Place,
}

/// What a file holds, y up.
#[derive(Clone, Debug, Default)]
pub(super) struct Drawing {
    pub runs: Vec<DrawnRun>,
    /// How many mm a unit of it is, where the file says so.
    pub unit: Option<f64>,
}

impl DrawnRun {
    /// Whether it stands in a layer of this name.
    pub(super) fn is_on(&self, layer: &str) -> bool {
        self.layers.iter().chain(&self.id).any(|name| name == layer)
    }
}

/// The box around curves; none where there are none.
pub(super) fn bounds<'c>(curves: impl Iterator<Item = &'c Curve> + Clone) -> Option<Rect> {
    let ends = curves.clone().map(|curve| Rect::from_points(curve.at(0.0), curve.at(1.0)));
    let ends = ends.reduce(|all, one| all.union(one))?;
    // Few curves reach out beyond all ends; only these are looked at closely.
    let inner =
        |all: &Rect, hull: &Rect| all.x0 <= hull.x0 && all.y0 <= hull.y0 && hull.x1 <= all.x1 && hull.y1 <= all.y1;
    Some(curves.fold(ends, |all, curve| if inner(&all, &curve.hull()) { all } else { all.union(curve.bounds()) }))
}

/// What is found in a drawing.
#[derive(Debug)]
pub(super) struct Notices {
    pub findings: Vec<Finding>,
    /// How many there are of each sort.
    counts: BTreeMap<&'static str, usize>,
    /// The lower left of what is drawn, mm, from which places are measured; and the units in which they are said.
    pub corner: Point,
    pub units: Units,
}

impl Notices {
    pub(super) const fn new(units: Units) -> Self {
        Self { findings: Vec::new(), counts: BTreeMap::new(), corner: Point::ORIGIN, units }
    }

    /// Tells something, unless enough of its sort has been told.
    pub(super) fn tell(&mut self, finding: Finding) {
        let count = self.counts.entry(finding.id).or_insert(0);
        *count += 1;
        if *count <= MOST_ALIKE {
            self.findings.push(finding);
        }
    }

    /// Says how many more there are of what was not told one by one.
    pub(super) fn told(mut self) -> Vec<Finding> {
        for (id, count) in &self.counts {
            let alike = self.findings.iter().rposition(|finding| finding.id == *id);
            if let Some(last) = alike.and_then(|last| self.findings.get_mut(last)).filter(|_| *count > MOST_ALIKE) {
                let text = std::mem::take(&mut last.text);
                last.text = Said::new("outline-and-more").with("text", text).with("more", *count - MOST_ALIKE);
            }
        }
        self.findings
    }

    /// A length as it is said of this drawing.
    pub(super) fn length(&self, mm: f64) -> Arg {
        Arg::Roughly(Length::from_mm(mm), self.units)
    }

    /// Where a point of the drawing is, mm.
    pub(super) fn spot(&self, point: Point) -> Said {
        let from = point - self.corner;
        Said::new("outline-spot").with("x", self.length(from.x)).with("y", self.length(from.y))
    }
}

/// What stops the work, with the place and the way out.
pub(super) fn stop(id: &'static str, text: Said, help: &'static str, place: &Place) -> Finding {
    Finding::stop(id, Said::NOTHING, text).help(Said::new(help)).at(Some(place))
}

/// What is left out of a drawing, with the place and what to do if it was meant.
pub(super) fn warn(id: &'static str, text: Said, help: &'static str, place: &Place) -> Finding {
    Finding::warn(id, Said::NOTHING, text).help(Said::new(help)).at(Some(place))
}
