// SPDX-License-Identifier: MIT
//! A drawer as a file has it.

use super::{Drawer, DrawerSheet, FORMAT};
use serde_json::Value;

/// The text of a drawer file, a line a size; what none is left of is left out.
#[must_use]
pub fn text(drawer: &Drawer) -> String {
    let word = |text: &str| Value::from(text).to_string();
    let sheet =
        |sheet: &DrawerSheet| format!("      {{ \"sheet\": {}, \"count\": {} }}", word(&sheet.name), sheet.count);
    let mut stocks: Vec<String> = Vec::new();
    for stock in &drawer.stocks {
        let lines: Vec<String> = stock.sheets.iter().filter(|sheet| sheet.count > 0).map(sheet).collect();
        if !lines.is_empty() {
            stocks.push(format!("    {}: [\n{}\n    ]", word(&stock.name), lines.join(",\n")));
        }
    }
    let stocks = if stocks.is_empty() { "{}".to_owned() } else { format!("{{\n{}\n  }}", stocks.join(",\n")) };
    format!("{{\n  \"format\": \"{FORMAT}\",\n  \"stocks\": {stocks}\n}}\n")
}
