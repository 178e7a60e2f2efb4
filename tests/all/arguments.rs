// SPDX-License-Identifier: MIT
//! Wrong words behind a command are told as everything else is: what is wrong, what to type, exit code 2, nothing written.

use crate::common::{Run, TempDir, hingeleaf};
use proptest::prelude::*;

/// What is typed, what is said of it, and how it is helped.
const WRONG: [(&str, &str, &str); 21] = [
    ("kit", "more must be typed: --out DIR, FILE", "type hingeleaf kit --out DIR FILE"),
    ("kit album.json", "more must be typed: --out DIR", "type hingeleaf kit --out DIR FILE"),
    ("compare album.json", "more must be typed: NEW", "type hingeleaf compare OLD NEW"),
    ("kitt album.json", "there is no command \"kitt\"", "did you mean kit?"),
    ("publish album.json", "there is no command \"publish\"", "hingeleaf --help lists all commands"),
    ("kit album.json --out", "--out needs a value behind it", "type --out DIR, with what you want"),
    ("kit album.json --out o --kerff 1", "there is no option --kerff here", "did you mean --kerf?"),
    ("kit album.json --out o --qqq", "there is no option --qqq here", "type hingeleaf kit"),
    ("kit album.json --out o --copies -3", "there is no option -3 here", "type hingeleaf kit"),
    ("kit album.json other.json --out o", "\"other.json\" is one word too many here", "stands in quotes"),
    ("kit album.json --out o --effort huge", "--effort can't be \"huge\"", "allowed: low, normal, high"),
    ("kit album.json --out o --effort hihg", "--effort can't be \"hihg\"", "did you mean high?"),
    ("kit album.json --out o --threads 999", "--threads can't be \"999\"", "a whole number from 1 to 256"),
    ("kit album.json --out o --threads many", "--threads can't be \"many\"", "write a whole number from 1 to 256"),
    (
        "kit album.json --out o --kerf abc",
        "--kerf: \"abc\" does not begin with a number",
        "write a number and its unit",
    ),
    (
        "kit album.json --out o --kerf 1/16",
        "--kerf: a bare number is in mm here, and \"1/16\" looks like inches",
        "write 1/16in or",
    ),
    ("kit album.json --out o --language fr", "--language can't be \"fr\"", "allowed: en, de"),
    ("kit album.json --out o --paper-margin 90", "--paper-margin can't be \"90\"", "a printer leaves blank from 0 to"),
    ("kit album.json --out o --copies 1e9", "--copies can't be \"1e9\"", "a whole number from 1 to 10000"),
    ("kit album.json --out o --out p", "--out can be said only once", "type hingeleaf kit"),
    ("schema albums", "WHAT can't be \"albums\"", "did you mean album?"),
];

fn typed(line: &str) -> Run {
    hingeleaf(line.split_whitespace())
}

#[test]
fn each_says_what_is_wrong_and_what_to_type() {
    for (line, says, help) in WRONG {
        let run = typed(line);
        assert_eq!((run.code, run.out.as_str()), (2, ""), "{line}: {run:?}");
        let (text, helped) = run.err.split_once("\n  help:  ").unwrap_or((&run.err, ""));
        assert_eq!(text, format!("stop[arguments]: {says}"), "{line}");
        assert!(helped.starts_with(help) || helped.contains(help), "{line}: {helped}");
        // Nothing of how the arguments are read shows through.
        for raw in ["error:", "Usage", "<", "tip:", "invalid", "possible values"] {
            assert!(!run.err.contains(raw), "{line}: {raw}: {}", run.err);
        }
    }
}

/// A build without one of the features says so where its kind of file is asked for, and writes the others; a full build writes it.
#[test]
fn what_was_left_out_of_a_build_is_said() {
    let folder = TempDir::new("left-out");
    let album = folder.put("album.json", include_str!("../../fixtures/tide-table.json"));
    for (format, there) in [("png", cfg!(feature = "png")), ("pdf", cfg!(feature = "pdf"))] {
        let out = folder.join(format);
        let (album, out) = (album.to_str().unwrap(), out.to_str().unwrap());
        let run = hingeleaf(["compare", album, album, "--only-changed", "--out", out, "--formats", format]);
        let said = run.err.contains("it was left out when this program was built");
        assert_eq!(said, !there, "{format}: {run:?}");
        if !there {
            assert!(run.code == 2 && run.err.contains("This build writes svg, dxf"), "{run:?}");
            assert!(!folder.join(format).exists());
        }
    }
}

/// What is asked for as JSON has the same words.
#[test]
fn json_says_the_same() {
    for (line, says, help) in WRONG {
        let run = typed(&format!("{line} --json"));
        if run.err.contains("there is no option") || run.out.is_empty() {
            // This command has no JSON, or its value swallowed the word.
            continue;
        }
        let told = run.json();
        let finding = &told["findings"][0];
        if finding["text"].as_str().is_some_and(|text| text.contains("--json")) {
            continue;
        }
        assert_eq!(finding["id"], "arguments", "{line}: {told}");
        assert_eq!(finding["text"], says, "{line}");
        // What was typed stands in what is to be typed.
        let helped = finding["help"].as_str().unwrap().replace("--json ", "");
        assert!(helped.contains(help), "{line}: {told}");
    }
}

/// Right words are not refused: help and version are printed, and end well.
#[test]
fn what_is_right_stays_quiet() {
    let temp = TempDir::new("arguments");
    let file = temp.join("album.json");
    for (line, says) in [
        ("--help".to_owned(), "kit"),
        ("kit --help".to_owned(), "--out"),
        ("--version".to_owned(), "hingeleaf "),
        ("schema album".to_owned(), "properties"),
        (format!("new {}", file.display()), "kit"),
        (format!("check {} --kerf 0.1", file.display()), "goes together"),
    ] {
        let run = typed(&line);
        assert!(run.code == 0 && run.out.contains(says), "{line}: {run:?}");
        assert!(!run.err.contains("stop["), "{line}: {run:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// Whatever is typed: said in the one form, never in another program's, with nothing left to fill in.
    #[test]
    fn any_words_are_answered_in_the_one_form(
        command in prop_oneof![Just("kit"), Just("check"), Just("sizes"), Just("compare"), Just("table"), Just("coupon"), Just("kiit"), Just("")],
        words in prop::collection::vec(prop_oneof![
            Just("--out".to_owned()), Just("o".to_owned()), Just("--kerf".to_owned()), Just("--kerf=9".to_owned()),
            Just("--copies=x".to_owned()), Just("--threads=0".to_owned()), Just("--formats".to_owned()), Just("--".to_owned()),
            Just("-q".to_owned()), Just("--effort=".to_owned()), Just("no-such.json".to_owned()), "[ -~]{0,12}", "\\PC{1,6}",
        ], 0..6),
    ) {
        // The last word makes sure that nothing runs: no page is served, no folder written.
        let line: Vec<String> = std::iter::once(command.to_owned()).chain(words).chain(["--no-such-thing".to_owned(), "--again".to_owned()]).collect();
        prop_assume!(!line.iter().any(|word| ["--help", "-h", "--version", "-V", "--json", "help"].contains(&word.as_str()) || word.contains('\0')
            || (word.starts_with('-') && !word.starts_with("--") && word.contains(['h', 'V']))));
        let line: Vec<String> = line.into_iter().filter(|word| word != "--").collect();
        let run = hingeleaf(&line);
        prop_assert_eq!((run.code, run.out.as_str()), (2, ""), "{:?}: {:?}", line, run);
        prop_assert!(run.err.starts_with("stop[arguments]: "), "{:?}: {}", line, run.err);
        let help = run.err.split_once("\n  help:  ");
        prop_assert!(help.is_some_and(|(_, help)| help.trim().len() > 3), "{:?}: {}", line, run.err);
        prop_assert!(!run.err.contains("{$") && !run.err.contains("error: "), "{:?}: {}", line, run.err);
    }
}
