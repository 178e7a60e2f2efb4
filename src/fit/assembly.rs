// SPDX-License-Identifier: MIT
//! Whether the pieces meet: every bond, seen on the folded album.
//!
//! Tests are made at named places only: along bonds, inside one page, along the spine. A sound album gives no finding,
//! whatever its sizes.

use crate::album::{Album, Bound};
use crate::finding::{Arg, Finding, Said};
use crate::folded::Folded;
use crate::length::Length;
use crate::net::{Use, lifted};
use crate::parts::{Bond, Closing, Face, Hold, Kit, Owner, Pocket, Side};
use std::collections::{BTreeMap, BTreeSet};

/// Less than a cut is ever off, mm.
const SLACK: f64 = 0.05;

/// Faces farther apart than this do not meet: our choice, mm. Sleeves give by a few calipers.
const APART: f64 = 2.0;

/// Faces at a larger angle than this do not lie on each other, radians.
const ASKEW: f64 = 0.01;

/// Overlaps smaller than this are an edge beside an edge, mm².
const SLIVER: f64 = 1.0;

/// A tab shorter than this share of its page holds it badly: our choice.
const SHORT: f64 = 2.0 / 3.0;

pub(super) fn check(album: &Album, kit: &Kit, folded: &Folded) -> Vec<Finding> {
    let seen = Seen { album, kit, folded };
    let mut findings = seen.loose();
    for (number, bond) in kit.bonds.iter().enumerate() {
        findings.extend(seen.bond(number, bond));
    }
    findings.extend(seen.loose_seams());
    findings.extend(seen.flaps());
    findings.extend(seen.through());
    findings.extend(seen.along_the_spine());
    // What follows from a fault that is already told is not told again: one line a piece and kind of fault.
    findings.dedup_by(|two, one| two.id == one.id && two.about == one.about);
    findings
}

/// A piece by its name.
pub(super) fn name(kit: &Kit, piece: usize) -> Arg {
    kit.pieces.get(piece).map_or_else(|| Said::new("a-piece").into(), |piece| Arg::term(&piece.name))
}

/// The same as what a finding is about.
pub(super) fn about(kit: &Kit, piece: usize) -> Said {
    kit.pieces.get(piece).map_or(Said::new("a-piece"), |piece| Said::named(&piece.name))
}

struct Seen<'a> {
    album: &'a Album,
    kit: &'a Kit,
    folded: &'a Folded,
}

impl Seen<'_> {
    fn name(&self, piece: usize) -> Arg {
        name(self.kit, piece)
    }

    fn about(&self, piece: usize) -> Said {
        about(self.kit, piece)
    }

    fn owner(&self, piece: usize) -> Option<Owner> {
        self.kit.pieces.get(piece).map(|piece| piece.owner)
    }

    fn stop(&self, id: &'static str, piece: usize, text: Said, help: &'static str) -> Finding {
        let cut = self.kit.pieces.get(piece);
        let finding = Finding::stop(id, self.about(piece), text);
        // A kind that can't be made is to blame at its own line.
        if let Some(form) = cut.and_then(|piece| piece.form.as_ref()) {
            return finding.help(Said::new("of-kind-help").with("sizes", form.sizes.clone())).at(Some(&form.place));
        }
        let part = cut.and_then(|piece| self.kit.parts.get(piece.part));
        finding.help(Said::new(help)).at(part.and_then(|part| part.place.as_ref()))
    }

    /// Pieces that no bond joins to the others; an insert may lie loose.
    fn loose(&self) -> Vec<Finding> {
        let loose = |&piece: &usize| {
            self.folded.pieces[piece].is_none() && !matches!(self.owner(piece), Some(Owner::Insert(_)))
        };
        let say = |piece| self.stop("joined-to-nothing", piece, Said::new("joined-to-nothing"), "");
        (0..self.kit.pieces.len()).filter(loose).map(say).collect()
    }

    fn bond(&self, number: usize, bond: &Bond) -> Option<Finding> {
        let misfit = self.folded.misfits.get(number).copied().flatten()?;
        let (one, other) = (&bond.one, &bond.other);
        let panel = |side: &Side| self.kit.pieces.get(side.piece).and_then(|piece| piece.net.panels.get(side.panel));
        let (what, on) = (panel(one)?, panel(other)?);
        let it = if self.kit.pieces[one.piece].net.panels.len() > 1 {
            Said::new("its-panel").with("panel", Arg::term(what.name))
        } else {
            Said::new("it")
        };
        let mm = Length::from_mm;
        let says = |key| {
            let text = Said::new(key).with("it", it.clone()).with("panel", Arg::term(on.name));
            text.with("piece", self.name(other.piece))
        };
        if misfit.askew > ASKEW {
            return Some(self.stop("turned-over", one.piece, says("turned-over"), "turned-over-help"));
        }
        // What slides into a sleeve opens it by as much as it is thick.
        if misfit.aside > SLACK || (misfit.apart > APART && misfit.apart > APART + self.opens(bond)) {
            let off = misfit.aside.max(misfit.apart);
            let text = says("misses").with("by", self.album.rough(off));
            return Some(self.stop("misses", one.piece, text, "misses-help").measured(mm(off), mm(SLACK)));
        }
        // What is stuck down by the face that should show.
        let plain = what.purpose == Use::Plain && bond.hold == Hold::Stuck && one.face == Face::Front;
        // What is stuck behind a window shows through it.
        let shows =
            self.kit.pieces[other.piece].net.holes.iter().any(|hole| on.outline.contains(hole.bounds().center()));
        if plain && !shows && self.kit.pieces[one.piece].net.panels.len() == 1 {
            return Some(self.stop("front-hidden", one.piece, says("front-hidden"), "front-hidden-help"));
        }
        let insert = matches!(self.owner(one.piece), Some(Owner::Insert(_)));
        let overlap = self.folded.overlap(self.kit, (one.piece, one.panel), (other.piece, other.panel))?;
        // An insert may look out of the mouth of its pocket; a band crosses the cover that it goes round.
        let band = bond.hold == Hold::Slid && self.owner(one.piece) == Some(Owner::Cover);
        // A folded cover's faces give by a caliper at each fold.
        let give = self.folded.calipers.get(other.piece).copied().unwrap_or(0.0) + SLACK;
        if overlap.beyond > SLACK && !insert && !band && self.beyond_pieces(one, other) > give {
            let text = says("sticks-out").with("by", self.album.rough(overlap.beyond));
            let finding = self.stop("sticks-out", one.piece, text, "sticks-out-help");
            return Some(finding.measured(mm(overlap.beyond), mm(SLACK)));
        }
        if insert && overlap.area < overlap.of / 2.0 {
            let text = says("outside-its-pocket");
            return Some(self.stop("outside-its-pocket", one.piece, text, "outside-its-pocket-help"));
        }
        if what.purpose == Use::Tab && bond.hold == Hold::Slid {
            let [tab, page] = [&what.outline, &on.outline].map(|outline| outline.bounds().height());
            if tab < page * SHORT {
                let text = says("strip-short").with("long", self.album.length(tab));
                let text = text.with("tall", self.album.length(page));
                let place = self.kit.parts[self.kit.pieces[one.piece].part].place.as_ref();
                return Some(
                    Finding::warn("strip-short", self.about(one.piece), text)
                        .measured(mm(tab), mm(page * SHORT))
                        .help(Said::new("strip-short-help"))
                        .at(place),
                );
            }
        }
        None
    }

    /// How thick everything is that slides into the page of a bond, where it is one that slides; nothing where it is stuck.
    fn opens(&self, bond: &Bond) -> f64 {
        let page = self.owner(bond.other.piece);
        let mut into: Vec<(usize, usize)> = self
            .kit
            .bonds
            .iter()
            .filter(|other| bond.hold == Hold::Slid && other.hold == Hold::Slid)
            .filter(|other| self.owner(other.other.piece) == page)
            .map(|other| (other.one.piece, other.one.panel))
            .collect();
        into.sort_unstable();
        into.dedup();
        into.iter().filter_map(|(piece, _)| self.folded.calipers.get(*piece)).sum()
    }

    /// How far something that is stuck on a cover reaches beyond it: a cover that is joined from pieces is one ground.
    fn beyond_pieces(&self, one: &Side, other: &Side) -> f64 {
        if self.owner(other.piece) != Some(Owner::Cover) {
            return f64::INFINITY;
        }
        let kind = |piece: usize| {
            let part = self.kit.pieces.get(piece).and_then(|piece| self.kit.parts.get(piece.part));
            part.map(|part| part.kind)
        };
        let mates = (0..self.kit.pieces.len()).filter(|&piece| kind(piece) == kind(other.piece));
        let grounds: Vec<(usize, usize)> = mates
            .flat_map(|piece| (0..self.kit.pieces[piece].net.panels.len()).map(move |panel| (piece, panel)))
            .collect();
        self.folded.beyond(self.kit, (one.piece, one.panel), &grounds, APART)
    }

    /// Seams that are stuck to nothing.
    fn loose_seams(&self) -> Vec<Finding> {
        let held = self.kit.bonds.iter().filter(|bond| bond.hold == Hold::Stuck);
        let sides = held.flat_map(|bond| [&bond.one, &bond.other]);
        let stuck: BTreeSet<(usize, usize)> = sides.map(|side| (side.piece, side.panel)).collect();
        let mut findings = Vec::new();
        for (number, piece) in self.kit.pieces.iter().enumerate() {
            for (panel, one) in piece.net.panels.iter().enumerate() {
                if one.purpose == Use::Seam && !stuck.contains(&(number, panel)) {
                    let text = Said::new("seam-loose").with("panel", Arg::term(one.name));
                    findings.push(self.stop("seam-loose", number, text, "seam-loose-help"));
                }
            }
        }
        findings
    }

    /// Flaps fold to the side of their leaf on which their pocket is, and over it.
    fn flaps(&self) -> Vec<Finding> {
        let away = |closing: &&Closing| {
            let (by, over) = (closing.by, closing.over);
            let folds = self.kit.pieces.get(by.0).map_or(&[][..], |piece| &piece.net.folds);
            let leaf = folds.iter().find(|fold| fold.between[1] == by.1).map(|fold| (by.0, fold.between[0]));
            let height = |panel| self.folded.overlap(self.kit, panel, over).map(|overlap| overlap.above);
            let (flap, leaf) = (height(by), leaf.and_then(height));
            flap.zip(leaf).is_some_and(|(flap, leaf)| flap < leaf)
        };
        let say = |closing: &Closing| {
            self.stop("flap-turned-over", closing.by.0, Said::new("flap-turned-over"), "flap-turned-over-help")
        };
        self.kit.closings.iter().filter(away).map(say).collect()
    }

    /// Panels of one page that would have to be in the same place. Flaps, and what is stuck on them, lie on whatever is
    /// beneath; what slides into a sleeve opens it.
    fn through(&self) -> Vec<Finding> {
        let mut findings = Vec::new();
        let on_flaps: BTreeSet<usize> =
            self.kit.bonds.iter().filter(|bond| self.is_flap(&bond.other)).map(|bond| bond.one.piece).collect();
        let mut pages: BTreeMap<Owner, Vec<(usize, usize)>> = BTreeMap::new();
        for (number, piece) in self.kit.pieces.iter().enumerate() {
            if matches!(piece.owner, Owner::Page(_)) && !on_flaps.contains(&number) {
                let lying = piece.net.panels.iter().enumerate().filter(|(_, panel)| panel.purpose != Use::Flap);
                pages.entry(piece.owner).or_default().extend(lying.map(|(panel, _)| (number, panel)));
            }
        }
        for panels in pages.into_values() {
            for (index, &one) in panels.iter().enumerate() {
                let hit = panels[index + 1..]
                    .iter()
                    .find(|&&other| self.meet(one, other) && !self.closes(one, other) && !self.facing(one, other));
                if let Some(&(other, _)) = hit {
                    let text = if other == one.0 {
                        Said::new("passes-through-itself")
                    } else {
                        Said::new("passes-through").with("piece", self.name(other))
                    };
                    findings.push(self.stop("passes-through", one.0, text, "passes-through-help"));
                }
            }
        }
        findings
    }

    fn is_flap(&self, side: &Side) -> bool {
        let on = self.kit.pieces.get(side.piece).and_then(|on| on.net.panels.get(side.panel));
        on.is_some_and(|panel| panel.purpose == Use::Flap)
    }

    /// Whether two panels of one piece are stuck on each other: the folds between them give by a caliper, and the bond itself
    /// says how far it is from meeting.
    fn closes(&self, one: (usize, usize), other: (usize, usize)) -> bool {
        one.0 == other.0
            && self.kit.bonds.iter().any(|bond| {
                let sides = [&bond.one, &bond.other].map(|side| (side.piece, side.panel));
                bond.hold == Hold::Stuck && (sides == [one, other] || sides == [other, one])
            })
    }

    /// Whether two panels are seams that are stuck on two different walls: they lie one over the other and open the sleeve.
    fn facing(&self, one: (usize, usize), other: (usize, usize)) -> bool {
        let wall = |(piece, panel): (usize, usize)| {
            let is_seam = self.kit.pieces.get(piece)?.net.panels.get(panel)?.purpose == Use::Seam;
            let stuck = |bond: &&Bond| bond.hold == Hold::Stuck && (bond.one.piece, bond.one.panel) == (piece, panel);
            let on = self.kit.bonds.iter().find(stuck).map(|bond| (bond.other.piece, bond.other.panel));
            on.filter(|_| is_seam)
        };
        wall(one).zip(wall(other)).is_some_and(|(one, other)| one != other)
    }

    fn meet(&self, one: (usize, usize), other: (usize, usize)) -> bool {
        let calipers = [one, other].map(|(piece, _)| self.folded.calipers.get(piece).copied().unwrap_or(0.0));
        self.folded.overlap(self.kit, one, other).is_some_and(|overlap| {
            let shared = f64::midpoint(calipers[0], calipers[1]) - overlap.above.abs();
            overlap.area > SLIVER && shared > calipers[0].min(calipers[1]) / 2.0
        })
    }

    /// Pages in their order, fronts towards the first, heads up; tabs all on the same side of their base.
    fn along_the_spine(&self) -> Vec<Finding> {
        let mut findings = Vec::new();
        // Fronts look towards the first page; where it stands says where the album is bound.
        let (key, sign) =
            if self.album.bound == Bound::Right { ("out-of-order-right", -1.0) } else { ("out-of-order-left", 1.0) };
        let mut last: Option<(usize, f64)> = None;
        let mut pages: Vec<(usize, &Bond)> = self
            .kit
            .bonds
            .iter()
            .filter(|bond| self.owner(bond.one.piece) == Some(Owner::Spine))
            .filter_map(|bond| match self.owner(bond.other.piece) {
                Some(Owner::Page(page)) => Some((page, bond)),
                _ => None,
            })
            .collect();
        pages.sort_by_key(|(page, _)| *page);
        pages.dedup_by_key(|(page, _)| *page);
        for (page, bond) in pages {
            let Some(tab) = self.folded.stand(bond.one.piece, bond.one.panel) else { continue };
            let panel = &self.kit.pieces[bond.one.piece].net.panels[bond.one.panel].outline;
            let (root, tip) = (lifted(tab, bond.one.at, 0.0), lifted(tab, panel.bounds().center(), 0.0));
            if tip[2] < root[2] {
                findings.push(self.stop("upside-down", bond.one.piece, Said::new("upside-down"), "upside-down-help"));
            }
            let along = sign * root[0];
            if last.is_some_and(|(_, at)| along < at + SLACK) {
                let before = last.map_or(0, |(page, _)| page);
                let about = Said::new("about-page").with("page", page);
                let finding = Finding::stop("out-of-order", about, Said::new(key).with("page", before));
                findings.push(finding.help(Said::new("out-of-order-help")));
            }
            last = Some((page, along));
        }
        findings.extend(self.kit.pockets.iter().filter_map(|pocket| self.head_down(pocket)));
        findings
    }

    /// Heads are away from the reader of the cross-section, and the spine edge is the one at the spine.
    fn head_down(&self, pocket: &Pocket) -> Option<Finding> {
        let inside = &pocket.inside;
        let stand = self.folded.stand(inside.piece, inside.panel)?;
        let middle = self.kit.pieces.get(inside.piece)?.net.panels.get(inside.panel)?.outline.bounds().center();
        let up = lifted(stand, inside.at + inside.along, 0.0)[1] - lifted(stand, inside.at, 0.0)[1];
        let inwards = lifted(stand, middle, 0.0)[2] - lifted(stand, inside.at, 0.0)[2];
        // A page that no spine carries lies as it lies.
        let hangs = self.kit.pieces.iter().any(|piece| piece.owner == Owner::Spine);
        (hangs && (up < 0.5 || inwards < 0.0))
            .then(|| self.stop("wrong-way-round", inside.piece, Said::new("wrong-way-round"), "wrong-way-round-help"))
    }
}
