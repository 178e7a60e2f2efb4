// SPDX-License-Identifier: MIT
//! From the album file's text to the checked [`Album`].

use super::kind::{COMMON, Kind, Role};
use super::{Album, Bound, Entry, PageSize, Panels};
use crate::fields::{Fallback, Field, Node, Reader, Source, Takes, Tree, Values, nearest};
use crate::finding::{Checked, Finding};
use crate::length::{Length, excerpt};
use crate::stock::{self, Stock};

/// More inserts of a kit than this are a mistake: our choice.
pub const MOST_INSERTS: u64 = 5000;

/// What the file's `format` must say.
pub(super) const FORMAT: &str = "hingeleaf-album/1";

/// The form of a list of entries, in words.
const ENTRY_FORMS: &str = "objects with a \"kind\"";

/// The fields of the file's top object.
pub const TOP_FIELDS: &[Field] = &[
    Field::new("format", Takes::Text, Fallback::Needed, "which kind of file this is: \"hingeleaf-album/1\""),
    Field::new("title", Takes::Text, Fallback::Rule("Album"), "the album's name"),
    Field::new("units", Takes::Choice(&["mm", "cm", "in"]), Fallback::Choice("mm"), "the unit of bare numbers"),
    Field::new(
        "bound",
        Takes::Choice(&["left", "right"]),
        Fallback::Choice("left"),
        "the edge where it is bound, seen from its front",
    ),
    Field::new("copies", Takes::Count { least: 1, most: 10_000 }, Fallback::Count(1), "how many kits to make"),
    Field::new(
        "stocks",
        Takes::Nested("an object of stocks by name"),
        Fallback::Rule("A4 card"),
        "the card and paper to cut from",
    ),
    Field::new("page", Takes::Nested("an object with width and height"), Fallback::Needed, "the size of a page"),
    Field::new("pages", Takes::Nested(ENTRY_FORMS), Fallback::Needed, "the pages in order"),
    Field::new("spine", Takes::Nested(ENTRY_FORMS), Fallback::Rule("a flexi-hinge"), "what carries the pages"),
    Field::new("cover", Takes::Nested(ENTRY_FORMS), Fallback::Rule("none"), "what goes round the pages"),
    Field::new(
        "panels",
        Takes::Nested("an object with reveal and stock"),
        Fallback::Rule("none"),
        "panels of patterned paper on the faces",
    ),
    Field::new("inserts", Takes::Nested(ENTRY_FORMS), Fallback::Rule("none"), "what goes into the pockets"),
    Field::length(
        "tolerance",
        Fallback::Length { mm: 0.5, inch: 0.02 },
        "how far off a cut or score may be when it is made by hand",
    )
    .unmeasured(),
];

/// The fields of `page`.
pub const PAGE_FIELDS: &[Field] = &[
    Field::size("width", Fallback::Needed, "from spine to fore-edge"),
    Field::size("height", Fallback::Needed, "from tail to head"),
    Field::size("seam", Fallback::Length { mm: 12.0, inch: 0.5 }, "the strip that takes tape or glue"),
    Field::length("tape", Fallback::Rule("one that fits the seam"), "width of the tape that the seams are stuck with")
        .unmeasured(),
    Field::new("stock", Takes::Text, Fallback::Rule("the first stock"), "the stock that pages are cut from"),
];

/// The fields of `panels`.
pub const PANEL_FIELDS: &[Field] = &[
    Field::length("reveal", Fallback::Length { mm: 3.0, inch: 0.125 }, "the border of card left showing"),
    Field::new("stock", Takes::Text, Fallback::Rule("the page's stock"), "the stock that panels are cut from"),
];

/// Reads an album file; `kinds` are all that there are, of every role.
#[must_use]
pub fn read(source: &Source, kinds: &[&'static Kind]) -> Checked<Album> {
    let mut reader = Reader::new(source);
    let album = Reading { reader: &mut reader, kinds, stocks: Vec::new() }.album();
    match album {
        Some(album) => Checked::new(album, reader.findings),
        None => Checked::none(reader.findings),
    }
}

struct Reading<'r, 's> {
    reader: &'r mut Reader<'s>,
    kinds: &'r [&'static Kind],
    stocks: Vec<Stock>,
}

impl Reading<'_, '_> {
    fn album(mut self) -> Option<Album> {
        let top = self.reader.top(TOP_FIELDS, FORMAT)?;
        if let Some(node) = top.nested("stocks") {
            self.stocks(node);
        }
        if self.stocks.is_empty() {
            self.stocks.push(Stock::a4_card());
        }
        let page = top.nested("page").and_then(|node| self.page(node));
        let page_stock = page.as_ref().map_or(0, |page| page.stock);
        let mut page_count = 0;
        let pages = match top.nested("pages") {
            Some(node) => {
                let list = self.reader.list(node, "pages", "\"pages\"");
                page_count = list.len();
                if list.is_empty() && matches!(&node.tree, Tree::Array(items) if items.is_empty()) {
                    let place = self.reader.place(&node.range, "pages");
                    self.reader.problem(
                        "no-pages",
                        "an album needs at least one page",
                        "add one: { \"kind\": \"pocket\" }",
                        &place,
                    );
                }
                self.entries(list, "pages", Role::Page, page_stock)
            }
            None => Vec::new(),
        };
        let spine = match top.nested("spine") {
            Some(node) => self.entry(node, "spine", Role::Spine, page_stock),
            None => self.fitting_spine(page_stock),
        };
        let cover = top.nested("cover").and_then(|node| self.entry(node, "cover", Role::Cover, page_stock));
        let panels = top.nested("panels").and_then(|node| self.panels(node, page_stock));
        let inserts = match top.nested("inserts") {
            Some(node) => {
                let list = self.reader.list(node, "inserts", "\"inserts\"");
                self.entries(list, "inserts", Role::Insert, page_stock)
            }
            None => Vec::new(),
        };
        self.page_numbers(&inserts, page_count);
        let many: u64 = inserts.iter().filter_map(|insert| insert.values.count("count")).map(u64::from).sum();
        if many > MOST_INSERTS {
            let text = format!("{many} inserts are more than an album can hold ({MOST_INSERTS})");
            self.reader
                .findings
                .push(Finding::stop("too-many", "", text).help("lower their \"count\"").at(top.place("inserts")));
        }
        Some(Album {
            title: top.text("title").unwrap_or("Album").to_owned(),
            units: self.reader.units,
            bound: if top.text("bound") == Some("right") { Bound::Right } else { Bound::Left },
            copies: top.count("copies").unwrap_or(1),
            stocks: self.stocks,
            page: page?,
            pages,
            spine: spine?,
            cover,
            panels,
            inserts,
            tolerance: top.length("tolerance"),
            step: None,
        })
    }

    fn stocks(&mut self, node: &Node) {
        let Tree::Object(entries) = &node.tree else {
            let place = self.reader.place(&node.range, "stocks");
            self.reader.problem(
                "wrong-type",
                format!("\"stocks\" must be an object of stocks by name, not {}", node.tree.what()),
                "\"stocks\": { \"card\": { \"sheet\": \"A4\" } }",
                &place,
            );
            return;
        };
        for (name, range, value) in entries {
            let path = format!("stocks.{name}");
            let place = self.reader.place(range, &path);
            if self.stocks.iter().any(|stock| stock.name == *name) {
                self.reader.problem(
                    "twice",
                    format!("the stock \"{name}\" stands here twice"),
                    "give one of them another name",
                    &place,
                );
                continue;
            }
            if !stock::is_name(name) {
                self.reader.problem(
                    "bad-name",
                    format!("a stock can't be called \"{}\"", excerpt(name)),
                    "use 1 to 32 small letters a-z, digits and hyphens, not a hyphen first: \"kraft-card\"",
                    &place,
                );
            }
            // A stock that has faults still holds its name, so that its users are not reported as well.
            self.stocks.push(
                stock::read(self.reader, name, value, &path)
                    .unwrap_or_else(|| Stock { name: name.clone(), ..Stock::a4_card() }),
            );
        }
    }

    fn page(&mut self, node: &Node) -> Option<PageSize> {
        let values = self.reader.object(node, "page", "\"page\"", &[PAGE_FIELDS])?;
        Some(PageSize {
            width: values.length("width"),
            height: values.length("height"),
            seam: values.length("seam"),
            tape: values.maybe_length("tape"),
            stock: self.stock_of(&values, 0),
            values,
        })
    }

    fn panels(&mut self, node: &Node, page_stock: usize) -> Option<Panels> {
        let values = self.reader.object(node, "panels", "\"panels\"", &[PANEL_FIELDS])?;
        Some(Panels { reveal: values.length("reveal"), stock: self.stock_of(&values, page_stock), values })
    }

    fn entries(&mut self, list: &[Node], path: &str, role: Role, stock: usize) -> Vec<Entry> {
        list.iter()
            .enumerate()
            .filter_map(|(index, node)| self.entry(node, &format!("{path}[{index}]"), role, stock))
            .collect()
    }

    fn entry(&mut self, node: &Node, path: &str, role: Role, stock: usize) -> Option<Entry> {
        let kind = self.kind(node, path, role)?;
        let what = format!("a {} of kind \"{}\"", role.word(), kind.name);
        let values = self.reader.object(node, path, &what, &[COMMON, kind.fields])?;
        let stock = self.stock_of(&values, stock);
        let grain_along_spine = values.text("grain").map(|word| word == "spine");
        Some(Entry { kind, values, stock, grain_along_spine })
    }

    fn kind(&mut self, node: &Node, path: &str, role: Role) -> Option<&'static Kind> {
        let known: Vec<&'static Kind> = self.kinds.iter().copied().filter(|kind| kind.role == role).collect();
        let Some(Node { range, tree: Tree::Text(name) }) = node.get("kind") else {
            let names: Vec<String> = known.iter().map(|kind| format!("\"{}\"", kind.name)).collect();
            let place = self.reader.place(&(node.range.start..node.range.start + 1), path);
            let text = format!("a {} must be an object with a \"kind\", a text", role.word());
            self.reader.problem("no-kind", text, format!("write {{ \"kind\": {} }}", names.join(" or ")), &place);
            return None;
        };
        let found = known.iter().find(|kind| kind.name == name);
        if found.is_none() {
            let names: Vec<&str> = known.iter().map(|kind| kind.name).collect();
            let help = nearest(name, names.iter().copied())
                .map_or_else(|| format!("there are: {}", names.join(", ")), |name| format!("did you mean \"{name}\"?"));
            let place = self.reader.place(range, &format!("{path}.kind"));
            let text = format!("there is no {} of kind \"{}\"", role.word(), excerpt(name));
            self.reader.problem("unknown-kind", text, help, &place);
        }
        found.copied()
    }

    /// The spine that holds where the file names none: the first kind with its defaults.
    fn fitting_spine(&mut self, stock: usize) -> Option<Entry> {
        let kind = self.kinds.iter().copied().find(|kind| kind.role == Role::Spine)?;
        let node = Node { range: 0..0, tree: Tree::Object(Vec::new()) };
        let values = self.reader.object(&node, "spine", "the spine", &[kind.fields])?.without_place();
        Some(Entry { kind, values, stock, grain_along_spine: None })
    }

    fn stock_of(&mut self, values: &Values, fallback: usize) -> usize {
        let Some(name) = values.text("stock") else { return fallback };
        if let Some(number) = self.stocks.iter().position(|stock| stock.name == name) {
            return number;
        }
        let names: Vec<&str> = self.stocks.iter().map(|stock| stock.name.as_str()).collect();
        let help = nearest(name, names.iter().copied())
            .map_or_else(|| format!("the file has: {}", names.join(", ")), |name| format!("did you mean \"{name}\"?"));
        self.reader.findings.push(
            Finding::stop("unknown-stock", "", format!("there is no stock \"{}\" in \"stocks\"", excerpt(name)))
                .help(help)
                .at(values.place("stock")),
        );
        fallback
    }

    /// Inserts may only go into pages that there are.
    fn page_numbers(&mut self, inserts: &[Entry], pages: usize) {
        for (number, place) in inserts.iter().filter_map(|insert| insert.values.counts("pages")).flatten() {
            if usize::try_from(*number).is_ok_and(|number| number > pages) && pages > 0 {
                self.reader.problem(
                    "no-such-page",
                    format!("there is no page {number}: the album has {pages}"),
                    format!("use 1 to {pages}"),
                    place,
                );
            }
        }
    }
}

impl Album {
    /// The same album with one of each insert that the file wants as many of as come free, to see whether they go in at all;
    /// nothing where there are none.
    #[must_use]
    pub fn with_a_spare_each(&self) -> Option<Self> {
        let spare = (0..self.inserts.len()).filter(|&insert| self.inserts[insert].is_spare());
        spare.fold(None, |album, insert| Some(album.as_ref().unwrap_or(self).with_count(insert, 1)))
    }

    /// The same album with so many of an insert.
    #[must_use]
    pub fn with_count(&self, insert: usize, count: u32) -> Self {
        let mut other = self.clone();
        if let Some(entry) = other.inserts.get_mut(insert) {
            entry.values.set_count("count", count);
        }
        other
    }

    /// The same album with other page sizes, as a search for the size that fits needs it.
    #[must_use]
    pub fn with_page(&self, width: Length, height: Length) -> Self {
        let mut other = self.clone();
        other.page.width = width;
        other.page.height = height;
        other
    }
}
