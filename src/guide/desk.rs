// SPDX-License-Identifier: MIT
//! What every section of the guide is written at: the job, the words, the list with its letters.

use super::audience::Audience;
use super::bits::{Guide, Section};
use super::job::GuideJob;
use super::joints;
use super::line::{Line, What};
use super::list::{self, Row};
use super::measure::{self, Measure};
use super::trimmer::{self, Plan};
use super::words::Words;
use crate::folded::{self, Folded};
use crate::length::tolerance::READ;
use crate::net::{Panel, Use};
use crate::parts::{Kit, Owner, Part, Side};
use crate::sheets::StockSheets;
use crate::stock::{By, SheetSize, Stock};
use crate::toolpath::{Layer, SheetPaths};

/// Words of the page itself, looked up once.
pub(super) const PAGE: [&str; 6] =
    ["page-contents", "page-caution", "page-maker", "page-done", "page-notes", "page-again"];

/// What the last page of several that follow one another is of.
const RANGE: &str = "to";

/// So many things go into one sentence: our choice.
pub(super) const A_LINE: usize = 8;

/// What the sections share.
pub(super) struct Desk<'a> {
    pub job: &'a GuideJob<'a>,
    pub reader: Audience,
    /// How many kits it speaks of.
    pub kits: u32,
    /// The sheets that the reader cuts, for so many kits.
    pub stocks: Vec<StockSheets>,
    pub words: Words,
    pub measure: Measure,
    pub rows: Vec<Row>,
    pub folded: Folded,
    pub plans: Vec<Plan>,
    pub piles: Vec<Vec<usize>>,
    /// The number of the kind that all pages are of, where it speaks of any page of that kind.
    pub of_kind: Option<usize>,
}

impl<'a> Desk<'a> {
    pub(super) fn new(job: &'a GuideJob<'a>, reader: Audience) -> Self {
        let kits = if reader == Audience::Kit { 1 } else { job.album.made().max(1) };
        let stocks = sheets(job, reader, kits);
        let calipers: Vec<f64> = job.album.stocks.iter().map(|stock| stock.caliper.mm()).collect();
        let words = Words::new(job.language);
        Self {
            job,
            measure: Measure { units: job.album.units, both: job.both_units, notation: words.notation() },
            words,
            reader,
            kits,
            rows: rows(job, kits),
            folded: folded::fold(job.kit, &calipers),
            plans: trimmer::plans(job.kit, &stocks),
            piles: joints::piles(job.kit),
            of_kind: None,
            stocks,
        }
    }

    pub(super) fn guide(&self, sections: Vec<Section>) -> Guide {
        let album = self.job.album;
        Guide {
            title: album.title.clone(),
            maker: album.maker.clone(),
            edition: album.edition.clone(),
            notes: album.notes.clone(),
            language: self.words.language(),
            paper: album.paper(),
            page: PAGE.into_iter().map(|name| (name, self.words.text(name))).collect(),
            sections,
        }
    }

    /// A sentence.
    pub(super) fn say(&self, key: &str, places: Vec<(&str, Line)>) -> Line {
        self.words.line(key, places)
    }

    /// A sentence without places.
    pub(super) fn tell(&self, key: &str) -> Line {
        self.words.line(key, Vec::new())
    }

    /// A length.
    pub(super) fn length(&self, mm: f64, what: What, of: &str) -> Line {
        self.measure.length(mm, what, of)
    }

    /// A length of a machine's settings, where hundredths of a millimetre count.
    pub(super) fn fine(&self, mm: f64) -> Line {
        self.measure.fine(mm, What::Length, "cutter")
    }

    /// Width and height of a part.
    pub(super) fn size(&self, part: &Part) -> Line {
        self.sides_in(&self.measure, part, "cut-size")
    }

    /// The same in other words.
    pub(super) fn sides_in(&self, measure: &Measure, part: &Part, key: &str) -> Line {
        let size = vec![
            ("width", measure.length(part.flat.width, What::Width, &part.id)),
            ("height", measure.length(part.flat.height, What::Height, &part.id)),
        ];
        self.say(key, size)
    }

    /// Sheets as they are bought: the stock of each, its size, and how many there are.
    pub(super) fn bought<'b>(&'b self, laid: &'b StockSheets) -> impl Iterator<Item = (&'b Stock, &'b SheetSize, u64)> {
        let stock = self.stock(laid.stock);
        laid.by_size().into_iter().filter_map(move |(size, count)| Some((stock?, stock?.sheets.get(size)?, count)))
    }

    /// What the reader calls a stock: as it is bought. Whoever makes all kits, or cuts one stock in two ways, tells what is cut
    /// otherwise by its own name.
    pub(super) fn called<'s>(&self, stock: &'s Stock) -> &'s str {
        let alike = self.job.album.stocks.iter().filter(|other| other.bought() == stock.bought()).count();
        if self.reader == Audience::Kit && alike == 1 { stock.bought() } else { &stock.name }
    }

    /// Width and height of a sheet as it is bought.
    pub(super) fn sheet_sides(&self, stock: &Stock, size: &SheetSize) -> Vec<(&'static str, Line)> {
        vec![
            ("width", self.length(size.width.mm(), What::SheetWidth, &stock.name)),
            ("height", self.length(size.height.mm(), What::SheetHeight, &stock.name)),
        ]
    }

    pub(super) fn kit(&self) -> &'a Kit {
        self.job.kit
    }

    pub(super) fn part(&self, number: usize) -> Option<&'a Part> {
        self.job.kit.parts.get(number)
    }

    pub(super) fn id(&self, number: usize) -> &'a str {
        self.part(number).map_or("", |part| part.id.as_str())
    }

    pub(super) fn stock(&self, number: usize) -> Option<&'a Stock> {
        self.job.album.stocks.get(number)
    }

    /// Whether the reader cuts a part.
    pub(super) fn cuts(&self, part: usize) -> bool {
        self.part(part).is_some_and(|part| self.reader.cuts(self.job.album, part.stock))
    }

    /// Whether the reader scores a part.
    pub(super) fn scores(&self, part: usize) -> bool {
        self.part(part).is_some_and(|part| self.reader.scores(self.job.album, part.stock))
    }

    /// Whether a part is handed over as pieces, and not in its sheets.
    pub(super) fn is_packed(&self, row: &Row) -> bool {
        self.part(row.part).is_some_and(|part| !self.job.album.is_handed_whole(part.stock))
    }

    /// The letter of a part.
    pub(super) fn mark(&self, part: usize) -> Line {
        Line::mark(list::mark(&self.rows, part))
    }

    /// `A (pocket front)`.
    pub(super) fn named(&self, part: usize) -> Line {
        let kind = self.part(part).map_or("", |part| part.kind);
        self.say("part-named", vec![("mark", self.mark(part)), ("kind", Line::text(self.words.term(kind)))])
    }

    /// A piece by its part's letter and what it is of its page: `A (front)`.
    pub(super) fn piece(&self, number: usize) -> Line {
        let Some(piece) = self.kit().pieces.get(number) else { return Line::default() };
        // Pieces in a pile have no names of their own.
        if let Some(pile) = self.piles.iter().find(|pile| pile.contains(&number)) {
            let pages = self.pages(joints::page_of(self.kit(), pile).as_slice());
            return self.say("pile-named", vec![("mark", self.mark(piece.part)), ("pages", pages)]);
        }
        let name = self.words.name(&piece.of_owner());
        let places = vec![("mark", self.mark(piece.part)), ("kind", Line::text(name))];
        self.say("part-named", places)
    }

    /// The name of a panel.
    pub(super) fn plain_name(&self, side: &Side) -> Line {
        let panel = self.kit().pieces.get(side.piece).and_then(|piece| piece.net.panels.get(side.panel));
        Line::text(panel.map_or_else(String::new, |panel| self.words.term(panel.name)))
    }

    /// The name of a panel, with its number from the left where its piece has several of that name.
    pub(super) fn panel_name(&self, side: &Side) -> Line {
        let Some(net) = self.kit().pieces.get(side.piece).map(|piece| &piece.net) else { return Line::default() };
        let Some(panel) = net.panels.get(side.panel) else { return Line::default() };
        let name = Line::text(self.words.term(panel.name));
        let middle = |panel: &Panel| panel.outline.bounds().center();
        let alike = || net.panels.iter().filter(|one| one.name == panel.name);
        if alike().count() < 2 {
            return name;
        }
        let before = alike().filter(|one| middle(one).x < middle(panel).x - READ).count();
        let number = measure::count(u64::try_from(before + 1).unwrap_or(u64::MAX), What::Many, "panel");
        self.say("panel-number", vec![("panel", name), ("n", number)])
    }

    /// Whether a panel goes by its part's own name: all else of that is seams, tabs and flaps.
    pub(super) fn is_main(&self, side: &Side) -> bool {
        let panels = self.kit().pieces.get(side.piece).map_or(&[][..], |piece| &piece.net.panels);
        let plain = |(number, panel): (usize, &Panel)| (panel.purpose == Use::Plain).then_some(number);
        let mut plain = panels.iter().enumerate().filter_map(plain);
        plain.next() == Some(side.panel) && plain.next().is_none()
    }

    /// A panel of a piece: `the seam of A`; its main panel is the piece itself.
    pub(super) fn panel(&self, side: &Side) -> Line {
        // What is one panel is that whole.
        let whole = self.kit().pieces.get(side.piece).is_none_or(|piece| piece.net.panels.len() == 1);
        if whole || self.is_main(side) {
            return self.piece(side.piece);
        }
        self.say("panel-of", vec![("panel", self.panel_name(side)), ("part", self.piece(side.piece))])
    }

    /// A part, with how many there are where these are several: `2 × A (pocket front)`.
    pub(super) fn times(&self, row: &Row) -> Line {
        let count = measure::count(row.count, What::Count, self.id(row.part));
        match row.count {
            1 => self.named(row.part),
            _ => self.say("part-times", vec![("n", count), ("part", self.named(row.part))]),
        }
    }

    /// The head of a step for one part, or for several that are worked alike, and then the lines that name these.
    pub(super) fn several(&self, rows: &[&Row], one: &str, many: &str) -> (Line, Vec<Line>) {
        let count = |row: &Row| measure::count(row.count, What::Count, self.id(row.part));
        if let [row] = rows {
            return (self.say(one, vec![("part", self.named(row.part)), ("n", count(row))]), Vec::new());
        }
        let parts: Vec<Line> = rows.iter().map(|row| self.times(row)).collect();
        let lines =
            parts.chunks(A_LINE).map(|few| self.say("these-parts", vec![("parts", self.words.list(few.to_vec()))]));
        (self.tell(many), lines.collect())
    }

    /// The stocks of which the reader cuts sheets by such means, in order.
    pub(super) fn cut_by(&self, by: By) -> Vec<&Stock> {
        let some = |laid: &&StockSheets| laid.sheets.iter().any(|sheet| sheet.by() == by);
        self.stocks.iter().filter(some).filter_map(|laid| self.stock(laid.stock)).collect()
    }

    /// Whether anything is scored in the files of these stocks; they are, as long as nobody has worked them out.
    pub(super) fn scored(&self, stocks: &[&Stock]) -> bool {
        let named = |number: usize| self.stock(number).map(|stock| stock.name.as_str());
        let mine = |sheet: &&SheetPaths| stocks.iter().any(|stock| named(sheet.stock) == Some(stock.name.as_str()));
        let mut sheets = self.job.paths.iter().filter(mine).peekable();
        sheets.peek().is_none() || sheets.any(|sheet| sheet.strokes.iter().any(|stroke| stroke.layer == Layer::Score))
    }

    /// The plan for a sheet, where it is cut on a trimmer.
    pub(super) fn plan(&self, sheet: &str) -> Option<&Plan> {
        self.plans.iter().find(|plan| plan.sheet == sheet)
    }

    /// `page 1`, `pages 1, 2 and 4`; the spine and the cover have no number.
    pub(super) fn pages(&self, owners: &[Owner]) -> Line {
        let mut numbers: Vec<u64> = owners
            .iter()
            .filter_map(|owner| match owner {
                Owner::Page(page) | Owner::Insert(page) => u64::try_from(*page).ok(),
                Owner::Spine | Owner::Cover => None,
            })
            .collect();
        numbers.sort_unstable();
        if let Some(kind) = self.of_kind {
            return self.any_page(kind, &numbers);
        }
        self.numbered(&numbers)
    }

    /// The same of numbers in order: pages that follow one another by the first and the last of them.
    pub(super) fn numbered(&self, numbers: &[u64]) -> Line {
        let page = |page: &u64| measure::count(*page, What::Page, "");
        let mut list = Vec::new();
        for run in numbers.chunk_by(|one, next| one.saturating_add(1) == *next) {
            match run {
                [from, _, .., to] => {
                    let ends = vec![("from", page(from)), ("to", measure::count(*to, What::Page, RANGE))];
                    list.push(self.say("page-range", ends));
                }
                few => list.extend(few.iter().map(page)),
            }
        }
        let key = if numbers.len() == 1 { "page-one" } else { "page-several" };
        self.say(key, vec![("pages", self.words.list(list))])
    }

    /// `page of kind 2`; where that is not so of all places, with these.
    fn any_page(&self, kind: usize, numbers: &[u64]) -> Line {
        let count = |number: u64, what: What| measure::count(number, what, "");
        let kind = count(u64::try_from(kind + 1).unwrap_or(u64::MAX), What::Many);
        let mut places = numbers.to_vec();
        places.dedup();
        if places.len() == self.job.album.pages.len() {
            return self.say("chosen-page", vec![("n", kind)]);
        }
        let places = self.words.list(places.into_iter().map(|page| count(page, What::Page)).collect());
        self.say("chosen-page-at", vec![("n", kind), ("pages", places)])
    }
}

/// The list, with the letters that an order gives.
fn rows(job: &GuideJob<'_>, kits: u32) -> Vec<Row> {
    let mut rows = list::list(job.album.order(), job.kit, kits);
    for row in &mut rows {
        if let Some(letter) = job.letters.and_then(|letters| letters.get(row.part)) {
            row.mark.clone_from(letter);
        }
    }
    rows
}

/// The sheets that a reader cuts. Who makes one kit of many has none, unless whole sheets are handed over.
fn sheets(job: &GuideJob<'_>, reader: Audience, kits: u32) -> Vec<StockSheets> {
    let (album, made) = (job.album, job.album.made().max(1));
    let mine = |laid: &&StockSheets| reader.cuts(album, laid.stock) && (kits == made || album.is_apart(laid.stock));
    let of_kits = |laid: &StockSheets| {
        let mut laid = laid.clone();
        // Those of spare parts are no kit's.
        laid.sheets.retain(|sheet| !sheet.spare);
        for sheet in &mut laid.sheets {
            sheet.times = sheet.times / made * kits;
        }
        laid
    };
    job.stocks.iter().filter(mine).map(|laid| if kits == made { laid.clone() } else { of_kits(laid) }).collect()
}
