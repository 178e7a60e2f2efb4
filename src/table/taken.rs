// SPDX-License-Identifier: MIT
//! What a zip of everything is made from, which lies in it, too: the album or batch file, the albums and drawings beside it, the
//! machine's settings, the command.
//!
//! All of it lies at the zip's top. A drawing that stood in a folder, or that shares its name with another one, gets a name of its
//! own, and the file that names it follows.

use super::drawn::bare;
use super::on_table::TableDrawing;
use super::question::Question;
use super::words;
use crate::fields::{Change, Source, alter};
use crate::finding::Said;
use crate::parts;
use crate::write::{Memory, Sink, WriteProblem};

/// The file that holds the machine's settings, where there are any.
const CUTTER_FILE: &str = "my-cutter.json";

/// The file that says how all of it is made again.
const COMMAND_FILE: &str = "command.txt";

/// `hingeleaf kit spring.json --out kit`
pub(super) fn command(question: &Question) -> String {
    let name = bare(&question.name);
    let plain = name.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.'));
    let name = if plain { name.to_owned() } else { format!("\"{name}\"") };
    let cutter = question.machine.file().map(|_| format!(" --cutter {CUTTER_FILE}")).unwrap_or_default();
    let trimmer = if question.machine.trimmer { " --trimmer" } else { "" };
    format!("hingeleaf kit {name} --out kit{cutter}{trimmer}")
}

/// Whether everything is asked for.
pub(super) fn is_all(question: &Question) -> bool {
    question.file.is_empty() && question.formats.is_empty()
}

/// The same question with everything in one place: what is made of it is then what is made from the zip. `albums` are the names of
/// those that a batch is made from.
pub(super) fn in_one_place(question: &Question, albums: &[String]) -> Question {
    let mut laid = Laid::default();
    let mut moved = question.clone();
    moved.text = laid.file(question, albums.is_empty());
    for album in moved.albums.iter_mut().filter(|album| albums.contains(&album.name)) {
        album.text = album.text.as_ref().map(|text| laid.album(&album.name, text, &album.drawings));
    }
    let texts = |question: &Question| question.albums.iter().map(|album| album.text.clone()).collect::<Vec<_>>();
    if moved.text == question.text && texts(&moved) == texts(question) {
        // Then it is what was asked before, and known.
        return question.clone();
    }
    for album in &mut moved.albums {
        album.drawings.clone_from(&laid.drawings);
    }
    moved.drawings = laid.drawings;
    moved
}

/// Puts it beside what was made of such a question.
///
/// # Errors
/// A name that two files would have.
pub(super) fn put(question: &Question, albums: &[String], sink: &mut Memory) -> Result<(), WriteProblem> {
    let mut laid = Laid::default();
    let mut files = vec![(bare(&question.name).to_owned(), laid.file(question, albums.is_empty()))];
    for album in question.albums.iter().filter(|album| albums.contains(&album.name)) {
        let text = album.text.as_ref().map(|text| laid.album(&album.name, text, &album.drawings));
        files.extend(text.map(|text| (album.name.clone(), text)));
    }
    files.extend(laid.drawings.into_iter().map(|drawing| (drawing.name, drawing.text)));
    files.extend(question.machine.file().map(|text| (CUTTER_FILE.to_owned(), text)));
    files.push((COMMAND_FILE.to_owned(), command(question) + "\n"));
    for (name, text) in files {
        if sink.files.contains_key(&name) {
            let twice = Said::new("name-twice").with("name", name);
            return Err(WriteProblem::from(std::io::Error::other(words::say(&twice))));
        }
        sink.put(&name, text.as_bytes())?;
    }
    Ok(())
}

/// Drawings as they lie in one place.
#[derive(Default)]
struct Laid {
    drawings: Vec<TableDrawing>,
}

impl Laid {
    /// Lays a drawing; gives the name that it has then.
    fn lay(&mut self, name: &str, text: &str) -> String {
        let name = bare(name);
        let (stem, end) = name.rsplit_once('.').map_or((name, String::new()), |(stem, end)| (stem, format!(".{end}")));
        let numbered = (2..).map(|number| format!("{stem}-{number}{end}"));
        let free = |one: &String| self.drawings.iter().all(|known| known.name != *one || known.text == text);
        let own = std::iter::once(name.to_owned()).chain(numbered).find(free).unwrap_or_else(|| name.to_owned());
        if self.drawings.iter().all(|known| known.name != own) {
            self.drawings.push(TableDrawing { name: own.clone(), text: text.to_owned() });
        }
        own
    }

    /// The text of the file that is asked about.
    fn file(&mut self, question: &Question, is_album: bool) -> String {
        if is_album {
            return self.album(&question.name, &question.text, &question.drawings);
        }
        // Drawings that a kit's change names stand in the batch's text.
        let quoted = |name: &str| serde_json::Value::from(name).to_string();
        let mut text = question.text.clone();
        for drawing in question.drawings.iter().filter(|one| question.text.contains(&quoted(&one.name))) {
            let own = self.lay(&drawing.name, &drawing.text);
            text = text.replace(&quoted(&drawing.name), &quoted(&own));
        }
        text
    }

    /// An album's text with its drawings laid beside it.
    fn album(&mut self, name: &str, text: &str, drawings: &[TableDrawing]) -> String {
        let source = Source::new(name, text.as_bytes().to_vec()).ok();
        let read =
            source.and_then(|source| Some((parts::read_album(&source, &mut parts::no_kind_files).value?, source)));
        let Some((album, mut source)) = read else { return text.to_owned() };
        for (number, entry) in album.inserts.iter().enumerate() {
            let Some(asked) = entry.outline.as_ref().map(|outline| outline.asked.file.as_str()) else { continue };
            let Some(drawing) = super::drawn::found(drawings, asked) else { continue };
            let own = self.lay(&drawing.name, &drawing.text);
            let path = format!("inserts[{number}].outline.file");
            let change = Change::Set { path, value: own.clone().into() };
            let text = (own != asked).then(|| alter(&source, &change).ok()).flatten();
            if let Some(next) = text.and_then(|text| Source::new(name, text.into_bytes()).ok()) {
                source = next;
            }
        }
        source.mark().to_owned() + source.text()
    }
}
