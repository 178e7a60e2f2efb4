// SPDX-License-Identifier: MIT
//! What is stuck on what: one step for what hands do at one go, made from the bonds that it speaks of.

use super::bits::{Figure, Step};
use super::desk::Desk;
use super::holding::{self, Stick};
use super::joints::{self, Job, Joint};
use super::line::{Line, What};
use super::told::Told;
use super::{measure, pictures, places};
use crate::fit::order::Doing;
use crate::net::{Net, Sense, Use};
use crate::parts::{Bond, Face, Owner, Side};

/// A fold that is turned less is none, degrees.
const TURNED: f64 = 1.0;

/// One joint of a job that is stuck, for all that it is made for.
pub(super) fn step(desk: &Desk<'_>, job: &Job, number: usize) -> Option<Step> {
    let joint = job.joints.get(number)?;
    let kit = desk.kit();
    let first = kit.bonds.get(*joint.bonds.first()?)?;
    let (glued, faced) = (holding::glued(kit, first), holding::faced(kit, first));
    let (one, other) = (kit.pieces.get(glued.piece)?, kit.pieces.get(faced.piece)?);
    let equal = job.doing == Doing::StackStrips && one.part == other.part && one.net.panels.len() == 1;
    let mut step = if equal {
        pile(desk, joint)
    } else if joints::nests(kit, job.doing, joint) {
        nest(desk, joint)
    } else if let Some(level) = joints::turned_in(&one.net, glued.panel) {
        turn_in(desk, glued.piece, level)
    } else {
        go(desk, job.doing, joint)?
    };
    step.lines.extend(places::elsewhere(desk, job, number));
    step.of.extend(job.bonds_of(number).into_iter().map(Told::Bond));
    let shows = desk.say("stick-picture", vec![("what", desk.piece(glued.piece)), ("on", desk.piece(faced.piece))]);
    let held = holding::stick(desk.job.album, kit, job.doing, *joint.bonds.first()?);
    let sides = sides(desk, joint).into_iter().map(|(glued, faced)| (*glued, *faced)).collect::<Vec<_>>();
    step.figure = pictures::stick(desk, &sides, held).map(|picture| Figure { picture, shows });
    Some(step)
}

/// The glued and the faced side of each bond of a joint.
fn sides<'a>(desk: &Desk<'a>, joint: &Joint) -> Vec<(&'a Side, &'a Side)> {
    let kit = desk.kit();
    let pair = |bond: &'a Bond| (holding::glued(kit, bond), holding::faced(kit, bond));
    joint.bonds.iter().filter_map(|bond| kit.bonds.get(*bond)).map(pair).collect()
}

/// Panels of one piece that are stuck on another one, or on itself.
fn go(desk: &Desk<'_>, doing: Doing, joint: &Joint) -> Option<Step> {
    let kit = desk.kit();
    let sides = sides(desk, joint);
    let &(glued, faced) = sides.first()?;
    let held: Vec<Stick> = joint.bonds.iter().map(|bond| holding::stick(desk.job.album, kit, doing, *bond)).collect();
    let itself = glued.piece == faced.piece;
    // What is closed at several alike places is told once: the peaks of a concertina.
    let alike = sides.len() > 1
        && sides.iter().all(|(side, on)| is_named_like(desk, side, glued) && is_named_like(desk, on, faced));
    let panels = if alike { desk.plain_name(glued) } else { desk.words.list(names(desk, &sides)) };
    let many = measure::count(if alike { 1 } else { whole(sides.len()) }, What::Many, "panels");
    let same_panel = alike || sides.iter().all(|(_, side)| side.panel == faced.panel);
    let on = match (itself, same_panel) {
        (true, true) if alike || !desk.is_main(faced) => {
            let name = if alike { desk.plain_name(faced) } else { desk.panel_name(faced) };
            desk.say("own-panel", vec![("panel", name)])
        }
        (true, true) => desk.say("own-face", vec![("face", face(desk, faced.face))]),
        (true, false) => desk.tell("own-other"),
        (false, true) => desk.panel(faced),
        (false, false) => desk.piece(faced.piece),
    };
    let what = if sides.len() == 1 && !itself {
        desk.panel(glued)
    } else if sides.len() == 1 || alike || itself {
        desk.say("panel-of", vec![("panel", panels.clone()), ("part", desk.piece(glued.piece))])
    } else {
        desk.say("panels-of", vec![("panels", panels.clone()), ("part", desk.piece(glued.piece))])
    };
    let places = || {
        vec![
            ("what", what.clone()),
            ("on", on.clone()),
            ("panel", panels.clone()),
            ("n", many.clone()),
            ("face", face(desk, glued.face)),
            ("side", face(desk, faced.face)),
        ]
    };
    let mut step = match held[0] {
        _ if doing == Doing::PutRound => Step::new(desk.say("round-head", vec![("what", desk.piece(glued.piece))])),
        Stick::Slides | Stick::Tab { .. } => Step::new(desk.say("slide-head", places())),
        Stick::Tape { .. } | Stick::Round { .. } => Step::new(desk.say("tape-head", places())),
        Stick::Glue => Step::new(desk.say("glue-head", places())),
    };
    step.lines.extend(if alike {
        spread(desk, &sides[..1], &held[..1], &|side| desk.plain_name(side))
    } else {
        spread(desk, &sides, &held, &|side| desk.panel_name(side))
    });
    match held[0] {
        Stick::Tape { .. } => step.lines.push(desk.say("tape-press", places())),
        Stick::Round { .. } => step.lines.push(desk.say("round-press", places())),
        Stick::Glue => step.lines.push(desk.say("glue-press", places())),
        Stick::Slides | Stick::Tab { .. } => {}
    }
    if held.contains(&Stick::Glue) {
        step.warn.push(warning(desk, doing, glued)?);
    }
    if !itself && held[0] != Stick::Slides {
        step.lines.extend(places::borders(desk, glued, faced));
    }
    if alike {
        let of = measure::count(whole(sides.len()), What::Many, desk.id(kit.pieces.get(glued.piece)?.part));
        step.lines.push(desk.say("stick-times", vec![("n", of)]));
    }
    step.lines.extend(places::again(desk, joint));
    Some(step)
}

/// Leaves that lie in one another: each part once, and then all copies alike.
fn nest(desk: &Desk<'_>, joint: &Joint) -> Step {
    let sides = sides(desk, joint);
    let part = |side: &Side| desk.kit().pieces.get(side.piece).map(|piece| piece.part);
    let mut inner: Vec<usize> = Vec::new();
    inner.extend(sides.iter().filter_map(|(side, _)| part(side)));
    let copies = inner.iter().filter(|one| Some(*one) == inner.first()).count();
    let mut seen = Vec::new();
    inner.retain(|one| {
        !seen.contains(one) && {
            seen.push(*one);
            true
        }
    });
    let outer = sides.first().and_then(|(_, side)| part(side)).map_or_else(Line::default, |part| desk.named(part));
    let what = desk.words.list(inner.into_iter().map(|part| desk.named(part)).collect());
    let mut step = Step::new(desk.say("nest-head", vec![("what", what), ("on", outer)]));
    step.lines.push(desk.tell("nest-how"));
    if copies > 1 {
        step.lines.push(desk.say("score-all", vec![("n", measure::count(whole(copies), What::Many, "copies"))]));
    }
    step
}

/// What to mind with wet glue.
pub(super) fn warning(desk: &Desk<'_>, doing: Doing, glued: &Side) -> Option<Line> {
    let free = doing == Doing::StackStrips && one_bends(&desk.kit().pieces.get(glued.piece)?.net);
    Some(desk.tell(if free { "glue-warn-gusset" } else { "glue-warn" }))
}

fn one_bends(net: &Net) -> bool {
    net.panels.iter().any(|panel| panel.purpose == Use::Gusset)
}

pub(super) fn face(desk: &Desk<'_>, face: Face) -> Line {
    Line::text(desk.words.text(if face == Face::Front { "face-front" } else { "face-back" }))
}

/// Whether two panels have one name, numbers aside.
fn is_named_like(desk: &Desk<'_>, one: &Side, other: &Side) -> bool {
    one.piece == other.piece && desk.plain_name(one) == desk.plain_name(other)
}

fn names(desk: &Desk<'_>, sides: &[(&Side, &Side)]) -> Vec<Line> {
    sides.iter().map(|(side, _)| desk.panel_name(side)).collect()
}

/// What is put on the panels: what is alike in one sentence.
pub(super) fn spread(
    desk: &Desk<'_>,
    sides: &[(&Side, &Side)],
    held: &[Stick],
    name: &dyn Fn(&Side) -> Line,
) -> Vec<Line> {
    let mut groups: Vec<(Stick, Face, Vec<Line>)> = Vec::new();
    for ((glued, _), held) in sides.iter().zip(held) {
        let like = |group: &&mut (Stick, Face, Vec<Line>)| group.0.is_like(*held) && group.1 == glued.face;
        match groups.iter_mut().find(like) {
            Some(group) => group.2.push(name(glued)),
            None => groups.push((*held, glued.face, vec![name(glued)])),
        }
    }
    let Some((glued, _)) = sides.first() else { return Vec::new() };
    let of = desk.kit().pieces.get(glued.piece).map_or("", |piece| desk.id(piece.part));
    let line = |(held, on, panels): (Stick, Face, Vec<Line>)| {
        let several = panels.len() > 1;
        let mut places = vec![("face", face(desk, on)), ("panel", desk.words.list(panels))];
        let key = match held {
            Stick::Tape { length, width } | Stick::Round { length, width } => {
                let width = measure::number(desk.measure.show_both(width), width, What::TapeWidth, of);
                places.extend([("length", desk.length(length, What::Tape, of)), ("width", width)]);
                match held {
                    Stick::Round { .. } => "round-run",
                    _ if several => "tape-run-each",
                    _ => "tape-run",
                }
            }
            Stick::Glue if several => "glue-spread-each",
            Stick::Glue => "glue-spread",
            Stick::Slides | Stick::Tab { .. } => return None,
        };
        Some(desk.say(key, places))
    };
    groups.into_iter().filter_map(line).collect()
}

/// Tape round each of several pieces, whose lengths stand elsewhere.
pub(super) fn round_each(desk: &Desk<'_>, glued: &Side, width: f64) -> Line {
    let of = desk.kit().pieces.get(glued.piece).map_or("", |piece| desk.id(piece.part));
    let width = measure::number(desk.measure.show_both(width), width, What::TapeWidth, of);
    desk.say("round-run-each", vec![("width", width), ("face", face(desk, glued.face))])
}

/// Equal pieces one on the other: how many for each page, and on what.
fn pile(desk: &Desk<'_>, joint: &Joint) -> Step {
    let kit = desk.kit();
    let of_joint = joint.bonds.first().and_then(|bond| kit.bonds.get(*bond)).map(|bond| bond.one.piece);
    let part = of_joint.and_then(|piece| kit.pieces.get(piece)).map_or(0, |piece| piece.part);
    let mut step = Step::new(desk.say("pile-head", vec![("part", desk.named(part))]));
    step.lines.push(desk.tell("pile-glue"));
    let mut sizes: Vec<(usize, Vec<Owner>)> = Vec::new();
    let of_part = |pile: &&Vec<usize>| {
        pile.first().and_then(|piece| kit.pieces.get(*piece)).is_some_and(|piece| piece.part == part)
    };
    for pile in desk.piles.iter().filter(of_part) {
        let pages = joints::page_of(kit, pile);
        match sizes.iter_mut().find(|(size, _)| *size == pile.len()) {
            Some((_, owners)) => owners.extend(pages),
            None => sizes.push((pile.len(), pages.into_iter().collect())),
        }
    }
    for (size, owners) in sizes {
        let places = vec![
            ("n", measure::count(whole(size), What::Many, desk.id(part))),
            ("piles", measure::count(whole(owners.len()), What::Many, "piles")),
            ("pages", desk.pages(&owners)),
        ];
        step.lines.push(desk.say("pile-of", places));
    }
    step
}

/// What is turned in over the boards at head and tail, or at the fore-edges.
fn turn_in(desk: &Desk<'_>, piece: usize, level: bool) -> Step {
    let part = desk.piece(piece);
    let [head, how] =
        if level { ["turn-level-head", "turn-level-how"] } else { ["turn-upright-head", "turn-upright-how"] };
    let mut step = Step::new(desk.say(head, vec![("part", part)]));
    step.lines = vec![desk.tell("turn-glue"), desk.tell(how)];
    step.warn.push(desk.tell("glue-warn"));
    if let Some(net) = desk.kit().pieces.get(piece).map(|piece| &piece.net) {
        step.of = bends(net, Some(level)).into_iter().map(|fold| Told::Bend(piece, fold)).collect();
    }
    step
}

/// What is bent by itself, after what is turned in: the joints of a case.
pub(super) fn bent(desk: &Desk<'_>, owner: Owner) -> Option<Step> {
    let pieces = desk.kit().pieces.iter().enumerate().filter(|(_, piece)| piece.owner == owner);
    let of: Vec<Told> = pieces
        .flat_map(|(number, piece)| bends(&piece.net, None).into_iter().map(move |fold| Told::Bend(number, fold)))
        .collect();
    (!of.is_empty()).then(|| {
        let mut step = Step::new(desk.tell("joint-head"));
        step.lines = vec![desk.tell("joint-how")];
        step.of = of;
        step
    })
}

/// Folds of a net that nobody scores and hands bend: over level edges, over upright ones, or those that turn nothing in.
fn bends(net: &Net, over: Option<bool>) -> Vec<usize> {
    // What hangs on what is turned in belongs to it, and so does the strip by which it hangs.
    let turned = |panel: usize| {
        let up = |panel: usize| net.folds.iter().find(|fold| fold.between[1] == panel).map(|fold| fold.between[0]);
        let down = net.folds.iter().filter(|fold| fold.between[0] == panel).map(|fold| fold.between[1]);
        let family = std::iter::once(panel).chain(up(panel)).chain(down);
        // The boards' panels have turn-ins hanging on strips, not on themselves.
        family.into_iter().find_map(|panel| joints::turned_in(net, panel))
    };
    let bent = net.folds.iter().enumerate().filter(|(_, fold)| fold.sense == Sense::Bent && fold.angle.abs() > TURNED);
    bent.filter(|(_, fold)| turned(fold.between[1]) == over).map(|(number, _)| number).collect()
}

fn whole(count: usize) -> u64 {
    u64::try_from(count).unwrap_or(u64::MAX)
}
