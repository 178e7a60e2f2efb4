// SPDX-License-Identifier: MIT
//! Hunting for inputs that the program can't stand: drawn from files that there are and from the schemas, spoilt, and given to
//! whoever reads such. Nothing may panic, take long, say something without words or place, or be read otherwise when it is written again.
//!
//! `tests/all/fuzz.rs` tries a few of each with the suite's seed; `cargo bench --bench fuzz` goes on as long as one likes. Each case is
//! drawn from the seed and its own number alone, so any can be tried again.

pub(crate) mod changes;
pub(crate) mod corpus;
pub(crate) mod drawn;
pub(crate) mod draws;
pub(crate) mod files;
pub(crate) mod page;
pub(crate) mod schemas;
pub(crate) mod spoil;
pub(crate) mod texts;
pub(crate) mod tree;

use draws::Draws;
use hingeleaf::finding::{Finding, Level};
use hingeleaf::words::{self, Voice};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::{Duration, Instant};

/// What came of one input: whether it was taken, or what is wrong with the program.
pub(crate) type Answer = Result<bool, String>;

/// Reads an input.
type Run = Box<dyn Fn(&[u8]) -> Answer>;

/// A target's name, and what makes it.
type Named = (&'static str, fn() -> Target);

/// Makes an input.
type Make = Box<dyn Fn(&mut Draws) -> Vec<u8>>;

/// One reader and what it is given.
pub(crate) struct Target {
    pub make: Make,
    pub run: Run,
}

/// All targets, by name; each is made when it is wanted, as some read many files.
pub(crate) const TARGETS: [Named; 13] = [
    ("album", files::album),
    ("batch", files::batch),
    ("kind", files::kind),
    ("cutter", files::cutter),
    ("drawer", files::drawer),
    ("measured", files::measured),
    ("lengths", texts::lengths),
    ("formulas", texts::formulas),
    ("svg", drawn::svg),
    ("dxf", drawn::dxf),
    ("page", page::page),
    ("changes", changes::changes),
    ("work", files::work),
];

/// What was seen of a target.
#[derive(Debug, Default)]
pub(crate) struct Seen {
    pub executions: u64,
    pub taken: u64,
    pub slowest: Duration,
    /// The number of the slowest case.
    pub slowest_case: u64,
    /// What is wrong, one of a sort, with the case and its input.
    pub wrong: Vec<(u64, String, Vec<u8>)>,
}

/// How many findings of a target are kept.
const MOST_FOUND: usize = 40;

/// The input of a case.
pub(crate) fn input(target: &Target, seed: u64, case: u64) -> Vec<u8> {
    (target.make)(&mut Draws::of(seed, case))
}

/// Tries cases from `first` on while `go_on` says so, which is told each case's number before it; none may take longer than `longest`.
pub(crate) fn hunt(
    target: &Target,
    (seed, first): (u64, u64),
    longest: Duration,
    go_on: &mut dyn FnMut(u64) -> bool,
) -> Seen {
    let mut seen = Seen::default();
    let mut case = first;
    while go_on(case) {
        let input = input(target, seed, case);
        let begun = Instant::now();
        let answer = catch_unwind(AssertUnwindSafe(|| (target.run)(&input)));
        let took = begun.elapsed();
        if took > seen.slowest {
            (seen.slowest, seen.slowest_case) = (took, case);
        }
        let wrong = match answer {
            Ok(Ok(_)) if took > longest => Some(format!("it took {took:.1?}")),
            Ok(Ok(taken)) => {
                seen.taken += u64::from(taken);
                None
            }
            Ok(Err(wrong)) => Some(wrong),
            Err(panic) => Some(format!("panic: {}", panicked(&*panic))),
        };
        if let Some(wrong) = wrong {
            let sort = sort_of(&wrong);
            if seen.wrong.len() < MOST_FOUND && !seen.wrong.iter().any(|(_, known, _)| sort_of(known) == sort) {
                seen.wrong.push((case, wrong, input));
            }
        }
        seen.executions += 1;
        case += 1;
    }
    seen
}

/// Without its numbers, one finding is like the other.
fn sort_of(wrong: &str) -> String {
    wrong.chars().filter(|letter| !letter.is_ascii_digit()).take(90).collect()
}

fn panicked(panic: &(dyn std::any::Any + Send)) -> String {
    let text = panic.downcast_ref::<String>().map(String::as_str);
    text.or_else(|| panic.downcast_ref::<&str>().copied()).unwrap_or("without words").to_owned()
}

/// Whether findings can be told: each in words, with nothing left to be filled in, and what stops a file at a place in it.
pub(crate) fn told(findings: &[Finding], placed: bool) -> Result<(), String> {
    for finding in findings {
        let (text, help) = (words::say(&finding.text, Voice::File), words::say(&finding.help, Voice::File));
        let about = words::say(&finding.about, Voice::Page);
        for words in [&text, &help, &about] {
            // What a file itself says stands in quotes, and may look so, too.
            let own = words.find('"').zip(words.rfind('"')).filter(|(from, to)| from < to);
            let words = &own.map_or_else(|| words.clone(), |(from, to)| format!("{}{}", &words[..from], &words[to..]));
            let left = ["{$", "{ $"].into_iter().flat_map(|open| words.split(open).skip(1));
            // It seldom names a place where it does not.
            if left.into_iter().any(|rest| rest.starts_with(|c: char| c.is_ascii_lowercase())) || words.contains("NaN")
            {
                return Err(format!("{} is not filled in: {words}", finding.id));
            }
        }
        if text.trim().is_empty() {
            return Err(format!("{} has no words", finding.id));
        }
        if finding.level == Level::Stop && placed && finding.place.is_none() {
            return Err(format!("{} has no place: {text}", finding.id));
        }
        if finding.place.as_ref().is_some_and(|place| place.line == 0 || place.column == 0 || place.width == 0) {
            return Err(format!("{} has a place that is none", finding.id));
        }
    }
    Ok(())
}

/// What was refused was refused for a reason, and what can be told is told.
pub(crate) fn reasoned<T>(value: Option<&T>, findings: &[Finding]) -> Result<(), String> {
    told(findings, true)?;
    let stops = findings.iter().any(|finding| finding.level == Level::Stop);
    match (value.is_some(), stops) {
        (true, true) => Err("taken in spite of a stop".into()),
        (false, false) => Err("refused without a reason".into()),
        _ => Ok(()),
    }
}
