// SPDX-License-Identifier: MIT
//! What stands on labels: of bags, one a kit; of parts and stacks, one a part.

use super::desk::Desk;
use super::line::{Line, What};
use super::{measure, need};
use crate::album::Handed;

/// A label's words.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Label {
    /// The letter of a part; none on a bag.
    pub mark: Option<String>,
    /// What it is.
    pub head: Line,
    /// More of it, the most needed first.
    pub lines: Vec<Line>,
    /// How many of it are wanted.
    pub times: u32,
}

/// The labels of the bags, then those of the parts in the list's order.
pub(super) fn all(desk: &Desk<'_>) -> Vec<Label> {
    std::iter::once(bag(desk)).chain(parts(desk)).collect()
}

fn bag(desk: &Desk<'_>) -> Label {
    let album = desk.job.album;
    let mut lines: Vec<Line> = Vec::new();
    if let Some(maker) = &album.maker {
        lines.push(desk.say("label-maker", vec![("maker", Line::text(maker.as_str()))]));
    }
    lines.extend(album.edition.as_deref().map(Line::text));
    for (number, stock) in album.stocks.iter().enumerate() {
        let of_stock = desk.kit().parts.iter().filter(|part| part.stock == number);
        let pieces: u64 = of_stock.map(|part| u64::from(part.count)).sum();
        if pieces == 0 {
            continue;
        }
        let laid = desk.job.stocks.iter().filter(|laid| laid.stock == number);
        let sheets: u64 = laid.map(|laid| laid.count() / u64::from(desk.kits)).sum();
        let (key, many) = match album.handed_over(number) {
            _ if stock.ready => ("label-ready", pieces),
            Some(Handed::Sheets) => ("label-sheets", sheets),
            Some(Handed::Scored) => ("label-scored", pieces),
            Some(Handed::Cut) | None => ("label-pieces", pieces),
        };
        let name = Line::text(stock.name.as_str());
        lines.push(desk.say(key, vec![("n", measure::count(many, What::Many, "label")), ("stock", name)]));
    }
    lines.push(desk.say("label-needs", vec![("needs", desk.words.row(need::of_one(desk)))]));
    lines.push(desk.tell("label-mind"));
    Label { mark: None, head: Line::text(album.title.as_str()), lines, times: desk.kits }
}

fn parts<'a>(desk: &'a Desk<'_>) -> impl Iterator<Item = Label> + 'a {
    desk.rows.iter().filter(|row| desk.is_packed(row)).filter_map(|row| {
        let part = desk.part(row.part).filter(|part| !desk.job.album.is_ready(part.stock))?;
        let counts = vec![
            ("n", measure::count(u64::from(part.count), What::InBag, &part.id)),
            ("all", measure::count(row.count, What::Count, &part.id)),
        ];
        let title = Line::text(desk.job.album.title.as_str());
        let lines = vec![desk.size(part), desk.say("label-counts", counts), title];
        let head = Line::text(desk.words.term(part.kind));
        Some(Label { mark: Some(row.mark.clone()), head, lines, times: 1 })
    })
}
