// SPDX-License-Identifier: MIT
//! The belly band: a strip that slides round the closed album and keeps it shut.
//!
//! ```text
//!   +-----------+--+-----------+--+-----+
//!   |   front   ¦  |   back    ¦  ¦ lap |  band    Scores, all mountains, stand a caliper and the ease farther apart than
//!   +-----------+--+-----------+--+-----+          what they go round (F9); the lap is stuck behind the front, so the
//!              fore-edge      spine                fore-edge is a caliper wider than the spine.
//! ```
//!
//! An ease of 1 mm lets it slide: common practice, no source.

use crate::album::Entry;
use crate::fields::{Key, usual};
use crate::finding::{Finding, Said};
use crate::length::Length;
use crate::net::{Along, RowPanel, Sense, Use};
use crate::parts::bond::{Face, Hold, Side};
use crate::parts::build::builder::Builder;
use crate::parts::build::joined::LAP;
use crate::parts::build::new_piece::NewPiece;
use crate::parts::build::row::PanelRow;
use crate::parts::covers::around::{Around, about, of_cover};
use crate::parts::kit::{Owner, Purpose, Round};

/// How tall the band is.
pub(in crate::parts) const BAND: Key<Length> =
    Key::length("band", usual(0.0, 0.0), "how tall a belly band round the closed album is, 0 for none");

/// Width of the seams that close bands and join pieces.
pub(in crate::parts) const LAPS: Key<Length> =
    Key::size("lap", usual(LAP.0, LAP.1), "the seam where something is joined: pieces of a cover, the ends of a band");

/// What it has to spare all round, mm.
const EASE: f64 = 1.0;

/// What a band goes round, outside, mm.
#[derive(Clone, Copy, Debug)]
pub(in crate::parts) struct Girth {
    /// From the outside of the spine to the fore-edge.
    pub across: f64,
    /// From the outside of the front to that of the back.
    pub thick: f64,
    /// How thick the pages may be at the fore-edge, and how much more that is than `cover.spine` or what else says it.
    pub room: f64,
    pub says: (&'static str, f64),
    /// Number of its stock.
    pub stock: usize,
    /// The outside of the cover's spine, at its very middle, going to the right.
    pub spine: Side,
}

/// Adds the band, if the cover has one.
pub(in crate::parts) fn make(builder: &mut Builder<'_>, entry: &Entry, around: &Around, round: &Girth) {
    let (tall, lap) = (entry.mm(BAND), entry.mm(LAPS));
    if tall <= 0.0 {
        return;
    }
    if tall > around.height {
        let text = Said::new("band-too-tall");
        let text = text.with("band", builder.album.length(tall)).with("cover", builder.album.length(around.height));
        let finding = Finding::stop("band-too-tall", about(), text);
        let finding = finding.measured(Length::from_mm(tall), Length::from_mm(around.height));
        let third = builder.album.at_most(around.height / 3.0);
        let help = Said::new("band-too-tall-help").with("field", of_cover(BAND));
        let help = help.with("third", builder.album.length(third.mm()));
        builder.find(finding.help(help).mend("cover.band", third).at(entry.values.place(BAND)));
        return;
    }
    let caliper = builder.caliper(round.stock);
    let ruler = |mm: f64| builder.album.at_least(mm).mm();
    let (across, thick) = (ruler(round.across + EASE + caliper), ruler(round.thick + EASE + caliper));
    let turned = |leaf: RowPanel| leaf.folded(Sense::Mountain, 90.0);
    let leaf = |name, depth| RowPanel::new(name, Use::Plain, depth);
    let row = PanelRow {
        along: Along::Across,
        breadth: tall,
        leaves: vec![
            leaf("front", across),
            turned(leaf("fore-edge", thick + caliper)),
            turned(leaf("back", across)),
            turned(leaf("spine", thick)),
            turned(RowPanel::new("lap", Use::Seam, lap)),
        ],
        root: 3,
        holes: Vec::new(),
        whole: Vec::new(),
        lap,
    };
    let cut = NewPiece {
        id: "cover-band".into(),
        kind: "belly band",
        purpose: Purpose::Band,
        family: "belly band",
        net: row.net(),
        stock: round.stock,
        along_grain: false,
        name: "belly band".into(),
        owner: Owner::Cover,
        patterns: Vec::new(),
        place: entry.values.place(BAND),
        form: None,
    };
    let Some(made) = row.make(builder, &cut) else { return };
    builder.holds_shut();
    builder.round(Round {
        what: "belly band",
        room: round.room,
        flap: None,
        says: round.says,
        place: entry.place().cloned(),
    });
    let end = 2.0f64.mul_add(across + thick, caliper);
    let up = (0.0, 1.0);
    let closed = (made.side(4, Face::Front, (end, 0.0), up), made.side(0, Face::Back, (0.0, 0.0), up));
    if let (Some(seam), Some(front)) = closed {
        builder.bond(Hold::Stuck, seam, front);
    }
    // Card gives at its folds, so what counts is the way round: its four panels, and the cover's spine and fronts.
    builder.spare(Said::new("the-belly-band"), "round the cover", 4.0 * EASE, 6);
    if let Some(spine) = made.side(3, Face::Back, (end - thick / 2.0, tall / 2.0), (1.0, 0.0)) {
        builder.bond(Hold::Slid, spine, round.spine);
    }
}
