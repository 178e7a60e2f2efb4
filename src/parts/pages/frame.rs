// SPDX-License-Identifier: MIT
//! The frame page: a leaf with a windowed pocket, made for one size of print, open towards the fore-edge.
//!
//! ```text
//!   leaf                  frame
//!   +---------------+      ____________
//!   |  +---------+  |     /    seam    |     the frame is the print and `play`, with seams s deep at the spine's
//!   |  | +-----+ |  |    +- - - - - - -+     side, the head and the tail; they turn under and stick to the leaf,
//!   |  | |     | |  |    ¦  +-------+  |     their ends cut at 45 degrees where two meet (D7, G1). The window is
//!   |  | |     | |  |    ¦  |       |  |     smaller than the print by `overlap` at each side.
//!   |  | +-----+ |  |    ¦  +-------+  |
//!   |  +---------+  |    +- - - - - - -+     play: 3.2 mm or 1/8 in in all (C2), at least the print's tolerance
//!   +---------------+     \____seam____|     and thickness (P1, C1); overlap 3 mm or 1/8 in (common practice,
//!                                            no source), more than half the play, so that no edge ever shows.
//! ```
//!
//! The leaf is the backing; the print slides in from the side, and no glue touches it (M4).

use crate::album::{Entry, Kind, Role};
use crate::contour::{Contour, Vec2};
use crate::fields::{Key, usual};
use crate::finding::{Arg, Said};
use crate::length::Length;
use crate::net::Net;
use crate::parts::bond::Face;
use crate::parts::build::advice::smaller;
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::sketch::{Seams, moved, pocket_front, stick};
use crate::parts::kit::{Deed, Holds};
use crate::parts::maker::Maker;
use crate::parts::pages::corner::{LIES, PRINT, lies, print, too_large};
use crate::parts::pages::leaf::{FACES, LeafFace, PRINT_AND_CONTENT, Wrong, back, tab};
use crate::parts::pages::page::NewPage;
use crate::parts::pages::side::wrong_height;
use crate::parts::pocket::PocketEnd;
use crate::parts::prints;

/// Windows smaller than this are none, mm: our choice.
const LEAST: f64 = 10.0;

const OVERLAP: Key<Length> =
    Key::length("overlap", usual(3.0, 0.125), "how much the window is smaller than the print at each side");
const PLAY: Key<Length> =
    Key::length("play", usual(3.2, 0.125), "how much larger than the print the pocket behind the window is, in all")
        .within(1.0, 20.0);

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "frame",
        role: Role::Page,
        about: "a leaf with a window for one size of print, which slides in from the fore-edge",
        fields: &[PRINT.field, LIES.field, OVERLAP.field, PLAY.field, FACES.field, PRINT_AND_CONTENT.field],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "frame", "print": "4R" }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = NewPage::new(builder, entry, page);
    let NewPage { width, height, seam, .. } = page;
    let leaf = LeafFace::new(&page);
    let Some(print) = print(builder, &page) else { return };
    let (overlap, play) = (entry.mm(OVERLAP), entry.mm(PLAY));
    let with_play = |side: Length| builder.album.at_least(side.mm() + play).mm();
    let (wide, tall) = (with_play(print.width), with_play(print.height));
    if too_large(builder, &page, [wide, tall]) || wrong_height(builder, &page, tall.min(wide), PRINT) {
        return;
    }
    let most = (print.width.mm().min(print.height.mm()) - LEAST) / 2.0;
    let tab = tab(builder);
    let wrong = |text, allowed, help| Wrong {
        id: "overlap-wrong",
        text,
        measured: overlap,
        allowed,
        help,
        field: OVERLAP.field,
    };
    let found = if overlap <= play / 2.0 {
        let help = Said::new("overlap-too-small-help").with("play", Arg::field(PLAY.name()));
        Some(wrong(Said::new("overlap-too-small"), play / 2.0, help))
    } else if overlap > most {
        Some(wrong(Said::new("overlap-too-large"), most.max(0.0), smaller("overlap-too-large-help", 3.175, most)))
    } else {
        None
    };
    if let Some(wrong) = found {
        wrong.say(builder, &page);
        return;
    }
    let ground = Net::single("leaf", Contour::rectangle(0.0, 0.0, width, height));
    let seams = Seams { left: !leaf.on_back, right: leaf.on_back, head: true };
    let border = overlap + play / 2.0;
    let (across, up) = (2.0f64.mul_add(-border, wide), 2.0f64.mul_add(-border, tall));
    let (net, by) = pocket_front(Contour::rectangle(0.0, 0.0, wide, tall), (tall, tall), seams, seam);
    let net = net.with_hole(Contour::rectangle(border, border, across, up).shifted(by));
    let on = page.piece(builder, "leaf", ("leaf", "leaf"), ground);
    let over = page.piece(builder, "frame", ("frame", "frame"), net.clone());
    let (Some(on), Some(over)) = (on, over) else { return };
    // In the middle, but off the hinge's tab where there is room for that.
    let near = ((width - wide) / 2.0).max(tab).min(width - wide);
    let (left, low) = (leaf.x(near, wide), (height - tall) / 2.0);
    stick(builder, (over, &net), (on, 0), Vec2::new(left, low) - by);
    leaf.carried(builder, on, (0.0, 0.0));
    // The print may be larger by its tolerance, the folds at head and tail take a caliper at least (P1, H5, P6).
    let spare = play - print.off.mm() - page.caliper - prints::THICK;
    builder.spare(Said::new("the-frame-of").with("page", Arg::term(page.name())), "round its print", spare, 2);
    // Pushed to one side, the print's other edge is still to lie under the card.
    builder.spare(
        Said::new("the-window-of").with("page", Arg::term(page.name())),
        "over its print's edge",
        overlap - play / 2.0,
        2,
    );
    let size = (print.width.mm(), print.height.mm());
    builder.deed(Deed::Print { page: page.number, piece: over, by: Holds::Window, print: size });
    page.face(builder, (leaf.faces()[1], ""), (width, height), back(on, 0, (width, 0.0)));
    let inside = side(over, 0, Face::Back, (leaf.near_spine(0.0, wide), 0.0), (0.0, 1.0));
    let (across, up) = ([PocketEnd::Sealed, PocketEnd::Open], [PocketEnd::Sealed; 2]);
    builder.pocket(page.pocket((wide, tall), across, up, moved(inside, by)));
    lies(builder, &page, (over, builder.pockets().len().checked_sub(1)), size);
}
