// SPDX-License-Identifier: MIT
//! Cost and price, against what pencil and paper make of the same quantities.

use crate::common::{cutter, project};
use hingeleaf::album;
use hingeleaf::batch;
use hingeleaf::cost::{Cost, CostRow};
use hingeleaf::cutter::{self as machine, BothWays, Cutter};
use hingeleaf::exact::Exact;
use hingeleaf::fields::Source;
use hingeleaf::finding::{Finding, Said};
use hingeleaf::guide::{Block, Line};
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::parts;
use hingeleaf::sheets::Search;
use hingeleaf::toolpath::{Labels, ToolEffort};
use hingeleaf::work::{BatchWork, Files, Work};
use hingeleaf::write::Memory;

const SEARCH: Search = Search { effort: Effort::Low, trimmer: false, threads: 1 };

const TERMS: &str = r#""packs": { "card": { "of": 25, "price": 9.5 } },
    "supplies": { "tape 6 mm": { "of": "25 m", "price": 3.2 } },
    "selling": { "currency": "EUR", "hour": 18, "machine_hour": 6, "minutes_a_kit": 35, "packaging": 1.2, "overhead": "15 %",
        "profit": "40 %", "fees": "6 %", "tax": "19 %" },"#;

/// One pocket page on its hinge, all of it on one A4 sheet.
fn album(copies: u32, terms: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "copies": {copies}, {terms}
    "stocks": {{ "card": {{ "sheet": "A4", "caliper": 0.3, "price": 1 }} }},
    "page": {{ "width": 120, "height": 150, "seam": 12, "tape": "6 mm" }}, "pages": [{{ "kind": "pocket" }}] }}"#
    )
}

fn read(text: &str) -> (Option<album::Album>, Vec<Finding>) {
    let read = album::read(&Source::new("album.json", text.into()).unwrap(), &parts::kinds());
    (read.value, read.findings)
}

fn worked(text: &str, cutter: Cutter, search: Search) -> Work {
    let (album, findings) = read(text);
    let work = Work::new(album.unwrap(), cutter, Labels::None, search, &Unwatched);
    assert!(findings.is_empty() && !work.stopped(), "{findings:?} {:?}", work.findings);
    work
}

/// 20 mm a second cutting, 40 scoring, half a second from stroke to stroke; each part is cut all round.
fn blade() -> Cutter {
    let text =
        r#"{ "format": "hingeleaf-cutter/1", "speed": { "cut": 20, "score": 40 }, "lift": 0.5, "shared_cuts": false }"#;
    let read = machine::read(&Source::new("cutter.json", text.into()).unwrap());
    assert!(read.findings.is_empty(), "{:?}", read.findings);
    read.value.unwrap()
}

fn row<'c>(cost: &'c Cost, name: &str) -> &'c CostRow {
    cost.rows.iter().find(|row| row.name == name).unwrap_or_else(|| panic!("no {name} in {:?}", cost.rows))
}

fn exact(text: &str) -> Exact {
    Exact::parse(text).unwrap()
}

/// Ten kits, a sheet each: one pack of 25. Tape: 423 mm a kit with a tenth to spare, of one roll.
/// Machine: two page pieces of 120 x 162 mm and a hinge of 46 x 150 mm whose four lead-ins are sqrt(12² + 6²) long are
/// 2 · 564 + 2 · 150 + 4 · 11 + 4 · 13.416 = 1525.666 mm of cuts, 76.283 s; scores of 2 · 120 + 4 · 150 + 138 = 978 mm take
/// 24.45 s; ten strokes 5 s: 105.733 s a sheet, 17.622 min for ten, 17.7 up. Hands: 35 minutes a kit, no step by hand.
/// 9.50 + 3.20 + 1.77 + 105.00 + 12.00 = 131.47, · 1.15 = 151.1905, · 1.4 = 211.6667, / 0.75 = 282.222266….
#[test]
fn a_worked_example() {
    let work = worked(&album(10, TERMS), blade(), SEARCH);
    let cost = work.cost().unwrap();
    let costs = [("card A4", "9.5"), ("tape 6 mm", "3.2"), ("machine", "1.77"), ("hands", "105"), ("packaging", "12")];
    for (name, amount) in costs {
        assert_eq!(row(cost, name).cost(), Some(exact(amount)), "{name}");
    }
    let quantities =
        [("card A4", "10"), ("tape 6 mm", "4230"), ("machine", "17.7"), ("hands", "350"), ("packaging", "10")];
    for (name, quantity) in quantities {
        assert_eq!(row(cost, name).quantity, Some(exact(quantity)), "{name}");
    }
    let order = &cost.order;
    assert_eq!(order.cost, exact("131.47"));
    assert_eq!(order.overhead, exact("19.7205"));
    assert_eq!(order.profit, exact("60.4762"));
    assert_eq!(order.price, exact("211.6667").over(&exact("0.75")).unwrap());
    assert_eq!([&order.price, &order.fees, &order.tax].map(|of| cost.shown(of)), ["282.22", "16.93", "53.62"]);
    // One of ten; and one more: a sheet of a pack, tape by the metre, time.
    let [kit] = cost.kits.as_slice() else { panic!("{} kits", cost.kits.len()) };
    assert_eq!(kit.asked.cost, exact("13.147"));
    assert_eq!(cost.shown(&kit.asked.price), "28.22");
    // 0.38 + 423 · 3.2 / 25000 + 0.177 + 10.5 + 1.2
    assert_eq!(kit.one_more, exact("12.311144"));
    // The glue of the tabs has no price, and is in no sum.
    let without: Vec<&str> = cost.without_price().map(|row| row.name.as_str()).collect();
    assert_eq!(without, ["glue"]);
}

/// A pack is full or it is not: 24, 25 and 26 sheets.
#[test]
fn packs_are_bought_whole() {
    for (copies, packs, left, another) in
        [(24, 1, "1", false), (25, 1, "0", true), (26, 2, "24", false), (50, 2, "0", true)]
    {
        let work = worked(&album(copies, TERMS), Cutter::default(), SEARCH);
        let cost = work.cost().unwrap();
        let card = row(cost, "card A4");
        assert_eq!((card.packs(), card.left()), (Some(packs), Some(exact(left))), "{copies} sheets");
        assert_eq!(card.cost(), Some(Exact::whole(packs).times(&exact("9.5"))));
        assert_eq!(!cost.kits[0].another_pack.is_empty(), another, "{copies} sheets");
        // No speed is known, and so no time.
        assert_eq!(row(cost, "machine").quantity, None);
    }
}

/// A cover that is bought is in the cost at its price, one a kit; without a price it is named. One that is cut is neither.
#[test]
fn a_ready_made_cover_costs_what_it_costs() {
    let cover = |kind: &str, terms: &str| {
        album(3, terms)
            .replace(r#""pages":"#, &format!(r#""cover": {{ "kind": {kind} }}, "pages":"#))
            .replace("A4", "A3")
    };
    let ready = r#""ready-made", "width": 130, "height": 157, "spine": 12"#;
    let price = r#""supplies": { "cover": { "of": 1, "price": 3.5 } }, "selling": { "currency": "EUR" },"#;
    let priced = worked(&cover(ready, price), Cutter::default(), SEARCH);
    let of_it = row(priced.cost().unwrap(), "cover");
    assert_eq!((of_it.quantity.clone(), of_it.cost()), (Some(exact("3")), Some(exact("10.5"))));
    let bare = worked(&cover(ready, r#""selling": { "currency": "EUR" },"#), Cutter::default(), SEARCH);
    assert!(bare.cost().unwrap().without_price().any(|row| row.name == "cover"));
    let cut = worked(&cover(r#""wrap""#, price), Cutter::default(), SEARCH);
    assert!(cut.cost().unwrap().rows.iter().all(|row| row.name != "cover"));
}

/// A sheet's price counts where there is no pack; where nothing is said, nothing is written.
#[test]
fn what_is_not_said_is_not_made_up() {
    let with = worked(&album(3, r#""selling": { "currency": "JPY" },"#), Cutter::default(), SEARCH);
    let cost = with.cost().unwrap();
    assert_eq!(row(cost, "card A4").cost(), Some(Exact::whole(3)));
    assert_eq!(cost.shown(&cost.order.price), "3");
    // Nobody said a price for hands; no step is theirs either.
    assert!(cost.rows.iter().all(|row| row.name != "hands" && row.name != "packaging"));
    let files = |work: &Work| {
        let mut files = Memory::default();
        work.write(&Files::of(&["csv", "html"]), &mut files).unwrap();
        files.files
    };
    let (said, silent) = (files(&with), files(&worked(&album(3, ""), Cutter::default(), SEARCH)));
    assert!(said.contains_key("cost.csv") && !silent.contains_key("cost.csv"));
    let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
    assert!(text(&said["report.json"]).contains("\"cost\"") && !text(&silent["report.json"]).contains("\"cost\""));
    assert!(text(&said["job.html"]).contains("JPY"));
}

/// The machine's time is that of the strokes that are counted sheet by sheet, of every layer at its own speed.
#[test]
fn the_machine_is_busy_as_long_as_its_strokes_take() {
    for name in ["tide-table", "sketchbook", "night-train"] {
        let text = std::fs::read_to_string(project().join(format!("fixtures/{name}.json"))).unwrap();
        let text = text.replacen('{', r#"{ "selling": { "machine_hour": 6 },"#, 1);
        let cutter = Cutter { speed: blade().speed, lift: 0.5, ..cutter(0.1, 1.0, 3.0) };
        let (album, findings) = read(&text);
        let work =
            Work::new(album.unwrap_or_else(|| panic!("{findings:?}")), cutter, Labels::Hidden, SEARCH, &Unwatched);
        let seconds: f64 = work
            .paths
            .iter()
            .map(|sheet| {
                let ToolEffort { cut, score, draw, lifts, .. } = ToolEffort::of(sheet);
                let lifts = f64::from(u32::try_from(lifts).unwrap());
                f64::from(sheet.times) * (cut / 20.0 + score / 40.0 + draw / 20.0 + lifts / 2.0)
            })
            .sum();
        let said = row(work.cost().unwrap(), "machine").quantity.clone().unwrap().near();
        assert!(seconds / 60.0 <= said + 1e-6 && said < seconds / 60.0 + 0.1 + 1e-6, "{name}: {said} for {seconds} s");
    }
}

/// What is handed over cut is not scored: not in the files, not in the times of the job sheet, not in the cost, not in what the sheet tells. What is
/// handed over scored, or of which nothing is said, is.
#[test]
fn what_is_handed_over_cut_is_not_scored() {
    let shows = |seconds: f64| format!("{:.1}\u{2009}min", (seconds / 6.0 - 1e-6).ceil() / 10.0);
    for (said, scored) in [(r#""handed_over": "cut","#, false), (r#""handed_over": "scored","#, true), ("", true)] {
        let alone = worked(&album(3, &format!("{TERMS} {said}")), blade(), SEARCH);
        let (batch, findings) = order(&format!("{TERMS} {said}"), "", "");
        let batch =
            BatchWork::new(batch.unwrap_or_else(|| panic!("{findings:?}")), blade(), Labels::None, SEARCH, &Unwatched);
        let job = hingeleaf::guide::shop(&alone.guide_job(false));
        let sheet = batch.order_sheet(false).unwrap();
        for (paths, cost, job) in [(&alone.paths, alone.cost(), job), (&batch.paths, batch.cost(), sheet)] {
            let mut seconds = 0.0;
            for sheet in paths {
                let ToolEffort { cut, score, draw, lifts, .. } = ToolEffort::of(sheet);
                assert_eq!(score > 0.0, scored, "{said}");
                let lifts = f64::from(u32::try_from(lifts).unwrap());
                seconds += f64::from(sheet.times) * (cut / 20.0 + score / 40.0 + draw / 20.0 + lifts / 2.0);
            }
            let machine = row(cost.unwrap(), "machine").quantity.clone().unwrap().near();
            assert_eq!(format!("{machine:.1}\u{2009}min"), shows(seconds), "{said}");
            let machine = job.sections.iter().find(|section| section.id == "machine").unwrap();
            let lines: Vec<String> = machine.lines().into_iter().map(Line::plain).collect();
            assert!(lines.contains(&shows(seconds)), "{said} {lines:?}");
            let tells = |words: &str| lines.iter().any(|line| line.contains(words));
            assert_eq!((tells("draw and score first"), tells("hold no scores")), (scored, !scored), "{lines:?}");
            assert_eq!(lines.iter().any(|line| line == "Scores"), scored, "{lines:?}");
        }
    }
}

/// Where nothing is scored the job sheet does not say on which side it is.
#[test]
fn what_is_not_scored_has_no_side() {
    let mut both = blade();
    both.back.both_ways = BothWays::BothSides;
    for (said, scored) in [(r#""handed_over": "cut","#, false), (r#""handed_over": "scored","#, true), ("", true)] {
        let work = worked(&album(3, &format!("{TERMS} {said}")), both.clone(), SEARCH);
        let job = hingeleaf::guide::shop(&work.guide_job(false));
        let machine = job.sections.iter().find(|section| section.id == "machine").unwrap();
        let told = machine.lines().into_iter().any(|line| line.plain().contains("on both sides"));
        assert_eq!(told, scored, "{said}");
    }
}

/// A stock with a cutter of its own is cut at that one's speed, not at the usual one's; where one machine's speed is not known,
/// neither is the time.
#[test]
fn each_stock_is_cut_at_its_own_machines_speed() {
    let own = |cutter: &str| {
        let terms = r#""selling": { "machine_hour": 6 },"#;
        album(1, terms).replace(r#""sheet": "A4""#, &format!(r#""sheet": "A4", "cutter": {{ {cutter} }}"#))
    };
    let usual = Cutter { lift: 0.0, ..blade() };
    let quantity =
        |text: &str, cutter: Cutter| row(worked(text, cutter, SEARCH).cost().unwrap(), "machine").quantity.clone();
    let tenths = |text: &str, cutter: Cutter| quantity(text, cutter).unwrap().near();
    let (slow, fast) = (own(r#""speed": 2"#), own(r#""speed": 2000"#));
    assert!(tenths(&slow, usual.clone()) > 100.0 * tenths(&fast, usual.clone()));
    assert_eq!(quantity(&own(r#""kerf": 0"#), usual), None);
    assert!(quantity(&slow, Cutter::default()).is_some());
}

/// On a trimmer the hands cut, and the machine has nothing to do.
#[test]
fn a_trimmer_is_worked_by_hand() {
    let terms = r#""selling": { "hour": 18, "machine_hour": 6 },"#;
    let by_hand = worked(&album(1, terms), blade(), Search { trimmer: true, ..SEARCH });
    let by_machine = worked(&album(1, terms), blade(), SEARCH);
    let hands = |work: &Work| row(work.cost().unwrap(), "hands").quantity.clone().unwrap();
    assert!(hands(&by_hand) > hands(&by_machine));
    assert!(by_hand.cost().unwrap().rows.iter().all(|row| row.name != "machine"));
    assert!(row(by_machine.cost().unwrap(), "machine").quantity.is_some());
}

/// What the order takes of a thing its kits take between them, minutes on the trimmer among it, and each pays for what it takes.
#[test]
fn kits_take_what_the_order_takes() {
    let of = |work: &Work| work.cost().unwrap().clone();
    let trimmed = of(&worked(&album(3, TERMS), blade(), Search { trimmer: true, ..SEARCH }));
    let by_machine = of(&worked(&album(3, TERMS), blade(), SEARCH));
    // 35 minutes a kit, and no step of hands where a machine cuts; a trimmer's cuts come on top.
    assert_eq!(row(&by_machine, "hands").quantity, Some(Exact::whole(3 * 35)));
    assert!(row(&trimmed, "hands").quantity.clone().unwrap() > Exact::whole(3 * 35));
    let batch = |trimmer: bool| {
        let (batch, _) = order(&format!("{TERMS} \"spares\": {{ \"kits\": 1 }},"), "", "");
        let search = Search { trimmer, ..SEARCH };
        BatchWork::new(batch.unwrap(), blade(), Labels::None, search, &Unwatched).cost().unwrap().clone()
    };
    for cost in [trimmed, by_machine, batch(true), batch(false)] {
        for (number, row) in cost.rows.iter().enumerate().filter(|(_, row)| row.unit != "sheets") {
            let shares = cost.kits.iter().flat_map(|kit| &kit.shares).filter(|share| share.row == number);
            let all: Exact = shares.map(|share| share.quantity.clone()).sum();
            assert_eq!(Some(all), row.quantity, "{}", row.name);
        }
        let hands = cost.rows.iter().position(|row| row.name == "hands").unwrap();
        for kit in &cost.kits {
            let share = kit.shares.iter().find(|share| share.row == hands).unwrap();
            // 18 an hour, all kits of the name; each of those that are sold bears as much.
            let paid = share.cost.clone().unwrap().times(&Exact::whole(kit.sold.into()));
            assert_eq!(paid, share.quantity.times(&Exact::ratio(18, 60).unwrap()));
        }
    }
}

/// What one more uses of a pack that is opened for it is in what it costs, and said to be; where no pack is opened, nothing is said of one.
#[test]
fn one_more_counts_what_it_uses_of_a_pack() {
    let folder = crate::common::TempDir::new("one-more");
    let says = |copies: u32| {
        let file = folder.put("album.json", album(copies, TERMS));
        let out = folder.join(&format!("kit-{copies}"));
        let words =
            ["kit", file.to_str().unwrap(), "--out", out.to_str().unwrap(), "--formats", "html", "--effort", "low"];
        let run = crate::common::hingeleaf(words);
        assert_eq!(run.code, 0, "{}", run.err);
        let page = if copies > 1 { "job.html" } else { "guide.html" };
        (run.out, std::fs::read_to_string(out.join(page)).unwrap())
    };
    let (console, job) = says(25);
    // 9.50 for 25 sheets: 0.38 a sheet are in it.
    assert!(console.contains(" EUR, what it uses of another pack of card A4 among it.\n"), "{console}");
    assert!(!console.contains(" and another pack"), "{console}");
    assert!(job.contains("What it uses of that is in what one more costs."));
    let (console, job) = says(24);
    assert!(console.contains("one more takes") && !console.contains("another pack"), "{console}");
    assert!(!job.contains("another pack"));
}

/// Two costs of the same sheets stand beside each other, and which is which is said: by the sheet, and in whole packs. Without packs it is one.
#[test]
fn costs_by_the_sheet_are_said_to_be() {
    let folder = crate::common::TempDir::new("by-the-sheet");
    let says = |terms: &str, command: &str, more: &[&str]| {
        let file = folder.put("album.json", album(2, terms));
        let out = folder.join(if terms.contains("packs") { "packs" } else { "sheets" });
        let out = ["--out", out.to_str().unwrap(), "--formats", "svg"];
        let words = [command, file.to_str().unwrap(), "--effort", "low"];
        let words = words.iter().chain(if command == "kit" { &out[..] } else { &[] }).chain(more);
        let run = crate::common::hingeleaf(words);
        assert_eq!(run.code, 0, "{}", run.err);
        run.out
    };
    let range = ["--within", "1"];
    // 9.50 for 25 sheets: two are 0.76, and a pack is 9.50.
    let (kit, sizes) = (says(TERMS, "kit", &[]), says(TERMS, "sizes", &range));
    assert!(kit.contains("  costs 0.76 by the sheet; packs are bought whole\n"), "{kit}");
    assert!(sizes.contains("Costs are by the sheet: packs are bought whole"), "{sizes}");
    let (kit, sizes) = (says("", "kit", &[]), says("", "sizes", &range));
    assert!(kit.contains("  costs 2.00\n") && !kit.contains("packs"), "{kit}");
    assert!(sizes.contains(" a kit") && !sizes.contains("packs"), "{sizes}");
}

/// Of two sizes the one that is cheaper by its packs is bought.
#[test]
fn packs_choose_the_sheet() {
    let text = |packs: &str| {
        album(8, packs)
            .replace(r#""sheet": "A4""#, r#""sheet": [{ "sheet": "A4", "price": 1 }, { "sheet": "A3", "price": 3 }]"#)
    };
    let names = |packs: &str| -> Vec<String> {
        let work = worked(&text(packs), Cutter::default(), SEARCH);
        work.cost().unwrap().rows.iter().map(|row| row.name.clone()).filter(|name| name.starts_with("card")).collect()
    };
    assert_eq!(names(r#""selling": { "currency": "EUR" },"#), ["card A4"]);
    // Eight sheets of A4 cost 8, a pack of ten A3 15, one of four 5.
    assert_eq!(names(r#""packs": { "card A3": { "of": 10, "price": 15 } },"#), ["card A4"]);
    assert_eq!(names(r#""packs": { "card A3": { "of": 4, "price": 5 } },"#), ["card A3"]);
    assert_eq!(
        names(r#""packs": { "card": { "of": 10, "price": 15 }, "card A4": { "of": 10, "price": 6 } },"#),
        ["card A4"]
    );
}

/// What is wrong is told at its place, all of it.
#[test]
fn broken_values_are_told_where_they_stand() {
    let terms = r#""packs": { "cart": { "of": 25, "price": 9.5 }, "card": { "of": 0, "price": -1 } },
        "supplies": { "tap 6 mm": { "of": "25 m", "price": 3 }, "glue": { "of": "100 m", "price": 4 }, "tape 6": { "of": "25 m", "price": "three" },
            "thread": { "of": "0 m", "price": 3 }, "wax": { "of": 3, "price": 1 }, "corners": { "of": 2.5, "price": 0.1234567 } },
        "selling": { "currency": "=1+1", "hour": "18", "machine_hour": -6, "overhead": 15, "profit": "forty", "fees": "60 %", "tax": "40 %", "vat": 3 },"#;
    let (_, findings) = read(&album(1, terms));
    let told: Vec<(&str, &str)> =
        findings.iter().map(|finding| (finding.id, finding.place.as_ref().unwrap().path.as_ref())).collect();
    let wanted = [
        ("unknown-stock", "packs.cart"),
        ("out-of-range", "packs.card.of"),
        ("out-of-range", "packs.card.price"),
        ("unknown-supply", "supplies.tap 6 mm"),
        ("bad-supply", "supplies.glue.of"),
        ("wrong-type", "supplies.tape 6.price"),
        ("bad-supply", "supplies.thread.of"),
        ("unknown-supply", "supplies.wax"),
        ("out-of-range", "supplies.corners.price"),
        ("bad-currency", "selling.currency"),
        ("wrong-type", "selling.hour"),
        ("out-of-range", "selling.machine_hour"),
        ("wrong-type", "selling.overhead"),
        ("bad-share", "selling.profit"),
        ("out-of-range", "selling.tax"),
        ("unknown-field", "selling.vat"),
    ];
    for one in wanted {
        assert!(told.contains(&one), "{one:?} in {told:?}");
    }
    let help = findings.iter().find(|finding| finding.id == "unknown-supply").unwrap();
    assert!(help.help.to_string().contains("\"tape 6 mm\""), "{}", help.help);
    // 99.9 % may go, and tape of two widths is two things.
    let fine = r#""selling": { "fees": "59.9 %", "tax": "40 %" }, "supplies": { "tape 6 mm": { "of": "1 m", "price": 1 }, "tape 12 mm": { "of": "1 m", "price": 1 } },"#;
    assert!(read(&album(1, fine)).1.is_empty());
}

fn order(more: &str, grey: &str, ochre: &str) -> (Option<batch::Batch>, Vec<Finding>) {
    let text = format!(
        r#"{{ "format": "hingeleaf-batch/1", {more} "kits": [{{ "name": "grey", "album": "a", "copies": 4, "change": {{ {grey} }} }},
            {{ "name": "ochre", "album": "a", "copies": 3, "change": {{ "stocks.card.price": 2{ochre} }} }}] }}"#
    );
    let mut albums = |name: &str| match name {
        "a" => Source::new(name, album(1, "").into()),
        _ => Err(Box::new(Finding::stop("file", Said::NOTHING, Said::new("no-file").with("file", name)))),
    };
    let read = batch::read(&Source::new("order.json", text.into()).unwrap(), &parts::kinds(), &mut albums);
    (read.value, read.findings)
}

/// In an order the kits bear all that it costs, spare kits among it, and a stock called apart has packs of its own.
#[test]
fn kits_bear_the_order() {
    let terms = TERMS.replace(r#""card": "#, r#""card.ochre": { "of": 3, "price": 1 }, "card": "#);
    let (batch, findings) = order(&format!(r#"{terms} "spares": {{ "kits": 1, "parts": "10 %" }},"#), "", "");
    let work =
        BatchWork::new(batch.unwrap_or_else(|| panic!("{findings:?}")), blade(), Labels::None, SEARCH, &Unwatched);
    assert!(!work.stopped(), "{:?}", work.findings);
    let cost = work.cost().unwrap();
    assert_eq!(row(cost, "card.ochre A4").sold.as_ref().unwrap().per, Exact::whole(3));
    assert_eq!(row(cost, "card.grey A4").sold.as_ref().unwrap().per, Exact::whole(25));
    assert_eq!(row(cost, "hands").quantity, Some(Exact::whole(7 * 35)));
    assert_eq!(row(cost, "tape 6 mm").quantity, Some(Exact::whole(9 * 423)));
    let borne: Exact = cost.kits.iter().map(|kit| kit.asked.cost.times(&Exact::whole(kit.sold.into()))).sum();
    assert_eq!(borne, cost.order.cost);
    assert_eq!(cost.kits.iter().map(|kit| (kit.made, kit.sold)).collect::<Vec<_>>(), [(5, 4), (4, 3)]);
    // The job sheet says the same.
    let sheet = work.order_sheet(false).unwrap();
    let section = sheet.sections.iter().find(|section| section.id == "cost").unwrap();
    let tables = section.blocks.iter().filter_map(|block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    });
    let cells: Vec<String> = tables.flat_map(|table| table.rows.iter().flatten()).map(Line::plain).collect();
    for kit in &cost.kits {
        for amount in [&kit.asked.cost, &kit.asked.price, &kit.one_more] {
            assert!(cells.contains(&cost.shown(amount)), "{} in {cells:?}", cost.shown(amount));
        }
    }
    // In either language every word is there, and its place filled.
    for (language, hands) in [("en", "Hands"), ("de", "Handarbeit")] {
        let (batch, _) = order(&format!(r#"{TERMS} "language": "{language}","#), "", "");
        let work = BatchWork::new(batch.unwrap(), Cutter::default(), Labels::None, SEARCH, &Unwatched);
        let sheet = work.order_sheet(false).unwrap();
        let section = sheet.sections.iter().find(|section| section.id == "cost").unwrap();
        let lines: Vec<String> = section.lines().into_iter().map(Line::plain).collect();
        assert!(lines.contains(&hands.to_owned()), "{lines:?}");
        assert!(lines.iter().all(|line| !line.contains("cost-") && !line.contains(['{', '$'])), "{lines:?}");
    }
    let mut files = Memory::default();
    work.write(&Files::of(&["csv"]), &mut files).unwrap();
    let list = String::from_utf8(files.files["cost.csv"].clone()).unwrap();
    assert!(list.starts_with("of,what,quantity,unit,per,packs,price,cost,currency\r\norder,card.grey A4,"), "{list}");
}

/// A batch's word beats its albums'; where it has none, these must agree.
#[test]
fn the_batch_has_the_last_word() {
    let (grey, ochre) = (r#""selling": { "hour": 18 }"#, r#", "selling": { "hour": 20 }"#);
    let (_, findings) = order("", grey, ochre);
    assert_eq!(findings.iter().map(|finding| finding.id).collect::<Vec<_>>(), ["terms-differ"]);
    let (batch, findings) = order(r#""selling": { "hour": 25 },"#, grey, ochre);
    assert!(findings.is_empty(), "{findings:?}");
    assert_eq!(batch.unwrap().terms.selling.hour, Some(Exact::whole(25)));
    let (batch, _) = order(r#""selling": { "tax": "7 %" },"#, grey, "");
    let selling = batch.unwrap().terms.selling;
    assert_eq!((selling.hour, selling.tax), (Some(Exact::whole(18)), Exact::percent("7 %")));
    let (_, findings) = order(r#""packs": { "card.ocher": { "of": 2, "price": 1 } },"#, "", "");
    assert_eq!(findings[0].id, "unknown-stock");
    assert!(findings[0].help.to_string().contains("card.ochre"), "{}", findings[0].help);
}
