// SPDX-License-Identifier: MIT
//! The case cover: two boards and a spine board under one covering paper, lined inside.
//!
//! ```text
//!        back board     spine board    front board
//!      +------------+ j +--------+ j +------------+     Boards are page + 2 square tall (B1). Closed, they stand on the
//!      |            |   |        |   |            |     ends of the spine board, which is two boards and the papers between
//!      |            |   |        |   |            |     wider than the room for the pages: the larger of N pitches and
//!      |            |   |        |   |            |     all pages (D3), or what stands there. The joint goes round the spine board's
//!      +------------+   +--------+   +------------+     edge, so that a board stands j less a board off the inside.
//! ```
//!
//! A board is as wide as the pages reach, with the square, less what the joint lets it stand off (derived: B1's one square
//! more than the leaf, joint included). The joint is 1.5 to 2 boards or 6.35 to 10 mm (B4: bindery practice; Collins,
//! *Handicraft for Boys*). The covering turns in 12.7 to 19 mm (B2); see `covering`. The spine lining goes over both joints
//! and a lap on either board; end papers leave the square.

use crate::album::{Entry, Kind, Role};
use crate::contour::Contour;
use crate::fields::{Field, Key, Text, rule, usual};
use crate::finding::{Arg, Finding, Said};
use crate::length::tolerance::{READ, SAME};
use crate::length::{Length, Units};
use crate::net::{Along, Net, RowPanel, Sense, Use};
use crate::parts::bond::{Face, Hold};
use crate::parts::build::advice::smaller;
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::face::Looks;
use crate::parts::build::new_piece::NewPiece;
use crate::parts::covers::around::{Around, SPINE, SQUARE, about, face, of_cover, stand};
use crate::parts::covers::band::{self, BAND, Girth, LAPS};
use crate::parts::covers::covering::{CoveredPart, Covering};
use crate::parts::kit::{Owner, Purpose};
use crate::parts::maker::Maker;

const JOINT: Key<Option<Length>> =
    Key::size("joint", rule("two boards, at least 7 mm or 1/4 in"), "from the spine board to a board");
const TURN_IN: Key<Length> =
    Key::size("turn_in", usual(16.0, 0.625), "what of the covering is folded over the boards' edges");
const MITRE: Key<Option<Length>> = Key::size(
    "mitre",
    rule("one and a quarter boards"),
    "from a board's corner to the cut across the covering's corner",
);
const BOARD: Key<Option<Text>> = Key::text("board", rule("the cover's stock"), "the stock of the boards");
const COVERING: Key<Option<Text>> = Key::text("covering", rule("the cover's stock"), "the stock of the covering");
const ENDPAPER: Key<Option<Text>> =
    Key::text("endpaper", rule("the covering's stock"), "the stock of the end papers and the spine's lining");

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "case",
        role: Role::Cover,
        about: "two boards and a spine board under covering paper with turned-in edges, lined with end papers",
        fields: &[
            SQUARE.field,
            SPINE.worded("width of the spine board").field,
            JOINT.field,
            TURN_IN.field,
            MITRE.field,
            BOARD.field,
            COVERING.field,
            ENDPAPER.field,
            BAND.field,
            LAPS.field,
        ],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "case", "board": "board", "covering": "paper" }"#,
};

/// Boards of a case are 1 mm thick or more (T6).
const LEAST_BOARD: f64 = 1.0;

/// Turn-ins of less hold badly, mm (B2).
const LEAST_TURN_IN: f64 = 12.7;

/// A joint wider than this, and than two boards, lets the boards flap about, mm (B4).
const WIDEST_JOINT: f64 = 10.0;

/// A board must stand off the spine board's inside by this, mm, or the joint jams: our choice.
const CLEAR: f64 = 0.2;

/// What a case is made of.
#[derive(Clone, Copy, Debug)]
struct Stocks {
    board: usize,
    covering: usize,
    endpaper: usize,
}

/// Its sizes, mm.
#[derive(Clone, Copy, Debug)]
struct Sizes {
    /// Thickness of a board, of the covering, of the end papers.
    thick: [f64; 3],
    joint: f64,
    /// From the lining on the spine board up to a board's lower edge.
    off: f64,
    covering: Covering,
}

fn make(builder: &mut Builder<'_>, entry: &Entry, _: usize) {
    let covering = builder.stock_named(entry, COVERING, entry.stock);
    let stocks = Stocks {
        board: builder.stock_named(entry, BOARD, entry.stock),
        covering,
        endpaper: builder.stock_named(entry, ENDPAPER, covering),
    };
    let thick = [stocks.board, stocks.covering, stocks.endpaper].map(|stock| builder.caliper(stock));
    // The boards, and on either side what is turned in and pasted over them.
    let more = 2.0 * thick.iter().sum::<f64>();
    let Some(around) = Around::of(builder, entry, (more, false), Said::new("a-spine-board")) else { return };
    let Some(sizes) = sizes(builder, entry, &around, thick) else { return };
    let cut = |id: &str, kind, name: &str, net, stock| NewPiece {
        stock,
        ..NewPiece::of(entry, Owner::Cover, (id, kind, name), net)
    };
    let (width, height) = sizes.covering.board;
    let plate = |name, width, height| Net::single(name, Contour::rectangle(0.0, 0.0, width, height));
    let sheet = sizes.covering.sheet();
    let paper = builder.piece(cut("cover-covering", "covering", "covering", sheet.net.clone(), stocks.covering));
    let [back, front] = ["back board", "front board"]
        .map(|name| builder.piece(cut("cover-board", "board", name, plate("board", width, height), stocks.board)));
    let spine_net = plate("spine board", around.spine, height);
    let spine = builder.piece(cut("cover-spine", "spine board", "spine board", spine_net, stocks.board));
    let (Some(paper), Some(back), Some(front), Some(spine)) = (paper, back, front, spine) else { return };

    let up = (0.0, 1.0);
    let middle = around.spine / 2.0;
    builder.bond(Hold::Stuck, side(spine, 0, Face::Back, (middle, 0.0), up), sheet.under_spine(paper));
    let boards = [back, front];
    for (number, &board) in boards.iter().enumerate() {
        builder.bond(Hold::Stuck, side(board, 0, Face::Back, (0.0, 0.0), up), sheet.under(paper, number));
    }
    for turn in &sheet.turn_ins {
        let pair = |point: crate::contour::Vec2| (point.x, point.y);
        builder.bond(
            Hold::Stuck,
            side(paper, turn.panel, Face::Back, pair(turn.at.to_vec2()), pair(turn.along)),
            side(boards[turn.board], 0, Face::Front, pair(turn.on.to_vec2()), pair(turn.on_along)),
        );
    }
    line(builder, entry, &around, &sizes, (&boards, spine), |id, kind, name, net| {
        cut(id, kind, name, net, stocks.endpaper)
    });
    let round = Girth {
        across: sizes.joint + width + 2.0 * thick[1] + around.decor,
        thick: 2.0f64.mul_add(thick[1] + around.decor, around.spine),
        room: around.spine,
        says: ("cover.spine", 0.0),
        stock: stocks.covering,
        spine: sheet.outside(paper),
    };
    band::make(builder, entry, &around, &round);
    // The end papers are what lines it, so it has panels on its outside alone.
    let spine = around.spine + thick[1];
    for (name, panel, wide) in [
        ("cover back", CoveredPart::Back, width),
        ("cover spine", CoveredPart::Spine, spine),
        ("cover front", CoveredPart::Front, width),
    ] {
        let slim = panel == CoveredPart::Spine;
        let side = sheet.face(paper, panel);
        face(builder, (name, Looks::Outside, slim), (wide, height), Vec::new(), side, Some(side.at.x));
    }
}

/// The spine's lining, on which the spine stands, and the end papers.
fn line<'c>(
    builder: &mut Builder<'_>,
    entry: &Entry,
    around: &Around,
    sizes: &Sizes,
    (boards, spine): (&[usize; 2], usize),
    cut: impl Fn(&str, &'static str, &str, Net) -> NewPiece<'c>,
) {
    let (width, height) = sizes.covering.board;
    let [board, _, paper] = sizes.thick;
    let tall = 2.0f64.mul_add(-around.square, height);
    let (lap, up) = (entry.mm(LAPS), (0.0, 1.0));
    // It stands up in the middle of its thickness, so half of that is taken off where it meets boards and spine board.
    let (gap, middle) = (sizes.off + paper / 2.0, 2.0f64.mul_add(-board, around.spine) - paper);
    let leaves = [
        RowPanel::new("left lap", Use::Seam, lap),
        RowPanel::new("left joint", Use::Gusset, gap).folded(Sense::Bent, 0.0),
        RowPanel::new("spine", Use::Plain, middle).folded(Sense::Valley, 90.0),
        RowPanel::new("right joint", Use::Gusset, gap).folded(Sense::Valley, 90.0),
        RowPanel::new("right lap", Use::Seam, lap).folded(Sense::Bent, 0.0),
    ];
    let net = Net::row(Along::Across, tall, &leaves, 2);
    let panels = ["left lap", "spine", "right lap"].map(|name| net.panel(name));
    let lining = builder.piece(cut("cover-lining", "spine lining", "spine lining", net));
    let (Some(lining), [Some(left), Some(spine_panel), Some(right)]) = (lining, panels) else { return };
    let centre = lap + gap + middle / 2.0;
    builder.bond(
        Hold::Stuck,
        side(lining, spine_panel, Face::Back, (centre, 0.0), up),
        side(spine, 0, Face::Front, (around.spine / 2.0, around.square), up),
    );
    // Seen from the inside the front is at the left, and its joint at its right.
    for (panel, at, board, joint) in
        [(left, lap, boards[1], width), (right, 2.0f64.mul_add(gap, lap) + middle, boards[0], 0.0)]
    {
        builder.bond(
            Hold::Stuck,
            side(lining, panel, Face::Back, (at, 0.0), up),
            side(board, 0, Face::Front, (joint, around.square), up),
        );
    }
    stand(builder, side(lining, spine_panel, Face::Front, (centre, 0.0), (1.0, 0.0)));
    let net = Net::single("end paper", Contour::rectangle(0.0, 0.0, width - around.square, tall));
    for (board, name, left) in [(boards[0], "back", 0.0), (boards[1], "front", around.square)] {
        let name = format!("{name} end paper");
        let cut = cut("cover-endpaper", "end paper", name.as_str(), net.clone());
        if let Some(piece) = builder.piece(NewPiece { purpose: Purpose::EndPaper, ..cut }) {
            builder.bond(
                Hold::Stuck,
                side(piece, 0, Face::Back, (0.0, 0.0), up),
                side(board, 0, Face::Front, (left, around.square), up),
            );
        }
    }
}

/// The case's sizes; nothing where they make no case, which is said then.
fn sizes(builder: &mut Builder<'_>, entry: &Entry, around: &Around, thick: [f64; 3]) -> Option<Sizes> {
    let [board, paper, endpaper] = thick;
    let least = if builder.album.units == Units::In { 6.35 } else { 7.0 };
    let set = |key: Key<Option<Length>>, rule: f64| entry.get(key).map_or(rule, Length::mm);
    let joint = set(JOINT, (2.0 * board).max(least));
    let mitre = set(MITRE, 1.25 * board);
    let turn_in = entry.mm(TURN_IN);
    let off = joint - paper - board - endpaper;
    let (width, height) = (builder.album.at_least(around.reach - off).mm(), around.height);
    let covering =
        Covering { board: (width, height), spine: around.spine, joint, thick: (board, paper), turn_in, mitre };
    let mut say = Say { builder, entry };
    say.board(board);
    if !say.joint(joint, thick) {
        return None;
    }
    // What the boards have to stand off beyond what jams them.
    say.builder.spare(Said::new("the-case"), "in its joints", joint - board - paper - endpaper - CLEAR, 2);
    let sound = say.mitre(mitre, board) && say.turn_in(&covering) && say.meeting(around, &covering);
    sound.then_some(Sizes { thick, joint, off, covering })
}

/// Says what is wrong with a size.
struct Say<'b, 'a, 'e> {
    builder: &'b mut Builder<'a>,
    entry: &'e Entry,
}

impl Say<'_, '_, '_> {
    fn length(&self, mm: f64) -> Arg {
        self.builder.album.length(mm)
    }

    fn board(&mut self, board: f64) {
        if board < LEAST_BOARD - SAME {
            let text =
                Said::new("board-thin").with("board", self.length(board)).with("least", self.length(LEAST_BOARD));
            let help = Said::new("board-thin-help").with("field", of_cover(BOARD));
            let finding = Finding::warn("board-thin", about(), text).help(help);
            self.builder.find(finding.at(self.entry.values.place(BOARD)));
        }
    }

    /// Whether the boards turn in their joints.
    fn joint(&mut self, joint: f64, [board, paper, endpaper]: [f64; 3]) -> bool {
        if joint < board + paper + endpaper + CLEAR {
            let text = Said::new("joint-jams").with("joint", self.length(joint)).with("board", self.length(board));
            self.too_small("joint-narrow", JOINT, joint, 1.5f64.mul_add(board, paper + endpaper + CLEAR), text, true);
            return false;
        }
        if joint < 1.5f64.mul_add(board, -SAME) {
            let text = Said::new("joint-stiff").with("joint", self.length(joint));
            self.too_small("joint-narrow", JOINT, joint, 1.5 * board, text, false);
        }
        let widest = (2.0 * board).max(WIDEST_JOINT);
        if joint > widest + SAME {
            let most = self.builder.album.at_most(widest);
            let text = Said::new("joint-wide")
                .with("joint", self.builder.album.length(joint))
                .with("most", self.builder.album.rough(widest));
            let help = Said::new("joint-wide-help")
                .with("joint", of_cover(JOINT))
                .with("most", self.builder.album.length(most.mm()));
            let finding = Finding::note("joint-wide", about(), text).measured(Length::from_mm(joint), most);
            let finding = finding.help(help).mend("cover.joint", most);
            self.builder.find(finding.at(self.entry.values.place(JOINT)));
        }
        true
    }

    /// Whether the covering goes round the boards' corners.
    fn mitre(&mut self, mitre: f64, board: f64) -> bool {
        if mitre < board - SAME {
            let text = Said::new("mitre-small").with("mitre", self.length(mitre)).with("board", self.length(board));
            self.too_small("mitre-small", MITRE, mitre, 1.25 * board, text, true);
            return false;
        }
        if mitre > 1.5f64.mul_add(board, SAME) {
            let most = self.builder.album.at_most(1.5 * board);
            let text = Said::new("mitre-large").with("mitre", self.length(mitre)).with("most", self.length(most.mm()));
            let finding = Finding::warn("mitre-large", about(), text).measured(Length::from_mm(mitre), most);
            let help =
                Said::new("mitre-large-help").with("field", of_cover(MITRE)).with("most", self.length(most.mm()));
            let finding = finding.help(help);
            self.builder.find(finding.at(self.entry.values.place(MITRE)));
        }
        true
    }

    /// Whether the turn-ins reach round the boards and hold.
    fn turn_in(&mut self, covering: &Covering) -> bool {
        let (turn_in, (board, paper)) = (covering.turn_in, covering.thick);
        if covering.leg() > turn_in + board - 1.0 || turn_in < paper + 1.0 {
            let text = Said::new("turn-ins-in-mitres").with("turn_in", self.length(turn_in));
            self.too_small("turn-in-narrow", TURN_IN, turn_in, LEAST_TURN_IN.max(covering.leg() + 1.0), text, true);
            return false;
        }
        if turn_in < LEAST_TURN_IN - SAME {
            let usual = self.builder.album.rough(LEAST_TURN_IN);
            let text = Said::new("turn-ins-hold-badly").with("turn_in", self.length(turn_in)).with("usual", usual);
            self.too_small("turn-in-narrow", TURN_IN, turn_in, LEAST_TURN_IN, text, false);
        }
        true
    }

    /// Whether what comes from opposite edges keeps clear of each other.
    fn meeting(&mut self, around: &Around, covering: &Covering) -> bool {
        let ((width, height), turn_in) = (covering.board, covering.turn_in);
        let strip = covering.thick.0 + covering.thick.1;
        // Turn-ins from head and tail must not meet, nor stick out of their board.
        let most = (height / 2.0).min(width);
        if turn_in > most || width < strip || self.entry.mm(LAPS) > width {
            let text = Said::new("turn-in-too-wide")
                .with("turn_in", self.length(turn_in))
                .with("lap", self.length(self.entry.mm(LAPS)))
                .with("width", self.length(width.max(0.0)))
                .with("height", self.length(height));
            let help = Said::new("turn-in-too-wide-help").with("turn_in", of_cover(TURN_IN));
            let help = help.with("lap", of_cover(LAPS)).with("joint", of_cover(JOINT));
            let finding = Finding::stop("turn-in-too-wide", about(), text).help(help);
            self.builder.find(finding.at(self.entry.values.place(TURN_IN)));
            return false;
        }
        if around.square * 2.0 >= width {
            let text = Said::new("square-too-large").with("square", self.length(around.square));
            let help = smaller("square-too-large-help", 3.0, width / 2.0 - READ).with("field", of_cover(SQUARE));
            let finding = Finding::stop("square-too-large", about(), text).help(help);
            self.builder.find(finding.at(self.entry.values.place(SQUARE)));
            return false;
        }
        true
    }

    fn too_small(&mut self, id: &'static str, field: impl Into<Field>, size: f64, least: f64, text: Said, stops: bool) {
        let (field, least) = (field.into(), self.builder.album.at_least(least));
        let finding = if stops { Finding::stop(id, about(), text) } else { Finding::warn(id, about(), text) };
        let finding = finding
            .measured(Length::from_mm(size), least)
            .help(
                Said::new("make-cover-at-least").with("field", of_cover(field)).with("least", self.length(least.mm())),
            )
            .mend(format!("cover.{}", field.name), least);
        self.builder.find(finding.at(self.entry.values.place(field)));
    }
}
