// SPDX-License-Identifier: MIT
//! What the page asks to change of a drawer. Its file is written as the command line writes it, a line a size.

use super::OWN;
use crate::drawer;
use crate::fields::Source;
use crate::finding::{Finding, Said};
use crate::paper::sheet_size;
use crate::table::change::Wanted;
use crate::table::hand::{gone, refused};
use crate::table::question::Question;
use crate::table::{said, words};
use serde_json::{Map, Value, json};

/// The text with its change. One that could not be read before may be mended step by step.
pub(in crate::table) fn work(source: &Source, question: &Question) -> Value {
    let kind = "drawer";
    let Some(wanted) = &question.change else { return json!({ "text": question.text, "kind": kind }) };
    let refusal = |findings: Vec<Value>| {
        let field = wanted.field().and_then(|path| path.rsplit_once('.')).map(|(_, field)| field);
        let field = field.map(|field| words::label(&format!("lies-{field}")));
        json!({ "refused": true, "kind": kind, "field": field, "findings": findings })
    };
    let text = match changed(source.text(), wanted) {
        Ok(text) => text,
        Err(finding) => return refusal(said::findings(&[*finding], source)),
    };
    let next = match Source::new(source.name(), text.into_bytes()) {
        Ok(next) => next,
        Err(finding) => return refusal(said::findings(&[*finding], source)),
    };
    let after = drawer::read(&next);
    if after.value.is_none() && drawer::read(source).value.is_some() {
        return refusal(said::findings(&after.findings, &next));
    }
    json!({ "text": next.text(), "kind": kind })
}

fn changed(text: &str, wanted: &Wanted) -> Result<String, Box<Finding>> {
    let is_gone = || gone(Said::new("the-drawer"));
    let mut file: Map<String, Value> = serde_json::from_str(text).map_err(|_| is_gone())?;
    let stocks = file.entry("stocks").or_insert_with(|| json!({}));
    let stocks = stocks.as_object_mut().ok_or_else(is_gone)?;
    match wanted {
        Wanted::Set { path, typed } => {
            let (entry, field) = path.rsplit_once('.').ok_or_else(is_gone)?;
            let (stock, number) = entry_of(entry).ok_or_else(is_gone)?;
            let item = stocks.get_mut(stock).and_then(|list| list.get_mut(number)).ok_or_else(is_gone)?;
            let mut sheet = item.as_object().cloned().unwrap_or_default();
            match typed.trim() {
                "" => sheet.shift_remove(field),
                typed => sheet.insert(field.to_owned(), value(field, typed)),
            };
            *item = sheet.into();
        }
        // What is no list of sheets goes as a whole.
        Wanted::Take { path } if entry_of(path).is_none() => {
            let stock = path.strip_prefix(OWN).and_then(|way| way.strip_prefix("stocks.")).ok_or_else(is_gone)?;
            stocks.shift_remove(stock).ok_or_else(is_gone)?;
        }
        Wanted::Take { path } => {
            let (stock, number) = entry_of(path).ok_or_else(is_gone)?;
            let list = stocks.get_mut(stock).and_then(Value::as_array_mut).ok_or_else(is_gone)?;
            if number >= list.len() {
                return Err(is_gone());
            }
            list.remove(number);
            if list.is_empty() {
                stocks.shift_remove(stock);
            }
        }
        Wanted::Lies { stock, sheet, count } => put(stocks, (stock.trim(), sheet.trim(), count.trim()))?,
        _ => return Err(is_gone()),
    }
    Ok(written(&file))
}

/// More sheets of a size; what lies there of it already is more then.
fn put(stocks: &mut Map<String, Value>, (stock, sheet, count): (&str, &str, &str)) -> Result<(), Box<Finding>> {
    let refuse = |text, help| Err(refused("bad-sheet", text, help));
    if stock.is_empty() || sheet.is_empty() {
        return refuse(Said::new("lies-lacks"), "lies-lacks-help");
    }
    let new = sheet_size(sheet)
        .map_err(|error| Box::new(Finding::stop("bad-sheet", Said::NOTHING, error.what).help(error.help)))?;
    let count = if count.is_empty() { "1" } else { count };
    let Ok(more) = count.parse::<u32>() else {
        return refuse(Said::new("lies-count").with("count", crate::length::excerpt(count)), "lies-count-help");
    };
    let list = stocks.entry(stock).or_insert_with(|| json!([])).as_array_mut().ok_or_else(|| gone(stock))?;
    let same = |one: &&mut Value| {
        let size = one.get("sheet").and_then(Value::as_str).and_then(|size| sheet_size(size).ok());
        size.is_some_and(|size| (size.1, size.2) == (new.1, new.2))
    };
    match list.iter_mut().find(same) {
        Some(known) => {
            let lie = known.get("count").map_or(Some(1), Value::as_u64).unwrap_or(0);
            known["count"] = lie.saturating_add(more.into()).into();
        }
        None => list.push(json!({ "sheet": sheet, "count": more })),
    }
    Ok(())
}

/// The stock, whose name may have a dot in it, and the number of `drawer.stocks.paper.ochre[2]`.
fn entry_of(path: &str) -> Option<(&str, usize)> {
    let (stock, number) = path.strip_prefix(OWN)?.strip_prefix("stocks.")?.strip_suffix(']')?.rsplit_once('[')?;
    Some((stock, number.parse().ok()?))
}

fn value(field: &str, typed: &str) -> Value {
    let whole = || typed.parse::<u32>().ok().map(Value::from);
    let number = || typed.parse::<f64>().ok().and_then(serde_json::Number::from_f64).map(Value::from);
    let number = (field == "count").then(|| whole().or_else(number)).flatten();
    number.unwrap_or_else(|| typed.into())
}

/// As [`drawer::text`] writes it, with all that can't be read left as it is.
fn written(file: &Map<String, Value>) -> String {
    let line = |value: &Value| match value {
        Value::Object(fields) => {
            let fields: Vec<String> =
                fields.iter().map(|(name, value)| format!("{}: {value}", Value::from(name.as_str()))).collect();
            format!("{{ {} }}", fields.join(", "))
        }
        other => other.to_string(),
    };
    let stock = |(name, value): (&String, &Value)| {
        let name = Value::from(name.as_str());
        match value {
            Value::Array(items) if !items.is_empty() => {
                let lines: Vec<String> = items.iter().map(|item| format!("      {}", line(item))).collect();
                format!("    {name}: [\n{}\n    ]", lines.join(",\n"))
            }
            other => format!("    {name}: {other}"),
        }
    };
    let field = |(name, value): (&String, &Value)| match value {
        Value::Object(stocks) if !stocks.is_empty() => {
            let stocks: Vec<String> = stocks.iter().map(stock).collect();
            format!("  {}: {{\n{}\n  }}", Value::from(name.as_str()), stocks.join(",\n"))
        }
        other => format!("  {}: {other}", Value::from(name.as_str())),
    };
    let fields: Vec<String> = file.iter().map(field).collect();
    format!("{{\n{}\n}}\n", fields.join(",\n"))
}
