// SPDX-License-Identifier: MIT
//! What follows from a batch: whether its kits go together, its sheets, what is packed and what it costs, what is taken away.

use super::{beside, ways};
use crate::drawer::NamedDrawer;
use crate::fields::{Node, Source};
use crate::finding::{Finding, Level, Said};
use crate::sheets::StockSheets;
use crate::table::beside::NamedFiles;
use crate::table::drawer::DrawnOrder;
use crate::table::question::Question;
use crate::table::sheets::{self, LaidOrder};
use crate::table::{drawer, said, tables, taken, words};
use crate::work::{BatchWork, Files};
use serde_json::{Value, json};

/// Whether all kits go together; `machine` has what stops the work in the machine's settings.
pub(super) fn fit(work: &BatchWork, (source, root, files): (&Source, &Node, &NamedFiles), machine: &[Value]) -> Value {
    let count = |level: Level| work.findings.iter().filter(|finding| finding.level == level).count();
    let sentence = Said::new("batch-goes-together").with("stops", count(Level::Stop)).with("warns", count(Level::Warn));
    let sentence = match machine {
        [] => sentence,
        _ => Said::new("batch-machine-can-not-be-used").with("sentence", sentence),
    };
    let mut told = said::of_batch(&work.findings, source, work.batch.units, files);
    for (finding, told) in work.findings.iter().zip(&mut told) {
        let mend = mend(work, root, finding);
        let mended = mend.as_ref().and_then(|mend| mend["path"].as_str()).map(str::to_owned);
        told["path"] = mended.or_else(|| path(work, (source, root, files), finding)).into();
        told["mend"] = mend.into();
        // A kit's name is the maker's own, small letters and all.
        told["named"] = matches!(finding.about.key(), "about-kit" | "about-of-kit").into();
    }
    json!({
        "sentence": words::say(&sentence),
        "stopped": work.stopped() || !machine.is_empty(),
        "more": [],
        "findings": machine.iter().cloned().chain(told).collect::<Vec<_>>(),
        "section": null,
    })
}

/// The field that a finding is at: its own where that stands in the batch file, else the album of the first kit that it is of.
fn path(work: &BatchWork, (source, root, files): (&Source, &Node, &NamedFiles), finding: &Finding) -> Option<String> {
    let of_drawing = files.drawn.of(finding);
    let place = of_drawing.map(|fault| &fault.named).or(finding.place.as_ref());
    if let Some(place) = place.filter(|place| *place.file == *source.name()) {
        return Some(ways::of(root, source.text(), place));
    }
    if finding.id == "together" {
        return Some("together".into());
    }
    if let Some((_, path)) = files.of(finding).filter(|_| of_drawing.is_none()) {
        return Some(path);
    }
    let kit = of_drawing.map(|fault| fault.kit).or_else(|| kits_with(work, finding).next())?;
    // What a group can't make may be for its sheets as well as for its album.
    Some(format!("{}[{kit}]{}", beside::list(root), if beside::is_class(root) { "" } else { ".album" }))
}

/// The kits that a finding is of.
fn kits_with<'a>(work: &'a BatchWork, finding: &'a Finding) -> impl Iterator<Item = usize> + 'a {
    let same = |one: &Finding| one.id == finding.id && one.place == finding.place && one.text == finding.text;
    let kits = work.kits.iter().enumerate();
    kits.filter(move |(_, kit)| kit.findings.iter().any(same)).map(|(number, _)| number)
}

/// A mend in the kit, as something that is otherwise in it than in its album; none where several kits have the fault: then their
/// album is to be mended.
fn mend(work: &BatchWork, root: &Node, finding: &Finding) -> Option<Value> {
    let wanted = finding.mend.as_ref()?;
    let mut with = kits_with(work, finding);
    let kit = with.next().filter(|_| with.next().is_none())?;
    let album = &work.kits.get(kit)?.album;
    let mut mend = said::mend(wanted, album)?;
    // A chosen page is the batch file's own; all else is the album's.
    let own = wanted.path.starts_with("kits[");
    let change = format!("{}[{kit}].change.{}", beside::list(root), wanted.path);
    mend["path"] = if own { wanted.path.clone() } else { change }.into();
    mend["typed"] = wanted.value.plain(album.units).into();
    Some(mend)
}

/// The sheets of all kits; none of a batch that does not go together.
pub(super) fn sheets(work: &BatchWork) -> Option<Value> {
    let laid = LaidOrder { album: work.album()?, kit: &work.kit, stocks: &work.stocks };
    (!work.stopped()).then(|| sheets::laid(&laid)).flatten()
}

/// What lies in the drawer of it, what it takes.
pub(in crate::table) fn order(work: &BatchWork) -> DrawnOrder<'_> {
    DrawnOrder {
        drawer: work.batch.drawer.as_ref().and_then(NamedDrawer::known),
        stocks: &work.merged.stocks,
        laid: if work.stopped() { &[] } else { &work.stocks },
    }
}

/// The mixes, what is packed, cost and price, as the job sheet has them.
pub(super) fn tables(work: &BatchWork) -> Value {
    let sheet = if work.stopped() || work.stocks.is_empty() { None } else { work.order_sheet_in(tables::PAGE, false) };
    sheet.map_or(Value::Null, |sheet| tables::of(&sheet, &["class", "mixes", "pack", "cost"]))
}

/// What is asked for again once it was looked at longer.
pub(in crate::table) fn better(
    work: &BatchWork,
    (source, files): (&Source, &NamedFiles),
    question: &Question,
) -> Value {
    let Ok(root) = Node::read(source) else { return Value::Null };
    json!({
        "fit": fit(work, (source, &root, files), &[]),
        "drawer": drawer::form(&order(work), files, (source, question)),
        "sheets": sheets(work),
        "tables": tables(work),
        "take": take(work, question, true),
    })
}

/// What there is to take away, and how the command line makes the same.
pub(super) fn take(work: &BatchWork, question: &Question, usable: bool) -> Value {
    let names = work.cut_names();
    let sheets: u64 = work.stocks.iter().map(StockSheets::count).sum();
    let nothing = work.stopped() || work.stocks.is_empty() || !usable;
    let to_cut = if work.batch.class.is_some() { "class-to-cut" } else { "batch-to-cut" };
    let sentence = Said::new(if nothing { "batch-nothing-to-cut" } else { to_cut }).with("sheets", sheets);
    let command = (!nothing).then(|| taken::command(question));
    let makers: Vec<&str> = match work.batch.class {
        Some(_) if !nothing => work.batch.kits.iter().map(|kit| kit.name.as_str()).collect(),
        _ => Vec::new(),
    };
    json!({
        "sentence": words::say(&sentence),
        "names": names,
        "formats": Files::ALL.formats,
        "command": command,
        "makers": makers,
    })
}
