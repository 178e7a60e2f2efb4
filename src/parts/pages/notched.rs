// SPDX-License-Identifier: MIT
//! The notched page: a pocket page with a half-round thumb notch in the fore-edge of its front.
//!
//! ```text
//!   +-----------+
//!   |   seam    | s    the pocket page's two pieces; from the front's fore-edge half a disc of `notch`
//!   +- - - - - -+      diameter is taken at half height, so that a thumb finds what is inside.
//!   |           |
//!   |          (       Notch: common practice, no source; 20 mm or 3/4 in is a thumb's width. It keeps
//!   |          (  H    clear of the seams (notch + 2s at most H) and of the hinge's tab.
//!   |           |
//!   +-----------+      A panel on the front ends where the notch begins.
//!         W
//! ```

use crate::album::{Entry, Kind, Role};
use crate::fields::{Fallback, Field, Takes};
use crate::parts::build::builder::Builder;
use crate::parts::build::sketch::notched_right;
use crate::parts::library::Maker;
use crate::parts::pages::leaf::{CONTENT, Wrong, front, tab};
use crate::parts::pages::page::Page;
use crate::parts::pages::pocket;

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "notched",
        role: Role::Page,
        about: "a pocket page with a thumb notch in the fore-edge of its front",
        fields: &[
            Field {
                measured: true,
                ..Field::new(
                    "notch",
                    Takes::Length { least: 6.0, most: 80.0 },
                    Fallback::Length { mm: 20.0, inch: 0.75 },
                    "diameter of the half-round notch",
                )
            },
            CONTENT,
        ],
    },
    make,
    carry: None,
    example: r#"{ "kind": "notched" }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = Page::new(builder, entry, page);
    let Page { width, height, seam, .. } = page;
    let notch = entry.mm("notch");
    // Half of it goes into the width, all of it into the height.
    let (along, across) = (2.0f64.mul_add(-seam, height), 2.0 * (width - tab(builder)));
    if notch > along.min(across) {
        let text =
            "a notch of {} does not go into its front: there is room for {} between the seams and beside the tab";
        let help = "make \"notch\" smaller; 20 mm or 3/4 in is usual";
        let (measured, allowed) = (notch, along.min(across).max(0.0));
        Wrong { id: "notch-too-large", text, measured, allowed, help, field: "notch" }.say(builder, &page);
        return;
    }
    let mut nets = pocket::nets(&page);
    if let Some(panel) = nets[0].panels.first_mut() {
        panel.outline = notched_right((width, height), notch);
    }
    let kinds = [("notched front", "notched front"), ("pocket back", "pocket page")];
    let Some([piece, behind]) = pocket::join(builder, &page, nets, kinds) else { return };
    if let Some(pocket) = builder.last_pocket() {
        pocket.notch = notch / 2.0;
    }
    page.face(builder, "front", (width - notch / 2.0, height), front(piece, 0, (0.0, 0.0)));
    page.face(builder, "back", (width, height), pocket::back_face(&page, behind));
}
