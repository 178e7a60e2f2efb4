// SPDX-License-Identifier: MIT
//! Lists the kinds, and draws a plate of each into a folder.

use super::arguments::Catalogue;
use super::commands::counted;
use super::end::ExitStatus;
use super::inputs::{Ended, system};
use super::refusals::refused;
use super::say;
use hingeleaf::finding::{Arg, Finding, Said};
use hingeleaf::parts;
use hingeleaf::write::{self, Folder, FolderContent};
use std::path::Path;

pub(super) fn catalogue(catalogue: &Catalogue) -> ExitStatus {
    let kinds = parts::kinds();
    if let Some(name) = &catalogue.source {
        return match parts::source_of(name) {
            Some(text) => say::out(text, ExitStatus::Done),
            None => Ended::new(no_source(name), ExitStatus::WrongInput).say(false),
        };
    }
    if let Some(out) = &catalogue.out {
        if let Err(ended) = plates(out, catalogue.replace) {
            return ended.say(catalogue.json);
        }
        if !catalogue.json {
            let said = format!("Wrote {} into {}.\n", counted(kinds.len() as u64, "plate"), say::name(out));
            return say::out(&said, ExitStatus::Done);
        }
    }
    let text = if catalogue.json { write::catalogue_json(&kinds) } else { write::catalogue(&kinds) };
    say::out(&text, ExitStatus::Done)
}

fn plates(out: &Path, replace: bool) -> Result<(), Ended> {
    let refused = |problem| refused(out, problem, "catalogue");
    let mut folder = Folder::of(out, replace, FolderContent::Catalogue).map_err(refused)?;
    write::plates(&mut folder)
        .map_err(|error| Ended::new(system("can-not-write", out, &error), ExitStatus::MachineFailed))?;
    folder.finish().map(drop).map_err(refused)
}

/// There is no such kind, or code states it.
fn no_source(name: &str) -> Finding {
    let all = parts::kinds();
    let known = all.iter().any(|kind| kind.name == name);
    let filed = all.iter().filter(|kind| kind.file.is_some()).map(|kind| Arg::code(kind.name)).collect();
    let text = if known { Said::new("kind-in-code") } else { Said::new("kind-unknown") };
    let help = Said::new("kind-source-help").with("names", Arg::Row(filed));
    Finding::stop(
        "kind-source",
        Said::NOTHING,
        text.with("name", Arg::quoted(name.chars().take(60).collect::<String>())),
    )
    .help(help)
}
