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
use crate::fields::{Key, usual};
use crate::finding::Said;
use crate::length::Length;
use crate::parts::bond::Face;
use crate::parts::build::advice::smaller;
use crate::parts::build::builder::Builder;
use crate::parts::build::sketch::notched_right;
use crate::parts::maker::Maker;
use crate::parts::pages::leaf::{CONTENT, Wrong, front, tab};
use crate::parts::pages::page::NewPage;
use crate::parts::pages::two_pieces;

const NOTCH: Key<Length> =
    Key::length("notch", usual(20.0, 0.75), "diameter of the half-round notch").within(6.0, 80.0);

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "notched",
        role: Role::Page,
        about: "a pocket page with a thumb notch in the fore-edge of its front",
        fields: &[NOTCH.field, CONTENT.field],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "notched" }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = NewPage::new(builder, entry, page);
    let NewPage { width, height, seam, .. } = page;
    let notch = entry.mm(NOTCH);
    // Half of it goes into the width, all of it into the height.
    let (along, across) = (2.0f64.mul_add(-seam, height), 2.0 * (width - tab(builder)));
    if notch > along.min(across) {
        let text = Said::new("notch-too-large");
        let help = smaller("notch-too-large-help", 20.0, along.min(across));
        let (measured, allowed) = (notch, along.min(across).max(0.0));
        Wrong { id: "notch-too-large", text, measured, allowed, help, field: NOTCH.field }.say(builder, &page);
        return;
    }
    let mut nets = two_pieces::nets(&page);
    if let Some(panel) = nets[0].panels.first_mut() {
        panel.outline = notched_right((width, height), notch);
    }
    let kinds = [("notched front", "notched front"), ("pocket back", "pocket page")];
    let Some([piece, behind]) = two_pieces::join(builder, &page, nets, kinds) else { return };
    if let Some(pocket) = builder.last_pocket() {
        pocket.notch[0] = notch / 2.0;
    }
    page.face(builder, (Face::Front, ""), (width - notch / 2.0, height), front(piece, 0, (0.0, 0.0)));
    page.face(builder, (Face::Back, ""), (width, height), two_pieces::back_face(&page, behind));
}
