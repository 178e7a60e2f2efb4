// SPDX-License-Identifier: MIT
//! Short texts: lengths, sizes of sheets and prints, weights; formulas of kind files.

use super::draws::Draws;
use super::{Answer, Target, reasoned, spoil};
use hingeleaf::fields::Source;
use hingeleaf::kind_file;
use hingeleaf::length::{Allow, Length, Ruler, Units};
use hingeleaf::paper;
use hingeleaf::parts;

/// What lengths, sizes and weights are written with.
const PIECES: [&str; 52] = [
    "0",
    "1",
    "2",
    "8",
    "12",
    "16",
    "64",
    "210",
    "297",
    "999",
    "1000000",
    "0.5",
    ".5",
    "5.",
    "1.005",
    "1,5",
    "½",
    "¾",
    "⅛",
    "1/2",
    "3/16",
    "1/64",
    "1/0",
    "0/4",
    "7/3",
    "1/1000000000000",
    " ",
    "\u{a0}",
    "\u{2009}",
    "-",
    "+",
    "\u{2212}",
    "mm",
    "cm",
    "in",
    "\"",
    "'",
    "inch",
    "pt",
    "x",
    "X",
    "×",
    "*",
    "gsm",
    "g/m2",
    "lb cover",
    "lb",
    "A4",
    "letter",
    "e5",
    "\u{0}",
    "²",
];

fn pieces(pieces: &[&str], most: usize, draws: &mut Draws) -> String {
    (0..=draws.below(most)).map(|_| draws.pick(pieces)).collect()
}

pub(crate) fn lengths() -> Target {
    let make = |draws: &mut Draws| {
        let text = match draws.below(4) {
            0 => {
                format!(
                    "{}{}",
                    f64::from(u32::try_from(draws.below(100_000)).unwrap_or(0)) / 64.0,
                    draws.pick(&["", " mm", " cm", " in", "mm", "in"])
                )
            }
            1 => format!("{} {}/{} in", draws.below(40), draws.below(70), draws.below(70)),
            _ => pieces(&PIECES, 6, draws),
        };
        let text = text.into_bytes();
        if draws.once_in(4) { spoil::text(text, draws) } else { text }
    };
    Target { make: Box::new(make), run: Box::new(length) }
}

fn length(bytes: &[u8]) -> Answer {
    let text = String::from_utf8_lossy(bytes);
    let mut taken = false;
    for units in Units::ALL {
        for allow in [Allow::Plain, Allow::Caliper] {
            let read = match Length::parse(&text, units, allow) {
                Ok(read) => read,
                Err(error) => {
                    if error.to_string().trim().is_empty() {
                        return Err(format!("{text:?} is refused without words"));
                    }
                    continue;
                }
            };
            taken = true;
            written(&text, read, units)?;
        }
    }
    for (what, error) in [
        ("size", paper::parse_size(&text).err().map(|error| error.to_string())),
        ("sheet", paper::sheet_size(&text).err().map(|error| error.to_string())),
        ("weight", paper::parse_grammage(&text).err().map(|error| error.to_string())),
    ] {
        if error.is_some_and(|words| words.trim().is_empty()) {
            return Err(format!("{text:?} as a {what} is refused without words"));
        }
    }
    if let Ok((name, width, height)) = paper::sheet_size(&text) {
        match paper::sheet_size(&name) {
            Ok((_, wide, tall)) if near(width, wide) && near(height, tall) => {}
            other => return Err(format!("{text:?} is called {name:?}, which is {other:?}")),
        }
    }
    Ok(taken)
}

/// Half of what is shown last, and a little.
fn near(one: Length, other: Length) -> bool {
    (one.mm() - other.mm()).abs() <= 0.000_6
}

/// A length that was read, written as files have it and read again.
fn written(text: &str, read: Length, units: Units) -> Result<(), String> {
    if !read.mm().is_finite() {
        return Err(format!("{text:?} is read as {read:?}"));
    }
    // Inches are written to the nearest 64th, and say what is missing.
    for unit in [Units::Mm, Units::Cm] {
        let shown = read.show(unit, Ruler::SixtyFourth);
        match Length::parse(&shown, units, Allow::Plain) {
            Ok(again) if near(read, again) => {}
            other => return Err(format!("{text:?} is shown as {shown:?}, which is {other:?}")),
        }
    }
    let again = Length::from_eighths(read.eighths());
    if (again.mm() - read.mm()).abs() > 0.000_063 {
        return Err(format!("{text:?} is {read:?}, in eighths {again:?}"));
    }
    Ok(())
}

/// What formulas are written with.
const FORMULA: [&str; 40] = [
    "width", "height", "seam", "tab", "caliper", "mouth", "nth", "1", "0", "2.5", "12 mm", "1/2 in", "8 1/2 in",
    "1 cm", " + ", " - ", " * ", " / ", "(", ")", "min(", "max(", "ruler(", ", ", "\u{2212}", "×", "0 mm", "<=", ">",
    "=", "1e9", "1e308", "wdith", "-", "--", " ", "é", "in", "mm", "..",
];

/// A formula that is put together soundly, of names and values that may not go together.
fn sum(depth: usize, draws: &mut Draws) -> String {
    const VALUES: [&str; 10] =
        ["width", "height", "seam", "tab", "caliper", "12 mm", "1/2 in", "8 1/2 in", "1 cm", "0 mm"];
    if depth == 0 || draws.once_in(4) {
        return draws.pick(&VALUES).into();
    }
    let (one, number) = (sum(depth - 1, draws), draws.below(5));
    match draws.below(7) {
        0 => format!("{one} + {}", sum(depth - 1, draws)),
        1 => format!("({one}) - {}", sum(depth - 1, draws)),
        2 => format!("({one}) * {number}"),
        3 => format!("({one}) / {number}"),
        4 => format!("{}({one}, {})", draws.pick(&["min", "max"]), sum(depth - 1, draws)),
        5 => format!("ruler({one})"),
        _ => format!("-{one} {} {}", draws.pick(&FORMULA), draws.pick(&FORMULA)),
    }
}

pub(crate) fn formulas() -> Target {
    let make = |draws: &mut Draws| {
        let text = if draws.once_in(3) {
            let sums = [
                "height / 2",
                "ruler(height / 2) - seam",
                "min(width, height) * 2 / 3",
                "max(12 mm, width - 2 * seam)",
            ];
            let sum = draws.pick(&sums).as_bytes().to_vec();
            spoil::letters(sum, &FORMULA, draws)
        } else {
            sum(3, draws).into_bytes()
        };
        String::from_utf8_lossy(&text).into_owned().into_bytes()
    };
    let text = parts::source_of("pocket").unwrap_or_default();
    let kept = include_str!("../../fixtures/kept/kind-1.json");
    assert!(!text.is_empty() && kept.contains("\"ruler(height / 2)\""));
    let run = move |bytes: &[u8]| -> Answer {
        let formula = serde_json::Value::from(String::from_utf8_lossy(bytes).into_owned()).to_string();
        let file = kept.replacen("\"ruler(height / 2)\"", &formula, 1);
        let source = Source::new("kind.json", file.into_bytes()).map_err(|_| "a kind of some KB is too large")?;
        let read = kind_file::read(&source);
        reasoned(read.value.as_ref(), &read.findings)?;
        let Some(file) = read.value else { return Ok(false) };
        let ruler = |mm: f64| mm;
        let scope = kind_file::Scope {
            width: 140.0,
            height: 200.0,
            seam: 12.0,
            tab: 15.0,
            caliper: 0.3,
            nth: 1.0,
            sizes: vec![kind_file::SizeValue::Value(50.0); file.sizes.len()],
            ruler: &ruler,
        };
        if let Some(Some(kind_file::Usual::Formula(formula))) = file.sizes.first().map(|size| &size.usual) {
            // Whatever it comes to is asked for again by those who hold sizes to their limits.
            let _ = formula.value(&scope);
        }
        Ok(true)
    };
    Target { make: Box::new(make), run: Box::new(run) }
}
