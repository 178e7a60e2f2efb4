// SPDX-License-Identifier: MIT
//! Answers on their way out: words, JSON, files.

use super::access::Refusal;
use super::question::Question;
use super::{assets, words};
use crate::finding::Said;
use crate::work::Files;
use crate::write::{self, Memory, WriteProblem};
use serde_json::{Value, json};

/// An answer on its way out.
#[derive(Debug)]
pub(super) struct Reply {
    /// The HTTP status.
    pub status: u16,
    /// The kind of the body.
    pub kind: &'static str,
    /// The body.
    pub body: Vec<u8>,
    /// Whether the program ends with it.
    pub ends: bool,
}

const JSON: &str = "application/json";
/// One answer a line.
const LINES: &str = "application/x-ndjson";
const PLAIN: &str = "text/plain; charset=utf-8";

impl Reply {
    fn new(status: u16, kind: &'static str, body: impl Into<Vec<u8>>) -> Self {
        Self { status, kind, body: body.into(), ends: false }
    }

    /// Plain words.
    pub(super) fn words(status: u16, said: &Said) -> Self {
        Self::new(status, PLAIN, format!("{}\n", words::say(said)))
    }

    /// The plain words of a key.
    pub(super) fn word(status: u16, key: &'static str) -> Self {
        Self::words(status, &Said::new(key))
    }

    /// Why nothing is answered.
    pub(super) fn refused(refusal: Refusal) -> Self {
        match refusal {
            Refusal::Host | Refusal::Origin => Self::word(403, "page-of-its-own-machine"),
            Refusal::Token => Self::new(403, "text/html; charset=utf-8", include_str!("page/other-run.html")),
        }
    }

    /// One of the page's own files.
    pub(super) fn page(name: &str) -> Self {
        assets::asset(name)
            .map_or_else(|| Self::word(404, "nothing-here"), |asset| Self::new(200, asset.kind, asset.text))
    }

    /// A JSON file.
    pub(super) fn json_text(text: String) -> Self {
        Self::new(200, JSON, text)
    }

    /// The first of two lines of JSON.
    pub(super) fn first(line: String) -> Self {
        Self::new(200, LINES, line)
    }

    /// That the program itself is at fault.
    pub(super) fn failed() -> Self {
        Self::word(500, "program-failed")
    }

    /// What stands in the second line where a first one went out as an answer: this, or why there is none.
    pub(super) fn second(self) -> Vec<u8> {
        if self.status < 400 {
            return self.body;
        }
        json!({ "failed": String::from_utf8_lossy(&self.body).trim() }).to_string().into_bytes()
    }

    /// An answer in JSON.
    pub(super) fn json(value: &Value) -> Self {
        Self::new(200, JSON, value.to_string())
    }
}

/// One file of the kit, or several as a zip.
pub(super) fn taken_away(
    question: &Question,
    write: &dyn Fn(&Files<'_>, &mut Memory) -> Result<(), WriteProblem>,
) -> Reply {
    let one = question.file.as_str();
    let formats: Vec<&str> = match (one.rsplit_once('.'), question.formats.is_empty()) {
        (Some((_, ending)), _) => vec![ending],
        (None, true) => Files::ALL.formats.to_vec(),
        (None, false) => question.formats.iter().map(String::as_str).collect(),
    };
    let mut files = Memory::default();
    if let Err(problem) = write(&Files { formats: &formats, ..Files::ALL }, &mut files) {
        return not_written(&problem.to_string());
    }
    if !one.is_empty() {
        return files.files.remove(one).map_or_else(
            || Reply::word(404, "no-such-file"),
            |bytes| Reply::new(200, "application/octet-stream", bytes),
        );
    }
    zipped(&files)
}

/// Files as a zip.
pub(super) fn zipped(files: &Memory) -> Reply {
    match write::zip(files) {
        Ok(bytes) => Reply::new(200, "application/zip", bytes),
        Err(error) => not_written(&error.to_string()),
    }
}

/// That files could not be made.
pub(super) fn not_written(error: &str) -> Reply {
    Reply::words(500, &Said::new("kit-not-written").with("error", error))
}
