// SPDX-License-Identifier: MIT
//! The concertina spine: one pleated strip whose pleats carry the pages.
//!
//! ```text
//!   flap half  gusset tab   tab gusset  base   gusset tab  tab gusset half flap     H - ease tall
//!  +----+---+--------+----\/----+------+-------+------+----\/----+-----+---+----+
//!  |    ¦   ¦        ¦    ¦     ¦      ¦       ¦      ¦    ¦     ¦     ¦   ¦    |  a pleat a page; the outer
//!  |    ¦   ¦        ¦    ¦     ¦      ¦       ¦      ¦    ¦     ¦     ¦   ¦    |  fold of its tabs is notched
//!  +----+---+--------+----/\----+------+-------+------+----/\----+-----+---+----+  at head and tail (lead_in)
//!
//!   seen from the tail:   |   ||   ||   |     a page over each pair of tabs; the tabs are stuck to each other,
//!                         |   ||   ||   |     the gussets free, the bases on whatever is beneath, the end flaps
//!                    flap |___||___||___|     on the insides of the cover
//!                       p/2    p    p/2
//! ```
//!
//! Bases are one pitch wide, so that every score stands on the ruler; a pleat is one caliper thick between its creases, so
//! roots stand a pitch and a caliper apart (derived). The whole is flap + p/2 + N x 2 (tab + gusset) + (N - 1) p + p/2 +
//! flap wide. A strip that no sheet of its stock takes is made of pieces, with as many pages each as can be shared out
//! evenly: a piece ends in a base, and the next one's base is stuck on it, a little narrower so that it clears the
//! gusset. Every second piece lies on its neighbours, a caliper higher. Sizes: common practice, no source.

use crate::album::{Album, Bound, Entry, Kind, Role};
use crate::cutter::Cutter;
use crate::fields::{Key, rule, usual};
use crate::finding::{Finding, Said};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::net::{Along, Net, RowPanel, Sense, Use};
use crate::parts::bond::{Face, Hold};
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::new_piece::NewPiece;
use crate::parts::kit::Owner;
use crate::parts::maker::Maker;
use crate::parts::name::PieceName;
use crate::parts::spines::carry::{Carry, Stuck};
use crate::parts::spines::fields::{EASE, GUSSET, LEAD_IN, PITCH, TAB};
use crate::parts::spines::guard::{Guard, a_little_less, about, hang, of_spine, whole};
use crate::usable::{Keeps, Usable};

const FLAP: Key<Length> =
    Key::length("flap", usual(20.0, 0.75), "the end flaps that are stuck on the cover, 0 for none");
const LONGEST: Key<Option<Length>> = Key::size(
    "longest",
    rule("what a sheet of its stock takes, with 5 mm left on each side"),
    "the longest piece that the strip is cut in",
)
.unmeasured();

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "concertina",
        role: Role::Spine,
        about: "one pleated strip with a pleat for every page and a flap for each side of the cover",
        fields: &[
            PITCH.worded("the base between two pleats").field,
            TAB.field,
            GUSSET.field,
            LEAD_IN.field,
            EASE.field,
            FLAP.field,
            LONGEST.field,
        ],
        ready: None,
        file: None,
    },
    make,
    carry: Some(carry),
    example: r#"{ "kind": "concertina" }"#,
};

/// The strip of an album: its sizes, mm, and how many pages each of its pieces carries.
#[derive(Clone, Debug)]
struct Pleats {
    guard: Guard,
    flap: f64,
    pieces: Vec<usize>,
}

/// One piece of the strip.
#[derive(Debug, Default)]
struct StripPiece {
    leaves: Vec<RowPanel>,
    /// Where the next panel starts, mm.
    at: f64,
    /// By page: the panel of its left tab as it stands in the row, and where that starts.
    tabs: Vec<(usize, f64)>,
    /// The panel that stays put when it is folded.
    root: usize,
}

impl StripPiece {
    fn push(&mut self, leaf: RowPanel, depth: f64) {
        self.leaves.push(leaf);
        self.at += depth;
    }

    /// The number in the net of a panel of the row: the root comes first.
    const fn panel(&self, index: usize) -> usize {
        if index == self.root {
            0
        } else if index == 0 {
            self.root
        } else {
            index
        }
    }
}

impl Pleats {
    fn of(album: &Album, cutter: &Cutter) -> Self {
        let (guard, spine) = (Guard::of(album), &album.spine);
        let mut pleats = Self { guard, flap: spine.mm(FLAP), pieces: Vec::new() };
        let (pages, height) = (album.pages.len(), album.page.height.mm() - guard.ease);
        // Where no sheet takes a strip so tall, more pieces are no help; that is told elsewhere.
        let keeps = Keeps { along_grain: spine.grain_along_spine.unwrap_or(true), sideways: album.bound == Bound::Top };
        let usable = album.stocks.get(spine.stock).map(|stock| Usable::of(stock, cutter));
        let room = usable.and_then(|usable| usable.longest(height, true, keeps)).unwrap_or(f64::INFINITY);
        let longest = spine.get(LONGEST).map_or(room, |longest| longest.mm().min(room));
        let count = (1..=pages).find(|&count| pleats.width(pages.div_ceil(count), count) <= longest + SAME);
        // Where a single pleat is too wide for the sheet, more pieces are no help.
        let count = count.unwrap_or(1);
        pleats.pieces = (0..count).map(|piece| pages / count + usize::from(piece < pages % count)).collect();
        pleats
    }

    /// Width of the widest of so many pieces, with so many pages on it, mm.
    fn width(&self, pages: usize, pieces: usize) -> f64 {
        let Guard { pitch, tab, gusset, .. } = self.guard;
        let end = self.flap + pitch / 2.0;
        let ends = if pieces == 1 { 2.0 * end } else { pitch + end.max(pitch) };
        whole(pages).mul_add(2.0 * (tab + gusset), whole(pages.saturating_sub(1)).mul_add(pitch, ends))
    }

    /// The panels of a piece.
    fn piece(&self, album: &Album, number: usize) -> StripPiece {
        let Guard { pitch, tab, gusset, .. } = self.guard;
        let pages = self.pieces.get(number).copied().unwrap_or(0);
        // Every second piece lies on its neighbours, and its bases clear their gussets.
        let lap = if number.is_multiple_of(2) { pitch } else { a_little_less(album, pitch) };
        let half = pitch / 2.0;
        let mut piece = StripPiece::default();
        if number > 0 {
            piece.push(RowPanel::new("base", Use::Base, lap), lap);
        } else {
            let mut end = RowPanel::new("end base", Use::Base, half);
            if self.flap > 0.0 {
                piece.push(RowPanel::new("end flap", Use::End, self.flap), self.flap);
                end = end.folded(Sense::Valley, 90.0);
                piece.root = 1;
            }
            piece.push(end, half);
        }
        for page in 1..=pages {
            piece.push(RowPanel::new("left gusset", Use::Gusset, gusset).folded(Sense::Valley, 90.0), gusset);
            piece.tabs.push((piece.leaves.len(), piece.at));
            piece.push(self.guard.tab_out("left tab").folded(Sense::Both, 0.0), tab);
            piece.push(self.guard.tab_in("right tab").folded(Sense::Mountain, 180.0), tab);
            piece.push(RowPanel::new("right gusset", Use::Gusset, gusset).folded(Sense::Both, 0.0), gusset);
            let (name, base) = match (page < pages, number + 1 < self.pieces.len()) {
                (true, _) => ("base", pitch),
                (false, true) => ("base", lap),
                (false, false) => ("end base", half),
            };
            piece.push(RowPanel::new(name, Use::Base, base).folded(Sense::Valley, 90.0), base);
        }
        if number + 1 == self.pieces.len() && self.flap > 0.0 {
            piece.push(RowPanel::new("end flap", Use::End, self.flap).folded(Sense::Valley, 90.0), self.flap);
        }
        piece
    }
}

/// A pleat adds a caliper to the pitch; the pages of every second piece stand a caliper higher (derived).
fn carry(album: &Album, cutter: &Cutter, _: &dyn Fn() -> Vec<f64>) -> Carry {
    let Pleats { guard, pieces, .. } = Pleats::of(album, cutter);
    let rise = |(number, &pages): (usize, &usize)| {
        std::iter::repeat_n(if number.is_multiple_of(2) { 0.0 } else { guard.caliper }, pages)
    };
    let rises: Vec<f64> = pieces.iter().enumerate().flat_map(rise).collect();
    let step = guard.pitch + guard.caliper;
    let mut carry = guard.carry(vec![step; rises.len()], rises);
    carry.pitch = step;
    carry.stuck = (pieces.len() > 1).then(|| (a_little_less(album, guard.pitch), Stuck::Base));
    carry
}

fn make(builder: &mut Builder<'_>, entry: &Entry, _: usize) {
    let pleats = Pleats::of(builder.album, builder.cutter);
    let guard = pleats.guard;
    let Some(height) = guard.height(builder, entry) else { return };
    // A wish that no piece can keep; a sheet that is too small is told elsewhere.
    let least = pleats.width(1, builder.album.pages.len().min(2));
    if let Some(longest) = entry.get(LONGEST).filter(|longest| longest.mm() < least - SAME) {
        let finding = too_long(builder.album, Length::from_mm(least), longest);
        builder.find(finding.at(entry.values.place(LONGEST)));
        return;
    }
    let rows: Vec<StripPiece> = (0..pleats.pieces.len()).map(|number| pleats.piece(builder.album, number)).collect();
    let single = rows.len() == 1;
    let mut made = Vec::new();
    for (index, row) in rows.iter().enumerate() {
        let id = if single { "concertina".to_owned() } else { format!("concertina-{}", index + 1) };
        let name = PieceName::from("concertina");
        let name = if single { name } else { name.counted(index + 1) };
        let net = Net::row(Along::Across, height, &row.leaves, row.root);
        let piece = builder.piece(NewPiece::of(entry, Owner::Spine, (id, "concertina", name), net));
        let Some(piece) = piece else { return };
        made.push(piece);
    }
    let right = (1.0, 0.0);
    lap(builder, guard, &rows, &made);
    // The lower pieces stand on what is beneath; the base that stays put has its crease before the piece's first page.
    let (step, mut before) = (guard.pitch + guard.caliper, 0);
    let middle = whole(builder.album.pages.len()) * step / 2.0;
    for (index, (&piece, row)) in made.iter().zip(&rows).enumerate() {
        if let (true, Some((_, from))) = (index.is_multiple_of(2), row.tabs.first()) {
            let crease = guard.pitch / 2.0 + whole(before) * step;
            let at = (from - guard.gusset + middle - crease, guard.low());
            builder.feet.push(side(piece, 0, Face::Back, at, right));
        }
        before += row.tabs.len();
    }
    hang_pages(builder, guard, &rows, &made);
}

/// A wish that no piece can keep.
fn too_long(album: &Album, least: Length, longest: Length) -> Finding {
    let text =
        Said::new("piece-too-long").with("least", album.length(least.mm())).with("longest", album.length(longest.mm()));
    Finding::stop("piece-too-long", about(), text)
        .measured(least, longest)
        .help(Said::new("piece-too-long-help").with("field", of_spine(LONGEST)))
        .mend("spine.longest", album.at_least(least.mm()))
}

/// Sticks the last base of each piece on the first of the next, each from the crease towards the other.
fn lap(builder: &mut Builder<'_>, guard: Guard, rows: &[StripPiece], made: &[usize]) {
    for (index, pair) in rows.windows(2).enumerate() {
        let last = pair[0].leaves.len() - 1;
        let lap = if index.is_multiple_of(2) { guard.pitch } else { a_little_less(builder.album, guard.pitch) };
        let next = if index.is_multiple_of(2) { a_little_less(builder.album, guard.pitch) } else { guard.pitch };
        let left = (made[index], pair[0].panel(last), (pair[0].at - lap + guard.pitch / 2.0, 0.0));
        let other = (made[index + 1], pair[1].panel(0), (next - guard.pitch / 2.0, 0.0));
        let (upper, lower) = if index.is_multiple_of(2) { (other, left) } else { (left, other) };
        builder.bond(
            Hold::Stuck,
            side(upper.0, upper.1, Face::Back, upper.2, (1.0, 0.0)),
            side(lower.0, lower.1, Face::Front, lower.2, (1.0, 0.0)),
        );
    }
}

/// Sticks the pleats back to back and hangs the pages on them.
fn hang_pages(builder: &mut Builder<'_>, guard: Guard, rows: &[StripPiece], made: &[usize]) {
    let up = (0.0, 1.0);
    let mut page = 0;
    for (&piece, row) in made.iter().zip(rows) {
        for &(index, from) in &row.tabs {
            let (left, right) = (row.panel(index), row.panel(index + 1));
            let top = (from + guard.tab, 0.0);
            builder.bond(Hold::Stuck, side(piece, left, Face::Back, top, up), side(piece, right, Face::Back, top, up));
            let end = 2.0f64.mul_add(guard.tab, from);
            hang(
                builder,
                page,
                side(piece, left, Face::Front, (from, guard.low()), up),
                Some(side(piece, right, Face::Front, (end, guard.low()), up)),
            );
            page += 1;
        }
    }
}
