// SPDX-License-Identifier: MIT
//! A piece that is to be cut, as a kind states it.

use crate::album::{Entry, FinishWord};
use crate::finding::{Arg, Finding, Place, Said};
use crate::net::{Net, NetProblem};
use crate::parts::kit::{Owner, PieceForm, Purpose};
use crate::parts::name::PieceName;

/// A piece that is to be cut.
#[derive(Debug)]
pub struct NewPiece<'a> {
    /// Id of its part, should it be the first of its kind.
    pub id: String,
    /// What it is: `pocket front`.
    pub kind: &'static str,
    /// What it is there for.
    pub purpose: Purpose,
    /// Pieces of one family may be one part: a page's front and back, say.
    pub family: &'static str,
    /// Its net.
    pub net: Net,
    /// Number of its stock.
    pub stock: usize,
    /// Whether it must lie along a stated grain.
    pub along_grain: bool,
    /// What it is used for: `page 1 front`.
    pub name: PieceName,
    /// What it belongs to.
    pub owner: Owner,
    /// The patterns that edges of it are cut in.
    pub patterns: Vec<FinishWord>,
    /// Where its size is said.
    pub place: Option<&'a Place>,
    /// What its form comes from, where that is a kind file.
    pub form: Option<PieceForm>,
}

impl<'a> NewPiece<'a> {
    /// A piece of an entry, of its stock and with its place. What carries or covers the pages lies along the grain unless the
    /// file says otherwise, all else only where it says so.
    #[must_use]
    pub fn of(
        entry: &'a Entry,
        owner: Owner,
        (id, kind, name): (impl Into<String>, &'static str, impl Into<PieceName>),
        net: Net,
    ) -> Self {
        let (id, name) = (id.into(), name.into());
        let along_grain = entry.grain_along_spine.unwrap_or(matches!(owner, Owner::Spine | Owner::Cover));
        let (purpose, stock, place) = (Purpose::Body, entry.stock, entry.place());
        let patterns = Vec::new();
        Self { id, kind, purpose, family: kind, net, stock, along_grain, name, owner, patterns, place, form: None }
    }

    /// Says why its net is no part.
    pub(super) fn no_part(&self, problem: NetProblem) -> Finding {
        let (text, help) = match problem {
            NetProblem::Panel(index) => {
                let panel = self.net.panels.get(index).map_or("panel", |panel| panel.name);
                let text = Said::new("panel-without-shape").with("panel", Arg::term(panel));
                (text, Said::new("panel-without-shape-help"))
            }
            NetProblem::Crosses => (Said::new("outline-crosses"), Said::new("outline-crosses-help")),
            NetProblem::Fold(_) => (Said::new("fold-off-edge"), Said::new("fold-off-edge-help")),
            NetProblem::Hole(_) => (Said::new("hole-over-edge"), Said::new("hole-over-edge-help")),
        };
        Finding::stop("no-part", Said::new("about-part").with("part", Arg::term(&self.name)), text)
            .help(help)
            .at(self.place)
    }
}
