// SPDX-License-Identifier: MIT
//! Whether each part goes onto a sheet of its stock at all, and if not, which page would.

use crate::album::Album;
use crate::cutter::Cutter;
use crate::finding::{Arg, Finding, Place, Said};
use crate::length::{Length, Units};
use crate::outline;
use crate::paper::{self, sheet_size};
use crate::parts::{Kit, Part, Resized, Way};
use crate::stock::{SheetSize, Stock};
use crate::trial::Trial;
use crate::usable::{Lie, Usable, UsableSheet};

/// Parts of one stock that are named when they are too big; the rest is counted.
const NAMED: usize = 6;

pub(super) fn check(album: &Album, kit: &Kit, cutter: &Cutter) -> Vec<Finding> {
    album.stocks.iter().enumerate().flat_map(|(number, _)| of_stock(album, kit, number, cutter)).collect()
}

fn of_stock(album: &Album, kit: &Kit, number: usize, cutter: &Cutter) -> Vec<Finding> {
    let of_stock = UsableStock::new(kit, number, &album.stocks[number], cutter);
    // Where pattern and grain contradict each other on every sheet, it is the parts that keep to the grain that say so.
    let contradiction = of_stock.usable.sheets.is_empty();
    let to_blame = |part: &&Part| part.stock == number && (part.along_grain || !contradiction) && !of_stock.fits(part);
    let big: Vec<&Part> = kit.parts.iter().filter(to_blame).collect();
    // Where the machine takes none of the sheets, that is said elsewhere.
    let takes = |size: &SheetSize| size.lies.is_none() && of_stock.cutter.takes(size.width, size.height);
    if big.is_empty() || of_stock.stock.ready || !of_stock.stock.sheets.iter().any(takes) {
        return Vec::new();
    }
    // The advice is dear to work out, and the same for all parts of a stock.
    let (help, larger) = way_out(album, kit, number, cutter);
    // Where it comes in several sizes, which of them goes is the maker's to say.
    let larger = larger.filter(|_| of_stock.stock.sheets.len() == 1);
    let may = |finding: Finding| finding.other_sheet(of_stock.stock.bought(), larger.as_deref());
    let told = |part: &&Part| may(one(album, part, &of_stock, (&help, drawn(album, kit, part, &of_stock))));
    let mut findings: Vec<Finding> = big.iter().take(NAMED).map(told).collect();
    if big.len() > NAMED {
        let text = Said::new("too-big-more").with("parts", big.len() - NAMED);
        let finding = Finding::stop("too-big", Said::new("about-stock").with("stock", &of_stock.stock.name), text);
        findings.push(may(finding.help(help).at(of_stock.stock.place.as_ref())));
    }
    findings
}

/// A stock, what its sheets take, the machine.
struct UsableStock<'a> {
    stock: &'a Stock,
    usable: Usable,
    cutter: &'a Cutter,
}

impl<'a> UsableStock<'a> {
    fn new(kit: &Kit, number: usize, stock: &'a Stock, cutter: &'a Cutter) -> Self {
        Self { stock, usable: kit.usable(number, stock, cutter), cutter: stock.cutter(cutter) }
    }

    /// Whether a part goes onto some sheet.
    fn fits(&self, part: &Part) -> bool {
        self.usable.takes(part.size(), part.keeps())
    }

    /// How far a part sticks out of each sheet, across and up.
    fn over(&self, part: &Part) -> impl Iterator<Item = (&UsableSheet, (i64, i64))> {
        let over = |sheet| Some((sheet, self.usable.over(sheet, part.size(), part.keeps())?));
        self.usable.sheets.iter().filter_map(over)
    }
}

fn one(
    album: &Album,
    part: &Part,
    of_stock: &UsableStock<'_>,
    (help, drawn): (&Said, Option<SmallerDrawing>),
) -> Finding {
    let UsableStock { stock, usable, cutter } = of_stock;
    let about = Said::named(part.called());
    let best = of_stock.over(part).min_by_key(|(_, (across, up))| across.saturating_add(*up));
    let Some((sheet, (across, up))) = best else {
        let text = Said::new("grain-against-pattern").with("stock", Arg::quoted(&stock.name));
        return Finding::stop("grain-against-pattern", about, text)
            .help(Said::new("grain-against-pattern-help"))
            .at(part.place.as_ref());
    };
    let size = &stock.sheets[sheet.size];
    let [across, up] = [across, up].map(|over| Length::from_eighths(over).mm());
    let over = match (across > 0.0, up > 0.0) {
        (true, true) => Said::new("too-wide-and-tall"),
        (true, false) => Said::new("too-wide"),
        _ => Said::new("too-tall"),
    };
    let mut why: Vec<Arg> = Vec::new();
    if cutter.margin > Length::ZERO {
        why.push(Said::new("with-margin").with("margin", album.length(cutter.margin.mm())).into());
    }
    if sheet.border != (cutter.margin, cutter.margin) {
        let (beside, below) = sheet.border;
        let band = if beside > below { beside } else { below };
        why.push(Said::new("with-marks").with("band", album.length(band.mm())).into());
    }
    if cutter.kerf > Length::ZERO {
        why.push(Said::new("with-kerf").with("kerf", album.length(cutter.kerf.mm())).into());
    }
    if usable.lie(sheet, part.keeps()) != Lie::Any {
        why.push(Said::new("with-its-way").into());
    }
    let text = Said::new("too-big")
        .with("width", album.length(part.flat.width))
        .with("height", album.length(part.flat.height))
        .with("over", over.with("across", album.length(across)).with("up", album.length(up)))
        .with("sheet", &size.name)
        .with("reasons", why.len())
        .with("why", Arg::Row(why));
    let (measured, room) = if across >= up {
        (part.flat.width, part.flat.width - across)
    } else {
        (part.flat.height, part.flat.height - up)
    };
    let finding = Finding::stop("too-big", about, text).measured(Length::from_mm(measured), Length::from_mm(room));
    let Some(SmallerDrawing { path, most, place }) = drawn else {
        return finding.help(help.clone()).at(part.place.as_ref());
    };
    let field = Arg::field(path.rsplit('.').next().unwrap_or_default());
    let smaller = Said::new("too-big-help-drawn").with("field", field).with("most", album.length(most.mm()));
    let general = help.key() == "too-big-help";
    finding.help(if general { smaller } else { either(smaller, help.clone()) }).mend(path, most).at(place.as_ref())
}

/// The length that makes a drawn shape as large as a sheet takes, and where the file says it.
struct SmallerDrawing {
    path: String,
    most: Length,
    place: Option<Place>,
}

/// How a drawn shape gets onto a sheet, where one length does it.
fn drawn(album: &Album, kit: &Kit, part: &Part, of_stock: &UsableStock<'_>) -> Option<SmallerDrawing> {
    let is_it = |piece: usize| kit.pieces.get(piece).and_then(|piece| kit.parts.get(piece.part));
    let insert = kit.inserts.iter().find(|insert| is_it(insert.piece).is_some_and(|other| other.id == part.id))?;
    let Resized::InProportion(way) = insert.resized else { return None };
    let (width, height) = part.size();
    let side = if way == Way::Across { width } else { height };
    let at = |size: f64| (width * size / side, height * size / side);
    let most = largest(side, album.units.half_step().mm(), |size| of_stock.usable.takes(at(size), part.keeps()))?;
    let (path, most) = insert.at_most(way, most)?;
    let most = album.at_most(most);
    let (width, height) = at(most.mm());
    // Nothing smaller can be made.
    let place = insert.places[way as usize].clone();
    (width.min(height) >= outline::LEAST).then_some(SmallerDrawing { path, most, place })
}

/// One way out or the other.
fn either(one: Said, other: Said) -> Said {
    Said::new("or-else").with("one", one).with("other", other)
}

/// What to do: the largest page that would fit, or the smallest common sheet that would take these parts; and that sheet.
fn way_out(album: &Album, kit: &Kit, number: usize, cutter: &Cutter) -> (Said, Option<String>) {
    let (width, height) = (album.page.width.mm(), album.page.height.mm());
    let mut ways = Vec::new();
    // Whether all parts of this stock fit when the page has this size.
    let fit_with = |width: f64, height: f64| {
        let tried = Trial::of(album.with_page(Length::from_mm(width), Length::from_mm(height)), cutter);
        tried.kit().is_some_and(|kit| all_fit(kit, number, &album.stocks[number], cutter))
    };
    let step = album.units.step().mm();
    if let Some(tallest) = largest(height, step, |height| fit_with(width, height)) {
        ways.push(Said::new("too-big-help-height").with("height", album.length(tallest)));
    }
    if let Some(widest) = largest(width, step, |width| fit_with(width, height)) {
        ways.push(Said::new("too-big-help-width").with("width", album.length(widest)));
    }
    if ways.is_empty()
        && let Some(share) = largest(1.0, 1.0 / 256.0, |share| fit_with(width * share, height * share))
    {
        let down = |mm: f64| (mm * share / step).floor() * step;
        let help = Said::new("too-big-help-size").with("width", album.length(down(width)));
        ways.push(help.with("height", album.length(down(height))));
    }
    let larger = sheet_for(album, kit, number, cutter);
    if let Some(name) = &larger {
        ways.push(Said::new("too-big-help-sheet").with("sheet", name));
    }
    (ways.into_iter().reduce(either).unwrap_or(Said::new("too-big-help")), larger)
}

fn all_fit(kit: &Kit, number: usize, stock: &Stock, cutter: &Cutter) -> bool {
    let of_stock = UsableStock::new(kit, number, stock, cutter);
    kit.parts.iter().filter(|part| part.stock == number).all(|part| of_stock.fits(part))
}

/// The largest whole number of steps below `from` for which `fits` holds, taken to hold for all smaller ones.
fn largest(from: f64, step: f64, fits: impl Fn(f64) -> bool) -> Option<f64> {
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a page has at most a few thousand steps"
    )]
    let mut high = (from / step).ceil() as u32;
    let mut low = 0;
    while high - low > 1 {
        let middle = u32::midpoint(low, high);
        if fits(f64::from(middle) * step) { low = middle } else { high = middle }
    }
    // Nothing at all is no advice.
    (low > 0).then(|| f64::from(low) * step)
}

/// Sheets that people who measure in inches can buy, smallest first.
const INCH_SHEETS: [&str; 4] = ["letter", "legal", "12x12in", "tabloid"];

/// The smallest common sheet, in the maker's own units, that takes every part of a stock.
fn sheet_for(album: &Album, kit: &Kit, number: usize, cutter: &Cutter) -> Option<String> {
    let mut names: Vec<&str> = paper::named_sheets().iter().map(|sheet| sheet.name).collect();
    names.retain(|name| !INCH_SHEETS.contains(name));
    if album.units == Units::In {
        names = INCH_SHEETS.to_vec();
    }
    let mut sizes: Vec<SheetSize> = names
        .into_iter()
        .filter_map(|name| sheet_size(name).ok())
        .map(|(name, width, height)| SheetSize {
            name,
            width,
            height,
            count: None,
            price: None,
            pack: None,
            lies: None,
        })
        .collect();
    sizes.sort_by(|one, two| (one.width.mm() * one.height.mm()).total_cmp(&(two.width.mm() * two.height.mm())));
    let takes_all = |size: &SheetSize| {
        let stock = Stock { sheets: vec![size.clone()], ..album.stocks[number].clone() };
        all_fit(kit, number, &stock, cutter)
    };
    sizes.into_iter().find(takes_all).map(|size| size.name)
}
