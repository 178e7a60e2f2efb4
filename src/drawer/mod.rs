// SPDX-License-Identifier: MIT
//! The drawer: sheets and offcuts that lie there already, for any album.
//!
//! In: a drawer file. Out: a [`Drawer`]; the stocks of an album with what lies there among their sheets; a drawer's text. Never:
//! lays a sheet, opens a file.
//!
//! A sheet of a size that its stock is sold in is one of these. Anything else is an offcut, and is written as it lies: where its
//! stock has a grain, with the fibres along its height; where the stock's pattern has an up, with that up.

mod read;
mod text;

pub use read::{FORMAT, read, schema};
pub use text::text;

use crate::fields::{Key, Reader, Text, Values, rule};
use crate::finding::{Arg, Finding, Place, Said};
use crate::length::Length;
use crate::stock::{SheetSize, Stock};

/// The field that names a drawer's file, in an album or batch file.
pub(crate) const DRAWER: Key<Option<Text>> =
    Key::text("drawer", rule("none"), "the file of what lies in the drawer, which is used first");

/// A drawer that a file names.
#[derive(Clone, Debug)]
pub enum NamedDrawer {
    /// A file that was not read yet: nothing is known to lie in it.
    File {
        /// Its name, as the album or batch says it.
        name: String,
        /// Where it is said.
        place: Place,
    },
    /// What lies there.
    Read(Drawer),
}

impl NamedDrawer {
    /// The drawer that a file's top object names.
    pub(crate) fn named(reader: &mut Reader<'_>, top: &Values) -> Option<Self> {
        let (name, place) = (top.get(DRAWER)?.trim(), top.place(DRAWER)?.clone());
        if name.is_empty() {
            reader.empty(DRAWER.name(), "a drawer file's name (\"drawer.json\")", &place);
            return None;
        }
        Some(Self::File { name: name.to_owned(), place })
    }

    /// What lies there, where that is known.
    #[must_use]
    pub const fn known(&self) -> Option<&Drawer> {
        match self {
            Self::Read(drawer) => Some(drawer),
            Self::File { .. } => None,
        }
    }
}

/// What lies in a drawer.
#[derive(Clone, Debug, Default)]
pub struct Drawer {
    /// By stock, each name once.
    pub stocks: Vec<DrawerStock>,
}

/// What lies there of one stock.
#[derive(Clone, Debug)]
pub struct DrawerStock {
    /// What the stock is called.
    pub name: String,
    /// Where the file says so; none in a drawer that no file has.
    pub place: Option<Place>,
    /// Its sheets, each size once.
    pub sheets: Vec<DrawerSheet>,
}

/// Sheets of one size.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawerSheet {
    /// What the file calls it: `A4`, `210x83mm`.
    pub name: String,
    /// Its width as it lies.
    pub width: Length,
    /// Its height as it lies.
    pub height: Length,
    /// How many there are.
    pub count: u32,
}

/// What an album's stock is called, or in an order of several kits: `paper` of `paper.ochre`.
fn base(name: &str) -> &str {
    name.split('.').next().unwrap_or(name)
}

impl Drawer {
    /// Puts so many sheets of a size to what lies there.
    pub fn put(&mut self, stock: &str, sheet: DrawerSheet) {
        let at = self.stocks.iter().position(|known| known.name == stock).unwrap_or_else(|| {
            self.stocks.push(DrawerStock { name: stock.to_owned(), place: None, sheets: Vec::new() });
            self.stocks.len() - 1
        });
        let sheets = &mut self.stocks[at].sheets;
        match sheets.iter_mut().find(|known| (known.width, known.height) == (sheet.width, sheet.height)) {
            Some(known) => known.count = known.count.saturating_add(sheet.count),
            None => sheets.push(sheet),
        }
    }

    /// Puts what lies there among the sheets of these stocks; says of which stocks nothing can be used.
    pub fn offer(&self, stocks: &mut [Stock]) -> Vec<Finding> {
        let mut findings = Vec::new();
        for lying in &self.stocks {
            let mut named: Vec<&str> = Vec::new();
            for stock in stocks.iter().filter(|stock| !stock.ready && base(stock.bought()) == lying.name) {
                if !named.contains(&stock.bought()) {
                    named.push(stock.bought());
                }
            }
            let exact = stocks.iter().any(|stock| !stock.ready && stock.bought() == lying.name);
            let name = match (exact, named.as_slice()) {
                (true, _) => lying.name.clone(),
                (false, [one]) => (*one).to_owned(),
                (false, several) => {
                    findings.push(lying.unused(several));
                    continue;
                }
            };
            for stock in stocks.iter_mut().filter(|stock| stock.bought() == name) {
                stock.sheets.extend(lying.sheets.iter().filter(|sheet| sheet.count > 0).map(|sheet| SheetSize {
                    name: sheet.name.clone(),
                    width: sheet.width,
                    height: sheet.height,
                    count: Some(sheet.count),
                    price: None,
                    pack: None,
                    lies: Some(lying.name.clone()),
                }));
            }
        }
        findings
    }
}

impl DrawerStock {
    /// Nothing of it can be used: there is no such stock, or there are several.
    fn unused(&self, several: &[&str]) -> Finding {
        let (text, help) = match several {
            [] => ("drawer-no-stock", "drawer-no-stock-help"),
            _ => ("drawer-several-stocks", "drawer-several-stocks-help"),
        };
        let names = Arg::Row(several.iter().map(|name| Arg::quoted(*name)).collect());
        let text = Said::new(text).with("name", Arg::quoted(&*self.name)).with("stocks", names.clone());
        let help = Said::new(help).with("stocks", names);
        Finding::note("drawer", Said::NOTHING, text).help(help).at(self.place.as_ref())
    }
}

/// Where several albums name drawers: that of all, or those that are not the first one's.
pub(crate) fn agreed<'a>(
    drawers: impl Iterator<Item = Option<&'a NamedDrawer>>,
) -> (Option<NamedDrawer>, Vec<Finding>) {
    let mut first: Option<&NamedDrawer> = None;
    let mut findings = Vec::new();
    for drawer in drawers.flatten() {
        match (first, drawer) {
            (None, _) => first = Some(drawer),
            (Some(NamedDrawer::File { name, place }), NamedDrawer::File { name: other, place: at }) => {
                let folder = |place: &Place| std::path::Path::new(&*place.file).parent().map(std::path::Path::to_owned);
                if (name, folder(place)) != (other, folder(at)) {
                    let text = Said::new("terms-differ").with("field", Arg::field(DRAWER.name()));
                    let finding = Finding::stop("terms-differ", Said::NOTHING, text);
                    findings.push(finding.help(Said::new("terms-differ-help")).at(Some(at)));
                }
            }
            _ => {}
        }
    }
    (first.cloned(), findings)
}

/// No name of a stock in a file is longer than this, letters.
const LONGEST_NAME: usize = 65;

/// Whether a stock can be called so: as an album's is, or an order's `paper.ochre`.
fn is_stock_name(name: &str) -> bool {
    name.len() <= LONGEST_NAME && name.split('.').count() <= 2 && name.split('.').all(crate::stock::is_name)
}
