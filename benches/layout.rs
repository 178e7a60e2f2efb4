// SPDX-License-Identifier: MIT
//! The layout engine on open benchmark data: `cargo bench --bench layout -- FOLDER RF|OF|RG|OG low|normal|high`, and on a
//! growing album: `cargo bench --bench layout -- kit`; what a maker likes, of 200 random kits: `… -- wishes [low|normal|high]`.
//!
//! Reads every `*.json` of the folder that holds instances (`bin`, and `items` as `[width, height]` or
//! `[width, height, count]`), and `bounds.csv` if it is there (`id`, then `OF_lb,OF_ub,RF_lb,RF_ub,…`). R: parts may
//! turn by 90 degrees, O: they may not; F: any layout, G: edge-to-edge cuts. One line an instance,
//! `ID SHEETS BOUND yes|no MILLISECONDS` (yes: proven least), then a table by file. One thread.
//!
//! With `HINGELEAF_PEERS` set to a Python that has `rectpack`, its simple rules (`tests/outside/peer.py`) lay the same
//! instances in the same run.

#[path = "../tests/all/common/instances.rs"]
#[allow(dead_code, clippy::unwrap_used, reason = "made for the tests")]
mod instances;
#[path = "../tests/all/common/wishes.rs"]
#[allow(dead_code, clippy::unwrap_used, reason = "made for the tests")]
mod wishes;

use hingeleaf::layout::{Cuts, Effort, Item, Problem, SheetType, Turns, Unwatched, lay_out_for};
use instances::{Dice, MM};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Instant;
use wishes::{RandomKit, Wishes};

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
    peer: Option<u64>,
    below: Vec<String>,
}

fn main() {
    // Cargo adds `--bench` of its own.
    let words: Vec<String> = std::env::args().skip(1).filter(|word| word != "--bench").collect();
    let [folder, rest @ ..] = words.as_slice() else {
        println!(
            "NOT RUN: name a folder of instances: cargo bench --bench layout -- FOLDER RF|OF|RG|OG low|normal|high, \
             or say kit or wishes"
        );
        return;
    };
    if folder == "kit" {
        return kits();
    }
    if folder == "wishes" {
        return liked(rest.first().map_or("normal", String::as_str));
    }
    let (turns, cuts, column) = match rest.first().map_or("RF", String::as_str) {
        "OF" => (Turns::NONE, Cuts::Free, 0),
        "RF" => (Turns::ANY, Cuts::Free, 2),
        "OG" => (Turns::NONE, Cuts::Trimmer, 4),
        "RG" => (Turns::ANY, Cuts::Trimmer, 6),
        other => return println!("NOT RUN: there are RF, OF, RG and OG, not {other}"),
    };
    let Some(effort) = effort(rest.get(1).map_or("normal", String::as_str)) else { return };
    let bounds = bounds(Path::new(folder));
    let mut all = Total { peer: Some(0), ..Total::default() };
    let mut table: Vec<(String, Total)> = Vec::new();
    for file in files(Path::new(folder)) {
        let mut total = Total::default();
        let instances = instances_of(&file);
        for instance in &instances {
            run(
                instance,
                (turns, cuts, effort),
                bounds.get(&instance.id).and_then(|row| row.get(column..column + 2)),
                &mut total,
            );
        }
        if total.instances > 0 {
            total.peer = peer(&instances, turns, cuts);
            all.add(&total);
            table.push((file.file_stem().unwrap_or_default().to_string_lossy().into_owned(), total));
        }
    }
    table.push(("all".to_owned(), all));
    say(&table);
}

fn effort(word: &str) -> Option<Effort> {
    let found = [("low", Effort::Low), ("normal", Effort::Normal), ("high", Effort::High)];
    let found = found.into_iter().find(|(name, _)| *name == word).map(|(_, effort)| effort);
    if found.is_none() {
        println!("NOT RUN: the effort is low, normal or high, not {word}");
    }
    found
}

/// What a maker likes in the layouts of random kits: one line a kit, then the sums.
fn liked(word: &str) {
    let Some(effort) = effort(word) else { return };
    let mut sums = [0.0; 6];
    println!("kit sheets leftover% different straight settings ms");
    for number in 0..200 {
        let kit = RandomKit::new(number);
        let problem = kit.problem(effort);
        let begun = Instant::now();
        let Ok(layout) = lay_out_for(&problem, kit.cuts, &Unwatched) else { continue };
        let milliseconds = begun.elapsed().as_secs_f64() * 1e3;
        let of = Wishes::of(&layout, &problem);
        #[allow(clippy::cast_precision_loss, reason = "small counts")]
        let counts = [of.sheets as f64, of.different as f64, of.straight as f64, of.settings as f64];
        let [sheets, different, straight, settings] = counts;
        let row = [sheets, 100.0 * of.leftover, different, straight, settings, milliseconds];
        println!("{number} {sheets} {:.2} {different} {straight} {settings} {milliseconds:.2}", 100.0 * of.leftover);
        for (sum, one) in sums.iter_mut().zip(row) {
            *sum += one;
        }
    }
    println!("all {} {:.2} {} {} {} {:.0}", sums[0], sums[1] / 200.0, sums[2], sums[3], sums[4], sums[5]);
}

/// The sheets that the simple rules of another library take, if it is there.
fn peer(instances: &[Instance], turns: Turns, cuts: Cuts) -> Option<u64> {
    let python = std::env::var_os("HINGELEAF_PEERS")?;
    let list: Vec<Value> = instances
        .iter()
        .map(|instance| json!({ "id": instance.id, "bin": instance.bin, "items": instance.items }))
        .collect();
    let task = json!({ "turning": turns == Turns::ANY, "trimmer": cuts == Cuts::Trimmer, "instances": list });
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/outside/peer.py");
    let mut child = Command::new(python).arg(script).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().ok()?;
    child.stdin.take()?.write_all(task.to_string().as_bytes()).ok()?;
    let output = child.wait_with_output().ok().filter(|output| output.status.success())?;
    let text = String::from_utf8(output.stdout).ok()?;
    let sheets: Vec<u64> = text.lines().filter_map(|line| line.split_once(' ')?.1.parse().ok()).collect();
    (sheets.len() == instances.len()).then(|| sheets.iter().sum())
}

/// What copies and distinct parts cost: parts like those of an album on A3 sheets, kerf and gap 1 mm, any turn.
fn kits() {
    println!("{:>7} {:>7} {:>7} {:>7} {:>7} {:>7}", "parts", "copies", "sheets", "least", "proven", "ms");
    let sheet = [SheetType { width: 297 * MM, height: 420 * MM, count: None, price: None }];
    let line = |items: &[Item], copies: u32| {
        let begun = Instant::now();
        let problem = Problem { items, sheets: &sheet, gap: MM, effort: Effort::Normal, threads: 1 };
        let Ok(layout) = lay_out_for(&problem, Cuts::Free, &Unwatched) else { return println!("no layout") };
        let milliseconds = begun.elapsed().as_secs_f64() * 1e3;
        let sheets: u64 = layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum();
        let proven = if layout.proven_least { "yes" } else { "no" };
        println!(
            "{:>7} {copies:>7} {sheets:>7} {:>7} {proven:>7} {milliseconds:>7.0}",
            items.len(),
            layout.lower_bound
        );
    };
    for copies in [1, 10, 100] {
        line(&instances::kit(copies), copies);
    }
    for distinct in [5, 20, 80] {
        for copies in [1, 10, 100] {
            let mut dice = Dice(distinct);
            let mut part = || Item {
                width: dice.from(30, 200) * MM,
                height: dice.from(30, 260) * MM,
                contour: None,
                holes: Vec::new(),
                turns: Turns::ANY,
                count: copies,
            };
            let items: Vec<Item> = (0..distinct).map(|_| part()).collect();
            line(&items, copies);
        }
    }
}

fn run(instance: &Instance, how: (Turns, Cuts, Effort), known: Option<&[Option<u64>]>, total: &mut Total) {
    let (turns, cuts, effort) = how;
    let item = |&(width, height, count): &(i64, i64, u32)| Item {
        width,
        height,
        contour: None,
        holes: Vec::new(),
        turns,
        count,
    };
    let items: Vec<Item> = instance.items.iter().map(item).collect();
    let sheets = [SheetType { width: instance.bin.0, height: instance.bin.1, count: None, price: None }];
    let begun = Instant::now();
    let layout = lay_out_for(&Problem { items: &items, sheets: &sheets, gap: 0, effort, threads: 1 }, cuts, &Unwatched);
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
    // Where no layout is known, ours counts.
    if let Some(&[least, best]) = known {
        *total.known.get_or_insert(0) += best.unwrap_or(sheets);
        if least.is_some_and(|least| sheets < least) || best.is_some_and(|best| layout.lower_bound > best) {
            total.below.push(instance.id.clone());
        }
    }
}

impl Total {
    fn add(&mut self, other: &Self) {
        self.instances += other.instances;
        self.sheets += other.sheets;
        self.bound += other.bound;
        self.proven += other.proven;
        self.milliseconds += other.milliseconds;
        self.known = other.known.map_or(self.known, |known| Some(known + self.known.unwrap_or(0)));
        self.peer = self.peer.zip(other.peer).map(|(all, more)| all + more);
        self.below.extend(other.below.iter().cloned());
    }
}

fn say(table: &[(String, Total)]) {
    println!(
        "= {:<10} {:>9} {:>7} {:>10} {:>6} {:>6} {:>7} {:>8} {:>9}",
        "file", "instances", "sheets", "best known", "peer", "least", "proven", "per cent", "ms"
    );
    let or_dash = |number: Option<u64>| number.map_or_else(|| "-".to_owned(), |number| number.to_string());
    for (name, total) in table {
        println!(
            "= {name:<10} {:>9} {:>7} {:>10} {:>6} {:>6} {:>7} {:>8.1} {:>9.0}",
            total.instances,
            total.sheets,
            or_dash(total.known),
            or_dash(total.peer),
            total.bound,
            total.proven,
            f64::from(total.proven) * 100.0 / f64::from(total.instances.max(1)),
            total.milliseconds
        );
        if !total.below.is_empty() && name != "all" {
            println!("= WRONG, fewer than is proven or a bound above the best known: {}", total.below.join(", "));
        }
    }
    if std::env::var_os("HINGELEAF_PEERS").is_none() {
        println!("= NOT RUN: the peer. Name a Python that has rectpack in HINGELEAF_PEERS.");
    } else if table.iter().any(|(_, total)| total.peer.is_none()) {
        println!("= NOT RUN: the peer failed. Does the Python in HINGELEAF_PEERS have rectpack?");
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

fn instances_of(file: &Path) -> Vec<Instance> {
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

/// The columns that are looked up, by their names in the heading: least and best known of each way to lay out.
const COLUMNS: [&str; 8] = ["OF_lb", "OF_ub", "RF_lb", "RF_ub", "OG_lb", "OG_ub", "RG_lb", "RG_ub"];

/// The numbers of these columns behind each id, where there are any.
fn bounds(folder: &Path) -> BTreeMap<String, Vec<Option<u64>>> {
    let text = std::fs::read_to_string(folder.join("bounds.csv")).unwrap_or_default();
    let heading: Vec<&str> = text.lines().next().unwrap_or_default().split(',').map(str::trim).collect();
    let row = |line: &str| {
        let numbers: Vec<&str> = line.split(',').map(str::trim).collect();
        let number = |name: &&str| {
            let column = heading.iter().position(|column| column == name)?;
            numbers.get(column)?.parse().ok()
        };
        Some(((*numbers.first()?).to_owned(), COLUMNS.iter().map(number).collect()))
    };
    text.lines().skip(1).filter_map(row).collect()
}
