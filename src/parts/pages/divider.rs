// SPDX-License-Identifier: MIT
//! The divider: a single leaf with an index tab at the fore-edge, in one of several places.
//!
//! ```text
//!   +-----------+
//!   |           |--\      leaf W x H, and a tab that stands out by `index`, as tall as its share of the
//!   |           |   | H/n fore-edge: H / tab_of. Place 1 is at the head. Its corners are clipped 3 mm at 45
//!   |           |--/      degrees, or by half of it where it stands out less than 6 mm.
//!   |           |
//!   |           | H       Shares derived; an index of 10 mm or 3/8 in: common practice, no source.
//!   +-----------+
//!         W     index
//! ```
//!
//! A cover is wider by the index, so that it covers the tabs with its square (derived).

use crate::album::{Entry, Kind, Role};
use crate::contour::Contour;
use crate::fields::{Key, number, usual};
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::net::Net;
use crate::parts::bond::Face;
use crate::parts::build::builder::Builder;
use crate::parts::maker::Maker;
use crate::parts::pages::leaf::{CONTENT, LeafFace, Wrong, back, front};
use crate::parts::pages::page::NewPage;

/// What is clipped off the tab's corners, mm: our choice.
const CLIP: f64 = 3.0;
/// Tabs lower than this carry no word, mm: our choice.
const LEAST: f64 = 10.0;

const TAB_OF: Key<u32> = Key::count("tab_of", (2, 12), number(5), "how many places there are");
const POSITION: Key<u32> = Key::count("position", (1, 12), number(1), "the place of its tab, counted from the head");
const INDEX: Key<Length> = Key::length("index", usual(10.0, 0.375), "how far its tab stands out").within(3.0, 60.0);

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "divider",
        role: Role::Page,
        about: "a single leaf with an index tab at the fore-edge",
        fields: &[TAB_OF.field, POSITION.field, INDEX.field, CONTENT.field],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "divider", "position": 2 }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = NewPage::new(builder, entry, page);
    let NewPage { width, height, .. } = page;
    let count = |key| f64::from(entry.get(key));
    let (places, position, index) = (count(TAB_OF), count(POSITION), entry.mm(INDEX));
    if position > places {
        let [position, places] = [POSITION, TAB_OF].map(|key| entry.get(key));
        let text = Said::new("no-such-place").with("position", position).with("places", places);
        let finding = Finding::stop("no-such-place", page.about(), text);
        let help = Said::new("no-such-place-help").with("field", Arg::field(POSITION.name())).with("places", places);
        let help = help.with("tab_of", Arg::field(TAB_OF.name()));
        builder.find(finding.help(help).at(entry.values.place(POSITION)));
        return;
    }
    let share = height / places;
    if share < LEAST {
        let text = Said::new("tab-too-low");
        let help = Said::new("tab-too-low-help");
        Wrong { id: "tab-too-low", text, measured: share, allowed: LEAST, help, field: TAB_OF.field }
            .say(builder, &page);
        return;
    }
    let (clip, out) = (CLIP.min(index / 2.0), width + index);
    let (low, high) = (share * (places - position), share * (places - position + 1.0));
    let outline = Contour::polygon([
        (0.0, 0.0),
        (width, 0.0),
        (width, low),
        (out - clip, low),
        (out, low + clip),
        (out, high - clip),
        (out - clip, high),
        (width, high),
        (width, height),
        (0.0, height),
    ]);
    let Some(piece) = page.piece(builder, "divider", ("divider", "divider"), Net::single("leaf", outline)) else {
        return;
    };
    builder.juts.insert(page.number, index);
    LeafFace { width, on_back: false }.carried(builder, piece, (0.0, 0.0));
    page.face(builder, (Face::Front, ""), (width, height), front(piece, 0, (0.0, 0.0)));
    page.face(builder, (Face::Back, ""), (width, height), back(piece, 0, (width, 0.0)));
}
