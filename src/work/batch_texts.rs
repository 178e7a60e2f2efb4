// SPDX-License-Identifier: MIT
//! What people read of a batch: the job sheet of the order, each kit's guide, the words of the labels.

use super::{BatchWork, ChoiceWork, Files, ReaderText, Work};
use crate::album::{Album, Language, Spares};
use crate::batch::{BatchKit, ClassGroup, GroupSheets};
use crate::guide;
use crate::parts::Kit;
use crate::sheets::StockSheets;
use crate::stock::SheetSize;
use crate::write::{self, Sink, WriteProblem};
use std::collections::BTreeMap;

impl BatchWork {
    /// The words of all labels: those of each kit, by its name.
    #[must_use]
    pub fn labels(&self) -> Vec<guide::Label> {
        let others = self.others();
        let of_kit = |((kit, work), others): ((&BatchKit, &Work), &Vec<(&Album, &Kit)>)| {
            let mut labels = guide::labels(&guide::GuideJob { others, ..work.guide_job(false) });
            for label in &mut labels {
                label.lines.insert(0, guide::Line::text(kit.name.as_str()));
            }
            labels
        };
        self.batch.kits.iter().zip(&self.kits).zip(&others).flat_map(of_kit).collect()
    }

    /// By kit: what it may be made as, where its pages are chosen.
    pub(super) fn others(&self) -> Vec<Vec<(&Album, &Kit)>> {
        self.choices.iter().map(|choice| choice.iter().flat_map(ChoiceWork::albums).collect()).collect()
    }

    /// The job sheet of the whole order, in its language; none where there are no kits.
    #[must_use]
    pub fn order_sheet(&self, both_units: bool) -> Option<guide::Guide> {
        self.order_sheet_in(self.album.as_ref()?.language, both_units)
    }

    /// The same in a reader's language; none where there are no kits.
    #[must_use]
    pub fn order_sheet_in(&self, language: Language, both_units: bool) -> Option<guide::Guide> {
        let whole = guide::GuideJob { cost: self.cost(), language, ..self.whole_job(both_units)? };
        let others = self.others();
        let kit = |number: usize| guide::KitOfOrder {
            name: self.batch.kits[number].name.as_str(),
            job: guide::GuideJob { others: &others[number], language, ..self.kits[number].guide_job(both_units) },
            chosen: self.merged.chosen[number].as_ref(),
        };
        let kits: Vec<guide::KitOfOrder<'_>> = (0..self.kits.len()).map(kit).collect();
        let class = self.batch.class.as_ref().map(|class| guide::ClassOfOrder {
            class,
            makers: self.batch.kits.iter().map(|kit| kit.album.copies).collect(),
            spare: self.batch.kits.iter().any(|kit| kit.spares != Spares::default()),
        });
        Some(guide::order_sheet(&whole, &kits, class.as_ref(), &|part| self.merged.besides(&self.batch, part)))
    }

    /// What the whole order's sheets are told from; none where there are no kits.
    pub(super) fn whole_job(&self, both_units: bool) -> Option<guide::GuideJob<'_>> {
        let album = self.album.as_ref()?;
        Some(guide::GuideJob {
            album,
            language: album.language,
            kit: &self.kit,
            fit: &self.no_fit,
            stocks: &self.stocks,
            cutter: &self.cutter,
            paths: &self.paths,
            letters: Some(&self.letters),
            both_units,
            others: &[],
            cost: None,
        })
    }

    pub(super) fn job_sheet(&self, files: &Files<'_>, sink: &mut dyn Sink) -> Result<(), WriteProblem> {
        let [as_page, printed] = ["html", "pdf"].map(|format| files.formats.contains(&format));
        match self.order_sheet(files.both_units).filter(|_| as_page || (printed && cfg!(feature = "pdf"))) {
            Some(sheet) => ReaderText::Job.put("job", &sheet, (as_page, printed), sink),
            None => Ok(()),
        }
    }

    /// The groups of a class with their sheets; none of an order of kits.
    #[must_use]
    pub fn groups(&self) -> Vec<ClassGroup> {
        let one = |(kit, work): (&BatchKit, &Work)| {
            let made = u64::from(self.batch.times(kit).max(1));
            let of = |laid: &StockSheets| {
                let stock = &work.album.stocks[laid.stock];
                let bought = laid.by_size().into_iter().filter_map(|(size, all)| Some((stock.sheets.get(size)?, all)));
                let row = |(size, all): (&SheetSize, u64)| GroupSheets {
                    stock: stock.bought().to_owned(),
                    sheet: size.name.clone(),
                    by: stock.by,
                    each: all / made,
                    all,
                };
                bought.map(row).collect::<Vec<_>>()
            };
            let sheets = work.stocks.iter().flat_map(of).collect();
            ClassGroup { name: kit.name.clone(), makers: kit.album.copies, sheets }
        };
        let groups = self.batch.kits.iter().zip(&self.kits).filter(|_| self.batch.class.is_some());
        groups.map(one).collect()
    }

    /// A page for each group of a class.
    pub(super) fn makers(&self, files: &Files<'_>, sink: &mut dyn Sink) -> Result<(), WriteProblem> {
        let [as_page, printed] = ["html", "pdf"].map(|format| files.formats.contains(&format));
        if self.batch.class.is_none() || !(as_page || printed && cfg!(feature = "pdf")) {
            return Ok(());
        }
        for (kit, work) in self.batch.kits.iter().zip(&self.kits) {
            let page = guide::makers(&work.guide_job(files.both_units), &kit.name, kit.album.copies);
            ReaderText::Card.put(&format!("makers/{}", kit.name), &page, (as_page, printed), sink)?;
        }
        Ok(())
    }

    /// A text of one kit.
    pub(super) fn text(&self, kit: usize, text: ReaderText, job: guide::GuideJob<'_>) -> guide::Guide {
        match self.choices[kit].as_ref().zip(self.merged.chosen[kit].as_ref()) {
            Some((choice, chosen)) => choice.text(text, job, chosen),
            None => text.made(&job),
        }
    }

    /// A guide, and what else is asked for, of every kit; where those of two kits are equal they are one file.
    pub(super) fn texts(&self, files: &Files<'_>, sink: &mut dyn Sink) -> Result<(), WriteProblem> {
        let mut all: BTreeMap<String, Vec<(&str, Vec<u8>)>> = BTreeMap::new();
        let others = self.others();
        for (number, (kit, work)) in self.batch.kits.iter().zip(&self.kits).enumerate() {
            let mut memory = write::Memory::default();
            let job = guide::GuideJob { others: &others[number], ..work.guide_job(files.both_units) };
            let made = |text: ReaderText| self.text(number, text, job);
            work.texts_of(&[ReaderText::Guide, ReaderText::Card, ReaderText::Teaching], files, &made, &mut memory)?;
            for (name, bytes) in memory.files {
                all.entry(name).or_default().push((&kit.name, bytes));
            }
        }
        for (name, mut texts) in all {
            let (stem, ending) = name.rsplit_once('.').unwrap_or((&name, ""));
            while let Some((_, bytes)) = texts.first().cloned() {
                let (same, others): (Vec<_>, Vec<_>) = texts.into_iter().partition(|(_, other)| *other == bytes);
                let kits: Vec<&str> = same.iter().map(|(kit, _)| *kit).collect();
                sink.put(&format!("{stem}-{}.{ending}", named(&kits)), &bytes)?;
                texts = others;
            }
        }
        Ok(())
    }
}

/// `grey`, `grey+ochre`, `grey+2-more`: a file's name stays short, and no kit's own name has such a sign.
fn named(kits: &[&str]) -> String {
    match kits {
        [first, rest @ ..] if rest.len() > 1 => format!("{first}+{}-more", rest.len()),
        few => few.join("+"),
    }
}
