// SPDX-License-Identifier: MIT
//! The library of parts: from an album to its flat parts and how they are joined.
//!
//! In: a checked [`Album`], the cutter. Out: a [`Kit`]: each distinct part once, every piece of the album, and the
//! bonds that join them. Never: lays out a sheet, judges whether it goes together.
//!
//! One file holds one kind; its doc comment draws it and says where its sizes come from. A new kind is a
//! new file and one line of [`ALL`].

mod accordion;
mod around;
mod band;
mod belly_band;
mod booklet;
mod bound;
mod build;
mod carry;
mod case_cover;
mod concertina;
mod corner_page;
mod covering;
mod cuts;
mod designs;
mod divider_page;
mod envelope;
mod example;
mod face;
mod file_tab;
mod flexi_hinge;
mod fold_out_page;
mod frame_page;
mod gate_page;
mod guard;
mod hidden;
mod insert;
mod joined;
mod journal_card;
mod leaf;
mod library_page;
mod loaded;
mod notched_page;
mod page;
mod panel;
mod photo_mat;
mod plain_hinge;
mod pocket_page;
pub mod prints;
mod runs;
mod side_page;
mod sketch;
mod sleeve_page;
mod stubs;
mod tag;
mod thickness;
mod tuck_page;
mod wallet_page;
mod waterfall_page;
mod wrap_cover;

pub use band::BELLY_BAND;
pub use build::{Builder, Cut};
pub use carry::Carry;
pub use concertina::END_FLAP;
pub use example::example;
pub use hidden::Hidden;
pub use stubs::stubs_for;
pub use thickness::page_thickness;

use crate::album::{Album, Bound, Entry, Kind};
use crate::contour::{Point, Vec2};
use crate::cutter::Cutter;
use crate::finding::{Checked, Place};
use crate::net::{Flat, Net};
use crate::stock::Stock;
use crate::usable::{Keeps, Usable};

/// Every kind that there is.
pub const ALL: &[&Maker] = &[
    &pocket_page::MAKER,
    &wallet_page::MAKER,
    &corner_page::MAKER,
    &divider_page::MAKER,
    &fold_out_page::MAKER,
    &frame_page::MAKER,
    &gate_page::MAKER,
    &library_page::MAKER,
    &notched_page::MAKER,
    &side_page::MAKER,
    &sleeve_page::MAKER,
    &tuck_page::MAKER,
    &waterfall_page::MAKER,
    // The first spine holds where an album names none.
    &flexi_hinge::MAKER,
    &concertina::MAKER,
    &plain_hinge::MAKER,
    &stubs::MAKER,
    &accordion::MAKER,
    &belly_band::MAKER,
    &booklet::MAKER,
    &envelope::MAKER,
    &file_tab::MAKER,
    &journal_card::MAKER,
    &photo_mat::MAKER,
    &tag::MAKER,
    &case_cover::MAKER,
    &wrap_cover::MAKER,
];

/// A kind, and how its parts are made.
#[derive(Debug)]
pub struct Maker {
    /// How it stands in the album file.
    pub kind: Kind,
    /// Adds its parts; the number says which page (from 1) or insert (from 1) it is.
    pub make: fn(&mut Builder<'_>, &Entry, usize),
    /// For a spine: how it carries its pages.
    pub carry: Option<fn(&Album, &Cutter) -> Carry>,
    /// An entry of the album file that makes a usual one, its sizes in mm; see [`example`].
    pub example: &'static str,
}

/// The kinds, as the album file's reader wants them.
#[must_use]
pub fn kinds() -> Vec<&'static Kind> {
    ALL.iter().map(|maker| &maker.kind).collect()
}

/// One flat part, distinct from every other.
#[derive(Clone, Debug)]
pub struct Part {
    /// Its id, ASCII: `page-1-front`. Where several pages use the same part, the first one gives the id.
    pub id: String,
    /// What it is: `pocket front`.
    pub kind: &'static str,
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
    pub used_in: Vec<String>,
    /// Where its size is said in the file.
    pub place: Option<Place>,
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
    pub name: String,
    /// What it belongs to.
    pub owner: Owner,
    /// Its net as it is folded here: its part may be folded another way elsewhere. Bonds speak of this net.
    pub net: Net,
}

/// A face of a panel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// The one that shows.
    Front,
    /// The other.
    Back,
}

/// One side of a bond: a face of a panel, and the point and direction in the flat piece (before any half
/// turn) that meet the point and direction of the other side.
#[derive(Clone, Copy, Debug)]
pub struct Side {
    /// Number of the piece.
    pub piece: usize,
    /// Number of its panel.
    pub panel: usize,
    /// Which face.
    pub face: Face,
    /// A point of the panel's plane, mm.
    pub at: Point,
    /// A direction in it.
    pub along: Vec2,
}

/// How two pieces are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hold {
    /// With tape or glue.
    Stuck,
    /// One slides into the other.
    Slid,
}

/// Two sides that lie on each other in the finished album. The first bond that reaches a piece places it,
/// every further bond is a check.
#[derive(Clone, Copy, Debug)]
pub struct Bond {
    /// How they hold.
    pub hold: Hold,
    /// The seam, tab, base or panel.
    pub one: Side,
    /// What it lies on.
    pub other: Side,
}

/// A sleeve of a page that things can be put into.
#[derive(Clone, Debug)]
pub struct Pocket {
    /// Its page, from 1.
    pub page: usize,
    /// Its width, mm, nominal.
    pub width: f64,
    /// Its height, mm, nominal.
    pub height: f64,
    /// How much of its width the hinge's tab takes, mm.
    pub tab: f64,
    /// Caliper of its card, mm.
    pub caliper: f64,
    /// The side that a thing put into it lies on.
    pub inside: Side,
}

/// A thing that is put into a pocket.
#[derive(Clone, Debug)]
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
    /// Where the file says its width, and its height.
    pub places: [Option<Place>; 2],
}

/// A flap that folds over a pocket and closes it.
#[derive(Clone, Debug)]
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
    /// Where the file says the flap's width, and the pocket's.
    pub places: [Option<Place>; 2],
}

impl Part {
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

impl Kit {
    /// The sheets of a stock that its parts are laid on: those that the machine takes, and on which every part that keeps
    /// to the grain can lie.
    #[must_use]
    pub fn usable(&self, number: usize, stock: &Stock, cutter: &Cutter) -> Usable {
        let usable = Usable::of(stock, cutter);
        let grained = self.parts.iter().find(|part| part.stock == number && part.along_grain);
        grained.map(|part| part.sideways).map_or(usable.clone(), |sideways| usable.with_grain(sideways))
    }

    /// How thick everything in each pocket is together, mm.
    #[must_use]
    pub fn stacks(&self) -> Vec<f64> {
        let mut stacks = vec![0.0; self.pockets.len()];
        for insert in &self.inserts {
            if let Some(stack) = insert.pocket.and_then(|pocket| stacks.get_mut(pocket)) {
                *stack += insert.thickness;
            }
        }
        stacks
    }
}

/// Parts that are cut from one place of a sheet, as they lie on the album, because a pattern runs on over them.
#[derive(Clone, Debug, PartialEq)]
pub struct Block {
    /// What it is for: `page 2 front`.
    pub name: String,
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

/// Everything that one album needs.
#[derive(Clone, Debug, Default)]
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
    /// Parts that are cut as one block.
    pub blocks: Vec<Block>,
    /// How the spine carries its pages.
    pub carry: Carry,
}

/// Works out the parts of an album for a machine: what it leaves of a sheet says what has to be joined.
#[must_use]
pub fn kit(album: &Album, cutter: &Cutter) -> Checked<Kit> {
    let mut builder = Builder::new(album, cutter);
    for (index, page) in album.pages.iter().enumerate() {
        make(&mut builder, page, index + 1);
    }
    make(&mut builder, &album.spine, 1);
    if let Some(panels) = &album.panels {
        panel::panels(&mut builder, panels);
    }
    if album
        .inserts
        .iter()
        .any(|insert| insert.values.maybe_length("width").and(insert.values.maybe_length("height")).is_none())
    {
        // What is as large as its pocket takes has to know what else will be in there.
        let mut trial = builder.clone();
        inserts(&mut trial, album);
        builder.stacks = trial.finish().value.map(|kit| kit.stacks()).unwrap_or_default();
    }
    inserts(&mut builder, album);
    // Last, for it goes round all of it.
    if let Some(cover) = &album.cover {
        make(&mut builder, cover, 1);
        if let Some(panels) = &album.panels {
            panel::panels(&mut builder, panels);
        }
    }
    let made = builder.finish();
    match album.bound {
        Bound::Left | Bound::Top => made,
        Bound::Right => Checked { value: made.value.map(bound::mirrored), findings: made.findings },
    }
}

fn inserts(builder: &mut Builder<'_>, album: &Album) {
    for (index, insert) in album.inserts.iter().enumerate() {
        make(builder, insert, index + 1);
    }
}

fn make(builder: &mut Builder<'_>, entry: &Entry, number: usize) {
    let maker = ALL.iter().find(|maker| maker.kind.role == entry.kind.role && maker.kind.name == entry.kind.name);
    if let Some(maker) = maker {
        (maker.make)(builder, entry, number);
    }
}
