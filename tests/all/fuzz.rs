// SPDX-License-Identifier: MIT
//! Inputs that nobody meant: a few of every sort with each run of the suite, always the same ones. More by hand:
//! `HINGELEAF_FUZZ_SECONDS=600 cargo bench --bench fuzz`.

#[path = "../fuzz/mod.rs"]
mod targets;

use std::time::Duration;
use targets::{TARGETS, hunt};

/// The suite tries the same ones each time.
const SEED: u64 = 20_261_129;

/// In the suite everything is slow; this is for what never ends.
const LONGEST: Duration = Duration::from_secs(20);

/// Tries so many of a target's cases.
fn tried(name: &str, cases: u64) {
    let (_, target) = TARGETS.into_iter().find(|(known, _)| *known == name).expect("a target of this name");
    let seen = hunt(&target(), (SEED, 0), LONGEST, &mut |case| case < cases);
    println!("{name}: {} tried, {} taken, longest {:.0?}", seen.executions, seen.taken, seen.slowest);
    let wrong: Vec<String> = seen
        .wrong
        .iter()
        .map(|(case, wrong, input)| {
            format!("case {case}: {wrong}\n{}", String::from_utf8_lossy(&input[..input.len().min(3000)]))
        })
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
    // What is always refused is no hunt.
    assert!(seen.taken * 50 >= cases, "only {} of {cases} inputs of {name} are taken", seen.taken);
    assert!(seen.taken < cases, "all inputs of {name} are taken");
}

macro_rules! targets {
    ($($name:ident $cases:literal)*) => {
        $(#[test] fn $name() { tried(stringify!($name), $cases); })*

        /// Each target is tried with the suite.
        #[test]
        fn all_are_tried() {
            assert_eq!(TARGETS.map(|(name, _)| name).to_vec(), [$(stringify!($name)),*]);
        }
    };
}

targets! {
    album 250
    batch 300
    kind 400
    cutter 3000
    drawer 4000
    measured 4000
    lengths 20000
    formulas 1500
    svg 1500
    dxf 1000
    page 60
    changes 600
    work 25
}
