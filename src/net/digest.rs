// SPDX-License-Identifier: MIT
//! What a flat part is known by from one edition to the next.

use super::flat::{Flat, eighths, spot, spots_of};
use crate::contour::Contour;
use sha2::{Digest, Sha256};
use std::fmt::Write;

/// So many bytes of the SHA-256 are kept: 32 hexadecimal digits, by which no two parts will ever be mistaken by chance.
const KEPT: usize = 16;

impl Flat {
    /// A digest of what is cut and scored, equal for two parts exactly when one can be cut in place of the other as it lies.
    ///
    /// It is the first 16 bytes, in hexadecimal, of the SHA-256 of this text, in which every length is a whole number of
    /// eighths of a micrometre (1/64 in is 3175 of them), x right and y up from the lower left of the part's box:
    ///
    /// * `size WIDTH HEIGHT`;
    /// * `outline`, then `X Y BULGE` for each of its corners, counter-clockwise from the one that is farthest left (the lowest of
    ///   several); a bulge is the tangent of a quarter of the arc's angle, in 8000ths;
    /// * `hole`, then the same, clockwise, for each hole; the holes in the order of these numbers;
    /// * `score X Y X Y FOLD` for each score, its ends and then the scores in the order of these numbers, `FOLD` being
    ///   `valley`, `mountain` or `both`;
    ///
    /// each on a line that ends with a line feed. Its name, count, stock, caliper, kind and panels' names do not go in. A part
    /// that is turned or mirrored is another part, unless it lies as before.
    ///
    /// ```
    /// use hingeleaf::{contour::Contour, net::Net};
    /// let flat = |width| Net::single("page", Contour::rectangle(0.0, 0.0, width, 190.0)).flat().map(|flat| flat.digest());
    /// assert_eq!(flat(148.0), flat(148.0));
    /// assert_ne!(flat(148.0), flat(148.001));
    /// ```
    #[must_use]
    pub fn digest(&self) -> String {
        let mut hex = String::with_capacity(2 * KEPT);
        for byte in Sha256::digest(self.canonical().as_bytes()).iter().take(KEPT) {
            let _ = write!(hex, "{byte:02x}");
        }
        hex
    }

    /// The text that the digest is taken of.
    fn canonical(&self) -> String {
        let mut text = format!("size {} {}\n", eighths(self.width), eighths(self.height));
        let _ = writeln!(text, "outline{}", ring(&self.outline));
        let mut holes: Vec<&Contour> = self.holes.iter().collect();
        holes.sort_by_cached_key(|hole| spots_of(hole));
        for hole in holes {
            let _ = writeln!(text, "hole{}", ring(hole));
        }
        let mut scores: Vec<_> = self
            .scores
            .iter()
            .map(|score| {
                let (one, other) = (spot(score.from), spot(score.to));
                (one.min(other), one.max(other), score.sense.word())
            })
            .collect();
        scores.sort_unstable();
        for ((x, y), (to_x, to_y), fold) in scores {
            let _ = writeln!(text, "score {x} {y} {to_x} {to_y} {fold}");
        }
        text
    }
}

fn ring(contour: &Contour) -> String {
    let mut text = String::new();
    for ((x, y), bulge) in spots_of(contour) {
        let _ = write!(text, " {x} {y} {bulge}");
    }
    text
}

#[cfg(test)]
mod tests {
    use crate::contour::Contour;
    use crate::net::{Along, Flat, Net, RowPanel, Sense, Use};

    fn page(seam: f64, sense: Sense) -> Flat {
        let row =
            [RowPanel::new("seam", Use::Seam, seam), RowPanel::new("page", Use::Plain, 190.0).folded(sense, 180.0)];
        Net::row(Along::Up, 148.0, &row, 1).with_hole(Contour::rectangle(20.0, 50.0, 30.0, 60.0)).flat().unwrap()
    }

    #[test]
    fn the_text_says_all_that_is_cut_and_scored() {
        let text = page(12.0, Sense::Mountain).canonical();
        let lines = [
            "size 1184000 1616000",
            "outline 0 0 0 1184000 0 0 1184000 1616000 0 0 1616000 0",
            "hole 160000 400000 0 160000 880000 0 400000 880000 0 400000 400000 0",
            "score 0 96000 1184000 96000 mountain",
        ];
        assert_eq!(text.lines().collect::<Vec<_>>(), lines);
        // From an implementation of SHA-256 of its own (sha256sum).
        assert_eq!(page(12.0, Sense::Mountain).digest(), "3b8821f7ae89ec04dced1fcd270eddfd");
    }

    #[test]
    fn any_change_of_the_part_changes_it() {
        let base = page(12.0, Sense::Mountain);
        let mut others = vec![page(12.001, Sense::Mountain), page(12.0, Sense::Valley)];
        others.extend((1..4).map(|quarters| base.turned(quarters)));
        let mut whole = base.clone();
        whole.holes.clear();
        let mut unscored = base.clone();
        unscored.scores.clear();
        others.extend([whole, unscored]);
        for other in others {
            assert_ne!(other.digest(), base.digest(), "{}", other.canonical());
        }
    }

    #[test]
    fn where_a_walk_begins_is_no_part_of_it() {
        let base = page(12.0, Sense::Mountain);
        let mut other = base.clone();
        let corners: Vec<_> =
            base.outline.vertices().iter().map(|corner| (corner.at.x, corner.at.y, corner.bulge)).collect();
        other.outline = Contour::new(corners[2..].iter().chain(&corners[..2]).copied());
        for score in &mut other.scores {
            std::mem::swap(&mut score.from, &mut score.to);
        }
        assert_eq!(other.digest(), base.digest());
    }
}
