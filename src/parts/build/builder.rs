// SPDX-License-Identifier: MIT
//! Gathers pieces into a kit: equal pieces become one part with a count.

use crate::album::{Album, Bound, CoverRoom, Entry};
use crate::contour::{Point, Rect, SAME, Vec2};
use crate::cutter::Cutter;
use crate::fields::{Key, Text, meant_or};
use crate::finding::{Arg, Checked, Finding, Said};
use crate::length::excerpt;
use crate::net::{Flat, NetProblem};
use crate::parts::bond::{Bond, Face, Hold, Side};
use crate::parts::build::edged::PieceEdges;
use crate::parts::build::face::Plain;
use crate::parts::build::new_piece::NewPiece;
use crate::parts::kit::{
    BlockPart, Closing, Deed, Flap, Insert, Kit, PagePrint, Part, PatternBlock, Piece, Round, Spare, Tucked,
};
use crate::parts::name::PieceName;
use crate::parts::papers::designs::Designs;
use crate::parts::pocket::Pocket;
use crate::parts::spines::carry::Carry;
use crate::stock;
use crate::usable::Usable;
use std::collections::BTreeMap;

/// Where a hinge's tab meets a page: the sleeve's two insides, towards the page's front and its back; each
/// at the tail of the spine edge, going up.
#[derive(Clone, Copy, Debug)]
pub(in crate::parts) struct Mount {
    pub hold: Hold,
    pub front: Side,
    pub back: Side,
}

/// Gathers the pieces of one album.
#[derive(Clone, Debug)]
pub struct Builder<'a> {
    /// The album that is built.
    pub album: &'a Album,
    /// The machine that cuts it.
    pub(in crate::parts) cutter: &'a Cutter,
    /// Faces that have no panel yet.
    pub(in crate::parts) plains: Vec<Plain>,
    /// Which design each of them gets, once that is dealt.
    pub(in crate::parts) designs: Option<Designs>,
    pub(in crate::parts) mounts: Vec<Mount>,
    /// How far a page has something standing out beyond its fore-edge, mm, by its number from 1.
    pub(in crate::parts) juts: BTreeMap<usize, f64>,
    /// How thick everything between the outermost sheets of each pocket will be together, mm; empty as long as that is not known.
    pub(in crate::parts) stacks: Vec<f64>,
    /// Where the spine stands on what is beneath it: faces of its pieces, each at the middle of the spine and the tail of the
    /// pages, going to the right.
    pub(in crate::parts) feet: Vec<Side>,
    /// How the spine carries the pages, once these are made.
    pub(in crate::parts) carry: Carry,
    kit: Kit,
    /// Family and likeness of each part, as made and upside down.
    likes: Vec<(&'static str, Vec<i64>, Vec<i64>)>,
    findings: Vec<Finding>,
    /// What is cut of the edges of the pieces that come next, and the number of the first of them.
    edges: (usize, Vec<PieceEdges>),
}

impl<'a> Builder<'a> {
    pub(in crate::parts) fn new(album: &'a Album, cutter: &'a Cutter) -> Self {
        Self {
            album,
            cutter,
            plains: Vec::new(),
            designs: None,
            mounts: Vec::new(),
            juts: BTreeMap::new(),
            stacks: Vec::new(),
            feet: Vec::new(),
            carry: Carry::default(),
            kit: Kit::default(),
            likes: Vec::new(),
            findings: Vec::new(),
            edges: (0, Vec::new()),
        }
    }

    /// One that knows what this one knows of the album, and has no pieces: an entry is tried on it.
    pub(in crate::parts) fn alone(&self) -> Self {
        let mut alone = Self::new(self.album, self.cutter);
        (alone.stacks, alone.carry) = (self.stacks.clone(), self.carry.clone());
        alone.kit.pockets.clone_from(&self.kit.pockets);
        alone
    }

    /// What was found so far.
    pub(in crate::parts) fn findings(&self) -> &[Finding] {
        &self.findings
    }

    /// Says what is cut of the edges of the pieces that come next.
    pub(in crate::parts) fn cut_edges(&mut self, edges: Vec<PieceEdges>) {
        self.edges = (self.kit.pieces.len(), edges);
    }

    pub(in crate::parts) fn finish(mut self) -> Checked<Kit> {
        self.kit.carry = self.carry;
        Checked::new(self.kit, self.findings)
    }

    /// Adds a piece and gives its number. A net that is no part is a finding that names it, and no piece.
    pub fn piece(&mut self, mut cut: NewPiece<'_>) -> Option<usize> {
        let (first, edges) = &self.edges;
        if let Some(edges) = self.kit.pieces.len().checked_sub(*first).and_then(|number| edges.get(number)) {
            cut.net = edges.cut(cut.net);
            cut.patterns.clone_from(&edges.patterns);
        }
        let flat = match cut.net.flat() {
            Ok(flat) => flat,
            Err(problem) => {
                self.findings.push(cut.no_part(problem));
                return None;
            }
        };
        let (as_made, upside_down) = (flat.likeness(), flat.turned(2).likeness());
        let serves_turned = self.album.serves_turned(cut.stock);
        let same = (0..self.kit.parts.len()).find_map(|number| {
            let (part, (family, like, _)) = (&self.kit.parts[number], &self.likes[number]);
            if part.stock != cut.stock || *family != cut.family || part.along_grain != cut.along_grain {
                None
            } else if *like == as_made {
                Some((number, false))
            } else {
                // On a pattern with an up and a down the second is a part of its own.
                (serves_turned && *like == upside_down).then_some((number, true))
            }
        });
        let (part, turned) = match same {
            Some(same) => same,
            None => (self.part(&cut, flat), false),
        };
        Some(self.cut_as(part, turned, cut))
    }

    /// Adds a part that no piece is cut as yet.
    fn part(&mut self, cut: &NewPiece<'_>, flat: Flat) -> usize {
        self.likes.push((cut.family, flat.likeness(), flat.turned(2).likeness()));
        self.kit.parts.push(Part {
            id: cut.id.clone(),
            kind: cut.kind,
            purpose: cut.purpose,
            net: cut.net.clone(),
            flat,
            stock: cut.stock,
            count: 0,
            along_grain: cut.along_grain,
            sideways: self.album.bound == Bound::Top,
            used_in: Vec::new(),
            patterns: cut.patterns.clone(),
            cut: None,
            place: cut.place.cloned(),
        });
        self.kit.parts.len() - 1
    }

    fn cut_as(&mut self, part: usize, turned: bool, cut: NewPiece<'_>) -> usize {
        self.kit.parts[part].count += 1;
        self.kit.parts[part].used_in.push(cut.name.clone());
        self.kit.pieces.push(Piece { part, turned, name: cut.name, owner: cut.owner, net: cut.net, form: cut.form });
        self.kit.pieces.len() - 1
    }

    /// Adds pieces that are cut from one block, each with how far behind the one before it it starts, mm. Only the pieces of
    /// equal blocks are one part: what is cut from one block belongs together.
    pub(in crate::parts) fn block(
        &mut self,
        name: &PieceName,
        upright: bool,
        cuts: Vec<(NewPiece<'_>, f64)>,
    ) -> Option<Vec<usize>> {
        let flats = cuts.iter().map(|(cut, _)| cut.net.flat()).collect::<Result<Vec<Flat>, NetProblem>>().ok()?;
        let equal = |(at, member): (usize, &BlockPart)| {
            let ((cut, behind), part) = (&cuts[at], &self.kit.parts[member.part]);
            part.stock == cut.stock
                && (member.behind - behind).abs() < SAME
                && self.likes[member.part].1 == flats[at].likeness()
        };
        let same = |block: &PatternBlock| {
            block.upright == upright && block.parts.len() == cuts.len() && block.parts.iter().enumerate().all(equal)
        };
        let number = self.kit.blocks.iter().position(same);
        let number = number.unwrap_or_else(|| {
            let parts = cuts.iter().zip(flats);
            let parts = parts.map(|((cut, behind), flat)| BlockPart { part: self.part(cut, flat), behind: *behind });
            let parts = parts.collect();
            self.kit.blocks.push(PatternBlock { name: name.clone(), count: 0, upright, parts });
            self.kit.blocks.len() - 1
        });
        self.kit.blocks[number].count += 1;
        let parts: Vec<usize> = self.kit.blocks[number].parts.iter().map(|member| member.part).collect();
        Some(cuts.into_iter().zip(parts).map(|((cut, _), part)| self.cut_as(part, false, cut)).collect())
    }

    /// Says how the next page is carried: the sides that a tab goes between, towards the page's front and towards its back,
    /// each at the tail of the spine edge, going up. Slid into a sleeve, or stuck on a leaf whose two faces they are.
    pub(in crate::parts) fn carried(&mut self, hold: Hold, front: Side, back: Side) {
        self.mounts.push(Mount { hold, front, back });
    }

    /// Joins two sides.
    pub fn bond(&mut self, hold: Hold, one: Side, other: Side) {
        self.kit.bonds.push(Bond { hold, one, other });
    }

    /// Adds a sleeve.
    pub fn pocket(&mut self, pocket: Pocket) {
        self.kit.pockets.push(pocket);
    }

    /// The sleeve that was added last.
    pub(in crate::parts) fn last_pocket(&mut self) -> Option<&mut Pocket> {
        self.kit.pockets.last_mut()
    }

    /// Adds something that goes into a sleeve.
    pub fn insert(&mut self, insert: Insert) {
        self.kit.inserts.push(insert);
    }

    /// Lays a piece into a pocket: its root panel's front to the pocket's wall, on the tail, beside the hinge's tab; `whole` is what is
    /// to keep to the pocket where other pieces belong to it.
    pub(in crate::parts) fn put_in(&mut self, piece: usize, pocket: usize, whole: Option<Rect>) {
        let Some(Pocket { inside, tab, .. }) = self.kit.pockets.get(pocket).cloned() else { return };
        let panel =
            |piece: usize, panel: usize| self.kit.pieces.get(piece).and_then(|piece| piece.net.panels.get(panel));
        // What folds over its front shows its back then.
        let over_front =
            self.kit.pieces.get(piece).is_some_and(|piece| piece.form.is_some() && piece.net.folds_over_front());
        let towards = if over_front { Face::Back } else { Face::Front };
        // What is folded up is as large as its root, what stays flat as all its panels.
        let taken = self.kit.pieces.get(piece).map(|piece| &piece.net).filter(|net| !net.panels.is_empty());
        let Some(net) = taken else { return };
        let flat = net.folds.iter().all(|fold| fold.angle.abs() < SAME);
        let panels = net.panels.iter().take(if flat { net.panels.len() } else { 1 });
        let own = panels.map(|panel| panel.outline.bounds()).reduce(|all, one| all.union(one)).unwrap_or_default();
        let root = whole.unwrap_or(own);
        // Seen from the wall's front the pocket runs from the spine to the right or to the left.
        let ahead = panel(inside.piece, inside.panel)
            .map_or(0.0, |wall| (wall.outline.bounds().center() - inside.at).cross(inside.along));
        // On a wall that faces the pocket with its front, right and left change places.
        let ahead = if (inside.face == Face::Front) == over_front { ahead } else { -ahead };
        let spine = if ahead < 0.0 { root.x1 + tab } else { root.x0 - tab };
        self.bond(Hold::Slid, side(piece, 0, towards, (spine, root.y0), (0.0, 1.0)), inside);
    }

    /// Adds a flap that closes over a pocket.
    pub fn closing(&mut self, closing: Closing) {
        self.kit.closings.push(closing);
    }

    /// Adds something that folds over a thickness.
    pub(in crate::parts) fn flap(&mut self, flap: Flap) {
        self.kit.flaps.push(flap);
    }

    /// Says what there is to spare in a place.
    pub(in crate::parts) fn spare(&mut self, about: Said, what: &'static str, spare: f64, sizes: u32) {
        self.kit.spares.push(Spare { about, what, spare, sizes });
    }

    /// Says what the cover goes round.
    pub(in crate::parts) const fn cover_goes_round(&mut self, room: CoverRoom) {
        self.kit.cover_room = Some(room);
    }

    /// Says what goes round the fore-edge.
    pub(in crate::parts) fn round(&mut self, round: Round) {
        self.kit.rounds.push(round);
    }

    /// Says that a page is made for a print.
    pub(in crate::parts) fn print_on(&mut self, print: PagePrint) {
        self.kit.prints.push(print);
    }

    /// Says that something holds the album shut.
    pub(in crate::parts) fn holds_shut(&mut self) {
        self.kit.shut = true;
    }

    /// Says what goes through a slot and lies behind it.
    pub(in crate::parts) fn tuck(&mut self, tucked: Tucked) {
        self.kit.tucked.push(tucked);
    }

    /// Says what hands do besides folding and joining.
    pub(in crate::parts) fn deed(&mut self, deed: Deed) {
        self.kit.deeds.push(deed);
    }

    /// Reports something.
    pub fn find(&mut self, finding: Finding) {
        self.findings.push(finding);
    }

    /// What there is so far, to be changed by what its entry says of its edges.
    pub(in crate::parts) const fn kit_mut(&mut self) -> &mut Kit {
        &mut self.kit
    }

    /// What there is so far.
    pub(in crate::parts) const fn kit(&self) -> &Kit {
        &self.kit
    }

    /// Number of the stock that a field of an entry names; `otherwise` where it names none. A name that no stock has is a
    /// finding.
    pub(in crate::parts) fn stock_named(&mut self, entry: &Entry, key: Key<Option<Text>>, otherwise: usize) -> usize {
        let Some(name) = entry.get(key) else { return otherwise };
        let names = || stock::names(&self.album.stocks);
        // What shares another one's sheets stands behind all others.
        if let Some(number) = names().position(|stock| stock == name) {
            return number;
        }
        let help = meant_or("unknown-stock-help", name, names());
        let text = Said::new("unknown-stock").with("name", Arg::quoted(excerpt(name)));
        let text = text.with("stocks", Arg::field("stocks"));
        self.find(Finding::stop("unknown-stock", Said::NOTHING, text).help(help).at(entry.values.place(key)));
        otherwise
    }

    /// The sleeves so far.
    #[must_use]
    pub fn pockets(&self) -> &[Pocket] {
        &self.kit.pockets
    }

    /// The sheets of a stock that a part can count on: those that what keeps to the grain leaves it, itself included.
    pub(in crate::parts) fn usable(&self, stock: usize, along_grain: bool) -> Option<Usable> {
        let usable = Usable::of(self.album.stocks.get(stock)?, self.cutter);
        let grained = along_grain || self.kit.parts.iter().any(|part| part.stock == stock && part.along_grain);
        Some(if grained { usable.with_grain(self.album.bound == Bound::Top) } else { usable })
    }

    /// Caliper of a stock, mm.
    #[must_use]
    pub fn caliper(&self, stock: usize) -> f64 {
        self.album.caliper(stock)
    }
}

/// A side of a bond.
pub(in crate::parts) const fn side(piece: usize, panel: usize, face: Face, at: (f64, f64), along: (f64, f64)) -> Side {
    Side { piece, panel, face, at: Point::new(at.0, at.1), along: Vec2::new(along.0, along.1) }
}
