// SPDX-License-Identifier: MIT
//! The waterfall page: pockets in steps, one over the other, each lower than the one behind it.
//!
//! ```text
//!   +-----+-----------+
//!   |     |           | step     `steps` pockets on one leaf, all down to the tail. The one at the back is
//!   |     +-----------+          H - step tall, each further one lower by a step; every mouth is at the
//!   |     |           | step     head. Each has seams s deep at both sides and the tail, which turn under
//!   |     +-----------+          and stick to what is behind: the leaf, or the pocket before; where two
//!   |     |           | step     meet each is cut at 45 degrees, half the corner (D7, G1).
//!   |     +-----------+
//!   |     |           |          Heights derived; steps of 25 mm or 1 in and pockets of this form: common
//!   +-----+-----------+          practice, no source. Two calipers a pocket at its edges: card of up to
//!     tab       P                0.3 mm keeps three of them flat.
//! ```
//!
//! What stands in a pocket may look out at the top, up to the page's head; at least half of it is inside.

use crate::album::{Entry, Kind, Role};
use crate::contour::{Contour, Vec2};
use crate::fields::{Key, number, usual};
use crate::finding::{Arg, Said};
use crate::length::Length;
use crate::net::Net;
use crate::parts::bond::Face;
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::face::FacePlace;
use crate::parts::build::sketch::{Seams, moved, pocket_front, stick};
use crate::parts::maker::Maker;
use crate::parts::name::PieceName;
use crate::parts::pages::leaf::{CONTENT, FACES, LeafFace, Wrong, back, front, given, tab};
use crate::parts::pages::page::NewPage;
use crate::parts::pages::side::{POCKET, wrong_width};
use crate::parts::pocket::{Pocket, PocketEnd};

const STEPS: Key<u32> = Key::count("steps", (2, 4), number(3), "how many pockets");
const STEP: Key<Length> =
    Key::length("step", usual(25.0, 1.0), "how much lower each pocket is than what is behind it").within(5.0, 200.0);

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "waterfall",
        role: Role::Page,
        about: "a leaf with two to four pockets in steps, each lower than the one behind it",
        fields: &[STEPS.field, STEP.field, POCKET.field, FACES.field, CONTENT.field],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "waterfall" }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = NewPage::new(builder, entry, page);
    let NewPage { width, height, seam, .. } = page;
    let leaf = LeafFace::new(&page);
    let (steps, step) = (entry.get(STEPS), entry.mm(STEP));
    let pocket = given(entry, POCKET, width - tab(builder));
    if wrong_width(builder, &page, pocket) {
        return;
    }
    let (all, room) = (f64::from(steps) * step, 2.0f64.mul_add(-seam, height));
    if all > room {
        let text = Said::new("steps-too-tall");
        let help = Said::new("steps-too-tall-help").with("steps", Arg::field(STEPS.name()));
        let (measured, allowed) = (all, room.max(0.0));
        Wrong { id: "steps-too-tall", text, measured, allowed, help, field: STEP.field }.say(builder, &page);
        return;
    }
    let ground = Net::single("leaf", Contour::rectangle(0.0, 0.0, width, height));
    let Some(on) = page.piece(builder, "leaf", ("leaf", "leaf"), ground) else { return };
    leaf.carried(builder, on, (0.0, 0.0));
    let [worked, other] = leaf.faces();
    let left = leaf.x(width - pocket, pocket);
    let lies = |y| FacePlace { at: (left, y), shows: None };
    let top = front(on, 0, (left, height - step));
    page.face_beside(builder, (worked, "top"), (pocket, step), top, lies(height - step));
    let (mut behind, mut at) = (on, Vec2::new(left, 0.0));
    for number in 1..=steps {
        let tall = f64::from(number).mul_add(-step, height);
        let seams = Seams { left: true, right: true, head: false };
        let (net, low) = pocket_front(Contour::rectangle(0.0, 0.0, pocket, tall), (tall, tall), seams, seam);
        let which = PieceName::from("pocket").counted(usize::try_from(number).unwrap_or(usize::MAX));
        let Some(over) = page.piece(builder, which.clone(), ("step pocket", "step pocket"), net.clone()) else {
            return;
        };
        stick(builder, (over, &net), (behind, 0), at - low);
        // Of all but the last one only a step shows.
        let shown = if number == steps { tall } else { step };
        let face = moved(front(over, 0, (0.0, tall - shown)), low);
        page.face_beside(builder, (worked, which), (pocket, shown), face, lies(tall - shown));
        let inside = side(over, 0, Face::Back, (leaf.near_spine(0.0, pocket), 0.0), (0.0, 1.0));
        let (across, up) = ([PocketEnd::Sealed; 2], [PocketEnd::Sealed, PocketEnd::Open]);
        let beyond = [0.0, (height - tall).min(tall)];
        let on = (number > 1).then(|| builder.pockets().len() - 1);
        let made = page.pocket((pocket, tall), across, up, moved(inside, low));
        builder.pocket(Pocket { beyond, flat: true, on, ..made });
        (behind, at) = (over, low);
    }
    page.face(builder, (other, ""), (width, height), back(on, 0, (width, 0.0)));
}
