// SPDX-License-Identifier: MIT
//! From a batch file's text to the checked [`Batch`]: each kit's album read with the batch's changes in it.

use super::file_fields::{
    ALBUM, CHANGE, CHOICE, CHOICE_FIELDS, CHOSEN_OF, CHOSEN_PAGES, COPIES, FORMAT, KIT_FIELDS, KITS, LANGUAGE, NAME,
    TITLE, TOGETHER, TOP_FIELDS,
};
use super::stocks::{MergedStocks, base};
use super::{Batch, BatchKit, Choice};
use crate::album::{self, HANDED_OVER, Handed, Kind, SPARES, Spares, read_handed_over, read_spares};
use crate::drawer::{self, NamedDrawer};
use crate::exact::Exact;
use crate::fields::{Grafted, Node, Reader, Source, Tree, Values};
use crate::finding::{Arg, Checked, Finding, Place, Said, of_kits};
use crate::length::excerpt;
use crate::selling::{self, Differs, PACKS, SELLING, Terms};
use crate::stock::is_name;

/// More kinds of kit than this are a mistake: our choice.
const MOST_KITS: usize = 200;

/// More kinds of page to choose from than this are a mistake: our choice.
const MOST_KINDS: usize = 24;

/// More kits than this at once are a mistake, as with one album: our choice.
const MOST_COPIES: u64 = 10_000;

/// Gives the text of an album by the name that a batch file calls it; the finding says why there is none.
pub type Albums<'a> = dyn FnMut(&str) -> Result<Source, Box<Finding>> + 'a;

/// Reads a batch file; `albums` finds the album files that it names, `kinds` are all that there are.
#[must_use]
pub fn read(source: &Source, kinds: &[&'static Kind], albums: &mut Albums<'_>) -> Checked<Batch> {
    let mut reader = Reader::new(source);
    let Some(top) = reader.top(TOP_FIELDS, FORMAT) else { return Checked::none(reader.findings) };
    let mut reading = Reading { source, reader, kinds, albums, files: Vec::new(), of_albums: Vec::new() };
    let kits = top.get(KITS).map(|node| reading.kits(node)).unwrap_or_default();
    let of_albums = of_kits(reading.of_albums.iter().map(|(kit, findings)| (kit.as_str(), findings.as_slice())));
    reading.reader.findings.extend(of_albums);
    let spares = top.get(SPARES).and_then(|node| read_spares(&mut reading.reader, node));
    let mut batch = Batch {
        title: top.get(TITLE).unwrap_or("Batch").to_owned(),
        units: reading.reader.units,
        language: top.get(LANGUAGE),
        kits,
        together: top.get(TOGETHER),
        drawer: NamedDrawer::named(&mut reading.reader, &top),
        terms: Terms::default(),
    };
    for kit in &mut batch.kits {
        // What the batch says wins over what its albums say.
        kit.spares = spares.or(kit.album.spares.take()).unwrap_or_default();
    }
    let of_albums = batch.kits.iter_mut().map(|kit| kit.album.drawer.take()).collect::<Vec<_>>();
    if batch.drawer.is_none() {
        let (drawer, differ) = drawer::agreed(of_albums.iter().map(Option::as_ref));
        batch.drawer = drawer;
        reading.reader.findings.extend(differ);
    }
    reading.terms(&top, &mut batch);
    if let Some(node) = top.get(HANDED_OVER) {
        reading.handed_over(node, &mut batch);
    }
    if let Some(language) = batch.language {
        batch.kits.iter_mut().for_each(|kit| kit.album.language = language);
    }
    let many: u64 = batch.kits.iter().map(|kit| u64::from(batch.times(kit))).sum();
    if many > MOST_COPIES {
        let text = Said::new("batch-too-many-kits").with("count", many).with("most", MOST_COPIES);
        reading.reader.findings.push(
            Finding::stop("too-many", Said::NOTHING, text)
                .help(Said::new("batch-too-many-kits-help"))
                .at(top.place(KITS)),
        );
    }
    Checked::new(batch, reading.reader.findings)
}

struct Reading<'r, 's> {
    source: &'s Source,
    reader: Reader<'s>,
    kinds: &'r [&'static Kind],
    albums: &'r mut Albums<'r>,
    /// The album files that were asked for.
    files: Vec<(String, Result<Source, Box<Finding>>)>,
    /// By kit, what is wrong with its album.
    of_albums: Vec<(String, Vec<Finding>)>,
}

impl Reading<'_, '_> {
    fn kits(&mut self, node: &Node) -> Vec<BatchKit> {
        let list = self.reader.list(node, "kits", "kits");
        let place = self.reader.place(&node.range, "kits");
        if list.is_empty() && matches!(&node.tree, Tree::Array(items) if items.is_empty()) {
            self.reader.problem("no-kits", Said::new("no-kits"), Said::new("no-kits-help"), &place);
        }
        if list.len() > MOST_KITS {
            let text = Said::new("too-many-entries").with("field", Arg::field(KITS.name())).with("count", list.len());
            self.reader.problem("too-many", text.with("most", MOST_KITS), Said::NOTHING, &place);
            return Vec::new();
        }
        let mut kits: Vec<BatchKit> = Vec::new();
        let mut names: Vec<String> = Vec::new();
        for (number, node) in list.iter().enumerate() {
            let path = format!("kits[{number}]");
            let Some(values) = self.reader.object(node, &path, Said::new("a-kit"), &[KIT_FIELDS]) else { continue };
            let name = values.get(NAME).to_owned();
            self.name(&name, &names, &values);
            let chosen = values.get(CHOICE).and_then(|node| self.choice(node, &path));
            let album = self.album(&name, &values, chosen.as_ref());
            names.push(name.clone());
            let choice = chosen.map(|(choice, _)| choice);
            kits.extend(album.map(|album| BatchKit { name, album, choice, spares: Spares::default() }));
        }
        kits
    }

    fn name(&mut self, name: &str, others: &[String], values: &Values) {
        let Some(place) = values.says(NAME).then(|| values.place(NAME)).flatten().cloned() else { return };
        if !is_name(name) {
            let text = Said::new("bad-kit-name").with("name", Arg::quoted(excerpt(name)));
            self.reader.problem("bad-name", text, Said::new("bad-kit-name-help"), &place);
        } else if others.iter().any(|other| other == name) {
            let text = Said::new("twice-kit").with("name", Arg::quoted(name));
            self.reader.problem("twice", text, Said::new("twice-kit-help"), &place);
        }
    }

    /// How a kit's pages are chosen, and the kinds; none where it does not say so properly.
    fn choice(&mut self, node: &Node, kit: &str) -> Option<(Choice, Node)> {
        let path = format!("{kit}.{}", CHOICE.name());
        let values = self.reader.object(node, &path, Arg::field(CHOICE.name()), &[CHOICE_FIELDS])?;
        let of = values.get(CHOSEN_OF)?;
        let way = format!("{path}.{}", CHOSEN_OF.name());
        let list = self.reader.list(of, &way, CHOSEN_OF.name());
        let place = self.reader.place(&of.range, &way);
        if list.is_empty() && matches!(&of.tree, Tree::Array(items) if items.is_empty()) {
            self.reader.problem("no-choice", Said::new("no-choice"), Said::new("no-choice-help"), &place);
        }
        if list.len() > MOST_KINDS {
            let text = Said::new("too-many-entries").with("field", Arg::field(CHOSEN_OF.name()));
            let text = text.with("count", list.len()).with("most", MOST_KINDS);
            self.reader.problem("too-many", text, Said::NOTHING, &place);
            return None;
        }
        let pages = Some(values.get(CHOSEN_PAGES)).filter(|pages| *pages > 0)?;
        (!list.is_empty()).then(|| (Choice::of(pages), of.clone()))
    }

    /// The album of a kit with the changes in it; what is wrong with it names the kit. Nothing where its pages are chosen from
    /// nothing.
    fn album(&mut self, name: &str, values: &Values, chosen: Option<&(Choice, Node)>) -> Option<album::Album> {
        let (file, place) = (values.get(ALBUM), values.says(ALBUM).then(|| values.place(ALBUM)).flatten()?.clone());
        let source = self.file(file, &place)?;
        let mut changed = match Grafted::new(&source, self.source) {
            Ok(changed) => changed,
            Err(finding) => {
                self.of_albums.push((name.to_owned(), vec![*finding]));
                return None;
            }
        };
        if let Some(node) = values.get(CHANGE) {
            self.change(&mut changed, node, file, values);
        }
        let read = match chosen {
            None if values.says(CHOICE) => return None,
            None => album::read_changed(&changed, self.kinds),
            Some((choice, of)) => {
                // What the file's own pages are is of no account.
                for node in [&Node { tree: Tree::Null, ..of.clone() }, of] {
                    // A file that has no place for pages is no album, and told so when it is read.
                    let _ = changed.put("pages", &of.range, node);
                }
                album::read_choice(&changed, self.kinds, usize::try_from(choice.pages).unwrap_or(usize::MAX))
            }
        };
        self.of_albums.push((name.to_owned(), read.findings));
        let mut album = read.value?;
        if let Some(copies) = values.get(COPIES) {
            album.copies = copies;
        }
        Some(album)
    }

    /// An album file's text; that it is not there is told once.
    fn file(&mut self, file: &str, place: &Place) -> Option<Source> {
        if let Some((_, known)) = self.files.iter().find(|(name, _)| name == file) {
            return known.as_ref().ok().cloned();
        }
        let found = (self.albums)(file);
        if let Err(finding) = &found {
            // Where it is called, unless the file itself says where it is wrong.
            let place = finding.place.clone().unwrap_or_else(|| place.clone());
            self.reader.findings.push((**finding).clone().at(Some(&place)));
        }
        self.files.push((file.to_owned(), found.clone()));
        found.ok()
    }

    fn change(&mut self, changed: &mut Grafted, node: &Node, file: &str, values: &Values) {
        let Tree::Object(changes) = &node.tree else {
            if let Some(place) = values.place(CHANGE).cloned() {
                let text = Said::new("wrong-type-object").with("what", Arg::field(CHANGE.name()));
                let text = text.with("found", node.tree.what());
                self.reader.problem("wrong-type", text, Said::new("change-help"), &place);
            }
            return;
        };
        let chosen = values.says(CHOICE);
        for (way, range, value) in changes {
            if chosen && (way == "pages" || way.starts_with("pages[") || way.starts_with("pages.")) {
                let place = self.reader.place(range, way);
                let text = Said::new("change-and-choice").with("way", Arg::quoted(excerpt(way)));
                let text = text.with("choice", Arg::field(CHOICE.name()));
                let help = Said::new("change-and-choice-help").with("of", Arg::field("choice.of"));
                self.reader.problem("change-and-choice", text, help, &place);
                continue;
            }
            if changed.put(way, range, value).is_err() {
                let place = self.reader.place(range, way);
                let text = Said::new("change-no-place").with("way", Arg::quoted(excerpt(way)));
                let text = text.with("file", Arg::code(excerpt(file)));
                self.reader.problem("change-no-place", text, Said::new("change-no-place-help"), &place);
            }
        }
    }

    /// What the batch says of buying and selling, else its albums, which must agree then.
    fn terms(&mut self, top: &Values, batch: &mut Batch) {
        let own = selling::read(&mut self.reader, top);
        batch.terms = own.clone();
        for kit in &batch.kits {
            for Differs { field, place } in batch.terms.fill(&own, &kit.album.terms) {
                let text = Said::new("terms-differ").with("field", Arg::field(field));
                self.reader.problem("terms-differ", text, Said::new("terms-differ-help"), &place);
            }
        }
        if batch.terms.selling.taken() >= Exact::whole(1)
            && let Some(place) = top
                .says(SELLING)
                .then(|| top.place(SELLING))
                .flatten()
                .filter(|_| own.selling.taken() < Exact::whole(1))
        {
            self.reader.problem(
                "out-of-range",
                Said::new("nothing-left"),
                Said::new("nothing-left-help"),
                &place.clone(),
            );
        }
        if let Some(node) = top.get(PACKS) {
            let stocks = MergedStocks::of(&batch.kits).all;
            let bought = stocks.iter().filter(|stock| !stock.ready);
            let named = bought.flat_map(|stock| [(stock.name.as_str(), stock), (base(&stock.name), stock)]);
            batch.terms.packs = selling::read_packs(&mut self.reader, node, named);
        }
    }

    /// What the batch says wins over what its albums say.
    fn handed_over(&mut self, node: &Node, batch: &mut Batch) {
        let mut names: Vec<&str> = Vec::new();
        for stock in batch.kits.iter().flat_map(|kit| &kit.album.stocks).filter(|stock| !stock.ready) {
            if !names.contains(&stock.bought()) {
                names.push(stock.bought());
            }
        }
        let handed: Vec<(String, Handed)> = {
            let read = read_handed_over(&mut self.reader, node, &names);
            names.into_iter().map(str::to_owned).zip(read).collect()
        };
        for album in batch.kits.iter_mut().map(|kit| &mut kit.album) {
            let of = |name: &str| handed.iter().find(|(known, _)| known == name).map(|(_, handed)| *handed);
            let all: Vec<Option<Handed>> = album.stocks.iter().map(|stock| of(stock.bought())).collect();
            for (number, handed) in all.into_iter().enumerate() {
                if let Some(handed) = handed {
                    album.hand_over(Some(number), handed);
                }
            }
        }
    }
}
