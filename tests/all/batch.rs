// SPDX-License-Identifier: MIT
//! Batches: several kits as one order. What is made is reckoned kit by kit from each album alone.

use crate::common::{TempDir, cutter, hingeleaf, project};
use hingeleaf::batch::{self, Batch, Together};
use hingeleaf::fields::Source;
use hingeleaf::finding::{Finding, Said};
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::parts;
use hingeleaf::sheets::{Search, StockSheets};
use hingeleaf::toolpath::Labels;
use hingeleaf::work::{BatchWork, Files, Work};
use hingeleaf::write::Memory;
use std::collections::BTreeMap;

const SEARCH: Search = Search { effort: Effort::Low, trimmer: false, threads: 1 };

const ALBUM: &str = r#"{ "format": "hingeleaf-album/1", "copies": 3,
    "stocks": { "card": { "sheet": "A4", "caliper": 0.35, "grammage": 280 }, "paper": { "sheet": "12x12in", "caliper": 0.2, "grammage": 120 } },
    "page": { "width": 148, "height": 190 }, "panels": { "stock": "paper" },
    "pages": [{ "kind": "pocket" }, { "kind": "wallet", "pocket": 110, "overflap": 45 }],
    "inserts": [{ "kind": "tag", "width": 90, "height": 130 }] }"#;

/// A batch of these kits of [`ALBUM`], `more` beside them.
fn text(kits: &str, more: &str) -> String {
    format!(r#"{{ "format": "hingeleaf-batch/1", {more} "kits": [{kits}] }}"#)
}

fn read(text: &str) -> (Option<Batch>, Vec<Finding>) {
    let source = Source::new("order.json", text.into()).unwrap();
    let mut albums = |name: &str| {
        if name == "album.json" {
            return Source::new(name, ALBUM.into());
        }
        Err(Box::new(Finding::stop("file", Said::NOTHING, Said::new("no-file").with("file", name))))
    };
    let read = batch::read(&source, &parts::kinds(), &mut albums);
    (read.value, read.findings)
}

fn worked(text: &str) -> BatchWork {
    let (batch, findings) = read(text);
    let batch = batch.unwrap_or_else(|| panic!("{findings:?}"));
    BatchWork::new(batch, cutter(0.0, 1.0, 5.0), Labels::None, SEARCH, &Unwatched)
}

fn placed(stocks: &[StockSheets]) -> BTreeMap<usize, u64> {
    let mut placed = BTreeMap::new();
    for sheet in stocks.iter().flat_map(|laid| &laid.sheets) {
        for part in &sheet.placements {
            *placed.entry(part.part).or_default() += u64::from(sheet.times);
        }
    }
    placed
}

const THREE: &str = r#"{ "name": "grey", "album": "album.json", "copies": 4 },
    { "name": "ochre", "album": "album.json", "copies": 2, "change": { "stocks.paper.price": 2 } },
    { "name": "deep", "album": "album.json", "change": { "pages[1].pocket": 120, "inserts[0]": { "count": 2 } } }"#;

/// Every kit's every part is on the sheets, spares among them, and nothing else.
#[test]
fn sheets_hold_what_all_kits_take() {
    for together in ["batch", "kit"] {
        for spares in ["", r#""spares": { "kits": 1, "parts": "10 %" },"#] {
            let work = worked(&text(THREE, &format!(r#""together": "{together}", {spares}"#)));
            assert!(!work.stopped(), "{:?}", work.findings);
            let more = u32::from(!spares.is_empty());
            let mut wanted: BTreeMap<(String, String, Vec<i64>), u64> = BTreeMap::new();
            for (kit, copies) in work.batch.kits.iter().zip([4, 2, 3]) {
                let alone = Work::fit(kit.album.clone(), work.cutter.clone());
                for part in &alone.kit.parts {
                    let mut stock = kit.album.stocks[part.stock].name.clone();
                    if stock == "paper" {
                        // The ochre paper has a price of its own.
                        stock = if kit.name == "ochre" { "paper.ochre".into() } else { "paper.grey".into() };
                    }
                    let key = (stock, part.kind.to_owned(), part.flat.likeness());
                    *wanted.entry(key).or_default() += u64::from(part.count * (copies + more));
                }
            }
            if more > 0 {
                for count in wanted.values_mut() {
                    *count += count.div_ceil(10);
                }
            }
            let placed = placed(&work.stocks);
            let found: BTreeMap<_, u64> = work
                .kit
                .parts
                .iter()
                .enumerate()
                .map(|(number, part)| {
                    assert_eq!(placed.get(&number), Some(&u64::from(part.count)), "{}", part.id);
                    let key = (work.merged.stocks[part.stock].name.clone(), part.kind.to_owned(), part.flat.likeness());
                    (key, u64::from(part.count))
                })
                .collect();
            assert_eq!(found, wanted, "{together} {spares}");
        }
    }
}

/// What several kits share stands once; ids are called once.
#[test]
fn what_kits_share_stands_once() {
    let work = worked(&text(THREE, ""));
    let ids: Vec<&str> = work.kit.parts.iter().map(|part| part.id.as_str()).collect();
    assert_eq!(ids.iter().filter(|id| **id == "page-1-front").count(), 1);
    assert!(ids.contains(&"deep.page-2-pocket"), "{ids:?}");
    let mut once = ids.clone();
    once.sort_unstable();
    once.dedup();
    assert_eq!(once.len(), ids.len());
    // Equal kits are one list: twice as many of the same parts.
    let same = worked(&text(r#"{ "name": "a", "album": "album.json" }, { "name": "b", "album": "album.json" }"#, ""));
    let alone = Work::fit(same.batch.kits[0].album.clone(), same.cutter.clone());
    assert_eq!(same.kit.parts.len(), alone.kit.parts.len());
    assert_eq!(same.merged.stocks.len(), 2);
}

/// Sheets over all kits are no more than those of separate runs together.
#[test]
fn together_takes_no_more_sheets_than_apart() {
    let count = |stocks: &[StockSheets]| stocks.iter().map(StockSheets::count).sum::<u64>();
    let [batch, kit] = ["batch", "kit"].map(|together| worked(&text(THREE, &format!(r#""together": "{together}","#))));
    let separate: u64 = batch
        .batch
        .kits
        .iter()
        .map(|kit| {
            let work = Work::new(kit.album.clone(), batch.cutter.clone(), Labels::None, SEARCH, &Unwatched);
            count(&work.stocks)
        })
        .sum();
    assert!(count(&batch.stocks) <= separate, "{} together, {separate} apart", count(&batch.stocks));
    assert_eq!(kit.batch.together, Together::Kit);
    assert!(count(&batch.stocks) <= count(&kit.stocks));
    // Each kit's sheets are called by it, and hold no other's parts.
    for sheet in kit.stocks.iter().flat_map(|laid| &laid.sheets) {
        let kits: Vec<&str> =
            ["grey", "ochre", "deep"].into_iter().filter(|kit| sheet.name.contains(&format!(".{kit}-"))).collect();
        let [own] = kits[..] else { panic!("{} is of {kits:?}", sheet.name) };
        for placed in &sheet.placements {
            assert!(kit.merged.kits_with(&kit.batch, placed.part).any(|(name, _)| name == own), "{}", sheet.name);
        }
    }
}

/// Sheets that are handed over whole are each kit's own, in so many copies, and stand in that kit's guide.
#[test]
fn whole_sheets_are_each_kits_own() {
    let work = worked(&text(THREE, r#""handed_over": { "card": "sheets", "paper": "scored" },"#));
    assert!(!work.stopped(), "{:?}", work.findings);
    let card = work.stocks.iter().find(|laid| work.merged.stocks[laid.stock].name == "card").unwrap();
    for sheet in &card.sheets {
        let (kit, copies) = [("grey", 4), ("ochre", 2), ("deep", 3)]
            .into_iter()
            .find(|(kit, _)| sheet.name.starts_with(&format!("card.{kit}-")))
            .unwrap();
        assert_eq!(sheet.times % copies, 0, "{} of {kit}", sheet.name);
    }
    for (kit, own) in work.batch.kits.iter().zip(&work.kits) {
        let [laid] = own.stocks.as_slice() else { panic!("{} has {} stocks", kit.name, own.stocks.len()) };
        assert_eq!(own.album.stocks[laid.stock].name, "card");
        let placed = placed(&own.stocks);
        for (number, part) in own.kit.parts.iter().enumerate().filter(|(_, part)| part.stock == laid.stock) {
            assert_eq!(placed[&number], u64::from(part.count * kit.album.copies), "{}: {}", kit.name, part.id);
        }
    }
    // Nothing is whole where nothing is said to be.
    assert!(worked(&text(THREE, "")).kits.iter().all(|own| own.stocks.is_empty()));
}

/// A stock of which there are so many is shared by all lots.
#[test]
fn a_counted_stock_is_used_up_once() {
    let two = |count: u32| {
        let change = format!(r#""change": {{ "stocks.card.count": {count} }}"#);
        text(
            &format!(
                r#"{{ "name": "a", "album": "album.json", "copies": 2, {change} }}, {{ "name": "b", "album": "album.json", "copies": 2, {change} }}"#
            ),
            r#""together": "kit","#,
        )
    };
    let plenty = worked(&two(1000));
    let card = plenty.stocks.iter().find(|laid| plenty.merged.stocks[laid.stock].name == "card").unwrap().count();
    let enough = u32::try_from(card).unwrap();
    assert!(!worked(&two(enough)).stopped());
    let short = worked(&two(enough - 1));
    assert!(short.findings.iter().any(|finding| finding.id == "out-of-sheets"), "{:?}", short.findings);
}

/// What is wrong is told at its line of the file that it stands in, all of it, with the kit's name.
#[test]
fn problems_are_told_where_they_stand() {
    let kits = r#"
        { "name": "grey", "album": "album.json", "change": { "pages[1].pocket": "wide", "pages[7].pocket": 3 } },
        { "name": "Grey!", "album": "album.json" },
        { "name": "grey", "album": "nowhere.json", "copies": 0 },
        { "name": "lost", "albun": "album.json" }"#;
    let (batch, findings) = read(&text(kits, "\n  \"spares\": { \"parts\": \"200 %\" },\n  \"together\": \"page\","));
    assert!(batch.is_none());
    let told: Vec<(&str, String)> = findings
        .iter()
        .map(|finding| {
            let place = finding.place.as_ref().unwrap();
            (finding.id, format!("{}:{} {}", place.file, place.line, place.path))
        })
        .collect();
    let wanted = [
        ("out-of-range", "order.json:2 spares.parts"),
        ("unknown-word", "order.json:3 together"),
        ("change-no-place", "order.json:4 pages[7].pocket"),
        ("bad-name", "order.json:5 kits[1].name"),
        ("twice", "order.json:6 kits[2].name"),
        ("out-of-range", "order.json:6 kits[2].copies"),
        ("unknown-field", "order.json:7 kits[3].albun"),
    ];
    for (id, place) in wanted {
        assert!(told.iter().any(|(known, at)| *known == id && at == place), "{id} at {place} in {told:?}");
    }
    let length = findings.iter().find(|finding| finding.about.to_string().contains("grey")).unwrap();
    assert_eq!(length.place.as_ref().unwrap().to_string(), "order.json, line 4, column 81 (pages[1].pocket)");
    let missing = findings.iter().find(|finding| finding.id == "file").unwrap();
    assert_eq!(missing.place.as_ref().unwrap().path, "kits[2].album");
}

/// What does not go together in one kit stops all, names that kit alone, and is told once for kits that share it.
#[test]
fn one_kit_that_does_not_fit_stops_the_batch() {
    let kits = r#"{ "name": "grey", "album": "album.json" },
        { "name": "narrow", "album": "album.json", "change": { "pages[1].pocket": 160 } },
        { "name": "slim", "album": "album.json", "change": { "pages[1].pocket": 160 } }"#;
    let work = worked(&text(kits, ""));
    assert!(work.stopped() && work.stocks.is_empty() && work.paths.is_empty());
    let stop = work.findings.iter().find(|finding| finding.level == hingeleaf::finding::Level::Stop).unwrap();
    // Each is told at its own line of the batch file.
    assert_eq!(stop.place.as_ref().unwrap().file.as_ref(), "order.json");
    let about = stop.about.to_string();
    assert!(about.contains("narrow") || about.contains("slim"), "{about}");
    assert!(!about.contains("grey"), "{about}");
    // A note that all kits of one album share names them all, once.
    let same = worked(&text(&THREE.replace(r#""pages[1].pocket": 120, "#, ""), ""));
    let mut texts: Vec<String> = same.findings.iter().map(Finding::headline).collect();
    let all = texts.len();
    texts.sort();
    texts.dedup();
    assert_eq!(texts.len(), all);
}

/// The files of an order: one of each sheet, one list with the kits that take a part, a guide a kit, one job sheet.
#[test]
fn an_order_has_its_files() {
    let work = worked(&text(THREE, ""));
    let mut files = Memory::default();
    work.write(&Files::of(&["svg", "csv", "html"]), &mut files).unwrap();
    let names: Vec<&str> = files.files.keys().map(String::as_str).collect();
    for name in
        ["job.html", "guide-grey.html", "guide-ochre.html", "guide-deep.html", "cutting-list.csv", "report.json"]
    {
        assert!(names.contains(&name), "{name} in {names:?}");
    }
    assert!(!names.contains(&"guide.html"));
    let text = |name: &str| String::from_utf8(files.files[name].clone()).unwrap();
    let list = text("cutting-list.csv");
    assert!(list.starts_with("name,stock,width,height,count,scores,grain,kits\r\n"));
    assert!(list.contains("grey 2; ochre 2; deep 2"), "{list}");
    let report: serde_json::Value = serde_json::from_str(&text("report.json")).unwrap();
    assert_eq!(report["copies"], 1);
    assert_eq!(
        report["kits"],
        serde_json::json!([{ "name": "grey", "copies": 4 }, { "name": "ochre", "copies": 2 }, { "name": "deep", "copies": 3 }])
    );
    // Letters are the order's: what differs has another one, what is shared has the same in every guide and on the job sheet.
    let letters = |kit: usize| -> BTreeMap<usize, String> {
        let own = work.kits[kit].letters.as_ref().unwrap();
        work.merged.part_of[kit].iter().copied().zip(own.iter().cloned()).collect()
    };
    for kit in 1..3 {
        for (part, letter) in letters(kit) {
            assert!(letters(0).get(&part).is_none_or(|other| *other == letter));
            assert!(letters(0).iter().all(|(other, known)| *other == part || *known != letter));
        }
    }
}

/// The same words on the command line: a batch is checked and made, and what is of one album is refused.
#[test]
fn commands_take_a_batch() {
    let dir = TempDir::new("batch");
    let file = project().join("fixtures/batches/spring-fair.json");
    let file = file.to_str().unwrap();
    let out = hingeleaf(["check", file]);
    assert_eq!(out.code, 0, "{}", out.err);
    assert!(out.out.contains("The batch goes together: 21 kits"));
    let folder = dir.join("order");
    let folder = folder.to_str().unwrap();
    for option in [["--copies", "3"], ["--mend", "x.json"]] {
        let command = if option[0] == "--mend" { vec!["check", file] } else { vec!["kit", file, "--out", folder] };
        let out = hingeleaf([command, option.to_vec()].concat());
        assert_eq!(out.code, 2);
        assert!(out.err.contains(option[0]));
    }
    assert!(!dir.join("order").exists());
    let kit = ["kit", file, "--out", folder, "--formats", "csv", "--effort", "low", "--handed-over", "card=cut"];
    let out = hingeleaf(kit);
    assert_eq!(out.code, 0, "{}", out.err);
    let out = hingeleaf([&kit[..], &["--replace", "--handed-over", "board=cut"]].concat());
    assert_eq!(out.code, 2);
    assert!(out.err.contains("board"));
    // `sizes` wants one album.
    let out = hingeleaf(["sizes", file]);
    assert_eq!(out.code, 2);
    assert!(out.err.contains("hingeleaf-album/1"));
}

/// Whatever is laid together, handed over whole, spared or cut from one block: each part is on the sheets as often as it is
/// made, sheets have names of their own, and kits alone have theirs.
#[test]
fn nothing_is_lost_or_made_twice_whatever_is_asked() {
    let handed = ["", r#""handed_over": "sheets","#, r#""handed_over": { "card": "sheets", "paper": "cut" },"#];
    let spares = [
        "",
        r#""spares": { "kits": 1 },"#,
        r#""spares": { "parts": "10 %" },"#,
        r#""spares": { "kits": 2, "parts": 3 },"#,
    ];
    let runs_on = r#""panels": { "runs_on": true }, "stocks.paper.pattern": "one-way""#;
    let whole = r#""handed_over": { "paper": "sheets" }"#;
    for together in ["batch", "kit"] {
        for (number, (handed, spares)) in
            handed.iter().flat_map(|handed| spares.map(|spares| (handed, spares))).enumerate()
        {
            let changes =
                [runs_on, whole, "\"title\": \"plain\"", r#""stocks.paper.price": 2, "handed_over": "sheets""#];
            let kit = |at: usize| {
                let change = changes[(number + at) % changes.len()];
                format!(
                    r#"{{ "name": "k{at}", "album": "album.json", "copies": {}, "change": {{ {change} }} }}"#,
                    at + 1
                )
            };
            let kits: Vec<String> = (0..3).map(kit).chain([kit(0).replace("k0", "k0-k1")]).collect();
            let text = text(&kits.join(", "), &format!(r#""together": "{together}", {handed} {spares}"#));
            let work = worked(&text);
            assert!(!work.stopped(), "{text}: {:?}", work.findings);
            let placed = placed(&work.stocks);
            for (number, part) in work.kit.parts.iter().enumerate() {
                let made: u32 = work
                    .batch
                    .kits
                    .iter()
                    .enumerate()
                    .map(|(kit, of)| work.merged.each[number][kit] * work.batch.times(of))
                    .sum();
                assert_eq!(part.count, made + work.batch.kits[0].spares.parts.of(made));
                assert_eq!(placed.get(&number), Some(&u64::from(part.count)), "{} in {text}", part.id);
            }
            let mut names: Vec<&str> = work.paths.iter().map(|paths| paths.name.as_str()).collect();
            let all = names.len();
            names.sort_unstable();
            names.dedup();
            assert_eq!(names.len(), all, "{text}");
            for (kit, own) in work.batch.kits.iter().zip(&work.kits) {
                let on_own = self::placed(&own.stocks);
                for (number, part) in own.kit.parts.iter().enumerate() {
                    let whole = kit.album.is_handed_whole(part.stock);
                    let wanted = if whole { u64::from(part.count * work.batch.times(kit)) } else { 0 };
                    assert_eq!(
                        on_own.get(&number).copied().unwrap_or_default(),
                        wanted,
                        "{} of {} in {text}",
                        part.id,
                        kit.name
                    );
                }
            }
            let mut files = Memory::default();
            work.write(&Files::of(&["html"]), &mut files).unwrap();
        }
    }
}

/// A fault that an album has of itself is told once for all kits of that album.
#[test]
fn a_shared_fault_is_told_once() {
    let source =
        Source::new("order.json", text(r#"{ "name": "a", "album": "x" }, { "name": "b", "album": "x" }"#, "").into())
            .unwrap();
    let mut albums = |name: &str| Source::new(name, ALBUM.replace("\"pocket\": 110", "\"pocket\": \"wide\"").into());
    let findings = batch::read(&source, &parts::kinds(), &mut albums).findings;
    let [fault] = findings.as_slice() else { panic!("{findings:?}") };
    assert_eq!(fault.about.to_string(), "a and b");
}

/// What is handed over whole or unscored is not cut or scored by who makes the order; what differs from kit to kit is told.
#[test]
fn the_order_leaves_to_the_kits_what_they_do() {
    use hingeleaf::guide::{Section, Told};
    let told = |more: &str, kits: &str| {
        let work = worked(&text(kits, more));
        let sheet = work.order_sheet(false).unwrap();
        let steps = sheet.sections.iter().flat_map(Section::steps);
        let parts = steps.flat_map(|step| step.of.iter()).filter_map(|told| match told {
            Told::Score(part, _) => Some(*part),
            _ => None,
        });
        let scored = parts.map(|part| work.merged.stocks[work.kit.parts[part].stock].name.clone());
        let scored: std::collections::BTreeSet<String> = scored.collect();
        let cut = sheet.sections.iter().filter(|section| section.id == "cut").flat_map(Section::lines);
        let cut: String = cut.map(hingeleaf::guide::Line::plain).collect::<Vec<_>>().join("\n");
        (scored.contains("card"), cut.contains("card-"), cut.contains("paper"))
    };
    let three = THREE;
    assert_eq!(told("", three), (true, true, true));
    assert_eq!(told(r#""handed_over": "scored","#, three), (true, true, true));
    assert_eq!(told(r#""handed_over": { "card": "cut", "paper": "cut" },"#, three), (false, true, true));
    assert_eq!(told(r#""handed_over": { "card": "sheets", "paper": "cut" },"#, three), (false, false, true));
    assert_eq!(told(r#""handed_over": "sheets","#, three), (false, false, false));
    // One kit's card is whole, another's is not: all is told.
    let mixed = THREE.replace(r#""stocks.paper.price": 2"#, r#""handed_over": "sheets""#);
    assert_eq!(told("", &mixed), (true, true, true));
}

/// A kit of a batch may have a cover that was bought: it is that kit's alone and on no sheet, and no word of the batch is for it.
#[test]
fn a_kit_may_have_a_ready_made_cover() {
    let cover = r#"{ "kind": "ready-made", "width": 158, "height": 197, "spine": 18 }"#;
    let kits = format!(
        r#"{{ "name": "bare", "album": "album.json", "copies": 2 }},
           {{ "name": "bound", "album": "album.json", "copies": 3, "change": {{ "cover": {cover} }} }}"#
    );
    let work = worked(&text(&kits, ""));
    assert!(!work.stopped(), "{:?}", work.findings);
    let part = work.merged.kit.parts.iter().position(|part| part.kind == "ready-made cover").unwrap();
    assert_eq!(work.merged.kits_with(&work.batch, part).collect::<Vec<_>>(), [("bound", 1)]);
    let placed = work.stocks.iter().flat_map(|laid| &laid.sheets).flat_map(|sheet| &sheet.placements);
    assert!(placed.map(|one| one.part).all(|one| one != part));
    for more in [
        r#""packs": { "ready-made cover": { "of": 2, "price": 5 } },"#,
        r#""handed_over": { "ready-made cover": "cut" },"#,
    ] {
        let (_, findings) = read(&text(&kits, more));
        let [finding] = &findings[..] else { panic!("{more}: {findings:?}") };
        assert_eq!(finding.id, "unknown-stock", "{more}: {}", finding.headline());
        assert!(!finding.help.to_string().contains("ready-made"), "{more}: {}", finding.help);
    }
}
