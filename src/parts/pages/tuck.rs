// SPDX-License-Identifier: MIT
//! The tuck-envelope page: a leaf with a front folded up from its tail and a closing flap that tucks in from the head.
//!
//! ```text
//!           /-----------\                the flap is tall enough to go `tuck` behind the front; its corners are
//!          |    flap     |   c           clipped `lead_in` at 45 degrees (G2), and it is 1 mm narrower at each
//!   +-----+- - - - - - - -+              side (C2)
//!   |                     |
//!   |                     | H            c = H - front + tuck (derived)
//!   |        page         |
//!   |                     |
//!   +-----+- - - - - - - -+
//!        /¦               ¦\             the front starts beside the hinge's tab, so that the tab can be stuck
//!       | ¦     front     ¦ | front      on either face; both its seams turn in under it, their ends cut at
//!        \¦               ¦/             45 degrees, half the corner (G1, D7)
//!         +---------------+
//!       s        B        s              Form and `tuck`: common practice, no source.
//! ```

use crate::album::{Entry, Kind, Role};
use crate::contour::Contour;
use crate::fields::{Key, rule, usual};
use crate::finding::{Arg, Said};
use crate::length::Length;
use crate::net::{Fold, Net, Sense, Use};
use crate::parts::bond::{Face, Hold};
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::face::FacePlace;
use crate::parts::build::sketch::{flat_fold, moved, panel, settled};
use crate::parts::kit::Flap;
use crate::parts::maker::Maker;
use crate::parts::pages::leaf::{CONTENT, DEPTH, FACES, LeafFace, RISER, Wrong, back, given, tab};
use crate::parts::pages::page::NewPage;
use crate::parts::pages::side::{wrong_height, wrong_width};
use crate::parts::pocket::{Pocket, PocketEnd, Way};

/// What the flap is narrower at each side, mm: 2 mm in all lie in the band for what slides (C2).
const EASE: f64 = 1.0;

const FRONT: Key<Option<Length>> =
    Key::size("front", rule("two thirds of the page's height"), "height of the envelope's front");
const TUCK: Key<Length> = Key::size("tuck", usual(20.0, 0.75), "how far the closing flap goes in behind the front");
const LEAD_IN: Key<Length> =
    Key::length("lead_in", usual(5.0, 0.1875), "what is clipped off the flap's corners").within(0.0, 30.0);

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "tuck-envelope",
        role: Role::Page,
        about: "an envelope: a front folded up from the tail, and a flap that tucks in from the head",
        fields: &[FRONT.field, TUCK.field, LEAD_IN.field, DEPTH.field, FACES.field, CONTENT.field],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "tuck-envelope" }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = NewPage::new(builder, entry, page);
    let NewPage { width, height, seam, .. } = page;
    let leaf = LeafFace::new(&page);
    let (tall, tuck, lead_in) =
        (given(entry, FRONT, builder.album.at_most(height / 1.5).mm()), entry.mm(TUCK), entry.mm(LEAD_IN));
    let start = tab(builder);
    let body = width - start;
    if wrong_width(builder, &page, body) || wrong_height(builder, &page, tall, FRONT) {
        return;
    }
    if let Some(wrong) = wrong((body, height), (tall, tuck, lead_in)) {
        wrong.say(builder, &page);
        return;
    }

    let (x, depth) = (|from_spine: f64| leaf.x(from_spine, 0.0), entry.mm(DEPTH));
    let sizes = Sizes { start, tall, tuck, lead_in, depth };
    let (near, far, deep, foot) = (start + EASE, width - EASE, sizes.deep(height), height + depth);
    let (net, by) = settled(sizes.net(leaf, (height, seam)));
    let Some(piece) = page.piece(builder, "envelope", ("tuck envelope", "tuck envelope"), net) else { return };
    let side = |panel, face, at, along| moved(side(piece, panel, face, at, along), by);
    let (up, down) = ((0.0, 1.0), (0.0, -1.0));
    // The front is turned over, its seams are turned over twice: their backs lie on the page.
    for (seam, at) in [(2, start), (3, width)] {
        let one = side(seam, Face::Back, (x(at), 0.0), down);
        builder.bond(Hold::Stuck, one, side(0, Face::Front, (x(at), 0.0), up));
    }
    leaf.carried(builder, piece, (by.x, by.y));

    let [worked, other] = leaf.faces();
    let right = (1.0, 0.0);
    let outside = |panel, from: f64, y| side(panel, Face::Back, (from, y), right);
    let lies = |from: f64, wide: f64, y| FacePlace { at: (leaf.x(from, wide), y), shows: None };
    let envelope = outside(1, leaf.x(start, body), 0.0);
    page.face_beside(builder, (worked, "envelope"), (body, tall), envelope, lies(start, body, 0.0));
    // Of the closed flap only what stands above the front shows.
    let (wide, shown) = (far - near, height - tall);
    let flap = outside(4, leaf.x(near, wide), foot + shown);
    page.face_beside(builder, (worked, "flap"), (wide, shown), flap, lies(near, wide, tall));
    page.face(builder, (other, ""), (width, height), moved(back(piece, 0, (width, 0.0)), by));
    // What is inside may stand out of the front, up to the flap's fold; at least half of it is inside.
    let (across, up) = ([PocketEnd::Sealed; 2], [PocketEnd::Sealed, PocketEnd::Flap]);
    builder.flap(Flap {
        name: page.name(),
        what: "flap",
        overlap: Some(tuck),
        long: deep,
        length: [tuck, tall / 2.0],
        depth,
        caliper: page.caliper,
        over: [0.0, height],
        pocket: Some((builder.pockets().len(), Way::Up, height)),
        field: TUCK.name(),
        path: page.path(),
        place: entry.values.place(TUCK).cloned(),
        two: true,
    });
    // The flap goes in between two seams, where a sharp fold takes a caliper (H5).
    builder.spare(
        Said::new("the-flap-of").with("page", Arg::term(page.name())),
        "between its seams",
        2.0f64.mul_add(EASE, -page.caliper),
        2,
    );
    let inside = side(1, Face::Front, (x(start), 0.0), down);
    let beyond = [0.0, (height - tall).min(tall)];
    builder.pocket(Pocket { beyond, flat: true, ..page.pocket((body, tall), across, up, inside) });
}

/// The envelope's sizes, mm.
struct Sizes {
    /// Where it begins, from the spine.
    start: f64,
    /// How tall its front is.
    tall: f64,
    /// How far its flap goes in, and how much is clipped off the flap's corners.
    tuck: f64,
    lead_in: f64,
    /// How far the flap's scores are apart.
    depth: f64,
}

impl Sizes {
    /// How long its flap is.
    fn deep(&self, height: f64) -> f64 {
        height - self.tall + self.tuck
    }

    /// A leaf with its front below and its flap above.
    fn net(&self, leaf: LeafFace, (height, seam): (f64, f64)) -> Net {
        let (&Self { start, tall, lead_in, depth, .. }, width) = (self, leaf.width);
        // Drawn with the spine at the left, and mirrored where it is at the right.
        let x = |from_spine: f64| leaf.x(from_spine, 0.0);
        let shape = |corners: &[(f64, f64)]| {
            Contour::polygon(corners.iter().map(|&(from_spine, y)| (x(from_spine), y))).counter_clockwise()
        };
        let line = |from: (f64, f64), to: (f64, f64)| ((x(from.0), from.1), (x(to.0), to.1));
        let (near, far) = (start + EASE, width - EASE);
        let (foot, top) = (height + depth, height + depth + self.deep(height));
        let side_seam =
            |at: f64, out: f64| shape(&[(at, 0.0), (at, -tall), (at + out, seam - tall), (at + out, -seam)]);
        let flap = [
            (near, foot),
            (far, foot),
            (far, top - lead_in),
            (far - lead_in, top),
            (near + lead_in, top),
            (near, top - lead_in),
        ];
        let mut net = Net {
            panels: vec![
                panel("page", Use::Plain, Contour::rectangle(0.0, 0.0, width, height)),
                panel("front", Use::Plain, shape(&[(start, -tall), (width, -tall), (width, 0.0), (start, 0.0)])),
                panel("inner seam", Use::Seam, side_seam(start, -seam)),
                panel("outer seam", Use::Seam, side_seam(width, seam)),
                panel("flap", Use::Flap, shape(&flap)),
            ],
            folds: vec![
                flat_fold([0, 1], line((start, 0.0), (width, 0.0)), Sense::Valley),
                flat_fold([1, 2], line((start, 0.0), (start, -tall)), Sense::Valley),
                flat_fold([1, 3], line((width, 0.0), (width, -tall)), Sense::Valley),
                flat_fold([0, 4], line((near, height), (far, height)), Sense::Valley),
            ],
            holes: Vec::new(),
            marks: Vec::new(),
        };
        if depth > 0.0 {
            net.panels.push(panel(
                RISER,
                Use::Flap,
                shape(&[(near, height), (far, height), (far, foot), (near, foot)]),
            ));
            let quarter =
                |between, y| Fold { angle: 90.0, ..flat_fold(between, line((near, y), (far, y)), Sense::Valley) };
            net.folds.truncate(3);
            net.folds.extend([quarter([0, 5], height), quarter([5, 4], foot)]);
        }
        net
    }
}

/// What is wrong with the sizes of its front and its flap.
fn wrong((body, height): (f64, f64), (tall, tuck, lead_in): (f64, f64, f64)) -> Option<Wrong> {
    let wrong = |id, text, (measured, allowed), help, field| Wrong { id, text, measured, allowed, help, field };
    if tall > height {
        let help = Said::new("front-too-tall-help");
        Some(wrong("front-too-tall", Said::new("front-too-tall"), (tall, height), help, FRONT.field))
    } else if tuck > tall / 2.0 {
        let help = Said::new("tuck-too-deep-help").with("front", Arg::field(FRONT.name()));
        Some(wrong("tuck-too-deep", Said::new("tuck-too-deep"), (tuck, tall / 2.0), help, TUCK.field))
    } else if lead_in > tuck.min(body / 4.0) {
        let (text, help) = (Said::new("flap-lead-in-too-large"), Said::new("flap-lead-in-too-large-help"));
        Some(wrong("lead-in-too-large", text, (lead_in, tuck.min(body / 4.0)), help, LEAD_IN.field))
    } else {
        None
    }
}
