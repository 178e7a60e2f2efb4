// SPDX-License-Identifier: MIT
//! The guide's words: one table without faults, every sentence short, nothing that must not be said, cautions where they belong.

use crate::common;

use crate::common::{TempDir, cutter, files, hingeleaf, project, work};
use fluent_bundle::FluentResource;
use hingeleaf::album::{Handed, Language};
use hingeleaf::guide::{self, Bit, Block, Guide, Words};
use hingeleaf::parts::{self, PieceName};
use hingeleaf::picture::Mark;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

fn table(language: Language) -> String {
    std::fs::read_to_string(project().join(format!("src/guide/words/{}.ftl", language.word()))).unwrap()
}

/// Keys of a table, in order.
fn keys(language: Language) -> Vec<String> {
    let starts = |line: &&str| line.chars().next().is_some_and(|first| first.is_ascii_lowercase());
    table(language).lines().filter(starts).map(|line| line.split(" =").next().unwrap().to_owned()).collect()
}

/// Texts between quotation marks in the guide's source.
fn quoted() -> BTreeSet<String> {
    let sources = ["src/guide", "src/templates", "src/prepress"].map(|room| files(&project().join(room)));
    let sources: Vec<_> = sources.into_iter().flatten().collect();
    let rust = sources.iter().filter(|(path, _)| path.extension().is_some_and(|ending| ending == "rs"));
    let text: String = rust.map(|(_, bytes)| String::from_utf8(bytes.clone()).unwrap()).collect();
    text.split('"').skip(1).step_by(2).map(str::to_owned).collect()
}

#[test]
fn no_table_has_a_fault_or_a_key_twice() {
    for language in Language::ALL {
        assert!(FluentResource::try_new(table(language)).is_ok());
        let keys = keys(language);
        let once: BTreeSet<&String> = keys.iter().collect();
        assert_eq!(once.len(), keys.len());
        assert!(keys.len() > 150, "only {} entries", keys.len());
        let words = Words::new(language);
        assert!(keys.iter().all(|key| words.has(key)));
    }
}

/// What goes into a message, by its key: all that stands between braces.
fn holes(language: Language) -> BTreeMap<String, BTreeSet<String>> {
    let mut key = String::new();
    let mut found: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for line in table(language).lines().filter(|line| !line.starts_with('#')) {
        if line.starts_with(|first: char| first.is_ascii_lowercase()) {
            line.split(" =").next().unwrap().clone_into(&mut key);
        }
        let of = found.entry(key.clone()).or_default();
        of.extend(line.split('$').skip(1).map(|rest| {
            rest.split(|letter: char| !letter.is_ascii_lowercase() && letter != '_').next().unwrap().to_owned()
        }));
    }
    found
}

/// Both tables have the same messages with the same places; names that the model has in English are all that may come on top.
#[test]
fn the_languages_say_the_same() {
    let [english, german] = Language::ALL.map(holes);
    for (key, of) in &english {
        assert_eq!(german.get(key), Some(of), "{key}");
    }
    let names = ["term-", "page-", "spine-", "cover-", "insert-", "print-"];
    for key in german.keys().filter(|key| !english.contains_key(*key)) {
        assert!(names.iter().any(|start| key.starts_with(start)), "{key} is in one language alone");
    }
    let [english, german] = Language::ALL.map(Words::new);
    for maker in parts::ALL.iter() {
        let kind = maker.kind;
        let sort = format!("{:?}", kind.role).to_lowercase();
        assert!(german.has(&format!("{sort}-{}", kind.name)), "{sort} {} has no German name", kind.name);
    }
    let same = keys(Language::English).into_iter().filter(|key| english.text(key) == german.text(key)).count();
    assert!(same < 50, "{same} entries are the same in both languages");
}

/// No entry that nobody says; keys that are put together from pieces are known by their beginning.
#[test]
fn every_entry_is_said() {
    let quoted = quoted();
    let made = [
        "term-",
        "print-",
        "template-title",
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
    for key in Language::ALL.map(keys).concat() {
        let known = quoted.contains(&key) || made.iter().any(|start| key.starts_with(start));
        assert!(known, "{key} is said nowhere");
    }
}

/// The guides of all fixtures and kinds, in every state in which they are handed over, and the job sheets.
fn guides(language: Language) -> &'static [(String, Guide)] {
    static ALL: [OnceLock<Vec<(String, Guide)>>; 2] = [OnceLock::new(), OnceLock::new()];
    let number = Language::ALL.iter().position(|one| *one == language).unwrap();
    ALL[number].get_or_init(|| made(language))
}

fn made(language: Language) -> Vec<(String, Guide)> {
    let fixtures = common::fixtures()
        .into_iter()
        .map(|path| (path.file_stem().unwrap().to_str().unwrap().to_owned(), std::fs::read_to_string(&path).unwrap()));
    let kinds = parts::ALL.iter().map(|maker| (maker.kind.name.to_owned(), parts::example(maker)));
    let mut all = Vec::new();
    for (number, (name, text)) in fixtures.chain(kinds).enumerate() {
        let mut work = work(&text, cutter(0.0, 0.0, 0.0));
        work.album.language = language;
        // What the maker calls a stock and what files call a part may be words of any language.
        work.album.stocks.iter_mut().for_each(|stock| stock.name.insert_str(0, "stock-"));
        work.kit.parts.iter_mut().for_each(|part| part.id.insert_str(0, "part-"));
        all.push((name.clone(), guide::guide(&work.guide_job(false))));
        for stock in 0..work.album.stocks.len() {
            work.album.hand_over(Some(stock), Handed::ALL[(number + stock) % 3]);
        }
        let job = work.guide_job(false);
        all.push((format!("{name}, handed over"), guide::guide(&job)));
        all.push((format!("{name}, job"), guide::shop(&job)));
        all.push((format!("{name}, card"), guide::card(&job)));
        all.push((format!("{name}, to teach by"), guide::teaching(&job)));
    }
    all
}

/// What is looked up is there: a missing entry would show its key. Places are filled: none shows its name.
#[test]
fn nothing_is_missing_in_what_is_read() {
    let words = Words::new(Language::English);
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
    for (name, guide) in Language::ALL.into_iter().flat_map(guides) {
        for line in guide.sections.iter().flat_map(guide::Section::lines) {
            let text = line.plain();
            assert!(!text.contains(['{', '}', '$']) && !text.contains('\u{E100}'), "{name}: {text}");
            assert!(!made.iter().any(|start| text.starts_with(start)), "{name}: {text} is a key");
            assert!(!text.contains(".."), "{name}: {text} ends twice");
        }
        assert!(guide.page.iter().all(|(name, word)| name != word), "{name}");
    }
}

/// Sentences of at most twenty words, in German of twenty-two, a part's letter with its name counting as one (looks: our choice).
#[test]
fn sentences_are_short() {
    let all = Language::ALL.map(|language| (language, guides(language)));
    let all = all.into_iter().flat_map(|(language, guides)| guides.iter().map(move |guide| (language, guide)));
    for (language, (name, guide)) in all {
        let most = if language == Language::English { 20 } else { 22 };
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
                assert!(words <= most, "{name}: {words} words: {sentence}");
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
    let text = table(Language::English).to_lowercase();
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

/// Words that no German sentence has and hardly an English one is without, and those of the model's names.
const ENGLISH: [&str; 65] = [
    "the", "of", "and", "or", "with", "for", "from", "to", "on", "at", "is", "it", "are", "page", "pages", "front",
    "back", "left", "right", "top", "bottom", "upper", "lower", "seam", "tab", "flap", "pocket", "panel", "leaf",
    "sleeve", "hinge", "gusset", "spine", "cover", "board", "backing", "stub", "guard", "covering", "lining", "corner",
    "edge", "strip", "wallet", "envelope", "tag", "card", "paper", "sheet", "sheets", "cut", "score", "fold", "glue",
    "tape", "inside", "behind", "first", "second", "each", "no", "turn", "base", "wing", "lap",
];

/// German guides of the built-in kinds: what a maker calls the panels of a kind of their own stays as it is written.
fn in_the_programs_words() -> impl Iterator<Item = &'static (String, Guide)> {
    guides(Language::German).iter().filter(|(name, _)| !name.starts_with("own-kinds"))
}

/// Nothing of the model or of the other table is left in what a German reads. What the maker wrote and the names of files and
/// parts, which stand on the sheets as well, are whatever they are.
#[test]
fn no_english_is_left_in_german() {
    let mut read = 0;
    let mut left = BTreeSet::new();
    for (name, guide) in in_the_programs_words() {
        for line in guide.sections.iter().flat_map(guide::Section::lines) {
            let words: String = line
                .0
                .iter()
                .filter_map(|bit| match bit {
                    Bit::Text(text) => Some(text.as_str()),
                    Bit::Number(_) | Bit::Mark(_) => None,
                })
                .collect();
            // An id or a sheet's name has hyphens in it; a stock's name the maker chose.
            for word in words.split(|letter: char| !letter.is_alphanumeric() && !matches!(letter, '-' | '.')) {
                read += 1;
                if ENGLISH.contains(&word.trim_end_matches('.')) {
                    left.insert(format!("{name}: {word}: {}", line.plain()));
                }
            }
        }
    }
    assert!(read > 10_000, "only {read} words");
    assert!(left.is_empty(), "{left:#?}");
}

/// The numbers of the German guide are those of the English one, each with its decimals after a comma; no price, weight or
/// length has a point.
#[test]
fn numbers_are_the_same_in_every_language() {
    let [english, german] = Language::ALL.map(guides);
    assert_eq!(english.len(), german.len());
    let mut commas = 0;
    for ((name, english), (_, german)) in english.iter().zip(german) {
        let values = |guide: &Guide| {
            let mut all: Vec<_> =
                guide.numbers().map(|number| format!("{:?} {} {}", number.what, number.value, number.of)).collect();
            all.sort();
            all
        };
        assert_eq!(values(english), values(german), "{name}");
        for number in german.numbers() {
            assert!(!number.shown.contains('.'), "{name}: {}", number.shown);
            commas += usize::from(number.shown.contains(','));
            assert!(!number.shown.ends_with("\u{2009}in") && !number.shown.ends_with("\u{2009}ft"), "{}", number.shown);
        }
    }
    assert!(commas > 100, "only {commas} decimals");
}

/// The words in the guide's pictures are German as well.
#[test]
fn no_english_is_left_in_german_pictures() {
    let mut read = 0;
    let mut left = BTreeSet::new();
    for (name, guide) in in_the_programs_words() {
        let blocks = guide.sections.iter().flat_map(|section| &section.blocks);
        let figures = blocks.flat_map(|block| match block {
            Block::Figure(figure) => vec![figure],
            Block::Steps(steps) => steps.iter().filter_map(|step| step.figure.as_ref()).collect(),
            _ => Vec::new(),
        });
        for mark in figures.flat_map(|figure| &figure.picture.marks) {
            let Mark::Words { text, .. } = mark else { continue };
            read += 1;
            if text.split([' ', ':']).any(|word| ENGLISH.contains(&word) || word == "offcut" || word == "stop") {
                left.insert(format!("{name}: {text}"));
            }
        }
    }
    assert!(read > 500, "only {read} words");
    assert!(left.is_empty(), "{left:#?}");
}

/// The flag wins over the file; the file over what is usual. What is not known is told with what is.
#[test]
fn the_language_is_the_flags_then_the_files() {
    let folder = TempDir::new("language");
    let text = |field: &str| {
        format!(
            r#"{{ "format": "hingeleaf-album/1", {field} "page": {{ "width": 100, "height": 120 }},
            "pages": [{{ "kind": "pocket" }}] }}"#
        )
    };
    let german = r#""language": "de","#;
    for (number, (field, flag, tag)) in
        [("", None, "en"), (german, None, "de"), (german, Some("en"), "en"), ("", Some("de"), "de")]
            .into_iter()
            .enumerate()
    {
        let file = folder.put(&format!("{number}.json"), text(field));
        let out = folder.join(&number.to_string());
        let mut words = vec!["kit", file.to_str().unwrap(), "--out", out.to_str().unwrap(), "--formats", "html"];
        words.extend(flag.iter().flat_map(|flag| ["--language", flag]));
        assert_eq!(hingeleaf(&words).code, 0);
        let guide = std::fs::read_to_string(out.join("guide.html")).unwrap();
        assert!(guide.contains(&format!("<html lang=\"{tag}\"")), "{words:?}");
        assert_eq!(guide.contains("Das entsteht"), tag == "de", "{words:?}");
    }
    let file = folder.put("other.json", text(r#""language": "fr","#));
    let run = hingeleaf(["check", file.to_str().unwrap()]);
    assert!(run.code != 0 && format!("{run:?}").contains("language"), "{run:?}");
}

/// The terms that a name is put together from.
fn terms(name: &PieceName) -> Vec<String> {
    match name {
        PieceName::Term(term) => vec![term.clone()],
        PieceName::Counted(what, _)
        | PieceName::Copy(what, _)
        | PieceName::Leaf(what, _)
        | PieceName::Length(what, _)
        | PieceName::OfPage(_, what)
        | PieceName::OfKind(_, what)
        | PieceName::ForPage(what, _)
        | PieceName::PanelFor(what)
        | PieceName::BlockFor(what) => terms(what),
        other => panic!("{other} is a name of a sort that this test does not know"),
    }
}

/// Every name that a kind gives its pieces, with panels on all its faces, has German words; put together they are those of
/// the model in English, save for terms that the guide calls otherwise.
#[test]
fn every_name_of_a_piece_is_said_in_german() {
    let [english, german] = Language::ALL.map(Words::new);
    let panels = r#""panels": { "reveal": 2, "on": "everything", "runs_on": true }, "format""#;
    let long = r#"{ "format": "hingeleaf-album/1", "page": { "width": 148, "height": 190 },
        "spine": { "kind": "concertina", "longest": 250, "grain": "free" }, "pages": [
        { "kind": "pocket" }, { "kind": "pocket" }, { "kind": "pocket" }, { "kind": "pocket" }, { "kind": "pocket" }] }"#;
    let wide = r#"{ "format": "hingeleaf-album/1", "page": { "width": 148, "height": 190 }, "cover": { "kind": "wrap" },
        "stocks": { "card": { "sheet": "A4" } }, "pages": [{ "kind": "pocket" }, { "kind": "pocket" }] }"#;
    let albums = parts::ALL.iter().map(|maker| parts::example(maker).replacen(r#""format""#, panels, 1));
    let mut sorts = BTreeSet::new();
    for text in albums.chain([long, wide].map(str::to_owned)) {
        let made = work(&text, cutter(0.0, 0.0, 0.0));
        let blocks = made.kit.blocks.iter().map(|block| PieceName::BlockFor(block.name.clone().into()));
        for name in made.kit.pieces.iter().map(|piece| piece.name.clone()).chain(blocks) {
            sorts.insert(format!("{name:?}").split(['(', ' ']).next().unwrap().to_owned());
            for term in terms(&name) {
                assert_ne!(german.term(&term), term, "{name}: no German for {term}");
            }
            if terms(&name).iter().all(|term| english.term(term) == *term) {
                assert_eq!(english.name(&name), name.to_string());
            }
        }
    }
    assert_eq!(sorts.len(), 8, "{sorts:?}");
}

/// Which face is meant is said before the first fold, and no piece is called as a face is: `the front of A (front)` is a riddle.
#[test]
fn faces_are_told_from_pieces() {
    let german = Words::new(Language::German);
    let front = PieceName::from("front").of_page(1);
    assert_eq!(german.name(&front), "Blatt 1 Vorderteil");
    assert_eq!(german.name(&PieceName::PanelFor(front.into())), "Zierpapier Blatt 1 vorn");
    for side in ["front", "back"] {
        assert_ne!(german.term(side), german.text(&format!("face-{side}")));
    }
    let text = std::fs::read_to_string(project().join("fixtures/towpath-year.json")).unwrap();
    let mut work = work(&text, cutter(0.0, 0.0, 0.0));
    work.album.hand_over(None, Handed::Scored);
    let guide = guide::guide(&work.guide_job(false));
    let lines: Vec<(&str, String)> = guide
        .sections
        .iter()
        .flat_map(|section| section.lines().into_iter().map(|line| (section.id, line.plain())))
        .collect();
    let first = |start: &str| lines.iter().position(|(_, line)| line.starts_with(start)).unwrap();
    let folded = lines.iter().position(|(_, line)| line.contains("(valley)")).unwrap();
    assert!(first("The front of a scored piece") < first("In the pictures the back"));
    assert!(first("In the pictures the back") < folded);
    assert!(lines.iter().any(|(_, line)| line.contains("left, right, top and bottom are as the picture shows them")));
    assert!(first("Each strip has its base") < first("Hang page"));
    // A long row of pages is named by its ends.
    assert!(lines.iter().any(|(_, line)| line == "Put the panels on pages 1 to 24"));
}
