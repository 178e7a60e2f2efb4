// SPDX-License-Identifier: MIT
//! What is said of edges that can't be cut as asked.

use super::kept::Barrier;
use super::named::TakenEdge;
use crate::album::{Album, AskedEdge, EDGE_DEPTH, EDGE_SIZE, EdgeDone, Entry, FinishWord, Role};
use crate::fields::{Key, meant_or};
use crate::finding::{Arg, Finding, Said};
use crate::length::{Length, excerpt};

/// No pattern is shallower, mm; what the field takes.
const SHALLOWEST: f64 = 0.2;

/// Who speaks of an entry's edges.
pub(super) struct Saying<'a> {
    album: &'a Album,
    about: Said,
}

/// A pattern that is too deep for its repeat, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Steep {
    pub depth: f64,
    pub deepest: f64,
    pub repeat: f64,
}

impl<'a> Saying<'a> {
    pub(super) fn of(album: &'a Album, entry: &Entry, number: usize) -> Self {
        let about = if entry.kind.role == Role::Page {
            Said::new("about-page").with("page", number)
        } else {
            Said::new("about-insert").with("kind", Arg::term(entry.kind.name.replace('-', " "))).with("number", number)
        };
        Self { album, about }
    }

    fn stop(&self, id: &'static str, asked: &AskedEdge, text: Said, help: Said) -> Finding {
        let text = text.with("on", Arg::quoted(excerpt(&asked.on)));
        Finding::stop(id, self.about.clone(), text).help(help).at(asked.place())
    }

    /// A finding about a length of it, which is too large or too small.
    fn off(
        &self,
        (id, text, help): (&'static str, Said, &'static str),
        (asked, key): (&AskedEdge, Key<Option<Length>>),
        [has, may]: [f64; 2],
        best: Option<Length>,
    ) -> Finding {
        let length = |mm: f64| self.album.length(mm);
        let help = Said::new(if best.is_some() { help } else { "edge-leave-it" }).with("field", Arg::field(key.name()));
        let help = help.with("best", length(best.unwrap_or_default().mm()));
        let text = text.with("measured", length(has)).with("allowed", self.album.rough(may.max(0.0)));
        let finding = self.stop(id, asked, text, help).measured(Length::from_mm(has), Length::from_mm(may.max(0.0)));
        let finding = finding.at(asked.values.place(key));
        match best {
            Some(best) => finding.mend(format!("{}.{}", asked.path, key.name()), best),
            None => finding,
        }
    }

    /// A depth that suits, as a ruler has it.
    pub(super) fn usual(&self, mm: f64) -> f64 {
        self.most(mm, SHALLOWEST).map_or(mm, Length::mm)
    }

    /// The most that a ruler has, where that is anything.
    fn most(&self, mm: f64, least: f64) -> Option<Length> {
        Some(self.album.at_most(mm.max(0.0))).filter(|best| best.mm() >= least)
    }

    pub(super) fn unknown(&self, asked: &AskedEdge, known: &[String]) -> Finding {
        if known.is_empty() {
            return self.stop("unknown-edge", asked, Said::new("unknown-edge"), Said::new("edge-none-free"));
        }
        let help = meant_or("edge-names", &asked.on, known.iter().map(String::as_str));
        self.stop("unknown-edge", asked, Said::new("unknown-edge"), help)
    }

    pub(super) fn no_side(&self, asked: &AskedEdge, known: &[String]) -> Finding {
        let names = Arg::Any(known.iter().map(Arg::quoted).collect());
        let help =
            if known.is_empty() { Said::new("edge-none-free") } else { Said::new("edge-names").with("names", names) };
        self.stop("unknown-edge", asked, Said::new("edge-no-side"), help)
    }

    pub(super) fn taken(&self, asked: &AskedEdge, why: TakenEdge, known: &[String]) -> Finding {
        let text = Said::new(match why {
            TakenEdge::Fold => "edge-is-fold",
            TakenEdge::Seam => "edge-is-stuck",
            TakenEdge::Hinge => "edge-at-spine",
        });
        let names = Arg::Any(known.iter().map(Arg::quoted).collect());
        let help =
            if known.is_empty() { Said::new("edge-none-free") } else { Said::new("edge-choose").with("names", names) };
        self.stop("edge-taken", asked, text, help)
    }

    pub(super) fn no_corner(&self, asked: &AskedEdge, pieces: &[String]) -> Finding {
        let names = Arg::Any(pieces.iter().map(Arg::quoted).collect());
        let help =
            if pieces.is_empty() { Said::new("edge-none-free") } else { Said::new("edge-choose").with("names", names) };
        self.stop("edge-taken", asked, Said::new("no-free-corner"), help)
    }

    pub(super) fn twice(&self, asked: &AskedEdge) -> Finding {
        self.stop("edge-twice", asked, Said::new("edge-twice"), Said::new("edge-twice-help"))
    }

    pub(super) fn crosses(&self, asked: &AskedEdge) -> Finding {
        self.stop("edge-crosses", asked, Said::new("edge-crosses"), Said::new("edge-crosses-help"))
    }

    pub(super) fn too_long(&self, asked: &AskedEdge, length: f64) -> Finding {
        let best = self.most(length, 1.0);
        let notch = asked.done == EdgeDone::Edge(FinishWord::Notch);
        let text = Said::new(if notch { "edge-too-short-notch" } else { "edge-too-short" });
        let said = ("edge-size", text, "make-edge-at-most");
        self.off(said, (asked, EDGE_SIZE), [asked.size.mm(), length], best)
    }

    pub(super) fn too_steep(&self, asked: &AskedEdge, word: FinishWord, steep: Steep) -> Finding {
        let Steep { depth, deepest, repeat } = steep;
        let text = Said::new(if word == FinishWord::Notch { "notch-too-deep" } else { "edge-too-steep" });
        let text = text.with("repeat", self.album.rough(repeat));
        let best = self.most(deepest, SHALLOWEST);
        self.off(("edge-too-deep", text, "make-edge-at-most"), (asked, EDGE_DEPTH), [depth, deepest], best)
    }

    /// How deep it is and may be; `more` is what is deeper than the field says.
    pub(super) fn reaches(&self, asked: &AskedEdge, barrier: Barrier, [depth, reach]: [f64; 2], more: f64) -> Finding {
        let text = Said::new("edge-reaches").with("what", Arg::term(barrier.word()));
        let best = self.most(reach - more, SHALLOWEST.max(more.min(1.0)));
        self.off(("edge-too-deep", text, "make-edge-at-most"), (asked, EDGE_DEPTH), [depth, reach], best)
    }

    pub(super) fn too_near(&self, asked: &AskedEdge, depth: f64, least: f64) -> Finding {
        let best = Some(self.album.at_least(least));
        self.off(
            ("row-at-edge", Said::new("row-at-edge"), "make-edge-at-least"),
            (asked, EDGE_DEPTH),
            [depth, least],
            best,
        )
    }

    pub(super) fn corner_too_large(&self, asked: &AskedEdge, most: f64) -> Finding {
        let best = self.most(most, 1.0);
        let said = ("edge-corner", Said::new("free-corner-too-large"), "make-edge-at-most");
        self.off(said, (asked, EDGE_SIZE), [asked.size.mm(), most], best)
    }

    pub(super) fn corner_reaches(&self, asked: &AskedEdge, barrier: Barrier) -> Finding {
        let text = Said::new("corner-reaches").with("what", Arg::term(barrier.word()));
        let help = Said::new("corner-reaches-help").with("field", Arg::field(EDGE_SIZE.name()));
        self.stop("edge-corner", asked, text, help).at(asked.values.place(EDGE_SIZE))
    }
}
