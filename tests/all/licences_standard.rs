// SPDX-License-Identifier: MIT
//! What the standard library brings into the program: `licences` prints its notices, as they lie beside the compiler that it came with.
//!
//! Held to the very text where the tests run with the compiler that the list was made with, by name with any other.

use crate::common::{hingeleaf, not_run, project};
use std::fs;
use std::path::Path;
use std::process::Command;

fn rustc(word: &str) -> String {
    let run = Command::new("rustc").args(["--print", word]).current_dir(project()).output();
    let version = || Command::new("rustc").arg("--version").current_dir(project()).output().unwrap();
    let run = if word == "version" { version() } else { run.unwrap() };
    String::from_utf8(run.stdout).unwrap().trim().to_owned()
}

/// Text as it was before it was HTML.
fn text(html: &str) -> String {
    let mut all = String::new();
    for (number, part) in html.split('<').enumerate() {
        all.push_str(if number == 0 { part } else { part.split_once('>').map_or("", |(_, text)| text) });
    }
    all.replace("&#60;", "<")
        .replace("&#62;", ">")
        .replace("&#34;", "\"")
        .replace("&#39;", "'")
        .replace("&#38;", "&")
        .replace("&amp;", "&")
}

/// Lines without what stands behind them.
fn plain(text: &str) -> String {
    let lines: Vec<&str> = text.lines().map(str::trim_end).collect();
    lines.join("\n").trim_matches('\n').to_owned()
}

/// What stands behind each of these marks, up to the end of its paragraph.
fn said<'h>(html: &'h str, mark: &'h str) -> impl Iterator<Item = String> + 'h {
    html.split(mark).skip(1).map(|rest| text(rest.split("</p>").next().unwrap_or_default()).trim().to_owned())
}

/// The libraries in the standard library: name, licence, the texts that lie with each.
fn libraries(html: &str) -> Vec<(String, String, Vec<String>)> {
    let of = |part: &str| {
        let name = part.split('<').next().unwrap_or_default().trim().to_owned();
        let licence = said(part, "<b>License:</b>").next().unwrap_or_default();
        let texts =
            part.split("<summary><code>").skip(1).filter(|one| !one.to_uppercase().starts_with("LICENSE-APACHE"));
        let texts = texts.filter_map(|one| Some(plain(&text(one.split_once("<pre>")?.1.split("</pre>").next()?))));
        (name, licence, texts.collect())
    };
    html.split("📦 ").skip(1).map(of).collect()
}

fn expected(html: &str) -> String {
    let tree = html.split("Out-of-tree dependencies</h2>").next().unwrap_or_default();
    let mut all = format!(
        "The standard library of {}, which goes into this program, and what its people say of it:\n\n",
        rustc("version")
    );
    for part in tree.split("<b>File/Directory:</b>").skip(1) {
        let name = text(part.split("</p>").next().unwrap_or_default());
        let licence = said(part, "<b>License:</b>").next().unwrap_or_default();
        let holders: Vec<String> = said(part, "<b>Copyright:</b>").collect();
        all.push_str(&format!("{}: {licence}; copyright {}\n", name.trim(), holders.join("; ")));
    }
    all.push_str(
        "\nLibraries in it, some of them on other systems alone. The Apache-2.0 that they offer stands above:\n\n",
    );
    let libraries = libraries(html);
    for (name, licence, _) in &libraries {
        all.push_str(&format!("{name}: {licence}\n"));
    }
    let mut known: Vec<(Vec<&str>, String, Vec<&str>)> = Vec::new();
    for (name, text) in libraries.iter().flat_map(|(name, _, texts)| texts.iter().map(move |text| (name, text))) {
        let words: Vec<&str> = text.split_whitespace().collect();
        // A long text that offers Apache-2.0 under another name is printed once already.
        if words.is_empty() || text.contains("TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION") {
            continue;
        }
        match known.iter_mut().find(|(other, ..)| *other == words) {
            Some((_, _, names)) => names.push(name),
            None => known.push((words, text.clone(), vec![name])),
        }
    }
    for (_, text, names) in &known {
        all.push_str(&format!("\n--- {}\n\n{text}\n", names.join(", ")));
    }
    all
}

#[test]
fn the_standard_librarys_notices_are_printed() {
    let path = project().join("src/cli/standard.txt");
    let kept = fs::read_to_string(&path).unwrap_or_default();
    let beside = Path::new(&rustc("sysroot")).join("share/doc/rust/COPYRIGHT-library.html");
    let Ok(html) = fs::read_to_string(&beside) else {
        return not_run("no notices lie beside this compiler");
    };
    assert!(libraries(&html).len() > 10, "the list beside the compiler is written otherwise");
    let expected = expected(&html);
    let same = expected.lines().next() == kept.lines().next();
    if std::env::var_os("UPDATE_GOLDEN").is_some() && kept != expected {
        fs::write(&path, &expected).unwrap();
        panic!("written anew: look at what changes");
    }
    if same {
        assert!(kept == expected, "run again with UPDATE_GOLDEN=1 and look at what changes");
    }
    for (name, ..) in libraries(&html) {
        let (name, _) = name.rsplit_once('-').unwrap();
        let name = name.trim_end_matches(|letter: char| letter.is_ascii_digit() || letter == '.');
        assert!(kept.contains(&format!("\n{name}-")) || !same, "{name} is not among them");
    }
    assert!(hingeleaf(["licences"]).out.contains(&kept) && kept.contains("Permission is hereby granted"));
}
