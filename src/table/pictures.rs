// SPDX-License-Identifier: MIT
//! Pictures of the album for the page: its run of pages, the whole of it, and how it comes together step by step.

use super::words;
use crate::album::Album;
use crate::finding::Said;
use crate::fit::order::{self, BondStep, Doing};
use crate::folded::{self, Folded};
use crate::parts::{Face, Kit, Owner, Piece, Purpose};
use crate::picture::{self, PagePose, PageView, Picture, Pose};
use crate::work::Work;
use crate::write;
use serde_json::{Value, json};

/// Room of a page's picture in the run, mm.
const SMALL: (f64, f64) = (60.0, 60.0);
/// Room of the album's pictures, mm.
const LARGE: (f64, f64) = (150.0, 130.0);
const WIDE: (f64, f64) = (240.0, 130.0);
/// How far the outermost leaves of an open album are turned from its middle, degrees: our choice.
const FANNED: f64 = 38.0;
/// How far flaps are closed, as a share of their way: our choice, so that one sees what they are.
const AJAR: f64 = 0.72;

/// A face has more to be seen where its lines are so much longer: less is the card's own thickness, at the one or the other edge.
const WORKED: f64 = 1.05;

/// Pictures, each once, and which of them each page has.
#[derive(Debug, Default)]
pub(super) struct Strip {
    /// The pictures as SVG.
    pub pictures: Vec<String>,
    /// For each page the number of its picture, and the face that it shows.
    pub pages: Vec<(usize, Face)>,
}

/// What is seen of an album that is worked on: its run of pages, and the whole of it.
#[derive(Debug)]
pub(super) struct AlbumSeen {
    pub strip: Strip,
    /// None where nothing of it can be made.
    pub open: Option<String>,
}

impl AlbumSeen {
    pub(super) fn of(album: &Album, kit: &Kit) -> Self {
        let folded = folded(album, kit);
        Self { strip: strip(album, kit, &folded), open: open(album, kit, &folded) }
    }
}

/// An album in space, whether or not it goes together.
pub(super) fn folded(album: &Album, kit: &Kit) -> Folded {
    let calipers: Vec<f64> = album.stocks.iter().map(|stock| stock.caliper.mm()).collect();
    folded::fold(kit, &calipers)
}

/// The pictures of a run of pages.
fn strip(album: &Album, kit: &Kit, folded: &Folded) -> Strip {
    let mut strip = Strip::default();
    for page in 1..=album.pages.len() {
        let (picture, face) = standing(album, kit, folded, page);
        let text = write::cutout(&picture);
        let number = strip.pictures.iter().position(|known| *known == text).unwrap_or_else(|| {
            strip.pictures.push(text);
            strip.pictures.len() - 1
        });
        strip.pages.push((number, face));
    }
    strip
}

/// One page as it stands in the run, from the face that it is worked on.
fn standing(album: &Album, kit: &Kit, folded: &Folded, page: usize) -> (Picture, Face) {
    worked(kit, &|_| true, &|face, show| {
        let view = PageView { page, face, pose: PagePose::Standing, ajar: AJAR };
        picture::page(album, kit, folded, view, show, SMALL)
    })
}

/// One page as it stands in the run; none where nothing of it is made.
pub(super) fn in_run(album: &Album, kit: &Kit, page: usize) -> Option<String> {
    shown(&standing(album, kit, &folded(album, kit), page).0)
}

/// One page as it lies, large, from the face that it is worked on.
pub(super) fn large_page(album: &Album, kit: &Kit, folded: &Folded, page: usize) -> Option<String> {
    shown(&lying(album, kit, folded, page, &|_| true))
}

fn lying(album: &Album, kit: &Kit, folded: &Folded, page: usize, show: &dyn Fn(usize) -> bool) -> Picture {
    let drawn = |face, show: &dyn Fn(usize) -> bool| {
        let view = PageView { page, face, pose: PagePose::Lying, ajar: AJAR };
        picture::page(album, kit, folded, view, show, LARGE)
    };
    worked(kit, show, &drawn).0
}

/// Draws those pieces of a page, seen from one of its faces, that it is told to.
type DrawFace<'a> = dyn Fn(Face, &dyn Fn(usize) -> bool) -> Picture + 'a;

/// A page from the face that it is worked on: the one on which more of it is to be seen without papers, which hide what they lie on;
/// its front where neither has more.
fn worked(kit: &Kit, show: &dyn Fn(usize) -> bool, drawn: &DrawFace<'_>) -> (Picture, Face) {
    let body = |piece: &Piece| kit.parts.get(piece.part).is_some_and(|part| part.purpose == Purpose::Body);
    let bare = |piece: usize| show(piece) && kit.pieces.get(piece).is_some_and(body);
    let [front, back] = [Face::Front, Face::Back].map(|face| drawn(face, &bare).lines_seen());
    let face = if back > front * WORKED { Face::Back } else { Face::Front };
    (drawn(face, show), face)
}

/// A picture as SVG; none where there is nothing to be drawn.
fn shown(picture: &Picture) -> Option<String> {
    (!picture.marks.is_empty()).then(|| write::cutout(picture))
}

/// The whole album standing with its pages fanned; none where nothing of it can be made.
pub(super) fn open(album: &Album, kit: &Kit, folded: &Folded) -> Option<String> {
    shown(&picture::album(album, kit, folded, Pose::Fanned(FANNED), &|_| true, LARGE))
}

/// The whole album closed.
pub(super) fn closed(album: &Album, kit: &Kit, folded: &Folded) -> String {
    write::cutout(&picture::album(album, kit, folded, Pose::Closed, &|_| true, LARGE))
}

/// The whole album laid open where it lies least flat; none where that is not known.
pub(super) fn laid(work: &Work, folded: &Folded) -> Option<(String, usize)> {
    let opening = &work.fit.openings.as_ref()?.worst;
    let drawn = picture::opened(&work.album, &work.kit, folded, opening, WIDE);
    Some((write::cutout(&drawn), opening.between))
}

/// The steps in which hands put the album together, each with what has been made by then; none for an album that does not
/// go together.
pub(super) fn steps(work: &Work) -> Vec<Value> {
    if work.stopped() {
        return Vec::new();
    }
    let (album, kit) = (&work.album, &work.kit);
    let folded = folded(album, kit);
    let steps = order::steps(kit);
    let mut stages: Vec<(Doing, Vec<BondStep>)> = Vec::new();
    for step in steps {
        match stages.last_mut() {
            Some((doing, steps)) if *doing == step.doing => steps.push(step),
            _ => stages.push((step.doing, vec![step])),
        }
    }
    let mut held = vec![false; kit.pieces.len()];
    let mut rows: Vec<Value> = Vec::new();
    let mut before = String::new();
    for (doing, steps) in stages {
        let mut now: Vec<usize> = Vec::new();
        for bond in steps.iter().filter_map(|step| kit.bonds.get(step.bond)) {
            now.extend([bond.one.piece, bond.other.piece]);
        }
        for piece in &now {
            if let Some(held) = held.get_mut(*piece) {
                *held = true;
            }
        }
        let held = |piece: usize| held.get(piece).copied().unwrap_or(false);
        let owner = |piece: usize| kit.pieces.get(piece).map(|piece| piece.owner);
        let bound = |piece: usize| held(piece) && matches!(owner(piece), Some(Owner::Spine | Owner::Cover));
        // A cover would hide what the page is slid on.
        let open = |piece: usize| held(piece) && owner(piece) != Some(Owner::Cover);
        let whole =
            |mine: &dyn Fn(usize) -> bool| picture::album(album, kit, &folded, Pose::Fanned(FANNED), mine, LARGE);
        let drawn = match doing {
            Doing::LineSleeve | Doing::MakePage | Doing::CoverFace | Doing::CoverTab => {
                one_page(work, &folded, &now, &held)
            }
            Doing::MakeInsert => Picture { width: 0.0, height: 0.0, marks: Vec::new() },
            Doing::StackStrips | Doing::MakeCover | Doing::LineCover => whole(&|piece| now.contains(&piece)),
            Doing::MeetCover => whole(&bound),
            Doing::HangPage => picture::sliding(album, kit, &folded, 1, &open, LARGE),
            Doing::FillPocket | Doing::PutRound => whole(&held),
        };
        let text = if drawn.marks.is_empty() { String::new() } else { write::cutout(&drawn) };
        let [words, about] = said(doing, steps.len() as u64);
        // What shows nothing new needs no picture.
        let picture = (text != before && !text.is_empty()).then_some(&text);
        rows.push(json!({ "words": words, "about": about, "picture": picture }));
        before = text;
    }
    rows
}

/// The page with the most folds of those that a step is about: the others are made alike.
fn one_page(work: &Work, folded: &Folded, pieces: &[usize], held: &dyn Fn(usize) -> bool) -> Picture {
    let pages = pieces.iter().filter_map(|number| work.kit.pieces.get(*number)).filter_map(|piece| match piece.owner {
        Owner::Page(page) => Some((piece.net.folds.len(), std::cmp::Reverse(page))),
        _ => None,
    });
    let page = pages.max().map_or(1, |(_, std::cmp::Reverse(page))| page);
    lying(&work.album, &work.kit, folded, page, held)
}

/// What is done, in so many places, and what to mind.
fn said(doing: Doing, places: u64) -> [String; 2] {
    let keys = match doing {
        Doing::LineSleeve => ["step-line-sleeve", "mind-line-sleeve"],
        Doing::MakePage => ["step-make-page", "mind-make-page"],
        Doing::CoverFace => ["step-cover-face", "mind-cover-face"],
        Doing::StackStrips => ["step-stack-strips", "mind-stack-strips"],
        Doing::MakeCover => ["step-make-cover", "mind-make-cover"],
        Doing::LineCover => ["step-line-cover", "mind-line-cover"],
        Doing::CoverTab => ["step-cover-tab", "mind-cover-tab"],
        Doing::MeetCover => ["step-meet-cover", "mind-meet-cover"],
        Doing::HangPage => ["step-hang-page", "mind-hang-page"],
        Doing::MakeInsert => ["step-make-insert", "mind-make-insert"],
        Doing::FillPocket => ["step-fill-pocket", "mind-fill-pocket"],
        Doing::PutRound => ["step-put-round", "mind-put-round"],
    };
    keys.map(|key| words::say(&Said::new(key).with("places", places)))
}
