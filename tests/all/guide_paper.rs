// SPDX-License-Identifier: MIT
//! Guides and cards on paper: all of them, in order, within the margins, pages that end between things.

use crate::common::{fixtures, work};
use hingeleaf::contour::Point;
use hingeleaf::cutter::Cutter;
use hingeleaf::guide::{self, Bit, Block, Figure, Guide, Line, Number, Section, Step, Table};
use hingeleaf::paper::Paper;
use hingeleaf::picture::{CUT, Mark, Picture};
use hingeleaf::work::Work;
use hingeleaf::write::guide_pdf;
use hingeleaf::write::pages::{
    GuideForm, PlacedContent, StructureRole, TaggedAs, TypesetContent, TypesetGuide, guide_pages,
};
use proptest::prelude::*;
use std::collections::BTreeSet;

/// Words without spaces: lines break where they may.
fn squeezed(text: &str) -> String {
    text.chars().filter(|letter| !letter.is_whitespace()).collect()
}

/// Everything that a guide says, in order.
fn said(guide: &Guide) -> String {
    let mut out = vec![guide.title.clone()];
    out.extend(guide.maker.iter().map(|maker| format!("{} {maker}", guide.word("page-maker"))));
    out.extend(guide.edition.clone());
    if !guide.notes.is_empty() {
        out.push(guide.word("page-notes").to_owned());
        out.extend(guide.notes.clone());
    }
    let (mut number, mut dashes) = (0, BTreeSet::new());
    for section in &guide.sections {
        out.push(section.heading.plain());
        for block in &section.blocks {
            match block {
                Block::Steps(steps) => {
                    for step in steps {
                        number += 1;
                        out.push(number.to_string());
                        out.extend([&step.head].into_iter().chain(&step.lines).map(Line::plain));
                        cautions(&mut out, guide, &step.warn);
                        out.extend(step.table.iter().flat_map(Table::lines).map(Line::plain));
                    }
                }
                Block::Words(line) | Block::Heading(line) => out.push(line.plain()),
                Block::List(list) => {
                    dashes.insert(out.len());
                    out.extend(list.iter().map(|line| format!("–{}", line.plain())));
                }
                Block::Caution(list) => cautions(&mut out, guide, list),
                Block::Table(table) => {
                    out.extend([&table.caption].into_iter().chain(&table.head).map(Line::plain));
                    out.extend(table.rows.iter().flatten().map(Line::plain));
                }
                Block::Figure(_) => {}
            }
        }
    }
    squeezed(&out.concat())
}

fn cautions(out: &mut Vec<String>, guide: &Guide, list: &[Line]) {
    if !list.is_empty() {
        out.push(guide.word("page-caution").to_owned());
        out.extend(list.iter().map(|line| format!("–{}", line.plain())));
    }
}

fn words<'a>(one: &'a PlacedContent<'_>) -> Option<&'a str> {
    if let TypesetContent::Words { text, .. } = &one.what { Some(text) } else { None }
}

/// What stands on the pages as words, by what it belongs to, in the order of the tree.
fn read(pages: &TypesetGuide<'_>) -> String {
    let mut by_node = vec![String::new(); pages.tree.0.len()];
    for one in pages.pages.iter().flat_map(|page| &page.placed) {
        if let (TaggedAs::Node(node), Some(text)) = (one.of, words(one)) {
            by_node[node].push_str(text);
        }
    }
    squeezed(&by_node.concat())
}

/// The pages on which each thing of the tree stands, with its parts.
fn stands(pages: &TypesetGuide<'_>) -> Vec<BTreeSet<usize>> {
    let mut on = vec![BTreeSet::new(); pages.tree.0.len()];
    for (number, page) in pages.pages.iter().enumerate() {
        for one in &page.placed {
            let mut node = if let TaggedAs::Node(node) = one.of { Some(node) } else { None };
            while let Some(here) = node {
                on[here].insert(number);
                node = pages.tree.0[here].of;
            }
        }
    }
    on
}

/// A step by its number in the tree: an entry of a list whose label is a number.
fn is_step(pages: &TypesetGuide<'_>, node: usize) -> bool {
    let list = pages.tree.0[node].of.map(|of| &pages.tree.0[of].role);
    pages.tree.0[node].role == StructureRole::Item && list == Some(&StructureRole::List { numbered: true })
}

fn boxed(one: &PlacedContent<'_>) -> [f64; 4] {
    [one.x, one.y, one.x + one.width, one.y + one.height]
}

/// Whether two things lie on each other by more than a hair.
fn meet(one: [f64; 4], other: [f64; 4]) -> bool {
    (0..2).all(|axis| one[axis].max(other[axis]) + 0.01 < one[axis + 2].min(other[axis + 2]))
}

/// All that is wrong with pages of any guide.
fn faults(guide: &Guide, pages: &TypesetGuide<'_>) -> Vec<String> {
    let mut found = Vec::new();
    let (read, said) = (read(pages), said(guide));
    if read != said {
        let same = read.chars().zip(said.chars()).take_while(|(one, other)| one == other).count();
        let from = |text: &str| text.chars().skip(same.saturating_sub(20)).take(60).collect::<String>();
        found.push(format!("words differ: “{}” for “{}”", from(&read), from(&said)));
    }
    let (right, low) = (pages.paper.0 - pages.margin, pages.paper.1 - pages.margin);
    for (number, page) in (1..).zip(&pages.pages) {
        let own: Vec<&PlacedContent<'_>> = page.placed.iter().filter(|one| one.of != TaggedAs::Footer).collect();
        if !own.iter().any(|one| matches!(one.of, TaggedAs::Node(_))) {
            found.push(format!("page {number} is empty"));
        }
        for one in &own {
            let [x0, y0, x1, y1] = boxed(one);
            if x0 < pages.margin - 0.01 || y0 < pages.margin - 0.01 || x1 > right + 0.01 || y1 > low - 5.9 {
                found.push(format!("page {number}: in the margin: {:?}", (boxed(one), words(one))));
            }
        }
        let solid: Vec<&&PlacedContent<'_>> = own
            .iter()
            .filter(|one| matches!(one.what, TypesetContent::Words { .. } | TypesetContent::Picture { .. }))
            .collect();
        for (index, one) in solid.iter().enumerate() {
            for other in &solid[index + 1..] {
                if meet(boxed(one), boxed(other)) {
                    found.push(format!("page {number}: {:?} on {:?}", words(one), words(other)));
                }
            }
        }
        if let Some(TaggedAs::Node(last)) =
            own.iter().rev().map(|one| one.of).find(|of| matches!(of, TaggedAs::Node(_)))
            && matches!(pages.tree.0[last].role, StructureRole::Heading(2.., _))
            && pages.pages.len() > number
        {
            found.push(format!("page {number} ends with a heading"));
        }
    }
    let first: Vec<usize> = stands(pages).iter().filter_map(|on| on.first().copied()).collect();
    if !first.is_sorted() {
        found.push("things stand on pages before those that they follow".into());
    }
    found
}

fn guides(work: &Work) -> [(GuideForm, Guide); 2] {
    let job = work.guide_job(true);
    [(GuideForm::Guide, guide::guide(&job)), (GuideForm::Card, guide::card(&job))]
}

#[test]
fn guides_of_all_albums_are_whole_on_paper() {
    let (mut albums, mut steps, mut again) = (0, 0, 0);
    for path in fixtures() {
        let work = work(&std::fs::read_to_string(&path).unwrap(), Cutter::default());
        if work.stopped() {
            continue;
        }
        albums += 1;
        for (form, guide) in guides(&work) {
            let pages = guide_pages(&guide, form).unwrap();
            let mut found = faults(&guide, &pages);
            if form == GuideForm::Card {
                // Its order is numbered, not dashed.
                found.retain(|fault| !fault.starts_with("words differ"));
            }
            assert!(found.is_empty(), "{}, {form:?}:\n{}", path.display(), found.join("\n"));
            let on = stands(&pages);
            for (node, on) in on.iter().enumerate() {
                let role = &pages.tree.0[node].role;
                if is_step(&pages, node)
                    || matches!(
                        role,
                        StructureRole::Row | StructureRole::Caution | StructureRole::Figure(_) | StructureRole::Item
                    )
                {
                    assert_eq!(on.len(), 1, "{}: {role:?} stands on pages {on:?}", path.display());
                    steps += usize::from(is_step(&pages, node));
                }
            }
            // Where a table goes on, its head stands again.
            for (node, on) in on.iter().enumerate().filter(|(node, _)| pages.tree.0[*node].role == StructureRole::Table)
            {
                let head = (node..pages.tree.0.len())
                    .find(|node| pages.tree.0[*node].role == StructureRole::ColumnHead)
                    .unwrap();
                let said = pages
                    .pages
                    .iter()
                    .flat_map(|page| &page.placed)
                    .find(|one| one.of == TaggedAs::Node(head))
                    .unwrap();
                for page in on.iter().skip(1) {
                    let first = pages.pages[*page].placed.first().unwrap();
                    assert_eq!((words(first), first.of), (words(said), TaggedAs::Artifact), "{}", path.display());
                    again += 1;
                }
            }
        }
    }
    assert!(albums > 10 && steps > 300 && again > 5, "{albums} albums, {steps} steps, {again} heads again");
}

#[test]
fn the_same_bytes_each_time() {
    let work = work(&std::fs::read_to_string(&fixtures()[0]).unwrap(), Cutter::default());
    for (form, guide) in guides(&work) {
        let one = guide_pdf(&guide, form).unwrap();
        assert!(one.starts_with(b"%PDF-1.7") && one == guide_pdf(&guide, form).unwrap());
        // To PDF/UA: nothing in it was minded.
        assert!(one.windows(12).any(|window| window == b"pdfuaid:part"));
    }
}

/// A handout of 24 mixed pages, ready scored, with all lengths in both systems: panels that are stuck alike are told once.
#[test]
fn a_long_handout_is_no_longer_than_it_was() {
    let text = std::fs::read_to_string(crate::common::project().join("fixtures/towpath-year.json")).unwrap();
    for (language, most) in [("en", 23), ("de", 24)] {
        let with = format!("\"language\": \"{language}\", \"handed_over\": \"scored\",");
        let work = work(&text.replacen('{', &format!("{{ {with}"), 1), Cutter::default());
        let guide = guide::guide(&work.guide_job(true));
        assert_eq!(guide.language, language);
        let pages = guide_pages(&guide, GuideForm::Guide).unwrap().pages.len();
        assert!(pages <= most, "{language}: {pages} pages");
    }
}

/// A kit card is one page, of any album, in each language, on each paper, in one system and in both; an album of few pieces has
/// them in a table.
#[test]
fn a_kit_card_is_one_page() {
    let (mut cards, mut long) = (0, 0);
    for path in fixtures() {
        let mut work = work(&std::fs::read_to_string(&path).unwrap(), Cutter::default());
        for language in hingeleaf::album::Language::ALL {
            work.album.language = language;
            for (both, paper) in [(false, Paper::A4), (false, Paper::Letter), (true, Paper::A4), (true, Paper::Letter)]
            {
                let card = Guide { paper, ..guide::card(&work.guide_job(both)) };
                let pages = guide_pages(&card, GuideForm::Card).unwrap().pages.len();
                assert_eq!(pages, 1, "{}, {language:?}, {paper:?}, both: {both}", path.display());
                cards += 1;
                // Each piece by its letter, once.
                let cut = card.sections.iter().find(|section| section.id == "cut").unwrap();
                let marks =
                    cut.lines().iter().flat_map(|line| &line.0).filter(|bit| matches!(bit, Bit::Mark(_))).count();
                assert_eq!(marks, work.kit.parts.len(), "{}", path.display());
                let tabled = cut.blocks.iter().any(|block| matches!(block, Block::Table(_)));
                assert_eq!(tabled, work.kit.parts.len() <= 8, "{}", path.display());
                long += usize::from(!tabled);
            }
        }
    }
    assert!(cards > 100 && long > 50 && long < cards, "{cards} cards, {long} long ones");
}

/// A name in letters that the font has not: boxes, no error, and nothing lost.
#[test]
fn letters_that_the_font_has_not_are_written_all_the_same() {
    let guide = small("Атлас 図 🌊", vec![Block::Words(Line::text("Страница"))]);
    let pages = guide_pages(&guide, GuideForm::Guide).unwrap();
    assert_eq!(faults(&guide, &pages), Vec::<String>::new());
    assert!(guide_pdf(&guide, GuideForm::Guide).unwrap().starts_with(b"%PDF"));
    // Nor are no words at all.
    assert!(guide_pdf(&small("", Vec::new()), GuideForm::Card).unwrap().starts_with(b"%PDF"));
}

/// Small steps stand three side by side: nine pictures of 45 mm, each with a line, go on the first page, and twelve on the next
/// one, with one more below them whose words stand beside its picture.
#[test]
fn small_steps_stand_side_by_side() {
    let step = |number: usize| Step { figure: Some(drawn(60.0, 45.0)), ..Step::new(format!("Do {number}.").into()) };
    let guide = small("Two", vec![Block::Steps((0..22).map(step).collect())]);
    let pages = guide_pages(&guide, GuideForm::Guide).unwrap();
    let of_page = |page: &hingeleaf::write::pages::TypesetPage<'_>| -> Vec<(f64, f64)> {
        let pictures = page.placed.iter().filter(|one| matches!(one.what, TypesetContent::Picture { .. }));
        pictures.map(|one| (one.x, one.y)).collect()
    };
    let placed: Vec<Vec<(f64, f64)>> = pages.pages.iter().map(of_page).collect();
    assert_eq!(placed.iter().map(Vec::len).collect::<Vec<_>>(), [9, 13]);
    for row in placed.iter().flat_map(|page| page.chunks(3)) {
        for two in row.windows(2) {
            assert!((two[0].1 - two[1].1).abs() < 1e-9 && two[0].0 + 56.0 < two[1].0, "{row:?}");
        }
    }
}

fn drawn(width: f64, height: f64) -> Figure {
    let points = vec![Point::new(1.0, 1.0), Point::new(width - 1.0, height - 1.0)];
    let picture = Picture { width, height, marks: vec![Mark::Line { points, pen: CUT }] };
    Figure { picture, shows: "a line".into() }
}

fn small(title: &str, blocks: Vec<Block>) -> Guide {
    let word = |(name, word): (&'static str, &str)| (name, word.to_owned());
    Guide {
        title: title.into(),
        maker: Some("Somebody".into()),
        edition: None,
        notes: vec!["Take care.\nTwice.".into()],
        language: "en",
        paper: Paper::A4,
        page: [("page-caution", "Mind"), ("page-maker", "By"), ("page-notes", "Notes")].map(word).to_vec(),
        sections: vec![Section { id: "one", heading: "Do this".into(), blocks }],
    }
}

/// Words of any length, also without a place to break, with numbers and letters among them.
fn line() -> impl Strategy<Value = Line> {
    let bits = prop_oneof![
        6 => "[A-Za-zäöüß ,.(-]{1,60}".prop_map(Line::text),
        1 => "[a-z]{1,200}".prop_map(Line::text),
        1 => "[a-z ]{200,9000}".prop_map(Line::text),
        2 => (1..5000_u32).prop_map(|mm| Line::from(Number {
            shown: format!("{mm} mm (about {} in)", mm / 25),
            value: f64::from(mm),
            what: guide::What::Length,
            of: String::new(),
        })),
        2 => "[A-Z]{1,3}".prop_map(Line::mark),
    ];
    prop::collection::vec(bits, 1..6).prop_map(|lines| Line(lines.into_iter().flat_map(|line| line.0).collect()))
}

fn figure() -> impl Strategy<Value = Figure> {
    (5.0..600.0_f64, 5.0..600.0_f64).prop_map(|(width, height)| drawn(width, height))
}

fn block() -> impl Strategy<Value = Block> {
    let lines = |most: usize| prop::collection::vec(line(), 1..most);
    let step = (line(), lines(6), prop::collection::vec(line(), 0..3), prop::option::of(figure()))
        .prop_map(|(head, lines, warn, figure)| Step { head, lines, warn, figure, ..Step::default() });
    let table = (1..8_usize).prop_flat_map(|columns| {
        let row = prop::collection::vec(prop_oneof![4 => line(), 1 => Just(Line::default())], columns..=columns);
        (line(), prop::collection::vec(line(), columns..=columns), prop::collection::vec(row, 1..30))
            .prop_map(|(caption, head, rows)| Table { caption, head, rows })
    });
    prop_oneof![
        line().prop_map(Block::Words),
        line().prop_map(Block::Heading),
        lines(12).prop_map(Block::List),
        table.prop_map(Block::Table),
        prop::collection::vec(step, 1..6).prop_map(Block::Steps),
        figure().prop_map(Block::Figure),
        lines(8).prop_map(Block::Caution),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever is to be said, no line is lost, nothing leaves the page or lies on anything else.
    #[test]
    fn nothing_is_lost_and_nothing_leaves_the_page(
        title in "[A-Za-z ]{1,120}",
        blocks in prop::collection::vec(block(), 1..12),
        paper in prop::sample::select(vec![Paper::A4, Paper::Letter]),
    ) {
        let guide = Guide { paper, ..small(&title, blocks) };
        let pages = guide_pages(&guide, GuideForm::Guide).unwrap();
        let found: Vec<String> =
            faults(&guide, &pages).into_iter().filter(|fault| !fault.ends_with("ends with a heading")).collect();
        prop_assert!(found.is_empty(), "{}", found.join("\n"));
    }
}
