// SPDX-License-Identifier: MIT
//! The plate of one kind: its flat parts with their sizes, and what they become.
//!
//! ```text
//!                 a wallet page
//!   +------+  +--+                 what it is when it is folded
//!   |      |  |  |
//!   +------+  +--+                 its pieces apart, half folded
//!    --- cut   - - valley          (key)
//! ```

mod legend;

use super::plate::Plate;
use super::space::Scene;
use super::stuff_of_piece;
use super::{Mark, Picture, Pose, stuff};
use crate::album::{Album, Role};
use crate::contour::Point;
use crate::cutter::Cutter;
use crate::folded::{self, Folded};
use crate::length::Length;
use crate::net::{Stand, Use};
use crate::parts::{self, Kit, Maker, Owner, Part, Piece};
use crate::trial::Trial;
use glam::{DAffine3, DMat3, DVec3};

/// A4 lying, mm.
const SIZE: (f64, f64) = (297.0, 210.0);
const MARGIN: f64 = 12.0;
/// What the pictures of folded things take of the width.
const SOLID: f64 = 96.0;
/// Between parts, mm.
const GAP: f64 = 6.0;
const TITLE: f64 = 7.0;
const TEXT: f64 = 3.8;
const SMALL: f64 = 3.3;
/// How far half-folded pieces are folded, as a share of the whole way; our choice.
const HALF: f64 = 0.55;

/// Drawn sizes over true ones, the largest that fits is taken.
const SCALES: [(f64, &str); 10] = [
    (1.0, "at true size"),
    (1.0 / 1.5, "at two thirds of true size"),
    (0.5, "at half of true size"),
    (0.4, "at two fifths of true size"),
    (1.0 / 3.0, "at a third of true size"),
    (0.25, "at a quarter of true size"),
    (0.2, "at a fifth of true size"),
    (1.0 / 6.0, "at a sixth of true size"),
    (0.125, "at an eighth of true size"),
    (0.1, "at a tenth of true size"),
];

/// The plate of a kind, drawn from its example; none if that makes no album.
#[must_use]
pub fn kind(maker: &'static Maker) -> Option<Picture> {
    let album = parts::example_album(maker)?;
    let cutter = Cutter::default();
    let made = Trial::of(album, &cutter);
    let (album, kit) = (&made.album, made.kit()?);
    let calipers: Vec<f64> = album.stocks.iter().map(|stock| stock.caliper.mm()).collect();
    let folded = folded::fold(kit, &calipers);
    Some(plate(maker, album, kit, &folded))
}

fn plate(maker: &Maker, album: &Album, kit: &Kit, folded: &Folded) -> Picture {
    let sheet = Subject { maker, album, kit, folded };
    let mut picture = Picture { width: SIZE.0, height: SIZE.1, marks: Vec::new() };
    let middle = SIZE.0 / 2.0;
    let name = format!("{} ({})", maker.kind.name, maker.kind.role.word());
    picture.words(Point::new(middle, SIZE.1 - MARGIN - TITLE * 0.3), TITLE, name);
    picture.words(Point::new(middle, SIZE.1 - MARGIN - TITLE - 2.5), TEXT, maker.kind.about.into());
    let top = SIZE.1 - MARGIN - TITLE - 9.0;
    let bottom = MARGIN + 15.0;
    let left = SIZE.0 - MARGIN - SOLID;
    let scale = sheet.flat_parts(&mut picture, (MARGIN, bottom), (left - GAP - MARGIN, top - bottom));
    sheet.solid(&mut picture, (left, bottom), (SOLID, top - bottom));
    sheet.key(&mut picture, scale);
    picture
}

struct Subject<'a> {
    maker: &'a Maker,
    album: &'a Album,
    kit: &'a Kit,
    folded: &'a Folded,
}

impl Subject<'_> {
    fn is_mine(&self, owner: Owner) -> bool {
        matches!(
            (self.maker.kind.role, owner),
            (Role::Page, Owner::Page(1))
                | (Role::Spine, Owner::Spine)
                | (Role::Cover, Owner::Cover)
                | (Role::Insert, Owner::Insert(_))
        )
    }

    /// The pieces that the kind makes.
    fn pieces(&self) -> impl Iterator<Item = (usize, &Piece)> {
        self.kit.pieces.iter().enumerate().filter(|(_, piece)| self.is_mine(piece.owner))
    }

    /// Its distinct parts, the tallest first.
    fn parts(&self) -> Vec<&Part> {
        let mut numbers: Vec<usize> = self.pieces().map(|(_, piece)| piece.part).collect();
        numbers.sort_unstable();
        numbers.dedup();
        let mut parts: Vec<&Part> = numbers.into_iter().filter_map(|number| self.kit.parts.get(number)).collect();
        parts.sort_by(|one, two| two.flat.height.total_cmp(&one.flat.height));
        parts
    }

    /// Draws the flat parts into a box, all at the same scale, and says at which.
    fn flat_parts(&self, picture: &mut Picture, at: (f64, f64), room: (f64, f64)) -> &'static str {
        let say = |mm: f64| Length::from_mm(mm).read_off(self.album.units).plain(self.album.units);
        let parts = self.parts();
        let last = SCALES.len() - 1;
        for (number, (scale, words)) in SCALES.iter().enumerate() {
            let plates: Vec<Plate> = parts
                .iter()
                .map(|part| {
                    let mut plate =
                        super::part::draw(part, &stuff(self.album, part), *scale, super::PartWords::plain(&say));
                    let under = Point::new(part.flat.width * scale / 2.0, plate.bounds().y0 - SMALL * 1.1);
                    plate.label(Mark::Words { at: under, size: SMALL, text: caption(part), upwards: false });
                    plate
                })
                .collect();
            let rows = shelves(&plates, room.0);
            let tall: f64 = rows.iter().map(|row| row_height(&plates, row) + GAP).sum::<f64>() - GAP;
            let wide = plates.iter().map(Plate::width).fold(0.0, f64::max);
            if (tall > room.1 || wide > room.0) && number < last {
                continue;
            }
            let spare = ((room.1 - tall) / 2.0).max(0.0);
            let mut y = at.1 + room.1 - spare;
            let mut plates: Vec<Option<Plate>> = plates.into_iter().map(Some).collect();
            for row in rows {
                let mine: Vec<Plate> = row.iter().filter_map(|&number| plates.get_mut(number)?.take()).collect();
                let height = mine.iter().map(Plate::height).fold(0.0, f64::max);
                #[allow(clippy::cast_precision_loss, reason = "a plate has few parts")]
                let gaps = (mine.len() + 1) as f64;
                let gap = (room.0 - mine.iter().map(Plate::width).sum::<f64>()) / gaps;
                y -= height;
                let mut x = at.0 + gap;
                for plate in mine {
                    let width = plate.width();
                    plate.put(picture, Point::new(x + width / 2.0, y));
                    x += width + gap;
                }
                y -= GAP;
            }
            return words;
        }
        ""
    }

    /// Draws what the parts become, one picture above the other.
    fn solid(&self, picture: &mut Picture, at: (f64, f64), room: (f64, f64)) {
        let half = (room.0, (room.1 - GAP) / 2.0 - SMALL * 2.0);
        let shown = self.shown(half);
        #[allow(clippy::cast_precision_loss, reason = "two at most")]
        let share = room.1 / shown.len().max(1) as f64;
        let mut top = at.1 + room.1;
        for (solid, words) in shown {
            let middle = Point::new(at.0 + room.0 / 2.0, top - share / 2.0);
            let low = Point::new(middle.x - solid.width / 2.0, middle.y - solid.height / 2.0 + SMALL);
            picture.words(Point::new(middle.x, low.y - SMALL), SMALL, words.into());
            picture.put(solid, low);
            top -= share;
        }
    }

    fn shown(&self, room: (f64, f64)) -> Vec<(Picture, &'static str)> {
        let whole = |pose| super::album(self.album, self.kit, self.folded, pose, &|_| true, room);
        match self.maker.kind.role {
            Role::Cover => vec![(whole(Pose::Closed), "closed"), (whole(Pose::Fanned(40.0)), "standing open")],
            Role::Spine => vec![
                (self.scene(&Stand::IDENTITY, 1.0, 0.0).picture(room), "as it stands, without its pages"),
                (whole(Pose::Fanned(35.0)), "with four pages"),
            ],
            Role::Page => {
                let lying = DAffine3::from_mat3(DMat3::from_cols(-DVec3::Z, DVec3::Y, DVec3::X));
                let flaps = self.pieces().any(|(_, piece)| piece.net.panels.iter().any(|p| p.purpose == Use::Flap));
                let closed = self.scene(&lying, 1.0, 0.0).picture(room);
                let mut shown = vec![(closed, if flaps { "closed" } else { "finished" })];
                if self.pieces().count() > 1 {
                    shown.push((self.scene(&lying, HALF, 45.0).picture(room), "its pieces, half folded"));
                } else if self.folds() {
                    shown.push((self.scene(&lying, HALF, 0.0).picture(room), "half folded"));
                }
                shown
            }
            Role::Insert => {
                let first = self.pieces().next().and_then(|(number, _)| self.folded.stand(number, 0)).copied();
                let level = first.unwrap_or(Stand::IDENTITY).inverse();
                let mut shown = vec![(self.scene(&level, 1.0, 0.0).picture(room), "finished")];
                if self.folds() {
                    shown.push((self.scene(&level, HALF, 0.0).picture(room), "half folded"));
                }
                shown
            }
        }
    }

    fn folds(&self) -> bool {
        self.pieces().any(|(_, piece)| !piece.net.folds.is_empty())
    }

    /// The kind's pieces where they stand, moved by `by`, `apart` mm from each other, every fold turned a share of its way.
    fn scene(&self, by: &Stand, share: f64, apart: f64) -> Scene {
        let mut scene = Scene::default();
        let mut pieces: Vec<(f64, usize, &Piece, Stand)> = self
            .pieces()
            .map(|(number, piece)| {
                let stand = by * self.folded.stand(number, 0).copied().unwrap_or(by.inverse());
                (stand.translation.z, number, piece, stand)
            })
            .collect();
        pieces.sort_by(|one, two| one.0.total_cmp(&two.0).then(one.1.cmp(&two.1)));
        for (place, (_, number, piece, stand)) in pieces.into_iter().enumerate() {
            let caliper = self.folded.calipers.get(number).copied().unwrap_or(0.0);
            let degrees = |fold: usize| piece.net.folds.get(fold).map_or(0.0, |fold| fold.angle * share);
            let stands = piece.net.folded_to(caliper, &degrees);
            #[allow(clippy::cast_precision_loss, reason = "a kind has few pieces")]
            let lifted = Stand::from_translation(DVec3::Z * (apart * place as f64)) * stand;
            let stuff = stuff_of_piece(self.album, self.kit, piece);
            scene.piece(&piece.net, &stands, caliper, &stuff, &lifted);
        }
        scene
    }
}

/// `2 x board`, or `board`.
fn caption(part: &Part) -> String {
    if part.count > 1 { format!("{} × {}", part.count, part.kind) } else { part.kind.into() }
}

/// Which plates stand beside each other, row by row.
fn shelves(plates: &[Plate], width: f64) -> Vec<Vec<usize>> {
    let mut rows: Vec<Vec<usize>> = Vec::new();
    let mut used = f64::INFINITY;
    for (number, plate) in plates.iter().enumerate() {
        if used + GAP + plate.width() > width {
            rows.push(Vec::new());
            used = -GAP;
        }
        if let Some(row) = rows.last_mut() {
            row.push(number);
        }
        used += GAP + plate.width();
    }
    rows
}

fn row_height(plates: &[Plate], row: &[usize]) -> f64 {
    row.iter().filter_map(|&number| plates.get(number)).map(Plate::height).fold(0.0, f64::max)
}

impl Picture {
    /// Words about a point, read from below.
    pub(super) fn words(&mut self, at: Point, size: f64, text: String) {
        self.marks.push(Mark::Words { at, size, text, upwards: false });
    }
}
