// SPDX-License-Identifier: MIT
//! The pictures that stocks name: found from the folder of the file that names them. None is ever needed, so what is wrong with one
//! stops nothing.

use super::end::ExitStatus;
use super::inputs::{Ended, bytes_of};
use hingeleaf::album::Album;
use hingeleaf::finding::{Finding, Level};
use hingeleaf::raster::PaperPicture;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What was read of a file, and as how wide, in bits.
type ReadPictures = BTreeMap<(PathBuf, u64), Option<Arc<PaperPicture>>>;

/// What would stop another file's reader.
fn only_told(mut finding: Finding) -> Finding {
    finding.level = Level::Warn;
    finding
}

/// Reads every picture; what is wrong with one is told once, however many stocks name it.
pub(super) fn pictures<'a>(
    albums: impl Iterator<Item = &'a mut Album>,
    findings: &mut Vec<Finding>,
) -> Result<(), Ended> {
    let mut known = ReadPictures::new();
    for stock in albums.flat_map(|album| &mut album.stocks) {
        let shown = stock.clone();
        for picture in stock.pictures.files() {
            let folder = picture.place.as_ref().and_then(|place| Path::new(&*place.file).parent());
            let file = folder.unwrap_or(Path::new("")).join(&picture.name);
            let key = (file, shown.picture_width().to_bits());
            if let Some(read) = known.get(&key) {
                picture.raster.clone_from(read);
                continue;
            }
            let told = match bytes_of(&key.0, "no-picture-file-help") {
                Ok((_, bytes)) => picture.read(&bytes, &shown),
                Err(ended) if ended.end == ExitStatus::MachineFailed => return Err(ended),
                Err(ended) if ended.findings.iter().any(|finding| finding.id == "file-too-large") => {
                    vec![picture.too_large()]
                }
                Err(ended) => {
                    let told = ended.findings.into_iter().map(|finding| finding.at(picture.place.as_ref()));
                    told.map(only_told).collect()
                }
            };
            findings.extend(told);
            known.insert(key, picture.raster.clone());
        }
    }
    Ok(())
}
