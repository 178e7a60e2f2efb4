// SPDX-License-Identifier: MIT
//! The gate-fold page: a leaf with two half doors that fold over it from the head and the tail.
//!
//! ```text
//!   +-----------+
//!   |   door    | D    one piece W x (H + 2D), scored at D and D + H; D = (H - gap) / 2, so that the closed
//!   +- - - - - -+      doors leave a gap between them (derived). Both folds are valleys: the doors come
//!   |           |      forward. At the spine nothing folds, there the hinge's tab is stuck on.
//!   |   page    | H
//!   |           |      A gap of 2 mm or 1/16 in: common practice, no source; folded flat, card of 0.3 mm
//!   +- - - - - -+      takes up to half a millimetre at each door (F6).
//!   |   door    | D
//!   +-----------+
//!         W
//! ```
//!
//! With a `depth` each door has two scores, so far apart: it then lies flat over content as thick as that less a caliper (D6).

use crate::album::{Entry, Kind, Role};
use crate::fields::{Key, usual};
use crate::finding::{Arg, Said};
use crate::length::Length;
use crate::net::{Along, Net, RowPanel, Sense, Use};
use crate::parts::bond::Face;
use crate::parts::build::advice::smaller;
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::face::FacePlace;
use crate::parts::kit::Flap;
use crate::parts::maker::Maker;
use crate::parts::pages::leaf::{CONTENT, DEPTH, FACES, LeafFace as Worked, Wrong, back, front};
use crate::parts::pages::page::NewPage;

/// Doors lower than this are no doors, mm: our choice.
const LEAST: f64 = 10.0;

const GAP: Key<Length> = Key::length("gap", usual(2.0, 0.0625), "what the closed doors leave open");

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "gate-fold",
        role: Role::Page,
        about: "a leaf with two half doors that fold over it from the head and the tail",
        fields: &[GAP.field, DEPTH.field, FACES.field, CONTENT.field],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "gate-fold" }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = NewPage::new(builder, entry, page);
    let NewPage { width, height, .. } = page;
    let (worked_leaf, gap) = (Worked::new(&page), entry.mm(GAP));
    let door = (height - gap) / 2.0;
    if door < LEAST {
        let text = Said::new("gap-too-large");
        let help = smaller("gap-too-large-help", 2.0, 2.0f64.mul_add(-LEAST, height));
        let (measured, allowed) = (gap, 2.0f64.mul_add(-LEAST, height).max(0.0));
        Wrong { id: "gap-too-large", text, measured, allowed, help, field: GAP.field }.say(builder, &page);
        return;
    }
    let depth = entry.mm(DEPTH);
    // Half a turn in one fold, or in two.
    let (risers, angle) = if depth > 0.0 { (1, 90.0) } else { (0, 180.0) };
    let riser = |name| std::iter::repeat_n(RowPanel::new(name, Use::Flap, depth).folded(Sense::Valley, angle), risers);
    let leaves: Vec<RowPanel> = std::iter::once(RowPanel::new("lower door", Use::Flap, door))
        .chain(riser("lower riser"))
        .chain([RowPanel::new("page", Use::Plain, height).folded(Sense::Valley, angle)])
        .chain(riser("upper riser"))
        .chain([RowPanel::new("upper door", Use::Flap, door).folded(Sense::Valley, angle)])
        .collect();
    let net = Net::row(Along::Up, width, &leaves, 1 + risers);
    let low = door + depth;
    let (Some(lower), Some(upper)) = (net.panel("lower door"), net.panel("upper door")) else { return };
    let Some(piece) = page.piece(builder, "gate", ("gate-fold", "gate-fold"), net) else { return };
    worked_leaf.carried(builder, piece, (0.0, low));

    let [worked, other] = worked_leaf.faces();
    page.face(builder, (worked, ""), (width, height), front(piece, 0, (0.0, low)));
    page.face(builder, (other, ""), (width, height), back(piece, 0, (width, low)));
    let free = height + 2.0 * low;
    // Closed, a door shows its back, upside down as the piece is drawn; open, its front.
    for (name, panel, closed, open) in
        [("lower door", lower, door, 0.0), ("upper door", upper, free, low + height + depth)]
    {
        let outside = side(piece, panel, Face::Back, (0.0, closed), (1.0, 0.0));
        let lies = FacePlace { at: (0.0, if panel == lower { 0.0 } else { height - door }), shows: None };
        page.face_beside(builder, (worked, name), (width, door), outside, lies);
        page.face(
            builder,
            (worked, format!("{name} inside").as_str()),
            (width, door),
            front(piece, panel, (0.0, open)),
        );
    }
    builder.flap(Flap {
        name: page.name(),
        what: "doors",
        overlap: None,
        long: door,
        length: [door, door],
        depth,
        caliper: page.caliper,
        over: [entry.mm(CONTENT), 0.0],
        pocket: None,
        field: "",
        path: page.path(),
        place: entry.values.place(DEPTH).cloned(),
        two: true,
    });
    // Both doors and the page between them can be off.
    builder.spare(Said::new("the-gate-of").with("page", Arg::term(page.name())), "between its doors", gap, 3);
}
