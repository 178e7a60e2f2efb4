// SPDX-License-Identifier: MIT
//! How long it takes to lay an album open at every place: `cargo bench --bench opening`. Figures are for people to
//! compare; nothing is asserted.

use hingeleaf::fit::linkage::{CrossSection, Leaf};
use std::time::Instant;

fn main() {
    for (what, pages, gusset, thickness) in [
        ("4 pages that lie flat", 4, 6.0, 1.2),
        ("20 pages, some lean", 20, 6.0, 1.2),
        ("40 pages, most lean", 40, 6.0, 1.2),
        ("40 thick pages", 40, 6.0, 5.0),
        ("40 pages, long gussets", 40, 30.0, 1.2),
    ] {
        let leaf = |number: u32| Leaf {
            root: f64::from(number) * 6.0,
            gusset,
            width: 150.0,
            thickness,
            weight: 1.0,
            stands_back: 0.0,
            cover: false,
        };
        let section = CrossSection {
            base: f64::from(pages - 1) * 6.0,
            leaves: (0..pages).map(leaf).collect(),
            free: true,
            loose: false,
        };
        timed(&format!("{what}: every opening"), || section.worst().map_or(0.0, |(_, opening)| opening.lift));
        timed(&format!("{what}: the least gusset"), || {
            section.gusset_for(2.0_f64.to_radians(), 0.5).unwrap_or_default()
        });
    }
}

fn timed(what: &str, run: impl Fn() -> f64) {
    let mut times: Vec<f64> = (0..15)
        .map(|_| {
            let begun = Instant::now();
            std::hint::black_box(run());
            begun.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    times.sort_by(f64::total_cmp);
    println!("{what:<50} {:9.3} ms (from {:.3} to {:.3})", times[7], times[0], times[14]);
}
