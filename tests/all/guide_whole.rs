// SPDX-License-Identifier: MIT
//! The guide leaves nothing of the kit unsaid and says nothing twice: every bond, score, fold, bend, corner, hole, end flap and
//! other deed is in one step, every step of making speaks of something, every piece comes to its place, and the steps stand in
//! an order in which hands can do them.

use crate::common::{cutter, fixtures, kind_files, project};
use crate::plates::altered;
use hingeleaf::album::{Album, Role};
use hingeleaf::fields::Source;
use hingeleaf::fit::order;
use hingeleaf::guide::{self, Guide, Told};
use hingeleaf::net::{Sense, Use};
use hingeleaf::parts::{self, Deed, Kit, Owner, example};
use hingeleaf::work::Work;
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{RngAlgorithm, TestRng, TestRunner};
use std::collections::{BTreeMap, BTreeSet};

/// Albums of several kinds at random.
const MIXTURES: usize = 1000;

/// Sections in which something is made of the pieces.
const MAKING: [&str; 7] = ["shape", "score", "fold", "pages", "spine", "cover", "bind"];

/// An album that goes together, without its sheets: the steps after the cutting ask for none.
fn made(text: &str) -> Option<(Work, Guide)> {
    let source = Source::new("test.json", text.as_bytes().to_vec()).unwrap();
    let work = Work::fit(parts::read_album(&source, &mut kind_files).value?, cutter(0.0, 0.0, 0.0));
    if work.stopped() {
        return None;
    }
    let guide = guide::guide(&work.guide_job(false));
    Some((work, guide))
}

/// All that has to be told of a kit, worked out from the kit alone.
fn to_tell(album: &Album, kit: &Kit) -> BTreeSet<Told> {
    let mut all: BTreeSet<Told> = (0..kit.bonds.len()).map(Told::Bond).collect();
    all.extend((0..kit.deeds.len()).map(Told::Deed));
    for (number, part) in kit.parts.iter().enumerate().filter(|(_, part)| part.count > 0 && !album.is_ready(part.stock))
    {
        for score in 0..part.flat.scores.len() {
            all.extend([Told::Score(number, score), Told::Fold(number, score)]);
        }
        all.extend((0..part.flat.holes.len()).map(|hole| Told::Hole(number, hole)));
        let outline: f64 = part.flat.outline.area();
        if (part.flat.width * part.flat.height - outline).abs() > 1e-3 {
            all.insert(Told::Outline(number));
        }
    }
    let covered = kit.pieces.iter().any(|piece| piece.owner == Owner::Cover);
    for (number, piece) in kit.pieces.iter().enumerate() {
        // Panels that stay one are not bent.
        let bent = piece.net.folds.iter().enumerate();
        let bent = bent.filter(|(_, fold)| fold.sense == Sense::Bent && fold.angle.abs() > 1.0);
        all.extend(bent.map(|(fold, _)| Told::Bend(number, fold)));
        let stuck = |panel: usize| {
            let sides = kit.bonds.iter().flat_map(|bond| [&bond.one, &bond.other]);
            sides.into_iter().any(|side| side.piece == number && side.panel == panel)
        };
        // What the spine stands on its cover by, and no bond places.
        for (panel, its) in piece.net.panels.iter().enumerate() {
            if covered && piece.owner == Owner::Spine && !stuck(panel) {
                all.extend(match its.purpose {
                    Use::End => Some(Told::EndFlap(number, panel)),
                    Use::Base => Some(Told::Base(number, panel)),
                    _ => None,
                });
            }
        }
    }
    all
}

/// The pieces that a thing told is about.
fn pieces(kit: &Kit, told: Told) -> Vec<usize> {
    match told {
        Told::Bond(bond) if bond >= kit.bonds.len() => Vec::new(),
        Told::Bond(bond) => [kit.bonds[bond].one, kit.bonds[bond].other].map(|side| side.piece).to_vec(),
        Told::Deed(deed) => match &kit.deeds[deed] {
            Deed::Tie { through, .. } => through.iter().map(|(piece, _)| *piece).collect(),
            Deed::Sew { leaves, .. } => leaves.clone(),
            Deed::Mount { piece, .. } | Deed::Clip { piece, .. } | Deed::Print { piece, .. } => vec![*piece],
        },
        Told::Loose(piece) => vec![piece],
        _ => Vec::new(),
    }
}

/// All that is wrong with what a guide tells of its kit.
fn faults(work: &Work, guide: &Guide) -> Vec<String> {
    let kit = &work.kit;
    let mut faults = Vec::new();
    let mut told: BTreeMap<Told, usize> = BTreeMap::new();
    let mut bonds = Vec::new();
    for section in &guide.sections {
        for step in section.steps() {
            let head = step.head.plain();
            if MAKING.contains(&section.id) || section.id == "fill" {
                if step.of.is_empty() {
                    faults.push(format!("a step of \"{}\" speaks of nothing: {head}", section.id));
                }
            } else if !step.of.is_empty() {
                faults.push(format!("a step of \"{}\" makes something: {head}", section.id));
            }
            for one in &step.of {
                *told.entry(*one).or_default() += 1;
                bonds.extend(if let Told::Bond(bond) = one { Some(*bond) } else { None });
            }
        }
    }
    let meant = to_tell(&work.album, kit);
    faults.extend(meant.iter().filter(|one| !told.contains_key(one)).map(|one| format!("unsaid: {one}")));
    faults
        .extend(told.iter().filter(|(_, times)| **times > 1).map(|(one, times)| format!("said {times} times: {one}")));
    let loose = |one: &Told| matches!(one, Told::Loose(_));
    let extra = told.keys().filter(|one| !meant.contains(one) && !loose(one));
    faults.extend(extra.map(|one| format!("there is no {one}")));
    let placed: BTreeSet<usize> = told.keys().flat_map(|one| pieces(kit, *one)).collect();
    let lost = (0..kit.pieces.len()).filter(|piece| !placed.contains(piece));
    faults.extend(lost.map(|piece| format!("{} comes to no place", kit.pieces[piece].name)));
    let elsewhere = |piece: usize| told.keys().any(|one| !loose(one) && pieces(kit, *one).contains(&piece));
    let both = told.keys().filter(|one| matches!(one, Told::Loose(piece) if elsewhere(*piece)));
    faults.extend(both.map(|one| format!("it is not loose: {one}")));
    // The order in which the steps stand, against the rules for hands; what misses was said above.
    if bonds.len() == kit.bonds.len() {
        let doings: BTreeMap<usize, order::BondStep> =
            order::steps(kit).into_iter().map(|step| (step.bond, step)).collect();
        let steps: Vec<order::BondStep> = bonds.iter().filter_map(|bond| doings.get(bond).copied()).collect();
        faults.extend(order::check(kit, &steps).iter().map(|finding| format!("out of order: {}", finding.headline())));
    }
    faults
}

#[track_caller]
fn check(name: &str, text: &str) -> bool {
    let Some((work, guide)) = made(text) else { return false };
    let faults = faults(&work, &guide);
    assert!(faults.is_empty(), "{name}, {} faults:\n{}", faults.len(), faults.join("\n"));
    true
}

#[test]
fn guides_of_the_fixtures_are_whole() {
    let mut all = Vec::new();
    for path in fixtures() {
        let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
        let (work, guide) = made(&std::fs::read_to_string(&path).unwrap()).unwrap();
        all.extend(faults(&work, &guide).into_iter().map(|fault| format!("{name}: {fault}")));
    }
    assert!(all.is_empty(), "{} faults:\n{}", all.len(), all.join("\n"));
}

#[test]
fn guides_of_every_kind_are_whole() {
    let mut all = Vec::new();
    for maker in parts::ALL.iter() {
        let (work, guide) = made(&example(maker)).unwrap();
        all.extend(faults(&work, &guide).into_iter().map(|fault| format!("{}: {fault}", maker.kind.name)));
    }
    assert!(all.is_empty(), "{} faults:\n{}", all.len(), all.join("\n"));
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(200) })]

    /// Whatever the fields of a kind are.
    #[test]
    fn guides_of_random_albums_are_whole((maker, entry) in altered()) {
        let text = example(maker).replacen(maker.example, &entry.to_string(), 1);
        check(maker.kind.name, &text);
    }
}

/// An album of several kinds with fields of their own: pages, a spine, often a cover, things to put in, often panels.
fn any_album() -> impl Strategy<Value = String> {
    let of = |role: Role| altered().prop_filter("another role", move |(maker, _)| maker.kind.role == role);
    let entry = |role: Role| of(role).prop_map(|(_, entry)| entry.to_string());
    let pages = prop::collection::vec(entry(Role::Page), 1..6);
    let inserts = prop::collection::vec(entry(Role::Insert), 0..4);
    let parts = (pages, entry(Role::Spine), prop::option::of(entry(Role::Cover)), inserts);
    (parts, any::<bool>(), prop::sample::select(vec!["left", "right", "top"])).prop_map(
        |((pages, spine, cover, inserts), panels, bound)| {
            let cover = cover.map_or_else(String::new, |cover| format!(r#", "cover": {cover}"#));
            let panels = if panels { r#", "panels": { "stock": "paper", "reveal": 3 }"# } else { "" };
            format!(
                r#"{{ "format": "hingeleaf-album/1", "bound": "{bound}", "stocks": {{
                    "card": {{ "sheet": "1000x1400mm", "caliper": 0.3 }},
                    "paper": {{ "sheet": "1000x1400mm", "caliper": 0.15, "pattern": "all-over" }},
                    "board": {{ "sheet": "1000x1400mm", "caliper": 2 }} }},
                "page": {{ "width": 148, "height": 190, "seam": 12, "stock": "card" }},
                "pages": [{}], "spine": {spine}{cover}{panels}, "inserts": [{}] }}"#,
                pages.join(", "),
                inserts.join(", ")
            )
        },
    )
}

/// Whatever kinds come together; most mixtures do not go together, so it is counted how many do.
#[test]
fn guides_of_random_mixtures_are_whole() {
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &[7; 32]);
    let mut runner = TestRunner::new_with_rng(ProptestConfig::default(), rng);
    let albums = any_album();
    let whole = (0..MIXTURES).filter(|_| check("a mixture", &albums.new_tree(&mut runner).unwrap().current())).count();
    assert!(whole >= 20, "only {whole} of {MIXTURES} go together");
}

/// Albums of the examples alone, so that most go together: every cover on every spine, with panels and without.
#[test]
fn guides_of_every_cover_on_every_spine_are_whole() {
    let of = |role: Role| parts::ALL.iter().filter(move |maker| maker.kind.role == role).map(|maker| maker.example);
    let (pages, inserts) =
        (of(Role::Page).collect::<Vec<_>>().join(", "), of(Role::Insert).collect::<Vec<_>>().join(", "));
    let tied = [r#"{ "kind": "wrap", "ties": 10, "flap": 60, "band": 40, "window_width": 60, "window_height": 60 }"#];
    let mut whole = 0;
    for spine in of(Role::Spine) {
        for cover in of(Role::Cover).chain(tied) {
            for panels in ["", r#", "panels": { "stock": "paper", "reveal": 3 }"#] {
                let text = format!(
                    r#"{{ "format": "hingeleaf-album/1", "stocks": {{
                        "card": {{ "sheet": "1000x1400mm", "caliper": 0.3 }},
                        "paper": {{ "sheet": "1000x1400mm", "caliper": 0.15, "pattern": "all-over" }},
                        "board": {{ "sheet": "1000x1400mm", "caliper": 2 }} }},
                    "page": {{ "width": 148, "height": 190, "seam": 12, "stock": "card" }},
                    "pages": [{pages}], "spine": {spine}, "cover": {cover}{panels}, "inserts": [{inserts}] }}"#
                );
                whole += usize::from(check(&format!("{spine} {cover} {panels}"), &text));
            }
        }
    }
    assert!(whole >= 8, "only {whole} go together");
}

/// The check bites: a step taken out, told again, or telling of nothing is a fault.
#[test]
fn what_is_left_out_or_told_twice_is_found() {
    let text = std::fs::read_to_string(project().join("fixtures/tide-table.json")).unwrap();
    let (work, guide) = made(&text).unwrap();
    assert!(faults(&work, &guide).is_empty());
    let steps = |guide: &mut Guide, change: &dyn Fn(&mut Vec<guide::Step>)| {
        let pages = guide.sections.iter_mut().find(|section| section.id == "pages").unwrap();
        let of_steps = pages.blocks.iter_mut().find_map(|block| match block {
            guide::Block::Steps(steps) => Some(steps),
            _ => None,
        });
        change(of_steps.unwrap());
    };
    let with = |change: &dyn Fn(&mut Vec<guide::Step>)| {
        let mut guide = guide.clone();
        steps(&mut guide, change);
        faults(&work, &guide)
    };
    let starts = |faults: &[String], start: &str| faults.iter().any(|fault| fault.starts_with(start));
    assert!(starts(&with(&|steps| drop(steps.remove(0))), "unsaid: bond-"));
    assert!(starts(&with(&|steps| steps.push(steps[0].clone())), "said 2 times: bond-"));
    assert!(starts(&with(&|steps| steps[0].of.clear()), "a step of \"pages\" speaks of nothing"));
    assert!(starts(&with(&|steps| steps[0].of.push(Told::Bond(9999))), "there is no bond-9999"));
}
