// SPDX-License-Identifier: MIT
//! Inputs that nobody meant: a few of every sort with each run of the suite, always the same ones. More by hand:
//! `HINGELEAF_FUZZ_SECONDS=600 cargo bench --bench fuzz`.

#[path = "../fuzz/mod.rs"]
mod targets;

use std::path::PathBuf;
use std::sync::atomic::{AtomicU64, AtomicUsize, Ordering};
use std::time::{Duration, Instant};
use targets::{Seen, TARGETS, Target, hunt};

/// The suite tries the same ones each time.
const SEED: u64 = 20_261_129;

/// In the suite everything is slow; this is for what never ends.
const LONGEST: Duration = Duration::from_secs(20);

/// Beside other programs, at the least of their turns, all takes its time.
const LONGEST_BESIDE: Duration = Duration::from_mins(2);

/// `tests/run` lets this go on while it waits for the outside checks: all targets in turns of a second, until each had
/// `HINGELEAF_FUZZ_SECONDS` or the file that `HINGELEAF_FUZZ_END` names is there. The cases are the same ones each time, their number is not.
#[test]
#[ignore = "it goes on for as long as it is asked to"]
fn goes_on_beside_the_outside_checks() {
    let seconds: u64 = std::env::var("HINGELEAF_FUZZ_SECONDS").map_or(1, |text| text.parse().expect("whole seconds"));
    let end = std::env::var_os("HINGELEAF_FUZZ_END").map(PathBuf::from);
    let ended = || end.as_ref().is_some_and(|file| file.exists());
    let mut all: Vec<(&str, Target, Seen, Duration)> =
        TARGETS.into_iter().map(|(name, target)| (name, target(), Seen::default(), Duration::ZERO)).collect();
    std::thread::spawn(wait_for_the_end(end.clone()));
    for _ in 0..seconds {
        for (number, (_, target, all, spent)) in all.iter_mut().enumerate() {
            TARGET.store(number, Ordering::Relaxed);
            let begun = Instant::now();
            let mut go_on = |case| {
                CASE.store(case, Ordering::Relaxed);
                begun.elapsed() < Duration::from_secs(1) && !ended()
            };
            let seen = hunt(target, (1, all.executions), LONGEST_BESIDE, &mut go_on);
            all.executions += seen.executions;
            all.taken += seen.taken;
            all.wrong.extend(seen.wrong);
            *spent += begun.elapsed();
        }
    }
    for (name, _, seen, spent) in &all {
        println!("{name}: {} tried, {} taken, {:.0} s", seen.executions, seen.taken, spent.as_secs_f64());
    }
    let wrong: Vec<String> =
        all.iter().flat_map(|(name, _, seen, _)| seen.wrong.iter().map(move |one| told(name, one))).collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
    assert!(ended() || all.iter().all(|(_, _, seen, _)| seen.executions > 0), "a target was not tried");
}

/// The case that is tried.
static TARGET: AtomicUsize = AtomicUsize::new(0);
static CASE: AtomicU64 = AtomicU64::new(0);

/// A case that does not end is named, and all ends with it, once nothing else is waited for.
fn wait_for_the_end(end: Option<PathBuf>) -> impl FnOnce() + Send {
    move || {
        while !end.as_ref().is_some_and(|file| file.exists()) {
            std::thread::sleep(Duration::from_secs(1));
        }
        std::thread::sleep(LONGEST_BESIDE);
        let (target, case) = (TARGET.load(Ordering::Relaxed), CASE.load(Ordering::Relaxed));
        println!("{}, case {case}, does not end", TARGETS[target].0);
        std::process::exit(1);
    }
}

/// What was found, with the beginning of its input.
fn told(name: &str, (case, wrong, input): &(u64, String, Vec<u8>)) -> String {
    format!("{name}, case {case}: {wrong}\n{}", String::from_utf8_lossy(&input[..input.len().min(3000)]))
}

/// Tries so many of a target's cases.
fn tried(name: &str, cases: u64) {
    let (_, target) = TARGETS.into_iter().find(|(known, _)| *known == name).expect("a target of this name");
    let seen = hunt(&target(), (SEED, 0), LONGEST, &mut |case| case < cases);
    println!("{name}: {} tried, {} taken, longest {:.0?}", seen.executions, seen.taken, seen.slowest);
    let wrong: Vec<String> = seen.wrong.iter().map(|one| told(name, one)).collect();
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
