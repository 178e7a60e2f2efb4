// SPDX-License-Identifier: MIT
//! What a command of one album works on: the album and the machine, from their files and the arguments.

use super::drawer::{self, DrawerFile};
use super::drawings::drawings;
use super::end::ExitStatus;
use super::inputs::{Ended, cutter, on_sheets, source};
use super::kind_files::kind_files;
use super::machine_arguments::MachineArguments;
use super::own_cutters::own_cutters;
use super::pictures::pictures;
use hingeleaf::album::{self, Album};
use hingeleaf::cutter::Cutter;
use hingeleaf::fields::{Source, raised};
use hingeleaf::finding::{Arg, Checked, Finding, Said, gravest_first, stops};
use hingeleaf::parts;
use std::path::Path;

/// What a command works on.
#[derive(Debug)]
pub(super) struct Inputs {
    pub album: Album,
    pub cutter: Cutter,
    pub sources: Vec<Source>,
    /// What is to be said although it stops nothing.
    pub notes: Vec<Finding>,
    /// The drawer that the album names.
    pub drawer: Option<DrawerFile>,
}

/// Reads everything; `findings` are problems known before, and all problems of all files come back at once.
pub(super) fn inputs(file: &Path, machine: &MachineArguments, findings: Vec<Finding>) -> Result<Inputs, Ended> {
    inputs_of(source(file, "no-file-help")?, file, machine, findings)
}

/// The same for a mended copy: of a file whose format has an older number than today's, the text with today's is read. A note says so.
pub(super) fn inputs_raised(
    file: &Path,
    machine: &MachineArguments,
    mut findings: Vec<Finding>,
) -> Result<(Inputs, bool), Ended> {
    let mut source = source(file, "no-file-help")?;
    let older = raised(&source, album::FORMAT);
    if let Some((text, before)) = &older {
        let text = source.mark().to_owned() + text;
        source = Source::new(source.name(), text.into_bytes())
            .map_err(|finding| Ended::new(*finding, ExitStatus::WrongInput))?;
        let text = Said::new("format-raised").with("found", Arg::quoted(before));
        findings.push(Finding::note("older-format", Said::NOTHING, text.with("format", Arg::quoted(album::FORMAT))));
    }
    Ok((inputs_of(source, file, machine, findings)?, older.is_some()))
}

fn inputs_of(
    source: Source,
    file: &Path,
    machine: &MachineArguments,
    mut findings: Vec<Finding>,
) -> Result<Inputs, Ended> {
    let mut sources = vec![source];
    let read = read_album(file, &mut sources);
    findings.extend(read.findings);
    let cutter = cutter(machine, &mut sources, &mut findings)?;
    let mut album = read.value.map(|album| on_sheets(album, machine, &mut findings));
    own_cutters(album.iter_mut(), machine, &mut sources, &mut findings)?;
    drawings(album.iter_mut(), &mut sources, &mut findings)?;
    pictures(album.iter_mut(), &mut findings)?;
    let mut named = album.as_mut().and_then(|album| album.drawer.take());
    let drawer = drawer::read(&mut named, &mut sources, &mut findings)?;
    if let Some(album) = &mut album {
        album.drawer = named;
    }
    gravest_first(&mut findings);
    match album {
        Some(album) if !stops(&findings) => Ok(Inputs { album, cutter, sources, notes: findings, drawer }),
        _ => Err(Ended { findings, end: ExitStatus::WrongInput, sources }),
    }
}

/// Reads the album of the first source with the kinds that it brings along; kind files are found from its folder.
pub(super) fn read_album(file: &Path, sources: &mut Vec<Source>) -> Checked<Album> {
    let folder = file.parent().unwrap_or(Path::new(""));
    let first = sources[0].clone();
    parts::read_album(&first, &mut |name| kind_files(folder, name, sources))
}

/// The album of a changed text, on the sheets that the arguments say, cut with what `before` is cut with; none where the text is
/// refused.
pub(super) fn reread(source: &Source, machine: &MachineArguments, before: &Album) -> Option<Album> {
    let album = read_album(Path::new(source.name()), &mut vec![source.clone()]).value?;
    let mut findings = Vec::new();
    let mut album = on_sheets(album, machine, &mut findings);
    for stock in &mut album.stocks {
        let known = before.stocks.iter().find(|known| known.name == stock.name);
        stock.own = known.and_then(|known| known.own.clone());
    }
    findings.extend(album.draw_like(before));
    album.drawer.clone_from(&before.drawer);
    (!stops(&findings)).then_some(album)
}
