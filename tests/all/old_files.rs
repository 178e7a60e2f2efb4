// SPDX-License-Identifier: MIT
//! Files of every format that there was: `fixtures/kept` holds one of each, as it was written, and they go on being read.
//!
//! A file there is never changed. A new number of a format brings a new file (`DEVELOPERS.md`, "How a file format changes").

use crate::common::{TempDir, hingeleaf, project};
use hingeleaf::{album, batch, cutter, drawer, kind_file};
use sha2::{Digest, Sha256};
use std::fmt::Write as _;
use std::fs;

/// The files with their SHA-256, so that none is made to fit.
const KEPT: [(&str, &str); 5] = [
    ("album-1.json", "0f571e90dd422d6b137d0d124f30496874f1e1ae716033c7364a9ad7ed5db197"),
    ("batch-1.json", "02abd498bdb15b97ae6da575755e884ed08cb141834faea91c5ad3a78c21d841"),
    ("cutter-1.json", "a734cb6fc5fd0cd4cbde425e8e70e242bc841897b6ea7ad941d6d355667e7d1e"),
    ("drawer-1.json", "5f0b674455b9cd4350f6a22720b3ae10521375fd56b84c77cf0e075ec07dbf09"),
    ("kind-1.json", "9f94b20e4e77fbb2d9c8a10f3f4300be7a05ba7e53fad3fafdf71b9753de6ca3"),
];

#[test]
fn every_number_of_a_format_has_a_file_that_is_never_changed() {
    for format in [album::FORMAT, batch::FORMAT, cutter::FORMAT, drawer::FORMAT, kind_file::FORMAT] {
        let (kind, newest) = format.strip_prefix("hingeleaf-").unwrap().split_once('/').unwrap();
        for number in 1..=newest.parse::<u32>().unwrap() {
            let name = format!("{kind}-{number}.json");
            assert!(KEPT.iter().any(|(kept, _)| *kept == name), "{name}: keep a file of this format");
        }
    }
    for (name, expected) in KEPT {
        let bytes = fs::read(project().join("fixtures/kept").join(name)).unwrap();
        let mut digest = String::new();
        Sha256::digest(bytes).iter().for_each(|byte| write!(digest, "{byte:02x}").unwrap());
        assert_eq!(digest, expected, "{name} is as it was");
    }
}

#[test]
fn kept_files_are_read_as_they_were() {
    let kept = project().join("fixtures/kept");
    let (album, cutter) = (kept.join("album-1.json"), kept.join("cutter-1.json"));
    let run = hingeleaf(["check".as_ref(), album.as_os_str(), "--cutter".as_ref(), cutter.as_os_str()]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(!run.err.contains("stop[") && !run.err.contains("warn["), "{}", run.err);
    // As it was when the file was kept.
    assert!(run.out.contains("22 pieces a kit, 14 of them different"), "{}", run.out);
    for name in ["batch-1.json", "kind-1.json"] {
        let run = hingeleaf(["check".as_ref(), kept.join(name).as_os_str()]);
        assert_eq!(run.code, 0, "{name}: {}", run.err);
    }
}

/// A made-up file of an older number: the mended copy is the file in today's, byte for byte besides, and the old one stays as it is.
/// Its sound neighbour, a file of today's number, gets no copy; a newer one neither.
#[test]
fn a_mended_copy_is_in_todays_format() {
    let temp = TempDir::new("old-files-mended");
    let kept = |name: &str| fs::read_to_string(project().join("fixtures/kept").join(name)).unwrap();
    for beside in ["kind-1.json", "drawer-1.json"] {
        temp.put(beside, kept(beside));
    }
    let today = kept("album-1.json");
    let older = today.replacen("/1\"", "/0\"", 1);
    let file = temp.put("older.json", &older);
    // Without being asked for a copy, it is told how to get one.
    let run = hingeleaf(["check".as_ref(), file.as_os_str()]);
    assert!(run.code == 2 && run.err.contains("`check --mend NEW` writes such a copy"), "{run:?}");
    let mend = |file: &std::path::Path, new: &str, more: &[&str]| {
        let new = temp.join(new);
        let words = ["check".as_ref(), file.as_os_str(), "--mend".as_ref(), new.as_os_str()];
        (hingeleaf(words.into_iter().chain(more.iter().map(AsRef::as_ref))), new)
    };
    let (run, new) = mend(&file, "new.json", &[]);
    assert_eq!(run.code, 0, "{run:?}");
    assert!(run.out.contains("in today's format"), "{}", run.out);
    assert!(run.out.contains("\"hingeleaf-album/0\"") && run.out.contains("\"hingeleaf-album/1\""), "{}", run.out);
    assert_eq!(fs::read_to_string(&new).unwrap(), today);
    assert_eq!(fs::read_to_string(&file).unwrap(), older);
    let (run, _) = mend(&file, "json.json", &["--json"]);
    let told = run.json();
    assert!(told["findings"].as_array().unwrap().iter().any(|finding| finding["id"] == "older-format"), "{told}");
    // What can't be read in today's format is told, and no copy is written.
    let wrong = temp.put("wrong.json", older.replacen("\"pages\"", "\"pagess\"", 1));
    let (run, new) = mend(&wrong, "wrong-new.json", &[]);
    assert!(run.code == 2 && run.err.contains("unknown-field") && !new.exists(), "{run:?}");
    for (name, number) in [("today.json", "/1\""), ("newer.json", "/2\"")] {
        let file = temp.put(name, today.replacen("/1\"", number, 1));
        let (run, new) = mend(&file, "none.json", &[]);
        assert!(!new.exists() && !run.out.contains("older-format"), "{name}: {run:?}");
    }
    // A length that wants mending is mended in the same copy.
    let short = temp.put("short.json", older.replacen("\"overflap\": 50", "\"overflap\": 30", 1));
    let (run, new) = mend(&short, "short-new.json", &[]);
    let mended = fs::read_to_string(new).unwrap();
    assert!(run.out.contains("pages[1].overflap: 30 mm becomes"), "{run:?}");
    assert!(mended.contains("hingeleaf-album/1") && !mended.contains("\"overflap\": 30"), "{mended}");
}

/// A format that never was and one that is to come: said at its place, with what this program reads, and the file is left alone.
#[test]
fn another_number_is_told_from_another_kind_of_file() {
    let temp = TempDir::new("old-files");
    let kept = project().join("fixtures/kept");
    for (name, command) in
        [("album-1.json", "check"), ("batch-1.json", "kit"), ("kind-1.json", "check"), ("batch-1.json", "compare")]
    {
        let text = fs::read_to_string(kept.join(name)).unwrap();
        for (number, says, help) in [
            ("/0\"", "older than what this program reads", "check it again"),
            ("/2\"", "newer than this program: it reads", "get a newer"),
            ("/99999999999999999999\"", "newer than this program: it reads", "get a newer"),
        ] {
            let other = text.replacen("/1\"", number, 1);
            let file = temp.put(name, &other);
            let out = temp.join("out");
            let run = match command {
                "kit" => hingeleaf([command.as_ref(), file.as_os_str(), "--out".as_ref(), out.as_os_str()]),
                "compare" => hingeleaf([command.as_ref(), file.as_os_str(), file.as_os_str()]),
                _ => hingeleaf([command.as_ref(), file.as_os_str()]),
            };
            assert_eq!(run.code, 2, "{command} {name} {number}: {}", run.err);
            let kind = name.split('-').next().unwrap();
            for part in ["stop[wrong-format]", says, help, &format!("hingeleaf-{kind}/1"), "line 2, column 13"] {
                assert!(run.err.contains(part), "{command} {name} {number}: {part}: {}", run.err);
            }
            assert!(!out.exists() && fs::read_to_string(&file).unwrap() == other);
        }
        // Neither number nor kind: what this file must be is said as before.
        for wrong in ["hingeleaf-album/one", "hingeleaf-album", "/1", "hingeleaf-album/ 1", "hingeleaf-album/01"] {
            let file = temp.put(
                "album.json",
                text.replacen(&format!("hingeleaf-{}/1", name.split('-').next().unwrap()), wrong, 1),
            );
            let run = hingeleaf(["check".as_ref(), file.as_os_str()]);
            assert!(run.err.contains("this must be a file of format"), "{wrong}: {}", run.err);
        }
    }
}
