// SPDX-License-Identifier: MIT
//! The layout engine on open benchmark data: `cargo bench --bench layout -- FOLDER RF|OF|RG|OG low|normal|high`.
//!
//! Reads every `*.json` of the folder that holds instances (`bin`, and `items` as `[width, height]` or
//! `[width, height, count]`), and `bounds.csv` if it is there (`id`, then `OF_lb,OF_ub,RF_lb,RF_ub,…`). R: parts may
//! turn by 90 degrees, O: they may not; F: any layout, G: edge-to-edge cuts. One line an instance,
//! `ID SHEETS BOUND yes|no MILLISECONDS` (yes: proven least), then totals a file and over all. One thread.

use hingeleaf::layout::{Cuts, Effort, Item, Job, Sheet, Turns, Unwatched, lay_out_for};
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::Instant;

struct Instance {
    id: String,
    bin: (i64, i64),
    items: Vec<(i64, i64, u32)>,
}

#[derive(Default)]
struct Total {
    instances: u32,
    sheets: u64,
    bound: u64,
    proven: u32,
    milliseconds: f64,
    known: Option<u64>,
    below: Vec<String>,
}

fn main() {
    // Cargo adds `--bench` of its own.
    let words: Vec<String> = std::env::args().skip(1).filter(|word| word != "--bench").collect();
    let [folder, rest @ ..] = words.as_slice() else {
        println!(
            "NOT RUN: name a folder of instances: cargo bench --bench layout -- FOLDER RF|OF|RG|OG low|normal|high"
        );
        return;
    };
    let (turns, cuts, column) = match rest.first().map_or("RF", String::as_str) {
        "OF" => (Turns::NONE, Cuts::Free, 0),
        "RF" => (Turns::ANY, Cuts::Free, 2),
        "OG" => (Turns::NONE, Cuts::Trimmer, 4),
        "RG" => (Turns::ANY, Cuts::Trimmer, 6),
        other => return println!("NOT RUN: there are RF, OF, RG and OG, not {other}"),
    };
    let effort = match rest.get(1).map_or("normal", String::as_str) {
        "low" => Effort::Low,
        "normal" => Effort::Normal,
        "high" => Effort::High,
        other => return println!("NOT RUN: the effort is low, normal or high, not {other}"),
    };
    let bounds = bounds(Path::new(folder));
    let mut all = Total::default();
    for file in files(Path::new(folder)) {
        let mut total = Total::default();
        for instance in instances(&file) {
            run(
                &instance,
                (turns, cuts, effort),
                bounds.get(&instance.id).and_then(|row| row.get(column..column + 2)),
                &mut total,
            );
        }
        if total.instances > 0 {
            say(&file.file_stem().unwrap_or_default().to_string_lossy(), &total);
            all.add(total);
        }
    }
    say("all", &all);
}

fn run(instance: &Instance, how: (Turns, Cuts, Effort), known: Option<&[u64]>, total: &mut Total) {
    let (turns, cuts, effort) = how;
    let item = |&(width, height, count): &(i64, i64, u32)| Item { width, height, contour: None, turns, count };
    let items: Vec<Item> = instance.items.iter().map(item).collect();
    let sheets = [Sheet { width: instance.bin.0, height: instance.bin.1, count: None, price: None }];
    let begun = Instant::now();
    let layout = lay_out_for(&Job { items: &items, sheets: &sheets, gap: 0, effort, threads: 1 }, cuts, &Unwatched);
    let milliseconds = begun.elapsed().as_secs_f64() * 1e3;
    let Ok(layout) = layout else { return println!("{} has no layout", instance.id) };
    let sheets: u64 = layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum();
    let proven = if layout.proven_least { "yes" } else { "no" };
    println!("{} {sheets} {} {proven} {milliseconds:.1}", instance.id, layout.lower_bound);
    total.instances += 1;
    total.sheets += sheets;
    total.bound += layout.lower_bound;
    total.proven += u32::from(layout.proven_least);
    total.milliseconds += milliseconds;
    if let Some(&[least, best]) = known {
        *total.known.get_or_insert(0) += best;
        if sheets < least || layout.lower_bound > best {
            total.below.push(instance.id.clone());
        }
    }
}

impl Total {
    fn add(&mut self, other: Self) {
        self.instances += other.instances;
        self.sheets += other.sheets;
        self.bound += other.bound;
        self.proven += other.proven;
        self.milliseconds += other.milliseconds;
        self.known = other.known.map_or(self.known, |known| Some(known + self.known.unwrap_or(0)));
        self.below.extend(other.below);
    }
}

fn say(name: &str, total: &Total) {
    let known = total.known.map_or_else(String::new, |known| format!(", best known {known}"));
    println!(
        "= {name}: {} instances, {} sheets{known}, bound {}, proven least {}, {:.0} ms",
        total.instances, total.sheets, total.bound, total.proven, total.milliseconds
    );
    if !total.below.is_empty() {
        println!("= {name}: WRONG, fewer than is proven or a bound above the best known: {}", total.below.join(", "));
    }
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten().map(|entry| entry.path());
    let mut files: Vec<PathBuf> =
        entries.filter(|path| path.extension().is_some_and(|ending| ending == "json")).collect();
    files.sort();
    if files.is_empty() {
        println!("NOT RUN: there is no *.json in {}", folder.display());
    }
    files
}

fn instances(file: &Path) -> Vec<Instance> {
    let whole: Value =
        std::fs::read(file).ok().and_then(|bytes| serde_json::from_slice(&bytes).ok()).unwrap_or_default();
    let pair = |value: &Value| Some((value.get(0)?.as_i64()?, value.get(1)?.as_i64()?));
    let item = |value: &Value| {
        let (width, height) = pair(value)?;
        let count = value.get(2).map_or(Some(1), Value::as_u64)?;
        Some((width, height, u32::try_from(count).ok()?))
    };
    let shared = whole.get("bin").and_then(pair);
    let one = |value: &Value| {
        let bin = value.get("bin").and_then(pair).or(shared)?;
        let items = value.get("items")?.as_array()?.iter().map(item).collect::<Option<Vec<_>>>()?;
        Some(Instance { id: value.get("id")?.as_str()?.to_owned(), bin, items })
    };
    whole.get("instances").and_then(Value::as_array).into_iter().flatten().filter_map(one).collect()
}

/// The numbers behind each id; the heading and other forms of line have none.
fn bounds(folder: &Path) -> BTreeMap<String, Vec<u64>> {
    let text = std::fs::read_to_string(folder.join("bounds.csv")).unwrap_or_default();
    let row = |line: &str| {
        let (id, numbers) = line.split_once(',')?;
        let numbers = numbers.split(',').map(|number| number.trim().parse().ok()).collect::<Option<Vec<u64>>>()?;
        Some((id.to_owned(), numbers))
    };
    text.lines().filter_map(row).collect()
}
