// SPDX-License-Identifier: MIT
//! A ready-made cover: bought or made before. Its sizes are read off it, nothing of it is cut, and the album must fit into it.
//!
//! ```text
//!        back board      spine       front board
//!      +------------+ j +--------+ j +------------+     Seen from the outside, laid open. `spine` is the clear room between
//!      |            |   |        |   |            |     the boards of the closed cover. A board stands its joint j, less its
//!      |            |   |        |   |            |     own thickness, off the inside of the spine, as in a case. The pages
//!      +------------+   +--------+   +------------+     are glued in with equal gaps at head and tail.
//! ```
//!
//! Boards of 3.0 to 4.8 mm more than the leaf at head, tail and fore-edge are usual (B1). What is told beyond that are our
//! choices.

use crate::album::{Entry, Kind, Role};
use crate::fields::{Key, needed, usual};
use crate::finding::{Finding, Said};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::net::{Along, Net, RowPanel, Sense, Use};
use crate::parts::bond::Face;
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::new_piece::NewPiece;
use crate::parts::covers::around::{LOOSE, Needs, about, of_cover, stand};
use crate::parts::kit::Owner;
use crate::parts::maker::Maker;

const WIDTH: Key<Length> = Key::size("width", needed(), "width of one board");
const HEIGHT: Key<Length> = Key::size("height", needed(), "from tail to head");
const SPINE: Key<Length> =
    Key::size("spine", needed(), "inside of its spine: the clear room between the closed boards");
const JOINT: Key<Length> =
    Key::length("joint", usual(7.0, 0.25), "the groove from the spine to a board; 0 for a plain crease")
        .within(0.0, 40.0);
const CALIPER: Key<Length> =
    Key::length("caliper", usual(2.5, 0.1), "thickness of a board with what covers it").within(0.1, 20.0);

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "ready-made",
        role: Role::Cover,
        about: "a cover that was bought or made before: two boards and a spine; checked and glued in, not cut",
        fields: &[WIDTH.field, HEIGHT.field, SPINE.field, JOINT.field, CALIPER.field],
        ready: Some(CALIPER),
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "ready-made", "width": 155, "height": 197, "spine": 24 }"#,
};

/// A board that stands out less than this shows the pages' edges, mm: our choice.
const LEAST_SQUARE: f64 = 1.5;

/// A board that stands out more than twice what is usual (B1) and this looks made for another album, mm: our choice.
const WIDEST_SQUARE: f64 = 12.0;

fn make(builder: &mut Builder<'_>, entry: &Entry, _: usize) {
    let [width, height, spine, joint, caliper] = [WIDTH, HEIGHT, SPINE, JOINT, CALIPER].map(|key| entry.mm(key));
    let needs = Needs::of(builder, 0.0);
    let off = (joint - caliper).max(0.0);
    let gap = (height - builder.album.page.height.mm()) / 2.0;
    let beyond = off + width - needs.reach;
    let mut say = Say { builder, entry };
    let fits = [
        say.spine(spine, &needs),
        say.square(HEIGHT, "ready-height", gap, 2.0),
        say.square(WIDTH, "ready-width", beyond, 1.0),
    ];
    if fits.contains(&false) {
        return;
    }
    // It stands up in the middle of its thickness.
    let (across, turn) = (spine + caliper, off + caliper / 2.0);
    let leaves = [
        RowPanel::new("back board", Use::Plain, width),
        RowPanel::new("back joint", Use::Gusset, turn).folded(Sense::Bent, 0.0),
        RowPanel::new("spine", Use::Plain, across).folded(Sense::Mountain, 90.0),
        RowPanel::new("front joint", Use::Gusset, turn).folded(Sense::Mountain, 90.0),
        RowPanel::new("front board", Use::Plain, width).folded(Sense::Bent, 0.0),
    ];
    let net = Net::row(Along::Across, height, &leaves, 2);
    let Some(panel) = net.panel("spine") else { return };
    let cut = NewPiece::of(entry, Owner::Cover, ("cover", "ready-made cover", "ready-made cover"), net);
    let Some(piece) = builder.piece(NewPiece { along_grain: false, ..cut }) else { return };
    // Seen from the outside the pages' right is at the left.
    stand(builder, side(piece, panel, Face::Back, (width + turn + across / 2.0, gap), (-1.0, 0.0)));
    // A page may be off at each edge; the cover is what it is.
    builder.spare(Said::new("the-cover"), "beyond the pages", gap.min(beyond), 1);
}

/// Says what does not fit.
struct Say<'b, 'a, 'e> {
    builder: &'b mut Builder<'a>,
    entry: &'e Entry,
}

impl Say<'_, '_, '_> {
    /// Whether what stands on the spine goes into it.
    fn spine(&mut self, spine: f64, needs: &Needs) -> bool {
        let needed = needs.spine();
        let least = self.builder.album.at_least(needed);
        let sides = |text: Said| {
            let text = text.with("spine", self.builder.album.length(spine));
            text.with("needed", self.builder.album.rough(needed)).with("foot", self.builder.album.rough(needs.foot))
        };
        let finding = if spine < needs.base - SAME {
            Finding::stop("ready-spine-narrow", about(), sides(Said::new("ready-spine-jams")))
                .help(Said::new("ready-spine-jams-help"))
        } else if spine < needed - SAME {
            let text = Said::new("ready-spine-narrow").with("why", needs.why(self.builder.album));
            // Only pages that are too thick gape, and only they get thinner.
            let thick = needs.pages + needs.lining > spine + SAME;
            let help = Said::new(if thick { "ready-spine-narrow-help" } else { "ready-spine-less-help" });
            Finding::warn("ready-spine-narrow", about(), sides(text))
                .help(help.with("least", self.builder.album.length(least.mm())))
        } else if spine > needed + (needed / 2.0).max(LOOSE) + SAME {
            Finding::note("ready-spine-wide", about(), sides(Said::new("ready-spine-wide")))
                .help(Said::new("ready-spine-wide-help"))
        } else {
            return true;
        };
        let goes = spine >= needs.base - SAME;
        let finding = finding.measured(Length::from_mm(spine), Length::from_mm(needed));
        self.builder.find(finding.at(self.entry.values.place(SPINE)));
        goes
    }

    /// Whether a board reaches beyond the pages; `edges` says at how many edges its size is seen.
    fn square(&mut self, key: Key<Length>, id: &'static str, square: f64, edges: f64) -> bool {
        let size = self.entry.mm(key);
        let (least, most) = (size - square * edges, size + (WIDEST_SQUARE - square) * edges);
        let said = |text: &'static str, square: f64| {
            let text = Said::new(text).with("board", self.builder.album.length(size));
            text.with("field", of_cover(key)).with("square", self.builder.album.length(square))
        };
        let (finding, bound) = if square < -SAME {
            (
                Finding::stop(id, about(), said("ready-pages-stand-out", -square))
                    .help(Said::new("ready-pages-stand-out-help")),
                least,
            )
        } else if square < LEAST_SQUARE - SAME {
            (
                Finding::warn(id, about(), said("ready-square-small", square))
                    .help(Said::new("ready-square-small-help")),
                least + LEAST_SQUARE * edges,
            )
        } else if square > WIDEST_SQUARE + SAME {
            (
                Finding::note(id, about(), said("ready-square-large", square))
                    .help(Said::new("ready-square-large-help")),
                most,
            )
        } else {
            return true;
        };
        let finding = finding.measured(Length::from_mm(size), Length::from_mm(bound));
        self.builder.find(finding.at(self.entry.values.place(key)));
        square >= -SAME
    }
}
