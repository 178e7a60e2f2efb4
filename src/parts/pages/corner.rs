// SPDX-License-Identifier: MIT
//! The corner-mount page: a pocket page with four slots in its front for the corners of a print, or four triangles stuck on it.
//!
//! ```text
//!   +-----------------+
//!   |   //       \\   |     the pocket page's two pieces. A print lies in the middle of the front, its corners
//!   |  //         \\  |     tucked through slots at 45 degrees into the sleeve: no glue touches it (M4).
//!   |                 | H
//!   |                 |     `corner` along each edge goes in; a slot is 1.5 mm longer than what goes through
//!   |  \\         //  |     it, and 0.5 mm wide: 1 to 2 mm longer, and the print's thickness of up to 0.28 mm
//!   |   \\       //   |     (P6) and 0.2 mm (G3; from memory, no source). The slots stand where they take a
//!   +-----------------+     print that is as large as its tolerance allows (P1).
//!            W
//!
//!      +--.   seam                  a triangle: legs as long as the corner that goes in and 0.5 mm (our choice), seams
//!     /|    `-.                     d deep along both that turn under it and stick to the front. They are cut at half of
//!    | |        `-.                 each corner (D7): 45 degrees at the right angle, 22.5 at the others, so d is at most
//!    | +------------+               leg / (1 + cot 22.5) and an eighth of it less; 6 mm is enough (our choice).
//!     \____________/
//! ```

use crate::album::{Bound, Entry, Kind, Role};
use crate::contour::{Contour, Point, Vec2};
use crate::fields::{Key, Text, needed, usual, words};
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::net::{Net, Sense, Use};
use crate::parts::bond::Face;
use crate::parts::build::advice::smaller;
use crate::parts::build::builder::Builder;
use crate::parts::build::sketch::{flat_fold, panel, settled, stick};
use crate::parts::kit::{Deed, Holds, PagePrint, Tucked};
use crate::parts::maker::Maker;
use crate::parts::name::PieceName;
use crate::parts::pages::leaf::{PRINT_AND_CONTENT, Wrong};
use crate::parts::pages::page::NewPage;
use crate::parts::pages::two_pieces;
use crate::parts::prints::{self, Print};
use std::f64::consts::SQRT_2;

/// Longer than what goes through it, mm (G3).
const PLAY: f64 = 1.5;
/// Width of a slot, mm (G3, P6).
const SLOT: f64 = 0.5;
/// Card left between a print and the edge of its page, mm: our choice.
const EDGE: f64 = 3.0;
/// What a triangle leaves round a print, and the depth of its seams where there is room, mm: our choice.
const EASE: f64 = 0.5;
const DEEP: f64 = 6.0;

/// The print that a page is made for.
pub(in crate::parts) const PRINT: Key<Text> = Key::text("print", needed(), prints::ABOUT);

words! {
    /// Whether the print stands as its size says or lies on its side.
    pub(in crate::parts) enum PrintLies { Upright = "upright", Across = "across" }
}

/// Whether the print stands or lies.
pub(in crate::parts) const LIES: Key<PrintLies> =
    Key::choice("lies", PrintLies::Upright.usual(), "whether the print stands as its size says or lies on its side");

words! {
    /// What holds the corners: slots in the card, or triangles stuck on it.
    pub(in crate::parts) enum CornerHold { Slots = "slots", Triangles = "triangles" }
}

const MOUNT: Key<CornerHold> = Key::choice(
    "mount",
    CornerHold::Slots.usual(),
    "what holds the corners: slots in the card, or triangles stuck on it",
);
const CORNER: Key<Length> =
    Key::length("corner", usual(15.0, 0.625), "how much of the print's edge goes in at each corner").within(5.0, 60.0);

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "corner-mount",
        role: Role::Page,
        about: "a pocket page that holds a print by its corners, in slots or under triangles that are stuck on",
        fields: &[PRINT.field, LIES.field, MOUNT.field, CORNER.field, PRINT_AND_CONTENT.field],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "corner-mount", "print": "4R" }"#,
};

/// The print of an entry as it stands on the page; what is no print is a finding.
pub(in crate::parts) fn print(builder: &mut Builder<'_>, page: &NewPage<'_>) -> Option<Print> {
    let values = &page.entry.values;
    match prints::print(values.get(PRINT)) {
        Ok(print) => {
            // Bound at the top, what stands upright to the reader lies on its side.
            let across = (values.get(LIES) == PrintLies::Across) != (builder.album.bound == Bound::Top);
            Some(if across { print.turned() } else { print })
        }
        Err(error) => {
            let finding = Finding::stop("unknown-print", page.about(), error.what).help(error.help);
            builder.find(finding.at(values.place(PRINT)));
            None
        }
    }
}

/// Says that the page's print lies on a piece, in a pocket or in none; not where its entry says how thick what is on it is.
pub(in crate::parts) fn lies(
    builder: &mut Builder<'_>,
    page: &NewPage<'_>,
    (piece, pocket): (usize, Option<usize>),
    size: (f64, f64),
) {
    if page.entry.get(PRINT_AND_CONTENT).is_none() {
        builder.print_on(PagePrint { page: page.number, piece, pocket, size, thickness: prints::THICK });
    }
}

/// Says whether what is made for a print does not go on its page.
pub(in crate::parts) fn too_large(builder: &mut Builder<'_>, page: &NewPage<'_>, wants: [f64; 2]) -> bool {
    let (wide, tall) = (Said::new("print-too-wide"), Said::new("print-too-tall"));
    for (measured, allowed, text) in [(wants[0], page.width, wide), (wants[1], page.height, tall)] {
        if measured > allowed + SAME {
            let help = Said::new("print-too-large-help").with("lies", Arg::field(LIES.name()));
            Wrong { id: "print-too-large", text, measured, allowed, help, field: PRINT.field }.say(builder, page);
            return true;
        }
    }
    false
}

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = NewPage::new(builder, entry, page);
    let NewPage { width, height, seam, .. } = page;
    let Some(print) = print(builder, &page) else { return };
    let corner = entry.mm(CORNER);
    let (wide, tall) = ((print.width + print.off).mm(), (print.height + print.off).mm());
    let triangles = entry.get(MOUNT) == CornerHold::Triangles;
    // At the tail the back's seam is stuck on the front from inside: no corner goes in there.
    let low = if triangles { EDGE } else { seam.max(EDGE) };
    if too_large(builder, &page, [2.0f64.mul_add(EDGE, wide), 2.0f64.mul_add(low, tall)]) {
        return;
    }
    let shortest = wide.min(tall);
    if corner > shortest / 2.0 - EDGE {
        let text = Said::new("corners-meet-on-print");
        let help = smaller("corners-meet-on-print-help", 15.875, shortest / 2.0 - EDGE);
        let (measured, allowed) = (corner, (shortest / 2.0 - EDGE).max(0.0));
        Wrong { id: "corner-too-large", text, measured, allowed, help, field: CORNER.field }.say(builder, &page);
        return;
    }
    let mut nets = two_pieces::nets(&page);
    let middle = Point::new(width / 2.0, height / 2.0);
    let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
    let tip = |(right, up): (f64, f64)| middle + Vec2::new(right * wide / 2.0, up * tall / 2.0);
    if !triangles {
        nets[0].holes.extend(corners.map(|(right, up)| slot(tip((right, up)), Vec2::new(-right, -up), corner)));
    }
    let front = if triangles { ("pocket front", "pocket page") } else { ("corner-mount front", "corner-mount front") };
    let Some([on, behind]) = two_pieces::join(builder, &page, nets, [front, ("pocket back", "pocket page")]) else {
        return;
    };
    if !triangles {
        // The slots are as long as the largest print wants them; triangles are stuck round the print itself.
        builder.spare(Said::new("the-print-of").with("page", Arg::term(page.name())), "in its slots", PLAY, 2);
    }
    let (by, size) = (if triangles { Holds::Corners } else { Holds::Slots }, (print.width.mm(), print.height.mm()));
    builder.deed(Deed::Print { page: page.number, piece: on, by, print: size });
    lies(builder, &page, (on, None), size);
    if let Some(pocket) = builder.last_pocket() {
        pocket.corners = !triangles;
    }
    for (right, up) in corners.into_iter().filter(|_| !triangles) {
        let at = tip((right, up));
        let legs = [at, at + Vec2::new(-right * corner, 0.0), at + Vec2::new(0.0, -up * corner)];
        let outline = Contour::polygon(legs.map(|leg| (leg.x, leg.y))).counter_clockwise();
        builder.tuck(Tucked { piece: on, panel: 0, outline });
    }
    for (number, (right, up)) in corners.into_iter().enumerate().filter(|_| triangles) {
        let (net, by) = triangle((-right, -up), corner + EASE);
        let which = PieceName::from("corner").counted(number + 1);
        let Some(piece) = page.piece(builder, which, ("photo corner", "photo corner"), net.clone()) else { return };
        let tip = middle + Vec2::new(right * (wide / 2.0 + EASE), up * (tall / 2.0 + EASE));
        stick(builder, (piece, &net), (on, 0), tip.to_vec2() - by);
    }
    page.face(builder, (Face::Back, ""), (width, height), two_pieces::back_face(&page, behind));
}

/// A triangle with its right angle where the print's corner lies, its legs `leg` long that way, and its two seams; where its
/// right angle lies in the net.
fn triangle((right, up): (f64, f64), leg: f64) -> (Net, Vec2) {
    let sharp = 1.0 + SQRT_2;
    let deep = (leg / (1.0 + sharp) * 0.875).min(DEEP);
    let (level, upright) = ((right * leg, 0.0), (0.0, up * leg));
    let contour = |corners: &[(f64, f64)]| Contour::polygon(corners.iter().copied()).counter_clockwise();
    let tip = (0.0, 0.0);
    let under = contour(&[tip, level, (right * (leg - sharp * deep), -up * deep), (right * deep, -up * deep)]);
    let beside = contour(&[tip, upright, (-right * deep, up * (leg - sharp * deep)), (-right * deep, up * deep)]);
    settled(Net {
        panels: vec![
            panel("corner", Use::Plain, contour(&[tip, level, upright])),
            panel("level seam", Use::Seam, under),
            panel("upright seam", Use::Seam, beside),
        ],
        folds: vec![
            flat_fold([0, 1], (tip, level), Sense::Mountain),
            flat_fold([0, 2], (tip, upright), Sense::Mountain),
        ],
        holes: Vec::new(),
        marks: Vec::new(),
    })
}

/// The slot that cuts a corner off: `tip` is the print's corner, `inwards` points from it to the print's middle.
fn slot(tip: Point, inwards: Vec2, corner: f64) -> Contour {
    let middle = tip + inwards * (corner / 2.0);
    let out = inwards.normalize() * (SLOT / 2.0);
    let along = Vec2::new(-inwards.y, inwards.x).normalize() * (corner.hypot(corner) + PLAY) / 2.0;
    let spots = [middle + along + out, middle - along + out, middle - along - out, middle + along - out];
    Contour::polygon(spots.map(|spot| (spot.x, spot.y))).counter_clockwise()
}
