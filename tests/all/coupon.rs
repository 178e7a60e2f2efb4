// SPDX-License-Identifier: MIT
//! What is made of readings of a test piece, and how broken readings are answered. What the piece holds is read by other
//! people's readers in `tests/outside/test_coupon.py`.

use crate::common::instances::Dice;
use crate::common::{TempDir, hingeleaf, project};
use hingeleaf::coupon::{self, Coupon};
use hingeleaf::cutter::{self, Cutter, ScoreMode};
use hingeleaf::fields::Source;
use hingeleaf::finding::{Finding, Level};
use hingeleaf::length::Length;
use std::fs;

fn read(fields: &str) -> (Option<coupon::MeasuredSettings>, Vec<Finding>) {
    let text = format!("{{ \"format\": \"hingeleaf-measured/1\", {fields} }}");
    let read = coupon::read(&Source::new("measured.json", text.into()).unwrap());
    let worked = read.value.map(|measured| coupon::worked(&measured));
    let findings = read.findings.into_iter().chain(worked.iter().flat_map(|worked| worked.findings.clone())).collect();
    (worked.and_then(|worked| worked.value), findings)
}

/// To the nearest 0.1 mm, as a ruler is read.
fn ruler(mm: f64) -> f64 {
    (mm * 10.0).round() / 10.0
}

/// A machine with a scale and a kerf, read by a ruler; arithmetic of its own: ten strips of 10 mm each lose a kerf, the slot gains one.
#[test]
fn the_kerf_comes_back_within_what_is_said() {
    for scale in [0.99, 0.9973, 1.0, 1.004, 1.013] {
        for kerf in [0.0, 0.03, 0.08, 0.13, 0.2, 0.31] {
            let [across, strips, slots] =
                [100.0 * scale, 10.0 * (10.0 * scale - kerf), 100.0 * scale + kerf].map(ruler);
            for fields in [
                format!("\"strips\": {strips}, \"slots\": {slots}"),
                format!("\"scale\": {{ \"across\": {across}, \"up\": null }}, \"strips\": {strips}, \"slots\": null"),
                format!("\"scale\": {{ \"across\": {across} }}, \"strips\": {strips}, \"slots\": {slots}"),
                format!("\"scale\": {{ \"across\": {across} }}, \"slots\": {slots}"),
            ] {
                let (worked, findings) = read(&fields);
                let (found, off) = worked.unwrap().kerf.unwrap_or_else(|| panic!("{fields}: {findings:?}"));
                assert!(
                    (found - kerf).abs() <= off + 1e-9 && off <= 0.1 + 1e-9,
                    "{fields}: {found} ± {off}, not {kerf}"
                );
                assert!(findings.iter().all(|finding| finding.id != "readings-disagree"), "{fields}");
            }
        }
    }
}

/// The scale is told where it is off by more than a ruler shows, and never taken into account.
#[test]
fn a_scale_that_is_off_is_told() {
    let level = |across: f64| {
        let (worked, findings) = read(&format!("\"scale\": {{ \"across\": {across}, \"up\": 100 }}"));
        assert_eq!(worked.unwrap().kerf, None);
        findings.iter().map(|finding| finding.level).max_by_key(|level| *level == Level::Warn).unwrap()
    };
    assert!(level(100.0) == Level::Note && level(100.2) == Level::Warn && level(99.8) == Level::Warn);
}

#[test]
fn readings_that_can_not_be_are_told() {
    let ids = |fields: &str| read(fields).1.iter().map(|finding| finding.id).collect::<Vec<_>>();
    // The row is longer than the slot that it came from.
    assert_eq!(ids("\"strips\": 101, \"slots\": 100.1"), ["kerf-impossible"]);
    // 0.13 mm by the row, 0.9 mm by the slot.
    assert!(ids("\"scale\": { \"across\": 100 }, \"strips\": 98.7, \"slots\": 100.9").contains(&"readings-disagree"));
    assert_eq!(ids("\"strips\": 98.7"), ["kerf-unknown"]);
    assert_eq!(ids("\"scale\": null, \"strips\": null, \"slots\": null, \"best_score\": null"), Vec::<&str>::new());
}

/// Readings of which no pair agrees with the third say nothing of the kerf, nor of the nicks that hang on it; all else is kept. Those of a sound
/// neighbour, whose slot is 1.8 mm less and fits, say both.
#[test]
fn what_contradicts_itself_is_not_saved() {
    let of = |across: f64, slots: f64, more: &str| {
        let fields = format!(
            "\"scale\": {{ \"across\": {across} }}, \"strips\": 98, \"slots\": {slots}, \"best_score\": 4, \"best_overrun\": 2{more}"
        );
        let (worked, findings) = read(&fields);
        (worked.unwrap(), ids(&findings))
    };
    let base = Source::new(
        "cutter.json",
        br#"{ "format": "hingeleaf-cutter/1", "kerf": 0.1, "gap": 2, "nicks": { "length": 0.4, "count": 3 } }"#
            .to_vec(),
    )
    .unwrap();
    let cutter = cutter::read(&base).value.unwrap();
    let saved = |worked: &coupon::MeasuredSettings| -> serde_json::Value {
        serde_json::from_str(&coupon::saved(worked, Some((&base, &cutter)))).unwrap()
    };
    // 0.21 mm by the row, 1.9 by the slot; 0.31 by the row, -0.9 by the slot.
    for (across, slots) in [(100.1, 102.0), (101.1, 100.2)] {
        let (worked, told) = of(across, slots, ", \"nick_held\": 3");
        assert_eq!((worked.kerf, worked.nick, worked.overrun), (None, None, Some(0.5)), "{across} {slots}");
        assert!(worked.score.is_some() && !worked.is_nothing());
        assert_eq!(told, ["scale", "readings-disagree", "nick-wants-kerf"]);
        let file = saved(&worked);
        assert_eq!(
            (&file["kerf"], &file["nicks"]["length"], &file["overrun"]),
            (&0.1.into(), &0.4.into(), &0.5.into())
        );
        assert_eq!(of(across, slots, "").1, ["scale", "readings-disagree"], "no nick was looked at");
    }
    let (worked, told) = of(100.1, 100.2, ", \"nick_held\": 3");
    assert_eq!(told, ["scale", "kerf"]);
    assert_eq!(worked.nick, Some(0.5));
    // 2.2 mm over eleven kerfs; half a millimetre less that is on the part.
    assert_eq!((&saved(&worked)["kerf"], &saved(&worked)["nicks"]["length"]), (&0.2.into(), &0.3.into()));
}

/// No nick holds that is narrower than what the tool takes away; one that is as much wider as the reading is sure does.
#[test]
fn a_nick_narrower_than_the_kerf_is_none() {
    let of = |held: u32| {
        let (worked, findings) = read(&format!("\"strips\": 98, \"slots\": 102, \"nick_held\": {held}"));
        (worked.unwrap().nick, ids(&findings))
    };
    // 4 mm over eleven kerfs: 0.36 mm.
    assert_eq!(of(1), (None, vec!["nick-impossible", "kerf"]));
    assert_eq!(of(2), (None, vec!["nick-impossible", "kerf"]));
    assert_eq!(of(3), (Some(0.5), vec!["kerf"]));
}

/// Machines of any kerf and scale, read off to a tenth as a ruler shows: no reading contradicts another, the kerf comes back within what is
/// said of it, and a nick is doubted just where so little is off that none of it would be left. One reading taken a centimetre or more
/// wrong is told, and saved as nothing.
#[test]
fn honest_readings_agree_and_slips_are_found() {
    let mut dice = Dice(11);
    let mut random = || f64::from(i32::try_from(dice.from(0, 1_000_000)).unwrap()) / 1e6;
    let ruler = |mm: f64| (mm * 10.0).round() / 10.0;
    let (mut doubted, mut slipped) = (0, 0);
    for _ in 0..400 {
        let (kerf, scale) = (random() * 0.6, 0.99 + random() * 0.02);
        let across = 100.0 * scale;
        // Ten strips are each a kerf less, the slot that they came from is one more.
        let true_ones = [across, across - 10.0 * kerf, across + kerf].map(ruler);
        let of = |[across, strips, slots]: [f64; 3]| {
            let fields = format!(
                "\"scale\": {{ \"across\": {across} }}, \"strips\": {strips}, \"slots\": {slots}, \"nick_held\": 2"
            );
            let (worked, findings) = read(&fields);
            (worked, ids(&findings))
        };
        let (worked, told) = of(true_ones);
        let worked = worked.unwrap();
        assert!(!told.contains(&"readings-disagree") && !told.contains(&"kerf-impossible"), "{kerf}: {told:?}");
        assert!((worked.kerf.unwrap().0 - kerf).abs() <= worked.kerf.unwrap().1 + 1e-9, "{kerf}: {:?}", worked.kerf);
        let gone = coupon::NICKS[1] <= worked.kerf.unwrap().0 - worked.kerf.unwrap().1 + 1e-6;
        assert_eq!((worked.nick.is_none(), told.contains(&"nick-impossible")), (gone, gone), "{kerf}");
        doubted += usize::from(gone);
        // The strips or the slot, a centimetre more or less.
        let mut wrong = true_ones;
        let (which, off) = (1 + usize::from(random() > 0.5), if random() > 0.5 { 10.0 } else { -10.0 });
        wrong[which] = ruler(wrong[which] + off);
        let (worked, told) = of(wrong);
        let nothing = worked.is_none_or(|worked| worked.kerf.is_none() && worked.nick.is_none());
        assert!(nothing && !told.contains(&"kerf"), "{wrong:?}: {told:?}");
        slipped += 1;
    }
    assert!(doubted > 40 && doubted < 360 && slipped == 400, "{doubted}");
}

/// What is wrong, at its first letter, and words of the answer.
const BROKEN: &[(&str, &str, &[&str])] = &[
    ("\"strips\": \"wide\"", "\"wide\"", &["strips", "wide"]),
    ("\"strips\": 9.87", "9.87", &["strips", "40 mm", "110 mm"]),
    ("\"slot\": 100", "\"slot\"", &["did you mean \"slots\""]),
    ("\"scale\": 100", "100", &["scale"]),
    ("\"scale\": { \"across\": 60 }", "60", &["across", "90 mm", "110 mm"]),
    ("\"best_score\": 6", "6", &["best_score", "1 to 5"]),
    ("\"folds\": 3", "3", &["folds", "group of fields"]),
    ("\"folds\": { \"d_valey\": 3 }", "\"d_valey\"", &["did you mean \"d_valley\""]),
    ("\"folds\": { \"e_mountain\": 6 }", "6", &["e_mountain", "0 to 5"]),
    ("\"folds\": { \"e_valley\": \"none\" }", "\"none\"", &["e_valley", "whole number"]),
    ("\"hang\": { \"k\": -4 }", "-4", &["k", "-4 mm", "less than 0"]),
    ("\"hang\": { \"left\": 4 }", "\"left\"", &["left"]),
    ("\"nick_held\": \"third\"", "\"third\"", &["nick_held", "whole number"]),
];

#[test]
fn broken_readings_are_answered_at_their_place() {
    for (fields, at, says) in BROKEN {
        let text = format!("{{ \"format\": \"hingeleaf-measured/1\", {fields} }}");
        let (_, findings) = read(fields);
        let [finding] = findings.as_slice() else { panic!("{fields}: {findings:?}") };
        let words = format!("{} {}", finding.text, finding.help);
        assert!(says.iter().all(|say| words.contains(say)), "{fields}: {words}");
        assert_eq!(finding.place.as_ref().unwrap().column, text.rfind(at).unwrap() + 1, "{fields}");
    }
}

/// What share of a score's length is cut, by the ladder's numbers from 1; a line cuts none.
const SHARES: [f64; 5] = [0.0, 1.0 / 3.0, 1.0 / 2.0, 2.0 / 3.0, 3.0 / 4.0];

fn folds(first: [Option<u32>; 4]) -> String {
    let [a, b, c, d] = first.map(|first| first.map_or("null".to_owned(), |first| first.to_string()));
    format!("\"folds\": {{ \"d_valley\": {a}, \"d_mountain\": {b}, \"e_valley\": {c}, \"e_mountain\": {d} }}")
}

fn ids(findings: &[Finding]) -> Vec<&'static str> {
    findings.iter().map(|finding| finding.id).collect()
}

/// Card of which in each case so large a share must be cut that it folds clean: the score that is found is the least that does in all.
#[test]
fn the_score_that_folds_clean_in_every_case_is_found() {
    let mut state = 7u64;
    let mut random = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        f64::from(u32::try_from(state >> 33).unwrap()) / f64::from(1u32 << 31)
    };
    let (mut found, mut none) = (0, 0);
    for _ in 0..400 {
        let needs: [f64; 4] = std::array::from_fn(|_| random() * 0.9 - 0.1);
        let first = |needs: f64| (1..).zip(SHARES).find(|(_, share)| *share >= needs).map_or(0, |(number, _)| number);
        let (worked, findings) = read(&folds(needs.map(|needs| Some(first(needs)))));
        let score = worked.unwrap().score;
        let hardest = needs.into_iter().fold(f64::MIN, f64::max);
        if hardest > 0.75 {
            none += 1;
            assert_eq!((score, ids(&findings)), (None, vec!["folds-none-clean"]), "{needs:?}");
            assert!(!findings[0].help.to_string().is_empty() && findings[0].level == Level::Warn);
            continue;
        }
        found += 1;
        assert_eq!(ids(&findings), ["folds-clean"]);
        let share = match score.unwrap() {
            ScoreMode::Line => 0.0,
            ScoreMode::Dash { dash, gap } => dash.mm() / (dash.mm() + gap.mm()),
        };
        let less = SHARES.iter().copied().filter(|less| *less < share - 1e-9).fold(f64::MIN, f64::max);
        assert!(share >= hardest - 1e-9 && less < hardest, "{needs:?}: {share}");
    }
    assert!(found > 200 && none > 20);
}

/// What is not folded is said; where only folds across the grain crack, turning parts helps; what the maker likes stays.
#[test]
fn folds_that_are_not_clean_are_told() {
    let says = |fields: &str| {
        let (worked, findings) = read(fields);
        let last = findings.iter().rfind(|finding| finding.id.starts_with("folds"));
        let help = last.map(|finding| format!("{} {}", finding.text, finding.help)).unwrap_or_default();
        (worked.unwrap().score, ids(&findings), help)
    };
    let (score, found, words) = says(&folds([Some(2), Some(3), None, Some(1)]));
    assert!(matches!(score, Some(ScoreMode::Dash { .. })) && found == ["folds-clean"]);
    assert!(words.contains("strip E as a valley") && !words.contains("strip D as"), "{words}");
    // Scores of E lie across the grain once it is known to run up; by then that is the help.
    let cracked = folds([Some(1), Some(2), Some(4), Some(0)]);
    let (_, _, words) = says(&cracked);
    assert!(words.contains("strip E as a mountain") && words.contains("bone folder"), "{words}");
    let (score, found, words) = says(&format!("{cracked}, \"hang\": {{ \"k\": 12, \"l\": 6 }}"));
    assert_eq!((score, found), (None, vec!["folds-none-clean", "grain-runs"]));
    assert!(words.contains("across the grain") && words.contains("\"grain\": \"spine\""), "{words}");
    let (_, _, words) = says(&format!("{cracked}, \"hang\": {{ \"k\": 6, \"l\": 12 }}"));
    assert!(words.contains("bone folder"), "{words}");
    let all = folds([Some(1), Some(2), Some(3), Some(2)]);
    assert_eq!(says(&format!("{all}, \"best_score\": 2")).1, ["folds-liked", "folds-clean"]);
    assert_eq!(says(&format!("{all}, \"best_score\": 4")).1, ["folds-clean"]);
    assert_eq!(says(&format!("{cracked}, \"best_score\": 1")).0, Some(ScoreMode::Line));
}

/// A strip that is held at one end hangs by w L^4 / 8 D (K5); along its grain card is about twice as stiff.
#[test]
fn the_grain_is_found_by_how_strips_hang() {
    use hingeleaf::coupon::GrainRuns;
    let hangs = |stiffness: f64| ruler(1e3 * 0.28 * 9.81 * 0.09_f64.powi(4) / (8.0 * stiffness));
    let read = |k: f64, l: f64| {
        let (worked, findings) = read(&format!("\"hang\": {{ \"k\": {k}, \"l\": {l} }}"));
        (worked.unwrap().grain, ids(&findings))
    };
    for stiff in [2e-3, 4e-3, 7e-3] {
        let (along, across) = (hangs(stiff), hangs(stiff / 2.0));
        assert_eq!(read(along, across), (Some(GrainRuns::Across), vec!["grain-runs"]), "{along} {across}");
        assert_eq!(read(across, along), (Some(GrainRuns::Up), vec!["grain-runs"]));
        assert_eq!(read(along, along + 0.9), (None, vec!["grain-not-told"]));
    }
}

/// From the test piece to a cutter file, as a maker does it; nothing that is there is written over.
#[test]
fn a_cutter_file_is_made_of_what_was_read() {
    let folder = TempDir::new("coupon");
    let (out, save) = (folder.join("piece"), folder.join("my-cutter.json"));
    let word = |path: &std::path::Path| path.to_str().unwrap().to_owned();
    let run = |words: &[&str]| hingeleaf(words.iter().copied());
    assert_eq!(run(&["coupon", "--out", &word(&out), "--sheet", "letter"]).code, 0);
    assert_eq!(run(&["coupon", "--out", &word(&out)]).code, 2, "a folder that is there");
    let measured = out.join("measured.json");
    let filled = fs::read_to_string(&measured).unwrap();
    let filled = filled.replace("\"strips\": null", "\"strips\": 98.7").replace("\"slots\": null", "\"slots\": 100.1");
    let filled =
        filled.replace("\"best_score\": null", "\"best_score\": 4").replace("\"nick_held\": null", "\"nick_held\": 3");
    fs::write(&measured, filled).unwrap();
    let base = word(&project().join("fixtures/cutters/laser-on-board.json"));
    let words = ["coupon", "--cutter", &base, "--measured", &word(&measured), "--save", &word(&save)];
    assert_eq!(run(&words).code, 0);
    assert_eq!(run(&words).code, 2, "a file that is there");
    let read = cutter::read(&Source::new("my-cutter.json", fs::read(&save).unwrap()).unwrap());
    assert!(read.findings.is_empty(), "{:?}", read.findings);
    let made = read.value.unwrap();
    // 1.4 mm over eleven kerfs are 0.13 mm; the third nick is 0.5 mm, less the kerf on the part.
    let mm = Length::from_mm;
    assert_eq!(made.kerf, mm(0.13));
    assert_eq!(made.score, ScoreMode::Dash { dash: mm(2.0), gap: mm(1.0) });
    let nicks = made.manner.nicks.unwrap();
    assert!(nicks.length == mm(0.37) && nicks.count == 3);
    assert!(made.gap == mm(4.0) && made.manner.passes.cut == 2 && made.findings().is_empty());
}

/// The next command names the cutter file that the piece was made with, at the terminal and on the page, in both languages; without one it names
/// none. Followed, it keeps all that the file says besides.
#[test]
fn the_next_command_keeps_the_cutter_file() {
    let folder = TempDir::new("coupon-next");
    let base = folder.put(
        "my cutter.json",
        r#"{ "format": "hingeleaf-cutter/1", "margin": 5, "gap": 1.5, "lift": 0.2, "speed": { "cut": 25 } }"#,
    );
    let word = |path: &std::path::Path| path.to_str().unwrap().to_owned();
    for (language, from) in [("en", true), ("de", true), ("en", false), ("de", false)] {
        let out = folder.join(&format!("piece-{language}-{from}"));
        let mut words = vec!["coupon".to_owned(), "--out".into(), word(&out), "--language".into(), language.into()];
        if from {
            words.extend(["--cutter".to_owned(), word(&base)]);
        }
        let run = hingeleaf(&words);
        assert_eq!(run.code, 0, "{}", run.err);
        let page = fs::read_to_string(out.join("coupon.html")).unwrap();
        let measured = word(&out.join("measured.json"));
        let cutter = if from { format!("--cutter '{}' ", word(&base)) } else { String::new() };
        let next = format!("hingeleaf coupon {cutter}--measured {measured} --save my-cutter.json");
        assert!(run.out.contains(&next), "{}", run.out);
        let named = if from { "--cutter 'my cutter.json' " } else { "" };
        let next = format!("coupon {named}--measured measured.json --save my-cutter.json");
        assert!(page.contains(&next) || page.replace("&#39;", "'").contains(&next), "{language} {from}");
        let filled = fs::read_to_string(&measured).unwrap().replace("\"best_overrun\": null", "\"best_overrun\": 2");
        let filled = folder.put("filled.json", filled);
        let save = folder.join(&format!("saved-{language}-{from}.json"));
        let mut words = vec!["coupon".to_owned(), "--measured".into(), word(&filled), "--save".into(), word(&save)];
        if from {
            words.extend(["--cutter".to_owned(), word(&base)]);
        }
        assert_eq!(hingeleaf(&words).code, 0);
        let saved: serde_json::Value = serde_json::from_slice(&fs::read(&save).unwrap()).unwrap();
        assert_eq!((saved["margin"] == 5.0, saved["gap"] == 1.5, saved["overrun"] == 0.5), (from, from, true));
    }
    // What is there already is left alone, so the new file is called otherwise.
    let usual = folder.put("my-cutter.json", r#"{ "format": "hingeleaf-cutter/1" }"#);
    let run = hingeleaf(["coupon", "--out", &word(&folder.join("other")), "--cutter", &word(&usual)]);
    assert!(run.out.contains("--save my-cutter-measured.json"), "{}", run.out);
}

/// A file of readings in which nothing is filled in, or nothing that a cutter file holds, makes none.
#[test]
fn nothing_measured_writes_nothing() {
    let folder = TempDir::new("coupon-nothing");
    let word = |path: &std::path::Path| path.to_str().unwrap().to_owned();
    let of = |text: String| {
        let (file, save) = (folder.put("measured.json", text), folder.join("my-cutter.json"));
        let run = hingeleaf(["coupon", "--measured", &word(&file), "--save", &word(&save)]);
        (run.code, run.err.contains("nothing-measured"), save.exists(), run.out)
    };
    let nothing = (2, true, false, String::new());
    assert_eq!(of(coupon::empty()), nothing);
    assert_eq!(of(coupon::empty().replace("\"across\": null", "\"across\": 100")), nothing);
    assert_eq!(of(coupon::empty().replace("\"k\": null, \"l\": null", "\"k\": 6, \"l\": 12")), nothing);
    let (code, told, there, out) = of(coupon::empty().replace("\"best_trail\": null", "\"best_trail\": 1"));
    assert!(code == 0 && !told && there && out.starts_with("Wrote "), "{out}");
}

#[test]
fn a_sheet_that_is_too_small_is_refused() {
    let piece = |width: f64, height: f64| {
        let made: Result<Coupon, _> =
            coupon::coupon(&Cutter::default(), (Length::from_mm(width), Length::from_mm(height)));
        made.map(|_| ()).map_err(|finding| finding.id)
    };
    assert_eq!(piece(210.0, 297.0), Ok(()));
    assert_eq!(piece(190.0, 182.0), Ok(()));
    assert_eq!(piece(189.0, 297.0), Err("coupon-sheet"));
    assert_eq!(piece(190.0, 181.0), Err("coupon-sheet"));
}

/// Every cutter file that lies ready is sound, and the piece can be made with it.
#[test]
fn cutter_files_to_start_from_are_sound() {
    let mut seen = 0;
    for file in fs::read_dir(project().join("fixtures/cutters")).unwrap().map(|file| file.unwrap().path()) {
        if file.extension().is_some_and(|ending| ending == "json") {
            let read = cutter::read(&Source::new("cutter.json", fs::read(&file).unwrap()).unwrap());
            assert!(read.findings.is_empty(), "{}: {:?}", file.display(), read.findings);
            let cutter = Cutter { bed: None, ..read.value.unwrap() };
            assert!(cutter.findings().is_empty(), "{}", file.display());
            assert!(coupon::coupon(&cutter, (Length::from_mm(210.0), Length::from_mm(297.0))).is_ok());
            seen += 1;
        }
    }
    assert!(seen >= 7);
}
