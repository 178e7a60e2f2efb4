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
use crate::album;
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

/// Puts it beside what was made; `albums` are the names of those that a batch is made from.
///
/// # Errors
/// A name that two files would have.
pub(super) fn put(question: &Question, albums: &[String], sink: &mut Memory) -> Result<(), WriteProblem> {
    let mut from = From::default();
    let text = from.batch_or_album(question, albums.is_empty());
    from.files.push((bare(&question.name).to_owned(), text));
    for file in albums {
        let album = question.albums.iter().find(|one| one.name == *file);
        if let Some((album, text)) = album.and_then(|one| Some((one, one.text.as_ref()?))) {
            let text = from.album(&album.name, text, &album.drawings);
            from.files.push((album.name.clone(), text));
        }
    }
    let machine = question.machine.file();
    from.files.extend(machine.map(|text| (CUTTER_FILE.to_owned(), text)));
    from.files.push((COMMAND_FILE.to_owned(), command(question) + "\n"));
    for (name, text) in from.drawings.into_iter().chain(from.files) {
        if sink.files.contains_key(&name) {
            let twice = Said::new("name-twice").with("name", name);
            return Err(WriteProblem::from(std::io::Error::other(words::say(&twice))));
        }
        sink.put(&name, text.as_bytes())?;
    }
    Ok(())
}

/// Files by name.
#[derive(Default)]
struct From {
    files: Vec<(String, String)>,
    drawings: Vec<(String, String)>,
}

impl From {
    /// Lays a drawing; gives the name that it has then.
    fn lay(&mut self, name: &str, text: &str) -> String {
        let name = bare(name);
        let (stem, end) = name.rsplit_once('.').map_or((name, String::new()), |(stem, end)| (stem, format!(".{end}")));
        let numbered = (2..).map(|number| format!("{stem}-{number}{end}"));
        let free = |one: &String| self.drawings.iter().all(|(known, held)| known != one || held == text);
        let own = std::iter::once(name.to_owned()).chain(numbered).find(free).unwrap_or_else(|| name.to_owned());
        if self.drawings.iter().all(|(known, _)| *known != own) {
            self.drawings.push((own.clone(), text.to_owned()));
        }
        own
    }

    fn batch_or_album(&mut self, question: &Question, is_album: bool) -> String {
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
        let read = source.and_then(|source| Some((album::read(&source, &parts::kinds()).value?, source)));
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
