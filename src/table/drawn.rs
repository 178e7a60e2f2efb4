// SPDX-License-Identifier: MIT
//! The drawings that lie on the table: read for the entries that name them, and what is wrong with them, told at those entries.
//!
//! An entry may name a drawing in a folder; here all lie in one place, so its name alone is looked for where the whole way is not
//! known.

use super::form::{self, FormFile};
use super::named::bare;
use super::on_table::{TableDrawing, TableFile};
use crate::album::{Album, Entry};
use crate::batch::Batch;
use crate::fields::Source;
use crate::finding::{Finding, Place, stops};
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
    /// Where the drawing is named.
    pub named: Place,
    /// The kit of a batch that it is of.
    pub kit: usize,
}

pub(super) fn found<'d>(drawings: &'d [TableDrawing], name: &str) -> Option<&'d TableDrawing> {
    let is_it = |one: &&TableDrawing| bare(&one.name) == bare(name);
    drawings.iter().find(|one| one.name == name).or_else(|| drawings.iter().find(is_it))
}

/// Reads the drawings of an album.
pub(super) fn of_album(album: &mut Album, drawings: &[TableDrawing]) -> TableDrawings {
    let mut drawn = TableDrawings::default();
    drawn.read(album, 0, &|_| drawings);
    drawn
}

/// Reads the drawings of a batch of this name: an album's own, and the batch's where a kit's change names one.
pub(super) fn of_batch(
    batch: &mut Batch,
    name: &str,
    (files, drawings): (&[TableFile], &[TableDrawing]),
) -> TableDrawings {
    let mut drawn = TableDrawings::default();
    let of_file = |file: &str| {
        let album = files.iter().find(|one| one.name == file && file != name);
        album.map_or(drawings, |album| album.drawings.as_slice())
    };
    for (number, kit) in batch.kits.iter_mut().enumerate() {
        drawn.read(&mut kit.album, number, &of_file);
    }
    drawn
}

impl TableDrawings {
    fn read<'d>(&mut self, album: &mut Album, kit: usize, of_file: &dyn Fn(&str) -> &'d [TableDrawing]) {
        for outlined in album.outlines() {
            let Some(place) = outlined.asked.place.clone() else { continue };
            let named = outlined.asked.named.clone().unwrap_or_else(|| place.clone());
            let Some(drawing) = found(of_file(&named.file), &outlined.asked.file) else { continue };
            let Ok(source) = outline::drawing(&drawing.name, drawing.text.clone().into_bytes()) else { continue };
            let source = Arc::new(source);
            for finding in outlined.draw(Arc::clone(&source)) {
                let (finding, source, named) = (asked_for(finding), Arc::clone(&source), named.clone());
                let (path, file) = (format!("{}.file", place.path), Arc::clone(&place.file));
                let fault = DrawnFault { finding, source, path, file, named, kit };
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

    /// The drawing that a finding is about.
    pub(super) fn of(&self, finding: &Finding) -> Option<&DrawnFault> {
        self.faults.iter().find(|fault| fault.finding == *finding)
    }

    /// The same where its place is in the drawing itself.
    pub(super) fn within(&self, finding: &Finding) -> Option<&DrawnFault> {
        let place = finding.place.as_ref()?;
        self.of(finding).filter(|fault| *place.file == *fault.source.name())
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
        "used": outline.is_some_and(|outline| outline.shape.is_some()),
        "rows": rows.unwrap_or_default(),
    }))
}
