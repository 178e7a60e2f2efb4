// SPDX-License-Identifier: MIT
//! The free edges and corners of a net, and the net with some of them finished.
//!
//! ```text
//!         head
//!      +-----------+      An edge is free where no panel hangs on it and its panel is not stuck down: what shows or folds
//!      |           |      over. A corner is free where both its edges are. Edges are called by where they look in the flat
//! left |   panel   | right   piece; one that looks between two of these directions (a clipped corner) has no name.
//!      |           |
//!      +- - - - - -+      Seams, tabs and hinges have none.
//!         (a fold)
//! ```
//!
//! In: a net, what is cut. Out: the net cut so. Never: knows which part it is, or what is stuck on it.

use super::{Net, Panel, Use};
use crate::contour::{Contour, Edge, EdgeFinish, Point, SAME, Vec2};
use crate::length::tolerance::PARALLEL;

/// An edge that leans less than this to one of the four directions is called by it: the sine of 30 degrees (our choice).
const LEANS: f64 = 0.5;

/// Where an edge of a flat piece looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SideName {
    /// Up.
    Head,
    /// Down.
    Tail,
    /// To the left.
    Left,
    /// To the right.
    Right,
}

/// A straight edge of a panel that can be cut in a pattern.
#[derive(Clone, Copy, Debug)]
pub struct FreeSide {
    /// Number of its panel.
    pub panel: usize,
    /// Number of the edge in the panel's outline.
    pub edge: usize,
    /// Where it looks; none where it looks between two directions.
    pub looks: Option<SideName>,
    /// The edge, its panel to the left of it.
    pub line: Edge,
}

/// A corner of a panel that can be rounded or clipped.
#[derive(Clone, Copy, Debug)]
pub struct FreeCorner {
    /// Number of its panel.
    pub panel: usize,
    /// Number of the corner in the panel's outline; the edge of the same number leaves it.
    pub corner: usize,
    /// Where it is.
    pub at: Point,
    /// The edges that arrive at it and leave it.
    pub edges: [Edge; 2],
    /// Where these look.
    pub looks: [Option<SideName>; 2],
}

/// The form of a corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CornerForm {
    /// Cut straight across.
    Clipped,
    /// Cut to an arc that runs into both edges.
    Rounded,
}

/// One thing that is cut, in the numbers of the uncut net; lengths in mm.
#[derive(Clone, Copy, Debug)]
pub enum EdgeCut {
    /// An edge in a pattern, on a run of it from its start.
    Side {
        /// Number of the panel.
        panel: usize,
        /// Number of its edge.
        edge: usize,
        /// Where along the edge the pattern begins and ends.
        run: [f64; 2],
        /// The pattern.
        finish: EdgeFinish,
    },
    /// A corner; both edges lose `size`.
    Corner {
        /// Number of the panel.
        panel: usize,
        /// Number of its corner.
        corner: usize,
        /// Its form.
        form: CornerForm,
        /// What is taken off along either edge: the radius at a right angle.
        size: f64,
    },
}

impl SideName {
    /// Where a straight edge looks: to the right of its way, as its panel lies to the left.
    #[must_use]
    pub fn of(edge: Edge) -> Option<Self> {
        let way = (edge.to - edge.from).normalize();
        let out = Vec2::new(way.y, -way.x);
        if !edge.is_line() {
            None
        } else if out.x.abs() < LEANS {
            Some(if out.y > 0.0 { Self::Head } else { Self::Tail })
        } else if out.y.abs() < LEANS {
            Some(if out.x > 0.0 { Self::Right } else { Self::Left })
        } else {
            None
        }
    }
}

impl Use {
    /// Whether edges of such a panel may be cut in a pattern.
    const fn is_free(self) -> bool {
        matches!(self, Self::Plain | Self::Flap)
    }
}

impl Net {
    /// Its free edges, panel after panel, each panel's in the order of its outline.
    ///
    /// ```
    /// use hingeleaf::net::{Along, SideName, Net, RowPanel, Sense, Use};
    /// let page = RowPanel::new("page", Use::Plain, 190.0);
    /// let seam = RowPanel::new("seam", Use::Seam, 12.0).folded(Sense::Mountain, 180.0);
    /// let sides = Net::row(Along::Up, 148.0, &[page, seam], 0).free_sides();
    /// let looks: Vec<_> = sides.iter().filter_map(|side| side.looks).collect();
    /// assert_eq!(looks, [SideName::Right, SideName::Left, SideName::Tail]); // its head is a fold
    /// ```
    #[must_use]
    pub fn free_sides(&self) -> Vec<FreeSide> {
        let of_panel = |panel: usize| {
            let free = move |&(_, line): &(usize, Edge)| line.is_line() && !self.is_folded(panel, line);
            let side = move |(edge, line)| FreeSide { panel, edge, looks: SideName::of(line), line };
            self.panels[panel].outline.edges().enumerate().filter(free).map(side)
        };
        (0..self.panels.len()).filter(|&panel| self.panels[panel].purpose.is_free()).flat_map(of_panel).collect()
    }

    /// Its free corners: where two free edges of a panel meet and the card turns outwards.
    #[must_use]
    pub fn free_corners(&self) -> Vec<FreeCorner> {
        let sides = self.free_sides();
        let corner = |leaving: &FreeSide| {
            let count = self.panels[leaving.panel].outline.vertices().len();
            let before = (leaving.edge + count - 1) % count;
            let arriving = sides.iter().find(|side| side.panel == leaving.panel && side.edge == before)?;
            let turns = arriving.line.bend_to(leaving.line) > PARALLEL;
            turns.then_some(FreeCorner {
                panel: leaving.panel,
                corner: leaving.edge,
                at: leaving.line.from,
                edges: [arriving.line, leaving.line],
                looks: [arriving.looks, leaving.looks],
            })
        };
        sides.iter().filter_map(corner).collect()
    }

    /// Whether a fold of the panel lies on an edge of it.
    #[must_use]
    pub fn is_folded(&self, panel: usize, edge: Edge) -> bool {
        self.folds.iter().any(|fold| {
            fold.between.contains(&panel) && edge.distance(fold.from) < SAME && edge.distance(fold.to) < SAME
        })
    }

    /// The net with edges and corners cut. Of two cuts of one edge or corner the first counts; a pattern keeps clear of a cut
    /// corner. Whether what comes out is a part, [`Net::flat`] says.
    ///
    /// ```
    /// use hingeleaf::contour::Contour;
    /// use hingeleaf::net::{CornerForm, EdgeCut, Net};
    /// let card = Net::single("card", Contour::rectangle(0.0, 0.0, 100.0, 60.0));
    /// let round = |corner| EdgeCut::Corner { panel: 0, corner, form: CornerForm::Rounded, size: 10.0 };
    /// let rounded = card.edged(&[0, 1, 2, 3].map(round));
    /// let lost = (4.0 - std::f64::consts::PI) * 100.0; // a square less its disc
    /// assert!((rounded.panels[0].outline.area() - (6000.0 - lost)).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn edged(&self, cuts: &[EdgeCut]) -> Self {
        let mut net = self.clone();
        for (number, panel) in net.panels.iter_mut().enumerate() {
            let own: Vec<EdgeCut> = cuts.iter().copied().filter(|cut| cut.panel() == number).collect();
            if !own.is_empty() {
                panel.outline = cut(panel, &own);
            }
        }
        net
    }
}

impl EdgeCut {
    /// The panel that it is a cut of.
    #[must_use]
    pub const fn panel(self) -> usize {
        match self {
            Self::Side { panel, .. } | Self::Corner { panel, .. } => panel,
        }
    }
}

/// A panel's outline with its cuts.
fn cut(panel: &Panel, cuts: &[EdgeCut]) -> Contour {
    let edges: Vec<Edge> = panel.outline.edges().collect();
    let corner_of = |number: usize| {
        cuts.iter().find_map(|cut| match *cut {
            EdgeCut::Corner { corner, form, size, .. } if corner == number => Some((form, size)),
            _ => None,
        })
    };
    let side_of = |number: usize| {
        cuts.iter().find_map(|cut| match *cut {
            EdgeCut::Side { edge, run, finish, .. } if edge == number => Some((run, finish)),
            _ => None,
        })
    };
    let mut walk = Vec::new();
    for (number, &edge) in edges.iter().enumerate() {
        let before = edges[(number + edges.len() - 1) % edges.len()];
        let length = edge.length();
        let along = |at: f64| edge.from.lerp(edge.to, at / length);
        let (mut starts, mut ends) = (0.0, length);
        if let Some((form, size)) = corner_of(number) {
            let arrived = before.to.lerp(before.from, size / before.length());
            // An arc that runs into both edges turns as far as they do.
            let bulge = if form == CornerForm::Rounded { (before.bend_to(edge) / 4.0).tan() } else { 0.0 };
            walk.push((arrived.x, arrived.y, bulge));
            starts = size;
        }
        if let Some((_, size)) = corner_of((number + 1) % edges.len()) {
            ends = length - size;
        }
        let from = if starts > 0.0 { along(starts) } else { edge.from };
        walk.push((from.x, from.y, edge.bulge));
        let Some(([start, end], finish)) = side_of(number) else { continue };
        let (start, end) = (start.max(starts), end.min(ends));
        if end - start < SAME {
            continue;
        }
        let place = |at: f64| {
            if at <= SAME {
                edge.from
            } else if at >= length - SAME {
                edge.to
            } else {
                along(at)
            }
        };
        let run = Edge { from: place(start), to: place(end), bulge: 0.0 };
        walk.extend(finish.corners(run));
        walk.push((run.to.x, run.to.y, 0.0));
    }
    Contour::new(walk)
}
