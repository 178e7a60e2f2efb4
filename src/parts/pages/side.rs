// SPDX-License-Identifier: MIT
//! The side-loading page: a leaf with a pocket whose only mouth is at the fore-edge.
//!
//! ```text
//!   leaf                 pocket front
//!   +-----------------+     ________________     leaf W x H; front P x H with seams s deep at the spine's
//!   |     ¦           |    /     seam       |    side, the head and the tail. They turn under and stick,
//!   |     ¦           |   +- - - - - - - - -+    hidden, to the leaf; where two meet each is cut at 45
//!   |     ¦           |   ¦                 |    degrees, half the corner (D7, G1).
//!   | tab ¦  pocket   |   ¦     pocket      | H
//!   |     ¦           |   ¦                 |    The pocket ends at the fore-edge and stands clear of the
//!   |     ¦           |   +- - - - - - - - -+    hinge's tab, which is stuck on the leaf: P is W less the
//!   +-----------------+    \_____seam_______|    tab (derived). Pockets of this form: common practice, no
//!            W                      P            source.
//! ```
//!
//! Nothing slides out towards the hinge, and nothing falls out at the head or the tail.

use crate::album::{Entry, Kind, Role};
use crate::contour::{Contour, Vec2};
use crate::fields::{Field, Key, rule};
use crate::finding::{Arg, Said};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::net::Net;
use crate::parts::bond::Face;
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::sketch::{Seams, moved, pocket_front, stick};
use crate::parts::maker::Maker;
use crate::parts::pages::leaf::{CONTENT, FACES, LeafFace, Wrong, back, front, given, tab};
use crate::parts::pages::page::NewPage;
use crate::parts::pocket::PocketEnd;

/// The width of a pocket beside the hinge's tab.
pub(in crate::parts) const POCKET: Key<Option<Length>> =
    Key::size("pocket", rule("the page's width less the hinge's tab"), "width of the pocket's front");

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "side-loading",
        role: Role::Page,
        about: "a leaf with a pocket that is open at the fore-edge alone",
        fields: &[POCKET.field, FACES.field, CONTENT.field],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "side-loading" }"#,
};

/// Says whether a pocket of this width is wrong on its page: wider than it, or too narrow for two seams.
pub(in crate::parts) fn wrong_width(builder: &mut Builder<'_>, page: &NewPage<'_>, pocket: f64) -> bool {
    let (measured, field) = (pocket, POCKET.field);
    if pocket > page.width + SAME {
        let text = Said::new("pocket-too-wide");
        let help = Said::new("pocket-too-wide-help");
        Wrong { id: "pocket-too-wide", text, measured, allowed: page.width, help, field }.say(builder, page);
        return true;
    }
    if pocket < 2.0 * page.seam {
        let text = Said::new("pocket-too-narrow");
        let help = Said::new("pocket-too-narrow-help").with("seam", Arg::field("page.seam"));
        Wrong { id: "pocket-too-narrow", text, measured, allowed: 2.0 * page.seam, help, field }.say(builder, page);
        return true;
    }
    false
}

/// Says whether what is this tall has no room for two seams.
pub(in crate::parts) fn wrong_height(
    builder: &mut Builder<'_>,
    page: &NewPage<'_>,
    height: f64,
    field: impl Into<Field>,
) -> bool {
    let wrong = height < 2.0 * page.seam;
    if wrong {
        let text = Said::new("pocket-too-low");
        let help = Said::new("pocket-too-low-help").with("seam", Arg::field("page.seam"));
        let (measured, allowed, field) = (height, 2.0 * page.seam, field.into());
        Wrong { id: "pocket-too-low", text, measured, allowed, help, field }.say(builder, page);
    }
    wrong
}

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = NewPage::new(builder, entry, page);
    let NewPage { width, height, seam, .. } = page;
    let leaf = LeafFace::new(&page);
    let pocket = given(entry, POCKET, width - tab(builder));
    if wrong_width(builder, &page, pocket) || wrong_height(builder, &page, height, POCKET) {
        return;
    }
    let ground = Net::single("leaf", Contour::rectangle(0.0, 0.0, width, height));
    let seams = Seams { left: !leaf.on_back, right: leaf.on_back, head: true };
    let (net, low) = pocket_front(Contour::rectangle(0.0, 0.0, pocket, height), (height, height), seams, seam);
    let on = page.piece(builder, "leaf", ("leaf", "leaf"), ground);
    let over = page.piece(builder, "pocket", ("side-loading pocket", "side-loading pocket"), net.clone());
    let (Some(on), Some(over)) = (on, over) else { return };
    stick(builder, (over, &net), (on, 0), Vec2::new(leaf.x(width - pocket, pocket), 0.0) - low);
    leaf.carried(builder, on, (0.0, 0.0));

    let [worked, other] = leaf.faces();
    page.face(builder, (worked, "pocket"), (pocket, height), moved(front(over, 0, (0.0, 0.0)), low));
    page.face(builder, (other, ""), (width, height), back(on, 0, (width, 0.0)));
    let inside = side(over, 0, Face::Back, (leaf.near_spine(0.0, pocket), 0.0), (0.0, 1.0));
    let (across, up) = ([PocketEnd::Sealed, PocketEnd::Open], [PocketEnd::Sealed; 2]);
    builder.pocket(page.pocket((pocket, height), across, up, moved(inside, low)));
}
