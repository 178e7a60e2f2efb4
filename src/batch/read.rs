// SPDX-License-Identifier: MIT
//! From a batch file's text to the checked [`Batch`]: each kit's album read with the batch's changes in it.

use super::class::{Class, HandedByName, set_apart};
use super::file_fields::{
    ALBUM, CHANGE, CHOICE, CHOICE_FIELDS, CHOSEN_OF, CHOSEN_PAGES, CLASS, COPIES, FORMAT, KIT_FIELDS, KITS, LANGUAGE,
    NAME, TITLE, TOGETHER, TOP_FIELDS,
};
use super::reading::{AlbumOf, Albums, BatchReading};
use super::stocks::{MergedStocks, base};
use super::{Batch, BatchKit, Choice};
use crate::album::{self, HANDED_OVER, Handed, Kind, SPARES, Spares, read_handed_over, read_spares};
use crate::drawer::{self, NamedDrawer};
use crate::exact::Exact;
use crate::fields::{Node, Reader, Source, Tree, Values};
use crate::finding::{Arg, Checked, Finding, Said, of_kits};
use crate::parts::{KindFiles, no_kind_files};
use crate::selling::{self, Differs, PACKS, SELLING, Terms};

/// More kinds of kit than this are a mistake: our choice.
const MOST_KITS: usize = 200;

/// More kinds of page to choose from than this are a mistake: our choice.
const MOST_KINDS: usize = 24;

/// More kits than this at once are a mistake, as with one album: our choice.
const MOST_COPIES: u64 = 10_000;

/// Reads a batch file; `albums` finds the album files that it names, `kinds` are all that there are.
#[must_use]
pub fn read(source: &Source, kinds: &[&'static Kind], albums: &mut Albums<'_>) -> Checked<Batch> {
    read_with(source, kinds, albums, &mut no_kind_files)
}

/// The same where `kind_files` finds the kind files that the albums name, from the batch file's folder.
#[must_use]
pub fn read_with(
    source: &Source,
    kinds: &[&'static Kind],
    albums: &mut Albums<'_>,
    kind_files: &mut KindFiles<'_>,
) -> Checked<Batch> {
    let mut reader = Reader::new(source);
    let Some(top) = reader.top(TOP_FIELDS, FORMAT) else { return Checked::none(reader.findings) };
    let mut reading =
        BatchReading { source, reader, kinds, albums, kind_files, files: Vec::new(), of_albums: Vec::new() };
    let (class, kits, of_groups) = reading.kits_or_class(&top);
    let of_albums = of_kits(reading.of_albums.iter().map(|(kit, findings)| (kit.as_str(), findings.as_slice())));
    reading.reader.findings.extend(of_albums);
    let spares = top.get(SPARES).and_then(|node| read_spares(&mut reading.reader, node));
    let mut batch = Batch {
        title: top.get(TITLE).unwrap_or("Batch").to_owned(),
        units: reading.reader.units,
        language: top.get(LANGUAGE),
        kits,
        class,
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
    for (kit, handed) in batch.kits.iter_mut().zip(&of_groups) {
        hand(&mut kit.album, handed);
        set_apart(&mut kit.album);
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

/// How a kit's pages are chosen, the kinds that they are chosen from, and the way to these.
struct ReadChoice {
    choice: Choice,
    of: Node,
    way: String,
}

impl BatchReading<'_, '_> {
    /// The kits of the file, or the groups of a class as kits, with what of each is handed over.
    fn kits_or_class(&mut self, top: &Values) -> (Option<Class>, Vec<BatchKit>, Vec<HandedByName>) {
        match (top.get(KITS), top.get(CLASS)) {
            (kits, None) => {
                if kits.is_none() && !top.says(KITS) {
                    let place = top.whole().cloned();
                    let finding = Finding::stop("no-kits", Said::NOTHING, Said::new("no-kits"));
                    self.reader.findings.push(finding.help(Said::new("no-kits-help")).at(place.as_ref()));
                }
                (None, kits.map(|node| self.kits(node)).unwrap_or_default(), Vec::new())
            }
            (kits, Some(class)) => {
                if let Some(place) = kits.and_then(|_| top.place(KITS)).cloned() {
                    let help = Said::new("class-and-kits-help");
                    self.reader.problem("class-and-kits", Said::new("class-and-kits"), help, &place);
                }
                let (class, groups) = self.class(class);
                let (kits, handed) = groups.into_iter().unzip();
                (class, kits, handed)
            }
        }
    }

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
            let choice = chosen.map(|chosen| chosen.choice);
            kits.extend(album.map(|album| BatchKit { name, album, choice, spares: Spares::default() }));
        }
        kits
    }

    /// How a kit's pages are chosen, and the kinds; none where it does not say so properly.
    fn choice(&mut self, node: &Node, kit: &str) -> Option<ReadChoice> {
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
        (!list.is_empty()).then(|| ReadChoice { choice: Choice::of(pages), of: of.clone(), way })
    }

    /// The album of a kit with the changes in it. Nothing where its pages are chosen from nothing.
    fn album(&mut self, name: &str, values: &Values, chosen: Option<&ReadChoice>) -> Option<album::Album> {
        let place = values.says(ALBUM).then(|| values.place(ALBUM)).flatten()?;
        let changes = [(values.get(CHANGE), values)];
        let of = AlbumOf { file: values.get(ALBUM), place, changes: &changes, one_way: false };
        let mut changed = self.changed(name, &of)?;
        let own = self.kinds_of(values.get(ALBUM), &changed);
        let read = match chosen {
            None if values.says(CHOICE) => return None,
            None => album::read_changed(&changed, &own.kinds),
            Some(ReadChoice { choice, of, way }) => {
                // What the file's own pages are is of no account.
                for node in [&Node { tree: Tree::Null, ..of.clone() }, of] {
                    // A file that has no place for pages is no album, and told so when it is read.
                    let _ = changed.put("pages", &of.range, node);
                }
                let pages = usize::try_from(choice.pages).unwrap_or(usize::MAX);
                album::read_choice(&changed, &own.kinds, pages, way)
            }
        };
        let read = own.with(read);
        self.of_albums.push((name.to_owned(), read.findings));
        let mut album = read.value?;
        if let Some(copies) = values.get(COPIES) {
            album.copies = copies;
        }
        Some(album)
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
        let handed: HandedByName = {
            let read = read_handed_over(&mut self.reader, node, &names);
            names.into_iter().map(str::to_owned).zip(read).collect()
        };
        for album in batch.kits.iter_mut().map(|kit| &mut kit.album) {
            hand(album, &handed);
        }
    }
}

/// Hands over the stocks that are named; of others nothing is said.
fn hand(album: &mut album::Album, handed: &HandedByName) {
    let of = |name: &str| handed.iter().find(|(known, _)| known == name).map(|(_, handed)| *handed);
    let all: Vec<Option<Handed>> = album.stocks.iter().map(|stock| of(stock.bought())).collect();
    for (number, handed) in all.into_iter().enumerate() {
        if let Some(handed) = handed {
            album.hand_over(Some(number), handed);
        }
    }
}
