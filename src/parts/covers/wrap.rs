// SPDX-License-Identifier: MIT
//! The wrap cover: one piece of card round the pages, in joined pieces where no sheet takes it whole.
//!
//! ```text
//!   +------+---+------------+---+------------+
//!   |      ¦   ¦            ¦   ¦   +----+   |     From its score each panel reaches over gusset, page, what tabs stop
//!   | flap ¦ f ¦ ‖  back    ¦ s ¦   |    | ‖ |     short of their scores (H6), how far inner pages stand out (H7), and the
//!   |      ¦   ¦            ¦   ¦   +----+   |     square (H8). It is H + 2 squares tall. The spine between its scores is
//!   +------+---+------------+---+------------+     the largest of N pitches, all pages and what stands on it (F9), and
//!                                  window          a caliper. All scores are mountains, seen from the outside.
//! ```
//!
//! With a flap the back is a caliper wider, so that the fore-edge panel f clears the front's edge; f is a caliper and the
//! front's panel wider than the spine, because the flap lies on the front (derived; D6), or what `depth` says. Ties go through
//! slots (‖) near both fore-edges, each with a patch behind it; a window has a lining behind it that overlaps a lap all round
//! (common practice, no source).

use crate::album::{Entry, Kind, Role};
use crate::contour::{Contour, Vec2};
use crate::fields::{Key, Otherwise, Text, rule, usual};
use crate::finding::{Finding, Said};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::net::{Along, Net, RowPanel, Sense, Use};
use crate::parts::bond::{Face, Hold, Side};
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::face::Looks;
use crate::parts::build::joined::{Joined, LEAST_LAP};
use crate::parts::build::new_piece::NewPiece;
use crate::parts::build::row::PanelRow;
use crate::parts::covers::around::{Around, SPINE, SQUARE, about, face, of_cover, stand};
use crate::parts::covers::band::{self, BAND, Girth, LAPS};
use crate::parts::kit::{Deed, Owner, Round};
use crate::parts::maker::Maker;

const NONE: Otherwise<Length> = usual(0.0, 0.0);

const FLAP: Key<Length> = Key::length("flap", NONE, "a flap from the back over the front's fore-edge, 0 for none");
const DEPTH: Key<Option<Length>> = Key::length(
    "depth",
    rule("what goes round the cover's spine"),
    "how far apart the two scores of the flap's fold are",
)
.within(0.5, 300.0);
const TIES: Key<Length> = Key::length("ties", NONE, "width of the ribbons for slots near the fore-edges, 0 for none");
const WINDOW_WIDTH: Key<Length> = Key::length("window_width", NONE, "width of a window in the front, 0 for none");
const WINDOW_HEIGHT: Key<Length> = Key::length("window_height", NONE, "height of the window, 0 for none");
const LINING: Key<Option<Text>> = Key::text("lining", rule("the cover's stock"), "the stock behind the window");

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "wrap",
        role: Role::Cover,
        about: "one piece of card round the pages, with a spine between two scores; joined where no sheet takes it whole",
        fields: &[
            SQUARE.field,
            SPINE.field,
            FLAP.field,
            DEPTH.field,
            TIES.field,
            WINDOW_WIDTH.field,
            WINDOW_HEIGHT.field,
            LINING.field,
            BAND.field,
            LAPS.field,
        ],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "wrap" }"#,
};

/// Slots are longer and wider than their ribbon by this, mm (G3: 1 to 2 longer; from memory, no source).
const SLOT: f64 = 1.5;

/// From a fore-edge to the middle of a slot, and what its patch has round it, mm: common practice, no source.
const INSET: f64 = 14.0;
const ROUND_SLOT: f64 = 9.0;

/// Card left round a window, mm: our choice.
const FRAME: f64 = 8.0;

/// The cover's row: where its panels are, mm from its left end.
struct Shape {
    row: PanelRow,
    /// Numbers of the back, the spine and the front.
    leaves: [usize; 3],
    /// Where each of them starts, and the end.
    at: [f64; 4],
    /// How much wider than the spine the fore-edge panel of a flap is; narrower where it is below 0.
    flap_more: f64,
}

fn make(builder: &mut Builder<'_>, entry: &Entry, _: usize) {
    let caliper = builder.caliper(entry.stock);
    let Some(around) = Around::of(builder, entry, (caliper, true), Said::new("a-spine")) else { return };
    let around = Around { reach: builder.album.at_least(around.reach).mm(), ..around };
    if !sound(builder, entry, &around) {
        return;
    }
    let (ties, flap) = (entry.mm(TIES), entry.mm(FLAP));
    let window = window(entry);
    let mut shape = shape(&around, entry, caliper);
    let [back, spine, front] = shape.leaves;
    let [back_at, spine_at, front_at, end] = shape.at;
    let middle = around.height / 2.0;
    let slot = (SLOT, ties + SLOT);
    let slots = [(back, (back_at + INSET, middle)), (front, (end - INSET, middle))];
    if ties > 0.0 {
        shape.row.holes.extend(slots.iter().map(|(_, at)| hole(*at, slot)));
    }
    let window_at = (f64::midpoint(front_at, front_at + around.reach), middle);
    shape.row.holes.extend(window.map(|size| hole(window_at, size)));
    let whole = NewPiece::of(entry, Owner::Cover, ("cover", "wrap cover", "cover"), shape.row.net());
    let Some(made) = shape.row.make(builder, &whole) else { return };

    if ties > 0.0 {
        builder.holds_shut();
        for (leaf, at) in slots {
            let name = if leaf == back { "patch in the back" } else { "patch in the front" };
            patch(builder, entry, &made, (leaf, at), (name, ties));
        }
    }
    if let Some(size) = window {
        lining(builder, entry, &made, (front, window_at), size);
    }
    join(builder, &made, spine, spine_at + around.spine / 2.0, &around);
    if flap > 0.0 {
        // Between its scores lie the front and what is on and under it besides the pages (F9).
        let cover = 2.0f64.mul_add(caliper, around.decor + around.lining);
        let (room, says) = (around.spine + shape.flap_more - cover, ("cover.depth", cover));
        let place = entry.values.place(FLAP).cloned();
        builder.holds_shut();
        builder.round(Round { what: "flap", room, flap: Some(flap), says, place });
    }
    let (more, edge) = if flap > 0.0 { (shape.flap_more, 1.5 * caliper + around.decor) } else { (0.0, 0.0) };
    let opens = Opens {
        slots: if ties > 0.0 {
            slots.map(|(_, at)| hole(at, (slot.0 + 2.0, slot.1 + 2.0))).to_vec()
        } else {
            Vec::new()
        },
        window: window
            .map(|(width, height)| hole(window_at, (width + 2.0 * border(builder), height + 2.0 * border(builder)))),
    };
    faces(builder, &shape, &made, &around, &opens);
    if let Some(spine) = made.side(spine, Face::Front, (spine_at + around.spine / 2.0, middle), (1.0, 0.0)) {
        let across = around.reach + caliper / 2.0 + edge + around.decor;
        // The flap lies on the front; a deeper one makes all of it thicker.
        let on_front = if flap > 0.0 { caliper + around.decor } else { 0.0 };
        let thick = around.spine + caliper + 2.0 * around.decor + on_front.max(more);
        let cover = caliper + around.lining;
        let (room, says) = (around.spine - cover + (more - on_front).max(0.0), ("cover.spine", cover));
        band::make(builder, entry, &around, &Girth { across, thick, room, says, stock: entry.stock, spine });
    }
}

fn hole((x, y): (f64, f64), (width, height): (f64, f64)) -> Contour {
    Contour::rectangle(x - width / 2.0, y - height / 2.0, width, height)
}

/// A small piece, which lies any way.
fn cut<'a>(entry: &'a Entry, says: (&str, &'static str, &str), net: Net, stock: usize) -> NewPiece<'a> {
    NewPiece { along_grain: false, stock, ..NewPiece::of(entry, Owner::Cover, says, net) }
}

/// A patch that strengthens a ribbon's slot, stuck behind it by its back: seen from the inside left and right are swapped.
fn patch(
    builder: &mut Builder<'_>,
    entry: &Entry,
    made: &Joined,
    (leaf, at): (usize, (f64, f64)),
    (name, ties): (&str, f64),
) {
    let slot = (SLOT, ties + SLOT);
    let (wide, tall) = (2.0f64.mul_add(ROUND_SLOT, slot.0), 2.0f64.mul_add(ROUND_SLOT, slot.1));
    let net = Net::single("patch", Contour::rectangle(0.0, 0.0, wide, tall));
    let net = net.with_hole(hole((wide / 2.0, tall / 2.0), slot));
    let piece = builder.piece(cut(entry, ("cover-patch", "patch", name), net, entry.stock));
    behind(builder, made, (piece, Face::Back), (leaf, (at.0 + wide / 2.0, at.1 - tall / 2.0)));
    // Its ribbon goes through the cover and its patch.
    let on = made.side(leaf, Face::Front, at, (0.0, 1.0));
    let hole = |on: Side| {
        let holes = &builder.kit().pieces.get(on.piece)?.net.holes;
        Some((on.piece, holes.iter().position(|hole| hole.bounds().contains(on.at))?))
    };
    let through = on.and_then(hole).into_iter().chain(piece.map(|piece| (piece, 0))).collect();
    builder.deed(Deed::Tie { through, width: ties });
}

/// What lines a window; its front looks out of it.
fn lining(builder: &mut Builder<'_>, entry: &Entry, made: &Joined, (leaf, at): (usize, (f64, f64)), size: (f64, f64)) {
    let stock = builder.stock_named(entry, LINING, entry.stock);
    let over = LEAST_LAP.min(FRAME - 1.0);
    let (wide, tall) = (2.0f64.mul_add(over, size.0), 2.0f64.mul_add(over, size.1));
    let net = Net::single("lining", Contour::rectangle(0.0, 0.0, wide, tall));
    let piece = builder.piece(cut(entry, ("cover-lining", "window lining", "window lining"), net, stock));
    behind(builder, made, (piece, Face::Front), (leaf, (at.0 - wide / 2.0, at.1 - tall / 2.0)));
}

/// Sticks a piece behind a leaf of the cover.
fn behind(
    builder: &mut Builder<'_>,
    made: &Joined,
    (piece, face): (Option<usize>, Face),
    (leaf, from): (usize, (f64, f64)),
) {
    let up = (0.0, 1.0);
    if let (Some(piece), Some(on)) = (piece, made.side(leaf, Face::Back, from, up)) {
        builder.bond(Hold::Stuck, side(piece, 0, face, (0.0, 0.0), up), on);
    }
}

/// What must stay open of its outside, as its row is drawn: slots with 1 mm all round, the window with its border.
struct Opens {
    slots: Vec<Contour>,
    window: Option<Contour>,
}

/// The border of panels, mm.
fn border(builder: &Builder<'_>) -> f64 {
    builder.album.panels.as_ref().map_or(0.0, |panels| panels.reveal.mm())
}

/// Its faces. Inside, panels go over patches, lining and the ends of the ribbons (common practice, no source), and the spine is
/// taken.
fn faces(builder: &mut Builder<'_>, shape: &Shape, made: &Joined, around: &Around, opens: &Opens) {
    let [back, spine, front] = shape.leaves;
    let [back_at, spine_at, front_at, end] = shape.at;
    let inside = [Looks::Opening(builder.album.pages.len()), Looks::Opening(0)];
    let fore_edge = back_at - around.spine - shape.flap_more;
    let outside = [
        ("cover flap", 0, (0.0, fore_edge), false),
        ("cover fore-edge", 1, (fore_edge, back_at), true),
        ("cover back", back, (back_at, spine_at), false),
        ("cover spine", spine, (spine_at, front_at), true),
        ("cover front", front, (front_at, end), false),
    ];
    // Without a flap the row starts with the back.
    for (name, leaf, (from, to), slim) in outside.into_iter().skip(if back > 0 { 0 } else { 2 }) {
        let here = |hole: &&Contour| (from..to).contains(&hole.bounds().center().x);
        let holes = opens.slots.iter().chain(&opens.window).filter(here);
        let holes = holes.map(|hole| hole.shifted(Vec2::new(-from, 0.0))).collect();
        if let Some(side) = made.side(leaf, Face::Front, (from, 0.0), (1.0, 0.0)) {
            face(builder, (name, Looks::Outside, slim), (to - from, around.height), holes, side, Some(from));
        }
    }
    // From the inside left and right are swapped.
    for (name, leaf, (from, to), looks) in [
        ("cover back inside", back, (back_at, spine_at), inside[0]),
        ("cover front inside", front, (front_at, end), inside[1]),
    ] {
        if let Some(side) = made.side(leaf, Face::Back, (to, 0.0), (-1.0, 0.0)) {
            face(builder, (name, looks, false), (to - from, around.height), Vec::new(), side, None);
        }
    }
}

/// The spine stands on the inside of the cover's spine.
fn join(builder: &mut Builder<'_>, made: &Joined, spine: usize, middle: f64, around: &Around) {
    // Seen from the outside the pages' right is at the left.
    if let Some(on) = made.side(spine, Face::Back, (middle, around.square), (-1.0, 0.0)) {
        stand(builder, on);
    }
}

fn shape(around: &Around, entry: &Entry, caliper: f64) -> Shape {
    let flap = entry.mm(FLAP);
    let flap_more = entry.get(DEPTH).map_or(caliper + around.decor, |depth| depth.mm() - around.spine);
    let turned = |leaf: RowPanel| leaf.folded(Sense::Mountain, 90.0);
    let plain = |name, depth| RowPanel::new(name, Use::Plain, depth);
    let mut leaves = Vec::new();
    let mut back = around.reach;
    if flap > 0.0 {
        leaves.push(RowPanel::new("flap", Use::Flap, flap));
        leaves.push(turned(plain("fore-edge", around.spine + flap_more)));
        back += caliper;
    }
    let first = leaves.len();
    let back_leaf = plain("back", back);
    leaves.push(if flap > 0.0 { turned(back_leaf) } else { back_leaf });
    leaves.push(turned(plain("spine", around.spine)));
    leaves.push(turned(plain("front", around.reach)));
    let back_at = if flap > 0.0 { flap + around.spine + flap_more } else { 0.0 };
    let spine_at = back_at + back;
    let front_at = spine_at + around.spine;
    // What stands on the spine needs all of its middle.
    let middle = spine_at + around.spine / 2.0;
    let whole = vec![(middle - around.base / 2.0, middle + around.base / 2.0)];
    let row = PanelRow {
        along: Along::Across,
        breadth: around.height,
        leaves,
        root: first + 1,
        holes: Vec::new(),
        whole,
        lap: entry.mm(LAPS),
    };
    Shape {
        row,
        leaves: [first, first + 1, first + 2],
        at: [back_at, spine_at, front_at, front_at + around.reach],
        flap_more,
    }
}

/// The window's size, where there is one.
fn window(entry: &Entry) -> Option<(f64, f64)> {
    let size = (entry.mm(WINDOW_WIDTH), entry.mm(WINDOW_HEIGHT));
    (size.0 > 0.0 && size.1 > 0.0).then_some(size)
}

/// Whether flap, ties and window have room; says what has none.
fn sound(builder: &mut Builder<'_>, entry: &Entry, around: &Around) -> bool {
    let (flap, ties, lap) = (entry.mm(FLAP), entry.mm(TIES), entry.mm(LAPS));
    let room = 2.0f64.mul_add(-FRAME, around.reach);
    let tall = 2.0f64.mul_add(-FRAME, around.height);
    let mut sound = true;
    let mut stop = |builder: &mut Builder<'_>, id, field: Key<Length>, size: f64, most: f64, text: Said| {
        let most = builder.album.at_most(most);
        let most_said = builder.album.length(most.mm());
        let help = Said::new("make-cover-at-most").with("field", of_cover(field)).with("most", most_said);
        let finding = Finding::stop(id, about(), text).measured(Length::from_mm(size), most).help(help);
        builder.find(finding.mend(format!("cover.{}", field.name()), most).at(entry.values.place(field)));
        sound = false;
    };
    let length = |builder: &Builder<'_>, mm: f64| builder.album.length(mm);
    if flap > around.reach {
        let text = Said::new("flap-too-wide").with("flap", length(builder, flap));
        let text = text.with("front", length(builder, around.reach));
        stop(builder, "flap-too-wide", FLAP, flap, around.reach, text);
    }
    // The patches must lie on the cover.
    let most = 2.0f64.mul_add(-ROUND_SLOT, around.height) - SLOT;
    if ties > most || (ties > 0.0 && 2.0f64.mul_add(FRAME, INSET) > around.reach) {
        let text = Said::new("ties-too-wide").with("ties", length(builder, ties));
        stop(builder, "ties-too-wide", TIES, ties, most.min(ties / 2.0), text);
    }
    let (width, height) = (entry.mm(WINDOW_WIDTH), entry.mm(WINDOW_HEIGHT));
    if (width > 0.0) != (height > 0.0) {
        let field = if width > 0.0 { WINDOW_HEIGHT } else { WINDOW_WIDTH };
        let finding = Finding::stop("window-half-said", about(), Said::new("window-half-said"));
        let help = Said::new("window-half-said-help").with("field", of_cover(field));
        builder.find(finding.help(help).at(entry.values.place(field)));
        return false;
    }
    let (has_ties, beside) = (ties > 0.0, 2.0 * (INSET + ROUND_SLOT + SLOT));
    let wide = if has_ties { (around.reach - beside).min(room) } else { room };
    for (field, size, most, of) in
        [(WINDOW_WIDTH, width, wide, around.reach), (WINDOW_HEIGHT, height, tall, around.height)]
    {
        if size > most {
            let text = Said::new("window-too-large").with("window", length(builder, size));
            let text = text.with("front", length(builder, of));
            stop(builder, "window-too-large", field, size, most, text);
        }
    }
    // The window is in the middle of the front, and the flap comes to lie on its outer part.
    let beside = (around.reach - width) / 2.0;
    if sound && width > 0.0 && flap > beside {
        let most = builder.album.at_most(beside);
        let text = Said::new("window-covered").with("flap", length(builder, flap));
        let finding = Finding::note("window-covered", about(), text);
        let finding = finding.measured(Length::from_mm(flap), most);
        let help = Said::new("window-covered-help").with("field", of_cover(FLAP));
        let help = help.with("most", length(builder, most.mm()));
        builder.find(finding.help(help).at(entry.values.place(FLAP)));
    }
    if sound && lap < LEAST_LAP - SAME {
        let usual = builder.album.rough(LEAST_LAP);
        let text = Said::new("lap-narrow").with("lap", length(builder, lap)).with("usual", usual);
        let finding = Finding::warn("lap-narrow", about(), text);
        let finding = finding.measured(Length::from_mm(lap), Length::from_mm(LEAST_LAP));
        let finding = finding.help(Said::new("cover-lap-narrow-help").with("field", of_cover(LAPS)));
        builder.find(finding.mend("cover.lap", builder.album.at_least(LEAST_LAP)).at(entry.values.place(LAPS)));
    }
    sound
}
