// SPDX-License-Identifier: MIT
//! What is left of the sheets, as entries for the `stocks` of another album.

use crate::album::Order;
use crate::length::tolerance::WHOLE;
use crate::length::{Length, Units};
use crate::sheets::StockSheets;
use crate::stock::{CaliperFrom, Pattern, Stock};
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;

/// One object that holds a stock of offcuts for every stock that leaves some: `{ "card-offcuts": { … } }`. Sizes are
/// rounded down to a tenth of a millimetre, as they lie on the sheet, and counted.
#[must_use]
pub fn offcut_stocks(order: Order<'_>, stocks: &[StockSheets]) -> String {
    let mut entries = Map::new();
    for laid in stocks {
        let Some(stock) = order.stocks.get(laid.stock) else { continue };
        // The largest first; sizes count in tenths of a millimetre, so that equal ones are one entry.
        let mut sizes: BTreeMap<(i64, i64), u32> = BTreeMap::new();
        for sheet in &laid.sheets {
            for &[_, _, width, height] in &sheet.offcuts {
                *sizes.entry((tenths(width), tenths(height))).or_default() += sheet.times;
            }
        }
        let mut sizes: Vec<_> = sizes.into_iter().collect();
        sizes.sort_by_key(|&((width, height), _)| std::cmp::Reverse((width * height, width)));
        if !sizes.is_empty() {
            entries.insert(free_name(stock.bought(), &entries), entry(stock, laid, &sizes));
        }
    }
    format!("{:#}\n", Value::Object(entries))
}

/// `card-offcuts`; a stock's name has 32 letters at most, and two long ones may begin alike.
fn free_name(stock: &str, entries: &Map<String, Value>) -> String {
    let name = |number: usize| {
        let ending = if number == 1 { "-offcuts".to_owned() } else { format!("-offcuts-{number}") };
        let room = 32_usize.saturating_sub(ending.len());
        stock.chars().take(room).chain(ending.chars()).collect::<String>()
    };
    (1..=entries.len() + 1).map(name).find(|name| !entries.contains_key(name)).unwrap_or_else(|| name(1))
}

fn entry(stock: &Stock, laid: &StockSheets, sizes: &[((i64, i64), u32)]) -> Value {
    let plain = |tenths: i64| Length::from_eighths(tenths * 800).plain(Units::Mm);
    let one = |&((width, height), count): &((i64, i64), u32)| json!({ "sheet": format!("{}x{}mm", plain(width), plain(height)), "count": count });
    let mut entry = json!({ "sheet": sizes.iter().map(one).collect::<Vec<_>>() });
    if stock.caliper_from == CaliperFrom::Measured {
        entry["caliper"] = format!("{} mm", stock.caliper.plain(Units::Mm)).into();
    }
    if let Some(grammage) = stock.grammage {
        entry["grammage"] = json!((grammage * 10.0).round() / 10.0);
    }
    // An offcut lies as its sheet lies, grain up unless the pattern says otherwise.
    let size = laid.sheets.first().and_then(|sheet| stock.sheets.get(sheet.size));
    if let Some(upright) = size.and_then(|size| stock.stood(size).grain_upright) {
        entry["grain"] = if upright { "height" } else { "width" }.into();
    }
    match stock.pattern {
        Pattern::None => {}
        Pattern::AllOver => entry["pattern"] = "all-over".into(),
        Pattern::OneWay => entry["pattern"] = "one-way".into(),
    }
    entry
}

#[allow(clippy::cast_possible_truncation, reason = "a float-to-integer cast saturates")]
fn tenths(mm: f64) -> i64 {
    (mm * 10.0 + WHOLE).floor() as i64
}
