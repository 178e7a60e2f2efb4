// SPDX-License-Identifier: MIT
//! The machine's settings as the page has them, and the kit to take away.

use super::said;
use crate::cutter::{self, Cutter};
use crate::fields::Source;
use crate::finding::{Arg, Checked, Finding, Said};
use crate::layout::Effort;
use crate::sheets::Search;
use serde::Deserialize;
use serde_json::{Map, Value};

/// What the page says of the machine, as it was typed; a bare number is in mm.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct Machine {
    kerf: String,
    margin: String,
    gap: String,
    /// Whether it is cut with a trimmer, from edge to edge.
    pub trimmer: bool,
}

/// The name under which findings speak of the machine's settings.
pub(super) const CUTTER: &str = "cutter";

impl Machine {
    /// The cutter, read by the reader of cutter files; its findings' ways begin with `cutter`.
    pub(super) fn cutter(&self) -> Checked<Cutter> {
        let source = match self.source() {
            Ok(source) => source,
            Err(finding) => return Checked::none(vec![*finding]),
        };
        let mut read = cutter::read(&source);
        read.findings.iter_mut().for_each(own);
        read
    }

    /// What there is to say of the settings, for the page.
    pub(super) fn told(&self, findings: &[Finding]) -> Vec<Value> {
        self.source().map_or_else(|_| Vec::new(), |source| said::findings(findings, &source))
    }

    /// The settings as a cutter file.
    fn source(&self) -> Result<Source, Box<Finding>> {
        Source::new(CUTTER, Value::Object(self.written()).to_string().into_bytes())
    }

    fn written(&self) -> Map<String, Value> {
        let mut file = Map::new();
        file.insert("format".into(), "hingeleaf-cutter/1".into());
        for (name, typed) in [("kerf", &self.kerf), ("margin", &self.margin), ("gap", &self.gap)] {
            let typed = typed.trim();
            if !typed.is_empty() {
                let number = typed.parse::<f64>().ok().and_then(serde_json::Number::from_f64).map(Value::from);
                file.insert(name.into(), number.unwrap_or_else(|| typed.into()));
            }
        }
        file
    }

    /// The settings as a file for the command line; none where nothing is said.
    pub(super) fn file(&self) -> Option<String> {
        let file = self.written();
        (file.len() > 1).then(|| format!("{:#}\n", Value::Object(file)))
    }

    /// How to search for sheets.
    pub(super) const fn search(&self, effort: Effort, threads: usize) -> Search {
        Search { effort, trimmer: self.trimmer, threads }
    }
}

fn own(finding: &mut Finding) {
    if let Some(place) = &mut finding.place {
        finding.about = Said::new("about-machine").with("setting", Arg::term(&place.path));
        place.path = format!("{CUTTER}.{}", place.path);
    }
}
