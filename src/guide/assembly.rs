// SPDX-License-Identifier: MIT
//! Put it together: pages, spine, cover; hang the pages; fill the pockets; check before the glue sets.

use super::bits::{Block, Figure, Section, Step};
use super::desk::Desk;
use super::holding::Stick;
use super::joints::{self, Job};
use super::line::{Line, What};
use super::together;
use super::told::Told;
use super::{cautions, deeds, hanging, measure, pictures, sticking};
use crate::fit::order::Doing;
use crate::net::Use;
use crate::parts::{Bond, Hold, Kit, Owner, PITCH, Purpose};

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
    let mut sections: Vec<Section> = Vec::new();
    for (id, doings) in SECTIONS {
        let of_section: Vec<&Job> = jobs.iter().filter(|job| doings.contains(&job.doing)).collect();
        let blocks = if id == "fill" { filling(desk, &of_section) } else { making(desk, &of_section) };
        if blocks.is_empty() {
            continue;
        }
        let mut all = if sections.is_empty() { first_words(desk, &jobs) } else { Vec::new() };
        let album = desk.job.album;
        let kind =
            if id == "cover" { album.cover.as_ref().map(|cover| cover.kind.name) } else { Some(album.spine.kind.name) };
        let own = format!("{id}-words-{}", kind.unwrap_or_default());
        all.push(Block::Words(desk.tell(&if desk.words.has(&own) { own } else { format!("{id}-words") })));
        all.extend(blocks);
        sections.push(Section { id, heading: desk.tell(&format!("{id}-heading")), blocks: all });
        if id == "bind" {
            sections.push(checks(desk));
        }
    }
    sections
}

/// Before anything is stuck. Paper that is glued wet on one face of a leaf pulls it crooked, tape does not (H16): who has no
/// tape at hand must know.
fn first_words(desk: &Desk<'_>, jobs: &[Job]) -> Vec<Block> {
    let mut blocks = vec![cautions::gluing(desk), Block::Words(desk.tell("stick-words"))];
    if jobs.iter().any(|job| matches!(job.doing, Doing::CoverFace | Doing::CoverTab)) {
        blocks.push(Block::Words(desk.tell("stick-paper")));
    }
    blocks
}

/// Jobs with a heading each; pages are hung in one run.
fn making(desk: &Desk<'_>, jobs: &[&Job]) -> Vec<Block> {
    let mut blocks = Vec::new();
    let (hung, others): (Vec<&Job>, Vec<&Job>) = jobs.iter().partition(|job| job.doing == Doing::HangPage);
    if !hung.is_empty() {
        blocks.push(Block::Steps(hanging::steps(desk, &hung)));
    }
    for run in others.chunk_by(|one, next| one.doing == next.doing && is_papering(next.doing)) {
        let Some(first) = run.first() else { continue };
        if is_papering(first.doing) {
            let owners = run.iter().flat_map(|job| job.owners.iter().copied()).collect();
            blocks.push(Block::Heading(heading(desk, &Job { owners, ..(*first).clone() })));
            blocks.push(Block::Steps(once(together::steps(desk, run))));
        } else {
            blocks.push(Block::Heading(heading(desk, first)));
            blocks.push(Block::Steps(steps(desk, first)));
        }
    }
    blocks
}

/// Whether panels are stuck on faces, each at any time before the pages are hung, or after.
fn is_papering(doing: Doing) -> bool {
    matches!(doing, Doing::CoverFace | Doing::CoverTab)
}

/// What goes into the pockets, and what else is made or put somewhere at the end.
fn filling(desk: &Desk<'_>, jobs: &[&Job]) -> Vec<Block> {
    let of = |doing: Doing| jobs.iter().copied().filter(move |job| job.doing == doing);
    let mut blocks = Vec::new();
    for number in 1..=desk.job.album.inserts.len() {
        let owner = Owner::Insert(number);
        let mut made: Vec<Step> =
            of(Doing::MakeInsert).filter(|job| job.owners.contains(&owner)).flat_map(|job| steps(desk, job)).collect();
        made.extend(deeds::of_insert(desk, owner));
        if !made.is_empty() {
            blocks.push(Block::Heading(desk.say("job-insert", vec![("what", insert(desk, number))])));
            blocks.push(Block::Steps(once(made)));
        }
    }
    for job in of(Doing::FillPocket) {
        blocks.push(Block::Heading(heading(desk, job)));
        blocks.push(Block::Steps(fill(desk, job)));
    }
    for (key, steps) in
        [("job-prints", deeds::prints(desk)), ("job-clips", deeds::clips(desk)), ("job-loose", deeds::loose(desk))]
    {
        if !steps.is_empty() {
            blocks.push(Block::Heading(desk.tell(key)));
            blocks.push(Block::Steps(steps));
        }
    }
    for job in of(Doing::PutRound) {
        blocks.push(Block::Heading(heading(desk, job)));
        blocks.push(Block::Steps(steps(desk, job)));
    }
    if desk.kit().deeds.iter().any(deeds::is_photograph) || of(Doing::FillPocket).next().is_some() {
        blocks.insert(0, cautions::photographs(desk));
    }
    blocks
}

/// The order in one list.
pub(super) fn short(desk: &Desk<'_>) -> Section {
    let jobs = joints::jobs(desk.kit());
    let list = jobs.chunk_by(|one, next| one.doing == next.doing).filter_map(|run| headings(desk, run)).collect();
    let blocks = vec![Block::List(list), Block::Words(desk.tell("bind-words"))];
    Section { id: "order", heading: desk.tell("order-heading"), blocks }
}

/// Jobs of one sort in a line: all their pages, or what each of them is for.
fn headings(desk: &Desk<'_>, run: &[Job]) -> Option<Line> {
    let first = run.first()?;
    let mut owners: Vec<Owner> = run.iter().flat_map(|job| job.owners.iter().copied()).collect();
    owners.sort();
    owners.dedup();
    if !matches!(owners.first(), Some(Owner::Insert(_))) {
        return Some(heading(desk, &Job { owners, ..first.clone() }));
    }
    let mut names: Vec<Line> = Vec::new();
    for name in run.iter().filter_map(|job| job.owners.first()).filter_map(|owner| name_of(desk, *owner)) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    Some(desk.say(key(first.doing), vec![("what", desk.words.list(names))]))
}

fn name_of(desk: &Desk<'_>, owner: Owner) -> Option<Line> {
    if let Owner::Insert(number) = owner { Some(insert(desk, number)) } else { None }
}

const fn key(doing: Doing) -> &'static str {
    match doing {
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
    }
}

fn heading(desk: &Desk<'_>, job: &Job) -> Line {
    let name = match job.owners.first() {
        Some(Owner::Insert(number)) => insert(desk, *number),
        Some(Owner::Page(_)) => desk.pages(&job.owners),
        _ => Line::default(),
    };
    desk.say(key(job.doing), vec![("what", name)])
}

/// The name of an insert's kind.
fn insert(desk: &Desk<'_>, number: usize) -> Line {
    let entry = number.checked_sub(1).and_then(|number| desk.job.album.inserts.get(number));
    let name = |kind: &'static str| desk.words.term_of("insert", kind, kind);
    Line::text(entry.map_or_else(String::new, |entry| name(entry.kind.name)))
}

fn steps(desk: &Desk<'_>, job: &Job) -> Vec<Step> {
    if job.doing == Doing::StackStrips {
        return once(together::steps(desk, &[job]));
    }
    let mut steps: Vec<Step> = Vec::new();
    let mut tied = job.doing != Doing::MakeCover;
    let mut bent = false;
    for (number, joint) in job.joints.iter().enumerate() {
        if !tied && deeds::hides_tie(desk, joint) {
            steps.extend(deeds::ties(desk));
            tied = true;
        }
        // The joints of a case are worked when its turn-ins are down, before anything lines it.
        let turned = joints::turns_in(desk.kit(), joint);
        if job.doing == Doing::MakeCover && std::mem::replace(&mut bent, turned) && !turned {
            steps.extend(sticking::bent(desk, Owner::Cover));
        }
        steps.extend(sticking::step(desk, job, number));
    }
    if !tied {
        steps.extend(deeds::ties(desk));
    }
    if job.doing == Doing::MakeCover && bent {
        steps.extend(sticking::bent(desk, Owner::Cover));
    }
    if job.doing == Doing::MeetCover {
        let bases = deeds::bases(desk);
        if let (Some(step), false) = (steps.last_mut(), bases.is_empty()) {
            let many = u64::try_from(bases.len()).unwrap_or(u64::MAX);
            step.lines.push(desk.say("meet-bases", vec![("n", measure::count(many, What::Many, "bases"))]));
            step.of.extend(bases);
        }
        steps.extend(deeds::end_flaps(desk));
    }
    once(steps)
}

/// What has been said once for a job is not said again at each of its steps.
fn once(mut steps: Vec<Step>) -> Vec<Step> {
    let mut said: Vec<Line> = Vec::new();
    for step in &mut steps {
        step.warn.retain(|warn| !said.contains(warn));
        said.extend(step.warn.iter().cloned());
    }
    steps
}

/// What goes into pockets: each thing with its pages.
fn fill(desk: &Desk<'_>, job: &Job) -> Vec<Step> {
    let kit = desk.kit();
    let mut steps = Vec::new();
    for (number, joint) in job.joints.iter().enumerate() {
        let all = job.bonds_of(number);
        let bonds = all.iter().filter_map(|bond| kit.bonds.get(*bond));
        let mut owners: Vec<Owner> = Vec::new();
        let mut put = None;
        for bond in bonds {
            for side in [&bond.one, &bond.other] {
                match kit.pieces.get(side.piece) {
                    Some(piece) if matches!(piece.owner, Owner::Page(_)) => owners.push(piece.owner),
                    Some(piece) => put = Some((side.piece, piece.part)),
                    None => {}
                }
            }
        }
        let Some((piece, part)) = put else { continue };
        owners.sort();
        owners.dedup();
        let mut step =
            Step::new(desk.say("fill-head", vec![("part", desk.named(part)), ("page", desk.pages(&owners))]));
        step.of = all.iter().copied().map(Told::Bond).collect();
        step.lines.extend(goes_in_folded(kit, piece).then(|| desk.tell("fill-folded")));
        let pockets = |owner: &Owner| kit.pockets.iter().filter(|pocket| Owner::Page(pocket.page) == *owner).count();
        step.lines.extend(owners.iter().any(|owner| pockets(owner) > 1).then(|| desk.tell("fill-which")));
        let shows = desk.say("fill-picture", vec![("part", desk.named(part)), ("page", desk.pages(&owners))]);
        let first = joint.bonds.first().and_then(|bond| kit.bonds.get(*bond));
        let picture = first.and_then(|bond| pictures::stick(desk, &[(bond.one, bond.other)], Stick::Slides));
        step.figure = picture.map(|picture| Figure { picture, shows });
        steps.push(step);
    }
    steps
}

/// Whether a thing is folded up to go into its pocket, and nothing holds it so: what was folded once has sprung open since.
fn goes_in_folded(kit: &Kit, piece: usize) -> bool {
    let folds = kit.pieces.get(piece).is_some_and(|piece| piece.net.folds.iter().any(|fold| fold.angle > 90.0));
    let is_body = |piece: usize| {
        let part = kit.pieces.get(piece).and_then(|piece| kit.parts.get(piece.part));
        part.is_some_and(|part| part.purpose == Purpose::Body)
    };
    let holds = |bond: &Bond| {
        let sides = [bond.one.piece, bond.other.piece];
        bond.hold != Hold::Slid && sides.contains(&piece) && sides.into_iter().all(is_body)
    };
    folds && !kit.bonds.iter().any(holds)
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
