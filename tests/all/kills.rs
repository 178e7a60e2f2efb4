// SPDX-License-Identifier: MIT
//! A run that is killed leaves the old folder or the new one, never half of either, and what is the maker's in it.

use crate::common::files;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;

fn kit(out: &Path, copies: u32) -> Command {
    let root = env!("CARGO_MANIFEST_DIR");
    let mut command = Command::new(env!("CARGO_BIN_EXE_hingeleaf"));
    command.arg("kit").arg(format!("{root}/fixtures/sketchbook.json"));
    command.args([
        "--formats",
        "svg,dxf,csv",
        "--effort",
        "low",
        "--replace",
        "--copies",
        &copies.to_string(),
        "--out",
    ]);
    command.arg(out).stdout(Stdio::null()).stderr(Stdio::null());
    command
}

/// What the maker keeps in the kit's folder.
const OWN: [&str; 4] = ["notes.txt", "sheets/photo.jpg", "mine/deep/er.txt", "out.json"];

fn put_own(out: &Path) {
    for name in OWN {
        let path = out.join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, format!("this is {name}")).unwrap();
    }
}

/// Takes the maker's files out of what was found, and holds them to being whole.
fn without_own(mut found: BTreeMap<PathBuf, Vec<u8>>, round: u32) -> BTreeMap<PathBuf, Vec<u8>> {
    for name in OWN {
        let there = found.remove(Path::new(name));
        assert_eq!(there.as_deref(), Some(format!("this is {name}").as_bytes()), "round {round}: {name}");
    }
    found
}

#[test]
fn kills_leave_the_old_folder_or_the_new_and_the_makers_files() {
    let kills: u32 = if std::env::var_os("HINGELEAF_LONG").is_some() { 200 } else { 60 };
    let home = Path::new(env!("CARGO_TARGET_TMPDIR")).join("kills");
    let _ = std::fs::remove_dir_all(&home);
    std::fs::create_dir_all(&home).unwrap();
    let whole = |copies: u32| {
        let out = home.join(format!("whole-{copies}"));
        assert!(kit(&out, copies).status().unwrap().success());
        files(&out)
    };
    let (one, many) = (whole(1), whole(40));
    assert_ne!(one, many);

    let out = home.join("out");
    let begun = std::time::Instant::now();
    assert!(kit(&out, 40).status().unwrap().success());
    let usual = begun.elapsed();
    assert!(kit(&out, 1).status().unwrap().success());
    put_own(&out);
    let mut kept = [0, 0];
    let mut spared = 0;
    for round in 0..kills {
        // Moments spread over the whole run and a little beyond, in an order that jumps about.
        let moment =
            usual.mul_f64(f64::from(round * 37 % kills) / (0.75 * f64::from(kills))).max(Duration::from_micros(1));
        let before = without_own(files(&out), round) == one;
        let mut child = kit(&out, if before { 40 } else { 1 }).spawn().unwrap();
        std::thread::sleep(moment);
        spared += u32::from(child.try_wait().unwrap().is_some());
        let _ = child.kill();
        child.wait().unwrap();
        let now = without_own(files(&out), round);
        assert!(now == one || now == many, "round {round}: half a folder: {:?}", now.keys());
        kept[usize::from((now == one) != before)] += 1;
    }
    println!(
        "{} kept the old folder, {} had the new one; {spared} were done before they could be killed",
        kept[0], kept[1]
    );
    assert!(kept[0] > 10 && kept[1] > 10, "the moments were all too early or all too late: {kept:?}");
    // The next run takes away what the killed ones left beside it.
    assert!(kit(&out, 1).status().unwrap().success());
    let beside: Vec<_> = std::fs::read_dir(&home).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    assert!(beside.iter().all(|name| !name.to_string_lossy().starts_with('.')), "{beside:?}");
}
