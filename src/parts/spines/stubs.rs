// SPDX-License-Identifier: MIT
//! The stub spine: every page on a folded guard, with stubs between the guards that make up for the page's thickness.
//!
//! ```text
//!   guard                                    seen from the tail
//!   +------+------+--------+-------\
//!   |      ¦      ¦        ¦        |          |     |     |    tabs, in the pages
//!   | fold ¦ root ¦ gusset ¦  tab   |          |     |     |    gussets, free
//!   |      ¦      ¦        ¦        |         ||:::||:::||:::|  roots (folded, two leaves) and stubs (:),
//!   +------+------+--------+-------/          ||:::||:::||:::|  stuck face to face, as thick as the pages
//!      a stub is root wide                   [_______________]  the liner holds them; its back is the spine
//! ```
//!
//! A guard's fold and its root are stuck on each other: the root is two leaves thick. A page whose loaded thickness is L
//! gets n = ceil((L - 2 t) / t) stubs (D3; B5: the stubs' thickness is at least what the page adds at its body; Roberts &
//! Etherington 1982, "compensation guard"). The root is 19 mm or 3/4 in wide: a strip of 38.1 mm folded to 19.05 (B6; Vaughn's
//! eighth-grade mounting book). The liner's back goes over the block: its scores stand S + t apart (F9); its wings are a
//! caliper wider than the root, since the block stands on its face (derived).

use crate::album::{Album, Entry, Kind, Role, STOCK};
use crate::cutter::Cutter;
use crate::fields::{Key, rule};
use crate::finding::{Arg, Finding, Said};
use crate::length::tolerance::WHOLE;
use crate::length::{Length, Units};
use crate::net::{Along, Net, RowPanel, Sense, Use, bend};
use crate::parts::bond::{Face, Hold, Side};
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::new_piece::NewPiece;
use crate::parts::kit::Owner;
use crate::parts::maker::Maker;
use crate::parts::name::PieceName;
use crate::parts::spines::carry::{Carry, Stuck};
use crate::parts::spines::fields::{EASE, GUSSET, LEAD_IN, ROOT, TAB};
use crate::parts::spines::guard::{Guard, about, hang, of_spine, whole};

const PITCH: Key<Option<Length>> = Key::size(
    "pitch",
    rule("as much as each page with everything on and in it"),
    "thickness that a page's guard and stubs make up",
)
.unmeasured();

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "stubs",
        role: Role::Spine,
        about: "folded guards with stubs between them, as thick at the spine as the pages are",
        fields: &[PITCH.field, TAB.field, GUSSET.field, LEAD_IN.field, EASE.field, ROOT.field],
        ready: None,
        file: None,
    },
    make,
    carry: Some(carry),
    example: r#"{ "kind": "stubs" }"#,
};

/// So many stubs for one page are a block of wood: our choice.
const MOST: usize = 50;

/// How many stubs a page needs so that it is no thicker at its body than at the spine (D3, B5): loaded thickness,
/// thickness of its guard's root, thickness of a stub, in one unit.
///
/// ```
/// assert_eq!(hingeleaf::parts::stubs_for(1.76, 0.60, 0.30), 4);
/// ```
#[must_use]
pub fn stubs_for(loaded: f64, hinge: f64, stub: f64) -> u32 {
    let count = ((loaded - hinge) / stub - WHOLE).ceil().clamp(0.0, f64::from(u32::MAX));
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held in range on the line before")]
    let count = count as u32;
    count
}

/// By page: how many stubs stand beside its guard.
fn counts(thickness: &[f64], caliper: f64) -> Vec<usize> {
    let count = |loaded: &f64| usize::try_from(stubs_for(*loaded, 2.0 * caliper, caliper)).unwrap_or(usize::MAX);
    thickness.iter().map(count).collect()
}

/// Every root stands on the liner; a page takes what its guard and stubs are thick (derived).
fn carry(album: &Album, _: &Cutter, page_thickness: &dyn Fn() -> Vec<f64>) -> Carry {
    let mut guard = Guard::of(album);
    // As the file says, or as its own layers are.
    let said = album.spine.get(PITCH).map(|pitch| vec![pitch.mm(); album.pages.len()]);
    let thick = said.unwrap_or_else(page_thickness);
    let counts = counts(&thick, guard.caliper);
    let steps: Vec<f64> = counts.into_iter().map(|stubs| whole(stubs.saturating_add(2)) * guard.caliper).collect();
    guard.pitch = steps.iter().sum::<f64>() / whole(steps.len().max(1));
    let root = album.spine.mm(ROOT);
    let rises = vec![root; steps.len()];
    Carry { thick, stuck: Some((root, Stuck::Root)), ..guard.carry(steps, rises) }
}

fn make(builder: &mut Builder<'_>, entry: &Entry, _: usize) {
    let guard = Guard::of(builder.album);
    let Some(height) = guard.height(builder, entry) else { return };
    let (root, caliper, thickness) = (entry.mm(ROOT), guard.caliper, builder.carry.thick.clone());
    let counts = counts(&thickness, caliper);
    if let Some((page, stubs)) = counts.iter().enumerate().find(|(_, stubs)| **stubs > MOST) {
        let loaded = thickness.get(page).copied().unwrap_or_default();
        let finding = too_many(builder.album, (page, *stubs), loaded, caliper);
        builder.find(finding.at(entry.values.place(PITCH)));
        return;
    }
    let mut cut = |id: String, kind, name: PieceName, leaves: &[RowPanel], stays| {
        let net = Net::row(Along::Across, height, leaves, stays);
        builder.piece(NewPiece::of(entry, Owner::Spine, (id, kind, name), net))
    };
    // The liner comes first: its back is what everything stands on.
    let block: f64 = counts.iter().map(|&stubs| whole(stubs + 2) * caliper).sum();
    let [back, _] = bend::wrapper(block, caliper);
    let wing = root + caliper;
    let liner = [
        RowPanel::new("left wing", Use::Seam, wing),
        RowPanel::new("back", Use::Base, back).folded(Sense::Valley, 90.0),
        RowPanel::new("right wing", Use::Seam, wing).folded(Sense::Valley, 90.0),
    ];
    let Some(liner) = cut("liner".into(), "liner", "liner".into(), &liner, 1) else { return };
    let leaves = [
        RowPanel::new("fold", Use::Base, root),
        RowPanel::new("root", Use::Base, root).folded(Sense::Mountain, 180.0),
        RowPanel::new("gusset", Use::Gusset, guard.gusset).folded(Sense::Both, 0.0),
        guard.tab_out("tab").folded(Sense::Both, 0.0),
    ];
    let mut block: Vec<(usize, Vec<usize>)> = Vec::new();
    for (page, &stubs) in counts.iter().enumerate() {
        let page = page + 1;
        let Some(piece) = cut(format!("guard-{page}"), "guard", PieceName::from("guard").counted(page), &leaves, 1)
        else {
            return;
        };
        let stub = |number: usize| {
            let name = PieceName::ForPage(PieceName::from("stub").counted(number).into(), page);
            cut(format!("stub-{page}-{number}"), "stub", name, &[RowPanel::new("stub", Use::Base, root)], 0)
        };
        let Some(stubs) = (1..=stubs).map(stub).collect() else { return };
        block.push((piece, stubs));
    }
    builder.feet.push(side(liner, 0, Face::Back, (wing + back / 2.0, guard.low()), (1.0, 0.0)));
    // Panels of the liner and the guards: the root panel is number 0.
    let (left_wing, right_wing, fold, tab) = (1, 2, 1, 3);
    let at = |piece, panel, face, across: f64| side(piece, panel, face, (across, 0.0), (0.0, 1.0));
    let mut last: Side = at(liner, left_wing, Face::Front, wing - caliper / 2.0);
    for (page, (piece, stubs)) in block.iter().enumerate() {
        let piece = *piece;
        builder.bond(Hold::Stuck, at(piece, fold, Face::Back, root), at(piece, 0, Face::Back, root));
        builder.bond(Hold::Stuck, at(piece, 0, Face::Front, root), last);
        last = at(piece, fold, Face::Front, root);
        for &stub in stubs {
            builder.bond(Hold::Stuck, last, at(stub, 0, Face::Front, 0.0));
            last = at(stub, 0, Face::Back, 0.0);
        }
        let into = 2.0f64.mul_add(root, guard.gusset);
        hang(builder, page, side(piece, tab, Face::Front, (into, guard.low()), (0.0, 1.0)), None);
    }
    builder.bond(Hold::Stuck, last, at(liner, right_wing, Face::Front, wing + back + caliper / 2.0));
}

/// A page that is so thick that its block would take more stubs than can be stuck.
fn too_many(album: &Album, (page, stubs): (usize, usize), loaded: f64, caliper: f64) -> Finding {
    let text = Said::new("too-many-stubs")
        .with("page", page + 1)
        .with("thick", album.rough(loaded))
        .with("caliper", Arg::Length(Length::from_mm(caliper), Units::Mm))
        .with("stubs", stubs)
        .with("most", MOST);
    let help = Said::new("too-many-stubs-help").with("pitch", of_spine(PITCH)).with("stock", of_spine(STOCK));
    Finding::stop("too-many-stubs", about(), text)
        .measured(Length::from_mm(loaded), Length::from_mm(whole(MOST + 2) * caliper))
        .help(help)
}
