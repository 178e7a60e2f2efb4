// SPDX-License-Identifier: MIT
//! What pieces are made of, as pictures show it: each stock of an order otherwise than every other one.

use super::mark::{BOARD, CARD, CARD_BACK, CUT, Fill, GLUE_LINE, Mark, PAPER, PAPER_BACK, PAPER_LINE, Pen, Picture};
use super::tint::Tint;
use crate::album::Album;
use crate::contour::Contour;
use crate::parts::Part;
use crate::stock::{Pattern, Stock};

/// What a piece is made of: how its faces look.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stuff {
    /// Which of the three it is.
    pub matter: Matter,
    front: Tint,
    back: Tint,
    /// Lines on patterned paper, and which way they go, degrees.
    line: Tint,
    turn: u8,
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
    pub const CARD: Self = Self { matter: Matter::Card, front: CARD, back: CARD_BACK, line: GLUE_LINE, turn: 45 };
    /// Patterned paper that nothing is said of.
    pub const PAPER: Self = Self { matter: Matter::Paper, front: PAPER, back: PAPER_BACK, line: PAPER_LINE, turn: 45 };
    /// Board that nothing is said of.
    pub const BOARD: Self = Self { matter: Matter::Board, front: BOARD, back: BOARD, line: GLUE_LINE, turn: 45 };

    /// The colour of its front.
    #[must_use]
    pub const fn colour(self) -> Tint {
        self.front
    }

    /// Its front where it lies flat, drawn as a flat piece and not in space.
    #[must_use]
    pub const fn flat(self) -> Fill {
        self.ruled(60)
    }

    /// Its front in space.
    #[must_use]
    pub const fn front(self) -> Fill {
        self.ruled(20)
    }

    /// Its back.
    #[must_use]
    pub const fn back(self) -> Fill {
        Fill::Flat(self.back)
    }

    /// Where it takes tape or glue.
    #[must_use]
    pub const fn glued(self) -> Fill {
        match self.matter {
            Matter::Card => Fill::Hatched { ground: self.back, line: GLUE_LINE, apart: 15, turn: 45 },
            Matter::Paper => Fill::Flat(self.line),
            Matter::Board => Fill::Flat(self.front),
        }
    }

    const fn ruled(self, apart: u8) -> Fill {
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
    if let Some(colour) = stock.colour {
        return Stuff { turn, ..usual.coloured(Tint(colour)) };
    }
    // What the maker says of a colour nobody else has by chance.
    let said = |tint: &&Tint| stocks.iter().all(|one| one.colour.is_none_or(|own| Tint(own).apart(**tint) > ALIKE));
    let free: Vec<Tint> = tints.iter().filter(said).copied().collect();
    let unsaid = before.iter().filter(|one| one.colour.is_none()).count();
    match free.get(unsaid % free.len().max(1)) {
        Some(tint) if *tint != usual.front => Stuff { turn, ..usual.coloured(*tint) },
        _ => Stuff { turn, ..usual },
    }
}

/// What a part of an album is made of, as pictures show it.
#[must_use]
pub fn stuff(album: &Album, part: &Part) -> Stuff {
    stuff_of(&album.stocks, part.stock)
}

/// A piece of it with a corner turned over, 18 x 12 mm.
#[must_use]
pub fn swatch(stuff: Stuff) -> Picture {
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
    Picture { width, height, marks: vec![shape(&front, stuff.front()), shape(&back, stuff.back())] }
}
