// SPDX-License-Identifier: MIT
//! Whether each part goes onto a sheet of its stock at all, and if not, which page would.

use crate::album::Album;
use crate::cutter::Cutter;
use crate::finding::Finding;
use crate::length::{Length, Units};
use crate::parts::{self, Kit, Lie, Part};
use crate::stock::paper;
use crate::stock::{SheetSize, Stock, sheet_size};

/// Less than layout's smallest step, mm.
const HAIR: f64 = 1e-4;

/// Parts of one stock that are named when they are too big; the rest is counted.
const NAMED: usize = 6;

pub(super) fn check(album: &Album, kit: &Kit, cutter: &Cutter) -> Vec<Finding> {
    album.stocks.iter().enumerate().flat_map(|(number, _)| of_stock(album, kit, number, cutter)).collect()
}

fn of_stock(album: &Album, kit: &Kit, number: usize, cutter: &Cutter) -> Vec<Finding> {
    let table = Table::new(kit, number, &album.stocks[number], cutter);
    // Where pattern and grain contradict each other on every sheet, it is the parts that keep to the grain that say so.
    let contradiction = table.sizes.is_empty();
    let to_blame = |part: &&Part| part.stock == number && (part.along_grain || !contradiction) && !table.fits(part);
    let big: Vec<&Part> = kit.parts.iter().filter(to_blame).collect();
    // Where the machine takes none of the sheets, that is said elsewhere.
    if big.is_empty() || !table.stock.sheets.iter().any(|size| cutter.takes(size)) {
        return Vec::new();
    }
    // The advice is dear to work out, and the same for all parts of a stock.
    let help = way_out(album, kit, number, cutter);
    let mut findings: Vec<Finding> = big.iter().take(NAMED).map(|part| one(album, part, &table, &help)).collect();
    if big.len() > NAMED {
        let text = format!("{} more parts are too big for their sheet", big.len() - NAMED);
        let finding = Finding::stop("too-big", format!("stock {}", table.stock.name), text);
        findings.push(finding.help(help).at(table.stock.place.as_ref()));
    }
    findings
}

/// A stock, the sizes of it that can be used, the machine.
struct Table<'a> {
    stock: &'a Stock,
    sizes: Vec<usize>,
    cutter: &'a Cutter,
}

impl<'a> Table<'a> {
    fn new(kit: &Kit, number: usize, stock: &'a Stock, cutter: &'a Cutter) -> Self {
        Self { stock, sizes: kit.sizes(number, stock, cutter), cutter }
    }

    /// Whether a part goes onto some sheet.
    fn fits(&self, part: &Part) -> bool {
        self.over(part).any(|(_, (across, up))| across <= HAIR && up <= HAIR)
    }

    /// How far a part sticks out of each size.
    fn over(&self, part: &Part) -> impl Iterator<Item = (&SheetSize, (f64, f64))> {
        let sizes = self.sizes.iter().map(|&size| &self.stock.sheets[size]);
        sizes.filter_map(|size| Some((size, excess(part, self.stock, size, self.cutter)?)))
    }
}

/// How far a part sticks out of a sheet: across and up, in the better way of lying; none where it may not
/// lie on it at all.
fn excess(part: &Part, stock: &Stock, size: &SheetSize, cutter: &Cutter) -> Option<(f64, f64)> {
    let stood = stock.stood(size);
    let used = 2.0f64.mul_add(cutter.margin.mm(), cutter.kerf.mm());
    let (across, up) = (stood.width.mm() - used, stood.height.mm() - used);
    let over = |width: f64, height: f64| ((width - across).max(0.0), (height - up).max(0.0));
    let (as_drawn, quarter) = (over(part.flat.width, part.flat.height), over(part.flat.height, part.flat.width));
    match part.lie(stock, &stood) {
        Lie::NoWay => None,
        Lie::Upright | Lie::AsDrawn => Some(as_drawn),
        Lie::Any if as_drawn.0 + as_drawn.1 <= quarter.0 + quarter.1 => Some(as_drawn),
        Lie::Any | Lie::Sideways => Some((quarter.1, quarter.0)),
    }
}

fn one(album: &Album, part: &Part, table: &Table<'_>, help: &str) -> Finding {
    let Table { stock, cutter, .. } = table;
    let name = part.used_in.first().unwrap_or(&part.id);
    let best = table.over(part).min_by(|(_, one), (_, two)| (one.0 + one.1).total_cmp(&(two.0 + two.1)));
    let Some((size, (across, up))) = best else {
        let text = format!(
            "the pattern of \"{}\" has to stand upright, and then its grain lies across the parts that keep to it",
            stock.name
        );
        return Finding::stop("grain-against-pattern", name, text)
            .help(
                "take a stock whose grain runs the way its pattern stands, or say \"grain\": \"free\" for those parts",
            )
            .at(part.place.as_ref());
    };
    let show = |mm: f64| album.show(mm);
    let sides = match (across > HAIR, up > HAIR) {
        (true, true) => format!("{} too wide and {} too tall", show(across), show(up)),
        (true, false) => format!("{} too wide", show(across)),
        _ => format!("{} too tall", show(up)),
    };
    let mut why = Vec::new();
    if cutter.margin > Length::ZERO {
        why.push(format!("a margin of {} on every side", show(cutter.margin.mm())));
    }
    if cutter.kerf > Length::ZERO {
        why.push(format!("a kerf of {}", show(cutter.kerf.mm())));
    }
    if part.lie(stock, &stock.stood(size)) != Lie::Any {
        why.push("its grain or pattern upright".to_owned());
    }
    let with = if why.is_empty() { String::new() } else { format!(" with {}", why.join(", ")) };
    let text =
        format!("{} x {} is {sides} for a sheet of {}{with}", show(part.flat.width), show(part.flat.height), size.name);
    let (measured, room) = if across >= up {
        (part.flat.width, part.flat.width - across)
    } else {
        (part.flat.height, part.flat.height - up)
    };
    Finding::stop("too-big", name, text)
        .measured(Length::from_mm(measured), Length::from_mm(room))
        .help(help)
        .at(part.place.as_ref())
}

/// The largest page that would fit, and the smallest common sheet that would take these parts.
fn way_out(album: &Album, kit: &Kit, number: usize, cutter: &Cutter) -> String {
    let (width, height) = (album.page.width.mm(), album.page.height.mm());
    let mut ways = Vec::new();
    // Whether all parts of this stock fit when the page has this size.
    let fit_with = |width: f64, height: f64| {
        let other = album.with_page(Length::from_mm(width), Length::from_mm(height));
        parts::kit(&other).value.is_some_and(|kit| all_fit(&kit, number, &album.stocks[number], cutter))
    };
    let step = if album.units == Units::In { 25.4 / 16.0 } else { 1.0 };
    if let Some(tallest) = largest(height, step, |height| fit_with(width, height)) {
        ways.push(format!("make the page at most {} tall at this width", album.show(tallest)));
    }
    if let Some(widest) = largest(width, step, |width| fit_with(width, height)) {
        ways.push(format!("make the page at most {} wide at this height", album.show(widest)));
    }
    if ways.is_empty()
        && let Some(share) = largest(1.0, 1.0 / 256.0, |share| fit_with(width * share, height * share))
    {
        let down = |mm: f64| (mm * share / step).floor() * step;
        ways.push(format!("make the page at most {} x {}", album.show(down(width)), album.show(down(height))));
    }
    if let Some(name) = sheet_for(album, kit, number, cutter) {
        ways.push(format!("take a larger sheet: all parts of this stock fit on {name}"));
    }
    if ways.is_empty() { "make this part smaller, or take a larger sheet".into() } else { ways.join("; or ") }
}

fn all_fit(kit: &Kit, number: usize, stock: &Stock, cutter: &Cutter) -> bool {
    let table = Table::new(kit, number, stock, cutter);
    kit.parts.iter().filter(|part| part.stock == number).all(|part| table.fits(part))
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
        .map(|(name, width, height)| SheetSize { name, width, height, count: None, price: None })
        .collect();
    sizes.sort_by(|one, two| (one.width.mm() * one.height.mm()).total_cmp(&(two.width.mm() * two.height.mm())));
    let takes_all = |size: &SheetSize| {
        let stock = Stock { sheets: vec![size.clone()], ..album.stocks[number].clone() };
        all_fit(kit, number, &stock, cutter)
    };
    sizes.into_iter().find(takes_all).map(|size| size.name)
}
