// SPDX-License-Identifier: MIT
//! The plain hinge: a strip with one score for every page, all on one backing.
//!
//! ```text
//!   +------+---------\      the strip: wing + tab wide, H - ease tall, one score; the tab's outer corners
//!   |      ¦          |     are clipped (lead_in)
//!   | wing ¦   tab    |
//!   |      ¦          |          |    |    |     seen from the tail: every wing lies to the left of its
//!   +------+---------/           |    |    |     score, stuck on the backing; pages stand a pitch apart
//!                            ____|____|____|__
//!                           =================== backing
//! ```
//!
//! The page turns at the score itself: there is no gusset, so an album thicker than its spine gapes at once (D2 with a joint
//! of 0). Wings are a little narrower than the pitch so that they clear the next score. The backing is wing +
//! (N - 1) p + p/2 wide: the first wing ends with it, half a pitch is left beyond the last score (derived). Sizes: common
//! practice, no source.

use crate::album::{Album, Entry, Kind, Role};
use crate::cutter::Cutter;
use crate::finding::{Finding, Said};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::net::{Along, Net, RowPanel, Sense, Use};
use crate::parts::bond::{Face, Hold};
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::new_piece::NewPiece;
use crate::parts::kit::Owner;
use crate::parts::maker::Maker;
use crate::parts::name::PieceName;
use crate::parts::spines::carry::{Carry, Stuck};
use crate::parts::spines::fields::{EASE, LEAD_IN, PITCH, TAB, WING};
use crate::parts::spines::guard::{Guard, a_little_less, about, hang, of_spine, whole};

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "plain-hinge",
        role: Role::Spine,
        about: "a strip with one score for every page, all on one backing",
        fields: &[PITCH.field, TAB.field, LEAD_IN.field, EASE.field, WING.field],
        ready: None,
        file: None,
    },
    make,
    carry: Some(carry),
    example: r#"{ "kind": "plain-hinge" }"#,
};

fn wing(album: &Album) -> f64 {
    let pitch = album.spine.mm(PITCH);
    album.spine.get(WING).map_or_else(|| a_little_less(album, pitch), Length::mm)
}

/// Where the first score stands on the backing: as far in as its wing is wide, and as half a page takes.
fn first(guard: &Guard, wing: f64) -> f64 {
    wing.max(guard.pitch / 2.0)
}

/// The first page has the rest of its wing on top of its pitch (derived).
fn carry(album: &Album, _: &Cutter, _: &dyn Fn() -> Vec<f64>) -> Carry {
    let (guard, wing) = (Guard::of(album), wing(album));
    let mut steps = vec![guard.pitch; album.pages.len()];
    if let Some(step) = steps.first_mut() {
        *step = first(&guard, wing) + guard.pitch / 2.0;
    }
    let rises = vec![0.0; steps.len()];
    Carry { stuck: Some((wing, Stuck::Wing)), ..guard.carry(steps, rises) }
}

fn make(builder: &mut Builder<'_>, entry: &Entry, _: usize) {
    let (guard, wing) = (Guard::of(builder.album), wing(builder.album));
    let Some(height) = guard.height(builder, entry) else { return };
    if wing > guard.pitch + SAME {
        let text = Said::new("hinge-wing-too-wide");
        let text = text.with("wing", builder.album.length(wing)).with("pitch", builder.album.length(guard.pitch));
        let help = Said::new("hinge-wing-too-wide-help").with("wing", of_spine(WING)).with("pitch", of_spine(PITCH));
        let finding = Finding::stop("wing-too-wide", about(), text)
            .measured(Length::from_mm(wing), Length::from_mm(guard.pitch))
            .help(help)
            .mend("spine.wing", builder.album.at_most(guard.pitch - 0.5))
            .at(entry.values.place(WING));
        builder.find(finding);
        return;
    }
    let pages = builder.album.pages.len();
    let width = builder.carry.spine();
    let mut cut = |id: String, kind, name: PieceName, net| {
        builder.piece(NewPiece::of(entry, Owner::Spine, (id, kind, name), net))
    };
    let backing = Net::row(Along::Across, height, &[RowPanel::new("backing", Use::Base, width)], 0);
    let backing = cut("backing".into(), "backing", "backing".into(), backing);
    let leaves = [RowPanel::new("wing", Use::Base, wing), guard.tab_out("tab").folded(Sense::Valley, 90.0)];
    let hinge = |page: usize| {
        let net = Net::row(Along::Across, height, &leaves, 0);
        cut(format!("hinge-{page}"), "plain hinge", PieceName::from("hinge").counted(page), net)
    };
    let (Some(backing), Some(hinges)) = (backing, (1..=pages).map(hinge).collect::<Option<Vec<usize>>>()) else {
        return;
    };
    let right = (1.0, 0.0);
    builder.feet.push(side(backing, 0, Face::Back, (width / 2.0, guard.low()), right));
    for (page, &hinge) in hinges.iter().enumerate() {
        let score = whole(page).mul_add(guard.pitch, first(&guard, wing));
        builder.bond(
            Hold::Stuck,
            side(hinge, 0, Face::Back, (wing, 0.0), right),
            side(backing, 0, Face::Front, (score, 0.0), right),
        );
        hang(builder, page, side(hinge, 1, Face::Front, (wing, guard.low()), (0.0, 1.0)), None);
    }
}
