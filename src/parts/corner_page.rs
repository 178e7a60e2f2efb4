// SPDX-License-Identifier: MIT
//! The corner-mount page: a pocket page with four slots in its front for the corners of a print.
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
//! ```

use super::build::Builder;
use super::leaf::{CONTENT, Wrong};
use super::page::Page;
use super::prints::{self, Print};
use super::{Maker, pocket_page};
use crate::album::{Entry, Kind, Role};
use crate::contour::{Contour, Point, Vec2};
use crate::fields::{Fallback, Field, Takes};
use crate::finding::Finding;

/// Longer than what goes through it, mm (G3).
const PLAY: f64 = 1.5;
/// Width of a slot, mm (G3, P6).
const SLOT: f64 = 0.5;
/// Card left between a print and the edge of its page, mm: our choice.
const EDGE: f64 = 3.0;

/// The print that a page is made for.
pub(super) const PRINT: Field = Field::new("print", Takes::Text, Fallback::Needed, prints::ABOUT);

/// Whether the print stands or lies.
pub(super) const LIES: Field = Field::new(
    "lies",
    Takes::Choice(&["upright", "across"]),
    Fallback::Choice("upright"),
    "whether the print stands as its size says or lies on its side",
);

pub(super) const MAKER: Maker = Maker {
    kind: Kind {
        name: "corner-mount",
        role: Role::Page,
        about: "a pocket page with slots in its front for the corners of a print",
        fields: &[
            PRINT,
            LIES,
            Field {
                measured: true,
                ..Field::new(
                    "corner",
                    Takes::Length { least: 5.0, most: 60.0 },
                    Fallback::Length { mm: 15.0, inch: 0.625 },
                    "how much of the print's edge goes in at each corner",
                )
            },
            CONTENT,
        ],
    },
    make,
    carry: None,
    example: r#"{ "kind": "corner-mount", "print": "4R" }"#,
};

/// The print of an entry as it stands on the page; what is no print is a finding.
pub(super) fn print(builder: &mut Builder<'_>, page: &Page<'_>) -> Option<Print> {
    let values = &page.entry.values;
    match prints::print(values.text("print")?) {
        Ok(print) => Some(if values.text("lies") == Some("across") { print.turned() } else { print }),
        Err(error) => {
            let finding = Finding::stop("unknown-print", page.name(), error.what).help(error.help);
            builder.find(finding.at(values.place("print")));
            None
        }
    }
}

/// Says whether what is made for a print does not go on its page.
pub(super) fn too_large(builder: &mut Builder<'_>, page: &Page<'_>, wants: [f64; 2]) -> bool {
    for (measured, allowed, what) in [(wants[0], page.width, "wide"), (wants[1], page.height, "tall")] {
        if measured > allowed + 1e-6 {
            let text = format!("its print wants a page {{}} {what}, and it is {{}}");
            let help = "take a smaller \"print\", turn it with \"lies\", or make the page larger";
            Wrong { id: "print-too-large", text: &text, measured, allowed, help, field: "print" }.say(builder, page);
            return true;
        }
    }
    false
}

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = Page::new(builder, entry, page);
    let Page { width, height, seam, .. } = page;
    let Some(print) = print(builder, &page) else { return };
    let corner = entry.mm("corner");
    let (wide, tall) = ((print.width + print.off).mm(), (print.height + print.off).mm());
    // At the tail the back's seam is stuck on the front from inside: no corner goes in there.
    if too_large(builder, &page, [2.0f64.mul_add(EDGE, wide), 2.0f64.mul_add(seam.max(EDGE), tall)]) {
        return;
    }
    let shortest = wide.min(tall);
    if corner > shortest / 2.0 - EDGE {
        let text = "corners of {} meet on its print: {} is the most";
        let help = "make \"corner\" smaller; 15 mm or 5/8 in is usual";
        let (measured, allowed) = (corner, (shortest / 2.0 - EDGE).max(0.0));
        Wrong { id: "corner-too-large", text, measured, allowed, help, field: "corner" }.say(builder, &page);
        return;
    }
    let mut nets = pocket_page::nets(&page);
    let middle = Point::new(width / 2.0, height / 2.0);
    for (right, up) in [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)] {
        let tip = middle + Vec2::new(right * wide / 2.0, up * tall / 2.0);
        nets[0].holes.push(slot(tip, Vec2::new(-right, -up), corner));
    }
    let kinds = [("corner-mount front", "corner-mount front"), ("pocket back", "pocket page")];
    let Some([_, behind]) = pocket_page::join(builder, &page, nets, kinds) else { return };
    page.face(builder, "back", (width, height), pocket_page::back_face(&page, behind));
}

/// The slot that cuts a corner off: `tip` is the print's corner, `inwards` points from it to the print's middle.
fn slot(tip: Point, inwards: Vec2, corner: f64) -> Contour {
    let middle = tip + inwards * (corner / 2.0);
    let out = inwards.normalize() * (SLOT / 2.0);
    let along = Vec2::new(-inwards.y, inwards.x).normalize() * (corner.hypot(corner) + PLAY) / 2.0;
    let spots = [middle + along + out, middle - along + out, middle - along - out, middle + along - out];
    Contour::polygon(spots.map(|spot| (spot.x, spot.y))).counter_clockwise()
}
