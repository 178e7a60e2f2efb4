// SPDX-License-Identifier: MIT
//! A class: each group makes the album from the sheets and with the tool that it has. A group by itself is an album on those stocks;
//! `tests/outside/test_class.py` adds the order up from the makers.

use crate::common::{cutter, project};
use hingeleaf::album::Language;
use hingeleaf::batch::{self, Batch};
use hingeleaf::fields::Source;
use hingeleaf::finding::{Finding, Level};
use hingeleaf::guide;
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::parts;
use hingeleaf::sheets::{Search, StockSheets};
use hingeleaf::stock::By;
use hingeleaf::toolpath::Labels;
use hingeleaf::work::{BatchWork, Files, Work};
use hingeleaf::write::Memory;
#[cfg(feature = "pdf")]
use hingeleaf::write::pages::{GuideForm, guide_pages};
use serde_json::{Value, json};
use std::fs;

const SEARCH: Search = Search { effort: Effort::Low, trimmer: false, threads: 1 };

fn album() -> Value {
    serde_json::from_str(&fs::read_to_string(project().join("fixtures/tide-table.json")).unwrap()).unwrap()
}

/// A class of these makers of this album.
fn read(album: &Value, makers: &Value, more: &str) -> (Option<Batch>, Vec<Finding>) {
    let text = format!(
        r#"{{ "format": "hingeleaf-batch/1", {more} "class": {{ "album": "album.json", "makers": {makers} }} }}"#
    );
    let source = Source::new("class.json", text.into()).unwrap();
    let mut albums = |name: &str| Source::new(name, album.to_string().into());
    let read = batch::read(&source, &parts::kinds(), &mut albums);
    (read.value, read.findings)
}

fn worked(album: &Value, makers: &Value, more: &str) -> BatchWork {
    let (batch, findings) = read(album, makers, more);
    let batch = batch.unwrap_or_else(|| panic!("{findings:?}"));
    BatchWork::new(batch, cutter(0.1, 1.0, 3.0), Labels::None, SEARCH, &Unwatched)
}

/// An album by itself, each copy's sheets its own.
fn alone(text: &Value) -> Work {
    let mut text = text.clone();
    text["handed_over"] = json!("sheets");
    crate::common::work(&text.to_string(), cutter(0.1, 1.0, 3.0))
}

fn counts(stocks: &[StockSheets]) -> Vec<(u64, Vec<usize>)> {
    stocks.iter().map(|laid| (laid.count(), laid.sheets.iter().map(|sheet| sheet.placements.len()).collect())).collect()
}

#[test]
fn a_group_is_an_album_on_its_stocks() {
    let makers = json!([
        { "name": "one", "count": 6, "sheet": "A4", "by": "trimmer" },
        { "name": "two", "count": 4, "sheet": "letter" },
        { "name": "three", "count": 2, "sheet": { "card": "A3", "paper": "A4" }, "by": "machine" }
    ]);
    let work = worked(&album(), &makers, "");
    assert!(!work.stopped(), "{:?}", work.findings);
    for (number, (copies, changes)) in [
        (6, vec![("card", "by", "trimmer"), ("paper", "by", "trimmer")]),
        (4, vec![("card", "sheet", "letter")]),
        (2, vec![("card", "sheet", "A3"), ("paper", "sheet", "A4")]),
    ]
    .into_iter()
    .enumerate()
    {
        let mut text = album();
        text["copies"] = json!(copies);
        for (stock, field, value) in changes {
            text["stocks"][stock][field] = json!(value);
        }
        let alone = alone(&text);
        assert!(!alone.stopped(), "{:?}", alone.findings);
        assert_eq!(counts(&work.kits[number].stocks), counts(&alone.stocks), "group {number}");
        let group = &work.groups()[number];
        let each: u64 = group.sheets.iter().map(|sheets| sheets.each).sum();
        assert_eq!(each * u64::from(group.makers), alone.stocks.iter().map(StockSheets::count).sum::<u64>());
    }
    // The sheet stands for the stocks that come in nearly that size: paper of 12 in is as it was.
    let two = &work.batch.kits[1].album;
    assert_eq!(two.stocks.iter().map(|stock| stock.sheets[0].name.as_str()).collect::<Vec<_>>(), ["letter", "12x12in"]);
    // A price belongs to the sheet that it was said of.
    assert_eq!((two.stocks[0].sheets[0].price, two.stocks[1].sheets[0].price), (None, Some(0.9)));
    assert_eq!(work.batch.kits[0].album.stocks[0].sheets[0].price, Some(0.25));
}

/// A group that says what it cuts with cuts all with it, whatever single pages say; one that does not keeps their ways.
#[test]
fn a_group_cuts_all_with_its_tool() {
    let mut text = album();
    text["inserts"][0]["by"] = json!("trimmer");
    let makers = json!([{ "name": "one", "count": 2, "by": "machine" }, { "name": "two", "count": 2 }]);
    let work = worked(&text, &makers, "");
    let ways = |kit: usize| work.batch.kits[kit].album.stocks.iter().map(|stock| stock.by).collect::<Vec<_>>();
    assert_eq!(ways(0), [By::Machine, By::Machine]);
    assert_eq!(ways(1), [By::Machine, By::Machine, By::Trimmer]);
}

/// What is handed over cut is the teacher's to cut, from the same packs; the makers' own sheets are not.
#[test]
fn the_teacher_cuts_what_is_handed_over() {
    let makers = json!([
        { "name": "one", "count": 3, "by": "trimmer" },
        { "name": "two", "count": 2, "handed_over": "scored" },
        { "name": "three", "count": 2, "handed_over": { "card": "cut" } }
    ]);
    let work = worked(&album(), &makers, "");
    assert!(!work.stopped(), "{:?}", work.findings);
    let names: Vec<&str> = work.merged.stocks.iter().map(|stock| stock.name.as_str()).collect();
    assert_eq!(names, ["card.one", "paper.one", "card.scored", "paper.scored", "card.cut", "paper"]);
    assert!(work.merged.stocks.iter().all(|stock| ["card", "paper"].contains(&stock.bought())));
    let groups = work.groups();
    let own = |group: usize| groups[group].sheets.iter().map(|sheets| sheets.stock.as_str()).collect::<Vec<_>>();
    assert_eq!((own(0), own(1), own(2)), (vec!["card", "paper"], vec![], vec!["paper"]));
    // The job sheet lists for cutting those pieces alone that are handed over: two scored kits of 24, two cut ones of 14 of card.
    let sheet = work.order_sheet(false).unwrap();
    let cut = sheet.sections.iter().find(|section| section.id == "cut").unwrap();
    let counts: Vec<f64> = cut
        .lines()
        .into_iter()
        .flat_map(guide::Line::numbers)
        .filter(|number| number.what == guide::What::Count)
        .map(|number| number.value)
        .collect();
    assert!((counts.iter().sum::<f64>() - f64::from(2 * 24 + 2 * 14)).abs() < 1e-9, "{counts:?}");
    // A class in which nobody is handed pieces has nothing for the teacher to cut.
    let makers = json!([{ "name": "one", "count": 3 }]);
    let sheet = worked(&album(), &makers, "").order_sheet(false).unwrap();
    for id in ["cut", "first"] {
        assert!(sheet.sections.iter().all(|section| section.id != id), "{id}");
    }
    // The machine stands at the makers' table: what its files are made for is told; a trimmer has no settings.
    let told = |id: &str, sheet: &guide::Guide| sheet.sections.iter().any(|section| section.id == id);
    assert!(told("class", &sheet) && told("machine", &sheet));
    let trimmed =
        worked(&album(), &json!([{ "name": "one", "count": 3, "by": "trimmer" }]), "").order_sheet(false).unwrap();
    assert!(told("class", &trimmed) && !told("machine", &trimmed));
}

/// A piece has one letter, whoever cuts it.
#[test]
fn pieces_have_one_letter_in_all_groups() {
    let makers = json!([
        { "name": "one", "count": 3, "by": "trimmer" },
        { "name": "two", "count": 2, "sheet": "letter" },
        { "name": "three", "count": 2, "handed_over": "scored" }
    ]);
    let work = worked(&album(), &makers, "");
    let letters: Vec<Vec<(&str, &String)>> = work
        .kits
        .iter()
        .map(|kit| kit.kit.parts.iter().map(|part| part.id.as_str()).zip(kit.letters.as_ref().unwrap()).collect())
        .collect();
    assert!(letters.iter().all(|own| *own == letters[0]), "{letters:?}");
    let mut all: Vec<&String> = letters[0].iter().map(|(_, letter)| *letter).collect();
    all.sort();
    all.dedup();
    assert_eq!(all.len(), letters[0].len());
}

/// A maker reads of card as it is bought, of sheets in sentences; whoever makes all kits tells the groups' stocks apart.
#[test]
fn a_makers_page_calls_card_as_it_is_bought() {
    let makers =
        json!([{ "name": "one", "count": 3, "by": "trimmer" }, { "name": "two", "count": 2, "sheet": "letter" }]);
    for (language, told, not) in [("en", "6 to cut", "To cut"), ("de", "6 zum Schneiden", "Zum Schneiden")] {
        let work = worked(&album(), &makers, &format!(r#""language": "{language}","#));
        let plain = |guide: &guide::Guide| -> Vec<String> {
            guide.sections.iter().flat_map(guide::Section::lines).map(guide::Line::plain).collect()
        };
        let page = plain(&guide::makers(&work.kits[0].guide_job(false), "one", 3));
        assert!(page.iter().any(|line| line.starts_with("card · ")), "{page:#?}");
        let sheets = page.iter().find(|line| line.starts_with("card, A4")).unwrap();
        assert!(sheets.contains(told) && sheets.contains("280") && !sheets.contains(not), "{sheets}");
        assert!(page.iter().all(|line| !line.contains("card.one") || line.contains("card.one-0")), "{page:#?}");
        let job = plain(&work.order_sheet(false).unwrap());
        assert!(job.iter().any(|line| line.contains("card.two")), "{job:#?}");
    }
    // Card that one maker cuts in two ways is told apart.
    let mut text = album();
    text["inserts"][0]["by"] = json!("trimmer");
    let work = worked(&text, &json!([{ "name": "one", "count": 2 }]), "");
    let page = guide::makers(&work.kits[0].guide_job(false), "one", 2);
    let lines: Vec<String> = page.sections.iter().flat_map(guide::Section::lines).map(guide::Line::plain).collect();
    assert!(lines.iter().any(|line| line.starts_with("card.trimmer · ")), "{lines:#?}");
}

/// A group that can't make it from its sheets is told with its name, at its sheet's own entry; the group beside it is not.
#[test]
fn a_group_whose_sheets_are_too_small_is_named() {
    let makers = json!([
        { "name": "large", "count": 3, "sheet": "A4" },
        { "name": "small", "count": 2, "sheet": { "card": "A5" } }
    ]);
    let work = worked(&album(), &makers, "");
    let stops: Vec<&Finding> = work.findings.iter().filter(|finding| finding.level == Level::Stop).collect();
    assert!(!stops.is_empty() && work.stocks.is_empty());
    for stop in stops {
        let about = stop.about.to_string();
        assert!(about.contains("small") && !about.contains("large"), "{about}");
        assert!(stop.text.to_string().contains("A5"), "{stop:?}");
    }
    let sound = worked(&album(), &json!([{ "name": "large", "count": 3, "sheet": "A4" }]), "");
    assert!(!sound.stopped());
}

/// What is wrong with a class is told at its entry, all of it at once.
#[test]
fn what_is_wrong_with_a_class_is_told_where_it_stands() {
    let makers = json!([
        { "name": "one", "count": 6, "sheet": "A6" },
        { "name": "one", "count": 0, "sheet": { "cardd": "letter", "paper": 12 } },
        { "name": "table two", "by": "laser" },
        { "name": "three", "count": 2, "handed_over": { "card": "folded" }, "change": { "pages[9].pocket": 3 } }
    ]);
    let (batch, findings) = read(&album(), &makers, "");
    assert!(batch.is_none());
    let told: Vec<String> = findings
        .iter()
        .map(|finding| format!("{} {}", finding.id, finding.place.as_ref().map_or("", |place| &place.path)))
        .collect();
    for wanted in [
        "no-such-sheet class.makers[0].sheet",
        "twice class.makers[1].name",
        "out-of-range class.makers[1].count",
        "unknown-stock class.makers[1].sheet.cardd",
        "wrong-type class.makers[1].sheet.paper",
        "bad-name class.makers[2].name",
        "missing class.makers[2].count",
        "unknown-word class.makers[2].by",
        "unknown-word class.makers[3].handed_over.card",
        "change-no-place pages[9].pocket",
    ] {
        assert!(told.iter().any(|told| told == wanted), "{wanted} in {told:#?}");
    }
    assert!(read(&album(), &json!([{ "name": "one", "count": 1 }]), "").1.is_empty());
}

/// A page for each group, in the album's language, on one sheet of paper; both languages say the same numbers.
#[test]
fn every_group_has_a_page() {
    let makers = json!([
        { "name": "one", "count": 6, "by": "trimmer" },
        { "name": "two", "count": 1, "sheet": "letter" },
        { "name": "three", "count": 2, "handed_over": "scored" }
    ]);
    for language in [Language::English, Language::German] {
        let more = format!(r#""language": "{}","#, language.word());
        let work = worked(&album(), &makers, &more);
        let mut memory = Memory::default();
        work.write(&Files::of(&["html", "csv", "pdf"]), &mut memory).unwrap();
        for name in ["one", "two", "three"] {
            let page = String::from_utf8(memory.files[&format!("makers/{name}.html")].clone()).unwrap();
            assert!(page.contains(&format!("lang=\"{}\"", language.word())), "{name}");
            let printed = memory.files.get(&format!("makers/{name}.pdf"));
            assert_eq!(printed.is_some_and(|bytes| bytes.starts_with(b"%PDF")), cfg!(feature = "pdf"), "{name}");
        }
        #[cfg(feature = "pdf")]
        for (kit, own) in work.batch.kits.iter().zip(&work.kits) {
            let page = guide::makers(&own.guide_job(true), &kit.name, kit.album.copies);
            let pages = guide_pages(&page, GuideForm::Card).unwrap().pages.len();
            assert_eq!(pages, 1, "{}", kit.name);
        }
        // One maker has what the list of sheets says: 24 pieces from so many sheets.
        let guide = guide::makers(&work.kits[0].guide_job(false), "one", 6);
        let yours = guide.sections.iter().find(|section| section.id == "yours").unwrap();
        let sheets: f64 = yours
            .lines()
            .into_iter()
            .flat_map(guide::Line::numbers)
            .filter(|number| {
                number.what == guide::What::Sheets && ["card.one", "paper.one"].contains(&number.of.as_str())
            })
            .map(|number| number.value)
            .sum();
        let each: u64 = work.groups()[0].sheets.iter().map(|sheets| sheets.each).sum();
        assert!((sheets - f64::from(u32::try_from(each).unwrap())).abs() < 1e-9, "{sheets} and {each}");
    }
}
