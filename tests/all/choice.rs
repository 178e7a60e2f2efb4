// SPDX-License-Identifier: MIT
//! Kits whose pages are chosen. Each mix is reckoned as a plain album of its own, written out page by page.

use crate::common::{cutter, project};
use hingeleaf::album::{self, Album, Language};
use hingeleaf::batch::{self, Batch, Choice, Chosen};
use hingeleaf::fields::Source;
use hingeleaf::finding::{Finding, Level};
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::parts::{self, Kit};
use hingeleaf::sheets::{Search, StockSheets};
use hingeleaf::toolpath::Labels;
use hingeleaf::work::{BatchWork, Files, Work};
use hingeleaf::write::Memory;
use serde_json::{Value, json};
use std::collections::BTreeMap;

const SEARCH: Search = Search { effort: Effort::Low, trimmer: false, threads: 1 };

/// Paper that is the same everywhere, a spine whose pitch is said, a cover, tags.
fn plain() -> Value {
    json!({ "format": "hingeleaf-album/1",
        "stocks": { "card": { "sheet": "A4", "caliper": 0.35, "grain": "long" }, "paper": { "sheet": "12x12in", "caliper": 0.2, "pattern": "one-way" } },
        "page": { "width": 148, "height": 190 }, "panels": { "stock": "paper" }, "cover": { "kind": "wrap", "stock": "card" },
        "spine": { "kind": "flexi-hinge", "pitch": 6 },
        "pages": [{ "kind": "pocket" }],
        "inserts": [{ "kind": "tag", "width": 90, "height": 130, "count": 3 }] })
}

/// Papers that take turns, stubs that count how thick pages are.
fn in_turn() -> Value {
    let mut album = plain();
    album["stocks"]["dots"] = json!({ "sheet": "12x12in", "caliper": 0.2 });
    album["panels"]["stock"] = json!(["paper", "dots"]);
    album["stocks"]["board"] = json!({ "sheet": "A3", "caliper": 2 });
    album["stocks"]["cloth"] = json!({ "sheet": "700x500mm", "caliper": 0.3 });
    album["spine"] = json!({ "kind": "stubs" });
    album["cover"] = json!({ "kind": "case", "board": "board", "stock": "cloth" });
    album["inserts"] = json!([]);
    album
}

/// Papers whose pattern runs on, a tag as large as its pockets take, no cover.
fn runs_on() -> Value {
    let mut album = plain();
    album["panels"]["runs_on"] = json!(true);
    album.as_object_mut().unwrap().remove("cover");
    album["inserts"] = json!([{ "kind": "tag", "count": 2 }]);
    album
}

fn read(album: &Value, kit: &Value) -> (Option<Batch>, Vec<Finding>) {
    let order = json!({ "format": "hingeleaf-batch/1", "kits": [kit] });
    read_text(album, &serde_json::to_string(&order).unwrap())
}

fn read_text(album: &Value, order: &str) -> (Option<Batch>, Vec<Finding>) {
    let source = Source::new("order.json", order.into()).unwrap();
    let mut albums = |name: &str| Source::new(name, album.to_string().into());
    let read = batch::read(&source, &parts::kinds(), &mut albums);
    (read.value, read.findings)
}

fn kit(copies: u32, pages: u32, of: &Value) -> Value {
    json!({ "name": "own", "album": "album.json", "copies": copies, "choice": { "pages": pages, "of": of } })
}

#[track_caller]
fn worked(album: &Value, kit: &Value) -> BatchWork {
    let (batch, findings) = read(album, kit);
    let batch = batch.unwrap_or_else(|| panic!("{findings:?}"));
    BatchWork::new(batch, cutter(0.0, 1.0, 5.0), Labels::None, SEARCH, &Unwatched)
}

fn chosen(work: &BatchWork) -> &Chosen {
    work.merged.chosen[0].as_ref().unwrap()
}

/// The mixes, by another way of counting: every number of pages in a system of that base.
fn mixes(pages: u32, kinds: usize) -> Vec<Vec<u32>> {
    let base = u64::from(pages) + 1;
    let all = (0..base.pow(u32::try_from(kinds).unwrap())).map(|number| {
        (0..kinds).map(|kind| u32::try_from(number / base.pow(u32::try_from(kind).unwrap()) % base).unwrap()).collect()
    });
    all.filter(|counts: &Vec<u32>| counts.iter().sum::<u32>() == pages).collect()
}

/// A mix as an album of its own.
fn written_out(album: &Value, of: &Value, counts: &[u32], copies: u32) -> Album {
    let mut album = album.clone();
    let pages = counts.iter().enumerate().flat_map(|(kind, count)| vec![of[kind].clone(); *count as usize]);
    album["pages"] = Value::Array(pages.collect());
    album["copies"] = json!(copies);
    let source = Source::new("mix.json", album.to_string().into()).unwrap();
    album::read(&source, &parts::kinds()).value.unwrap()
}

fn sheets(stocks: &[StockSheets]) -> u64 {
    stocks.iter().map(StockSheets::count).sum()
}

/// How many of each part, whichever way up it was met.
fn counts(kit: &Kit) -> BTreeMap<(usize, &'static str, Vec<i64>), u32> {
    let mut all = BTreeMap::new();
    for part in &kit.parts {
        let like = part.flat.likeness().min(part.flat.turned(2).likeness());
        *all.entry((part.stock, part.kind, like)).or_default() += part.count;
    }
    all
}

fn of_two() -> Value {
    json!([{ "kind": "pocket" }, { "kind": "wallet", "pocket": 110, "overflap": 45 }])
}

fn of_three() -> Value {
    json!([{ "kind": "pocket" }, { "kind": "divider" }, { "kind": "wallet", "pocket": 110, "overflap": 45 }])
}

/// Every mix is listed once, and takes what the album takes that has just these pages; what is packed is enough for all.
#[test]
fn the_table_is_what_each_mix_takes_by_itself() {
    for (number, (album, of, pages, copies)) in
        [(plain(), of_two(), 4, 3), (in_turn(), of_three(), 3, 2), (runs_on(), of_two(), 3, 1)].into_iter().enumerate()
    {
        let work = worked(&album, &kit(copies, pages, &of));
        assert!(!work.stopped(), "{number}: {:?}", work.findings);
        let Chosen { table, packed, .. } = chosen(&work);
        let all = mixes(pages, of.as_array().unwrap().len());
        assert_eq!(table.mixes, all.len() as u64);
        assert_eq!(table.rows.len(), all.len());
        let machine = cutter(0.0, 1.0, 5.0);
        let mut most = BTreeMap::new();
        let mut worst = 0;
        for mix in &all {
            let row = table.rows.iter().find(|row| row.mix.counts == *mix).unwrap();
            // The cover that all mixes share is the only thing that an album of its own would have otherwise.
            let alone = written_out(&album, &of, mix, copies);
            let widest =
                all.iter().filter_map(|mix| parts::kit(&written_out(&album, &of, mix, 1), &machine).value?.cover_room);
            let room = widest.reduce(|one, two| {
                let mut room = one;
                room.reach = one.reach.max(two.reach);
                room.spine = one.spine.max(two.spine);
                room
            });
            let mut alone = alone;
            alone.cover_room = room;
            let plain = Work::new(alone, machine.clone(), Labels::None, SEARCH, &Unwatched);
            assert!(!plain.stopped(), "{mix:?}: {:?}", plain.findings);
            assert_eq!(row.all(), Some(sheets(&plain.stocks)), "{number}: {mix:?}");
            worst = worst.max(sheets(&plain.stocks));
            for (part, count) in counts(&plain.kit) {
                let known = most.entry(part).or_insert(0);
                *known = count.max(*known);
            }
        }
        assert_eq!(table.worst.unwrap().sheets, worst);
        assert!(packed.proven, "{number}");
        let packs = counts(&work.kits[0].kit);
        if packed.by_place {
            // Any order of the pages is allowed for.
            assert_eq!(packs.keys().collect::<Vec<_>>(), most.keys().collect::<Vec<_>>());
            assert!(most.iter().all(|(part, count)| packs[part] >= *count));
        } else {
            assert_eq!(packs, most, "{number}");
        }
    }
}

/// What is laid is what is packed, for every copy.
#[test]
fn sheets_hold_what_is_packed() {
    let work = worked(&plain(), &kit(3, 4, &of_two()));
    let mut placed: BTreeMap<usize, u64> = BTreeMap::new();
    for sheet in work.stocks.iter().flat_map(|laid| &laid.sheets) {
        for part in &sheet.placements {
            *placed.entry(part.part).or_default() += u64::from(sheet.times);
        }
    }
    let own = &work.kits[0].kit;
    for (number, part) in own.parts.iter().enumerate() {
        assert_eq!(placed[&work.merged.part_of[0][number]], u64::from(part.count) * 3, "{}", part.id);
    }
    // A piece of every part, so that every one can be shown.
    for number in 0..own.parts.len() {
        assert!(own.pieces.iter().any(|piece| piece.part == number), "{}", own.parts[number].id);
    }
}

/// The thickest mix decides the cover, and all mixes have that one.
#[test]
fn the_cover_is_made_for_the_thickest_mix() {
    let machine = cutter(0.0, 1.0, 5.0);
    let thick = json!([{ "kind": "pocket", "content": 9 }, { "kind": "pocket" }]);
    let mut album = plain();
    album["stocks"]["card"]["sheet"] = json!("A2");
    let work = worked(&album, &kit(1, 3, &thick));
    assert!(!work.stopped(), "{:?}", work.findings);
    let cover = |kit: &Kit| kit.parts.iter().find(|part| part.kind == "wrap cover").unwrap().flat.width;
    let alone = |counts: &[u32]| cover(&parts::kit(&written_out(&album, &thick, counts, 1), &machine).value.unwrap());
    let widest = alone(&[3, 0]);
    assert!(widest > alone(&[0, 3]) + 10.0);
    let choice = work.choices[0].as_ref().unwrap();
    assert_eq!(choice.works.len(), 4);
    for own in &choice.works {
        assert!((cover(&own.kit) - widest).abs() < 1e-9);
    }
    assert_eq!(chosen(&work).table.rows[choice.thickest].mix.counts, [3, 0]);
    assert_eq!(work.kits[0].kit.parts.iter().filter(|part| part.kind == "wrap cover").count(), 1);
    let told = work.findings.iter().find(|finding| finding.id == "choice-cover").unwrap();
    let wider = told.measured.unwrap().mm() - told.allowed.unwrap().mm();
    assert!((wider - (widest - alone(&[0, 3]))).abs() < 0.5, "{told:?}");
    // Kinds that are equally thick say nothing of it.
    let same = worked(&album, &kit(1, 3, &json!([{ "kind": "pocket" }, { "kind": "pocket", "content": 0.2 }])));
    assert!(same.findings.iter().all(|finding| finding.id != "choice-cover"), "{:?}", same.findings);
}

/// What goes together in some mixes and not in others is told with the mix; what is so in all is told without.
#[test]
fn a_mix_that_does_not_go_together_is_told() {
    let of = json!([{ "kind": "pocket" }, { "kind": "wallet", "pocket": 60, "overflap": 45 }]);
    let work = worked(&plain(), &kit(1, 2, &of));
    assert!(work.stopped() && work.stocks.is_empty());
    let stop = work.findings.iter().find(|finding| finding.level == Level::Stop).unwrap();
    assert!(stop.about.to_string().contains("wallet"), "{stop:?}");
    assert!(stop.about.to_string().starts_with("own"), "{stop:?}");
}

/// A page that an insert is for, and that has no pocket in some mix.
#[test]
fn a_mix_without_a_pocket_is_told() {
    let mut album = plain();
    album["inserts"][0]["pages"] = json!([1, 3]);
    let of = json!([{ "kind": "pocket" }, { "kind": "divider" }]);
    let told = |work: &BatchWork| {
        let found = work.findings.iter().filter(|finding| finding.id == "choice-no-pocket");
        found.map(|finding| (finding.text.to_string(), finding.place.clone().unwrap().path)).collect::<Vec<_>>()
    };
    let work = worked(&album, &kit(1, 3, &of));
    let found = told(&work);
    assert_eq!(found.len(), 2, "{found:?}");
    // The first place is a divider in one mix alone, the last one in three.
    assert_eq!(found[0], ("page 1 has no pocket in the mix 3 divider".to_owned(), "inserts[0].pages[0]".to_owned()));
    assert_eq!(found[1].0, "page 3 has no pocket in the mix 2 pocket and 1 divider and 2 others");
    // Where every kind has one, or none is named, nothing is said.
    assert_eq!(told(&worked(&album, &kit(1, 3, &of_two()))), []);
    assert_eq!(told(&worked(&plain(), &kit(1, 3, &of))), []);
}

/// What is wrong with a choice is told at its line and column, with a way out.
#[test]
fn problems_of_a_choice_are_told_where_they_stand() {
    let order = r#"{ "format": "hingeleaf-batch/1", "kits": [
        { "name": "a", "album": "x", "choice": { "pages": 0, "of": [{ "kind": "pocket" }] } },
        { "name": "b", "album": "x", "choice": { "pages": 2, "of": [] } },
        { "name": "c", "album": "x", "choice": { "pages": 2, "of": [{ "kind": "pockett" }, { "kind": "wallet", "pokcet": 3, "overflap": 45 }] } },
        { "name": "d", "album": "x", "choice": { "pages": 2, "of": [{ "kind": "pocket" }] }, "change": { "pages[0].kind": "wallet" } },
        { "name": "e", "album": "x", "choice": { "page": 2, "of": [{ "kind": "pocket" }] } },
        { "name": "f", "album": "x", "choice": [] },
        { "name": "g", "album": "x", "choice": { "pages": 2, "of": { "kind": "pocket" } } },
        { "name": "h", "album": "x", "choice": { "pages": 1, "of": [{ "kind": "pocket" }, { "kind": "wallet", "pocket": "wide", "overflap": 45 }] } }
    ] }"#;
    let mut album = plain();
    album["inserts"][0]["pages"] = json!([2]);
    let (batch, findings) = read_text(&album, order);
    assert!(batch.is_none());
    let told: Vec<String> = findings
        .iter()
        .map(|finding| {
            let place = finding.place.as_ref().unwrap();
            format!("{} {}:{}:{} {}", finding.id, place.file, place.line, place.column, place.path)
        })
        .collect();
    let wanted = [
        "out-of-range order.json:2:59 kits[0].choice.pages",
        "no-choice order.json:3:68 kits[1].choice.of",
        "unknown-kind order.json:4:79 kits[2].choice.of[0].kind",
        "unknown-field order.json:4:112 kits[2].choice.of[1].pokcet",
        "change-and-choice order.json:5:106 pages[0].kind",
        "unknown-field order.json:6:50 kits[4].choice.page",
        "wrong-type order.json:7:48 kits[5].choice",
        "wrong-type order.json:8:68 kits[6].choice.of",
    ];
    for wanted in wanted {
        assert!(told.iter().any(|told| told == wanted), "{wanted} in {told:#?}");
    }
    let kind = findings.iter().find(|finding| finding.id == "unknown-kind").unwrap();
    assert!(kind.help.to_string().contains("\"pocket\""), "{kind:?}");
    // Inserts speak of places, of which there are as many as are chosen.
    let far = findings.iter().find(|finding| finding.id == "no-such-page").unwrap();
    assert!(far.about.to_string().contains('h'), "{far:?}");
    assert_eq!(findings.iter().filter(|finding| finding.id == "no-such-page").count(), 1, "{told:#?}");
}

/// The album's own pages are of no account, and a change of anything else holds in every mix.
#[test]
fn a_choice_takes_the_place_of_the_pages() {
    let mut album = plain();
    album["pages"] = json!([{ "kind": "wallet", "pocket": "nonsense" }]);
    let mut kit = kit(1, 2, &of_two());
    kit["change"] = json!({ "page.height": 170 });
    let work = worked(&album, &kit);
    assert!(!work.stopped(), "{:?}", work.findings);
    for own in &work.choices[0].as_ref().unwrap().works {
        assert_eq!(own.album.pages.len(), 2);
        assert!((own.album.page.height.mm() - 170.0).abs() < 1e-9);
    }
}

/// Far too many mixes to try: what is said is a bound, and holds for mixes that were not tried.
#[test]
fn many_mixes_are_bounded() {
    assert_eq!(Choice::of(24).mixes(6), 118_755);
    assert_eq!(Choice::of(1).mixes(1), 1);
    assert_eq!(Choice::of(200).mixes(50), u64::MAX);
    let of = json!([{ "kind": "pocket" }, { "kind": "divider" }, { "kind": "wallet", "pocket": 110, "overflap": 45 },
        { "kind": "pocket", "content": 1 }, { "kind": "wallet", "pocket": 100, "overflap": 50 }, { "kind": "divider", "stock": "paper" }]);
    let mut album = plain();
    album["spine"]["pitch"] = json!(12);
    album["stocks"]["card"]["sheet"] = json!("700x1000mm");
    let start = std::time::Instant::now();
    let work = worked(&album, &kit(1, 24, &of));
    let took = start.elapsed();
    assert!(!work.stopped(), "{:?}", work.findings);
    let Chosen { table, packed, .. } = chosen(&work);
    assert_eq!(table.mixes, 118_755);
    assert!(!table.is_whole() && table.rows.len() <= 64 && packed.proven);
    let worst = table.worst.unwrap();
    let at_most = worst.at_most.unwrap();
    assert!(worst.at_least <= worst.sheets && worst.sheets <= at_most, "{worst:?}");
    assert!(!worst.is_exact());
    let note = work.findings.iter().find(|finding| finding.id == "choice").unwrap();
    assert!(note.text.to_string().contains("this is a bound only"), "{}", note.text);
    // Mixes out of the middle: in the bound, in what is packed, in the cover.
    let packs = counts(&work.kits[0].kit);
    let cover = work.choices[0].as_ref().unwrap().works[0].album.cover_room;
    for mix in [[4, 4, 4, 4, 4, 4], [1, 2, 3, 4, 5, 9], [12, 0, 0, 12, 0, 0], [0, 7, 0, 9, 8, 0]] {
        let mut alone = written_out(&album, &of, &mix, 1);
        let own = parts::kit(&alone, &cutter(0.0, 1.0, 5.0)).value.unwrap().cover_room.unwrap();
        assert!(own.spine <= cover.unwrap().spine + 1e-9 && own.reach <= cover.unwrap().reach + 1e-9);
        alone.cover_room = cover;
        let plain = Work::new(alone, cutter(0.0, 1.0, 5.0), Labels::None, SEARCH, &Unwatched);
        assert!(sheets(&plain.stocks) <= at_most, "{mix:?}");
        for (part, count) in counts(&plain.kit) {
            assert!(packs.get(&part).is_some_and(|packed| *packed >= count), "{mix:?}: {part:?}");
        }
    }
    eprintln!("24 pages of 6 kinds took {took:?}: {worst:?}");
}

/// The report and the cutting list say what is chosen, and of which pages a part is.
#[test]
fn files_say_what_is_chosen() {
    let work = worked(&plain(), &kit(3, 4, &of_two()));
    let mut files = Memory::default();
    work.write(&Files::of(&["csv", "html"]), &mut files).unwrap();
    let text = |name: &str| String::from_utf8(files.files[name].clone()).unwrap();
    let report: Value = serde_json::from_str(&text("report.json")).unwrap();
    let choice = &report["kits"][0]["choice"];
    assert_eq!(choice["kinds"], json!(["pocket", "wallet"]));
    assert_eq!((&choice["mixes"], &choice["all"], &choice["packed_for_all"]), (&json!(5), &json!(true), &json!(true)));
    assert_eq!(choice["sheets"].as_array().unwrap().len(), 5);
    assert_eq!(choice["sheets"][0]["pages"], json!([4, 0]));
    let most = choice["sheets"].as_array().unwrap().iter().map(|row| row["sheets"].as_u64().unwrap()).max();
    assert_eq!(choice["worst"]["sheets"].as_u64(), most);
    let list = text("cutting-list.csv");
    assert!(list.starts_with("name,stock,width,height,count,scores,grain,pages,kits\r\n"), "{list}");
    let rows: Vec<Vec<&str>> = list.lines().map(|line| line.split(',').collect()).collect();
    let front = rows.iter().find(|row| row[0] == "pocket-front").unwrap();
    assert_eq!((front[4], front[7], front[8]), ("24", "own pocket 2", "own 8"), "{front:?}");
    let tag = rows.iter().find(|row| row[0].starts_with("tag")).unwrap();
    assert_eq!((tag[4], tag[7], tag[8]), ("9", "", "own 3"), "{tag:?}");
}

/// The order of our own: it goes together, and is listed.
#[test]
fn the_fixture_goes_together() {
    let file = project().join("fixtures/batches/harvest-swap.json");
    let out = crate::common::hingeleaf(["check", file.to_str().unwrap()]);
    assert_eq!(out.code, 0, "{}", out.err);
    assert!(out.out.contains("your-choice: sheets if all 5 copies choose the same mix"), "{}", out.out);
    let listed = out.out.lines().filter(|line| line.starts_with("  ") && line.contains("wallet"));
    assert_eq!(listed.count(), 4, "{}", out.out);
}

/// The guide has one chapter for each kind and everything else once; each chapter tells all that holds such a page together.
#[test]
fn the_guide_has_one_chapter_a_kind() {
    use hingeleaf::guide::{ChosenJob, Line, Section, Told, chosen as guide_of, chosen_card};
    for album in [plain(), in_turn()] {
        for language in [Language::English, Language::German] {
            let mut work = worked(&album, &kit(2, 3, &of_three()));
            let choice = work.choices[0].as_mut().unwrap();
            choice.works.iter_mut().for_each(|own| own.album.language = language);
            work.kits[0].album.language = language;
            let (choice, chosen) = (work.choices[0].as_ref().unwrap(), chosen(&work));
            let row = |kind: usize| chosen.table.rows.iter().position(|row| row.mix.alone() == Some(kind)).unwrap();
            let alone: Vec<&Work> = (0..3).map(|kind| &choice.works[row(kind)]).collect();
            let kinds: Vec<_> = alone.iter().map(|own| own.guide_job(false)).collect();
            let job = ChosenJob { packed: work.kits[0].guide_job(false), kinds: &kinds, chosen };
            let guide = guide_of(&job);
            let of = |id: &str| guide.sections.iter().filter(|section| section.id == id).collect::<Vec<_>>();
            let [first, second] = [of("kind-1"), of("kind-3")];
            assert_eq!((first.len(), second.len()), (1, 1));
            for id in ["get", "choose", "need", "spine", "cover", "bind"] {
                assert_eq!(of(id).len(), 1, "{id}");
            }
            for (kind, own) in alone.iter().enumerate() {
                let chapters = of(&format!("kind-{}", kind + 1));
                let told: Vec<&Told> =
                    chapters.iter().flat_map(|chapter| chapter.steps()).flat_map(|step| &step.of).collect();
                // What goes over a page's tab comes when the page hangs.
                let plain = hingeleaf::guide::guide(&own.guide_job(false));
                let hung = plain.sections.iter().filter(|section| section.id == "bind").flat_map(Section::steps);
                let hung: Vec<&Told> = hung.flat_map(|step| &step.of).collect();
                let page = |piece: usize| matches!(own.kit.pieces[piece].owner, parts::Owner::Page(_));
                for (number, bond) in own.kit.bonds.iter().enumerate() {
                    if page(bond.one.piece) && page(bond.other.piece) {
                        let bond = &Told::Bond(number);
                        assert!(told.contains(&bond) || hung.contains(&bond), "kind {kind}: bond {number}");
                    }
                }
            }
            // What is told once for all kinds is told in the same words; nothing shows a key.
            let lines: Vec<String> = guide.sections.iter().flat_map(Section::lines).map(Line::plain).collect();
            for line in &lines {
                assert!(!line.contains("chosen-") && !line.contains("mixes-"), "{line}");
            }
            let cautions = lines.iter().filter(|line| **line == lines[0]).count();
            assert_eq!(cautions, 1);
            // Every piece is cut, and stands for a kind or for what is no page.
            let marks: Vec<String> = (0..work.kits[0].kit.parts.len())
                .map(|part| work.kits[0].letters.as_ref().unwrap()[part].clone())
                .collect();
            let cut: String =
                of("cut").into_iter().flat_map(Section::lines).map(Line::plain).collect::<Vec<_>>().join("\n");
            for mark in marks {
                assert!(cut.lines().any(|line| line == mark), "{mark}");
            }
            let card = chosen_card(&job);
            assert!(card.sections.iter().any(|section| section.id == "choose"));
        }
    }
}

/// Pages of a kind are put together in the words for any of them; where a place counts, it is named.
#[test]
fn a_chapter_speaks_of_any_page() {
    let text = |album: &Value| {
        let work = worked(album, &kit(2, 3, &of_two()));
        let mut files = Memory::default();
        work.write(&Files::of(&["html"]), &mut files).unwrap();
        ["guide-own.html", "job.html"].map(|name| String::from_utf8(files.files[name].clone()).unwrap())
    };
    let [guide, job] = text(&plain());
    assert_eq!(guide.matches(">Make page of kind ").count(), 2);
    assert!(!guide.contains("at place"));
    assert!(job.contains(">the most<") && job.contains("kits make the same choice"));
    let mut album = in_turn();
    album["spine"] = json!({ "kind": "flexi-hinge", "pitch": 6 });
    let [guide, job] = text(&album);
    assert!(guide.contains("at place"), "papers take turns");
    assert!(job.contains("enough for any order"));
}

/// Where papers take turns, what is packed is enough for the pages in any order, and that is said.
#[test]
fn the_worst_order_counts_where_papers_take_turns() {
    let mut album = in_turn();
    album["spine"] = json!({ "kind": "flexi-hinge", "pitch": 6 });
    let of = of_two();
    let work = worked(&album, &kit(1, 3, &of));
    assert!(work.findings.iter().any(|finding| finding.id == "choice-order"));
    assert!(chosen(&work).packed.by_place);
    let room = work.choices[0].as_ref().unwrap().works[0].album.cover_room;
    let packs = counts(&work.kits[0].kit);
    let mut most: BTreeMap<_, u32> = BTreeMap::new();
    // All orders of all mixes: every page of either kind.
    for number in 0..8 {
        let mut alone = written_out(&album, &of, &[1, 2], 1);
        let source = (0..3).map(|place| of[(number >> place) & 1].clone()).collect();
        let mut text = album.clone();
        text["pages"] = Value::Array(source);
        let source = Source::new("order.json", text.to_string().into()).unwrap();
        alone.pages = album::read(&source, &parts::kinds()).value.unwrap().pages;
        alone.cover_room = room;
        for (part, count) in counts(&parts::kit(&alone, &cutter(0.0, 1.0, 5.0)).value.unwrap()) {
            let known = most.entry(part).or_default();
            *known = count.max(*known);
        }
    }
    assert_eq!(packs, most);
    // Papers of one design say nothing of it.
    let same = worked(&plain(), &kit(1, 3, &of));
    assert!(same.findings.iter().all(|finding| finding.id != "choice-order"));
}

/// What is not proven is not said to be: papers that are counted, tags as large as their pockets, stubs, of far too many mixes.
#[test]
fn what_is_not_proven_is_told() {
    let told = |work: &BatchWork| {
        let found = work.findings.iter().filter(|finding| finding.id == "choice-not-proven");
        found.map(|finding| finding.text.to_string()).collect::<Vec<_>>().join("; ")
    };
    // Each design is used up at another place, as pages before it took more or less of it.
    let mut counted = in_turn();
    counted["spine"] = json!({ "kind": "flexi-hinge", "pitch": 6 });
    counted["stocks"]["paper"]["count"] = json!(2);
    let of = json!([{ "kind": "wallet", "pocket": 110, "overflap": 45 }, { "kind": "notched" }, { "kind": "pocket" }]);
    let work = worked(&counted, &kit(1, 4, &of));
    let Chosen { packed, table, .. } = chosen(&work);
    assert!(!packed.proven && table.is_whole(), "{:?}", work.findings);
    assert!(told(&work).contains("in the order of the choice"), "{}", told(&work));
    // Every mix can be made of it all the same.
    let packs = counts(&work.kits[0].kit);
    for own in &work.choices[0].as_ref().unwrap().works {
        assert!(counts(&own.kit).iter().all(|(part, count)| packs[part] >= *count));
    }
    let many = json!([{ "kind": "pocket" }, { "kind": "wallet", "pocket": 110, "overflap": 45 }, { "kind": "pocket", "content": 1 }, { "kind": "pocket", "content": 0.5 }]);
    for (field, value) in [("inserts", json!([{ "kind": "tag", "count": 2 }])), ("spine", json!({ "kind": "stubs" }))] {
        let mut album = plain();
        album.as_object_mut().unwrap().remove("cover");
        album[field] = value;
        let work = worked(&album, &kit(1, 7, &many));
        assert_eq!(chosen(&work).table.mixes, 120);
        assert!(!chosen(&work).packed.proven && chosen(&work).table.worst.is_none_or(|worst| worst.at_most.is_none()));
        assert!(told(&work).contains("for the others that is not proven"), "{}: {:?}", field, work.findings);
    }
    // Few mixes are all worked out, and nothing is left to prove.
    assert_eq!(told(&worked(&runs_on(), &kit(1, 3, &of_two()))), "");
}

/// What is cut from one block belongs together: equal panels of two blocks are not one part, and every block is packed whole.
#[test]
fn blocks_are_packed_whole() {
    let of = json!([{ "kind": "wallet", "pocket": 110, "overflap": 45 }, { "kind": "wallet", "pocket": 110, "overflap": 60 }]);
    let work = worked(&runs_on(), &kit(2, 3, &of));
    assert!(!work.stopped(), "{:?}", work.findings);
    let own = &work.kits[0].kit;
    assert_eq!(own.blocks.len(), 2);
    for block in &own.blocks {
        assert_eq!(block.count, 3);
        assert!(block.parts.iter().all(|member| own.parts[member.part].count == 3), "{}", block.name);
    }
    let members: Vec<usize> = own.blocks.iter().flat_map(|block| &block.parts).map(|member| member.part).collect();
    assert!((1..members.len()).all(|at| !members[..at].contains(&members[at])), "{members:?}");
    assert_eq!(work.kit.blocks.len(), 0, "blocks are those of lots");
    let placed = work
        .stocks
        .iter()
        .flat_map(|laid| &laid.sheets)
        .flat_map(|sheet| sheet.placements.iter().map(|placed| (placed.part, u64::from(sheet.times))));
    for member in members {
        let part = work.merged.part_of[0][member];
        assert_eq!(placed.clone().filter(|(of, _)| *of == part).map(|(_, times)| times).sum::<u64>(), 6);
    }
}
