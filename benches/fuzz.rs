// SPDX-License-Identifier: MIT
//! Inputs that nobody meant, as long as one likes: `HINGELEAF_FUZZ_SECONDS=60 cargo bench --bench fuzz [TARGET …]`. Says how many were
//! tried and taken of each target, the longest case, the most memory, and all that was found; findings are written into
//! `target/tmp/fuzz`. `HINGELEAF_FUZZ_SEED` draws others; `HINGELEAF_FUZZ_CASE=N` tries one case of one target again.
#![allow(clippy::expect_used, reason = "a hunt may stop where it can't go on")]

#[path = "../tests/fuzz/mod.rs"]
mod targets;

use std::fs;
use std::path::Path;
use std::process::ExitCode;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};
use targets::{Seen, TARGETS, hunt, input};

/// A case may take so long: our choice, some fifty times what a large album takes.
const LONGEST: Duration = Duration::from_secs(5);
/// Who takes longer than this is not waited for.
const HUNG: u64 = 90;
/// More memory than this for one target is a finding, MiB: our choice.
const MOST_MEMORY: u64 = 1024;

/// The case that is tried now, and how many seconds it has been.
static CASE: AtomicU64 = AtomicU64::new(0);
static SINCE: AtomicU64 = AtomicU64::new(0);

fn of_environment(name: &str) -> Option<u64> {
    std::env::var(name).ok()?.parse().ok()
}

fn main() -> ExitCode {
    let seconds = of_environment("HINGELEAF_FUZZ_SECONDS").unwrap_or(5);
    let seed = of_environment("HINGELEAF_FUZZ_SEED").unwrap_or(1);
    let names: Vec<String> = std::env::args().skip(1).filter(|word| !word.starts_with('-')).collect();
    let wanted = TARGETS.iter().filter(|(name, _)| names.is_empty() || names.iter().any(|wanted| wanted == name));
    std::thread::spawn(watch);
    let (mut executions, mut found) = (0, 0);
    for (name, target) in wanted {
        let target = target();
        if let Some(case) = of_environment("HINGELEAF_FUZZ_CASE") {
            println!("{}", String::from_utf8_lossy(&input(&target, seed, case)));
            println!("{:?}", (target.run)(&input(&target, seed, case)));
            continue;
        }
        forget_memory();
        let (begun, mut last) = (Instant::now(), 0);
        let mut go_on = |case| {
            CASE.store(case, Ordering::Relaxed);
            SINCE.store(0, Ordering::Relaxed);
            last = case;
            begun.elapsed().as_secs() < seconds
        };
        let seen = hunt(&target, (seed, 0), LONGEST, &mut go_on);
        let most = most_memory();
        println!(
            "{name:>9}: {:>9} tried, {:>9} taken, longest {:>7.1?} (case {}), most memory {most} MiB, {} found",
            seen.executions,
            seen.taken,
            seen.slowest,
            seen.slowest_case,
            seen.wrong.len()
        );
        if most > MOST_MEMORY {
            println!("  it took more than {MOST_MEMORY} MiB");
            found += 1;
        }
        told(name, &seen);
        executions += seen.executions;
        found += seen.wrong.len();
    }
    println!("{executions} tried in all, {found} found");
    if found > 0 { ExitCode::FAILURE } else { ExitCode::SUCCESS }
}

/// Says what was found, and keeps its inputs.
fn told(name: &str, seen: &Seen) {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("fuzz");
    for (case, wrong, input) in &seen.wrong {
        let file = folder.join(format!("{name}-{case}"));
        let kept = fs::create_dir_all(&folder).and_then(|()| fs::write(&file, input));
        println!(
            "  case {case}: {wrong:.600}\n    {}",
            kept.map_or_else(|error| error.to_string(), |()| file.display().to_string())
        );
    }
}

/// Ends the hunt where a case does not.
fn watch() {
    loop {
        std::thread::sleep(Duration::from_secs(1));
        if SINCE.fetch_add(1, Ordering::Relaxed) > HUNG {
            println!("case {} is not done after {HUNG} s", CASE.load(Ordering::Relaxed));
            std::process::exit(101);
        }
    }
}

/// The most that was held since this was last forgotten, MiB; 0 where the system does not tell.
fn most_memory() -> u64 {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmHWM:"));
    line.and_then(|line| line.split_whitespace().nth(1)?.parse::<u64>().ok()).map_or(0, |kilobytes| kilobytes / 1024)
}

fn forget_memory() {
    // Where it can't be forgotten, what earlier targets took counts, too.
    let _ = fs::write("/proc/self/clear_refs", "5");
}
