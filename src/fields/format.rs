// SPDX-License-Identifier: MIT
//! What a file says that it is: a kind of file and the number of its format, `hingeleaf-album/1`.
//!
//! How a format changes, and what is said of one that this program does not read: `DEVELOPERS.md`, "How a file format changes".

use super::source::Source;
use super::tree::{Node, Tree};
use crate::finding::{Arg, Said};
use crate::length::excerpt;
use std::cmp::Ordering;

/// Whether a file says that it is of this kind, in whatever number of its format.
#[must_use]
pub fn of_kind(said: &str, format: &str) -> bool {
    number(said, format).is_some()
}

/// What is wrong with the format that a file says, and what can be done; nothing where it is the one that is read.
pub(super) fn wrong(said: &str, format: &'static str) -> Option<(Said, Said)> {
    let against = number(said, format).zip(number(format, format)).map(|(said, read)| said.cmp(&read));
    let (text, help) = match against {
        _ if said == format => return None,
        Some(Ordering::Greater) => ("newer-format", "newer-format-help"),
        Some(Ordering::Less) => ("older-format", "older-format-help"),
        // Another kind of file, or the same number written in another way.
        Some(Ordering::Equal) | None => ("wrong-format", "wrong-format-help"),
    };
    let text = Said::new(text).with("found", Arg::quoted(excerpt(said))).with("format", Arg::quoted(format));
    Some((text, Said::new(help).with("format", Arg::code(format))))
}

/// A file's text with the number of a format in place of an older one, and what it said before; nothing where it says no older one.
///
/// The rest stays byte for byte: what is called otherwise now, the reader tells at its place. A number that stands for a change which no
/// reader can see (another default, another unit) has to write that change here.
///
/// ```
/// use hingeleaf::fields::{Source, raised};
/// let source = Source::new("a.json", br#"{ "format": "hingeleaf-album/0" }"#.to_vec()).unwrap();
/// let (text, before) = raised(&source, "hingeleaf-album/1").unwrap();
/// assert_eq!((text.as_str(), before.as_str()), (r#"{ "format": "hingeleaf-album/1" }"#, "hingeleaf-album/0"));
/// ```
#[must_use]
pub fn raised(source: &Source, format: &str) -> Option<(String, String)> {
    let root = Node::read(source).ok()?;
    let said = root.get("format")?;
    let Tree::Text(before) = &said.tree else { return None };
    if number(before, format)? >= number(format, format)? {
        return None;
    }
    let mut text = source.text().to_owned();
    text.replace_range(said.range.clone(), &format!("\"{format}\""));
    Some((text, before.clone()))
}

/// The number behind the kind, if the kind is that of a format.
fn number(said: &str, format: &str) -> Option<u32> {
    let (kind, number) = said.rsplit_once('/')?;
    let digits = !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit());
    let same = format.rsplit_once('/').is_some_and(|(own, _)| own == kind);
    // A number beyond all counting is newer than any.
    (same && digits).then(|| number.parse().unwrap_or(u32::MAX))
}
