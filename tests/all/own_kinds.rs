// SPDX-License-Identifier: MIT
//! Kinds of one's own: files that are wrong and their answers, formulas against their values, the same kind by every way in,
//! and files that nobody meant.

use crate::common::golden::Golden;
use crate::common::{TempDir, hingeleaf};
use hingeleaf::fields::Source;
use hingeleaf::kind_file::{self, Scope, Usual};
use hingeleaf::{album, cutter::Cutter, parts, trial::Trial};
use proptest::prelude::*;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/broken/kinds")
}

/// A leaf with one low pocket, mitred at its lower corners.
const STEP: &str = include_str!("kinds/step-pocket.json");

/// What is told and can be lived with.
const WARNED: [&str; 1] = ["usual-beyond-its-most"];

/// Each broken kind file is answered at line and column, in the words beside it.
#[test]
fn every_broken_kind_is_answered_in_the_words_beside_it() {
    let mut golden = Golden::of(&folder());
    let names = golden.names();
    assert!(names.len() >= 20, "only {} broken kinds", names.len());
    for name in &names {
        let run = Command::new(env!("CARGO_BIN_EXE_hingeleaf"))
            .current_dir(folder())
            .args(["check", &format!("{name}.json")])
            .output()
            .unwrap();
        let words = String::from_utf8(run.stdout).unwrap() + &String::from_utf8(run.stderr).unwrap();
        let words = format!("exit {}\n{words}", run.status.code().unwrap_or(-1));
        let starts: &[&str] =
            if WARNED.contains(&name.as_str()) { &["exit 0\nwarn["] } else { &["exit 1\nstop[", "exit 2\nstop["] };
        assert!(starts.iter().any(|start| words.starts_with(start)), "{name}: {words}");
        assert!(words.contains(&format!("where: {name}.json, line ")), "{name} is not told at its line: {words}");
        golden.said(name, &words);
    }
    golden.holds();
}

/// Their sound neighbour stays quiet.
#[test]
fn the_sound_kind_goes_together_at_all_its_sizes() {
    let temp = TempDir::new("own-kind");
    let file = temp.put("step-pocket.json", STEP);
    let tried = hingeleaf(["check", file.to_str().unwrap()]);
    assert_eq!((tried.code, tried.err.as_str()), (0, ""), "{tried:?}");
    assert!(tried.out.contains("It goes together at all 1"), "{tried:?}");
}

fn album_with(kinds: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "title": "Steps", "kinds": {kinds},
  "stocks": {{ "card": {{ "sheet": "A4", "caliper": 0.3 }} }},
  "page": {{ "width": 148, "height": 190 }},
  "pages": [{{ "kind": "step-pocket" }}, {{ "kind": "step-pocket", "mouth": 80 }}],
  "inserts": [{{ "kind": "tag", "width": 100, "height": 70, "count": 2 }}] }}"#
    )
}

/// By file, by folder, in the album itself: the same sheets, byte for byte.
#[test]
fn a_kind_is_the_same_by_every_way_in() {
    let temp = TempDir::new("own-kinds");
    fs::create_dir(temp.path().join("kinds")).unwrap();
    temp.put("kinds/step-pocket.json", STEP);
    let mut sheets: Vec<Vec<(PathBuf, Vec<u8>)>> = Vec::new();
    for (number, kinds) in [r#"["kinds/step-pocket.json"]"#, r#""kinds""#, &format!("[{STEP}]")].into_iter().enumerate()
    {
        let file = temp.put(&format!("album-{number}.json"), album_with(kinds));
        let out = temp.path().join(format!("out-{number}"));
        let made = hingeleaf(["kit", file.to_str().unwrap(), "--effort", "low", "--out", out.to_str().unwrap()]);
        assert_eq!(made.code, 0, "{made:?}");
        let mut found: Vec<(PathBuf, Vec<u8>)> = crate::common::files(&out.join("sheets")).into_iter().collect();
        found.sort();
        assert!(found.len() >= 2, "{found:?}");
        sheets.push(found);
    }
    assert!(sheets.windows(2).all(|pair| pair[0] == pair[1]));
}

/// The version that an album was made with: told where it is another one, quiet where it is this one.
#[test]
fn another_version_is_told() {
    let temp = TempDir::new("own-versions");
    temp.put("step-pocket.json", STEP.replace("\"is\": \"page\"", "\"version\": \"3\", \"is\": \"page\""));
    for (said, told) in [("2", true), ("3", false)] {
        let kinds = format!(r#"[{{ "file": "step-pocket.json", "version": "{said}" }}]"#);
        let file = temp.put("album.json", album_with(&kinds));
        let checked = hingeleaf(["check", file.to_str().unwrap()]);
        assert_eq!(checked.code, 0, "{checked:?}");
        assert_eq!((checked.out + &checked.err).contains("warn[kind-version]"), told);
    }
}

/// A strip folded to and fro, as many cards thick as it has leaves.
const ZIGZAG: &str = r#"{ "format": "hingeleaf-kind/1", "name": "zigzag", "is": "insert", "about": "a strip folded to and fro",
  "sizes": { "leaves": { "about": "how many leaves", "takes": "count", "usual": 4, "least": 2, "most": 8 } },
  "pieces": { "strip": { "height": "height", "panels": [
    { "name": "leaf", "width": "width", "times": "leaves", "fold": "to-and-fro" } ] } },
  "layers": "leaves",
  "needs": [{ "that": "leaves * caliper <= 2 mm", "because": "more than 2 mm of card do not fold up", "size": "leaves" }] }"#;

/// What holds only for some sizes is told for the others, in the words of whoever made the kind; the others stay quiet. Leaves of
/// 0.3 mm: six of them are 1.8 mm thick, seven 2.1 mm.
#[test]
fn needs_are_told_where_they_do_not_hold() {
    for leaves in 2..=8 {
        let text = format!(
            r#"{{ "format": "hingeleaf-album/1", "kinds": [{ZIGZAG}], "page": {{ "width": 148, "height": 190 }},
                 "stocks": {{ "card": {{ "sheet": "900x600mm", "caliper": 0.3 }} }}, "pages": [{{ "kind": "pocket" }}],
                 "inserts": [{{ "kind": "zigzag", "leaves": {leaves}, "width": 60, "height": 150 }}] }}"#
        );
        let source = Source::new("album.json", text.into()).unwrap();
        let album = parts::read_album(&source, &mut parts::no_kind_files).value.unwrap();
        let cutter = Cutter::default();
        let trial = Trial::of(album, &cutter);
        let ids: Vec<&str> = trial.findings().iter().map(|finding| finding.id).collect();
        assert_eq!(ids, if leaves > 6 { vec!["kind-need"] } else { Vec::new() }, "{leaves} leaves");
        let Some(kit) = trial.kit() else { continue };
        // Folded up it is one leaf wide, and as thick as all of them.
        let insert = &kit.inserts[0];
        crate::common::near(insert.width, 60.0, 1e-9);
        crate::common::near(insert.thickness, 0.3 * f64::from(leaves), 1e-9);
        crate::common::near(
            kit.parts.iter().map(|part| part.flat.width).fold(0.0, f64::max),
            (60.0 * f64::from(leaves)).max(148.0),
            1e-9,
        );
    }
}

/// A batch finds the kinds of its albums from their own folders.
#[test]
fn a_batch_takes_the_kinds_of_its_albums() {
    let temp = TempDir::new("own-batch");
    fs::create_dir_all(temp.path().join("albums/kinds")).unwrap();
    temp.put("albums/kinds/step-pocket.json", STEP);
    temp.put("albums/steps.json", album_with(r#""kinds""#));
    let batch = temp.put(
        "batch.json",
        r#"{ "format": "hingeleaf-batch/1", "kits": [
             { "name": "low", "album": "albums/steps.json", "copies": 2, "change": { "pages[0].mouth": 40 } },
             { "name": "tall", "album": "albums/steps.json", "change": { "pages[0].mouth": 500 } } ] }"#,
    );
    let checked = hingeleaf(["check", batch.to_str().unwrap()]);
    let said = checked.out + &checked.err;
    // The one that is too tall is told, with its kit; the other one is not.
    assert!(said.contains("stop[kind-size]: kit tall") || said.contains("tall"), "{said}");
    assert!(said.contains("\"mouth\" is 500 mm, and 178 mm is the most here"), "{said}");
    assert!(!said.contains("unknown-kind") && !said.contains("40 mm"), "{said}");
}

/// A built-in kind's own file under another name gives the same parts.
#[test]
fn a_copy_of_a_built_in_kind_is_the_same_kind() {
    for (name, entry) in [
        ("pocket", r#"{ "kind": "NAME" }"#),
        ("wallet", r#"{ "kind": "NAME", "pocket": 110, "overflap": 50 }"#),
        ("wallet", r#"{ "kind": "NAME", "pocket": 110, "overflap": 50, "faces": "back", "depth": 4 }"#),
    ] {
        let text = parts::source_of(name).unwrap();
        let copy = text.replacen(&format!("\"name\": \"{name}\""), "\"name\": \"mine\"", 1);
        let flats = |kinds: &str, name: &str| {
            let text = format!(
                r#"{{ "format": "hingeleaf-album/1", "kinds": [{kinds}], "page": {{ "width": 148, "height": 190 }},
                     "stocks": {{ "card": {{ "sheet": "A3" }} }}, "pages": [{}] }}"#,
                entry.replace("NAME", name)
            );
            let source = Source::new("album.json", text.into()).unwrap();
            let read = parts::read_album(&source, &mut parts::no_kind_files);
            let album = read.value.unwrap_or_else(|| panic!("{:?}", read.findings));
            let cutter = Cutter::default();
            let trial = Trial::of(album, &cutter);
            let kit = trial.kit().unwrap_or_else(|| panic!("{:?}", trial.findings()));
            assert!(trial.fit().findings.iter().all(|finding| finding.level != hingeleaf::finding::Level::Stop));
            (kit.parts.iter().map(|part| part.flat.likeness()).collect::<Vec<_>>(), kit.bonds.len(), kit.pockets.len())
        };
        assert_eq!(flats("", name), flats(&copy, "mine"), "{name}");
    }
}

/// What is no kind file's name, and a kind that no file states, are told.
#[test]
fn the_source_of_a_kind_is_printed() {
    let printed = hingeleaf(["catalogue", "--source", "tag"]);
    assert_eq!((printed.code, printed.out.as_str()), (0, parts::source_of("tag").unwrap()));
    for (name, id) in [("notched", "no kind file states"), ("nothced", "there is no kind")] {
        let refused = hingeleaf(["catalogue", "--source", name]);
        assert_eq!(refused.code, 2, "{refused:?}");
        assert!(refused.err.contains(id), "{refused:?}");
    }
}

/// Each kind file that lies among the built-in ones is a kind, and no other file has to say so.
#[test]
fn every_filed_kind_is_taken() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/parts/filed");
    let mut filed = 0;
    for entry in fs::read_dir(folder).unwrap() {
        let text = fs::read_to_string(entry.unwrap().path()).unwrap();
        let kind: serde_json::Value = serde_json::from_str(&text).unwrap();
        let name = kind["name"].as_str().unwrap();
        assert_eq!(parts::source_of(name), Some(text.as_str()), "{name}");
        let of_it = parts::ALL.iter().filter(|maker| maker.kind.name == name && maker.kind.file.is_some());
        assert_eq!(of_it.count(), 1, "{name}");
        filed += 1;
    }
    assert!(filed >= 4, "only {filed} kinds are filed");
    assert_eq!(parts::ALL.iter().filter(|maker| maker.kind.file.is_some()).count(), filed);
    // Not by their files' names: where an album names no spine, and what a list of kinds begins with.
    let first = |role| parts::ALL.iter().find(|maker| maker.kind.role == role).map(|maker| maker.kind.name);
    assert_eq!(first(album::Role::Spine), Some("flexi-hinge"));
    assert_eq!(first(album::Role::Page), Some("pocket"));
}

/// A sum and what it comes to, width being 140 mm and height 200 mm.
fn sums() -> impl Strategy<Value = (String, f64)> {
    let leaf = prop_oneof![
        Just(("width".to_owned(), 140.0)),
        Just(("height".to_owned(), 200.0)),
        (1..400u32).prop_map(|mm| (format!("{} mm", f64::from(mm) / 2.0), f64::from(mm) / 2.0)),
        (1..64u32).prop_map(|n| (format!("{n}/64 in"), f64::from(n) / 64.0 * 25.4)),
        (1..9u32, 1..4u32)
            .prop_map(|(whole, n)| (format!("{whole} {n}/4 in"), (f64::from(whole) + f64::from(n) / 4.0) * 25.4)),
    ];
    leaf.prop_recursive(4, 32, 3, |inner| {
        let two = || (inner.clone(), inner.clone());
        prop_oneof![
            two().prop_map(|((one, a), (other, b))| (format!("{one} + {other}"), a + b)),
            two().prop_map(|((one, a), (other, b))| (format!("{one} - ({other})"), a - b)),
            two().prop_map(|((one, a), (other, b))| (format!("min({one}, {other})"), a.min(b))),
            two().prop_map(|((one, a), (other, b))| (format!("max({one},{other})"), a.max(b))),
            (inner.clone(), 1..9u32).prop_map(|((one, a), n)| (format!("({one}) * {n}"), a * f64::from(n))),
            (inner.clone(), 1..9u32).prop_map(|((one, a), n)| (format!("({one})/{n}"), a / f64::from(n))),
            inner.prop_map(|(one, a)| (format!("-({one})"), -a)),
        ]
    })
}

fn value_of(formula: &str) -> Option<f64> {
    let text = STEP.replacen("height / 2", formula, 1);
    let file = kind_file::read(&Source::new("kind.json", text.into()).unwrap()).value?;
    let ruler = |mm: f64| mm;
    let scope = Scope {
        width: 140.0,
        height: 200.0,
        seam: 12.0,
        tab: 15.0,
        caliper: 0.3,
        nth: 1.0,
        sizes: Vec::new(),
        ruler: &ruler,
    };
    match &file.sizes[0].usual {
        Some(Usual::Formula(formula)) => Some(formula.value(&scope)),
        _ => None,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    /// Formulas come to what the same sums come to in this program.
    #[test]
    fn formulas_come_to_their_values((text, value) in sums()) {
        prop_assume!(text.len() < 290);
        let found = value_of(&text);
        prop_assert!(found.is_some_and(|found| (found - value).abs() < 1e-6), "{text}: {found:?}, not {value}");
    }

    /// A number added to a length is refused wherever it stands.
    #[test]
    fn a_number_and_a_length_never_add((text, _) in sums(), number in 1..50u32) {
        prop_assume!(text.len() < 250);
        prop_assert!(value_of(&format!("{text} + {number}")).is_none(), "{text}");
    }
}

/// An album that says `kinds` in a form that there is not.
#[test]
fn kinds_have_a_form() {
    let source = Source::new("album.json", album_with("[3]").into()).unwrap();
    let read = album::read(&source, &parts::kinds());
    assert!(read.findings.iter().any(|finding| finding.id == "wrong-type"), "{:?}", read.findings);
}

/// The kinds of the makers' chapter, by name.
fn worked() -> Vec<(String, serde_json::Value)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/kinds");
    let mut kinds: Vec<(String, serde_json::Value)> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .map(|path| {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            (name, serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap())
        })
        .collect();
    kinds.push(("step-pocket.json".into(), serde_json::from_str(STEP).unwrap()));
    kinds
}

/// At how many sizes a kind was tried, at how many of these it is sound, and what is found.
fn tried(name: &str, kind: &serde_json::Value) -> (usize, usize, Vec<hingeleaf::finding::Finding>) {
    let read = kind_file::read(&Source::new(name, kind.to_string().into()).unwrap());
    let file = read.value.unwrap_or_else(|| panic!("{name}: {:?}", read.findings));
    let trial = hingeleaf::kind_trial::try_kind(parts::shelved(file).unwrap());
    (trial.tried, trial.sound, trial.findings)
}

/// The chapter's kinds go together over their whole range; a fault planted in any join, pocket or hole of them is found, and
/// told at a line of the kind.
#[test]
fn planted_faults_are_found() {
    let mut planted = 0;
    for (name, kind) in worked() {
        let (tries, sound, findings) = tried(&name, &kind);
        assert!(tries >= 50 && tries == sound && findings.is_empty(), "{name}: {sound} of {tries}, {findings:?}");
        let mut faults: Vec<(String, serde_json::Value)> = Vec::new();
        let joins = kind["joins"].as_array().map_or(0, Vec::len);
        for join in 0..joins {
            for side in 0..2 {
                let mut faulty = kind.clone();
                let at = faulty["joins"][join]["at"][side].as_str().unwrap_or("0").to_owned();
                if faulty["joins"][join].get("at").is_none() {
                    faulty["joins"][join]["at"] = serde_json::json!(["0", "0"]);
                }
                faulty["joins"][join]["at"][side] = format!("({at}) + 7 mm").into();
                // The join that places a piece moves all of it: alone it is no fault, but for what hangs over the edge.
                if joins > 1 {
                    faults.push((format!("join {join} moved along {side}"), faulty));
                }
            }
        }
        for pocket in 0..kind["pockets"].as_array().map_or(0, Vec::len) {
            let mut faulty = kind.clone();
            faulty["pockets"][pocket]["open"] = serde_json::json!(["spine", "fore-edge", "head", "tail"]);
            faults.push((format!("pocket {pocket} open all round"), faulty));
        }
        for (piece, body) in kind["pieces"].as_object().unwrap() {
            let across = body["row"] != "up";
            for (panel, said) in body["panels"].as_array().unwrap().iter().enumerate() {
                for hole in 0..said["holes"].as_array().map_or(0, Vec::len) {
                    let mut faulty = kind.clone();
                    let hole = &mut faulty["pieces"][piece.as_str()]["panels"][panel]["holes"][hole];
                    let form = if hole.get("round").is_some() { "round" } else { "window" };
                    // Over the row's own edge: along the row it would only reach over a fold.
                    hole[form][usize::from(across)] = "0 mm - 2 mm".into();
                    faults.push((format!("a hole of {piece} over its edge"), faulty));
                }
            }
        }
        for (fault, faulty) in faults {
            let (tries, sound, findings) = tried(&name, &faulty);
            assert!(sound < tries || tries == 0, "{name}: {fault} is not found");
            let told = findings.iter().filter_map(|finding| finding.place.as_ref()).any(|place| *place.file == *name);
            assert!(told, "{name}: {fault} is not told at a line of the kind: {findings:?}");
            planted += 1;
        }
    }
    assert!(planted >= 20, "only {planted} faults were planted");
}
