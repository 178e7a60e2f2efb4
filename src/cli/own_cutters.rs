// SPDX-License-Identifier: MIT
//! The cutters that stocks name for themselves: their files, found from the folder of the file that names them, and what the
//! arguments say on top.

use super::end::ExitStatus;
use super::inputs::{Ended, flags, source};
use super::machine_arguments::MachineArguments;
use hingeleaf::album::Album;
use hingeleaf::cutter::{self, Cutter};
use hingeleaf::fields::Source;
use hingeleaf::finding::Finding;
use hingeleaf::stock::{By, OwnCutter, Stock};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Gives every stock the cutter that it names; a file is read, and what is wrong with it told, once.
pub(super) fn own_cutters<'a>(
    albums: impl Iterator<Item = &'a mut Album>,
    machine: &MachineArguments,
    sources: &mut Vec<Source>,
    findings: &mut Vec<Finding>,
) -> Result<(), Ended> {
    let mut known: BTreeMap<PathBuf, Option<Cutter>> = BTreeMap::new();
    for stock in albums.flat_map(|album| &mut album.stocks) {
        if let Some(OwnCutter::File { name, place }) = &stock.own {
            let file = Path::new(&*place.file).parent().unwrap_or(Path::new("")).join(name);
            let read = match known.get(&file) {
                Some(read) => read.clone(),
                None => match source(&file, "no-own-cutter-file-help") {
                    Ok(source) => {
                        let read = cutter::read(&source);
                        let limits = read.value.iter().flat_map(Cutter::findings);
                        findings.extend(limits.map(|finding| finding.at(Some(place))));
                        findings.extend(read.findings);
                        sources.push(source);
                        read.value
                    }
                    Err(ended) if ended.end == ExitStatus::MachineFailed => return Err(ended),
                    Err(ended) => {
                        findings.extend(ended.findings.into_iter().map(|finding| finding.at(Some(place))));
                        None
                    }
                },
            };
            known.insert(file, read.clone());
            if let Some(read) = read {
                stock.own = Some(OwnCutter::Settings(read));
            }
        }
        flagged(stock, machine, findings);
    }
    Ok(())
}

/// What the arguments say of the machine wins over a cutter of a stock's own; a trimmer is no machine.
fn flagged(stock: &mut Stock, machine: &MachineArguments, findings: &mut Vec<Finding>) {
    let Some(OwnCutter::Settings(own)) = stock.own.as_ref().filter(|_| stock.by == By::Machine) else { return };
    // What is wrong with the arguments is said once, where the usual machine is read.
    let with = flags(own.clone(), machine, &mut Vec::new());
    if with != *own {
        findings.extend(with.findings().into_iter().map(|finding| finding.at(stock.place.as_ref())));
        stock.own = Some(OwnCutter::Settings(with));
    }
}
