// SPDX-License-Identifier: MIT
//! What hands do besides folding and sticking: ribbons, sewing, prints, tabs over edges.

use super::bits::Step;
use super::desk::Desk;
use super::holding;
use super::joints::Joint;
use super::line::{Line, What};
use super::measure;
use super::told::Told;
use crate::contour::Contour;
use crate::net::Use;
use crate::parts::{Bond, Deed, Face, Holds, Owner, Purpose};

/// How long a ribbon is, and what of it is stuck inside, mm: our choice.
pub(super) const RIBBON: f64 = 300.0;
const END: f64 = 25.0;

/// Thread is cut so many times as long as the fold is: common practice, no source.
pub(super) const THREAD: f64 = 3.0;

/// A print is held by so many corners.
pub(super) const CORNERS: u64 = 4;

/// Whether a deed has to do with photographs.
pub(super) const fn is_photograph(deed: &Deed) -> bool {
    matches!(deed, Deed::Mount { .. } | Deed::Print { .. })
}

/// Deeds for which words are the same, one step; what goes into its head is found by the first of them.
fn merged(desk: &Desk<'_>, make: impl Fn(&Deed) -> Option<(Step, Option<Owner>)>) -> Vec<(Step, Vec<Owner>)> {
    let mut steps: Vec<(Step, Vec<Owner>)> = Vec::new();
    for (number, deed) in desk.kit().deeds.iter().enumerate() {
        let Some((mut step, owner)) = make(deed) else { continue };
        step.of.push(Told::Deed(number));
        let same = |one: &Step| one.head == step.head && one.lines == step.lines;
        match steps.iter_mut().find(|(one, _)| same(one)) {
            Some((one, owners)) => {
                one.of.append(&mut step.of);
                owners.extend(owner);
            }
            None => steps.push((step, owner.into_iter().collect())),
        }
    }
    steps
}

/// With all that are alike, where that is more than one.
fn times(desk: &Desk<'_>, (mut step, _): (Step, Vec<Owner>)) -> Step {
    if step.of.len() > 1 {
        let many = measure::count(whole(step.of.len()), What::Many, "deeds");
        step.lines.push(desk.say("score-all", vec![("n", many)]));
    }
    step
}

/// Whether a joint lays something inside over the slot of a ribbon.
pub(super) fn hides_tie(desk: &Desk<'_>, joint: &Joint) -> bool {
    let kit = desk.kit();
    let Some(bond) = joint.bonds.first().and_then(|bond| kit.bonds.get(*bond)) else { return false };
    let (glued, faced) = (holding::glued(kit, bond), holding::faced(kit, bond));
    let part = kit.pieces.get(glued.piece).and_then(|piece| kit.parts.get(piece.part));
    let lines = part.is_some_and(|part| part.purpose != Purpose::Body) && faced.face == Face::Back;
    let tied = |deed: &Deed| matches!(deed, Deed::Tie { through, .. } if through.iter().any(|(piece, _)| *piece == faced.piece));
    lines && kit.deeds.iter().any(tied)
}

/// The ribbons of a cover.
pub(super) fn ties(desk: &Desk<'_>) -> Vec<Step> {
    let tie = |deed: &Deed| {
        let Deed::Tie { through, width } = deed else { return None };
        let pieces = outer(desk, through.first().copied()).into_iter().chain(through.iter().map(|(piece, _)| *piece));
        let parts = pieces.filter_map(|piece| desk.kit().pieces.get(piece)).map(|piece| desk.named(piece.part));
        let parts = desk.words.list(parts.collect());
        let width = desk.length(*width, What::Length, "ribbon");
        let mut step = Step::new(desk.say("tie-head", vec![("width", width), ("parts", parts)]));
        let end = desk.length(super::given::roughly(desk, END), What::Length, "ribbon");
        step.lines = vec![desk.tell("tie-through"), desk.say("tie-end", vec![("end", end)])];
        Some((step, None))
    };
    merged(desk, tie).into_iter().map(|step| times(desk, step)).collect()
}

/// The pieces that are stuck outside on what a ribbon goes through, with a hole at its slot.
fn outer(desk: &Desk<'_>, slot: Option<(usize, usize)>) -> Vec<usize> {
    let kit = desk.kit();
    let Some((piece, hole)) = slot else { return Vec::new() };
    let Some(slot) = kit.pieces.get(piece).and_then(|piece| piece.net.holes.get(hole)) else { return Vec::new() };
    let open = |bond: &Bond| {
        let (glued, faced) = (holding::glued(kit, bond), holding::faced(kit, bond));
        let holes = &kit.pieces.get(glued.piece)?.net.holes;
        let at = |hole: &Contour| holding::laid(glued, faced, hole.bounds().center());
        let here = faced.piece == piece && faced.face == Face::Front;
        let over = |hole: &Contour| at(hole).distance(slot.bounds().center()) < slot.bounds().height();
        (here && holes.iter().any(over)).then_some(glued.piece)
    };
    kit.bonds.iter().filter_map(open).collect()
}

/// What is done to an insert's pieces: leaves are sewn, prints are fixed.
pub(super) fn of_insert(desk: &Desk<'_>, owner: Owner) -> Vec<Step> {
    let kit = desk.kit();
    let mine = |piece: usize| kit.pieces.get(piece).filter(|piece| piece.owner == owner);
    let deed = |deed: &Deed| match deed {
        Deed::Sew { leaves, holes } => {
            let pieces: Option<Vec<Line>> = leaves.iter().map(|leaf| Some(desk.named(mine(*leaf)?.part))).collect();
            let mut step = Step::new(desk.say("sew-head", vec![("parts", desk.words.list(pieces?))]));
            let sewn: &[&str] = if *holes > 3 {
                &["sew-pierce", "sew-thread", "sew-five-up", "sew-five-down", "sew-knot"]
            } else {
                &["sew-pierce", "sew-thread", "sew-three", "sew-knot"]
            };
            step.lines = sewn.iter().map(|key| desk.tell(key)).collect();
            Some((step, None))
        }
        Deed::Mount { piece, print, window } => {
            let part = kit.parts.get(mine(*piece)?.part)?;
            let side = |length: f64| desk.length(length, What::Length, "print");
            let named = desk.named(mine(*piece)?.part);
            let places = vec![("width", side(print.0)), ("height", side(print.1)), ("part", named)];
            let mut step = Step::new(desk.say("mount-head", places));
            let border = |size: f64, print: f64| desk.length((size - print) / 2.0, What::Length, "border");
            let sides = vec![("left", border(part.flat.width, print.0)), ("top", border(part.flat.height, print.1))];
            step.lines = if *window {
                vec![desk.tell("mount-behind"), desk.tell("mount-behind-hold")]
            } else {
                vec![desk.tell("mount-corners"), desk.say("mount-place", sides)]
            };
            Some((step, None))
        }
        Deed::Tie { .. } | Deed::Clip { .. } | Deed::Print { .. } => None,
    };
    merged(desk, deed).into_iter().map(|step| times(desk, step)).collect()
}

/// Prints that pages hold by themselves.
pub(super) fn prints(desk: &Desk<'_>) -> Vec<Step> {
    let deed = |deed: &Deed| {
        let Deed::Print { page, piece, by, print } = deed else { return None };
        let part = desk.kit().pieces.get(*piece)?.part;
        let places = vec![
            ("width", desk.length(print.0, What::Length, "print")),
            ("height", desk.length(print.1, What::Length, "print")),
            ("part", desk.named(part)),
        ];
        let (head, how) = match by {
            Holds::Slots => ("print-slots", "print-slots-how"),
            Holds::Corners => ("print-corners", "print-corners-how"),
            Holds::Window => ("print-window", "print-window-how"),
        };
        let mut step = Step::new(desk.say(head, places));
        step.lines.push(desk.tell(how));
        Some((step, Some(Owner::Page(*page))))
    };
    let on_pages = |(mut step, pages): (Step, Vec<Owner>)| {
        step.lines.insert(0, desk.say("print-pages", vec![("pages", desk.pages(&pages))]));
        step
    };
    merged(desk, deed).into_iter().map(on_pages).collect()
}

/// Tabs that go over an edge.
pub(super) fn clips(desk: &Desk<'_>) -> Vec<Step> {
    let deed = |deed: &Deed| {
        let Deed::Clip { piece, grip } = deed else { return None };
        let part = desk.kit().pieces.get(*piece)?.part;
        let mut step = Step::new(desk.say("clip-head", vec![("part", desk.named(part))]));
        step.lines.push(desk.tell("clip-where"));
        step.lines.push(desk.say("clip-glue", vec![("grip", desk.length(*grip, What::Length, "grip"))]));
        Some((step, None))
    };
    merged(desk, deed).into_iter().map(|step| times(desk, step)).collect()
}

/// Pieces of inserts that go into no pocket and over no edge.
pub(super) fn loose(desk: &Desk<'_>) -> Vec<Step> {
    let kit = desk.kit();
    let joined = |number: usize| {
        let bonds = kit.bonds.iter().any(|bond| bond.one.piece == number || bond.other.piece == number);
        let deeds = kit.deeds.iter().any(|deed| match deed {
            Deed::Sew { leaves, .. } => leaves.contains(&number),
            Deed::Mount { piece, .. } | Deed::Clip { piece, .. } => *piece == number,
            Deed::Tie { .. } | Deed::Print { .. } => false,
        });
        bonds || deeds
    };
    let mut steps: Vec<(usize, Step)> = Vec::new();
    for (number, piece) in kit.pieces.iter().enumerate().filter(|(number, _)| !joined(*number)) {
        if !matches!(piece.owner, Owner::Insert(_)) {
            continue;
        }
        if !steps.iter().any(|(part, _)| *part == piece.part) {
            steps.push((piece.part, Step::new(desk.say("loose-head", vec![("part", desk.named(piece.part))]))));
        }
        if let Some((_, step)) = steps.iter_mut().find(|(part, _)| *part == piece.part) {
            step.of.push(Told::Loose(number));
        }
    }
    steps.into_iter().map(|(_, step)| step).collect()
}

/// The flaps by which a concertina is stuck on the insides of its cover.
pub(super) fn end_flaps(desk: &Desk<'_>) -> Option<Step> {
    let of: Vec<Told> =
        unplaced(desk, Use::End).into_iter().map(|(piece, panel)| Told::EndFlap(piece, panel)).collect();
    (!of.is_empty()).then(|| {
        let mut step = Step::new(desk.tell("flaps-head"));
        step.lines = ["flaps-glue", "flaps-press", "flaps-why"].map(|key| desk.tell(key)).to_vec();
        step.of = of;
        step
    })
}

/// The bases of a concertina that no bond places: they go on the cover with the one that it does.
pub(super) fn bases(desk: &Desk<'_>) -> Vec<Told> {
    unplaced(desk, Use::Base).into_iter().map(|(piece, panel)| Told::Base(piece, panel)).collect()
}

/// Panels of the spine that are there for something and that no bond names.
fn unplaced(desk: &Desk<'_>, purpose: Use) -> Vec<(usize, usize)> {
    let kit = desk.kit();
    let named = |number: usize, panel: usize| {
        let sides = kit.bonds.iter().flat_map(|bond| [bond.one, bond.other]);
        sides.into_iter().any(|side| side.piece == number && side.panel == panel)
    };
    let spine = kit.pieces.iter().enumerate().filter(|(_, piece)| piece.owner == Owner::Spine);
    let panels = spine.flat_map(|(number, piece)| {
        let panels = piece.net.panels.iter().enumerate().filter(move |(_, panel)| panel.purpose == purpose);
        panels.map(move |(panel, _)| (number, panel))
    });
    panels.filter(|(number, panel)| !named(*number, *panel)).collect()
}

fn whole(count: usize) -> u64 {
    u64::try_from(count).unwrap_or(u64::MAX)
}
