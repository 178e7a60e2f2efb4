// SPDX-License-Identifier: MIT
//! `check` for a kind file: the kind tried over the whole range of its sizes, its plate drawn.

use super::arguments::Check;
use super::batch::of_one_album;

use super::end::ExitStatus;
use super::inputs::{Ended, exists, put, source};
use super::kind_files::drawing;
use super::say;
use hingeleaf::fields::Source;
use hingeleaf::finding::{Arg, Finding, Said, stops};
use hingeleaf::kind_file;
use hingeleaf::kind_trial::{KindTrial, try_kind};
use hingeleaf::parts;
use hingeleaf::picture;
use hingeleaf::write;
use std::path::Path;

/// Whether a file says that it is a kind file.
pub(super) fn is_kind(file: &Path) -> bool {
    file.is_file() && source(file, "no-file-help").is_ok_and(|source| kind_file::is_kind_file(&source))
}

pub(super) fn check(check: &Check) -> ExitStatus {
    match tried(check) {
        Ok((trial, sources)) => {
            let end = if stops(&trial.findings) { ExitStatus::DoesNotFit } else { ExitStatus::Done };
            let text = if check.json {
                write::findings(&trial.findings)
            } else {
                say::words(&trial.findings, &sources) + &verdict(&trial)
            };
            say::out(&text, end)
        }
        Err(ended) => ended.say(check.json),
    }
}

fn tried(check: &Check) -> Result<(KindTrial, Vec<Source>), Ended> {
    let of_album = [("--mend", check.mend.is_some()), ("--rounded", check.rounded.is_some())];
    let mut findings: Vec<Finding> =
        of_album.into_iter().filter(|(_, said)| *said).map(|(option, _)| of_one_album(option)).collect();
    let mut sources = vec![source(&check.file, "no-file-help")?];
    let mut read = kind_file::read(&sources[0]);
    findings.extend(read.findings);
    let folder = check.file.parent().unwrap_or(Path::new(""));
    let mut find = |name: &str| drawing(folder, name, &mut sources);
    findings.extend(read.value.iter_mut().flat_map(|kind| kind.draw(&mut find)));
    let maker = read.value.filter(|_| !stops(&findings)).and_then(parts::shelved);
    if let Some(there) = check.picture.as_ref().filter(|new| std::fs::symlink_metadata(new).is_ok()) {
        return Err(exists(there));
    }
    let Some(maker) = maker else { return Err(Ended { findings, end: ExitStatus::WrongInput, sources }) };
    let mut trial = try_kind(maker);
    trial.findings.extend(findings);
    if let Some(file) = &check.picture {
        match picture::kind(maker) {
            Some(picture) => put(file, &write::drawing(&picture))?,
            None => trial.findings.push(no_picture(&check.file)),
        }
    }
    Ok((trial, sources))
}

fn no_picture(file: &Path) -> Finding {
    let text = Said::new("kind-no-picture").with("file", Arg::code(say::name(file)));
    Finding::stop("kind-no-picture", Said::NOTHING, text).help(Said::new("kind-no-picture-help"))
}

fn verdict(trial: &KindTrial) -> String {
    let KindTrial { tried, sound, .. } = trial;
    match (*tried, *sound) {
        (0, _) => "No sizes were found at which it could be tried.\n".into(),
        (tried, sound) if tried == sound => format!("It goes together at all {tried} sizes that were tried.\n"),
        (tried, sound) => format!("It goes together at {sound} of {tried} sizes that were tried.\n"),
    }
}
