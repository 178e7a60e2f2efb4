// SPDX-License-Identifier: MIT
//! The fold-out page: a leaf with one or two more that fold out at the fore-edge.
//!
//! ```text
//!   +-----------+- - - - -+- - - - +
//!   |           ¦         ¦        |     one piece H tall: the page W wide, the first leaf W - step, the second
//!   |   page    ¦  leaf   ¦  leaf  | H   W - 2 step. The first comes forward (a valley), the second goes back
//!   |           ¦         ¦        |     over it (a mountain): zigzag.
//!   +-----------+- - - - -+- - - - +
//!         W      W - step  W - 2 step
//! ```
//!
//! Derived: folded flat, the first leaf ends a step short of the spine, the second a step short of the fore-edge; each
//! flat fold moves the next edge by one to two calipers (F8), so a step of two calipers a leaf keeps both inside. 2 mm or
//! 1/8 in is that and what hands are off (common practice, no source). With a `depth` the first leaf has two scores, so far
//! apart: it then lies flat over content as thick as that less a caliper (D6).

use crate::album::{Entry, Kind, Role};
use crate::fields::{Key, number, usual};
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::net::bend::creep;
use crate::net::{Along, Net, RowPanel, Sense, Use};
use crate::parts::build::advice::smaller;
use crate::parts::build::builder::Builder;
use crate::parts::build::face::FacePlace;
use crate::parts::kit::Flap;
use crate::parts::maker::Maker;
use crate::parts::pages::leaf::{CONTENT, DEPTH, FACES, LeafFace as Worked, RISER, Wrong, back, front};
use crate::parts::pages::page::NewPage;

/// Leaves narrower than this are no leaves, mm: our choice.
const LEAST: f64 = 20.0;

const LEAVES: Key<u32> = Key::count("leaves", (1, 2), number(1), "how many leaves fold out");
const STEP: Key<Length> =
    Key::length("step", usual(2.0, 0.125), "how much narrower each leaf is than the one before it");

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "fold-out",
        role: Role::Page,
        about: "a page with one or two more leaves that fold out at the fore-edge",
        fields: &[LEAVES.field, STEP.field, DEPTH.field, FACES.field, CONTENT.field],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "fold-out" }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = NewPage::new(builder, entry, page);
    let NewPage { width, height, .. } = page;
    let (worked_leaf, step) = (Worked::new(&page), entry.mm(STEP));
    let count = entry.get(LEAVES);
    let all = f64::from(count) * step;
    if width - all < LEAST {
        let text = Said::new("step-too-large");
        let help = smaller("step-too-large-help", 3.175 * f64::from(count), width - LEAST);
        let (measured, allowed) = (all, (width - LEAST).max(0.0));
        Wrong { id: "step-too-large", text, measured, allowed, help, field: STEP.field }.say(builder, &page);
        return;
    }
    let [.., square] = creep(page.caliper);
    if step < square * f64::from(count) {
        let wants = builder.album.rough(square * f64::from(count));
        let text = Said::new("fold-out-tight").with("has", builder.album.length(step)).with("wants", wants);
        let finding = Finding::warn("fold-out-tight", page.about(), text)
            .measured(Length::from_mm(step), Length::from_mm(square * f64::from(count)))
            .help(Said::new("fold-out-tight-help").with("field", Arg::field(STEP.name())))
            .at(entry.values.place(STEP));
        builder.find(finding);
    }
    let depth = entry.mm(DEPTH);
    let net = net((width, height), (step, depth, count), worked_leaf.on_back);
    let spans: Vec<(&str, f64, f64)> =
        net.panels.iter().map(|panel| (panel.name, panel.outline.bounds().x0, panel.outline.bounds().x1)).collect();
    let Some(piece) = page.piece(builder, "fold-out", ("fold-out", "fold-out"), net) else { return };
    let left = spans.first().map_or(0.0, |span| span.1);
    worked_leaf.carried(builder, piece, (left, 0.0));

    let [worked, other] = worked_leaf.faces();
    builder.flap(Flap {
        name: page.name(),
        what: "leaf",
        overlap: None,
        long: width - step,
        length: [width - step, width - step],
        depth,
        caliper: page.caliper,
        over: [entry.mm(CONTENT), 0.0],
        pocket: None,
        field: "",
        path: page.path(),
        place: entry.values.place(DEPTH).cloned(),
        two: true,
    });
    for (panel, (name, from, to)) in spans.into_iter().enumerate().filter(|(_, span)| span.0 != RISER) {
        let size = (to - from, height);
        let (seen, behind) = if panel == 0 {
            ((worked, String::new()), (other, String::new()))
        } else {
            ((worked, name.to_owned()), (worked, format!("{name} behind")))
        };
        // Folded out, the leaves lie beside the page.
        let lies = FacePlace { at: (from, 0.0), shows: None };
        page.face_beside(builder, (seen.0, seen.1.as_str()), size, front(piece, panel, (from, 0.0)), lies);
        page.face(builder, (behind.0, behind.1.as_str()), size, back(piece, panel, (to, 0.0)));
    }
}

/// The page with its leaves side by side; from the fore-edge to the spine where it is worked on its back.
fn net((width, height): (f64, f64), (step, depth, count): (f64, f64, u32), on_back: bool) -> Net {
    // Each panel from the page on, and the fold before it: half a turn in one, or in two.
    let turn = if depth > 0.0 { 90.0 } else { 180.0 };
    let flap = |name, wide| RowPanel::new(name, Use::Flap, wide);
    let mut row = vec![(RowPanel::new("page", Use::Plain, width), (Sense::Valley, 0.0))];
    row.extend((depth > 0.0).then(|| (flap(RISER, depth), (Sense::Valley, turn))));
    row.push((flap("first leaf", width - step), (Sense::Valley, turn)));
    row.extend((count > 1).then(|| (flap("second leaf", 2.0f64.mul_add(-step, width)), (Sense::Mountain, 180.0))));
    let folds: Vec<(Sense, f64)> = row[1..].iter().map(|(_, fold)| *fold).collect();
    let (mut leaves, mut folds): (Vec<RowPanel>, _) = (row.into_iter().map(|(leaf, _)| leaf).collect(), folds);
    if on_back {
        // The same from the fore-edge to the spine.
        leaves.reverse();
        folds.reverse();
    }
    for (leaf, (sense, angle)) in leaves[1..].iter_mut().zip(folds) {
        *leaf = leaf.folded(sense, angle);
    }
    let root = if on_back { leaves.len() - 1 } else { 0 };
    Net::row(Along::Across, height, &leaves, root)
}
