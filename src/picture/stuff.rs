// SPDX-License-Identifier: MIT
//! What pieces are made of, as pictures show it: each stock of an order otherwise than every other one.

use super::likeness::{PicturedFaces, cut_from};
use super::mark::{BOARD, CARD, CARD_BACK, CUT, Fill, GLUE_LINE, Mark, PAPER, PAPER_BACK, PAPER_LINE, Pen, Picture};
use crate::album::Album;
use crate::contour::{Contour, Point, Vec2};
use crate::parts::{CutFrom, Kit, Part, Piece};
use crate::raster::Tint;
use crate::stock::{Pattern, Stock};

/// What a piece is made of: how its faces look.
#[derive(Clone, Debug, PartialEq)]
pub struct Stuff {
    /// Which of the three it is.
    pub matter: Matter,
    front: Tint,
    back: Tint,
    /// Lines on patterned paper, and which way they go, degrees.
    line: Tint,
    turn: u8,
    /// Pictures of its faces, as they lie on the flat part.
    faces: PicturedFaces,
    /// Where the up of one-way paper lies: quarter turns counter-clockwise from the part's own up.
    up: Option<u8>,
}

/// Card, paper or board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Matter {
    /// Card: the front lighter than the back.
    Card,
    /// Patterned paper: its front hatched lightly.
    Paper,
    /// Board.
    Board,
}

/// How the second and every further stock of a kind looks, where the maker says nothing: our choice.
const CARDS: [Tint; 7] = [
    CARD,
    Tint([0xD6, 0xDF, 0xC6]),
    Tint([0xEC, 0xD3, 0xC9]),
    Tint([0xCF, 0xD8, 0xE6]),
    Tint([0xEF, 0xE0, 0xA8]),
    Tint([0xDD, 0xCD, 0xE2]),
    Tint([0xC9, 0xCB, 0xC8]),
];
const PAPERS: [Tint; 7] = [
    PAPER,
    Tint([0xF0, 0xDF, 0xDD]),
    Tint([0xE0, 0xEB, 0xD2]),
    Tint([0xE6, 0xDF, 0xF0]),
    Tint([0xF2, 0xEA, 0xC8]),
    Tint([0xD2, 0xEB, 0xE1]),
    Tint([0xF3, 0xE0, 0xC9]),
];
const BOARDS: [Tint; 4] = [BOARD, Tint([0xB4, 0xAC, 0xA0]), Tint([0xDC, 0xC8, 0x9C]), Tint([0xB8, 0xA0, 0x8C])];
/// Which way the lines of each further patterned paper go, degrees.
const TURNS: [u8; 4] = [45, 135, 90, 0];
/// Colours nearer than this look alike on a screen: our choice.
const ALIKE: u32 = 24;

impl Stuff {
    /// Card that nothing is said of.
    pub const CARD: Self = Self {
        matter: Matter::Card,
        front: CARD,
        back: CARD_BACK,
        line: GLUE_LINE,
        turn: 45,
        faces: PicturedFaces::PLAIN,
        up: None,
    };
    /// Patterned paper that nothing is said of.
    pub const PAPER: Self = Self {
        matter: Matter::Paper,
        front: PAPER,
        back: PAPER_BACK,
        line: PAPER_LINE,
        turn: 45,
        faces: PicturedFaces::PLAIN,
        up: None,
    };
    /// Board that nothing is said of.
    pub const BOARD: Self = Self {
        matter: Matter::Board,
        front: BOARD,
        back: BOARD,
        line: GLUE_LINE,
        turn: 45,
        faces: PicturedFaces::PLAIN,
        up: None,
    };

    /// The colour of its front.
    #[must_use]
    pub const fn colour(&self) -> Tint {
        self.front
    }

    /// Its front where it lies flat, drawn as a flat piece and not in space: as it lies on the flat part.
    #[must_use]
    pub fn flat(&self) -> Fill {
        self.faces.front().unwrap_or_else(|| self.ruled(60))
    }

    /// Its front in space, as it lies on the flat part.
    #[must_use]
    pub fn front(&self) -> Fill {
        self.faces.front().unwrap_or_else(|| self.ruled(20))
    }

    /// Its back, as it lies on the flat part, seen through it from its front.
    #[must_use]
    pub fn back(&self) -> Fill {
        self.faces.back().unwrap_or(Fill::Flat(self.back))
    }

    /// The same as its sheet lies: one-way paper has its up there.
    #[must_use]
    pub(super) fn on_sheet(&self) -> Self {
        Self { up: self.up.map(|_| 0), ..self.clone() }
    }

    /// Which way its up lies on a part, where it has one.
    #[must_use]
    pub fn upward(&self) -> Option<Vec2> {
        self.up.map(|quarters| match quarters % 4 {
            0 => Vec2::new(0.0, 1.0),
            1 => Vec2::new(-1.0, 0.0),
            2 => Vec2::new(0.0, -1.0),
            _ => Vec2::new(1.0, 0.0),
        })
    }

    /// Whether a face of it is a picture, on which words want a ground of their own.
    #[must_use]
    pub const fn is_pictured(&self) -> bool {
        self.faces.are_pictured()
    }

    /// Where it takes tape or glue.
    #[must_use]
    pub const fn glued(&self) -> Fill {
        match self.matter {
            Matter::Card => Fill::Hatched { ground: self.back, line: GLUE_LINE, apart: 15, turn: 45 },
            Matter::Paper => Fill::Flat(self.line),
            Matter::Board => Fill::Flat(self.front),
        }
    }

    const fn ruled(&self, apart: u8) -> Fill {
        match self.matter {
            Matter::Paper => Fill::Hatched { ground: self.front, line: self.line, apart, turn: self.turn },
            Matter::Card | Matter::Board => Fill::Flat(self.front),
        }
    }

    /// The same in a colour; its back and its lines go with it.
    fn coloured(self, colour: Tint) -> Self {
        let front = colour.readable();
        let ink = Tint([0; 3]);
        match self.matter {
            Matter::Card => Self { front, back: front.mixed(0.91, ink).readable(), ..self },
            Matter::Paper => {
                Self { front, line: front.mixed(0.9, ink), back: front.mixed(0.3, Tint([255; 3])), ..self }
            }
            Matter::Board => Self { front, back: front, ..self },
        }
    }
}

/// What a stock is: one with a pattern is paper, one of 1 mm and more is board (T6).
fn matter(stock: &Stock) -> Matter {
    match stock {
        stock if stock.pattern != Pattern::None => Matter::Paper,
        stock if stock.caliper.mm() >= 1.0 => Matter::Board,
        _ => Matter::Card,
    }
}

/// What the stock of this number is made of among these; card where there is none.
#[must_use]
pub fn stuff_of(stocks: &[Stock], number: usize) -> Stuff {
    let Some(stock) = stocks.get(number) else { return Stuff::CARD };
    let up = (stock.pattern == Pattern::OneWay).then_some(0);
    Stuff { up, ..of_stock(stocks, stock) }
}

/// The same, whichever way it lies.
fn of_stock(stocks: &[Stock], stock: &Stock) -> Stuff {
    let matter = matter(stock);
    let (usual, tints): (Stuff, &[Tint]) = match matter {
        Matter::Card => (Stuff::CARD, &CARDS),
        Matter::Paper => (Stuff::PAPER, &PAPERS),
        Matter::Board => (Stuff::BOARD, &BOARDS),
    };
    // Those before it of the same kind; what is cut otherwise than the rest of its stock looks like the rest.
    let mut before: Vec<&Stock> = Vec::new();
    for one in stocks.iter().take_while(|one| one.bought() != stock.bought()) {
        if self::matter(one) == matter && !before.iter().any(|known| known.bought() == one.bought()) {
            before.push(one);
        }
    }
    let turn = TURNS[before.len() % TURNS.len()];
    let picture = stock.pictures.front.as_ref().and_then(|picture| picture.raster.as_ref());
    if let Some(colour) = stock.colour.map(Tint).or(picture.map(|raster| raster.mean())) {
        return Stuff { turn, faces: PicturedFaces::of(stock), ..usual.coloured(colour) };
    }
    // What the maker says of a colour nobody else has by chance.
    let said = |tint: &&Tint| stocks.iter().all(|one| one.colour.is_none_or(|own| Tint(own).apart(**tint) > ALIKE));
    let free: Vec<Tint> = tints.iter().filter(said).copied().collect();
    let unsaid = before.iter().filter(|one| one.colour.is_none()).count();
    let faces = PicturedFaces::of(stock);
    match free.get(unsaid % free.len().max(1)) {
        Some(tint) if *tint != usual.front => Stuff { turn, faces, ..usual.coloured(*tint) },
        _ => Stuff { turn, faces, ..usual },
    }
}

/// What a part of an album is made of, as pictures show it: where its stock has a picture, as the part is cut from the sheet
/// first, or would be where no sheet is laid yet.
#[must_use]
pub fn stuff(album: &Album, part: &Part) -> Stuff {
    let made = stuff_of(&album.stocks, part.stock);
    match album.stocks.get(part.stock).filter(|_| made.is_pictured() || made.up.is_some()) {
        Some(stock) => made.cut(stock, cut_from(stock, part), part),
        None => made,
    }
}

/// The same of a piece, which may be its part upside down.
#[must_use]
pub(crate) fn stuff_of_piece(album: &Album, kit: &Kit, piece: &Piece) -> Stuff {
    let Some(part) = kit.parts.get(piece.part) else { return Stuff::CARD };
    let mut made = stuff(album, part);
    if made.is_pictured() && piece.turned {
        made.faces = made.faces.half_turned((part.flat.width, part.flat.height));
    }
    made
}

impl Stuff {
    /// The same, which is that of a whole stock, of a part that is cut so.
    pub(super) fn cut(mut self, stock: &Stock, from: CutFrom, part: &Part) -> Self {
        self.up = self.up.map(|up| (up + 4 - from.quarters % 4) % 4);
        self.faces = self.faces.cut(stock, from, (part.flat.width, part.flat.height));
        self
    }
}

/// A piece of it with a corner turned over, 18 x 12 mm.
#[must_use]
pub fn swatch(stuff: &Stuff) -> Picture {
    let (width, height, turned) = (18.0, 12.0, 5.0);
    let edge = Pen { width: 0.35, ..CUT };
    let shape = |points: &[(f64, f64)], fill| Mark::Shape {
        contours: vec![Contour::polygon(points.iter().copied())],
        fill: Some(fill),
        pen: Some(edge),
    };
    let (low, high, right) = (0.3, height - 0.3, width - 0.3);
    let front = [(low, low), (right, low), (right, high - turned), (right - turned, high), (low, high)];
    let back = [(right, high - turned), (right - turned, high), (right - turned, high - turned)];
    // A picture stands smaller, so that more than a corner of it is seen.
    let small = |fill: Fill| fill.mapped(|point| Point::new(point.x / 4.0, point.y / 4.0 + height));
    Picture { width, height, marks: vec![shape(&front, small(stuff.front())), shape(&back, small(stuff.back()))] }
}
