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
use crate::fields::{Fallback, Field, Takes};
use crate::net::Net;
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::sketch::{Seams, moved, notched_head, pocket_front, stick};
use crate::parts::kit::Face;
use crate::parts::library::Maker;
use crate::parts::pages::leaf::{CONTENT, FACES, Leaf, Wrong, back, front};
use crate::parts::pages::page::Page;
use crate::parts::pages::side::{wrong_height, wrong_width};
use crate::parts::pocket::{End, Pocket};

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "library-card",
        role: Role::Page,
        about: "a leaf with a low pocket from which a card looks out",
        fields: &[
            Field::size("pocket", Fallback::Length { mm: 80.0, inch: 3.125 }, "width of the pocket's front"),
            Field::size("height", Fallback::Length { mm: 60.0, inch: 2.375 }, "its height, where it is tallest"),
            Field::length("raise", Fallback::Length { mm: 15.0, inch: 0.625 }, "how far it stands above the tail"),
            Field::new(
                "mouth",
                Takes::Choice(&["slanted", "notched", "straight"]),
                Fallback::Choice("slanted"),
                "the form of its upper edge",
            ),
            Field::length(
                "slant",
                Fallback::Length { mm: 15.0, inch: 0.625 },
                "how much lower a slanted mouth is at the fore-edge",
            ),
            Field::length("notch", Fallback::Length { mm: 20.0, inch: 0.75 }, "diameter of the notch of a notched one"),
            FACES,
            CONTENT,
        ],
    },
    make,
    carry: None,
    example: r#"{ "kind": "library-card" }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = Page::new(builder, entry, page);
    let Page { width, height, seam, .. } = page;
    let leaf = Leaf::new(&page);
    let (pocket, tall, raise) = (entry.mm("pocket"), entry.mm("height"), entry.mm("raise"));
    let mouth = entry.values.text("mouth");
    let slant = if mouth == Some("slanted") { entry.mm("slant") } else { 0.0 };
    let notch = if mouth == Some("notched") { entry.mm("notch") } else { 0.0 };
    let low = tall - slant - notch / 2.0;
    let field = if slant > 0.0 {
        "slant"
    } else if notch > 0.0 {
        "notch"
    } else {
        "height"
    };
    if wrong_width(builder, &page, pocket) || wrong_height(builder, &page, low, field) {
        return;
    }
    if raise + tall > height {
        let text = "its pocket ends {} above the tail, and its page is {} tall";
        let help = "make \"height\" or \"raise\" smaller";
        let (measured, allowed) = (raise + tall, height);
        Wrong { id: "pocket-too-tall", text, measured, allowed, help, field: "height" }.say(builder, &page);
        return;
    }
    let room = 2.0f64.mul_add(-seam, pocket);
    if notch > room {
        let text = "a notch of {} does not go between its seams, {} apart";
        let help = "make \"notch\" smaller; 20 mm or 3/4 in is usual";
        Wrong { id: "notch-too-large", text, measured: notch, allowed: room, help, field: "notch" }.say(builder, &page);
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

    let [worked, other] = leaf.names();
    page.face(builder, &format!("{worked} pocket"), (pocket, low), moved(front(over, 0, (0.0, 0.0)), by));
    let above = raise + tall;
    page.face(builder, &format!("{worked} top"), (width, height - above), front(on, 0, (0.0, above)));
    page.face(builder, other, (width, height), back(on, 0, (width, 0.0)));
    let inside = side(over, 0, Face::Back, (leaf.near_spine(0.0, pocket), 0.0), (0.0, 1.0));
    // A card may look out, up to the page's head; at least half of it is inside.
    let (across, up) = ([End::Sealed; 2], [End::Sealed, End::Open]);
    let beyond = [0.0, (height - raise - low).min(low)];
    builder.pocket(Pocket { beyond, flat: true, ..page.pocket((pocket, low), across, up, moved(inside, by)) });
}
