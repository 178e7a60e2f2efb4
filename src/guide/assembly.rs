// SPDX-License-Identifier: MIT
//! Put it together: pages, spine, cover; hang the pages; fill the pockets; check before the glue sets.

use super::bits::{Block, Figure, Section, Step};
use super::desk::Desk;
use super::joints::{self, Job, Joint, Stick};
use super::line::{Line, What};
use super::{cautions, measure, pictures};
use crate::fit::order::{self, Doing};
use crate::net::{Sense, Use};
use crate::parts::{Face, Hold, Owner, PITCH, Side};

/// A border narrower than this is none, mm: our choice.
const SEEN: f64 = 0.3;

/// The sections in order: their names, and what is done in each.
const SECTIONS: [(&str, &[Doing]); 5] = [
    ("pages", &[Doing::LineSleeve, Doing::MakePage, Doing::CoverFace]),
    ("spine", &[Doing::StackStrips]),
    ("cover", &[Doing::MakeCover, Doing::MeetCover, Doing::LineCover]),
    ("bind", &[Doing::HangPage, Doing::CoverTab]),
    ("fill", &[Doing::MakeInsert, Doing::FillPocket, Doing::PutRound]),
];

pub(super) fn sections(desk: &Desk<'_>) -> Vec<Section> {
    let jobs = joints::jobs(desk.kit());
    let (mut warned, mut filled) = (false, false);
    let mut sections = Vec::new();
    for (id, doings) in SECTIONS {
        let mut blocks = Vec::new();
        let outer = if id == "spine" { both_ways(desk) } else { Vec::new() };
        let mut of_section = jobs.iter().filter(|job| doings.contains(&job.doing)).peekable();
        if of_section.peek().is_none() && outer.is_empty() {
            continue;
        }
        if !warned {
            blocks.push(cautions::gluing(desk));
            blocks.push(Block::Words(desk.tell("stick-words")));
            if desk.job.album.copies > 1 {
                blocks.push(Block::Words(desk.tell("stick-kits")));
            }
            warned = true;
        }
        let album = desk.job.album;
        let kind =
            if id == "cover" { album.cover.as_ref().map(|cover| cover.kind.name) } else { Some(album.spine.kind.name) };
        let own = format!("{id}-words-{}", kind.unwrap_or_default());
        blocks.push(Block::Words(desk.tell(&if desk.words.has(&own) { own } else { format!("{id}-words") })));
        if !outer.is_empty() {
            blocks.push(Block::Steps(outer));
        }
        let mut hung = Vec::new();
        for job in of_section {
            if job.doing == Doing::HangPage {
                hung.extend(steps(desk, job, false));
                continue;
            }
            if !hung.is_empty() {
                blocks.push(Block::Steps(std::mem::take(&mut hung)));
            }
            blocks.push(Block::Heading(heading(desk, job)));
            let first = job.doing == Doing::FillPocket && !std::mem::replace(&mut filled, true);
            blocks.push(Block::Steps(steps(desk, job, first)));
        }
        if !hung.is_empty() {
            blocks.push(Block::Steps(hung));
        }
        sections.push(Section { id, heading: desk.tell(&format!("{id}-heading")), blocks });
        if id == "bind" {
            sections.push(checks(desk));
        }
    }
    sections
}

/// The order in one list.
pub(super) fn short(desk: &Desk<'_>) -> Section {
    let list = joints::jobs(desk.kit()).iter().map(|job| heading(desk, job)).collect();
    let blocks = vec![Block::List(list), Block::Words(desk.tell("bind-words"))];
    Section { id: "order", heading: desk.tell("order-heading"), blocks }
}

fn heading(desk: &Desk<'_>, job: &Job) -> Line {
    let key = match job.doing {
        Doing::LineSleeve => "job-line",
        Doing::MakePage => "job-page",
        Doing::CoverFace => "job-face",
        Doing::StackStrips => "job-strips",
        Doing::MakeCover => "job-cover",
        Doing::MeetCover => "job-meet",
        Doing::LineCover => "job-line-cover",
        Doing::HangPage => "job-hang",
        Doing::CoverTab => "job-over",
        Doing::MakeInsert => "job-insert",
        Doing::FillPocket => "job-fill",
        Doing::PutRound => "job-round",
    };
    let name = match job.owners.first() {
        Some(Owner::Insert(number)) => {
            let entry = desk.job.album.inserts.get(number - 1);
            Line::text(
                entry.map_or_else(String::new, |entry| desk.words.term_of("insert", entry.kind.name, entry.kind.name)),
            )
        }
        Some(Owner::Page(_)) => desk.pages(&job.owners),
        _ => Line::default(),
    };
    desk.say(key, vec![("what", name)])
}

fn steps(desk: &Desk<'_>, job: &Job, first: bool) -> Vec<Step> {
    if job.doing == Doing::HangPage {
        return hang(desk, job).into_iter().collect();
    }
    if job.doing == Doing::FillPocket {
        return fill(desk, job, first);
    }
    let mut steps: Vec<Step> = job.joints.iter().filter_map(|joint| stick(desk, job, joint)).collect();
    if job.doing == Doing::MeetCover && order::has_end_flaps(desk.kit()) {
        let mut flaps = Step::new(desk.tell("flaps-head"));
        flaps.lines = vec![desk.tell("flaps-glue"), desk.tell("flaps-press"), desk.tell("flaps-why")];
        steps.push(flaps);
    }
    // What has been said once for a job is not said again at each of its steps.
    let mut said: Vec<Line> = Vec::new();
    for step in &mut steps {
        step.warn.retain(|warn| !said.contains(warn));
        said.extend(step.warn.iter().cloned());
    }
    steps
}

/// A hinge's outer folds bend either way: they are worked before anything holds them.
fn both_ways(desk: &Desk<'_>) -> Vec<Step> {
    let kit = desk.kit();
    let of_spine = |part: usize| kit.pieces.iter().any(|piece| piece.part == part && piece.owner == Owner::Spine);
    let both = |part: usize| kit.parts[part].flat.scores.iter().any(|score| score.sense == Sense::Both);
    let step = |part: usize| {
        let mut step = Step::new(desk.say("work-head", vec![("part", desk.named(part))]));
        step.lines = vec![desk.tell("work-how"), desk.tell("work-why")];
        let shows = desk.say("fold-picture", vec![("part", desk.named(part))]);
        step.figure = Some(Figure { picture: pictures::both_ways(desk, part), shows });
        step
    };
    desk.rows.iter().map(|row| row.part).filter(|&part| of_spine(part) && both(part)).map(step).collect()
}

/// One joint that is stuck.
fn stick(desk: &Desk<'_>, job: &Job, joint: &Joint) -> Option<Step> {
    let kit = desk.kit();
    let bond = kit.bonds.get(*joint.bonds.first()?)?;
    let (glued, faced) = (joints::glued(kit, bond), joints::faced(kit, bond));
    let short = kit.pieces.get(glued.piece).and_then(|piece| piece.net.panels.get(glued.panel));
    let short = Line::text(short.map_or_else(String::new, |panel| desk.words.term(panel.name)));
    let places = || vec![("what", panel(desk, glued)), ("on", panel(desk, faced)), ("panel", short.clone())];
    let face =
        |side: &Side| Line::text(desk.words.text(if side.face == Face::Front { "face-front" } else { "face-back" }));
    let with = |more: Vec<(&'static str, Line)>| [places(), more].concat();
    let of = kit.pieces.get(glued.piece).map_or("", |piece| desk.id(piece.part));
    let tape = |length: f64, width: f64| {
        let width = measure::number(desk.measure.show_both(width), width, What::TapeWidth, of);
        with(vec![("length", desk.length(length, What::Tape, of)), ("width", width), ("face", face(glued))])
    };
    let mut step = match joint.stick(desk.job.album, kit, job.doing) {
        Stick::Tape { length, width } => {
            let mut step = Step::new(desk.say("tape-head", places()));
            step.lines.push(desk.say("tape-run", tape(length, width)));
            step.lines.push(desk.say("tape-press", with(vec![("face", face(faced))])));
            step
        }
        Stick::Round { length, width } => {
            let mut step = Step::new(desk.say("round-head", places()));
            step.lines.push(desk.say("round-run", tape(length, width)));
            step.lines.push(desk.say("round-press", with(vec![("face", face(faced))])));
            step
        }
        Stick::Glue => {
            let mut step = Step::new(desk.say("glue-head", places()));
            step.lines.push(desk.say("glue-spread", with(vec![("face", face(glued))])));
            step.lines.push(desk.say("glue-press", with(vec![("face", face(faced))])));
            step.warn.push(desk.tell(if job.doing == Doing::StackStrips { "glue-warn-gusset" } else { "glue-warn" }));
            step
        }
        Stick::Slides | Stick::Tab { .. } => Step::new(desk.say("slide-head", places())),
    };
    if !matches!(joint.stick(desk.job.album, kit, job.doing), Stick::Tape { .. }) {
        step.lines.extend(border(desk, glued, faced));
    }
    if joint.bonds.len() > 1 {
        let times = u64::try_from(joint.bonds.len()).unwrap_or(u64::MAX);
        step.lines.push(desk.say("stick-times", vec![("n", measure::count(times, What::Many, of))]));
    }
    let shows = desk.say("stick-picture", places());
    let held = joint.stick(desk.job.album, kit, job.doing);
    step.figure = pictures::stick(desk, glued, faced, held).map(|picture| Figure { picture, shows });
    Some(step)
}

/// How far from the edges a piece is stuck on another one, where it leaves any of that free.
fn border(desk: &Desk<'_>, glued: &Side, faced: &Side) -> Option<Line> {
    let free = joints::borders(desk.kit(), glued, faced)?;
    // Flaps go where their fold lets them.
    let panel = desk.kit().pieces.get(glued.piece)?.net.panels.get(glued.panel)?;
    let placed = panel.purpose.is_base() || (panel.purpose == Use::Plain && glued.panel == 0);
    // Where paper only bends nobody sees where a panel of it begins: its own edges say where the board goes.
    let bends = desk.kit().pieces.get(faced.piece)?.net.folds.iter().any(|fold| fold.sense == Sense::Bent);
    let fills = free.iter().all(|free| free.abs() < SEEN);
    let free = if bends && fills { joints::borders_of_piece(desk.kit(), glued, faced)? } else { free };
    if !placed || free.iter().any(|free| *free < -SEEN) || free.iter().all(|free| *free < SEEN) {
        return None;
    }
    let length = |mm: f64| desk.length(mm, What::Length, "border");
    let [left, right, above, below] = free;
    if free.iter().all(|one| (one - left).abs() < SEEN) {
        return Some(desk.say("border-round", vec![("border", length(left))]));
    }
    // The nearer edge says it all, both where it stands in the middle.
    let nearer = |one: f64, two: f64| one >= SEEN && one <= two + SEEN;
    let sides = [
        ("side-left", left, right),
        ("side-right", right, left),
        ("side-above", above, below),
        ("side-below", below, above),
    ];
    let free = sides.into_iter().filter(|(_, one, two)| nearer(*one, *two));
    let named: Vec<Line> = free.map(|(side, free, _)| desk.say(side, vec![("free", length(free))])).collect();
    (!named.is_empty()).then(|| desk.say("border-sides", vec![("sides", desk.words.list(named))]))
}

/// A panel of a piece: `the seam of A`; its main panel is the piece itself.
fn panel(desk: &Desk<'_>, side: &Side) -> Line {
    let Some(piece) = desk.kit().pieces.get(side.piece) else { return Line::default() };
    // A part's main panel goes by the part's own name.
    let Some(panel) = piece.net.panels.get(side.panel).filter(|panel| side.panel > 0 || panel.purpose != Use::Plain)
    else {
        return desk.piece(side.piece);
    };
    let name = Line::text(desk.words.term(panel.name));
    desk.say("panel-of", vec![("panel", name), ("part", desk.piece(side.piece))])
}

/// A page and its tab.
fn hang(desk: &Desk<'_>, job: &Job) -> Option<Step> {
    let kit = desk.kit();
    let first = job.joints.first()?;
    let bond = kit.bonds.get(*first.bonds.first()?)?;
    let (tab, inside) = (joints::glued(kit, bond), joints::faced(kit, bond));
    let places = || vec![("page", desk.pages(&job.owners)), ("tab", panel(desk, tab))];
    let of = kit.pieces.get(tab.piece).map_or("", |piece| desk.id(piece.part));
    let face = |face: Face| Line::text(desk.words.text(if face == Face::Front { "face-front" } else { "face-back" }));
    let gusset =
        kit.pieces.get(tab.piece).is_some_and(|piece| piece.net.panels.iter().any(|one| one.purpose == Use::Gusset));
    let warn = if gusset { "hang-warn" } else { "hang-warn-plain" };
    let mut step;
    if let Stick::Tab { length, width } = first.stick(desk.job.album, kit, job.doing) {
        step = Step::new(desk.say("hang-head", places()));
        let width = measure::number(desk.measure.show_both(width), width, What::TapeWidth, of);
        let mut tape = places();
        tape.extend([("length", desk.length(length, What::Tape, of)), ("width", width), ("face", face(tab.face))]);
        step.lines.push(desk.say("hang-tape", tape));
        step.lines.push(desk.tell("hang-glue"));
        step.lines.push(desk.tell("hang-slide"));
        step.lines.push(desk.tell("hang-peel"));
        step.warn.push(desk.tell(warn));
    } else if bond.hold == Hold::Slid {
        step = Step::new(desk.say("hang-head", places()));
        step.lines.push(desk.tell("hang-glue-only"));
        step.lines.push(desk.tell("hang-slide"));
        step.warn.push(desk.tell(warn));
    } else {
        step = Step::new(desk.say("leaf-head", places()));
        let on = vec![("face", face(tab.face)), ("on", panel(desk, inside)), ("side", face(inside.face))];
        step.lines.push(desk.say("leaf-glue", on));
        step.lines.push(desk.tell("leaf-press"));
        step.warn.push(desk.tell(warn));
    }
    let shows = desk.say("hang-picture", places());
    step.figure = pictures::hang(desk, job).map(|picture| Figure { picture, shows });
    Some(step)
}

/// What goes into pockets: each thing with its pages.
fn fill(desk: &Desk<'_>, job: &Job, first: bool) -> Vec<Step> {
    let kit = desk.kit();
    let mut steps = Vec::new();
    for (index, joint) in job.joints.iter().enumerate() {
        let bonds = joint.bonds.iter().filter_map(|bond| kit.bonds.get(*bond));
        let mut owners: Vec<Owner> = Vec::new();
        let mut part = None;
        for bond in bonds {
            for side in [&bond.one, &bond.other] {
                match kit.pieces.get(side.piece) {
                    Some(piece) if matches!(piece.owner, Owner::Page(_)) => owners.push(piece.owner),
                    Some(piece) => part = Some(piece.part),
                    None => {}
                }
            }
        }
        let Some(part) = part else { continue };
        owners.sort();
        owners.dedup();
        let mut step =
            Step::new(desk.say("fill-head", vec![("part", desk.named(part)), ("page", desk.pages(&owners))]));
        if first && index == 0 {
            step.warn = cautions::photographs(desk);
        }
        let shows = desk.say("fill-picture", vec![("part", desk.named(part)), ("page", desk.pages(&owners))]);
        let picture = joint
            .bonds
            .first()
            .and_then(|bond| kit.bonds.get(*bond))
            .and_then(|bond| pictures::stick(desk, &bond.one, &bond.other, Stick::Slides));
        step.figure = picture.map(|picture| Figure { picture, shows });
        steps.push(step);
    }
    steps
}

/// What to look at while the glue can still be moved.
fn checks(desk: &Desk<'_>) -> Section {
    let pieces = &desk.kit().pieces;
    let gusset = |piece: &crate::parts::Piece| piece.net.panels.iter().any(|panel| panel.purpose == Use::Gusset);
    let looks = [
        ("check-flush", true),
        ("check-turn", true),
        ("check-gusset", pieces.iter().any(gusset)),
        ("check-squeeze", !desk.kit().pockets.is_empty()),
    ];
    let mut steps: Vec<Step> =
        looks.into_iter().filter(|(_, there)| *there).map(|(key, _)| Step::new(desk.tell(key))).collect();
    let tab = |piece: &crate::parts::Piece| {
        piece.owner == Owner::Spine && piece.net.panels.iter().any(|panel| panel.purpose == Use::Tab)
    };
    let pitch = desk.job.album.spine.values.find(PITCH).filter(|_| desk.kit().pieces.iter().any(tab));
    if let (Some(pitch), true) = (pitch, desk.job.album.pages.len() > 1) {
        let pitch = desk.length(pitch.mm(), What::Length, "spine.pitch");
        steps.insert(1, Step::new(desk.say("check-pitch", vec![("pitch", pitch)])));
    }
    if let Some(closed) = &desk.job.fit.closed {
        let thick = desk.length(super::given::roughly(desk, closed.thickest), What::Length, "thickest");
        steps.push(Step::new(desk.say("check-close", vec![("thick", thick)])));
    }
    steps.push(Step::new(desk.tell("check-dry")));
    let blocks = vec![Block::Words(desk.tell("check-words")), Block::Steps(steps)];
    Section { id: "check", heading: desk.tell("check-heading"), blocks }
}
