// SPDX-License-Identifier: MIT
//! What a kind draws on its panels: lines and small crosses to place or glue by.

use super::sizes::MadeKind;
use crate::contour::{Contour, Point, Rect, outside};
use crate::finding::{Arg, Finding, Said};
use crate::kind_file::{KindMark, KindPanel, MarkForm, Scope};
use crate::length::tolerance::SAME;
use crate::parts::build::builder::Builder;

/// How large a cross is where the file does not say it, mm: our choice.
const CROSS: f64 = 4.0;

/// The lines of a mark; `panel` is the panel's box.
pub(super) fn lines(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    mark: &KindMark,
    panel: Rect,
    scope: &Scope<'_>,
) -> Option<Vec<[Point; 2]>> {
    let mirrored = made.mirrored(scope);
    let place = |x: f64, y: f64| Point::new(if mirrored { panel.x1 - x } else { panel.x0 + x }, panel.y0 + y);
    let mut value = |formula| made.finite(builder, formula, scope);
    match &mark.form {
        MarkForm::Line(ends) => {
            let [from_x, from_y, to_x, to_y] = &**ends;
            let from = place(value(from_x)?, value(from_y)?);
            Some(vec![[from, place(value(to_x)?, value(to_y)?)]])
        }
        MarkForm::Cross(at, across) => {
            let [x, y] = &**at;
            let middle = place(value(x)?, value(y)?);
            let across = across.as_deref().map_or(Some(CROSS), |across| made.positive(builder, across, scope))?;
            let arm = across / 2.0;
            let end = |x: f64, y: f64| Point::new(middle.x + x * arm, middle.y + y * arm);
            Some(vec![[end(-1.0, 0.0), end(1.0, 0.0)], [end(0.0, -1.0), end(0.0, 1.0)]])
        }
    }
}

/// Whether a mark's lines lie on their panel, clear of its holes; where they do not, that is a finding.
pub(super) fn lie_on(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    (panel, mark): (&KindPanel, &KindMark),
    (lines, outline, holes): (&[[Point; 2]], &Contour, &[Contour]),
    scope: &Scope<'_>,
) -> Option<()> {
    let on = std::slice::from_ref(outline);
    // Along an edge it lies on the panel.
    let off = |(from, to): &(Point, Point)| outline.distance(from.midpoint(*to)) > SAME;
    let lies = |[from, to]: &[Point; 2]| {
        let long = from.distance(*to);
        let uncut: f64 = outside(*from, *to, holes).iter().map(|(from, to)| from.distance(*to)).sum();
        long > SAME && !outside(*from, *to, on).iter().any(off) && (long - uncut).abs() < SAME
    };
    if lines.iter().all(lies) {
        return Some(());
    }
    let text = Said::new("kind-mark-off").with("panel", Arg::quoted(&panel.name));
    let finding = Finding::stop("kind-mark", made.about.clone(), text.with("with", made.values(builder, &[], scope)));
    builder.find(finding.help(Said::new("kind-mark-off-help")).at(made.at(&mark.place)));
    None
}
