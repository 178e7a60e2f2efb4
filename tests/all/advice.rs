// SPDX-License-Identifier: MIT
//! What the guide adds to its steps: what fits where, what to do when it goes wrong, the steps in one line each.

use crate::common::{album, cutter, fixtures, work};
use hingeleaf::guide::{self, Block, Guide, Line, Table};
use hingeleaf::parts::prints::named_prints;
use hingeleaf::work::Work;

fn text(page: &str, more: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "stocks": {{ "card": {{ "sheet": "A4", "caliper": 0.3 }} }},
        "page": {{ "width": 148, "height": 190, "seam": 12 }}, "pages": [{page}] {more} }}"#
    )
}

fn made(text: &str) -> Guide {
    guide::guide(&Work::fit(album(text), cutter(0.0, 0.0, 0.0)).guide_job(false))
}

fn table<'a>(guide: &'a Guide, id: &str) -> Option<&'a Table> {
    let section = guide.sections.iter().find(|section| section.id == id)?;
    section.blocks.iter().find_map(|block| if let Block::Table(table) = block { Some(table) } else { None })
}

/// What the table says of a print in a column, the first of them 1: its words.
fn said(guide: &Guide, name: &str, column: usize) -> String {
    let rows = table(guide, "fits").map_or(&[][..], |table| &table.rows);
    let print = named_prints().iter().find(|print| print.name == name).unwrap();
    let named = |row: &&Vec<Line>| {
        let sides: Vec<f64> = row[0].numbers().map(|side| side.value).collect();
        sides == [print.width.mm(), print.height.mm()]
    };
    rows.iter().find(named).map_or_else(|| "–".to_owned(), |row| row[column].plain())
}

/// A pocket of a page 148 x 190, sealed at head and tail, its hinge's tab 12 wide: 136 across less what slides, 190 up less
/// the folds and what slides. 4R is 101.6 x 152.4 and may be 1 mm larger: upright it goes in, lying it is 152.4 wide. 5R is 127 x
/// 177.8: upright. 8R is larger than the page.
#[test]
fn prints_are_held_against_pockets() {
    let guide = made(&text(r#"{ "kind": "pocket" }"#, ""));
    for (name, way) in
        [("2R", "upright or lying"), ("4R", "upright"), ("5R", "upright"), ("8R", "–"), ("carte", "upright or lying")]
    {
        assert_eq!(said(&guide, name, 1), way, "{name}");
    }
    // A page that is a frame for 4R has a pocket, too; the frame takes 4R and what is as large, the way it lies.
    let guide = made(&text(r#"{ "kind": "corner-mount", "print": "4R", "lies": "upright" }"#, ""));
    for (name, way) in [("4R", "upright"), ("4x6-card", "upright"), ("10x15", "upright"), ("3R", "–")] {
        assert_eq!(said(&guide, name, 2), way, "{name}");
    }
    // Where nothing goes into anything there is no table.
    assert!(table(&made(&text(r#"{ "kind": "divider" }"#, "")), "fits").is_none());
}

/// For every print and both ways the table agrees with what the check says of a card of that size, a little larger.
#[test]
fn the_table_agrees_with_the_check() {
    let (mut goes, mut stays) = (0, 0);
    for page in [
        r#"{ "kind": "pocket" }"#,
        r#"{ "kind": "wallet", "pocket": 110, "overflap": 45 }"#,
        r#"{ "kind": "library-card" }"#,
    ] {
        let guide = made(&text(page, ""));
        for print in named_prints() {
            for (way, print) in [("upright", *print), ("lying", print.turned())] {
                let [width, height] =
                    [print.width + print.off, print.height + print.off].map(hingeleaf::length::Length::mm);
                let insert = format!(
                    r#", "inserts": [{{ "kind": "journal-card", "width": {width}, "height": {height}, "corner": 0, "thickness": 0.3 }}]"#
                );
                let work = Work::fit(album(&text(page, &insert)), cutter(0.0, 0.0, 0.0));
                let refused =
                    work.findings.iter().any(|finding| finding.id.starts_with("insert-") || finding.id == "snug");
                let told = said(&guide, print.name, 1);
                let told = told.split(" or ").any(|one| one.starts_with(way));
                // What a flap closes over may stand out under it, and sheets give a little: the table promises no more.
                assert!(
                    !(told && refused),
                    "{page}: {} {way}: {:?}",
                    print.name,
                    work.findings.iter().map(|f| f.id).collect::<Vec<_>>()
                );
                goes += usize::from(told);
                stays += usize::from(!told && refused);
            }
        }
    }
    assert!(goes > 20 && stays > 20, "{goes} go in, {stays} do not");
}

/// Each remedy stands where its mishap can be, and nowhere else.
#[test]
fn remedies_are_for_what_there_is() {
    let has = |text: &str, what: &str| {
        let guide = made(text);
        let rows = &table(&guide, "wrong").unwrap().rows;
        rows.iter().any(|row| row[0].plain().contains(what))
    };
    let plain = text(r#"{ "kind": "pocket" }"#, "");
    let loaded = text(
        r#"{ "kind": "pocket" }, { "kind": "pocket" }, { "kind": "pocket" }"#,
        r#", "cover": { "kind": "wrap" }, "panels": { "reveal": 3 }, "inserts": [{ "kind": "tag" }]"#,
    );
    for (what, always) in
        [("seam", true), ("page hangs", true), ("cover", false), ("panel", false), ("pocket", false), ("strips", true)]
    {
        assert_eq!(has(&plain, what), always, "{what} in the plain one");
        assert!(has(&loaded, what), "{what} in the loaded one");
    }
    let handed = plain.replace(r#""stocks""#, r#""handed_over": "scored", "stocks""#);
    assert!(has(&plain, "cut or scored wrong") && !has(&handed, "cut or scored wrong"));
}

/// The teaching sheet has every step of the guide once, in order, with sizes that are the step's own; it is short.
#[test]
fn every_step_is_taught_in_a_line() {
    for path in fixtures() {
        let text = std::fs::read_to_string(&path).unwrap();
        let work = work(&text, cutter(0.0, 0.0, 0.0));
        let job = work.guide_job(false);
        let (guide, teaching) = (guide::guide(&job), guide::teaching(&job));
        let steps: Vec<_> = guide.sections.iter().flat_map(guide::Section::steps).collect();
        let lists = teaching.sections.iter().filter(|section| section.id != "need").flat_map(|section| &section.blocks);
        let lines: Vec<&Line> = lists
            .filter_map(|block| if let Block::List(lines) = block { Some(lines) } else { None })
            .flatten()
            .collect();
        assert_eq!(lines.len(), steps.len(), "{path:?}");
        for (index, (line, step)) in lines.iter().zip(&steps).enumerate() {
            assert!(
                line.plain().starts_with(&format!("{} · {}", index + 1, step.head.plain())),
                "{path:?}: {}",
                line.plain()
            );
            // "Each of these pieces" says nothing without them.
            let marked = |line: &Line| line.0.iter().any(|bit| matches!(bit, guide::Bit::Mark(_)));
            assert!(!step.head.plain().contains("these pieces") || marked(line), "{path:?}: {}", line.plain());
            let cells = step.table.iter().flat_map(|table| table.head.iter().chain(table.rows.iter().flatten()));
            let own: Vec<_> =
                step.head.numbers().chain(step.lines.iter().chain(cells).flat_map(Line::numbers)).collect();
            // What differs from piece to piece is taught of each.
            let mut tabled = step.table.iter().flat_map(|table| table.rows.iter().flatten()).flat_map(Line::numbers);
            let said: Vec<_> = line.numbers().collect();
            assert!(tabled.all(|number| said.contains(&number)), "{path:?}: {}", line.plain());
            assert!(line.numbers().skip(1).all(|number| own.contains(&number)), "{path:?}: {}", line.plain());
        }
    }
}
