// SPDX-License-Identifier: MIT
//! The envelope: a front, a back that is folded up behind it, glue flaps at its sides, a flap that closes it.
//!
//! ```text
//!          /-----------------\          `flap` deep, its ends at 45 degrees
//!         /       flap        \
//!        +---------------------+
//!        |                     |
//!        |        front        | height     All folds are mountains: seen from the front everything goes behind it.
//!        |                     |
//!        +---------------------+
//!      / |                     | \
//!     |  |        back         |  |         The back ends 1.5 mm or 1/16 in below the flap's fold, so that the flap
//!      \ |                     | /          turns freely (our choice).
//!        +---------------------+
//!    lap          width          lap
//! ```
//!
//! Ends of flaps are cut at 45 degrees (check value G1), half of the corner that they fold into: neighbours meet there at
//! most along the corner's bisector (D7). The laps are stuck on the inside of the front.

use crate::album::{Entry, Kind, Role};
use crate::contour::{Contour, Point};
use crate::fields::{Key, Otherwise, rule, usual};
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::net::{Fold, Net, Panel, Sense, Use};
use crate::parts::bond::{Face, Hold};
use crate::parts::build::builder::{Builder, side};
use crate::parts::inserts::insert::{self, Bulk, LAP, Slip};
use crate::parts::kit::Flap;
use crate::parts::maker::Maker;

/// How far the back stays below the flap's fold.
const SHORT: Otherwise<Length> = usual(1.5, 0.0625);

/// The least depth of a flap, mm: it must reach over the back.
const LEAST_FLAP: f64 = 5.0;

/// What is left at least of the flap's edge, mm: our choice.
const EDGE: f64 = 1.0;

/// Where front, back and flap lie on one another it is four calipers thick: one lap besides.
const LAYERS: f64 = 4.0;

const FLAP: Key<Option<Length>> =
    Key::length("flap", rule("a third of its shorter side"), "how deep the flap is that closes it")
        .within(LEAST_FLAP, 2000.0)
        .unmeasured();

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "envelope",
        role: Role::Insert,
        about: "a small envelope with glued sides and a flap, for a pocket",
        fields: &[
            insert::FOLLOWS,
            insert::WIDTH.field,
            insert::HEIGHT.field,
            FLAP.field,
            LAP.field,
            insert::COUNT.field,
            insert::FOLDED.field,
            insert::PAGES.field,
        ],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "envelope", "width": 110, "height": 80 }"#,
};

/// The sizes of an envelope, mm.
#[derive(Clone, Copy, Debug)]
struct Sizes {
    width: f64,
    height: f64,
    back: f64,
    flap: f64,
    lap: f64,
}

fn make(builder: &mut Builder<'_>, entry: &Entry, number: usize) {
    let slip = Slip::new(builder, entry, number);
    let thickness = slip.thickness(LAYERS * slip.caliper);
    let Some((width, height)) = slip.size(builder, thickness, None) else { return };
    let short = SHORT.length(builder.album.units).mm();
    let usual = (width.min(height) / 3.0).max(LEAST_FLAP);
    let flap = entry.get(FLAP).map_or(usual, Length::mm);
    let sizes = Sizes { width, height, back: height - short, flap, lap: entry.mm(LAP) };
    if let Some(finding) = wrong(builder, &slip, sizes) {
        builder.find(finding);
        return;
    }
    slip.narrow_lap(builder, sizes.lap);
    let net = net(sizes);
    builder.flap(Flap {
        name: slip.name().to_string(),
        what: "flap",
        overlap: Some(flap - short),
        long: flap,
        length: [flap, ((width - EDGE) / 2.0).min(sizes.back)],
        depth: 0.0,
        caliper: slip.caliper,
        over: [LAYERS.mul_add(-slip.caliper, thickness) + slip.caliper, short],
        pocket: None,
        field: FLAP.name(),
        path: slip.path(),
        place: entry.values.place(FLAP).cloned(),
        two: false,
    });
    let bulk = Bulk { width, height, thickness, pull: false };
    let Sizes { back, lap, .. } = sizes;
    slip.copies(builder, "envelope", &net, bulk, |builder, piece| {
        // Folded up, the back's foot lies on the front's, and each lap on the front's inside.
        for (panel, x) in [("left lap", lap), ("right lap", lap + width)] {
            let Some(seam) = net.panel(panel) else { continue };
            builder.bond(
                Hold::Stuck,
                side(piece, seam, Face::Front, (x, back), (0.0, 1.0)),
                side(piece, 0, Face::Back, (x, back), (0.0, -1.0)),
            );
        }
    });
}

/// The first thing that keeps it from being an envelope.
fn wrong(builder: &Builder<'_>, slip: &Slip<'_>, sizes: Sizes) -> Option<Finding> {
    let Sizes { width, height, back, flap, lap } = sizes;
    let (length, mm) = (|mm: f64| builder.album.length(mm), Length::from_mm);
    // The flap's sides come in by as much as it is deep; some of its edge must be left.
    let deepest = ((width - EDGE) / 2.0).min(back);
    if deepest < LEAST_FLAP {
        let text = Said::new("envelope-too-small")
            .with("width", length(width))
            .with("height", length(height))
            .with("least_width", length(2.0f64.mul_add(LEAST_FLAP, EDGE)))
            .with("least_height", length(LEAST_FLAP + height - back));
        let help = Said::new("envelope-too-small-help").with("height", Arg::field(insert::HEIGHT.name()));
        return Some(slip.stop("envelope-too-small", insert::WIDTH, text, help));
    }
    let most = (width / 2.0).min(back / 2.0);
    if lap > most {
        let text = Said::new("laps-meet").with("lap", length(lap)).with("most", length(most));
        let best = builder.album.at_most(most);
        let help = Said::new("make-at-most").with("most", length(best.mm()));
        let finding = slip.stop("lap-too-wide", LAP, text, help).measured(mm(lap), mm(most));
        return Some(finding.mend(slip.way(LAP), best));
    }
    if flap > deepest {
        let text = Said::new("flap-too-deep")
            .with("flap", length(flap))
            .with("width", length(width))
            .with("height", length(height));
        let best = builder.album.at_most(deepest);
        let help = Said::new("make-at-most").with("most", length(best.mm()));
        let finding = slip.stop("flap-too-deep", FLAP, text, help).measured(mm(flap), mm(deepest));
        return Some(finding.mend(slip.way(FLAP), best));
    }
    None
}

fn net(sizes: Sizes) -> Net {
    let Sizes { width, height, back, flap, lap } = sizes;
    let (left, right, top) = (lap, lap + width, back + height);
    let panel = |name, purpose, corners: &[(f64, f64)]| Panel {
        name,
        purpose,
        outline: Contour::polygon(corners.iter().copied()).counter_clockwise(),
    };
    let fold = |between, (from_x, from_y): (f64, f64), (to_x, to_y): (f64, f64)| Fold {
        between,
        from: Point::new(from_x, from_y),
        to: Point::new(to_x, to_y),
        sense: Sense::Mountain,
        angle: 180.0,
    };
    Net {
        panels: vec![
            panel("front", Use::Plain, &[(left, back), (right, back), (right, top), (left, top)]),
            panel("back", Use::Plain, &[(left, 0.0), (right, 0.0), (right, back), (left, back)]),
            panel("left lap", Use::Seam, &[(left, 0.0), (left, back), (0.0, back - lap), (0.0, lap)]),
            panel(
                "right lap",
                Use::Seam,
                &[(right, 0.0), (right, back), (right + lap, back - lap), (right + lap, lap)],
            ),
            panel(
                "flap",
                Use::Flap,
                &[(left, top), (right, top), (right - flap, top + flap), (left + flap, top + flap)],
            ),
        ],
        folds: vec![
            fold([0, 1], (left, back), (right, back)),
            fold([1, 2], (left, 0.0), (left, back)),
            fold([1, 3], (right, 0.0), (right, back)),
            fold([0, 4], (left, top), (right, top)),
        ],
        holes: Vec::new(),
        marks: Vec::new(),
    }
}
