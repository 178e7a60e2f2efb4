// SPDX-License-Identifier: MIT
//! Exact numbers, for money and what it is worked out from: fractions of whole numbers, however large.
//!
//! In: numbers as they are written. Out: [`Exact`], and at the very end its decimals. Never: rounds on the way.

use num_bigint::BigInt;
use num_rational::BigRational;
use std::fmt;

/// More decimals than this are no number that a person writes.
const MOST_DECIMALS: usize = 400;

/// A number of at least nought, without any error: money, a share, an amount of something that is bought.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Exact(BigRational);

impl Exact {
    /// A whole number.
    #[must_use]
    pub fn whole(count: u64) -> Self {
        Self(BigRational::from_integer(count.into()))
    }

    /// So many of so many; nothing where that is none.
    ///
    /// ```
    /// use hingeleaf::exact::Exact;
    /// assert_eq!(Exact::ratio(3, 4).unwrap().fixed(2), "0.75");
    /// ```
    #[must_use]
    pub fn ratio(part: u64, whole: u64) -> Option<Self> {
        (whole > 0).then(|| Self(BigRational::new(part.into(), whole.into())))
    }

    /// A number as it is written in decimals: `9.5`, `100`, `.25`.
    ///
    /// ```
    /// use hingeleaf::exact::Exact;
    /// assert_eq!(Exact::parse("9.50"), Exact::ratio(19, 2));
    /// assert_eq!(Exact::parse("-1").or(Exact::parse("1e3")).or(Exact::parse("1,5")), None);
    /// ```
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let (whole, decimals) = text.split_once('.').unwrap_or((text, ""));
        let digits = [whole, decimals].concat();
        if digits.is_empty() || digits.len() > MOST_DECIMALS || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
            return None;
        }
        let number = BigInt::parse_bytes(digits.as_bytes(), 10)?;
        Some(Self(BigRational::new(number, ten(decimals.len()))))
    }

    /// A number that a file has: the shortest decimals that are it, as somebody wrote them. Nothing below nought.
    ///
    /// ```
    /// use hingeleaf::exact::Exact;
    /// assert_eq!(Exact::written(0.1), Exact::ratio(1, 10)); // and not 0.1000000000000000055…
    /// ```
    #[must_use]
    pub fn written(number: f64) -> Option<Self> {
        (number.is_finite() && number >= 0.0).then(|| Self::parse(&(number + 0.0).to_string())).flatten()
    }

    /// So many per cent.
    #[must_use]
    pub fn percent(text: &str) -> Option<Self> {
        Self::parse(text.trim().strip_suffix('%')?.trim_end())?.over(&Self::whole(100))
    }

    /// Nought.
    #[must_use]
    pub fn zero() -> Self {
        Self::whole(0)
    }

    /// Whether it is nought.
    #[must_use]
    pub fn is_zero(&self) -> bool {
        *self == Self::zero()
    }

    /// Both together.
    #[must_use]
    pub fn plus(&self, other: &Self) -> Self {
        Self(&self.0 + &other.0)
    }

    /// What is left without the other; nothing where that is more.
    #[must_use]
    pub fn minus(&self, other: &Self) -> Option<Self> {
        (other <= self).then(|| Self(&self.0 - &other.0))
    }

    /// So many times.
    #[must_use]
    pub fn times(&self, other: &Self) -> Self {
        Self(&self.0 * &other.0)
    }

    /// Divided by another one; nothing where that is nought.
    #[must_use]
    pub fn over(&self, other: &Self) -> Option<Self> {
        (!other.is_zero()).then(|| Self(&self.0 / &other.0))
    }

    /// The next whole number from it up; the largest there is where that is none.
    #[must_use]
    pub fn up(&self) -> u64 {
        u64::try_from(self.0.ceil().to_integer()).unwrap_or(u64::MAX)
    }

    /// With so many decimals, a half rounded up.
    ///
    /// ```
    /// use hingeleaf::exact::Exact;
    /// assert_eq!(Exact::parse("2.345").unwrap().fixed(2), "2.35");
    /// assert_eq!(Exact::ratio(2, 3).unwrap().fixed(0), "1");
    /// ```
    #[must_use]
    pub fn fixed(&self, decimals: usize) -> String {
        let scaled = &self.0 * BigRational::from_integer(ten(decimals) * 2) + BigRational::from_integer(1.into());
        let digits = (scaled / BigRational::from_integer(2.into())).floor().to_integer().to_string();
        let digits = format!("{digits:0>width$}", width = decimals + 1);
        let (whole, rest) = digits.split_at(digits.len() - decimals);
        if decimals == 0 { whole.to_owned() } else { format!("{whole}.{rest}") }
    }

    /// How many decimals it has; where they never end, twelve.
    fn decimals(&self) -> usize {
        let ends = |decimals: &usize| (&self.0 * BigRational::from_integer(ten(*decimals))).is_integer();
        (0..MOST_DECIMALS).find(ends).unwrap_or(12)
    }

    /// Whether it has no more than so many decimals.
    #[must_use]
    pub fn has_at_most(&self, decimals: usize) -> bool {
        self.decimals() <= decimals && self.is_finite()
    }

    /// Whether its decimals end.
    fn is_finite(&self) -> bool {
        (&self.0 * BigRational::from_integer(ten(self.decimals()))).is_integer()
    }

    /// The nearest number with a floating point, for what is no money: where to look, how long a bar is.
    #[must_use]
    pub fn near(&self) -> f64 {
        self.fixed(12).parse().unwrap_or(f64::MAX)
    }
}

/// All its decimals, as few as there are; where they never end, twelve of them.
///
/// ```
/// use hingeleaf::exact::Exact;
/// assert_eq!(Exact::parse("9.50").unwrap().to_string(), "9.5");
/// assert_eq!(Exact::ratio(1, 3).unwrap().to_string(), "0.333333333333");
/// ```
impl fmt::Display for Exact {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.fixed(self.decimals()))
    }
}

impl fmt::Debug for Exact {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&self.0, out)
    }
}

impl std::iter::Sum for Exact {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::zero(), |sum, one| sum.plus(&one))
    }
}

fn ten(decimals: usize) -> BigInt {
    BigInt::from(10).pow(u32::try_from(decimals).unwrap_or(u32::MAX))
}
