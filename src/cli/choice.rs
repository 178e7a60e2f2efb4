// SPDX-License-Identifier: MIT
//! The mixes of kits whose pages are chosen, as the terminal lists them.

use hingeleaf::batch::{MixRow, MixTable, WorstMix};
use hingeleaf::work::BatchWork;

/// The mixes of every kit that has some, with the sheets of each; nothing where no kit has.
pub(super) fn mixes(work: &BatchWork) -> String {
    let kits = work.batch.kits.iter().zip(&work.merged.chosen);
    let of = |(kit, table): (&str, &MixTable), copies: u32| {
        let head = match copies {
            1 => format!("{kit}: sheets of each mix\n"),
            many => format!("{kit}: sheets if all {many} copies choose the same mix\n"),
        };
        head + &rows(table)
    };
    let tables = kits.filter_map(|(kit, chosen)| {
        let table = &chosen.as_ref()?.table;
        table.worst.is_some().then(|| of((&kit.name, table), work.batch.times(kit)))
    });
    tables.collect()
}

fn rows(table: &MixTable) -> String {
    let words: Vec<String> = table.rows.iter().map(|row| row.mix.said(&table.kinds).to_string()).collect();
    let wide = words.iter().map(|words| words.chars().count()).max().unwrap_or(0);
    let row = |(number, (words, row)): (usize, (&String, &MixRow))| {
        let sheets = row.all()?;
        let most = if table.worst.is_some_and(|worst| worst.row == number) { "  the most" } else { "" };
        Some(format!("  {words:<wide$}  {sheets:>5}{most}\n"))
    };
    let mut lines: Vec<String> = words.iter().zip(&table.rows).enumerate().filter_map(row).collect();
    if let (Some(WorstMix { at_most, at_least, .. }), false) = (table.worst, table.is_whole()) {
        let more = table.mixes.saturating_sub(u64::try_from(table.rows.len()).unwrap_or(u64::MAX));
        lines.push(match at_most {
            Some(most) => {
                format!("  {more} other mixes: none takes more than {most}, and some mix takes {at_least} or more\n")
            }
            None => format!("  {more} other mixes: not known\n"),
        });
    }
    lines.concat()
}
