// SPDX-License-Identifier: MIT
//! The album file with its mends: every length changed that a finding says how to mend.
//!
//! In: the file's text, and how an album is checked. Out: the changed text, what it changed, what is still wrong.
//! Never: touches a file, alters anything that no mend names.

use crate::album;
use crate::fields::{Source, edit};
use crate::finding::{Level, Mend};
use crate::length::Length;
use crate::parts;
use crate::work::Work;

/// One mend can bring the next to light; an album that takes more rounds than this is not helped by them. Our choice.
const ROUNDS: usize = 8;

/// One length that was changed.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct MendedLength {
    /// Its way in the file: `pages[1].overflap`.
    pub path: String,
    /// What it was, given or by default; none where it was worked out from others.
    pub from: Option<Length>,
    /// What it is.
    pub to: Length,
}

/// A file with its mends.
#[derive(Debug)]
pub struct Mended {
    /// The changed text, under the first one's name.
    pub source: Source,
    /// The album that it holds, checked.
    pub work: Work,
    /// What was changed, in the order of changing; empty where nothing could be mended.
    pub changes: Vec<MendedLength>,
}

/// Applies the mends of all findings that stop or warn, checks again, and goes on until none is left to apply, or eight
/// rounds are done. `check` reads and checks a text; it gives nothing where the text is refused, and then this gives
/// nothing either.
///
/// Where two findings want the same length changed, the graver one has its way. A mend that the file's reader refuses is
/// left out.
pub fn mend(source: &Source, check: &dyn Fn(&Source) -> Option<Work>) -> Option<Mended> {
    let mut mended = Mended { source: source.clone(), work: check(source)?, changes: Vec::new() };
    let mut seen = vec![source.text().to_owned()];
    for _ in 0..ROUNDS {
        let wanted = wanted(&mended.work);
        if wanted.is_empty() {
            break;
        }
        // One mend that is refused does not spoil the others.
        let next = changed(&mended, &wanted, check).or_else(|| {
            wanted.chunks(1).fold(None, |so_far: Option<Mended>, one| {
                let next = changed(so_far.as_ref().unwrap_or(&mended), one, check);
                next.or(so_far)
            })
        });
        // Where it is back at an earlier text, the mends go round in a circle.
        let Some(next) = next.filter(|next| !seen.iter().any(|text| text == next.source.text())) else { break };
        seen.push(next.source.text().to_owned());
        mended = next;
    }
    Some(mended)
}

/// The mends that alter something, one for each length.
fn wanted(work: &Work) -> Vec<Mend> {
    let mut wanted: Vec<Mend> = Vec::new();
    let grave = work.findings.iter().filter(|finding| finding.level != Level::Note);
    for mend in grave.filter_map(|finding| finding.mend.as_ref()) {
        let held = work.album.length_at(&mend.path).map(Length::eighths);
        if held != Some(mend.value.eighths()) && wanted.iter().all(|earlier| earlier.path != mend.path) {
            wanted.push(mend.clone());
        }
    }
    wanted
}

/// The text with these mends, checked; nothing where they can't be written or are refused.
fn changed(before: &Mended, mends: &[Mend], check: &dyn Fn(&Source) -> Option<Work>) -> Option<Mended> {
    let album = &before.work.album;
    let lengths: Vec<(&str, Length)> = mends.iter().map(|mend| (mend.path.as_str(), mend.value)).collect();
    let text = edit(&before.source, &lengths, album.units, &album::left_out(&parts::kinds())).ok()?;
    let source = Source::new(before.source.name(), text.into_bytes()).ok()?;
    let work = check(&source)?;
    let mut changes = before.changes.clone();
    for mend in mends {
        match changes.iter_mut().find(|change| change.path == mend.path) {
            Some(earlier) => earlier.to = mend.value,
            None => changes.push(MendedLength {
                path: mend.path.clone(),
                from: album.length_at(&mend.path),
                to: mend.value,
            }),
        }
    }
    changes.retain(|change| change.from.map(Length::eighths) != Some(change.to.eighths()));
    Some(Mended { source, work, changes })
}
