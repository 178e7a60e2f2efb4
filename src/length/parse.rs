// SPDX-License-Identifier: MIT
//! Lengths as people write them.
//!
//! In: a text, the unit of a bare number, and whether points of caliper are welcome. Out: the exact length, or an
//! error that says what was found and how to write it. Never: panics, rounds a fraction before it is in millimetres,
//! reads a comma as a point, or refuses a negative length (whoever asks for a size does that).

use super::{Allow, INCH, LONGEST_MM, Length, LengthError, Units};

/// A point of caliper is 0.001 in (paper trade definition): millimetres as a ratio of whole numbers.
const POINT: (f64, f64) = (INCH.0, INCH.1 * 1000.0);

/// Digits up to which a decimal is held exactly as a whole number over a power of ten.
const EXACT_DIGITS: usize = 15;

/// Reads a length.
///
/// A number is `216`, `21.6`, `17/2`, `8 1/2`, `8-1/2`, `8½` or `½`, with a sign or without; a unit is `mm`, `cm`, `in`,
/// `inch`, `inches`, `"` or `″`, or the full name, in capitals or not. No unit means `bare`. With [`Allow::Caliper`]
/// `12 pt` is 0.012 in. Every fraction of an inch that a ruler shows is exact: n/64 in is 3175 n eighths of a micrometre.
///
/// # Errors
/// See [`LengthError`]; each says what was found and what is allowed.
///
/// ```
/// use hingeleaf::length::{Allow, Length, Units, parse};
/// for text in ["8 1/2 in", "8½ in", "17/2 in", "8-1/2 in", "8.5in", "8 1/2\"", "21.59 cm", "215.9"] {
///     assert_eq!(parse(text, Units::Mm, Allow::Plain)?, Length::from_mm(215.9));
/// }
/// assert_eq!(parse("12 pt", Units::Mm, Allow::Caliper)?, Length::from_mm(0.3048));
/// let error = parse("216 milimeter", Units::Mm, Allow::Plain).unwrap_err();
/// assert!(error.to_string().contains("did you mean \"216 mm\"?"));
/// # Ok::<(), hingeleaf::length::LengthError>(())
/// ```
pub fn parse(text: &str, bare: Units, allow: Allow) -> Result<Length, LengthError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(LengthError::Empty);
    }
    let found = || excerpt(text);
    let (negative, unsigned) = sign(text);
    let (number, rest) = number(unsigned, text)?;
    let written = text.strip_suffix(rest).unwrap_or(text).trim_end();
    let unit = match unit(rest.trim()) {
        Suffix::None => bare.ratio(),
        Suffix::Unit(unit) => unit.ratio(),
        Suffix::Point if allow == Allow::Caliper => POINT,
        Suffix::Point => return Err(LengthError::Point { found: found() }),
        Suffix::Feet => return Err(LengthError::Feet { found: found() }),
        Suffix::TwoUnits => return Err(LengthError::TwoUnits { found: found() }),
        Suffix::TwoNumbers => return Err(LengthError::TwoNumbers { found: found() }),
        Suffix::Unknown(nearest) => {
            return Err(LengthError::UnknownUnit {
                found: found(),
                unit: excerpt(rest.trim()),
                instead: nearest.map(|unit| format!("{} {}", excerpt(written), unit.name())),
            });
        }
    };
    let length = Length::from_ratio(number.num, number.den, unit);
    if length.abs().mm() <= LONGEST_MM {
        Ok(if negative { Length::ZERO - length } else { length })
    } else {
        Err(LengthError::TooLong { found: found() })
    }
}

/// A number as written: both parts whole, unless it has too many digits or an exponent.
struct Ratio {
    num: f64,
    den: f64,
}

fn sign(text: &str) -> (bool, &str) {
    match text.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (true, rest.trim_start()),
        None => (false, text.strip_prefix('+').unwrap_or(text).trim_start()),
    }
}

/// Reads the number at the start of `text`; `whole_text` is for messages.
fn number<'a>(text: &'a str, whole_text: &str) -> Result<(Ratio, &'a str), LengthError> {
    let found = || excerpt(whole_text);
    if let Some((fraction, rest)) = vulgar(text) {
        return Ok((fraction, rest));
    }
    let (digits, after) = digits(text);
    if comma_and_digit(after) {
        return Err(comma(text, whole_text));
    }
    if after.starts_with('.') || exponent(after) > 0 {
        return match decimal(text) {
            Some((_, rest)) if comma_and_digit(rest) => Err(comma(text, whole_text)),
            Some(read) => Ok(read),
            None => Err(LengthError::NoNumber { found: found() }),
        };
    }
    if digits.is_empty() {
        let word: String = text.chars().take_while(|c| c.is_alphabetic()).flat_map(char::to_lowercase).collect();
        return Err(match word.as_str() {
            "nan" | "inf" | "infinity" => LengthError::NotFinite { found: found() },
            _ => LengthError::NoNumber { found: found() },
        });
    }
    let whole = value(digits);
    if let Some((fraction, rest)) = over(whole, after, whole_text)? {
        return Ok((fraction, rest));
    }
    // A whole number, and perhaps a fraction after a space or a hyphen: 8 1/2, 8½, 8-1/2.
    let inner = after.strip_prefix(['-', '\u{2010}', '\u{2011}', '\u{2013}']).unwrap_or(after).trim_start();
    let fraction = if let Some(fraction) = vulgar(inner) {
        Some(fraction)
    } else {
        let (digits, rest) = self::digits(inner);
        if digits.is_empty() || inner.len() == after.len() { None } else { over(value(digits), rest, whole_text)? }
    };
    match fraction {
        Some((part, _)) if part.num >= part.den => Err(LengthError::BadFraction { found: found() }),
        Some((part, rest)) => Ok((Ratio { num: whole * part.den + part.num, den: part.den }, rest)),
        None => Ok((Ratio { num: whole, den: 1.0 }, after)),
    }
}

/// `num` and what follows it, if that is a slash and a denominator.
fn over<'a>(num: f64, after: &'a str, whole_text: &str) -> Result<Option<(Ratio, &'a str)>, LengthError> {
    let Some(below) = after.trim_start().strip_prefix(['/', '\u{2044}', '\u{2215}']) else {
        return Ok(None);
    };
    let (digits, rest) = digits(below.trim_start());
    if digits.is_empty() || rest.starts_with(['.', ',']) || exponent(rest) > 0 {
        return Err(LengthError::BadFraction { found: excerpt(whole_text) });
    }
    let den = value(digits);
    if den > 0.0 {
        Ok(Some((Ratio { num, den }, rest)))
    } else {
        Err(LengthError::ZeroDenominator { found: excerpt(whole_text) })
    }
}

/// One character that is a fraction.
fn vulgar(text: &str) -> Option<(Ratio, &str)> {
    let first = text.chars().next()?;
    let (num, den) = match first {
        '½' => (1.0, 2.0),
        '¼' => (1.0, 4.0),
        '¾' => (3.0, 4.0),
        '⅛' => (1.0, 8.0),
        '⅜' => (3.0, 8.0),
        '⅝' => (5.0, 8.0),
        '⅞' => (7.0, 8.0),
        '⅓' => (1.0, 3.0),
        '⅔' => (2.0, 3.0),
        _ => return None,
    };
    text.strip_prefix(first).map(|rest| (Ratio { num, den }, rest))
}

/// A number with a point, an exponent, or both.
fn decimal(text: &str) -> Option<(Ratio, &str)> {
    let (whole, after) = digits(text);
    let (part, after) = after.strip_prefix('.').map_or(("", after), digits);
    if whole.is_empty() && part.is_empty() {
        return None;
    }
    let power = exponent(after);
    let (exponent, rest) = after.split_at(power);
    let ratio = if exponent.is_empty() && whole.len() + part.len() <= EXACT_DIGITS {
        // "21.6" is 216 over 10.
        Ratio { num: value(&format!("{whole}{part}")), den: value(&format!("1{}", "0".repeat(part.len()))) }
    } else {
        Ratio { num: value(&format!("0{whole}.{part}0{exponent}")), den: 1.0 }
    };
    Some((ratio, rest))
}

/// The digits at the start, and what follows them.
fn digits(text: &str) -> (&str, &str) {
    let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    text.split_at(end)
}

/// How many bytes at the start are an exponent such as `e3` or `E-2`.
fn exponent(text: &str) -> usize {
    let Some(after) = text.strip_prefix(['e', 'E']) else {
        return 0;
    };
    let signed = after.strip_prefix(['+', '-']).unwrap_or(after);
    let (digits, rest) = digits(signed);
    if digits.is_empty() { 0 } else { text.len() - rest.len() }
}

/// The value of checked digits; infinite when there are too many, which the limit on lengths then catches.
fn value(digits: &str) -> f64 {
    digits.parse().unwrap_or(f64::INFINITY)
}

fn comma_and_digit(text: &str) -> bool {
    text.strip_prefix(',').is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()))
}

/// The error for a comma in a number, with the number as it should have been written.
fn comma(text: &str, whole_text: &str) -> LengthError {
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == ',' || c == '.')).unwrap_or(text.len());
    let number = text.get(..end).unwrap_or(text).trim_end_matches([',', '.']);
    let joined = number.replace(',', "");
    let (pointed, joined) = match (number.rsplit_once(','), number.matches(',').count()) {
        // 1.250,5: the comma is the point, points part thousands.
        (Some((before, after)), 1) if before.contains('.') => (format!("{}.{after}", before.replace('.', "")), None),
        // 1,250: either.
        (Some((before, after)), 1) if after.len() == 3 => (format!("{before}.{after}"), Some(joined)),
        (Some((before, after)), 1) if !after.contains('.') => (format!("{before}.{after}"), None),
        // 1,250.5 and 1,250,000: commas part thousands.
        _ => (joined, None),
    };
    LengthError::Comma {
        found: excerpt(whole_text),
        pointed: excerpt(&pointed),
        joined: joined.as_deref().map(excerpt),
    }
}

/// What stands after the number.
enum Suffix {
    None,
    Unit(Units),
    Point,
    Feet,
    TwoUnits,
    TwoNumbers,
    Unknown(Option<Units>),
}

fn unit(rest: &str) -> Suffix {
    if rest.is_empty() {
        return Suffix::None;
    }
    let lower = rest.to_lowercase();
    let one = known(&lower);
    if !matches!(one, Suffix::Unknown(_)) {
        return one;
    }
    let mut units = 0;
    let mut feet = false;
    for word in lower.split(|c: char| c.is_whitespace() || c.is_numeric() || ".,;/()+-⁄".contains(c)) {
        match known(word) {
            Suffix::Unit(_) | Suffix::Point => units += 1,
            Suffix::Feet => feet = true,
            _ => {}
        }
    }
    if feet {
        Suffix::Feet
    } else if units > 1 {
        Suffix::TwoUnits
    } else if lower.contains(char::is_numeric) {
        Suffix::TwoNumbers
    } else {
        one
    }
}

/// The unit of this name in small letters, or the one that was probably meant.
fn known(word: &str) -> Suffix {
    match word.strip_suffix('.').unwrap_or(word) {
        "" => Suffix::None,
        "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Suffix::Unit(Units::Mm),
        "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Suffix::Unit(Units::Cm),
        "in" | "inch" | "inches" | "\"" | "″" | "”" | "''" | "′′" | "’’" => Suffix::Unit(Units::In),
        "pt" | "pts" | "point" | "points" => Suffix::Point,
        "ft" | "foot" | "feet" | "'" | "′" | "’" => Suffix::Feet,
        "m" | "mn" | "nm" => Suffix::Unknown(Some(Units::Mm)),
        // A thousandth of an inch: near in name to a millimetre, far in size, so none is suggested.
        "mil" | "mils" => Suffix::Unknown(None),
        "c" | "cms" | "cn" | "ctm" => Suffix::Unknown(Some(Units::Cm)),
        "i" | "im" | "ins" | "ich" | "ni" | "“" | "\"\"" => Suffix::Unknown(Some(Units::In)),
        other => Suffix::Unknown(
            [("mil", Units::Mm), ("mm", Units::Mm), ("ce", Units::Cm), ("cm", Units::Cm), ("in", Units::In)]
                .into_iter()
                .find_map(|(start, unit)| other.starts_with(start).then_some(unit)),
        ),
    }
}

/// A text for a message: no control characters, at most 40 characters.
pub(crate) fn excerpt(text: &str) -> String {
    let mut short: String = text.chars().take(40).map(|c| if c.is_control() { ' ' } else { c }).collect();
    if text.chars().nth(40).is_some() {
        short.push('…');
    }
    short
}
