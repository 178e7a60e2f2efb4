// SPDX-License-Identifier: MIT
//! `hingeleaf coupon`: a test piece, and the cutter file that its readings make.

use super::coupon_arguments::CouponArguments;
use super::end::ExitStatus;
use super::inputs::{Ended, argument, exists, put, source};
use super::refusals::{refused, unwritten};
use super::say;
use hingeleaf::album::Language;
use hingeleaf::coupon::{self, save_name, saved, worked};
use hingeleaf::cutter::{self, Cutter};
use hingeleaf::fields::Source;
use hingeleaf::finding::{Finding, Said, gravest_first, stops};
use hingeleaf::paper::{Paper, sheet_size};
use hingeleaf::work::put_coupon;
use hingeleaf::write::{Folder, FolderContent, FolderProblem};
use std::path::Path;

pub(super) fn coupon(wanted: &CouponArguments) -> ExitStatus {
    match made(wanted) {
        Ok((findings, sources, text)) => {
            let end = say::findings(&findings, &sources, wanted.json, ExitStatus::Done);
            if wanted.json { end } else { say::out(&text, end) }
        }
        Err(ended) => ended.say(wanted.json),
    }
}

/// What there is to say, of which files, and in the end.
/// What was found, the files it was found in, what is printed.
type CouponAnswer = (Vec<Finding>, Vec<Source>, String);

fn made(wanted: &CouponArguments) -> Result<CouponAnswer, Ended> {
    let mut sources = Vec::new();
    let mut findings = Vec::new();
    let mut from = None;
    if let Some(file) = &wanted.cutter {
        let source = source(file, "no-cutter-file-help")?;
        let read = cutter::read(&source);
        findings.extend(read.findings);
        let limits = read.value.iter().flat_map(Cutter::findings).collect();
        findings.extend(cutter::placed(limits, &source, &|_| false));
        sources.push(source.clone());
        from = read.value.map(|cutter| (source, cutter));
    }
    match (&wanted.measured, &wanted.save, &wanted.out) {
        (Some(measured), Some(save), _) => save_cutter((measured, save), from.as_ref(), (sources, findings)),
        (_, _, Some(out)) => piece(wanted, out, from.as_ref(), (sources, findings)),
        _ => {
            Err(Ended::new(argument(Said::new("coupon-wants"), Said::new("coupon-wants-help")), ExitStatus::WrongInput))
        }
    }
}

/// Writes the test piece into a new folder.
fn piece(
    wanted: &CouponArguments,
    out: &Path,
    from: Option<&(Source, Cutter)>,
    (sources, mut findings): (Vec<Source>, Vec<Finding>),
) -> Result<CouponAnswer, Ended> {
    let cutter = from.map(|(_, cutter)| cutter.clone()).unwrap_or_default();
    let sides = sheet_size(&wanted.sheet).map_err(|error| argument(error.what, error.help));
    let piece = match sides {
        Ok((_, width, height)) => coupon::coupon(&cutter, (width, height)).map_err(|finding| *finding),
        Err(finding) => Err(finding),
    };
    let piece = match piece {
        Ok(piece) if !stops(&findings) => piece,
        Ok(_) => return Err(Ended { findings, end: ExitStatus::WrongInput, sources }),
        Err(finding) => {
            findings.push(finding);
            return Err(Ended { findings, end: ExitStatus::WrongInput, sources });
        }
    };
    let language = wanted.language.unwrap_or(Language::English);
    let paper =
        wanted.paper.unwrap_or(if wanted.sheet.eq_ignore_ascii_case("letter") { Paper::Letter } else { Paper::A4 });
    // Nothing says what of a folder is a test piece, so none is replaced.
    let no_folder = |problem| match problem {
        FolderProblem::Exists => exists(out),
        problem => refused(out, problem, "test piece"),
    };
    let mut folder = Folder::of(out, false, FolderContent::Catalogue).map_err(no_folder)?;
    let named = wanted.cutter.as_ref().and_then(|file| file.file_name());
    let named = named.map(|name| name.to_string_lossy());
    put_coupon(&piece, (&cutter, named.as_deref()), (language, paper), &mut folder)
        .map_err(|problem| unwritten(out, problem))?;
    folder.finish().map_err(no_folder)?;
    let name = say::name(out);
    // What is measured goes into a copy of the file that the piece was made with.
    let from = wanted.cutter.as_ref().map(|file| format!("--cutter {} ", say::for_a_shell(file))).unwrap_or_default();
    let text = format!(
        "Wrote {name}. Read {name}/coupon.html, cut {name}/sheets/coupon.svg or .dxf, fill in {name}/measured.json, then:\n  \
         hingeleaf coupon {from}--measured {} --save {}\n",
        say::for_a_shell(&out.join("measured.json")),
        save_name(named.as_deref())
    );
    Ok((findings, sources, text))
}

/// Writes the cutter file that readings make.
fn save_cutter(
    (measured, save): (&Path, &Path),
    from: Option<&(Source, Cutter)>,
    (mut sources, mut findings): (Vec<Source>, Vec<Finding>),
) -> Result<CouponAnswer, Ended> {
    let source = source(measured, "no-measured-file-help")?;
    let read = coupon::read(&source);
    sources.push(source);
    findings.extend(read.findings);
    let worked = read.value.map(|measured| worked(&measured));
    findings.extend(worked.iter().flat_map(|worked| worked.findings.clone()));
    if worked.as_ref().and_then(|worked| worked.value).is_some_and(|worked| worked.is_nothing()) && !stops(&findings) {
        let finding = Finding::stop("nothing-measured", Said::NOTHING, Said::new("nothing-measured"));
        findings.push(finding.help(Said::new("nothing-measured-help")));
    }
    gravest_first(&mut findings);
    let Some(worked) = worked.and_then(|worked| worked.value).filter(|_| !stops(&findings)) else {
        return Err(Ended { findings, end: ExitStatus::WrongInput, sources });
    };
    if std::fs::symlink_metadata(save).is_ok() {
        return Err(exists(save));
    }
    put(save, &saved(&worked, from.map(|(source, cutter)| (source, cutter))))?;
    let text = format!(
        "Wrote {0}. Use it with:\n  hingeleaf kit my-album.json --cutter {0} --out kit\n",
        say::for_a_shell(save)
    );
    Ok((findings, sources, text))
}
