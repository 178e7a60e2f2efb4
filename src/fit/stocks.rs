// SPDX-License-Identifier: MIT
//! What should be known of the stocks: calipers that nobody measured, sheets that are never quite as large
//! as their name, sheets that the machine does not take.

use crate::album::Album;
use crate::cutter::{BedProblem, Cutter};
use crate::finding::{Arg, Finding, Said};
use crate::length::tolerance::SAME;
use crate::length::{Length, Units};
use crate::paper;
use crate::parts::Kit;
use crate::stock::{By, CaliperFrom, OwnCutter, SheetSize, Stock};

pub(super) fn check(album: &Album, kit: &Kit, cutter: &Cutter) -> Vec<Finding> {
    let mut findings: Vec<Finding> = kerf(cutter, Said::NOTHING).into_iter().collect();
    for (number, stock) in album.stocks.iter().enumerate() {
        if !kit.parts.iter().any(|part| part.stock == number) {
            continue;
        }
        if let Some(OwnCutter::File { name, place }) = &stock.own {
            let text = Said::new("cutter-unread").with("file", Arg::quoted(name));
            let help = Said::new("cutter-unread-help");
            findings.push(Finding::warn("cutter-unread", about(stock), text).help(help).at(Some(place)));
        }
        if stock.own.is_some() {
            findings.extend(kerf(stock.cutter(cutter), about(stock)).map(|finding| finding.at(stock.place.as_ref())));
        }
        // What shares the sheets of a stock is as thick as they are.
        let said =
            |other: usize| album.stocks[..number].get(other).is_some_and(|other| other.bought() == stock.bought());
        if !kit.parts.iter().any(|part| said(part.stock)) {
            findings.extend(caliper(album, stock));
        }
        findings.extend(coarse(stock, stock.cutter(cutter)));
        for size in stock.sheets.iter().filter(|size| size.lies.is_none()) {
            findings.extend(bed(album, stock, size, stock.cutter(cutter)));
            findings.extend(on_a_bed(album, stock, size, stock.cutter(cutter)));
            findings.extend(unmarked(album, stock, size, stock.cutter(cutter)));
            findings.extend(tolerance(album, kit, number, size, stock.cutter(cutter)));
        }
    }
    findings
}

fn about(stock: &Stock) -> Said {
    Said::new("about-stock").with("stock", &stock.name)
}

/// Lasers take 0.08 to 0.3 mm out of card, blades next to nothing (shop tables; common practice, no source).
fn kerf(cutter: &Cutter, about: Said) -> Option<Finding> {
    let text = || Said::new("kerf-large").with("kerf", Arg::Length(cutter.kerf, Units::Mm));
    (cutter.kerf.mm() > 1.0).then(|| Finding::note("kerf-large", about, text()).help(Said::new("kerf-large-help")))
}

fn caliper(album: &Album, stock: &Stock) -> Option<Finding> {
    let shown = match album.units {
        Units::In => Arg::from(
            Said::new("caliper-in-points")
                .with("points", format!("{:.1}", stock.caliper.inches() * 1000.0))
                .with("inches", format!("{:.4}", stock.caliper.inches())),
        ),
        Units::Mm | Units::Cm => Arg::Length(stock.caliper, Units::Mm),
    };
    let text = match stock.caliper_from {
        CaliperFrom::Measured => return None,
        CaliperFrom::Grammage => Said::new("caliper-from-weight"),
        CaliperFrom::Guess => Said::new("caliper-taken"),
    };
    let text = text.with("caliper", shown);
    Some(
        Finding::note("caliper-unknown", about(stock), text)
            .help(Said::new("caliper-unknown-help").with("field", Arg::field("caliper")))
            .at(stock.place.as_ref()),
    )
}

fn bed(album: &Album, stock: &Stock, size: &SheetSize, cutter: &Cutter) -> Option<Finding> {
    let (width, height) = cutter.bed.filter(|_| !cutter.takes(size.width, size.height))?;
    let says = |key| {
        let text = Said::new(key).with("sheet", &size.name);
        text.with("width", album.length(width.mm())).with("height", album.length(height.mm()))
    };
    let finding =
        if stock.sheets.iter().filter(|size| size.lies.is_none()).any(|size| cutter.takes(size.width, size.height)) {
            Finding::note("bed-too-small", about(stock), says("sheet-left-out"))
        } else {
            Finding::stop("bed-too-small", about(stock), says("bed-too-small"))
        };
    Some(finding.help(Said::new("bed-too-small-help")).at(stock.place.as_ref()))
}

/// Sheets that can't lie on the bed as the cutter file asks.
fn on_a_bed(album: &Album, stock: &Stock, size: &SheetSize, cutter: &Cutter) -> Option<Finding> {
    let (width, height) = cutter.bed.filter(|_| cutter.takes(size.width, size.height))?;
    let stood = stock.stood(size);
    let text = match cutter.bed_places(stood.width, stood.height).err()? {
        BedProblem::Fewer(count) => Said::new("bed-holds-fewer").with("count", count),
        BedProblem::Outside(place) => Said::new("bed-place-outside").with("place", place),
        BedProblem::Overlap(one, other) => Said::new("bed-places-overlap").with("one", one).with("other", other),
    };
    let text = text.with("sheet", &size.name);
    let text = text.with("width", album.length(width.mm())).with("height", album.length(height.mm()));
    let help = Said::new("bed-places-help").with("field", Arg::field("sheets_a_bed"));
    Some(Finding::stop("bed-places", about(stock), text).help(help).at(stock.place.as_ref()))
}

/// A sheet that is too small for the register marks that are asked for.
fn unmarked(album: &Album, stock: &Stock, size: &SheetSize, cutter: &Cutter) -> Option<Finding> {
    let marks = cutter.marks.filter(|_| cutter.takes(size.width, size.height))?;
    if !cutter.register(size.width, size.height).is_empty() {
        return None;
    }
    let text = Said::new("marks-left-out")
        .with("sheet", &size.name)
        .with("number", marks.number as usize)
        .with("size", album.length(marks.size.mm()))
        .with("inset", album.length(marks.inset.mm()));
    let finding = Finding::warn("marks-left-out", about(stock), text).help(Said::new("marks-left-out-help"));
    Some(finding.at(stock.place.as_ref()))
}

/// Points to an inch under which print looks coarse: half of the 300 that the trade asks for, our choice.
const COARSE: f64 = 150.0;
const FINE: f64 = 300.0;

/// A picture of a stock that is printed before it is cut, and has too few points for that.
fn coarse(stock: &Stock, cutter: &Cutter) -> Option<Finding> {
    let file = stock.pictures.front.as_ref().filter(|_| stock.by == By::Machine && cutter.marks.is_some())?;
    let across = f64::from(file.raster.as_ref()?.points_across());
    let width = Length::from_mm(stock.picture_width());
    // In whole points.
    let enough = |fine: f64| (fine * width.inches() - SAME).ceil();
    if across >= enough(COARSE) {
        return None;
    }
    let whole = |points: f64| format!("{points:.0}");
    let text = Said::new("picture-coarse")
        .with("file", Arg::quoted(&file.name))
        .with("points", whole((across / width.inches()).floor()))
        .with("width", Arg::Roughly(width, file.units));
    let help = Said::new("picture-coarse-help").with("least", whole(enough(COARSE))).with("good", whole(enough(FINE)));
    Some(Finding::note("picture-coarse", about(stock), text).help(help).at(file.place.as_ref()))
}

/// Sheets are cut to within a tolerance of their name (ISO 216, values from memory; ISO 217 for untrimmed
/// ones). A part that needs more than is certain deserves a note.
fn tolerance(album: &Album, kit: &Kit, number: usize, size: &SheetSize, cutter: &Cutter) -> Option<Finding> {
    let stock = &album.stocks[number];
    let (across, up) = paper::sheet(&size.name).and_then(paper::NamedSheet::tolerance)?;
    let doubt = across.max(up).mm();
    let (long, short) = (size.width.mm().max(size.height.mm()), size.width.mm().min(size.height.mm()));
    let (beside, below) = cutter.border(size.width, size.height);
    let (lengthwise, crosswise) = if size.width < size.height { (below, beside) } else { (beside, below) };
    let used = |border: Length| 2.0f64.mul_add(border.mm(), cutter.kerf.mm());
    let tight = |part: &&crate::parts::Part| {
        let (wide, narrow) = (
            part.flat.width.max(part.flat.height) + used(lengthwise),
            part.flat.width.min(part.flat.height) + used(crosswise),
        );
        part.stock == number && wide <= long && narrow <= short && (wide > long - doubt || narrow > short - doubt)
    };
    let part = kit.parts.iter().find(tight)?;
    let text = Said::new("sheet-tolerance")
        .with("part", part.called())
        .with("sheet", &size.name)
        .with("off", album.length(doubt));
    Some(
        Finding::note("sheet-tolerance", about(stock), text)
            .help(Said::new("sheet-tolerance-help"))
            .at(stock.place.as_ref()),
    )
}
