// SPDX-License-Identifier: MIT
//! Several sheets on one bed: what lies where, and by which file a sheet is cut.

use super::bits::{Block, Table};
use super::desk::Desk;
use super::line::{Line, What};
use super::measure;
use crate::cutter::BedPlace;
use crate::stock::Stock;
use crate::toolpath::{BedLoad, bed_loads};

/// What lies on the bed at once, where several sheets do: a file, how often it is cut, each sheet's lower left on it.
pub(super) fn table(desk: &Desk<'_>, stocks: &[&Stock]) -> Option<Block> {
    let album = desk.job.album;
    let here = |number: usize| {
        let name = album.stocks.get(number).map(|stock| &stock.name);
        stocks.iter().any(|stock| Some(&stock.name) == name)
    };
    let length = |mm: f64| desk.length(mm, What::Length, "bed");
    let row = |load: &BedLoad| {
        let lies = |some: &[(usize, BedPlace)]| {
            let number = some.first().map_or(usize::MAX, |(number, _)| *number);
            let name = desk.job.paths.get(number).map_or_else(Line::default, |sheet| Line::text(sheet.name.as_str()));
            let place =
                |place: &BedPlace| desk.say("machine-lies-at", vec![("x", length(place.x)), ("y", length(place.y))]);
            let places = desk.words.list(some.iter().map(|(_, at)| place(at)).collect());
            let turned = some.iter().any(|(_, place)| place.turned);
            let key = if turned { "machine-lies-turned" } else { "machine-lies" };
            desk.say(key, vec![("sheet", name), ("places", places)])
        };
        let times = measure::count(load.paths.times.into(), What::Many, "");
        // Equal sheets lie one after the other, all of a load the same way round.
        let all = load.sheets.chunk_by(|one, other| one.0 == other.0).map(lies);
        let apart = |these, this| desk.say("machine-lies-apart", vec![("these", these), ("this", this)]);
        let cell = all.reduce(apart).unwrap_or_default();
        let front = Line::text(load.paths.name.as_str());
        let file = match &load.back {
            Some(back) => {
                desk.say("machine-bed-files", vec![("back", Line::text(back.name.as_str())), ("front", front)])
            }
            None => front,
        };
        vec![file, times, cell]
    };
    let loads = bed_loads(&album.stocks, desk.job.paths, desk.job.cutter);
    let rows: Vec<Vec<Line>> = loads.iter().filter(|load| here(load.paths.stock)).map(row).collect();
    let head = ["machine-bed-file", "machine-time-times", "machine-bed-lies"];
    (!rows.is_empty()).then(|| {
        Block::Table(Table {
            caption: desk.tell("machine-bed-caption"),
            head: head.map(|key| desk.tell(key)).to_vec(),
            rows,
        })
    })
}

/// Whether anything is done on backs of what lies on the beds of these stocks.
pub(super) fn have_backs(desk: &Desk<'_>, stocks: &[&Stock]) -> bool {
    let here = |load: &BedLoad| {
        let of = desk.job.album.stocks.get(load.paths.stock);
        of.is_some_and(|of| stocks.iter().any(|stock| stock.name == of.name))
    };
    let loads = bed_loads(&desk.job.album.stocks, desk.job.paths, desk.job.cutter);
    loads.iter().any(|load| load.back.is_some() && here(load))
}

/// The beds that a sheet lies on with others; none where it is cut by itself.
pub(super) fn of(desk: &Desk<'_>, sheet: &str) -> Vec<BedLoad> {
    let paths = desk.job.paths;
    let lies = |load: &BedLoad| {
        let mut on = load.sheets.iter().filter_map(|(number, _)| paths.get(*number));
        on.any(|one| one.name == sheet)
    };
    let mut loads = bed_loads(&desk.job.album.stocks, paths, desk.job.cutter);
    loads.retain(lies);
    loads
}

/// That a machine cuts a sheet: by its own file, or by those of the beds that it lies on with others.
pub(super) fn cut(desk: &Desk<'_>, sheet: &str) -> Line {
    let mut said = vec![("sheet", Line::text(sheet.to_owned()))];
    let beds: Vec<Line> = of(desk, sheet).iter().map(|load| Line::text(load.paths.name.as_str())).collect();
    if beds.is_empty() {
        return desk.say("machine-cut", said);
    }
    said.push(("files", desk.words.list(beds)));
    desk.say("machine-cut-on-bed", said)
}
