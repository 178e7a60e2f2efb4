// SPDX-License-Identifier: MIT
//! Whole and floating numbers: the only two places where they meet, and what floating ones may be off.

/// A millimetre in the engine's own unit.
pub(crate) const EIGHTHS_PER_MM: f64 = 8000.0;

/// In sheets. Rounding in a sum of parts of sheets stays far below this, and no part of a sheet that matters is as small.
pub(crate) const SHEETS_ROUNDING: f64 = 1e-6;

/// Two to the power of 32.
const HALF_WORD: f64 = 4_294_967_296.0;

/// The whole part of a number, held between 0 and 2^63; 0 for what is no number.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "the range is checked on the line before")]
pub(crate) fn whole(value: f64) -> u64 {
    if value.is_nan() {
        return 0;
    }
    value.clamp(0.0, HALF_WORD * HALF_WORD / 2.0) as u64
}

/// The nearest whole number, held between -2^62 and 2^62; 0 for what is no number.
#[expect(clippy::cast_possible_truncation, reason = "the range is checked on the line before")]
pub(crate) fn nearest(value: f64) -> i64 {
    let most = HALF_WORD * HALF_WORD / 4.0;
    let value = if value.is_nan() { 0.0 } else { value.round().clamp(-most, most) };
    value as i64
}

/// The nearest floating number, good to 53 bits.
pub(crate) fn nearly(value: u64) -> f64 {
    let [high, low] = [value >> 32, value & 0xffff_ffff].map(|half| u32::try_from(half).unwrap_or(u32::MAX));
    f64::from(high) * HALF_WORD + f64::from(low)
}

/// A part of a whole, both whole numbers however large; good to some 32 bits.
pub(crate) fn share(part: u128, whole: u128) -> f64 {
    // Both are brought within what floating numbers tell apart.
    let shift = (128 - whole.leading_zeros()).saturating_sub(62);
    let near = |number: u128| nearly(u64::try_from(number >> shift).unwrap_or(u64::MAX));
    near(part) / near(whole).max(1.0)
}

/// The least whole number of sheets that is no less than a sum, but for rounding.
pub(crate) fn sheets_up(sum: f64) -> u64 {
    whole((sum - SHEETS_ROUNDING).ceil())
}
