// SPDX-License-Identifier: MIT
//! `hingeleaf table`: the page on the user's own machine.

use super::arguments::TableArguments;
use super::commands::threads;
use super::end::ExitStatus;
use super::inputs::{self, Ended};
use super::say;
use hingeleaf::batch::{self, Batch};
use hingeleaf::fields::Source;
use hingeleaf::finding::{Finding, Place, Said};
use hingeleaf::outline::{self, Outlined};
use hingeleaf::parts;
use hingeleaf::table::{self, LaidFile, Opened};
use std::io::{self, IsTerminal};
use std::net::{Ipv4Addr, TcpListener};
use std::path::Path;

/// Whether anybody could read or type something here.
pub(super) fn has_terminal() -> bool {
    io::stdin().is_terminal() || io::stdout().is_terminal() || io::stderr().is_terminal()
}

pub(super) fn table(wanted: &TableArguments) -> ExitStatus {
    match serve(wanted) {
        Ok(()) => ExitStatus::Done,
        Err(ended) => ended.say(false),
    }
}

fn serve(wanted: &TableArguments) -> Result<(), Ended> {
    let opened = wanted.file.as_deref().map(open).transpose()?;
    let port = wanted.port.unwrap_or(0);
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port)).map_err(|error| no_port(port, &error))?;
    let port = listener.local_addr().map_err(|error| no_port(port, &error))?.port();
    let token = table::token().map_err(|error| failed("no-random-word", &error))?;
    let address = format!("http://127.0.0.1:{port}/{token}/");
    // Nobody could find the page without its address.
    if say::out(&format!("{address}\n"), ExitStatus::Done) != ExitStatus::Done {
        return Err(Ended { findings: Vec::new(), end: ExitStatus::MachineFailed, sources: Vec::new() });
    }
    if !wanted.no_browser && open::that_detached(&address).is_err() {
        say::out("No browser could be started: open this address in one.\n", ExitStatus::Done);
    }
    let session = table::Session::new(opened, threads(None));
    table::serve(listener, token, session).map_err(|error| failed("page-not-served", &error))
}

/// The file as it stands; the page says what is wrong in it.
fn open(file: &Path) -> Result<Opened, Ended> {
    let source = inputs::source(file, "no-file-for-the-page-help")?;
    let name = file.file_name().unwrap_or(file.as_os_str()).to_string_lossy().into_owned();
    let text = |source: &Source| source.mark().to_owned() + source.text();
    let (albums, mut batch) = albums(file, &source);
    let (own, laid) = table::brought(&name, &text(&source), &albums);
    let album = |text: &str| {
        let source = Source::new(&name, text.as_bytes().to_vec()).ok()?;
        parts::read_album(&source, &mut parts::no_kind_files).value
    };
    let drawings = match &mut batch {
        // What its albums name they name in their own files.
        Some(batch) => {
            let outlines = batch.kits.iter_mut().flat_map(|kit| kit.album.outlines());
            let is_own = |place: &Place| *place.file == *source.name();
            drawn(file, outlines.filter(|outlined| outlined.asked.named.as_ref().is_some_and(is_own)))
        }
        None => album(&own).iter_mut().flat_map(|album| drawn(file, album.outlines())).collect(),
    };
    let folder = file.parent().unwrap_or(Path::new(""));
    let beside = albums.iter().zip(laid).map(|((way, _), (name, text))| {
        let drawings = album(&text).iter_mut().flat_map(|album| drawn(&folder.join(way), album.outlines())).collect();
        LaidFile { name, text, drawings }
    });
    let albums = beside.collect();
    Ok(Opened { name, text: own, drawings, albums })
}

/// The drawings that a file names, as far as they can be read; the page says which are not there.
fn drawn<'a>(file: &Path, outlines: impl Iterator<Item = &'a mut Outlined>) -> Vec<(String, String)> {
    let folder = file.parent().unwrap_or(Path::new(""));
    let mut drawings: Vec<(String, String)> = Vec::new();
    for name in outlines.map(|outlined| &outlined.asked.file) {
        if drawings.iter().any(|(known, _)| known == name) {
            continue;
        }
        if let Ok(drawing) = inputs::source_as(&folder.join(name), "no-drawing-help", outline::drawing) {
            drawings.push((name.clone(), drawing.text().to_owned()));
        }
    }
    drawings
}

/// The albums that a batch file names, as far as they can be read, and the batch; the page says which are not there.
fn albums(file: &Path, source: &Source) -> (Vec<(String, String)>, Option<Batch>) {
    let folder = file.parent().unwrap_or(Path::new(""));
    let mut albums: Vec<(String, String)> = Vec::new();
    if !batch::is_batch(source) {
        return (albums, None);
    }
    let mut load = |name: &str| {
        let found = inputs::source(&folder.join(name), "no-album-of-batch-help");
        if let Ok(album) = &found {
            albums.push((name.to_owned(), album.mark().to_owned() + album.text()));
        }
        let first = |ended: Ended| ended.findings.into_iter().next();
        found.map_err(|ended| {
            Box::new(first(ended).unwrap_or_else(|| Finding::stop("file", Said::NOTHING, Said::new("no-file"))))
        })
    };
    let batch = batch::read(source, &parts::kinds(), &mut load).value;
    (albums, batch)
}

fn no_port(port: u16, error: &io::Error) -> Ended {
    if port != 0 && error.kind() == io::ErrorKind::AddrInUse {
        let text = Said::new("port-taken").with("port", port.to_string());
        let finding = Finding::stop("port", Said::NOTHING, text).help(Said::new("port-taken-help"));
        return Ended::new(finding, ExitStatus::WrongInput);
    }
    failed("no-port", error)
}

fn failed(key: &'static str, error: &io::Error) -> Ended {
    let finding = Finding::stop("machine", Said::NOTHING, Said::new(key).with("error", error.to_string()));
    Ended::new(finding.help(Said::new("page-failed-help")), ExitStatus::MachineFailed)
}
