// SPDX-License-Identifier: MIT
//! `hingeleaf table`: the page on the user's own machine.

use super::arguments::Table;
use super::commands::threads;
use super::inputs::{self, Ended};
use super::{End, say};
use hingeleaf::finding::Finding;
use hingeleaf::table::{self, Opened};
use std::io::{self, IsTerminal};
use std::net::{Ipv4Addr, TcpListener};
use std::path::Path;

/// Whether anybody could read or type something here.
pub(super) fn has_terminal() -> bool {
    io::stdin().is_terminal() || io::stdout().is_terminal() || io::stderr().is_terminal()
}

pub(super) fn table(wanted: &Table) -> End {
    match serve(wanted) {
        Ok(()) => End::Done,
        Err(ended) => ended.say(false),
    }
}

fn serve(wanted: &Table) -> Result<(), Ended> {
    let opened = wanted.file.as_deref().map(open).transpose()?;
    let port = wanted.port.unwrap_or(0);
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port)).map_err(|error| no_port(port, &error))?;
    let port = listener.local_addr().map_err(|error| no_port(port, &error))?.port();
    let token = table::token().map_err(|error| failed("can't get a random word from the system", &error))?;
    let address = format!("http://127.0.0.1:{port}/{token}/");
    // Nobody could find the page without its address.
    if say::out(&format!("{address}\n"), End::Done) != End::Done {
        return Err(Ended { findings: Vec::new(), end: End::MachineFailed, sources: Vec::new() });
    }
    if !wanted.no_browser && open::that_detached(&address).is_err() {
        say::out("No browser could be started: open this address in one.\n", End::Done);
    }
    let table = table::Table::new(opened, threads(None));
    table::serve(listener, token, table).map_err(|error| failed("the page can't be served any more", &error))
}

/// The file as it stands; the page says what is wrong in it.
fn open(file: &Path) -> Result<Opened, Ended> {
    let source = inputs::source(file, "check its name; hingeleaf table without a file has examples to start from")?;
    let name = file.file_name().unwrap_or(file.as_os_str()).to_string_lossy().into_owned();
    Ok(Opened { name, text: source.mark().to_owned() + source.text() })
}

fn no_port(port: u16, error: &io::Error) -> Ended {
    if port != 0 && error.kind() == io::ErrorKind::AddrInUse {
        let finding = Finding::stop("port", "", format!("another program uses port {port}"));
        return Ended::new(finding.help("end that one, or give another --port"), End::WrongInput);
    }
    failed("can't open a port on this machine", error)
}

fn failed(what: &str, error: &io::Error) -> Ended {
    let finding = Finding::stop("machine", "", format!("{what}: {error}"));
    Ended::new(finding.help("hingeleaf kit does the same work from the command line"), End::MachineFailed)
}
