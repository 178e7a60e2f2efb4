// SPDX-License-Identifier: MIT
//! What a zip of everything is made from, which lies in it, too: the album or batch file, the files beside it that it needs, its
//! drawings, the machine's settings, the command.
//!
//! All of it lies at the zip's top. A drawing that stood in a folder, or that shares its name with another one, gets a name of its
//! own, and the file that names it follows. Never: a file of the kit.

use super::named::{self, bare};
use super::on_table::{TableDrawing, TableFile};
use super::question::Question;
use super::{beside, drawn, likeness, words};
use crate::fields::Source;
use crate::finding::Said;
use crate::write::{Memory, Sink, WriteProblem};

/// The file that says how all of it is made again.
const COMMAND_FILE: &str = "command.txt";

/// The folder in a zip that has a folder for each version.
const VERSIONS: &str = "versions";
/// So many letters of a version's name are its folder's.
const LONGEST_NAME: usize = 80;

/// `hingeleaf kit spring.json --out kit`
pub(super) fn command(question: &Question) -> String {
    let name = bare(&question.name);
    let cutter = question.machine.file().map(|(name, _)| format!(" --cutter {}", word(name))).unwrap_or_default();
    let trimmer = if question.machine.trimmer { " --trimmer" } else { "" };
    format!("hingeleaf kit {} --out kit{cutter}{trimmer}", word(name))
}

/// A file's name as a word of a command.
fn word(name: &str) -> String {
    let plain = name.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.'));
    if plain { name.to_owned() } else { format!("\"{name}\"") }
}

/// Whether everything is asked for.
pub(super) fn is_all(question: &Question) -> bool {
    question.file.is_empty() && question.formats.is_empty()
}

/// The same question with everything in one place: what is made of it is then what is made from the zip.
pub(super) fn in_one_place(question: &Question) -> Question {
    let needed: Vec<&str> = needed(question).into_iter().map(|file| file.name.as_str()).collect();
    let mut laid = LaidDrawings::default();
    let mut moved = question.clone();
    moved.text = laid.beside(&question.name, &question.text, &question.drawings);
    for file in moved.files.iter_mut().filter(|file| needed.contains(&file.name.as_str())) {
        file.text = file.text.as_ref().map(|text| laid.beside(&file.name, text, &file.drawings));
    }
    let texts = |question: &Question| question.files.iter().map(|file| file.text.clone()).collect::<Vec<_>>();
    if moved.text == question.text && texts(&moved) == texts(question) {
        // Then it is what was asked before, and known.
        return question.clone();
    }
    for file in &mut moved.files {
        file.drawings.clone_from(&laid.drawings);
    }
    moved.drawings = laid.drawings;
    moved
}

/// Puts it beside what was made of such a question, where everything is asked for.
///
/// # Errors
/// The sink's; a name that two files would have.
pub(super) fn put(question: &Question, sink: &mut Memory) -> Result<(), WriteProblem> {
    if !is_all(question) {
        return Ok(());
    }
    let mut files = sources(question);
    // The file of a group may be the machine's, too.
    if let Some((name, text)) = question.machine.file().filter(|(name, _)| files.iter().all(|(known, _)| known != name))
    {
        files.push((name.to_owned(), text.as_bytes().to_vec()));
    }
    files.push((COMMAND_FILE.to_owned(), (command(question) + "\n").into_bytes()));
    let mut folders: Vec<String> = Vec::new();
    for version in &question.versions {
        let plain = |c: char| if c.is_alphanumeric() || matches!(c, ' ' | '-' | '_') { c } else { '-' };
        let called: String =
            version.called.iter().flat_map(|called| called.chars()).take(LONGEST_NAME).map(plain).collect();
        let folder = named::free(called.trim(), &|one| !one.is_empty() && folders.iter().all(|known| known != one));
        let own = sources(&version.question(question)).into_iter();
        files.extend(own.map(|(name, bytes)| (format!("{VERSIONS}/{folder}/{name}"), bytes)));
        folders.push(folder);
    }
    for (name, bytes) in files {
        if sink.files.contains_key(&name) {
            let twice = Said::new("name-twice").with("name", name);
            return Err(WriteProblem::from(std::io::Error::other(words::say(&twice))));
        }
        sink.put(&name, &bytes)?;
    }
    Ok(())
}

/// The file that is asked about, those that it needs, and their drawings, by the names that they have in one place.
fn sources(question: &Question) -> Vec<(String, Vec<u8>)> {
    let mut laid = LaidDrawings::default();
    let text = laid.beside(&question.name, &question.text, &question.drawings);
    let mut files = vec![(bare(&question.name).to_owned(), text.into_bytes())];
    for file in needed(question) {
        let text = file.text.as_ref().map(|text| laid.beside(&file.name, text, &file.drawings));
        files.extend(text.map(|text| (file.name.clone(), text.into_bytes())));
    }
    files.extend(laid.drawings.into_iter().map(|drawing| (drawing.name, likeness::bytes_of(&drawing.text))));
    files
}

/// The files beside the one that is asked about which it needs.
fn needed(question: &Question) -> Vec<&TableFile> {
    let source = Source::new(&question.name, question.text.clone().into_bytes());
    source.map(|source| beside::needed(&source, &question.files)).unwrap_or_default()
}

/// Drawings as they lie in one place.
#[derive(Default)]
struct LaidDrawings {
    drawings: Vec<TableDrawing>,
}

impl LaidDrawings {
    /// Lays a drawing; gives the name that it has then.
    fn lay(&mut self, name: &str, text: &str) -> String {
        let is_free = |one: &str| self.drawings.iter().all(|known| known.name != one || known.text == text);
        let own = named::free(bare(name), &is_free);
        if self.drawings.iter().all(|known| known.name != own) {
            self.drawings.push(TableDrawing { name: own.clone(), text: text.to_owned() });
        }
        own
    }

    /// A file's text with its drawings laid beside it.
    fn beside(&mut self, name: &str, text: &str, drawings: &[TableDrawing]) -> String {
        let mut own = |asked: &str| drawn::found(drawings, asked).map(|one| self.lay(&one.name, &one.text));
        Source::new(name, text.as_bytes().to_vec())
            .map_or_else(|_| text.to_owned(), |source| named::calling_drawings(&source, &mut own))
    }
}
