// SPDX-License-Identifier: MIT
//! `hingeleaf table`: the page on the user's own machine.

use super::arguments::TableArguments;
use super::commands::threads;
use super::end::ExitStatus;
use super::inputs::{self, Ended};
use super::kind_files::of_folder;
use super::say;
use hingeleaf::fields::Source;
use hingeleaf::finding::{Finding, Said};
use hingeleaf::table::{self, LaidFile, Opened};
use std::io::{self, IsTerminal};
use std::net::{Ipv4Addr, TcpListener};
use std::path::{Path, PathBuf};

/// The page lays no more files on the table at once: our choice.
const MOST_FILES: usize = 500;

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

/// The file as it stands, with the files that it names; the page says what is wrong in them, and which are not there.
fn open(file: &Path) -> Result<Opened, Ended> {
    let source = without_folders(file, inputs::source(file, "no-file-for-the-page-help")?);
    let name = file.file_name().unwrap_or(file.as_os_str()).to_string_lossy().into_owned();
    let folder = file.parent().unwrap_or(Path::new(""));
    let text = |source: &Source| source.mark().to_owned() + source.text();
    let mut files = vec![(name, text(&source))];
    let mut drawn = vec![drawings(file, &source)];
    let mut from = vec![(files[0].0.clone(), source)];
    // An order names albums, these name a drawer and cutters.
    for _ in 0..2 {
        let mut next = Vec::new();
        for (way, source) in &from {
            for said in table::names(source) {
                let way = table::beside_of(way, &said);
                let known = files.iter().any(|(known, _)| *known == way);
                let Ok(found) = inputs::source(&folder.join(&way), "no-album-of-batch-help") else { continue };
                let found = without_folders(&folder.join(&way), found);
                if !known && files.len() < MOST_FILES {
                    drawn.push(drawings(&folder.join(&way), &found));
                    files.push((way.clone(), text(&found)));
                    next.push((way, found));
                }
            }
        }
        from = next;
    }
    let mut laid = table::brought(&files).into_iter().zip(drawn);
    let ((name, text), drawings) = laid.next().unwrap_or_default();
    let files = laid.map(|((name, text), drawings)| LaidFile { name, text, drawings }).collect();
    Ok(Opened { name, text, drawings, files })
}

/// A file in which each kind file of a folder that it names is named: the page opens no folder.
fn without_folders(file: &Path, source: Source) -> Source {
    let folder = file.parent().unwrap_or(Path::new(""));
    let text = table::unfolded(&source, &mut |said| {
        let files = of_folder(&folder.join(said)).ok().filter(|_| folder.join(said).is_dir())?;
        let way =
            |file: &PathBuf| Some(format!("{}/{}", said.trim_end_matches(['/', '\\']), file.file_name()?.to_str()?));
        Some(files.iter().filter_map(way).collect())
    });
    Source::new(source.name(), text.into_bytes()).unwrap_or(source)
}

/// The drawings and pictures that a file names, as far as they can be read; the page says which are not there.
fn drawings(file: &Path, source: &Source) -> Vec<(String, String)> {
    let folder = file.parent().unwrap_or(Path::new(""));
    let read = |name: String| {
        let (_, bytes) = inputs::bytes_of(&folder.join(&name), "no-drawing-help").ok()?;
        Some((name, table::text_of(&bytes)))
    };
    table::drawings(source).into_iter().take(MOST_FILES).filter_map(read).collect()
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
