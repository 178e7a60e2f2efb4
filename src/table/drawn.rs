// SPDX-License-Identifier: MIT
//! The drawings that lie on the table: read for the entries that name them, and what is wrong with them, told at those entries.
//!
//! An entry may name a drawing in a folder; here all lie in one place, so its name alone is looked for where the whole way is not
//! known.

use super::form::{self, FormFile};
use super::on_table::{TableAlbum, TableDrawing};
use crate::album::{Album, Entry};
use crate::batch::Batch;
use crate::fields::Source;
use crate::finding::{Finding, stops};
use crate::outline::{self, OUTLINE, OUTLINE_FIELDS};
use serde_json::{Value, json};
use std::sync::Arc;

/// The id of the finding that a drawing was not read.
const UNREAD: &str = "outline-unread";

/// What there is to say of the drawings.
#[derive(Debug, Default)]
pub(super) struct TableDrawings {
    faults: Vec<DrawnFault>,
}

/// One thing to say of a drawing.
#[derive(Debug)]
pub(super) struct DrawnFault {
    finding: Finding,
    /// The drawing that its place is in.
    pub source: Arc<Source>,
    /// The way to the field that names it.
    pub path: String,
    /// The file that this field stands in.
    file: Arc<str>,
}

/// The name without the folders before it.
pub(super) fn bare(name: &str) -> &str {
    name.rsplit(['/', '\\']).next().unwrap_or(name)
}

pub(super) fn found<'d>(drawings: &'d [TableDrawing], name: &str) -> Option<&'d TableDrawing> {
    let is_it = |one: &&TableDrawing| bare(&one.name) == bare(name);
    drawings.iter().find(|one| one.name == name).or_else(|| drawings.iter().find(is_it))
}

/// Reads the drawings of an album.
pub(super) fn of_album(album: &mut Album, drawings: &[TableDrawing]) -> TableDrawings {
    let mut drawn = TableDrawings::default();
    drawn.read(album, &|_| drawings);
    drawn
}

/// Reads the drawings of a batch of this name: an album's own, and the batch's where a kit's change names one.
pub(super) fn of_batch(
    batch: &mut Batch,
    name: &str,
    (albums, drawings): (&[TableAlbum], &[TableDrawing]),
) -> TableDrawings {
    let mut drawn = TableDrawings::default();
    let of_file = |file: &str| {
        let album = albums.iter().find(|album| album.name == file && file != name);
        album.map_or(drawings, |album| album.drawings.as_slice())
    };
    for kit in &mut batch.kits {
        drawn.read(&mut kit.album, &of_file);
    }
    drawn
}

impl TableDrawings {
    fn read<'d>(&mut self, album: &mut Album, of_file: &dyn Fn(&str) -> &'d [TableDrawing]) {
        for outlined in album.outlines() {
            let Some(place) = outlined.asked.place.clone() else { continue };
            let Some(drawing) = found(of_file(&place.file), &outlined.asked.file) else { continue };
            let findings = match outline::drawing(&drawing.name, drawing.text.clone().into_bytes()) {
                Ok(source) => {
                    let source = Arc::new(source);
                    outlined
                        .draw(Arc::clone(&source))
                        .into_iter()
                        .map(|finding| (finding, Arc::clone(&source)))
                        .collect()
                }
                Err(_) => Vec::new(),
            };
            for (finding, source) in findings {
                let path = format!("{}.file", place.path);
                let fault = DrawnFault { finding: asked_for(finding), source, path, file: Arc::clone(&place.file) };
                // Kits of one album have its drawings alike.
                if !self.faults.iter().any(|known| known.is_like(&fault)) {
                    self.faults.push(fault);
                }
            }
        }
    }

    /// What is said of the drawings takes the place of that they have not been read.
    pub(super) fn tell(&self, findings: &mut Vec<Finding>) -> Vec<Finding> {
        let told = |unread: &Finding| {
            let at =
                |fault: &DrawnFault| unread.place.as_ref().is_some_and(|place| fault.is_at(&place.file, &place.path));
            self.faults.iter().any(|fault| at(fault) && stops(std::slice::from_ref(&fault.finding)))
        };
        findings.retain(|finding| finding.id != UNREAD || !told(finding));
        self.faults.iter().map(|fault| fault.finding.clone()).collect()
    }

    /// What a finding is a fault of.
    pub(super) fn fault(&self, finding: &Finding) -> Option<&DrawnFault> {
        let fault = self.faults.iter().find(|fault| fault.finding == *finding)?;
        finding.place.as_ref().filter(|place| *place.file == *fault.source.name()).map(|_| fault)
    }
}

impl DrawnFault {
    fn is_like(&self, other: &Self) -> bool {
        self.finding == other.finding && self.path == other.path && self.file == other.file
    }

    fn is_at(&self, file: &Arc<str>, outline: &str) -> bool {
        self.file == *file && self.path.strip_suffix(".file") == Some(outline)
    }
}

/// A finding about how large it is to be stands at the field that says so.
fn asked_for(mut finding: Finding) -> Finding {
    if let Some(place) = &mut finding.place
        && matches!(finding.id, "outline-no-unit" | "outline-proportions" | "outline-size")
        && place.path.ends_with(OUTLINE.name())
    {
        place.path += ".width";
    }
    finding
}

/// The form of an entry's drawing; none for a kind that takes none.
pub(super) fn form(file: &FormFile<'_>, way: &str, entry: &Entry) -> Option<Value> {
    entry.kind.fields.iter().find(|field| field.name == OUTLINE.name())?;
    let way = format!("{way}.{}", OUTLINE.name());
    let outline = entry.outline.as_ref();
    let rows =
        outline.map(|_| form::rows(file, &way, OUTLINE_FIELDS.iter().filter(|field| field.name != "file"), &|_| None));
    Some(json!({
        "way": way,
        "file": outline.map(|outline| outline.asked.file.as_str()),
        "there": outline.is_some_and(|outline| outline.drawing.is_some()),
        "rows": rows.unwrap_or_default(),
    }))
}
