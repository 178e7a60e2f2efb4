// SPDX-License-Identifier: MIT
//! Why no layout takes fewer sheets: what would make the reason untrue of the pieces that it names, or no reason at all.
//!
//! Every claim is tried cell by cell, with nothing of the engine's but its types.

use crate::common::instances::{Dice, MM, endless, item, problem};
use crate::common::{TempDir, cutter, hingeleaf, project, work};
use crate::proof::{Part, chosen, fits_cut, fits_free};
use hingeleaf::contour::Contour;
use hingeleaf::layout::{CountedItem, Cuts, Effort, Item, Problem, Reason, Turns, Unwatched, lay_out_for, reason};
use hingeleaf::sheets::{Argument, StockSheets, WhyNoFewer};
use std::collections::BTreeMap;
use std::ffi::OsStr;

fn why(problem: &Problem, cuts: Cuts) -> (u64, Option<Reason>) {
    let layout = lay_out_for(problem, cuts, &Unwatched).unwrap();
    (layout.lower_bound, reason(problem, cuts, layout.lower_bound, &layout.sheets))
}

/// Single pieces of the items that count, with what each counts.
fn pieces(of: &[CountedItem], parts: &[(Part, u32)]) -> Vec<(Part, u64)> {
    of.iter()
        .flat_map(|one| {
            let (part, count) = parts[one.item];
            assert_eq!(one.count, u64::from(count), "not all of them are counted");
            assert!(one.points > 0);
            std::iter::repeat_n((part, one.points), usize::try_from(count).unwrap())
        })
        .collect()
}

/// Whether pieces lie on one board, tried cell by cell.
struct Board {
    width: i64,
    height: i64,
    cuts: Cuts,
    known: BTreeMap<Vec<Part>, bool>,
}

impl Board {
    fn holds(&mut self, parts: &[Part]) -> bool {
        let mut parts = parts.to_vec();
        parts.sort_unstable();
        let (width, height) = (self.width, self.height);
        let spare = width * height - parts.iter().map(|part| part.0 * part.1).sum::<i64>();
        let cuts = self.cuts;
        *self.known.entry(parts).or_insert_with_key(|parts| match cuts {
            Cuts::Free => fits_free(&mut parts.clone(), 0, spare, width, height),
            Cuts::Trimmer => spare >= 0 && fits_cut(parts, (1 << parts.len()) - 1, width, height, &mut BTreeMap::new()),
        })
    }

    /// No sheet holds more points than so many: every set that has more is tried.
    fn holds_no_more(&mut self, pieces: &[(Part, u64)], most: u64) -> bool {
        let parts: Vec<Part> = pieces.iter().map(|(part, _)| *part).collect();
        (1..1_usize << pieces.len()).all(|set| {
            let inside = |at: &usize| set >> at & 1 == 1;
            let points: u64 = (0..pieces.len()).filter(inside).map(|at| pieces[at].1).sum();
            points <= most || !self.holds(&chosen(&parts, set))
        })
    }
}

/// Holds a reason to what it says of these parts. Says which it is.
fn held(reason: &Reason, bound: u64, parts: &[(Part, u32)], board: &mut Board) -> &'static str {
    let sheet = board.width * board.height;
    let area = |of: &[(Part, u64)]| of.iter().map(|((w, h, _), _)| w * h).sum::<i64>();
    let more = |area: i64, sheets: u64| area > i64::try_from(sheets - 1).unwrap() * sheet;
    match reason {
        Reason::Area => {
            let all: i64 = parts.iter().map(|((w, h, _), count)| w * h * i64::from(*count)).sum();
            assert!(more(all, bound), "{all} is no more than {bound} sheets less one");
            "area"
        }
        Reason::AtMost { of, most } => {
            let pieces = pieces(of, parts);
            let all: u64 = pieces.iter().map(|(_, points)| points).sum();
            assert!(all > most * (bound - 1), "{all} go onto {bound} sheets less one, {most} on each");
            assert!(board.holds_no_more(&pieces, *most), "a sheet holds more than {most} of {pieces:?}");
            let single = pieces.iter().all(|(_, points)| *points == 1);
            if *most == 1 {
                "alone"
            } else if single {
                "at most"
            } else {
                "points"
            }
        }
        Reason::Apart(groups) => {
            let all: u64 = groups.iter().map(|group| group.sheets).sum();
            assert!(all >= bound, "{all} are fewer than {bound}");
            let groups: Vec<_> = groups.iter().map(|group| (pieces(&group.of, parts), group)).collect();
            for (number, (one, group)) in groups.iter().enumerate() {
                if group.each_alone {
                    assert!(u64::try_from(one.len()).unwrap() == group.sheets && board.holds_no_more(one, 1));
                } else {
                    assert!(more(area(one), group.sheets), "{one:?} take fewer sheets than {}", group.sheets);
                }
                for (other, _) in &groups[number + 1..] {
                    for ((a, _), (b, _)) in one.iter().flat_map(|a| other.iter().map(move |b| (a, b))) {
                        assert!(!board.holds(&[*a, *b]), "{a:?} and {b:?} share a sheet");
                    }
                }
            }
            "apart"
        }
        _ => "weighed",
    }
}

/// 1,500 random problems: no reason says what is not so, none is missing where there is more than one sheet, and one that could
/// be told shortly is not called long: by area, by pieces that keep apart, by one part alone.
#[test]
fn no_reason_is_untrue_and_none_is_missing() {
    let mut dice = Dice(41);
    let mut seen: BTreeMap<&str, u32> = BTreeMap::new();
    for number in 0..1_500 {
        let (width, height) = (dice.from(4, 9), dice.from(4, 7));
        let turning = dice.from(0, 2);
        let mut left = dice.from(2, 10);
        let mut parts: Vec<(Part, u32)> = Vec::new();
        while left > 0 {
            let count = dice.from(1, left.min(4));
            left -= count;
            let turns = turning == 2 || (turning == 1 && dice.from(0, 1) == 1);
            let least = dice.from(1, 3);
            let part = (dice.from(least, width.min(height)), dice.from(least, width.min(height)), turns);
            parts.push((part, u32::try_from(count).unwrap()));
        }
        let items: Vec<Item> = parts
            .iter()
            .map(|&((w, h, turns), count)| item(w, h, if turns { Turns::ANY } else { Turns::NONE }, count))
            .collect();
        let sheet = [endless(width, height)];
        let problem = problem(&items, &sheet, 0, [Effort::Low, Effort::Normal][number % 2]);
        let cuts = if number % 5 == 0 { Cuts::Trimmer } else { Cuts::Free };
        let (bound, reason) = why(&problem, cuts);
        assert_eq!(reason.is_some(), bound > 1, "{parts:?} on {width} x {height}");
        let Some(reason) = reason else { continue };
        let mut board = Board { width, height, cuts, known: BTreeMap::new() };
        let kind = held(&reason, bound, &parts, &mut board);
        *seen.entry(kind).or_default() += 1;
        if kind == "weighed" {
            for &(part, count) in &parts {
                let held = (1..=count).take_while(|&many| board.holds(&vec![part; usize::try_from(many).unwrap()]));
                let sheets = u64::from(count).div_ceil(held.last().unwrap().into());
                assert!(sheets < bound, "{count} x {part:?} alone take {sheets} sheets of {width} x {height}");
            }
        }
    }
    eprintln!("{seen:?}");
    for (kind, least) in [("area", 300), ("alone", 20), ("at most", 50), ("points", 20), ("apart", 5)] {
        assert!(seen.get(kind).is_some_and(|count| *count >= least), "{kind}: {seen:?}");
    }
    let all: u32 = seen.values().sum();
    assert!(seen.get("weighed").copied().unwrap_or(0) * 20 < all, "too many are told without an argument: {seen:?}");
}

/// Worked out by hand: 120 on 210 x 200, no two go beside or above each other; on 240 x 200 two do, and on 240 x 240 four.
#[test]
fn squares_alone_in_twos_and_together() {
    let squares = [item(120 * MM, 120 * MM, Turns::ANY, 3)];
    let of = |width: i64, height: i64| {
        why(&problem(&squares, &[endless(width * MM, height * MM)], 0, Effort::Normal), Cuts::Free)
    };
    let at_most = |found: (u64, Option<Reason>)| match found {
        (bound, Some(Reason::AtMost { of, most })) => {
            (bound, of.iter().map(|one| (one.item, one.count, one.points)).collect(), most)
        }
        (bound, other) => panic!("{bound}: {other:?}"),
    };
    assert_eq!(at_most(of(210, 200)), (3, vec![(0, 3, 1)], 1));
    assert_eq!(at_most(of(240, 200)), (2, vec![(0, 3, 1)], 2));
    assert_eq!(of(240, 240), (1, None));
}

/// Four of 2 x 3 lie round the middle of 5 x 5, and no cut from edge to edge takes them apart: three do on a trimmer.
#[test]
fn what_only_a_trimmer_cannot_do_is_said_of_a_trimmer() {
    let items = [item(2, 3, Turns::ANY, 4)];
    let sheet = [endless(5, 5)];
    let problem = problem(&items, &sheet, 0, Effort::Normal);
    assert_eq!(why(&problem, Cuts::Free), (1, None));
    let (bound, reason) = why(&problem, Cuts::Trimmer);
    assert!(matches!(reason, Some(Reason::AtMost { most: 3, .. })), "{bound}: {reason:?}");
}

/// What may lie in a window of another part is not counted among those of which a sheet holds no more. By hand: mats of 80 with
/// windows of 70; pieces of 72 do not go in, pieces of 45 do, and none goes beside a mat on 120.
#[test]
fn what_goes_into_a_window_is_not_counted() {
    let window = Contour::rectangle(5.0, 5.0, 70.0, 70.0);
    let mat = Item {
        contour: Some(Contour::rectangle(0.0, 0.0, 80.0, 80.0)),
        holes: vec![window],
        ..item(80 * MM, 80 * MM, Turns::ANY, 2)
    };
    let sheet = [endless(120 * MM, 120 * MM)];
    let counted = |side: i64, count: u32| {
        let items = [mat.clone(), item(side * MM, side * MM, Turns::ANY, count)];
        match why(&problem(&items, &sheet, 0, Effort::Normal), Cuts::Free) {
            (bound, Some(Reason::AtMost { of, most: 1 })) => (bound, of.iter().map(|one| one.item).collect::<Vec<_>>()),
            (bound, _) => (bound, Vec::new()),
        }
    };
    assert_eq!(counted(72, 3), (5, vec![0, 1]));
    assert_eq!(counted(45, 2), (2, vec![0]));
    // Two of 62 go into the windows, and nobody can say which: that each of the others takes a sheet is true of none by name.
    assert_eq!(counted(62, 4), (4, vec![]));
}

// --- Of stocks ---

fn album(stocks: &str, more: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", {more} "stocks": {{ {stocks} }},
            "page": {{ "width": 148, "height": 190 }},
            "pages": [{}] }}"#,
        [r#"{ "kind": "pocket" }"#; 4].join(",")
    )
}

fn of(stocks: &[StockSheets], number: usize) -> &WhyNoFewer {
    stocks.iter().find(|laid| laid.stock == number).and_then(|laid| laid.why.as_ref()).unwrap()
}

/// The parts are those of the stock, so many of which are cut; by hand: of its panels two go onto a sheet, and twelve are cut.
#[test]
fn a_stock_names_its_parts() {
    let text = std::fs::read_to_string(project().join("fixtures/orchard-notes.json")).unwrap();
    let work = work(&text, cutter(0.0, 0.0, 0.0));
    let (number, laid) = (1, &work.stocks[1]);
    let why = of(&work.stocks, number);
    let Argument::AtMost { of: parts, most: 2 } = &why.argument else { panic!("{why:?}") };
    assert_eq!((laid.lower_bound, why.too_few), (6, 5));
    let [panels] = parts.as_slice() else { panic!("{parts:?}") };
    let cut = |id: &str| {
        let part = work.kit.parts.iter().find(|part| part.id == id && part.stock == number).unwrap();
        u64::from(part.count) * u64::from(work.album.copies)
    };
    let [id] = panels.parts.as_slice() else { panic!("{panels:?}") };
    assert_eq!((panels.count, panels.points, cut(id)), (12, 1, 12));
    assert_eq!(why.said().to_string(), format!("no sheet holds more than 2 of these 12 pieces: 12 x {id}"));
    // One sheet takes no reason.
    let large = self::work(&album(r#""card": { "sheet": "700x1000mm", "caliper": 0.3 }"#, ""), cutter(0.0, 0.0, 0.0));
    assert!(large.stocks[0].lower_bound == 1 && large.stocks[0].why.is_none());
}

/// The run's own lines and the report say the same; of one sheet neither says anything.
#[test]
fn the_run_and_the_report_say_why() {
    let folder = TempDir::new("reasons");
    let kit = |album: &str, out: &str| {
        let file = project().join("fixtures").join(album);
        let words = [OsStr::new("kit"), file.as_os_str(), OsStr::new("--out"), folder.join(out).as_os_str()]
            .map(OsStr::to_owned)
            .into_iter()
            .chain(["--formats", "csv"].map(Into::into));
        let run = hingeleaf(words);
        assert_eq!(run.code, 0, "{}", run.err);
        let report = std::fs::read(folder.join(out).join("report.json")).unwrap();
        (run.out, serde_json::from_slice::<serde_json::Value>(&report).unwrap())
    };
    let (out, report) = kit("orchard-notes.json", "notes");
    let petal = report["layouts"].as_array().unwrap().iter().find(|layout| layout["stock"] == "petal").unwrap();
    let why = &petal["why"];
    assert_eq!((&why["argument"], &why["most"], &why["too_few"]), (&"at-most".into(), &2.into(), &5.into()));
    assert_eq!(why["of"], serde_json::json!([{ "parts": ["panel-page-1-front"], "count": 12 }]));
    assert!(out.contains(&format!("\n  because {}\n", why["text"].as_str().unwrap())), "{out}");
    let (out, report) = kit("lighthouse-log.json", "log");
    let slate = report["layouts"].as_array().unwrap().iter().find(|layout| layout["stock"] == "slate").unwrap();
    assert!(slate["sheets"] == 1 && slate.get("why").is_none());
    let line = out.lines().skip_while(|line| !line.starts_with("slate: 1 sheet")).nth(1);
    assert!(line.is_some_and(|line| line.starts_with("  cut ")), "{out}");
}

/// Where each kit has sheets of its own, the reason is of one kit, and the bound of all.
#[test]
fn of_each_kit_where_each_has_its_own_sheets() {
    let text = album(r#""card": { "sheet": "A4", "caliper": 0.3 }"#, r#""copies": 3, "handed_over": "sheets","#);
    let three = work(&text, cutter(0.0, 0.0, 0.0));
    let laid = &three.stocks[0];
    let why = laid.why.as_ref().unwrap();
    assert!(why.each_kit);
    assert_eq!(laid.lower_bound, 3 * (why.too_few + 1));
    assert!(why.said().to_string().starts_with("of each kit, "));
    let one = work(&album(r#""card": { "sheet": "A4", "caliper": 0.3 }"#, ""), cutter(0.0, 0.0, 0.0));
    let alone = of(&one.stocks, 0);
    assert!(!alone.each_kit);
    assert_eq!((alone.too_few, &alone.argument), (why.too_few, &why.argument));
}

/// Where sizes are mixed no number of sheets is sure, so no reason is given.
#[test]
fn no_reason_where_sizes_are_mixed() {
    let two = work(&album(r#""card": { "sheet": ["A4", "A3"], "caliper": 0.3 }"#, ""), cutter(0.0, 0.0, 0.0));
    assert!(two.stocks[0].why.is_none());
}
