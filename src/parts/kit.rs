// SPDX-License-Identifier: MIT
//! What an album's parts are: each distinct part once, every piece of the album, the bonds that join them.

use super::name::PieceName;
use crate::album::{CoverRoom, FinishWord};
use crate::contour::Contour;
use crate::cutter::Cutter;
use crate::finding::{Arg, Place, Said};
use crate::net::{Flat, Net};
use crate::parts::bond::Bond;
use crate::parts::pocket::{Pocket, Way};
use crate::parts::spines::carry::Carry;
use crate::stock::Stock;
use crate::usable::{Keeps, Usable};

/// Everything that one album needs.
#[derive(Clone, Debug, Default)]
#[non_exhaustive]
pub struct Kit {
    /// The distinct parts.
    pub parts: Vec<Part>,
    /// Every piece, in the order in which they were made.
    pub pieces: Vec<Piece>,
    /// How the pieces are joined.
    pub bonds: Vec<Bond>,
    /// The sleeves.
    pub pockets: Vec<Pocket>,
    /// What goes into them.
    pub inserts: Vec<Insert>,
    /// The flaps that close over pockets.
    pub closings: Vec<Closing>,
    /// Everything that folds over something thick.
    pub flaps: Vec<Flap>,
    /// What of the cover goes round the fore-edge.
    pub rounds: Vec<Round>,
    /// What there is to spare where nothing is put in: gaps, play.
    pub spares: Vec<Spare>,
    /// What goes through slots of the pages and lies behind them.
    pub tucked: Vec<Tucked>,
    /// What hands do besides folding and joining, in the order in which the pieces were made.
    pub deeds: Vec<Deed>,
    /// Prints that pages are made for, where these say nothing of what is on them.
    pub prints: Vec<PagePrint>,
    /// Whether something of the cover holds the album shut.
    pub shut: bool,
    /// Parts that are cut as one block.
    pub blocks: Vec<PatternBlock>,
    /// How the spine carries its pages.
    pub carry: Carry,
    /// How wide what stands on the cover's spine is over all, mm.
    pub foot: f64,
    /// What its cover goes round; none where it has none.
    pub cover_room: Option<CoverRoom>,
}

impl Kit {
    /// The sheets of a stock that its parts are laid on: those that the machine takes, and on which every part that keeps
    /// to the grain can lie.
    #[must_use]
    pub fn usable(&self, number: usize, stock: &Stock, cutter: &Cutter) -> Usable {
        self.those_for_grain(number, Usable::of(stock, cutter))
    }

    /// The same with what lies in a drawer.
    #[must_use]
    pub fn usable_with_drawer(&self, number: usize, stock: &Stock, cutter: &Cutter) -> Usable {
        self.those_for_grain(number, Usable::with_drawer(stock, cutter))
    }

    fn those_for_grain(&self, number: usize, usable: Usable) -> Usable {
        let grained = self.parts.iter().find(|part| part.stock == number && part.along_grain);
        grained.map(|part| part.sideways).map_or(usable.clone(), |sideways| usable.with_grain(sideways))
    }

    /// For each part, the page of each of its pieces that belongs to one, in order.
    #[must_use]
    pub fn pages(&self) -> Vec<Vec<usize>> {
        let mut pages = vec![Vec::<usize>::new(); self.parts.len()];
        for piece in &self.pieces {
            if let (Owner::Page(page), Some(of_part)) = (piece.owner, pages.get_mut(piece.part)) {
                of_part.push(page);
            }
        }
        for of_part in &mut pages {
            of_part.sort_unstable();
        }
        pages
    }

    /// How thick everything in each pocket is together, mm.
    #[must_use]
    pub(crate) fn stacks(&self) -> Vec<f64> {
        let mut stacks = vec![0.0; self.pockets.len()];
        for insert in &self.inserts {
            if let Some(stack) = insert.pocket.and_then(|pocket| stacks.get_mut(pocket)) {
                *stack += insert.thickness;
            }
        }
        stacks
    }

    /// How thick everything is together that lies between the outermost sheets of each pocket, mm: pockets that are stuck one
    /// on the other share their seams (derived: the outermost sheets go round all of it, D5).
    #[must_use]
    pub fn held(&self) -> Vec<f64> {
        let own = self.stacks();
        let foot = |mut pocket: usize| {
            while let Some(under) =
                self.pockets.get(pocket).and_then(|pocket| pocket.on).filter(|under| *under < pocket)
            {
                pocket = under;
            }
            pocket
        };
        let feet: Vec<usize> = (0..own.len()).map(foot).collect();
        let all = |foot: &usize| own.iter().zip(&feet).filter(|(_, other)| *other == foot).map(|(own, _)| own).sum();
        feet.iter().map(all).collect()
    }
}

/// One flat part, distinct from every other.
#[derive(Clone, Debug)]
pub struct Part {
    /// Its id, ASCII: `page-1-front`. Where several pages use the same part, the first one gives the id.
    pub id: String,
    /// What it is: `pocket front`.
    pub kind: &'static str,
    /// What it is there for.
    pub purpose: Purpose,
    /// Its net.
    pub net: Net,
    /// The flat part that follows from the net.
    pub flat: Flat,
    /// Number of its stock.
    pub stock: usize,
    /// How many a kit needs.
    pub count: u32,
    /// Whether its upright direction must lie along the sheet's grain, where that is stated.
    pub along_grain: bool,
    /// Whether what is up on the album is at the left of the part as it is drawn.
    pub sideways: bool,
    /// What it is used for: `page 1 front`.
    pub used_in: Vec<PieceName>,
    /// The patterns that edges of it are cut in besides what its kind says, each once.
    pub patterns: Vec<FinishWord>,
    /// Where its size is said in the file.
    pub place: Option<Place>,
    /// From where it is cut first; none where no sheet is laid. Only pictures look at it.
    pub cut: Option<CutFrom>,
}

/// Where on which sheet of its stock a part is cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CutFrom {
    /// Number of the sheet's size among the stock's.
    pub size: usize,
    /// Left edge of the turned part's box on the sheet as it lies, mm.
    pub x: f64,
    /// Lower edge of it, mm.
    pub y: f64,
    /// Quarter turns counter-clockwise.
    pub quarters: u8,
}

/// What a part is there for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Purpose {
    /// It is of the album itself, or of what goes into it.
    Body,
    /// It decorates a face.
    Panel,
    /// It goes round the closed album and comes off.
    Band,
    /// It lines the inside of a cover.
    EndPaper,
}

/// What of the album a piece belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Owner {
    /// A page, from 1; the panels on its faces too.
    Page(usize),
    /// The spine.
    Spine,
    /// The cover.
    Cover,
    /// Something that is put into a pocket, from 1.
    Insert(usize),
}

/// One piece of the finished album.
#[derive(Clone, Debug)]
pub struct Piece {
    /// Number of its part.
    pub part: usize,
    /// Whether it is the part turned upside down (by a half turn in its plane).
    pub turned: bool,
    /// What it is: `page 1 front`.
    pub name: PieceName,
    /// What it belongs to.
    pub owner: Owner,
    /// Its net as it is folded here: its part may be folded another way elsewhere. Bonds speak of this net.
    pub net: Net,
    /// What its form comes from, where that is a kind file.
    pub form: Option<PieceForm>,
}

/// Where the form of a piece is said, and at which sizes it is made.
#[derive(Clone, Debug)]
pub struct PieceForm {
    /// The line of the kind file.
    pub place: Place,
    /// The sizes that it comes from.
    pub sizes: Arg,
}

/// A print that a page is made for.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct PagePrint {
    /// Number of the page, from 1.
    pub page: usize,
    /// Number of the piece that holds it: it lies in the middle of its root.
    pub piece: usize,
    /// The pocket that it lies in, where it lies in one.
    pub pocket: Option<usize>,
    /// Its width and height as it lies, mm.
    pub size: (f64, f64),
    /// Its thickness, mm.
    pub thickness: f64,
}

/// A thing that is put into a pocket.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Insert {
    /// What it is: `tag 1`.
    pub name: String,
    /// Number of its piece.
    pub piece: usize,
    /// Number of its pocket; none where the album has no pockets.
    pub pocket: Option<usize>,
    /// Its width, mm.
    pub width: f64,
    /// Its height, mm.
    pub height: f64,
    /// Its thickness with what is on it, mm.
    pub thickness: f64,
    /// Whether it has something to pull it out by.
    pub pull: bool,
    /// The way to its entry in the file: `inserts[0]`.
    pub path: String,
    /// How it gets another size.
    pub resized: Resized,
    /// Where the file says its width, and its height.
    pub places: [Option<Place>; 2],
}

/// How an insert gets another size in its file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Resized {
    /// Its entry says its width and its height.
    Freely,
    /// It is as a drawing shows it: the file says this side of the outline alone, the other one follows.
    InProportion(Way),
    /// No one length does it.
    Not,
}

impl Insert {
    /// The length in the file that makes it at most so large in one direction, and what that is then, mm; none where no one length
    /// does it.
    #[must_use]
    pub fn at_most(&self, way: Way, most: f64) -> Option<(String, f64)> {
        let size = |way: Way| if way == Way::Across { self.width } else { self.height };
        let field = |way: Way| if way == Way::Across { "width" } else { "height" };
        match self.resized {
            Resized::Freely => Some((format!("{}.{}", self.path, field(way)), most)),
            Resized::InProportion(said) => {
                Some((format!("{}.outline.{}", self.path, field(said)), most * size(said) / size(way)))
            }
            Resized::Not => None,
        }
    }
}

/// A flap that folds over a pocket and closes it.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Closing {
    /// `page 2`.
    pub name: String,
    /// Width of the flap, mm.
    pub flap: f64,
    /// Width of the pocket, mm.
    pub pocket: f64,
    /// Width of the page, mm.
    pub width: f64,
    /// The flap: its piece and panel.
    pub by: (usize, usize),
    /// The pocket's front that it closes over: its piece and panel.
    pub over: (usize, usize),
    /// The way to the page in the file: `pages[1]`.
    pub path: String,
    /// What patterns take of their overlap where they are cut deepest, mm.
    pub bitten: f64,
    /// Where the file says the flap's width, and the pocket's.
    pub places: [Option<Place>; 2],
    /// The fields that say these.
    pub fields: [&'static str; 2],
}

/// A panel that folds over something thick.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Flap {
    /// `page 2`.
    pub name: String,
    /// What it is: `flap`, `doors`.
    pub what: &'static str,
    /// How far it reaches over what it closes when that is flat, mm; none where it closes nothing.
    pub overlap: Option<f64>,
    /// How long it is from its outer score, mm.
    pub long: f64,
    /// What its field says of that, mm, and may say at most.
    pub length: [f64; 2],
    /// How far its two scores are apart, mm; nothing where it has one.
    pub depth: f64,
    /// Caliper of its card, mm.
    pub caliper: f64,
    /// Thickness of what it always lies over, mm, and how far the edge of that is from its score.
    pub over: [f64; 2],
    /// The pocket whose contents it lies over besides, and how far its score is from where they begin, mm.
    pub pocket: Option<(usize, Way, f64)>,
    /// The field that says its length; none where none does.
    pub field: &'static str,
    /// The way to its entry in the file: `pages[1]`.
    pub path: String,
    /// Where the file says it.
    pub place: Option<Place>,
    /// Whether it can have two scores: whether its entry has the field `depth`.
    pub two: bool,
}

/// What of the cover goes round the fore-edge of the closed pages.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Round {
    /// What it is: `flap`, `belly band`.
    pub what: &'static str,
    /// How thick the pages may be that it goes round, mm.
    pub room: f64,
    /// How far a flap reaches over the front; nothing for what goes all the way round.
    pub flap: Option<f64>,
    /// The way to what says how thick that may be, and how much of it is not the pages': their cover, mm.
    pub says: (&'static str, f64),
    /// Where the file says it.
    pub place: Option<Place>,
}

/// What there is to spare in a place that a kind states.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Spare {
    /// Of what: the gate of page 2.
    pub about: Said,
    /// Which way: `between its doors`.
    pub what: &'static str,
    /// What there is to spare, mm.
    pub spare: f64,
    /// How many sizes it depends on.
    pub sizes: u32,
}

/// What goes through a slot and lies behind it.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Tucked {
    /// Number of the piece with the slot.
    pub piece: usize,
    /// Number of its panel.
    pub panel: usize,
    /// Its outline in the flat piece.
    pub outline: Contour,
}

/// What hands do with pieces besides folding and joining them.
#[derive(Clone, Debug, PartialEq)]
pub enum Deed {
    /// A ribbon goes through a slot from the outside, and its end is stuck inside.
    Tie {
        /// The pieces that it goes through, from the outside, with the numbers of their holes.
        through: Vec<(usize, usize)>,
        /// Its width, mm.
        width: f64,
    },
    /// Leaves that lie in one another are sewn through their fold.
    Sew {
        /// Numbers of the pieces, the outermost first.
        leaves: Vec<usize>,
        /// How many holes there are in the fold.
        holes: usize,
    },
    /// A print is fixed on a card.
    Mount {
        /// Number of the card's piece.
        piece: usize,
        /// Width and height of the print, mm.
        print: (f64, f64),
        /// Whether it lies behind a window.
        window: bool,
    },
    /// A tab is folded over an edge that the maker chooses, and stuck on both faces.
    Clip {
        /// Number of its piece.
        piece: usize,
        /// What is stuck on either face, mm.
        grip: f64,
    },
    /// A print is put into what a page has for it.
    Print {
        /// Number of the page, from 1.
        page: usize,
        /// Number of the piece that holds it.
        piece: usize,
        /// How that holds it.
        by: Holds,
        /// Width and height of the print as it lies, mm.
        print: (f64, f64),
    },
}

/// What holds a print on its page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Holds {
    /// Slots that its corners are tucked through.
    Slots,
    /// Corners that are stuck on the page.
    Corners,
    /// A window, behind which it slides.
    Window,
}

impl Piece {
    /// What it is of its page: `front` for `page 1 front`; the whole name where it is of no page.
    #[must_use]
    pub(crate) fn of_owner(&self) -> PieceName {
        let without =
            |name: &PieceName| if let PieceName::OfPage(_, what) = name { (**what).clone() } else { name.clone() };
        match (self.owner, &self.name) {
            (Owner::Page(_), PieceName::PanelFor(face)) => PieceName::PanelFor(without(face).into()),
            (Owner::Page(_), name) => without(name),
            (Owner::Spine | Owner::Cover | Owner::Insert(_), name) => name.clone(),
        }
    }
}

impl Part {
    /// What it is called: by its first use.
    #[must_use]
    pub fn called(&self) -> String {
        self.used_in.first().map_or_else(|| self.id.clone(), ToString::to_string)
    }

    /// What of it keeps to the sheet's grain and pattern.
    #[must_use]
    pub const fn keeps(&self) -> Keeps {
        Keeps { along_grain: self.along_grain, sideways: self.sideways }
    }

    /// Its size as it is drawn, mm.
    #[must_use]
    pub const fn size(&self) -> (f64, f64) {
        (self.flat.width, self.flat.height)
    }
}

/// Parts that are cut from one place of a sheet, as they lie on the album, because a pattern runs on over them.
#[derive(Clone, Debug, PartialEq)]
pub struct PatternBlock {
    /// What it is for: `page 2 front`.
    pub name: PieceName,
    /// How many a kit needs.
    pub count: u32,
    /// Whether its parts stand one above the other; else side by side.
    pub upright: bool,
    /// Its parts in that order, as they are drawn: all as broad as the block.
    pub parts: Vec<BlockPart>,
}

/// A part in a block.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BlockPart {
    /// Number of the part.
    pub part: usize,
    /// How far behind the part before it it starts, mm.
    pub behind: f64,
}
