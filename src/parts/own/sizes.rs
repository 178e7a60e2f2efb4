// SPDX-License-Identifier: MIT
//! What the sizes of a kind come to for one of it, and whether they keep to what the kind allows.

use crate::album::Entry;
use crate::fields::{Field, Value};
use crate::finding::{Arg, Finding, Place, Said};
use crate::kind_file::{Formula, KindFile, KindPiece, KindSize, Scope, SizeTakes, SizeValue, Usual};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::parts::build::builder::Builder;
use crate::parts::kit::PieceForm;

/// One of a kind that is being made, as findings speak of it.
#[derive(Clone, Debug)]
pub(super) struct MadeKind<'e> {
    pub entry: &'e Entry,
    pub file: &'static KindFile,
    /// `page 2`.
    pub about: Said,
    /// The way to it in the album: `pages[1]`.
    pub path: String,
}

/// The lengths that every formula may name, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Given {
    pub width: f64,
    pub height: f64,
    pub seam: f64,
    pub tab: f64,
    pub caliper: f64,
}

/// Calls back with what the names of a kind stand for, once all sizes are known and allowed; what is wrong is a finding.
pub(super) fn with_scope(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    given: Given,
    then: impl FnOnce(&mut Builder<'_>, &Scope<'_>),
) {
    let album = builder.album;
    let ruler = |mm: f64| album.at_most(mm).mm();
    let Given { width, height, seam, tab, caliper } = given;
    let mut scope = Scope { width, height, seam, tab, caliper, nth: 1.0, sizes: Vec::new(), ruler: &ruler };
    let mut wrong = Vec::new();
    for size in &made.file.sizes {
        let value = held(made.entry, size, &scope);
        scope.sizes.push(value);
        if let SizeValue::Value(value) = value {
            wrong.extend(made.beyond(builder, (size, value), &scope));
        }
    }
    for need in made.file.needs.iter().filter(|need| !need.that.holds(&scope)) {
        let text = Said::new("kind-need").with("because", need.because.as_str());
        let text = text
            .with("condition", Arg::code(&need.that.text))
            .with("with", made.values(builder, &need.that.sizes(), &scope));
        let size = need.size.and_then(|size| made.file.sizes.get(size));
        let help = match size {
            Some(size) => Said::new("kind-need-size-help").with("field", Arg::field(&size.name)),
            None => Said::new("kind-need-help"),
        };
        let place = size.map_or_else(|| made.entry.place(), |size| made.entry.values.place_of(&size.name));
        wrong.push(Finding::stop("kind-need", made.about.clone(), text).help(help).at(place));
    }
    let sound = wrong.is_empty();
    for finding in wrong {
        builder.find(finding);
    }
    if sound {
        then(builder, &scope);
    }
}

/// What a formula comes to, whatever its sizes are.
pub(super) fn unchecked(builder: &Builder<'_>, made: &MadeKind<'_>, given: Given, formula: &Formula) -> f64 {
    let ruler = |mm: f64| builder.album.at_most(mm).mm();
    let Given { width, height, seam, tab, caliper } = given;
    let mut scope = Scope { width, height, seam, tab, caliper, nth: 1.0, sizes: Vec::new(), ruler: &ruler };
    for size in &made.file.sizes {
        let value = held(made.entry, size, &scope);
        scope.sizes.push(value);
    }
    formula.value(&scope)
}

/// What a size holds: as the album says, else as the kind does.
fn held(entry: &Entry, size: &KindSize, scope: &Scope<'_>) -> SizeValue {
    let usual = || match &size.usual {
        Some(Usual::Formula(formula)) => SizeValue::Value(formula.value(scope)),
        Some(Usual::Word(word)) => SizeValue::Word(*word),
        _ => SizeValue::Value(0.0),
    };
    match (entry.values.value(&size.name), &size.takes) {
        (Some(Value::Length(length)), _) => SizeValue::Value(length.mm()),
        (Some(Value::Count(count)), _) => SizeValue::Value(f64::from(*count)),
        (Some(Value::Choice(word)), SizeTakes::Words(words)) => {
            SizeValue::Word(words.iter().position(|known| known == word).unwrap_or(0))
        }
        _ => usual(),
    }
}

impl MadeKind<'_> {
    /// Whether it is made the other way round.
    pub(super) fn mirrored(&self, scope: &Scope<'_>) -> bool {
        self.file.mirrored.as_ref().is_some_and(|mirrored| mirrored.holds(scope))
    }

    /// Where a fault of the kind is told: at its line in the kind file, of a built-in kind at the entry.
    pub(super) fn at<'p>(&'p self, line: &'p Place) -> Option<&'p Place> {
        if self.file.is_built_in() { self.entry.place() } else { Some(line) }
    }

    /// Says that a size is less or more than its kind allows.
    fn beyond(&self, builder: &Builder<'_>, (size, value): (&KindSize, f64), scope: &Scope<'_>) -> Option<Finding> {
        let least = size.least.as_ref().map(|formula| (formula, formula.value(scope), value + SAME));
        let most = size.most.as_ref().map(|formula| (formula, formula.value(scope), value - SAME));
        let below = least.filter(|(_, least, value)| value < least || !value.is_finite());
        let above = most.filter(|(_, most, value)| value > most || !value.is_finite());
        let (key, (formula, limit, _), raise) = match (below, above) {
            (Some(below), _) => ("kind-size-below", below, true),
            (None, Some(above)) => ("kind-size-above", above, false),
            (None, None) if value.is_finite() => return None,
            (None, None) => {
                let text = Said::new("kind-no-number").with("name", Arg::field(&size.name));
                let text = text.with("with", self.values(builder, &[], scope));
                return Some(Finding::stop("kind-size", self.about.clone(), text).at(self.at(&size.place)));
            }
        };
        let text = Said::new(key).with("name", Arg::field(&size.name)).with("has", shown(builder, size, value));
        let text = text.with("limit", shown(builder, size, limit));
        let named = !formula.sizes().is_empty() || formula.fixed().is_none();
        let help = if named {
            Said::new("kind-size-formula-help").with("formula", Arg::code(&formula.text))
        } else {
            Said::new("kind-size-help")
        };
        let finding =
            Finding::stop("kind-size", self.about.clone(), text).help(help.with("field", Arg::field(&size.name)));
        let finding = finding.at(self.entry.values.place_of(&size.name));
        if size.takes != SizeTakes::Length || !limit.is_finite() || !value.is_finite() {
            return Some(finding);
        }
        let album = builder.album;
        let mend = if raise { album.at_least(limit) } else { album.at_most(limit) };
        let finding = finding.measured(Length::from_mm(value), Length::from_mm(limit));
        let allowed = mend.mm() >= 0.0
            && !matches!((raise, &size.most), (true, Some(most)) if mend.mm() > most.value(scope) + SAME);
        Some(if allowed { finding.mend(format!("{}.{}", self.path, size.name), mend) } else { finding })
    }

    /// The sizes that something comes from, as findings say them; all of them where none is named.
    pub(super) fn values(&self, builder: &Builder<'_>, named: &[usize], scope: &Scope<'_>) -> Arg {
        let all: Vec<usize> = (0..scope.sizes.len()).collect();
        let named = if named.is_empty() { &all } else { named };
        let mut rows: Vec<Arg> = named
            .iter()
            .filter_map(|&number| {
                let (size, value) = (self.file.sizes.get(number)?, scope.sizes.get(number)?);
                let value: Arg = match (value, &size.takes) {
                    (SizeValue::Value(value), _) => shown(builder, size, *value),
                    (SizeValue::Word(word), SizeTakes::Words(words)) => Arg::code(words.get(*word)?),
                    (SizeValue::Word(_), _) => return None,
                };
                Some(Said::new("kind-size-is").with("name", Arg::code(&size.name)).with("value", value).into())
            })
            .collect();
        let length = |name: &'static str, mm: f64| {
            Arg::from(Said::new("kind-size-is").with("name", Arg::code(name)).with("value", builder.album.length(mm)))
        };
        rows.extend([length("width", scope.width), length("height", scope.height)]);
        Arg::Row(rows)
    }

    /// What the form of one of its pieces comes from.
    pub(super) fn form(&self, builder: &Builder<'_>, piece: &KindPiece, scope: &Scope<'_>) -> PieceForm {
        let place = self.at(&piece.place).unwrap_or(&piece.place).clone();
        PieceForm { place, sizes: self.values(builder, &[], scope) }
    }

    /// The value of a formula that must be more than nothing; what it is otherwise is a finding at its line.
    pub(super) fn positive(&self, builder: &mut Builder<'_>, formula: &Formula, scope: &Scope<'_>) -> Option<f64> {
        let value = formula.value(scope);
        if value.is_finite() && value > SAME {
            return Some(value);
        }
        self.no_size(builder, formula, value, scope);
        None
    }

    /// The same where it may be nothing, or less.
    pub(super) fn finite(&self, builder: &mut Builder<'_>, formula: &Formula, scope: &Scope<'_>) -> Option<f64> {
        let value = formula.value(scope);
        if value.is_finite() {
            return Some(value);
        }
        self.no_size(builder, formula, value, scope);
        None
    }

    /// So many times as a formula says; where that is less than nothing or above `most`, a finding in the words of `said`.
    pub(super) fn times(
        &self,
        builder: &mut Builder<'_>,
        formula: &Formula,
        (most, said): (u32, &'static str),
        scope: &Scope<'_>,
    ) -> Option<u32> {
        let times = formula.value(scope).round();
        if (0.0..=f64::from(most)).contains(&times) {
            #[allow(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "within 0 to most, as just checked"
            )]
            return Some(times as u32);
        }
        let text = Said::new(said).with("times", Arg::Number(times, 0)).with("most", Arg::Number(f64::from(most), 0));
        let text = text.with("with", self.values(builder, &[], scope));
        let finding = Finding::stop("kind-times", self.about.clone(), text).help(Said::new("kind-times-help"));
        builder.find(finding.at(self.at(&formula.place)));
        None
    }

    fn no_size(&self, builder: &mut Builder<'_>, formula: &Formula, value: f64, scope: &Scope<'_>) {
        let text = if value.is_finite() {
            Said::new("kind-no-size").with("has", builder.album.length(value))
        } else {
            Said::new("kind-endless")
        };
        let text =
            text.with("formula", Arg::code(&formula.text)).with("with", self.values(builder, &formula.sizes(), scope));
        let finding = Finding::stop("kind-size", self.about.clone(), text).help(Said::new("kind-no-size-help"));
        builder.find(finding.at(self.at(&formula.place)));
    }
}

fn shown(builder: &Builder<'_>, size: &KindSize, value: f64) -> Arg {
    if size.takes == SizeTakes::Length { builder.album.length(value) } else { Arg::Number(value, 2) }
}

/// The field of a size.
pub(super) fn field_of(size: &'static KindSize) -> Field {
    use crate::fields::{Fallback, Takes};
    let fixed = |formula: &Option<Formula>| formula.as_ref().and_then(Formula::fixed);
    let (least, most) = (fixed(&size.least), fixed(&size.most));
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a float-to-integer cast saturates")]
    let whole = |value: f64| value.round() as u32;
    let takes = match &size.takes {
        SizeTakes::Length => Takes::Length { least: least.unwrap_or(0.0).max(0.0), most: most.unwrap_or(2000.0) },
        SizeTakes::Count => Takes::Count { least: least.map_or(0, whole), most: most.map_or(1000, whole) },
        SizeTakes::Words(words) => {
            let words: Vec<&'static str> = words.iter().map(String::as_str).collect();
            Takes::Choice(Vec::leak(words))
        }
    };
    let fallback = match (&size.usual, &size.takes) {
        (None, _) | (Some(Usual::Word(_)), SizeTakes::Length | SizeTakes::Count) => Fallback::Needed,
        (Some(Usual::Each { mm, inch }), _) => Fallback::Length { mm: *mm, inch: *inch },
        (Some(Usual::Word(word)), SizeTakes::Words(words)) => {
            words.get(*word).map_or(Fallback::Needed, |word| Fallback::Choice(word))
        }
        (Some(Usual::Formula(formula)), SizeTakes::Count) => {
            formula.fixed().map_or(Fallback::Rule(&formula.text), |value| Fallback::Count(whole(value)))
        }
        (Some(Usual::Formula(formula)), _) => formula
            .fixed()
            .map_or(Fallback::Rule(&formula.text), |mm| Fallback::Length { mm, inch: Length::from_mm(mm).inches() }),
    };
    Field { name: &size.name, takes, fallback, about: &size.about, measured: size.takes == SizeTakes::Length }
}
