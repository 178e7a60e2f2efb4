// SPDX-License-Identifier: MIT
//! What lies in the zip beside the files of a kit or an order: all that these are made from, and how.
//!
//! In: what was asked. Out: the file, the files that it names, the machine's settings, the command. Never: a file of the kit.

use super::question::Question;
use super::{beside, words};
use crate::fields::Source;
use crate::finding::Said;
use crate::write::{Memory, Sink, WriteProblem};

/// The file that holds the machine's settings, where there are any.
const CUTTER_FILE: &str = "my-cutter.json";

/// The file that says how all of it is made again.
const COMMAND_FILE: &str = "command.txt";

/// `hingeleaf kit spring.json --out kit`
pub(super) fn command(question: &Question) -> String {
    let name = name(question);
    let plain = name.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.'));
    let name = if plain { name.to_owned() } else { format!("\"{name}\"") };
    let cutter = question.machine.file().map(|_| format!(" --cutter {CUTTER_FILE}")).unwrap_or_default();
    let trimmer = if question.machine.trimmer { " --trimmer" } else { "" };
    format!("hingeleaf kit {name} --out kit{cutter}{trimmer}")
}

/// The file's name, wherever it lay.
fn name(question: &Question) -> &str {
    question.name.rsplit(['/', '\\']).next().unwrap_or(&question.name)
}

/// Whether everything is asked for.
pub(super) fn is_all(question: &Question) -> bool {
    question.file.is_empty() && question.formats.is_empty()
}

/// Puts it beside the kit's files where all of these are asked for.
///
/// # Errors
/// The sink's; a name that two files would have.
pub(super) fn put(source: &Source, question: &Question, sink: &mut Memory) -> Result<(), WriteProblem> {
    if !is_all(question) {
        return Ok(());
    }
    let mut from = vec![(name(question), question.text.clone())];
    from.extend(beside::needed(source, &question.albums).into_iter().map(|(name, text)| (name, text.to_owned())));
    from.extend(question.machine.file().map(|text| (CUTTER_FILE, text)));
    from.push((COMMAND_FILE, command(question) + "\n"));
    for (name, text) in from {
        if sink.files.contains_key(name) {
            let twice = words::say(&Said::new("name-twice").with("name", name));
            return Err(WriteProblem::from(std::io::Error::other(twice)));
        }
        sink.put(name, text.as_bytes())?;
    }
    Ok(())
}
