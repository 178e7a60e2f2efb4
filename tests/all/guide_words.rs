// SPDX-License-Identifier: MIT
//! The guide's words: one table without faults, every sentence short, nothing that must not be said, cautions where they belong.

use crate::common;

use crate::common::{cutter, files, project, work};
use fluent_bundle::FluentResource;
use hingeleaf::album::Handed;
use hingeleaf::guide::{self, Bit, Block, Guide, Words};
use hingeleaf::parts;
use std::collections::BTreeSet;

fn table() -> String {
    std::fs::read_to_string(project().join("src/guide/words/en.ftl")).unwrap()
}

/// Keys of the table, in order.
fn keys() -> Vec<String> {
    let starts = |line: &&str| line.chars().next().is_some_and(|first| first.is_ascii_lowercase());
    table().lines().filter(starts).map(|line| line.split(" =").next().unwrap().to_owned()).collect()
}

/// Texts between quotation marks in the guide's source.
fn quoted() -> BTreeSet<String> {
    let sources = files(&project().join("src/guide"));
    let rust = sources.iter().filter(|(path, _)| path.extension().is_some_and(|ending| ending == "rs"));
    let text: String = rust.map(|(_, bytes)| String::from_utf8(bytes.clone()).unwrap()).collect();
    text.split('"').skip(1).step_by(2).map(str::to_owned).collect()
}

#[test]
fn the_table_has_no_fault_and_no_key_twice() {
    assert!(FluentResource::try_new(table()).is_ok());
    let keys = keys();
    let once: BTreeSet<&String> = keys.iter().collect();
    assert_eq!(once.len(), keys.len());
    assert!(keys.len() > 150, "only {} entries", keys.len());
    let words = Words::new("en");
    assert!(keys.iter().all(|key| words.has(key)));
}

/// No entry that nobody says; keys that are put together from pieces are known by their beginning.
#[test]
fn every_entry_is_said() {
    let quoted = quoted();
    let made = [
        "term-",
        "insert-",
        "tool-",
        "page-",
        "spine-",
        "cover-",
        "need-head-",
        "cut-head-",
        "pack-head-",
        "wrong-",
        "print-",
        "fold-valley-",
        "fold-mountain-",
        "fold-both-",
        "pages-",
        "bind-",
        "fill-",
        "plan-",
    ];
    for key in keys() {
        let known = quoted.contains(&key) || made.iter().any(|start| key.starts_with(start));
        assert!(known, "{key} is said nowhere");
    }
}

/// The guides of all fixtures and kinds, in every state in which they are handed over, and the job sheets.
fn guides() -> Vec<(String, Guide)> {
    let fixtures = common::fixtures()
        .into_iter()
        .map(|path| (path.file_stem().unwrap().to_str().unwrap().to_owned(), std::fs::read_to_string(&path).unwrap()));
    let kinds = parts::ALL.iter().map(|maker| (maker.kind.name.to_owned(), parts::example(maker)));
    let mut all = Vec::new();
    for (number, (name, text)) in fixtures.chain(kinds).enumerate() {
        let mut work = work(&text, cutter(0.0, 0.0, 0.0));
        all.push((name.clone(), guide::guide(&work.guide_job(false))));
        for stock in 0..work.album.stocks.len() {
            work.album.hand_over(Some(stock), Handed::ALL[(number + stock) % 3]);
        }
        let job = work.guide_job(false);
        all.push((format!("{name}, handed over"), guide::guide(&job)));
        all.push((format!("{name}, job"), guide::shop(&job)));
    }
    all
}

/// What is looked up is there: a missing entry would show its key. Places are filled: none shows its name.
#[test]
fn nothing_is_missing_in_what_is_read() {
    let words = Words::new("en");
    let sources = files(&project().join("src/guide"));
    let mut asked = 0;
    for bytes in
        sources.iter().filter(|(path, _)| path.extension().is_some_and(|ending| ending == "rs")).map(|(_, bytes)| bytes)
    {
        let text = String::from_utf8(bytes.clone()).unwrap();
        for call in ["tell(\"", "say(\"", "words.text(\""] {
            for key in text.split(call).skip(1).map(|rest| rest.split('"').next().unwrap()) {
                assert!(words.has(key), "there is no entry {key}");
                asked += 1;
            }
        }
    }
    assert!(asked > 80, "only {asked} entries are asked for by name");
    // Those put together from pieces would show themselves.
    let made = [
        "plan-",
        "tool-",
        "need-head-",
        "cut-head-",
        "pack-head-",
        "fold-valley",
        "fold-mountain",
        "fold-both",
        "job-",
        "key-",
    ];
    for (name, guide) in guides() {
        for line in guide.sections.iter().flat_map(guide::Section::lines) {
            let text = line.plain();
            assert!(!text.contains(['{', '}', '$']) && !text.contains('\u{E100}'), "{name}: {text}");
            assert!(!made.iter().any(|start| text.starts_with(start)), "{name}: {text} is a key");
        }
        assert!(guide.page.iter().all(|(name, word)| name != word), "{name}");
    }
}

/// Sentences of at most twenty words, a part's letter with its name counting as one (looks: our choice).
#[test]
fn sentences_are_short() {
    for (name, guide) in guides() {
        let steps = guide.sections.iter().flat_map(|section| &section.blocks).filter_map(|block| match block {
            Block::Steps(steps) => Some(
                steps
                    .iter()
                    .flat_map(|step| step.lines.iter().chain(&step.warn).chain([&step.head]))
                    .collect::<Vec<_>>(),
            ),
            Block::Words(line) => Some(vec![line]),
            Block::Caution(lines) => Some(lines.iter().collect()),
            _ => None,
        });
        for line in steps.flatten() {
            // A number with its unit is one word; what stands in brackets names a part.
            let word = |bit: &Bit| match bit {
                Bit::Text(text) => text.clone(),
                Bit::Number(_) => "n".into(),
                Bit::Mark(_) => "M".into(),
            };
            let mut plain: String = line.0.iter().map(word).collect();
            while let (Some(from), Some(to)) = (plain.find(" ("), plain.find(')')) {
                plain.replace_range(from..=to, "");
            }
            for sentence in plain.split(['.', ':', ';']).filter(|sentence| !sentence.trim().is_empty()) {
                let words = sentence.split_whitespace().filter(|word| *word != "×").count();
                assert!(words <= 20, "{name}: {words} words: {sentence}");
            }
        }
    }
}

/// No engine term, no promise that a product keeps for ever (M1), no maker of tools; "safe" stands alone nowhere.
#[test]
fn what_must_not_be_said_is_not_said() {
    let never = [
        "archival",
        "photo safe",
        "photo-safe",
        "acid-free",
        " bond",
        "optimi",
        "invalid",
        "guillotine",
        "placement",
        "algorithm",
    ];
    let text = table().to_lowercase();
    for word in never {
        assert!(!text.contains(word), "{word}");
    }
}

/// Cautions stand where the blade, the laser, the glue and the photographs come in (M4 to M8), and the guide ends with what
/// comes first.
#[test]
fn cautions_stand_where_they_are_needed() {
    let text = std::fs::read_to_string(project().join("fixtures/tide-table.json")).unwrap();
    let guide = guide::guide(&work(&text, cutter(0.0, 0.0, 0.0)).guide_job(false));
    let of = |id: &str| -> String {
        let section = guide.sections.iter().find(|section| section.id == id).unwrap();
        section.lines().iter().map(|line| line.plain() + "\n").collect()
    };
    let cut = of("cut");
    for words in [
        "your holding hand on the rule, out of the blade's way",
        "light passes",
        "Cap the knife",
        "Never leave a laser unattended",
        "PVC",
        "fumes",
        "extinguisher",
        "manual",
    ] {
        assert!(cut.contains(words), "{words}");
    }
    let first = guide.sections.iter().find(|section| section.id == "pages").unwrap();
    assert!(matches!(first.blocks.first(), Some(Block::Caution(_))), "glue is warned of before it is used");
    assert!(of("pages").contains("photographs") && of("pages").contains("label"));
    assert!(of("fill").contains("pockets or corners"));
    let last = guide.sections.last().unwrap().lines().iter().map(|line| line.plain()).collect::<String>();
    assert!(last.contains("manual") && last.contains("local rules") && last.contains("licensed"));
}

/// Who takes glue where the guide says tape is told what it does to paper on one face of a page (H16); an album without paper
/// on its pages has nothing to be told.
#[test]
fn wet_glue_on_one_face_is_told_where_pages_carry_paper() {
    let told = |panels: &str| {
        let text = format!(
            r#"{{ "format": "hingeleaf-album/1", "page": {{ "width": 120, "height": 150 }},
              "pages": [{{ "kind": "divider" }}, {{ "kind": "pocket" }}]{panels} }}"#
        );
        let guide = guide::guide(&work(&text, cutter(0.0, 0.0, 0.0)).guide_job(false));
        guide.sections.iter().flat_map(guide::Section::lines).any(|line| line.plain().contains("makes a page curl"))
    };
    assert!(told(r#", "panels": { "reveal": 3 }"#));
    assert!(!told("") && !told(r#", "cover": { "kind": "wrap" }, "panels": { "reveal": 3, "on": "cover" }"#));
}
