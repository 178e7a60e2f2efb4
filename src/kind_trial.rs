// SPDX-License-Identifier: MIT
//! A kind of one's own, tried over the whole range of its sizes.
//!
//! In: a kind. Out: whatever keeps one of it from going together at sizes that it allows, each once, with the sizes at which it
//! first does. Never: changes a kind; says more than it tried.

use crate::album::Role;
use crate::cutter::Cutter;
use crate::finding::{Arg, Finding, Level, Said};
use crate::kind_file::{Fills, KindFile, KindSize, Scope, SizeTakes, SizeValue};
use crate::length::Length;
use crate::length::Units;
use crate::parts::{EXAMPLE, Maker, about, read_about};
use crate::trial::Trial;

/// Pages that a kind is tried on: width, height, seam, mm. From a small one to the largest that a large sheet holds; our
/// choice.
const PAGES: [(f64, f64, f64); 5] =
    [(148.0, 190.0, 12.0), (105.0, 148.0, 10.0), (210.0, 148.0, 12.0), (160.0, 215.0, 8.0), (90.0, 120.0, 15.0)];

/// How often all sizes are drawn at once, besides each alone at its ends: our choice.
const DRAWS: u32 = 24;

/// Of so many sizes all ends are tried with each other: our choice.
const MOST_ENDS: usize = 5;

/// A golden section apart, draws fall evenly whatever their number.
const GOLDEN: f64 = 0.618_033_988_749_894_9;

/// What trying a kind has shown.
#[derive(Debug)]
#[non_exhaustive]
pub struct KindTrial {
    /// What was found, gravest first.
    pub findings: Vec<Finding>,
    /// At how many sizes it was tried.
    pub tried: usize,
    /// At how many of these it goes together.
    pub sound: usize,
}

/// A page with its seam, and width and height of what the kind's formulas call so, mm.
type OfPage = ((f64, f64, f64), (f64, f64));

/// The album about an entry, its faces papered where the kind is a page.
fn album_of(maker: &Maker, entry: &str, page: (f64, f64, f64)) -> String {
    let text = about(maker, entry, page);
    if maker.kind.role == Role::Page {
        text.replacen("\"pages\": [", "\"panels\": { \"stock\": \"paper\" },\n  \"pages\": [", 1)
    } else {
        text
    }
}

/// Which value of its range a size takes.
#[derive(Clone, Copy)]
enum Taken {
    Usual,
    /// A share of the way from the least to the most.
    Share(f64),
}

/// Tries a kind that stands in a file; nothing is tried of one that code states.
#[must_use]
pub fn try_kind(maker: &'static Maker) -> KindTrial {
    let mut trial = KindTrial { findings: Vec::new(), tried: 0, sound: 0 };
    let Some(file) = maker.kind.file else { return trial };
    let cutter = Cutter::default();
    for page in PAGES {
        let usual = vec![Taken::Usual; file.sizes.len()];
        let (entry, _) = entry(file, (page, (page.0, page.1)), &usual);
        // An insert is as large as its pocket takes.
        let insert = read_about(maker, &album_of(maker, &entry, page)).and_then(|album| {
            let made = Trial::of(album, &cutter);
            made.kit().and_then(|kit| kit.inserts.first()).map(|insert| (insert.width, insert.height))
        });
        let inside = insert.filter(|_| file.fills == Fills::Insert).unwrap_or((page.0, page.1));
        for taken in ways(file.sizes.len()) {
            trial.one(maker, file, &cutter, ((page, inside), &taken));
        }
    }
    crate::finding::gravest_first(&mut trial.findings);
    trial
}

/// Which values the sizes take, one after the other.
fn ways(sizes: usize) -> Vec<Vec<Taken>> {
    let mut ways = vec![vec![Taken::Usual; sizes]];
    if sizes == 0 {
        return ways;
    }
    for share in [0.0, 0.5, 1.0] {
        ways.push(vec![Taken::Share(share); sizes]);
        for size in 0..sizes {
            let mut way = vec![Taken::Usual; sizes];
            way[size] = Taken::Share(share);
            ways.push(way);
        }
    }
    // Faults hide where several sizes are at an end at once.
    for ends in 0..1_u32 << sizes.min(MOST_ENDS) {
        ways.push((0..sizes).map(|size| Taken::Share(f64::from(ends >> size.min(31) & 1))).collect());
    }
    for draw in 1..=DRAWS {
        let share = |size: u32| (f64::from(draw) * GOLDEN * f64::from(2 * size + 1)).fract();
        ways.push((0..sizes).map(|size| Taken::Share(share(u32::try_from(size).unwrap_or(0)))).collect());
    }
    ways
}

impl KindTrial {
    fn one(
        &mut self,
        maker: &'static Maker,
        file: &'static KindFile,
        cutter: &Cutter,
        ((page, inside), taken): (OfPage, &[Taken]),
    ) {
        let (entry, shown) = entry(file, (page, inside), taken);
        let Some(album) = read_about(maker, &album_of(maker, &entry, page)) else { return };
        let trial = Trial::of(album, cutter);
        let mut findings: Vec<Finding> = trial.findings().to_vec();
        findings.extend(trial.fit().findings);
        let usual = taken.iter().all(|taken| matches!(taken, Taken::Usual));
        if let Some(refused) = findings.iter().find(|finding| usual && is_refused(finding)) {
            self.usual_is_refused(file, refused, page);
        }
        // Sizes that the kind itself does not allow are no fault of it; nor are sheets that are too small.
        if findings.iter().any(|finding| ["kind-need", "too-big"].contains(&finding.id) || is_refused(finding)) {
            return;
        }
        self.tried += 1;
        let mut stopped = false;
        for finding in findings.into_iter().filter(|finding| finding.level == Level::Stop) {
            stopped = true;
            // What is told at the album's line is told at the kind's: there is no other file here.
            let own = finding.place.as_ref().is_some_and(|place| &*place.file != EXAMPLE);
            // What is told of a kind says at which sizes; what is told of any album does not.
            let says = |said: &Said| said.args().iter().any(|(name, _)| matches!(*name, "with" | "sizes"));
            let about = if says(&finding.text) || says(&finding.help) {
                finding.about.clone()
            } else {
                Said::new("kind-tried").with("what", finding.about.clone()).with("with", Arg::Row(shown.clone()))
            };
            let named = finding.mend.as_ref().and_then(|mend| size_of(file, &mend.path));
            let place = finding
                .place
                .clone()
                .filter(|_| own)
                .unwrap_or_else(|| named.map_or(&file.place, |size| &size.place).clone());
            if self.findings.iter().any(|known| known.id == finding.id && known.place.as_ref() == Some(&place)) {
                continue;
            }
            self.findings.push(Finding { about, mend: None, ..finding }.at(Some(&place)));
        }
        self.sound += usize::from(!stopped);
    }
}

impl KindTrial {
    /// Says, once for each size, that what holds where it is left out is not allowed.
    fn usual_is_refused(&mut self, file: &KindFile, refused: &Finding, (width, height, _): (f64, f64, f64)) {
        let named = refused.mend.as_ref().and_then(|mend| size_of(file, &mend.path));
        let Some(size) = named.filter(|size| size.usual.is_some()) else { return };
        if self.findings.iter().any(|known| known.id == "kind-usual" && known.place.as_ref() == Some(&size.place)) {
            return;
        }
        let length = |mm: f64| Arg::Length(Length::from_mm(mm), Units::Mm);
        let text = Said::new("kind-usual").with("name", Arg::field(&size.name));
        let text = text.with("width", length(width)).with("height", length(height));
        let finding = Finding::warn("kind-usual", Said::NOTHING, text).help(Said::new("kind-usual-help"));
        self.findings.push(finding.at(Some(&size.place)));
    }
}

/// The size that a way in an album leads to.
fn size_of<'f>(file: &'f KindFile, path: &str) -> Option<&'f KindSize> {
    let name = path.rsplit('.').next()?;
    file.sizes.iter().find(|size| size.name == name)
}

/// Whether a size was left out of its range, as the album's line tells.
fn is_refused(finding: &Finding) -> bool {
    finding.id == "kind-size" && finding.place.as_ref().is_some_and(|place| &*place.file == EXAMPLE)
}

/// An entry of the kind at these sizes, and the sizes as findings say them.
fn entry(
    file: &KindFile,
    ((page_width, page_height, seam), (width, height)): OfPage,
    taken: &[Taken],
) -> (String, Vec<Arg>) {
    let ruler = |mm: f64| (mm * 2.0).floor() / 2.0;
    let mut scope = Scope { width, height, seam, tab: seam, caliper: 0.3, nth: 1.0, sizes: Vec::new(), ruler: &ruler };
    let example: serde_json::Value = serde_json::from_str(&file.example).unwrap_or_default();
    let mut entry = example.as_object().cloned().unwrap_or_default();
    entry.insert("kind".into(), file.name.clone().into());
    // An insert is as large as its pocket takes: the example's size is for its picture.
    for side in ["width", "height"] {
        if file.fills == Fills::Insert && file.sizes.iter().all(|size| size.name != side) {
            entry.remove(side);
        }
    }
    let mut shown = Vec::new();
    for (size, taken) in file.sizes.iter().zip(taken) {
        let (value, text) = match (&size.takes, taken) {
            (SizeTakes::Words(words), taken) => {
                let number = if let Taken::Share(share) = taken { pick(*share, words.len()) } else { 0 };
                let word = words.get(number).cloned().unwrap_or_default();
                entry.insert(size.name.clone(), word.clone().into());
                (SizeValue::Word(number), Arg::code(word))
            }
            (takes, Taken::Share(share)) => {
                let end = |formula: &Option<crate::kind_file::Formula>, otherwise: f64| {
                    formula.as_ref().map_or(otherwise, |formula| formula.value(&scope))
                };
                let (least, most) = if *takes == SizeTakes::Count {
                    (end(&size.least, 0.0), end(&size.most, 12.0))
                } else {
                    (end(&size.least, 0.0), end(&size.most, width.max(height)))
                };
                let value = share.mul_add(most - least, least);
                let value = if *takes == SizeTakes::Count { value.round() } else { (value * 2.0).round() / 2.0 };
                let value = value.clamp(least.min(most), most.max(least));
                if !value.is_finite() {
                    continue;
                }
                entry.insert(size.name.clone(), value.into());
                let length = Arg::Length(Length::from_mm(value), Units::Mm);
                (SizeValue::Value(value), if *takes == SizeTakes::Count { Arg::Number(value, 0) } else { length })
            }
            (_, Taken::Usual) => {
                // What must be given is as the example has it.
                scope
                    .sizes
                    .push(SizeValue::Value(entry.get(&size.name).and_then(serde_json::Value::as_f64).unwrap_or(0.0)));
                continue;
            }
        };
        scope.sizes.push(value);
        shown.push(Said::new("kind-size-is").with("name", Arg::code(&size.name)).with("value", text).into());
    }
    let page = Said::new("kind-page-is").with("width", Arg::Length(Length::from_mm(page_width), Units::Mm));
    shown.push(page.with("height", Arg::Length(Length::from_mm(page_height), Units::Mm)).into());
    // Whole counts are whole in JSON, too.
    for size in file.sizes.iter().filter(|size| size.takes == SizeTakes::Count) {
        if let Some(value) = entry.get(&size.name).and_then(serde_json::Value::as_f64) {
            #[allow(clippy::cast_possible_truncation, reason = "a float-to-integer cast saturates")]
            entry.insert(size.name.clone(), (value as i64).into());
        }
    }
    (serde_json::Value::Object(entry).to_string(), shown)
}

/// Which of so many a share of the way means.
fn pick(share: f64, count: usize) -> usize {
    let all = f64::from(u32::try_from(count).unwrap_or(u32::MAX));
    (1..count).take_while(|&number| f64::from(u32::try_from(number).unwrap_or(u32::MAX)) <= share * all).count()
}
