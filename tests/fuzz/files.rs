// SPDX-License-Identifier: MIT
//! The files that people write: read, and what is read made.

use super::corpus::Corpus;
use super::draws::Draws;
use super::schemas::Schema;
use super::tree::Json;
use super::{Answer, Target, reasoned, spoil, told};
use hingeleaf::album::Album;
use hingeleaf::cutter::{self, Cutter};
use hingeleaf::fields::{Node, Source};
use hingeleaf::finding::{Checked, Finding, Level};
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::sheets::Search;
use hingeleaf::toolpath::Labels;
use hingeleaf::trial::Trial;
use hingeleaf::work::{Files, Work};
use hingeleaf::write::Memory;
use hingeleaf::{
    album as album_file, batch as batch_file, coupon, drawer as drawer_file, kind_file, kind_trial, outline, parts,
};
use serde_json::Value;
use std::sync::Arc;

/// Folders of the fixtures with albums.
pub(crate) const ALBUMS: [&str; 7] = ["", "broken", "faulty", "kept", "drawn", "kinds", "tight"];

/// More pieces than this are made by other tests: they take their time.
const MOST_PIECES: usize = 250;

/// Draws spoilt files of a format; sound ones lie in the first folder.
fn files(corpus: &Corpus, folders: &[&str], format: &str, schema: Value) -> impl Fn(&mut Draws) -> Vec<u8> + use<> {
    let seeds = corpus.of_format(folders, format);
    let sound = corpus.of_format(&folders[..1], format);
    let schema = Schema::of(schema);
    move |draws| {
        let of = if draws.once_in(3) { &seeds } else { &sound };
        let json = draws.pick(of);
        spoil::file(&json, &seeds, &schema, draws)
    }
}

fn source(name: &str, bytes: &[u8]) -> Result<Source, String> {
    Source::new(name, bytes.to_vec()).map_err(|finding| told(&[*finding], true).err().unwrap_or_default())
}

/// The same file, written by another hand.
fn again(source: &Source) -> Option<Source> {
    let text = format!("{:#}", Node::read(source).ok()?.to_value());
    Source::new(source.name(), text.into_bytes()).ok()
}

/// An album with the drawings and kinds that it names.
fn read_album(source: &Source, corpus: &Corpus) -> Checked<Album> {
    let mut read = parts::read_album(source, &mut |name| corpus.kinds(name));
    for outlined in read.value.iter_mut().flat_map(Album::outlines) {
        if let Ok(drawing) = corpus.source(&outlined.asked.file) {
            read.findings.extend(outlined.draw(Arc::new(drawing)));
        }
    }
    read
}

/// What tells one album's parts from another's.
fn alike(read: &Checked<Album>, cutter: &Cutter) -> String {
    let words: Vec<String> = read.findings.iter().map(Finding::headline).collect();
    let parts = read.value.clone().filter(is_small).map(|album| {
        let trial = Trial::of(album, cutter);
        let one = |part: &parts::Part| format!("{} {} {:?}", part.id, part.count, part.flat.likeness());
        trial.kit().map(|kit| kit.parts.iter().map(one).collect::<Vec<_>>())
    });
    format!("{words:?} {parts:?}")
}

fn is_small(album: &Album) -> bool {
    let inserts: usize = album.inserts.iter().map(|entry| usize::try_from(entry.count()).unwrap_or(MOST_PIECES)).sum();
    album.pages.len() + inserts <= MOST_PIECES
}

pub(crate) fn album() -> Target {
    let corpus = Corpus::new();
    let make = files(&corpus, &ALBUMS, "album", album_file::schema(&parts::kinds()));
    let run = move |bytes: &[u8]| -> Answer {
        let Ok(source) = source("album.json", bytes) else { return Ok(false) };
        let read = read_album(&source, &corpus);
        reasoned(read.value.as_ref(), &read.findings)
            .or_else(|wrong| if drawn(&read) { Ok(()) } else { Err(wrong) })?;
        let cutter = Cutter::default();
        if read.value.is_some() {
            let other = again(&source).ok_or("what was read is no JSON")?;
            let (one, two) = (alike(&read, &cutter), alike(&read_album(&other, &corpus), &cutter));
            if one != two {
                return Err(format!("written again it is another album:\n{one}\n{two}"));
            }
        }
        let Some(album) = read.value.filter(is_small) else { return Ok(false) };
        let trial = Trial::of(album, &cutter);
        told(trial.findings(), false)?;
        if trial.kit().is_some() {
            told(&trial.fit().findings, false)?;
        }
        Ok(true)
    };
    Target { make: Box::new(make), run: Box::new(run) }
}

/// What is wrong with a drawing is told when it is read, and leaves the album.
fn drawn(read: &Checked<Album>) -> bool {
    read.value.is_some() && read.findings.iter().any(|finding| finding.id.starts_with("outline"))
}

/// Albums made whole: sheets, tool paths, files that are read back.
pub(crate) fn work() -> Target {
    let corpus = Corpus::new();
    let make = files(&corpus, &["", "faulty", "kept", "drawn"], "album", album_file::schema(&parts::kinds()));
    let run = move |bytes: &[u8]| -> Answer {
        let Ok(source) = source("album.json", bytes) else { return Ok(false) };
        let Some(mut album) = read_album(&source, &corpus).value.filter(is_small) else { return Ok(false) };
        album.copies = album.copies.min(3);
        if album.pages.len() > 8 || album.inserts.iter().any(|entry| entry.count() > 20) {
            return Ok(false);
        }
        let search = Search { effort: Effort::Low, trimmer: source.text().len() % 2 == 0, threads: 1 };
        let work = Work::new(album, Cutter::default(), Labels::Hidden, search, &Unwatched);
        told(&work.findings, false)?;
        if work.stopped() {
            return Ok(false);
        }
        let mut files = Memory::default();
        work.write(&Files::of(&["svg", "dxf", "csv", "html"]), &mut files)
            .map_err(|wrong| format!("not written: {wrong}"))?;
        // What is all cut on a trimmer has no sheets for a machine.
        if files.files.len() < 3 { Err(format!("only {} files", files.files.len())) } else { Ok(true) }
    };
    Target { make: Box::new(make), run: Box::new(run) }
}

pub(crate) fn batch() -> Target {
    let corpus = Corpus::new();
    let make = files(&corpus, &["batches", "broken", "kept"], "batch", batch_file::schema());
    let run = move |bytes: &[u8]| -> Answer {
        let Ok(source) = source("batches/batch.json", bytes) else { return Ok(false) };
        let read = |source: &Source| {
            let mut albums = |name: &str| corpus.source(name);
            batch_file::read(source, &parts::kinds(), &mut albums)
        };
        let one = read(&source);
        reasoned(one.value.as_ref(), &one.findings)?;
        let Some(batch) = one.value else { return Ok(false) };
        let other = again(&source).ok_or("what was read is no JSON")?;
        let two = read(&other).value.ok_or("written again it is refused")?;
        let kits = |batch: &batch_file::Batch| {
            batch
                .kits
                .iter()
                .map(|kit| format!("{} {} {}", kit.name, batch.times(kit), kit.album.pages.len()))
                .collect::<Vec<_>>()
        };
        if kits(&batch) == kits(&two) { Ok(true) } else { Err("written again it is another batch".into()) }
    };
    Target { make: Box::new(make), run: Box::new(run) }
}

pub(crate) fn kind() -> Target {
    let corpus = Corpus::new();
    let mut seeds = corpus.of_format(&["kinds", "broken/kinds", "kept"], "kind");
    let built_in = parts::kinds().into_iter().filter_map(|kind| Json::read(parts::source_of(kind.name)?));
    seeds.extend(built_in);
    let schema = Schema::of(kind_file::schema());
    let make = move |draws: &mut Draws| {
        let json = draws.pick(&seeds);
        spoil::file(&json, &seeds, &schema, draws)
    };
    let run = move |bytes: &[u8]| -> Answer {
        let Ok(source) = source("kinds/kind.json", bytes) else { return Ok(false) };
        let read = kind_file::read(&source);
        reasoned(read.value.as_ref(), &read.findings)?;
        let Some(mut file) = read.value else { return Ok(false) };
        let other = again(&source).ok_or("what was read is no JSON")?;
        if let Some(finding) = kind_file::read(&other).findings.iter().find(|finding| finding.level == Level::Stop) {
            return Err(format!("written again it is refused: {}", finding.headline()));
        }
        let findings = file.draw(&mut |name| {
            let bytes = corpus.source(&format!("kinds/{name}"));
            bytes.and_then(|source| outline::drawing(source.name(), source.text().as_bytes().to_vec()))
        });
        told(&findings, false)?;
        let Some(maker) = parts::shelved(file) else { return Ok(false) };
        if let Some(album) = parts::example_album(maker) {
            let cutter = Cutter::default();
            let trial = Trial::of(album, &cutter);
            told(trial.findings(), false)?;
            if trial.kit().is_some() {
                told(&trial.fit().findings, false)?;
            }
        }
        // The whole range of its sizes takes longer.
        if bytes.len().is_multiple_of(16) {
            told(&kind_trial::try_kind(maker).findings, false)?;
        }
        Ok(true)
    };
    Target { make: Box::new(make), run: Box::new(run) }
}

pub(crate) fn cutter() -> Target {
    let corpus = Corpus::new();
    let make = files(&corpus, &["cutters", "broken", "kept"], "cutter", cutter::schema());
    let run = move |bytes: &[u8]| -> Answer {
        let Ok(source) = source("cutter.json", bytes) else { return Ok(false) };
        let read = cutter::read(&source);
        reasoned(read.value.as_ref(), &read.findings)?;
        let Some(found) = read.value else { return Ok(false) };
        told(&found.findings(), false)?;
        let nothing = coupon::worked(&coupon::Measured::default()).value.ok_or("nothing measured is refused")?;
        let text = coupon::saved(&nothing, Some((&source, &found)));
        let saved = Source::new("cutter.json", text.into_bytes()).map_err(|_| "the saved file is none")?;
        match cutter::read(&saved).value {
            Some(other) if other == found => Ok(true),
            other => Err(format!("saved it is another cutter:\n{found:?}\n{other:?}")),
        }
    };
    Target { make: Box::new(make), run: Box::new(run) }
}

pub(crate) fn drawer() -> Target {
    let corpus = Corpus::new();
    let make = files(&corpus, &["drawers", "kept"], "drawer", drawer_file::schema());
    let run = move |bytes: &[u8]| -> Answer {
        let Ok(source) = source("drawer.json", bytes) else { return Ok(false) };
        let read = drawer_file::read(&source);
        reasoned(read.value.as_ref(), &read.findings)?;
        let Some(found) = read.value else { return Ok(false) };
        let text = drawer_file::text(&found);
        let saved = Source::new("drawer.json", text.clone().into_bytes()).map_err(|_| "the saved file is none")?;
        let other = drawer_file::read(&saved).value.ok_or_else(|| format!("saved it is refused: {text}"))?;
        if drawer_file::text(&other) == text { Ok(true) } else { Err(format!("saved it is another drawer: {text}")) }
    };
    Target { make: Box::new(make), run: Box::new(run) }
}

pub(crate) fn measured() -> Target {
    let schema = Schema::of(coupon::schema());
    let full = r#"{ "format": "hingeleaf-measured/1", "scale": { "across": "100 mm", "up": 100.1 }, "strips": 98.5, "slots": "101.5 mm",
        "folds": { "d_valley": 1, "d_mountain": 2, "e_valley": 0, "e_mountain": 5 }, "hang": { "k": 12, "l": "0.6 cm" },
        "best_score": 2, "nick_held": 3, "best_overrun": 1, "best_trail": 2 }"#;
    let seeds: Vec<Json> = [full, &coupon::empty()].into_iter().filter_map(Json::read).collect();
    let make = move |draws: &mut Draws| {
        let json = draws.pick(&seeds);
        spoil::file(&json, &seeds, &schema, draws)
    };
    let run = move |bytes: &[u8]| -> Answer {
        let Ok(source) = source("measured.json", bytes) else { return Ok(false) };
        let read = coupon::read(&source);
        reasoned(read.value.as_ref(), &read.findings)?;
        let Some(found) = read.value else { return Ok(false) };
        let worked = coupon::worked(&found);
        told(&worked.findings, false)?;
        let Some(worked) = worked.value else { return Ok(false) };
        let text = coupon::saved(&worked, None);
        let saved = Source::new("cutter.json", text.clone().into_bytes()).map_err(|_| "the saved file is none")?;
        let read = cutter::read(&saved);
        match read.findings.iter().find(|finding| finding.level == Level::Stop) {
            Some(stop) => Err(format!("what was saved is refused: {}\n{text}", stop.headline())),
            None => Ok(true),
        }
    };
    Target { make: Box::new(make), run: Box::new(run) }
}
