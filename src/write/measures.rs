// SPDX-License-Identifier: MIT
//! What was measured on the folded album, for programs: lengths in mm, angles in degrees.

use super::number::tidy;
use crate::fit::Fit;
use serde::Serialize;

/// What is tightest comes first; more of it than this helps nobody.
const MOST: usize = 20;

#[derive(Serialize)]
pub(super) struct Measures {
    closed: Option<ClosedRow>,
    open: Option<OpenRow>,
    clearances: Vec<ClearanceRow>,
}

#[derive(Serialize)]
struct ClosedRow {
    spine_mm: f64,
    at_spine_mm: f64,
    thickest_mm: f64,
    at_fore_edge_mm: f64,
    gape_deg: f64,
    cover_panel_mm: [f64; 2],
    cover_spine_mm: f64,
    pages: Vec<PageRow>,
}

#[derive(Serialize)]
#[allow(clippy::struct_field_names, reason = "programs read the unit off the name")]
struct PageRow {
    thickest_mm: f64,
    mean_mm: f64,
    room_mm: f64,
    stands_out_mm: f64,
}

#[derive(Serialize)]
struct OpenRow {
    between: [usize; 2],
    lift_mm: f64,
    slope_deg: f64,
    lift_on_one_score_mm: f64,
}

#[derive(Serialize)]
struct ClearanceRow {
    about: String,
    way: &'static str,
    spare_mm: f64,
    spare_by_hand_mm: f64,
}

impl Measures {
    /// `tolerance` is how far off, mm, a cut by hand may be.
    pub(super) fn new(fit: &Fit, tolerance: f64) -> Self {
        let closed = fit.closed.as_ref().map(|closed| ClosedRow {
            spine_mm: tidy(closed.spine),
            at_spine_mm: tidy(closed.at_spine),
            thickest_mm: tidy(closed.thickest),
            at_fore_edge_mm: tidy(closed.at_fore_edge),
            gape_deg: tidy(closed.gape.to_degrees()),
            cover_panel_mm: [tidy(closed.cover[0]), tidy(closed.cover[1])],
            cover_spine_mm: tidy(closed.cover[2]),
            pages: closed
                .pages
                .iter()
                .map(|page| PageRow {
                    thickest_mm: tidy(page.greatest),
                    mean_mm: tidy(page.mean),
                    room_mm: tidy(page.room),
                    stands_out_mm: tidy(page.stands_out),
                })
                .collect(),
        });
        let open = fit.openings.as_ref().map(|openings| OpenRow {
            between: [openings.worst.between, openings.worst.between + 1],
            lift_mm: tidy(openings.worst.lift),
            slope_deg: tidy(openings.worst.slope.abs().to_degrees()),
            lift_on_one_score_mm: tidy(openings.one_score),
        });
        let clearance = |clearance: &crate::fit::Clearance| ClearanceRow {
            about: clearance.about.to_string(),
            way: clearance.what,
            spare_mm: tidy(clearance.spare),
            spare_by_hand_mm: tidy(clearance.by_hand(tolerance)),
        };
        Self { closed, open, clearances: fit.clearances.iter().take(MOST).map(clearance).collect() }
    }
}
