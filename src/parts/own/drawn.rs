// SPDX-License-Identifier: MIT
//! Forms of a kind that a drawing shows, at the size that one of it has.

use super::sizes::MadeKind;
use crate::contour::{Contour, Point, Rect};
use crate::finding::{Arg, Finding, Said};
use crate::kind_file::{DrawnForm, EdgeWord, Formula, KindDrawing, KindPanel, Scope, scaled};
use crate::length::tolerance::SAME;
use crate::outline::DrawnShape;
use crate::parts::build::builder::Builder;

/// A panel as a drawing shows it, where it hangs.
pub(super) struct DrawnPanel {
    pub outline: Contour,
    pub holes: Vec<Contour>,
    /// The ends of the edge that it hangs on, in the order of the edge's own.
    pub base: (Point, Point),
}

/// A drawing's shape; nothing where nobody has read it, which is told then.
fn shape(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    number: usize,
) -> Option<(&'static KindDrawing, &'static DrawnShape)> {
    let drawing = made.file.drawings.get(number)?;
    let Some(shape) = &drawing.shape else {
        let text = Said::new("outline-unread").with("file", Arg::quoted(&drawing.asked.file));
        let finding = Finding::stop("outline-unread", made.about.clone(), text).help(Said::new("outline-unread-help"));
        builder.find(finding.at(drawing.asked.named.as_ref()));
        return None;
    };
    Some((drawing, shape))
}

/// A drawn window, its box at the origin; turned over where left and right have changed places.
pub(super) fn window(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    form: &DrawnForm,
    scope: &Scope<'_>,
) -> Option<Contour> {
    let (_, shape) = shape(builder, made, form.drawing)?;
    let drawn = shape.outline.bounds();
    let mut side = |formula: &Formula| made.positive(builder, formula, scope);
    let by = match (&form.width, &form.height) {
        (Some(width), _) => side(width)? / drawn.width(),
        (None, Some(height)) => side(height)? / drawn.height(),
        (None, None) => return None,
    };
    Some(seen(&shape.outline, (by, drawn.width()), made.mirrored(scope)))
}

/// A contour of a drawing of this width at another scale; turned over about the drawing's middle, or not.
fn seen(contour: &Contour, (by, wide): (f64, f64), over: bool) -> Contour {
    let contour = scaled(contour, by);
    if over { contour.mirrored(|point| Point::new(wide.mul_add(by, -point.x), point.y)).reversed() } else { contour }
}

/// A drawn panel that hangs in the middle of an edge of the box `on`, so deep as its row says.
pub(super) fn panel(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    (panel, number, depth): (&KindPanel, usize, f64),
    (on, edge): (Rect, EdgeWord),
    scope: &Scope<'_>,
) -> Option<DrawnPanel> {
    let (drawing, shape) = shape(builder, made, number)?;
    let drawn = shape.outline.bounds();
    let upright = matches!(edge, EdgeWord::Head | EdgeWord::Tail);
    let by = depth / if upright { drawn.height() } else { drawn.width() };
    let flat = |contour: &Contour| seen(contour, (by, drawn.width()), made.mirrored(scope));
    let outline = flat(&shape.outline);
    let bounds = outline.bounds();
    let (middle, own) = (on.center(), bounds.center());
    let shift = match edge {
        EdgeWord::Head => Point::new(middle.x - own.x, on.y1 - bounds.y0),
        EdgeWord::Tail => Point::new(middle.x - own.x, on.y0 - bounds.y1),
        EdgeWord::Left => Point::new(on.x0 - bounds.x1, middle.y - own.y),
        EdgeWord::Right => Point::new(on.x1 - bounds.x0, middle.y - own.y),
    }
    .to_vec2();
    let outline = outline.shifted(shift);
    let Some(base) = base(&outline, (on, edge)) else {
        let text = Said::new("drawn-no-base").with("file", Arg::quoted(&drawing.asked.file));
        let text = text.with("panel", Arg::quoted(&panel.name)).with("side", Arg::quoted(opposite(edge)));
        let finding = Finding::stop("drawn-no-base", made.about.clone(), text).help(Said::new("drawn-no-base-help"));
        builder.find(finding.at(drawing.asked.named.as_ref()));
        return None;
    };
    let holes = shape.holes.iter().map(|hole| flat(hole).counter_clockwise().shifted(shift)).collect();
    Some(DrawnPanel { outline, holes, base })
}

/// The side of a drawing that lies on an edge of the panel that carries it.
const fn opposite(edge: EdgeWord) -> &'static str {
    match edge {
        EdgeWord::Left => "right",
        EdgeWord::Right => "left",
        EdgeWord::Head => "tail",
        EdgeWord::Tail => "head",
    }
}

/// The longest straight edge of an outline along an edge of a box, its ends in the order of that edge's own: to the right, or up.
fn base(outline: &Contour, (on, edge): (Rect, EdgeWord)) -> Option<(Point, Point)> {
    let off = |point: Point| match edge {
        EdgeWord::Head => point.y - on.y1,
        EdgeWord::Tail => point.y - on.y0,
        EdgeWord::Left => point.x - on.x0,
        EdgeWord::Right => point.x - on.x1,
    };
    let along =
        |edge: &crate::contour::Edge| edge.is_line() && off(edge.from).abs() < SAME && off(edge.to).abs() < SAME;
    let longest = outline
        .edges()
        .filter(along)
        .max_by(|one, other| one.from.distance(one.to).total_cmp(&other.from.distance(other.to)))?;
    let (from, to) = (longest.from, longest.to);
    let runs_back = if matches!(edge, EdgeWord::Head | EdgeWord::Tail) { from.x > to.x } else { from.y > to.y };
    Some(if runs_back { (to, from) } else { (from, to) })
}
