// SPDX-License-Identifier: MIT
//! What all kinds of insert share: their pockets, how large they may be there, how many there are, how they go in.
//!
//! A size that the file leaves out is the largest that slides in every pocket that the insert goes into, with 3.2 mm or
//! 1/8 in to spare in all (check value C2: 1.5 to 3.2 mm common practice; 1/8 in for a slip case: Bean & Brodhead,
//! *Bookbinding for Beginners*, 1914), rounded down to what a ruler has.

use crate::album::{Bound, Entry, KIND};
pub(in crate::parts) use crate::album::{COUNT, FOLLOWS, INSERT_PAGES as PAGES};
use crate::contour::Rect;
use crate::fields::{Field, Key, Otherwise, Text, rule, usual};
use crate::finding::{Arg, Finding, Said};
use crate::kind_file::KindPiece;
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::net::Net;
use crate::parts::build::builder::Builder;
use crate::parts::build::new_piece::NewPiece;
use crate::parts::kit::{Insert, Owner, PieceForm, Resized};
use crate::parts::name::PieceName;
use crate::parts::pocket::Way;
use crate::parts::prints::{OR_OFFCUT, print};

/// Width of what goes into a pocket.
pub(in crate::parts) const WIDTH: Key<Option<Length>> =
    Key::size("width", rule("as wide as its pockets take"), "its width");

/// Height of what goes into a pocket.
pub(in crate::parts) const HEIGHT: Key<Option<Length>> =
    Key::size("height", rule("as tall as its pockets take"), "its height");

/// Which way a named size lies.
pub(in crate::parts) const ACROSS: Key<bool> = Key::flag("across", "whether that size is turned on its side");

/// The name of a print or card that is as large.
pub(in crate::parts) const SIZE: Key<Option<Text>> = Key::text("size", rule("its width and height"), OR_OFFCUT);

/// The fields of what may be as large as a print that has a name.
pub(in crate::parts) const NAMED: &[Field] = &[SIZE.field, ACROSS.field];

/// How thick it is with all that belongs to it.
pub(in crate::parts) const THICKNESS: Key<Option<Length>> =
    Key::length("thickness", rule("its card's caliper"), "its thickness with what is stuck on it").unmeasured();

/// How thick it is where it is folded.
pub(in crate::parts) const FOLDED: Key<Option<Length>> =
    THICKNESS.otherwise(rule("its card, folded")).worded("its thickness with all that is stuck on it or lies in it");

/// A seam that closes it.
pub(in crate::parts) const LAP: Key<Length> = Key::size("lap", usual(12.0, 0.5), "width of the seam that is stuck");

/// A pasted lap narrower than this holds badly, mm (C5; 6.35 for small card models: Schwartz, *Sloyd*, year from memory).
const NARROW: f64 = 6.35;

/// What a size that is left out leaves in its pocket, in all (C2).
const EASY: Otherwise<Length> = usual(3.2, 0.125);

/// Nothing smaller than this is an insert: what a size field takes at least, mm.
const LEAST: f64 = 1.0;

/// Whether an insert's file says both its sizes: then it is the same whatever pockets there are.
#[must_use]
pub fn is_sized(entry: &Entry) -> bool {
    let has_own = entry.kind.fields.iter().all(|field| field.name != WIDTH.name());
    has_own || entry.values.find(WIDTH).flatten().and(entry.values.find(HEIGHT).flatten()).is_some()
}

/// A field names no print that there is.
#[derive(Clone, Copy, Debug)]
pub(in crate::parts) struct NoPrint;

/// An insert that is being made.
#[derive(Clone, Debug)]
pub(in crate::parts) struct Slip<'e> {
    entry: &'e Entry,
    /// Its number, from 1.
    pub number: usize,
    /// Thickness of its card, mm.
    pub caliper: f64,
    /// How many there are.
    pub count: u32,
    /// What its form comes from, where that is a kind file.
    pub form: Option<PieceForm>,
    /// How far all its pieces reach together once they are folded and joined, as its first piece lies flat; none where that is
    /// its only one.
    pub whole: Option<Rect>,
    /// Numbers of the pockets that it may go into.
    pockets: Vec<usize>,
}

/// What a finished insert measures, mm.
#[derive(Clone, Copy, Debug)]
pub(in crate::parts) struct Bulk {
    pub width: f64,
    pub height: f64,
    pub thickness: f64,
    /// Whether it has something to pull it out by.
    pub pull: bool,
}

impl<'e> Slip<'e> {
    pub(in crate::parts) fn new(builder: &Builder<'_>, entry: &'e Entry, number: usize) -> Self {
        let (caliper, count) = (builder.caliper(entry.stock), entry.count());
        Self { entry, number, caliper, count, form: None, whole: None, pockets: pockets_for(builder, entry) }
    }

    /// What it is called: `tag 1`.
    pub(in crate::parts) fn name(&self) -> PieceName {
        PieceName::Term(self.entry.kind.name.replace('-', " ")).counted(self.number)
    }

    /// The same, as findings are about it.
    pub(in crate::parts) fn about(&self) -> Said {
        let kind = Arg::term(self.entry.kind.name.replace('-', " "));
        Said::new("about-insert").with("kind", kind).with("number", self.number)
    }

    /// A finding about it, which stands at a field; its help is given the `field`.
    pub(in crate::parts) fn stop(&self, id: &'static str, field: impl Into<Field>, text: Said, help: Said) -> Finding {
        let field = field.into();
        let help = help.with("field", Arg::field(field.name));
        Finding::stop(id, self.about(), text).help(help).at(self.entry.values.place(field))
    }

    /// Warns of a lap that holds badly.
    pub(in crate::parts) fn narrow_lap(&self, builder: &mut Builder<'_>, lap: f64) {
        if lap >= NARROW - SAME {
            return;
        }
        let (has, usual) = (builder.album.length(lap), builder.album.rough(NARROW));
        let text = Said::new("lap-narrow").with("lap", has).with("usual", usual);
        let finding = Finding::warn("lap-narrow", self.about(), text)
            .measured(Length::from_mm(lap), Length::from_mm(NARROW))
            .help(Said::new("lap-narrow-help").with("field", Arg::field(LAP.name())))
            .mend(self.way(LAP), builder.album.at_least(NARROW));
        builder.find(finding.at(self.entry.values.place(LAP)));
    }

    /// The way to it in the file: `inserts[0]`.
    pub(in crate::parts) fn path(&self) -> String {
        format!("inserts[{}]", self.number - 1)
    }

    /// The way to one of its fields: `inserts[0].lap`.
    pub(in crate::parts) fn way(&self, field: impl Into<Field>) -> String {
        format!("{}.{}", self.path(), field.into().name)
    }

    /// Its thickness, mm: what the file says, but no less than its card is.
    pub(in crate::parts) fn thickness(&self, card: f64) -> f64 {
        self.entry.get(THICKNESS).map_or(card, |thickness| thickness.mm().max(card))
    }

    /// Its width and height, mm: as the file says, else `own`, else the largest that its pockets take. Where there is
    /// no telling, that is a finding, and none.
    pub(in crate::parts) fn size(
        &self,
        builder: &mut Builder<'_>,
        thickness: f64,
        own: Option<(f64, f64)>,
    ) -> Option<(f64, f64)> {
        let own = [own.map(|own| own.0), own.map(|own| own.1)];
        let mut size = [0.0; 2];
        for (index, key) in [WIDTH, HEIGHT].into_iter().enumerate() {
            let said = self.entry.get(key).map(Length::mm);
            size[index] = match said.or(own[index]) {
                Some(size) => size,
                None => self.largest(builder, thickness, index)?,
            };
        }
        Some((size[0], size[1]))
    }

    /// The largest width (0) or height (1) that slides in every pocket that it goes into.
    fn largest(&self, builder: &mut Builder<'_>, thickness: f64, index: usize) -> Option<f64> {
        let side = [WIDTH, HEIGHT][index];
        let clearance = EASY.length(builder.album.units).mm();
        // What comes free as often as may be has a size before it is known how often.
        let used = usize::try_from(self.count.max(1)).unwrap_or(usize::MAX);
        let tightest = self
            .pockets
            .iter()
            .take(used)
            .filter_map(|&number| {
                let pocket = builder.pockets().get(number)?;
                let stack = builder.stacks.get(number).copied().unwrap_or(0.0).max(thickness);
                Some((pocket.takes(stack, clearance)[index], stack, pocket.page))
            })
            .min_by(|one, two| one.0.total_cmp(&two.0));
        let Some((room, stack, page)) = tightest else {
            let size = || Arg::field(side.name());
            let text = Said::new("no-size").with("size", size());
            builder.find(self.stop("no-size", KIND, text, Said::new("no-size-help").with("size", size())));
            return None;
        };
        let size = builder.album.at_most(room).mm();
        if size >= LEAST {
            return Some(size);
        }
        let (stack, least) = (builder.album.rough(stack), Length::from_mm(LEAST));
        let text = if index == 0 { Said::new("no-width-in-pocket") } else { Said::new("no-height-in-pocket") };
        let text = text.with("page", page).with("stack", stack);
        let finding = self.stop("no-room", KIND, text, Said::new("no-room-help"));
        builder.find(finding.measured(Length::from_mm(room.max(0.0)), least));
        None
    }

    /// Width and height, mm, of the print or card that a field names, turned on its side where `across` says so.
    ///
    /// # Errors
    /// If there is no such print: that is a finding by then.
    pub(in crate::parts) fn print(
        &self,
        builder: &mut Builder<'_>,
        (field, named): (impl Into<Field>, &str),
    ) -> Result<(f64, f64), NoPrint> {
        match print(named) {
            Ok(print) => {
                let across = self.entry.get(ACROSS) != (builder.album.bound == Bound::Top);
                let print = if across { print.turned() } else { print };
                Ok((print.width.mm(), print.height.mm()))
            }
            Err(error) => {
                builder.find(self.stop("no-such-print", field, error.what, error.help));
                Err(NoPrint)
            }
        }
    }

    /// Adds one of its pieces: `leaf` says which of its leaves (nothing where it is all), `kind` what it is in lists.
    pub(in crate::parts) fn piece(
        &self,
        builder: &mut Builder<'_>,
        copy: u32,
        leaf: Option<usize>,
        kind: &'static str,
        net: Net,
    ) -> Option<usize> {
        let (mut id, mut name) = (format!("{}-{}", self.entry.kind.name, self.number), self.copy_name(copy));
        if let Some(leaf) = leaf {
            id = format!("{id}-leaf-{leaf}");
            name = PieceName::Leaf(name.into(), leaf);
        }
        let piece = NewPiece::of(self.entry, Owner::Insert(self.number), (id, kind, name), net);
        builder.piece(NewPiece { form: self.form.clone(), ..piece })
    }

    /// The same of one of several pieces of a kind file.
    pub(in crate::parts) fn piece_of_file(
        &self,
        builder: &mut Builder<'_>,
        copy: u32,
        piece: &'static KindPiece,
        net: Net,
    ) -> Option<usize> {
        let id = format!("{}-{}-{}", self.entry.kind.name, self.number, piece.name.replace(' ', "-"));
        let name = PieceName::OfInsert(self.copy_name(copy).into(), PieceName::from(piece.name.as_str()).into());
        let cut = NewPiece::of(self.entry, Owner::Insert(self.number), (id, piece.called.as_str(), name), net);
        builder.piece(NewPiece { form: self.form.clone(), family: &piece.alike, ..cut })
    }

    /// Puts a piece into the pocket whose turn it is: those named or all, in order, starting anew when all have one.
    pub(in crate::parts) fn put(&self, builder: &mut Builder<'_>, copy: u32, piece: usize, bulk: Bulk) {
        let copies = self.pockets.len().max(1);
        let pocket = usize::try_from(copy).ok().and_then(|copy| self.pockets.get(copy % copies).copied());
        let Bulk { width, height, thickness, pull } = bulk;
        let own = || [self.entry.values.place(WIDTH).cloned(), self.entry.values.place(HEIGHT).cloned()];
        let outline = self.entry.outline.as_ref();
        let places = outline.map_or_else(own, |outline| outline.asked.sizes.clone());
        let (name, path, resized) = (self.copy_name(copy).to_string(), self.path(), self.resized());
        builder.insert(Insert { name, piece, pocket, width, height, thickness, pull, path, resized, places });
        if let Some(pocket) = pocket {
            builder.put_in(piece, pocket, self.whole);
        }
    }

    /// How it gets another size in its file.
    fn resized(&self) -> Resized {
        match self.entry.outline.as_ref().map(|outline| (outline.asked.width, outline.asked.height)) {
            None if self.entry.kind.fields.iter().any(|field| field.name == WIDTH.name()) => Resized::Freely,
            // A cloud of our own has one size, and of two sides that are said both would change.
            None | Some((Some(_), Some(_))) => Resized::Not,
            Some((None, Some(_))) => Resized::InProportion(Way::Up),
            Some((_, None)) => Resized::InProportion(Way::Across),
        }
    }

    /// Makes every copy of an insert that is one piece, and puts each into its pocket.
    pub(in crate::parts) fn copies(
        &self,
        builder: &mut Builder<'_>,
        kind: &'static str,
        net: &Net,
        bulk: Bulk,
        mut join: impl FnMut(&mut Builder<'_>, usize),
    ) {
        for copy in 0..self.count {
            let Some(piece) = self.piece(builder, copy, None, kind, net.clone()) else { return };
            join(builder, piece);
            self.put(builder, copy, piece, bulk);
        }
    }

    fn copy_name(&self, copy: u32) -> PieceName {
        let copy = usize::try_from(copy).unwrap_or(usize::MAX).saturating_add(1);
        if self.count == 1 { self.name() } else { PieceName::Copy(self.name().into(), copy) }
    }
}

fn pockets_for(builder: &Builder<'_>, entry: &Entry) -> Vec<usize> {
    let of_page = |page: usize| {
        builder.pockets().iter().enumerate().filter(move |(_, pocket)| pocket.page == page).map(|(index, _)| index)
    };
    entry.values.find(PAGES).flatten().map_or_else(
        || (0..builder.pockets().len()).collect(),
        |pages| pages.iter().filter_map(|(page, _)| usize::try_from(*page).ok()).flat_map(of_page).collect(),
    )
}
