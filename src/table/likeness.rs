// SPDX-License-Identifier: MIT
//! Pictures of stocks on the table: kept there as texts, as everything is; read for the stocks that name them, shown by reference, so
//! that each goes to the browser once an answer.

use super::drawn::found;
use super::on_table::{TableDrawing, TableFile};
use crate::album::Album;
use crate::batch::Batch;
use crate::finding::{Arg, Finding, Said};
use crate::length::excerpt;
use crate::raster::{PaperPicture, RasterFault};
use crate::stock::{PictureFile, Stock};
use crate::write;
use serde_json::{Map, Value, json};
use sha2::{Digest, Sha256};
use std::sync::{Arc, Mutex, PoisonError};

/// What the text of a picture begins with (RFC 2397).
const ADDRESS: &str = "data:image/";
/// So many pictures are known from one question to the next.
const KNOWN: usize = 8;
/// The page shows them so many points wide: our choice.
const SHOWN: u32 = 800;

/// What is read once, by a digest of its text and its width.
type KnownRasters = Vec<(([u8; 32], u64), Result<Arc<PaperPicture>, RasterFault>)>;

static RASTERS: Mutex<KnownRasters> = Mutex::new(Vec::new());

/// A file as a text of the table: letters as they are, a picture as an address that holds it. Letters that are no UTF-8 stand in names
/// alone.
#[must_use]
pub fn text_of(bytes: &[u8]) -> String {
    let kind = match bytes {
        [0x89, b'P', b'N', b'G', ..] => "png",
        [0xFF, 0xD8, 0xFF, ..] => "jpeg",
        _ => return String::from_utf8_lossy(bytes).into_owned(),
    };
    format!("{ADDRESS}{kind};base64,{}", write::base64(bytes))
}

/// The bytes of such a text.
pub(super) fn bytes_of(text: &str) -> Vec<u8> {
    let held = text.strip_prefix(ADDRESS).and_then(|rest| rest.split_once(";base64,"));
    held.and_then(|(_, held)| write::from_base64(held)).unwrap_or_else(|| text.as_bytes().to_vec())
}

/// Reads the pictures of an album; what there is to say of them.
pub(super) fn of_album(album: &mut Album, drawings: &[TableDrawing]) -> Vec<Finding> {
    read(std::iter::once(album), &|_| drawings)
}

/// Reads the pictures of a batch of this name: an album's own, and the batch's where a kit's change names one.
pub(super) fn of_batch(
    batch: &mut Batch,
    name: &str,
    (files, drawings): (&[TableFile], &[TableDrawing]),
) -> Vec<Finding> {
    let of_file = |file: &str| {
        let album = files.iter().find(|one| one.name == file && file != name);
        album.map_or(drawings, |album| album.drawings.as_slice())
    };
    read(batch.kits.iter_mut().map(|kit| &mut kit.album), &of_file)
}

fn read<'a, 'd>(
    albums: impl Iterator<Item = &'a mut Album>,
    of_file: &dyn Fn(&str) -> &'d [TableDrawing],
) -> Vec<Finding> {
    let mut told: Vec<Finding> = Vec::new();
    for stock in albums.flat_map(|album| &mut album.stocks) {
        let shown = stock.clone();
        for picture in stock.pictures.files() {
            let drawings = of_file(picture.place.as_ref().map_or("", |place| &*place.file));
            let found = match found(drawings, &picture.name) {
                Some(drawing) => picture.take(raster(&drawing.text, shown.picture_width()), &shown),
                None => vec![missing(picture)],
            };
            // What is cut otherwise than the rest of its stock has the stock's picture.
            told.extend(found.into_iter().filter(|finding| !told.contains(finding)).collect::<Vec<_>>());
        }
    }
    told
}

fn missing(picture: &PictureFile) -> Finding {
    let text = Said::new("not-on-the-table").with("file", Arg::code(excerpt(&picture.name)));
    let finding = Finding::warn("picture-unread", Said::NOTHING, text).help(Said::new("picture-not-on-the-table"));
    finding.at(picture.place.as_ref())
}

/// A text as a raster, known from before where it was asked for before.
fn raster(text: &str, wide: f64) -> Result<Arc<PaperPicture>, RasterFault> {
    let key = (Sha256::digest(text).into(), wide.to_bits());
    let known = |rasters: &KnownRasters| rasters.iter().find(|(own, _)| *own == key).map(|(_, read)| read.clone());
    if let Some(read) = known(&RASTERS.lock().unwrap_or_else(PoisonError::into_inner)) {
        return read;
    }
    let read = PaperPicture::read(&bytes_of(text), wide).map(Arc::new);
    let mut rasters = RASTERS.lock().unwrap_or_else(PoisonError::into_inner);
    if rasters.len() >= KNOWN {
        let _ = rasters.remove(0);
    }
    rasters.push((key, read.clone()));
    read
}

/// What the page shows stocks with, by the names that its pictures call them by.
pub(super) fn shown<'a>(stocks: impl Iterator<Item = &'a Stock>) -> Value {
    let mut all = Map::new();
    for stock in stocks {
        for raster in stock.pictures.read() {
            if !all.contains_key(raster.name()) {
                all.insert(raster.name().to_owned(), write::picture_address(raster, SHOWN).into());
            }
        }
    }
    all.into()
}

/// The part of a stock's form that is about its pictures.
pub(super) fn form(stock: &Stock, way: &str, there: &dyn Fn(&str) -> bool) -> Value {
    let one = |field: &str, file: Option<&PictureFile>| {
        json!({
            "way": format!("{way}.{field}"),
            "file": file.map(|file| file.name.as_str()),
            "there": file.is_some_and(|file| there(&file.name)),
            "used": file.is_some_and(|file| file.raster.is_some()),
        })
    };
    let pictures = &stock.pictures;
    json!([one("picture", pictures.front.as_ref()), one("picture_back", pictures.back.as_ref())])
}
