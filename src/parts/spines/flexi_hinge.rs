// SPDX-License-Identifier: MIT
//! The flexi-hinge spine: nested strips glued base on base, the narrow on the wide.
//!
//! ```text
//!    /|     |         |     |\      one strip, H - ease tall; scores at tab and tab + gusset from both ends
//!   / |     |         |     | \
//!  |  |     |         |     |  |    The outer corners of each tab are clipped: a triangle that reaches the
//!  |tab gusset  base  gusset tab|   full depth of the tab to its score and `lead_in` along its outer edge.
//!  |  |     |         |     |  |
//!   \ |     |         |     | /     The inner score is a valley, the outer one works both ways.
//!    \|     |         |     |/
//! ```
//!
//! Even N = 2m pages: strip k (1..m) is 2 (tab + gusset) + (2k - 1) p wide, so that pages stand one pitch p
//! apart. Odd N = 2m + 1: the bases are 2k p wide, and the middle page sits on a T: wing, gusset, tab, tab,
//! gusset, wing, its two tabs glued to each other, V-notched at both ends of its middle score, its wings
//! glued down on the base and a little shorter than the pitch. Sizes: common practice, no source; the widths
//! follow from roots at +/- p/2, +/- 3p/2 … and 0, +/- p, +/- 2p ….

use crate::album::{Album, Entry, Kind, Role};
use crate::cutter::Cutter;
use crate::length::Length;
use crate::net::{Along, Net, RowPanel, Sense, Use};
use crate::parts::bond::{Face, Hold};
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::new_piece::NewPiece;
use crate::parts::kit::Owner;
use crate::parts::maker::Maker;
use crate::parts::name::PieceName;
use crate::parts::spines::carry::{Carry, Stuck};
use crate::parts::spines::fields::{EASE, GUSSET, LEAD_IN, PITCH, TAB, WING};
use crate::parts::spines::guard::{Guard, a_little_less, hang, whole};

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "flexi-hinge",
        role: Role::Spine,
        about: "nested hinge strips whose flexible gussets let the pages lie flat",
        fields: &[
            PITCH.field,
            TAB.field,
            GUSSET.field,
            LEAD_IN.field,
            EASE.field,
            WING.worded("the glued panels of the middle page's T").within(0.0, 2000.0).field,
        ],
        ready: None,
        file: None,
    },
    make,
    carry: Some(carry),
    example: r#"{ "kind": "flexi-hinge" }"#,
};

/// The sizes of an album's hinge, mm.
#[derive(Clone, Copy, Debug)]
struct Hinge {
    guard: Guard,
    /// The glued panels of the T.
    wing: f64,
}

impl Hinge {
    /// The hinge of an album.
    fn of(album: &Album) -> Self {
        let guard = Guard::of(album);
        let wing = album.spine.get(WING);
        Self { guard, wing: wing.map_or_else(|| a_little_less(album, guard.pitch), Length::mm) }
    }

    /// The panels of a strip with a base this wide.
    fn strip(&self, base: f64) -> [RowPanel; 5] {
        [
            self.guard.tab_in("left tab"),
            RowPanel::new("left gusset", Use::Gusset, self.guard.gusset).folded(Sense::Both, 0.0),
            RowPanel::new("base", Use::Base, base).folded(Sense::Valley, 90.0),
            RowPanel::new("right gusset", Use::Gusset, self.guard.gusset).folded(Sense::Valley, 90.0),
            self.guard.tab_out("right tab").folded(Sense::Both, 0.0),
        ]
    }

    /// The panels of the T for the middle page.
    fn tee(&self) -> [RowPanel; 6] {
        [
            RowPanel::new("left wing", Use::Base, self.wing),
            RowPanel::new("left gusset", Use::Gusset, self.guard.gusset).folded(Sense::Valley, 90.0),
            self.guard.tab_out("left tab").folded(Sense::Both, 0.0),
            self.guard.tab_in("right tab").folded(Sense::Mountain, 180.0),
            RowPanel::new("right gusset", Use::Gusset, self.guard.gusset).folded(Sense::Both, 0.0),
            RowPanel::new("right wing", Use::Base, self.wing).folded(Sense::Valley, 90.0),
        ]
    }
}

/// Strip k from the middle lies on all wider ones: a page's root stands above the lowest by their calipers (derived).
fn carry(album: &Album, _: &Cutter, _: &dyn Fn() -> Vec<f64>) -> Carry {
    let hinge = Hinge::of(album);
    let count = album.pages.len();
    let (odd, strips) = (count % 2 == 1, count / 2);
    let rise = |page: usize| {
        let strip = if page < strips { strips - page } else { (page + 1).saturating_sub(count - strips) };
        whole(strips.saturating_sub(strip)) * hinge.guard.caliper
    };
    let guard = hinge.guard;
    Carry {
        // A single page's T stands alone.
        stuck: (count > 1).then_some(if odd { (hinge.wing, Stuck::Wing) } else { (guard.pitch, Stuck::Base) }),
        wing: (odd && count > 1).then_some(hinge.wing),
        ..guard.carry(vec![guard.pitch; count], (0..count).map(rise).collect())
    }
}

fn make(builder: &mut Builder<'_>, entry: &Entry, _: usize) {
    let hinge = Hinge::of(builder.album);
    let guard = hinge.guard;
    let Some(height) = guard.height(builder, entry) else { return };
    let pages = builder.album.pages.len();
    let (odd, strips) = (pages % 2 == 1, pages / 2);
    let bases = |strip: usize| -> f64 {
        let strip = whole(strip);
        if odd { 2.0 * strip * guard.pitch } else { 2.0f64.mul_add(strip, -1.0) * guard.pitch }
    };
    let mut cut = |id: String, kind, name: PieceName, leaves: &[RowPanel], root| {
        let net = Net::row(Along::Across, height, leaves, root);
        builder.piece(NewPiece::of(entry, Owner::Spine, (id, kind, name), net))
    };
    let tee = odd.then(|| cut("hinge-t".into(), "hinge t", "hinge T".into(), &hinge.tee(), 0));
    let pieces: Vec<Option<usize>> = (1..=strips)
        .map(|strip| {
            cut(
                format!("hinge-{strip}"),
                "hinge strip",
                PieceName::from("hinge strip").counted(strip),
                &hinge.strip(bases(strip)),
                2,
            )
        })
        .collect();
    let (Some(pieces), true) =
        (pieces.into_iter().collect::<Option<Vec<usize>>>(), tee.is_none_or(|tee| tee.is_some()))
    else {
        return;
    };

    let panel =
        |leaves: &[RowPanel], root: usize, name: &str| Net::row(Along::Across, height, leaves, root).panel(name);
    let strip = |name: &str| panel(&hinge.strip(1.0), 2, name);
    let (Some(left_tab), Some(base), Some(right_tab)) = (strip("left tab"), strip("base"), strip("right tab")) else {
        return;
    };
    let (up, right) = ((0.0, 1.0), (1.0, 0.0));
    let middle = |strip: usize| guard.tab + guard.gusset + bases(strip) / 2.0;
    let low = guard.low();
    if builder.mounts.len() != pages {
        return;
    }
    for (index, &piece) in pieces.iter().enumerate() {
        let strip = index + 1;
        if let Some(&below) = pieces.get(strip) {
            builder.bond(
                Hold::Stuck,
                side(piece, base, Face::Back, (middle(strip), 0.0), right),
                side(below, base, Face::Front, (middle(strip + 1), 0.0), right),
            );
        }
        // Page 1 stands at the left with its front to the left, so the front face of a left tab looks at the
        // inside of its page's back, that of a right tab at the inside of its page's front.
        let (left_page, right_page) = (strips - strip, strips + strip - usize::from(!odd));
        let wide = bases(strip) + 2.0 * (guard.tab + guard.gusset);
        let (left_mount, right_mount) = (builder.mounts[left_page].back, builder.mounts[right_page].front);
        let holds = [left_page, right_page].map(|page| builder.mounts[page].hold);
        builder.bond(holds[0], side(piece, left_tab, Face::Front, (guard.tab, low), up), left_mount);
        builder.bond(holds[1], side(piece, right_tab, Face::Front, (wide - guard.tab, low), up), right_mount);
    }
    if let Some(&widest) = pieces.last() {
        builder.feet.push(side(widest, base, Face::Back, (middle(strips), low), right));
    }
    if let Some(Some(tee)) = tee {
        let beneath = pieces.first().map(|&under| (under, base, middle(1)));
        let half = builder.caliper(entry.stock) / 2.0;
        stand_tee(builder, &hinge, (tee, height), beneath, (strips, half));
    }
}

/// The T of the middle page: its root stands on the middle of the narrowest strip, which is told by its piece, its panel and
/// where that middle is. Back to back, its halves stand a caliper apart, `half` of it to either side.
fn stand_tee(
    builder: &mut Builder<'_>,
    hinge: &Hinge,
    (tee, height): (usize, f64),
    beneath: Option<(usize, usize, f64)>,
    (page, half): (usize, f64),
) {
    let (guard, up, right) = (hinge.guard, (0.0, 1.0), (1.0, 0.0));
    let low = guard.low();
    let of_tee = |name: &str| Net::row(Along::Across, height, &hinge.tee(), 0).panel(name);
    let tee_panels = ["left wing", "left tab", "right tab", "right wing"].map(of_tee);
    let [Some(left_wing), Some(left), Some(right_half), Some(right_wing)] = tee_panels else { return };
    // Its root stands in the middle, on the narrowest strip where there is one.
    let wide = 2.0 * (hinge.wing + guard.gusset + guard.tab);
    for (wing, root, away) in [(left_wing, hinge.wing, -half), (right_wing, wide - hinge.wing, half)] {
        let Some((under, base, middle)) = beneath else {
            // Nothing is beneath it but a cover.
            builder.feet.push(side(tee, wing, Face::Back, (root - away, low), right));
            continue;
        };
        builder.bond(
            Hold::Stuck,
            side(tee, wing, Face::Back, (root, 0.0), right),
            side(under, base, Face::Front, (middle + away, 0.0), right),
        );
    }
    builder.bond(
        Hold::Stuck,
        side(tee, left, Face::Back, (wide / 2.0, 0.0), up),
        side(tee, right_half, Face::Back, (wide / 2.0, 0.0), up),
    );
    hang(
        builder,
        page,
        side(tee, left, Face::Front, (hinge.wing + guard.gusset, low), up),
        Some(side(tee, right_half, Face::Front, (wide - hinge.wing - guard.gusset, low), up)),
    );
}
