// SPDX-License-Identifier: MIT
//! `hingeleaf sizes`: the words for an album at many page sizes.

use super::album_inputs::{Inputs, inputs};
use super::arguments::SizesArguments;
use super::commands::{counted, effort, in_packs, settings, threads};
use super::end::ExitStatus;
use super::inputs::{Ended, argument, of_option};
use super::say;
use super::watch::Terminal;
use hingeleaf::album::Album;
use hingeleaf::cutter::Cutter;
use hingeleaf::finding::{Arg, Said};
use hingeleaf::layout::Unwatched;
use hingeleaf::length::{Length, Ruler};
use hingeleaf::sheets::{Search, Tally};
use hingeleaf::sizes::{self, Jump, MOST_STEPS, Range, Size, Survey, Why};
use hingeleaf::toolpath::Labels;
use hingeleaf::work::Work;
use hingeleaf::write;

pub(super) fn sizes(sizes: &SizesArguments) -> ExitStatus {
    match look(sizes) {
        Ok((album, cutter, survey)) => {
            let text =
                if sizes.json { write::sizes(&album, &survey) } else { settings(&cutter) + &words(&album, &survey) };
            say::out(&text, ExitStatus::Done)
        }
        Err(ended) => ended.say(sizes.json),
    }
}

fn look(wanted: &SizesArguments) -> Result<(Album, Cutter, Survey), Ended> {
    let mut findings = Vec::new();
    let mut prints = Vec::new();
    for text in &wanted.holds {
        match sizes::print(text) {
            Ok(print) => prints.push(print),
            Err(error) => findings.push(argument(of_option("--holds", error.what), error.help)),
        }
    }
    let Inputs { mut album, cutter, sources, .. } = inputs(&wanted.file, &wanted.machine, findings)?;
    if let Some(copies) = wanted.copies {
        album.copies = copies;
    }
    let range = range(&album, wanted, prints)?;
    let search = Search { effort: effort(wanted.effort), trimmer: wanted.trimmer, threads: threads(wanted.threads) };
    let watch = Terminal::new(&[]);
    let survey = sizes::survey(&album, &cutter, search, &range, &watch);
    watch.done();
    if survey.base().is_none() && !survey.cut_short {
        return Err(stopped(album, cutter, search, sources));
    }
    Ok((album, cutter, survey))
}

/// Why the album does not go together at its own size.
fn stopped(album: Album, cutter: Cutter, search: Search, sources: Vec<hingeleaf::fields::Source>) -> Ended {
    let work = Work::new(album, cutter, Labels::None, search, &Unwatched);
    Ended { findings: work.findings, end: ExitStatus::DoesNotFit, sources }
}

fn range(album: &Album, wanted: &SizesArguments, prints: Vec<sizes::PrintSize>) -> Result<Range, Ended> {
    let usual = Range::usual(album.units);
    let step = wanted.step.unwrap_or(usual.step);
    let within = wanted.within.unwrap_or_else(|| usual.within());
    let Some(steps) = sizes::steps(step, within) else {
        let text = Said::new("too-many-steps")
            .with("step", Arg::Length(step, album.units))
            .with("within", Arg::Length(within, album.units))
            .with("most", MOST_STEPS);
        return Err(Ended::new(argument(text, Said::new("too-many-steps-help")), ExitStatus::WrongInput));
    };
    Ok(Range { step, steps, prints })
}

fn words(album: &Album, survey: &Survey) -> String {
    let mut lines = Vec::new();
    if let Some(own) = survey.base() {
        let counts = format!("{}: {}{}.\n", sides(album, own.width, own.height), sheets(album, own), costs(own));
        if survey.own.is_some() {
            lines.push(format!("Your page, {counts}"));
        } else {
            let [width, height] = survey.page;
            lines.push(format!("Your page, {}, does not go together: check says why.\n", sides(album, width, height)));
            lines.push(format!("The nearest that does, {counts}"));
        }
        if album.copies > 1 {
            lines.push(format!("Sheets are for all {} kits, costs for one.\n", album.copies));
        }
        if own.cost.is_some() && album.stocks.iter().any(|stock| in_packs(&stock.sheets)) {
            lines.push(
                "Costs are by the sheet: packs are bought whole, so less of a pack saves money with the next one.\n"
                    .into(),
            );
        }
        let jumps = sizes::jumps(survey);
        let mut title = "";
        for jump in &jumps {
            let heading = match jump {
                Jump::Saves(_) => "Fewer sheets:\n",
                Jump::Grows(_) => "A larger page for no more:\n",
                Jump::Costs(_) => "More sheets:\n",
            };
            if heading != title {
                lines.push(heading.into());
                title = heading;
            }
            lines.push(format!("  {}\n", line(album, own, jump.size())));
        }
        if jumps.is_empty() {
            lines.push("No size near it takes more or fewer sheets.\n".into());
        }
        if !survey.named.is_empty() {
            lines.push("Worth knowing, the largest page for so many pieces or the smallest for a print:\n".into());
        }
        for named in &survey.named {
            let why: Vec<String> = named.why.iter().map(|why| reason(album, why)).collect();
            let sheets = named.size.as_ref().map_or_else(
                || "the album does not go together there".into(),
                |size| format!("{}{}", sheets(album, size), costs(size)),
            );
            let size = if named.size.is_some() && named.size == survey.own {
                "your page".into()
            } else {
                sides(album, named.width, named.height)
            };
            lines.push(format!("  {}: {size}: {sheets}\n", why.join(", ")));
        }
    }
    let unsure = |size: &Size| size.tallies.iter().any(|tally| !tally.proven_least);
    if survey.sizes.iter().any(unsure) {
        lines.push("\"or fewer\": a longer look might find a layout with fewer sheets.\n".into());
    }
    lines.push(tried(survey));
    lines.concat()
}

fn tried(survey: &Survey) -> String {
    let stopped = if survey.cut_short { "Stopped. " } else { "" };
    let left_out = match survey.left_out {
        0 => String::new(),
        1 => "; at 1 of them the album does not go together".into(),
        many => format!("; at {many} of them the album does not go together"),
    };
    format!("{stopped}Tried {}{left_out}.\n", counted(survey.tried as u64, "size"))
}

/// `1 mm narrower (147 x 190 mm): 8 sheets of card instead of 9, 0.25 less a kit`
fn line(album: &Album, own: &Size, size: &Size) -> String {
    let mut counts: Vec<String> = Vec::new();
    for tally in &size.tallies {
        let before = own.tallies.iter().find(|other| other.stock == tally.stock);
        if before.is_none_or(|before| before.sheets != tally.sheets) {
            let instead = before.map_or(String::new(), |before| format!(" instead of {}", number(before)));
            counts.push(format!("{}{instead}", of_stock(album, tally)));
        }
    }
    if counts.is_empty() {
        counts.push("as many sheets".into());
    }
    let money = own.cost.zip(size.cost).map(|(own, cost)| cost - own).filter(|more| more.abs() >= 0.005);
    let money = money.map_or(String::new(), |more| {
        format!(", {:.2} {} a kit", more.abs(), if more < 0.0 { "less" } else { "more" })
    });
    format!("{} ({}): {}{money}", apart(album, own, size), sides(album, size.width, size.height), counts.join(", "))
}

/// `1 mm narrower and 2 mm shorter`
fn apart(album: &Album, own: &Size, size: &Size) -> String {
    let way = |off: Length, less: &str, more: &str| {
        let word = if off.mm() < 0.0 { less } else { more };
        (off.eighths() != 0).then(|| format!("{} {word}", off.abs().show(album.units, Ruler::SixtyFourth)))
    };
    let across = way(size.width - own.width, "narrower", "wider");
    let up = way(size.height - own.height, "shorter", "taller");
    across.into_iter().chain(up).collect::<Vec<_>>().join(" and ")
}

/// `147 x 190 mm`
fn sides(album: &Album, width: Length, height: Length) -> String {
    let show = |side: Length| side.show(album.units, Ruler::SixtyFourth);
    let width = show(width);
    let unit = format!(" {}", album.units.name());
    format!("{} x {}", width.strip_suffix(&unit).unwrap_or(&width), show(height))
}

/// `9 sheets of card, 4 or fewer sheets of paper`
fn sheets(album: &Album, size: &Size) -> String {
    size.tallies.iter().map(|tally| of_stock(album, tally)).collect::<Vec<_>>().join(", ")
}

fn of_stock(album: &Album, tally: &Tally) -> String {
    let stock = &album.stocks[tally.stock].name;
    format!("{} sheet{} of {stock}", number(tally), if tally.sheets == 1 { "" } else { "s" })
}

fn number(tally: &Tally) -> String {
    if tally.proven_least { tally.sheets.to_string() } else { format!("{} or fewer", tally.sheets) }
}

fn costs(size: &Size) -> String {
    size.cost.map_or(String::new(), |cost| format!(", {cost:.2} a kit"))
}

fn reason(album: &Album, why: &Why) -> String {
    match why {
        Why::FromSheet { stock, count, panels } => {
            let what = if *panels { "panels" } else { "page pieces" };
            format!("{count} {what} from one sheet of {}", album.stocks[*stock].name)
        }
        Why::Holds { print, lying } => {
            let stand = if *lying { "lying" } else { "upright" };
            format!("holds {} prints {stand}", print.name)
        }
    }
}
