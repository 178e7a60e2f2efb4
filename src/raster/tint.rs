// SPDX-License-Identifier: MIT
//! Colours of pictures, and how they are made lighter and darker.

use std::fmt;

/// A colour: its red, green and blue.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Tint(pub [u8; 3]);

/// Contrast of lines and words to what they stand on, at least: the least for words (WCAG 2.2, 1.4.3).
const READABLE: f64 = 4.5;
/// Luminance of the ink that pictures are drawn in (WCAG 2.2, relative luminance).
const INKED: f64 = 0.0144;

impl Tint {
    /// The colour of `#RRGGBB`; none of anything else.
    #[must_use]
    pub fn of(code: &str) -> Option<Self> {
        let digits = code.strip_prefix('#').filter(|digits| digits.len() == 6)?;
        let [_, red, green, blue] = u32::from_str_radix(digits, 16).ok()?.to_be_bytes();
        Some(Self([red, green, blue]))
    }

    /// So much of it, a share from 0 to 1, and of another colour what is left.
    #[must_use]
    pub fn mixed(self, share: f64, other: Self) -> Self {
        let mix = |at: usize| f64::from(self.0[at]) * share + f64::from(other.0[at]) * (1.0 - share);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between two bytes")]
        let byte = |at| mix(at).round() as u8;
        Self([byte(0), byte(1), byte(2)])
    }

    /// Its relative luminance, 0 to 1 (WCAG 2.2).
    #[must_use]
    pub fn luminance(self) -> f64 {
        let part = |byte: u8| {
            let part = f64::from(byte) / 255.0;
            if part <= 0.04045 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) }
        };
        let [red, green, blue] = self.0.map(part);
        0.2126 * red + 0.7152 * green + 0.0722 * blue
    }

    /// The colour, as much lighter as lines and words upon it want.
    #[must_use]
    pub fn readable(self) -> Self {
        self.mixed(self.share_to_read(), Self([255; 3]))
    }

    /// How much of it may be left beside white so that lines and words upon it are read: a share from 0 to 1.
    #[must_use]
    pub fn share_to_read(self) -> f64 {
        let white = Self([255; 3]);
        let light = |share: &f64| (self.mixed(*share, white).luminance() + 0.05) / (INKED + 0.05) >= READABLE;
        (0..=50_u8).rev().map(|step| f64::from(step) / 50.0).find(light).unwrap_or(0.0)
    }

    /// How far another colour is from it: the sum over red, green and blue.
    #[must_use]
    pub fn apart(self, other: Self) -> u32 {
        self.0.iter().zip(other.0).map(|(one, other)| u32::from(one.abs_diff(other))).sum()
    }
}

impl fmt::Display for Tint {
    /// `#RRGGBB`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [red, green, blue] = self.0;
        write!(f, "#{red:02X}{green:02X}{blue:02X}")
    }
}
