// SPDX-License-Identifier: MIT
//! What single steps of the guide say and show: measured against sizes reckoned by hand from the kinds' own drawings.

use crate::common::{TempDir, cutter, hingeleaf, near, project, work};
use hingeleaf::guide::{self, Block, Guide, Line, Number, Section, Step, Told, What};
use hingeleaf::parts::{Deed, Kit};
use hingeleaf::picture::Mark;
use hingeleaf::work::Work;

/// An album of pages 148 x 190 mm with a seam and a tab of 12, from its other entries.
fn made(rest: &str) -> (Work, Guide) {
    let text = format!(
        r#"{{ "format": "hingeleaf-album/1", "page": {{ "width": 148, "height": 190, "seam": 12 }},
        "stocks": {{ "card": {{ "sheet": "A2", "caliper": 0.3 }} }},
        "spine": {{ "kind": "flexi-hinge", "tab": 12, "gusset": 6, "pitch": 6, "lead_in": 6 }}, {rest} }}"#
    );
    let work = work(&text, cutter(0.0, 0.0, 0.0));
    let guide = guide::guide(&work.guide_job(false));
    (work, guide)
}

fn fixture(name: &str) -> (Work, Guide) {
    let text = std::fs::read_to_string(project().join("fixtures").join(name)).unwrap();
    let work = work(&text, cutter(0.1, 1.0, 3.0));
    let guide = guide::guide(&work.guide_job(false));
    (work, guide)
}

fn section<'a>(guide: &'a Guide, id: &str) -> &'a Section {
    guide.sections.iter().find(|section| section.id == id).unwrap_or_else(|| panic!("no {id}"))
}

fn steps(guide: &Guide) -> impl Iterator<Item = &Step> {
    guide.sections.iter().flat_map(Section::steps)
}

/// The step that tells something.
#[track_caller]
fn telling(guide: &Guide, told: impl Fn(&Told) -> bool) -> &Step {
    steps(guide).find(|step| step.of.iter().any(&told)).expect("no step tells it")
}

/// All that is read of a step.
fn read(step: &Step) -> String {
    let lines = std::iter::once(&step.head).chain(&step.lines).chain(&step.warn);
    lines.map(|line| line.plain() + "\n").collect()
}

fn values(step: &Step, what: What) -> Vec<f64> {
    step.lines.iter().flat_map(Line::numbers).filter(|number| number.what == what).map(|number| number.value).collect()
}

#[track_caller]
fn has(values: &[f64], expected: &[f64]) {
    for one in expected {
        assert!(values.iter().any(|value| (value - one).abs() < 0.02), "{one} is not among {values:?}");
    }
}

fn section_words(guide: &Guide, id: &str) -> String {
    section(guide, id).lines().iter().map(|line| line.plain() + "\n").collect()
}

fn part(kit: &Kit, kind: &str) -> usize {
    kit.parts.iter().position(|part| part.kind == kind).unwrap_or_else(|| panic!("no {kind}"))
}

/// A 4R print, 1 mm larger by its tolerance, is 102.6 x 153.4 and lies in the middle of the page; 15 mm of its edges go in, so a
/// slot's middle is 7.5 mm inwards from its corner each way, and its ends (15 x sqrt 2 + 1.5) / 2 along the slant from there,
/// 8.030 each way. Lower left: corner at 22.7, 18.3; ends at 22.170, 33.830 and 38.230, 17.770; 12 mm of seam are above.
#[test]
fn a_slot_at_a_slant_is_told_by_its_ends() {
    let (work, guide) = made(r#""pages": [{ "kind": "corner-mount", "print": "4R" }]"#);
    let front = part(&work.kit, "corner-mount front");
    let step = telling(&guide, |told| matches!(told, Told::Hole(part, _) if *part == front));
    let text = read(step);
    assert_eq!(text.matches("slot 0.5").count(), 4, "{text}");
    assert!(!text.contains("opening"), "{text}");
    has(&values(step, What::Length), &[22.170, 202.0 - 33.830, 38.230, 202.0 - 17.770]);
}

/// Half a disc of 20 mm out of an edge is no rounded corner.
#[test]
fn a_notch_is_no_round_corner() {
    let (work, guide) = made(r#""pages": [{ "kind": "notched", "notch": 20 }]"#);
    let front = part(&work.kit, "notched front");
    let step = telling(&guide, |told| *told == Told::Outline(front));
    let text = read(step);
    assert!(text.contains("round notch") && !text.contains("Round the"), "{text}");
    // At half the height of the page, the seam above it.
    has(&values(step, What::Length), &[20.0, 10.0, 12.0 + 95.0]);
    let (work, guide) =
        made(r#""pages": [{ "kind": "pocket" }], "inserts": [{ "kind": "journal-card", "corner": 5 }]"#);
    let card = part(&work.kit, "journal card");
    let step = telling(&guide, |told| *told == Told::Outline(card));
    assert!(read(step).contains("Round the four corners"), "{}", read(step));
}

/// What a punch makes is punched, what is wider is drawn with a compass; soft corners have their radius.
#[test]
fn openings_are_told_as_they_are_made() {
    let kind = |hole: &str| {
        format!(
            r#""kinds": [{{ "format": "hingeleaf-kind/1", "name": "view", "is": "insert", "about": "a card to look through",
            "pieces": {{ "view": {{ "height": "height", "panels": [{{ "name": "view", "width": "width", "holes": [{hole}] }}] }} }} }}],
            "pages": [{{ "kind": "pocket" }}], "inserts": [{{ "kind": "view", "width": 100, "height": 120 }}]"#
        )
    };
    for (hole, told, tool) in [
        (r#"{ "round": ["30 mm", "40 mm"], "across": "5 mm" }"#, "Punch a hole 5 mm wide", "Hole punch"),
        (r#"{ "round": ["30 mm", "40 mm"], "across": "2 mm" }"#, "Pierce a hole 2 mm wide", "Awl"),
        (r#"{ "round": ["50 mm", "60 mm"], "across": "42 mm" }"#, "Draw a circle 42 mm wide with a compass", "Compass"),
        (
            r#"{ "window": ["10 mm", "20 mm", "60 mm", "50 mm"], "rounded": "8 mm" }"#,
            "Round its corners to a radius of 8 mm",
            "knife",
        ),
        (r#"{ "window": ["10 mm", "20 mm", "60 mm", "50 mm"] }"#, "Cut an opening 60 mm × 50 mm", "knife"),
    ] {
        let (work, guide) = made(&kind(hole));
        let view = part(&work.kit, "view");
        let text = read(telling(&guide, |told| matches!(told, Told::Hole(part, _) if *part == view)));
        // Between a number and its unit stands a space that no line ends at.
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(text.contains(told), "{text}");
        let tools = section_words(&guide, "need");
        assert!(tools.contains(tool), "{tool}: {tools}");
        for other in ["Hole punch", "Awl", "Compass"].into_iter().filter(|other| *other != tool) {
            assert!(!tools.contains(other), "{other} is asked for: {tools}");
        }
    }
}

/// Curves that fill a square are no round hole: they are traced.
#[test]
fn a_drawn_window_is_traced() {
    let folder = TempDir::new("guide-drawn");
    let arcs = "M20 0 A20 20 0 0 0 40 20 A20 20 0 0 0 20 40 A20 20 0 0 0 0 20 A20 20 0 0 0 20 0 Z";
    folder.put(
        "star.svg",
        format!(r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 40"><path d="{arcs}"/></svg>"#),
    );
    folder.put(
        "album.json",
        r#"{ "format": "hingeleaf-album/1", "page": { "width": 148, "height": 190 },
            "stocks": { "card": { "sheet": "A4", "caliper": 0.3 } },
            "kinds": [{ "format": "hingeleaf-kind/1", "name": "view", "is": "insert", "about": "a card to look through",
            "pieces": { "view": { "height": "height", "panels": [{ "name": "view", "width": "width",
              "holes": [{ "outline": { "file": "star.svg", "width": "8 mm" }, "at": ["30 mm", "30 mm"] }] }] } } }],
            "pages": [{ "kind": "pocket" }], "inserts": [{ "kind": "view", "width": 100, "height": 120 }] }"#,
    );
    let out = folder.path().join("out");
    let made = hingeleaf([
        "kit",
        folder.path().join("album.json").to_str().unwrap(),
        "--effort",
        "low",
        "--out",
        out.to_str().unwrap(),
    ]);
    assert_eq!(made.code, 0, "{made:?}");
    let guide = std::fs::read_to_string(out.join("guide.html")).unwrap();
    assert!(guide.contains("Trace the opening") && !guide.contains("Punch"), "the window is not traced");
}

/// A pattern has no distances: it is traced and cut by hand. Of 18 slits on 84 mm, 3 long, ties are (84 - 54) / 19 = 1.579 mm:
/// the first 4.579 from the left, each next 4.579 further. What has other bites besides is told of these as ever.
#[test]
fn patterns_are_traced_and_rows_of_slits_are_one_line() {
    let (work, guide) = made(
        r#""pages": [{ "kind": "pocket" }], "inserts": [{ "kind": "journal-card", "width": 90, "height": 130, "corner": 0,
            "edges": [{ "on": "tail", "finish": "scallop" }, { "on": "head", "finish": "perforated" }, { "on": "head", "corners": "clipped", "size": 2 }] }]"#,
    );
    let card = part(&work.kit, "journal card");
    let step = telling(&guide, |told| *told == Told::Outline(card));
    let text = read(step);
    assert!(text.contains("Trace the scalloped edge") && text.contains("a trimmer cuts straight"), "{text}");
    assert!(text.contains("Clip the upper right and upper left corners") || text.contains("Clip"), "{text}");
    assert_eq!(text.matches("slits").count(), 1, "{text}");
    assert!(!text.contains("opening"), "{text}");
    has(&values(step, What::Length), &[3.0, 0.5, 2.75, 3.0 + 30.0 / 19.0, 3.0 + 30.0 / 19.0]);
    assert_eq!(step.of.iter().filter(|told| matches!(told, Told::Hole(part, _) if *part == card)).count(), 18);
}

/// A ribbon is bought, threaded through cover, patch and outer panel, and its end lies inside before a panel goes over it.
#[test]
fn ribbons_are_bought_and_threaded_before_what_hides_them() {
    let (work, guide) = fixture("garden-year.json");
    assert!(section_words(&guide, "need").contains("Ribbon, 10"), "no ribbon is bought");
    let ties = work.kit.deeds.iter().filter(|deed| matches!(deed, Deed::Tie { .. })).count();
    assert_eq!(ties, 2);
    let all: Vec<&Step> = section(&guide, "cover").steps().collect();
    let at = |told: &dyn Fn(&Told) -> bool| all.iter().position(|step| step.of.iter().any(told)).unwrap();
    let threaded = at(&|told| matches!(told, Told::Deed(deed) if matches!(work.kit.deeds[*deed], Deed::Tie { .. })));
    let name = |bond: &usize| work.kit.pieces[work.kit.bonds[*bond].one.piece].name.to_string();
    let of = |what: &'static str| move |told: &Told| matches!(told, Told::Bond(bond) if name(bond).contains(what));
    assert!(at(&of("patch in the back")) < threaded && at(&of("patch in the front")) < threaded);
    assert!(threaded < at(&of("cover back inside")) && threaded < at(&of("cover front inside")));
    let text = read(all[threaded]);
    assert!(text.contains("(wrap cover)") && text.contains("(patch)") && text.contains("(panel)"), "{text}");
}

/// How many pages are told of, where several that follow one another are told by the first and the last.
fn pages(numbers: &[&Number]) -> f64 {
    let ends = |(at, number): (usize, &&Number)| match number.of.as_str() {
        "to" => number.value - numbers[at - 1].value,
        _ => 1.0,
    };
    numbers.iter().enumerate().map(ends).sum()
}

/// Every stub is in the pile of a page, and the piles are as many as the stubs.
#[test]
fn stubs_are_piled_for_their_pages() {
    let (work, guide) = fixture("orchard-year.json");
    let stubs = work.kit.pieces.iter().filter(|piece| piece.name.to_string().starts_with("stub")).count();
    let all = section(&guide, "spine").steps().filter(|step| step.head.plain().contains("piles"));
    let mut piled = 0.0;
    for line in all.flat_map(|step| &step.lines) {
        let of = |what| line.numbers().filter(move |number| number.what == what).collect::<Vec<&Number>>();
        let size = of(What::Many).iter().find(|number| number.of != "piles").map_or(0.0, |number| number.value);
        let pages = pages(&of(What::Page));
        piled += size * pages;
    }
    near(piled, f64::from(u32::try_from(stubs).unwrap()), 1e-9);
    for step in section(&guide, "spine").steps() {
        assert!(!read(step).contains("at all 14 places"), "{}", read(step));
    }
}

/// A sewn booklet has its thread, needle and awl, is nested, then sewn; one without holes is not.
#[test]
fn a_booklet_is_sewn() {
    let with = |holes: &str| {
        made(&format!(
            r#""pages": [{{ "kind": "pocket" }}], "inserts": [{{ "kind": "booklet", "leaves": 3, "holes": "{holes}" }}]"#
        ))
    };
    for holes in ["three", "five"] {
        let (_, guide) = with(holes);
        let need = section_words(&guide, "need");
        for word in ["thread", "Needle", "Awl"] {
            assert!(need.contains(word), "{word}: {need}");
        }
        let fill: Vec<&Step> = section(&guide, "fill").steps().collect();
        let nested = fill.iter().position(|step| step.head.plain().starts_with("Lay ")).unwrap();
        let sewn = fill.iter().position(|step| step.head.plain().starts_with("Sew ")).unwrap();
        assert!(nested < sewn);
        assert_eq!(fill[nested].of.len(), 2);
    }
    let (_, guide) = with("none");
    assert!(
        !section_words(&guide, "need").contains("Needle") && steps(&guide).all(|step| !read(step).contains("Sew "))
    );
}

/// File tabs are stuck over edges, and nobody says that they go into pockets.
#[test]
fn file_tabs_go_over_edges() {
    let (_, guide) =
        made(r#""pages": [{ "kind": "pocket" }], "inserts": [{ "kind": "file-tab", "count": 3, "grip": 10 }]"#);
    let given = section_words(&guide, "get");
    assert!(!given.contains("pockets: 3") && given.contains("3 × file tab"), "{given}");
    let step = telling(&guide, |told| matches!(told, Told::Deed(_)));
    assert_eq!(step.of.len(), 3);
    has(&values(step, What::Length), &[10.0]);
    has(&values(step, What::Many), &[3.0]);
}

/// A frame for 4R with 3.2 mm of play is 105 x 156 (up to what a ruler has); in the middle of 148 x 190 it leaves 21.5 and 17.
#[test]
fn a_frame_says_how_far_from_the_edges_it_lies() {
    let (_, guide) = made(r#""pages": [{ "kind": "frame", "print": "4R" }]"#);
    let frame = section(&guide, "pages").steps().next().unwrap();
    assert_eq!(frame.of.len(), 3, "three seams at one go: {}", read(frame));
    has(&values(frame, What::Length), &[21.5, 17.0]);
}

/// A tuck envelope's lap is scored only where it is: the score's line runs on over bare card above it.
#[test]
fn a_score_in_part_says_where() {
    let (work, guide) = made(r#""pages": [{ "kind": "tuck-envelope" }]"#);
    let envelope = part(&work.kit, "tuck envelope");
    let flat = &work.kit.parts[envelope].flat;
    let marks = guide::scoring::marks(&work.kit, envelope);
    let partly: Vec<[f64; 2]> = marks.iter().filter_map(|mark| mark.only).collect();
    assert!(!partly.is_empty());
    let step = telling(&guide, |told| matches!(told, Told::Score(part, _) if *part == envelope));
    for ends in partly {
        assert!(ends[0] > 1.0 || ends[1] < flat.height - 1.0, "{ends:?}");
        has(&values(step, What::Length), &ends);
    }
    assert!(read(step).contains("only between"), "{}", read(step));
    // A pocket's score runs from side to side.
    let (work, _) = made(r#""pages": [{ "kind": "pocket" }]"#);
    assert!(
        (0..work.kit.parts.len())
            .all(|part| guide::scoring::marks(&work.kit, part).iter().all(|mark| mark.only.is_none()))
    );
}

/// A tab 190 tall and 12 wide, clipped 6 mm at both ends: tape of 12 mm would be 178 long (H18); 6.35 mm reaches 6.35 into the
/// clip's 12 and is 190 - 2 x 6 x 6.35 / 12 = 183.65 long.
#[test]
fn tape_ends_where_the_clip_begins() {
    let tape = |more: &str, tab: f64| {
        let text = format!(
            r#"{{ "format": "hingeleaf-album/1", "page": {{ "width": 148, "height": 190, "seam": 12.7 {more} }},
            "pages": [{{ "kind": "pocket" }}], "spine": {{ "kind": "flexi-hinge", "tab": {tab}, "lead_in": 6 }} }}"#
        );
        let work = work(&text, cutter(0.0, 0.0, 0.0));
        let guide = guide::guide(&work.guide_job(false));
        values(section(&guide, "bind").steps().next().unwrap(), What::Tape)[0]
    };
    near(tape("", 12.7), 178.0, 1e-6);
    near(tape("", 12.0), 183.65, 1e-6);
    near(tape(r#", "tape": 6.35"#, 12.7), 190.0 - 6.0, 1e-6);
}

/// What is closed on itself is drawn once.
#[test]
fn one_piece_is_drawn_once() {
    for page in ["sleeve", "tuck-envelope"] {
        let (_, guide) = made(&format!(r#""pages": [{{ "kind": "{page}" }}]"#));
        let step = section(&guide, "pages").steps().next().unwrap();
        let marks = &step.figure.as_ref().unwrap().picture.marks;
        let letters = marks.iter().filter(|mark| matches!(mark, Mark::Words { .. })).count();
        assert_eq!(letters, 1, "{page}");
        assert!(step.head.plain().contains("its own"), "{}", step.head.plain());
    }
}

/// A case's six turn-ins are two steps, head and tail before the fore-edges, then the joints.
#[test]
fn turn_ins_are_two_steps() {
    let (work, guide) = fixture("lighthouse-log.json");
    let turned: Vec<&Step> = section(&guide, "cover")
        .steps()
        .filter(|step| step.of.iter().any(|told| matches!(told, Told::Bend(..))))
        .collect();
    let bonds = |step: &Step| step.of.iter().filter(|told| matches!(told, Told::Bond(_))).count();
    assert_eq!(turned.iter().map(|step| bonds(step)).collect::<Vec<_>>(), [4, 2, 0]);
    assert!(turned[0].head.plain().contains("head and tail") && turned[1].head.plain().contains("fore-edges"));
    assert!(turned[2].head.plain().contains("joints"));
    assert!(work.kit.deeds.is_empty());
}

/// A print is held by corners, on a mat as on a page.
#[test]
fn a_mat_sticks_no_print() {
    for window in ["true", "false"] {
        let (_, guide) = made(&format!(
            r#""pages": [{{ "kind": "pocket" }}], "inserts": [{{ "kind": "photo-mat", "print": "3R", "window": {window} }}]"#
        ));
        let text = read(telling(&guide, |told| matches!(told, Told::Deed(_))));
        assert!(text.contains("photo corners") && !text.contains("glue on") && !text.contains("Run tape"), "{text}");
        assert!(section_words(&guide, "need").contains("Photo corners to stick on: 4"));
    }
}

/// What a machine has cut is left out, and so is what it has scored.
#[test]
fn what_a_machine_has_done_is_left_out() {
    let (_, guide) = made(r#""pages": [{ "kind": "pocket" }]"#);
    assert!(section_words(&guide, "shape").contains("where a machine has cut"));
    assert!(section_words(&guide, "score").contains("what a machine has scored"));
}

/// The pictures of sheets carry the letters of the list.
#[test]
fn sheets_show_the_letters() {
    let (work, guide) = made(r#""pages": [{ "kind": "pocket" }]"#);
    let rows = guide::list::list(work.album.order(), &work.kit, 1);
    let mut words: Vec<String> = Vec::new();
    for block in &section(&guide, "cut").blocks {
        if let Block::Figure(figure) = block {
            words.extend(figure.picture.marks.iter().filter_map(|mark| match mark {
                Mark::Words { text, .. } => Some(text.clone()),
                _ => None,
            }));
        }
    }
    assert!(rows.iter().all(|row| words.contains(&row.mark)), "{words:?}");
}

/// The card has blade, machine or trimmer, and glue; the holding hand has one wording wherever a blade is spoken of.
#[test]
fn the_card_has_its_cautions() {
    let (work, guide) = made(r#""pages": [{ "kind": "pocket" }]"#);
    let card = guide::card(&work.guide_job(false));
    let card = section_words(&card, "mind");
    for word in [
        "holding hand on the rule, out of the blade's way",
        "carriage",
        "lid closed",
        "eyewear",
        "coated",
        "unknown",
        "Air the room",
    ] {
        assert!(card.contains(word), "{word}: {card}");
    }
    assert!(section_words(&guide, "cut").contains("holding hand on the rule, out of the blade's way"));
    let text = std::fs::read_to_string(project().join("fixtures/tide-table.json")).unwrap();
    let search = hingeleaf::sheets::Search { effort: hingeleaf::layout::Effort::Low, trimmer: true, threads: 1 };
    let album = crate::common::album(&text);
    let work = Work::new(
        album,
        cutter(0.0, 0.0, 0.0),
        hingeleaf::toolpath::Labels::default(),
        search,
        &hingeleaf::layout::Unwatched,
    );
    let cut = section_words(&guide::guide(&work.guide_job(false)), "cut");
    assert!(cut.contains("guard down") && cut.contains("Lock its arm"), "{cut}");
    for file in ["src/guide/words/en.ftl", "src/words/en/commands.ftl", "src/words/en/page.ftl"] {
        let words = std::fs::read_to_string(project().join(file)).unwrap();
        assert!(!words.contains("behind the blade"), "{file}");
    }
}

/// Dividers whose tabs stand at other heights are not shaped in one step: only their pictures tell them apart.
#[test]
fn what_only_a_picture_tells_is_a_step_of_its_own() {
    let pages: Vec<String> =
        (1..=4).map(|at| format!(r#"{{ "kind": "divider", "tab_of": 4, "position": {at} }}"#)).collect();
    let (work, guide) = made(&format!(r#""pages": [{}]"#, pages.join(", ")));
    let dividers = work.kit.parts.iter().filter(|part| part.kind == "divider").count();
    assert!(dividers > 2);
    for step in section(&guide, "shape").steps() {
        let outlines = step
            .of
            .iter()
            .filter(|told| matches!(told, Told::Outline(part) if work.kit.parts[*part].kind == "divider"));
        assert!(outlines.count() < 2, "{}", read(step));
    }
}

/// Parts that are folded alike but for the distances are told once, with a row of distances for each: hinge strips of four pages.
/// Two alike ones are told each by itself.
#[test]
fn strips_are_folded_by_a_table() {
    let pages = |count: usize| vec![r#"{ "kind": "pocket" }"#; count].join(",");
    for (count, tables) in [(8, 1), (4, 0)] {
        let (work, guide) = made(&format!(r#""pages": [{}]"#, pages(count)));
        let strips: Vec<usize> =
            (0..work.kit.parts.len()).filter(|part| work.kit.parts[*part].kind == "hinge strip").collect();
        assert_eq!(strips.len(), count / 2);
        let tabled: Vec<&Step> = section(&guide, "fold").steps().filter(|step| step.table.is_some()).collect();
        assert_eq!(tabled.len(), tables);
        for step in tabled {
            let table = step.table.as_ref().unwrap();
            assert_eq!(table.rows.len(), strips.len());
            for part in &strips {
                let marks = guide::scoring::marks(&work.kit, *part);
                let of = |number: &&Number| number.of == work.kit.parts[*part].id && number.what == What::FromLeft;
                let told: Vec<f64> = table.lines().flat_map(Line::numbers).filter(of).map(|one| one.value).collect();
                assert_eq!(told.len(), marks.len(), "{told:?}");
                has(&told, &marks.iter().map(|mark| mark.at).collect::<Vec<_>>());
                assert!(
                    (0..work.kit.parts[*part].flat.scores.len())
                        .all(|score| step.of.contains(&Told::Fold(*part, score)))
                );
            }
        }
    }
}

/// Strips that lie on one another may be glued in any order. Where one comes to lie over the place of another it may not.
#[test]
fn an_order_is_told_where_it_matters() {
    let pages = [r#"{ "kind": "pocket" }"#; 8].join(",");
    let (mut work, guide) = made(&format!(r#""pages": [{pages}]"#));
    let spine = section_words(&guide, "spine");
    assert!(spine.contains("Glue each of these in its place.") && !spine.contains("in this order"), "{spine}");
    assert!(!section_words(&guide, "bind").contains("in this order"));
    // The second strip and another one like it, both on one place.
    let on_strip = |side: &hingeleaf::parts::Side, work: &Work| {
        work.kit.pieces[side.piece].name.to_string().starts_with("hinge strip")
    };
    let strips: Vec<usize> = (0..work.kit.bonds.len())
        .filter(|bond| {
            [&work.kit.bonds[*bond].one, &work.kit.bonds[*bond].other].iter().all(|side| on_strip(side, &work))
        })
        .collect();
    let [_, second, third] = strips[..] else { panic!("{strips:?}") };
    let kit = &mut work.kit;
    let mut twin = kit.pieces[kit.bonds[second].one.piece].clone();
    kit.parts.push(kit.parts[twin.part].clone());
    twin.part = kit.parts.len() - 1;
    kit.pieces.push(twin);
    kit.bonds[third] = kit.bonds[second];
    kit.bonds[third].one.piece = kit.pieces.len() - 1;
    let spine = section_words(&guide::guide(&work.guide_job(false)), "spine");
    assert!(spine.contains("Glue each of these in its place, in this order."), "{spine}");
}

/// Panels that lie alike are told at one go, each with its own length of tape; pages that follow one another by the first and the last.
#[test]
fn panels_have_their_tape_in_a_table() {
    let (_, guide) = fixture("towpath-year.json");
    let faces: Vec<&Step> =
        section(&guide, "pages").steps().filter(|step| step.head.plain().starts_with("Stick each of these")).collect();
    assert!(!faces.is_empty());
    for step in faces {
        let table = step.table.as_ref().unwrap();
        let own = table.head.iter().any(|head| head.plain() == "Tape");
        assert_eq!(own, step.lines.iter().any(|line| line.plain().contains("as long as the table says")));
        assert!(!own || table.rows.iter().all(|row| row.last().unwrap().numbers().any(|one| one.what == What::Tape)));
    }
    assert!(section_words(&guide, "pages").contains("Put the panels on pages 1 to 24"));
}

/// A tab that is called left in a step lies at the left of the flat strip, whichever side the album is bound at; which page hangs on it is
/// the other one in the mirror image.
#[test]
fn pages_hang_on_the_tab_that_is_named() {
    let tabs = |bound: &str| {
        let pages = r#""pages": [{ "kind": "pocket" }, { "kind": "pocket" }]"#;
        let (_, guide) = made(&format!(r#""bound": "{bound}", {pages}"#));
        let words: String = steps(&guide).map(read).filter(|step| step.contains("Hang page")).collect();
        (words.contains("1 on the left tab"), words.contains("1 on the right tab"), words)
    };
    let (left, right) = (tabs("left"), tabs("right"));
    assert!(left.0 && !left.1, "{}", left.2);
    assert!(right.1 && !right.0, "{}", right.2);
}

/// A band has no opening to be slid into; and whoever makes an album that is bound at the top works with its spine at the left.
#[test]
fn a_band_goes_round_and_the_top_is_told() {
    let rest = r#""pages": [{ "kind": "pocket" }, { "kind": "pocket" }], "cover": { "kind": "wrap", "band": 60 }"#;
    for (bound, said) in [("left", "Bound at the left"), ("top", "Bound at the top"), ("right", "Bound at the right")] {
        let (_, guide) = made(&format!(r#""bound": "{bound}", {rest}"#));
        let round: Vec<String> = steps(&guide).map(read).filter(|step| step.contains("belly band")).collect();
        assert!(round.iter().any(|step| step.contains("over it")), "{round:?}");
        assert!(!round.iter().any(|step| step.contains("into the spine")), "{round:?}");
        let get = section_words(&guide, "get");
        assert!(get.contains(said), "{bound}: {get}");
        assert_eq!(get.contains("turned when it is done"), bound == "top", "{get}");
    }
}
