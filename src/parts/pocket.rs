// SPDX-License-Identifier: MIT
//! Pockets: how each side of one ends, and what that leaves to what is put into it.
//!
//! ```text
//!          Open                a sealed side, from the end, with a stack q thick beside it:
//!        +- - - -+
//!        |       |                 ____________
//! Sealed |       | Flap       d/2 <______  | q       the fold takes d/2, the sheets come together by q/2
//!        +-------+                 ------------
//!         Sealed
//! ```
//!
//! Stated once for both directions. A fold takes half of what a sleeve's two folds take, d, from one caliper (sharp) to pi
//! calipers (round; H5). Two sheets that are sealed at both sides and held q apart come together by q, at one side by
//! half of that (D5, C1, H12). A flap's fold takes its d/2 and holds nothing together: what is inside may stand out under
//! the flap as far as that (H10). A side that is open takes nothing.

use super::bond::Side;
use crate::net::bend::sleeve_loss;

/// How a pocket ends at one of its sides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum PocketEnd {
    /// Nothing is there: hands reach in, or the hinge's tab does.
    Open,
    /// The fold of a flap that closes over it, or tucks into it.
    Flap,
    /// A fold or a stuck seam holds its two sheets together.
    Sealed,
}

/// A direction in a pocket.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// From the spine to the fore-edge.
    Across,
    /// From the tail to the head.
    Up,
}

/// A sleeve of a page that things can be put into.
#[derive(Clone, Debug)]
pub struct Pocket {
    /// Its page, from 1.
    pub page: usize,
    /// Width of its front, mm, nominal.
    pub width: f64,
    /// Height of its front where that is lowest, mm, nominal.
    pub height: f64,
    /// How far what is in it may stand out of its front at the fore-edge and at the head, mm.
    pub beyond: [f64; 2],
    /// How far a thumb notch or a pattern is cut into its front at the fore-edge and at the head, mm.
    pub notch: [f64; 2],
    /// How it ends at the spine and at the fore-edge.
    pub across: [PocketEnd; 2],
    /// How it ends at the tail and at the head.
    pub up: [PocketEnd; 2],
    /// How much of its width the hinge's tab takes, mm.
    pub tab: f64,
    /// Caliper of its card, mm.
    pub caliper: f64,
    /// Whether its back is part of a leaf that is held flat between seams at the left and at the right: that gives nothing
    /// (H12).
    pub flat: bool,
    /// Number of the pocket on whose front this one is stuck.
    pub on: Option<usize>,
    /// Whether the corners of a print stand into it.
    pub corners: bool,
    /// The side that a thing put into it lies on.
    pub inside: Side,
}

impl Pocket {
    /// How it ends, from the spine or the tail on.
    #[must_use]
    pub const fn ends(&self, way: Way) -> [PocketEnd; 2] {
        match way {
            Way::Across => self.across,
            Way::Up => self.up,
        }
    }

    /// How many of its sides in this direction are sealed.
    #[must_use]
    pub fn sealed(&self, way: Way) -> u32 {
        self.ends(way).into_iter().map(|end| u32::from(end == PocketEnd::Sealed)).sum()
    }

    /// Its front in this direction, beside the hinge's tab, mm, nominal.
    #[must_use]
    pub fn front(&self, way: Way) -> f64 {
        match way {
            Way::Across => self.width - self.tab,
            Way::Up => self.height,
        }
    }

    /// Room in this direction, mm, with a stack `stack` mm thick in it: where its folds are sharp, and where they are round.
    #[must_use]
    pub fn room(&self, way: Way, stack: f64) -> [f64; 2] {
        let all = self.front(way) + self.beyond[way as usize];
        let folds: f64 = self.ends(way).into_iter().map(|end| if end == PocketEnd::Open { 0.0 } else { 0.5 }).sum();
        sleeve_loss(self.caliper).map(|loss| all - folds * loss - self.taken(way, stack))
    }

    /// By how much its sheets come together in this direction over a stack, mm (D5, H12).
    #[must_use]
    pub fn taken(&self, way: Way, stack: f64) -> f64 {
        f64::from(self.sealed(way)) * stack / 2.0
    }

    /// The largest width and height, mm, that slide in it with `clearance` mm to spare in all, as part of a stack `stack` mm
    /// thick. A stack that takes more than the clearance needs what it takes. What a flap closes over stays behind the front.
    #[must_use]
    pub fn takes(&self, stack: f64, clearance: f64) -> [f64; 2] {
        [Way::Across, Way::Up].map(|way| {
            let flap = self.ends(way).contains(&PocketEnd::Flap);
            let [_, loss] = sleeve_loss(self.caliper);
            let front = self.front(way) + if flap { 0.0 } else { self.beyond[way as usize] };
            front - self.taken(way, loss) - clearance.max(self.taken(way, stack))
        })
    }

    /// How far inside its mouth the edge of something lies, mm, less than nothing where it stands out: at the head where that
    /// is a mouth, else at the fore-edge.
    #[must_use]
    pub fn deep(&self, (width, height): (f64, f64)) -> (Way, f64) {
        let across = (Way::Across, self.front(Way::Across) - self.notch[0] - width);
        let up = (Way::Up, self.height - self.notch[1] - height);
        let mouth = |way: Way| self.ends(way)[1] != PocketEnd::Sealed;
        match (mouth(Way::Across), mouth(Way::Up)) {
            (true, true) if up.1 < across.1 => up,
            (false, true) => up,
            _ => across,
        }
    }
}
