// SPDX-License-Identifier: MIT
//! From the album file's text to the checked [`Album`].

use super::file_fields::{
    BOUND, COPIES, COVER, EDITION, FORMAT, HANDED_OVER, HEIGHT, INSERTS, KINDS, LABELS, LANGUAGE, MAKER, NOTES, ON,
    PAGE, PAGE_FIELDS, PAGES, PANEL_FIELDS, PANEL_STOCK, PANELS, REVEAL, RUNS_ON, SEAM, SPINE, STOCKS, TAPE, TITLE,
    TOLERANCE, TOP_FIELDS, WIDTH,
};
use super::kind::{BY, COUNT, EntryGrain, GRAIN, INSERT_PAGES, Kind, Role, STOCK};
use super::label_grid::{self, LABEL_FIELDS};
use super::spares::{self, SPARES};
use super::{Album, EDGES, Entry, Handed, LabelGrid, PageSize, Panels, edges, hand_over, named_kinds, offcut, paper};
use crate::drawer::NamedDrawer;
use crate::fields::{Grafted, Node, Reader, Source, Tree, Values, meant_or};
use crate::finding::{Arg, Checked, Finding, Place, Said};
use crate::length::{Length, excerpt};
use crate::outline::{self, OUTLINE, Outlined};
use crate::selling::{self, PACKS, Terms};
use crate::stock::{self, By, Stock};

/// More inserts of a kit than this are a mistake: our choice.
pub(crate) const MOST_INSERTS: u64 = 5000;

/// Reads an album file; `kinds` are all that there are, of every role.
#[must_use]
pub fn read(source: &Source, kinds: &[&'static Kind]) -> Checked<Album> {
    of(Reader::new(source), kinds, None)
}

/// Reads an album file that another file changed.
#[must_use]
pub fn read_changed(file: &Grafted, kinds: &[&'static Kind]) -> Checked<Album> {
    of(Reader::of_changed(file), kinds, None)
}

/// Reads an album file that another file changed, whose pages are chosen: its `pages` are one of each kind that there is to
/// choose from, and it has so many; `way` is where these kinds stand in the other file.
#[must_use]
pub fn read_choice(file: &Grafted, kinds: &[&'static Kind], pages: usize, way: &str) -> Checked<Album> {
    of(Reader::of_changed(file), kinds, Some((pages, way)))
}

fn of(mut reader: Reader<'_>, kinds: &[&'static Kind], chosen: Option<(usize, &str)>) -> Checked<Album> {
    let album = Reading { reader: &mut reader, kinds, chosen, stocks: Vec::new() }.album();
    match album {
        Some(album) => Checked::new(album, reader.findings),
        None => Checked::none(reader.findings),
    }
}

struct Reading<'r, 's> {
    reader: &'r mut Reader<'s>,
    kinds: &'r [&'static Kind],
    /// How many pages it has, where these are chosen, and where the kinds of page stand.
    chosen: Option<(usize, &'r str)>,
    stocks: Vec<Stock>,
}

impl Reading<'_, '_> {
    fn album(mut self) -> Option<Album> {
        let top = self.reader.top(TOP_FIELDS, FORMAT)?;
        if let Some(node) = top.get(KINDS) {
            named_kinds::checked(self.reader, node);
        }
        if let Some(node) = top.get(STOCKS) {
            self.stocks(node);
        }
        if self.stocks.is_empty() {
            self.stocks.push(Stock::a4_card());
        }
        let terms = self.terms(&top);
        let spares = top.get(SPARES).and_then(|node| spares::read(self.reader, node));
        let handed_over = top.get(HANDED_OVER).map(|node| self.handed_over(node));
        let page = top.get(PAGE).and_then(|node| self.page(node));
        let page_stock = page.as_ref().map_or(0, |page| page.stock);
        let (pages, page_count) = top.get(PAGES).map(|node| self.pages(node, page_stock)).unwrap_or_default();
        let spine = match top.get(SPINE) {
            Some(node) => self.entry(node, "spine", Role::Spine, page_stock),
            None => self.fitting_spine(page_stock),
        };
        let cover = top.get(COVER).and_then(|node| self.entry(node, "cover", Role::Cover, page_stock));
        let panels = top.get(PANELS).and_then(|node| self.panels(node, page_stock));
        let inserts = match top.get(INSERTS) {
            Some(node) => {
                let list = self.reader.list(node, "inserts", "inserts");
                self.entries(list, "inserts", Role::Insert, page_stock)
            }
            None => Vec::new(),
        };
        let labels = top.get(LABELS).and_then(|node| self.labels(node, page_stock));
        self.page_numbers(&inserts, page_count);
        for insert in &inserts {
            offcut::checked(self.reader, insert);
        }
        let handed_over = handed_over.map(|handed| hand_over::of_all(handed, &self.stocks));
        let many: u64 = inserts.iter().filter_map(|insert| insert.get(COUNT)).map(u64::from).sum();
        if many > MOST_INSERTS {
            let text = Said::new("too-many-inserts").with("count", many).with("most", MOST_INSERTS);
            let help = Said::new("too-many-inserts-help").with("field", Arg::field(COUNT.name()));
            let finding = Finding::stop("too-many", Said::NOTHING, text).help(help);
            self.reader.findings.push(finding.at(top.place(INSERTS)));
        }
        Some(Album {
            title: top.get(TITLE).unwrap_or("Album").to_owned(),
            maker: top.get(MAKER).map(str::to_owned),
            edition: top.get(EDITION).map(str::to_owned),
            notes: top.get(NOTES).iter().map(|(text, _)| text.clone()).collect(),
            kinds: self.kinds.to_vec(),
            units: self.reader.units,
            bound: top.get(BOUND),
            language: top.get(LANGUAGE),
            copies: top.get(COPIES),
            spares,
            handed_over,
            stocks: self.stocks,
            page: page?,
            pages,
            spine: spine?,
            cover,
            panels,
            inserts,
            labels,
            drawer: NamedDrawer::named(self.reader, &top),
            terms,
            tolerance: top.get(TOLERANCE),
            step: None,
            cover_room: None,
        })
    }

    fn stocks(&mut self, node: &Node) {
        let Tree::Object(entries) = &node.tree else {
            let place = self.reader.place(&node.range, "stocks");
            let text =
                Said::new("wrong-type-stocks").with("field", Arg::field("stocks")).with("found", node.tree.what());
            self.reader.problem("wrong-type", text, Said::new("wrong-type-stocks-help"), &place);
            return;
        };
        for (name, range, value) in entries {
            let path = format!("stocks.{name}");
            let place = self.reader.place(range, &path);
            if self.stocks.iter().any(|stock| stock.name == *name) {
                let text = Said::new("twice-stock").with("name", Arg::quoted(name));
                self.reader.problem("twice", text, Said::new("twice-stock-help"), &place);
                continue;
            }
            if !stock::is_name(name) {
                let text = Said::new("bad-name").with("name", Arg::quoted(excerpt(name)));
                self.reader.problem("bad-name", text, Said::new("bad-name-help"), &place);
            }
            // A stock that has faults still holds its name, so that its users are not reported as well.
            self.stocks.push(
                stock::read(self.reader, name, value, &path)
                    .unwrap_or_else(|| Stock { name: name.clone(), ..Stock::a4_card() }),
            );
        }
    }

    fn labels(&mut self, node: &Node, page_stock: usize) -> Option<LabelGrid> {
        let values = self.reader.object(node, "labels", Arg::field("labels"), &[LABEL_FIELDS])?;
        Some(label_grid::read(self.reader, &values, paper::usual(self.stocks.get(page_stock), self.reader.units)))
    }

    /// What it says of buying and selling; its sheets are put in their packs.
    fn terms(&mut self, top: &Values) -> Terms {
        let mut terms = selling::read(self.reader, top);
        if let Some(node) = top.get(PACKS) {
            let stocks = self.stocks.iter().map(|stock| (stock.name.as_str(), stock));
            terms.packs = selling::read_packs(self.reader, node, stocks);
        }
        for stock in &mut self.stocks {
            let name = stock.name.clone();
            terms.packs.put(stock, &[&name]);
        }
        terms
    }

    fn handed_over(&mut self, node: &Node) -> Vec<Handed> {
        let names: Vec<&str> = self.stocks.iter().map(|stock| stock.name.as_str()).collect();
        hand_over::read(self.reader, node, &names)
    }

    fn page(&mut self, node: &Node) -> Option<PageSize> {
        let values = self.reader.object(node, "page", Arg::field("page"), &[PAGE_FIELDS])?;
        Some(PageSize {
            width: values.get(WIDTH),
            height: values.get(HEIGHT),
            seam: values.get(SEAM),
            tape: values.get(TAPE),
            stock: self.stock_of(&values, 0),
            values,
        })
    }

    /// The pages that the file names, and how many the album has.
    fn pages(&mut self, node: &Node, stock: usize) -> (Vec<Entry>, usize) {
        let path = self.chosen.map_or(PAGES.name(), |(_, way)| way);
        let list = self.reader.list(node, path, path);
        if list.is_empty() && matches!(&node.tree, Tree::Array(items) if items.is_empty()) {
            let place = self.reader.place(&node.range, path);
            self.reader.problem("no-pages", Said::new("no-pages"), Said::new("no-pages-help"), &place);
        }
        (self.entries(list, path, Role::Page, stock), self.chosen.map_or(list.len(), |(pages, _)| pages))
    }

    fn panels(&mut self, node: &Node, page_stock: usize) -> Option<Panels> {
        let values = self.reader.object(node, "panels", Arg::field("panels"), &[PANEL_FIELDS])?;
        let said = values.get(PANEL_STOCK);
        let mut stocks: Vec<usize> =
            said.iter().map(|(name, place)| self.stock_called(name, Some(place), page_stock)).collect();
        if stocks.is_empty() {
            stocks.push(page_stock);
        }
        let by = values.get(BY);
        let stocks = stocks.into_iter().map(|stock| self.cut_by(stock, by)).collect();
        Some(Panels { reveal: values.get(REVEAL), stocks, on: values.get(ON), runs_on: values.get(RUNS_ON), values })
    }

    fn entries(&mut self, list: &[Node], path: &str, role: Role, stock: usize) -> Vec<Entry> {
        list.iter()
            .enumerate()
            .filter_map(|(index, node)| self.entry(node, &format!("{path}[{index}]"), role, stock))
            .collect()
    }

    fn entry(&mut self, node: &Node, path: &str, role: Role, stock: usize) -> Option<Entry> {
        let kind = self.kind(node, path, role)?;
        let what = of_kind("a-kind-of", role, kind.name);
        let values = self.reader.object(node, path, what, &[kind.common(), kind.fields])?;
        let stock = if let Some(caliper) = kind.ready {
            self.stocks.push(Stock::ready_made(role.word(), values.get(caliper), values.place(caliper)));
            self.stocks.len() - 1
        } else {
            let stock = self.stock_of(&values, stock);
            self.cut_by(stock, values.get(BY))
        };
        let grain_along_spine = values.find(GRAIN).flatten().map(|grain| grain == EntryGrain::Spine);
        let outline = values.find(OUTLINE).flatten().cloned();
        let asked = outline.and_then(|node| outline::asked(self.reader, &node, &format!("{path}.outline")));
        let outline = asked.map(|asked| Outlined { asked, shape: None, drawing: None });
        let edges = values.find(EDGES).flatten().cloned();
        let edges = edges.map(|node| edges::read(self.reader, &node, path)).unwrap_or_default();
        Some(Entry { kind, values, stock, grain_along_spine, outline, edges })
    }

    fn kind(&mut self, node: &Node, path: &str, role: Role) -> Option<&'static Kind> {
        let known: Vec<&'static Kind> = self.kinds.iter().copied().filter(|kind| kind.role == role).collect();
        let Some(Node { range, tree: Tree::Text(name) }) = node.get("kind") else {
            let kinds = Arg::Either(known.iter().map(|kind| Arg::quoted(kind.name)).collect());
            let place = self.reader.place(&(node.range.start..node.range.start + 1), path);
            let text = Said::new("no-kind").with("role", Arg::term(role.word()));
            self.reader.problem("no-kind", text, Said::new("no-kind-help").with("kinds", kinds), &place);
            return None;
        };
        let found = known.iter().find(|kind| kind.name == name);
        if found.is_none() {
            let help = meant_or("unknown-kind-help", name, known.iter().map(|kind| kind.name));
            let place = self.reader.place(range, &format!("{path}.kind"));
            self.reader.problem("unknown-kind", of_kind("unknown-kind", role, &excerpt(name)), help, &place);
        }
        found.copied()
    }

    /// The spine that holds where the file names none: the first kind with its defaults.
    fn fitting_spine(&mut self, stock: usize) -> Option<Entry> {
        let kind = self.kinds.iter().copied().find(|kind| kind.role == Role::Spine)?;
        let node = Node { range: 0..0, tree: Tree::Object(Vec::new()) };
        let values = self.reader.object(&node, "spine", Said::new("the-spine"), &[kind.fields])?.without_place();
        Some(Entry { kind, values, stock, grain_along_spine: None, outline: None, edges: Vec::new() })
    }

    /// The stock of what says that it is cut by something: beside its own where that is cut otherwise.
    fn cut_by(&mut self, stock: usize, by: Option<By>) -> usize {
        let Some(by) = by.filter(|by| self.stocks[stock].by != *by) else { return stock };
        let beside = self.stocks[stock].cut_by(by);
        self.stocks.iter().position(|known| known.name == beside.name).unwrap_or_else(|| {
            self.stocks.push(beside);
            self.stocks.len() - 1
        })
    }

    fn stock_of(&mut self, values: &Values, fallback: usize) -> usize {
        let Some(name) = values.get(STOCK) else { return fallback };
        self.stock_called(name, values.place(STOCK), fallback)
    }

    fn stock_called(&mut self, name: &str, place: Option<&Place>, fallback: usize) -> usize {
        if let Some(number) = self.stocks.iter().position(|stock| stock.is_named() && stock.name == name) {
            return number;
        }
        let help = meant_or("unknown-stock-help", name, stock::names(&self.stocks));
        let text = Said::new("unknown-stock").with("name", Arg::quoted(excerpt(name)));
        let text = text.with("stocks", Arg::field(STOCKS.name()));
        self.reader.findings.push(Finding::stop("unknown-stock", Said::NOTHING, text).help(help).at(place));
        fallback
    }

    /// Inserts may only go into pages that there are.
    fn page_numbers(&mut self, inserts: &[Entry], pages: usize) {
        for (number, place) in inserts.iter().filter_map(|insert| insert.values.find(INSERT_PAGES).flatten()).flatten()
        {
            if usize::try_from(*number).is_ok_and(|number| number > pages) && pages > 0 {
                let text = Said::new("no-such-page").with("page", *number).with("pages", pages);
                let help = Said::new("no-such-page-help").with("pages", pages);
                self.reader.problem("no-such-page", text, help, place);
            }
        }
    }
}

fn of_kind(key: &'static str, role: Role, kind: &str) -> Said {
    Said::new(key).with("role", Arg::term(role.word())).with("kind", Arg::quoted(kind))
}

impl Album {
    /// The same album with one of each insert that the file wants as many of as come free, to see whether they go in at all;
    /// nothing where there are none.
    #[must_use]
    pub(crate) fn with_a_spare_each(&self) -> Option<Self> {
        let spare = (0..self.inserts.len()).filter(|&insert| self.inserts[insert].is_spare());
        spare.fold(None, |album, insert| Some(album.as_ref().unwrap_or(self).with_count(insert, 1)))
    }

    /// The same album with so many of an insert.
    #[must_use]
    pub(crate) fn with_count(&self, insert: usize, count: u32) -> Self {
        let mut other = self.clone();
        if let Some(entry) = other.inserts.get_mut(insert) {
            entry.values.set_count(COUNT, count);
        }
        other
    }

    /// The same album with other page sizes, as a search for the size that fits needs it.
    #[must_use]
    pub(crate) fn with_page(&self, width: Length, height: Length) -> Self {
        let mut other = self.clone();
        other.page.width = width;
        other.page.height = height;
        other
    }
}
