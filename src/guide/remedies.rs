// SPDX-License-Identifier: MIT
//! When it goes wrong: what can still be done, and until when.

use super::bits::{Block, Section, Table};
use super::desk::Desk;
use super::holding::{self, Stick};
use super::joints;
use super::line::Line;
use crate::fit::order::Doing;
use crate::net::Use;
use crate::parts::Owner;

/// What of the kit a mishap can befall.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Mishap {
    /// A piece is cut or scored wrong, where the reader does that.
    Cut,
    /// A score is folded the wrong way.
    Fold,
    /// A seam holds nothing, or holds too soon.
    Seam,
    /// A hinge's strips lie in the wrong order.
    Strips,
    /// A page hangs upside down, or on the wrong tab.
    Page,
    /// The cover is turned.
    Cover,
    /// Panels are crooked or bubbly.
    Panel,
    /// What is put in binds.
    Tight,
}

impl Mishap {
    const ALL: [(Self, &'static str); 8] = [
        (Self::Cut, "cut"),
        (Self::Fold, "fold"),
        (Self::Seam, "seam"),
        (Self::Strips, "strips"),
        (Self::Page, "page"),
        (Self::Cover, "cover"),
        (Self::Panel, "panel"),
        (Self::Tight, "tight"),
    ];

    /// The section of the guide in which it happens.
    const fn section(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::Fold => "fold",
            Self::Seam | Self::Panel => "pages",
            Self::Strips => "spine",
            Self::Page => "bind",
            Self::Cover => "cover",
            Self::Tight => "fill",
        }
    }

    /// Whether it can befall what the reader makes.
    fn can_be(self, desk: &Desk<'_>) -> bool {
        let kit = desk.kit();
        let jobs = || joints::jobs(kit).into_iter();
        let does = |doing: Doing| jobs().any(|job| job.doing == doing);
        match self {
            Self::Cut => desk.rows.iter().any(|row| desk.cuts(row.part)),
            Self::Fold => kit.parts.iter().any(|part| !part.flat.scores.is_empty()),
            Self::Seam => jobs().any(|job| {
                (0..job.joints.len())
                    .flat_map(|joint| job.bonds_of(joint))
                    .any(|bond| matches!(holding::stick(desk.job.album, kit, job.doing, bond), Stick::Tape { .. }))
            }),
            Self::Strips => does(Doing::StackStrips),
            Self::Page => kit.pieces.iter().any(|piece| {
                piece.owner == Owner::Spine && piece.net.panels.iter().any(|panel| panel.purpose == Use::Tab)
            }),
            Self::Cover => does(Doing::MeetCover),
            Self::Panel => does(Doing::CoverFace),
            Self::Tight => does(Doing::FillPocket),
        }
    }
}

/// What can go wrong in a section of the guide, in a line each.
pub(super) fn of_section(desk: &Desk<'_>, id: &str) -> Vec<Line> {
    let there = Mishap::ALL.into_iter().filter(|(mishap, _)| mishap.section() == id && mishap.can_be(desk));
    let told = |name: &str| desk.tell(&format!("wrong-{name}")).then(&desk.tell(&format!("wrong-{name}-do")));
    there.map(|(_, name)| told(name)).collect()
}

/// What can befall this album: what happened, what to do, until when.
pub(super) fn section(desk: &Desk<'_>) -> Option<Section> {
    let row = |name: &str| {
        [format!("wrong-{name}"), format!("wrong-{name}-do"), format!("wrong-{name}-until")]
            .map(|key| desk.tell(&key))
            .to_vec()
    };
    let there = Mishap::ALL.into_iter().filter(|(mishap, _)| mishap.can_be(desk));
    let rows: Vec<_> = there.map(|(_, name)| row(name)).collect();
    let head = ["wrong-head-what", "wrong-head-do", "wrong-head-until"].map(|key| desk.tell(key)).to_vec();
    let table = Table { caption: desk.tell("wrong-caption"), head, rows };
    (!table.rows.is_empty()).then(|| Section {
        id: "wrong",
        heading: desk.tell("wrong-heading"),
        blocks: vec![Block::Table(table)],
    })
}
