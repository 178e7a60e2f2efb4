// SPDX-License-Identifier: MIT
//! The drawings that entries name for their outlines: found from the folder of the file that names them.

use super::end::ExitStatus;
use super::inputs::{Ended, source_as};
use hingeleaf::album::Album;
use hingeleaf::fields::Source;
use hingeleaf::finding::Finding;
use hingeleaf::outline::{self, Outlined};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Reads every drawing; what is wrong with one is told once, however many entries ask the same of it.
pub(super) fn drawings<'a>(
    albums: impl Iterator<Item = &'a mut Album>,
    sources: &mut Vec<Source>,
    findings: &mut Vec<Finding>,
) -> Result<(), Ended> {
    let mut read: Vec<(PathBuf, Outlined)> = Vec::new();
    for outlined in albums.flat_map(Album::outlines) {
        let place = outlined.asked.place.as_ref();
        let named = outlined.asked.named.as_ref();
        let folder = named.and_then(|place| Path::new(&*place.file).parent()).unwrap_or(Path::new(""));
        let file = folder.join(&outlined.asked.file);
        if let Some((_, known)) = read.iter().find(|(known, asked)| *known == file && asked.asks_like(outlined)) {
            outlined.shape.clone_from(&known.shape);
            outlined.drawing.clone_from(&known.drawing);
            continue;
        }
        match source_as(&file, "no-drawing-help", outline::drawing) {
            Ok(source) => {
                findings.extend(outlined.draw(Arc::new(source.clone())));
                if !sources.iter().any(|known| known.name() == source.name()) {
                    sources.push(source);
                }
            }
            Err(ended) if ended.end == ExitStatus::MachineFailed => return Err(ended),
            Err(ended) => findings.extend(ended.findings.into_iter().map(|finding| finding.at(place))),
        }
        read.push((file, outlined.clone()));
    }
    Ok(())
}
