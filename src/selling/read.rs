// SPDX-License-Identifier: MIT
//! From a file's text to [`Selling`] and its supplies.

use super::file_fields::{
    CURRENCY, FEES, HOUR, MACHINE_HOUR, MINUTES_A_KIT, MOST_ON_TOP, OVERHEAD, PACKAGING, PROFIT, SELLING,
    SELLING_FIELDS, SUPPLIES, TAX,
};
use super::packs::money;
use super::{Selling, Terms, supplies};
use crate::exact::Exact;
use crate::fields::{Amount, AmountOrText, Key, Node, Reader, Values};
use crate::finding::{Arg, Said};
use crate::length::excerpt;

/// More letters than this are no currency: our choice.
const LONGEST_CURRENCY: usize = 12;

/// Reads `supplies` and `selling` of a file's top object; packs need its stocks.
pub(crate) fn read(reader: &mut Reader<'_>, top: &Values) -> Terms {
    let supplies = top.get(SUPPLIES).map(|node| supplies::read(reader, node)).unwrap_or_default();
    let selling = top.get(SELLING).and_then(|node| selling(reader, node)).unwrap_or_default();
    Terms { supplies, selling, ..Terms::default() }
}

fn selling(reader: &mut Reader<'_>, node: &Node) -> Option<Selling> {
    let values = reader.object(node, SELLING.name(), Arg::field(SELLING.name()), &[SELLING_FIELDS])?;
    let mut said = Vec::new();
    let mut amount = |reader: &mut Reader<'_>, key: Key<Option<f64>>| {
        let place = values.place(key)?.clone();
        let amount = money(reader, values.get(key)?, key.name(), Some(&place));
        said.push((key.name(), amount.to_string(), place));
        Some(amount)
    };
    let [hour, machine_hour, minutes_a_kit, packaging] =
        [HOUR, MACHINE_HOUR, MINUTES_A_KIT, PACKAGING].map(|key| amount(reader, key));
    let mut part = |reader: &mut Reader<'_>, key: Key<Option<AmountOrText>>, most: u64| {
        let place = values.place(key)?.clone();
        let part = share(reader, &values, key, most)?;
        said.push((key.name(), part.to_string(), place));
        Some(part)
    };
    let [overhead, profit] = [OVERHEAD, PROFIT].map(|key| part(reader, key, MOST_ON_TOP));
    let [fees, tax] = [FEES, TAX].map(|key| part(reader, key, 100));
    let currency = currency(reader, &values);
    if let (Some(currency), Some(place)) = (&currency, values.place(CURRENCY)) {
        said.push((CURRENCY.name(), currency.clone(), place.clone()));
    }
    let read = Selling { currency, hour, machine_hour, minutes_a_kit, packaging, overhead, profit, fees, tax, said };
    if let Some(place) = values.place(TAX).filter(|_| read.taken() >= Exact::whole(1)).cloned() {
        reader.problem("out-of-range", Said::new("nothing-left"), Said::new("nothing-left-help"), &place);
    }
    Some(read)
}

/// A share, as a part of one.
fn share(reader: &mut Reader<'_>, values: &Values, key: Key<Option<AmountOrText>>, most: u64) -> Option<Exact> {
    let (said, place) = (values.get(key)?, values.place(key)?.clone());
    let field = || Arg::field(key.name());
    let text = match said {
        Amount::Number(number) => {
            let help = Said::new("share-help").with("share", format!("{number} %"));
            reader.problem("wrong-type", Said::new("share-without-sign").with("field", field()), help, &place);
            return None;
        }
        Amount::Text(text) => text,
    };
    let Some(share) = Exact::percent(text).filter(|share| share.has_at_most(8)) else {
        let what = Said::new("bad-share").with("field", field()).with("said", Arg::quoted(excerpt(text)));
        reader.problem("bad-share", what, Said::new("bad-share-help"), &place);
        return None;
    };
    if Exact::whole(most) < share.times(&Exact::whole(100)) {
        let what = Said::new("share-too-large").with("field", field()).with("said", Arg::quoted(excerpt(text)));
        let help = Said::new("amount-too-large-help");
        reader.problem("out-of-range", what.with("most", Arg::Count(most)), help, &place);
        return None;
    }
    Some(share)
}

/// What money is called. It stands before and behind numbers and in tables, and begins no formula there.
fn currency(reader: &mut Reader<'_>, values: &Values) -> Option<String> {
    let (said, place) = (values.get(CURRENCY)?.trim(), values.place(CURRENCY)?.clone());
    let fine = !said.is_empty()
        && said.chars().count() <= LONGEST_CURRENCY
        && !said.chars().any(|letter| letter.is_ascii_digit() || "=+-@\"',;\t".contains(letter));
    if !fine {
        let text = Said::new("bad-currency").with("said", Arg::quoted(excerpt(said)));
        reader.problem("bad-currency", text, Said::new("bad-currency-help"), &place);
        return None;
    }
    Some(said.to_owned())
}
