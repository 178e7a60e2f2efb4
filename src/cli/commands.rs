// SPDX-License-Identifier: MIT
//! What each command does.

use super::album_inputs::{Inputs, inputs};
use super::arguments::{KitArguments, New, NewUnits};
use super::cost;
use super::drawer;
use super::end::ExitStatus;
use super::hand_over;
use super::inputs::{Ended, put, rounded, step_problems};
use super::kit_folder::KitFolder;
use super::machine_arguments::{EffortArgument, LabelsArgument};
use super::program_arguments::{Schema, SchemaOf};
use super::say;
use hingeleaf::album::{self, Album, Order};
use hingeleaf::batch as batch_file;
use hingeleaf::coupon;
use hingeleaf::cutter::{self, Cutter};
use hingeleaf::drawer as drawer_file;
use hingeleaf::fields::{Source, nearest};
use hingeleaf::finding::{Arg, Finding, Said};
use hingeleaf::kind_file;
use hingeleaf::layout;
use hingeleaf::length::{Length, Ruler, Units};
use hingeleaf::parts;
use hingeleaf::sheets::{Search, Sheet, StockSheets, drawer_rows};
use hingeleaf::stock::{By, SheetSize, Stock};
use hingeleaf::templates::PrinterPaper;
use hingeleaf::toolpath;
use hingeleaf::work::{FORMATS, Files, Work};
use hingeleaf::write;
use std::path::{Path, PathBuf};

pub(super) fn new(new: &New) -> ExitStatus {
    let units = match new.units {
        NewUnits::Mm => Units::Mm,
        NewUnits::In => Units::In,
    };
    if let Err(ended) = put(&new.file, album::starter(units)) {
        return ended.say(new.json);
    }
    if new.json {
        return say::findings(&[], &[], true, ExitStatus::Done);
    }
    let program = std::env::args_os().next().unwrap_or_else(|| "hingeleaf".into());
    let (program, name) = (say::for_a_shell(Path::new(&program)), say::for_a_shell(&new.file));
    let next = format!("{program} kit {name} --out kit --replace --margin 5 --gap 1");
    say::out(&format!("Wrote {}. Next:\n  {next}\n", say::name(&new.file)), ExitStatus::Done)
}

pub(super) fn kit(kit: &KitArguments) -> ExitStatus {
    match make(kit) {
        Ok((work, inputs, kept)) => {
            let said = say::findings(&work.findings, &inputs, kit.json, ExitStatus::Done);
            if kit.json {
                said
            } else {
                let text = summary(work.album.order(), &work.stocks, &work.cutter, &kit.out, &kept);
                say::out(&(text + &cost::words(work.cost())), said)
            }
        }
        Err(ended) => ended.say(kit.json),
    }
}

/// The album as the arguments want it, and what is to be said of that.
fn wanted(kit: &KitArguments) -> Result<Inputs, Ended> {
    let (handed_over, wrong) = hand_over::read(&kit.handed_over);
    let problems = [unknown_formats(&kit.formats), step_problems(kit.rounded), wrong].concat();
    let Inputs { album, cutter, sources, notes: mut of_files, drawer } = inputs(&kit.file, &kit.machine, problems)?;
    let (mut album, notes) = rounded(album, kit.rounded);
    of_files.extend(notes);
    if let Some(copies) = kit.copies {
        album.copies = copies;
    }
    if let Some(language) = kit.language {
        album.language = language;
    }
    let mut findings = hand_over::hand_over(&mut album, &handed_over);
    findings.extend(drawer::wish(kit.update_drawer, drawer.as_ref()));
    if !findings.is_empty() {
        return Err(Ended { findings, end: ExitStatus::WrongInput, sources });
    }
    Ok(Inputs { album, cutter, sources, notes: of_files, drawer })
}

/// The work, the files that it came from, and what of the maker's own lies in the folder still.
fn make(kit: &KitArguments) -> Result<(Work, Vec<Source>, Vec<PathBuf>), Ended> {
    let Inputs { album, cutter, sources, notes, drawer } = wanted(kit)?;
    let folder = KitFolder::new(kit, drawer)?;
    let search = Search { effort: effort(kit.effort), trimmer: kit.trimmer, threads: threads(kit.threads) };
    let watch = folder.watch();
    let mut work = Work::new(album, cutter, labels(kit.labels), search, &watch);
    watch.done();
    work.add(notes);
    if work.stopped() {
        return Err(Ended { findings: work.findings, end: ExitStatus::DoesNotFit, sources });
    }
    let formats = formats(kit);
    let wanted = files(kit, &formats, &work.album);
    let left = drawer::left(work.album.drawer.as_ref(), &work.album.stocks, &work.stocks);
    let kept = folder.fill(&watch, |sink| work.write(&wanted, sink), left)?;
    Ok((work, sources, kept))
}

pub(super) fn formats(kit: &KitArguments) -> Vec<&str> {
    if kit.formats.is_empty() { FORMATS.to_vec() } else { kit.formats.iter().map(String::as_str).collect() }
}

/// What is to be written, on the paper that the album's is.
pub(super) fn files<'a>(kit: &KitArguments, formats: &'a [&'a str], album: &Album) -> Files<'a> {
    let usual = PrinterPaper::of(album);
    let print =
        PrinterPaper { paper: kit.paper.unwrap_or(usual.paper), margin: kit.paper_margin.unwrap_or(usual.margin) };
    Files {
        split_layers: kit.split_layers,
        both_units: kit.both_units,
        kit_card: kit.card,
        teaching: kit.teaching_sheet,
        print: Some(print),
        threads: threads(kit.threads),
        ..Files::of(formats)
    }
}

pub(super) const fn effort(effort: EffortArgument) -> layout::Effort {
    match effort {
        EffortArgument::Low => layout::Effort::Low,
        EffortArgument::Normal => layout::Effort::Normal,
        EffortArgument::High => layout::Effort::High,
    }
}

pub(super) const fn labels(labels: LabelsArgument) -> toolpath::Labels {
    match labels {
        LabelsArgument::Hidden => toolpath::Labels::Hidden,
        LabelsArgument::Everywhere => toolpath::Labels::Everywhere,
        LabelsArgument::None => toolpath::Labels::None,
    }
}

/// As many threads as asked for, else as many as the machine runs at once.
pub(super) fn threads(asked: Option<u16>) -> usize {
    asked.map_or_else(|| std::thread::available_parallelism().map_or(1, usize::from), usize::from)
}

pub(super) fn schema(schema: &Schema) -> ExitStatus {
    let value = match schema.what {
        SchemaOf::Album => album::schema(&parts::kinds()),
        SchemaOf::Cutter => cutter::schema(),
        SchemaOf::Batch => batch_file::schema(),
        SchemaOf::Drawer => drawer_file::schema(),
        SchemaOf::Kind => kind_file::schema(),
        SchemaOf::Measured => coupon::schema(),
        SchemaOf::Report => write::report_schema(),
        SchemaOf::Compare => write::compare_schema(),
    };
    say::out(&format!("{value:#}\n"), ExitStatus::Done)
}

/// The fonts' licence, the stroke letters' terms, the libraries, every text that these come under, the standard library's notices.
pub(super) fn licences() -> ExitStatus {
    let of_the_font = say::out(include_str!("../write/font/LICENCE.txt"), ExitStatus::Done);
    let libraries =
        concat!(include_str!("libraries.txt"), "\n", include_str!("notices.txt"), "\n", include_str!("standard.txt"));
    say::out(&["\n", include_str!("letters.txt"), "\n", libraries].concat(), of_the_font)
}

/// What was made: the machine's settings, the sheets of each stock and how often each is cut, where the files are.
pub(super) fn summary(
    order: Order<'_>,
    stocks: &[StockSheets],
    cutter: &Cutter,
    out: &Path,
    kept: &[PathBuf],
) -> String {
    let mut lines: Vec<String> = machines(order, stocks, cutter);
    for laid in stocks {
        let stock = &order.stocks[laid.stock];
        lines.push(format!(
            "{}: {}, {:.0} % used; {}.\n",
            stock.name,
            counted(laid.count(), "sheet"),
            laid.used_percent,
            least(order, laid)
        ));
        lines.extend(laid.why.as_ref().map(|why| format!("  because {}\n", why.said())));
        let cut: Vec<String> = laid.sheets.iter().map(|sheet| format!("{} x {}", sheet.times, sheet.name)).collect();
        lines.push(format!("  cut {}\n", cut.join(", ")));
        let packs = if in_packs(&stock.sheets) { " by the sheet; packs are bought whole" } else { "" };
        lines.extend(cost(order, laid).map(|cost| format!("  costs {cost:.2}{packs}\n")));
    }
    lines.extend(drawer_rows(order.stocks, stocks).iter().map(|row| drawer::row(order, row)));
    lines.push(format!("Wrote {}.\n", say::name(out)));
    match kept {
        [] => {}
        [one] => lines.push(format!("Kept {}, which was there and is not the kit's.\n", say::name(one))),
        [one, more @ ..] => lines.push(format!(
            "Kept {} and {} more, which were there and are not the kit's.\n",
            say::name(one),
            more.len()
        )),
    }
    lines.concat()
}

/// The usual machine's settings, unless no sheet is cut with them, and those of every stock that is cut with others.
fn machines(order: Order<'_>, stocks: &[StockSheets], usual: &Cutter) -> Vec<String> {
    let of = |laid: &StockSheets| order.stocks.get(laid.stock);
    let own = |stock: &&Stock| stock.own.is_some() || stock.by == By::Trimmer;
    let all_own = !stocks.is_empty() && stocks.iter().filter_map(of).all(|stock| own(&stock));
    let mut lines: Vec<String> = (!all_own).then(|| settings(usual)).into_iter().collect();
    for stock in stocks.iter().filter_map(of).filter(own) {
        let by = if stock.by == By::Trimmer { ", on the trimmer" } else { "" };
        lines.push(format!("{}{by}: {}\n", stock.name, sizes_of("kerf", stock.cutter(usual))));
    }
    lines
}

fn sizes_of(kerf: &str, cutter: &Cutter) -> String {
    let show = |length: Length| length.show(Units::Mm, Ruler::SixtyFourth);
    format!("{kerf} {}, gap {}, margin {}.", show(cutter.kerf), show(cutter.gap), show(cutter.margin))
}

pub(super) fn settings(cutter: &Cutter) -> String {
    let edge = if cutter.margin == Length::ZERO {
        " Parts use the sheet's own edges: fine by hand; a machine may want --margin 5."
    } else {
        ""
    };
    format!("{}{edge}\n", sizes_of("Kerf", cutter))
}

pub(super) fn counted(count: u64, what: &str) -> String {
    format!("{count} {what}{}", if count == 1 { "" } else { "s" })
}

/// Whether it can be done in fewer, as far as that is known.
fn least(order: Order<'_>, laid: &StockSheets) -> String {
    let stock = &order.stocks[laid.stock];
    if laid.proven_least {
        return "no layout can do it in fewer".into();
    }
    if stock.sheets.len() == 1 {
        return format!("{} might do, and no layout can do it in fewer", laid.lower_bound);
    }
    let of_size = |size: usize| {
        laid.sheets.iter().filter(|sheet| sheet.size == size).map(|sheet| u64::from(sheet.times)).sum::<u64>()
    };
    let sizes =
        stock.sheets.iter().enumerate().map(|(number, size)| (of_size(number), size)).filter(|(count, _)| *count > 0);
    let from = |size: &SheetSize| if size.lies.is_some() { " from the drawer" } else { "" };
    let one = |(count, size): (u64, &SheetSize)| format!("{count} of {}{}", size.name, from(size));
    let sizes = sizes.map(one).collect::<Vec<_>>().join(", ");
    let priced = stock.sheets.iter().all(|size| size.each().is_some());
    match (laid.savable, priced) {
        (None, _) => sizes,
        (Some(0.0), true) => format!("{sizes}; no layout costs less"),
        (Some(0.0), false) => format!("{sizes}; no layout takes less card"),
        (Some(part), true) => format!("{sizes}; another might cost {:.1} % less, not more than that", 100.0 * part),
        (Some(part), false) => {
            format!("{sizes}; another might take {:.1} % less card, not more than that", 100.0 * part)
        }
    }
}

/// Whether sheets are sold in packs of more than one: what one costs is its share of a pack then, and an order pays for the whole of it.
pub(super) fn in_packs(sizes: &[SheetSize]) -> bool {
    sizes.iter().any(|size| size.pack.as_ref().is_some_and(|pack| pack.of > 1))
}

/// What a stock's sheets cost, where every size has its price.
fn cost(order: Order<'_>, laid: &StockSheets) -> Option<f64> {
    let price =
        |sheet: &Sheet| order.stocks[laid.stock].sheets[sheet.size].each().map(|price| price * f64::from(sheet.times));
    laid.sheets.iter().map(price).sum()
}

pub(super) fn unknown_formats(asked: &[String]) -> Vec<Finding> {
    let one = |format: &String| {
        if FORMATS.contains(&format.as_str()) {
            return None;
        }
        let help = match nearest(format, FORMATS.iter().copied()) {
            _ if ["png", "pdf"].contains(&format.as_str()) => Said::new("unknown-format-help-left-out"),
            Some(near) => Said::new("unknown-format-help-meant").with("near", Arg::code(near)),
            None => Said::new("unknown-format-help"),
        };
        let text = Said::new("unknown-format").with("format", Arg::quoted(format));
        let formats = Arg::Row(FORMATS.iter().copied().map(Arg::code).collect());
        Some(Finding::stop("unknown-format", Said::NOTHING, text).help(help.with("formats", formats)))
    };
    asked.iter().filter_map(one).collect()
}
