// SPDX-License-Identifier: MIT
//! What is handed over: the guide leaves out what comes done, the job sheet has just that, bags hold what the kits take.

use crate::common::{TempDir, album, cutter, fixtures, hingeleaf, near, project, work};
use hingeleaf::album::{self, Handed};
use hingeleaf::fields::Source;
use hingeleaf::guide::{self, Audience, Guide, Told, What};
use hingeleaf::parts::{self, Kit};
use hingeleaf::work::Work;
use std::collections::{BTreeMap, BTreeSet};

/// An album of two stocks; `more` goes before its pages.
fn text(more: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", {more}
        "stocks": {{ "card": {{ "sheet": "A4", "caliper": 0.35, "grammage": 280 }}, "paper": {{ "sheet": "12x12in", "caliper": 0.2, "grammage": 120 }} }},
        "page": {{ "width": 148, "height": 190 }}, "panels": {{ "stock": "paper" }},
        "pages": [{{ "kind": "pocket" }}, {{ "kind": "wallet", "pocket": 110, "overflap": 45 }}],
        "inserts": [{{ "kind": "tag", "width": 90, "height": 130 }}] }}"#
    )
}

fn texts(work: &Work) -> [Guide; 2] {
    let job = work.guide_job(false);
    [guide::guide(&job), guide::shop(&job)]
}

/// What is cut out and scored of a kit, worked out from the kit alone; bent and folded is at the table.
fn to_make(kit: &Kit) -> BTreeSet<Told> {
    let mut all = BTreeSet::new();
    for (number, part) in kit.parts.iter().enumerate().filter(|(_, part)| part.count > 0) {
        all.extend((0..part.flat.scores.len()).map(|score| Told::Score(number, score)));
        all.extend((0..part.flat.holes.len()).map(|hole| Told::Hole(number, hole)));
        if (part.flat.width * part.flat.height - part.flat.outline.area()).abs() > 1e-3 {
            all.insert(Told::Outline(number));
        }
    }
    all
}

fn made(guide: &Guide) -> Vec<Told> {
    let steps = guide.sections.iter().flat_map(guide::Section::steps);
    let made = |told: &Told| matches!(told, Told::Score(..) | Told::Hole(..) | Told::Outline(_));
    steps.flat_map(|step| step.of.iter().copied()).filter(made).collect()
}

/// Every state of every stock, over all fixtures: what is cut and scored is told to one of the two, to the right one, once.
#[test]
fn all_is_told_to_one_of_the_two() {
    let mut told = 0;
    for path in fixtures() {
        let text = std::fs::read_to_string(&path).unwrap();
        let mut work = Work::fit(album(&text), cutter(0.0, 0.0, 0.0));
        if work.stopped() {
            continue;
        }
        let meant = to_make(&work.kit);
        for turn in 0..3 {
            for stock in 0..work.album.stocks.len() {
                work.album.hand_over(Some(stock), Handed::ALL[(turn + stock) % 3]);
            }
            let [kit, shop] = texts(&work).map(|guide| made(&guide));
            let all: BTreeSet<Told> = kit.iter().chain(&shop).copied().collect();
            assert_eq!(all, meant, "{path:?}");
            assert_eq!(kit.len() + shop.len(), meant.len(), "{path:?}: something is told twice");
            for (mine, by_shop) in [(&kit, false), (&shop, true)] {
                for one in mine {
                    let (part, needs) = match one {
                        Told::Score(part, _) => (*part, Handed::Scored),
                        Told::Hole(part, _) | Told::Outline(part) => (*part, Handed::Cut),
                        _ => unreachable!(),
                    };
                    let handed = work.album.handed_over(work.kit.parts[part].stock).unwrap();
                    assert_eq!(handed >= needs, by_shop, "{path:?}: {one}");
                    told += 1;
                }
            }
        }
    }
    assert!(told > 1000, "{told}");
}

/// Where the album says nothing, both are told all, and of one kit in one piece there is no job sheet.
#[test]
fn unsaid_is_told_to_both() {
    let one = work(&text(""), cutter(0.0, 0.0, 0.0));
    assert!(!one.album.has_shop());
    let many = work(&text(r#""copies": 3,"#), cutter(0.0, 0.0, 0.0));
    assert!(many.album.has_shop());
    let meant = to_make(&many.kit);
    for guide in texts(&many) {
        assert_eq!(made(&guide).into_iter().collect::<BTreeSet<_>>(), meant);
    }
    assert!(Audience::Kit.cuts(&many.album, 0) && Audience::Shop.cuts(&many.album, 0));
    // The guide is of one kit, the job sheet of all.
    let kits = |guide: &Guide| {
        guide
            .numbers()
            .filter(|number| number.what == What::Count && number.of == "tag-1")
            .map(|one| one.value)
            .collect()
    };
    let counts: [Vec<f64>; 2] = texts(&many).map(|guide| kits(&guide));
    assert!(!counts[0].is_empty(), "{counts:?}");
    counts[0].iter().for_each(|count| near(*count, 1.0, 0.0));
    assert!(!counts[1].is_empty(), "{counts:?}");
    counts[1].iter().for_each(|count| near(*count, 3.0, 0.0));
}

/// Nobody who is handed scored pieces reads of sheets, knives, trimmers or scoring boards.
#[test]
fn what_comes_done_is_left_out() {
    let work = work(&text(r#""copies": 4, "handed_over": "scored","#), cutter(0.0, 0.0, 0.0));
    let [kit, shop] = texts(&work);
    let ids = |guide: &Guide| guide.sections.iter().map(|section| section.id).collect::<Vec<_>>();
    // No heading stands over nothing, on the card neither.
    let card = guide::card(&work.guide_job(false));
    for text in [&kit, &shop, &card, &guide::teaching(&work.guide_job(false))] {
        assert!(text.sections.iter().all(|section| !section.blocks.is_empty()), "{:?}", ids(text));
    }
    for id in ["cut", "shape", "score"] {
        assert!(!ids(&kit).contains(&id), "{id} is told to who is handed it done");
        assert!(ids(&shop).contains(&id), "{id} is not told to the shop");
    }
    assert!(ids(&kit).contains(&"bag") && ids(&kit).contains(&"fold"));
    assert!(!ids(&shop).contains(&"fold") && ids(&shop).contains(&"pack"));
    let words = |guide: &Guide| -> String {
        guide.sections.iter().flat_map(guide::Section::lines).map(|line| line.plain() + "\n").collect()
    };
    for word in ["Craft knife", "laser", "trimmer", "Scoring board", "Buy"] {
        assert!(!words(&kit).contains(word), "{word} in the guide of scored pieces");
    }
    assert!(words(&shop).contains("knife") && words(&shop).contains("laser"));
}

/// What is in a bag times the bags is what is in all of them, and that is what the kits take; with whole sheets, too.
#[test]
fn bags_hold_what_kits_take() {
    for (handed, whole) in
        [(r#""scored""#, false), (r#"{ "card": "cut", "paper": "sheets" }"#, true), (r#""sheets""#, true)]
    {
        let work = work(&text(&format!(r#""copies": 7, "handed_over": {handed},"#)), cutter(0.0, 1.0, 3.0));
        let [_, shop] = texts(&work);
        let pack = shop.sections.iter().find(|section| section.id == "pack").unwrap();
        let mut sums: BTreeMap<(What, String), f64> = BTreeMap::new();
        for number in pack.lines().into_iter().flat_map(guide::Line::numbers) {
            *sums.entry((number.what, number.of.clone())).or_default() += number.value;
        }
        for part in &work.kit.parts {
            let packed = work.album.handed_over(part.stock) != Some(Handed::Sheets);
            let of = |what| sums.get(&(what, part.id.clone())).copied();
            assert_eq!(of(What::InBag), packed.then(|| f64::from(part.count)), "{}", part.id);
            assert_eq!(of(What::Count), packed.then(|| f64::from(part.count * 7)), "{}", part.id);
        }
        for laid in &work.stocks {
            let name = &work.album.stocks[laid.stock].name;
            let of = |what| sums.get(&(what, name.clone())).copied();
            let is_whole = work.album.handed_over(laid.stock) == Some(Handed::Sheets);
            #[allow(clippy::cast_precision_loss, reason = "a count of sheets")]
            let count = laid.count() as f64;
            assert_eq!(of(What::Sheets), is_whole.then_some(count), "{name}");
            assert_eq!(of(What::SheetsInBag), is_whole.then_some(count / 7.0), "{name}");
        }
        assert_eq!(whole, sums.keys().any(|(what, _)| *what == What::SheetsInBag));
    }
}

/// One kit for somebody else is a bag, not "each of 1 bags", and there are no others to cut after it. The largest go in first,
/// whole sheets too.
#[test]
fn one_bag_is_spoken_of_as_one() {
    let work =
        work(&text(r#""copies": 1, "handed_over": { "card": "cut", "paper": "sheets" },"#), cutter(0.0, 1.0, 3.0));
    let [_, shop] = texts(&work);
    assert!(shop.sections.iter().all(|section| section.id != "first"));
    let pack = shop.sections.iter().find(|section| section.id == "pack").unwrap();
    let said: Vec<String> = pack.lines().into_iter().map(guide::Line::plain).collect();
    assert!(said.iter().any(|line| line == "In the bag"), "{said:?}");
    assert!(said.iter().all(|line| !line.contains("all bags") && !line.contains("1 bags")), "{said:?}");
    let areas: Vec<f64> = pack
        .blocks
        .iter()
        .filter_map(|block| if let guide::Block::Table(table) = block { Some(&table.rows) } else { None })
        .flatten()
        .map(|row| row.iter().flat_map(guide::Line::numbers).map(|one| one.value).take(2).product())
        .collect();
    assert!(areas.len() > 2 && areas.is_sorted_by(|one, next| one >= next), "{areas:?}");
}

/// Half an A4 sheet a page: two kits of one piece and a half share three sheets, but take two each where sheets are handed
/// over, and that is said. Where it costs nothing, nothing is said.
#[test]
fn sheets_of_ones_own_cost_what_is_said() {
    let text = |copies: u32, handed: &str, height: u32| {
        let tag = if height > 200 { 140 } else { 40 };
        format!(
            r#"{{ "format": "hingeleaf-album/1", "copies": {copies}, "handed_over": "{handed}",
            "stocks": {{ "card": {{ "sheet": "A4", "caliper": 0.3 }}, "strips": {{ "sheet": "A4", "caliper": 0.3 }} }},
            "page": {{ "width": 200, "height": {height}, "seam": 12, "stock": "card" }}, "pages": [{{ "kind": "pocket" }}],
            "spine": {{ "kind": "flexi-hinge", "stock": "strips" }}, "inserts": [{{ "kind": "tag", "width": 180, "height": {tag} }}] }}"#
        )
    };
    let laid = |copies, handed, height| {
        let work = work(&text(copies, handed, height), cutter(0.0, 0.0, 0.0));
        let of_card =
            |one: &&hingeleaf::finding::Finding| one.id == "price-of-apart" && one.about.to_string().contains("card");
        let said = work.findings.iter().find(of_card).map(|one| one.text.to_string());
        for laid in work.stocks.iter().filter(|_| handed == "sheets") {
            assert!(laid.sheets.iter().all(|sheet| sheet.times % copies == 0), "a sheet is two kits'");
        }
        (work.stocks[0].count(), said)
    };
    // Two pocket pieces of 200 x 280 and half a sheet for the tag, a kit: 5 sheets for two kits, 3 for each by itself.
    let (across, none) = laid(2, "cut", 256);
    let (apart, said) = laid(2, "sheets", 256);
    assert_eq!((across, apart, none), (5, 6, None));
    assert!(said.unwrap().contains("1 sheet more"));
    // Where there are too few, it is said of how many: of four sheets no kit of five has one of its own.
    let few = text(5, "sheets", 256).replace(r#""card": { "sheet": "A4","#, r#""card": { "sheet": "A4", "count": 4,"#);
    let search = hingeleaf::sheets::Search { effort: hingeleaf::layout::Effort::Low, trimmer: false, threads: 1 };
    let labels = hingeleaf::toolpath::Labels::default();
    let short = Work::new(album(&few), cutter(0.0, 0.0, 0.0), labels, search, &hingeleaf::layout::Unwatched);
    let said = short.findings.iter().find(|one| one.id == "out-of-sheets").unwrap().text.to_string();
    assert!(said.contains("15 are needed, 11 more than there are"), "{said}");
    // One kit has its own sheets anyway.
    assert_eq!(laid(1, "sheets", 256), (3, None));
    // Two pieces of 200 x 124 and a tag of 40 fill one sheet: each kit has one anyway.
    let (apart, said) = laid(2, "sheets", 100);
    assert_eq!((apart, said), (laid(2, "cut", 100).0, None));
}

/// What may be said, and what is answered to what may not.
#[test]
fn what_may_be_said() {
    use Handed::{Cut, Scored, Sheets};
    let read = |handed: &str| {
        let text = text(&format!(r#""handed_over": {handed},"#));
        let read = album::read(&Source::new("a.json", text.into_bytes()).unwrap(), &parts::kinds());
        let said =
            read.findings.iter().map(|one| format!("{} {} / {}", one.id, one.text, one.help)).collect::<Vec<_>>();
        (read.value.and_then(|album| album.handed_over), said.join("\n"))
    };
    assert_eq!(read(r#""scored""#), (Some(vec![Scored, Scored]), String::new()));
    assert_eq!(read(r#"{ "paper": "cut" }"#), (Some(vec![Sheets, Cut]), String::new()));
    assert_eq!(read("{}"), (Some(vec![Sheets, Sheets]), String::new()));
    for (handed, id, words) in [
        (r#""score""#, "unknown-word", "did you mean \"scored\""),
        (r#""folded""#, "unknown-word", "sheets, cut, scored"),
        (r#"{ "papper": "cut" }"#, "unknown-stock", "did you mean \"paper\""),
        (r#"{ "paper": "whole" }"#, "unknown-word", "sheets, cut, scored"),
        (r#"{ "paper": 3 }"#, "wrong-type", "\"sheets\" or \"cut\" or \"scored\""),
        (r#"{ "paper": "cut", "paper": "cut" }"#, "twice", "take one of the two away"),
        ("true", "wrong-type", "write \"handed_over\": \"scored\""),
    ] {
        let (_, said) = read(handed);
        assert!(said.starts_with(id) && said.contains(words), "{handed}: {said}");
        assert_eq!(said.lines().count(), 1, "{said}");
    }
}

/// The option wins over the file, for one stock or for all; what is misspelt is answered, and nothing is written.
#[test]
fn the_option_wins_over_the_file() {
    let folder = TempDir::new("handed-over");
    let file = folder.put("album.json", text(r#""copies": 2, "handed_over": "scored","#));
    let out = folder.join("out");
    let kit = |words: &[&str]| {
        let base = ["kit", file.to_str().unwrap(), "--out", out.to_str().unwrap(), "--replace", "--effort", "low"];
        hingeleaf(base.iter().chain(words).copied().chain(["--formats", "html"]))
    };
    for (words, there, missing) in [
        (vec![], "Lay out the pieces", "Cut the pieces"),
        (vec!["--handed-over", "sheets"], "Cut the pieces", "Lay out the pieces"),
        (vec!["--handed-over", "card=cut", "--handed-over", "paper=sheets"], "Cut the pieces", "cut and scored"),
    ] {
        let run = kit(&words);
        assert_eq!(run.code, 0, "{words:?}: {}", run.err);
        let guide = std::fs::read_to_string(out.join("guide.html")).unwrap();
        assert!(guide.contains(there) && !guide.contains(missing), "{words:?}");
        assert!(out.join("job.html").is_file(), "{words:?}");
    }
    let before = std::fs::read(out.join("guide.html")).unwrap();
    for (word, answer) in [
        ("card=score", "did you mean \"scored\""),
        ("crad=cut", "did you mean card=cut"),
        ("done", "sheets, cut, scored"),
    ] {
        let run = kit(&["--handed-over", word]);
        assert_eq!(run.code, 2, "{word}");
        assert!(run.err.contains(answer) && run.err.contains("--handed-over"), "{word}: {}", run.err);
    }
    assert_eq!(std::fs::read(out.join("guide.html")).unwrap(), before, "something was written");
    // One kit, all of it in sheets: there is nothing for a shop to do.
    let plain = folder.put("plain.json", std::fs::read(project().join("fixtures/tide-table.json")).unwrap());
    let alone = folder.join("alone");
    let words =
        ["kit", plain.to_str().unwrap(), "--out", alone.to_str().unwrap(), "--formats", "html", "--effort", "low"];
    assert_eq!(hingeleaf(words).code, 0);
    assert!(!alone.join("job.html").exists());
}
