// SPDX-License-Identifier: MIT
//! From the rows of a kind's piece to its net.

use super::cuts::{CutAway, CutNet, OverFold, cut, seen};
use super::drawn;
use super::over_fold::over_folds;
use super::sizes::MadeKind;
use crate::contour::{Contour, Point, Rect};
use crate::finding::{Arg, Finding, Said};
use crate::kind_file::{EdgeWord, FoldWay, KindPanel, KindPiece, PanelUse, RowWay, Scope};
use crate::net::{Along, Fold, Net, NetProblem, Panel, RowPanel, Sense, Use};
use crate::parts::build::builder::Builder;
use crate::parts::build::sketch::settled;

/// Most panels of a row once repeats are counted: our choice.
const MOST_REPEATS: u32 = 60;

/// A net of a kind, and the panel of the file that each of its panels comes from.
#[derive(Clone)]
pub(super) struct KindNet {
    pub net: Net,
    from: Vec<&'static KindPanel>,
    /// Width and height of each panel as the file says them, mm: to the last bit, which the difference of two places is not.
    sizes: Vec<(f64, f64)>,
    /// How far each panel's taper makes it narrower than its box, at the left and right, and at the tail and head, mm.
    tapers: Vec<[f64; 2]>,
    /// What is cut away at the edges of each panel.
    away: Vec<CutAway>,
    /// Holes in panels that drawings show; after all others, which findings know by their numbers.
    drawn_holes: Vec<Contour>,
    /// Holes that reach over folds.
    over: Vec<OverFold>,
}

impl KindNet {
    /// Width and height of a panel, mm.
    pub(super) fn size(&self, panel: usize) -> (f64, f64) {
        self.sizes.get(panel).copied().unwrap_or_default()
    }

    /// Whether a drawing shows the form of a panel.
    pub(super) fn is_drawn(&self, panel: usize) -> bool {
        self.from.get(panel).is_some_and(|panel| panel.outline.is_some())
    }

    /// The holes that reach over folds, by their numbers.
    pub(super) fn over_folds(&self) -> impl Iterator<Item = usize> + '_ {
        self.over.iter().map(|one| one.hole)
    }

    /// What is cut away at the edges of a panel.
    pub(super) fn away(&self, panel: usize) -> Option<CutAway> {
        self.away.get(panel).copied()
    }

    /// How far from its left, right, tail and head a panel is tapered or notched, mm.
    pub(super) fn inset(&self, panel: usize) -> [f64; 4] {
        let notches = self.away(panel).map_or([0.0; 4], |away| away.notches);
        let [across, up] = self.tapers.get(panel).copied().unwrap_or_default();
        let tapers = [across, across, up, up];
        [0, 1, 2, 3].map(|side| notches[side].max(tapers[side]))
    }

    /// The number of a panel; none where it is left out.
    pub(super) fn panel(&self, name: &str) -> Option<usize> {
        self.net.panel(name)
    }
}

/// A panel of a row that is there, and which of several it is.
struct There<'s> {
    panel: &'static KindPanel,
    scope: Scope<'s>,
    depth: f64,
    taper: [f64; 2],
}

pub(super) const fn purpose(purpose: PanelUse) -> Use {
    match purpose {
        PanelUse::Plain => Use::Plain,
        PanelUse::Seam => Use::Seam,
        PanelUse::Flap => Use::Flap,
    }
}

/// Which way a panel is folded that is the `nth` of several; what stays flat is not scored.
fn sense(panel: &KindPanel, nth: f64) -> Sense {
    match panel.fold {
        _ if panel.angle <= 0.0 => Sense::Bent,
        FoldWay::Valley => Sense::Valley,
        FoldWay::Both => Sense::Both,
        FoldWay::ToAndFro if nth % 2.0 > 0.5 => Sense::Valley,
        FoldWay::Mountain | FoldWay::ToAndFro => Sense::Mountain,
    }
}

/// The net of a piece; what keeps it from being one is a finding at its line, and none.
pub(super) fn net(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    piece: &'static KindPiece,
    scope: &Scope<'_>,
) -> Option<KindNet> {
    let breadth = made.positive(builder, &piece.breadth, scope);
    let row = row(builder, made, &piece.panels, scope);
    let (breadth, row) = (breadth?, row?);
    let mirrored = made.mirrored(scope);
    let mut row = row;
    // A fold is said by the panel behind it; the other way round that is the one before.
    let folds: Vec<(Sense, f64)> =
        row.iter().map(|there| (sense(there.panel, there.scope.nth), there.panel.angle)).collect();
    let mut folds: Vec<(Sense, f64)> = folds.into_iter().skip(1).collect();
    if mirrored && piece.runs == RowWay::Across {
        row.reverse();
        folds.reverse();
    }
    let fold = |at: usize| at.checked_sub(1).and_then(|before| folds.get(before)).copied();
    let leaves: Vec<RowPanel> = row.iter().enumerate().map(|(at, there)| there.leaf(fold(at))).collect();
    if leaves.is_empty() {
        let text = Said::new("kind-no-panel").with("piece", Arg::quoted(&piece.name));
        let text = text.with("with", made.values(builder, &[], scope));
        let finding = Finding::stop("kind-no-panel", made.about.clone(), text).help(Said::new("kind-no-panel-help"));
        builder.find(finding.at(made.at(&piece.place)));
        return None;
    }
    // What shows stays put; seams turn under it.
    let root = row.iter().position(|there| there.panel.purpose == PanelUse::Plain).unwrap_or(0);
    let along = if piece.runs == RowWay::Across { Along::Across } else { Along::Up };
    let mut net = KindNet {
        net: Net::row(along, breadth, &leaves, root),
        from: row.iter().map(|there| there.panel).collect(),
        sizes: row.iter().map(|there| there.size(piece.runs == RowWay::Across, breadth)).collect(),
        tapers: row.iter().map(|there| there.tapers(piece.runs == RowWay::Across)).collect(),
        away: Vec::new(),
        drawn_holes: Vec::new(),
        over: Vec::new(),
    };
    net.from.swap(0, root);
    net.sizes.swap(0, root);
    net.tapers.swap(0, root);
    let mut order: Vec<usize> = (0..row.len()).collect();
    order.swap(0, root);
    for (number, at) in order.iter().enumerate() {
        let KindNet { net: flat, from, over, .. } = &mut net;
        let away = cut(builder, made, from[number], CutNet { panel: number, net: flat, over }, &row[*at].scope)?;
        net.away.push(away);
    }
    for (number, at) in order.into_iter().enumerate() {
        hang(builder, made, &mut net, number, &row[at].scope)?;
    }
    net.net.holes.append(&mut net.drawn_holes);
    over_folds(builder, made, (&net.net, &net.over), scope)?;
    // Rows that hang below or at the left reach beyond the origin.
    (net.net, _) = settled(net.net);
    match net.net.flat() {
        Ok(_) => Some(net),
        // Of a built-in kind it is told as of one that code states.
        Err(_) if made.file.is_built_in() => Some(net),
        Err(problem) => {
            no_part(builder, made, (piece, &net), problem, scope);
            None
        }
    }
}

impl There<'_> {
    /// How much narrower than its box it is at the left and right, and at the tail and head.
    fn tapers(&self, across: bool) -> [f64; 2] {
        let by = (self.taper[0] - self.taper[1]).abs();
        if across { [0.0, by] } else { [by, 0.0] }
    }

    fn size(&self, across: bool, breadth: f64) -> (f64, f64) {
        let breadth = 2.0f64.mul_add(-self.taper[0].min(self.taper[1]), breadth);
        if across { (self.depth, breadth) } else { (breadth, self.depth) }
    }

    fn leaf(&self, fold: Option<(Sense, f64)>) -> RowPanel {
        let leaf = RowPanel::new(&self.panel.name, purpose(self.panel.purpose), self.depth);
        let leaf = leaf.tapered(self.taper[0], self.taper[1]);
        fold.map_or(leaf, |(sense, angle)| leaf.folded(sense, angle))
    }
}

/// The panels of a row that are there.
fn row<'s>(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    panels: &'static [KindPanel],
    scope: &Scope<'s>,
) -> Option<Vec<There<'s>>> {
    let (mut row, mut sound) = (Vec::new(), true);
    for panel in panels.iter().filter(|panel| panel.when.as_ref().is_none_or(|when| when.holds(scope))) {
        let times = match &panel.times {
            Some(times) => made.times(builder, times, (MOST_REPEATS, "kind-times"), scope)?,
            None => 1,
        };
        for nth in 1..=times {
            let scope = Scope { nth: f64::from(nth), ..scope.clone() };
            let Some(depth) = made.positive(builder, &panel.depth, &scope) else {
                sound = false;
                break;
            };
            let taper =
                panel.taper.as_ref().map(|taper| taper.each_ref().map(|side| made.finite(builder, side, &scope)));
            let taper = taper.map_or([0.0; 2], |taper| taper.map(Option::unwrap_or_default));
            row.push(There { panel, scope, depth, taper });
        }
    }
    sound.then_some(row)
}

/// Hangs rows on the edges of a panel.
fn hang(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    net: &mut KindNet,
    number: usize,
    scope: &Scope<'_>,
) -> Option<()> {
    for (edge, panels) in &net.from[number].hung {
        let mut parent = number;
        for there in row(builder, made, panels, scope)? {
            let bounds = net.net.panels[parent].outline.bounds();
            let edge = seen(*edge, made.mirrored(scope));
            let across = matches!(edge, EdgeWord::Left | EdgeWord::Right);
            let mut size = there.size(across, if across { bounds.height() } else { bounds.width() });
            let (outline, fold) = match there.panel.outline {
                Some(number) => {
                    let form = (there.panel, number, there.depth);
                    let drawn = drawn::panel(builder, made, form, (bounds, edge), &there.scope)?;
                    net.drawn_holes.extend(drawn.holes);
                    let drawn_box = drawn.outline.bounds();
                    size = (drawn_box.width(), drawn_box.height());
                    (drawn.outline, drawn.base)
                }
                None => beyond(bounds, edge, &there),
            };
            let child = net.net.panels.len();
            net.net.panels.push(Panel { name: &there.panel.name, purpose: purpose(there.panel.purpose), outline });
            let (from, to) = fold;
            net.net.folds.push(Fold {
                between: [parent, child],
                from,
                to,
                sense: sense(there.panel, there.scope.nth),
                angle: there.panel.angle,
            });
            net.from.push(there.panel);
            net.sizes.push(size);
            let into = CutNet { panel: child, net: &mut net.net, over: &mut net.over };
            let away = cut(builder, made, there.panel, into, &there.scope)?;
            net.away.push(away);
            net.tapers.push(there.tapers(across));
            hang(builder, made, net, child, &there.scope)?;
            parent = child;
        }
    }
    Some(())
}

/// The outline of a panel that hangs on an edge of another one, and the fold between them.
fn beyond(on: Rect, edge: EdgeWord, there: &There<'_>) -> (Contour, (Point, Point)) {
    let (depth, [starts, ends]) = (there.depth, there.taper);
    // From the edge outwards: where each point of the row is that is `out` beyond the edge and `by` along it.
    let place = |out: f64, by: f64| match edge {
        EdgeWord::Left => Point::new(on.x0 - out, on.y0 + by),
        EdgeWord::Right => Point::new(on.x1 + out, on.y0 + by),
        EdgeWord::Head => Point::new(on.x0 + by, on.y1 + out),
        EdgeWord::Tail => Point::new(on.x0 + by, on.y0 - out),
    };
    let breadth = if matches!(edge, EdgeWord::Left | EdgeWord::Right) { on.height() } else { on.width() };
    let corners = [place(0.0, starts), place(depth, ends), place(depth, breadth - ends), place(0.0, breadth - starts)];
    let outline = Contour::polygon(corners.map(|corner| (corner.x, corner.y))).counter_clockwise();
    (outline, (corners[0], corners[3]))
}

/// Says why a net is no part, at the line of the kind file that is to blame, and with which sizes.
fn no_part(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    (piece, net): (&KindPiece, &KindNet),
    problem: NetProblem,
    scope: &Scope<'_>,
) {
    let panel = |index: usize| net.from.get(index).map(|panel| (&panel.place, panel.name.as_str()));
    let (key, place, name) = match problem {
        NetProblem::Panel(index) => {
            let (place, name) = panel(index).unwrap_or((&piece.place, ""));
            ("kind-panel-crosses", place, name)
        }
        NetProblem::Fold(index) => {
            let child = net.net.folds.get(index).map_or(0, |fold| fold.between[1]);
            let (place, name) = panel(child).unwrap_or((&piece.place, ""));
            ("kind-fold-off", place, name)
        }
        NetProblem::Hole(index) => {
            let mut holes = net.from.iter().flat_map(|panel| panel.holes.iter().map(move |hole| (hole, panel)));
            let (place, name) =
                holes.nth(index).map_or((&piece.place, ""), |(hole, panel)| (&hole.place, panel.name.as_str()));
            ("kind-hole-over-edge", place, name)
        }
        NetProblem::Crosses => ("kind-outline-crosses", &piece.place, piece.name.as_str()),
    };
    let text = Said::new(key).with("panel", Arg::quoted(name)).with("with", made.values(builder, &[], scope));
    let help = match key {
        "kind-hole-over-edge" => "kind-hole-over-edge-help",
        "kind-outline-crosses" => "kind-outline-crosses-help",
        _ => "kind-panel-crosses-help",
    };
    builder.find(Finding::stop("no-part", made.about.clone(), text).help(Said::new(help)).at(made.at(place)));
}
