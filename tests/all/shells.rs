// SPDX-License-Identifier: MIT
//! What shells complete and what the manual says: every command and every option of it, as `--help` lists them.

use crate::common::{Run, TempDir, hingeleaf, not_run, project};
use std::collections::{BTreeMap, BTreeSet};
use std::io::Write as _;
use std::process::{Command, Stdio};

/// Options by command, read off the help; the program's own under "".
fn helped() -> BTreeMap<String, BTreeSet<String>> {
    let program = hingeleaf(["--help"]).out;
    let listed = program.split("Commands:").nth(1).unwrap().split("Options:").next().unwrap();
    // A command stands two letters in, what wraps further.
    let starts = |line: &&str| line.starts_with("  ") && !line.starts_with("   ");
    let names = listed.lines().filter(starts).filter_map(|line| line.split_whitespace().next());
    let commands: Vec<String> = names.filter(|name| *name != "help").map(str::to_owned).collect();
    assert!(commands.len() >= 11, "only {commands:?}");
    let mut all: BTreeMap<_, _> =
        commands.into_iter().map(|name| (name.clone(), options(&hingeleaf([&name, "--help"]).out))).collect();
    all.insert(String::new(), options(&program));
    all
}

/// The options at the head of their lines.
fn options(help: &str) -> BTreeSet<String> {
    help.lines().filter_map(option).map(str::to_owned).collect()
}

/// The long option that a line begins with, behind its short one.
fn option(line: &str) -> Option<&str> {
    let line = line.trim_start();
    let line = line.strip_prefix("-h, ").or_else(|| line.strip_prefix("-V, ")).unwrap_or(line);
    line.starts_with("--").then(|| line.split([' ', '[', '=']).next()).flatten()
}

/// What a program says of a text on its standard input.
fn judged(program: &str, words: &[&str], text: &str) -> Option<Run> {
    let mut child = Command::new(program)
        .args(words)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .ok()?;
    child.stdin.take().unwrap().write_all(text.as_bytes()).unwrap();
    Some(Run::of(child.wait_with_output().unwrap()))
}

fn script(shell: &str) -> String {
    let run = hingeleaf(["completions", shell]);
    assert_eq!((run.code, run.err.as_str()), (0, ""), "{shell}");
    assert!(!run.out.contains('\u{fffd}'), "{shell}: a letter was lost");
    run.out
}

/// What bash itself offers after `hingeleaf COMMAND --`.
fn offered_by_bash(script: &str, command: &str) -> BTreeSet<String> {
    let words = format!("COMP_WORDS=(hingeleaf {command} --); COMP_CWORD=$((${{#COMP_WORDS[@]}} - 1))");
    let before = if command.is_empty() { "hingeleaf" } else { command };
    let ask = format!("{script}\n{words}\n_hingeleaf hingeleaf -- {before}\nprintf '%s\\n' \"${{COMPREPLY[@]}}\"\n");
    let run = judged("bash", &["--noprofile", "--norc"], &ask).expect("bash is there");
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    run.out.lines().map(str::to_owned).collect()
}

#[test]
fn bash_offers_every_command_and_option() {
    let script = script("bash");
    for (command, options) in helped() {
        assert!(options.contains("--help"), "{command:?}: {options:?}");
        assert_eq!(offered_by_bash(&script, &command), options, "{command:?}");
    }
    let ask = format!(
        "{script}\nCOMP_WORDS=(hingeleaf ''); COMP_CWORD=1\n_hingeleaf hingeleaf '' hingeleaf\n\
        printf '%s\\n' \"${{COMPREPLY[@]}}\"\n"
    );
    let offered = judged("bash", &["--noprofile", "--norc"], &ask).unwrap().out;
    for command in helped().keys().filter(|name| !name.is_empty()) {
        assert!(offered.lines().any(|line| line == command), "{command} is not offered");
    }
}

/// Each shell's script says a command's options where it says what it does for that command.
#[test]
fn other_shells_know_every_command_and_option() {
    for (shell, begins, ends, option) in [
        ("zsh", "(COMMAND)\n_arguments", "\n;;", "--OPTION"),
        ("fish", "using_subcommand COMMAND\" ", "\0", "-l OPTION "),
        ("powershell", "'hingeleaf;COMMAND' {", "break", "'--OPTION'"),
        ("elvish", "'hingeleaf;COMMAND'= {", "\n        }", "cand --OPTION "),
    ] {
        let script = script(shell);
        for (command, options) in helped().iter().filter(|(command, _)| !command.is_empty()) {
            let begins = begins.replace("COMMAND", command);
            let part = script.split(begins.as_str()).skip(1).map(|part| part.split(ends).next().unwrap_or_default());
            let part = part.collect::<String>();
            for name in options {
                let wanted = option.replace("OPTION", name.trim_start_matches("--"));
                assert!(part.contains(&wanted), "{shell}: {command} {name}");
            }
        }
    }
}

/// The shells themselves read their scripts, where they are installed.
#[test]
fn shells_can_read_their_scripts() {
    for shell in ["bash", "zsh", "fish"] {
        let Some(run) = judged(shell, &["-n"], &script(shell)) else {
            assert_ne!(shell, "bash", "bash is needed for every script here");
            continue;
        };
        assert_eq!((run.code, run.err.as_str()), (0, ""), "{shell}");
    }
    let spoilt = judged("bash", &["-n"], &script("bash").replacen("esac", "", 1)).unwrap();
    assert_ne!(spoilt.code, 0, "a spoilt script passes");
}

#[test]
fn the_manual_has_a_page_for_each_command_with_all_options() {
    let folder = TempDir::new("man");
    let out = folder.path().join("man1");
    let run = hingeleaf(["man".as_ref(), "--out".as_ref(), out.as_os_str()]);
    assert_eq!(run.code, 0, "{}", run.err);
    let helped = helped();
    assert_eq!(std::fs::read_dir(&out).unwrap().count(), helped.len(), "a page a command, and nothing else");
    for (command, options) in &helped {
        let name = if command.is_empty() { "hingeleaf.1".into() } else { format!("hingeleaf-{command}.1") };
        let page = std::fs::read_to_string(out.join(&name)).unwrap();
        let plain = page.replace("\\-", "-").replace("\\fB", "").replace("\\fR", "");
        for option in options {
            assert!(plain.lines().any(|line| self::option(line) == Some(option)), "{name}: {option}");
        }
        // Where a reader of manual pages is there, it finds no error.
        if let Some(lint) = judged("mandoc", &["-T", "lint", "-W", "error"], &page) {
            assert_eq!((lint.code, lint.out.as_str()), (0, ""), "{name}");
        }
    }
    let main = std::fs::read_to_string(out.join("hingeleaf.1")).unwrap();
    assert_eq!(hingeleaf(["man"]).out, main);
    assert!(helped.keys().all(|command| main.contains(&format!("hingeleaf\\-{command}(1)")) || command.is_empty()));
}

#[test]
fn the_manual_takes_no_folder_that_is_there() {
    let folder = TempDir::new("man-there");
    let kept = folder.path().join("mine.txt");
    std::fs::write(&kept, "mine").unwrap();
    let run = hingeleaf(["man".as_ref(), "--out".as_ref(), folder.path().as_os_str()]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("is there already") && run.err.contains("nothing is overwritten"), "{}", run.err);
    assert_eq!(std::fs::read_to_string(&kept).unwrap(), "mine");
    let json = hingeleaf(["man".as_ref(), "--out".as_ref(), folder.path().as_os_str(), "--json".as_ref()]);
    assert_eq!(json.json()["findings"][0]["id"], "exists", "{}", json.out);
}

/// Who types the name alone hears of three things to try, and each of them works.
#[test]
fn the_name_alone_says_three_things_to_try() {
    let folder = TempDir::new("alone");
    let typed = format!("'{}'", env!("CARGO_BIN_EXE_hingeleaf"));
    // It is a terminal that `script` gives.
    let Ok(run) = Command::new("script").args(["-qec", &typed, "/dev/null"]).stdin(Stdio::null()).output() else {
        return not_run("script, which gives a terminal, is not installed");
    };
    let run = Run::of(run);
    let said = run.out.replace('\r', "");
    assert_eq!(run.code, 0, "{said}");
    let commands: Vec<Vec<&str>> = said
        .lines()
        .filter_map(|line| line.strip_prefix("  hingeleaf "))
        .map(|line| line.split("   ").next().unwrap().split_whitespace().collect())
        .collect();
    assert_eq!(commands.iter().map(|words| words[0]).collect::<Vec<_>>(), ["table", "new", "kit"], "{said}");
    assert!(said.lines().all(|line| line.chars().count() <= 100), "{said}");
    // The first serves until it is ended; `tests/all/table.rs` opens it.
    for words in &commands[1..] {
        let run =
            Command::new(env!("CARGO_BIN_EXE_hingeleaf")).args(words).current_dir(folder.path()).output().unwrap();
        let run = Run::of(run);
        assert_eq!(run.code, 0, "{words:?}: {}", run.err);
    }
    assert!(folder.join("kit").join("guide.html").is_file());
}

/// README's ten lines, one after the other; what only takes time is left out.
#[test]
fn the_ten_lines_of_the_readme_make_a_kit() {
    let folder = TempDir::new("ten-lines");
    let readme = std::fs::read_to_string(project().join("README.md")).unwrap();
    let block = readme.split("## Ten lines to the first kit").nth(1).unwrap().split("```").nth(1).unwrap();
    let lines: Vec<&str> = block.lines().skip(1).map(|line| line.split('#').next().unwrap().trim()).collect();
    assert_eq!(lines.len(), 10, "{lines:?}");
    for line in lines.iter().flat_map(|line| line.split(';')).map(str::trim) {
        let words: Vec<&str> = line.split_whitespace().collect();
        match words[..] {
            // The one builds for minutes, the other serves until it is ended.
            ["cargo", ..] | ["hingeleaf", "table", ..] => continue,
            ["hingeleaf", ..] => {}
            _ => panic!("{line}"),
        }
        let more: &[&str] = match words[1] {
            "kit" if !words.contains(&"--help") => &["--effort", "low", "--formats", "svg"],
            "sizes" => &["--effort", "low", "--within", "1"],
            _ => &[],
        };
        let mut command = Command::new(env!("CARGO_BIN_EXE_hingeleaf"));
        let run = Run::of(command.args(&words[1..]).args(more).current_dir(folder.path()).output().unwrap());
        assert_eq!(run.code, 0, "{line}: {}", run.err);
    }
    assert!(folder.join("forty").join("report.json").is_file());
}
