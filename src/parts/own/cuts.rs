// SPDX-License-Identifier: MIT
//! What is cut out of a panel of a kind: corners, notches, holes, slits.

use super::drawn;
use super::marks;
use super::sizes::MadeKind;
use crate::contour::{Contour, Corner, Point, Rect, Vec2};
use crate::finding::{Arg, Finding, Said};
use crate::kind_file::{Condition, CornersWord, EdgeWord, HoleForm, KindCorner, KindHole, KindNotch, KindPanel, Scope};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::net::Net;
use crate::parts::build::builder::Builder;
use crate::parts::edges::SLOT;

/// More equal holes stand in no row: our choice.
const MOST_IN_A_ROW: u32 = 200;

/// What is cut away at the edge of a panel, so that paper on it keeps clear and hands find their way.
#[derive(Clone, Copy, Debug)]
pub(super) struct CutAway {
    /// How deep its notches are at the left, right, tail and head, mm.
    pub notches: [f64; 4],
    /// Its corners, from the lower left one counter-clockwise.
    pub corners: [Corner; 4],
}

/// A hole that reaches over a fold: numbers of its panel and of the hole in the net, and what the file says of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct OverFold {
    pub panel: usize,
    pub hole: usize,
    pub said: &'static KindHole,
}

/// What cutting a panel changes of its net.
pub(super) struct CutNet<'n> {
    /// The panel's number.
    pub panel: usize,
    pub net: &'n mut Net,
    pub over: &'n mut Vec<OverFold>,
}

/// Cuts a panel's corners, notches and holes, and draws its marks; none where they do not go into it, which is a finding then.
pub(super) fn cut(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    panel: &'static KindPanel,
    into: CutNet<'_>,
    scope: &Scope<'_>,
) -> Option<CutAway> {
    let CutNet { panel: number, net, over } = into;
    let outline = &mut net.panels.get_mut(number)?.outline;
    let mut away = CutAway { notches: [0.0; 4], corners: [Corner::Square; 4] };
    if !panel.corners.is_empty() {
        let square = outline.bounds();
        away.corners = corners(builder, made, panel, square, scope)?;
        *outline = Contour::with_corners((square.x0, square.y0), (square.width(), square.height()), away.corners);
    }
    for notch in panel.notches.iter().filter(|notch| there(notch.when.as_ref(), scope)) {
        let (edge, radius) = cut_notch(builder, made, notch, outline, scope)?;
        away.notches[edge] = away.notches[edge].max(radius);
    }
    let (first, bounds) = (net.holes.len(), outline.bounds());
    for hole in panel.holes.iter().filter(|hole| there(hole.when.as_ref(), scope)) {
        for cut in in_a_row(builder, made, hole, bounds, scope)? {
            if hole.over_fold {
                over.push(OverFold { panel: number, hole: net.holes.len(), said: hole });
            } else {
                within(builder, made, (panel, hole), (cut.bounds(), bounds), scope)?;
            }
            net.holes.push(cut);
        }
    }
    for mark in panel.marks.iter().filter(|mark| there(mark.when.as_ref(), scope)) {
        let lines = marks::lines(builder, made, mark, bounds, scope)?;
        marks::lie_on(builder, made, (panel, mark), (&lines, outline, &net.holes[first..]), scope)?;
        net.marks.extend(lines);
    }
    Some(away)
}

/// Whether a hole keeps to its own panel: over a fold it would cut into the next one, and part the score.
fn within(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    (panel, hole): (&KindPanel, &KindHole),
    (cut, bounds): (Rect, Rect),
    scope: &Scope<'_>,
) -> Option<()> {
    let beyond = [bounds.x0 - cut.x0, bounds.y0 - cut.y0, cut.x1 - bounds.x1, cut.y1 - bounds.y1];
    // Of a built-in kind it is told as of one that code states.
    if made.file.is_built_in() || beyond.into_iter().all(|by| by <= SAME) {
        return Some(());
    }
    let text = Said::new("kind-hole-over-edge").with("panel", Arg::quoted(&panel.name));
    let finding = Finding::stop("no-part", made.about.clone(), text.with("with", made.values(builder, &[], scope)));
    builder.find(finding.help(Said::new("kind-hole-over-edge-help")).at(made.at(&hole.place)));
    None
}

fn there(when: Option<&Condition>, scope: &Scope<'_>) -> bool {
    when.is_none_or(|when| when.holds(scope))
}

fn corners(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    panel: &KindPanel,
    bounds: Rect,
    scope: &Scope<'_>,
) -> Option<[Corner; 4]> {
    let mut corners = [Corner::Square; 4];
    for corner in panel.corners.iter().filter(|corner| there(corner.when.as_ref(), scope)) {
        let size = made.finite(builder, &corner.size, scope)?.max(0.0);
        corners_fit(builder, made, corner, (size, bounds), scope)?;
        let finish = match (size > 0.0, corner.rounded) {
            (false, _) => Corner::Square,
            (true, true) => Corner::Rounded(size),
            (true, false) => Corner::Clipped { across: size, up: size },
        };
        for at in which(corner.at) {
            // Mirrored, left and right change places.
            corners[if made.mirrored(scope) { *at ^ 1 } else { *at }] = finish;
        }
    }
    Some(corners)
}

/// Cuts a notch; gives at which side it is and how deep.
fn cut_notch(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    notch: &KindNotch,
    outline: &mut Contour,
    scope: &Scope<'_>,
) -> Option<(usize, f64)> {
    let across = made.finite(builder, &notch.across, scope)?;
    let edge = seen(notch.at, made.mirrored(scope));
    let side = match edge {
        EdgeWord::Left => 0,
        EdgeWord::Right => 1,
        EdgeWord::Tail => 2,
        EdgeWord::Head => 3,
    };
    if across <= SAME {
        return Some((side, 0.0));
    }
    let Some(cut) = notched(outline, edge, across) else {
        let text = Said::new("kind-notch").with("across", builder.album.length(across));
        let text = text.with("with", made.values(builder, &notch.across.sizes(), scope));
        let finding = Finding::stop("kind-notch", made.about.clone(), text).help(Said::new("kind-notch-help"));
        builder.find(finding.at(made.at(&notch.across.place)));
        return None;
    };
    *outline = cut;
    Some((side, across / 2.0))
}

/// A hole as often as it is wanted.
fn in_a_row(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    hole: &KindHole,
    panel: Rect,
    scope: &Scope<'_>,
) -> Option<Vec<Contour>> {
    let first = contour(builder, made, hole, panel, scope)?;
    let Some(row) = &hole.row else { return Some(vec![first]) };
    let times = made.times(builder, &row.times, (MOST_IN_A_ROW, "kind-hole-times"), scope)?;
    let [right, up] = [made.finite(builder, &row.step[0], scope)?, made.finite(builder, &row.step[1], scope)?];
    let step = Vec2::new(if made.mirrored(scope) { -right } else { right }, up);
    Some((0..times).map(|nth| first.shifted(step * f64::from(nth))).collect())
}

fn contour(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    hole: &KindHole,
    panel: Rect,
    scope: &Scope<'_>,
) -> Option<Contour> {
    let mirrored = made.mirrored(scope);
    let across_from = |x: f64, width: f64| if mirrored { panel.x1 - x - width } else { panel.x0 + x };
    let value = |builder: &mut Builder<'_>, formula| made.finite(builder, formula, scope);
    Some(match &hole.form {
        HoleForm::Round(centre, across) => {
            let [x, y] = &**centre;
            let centre = Point::new(across_from(value(builder, x)?, 0.0), panel.y0 + value(builder, y)?);
            Contour::circle(centre, made.positive(builder, across, scope)? / 2.0)
        }
        HoleForm::Slit(ends) => {
            let [from_x, from_y, to_x, to_y] = &**ends;
            let from = Point::new(across_from(value(builder, from_x)?, 0.0), panel.y0 + value(builder, from_y)?);
            let to = Point::new(across_from(value(builder, to_x)?, 0.0), panel.y0 + value(builder, to_y)?);
            slit(builder, made, hole, [from, to], scope)?
        }
        HoleForm::Drawn(at, form) => {
            let cut = drawn::window(builder, made, form, scope)?;
            let [x, y] = &**at;
            let x = across_from(made.finite(builder, x, scope)?, cut.bounds().width());
            cut.shifted(Point::new(x, panel.y0 + made.finite(builder, y, scope)?).to_vec2())
        }
        HoleForm::Window(sides, round) => {
            let [x, y, width, height] = &**sides;
            let size = (made.positive(builder, width, scope)?, made.positive(builder, height, scope)?);
            let from = (across_from(value(builder, x)?, size.0), panel.y0 + value(builder, y)?);
            let round = round.as_ref().map_or(Some(0.0), |round| value(builder, &**round))?;
            let most = size.0.min(size.1) / 2.0;
            let finish = if round > 0.0 { Corner::Rounded(round.min(most)) } else { Corner::Square };
            Contour::with_corners(from, size, [finish; 4])
        }
    })
}

/// A straight cut, as wide as those along edges are; none where it is no longer than wide.
fn slit(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    hole: &KindHole,
    [from, to]: [Point; 2],
    scope: &Scope<'_>,
) -> Option<Contour> {
    let long = from.distance(to);
    if long <= SLOT {
        let text = Said::new("kind-slit-short").with("long", builder.album.length(long));
        let text = text.with("with", made.values(builder, &[], scope));
        let finding = Finding::stop("kind-size", made.about.clone(), text).help(Said::new("kind-slit-short-help"));
        builder.find(finding.at(made.at(&hole.place)));
        return None;
    }
    let aside = (to - from).turn_90() * (SLOT / 2.0 / long);
    let corners = [from - aside, to - aside, to + aside, from + aside];
    Some(Contour::polygon(corners.map(|corner| (corner.x, corner.y))).counter_clockwise())
}

/// Whether corners leave each other room; what is too large is a finding at the size that says it, where there is one.
fn corners_fit(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    corner: &KindCorner,
    (size, bounds): (f64, Rect),
    scope: &Scope<'_>,
) -> Option<()> {
    let both = |one: usize, other: usize| which(corner.at).contains(&one) && which(corner.at).contains(&other);
    let share = |side: f64, two: bool| if two { side / 2.0 } else { side };
    let across = share(bounds.width(), both(0, 1) || both(2, 3));
    let up = share(bounds.height(), both(0, 3) || both(1, 2));
    let most = across.min(up);
    if size <= most + SAME {
        return Some(());
    }
    let album = builder.album;
    let best = album.at_most(most);
    let text = Said::new(if corner.rounded { "round-corners-meet" } else { "clipped-corners-meet" });
    let text = text.with("radius", album.length(size)).with("most", album.length(most));
    let named = corner.size.one_size().and_then(|number| made.file.sizes.get(number));
    let finding = if let Some(named) = named {
        let help = Said::new("make-at-most").with("most", album.length(best.mm()));
        Finding::stop("corner-too-large", made.about.clone(), text)
            .help(help.with("field", Arg::field(&named.name)))
            .at(made.entry.values.place_of(&named.name))
            .mend(format!("{}.{}", made.path, named.name), best)
    } else {
        let help = Said::new("kind-corner-help").with("with", made.values(builder, &corner.size.sizes(), scope));
        Finding::stop("corner-too-large", made.about.clone(), text).help(help).at(made.at(&corner.size.place))
    };
    builder.find(finding.measured(Length::from_mm(size), Length::from_mm(most)));
    None
}

/// The corners that a word means, from the lower left one counter-clockwise.
const fn which(at: CornersWord) -> &'static [usize] {
    match at {
        CornersWord::All => &[0, 1, 2, 3],
        CornersWord::Head => &[2, 3],
        CornersWord::Tail => &[0, 1],
        CornersWord::Left => &[0, 3],
        CornersWord::Right => &[1, 2],
        CornersWord::HeadLeft => &[3],
        CornersWord::HeadRight => &[2],
        CornersWord::TailLeft => &[0],
        CornersWord::TailRight => &[1],
    }
}

/// An edge as it is seen where left and right have changed places.
pub(super) const fn seen(edge: EdgeWord, mirrored: bool) -> EdgeWord {
    match (edge, mirrored) {
        (EdgeWord::Left, true) => EdgeWord::Right,
        (EdgeWord::Right, true) => EdgeWord::Left,
        (edge, _) => edge,
    }
}

/// An outline with a half-round notch in the middle of its edge; none where it does not go into that edge.
fn notched(outline: &Contour, at: EdgeWord, across: f64) -> Option<Contour> {
    let (bounds, radius) = (outline.bounds(), across / 2.0);
    let centre = bounds.center();
    // The way along the edge as the outline runs, counter-clockwise.
    let (middle, along) = match at {
        EdgeWord::Left => (Point::new(bounds.x0, centre.y), (0.0, -1.0)),
        EdgeWord::Right => (Point::new(bounds.x1, centre.y), (0.0, 1.0)),
        EdgeWord::Head => (Point::new(centre.x, bounds.y1), (-1.0, 0.0)),
        EdgeWord::Tail => (Point::new(centre.x, bounds.y0), (1.0, 0.0)),
    };
    let upright = matches!(at, EdgeWord::Left | EdgeWord::Right);
    let depth = if upright { bounds.width() } else { bounds.height() };
    let ends = [-radius, radius].map(|by| Point::new(along.0 * by + middle.x, along.1 * by + middle.y));
    let mut walk = Vec::new();
    let mut cut = false;
    for edge in outline.edges() {
        walk.push((edge.from.x, edge.from.y, edge.bulge));
        let room = |end: Point| edge.from.distance(end) + end.distance(edge.to) <= edge.from.distance(edge.to) + SAME;
        if !cut && edge.is_line() && ends.iter().all(|end| room(*end)) && radius < depth {
            walk.push((ends[0].x, ends[0].y, -1.0));
            walk.push((ends[1].x, ends[1].y, 0.0));
            cut = true;
        }
    }
    cut.then(|| Contour::new(walk))
}
