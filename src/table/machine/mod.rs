// SPDX-License-Identifier: MIT
//! The machine's settings on the page: a cutter file that lies on the table, and what was read off a test piece.

mod changes;
mod form;
mod measured;
mod piece;

pub(super) use changes::work;
pub(super) use form::form;
pub(super) use measured::empty as no_readings;
pub(super) use piece::piece;

use super::said;
use crate::cutter::{self, Cutter, limited};
use crate::fields::{Node, Source, Tree};
use crate::finding::{Arg, Checked, Finding, Place, Said, stops};
use crate::layout::Effort;
use crate::sheets::Search;
use serde::Deserialize;
use serde_json::{Value, json};

/// What the page says of the machine.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct Machine {
    /// What its cutter file is called on the table.
    name: String,
    /// What that says; with nothing all is as usual.
    text: String,
    /// What was read off the test piece, as its file.
    measured: String,
    /// Whether it is cut with a trimmer, from edge to edge.
    pub trimmer: bool,
}

/// The name under which findings speak of the machine's settings.
pub(super) const CUTTER: &str = "cutter";

/// What its file is called in a zip, where the page has no name for it.
const USUAL_NAME: &str = "my-cutter.json";

/// A cutter file that says nothing yet.
pub(super) fn empty() -> String {
    format!("{:#}\n", json!({ "format": cutter::FORMAT }))
}

impl Machine {
    /// The cutter, read by the reader of cutter files; its findings' ways begin with `cutter`.
    pub(super) fn cutter(&self) -> Checked<Cutter> {
        if self.text.trim().is_empty() {
            return Checked::new(Cutter::default(), Vec::new());
        }
        let source = match self.source() {
            Ok(source) => source,
            Err(finding) => return Checked::none(vec![*finding]),
        };
        let mut read = cutter::read(&source);
        let limits: Vec<Finding> = read.value.iter().flat_map(Cutter::findings).map(placed).collect();
        if stops(&limits) {
            read.value = None;
        }
        read.findings.extend(limits);
        read.findings.iter_mut().for_each(own);
        read
    }

    /// What there is to say of the settings, for the page.
    pub(super) fn told(&self, findings: &[Finding]) -> Vec<Value> {
        self.source().map_or_else(|_| Vec::new(), |source| said::findings(findings, &source))
    }

    /// The settings as a cutter file.
    fn source(&self) -> Result<Source, Box<Finding>> {
        Source::new(CUTTER, self.text.clone().into_bytes())
    }

    /// The settings as a file for the command line, and its name; none where nothing is said.
    pub(super) fn file(&self) -> Option<(&str, &str)> {
        let root = Node::read(&self.source().ok()?).ok()?;
        let Tree::Object(fields) = root.tree else { return None };
        let says = |name: &str| !matches!(name, "format" | "units" | "$schema");
        let name = if self.name.is_empty() { USUAL_NAME } else { &self.name };
        fields.iter().any(|(name, ..)| says(name)).then_some((name, &self.text))
    }

    /// How to search for sheets.
    pub(super) const fn search(&self, effort: Effort, threads: usize) -> Search {
        Search { effort, trimmer: self.trimmer, threads }
    }
}

/// A file's values as they stand in an object of this name.
fn within(name: &str, root: Node) -> Node {
    Node { range: 0..0, tree: Tree::Object(vec![(name.to_owned(), 0..0, root)]) }
}

/// A limit that no field is wrong of alone stands at the one that has to give way.
fn placed(finding: Finding) -> Finding {
    let Some(path) = limited(finding.id).first() else { return finding };
    let place = Place { file: CUTTER.into(), line: 1, column: 1, width: 1, path: (*path).into() };
    finding.at(Some(&place))
}

fn own(finding: &mut Finding) {
    if let Some(place) = &mut finding.place {
        finding.about = Said::new("about-machine").with("setting", Arg::term(place.path.replace('.', ", ")));
        place.path = format!("{CUTTER}.{}", place.path);
    }
}
