// SPDX-License-Identifier: MIT
//! The library-card page: a leaf with a low pocket from which a card looks out.
//!
//! ```text
//!   leaf                 pocket, slanted       pocket, notched
//!   +---------------+
//!   |               |      __                                   front P wide, with seams s deep at both sides
//!   |   +-------+   |    /¦  \___ slant      /+---(   )---+\    and the tail; they turn under and stick to the
//!   |   |       |   |   | ¦      \_¦\       | ¦           ¦ |   leaf; where two meet each is cut at 45 degrees
//!   |   |       |   |   | ¦        ¦ |      | ¦           ¦ |   (D7, G1). Its mouth is at the head: straight,
//!   |   +-------+   |    \+- - - - +/        \+- - - - - -+/    slanted down to the fore-edge, or with a
//!   |     raise     |      \_seam_/            \__seam___/      half-round notch.
//!   +---------------+          P                    P
//! ```
//!
//! It stands in the middle of the leaf, `raise` above the tail. 80 mm or 3 1/8 in is a 3 in card (P3, 76.2 mm) and what it
//! slides in (C2: 3.2 mm in all); height, slant and notch: common practice, no source.

use crate::album::{Entry, Kind, Role};
use crate::contour::{Contour, Vec2};
use crate::fields::{Key, usual, words};
use crate::finding::{Arg, Said};
use crate::length::Length;
use crate::net::Net;
use crate::parts::bond::Face;
use crate::parts::build::advice::smaller;
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::sketch::{Seams, moved, notched_head, pocket_front, stick};
use crate::parts::maker::Maker;
use crate::parts::pages::leaf::{CONTENT, FACES, LeafFace, Wrong, back, front};
use crate::parts::pages::page::NewPage;
use crate::parts::pages::side::{wrong_height, wrong_width};
use crate::parts::pocket::{Pocket, PocketEnd};

words! {
    /// The form of its upper edge.
    pub(in crate::parts) enum Mouth { Slanted = "slanted", Notched = "notched", Straight = "straight" }
}

const POCKET: Key<Length> = Key::size("pocket", usual(80.0, 3.125), "width of the pocket's front");
const HEIGHT: Key<Length> = Key::size("height", usual(60.0, 2.375), "its height, where it is tallest");
const RAISE: Key<Length> = Key::length("raise", usual(15.0, 0.625), "how far it stands above the tail");
const MOUTH: Key<Mouth> = Key::choice("mouth", Mouth::Slanted.usual(), "the form of its upper edge");
const SLANT: Key<Length> =
    Key::length("slant", usual(15.0, 0.625), "how much lower a slanted mouth is at the fore-edge");
const NOTCH: Key<Length> = Key::length("notch", usual(20.0, 0.75), "diameter of the notch of a notched one");

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "library-card",
        role: Role::Page,
        about: "a leaf with a low pocket from which a card looks out",
        fields: &[
            POCKET.field,
            HEIGHT.field,
            RAISE.field,
            MOUTH.field,
            SLANT.field,
            NOTCH.field,
            FACES.field,
            CONTENT.field,
        ],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "library-card" }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = NewPage::new(builder, entry, page);
    let NewPage { width, height, seam, .. } = page;
    let leaf = LeafFace::new(&page);
    let (pocket, tall, raise) = (entry.mm(POCKET), entry.mm(HEIGHT), entry.mm(RAISE));
    let mouth = entry.get(MOUTH);
    let slant = if mouth == Mouth::Slanted { entry.mm(SLANT) } else { 0.0 };
    let notch = if mouth == Mouth::Notched { entry.mm(NOTCH) } else { 0.0 };
    let low = tall - slant - notch / 2.0;
    let field = if slant > 0.0 {
        SLANT
    } else if notch > 0.0 {
        NOTCH
    } else {
        HEIGHT
    };
    if wrong_width(builder, &page, pocket) || wrong_height(builder, &page, low, field) {
        return;
    }
    if raise + tall > height {
        let text = Said::new("pocket-too-tall");
        let help = Said::new("pocket-too-tall-help").with("raise", Arg::field(RAISE.name()));
        let (measured, allowed) = (raise + tall, height);
        Wrong { id: "pocket-too-tall", text, measured, allowed, help, field: HEIGHT.field }.say(builder, &page);
        return;
    }
    let room = 2.0f64.mul_add(-seam, pocket);
    if notch > room {
        let text = Said::new("notch-between-seams");
        let help = smaller("notch-too-large-help", 20.0, room);
        Wrong { id: "notch-too-large", text, measured: notch, allowed: room, help, field: NOTCH.field }
            .say(builder, &page);
        return;
    }
    // It falls towards the fore-edge.
    let (left, right) = if leaf.on_back { (tall - slant, tall) } else { (tall, tall - slant) };
    let outline = if notch > 0.0 {
        notched_head((pocket, tall), notch)
    } else {
        Contour::polygon([(0.0, 0.0), (pocket, 0.0), (pocket, right), (0.0, left)])
    };
    let seams = Seams { left: true, right: true, head: false };
    let (net, by) = pocket_front(outline, (left, right), seams, seam);
    let ground = Net::single("leaf", Contour::rectangle(0.0, 0.0, width, height));
    let on = page.piece(builder, "leaf", ("leaf", "leaf"), ground);
    let over = page.piece(builder, "pocket", ("library-card pocket", "library-card pocket"), net.clone());
    let (Some(on), Some(over)) = (on, over) else { return };
    stick(builder, (over, &net), (on, 0), Vec2::new((width - pocket) / 2.0, raise) - by);
    leaf.carried(builder, on, (0.0, 0.0));

    let [worked, other] = leaf.faces();
    page.face(builder, (worked, "pocket"), (pocket, low), moved(front(over, 0, (0.0, 0.0)), by));
    let above = raise + tall;
    page.face(builder, (worked, "top"), (width, height - above), front(on, 0, (0.0, above)));
    page.face(builder, (other, ""), (width, height), back(on, 0, (width, 0.0)));
    let inside = side(over, 0, Face::Back, (leaf.near_spine(0.0, pocket), 0.0), (0.0, 1.0));
    // A card may look out, up to the page's head; at least half of it is inside.
    let (across, up) = ([PocketEnd::Sealed; 2], [PocketEnd::Sealed, PocketEnd::Open]);
    let beyond = [0.0, (height - raise - low).min(low)];
    builder.pocket(Pocket { beyond, flat: true, ..page.pocket((pocket, low), across, up, moved(inside, by)) });
}
