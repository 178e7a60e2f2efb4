// SPDX-License-Identifier: MIT
//! The files that lie on the table beside the one that is shown: a batch's albums, drawers, cutters, kinds, drawings; all in one place.
//!
//! In: texts with their names, as the page keeps them. Out: what a file names of them, read; what is wrong there, and where that is
//! told on the page.

use super::drawn::{self, TableDrawings};
use super::named;
use super::on_table::{TableDrawing, TableFile};
use crate::album::Album;
use crate::cutter::{self, Cutter};
use crate::drawer::{self, NamedDrawer};
use crate::fields::Source;
use crate::finding::{Arg, Finding, Said};
use crate::length::excerpt;
use crate::outline;
use crate::stock::OwnCutter;

/// Files that are named by files that are named go no further than this: a batch names albums, these a drawer.
const DEEP: usize = 3;

/// A file's text by its name; `missing` says that there is none, and its help what to do.
pub(super) fn source(beside: &[TableFile], name: &str, missing: [&'static str; 2]) -> Result<Source, Box<Finding>> {
    let Some(text) = beside.iter().find(|one| one.name == name).and_then(|one| one.text.as_ref()) else {
        let [id, help] = missing;
        let text = Said::new("not-on-the-table").with("file", Arg::code(excerpt(name)));
        return Err(Box::new(Finding::stop(id, Said::NOTHING, text).help(Said::new(help))));
    };
    Source::new(name, text.clone().into_bytes())
}

/// What a file names of the others, and where that is told on the page.
#[derive(Debug, Default)]
pub(super) struct NamedFiles {
    /// What is wrong with them, but for the drawings.
    findings: Vec<Finding>,
    /// The drawings, and what is wrong with these.
    pub drawn: TableDrawings,
    /// What the drawer is called, where one is named.
    pub drawer_name: Option<String>,
    /// Its text, where it lies on the table.
    pub drawer: Option<Source>,
    /// The files of kinds of one's own.
    kinds: Vec<Source>,
    /// The names of those that are not there.
    pub missing: Vec<String>,
    /// The cutters' texts, and the fields that name them.
    cutters: Vec<(Source, String)>,
}

impl NamedFiles {
    /// A kind file that an album names. What is wrong in it is told by whoever reads the album.
    pub(super) fn kind_file(
        &mut self,
        name: &str,
        (beside, drawings): (&[TableFile], &[TableDrawing]),
    ) -> Result<Vec<Source>, Box<Finding>> {
        // A drawing that a kind names lies with the kind's file, of a kind in the album's own text with that.
        let laid = std::iter::once(drawings).chain(beside.iter().map(|one| one.drawings.as_slice()));
        let mut found = laid.filter_map(|drawings| drawn::found(drawings, name));
        if let Some(drawing) = found.find(|_| beside.iter().all(|one| one.name != name)) {
            return Ok(vec![outline::drawing(&drawing.name, drawing.text.clone().into_bytes())?]);
        }
        let found = source(beside, name, ["no-kind-here", "kind-not-on-the-table"])
            .inspect_err(|_| self.missing.push(name.to_owned()))?;
        if !self.kinds.iter().any(|known| known.name() == found.name()) {
            self.kinds.push(found.clone());
        }
        Ok(vec![found])
    }

    /// Gives albums the cutters that they name.
    pub(super) fn cutters<'a>(&mut self, albums: impl Iterator<Item = &'a mut Album>, beside: &[TableFile]) {
        let mut known: Vec<(String, Option<Cutter>)> = Vec::new();
        for stock in albums.flat_map(|album| &mut album.stocks) {
            let Some(OwnCutter::File { name, place }) = &stock.own else { continue };
            let read = known.iter().find(|(known, _)| known == name).map(|(_, read)| read.clone());
            let read =
                read.unwrap_or_else(|| match source(beside, name, ["no-cutter-here", "cutter-not-on-the-table"]) {
                    Ok(source) => {
                        let read = cutter::read(&source);
                        let limits = read.value.iter().flat_map(Cutter::findings);
                        self.findings.extend(limits.map(|finding| finding.at(Some(place))));
                        self.findings.extend(read.findings);
                        self.cutters.push((source, place.path.clone()));
                        read.value
                    }
                    Err(finding) => {
                        self.findings.push(finding.at(Some(place)));
                        None
                    }
                });
            known.push((name.clone(), read.clone()));
            if let Some(read) = read {
                stock.own = Some(OwnCutter::Settings(read));
            }
        }
    }

    /// Reads the drawer that a file names.
    pub(super) fn drawer(&mut self, named: &mut Option<NamedDrawer>, beside: &[TableFile]) {
        let Some(NamedDrawer::File { name, place }) = named else { return };
        self.drawer_name = Some(name.clone());
        match source(beside, name, ["no-drawer-here", "drawer-not-on-the-table"]) {
            Ok(source) => {
                let read = drawer::read(&source);
                self.findings.extend(read.findings);
                self.drawer = Some(source);
                *named = read.value.map(NamedDrawer::Read);
            }
            Err(finding) => self.findings.push(finding.at(Some(place))),
        }
    }

    /// Something to say of a file that is named.
    pub(super) fn say(&mut self, findings: Vec<Finding>) {
        self.findings.extend(findings);
    }

    /// What is said of the files; of a drawing it takes the place of that this has not been read.
    pub(super) fn tell(&self, findings: &mut Vec<Finding>) -> Vec<Finding> {
        self.findings.iter().cloned().chain(self.drawn.tell(findings)).collect()
    }

    /// The file that a finding is in, and the field of the page that it is at; none in the file itself.
    pub(super) fn of(&self, finding: &Finding) -> Option<(&Source, String)> {
        if let Some(fault) = self.drawn.within(finding) {
            return Some((&fault.source, fault.path.clone()));
        }
        let place = finding.place.as_ref()?;
        let is_it = |source: &Source| *place.file == *source.name();
        let drawer = self.drawer.as_ref().filter(|drawer| is_it(drawer));
        let drawer = drawer.map(|drawer| (drawer, format!("drawer.{}", place.path)));
        let cutter = || self.cutters.iter().find(|(source, _)| is_it(source));
        let kind = || self.kinds.iter().find(|source| is_it(source)).map(|source| (source, "kinds".to_owned()));
        drawer.or_else(|| cutter().map(|(source, path)| (source, path.clone()))).or_else(kind)
    }
}

/// All files of the table that a text names, and that these name in turn.
pub(super) fn needed<'f>(source: &Source, beside: &'f [TableFile]) -> Vec<&'f TableFile> {
    let mut all: Vec<&TableFile> = Vec::new();
    let mut from = vec![source.clone()];
    for _ in 0..DEEP {
        let mut next = Vec::new();
        for name in from.iter().flat_map(named::names) {
            let file = beside.iter().find(|one| one.name == name);
            let Some((file, text)) = file.and_then(|one| Some((one, one.text.as_deref()?))) else { continue };
            if all.iter().all(|known| known.name != name) {
                all.push(file);
                next.extend(Source::new(&name, text.as_bytes().to_vec()));
            }
        }
        from = next;
    }
    all
}
