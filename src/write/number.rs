// SPDX-License-Identifier: MIT
//! Numbers in files: rounded, without trailing zeros, never `-0`.

/// A number with at most `decimals` decimals (at most 12).
///
/// Works on whole numbers, so that it is exact and quick; what is too large for that is written plainly.
pub(super) fn push(out: &mut String, value: f64, decimals: u32) {
    use std::fmt::Write;
    let scale = 10_i64.pow(decimals);
    let scaled = steps(value, decimals);
    if scaled.is_nan() || scaled.abs() >= 9e15 {
        let _ = write!(out, "{value}");
        return;
    }
    #[allow(clippy::cast_possible_truncation, reason = "just checked")]
    let scaled = scaled as i64;
    if scaled < 0 {
        out.push('-');
    }
    let (whole, rest) = (scaled.unsigned_abs() / scale.unsigned_abs(), scaled.unsigned_abs() % scale.unsigned_abs());
    let _ = write!(out, "{whole}");
    if rest > 0 {
        let width = decimals as usize;
        let digits = format!("{rest:0width$}");
        out.push('.');
        out.push_str(digits.trim_end_matches('0'));
    }
}

/// A number to so many decimals.
pub(super) fn rounded(value: f64, decimals: u32) -> f64 {
    #[allow(clippy::cast_precision_loss, reason = "a power of ten up to 10^12 is exact")]
    let scale = 10_i64.pow(decimals) as f64;
    steps(value, decimals) / scale
}

/// How many steps of the last decimal are written for a number.
fn steps(value: f64, decimals: u32) -> f64 {
    #[allow(clippy::cast_precision_loss, reason = "a power of ten up to 10^12 is exact")]
    let scale = 10_i64.pow(decimals) as f64;
    (value * scale).round()
}

/// Whether two numbers are written alike.
pub(super) fn alike(one: f64, other: f64, decimals: u32) -> bool {
    (steps(one, decimals) - steps(other, decimals)).abs() < 0.5
}

/// The same as text.
pub(super) fn text(value: f64, decimals: u32) -> String {
    let mut out = String::new();
    push(&mut out, value, decimals);
    out
}

/// A thousandth of a micrometre: what arithmetic leaves behind that is not meant.
pub(super) fn tidy(mm: f64) -> f64 {
    rounded(mm, 6) + 0.0
}

#[cfg(test)]
mod tests {
    use super::{alike, text};

    #[test]
    fn trims_and_never_writes_minus_nought() {
        assert_eq!(text(0.1 + 0.2, 4), "0.3");
        assert_eq!(text(-0.000_01, 4), "0");
        assert_eq!(text(-12.345_67, 4), "-12.3457");
        assert_eq!(text(100.0, 4), "100");
        assert_eq!(text(-0.5, 4), "-0.5");
        assert_eq!(text(0.050_05, 4), "0.0501");
    }

    #[test]
    fn alike_is_what_is_written_alike() {
        let numbers = [-0.5, -0.000_05, -0.000_049, -0.0, 0.0, 0.000_049, 0.000_05, 0.000_149, 0.000_15, 300.000_25];
        for one in numbers {
            for other in numbers {
                assert_eq!(alike(one, other, 4), text(one, 4) == text(other, 4), "{one} {other}");
            }
        }
    }
}
