// SPDX-License-Identifier: MIT
//! Decorative panels of patterned paper, one for every face.
//!
//! ```text
//!   +-------------------+
//!   |  +-------------+  |     (W - 2 reveal) x (H - 2 reveal) on plain faces; (P - 2 reveal) and
//!   |  |    panel    |  |     (overflap - 2 reveal) wide on pocket fronts and flaps.
//!   |  +-------------+  |     With 1/8 in reveal a 6 1/4 x 8 1/2 in face takes 6 x 8 1/4 in
//!   +-------------------+     (sizes: common practice, no source).
//! ```
//!
//! Covers have panels outside and, where no end papers line them, inside. Round a window the border is as wide as at the
//! edge; a slot's cut is 1 mm larger all round, so that a panel stuck a little off does not close it (our choice).

use crate::album::{Bound, Decorated, ON, Panels, REVEAL, RUNS_ON};
use crate::parts::name::PieceName;

use crate::contour::{Contour, Corner, Rect, Vec2};
use crate::finding::{Arg, Finding, Said};
use crate::net::Net;
use crate::parts::bond::{Face, Hold};
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::face::{FacePlace, Looks, Plain};
use crate::parts::build::new_piece::NewPiece;
use crate::parts::kit::{Owner, Purpose};
use crate::parts::papers::designs::Designs;
use crate::parts::papers::runs::{self, PanelRun};

/// Panels narrower than this are a sliver, not a panel: our choice, mm.
const LEAST: f64 = 5.0;

/// Sticks panels on every face that has been stated since the last call.
pub(in crate::parts) fn panels(builder: &mut Builder<'_>, panels: &Panels) {
    let plains = std::mem::take(&mut builder.plains);
    if builder.designs.is_none() {
        let designs = Designs::deal(builder.album, builder.cutter, panels, &plains);
        run_short(builder, &designs);
        builder.designs = Some(designs);
    }
    let Some(designs) = builder.designs.clone() else { return };
    if panels.on == Decorated::Cover && builder.album.cover.is_none() {
        let finding = Finding::warn("no-cover", Said::new("about-panels"), Said::new("no-cover"));
        let help = Said::new("no-cover-help")
            .with("line", Arg::code("\"cover\": { \"kind\": \"wrap\" }"))
            .with("on", Arg::field("panels.on"));
        builder.find(finding.help(help).at(panels.values.place(ON)));
    }
    let reveal = panels.reveal.mm();
    let wanted = |plain: &Plain| if plain.owner == Owner::Cover { panels.on_cover() } else { panels.on_pages() };
    let plains: Vec<Plain> = plains.into_iter().filter(wanted).collect();
    // Each panel in the frame of its face.
    let mut rects: Vec<Rect> =
        plains.iter().map(|plain| Rect::new(0.0, 0.0, plain.width, plain.height).inset(-reveal)).collect();
    let runs = if panels.runs_on { runs_on(builder, panels, &plains, &designs) } else { Vec::new() };
    for (face, rect) in runs.iter().flat_map(|run| &run.panels) {
        if let Some((FacePlace { at, .. }, own)) = plains[*face].lies.zip(rects.get_mut(*face)) {
            *own = *rect - Vec2::from(at);
        }
    }
    let mut left_out = Vec::new();
    let mut cuts: Vec<Option<NewPiece<'_>>> = Vec::new();
    for (plain, rect) in plains.iter().zip(&rects) {
        let net = net(plain, *rect);
        if net.is_none() && !plain.slim {
            left_out.push(plain.name.clone());
        }
        cuts.push(net.map(|net| cut(panels, plain, net, designs.stock(plain.looks))));
    }
    for run in &runs {
        let mut end: Option<f64> = None;
        let (mut faces, mut members) = (Vec::new(), Vec::new());
        for (face, rect) in &run.panels {
            let (from, to) = if run.upright { (rect.y0, rect.y1) } else { (rect.x0, rect.x1) };
            faces.push(*face);
            let behind = end.map_or(0.0, |end| from - end);
            members.extend(cuts[*face].take().map(|cut| (NewPiece { family: "panel in a block", ..cut }, behind)));
            end = Some(to);
        }
        let pieces = builder.block(&side_of(&plains[faces[0]]), run.upright, members).unwrap_or_default();
        for (face, piece) in faces.into_iter().zip(pieces) {
            stick(builder, piece, &plains[face], &rects[face]);
        }
    }
    for (face, cut) in cuts.into_iter().enumerate() {
        if let Some(piece) = cut.and_then(|cut| builder.piece(cut)) {
            stick(builder, piece, &plains[face], &rects[face]);
        }
    }
    if let Some(first) = left_out.first() {
        let text = Said::new("panel-too-small").with("border", Arg::Length(panels.reveal, builder.album.units));
        let help = Said::new("panel-too-small-help").with("reveal", Arg::field("panels.reveal"));
        let finding = Finding::warn("panel-too-small", about(first, left_out.len()), text).help(help);
        builder.find(finding.at(panels.values.place(REVEAL)));
    }
}

/// Says whose turns others take because its sheets are used up.
fn run_short(builder: &mut Builder<'_>, designs: &Designs) {
    for (&number, turns) in &designs.short {
        let Some(stock) = builder.album.stocks.get(number) else { continue };
        let text = Said::new("design-short").with("had", turns.had).with("passed", turns.passed);
        let help = Said::new("design-short-help").with("count", Arg::field("count"));
        let about = Said::new("about-stock").with("stock", &stock.name);
        builder.find(Finding::note("design-short", about, text).help(help).at(stock.place.as_ref()));
    }
}

/// The panel of a face.
fn cut<'p>(panels: &'p Panels, plain: &Plain, net: Net, stock: usize) -> NewPiece<'p> {
    NewPiece {
        id: format!("panel-{}", plain.name.to_string().replace(' ', "-")),
        form: None,
        kind: "panel",
        purpose: Purpose::Panel,
        family: "panel",
        net,
        stock,
        along_grain: false,
        name: PieceName::PanelFor(plain.name.clone().into()),
        owner: plain.owner,
        patterns: Vec::new(),
        place: panels.values.place(REVEAL),
    }
}

/// Sticks a panel on its face.
fn stick(builder: &mut Builder<'_>, piece: usize, plain: &Plain, rect: &Rect) {
    let mut on = plain.side;
    // Up is a quarter turn from the way to the right, counter-clockwise as the face is seen.
    let up = Vec2::new(-on.along.y, on.along.x) * if on.face == Face::Front { 1.0 } else { -1.0 };
    on.at += on.along * rect.x0 + up * rect.y0;
    builder.bond(Hold::Stuck, side(piece, 0, Face::Back, (0.0, 0.0), (1.0, 0.0)), on);
}

/// A panel with what must stay open cut out; none where next to nothing is left of it.
fn net(plain: &Plain, rect: Rect) -> Option<Net> {
    let (width, height) = (rect.width(), rect.height());
    if !wide_enough(width, height) {
        return None;
    }
    let whole = Rect::new(0.0, 0.0, width, height);
    let corners = corners(plain, rect);
    let mut net = Net::single("panel", Contour::with_corners((0.0, 0.0), (width, height), corners));
    for hole in &plain.holes {
        let hole = hole.shifted(Vec2::new(-rect.x0, -rect.y0));
        let taken = hole.bounds();
        if taken.intersect(whole).area() <= 0.0 {
            continue;
        }
        // What is left beside it must hold.
        if !whole.inset(-LEAST / 2.0).contains_rect(taken) {
            return None;
        }
        net = net.with_hole(hole);
    }
    Some(net)
}

/// Corners as the face has them, as far inside as the panel's edges are: the border is as wide there.
fn corners(plain: &Plain, rect: Rect) -> [Corner; 4] {
    let inside = rect.x0.min(rect.y0).min(plain.width - rect.x1).min(plain.height - rect.y1);
    let least = rect.width().min(rect.height()) / 2.0;
    plain.corners.map(|corner| {
        let lost = match corner {
            Corner::Square => return Corner::Square,
            Corner::Rounded(radius) => radius - inside,
            // A line at 45 degrees that is moved in by a border meets the panel's edges so much sooner.
            Corner::Clipped { across, .. } => (2.0 - std::f64::consts::SQRT_2).mul_add(-inside, across),
        };
        match corner {
            _ if lost <= 0.0 || lost >= least => Corner::Square,
            Corner::Rounded(_) => Corner::Rounded(lost),
            _ => Corner::Clipped { across: lost, up: lost },
        }
    })
}

fn wide_enough(width: f64, height: f64) -> bool {
    width >= LEAST && height >= LEAST
}

/// The runs whose blocks go onto a sheet; the others are told.
fn runs_on(builder: &mut Builder<'_>, panels: &Panels, plains: &[Plain], designs: &Designs) -> Vec<PanelRun> {
    let mut runs = runs::runs(plains, panels.reveal.mm(), wide_enough);
    // A panel that is left out for its window takes no part in it.
    runs.retain(|run| {
        run.panels.iter().all(|(face, rect)| {
            let plain = &plains[*face];
            plain.lies.is_some_and(|lies| net(plain, *rect - Vec2::from(lies.at)).is_some())
        })
    });
    let goes_on = |run: &PanelRun| {
        let stock = designs.stock(plains[run.panels[0].0].looks);
        let sideways = builder.album.bound == Bound::Top;
        builder.usable(stock, false).is_some_and(|usable| runs::goes_on(run, &usable, sideways))
    };
    let (kept, large): (Vec<PanelRun>, Vec<PanelRun>) = runs.into_iter().partition(goes_on);
    if let Some(first) = large.first() {
        let [width, height] = [first.whole.width(), first.whole.height()].map(|mm| builder.album.length(mm));
        let text = Said::new("block-too-large").with("width", width).with("height", height);
        let about = about(&side_of(&plains[first.panels[0].0]), large.len());
        let finding = Finding::note("block-too-large", about, text).help(Said::new("block-too-large-help"));
        builder.find(finding.at(panels.values.place(RUNS_ON)));
    }
    kept
}

/// What a finding about so many of them is about: the first, and how many more there are.
fn about(first: &PieceName, many: usize) -> Said {
    let more = many.saturating_sub(1);
    Said::new("about-more").with("first", Arg::term(first)).with("more", more)
}

/// What a face is a face of: `page 2 front`, `cover`.
fn side_of(plain: &Plain) -> PieceName {
    let Owner::Page(page) = plain.owner else { return "cover".into() };
    let front = plain.looks == Looks::Opening(page - 1);
    PieceName::from(if front { Face::Front } else { Face::Back }.word()).of_page(page)
}

/// How thick the panels on a cover are, mm: outside, and inside on the thicker side; 0 where there are none.
pub(in crate::parts) fn on_cover(builder: &Builder<'_>) -> (f64, f64) {
    let (Some(panels), Some(designs)) = (&builder.album.panels, &builder.designs) else { return (0.0, 0.0) };
    if !panels.on_cover() {
        return (0.0, 0.0);
    }
    let thick = |looks| builder.caliper(designs.stock(looks));
    let inside = [0, builder.album.pages.len()].map(|opening| thick(Looks::Opening(opening)));
    (thick(Looks::Outside), inside[0].max(inside[1]))
}
