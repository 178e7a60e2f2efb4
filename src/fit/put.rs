// SPDX-License-Identifier: MIT
//! Inserts as they lie in their pockets.

use crate::album::Album;
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::parts::{Insert, Kit, Pocket, Way};

/// Least clearance, in all, of something that slides, mm (C2).
pub const SLIDES: f64 = 1.5;

/// One insert in its pocket, and how thick everything is that the pocket's sheets go round there.
pub(super) struct Put<'a> {
    pub insert: &'a Insert,
    pub pocket: &'a Pocket,
    pub stack: f64,
}

impl Put<'_> {
    /// Its size in one direction, mm.
    pub(super) fn size(&self, way: Way) -> f64 {
        match way {
            Way::Across => self.insert.width,
            Way::Up => self.insert.height,
        }
    }

    /// Room with sharp folds and with round ones.
    pub(super) fn room(&self, way: Way) -> [f64; 2] {
        self.pocket.room(way, self.stack)
    }

    /// The largest size that a maker should give it.
    fn most(&self, album: &Album, way: Way) -> Length {
        let slides = self.pocket.takes(self.stack, SLIDES)[way as usize];
        album.at_most(if self.pocket.sealed(way) > 1 { slides } else { self.room(way)[1] })
    }

    /// A finding about its size in one direction, and how to mend it: `all` are the puts of all inserts, of which those of
    /// the same entry have this size, too.
    pub(super) fn found(&self, album: &Album, all: &[Put<'_>], way: Way, finding: Finding) -> Finding {
        let alike = all.iter().filter(|put| put.insert.path == self.insert.path);
        let takes: Vec<Length> = alike.map(|put| put.most(album, way)).collect();
        let most = takes.iter().copied().reduce(|one, two| if two.mm() < one.mm() { two } else { one });
        let most = most.unwrap_or_else(|| self.most(album, way));
        let goes = takes.iter().any(|most| most.mm() >= self.size(way));
        let mend = self.insert.at_most(way, most.mm()).map(|(path, mm)| (path, album.at_most(mm)));
        let own = ["width", "height"][way as usize];
        let (field, value) = mend.as_ref().map_or((own, most), |(path, value)| (last(path), *value));
        let help = Said::new(if goes { "insert-size-or-pages-help" } else { "insert-size-help" });
        let help = if goes { help.with("pages", Arg::field("pages")).with("page", self.pocket.page) } else { help };
        let finding = finding
            .help(help.with("field", Arg::field(field)).with("most", album.length(value.mm())))
            .at(self.insert.places[way as usize].as_ref());
        match mend {
            Some((path, value)) => finding.mend(path, value),
            None => finding,
        }
    }
}

/// The field that a way ends in.
fn last(path: &str) -> &str {
    path.rsplit('.').next().unwrap_or(path)
}

/// All that are put into pockets.
pub(super) fn puts(kit: &Kit) -> impl Iterator<Item = Put<'_>> {
    let stacks = kit.held();
    kit.inserts.iter().filter_map(move |insert| {
        let number = insert.pocket?;
        Some(Put { insert, pocket: kit.pockets.get(number)?, stack: *stacks.get(number)? })
    })
}
