// SPDX-License-Identifier: MIT
//! The marks of a maker's ruler: by what steps sizes are tried, advised and read off. Our choice, as rulers are divided.

use super::tolerance::WHOLE;
use super::{Length, Units};

impl Units {
    /// From one size to the next that a maker would try: 1 mm, 1/16 in.
    ///
    /// ```
    /// use hingeleaf::length::{Length, Units};
    /// assert_eq!(Units::In.step(), Length::from_inches(0.0625));
    /// ```
    #[must_use]
    pub fn step(self) -> Length {
        self.mark(1.0, 16.0)
    }

    /// From one size that is advised to the next: 0.5 mm, 1/32 in.
    #[must_use]
    pub(crate) fn half_step(self) -> Length {
        self.mark(0.5, 32.0)
    }

    /// The finest that is read off a ruler: 0.1 mm, 1/64 in.
    #[must_use]
    pub(crate) fn finest(self) -> Length {
        self.mark(0.1, 64.0)
    }

    fn mark(self, mm: f64, to_the_inch: f64) -> Length {
        match self {
            Self::In => Length::from_inches(1.0 / to_the_inch),
            Self::Mm | Self::Cm => Length::from_mm(mm),
        }
    }
}

impl Length {
    /// The nearest length that is read off a ruler.
    ///
    /// ```
    /// use hingeleaf::length::{Length, Units};
    /// assert_eq!(Length::from_mm(12.34).read_off(Units::Mm).plain(Units::Mm), "12.3");
    /// ```
    #[must_use]
    pub fn read_off(self, units: Units) -> Self {
        let finest = units.finest();
        finest * (self.mm() / finest.mm()).round()
    }

    /// What of it is left when it is cut to a whole number of steps of a ruler.
    #[must_use]
    pub(crate) fn down_to_a_step(self, units: Units) -> Self {
        let step = units.step();
        step * (self.mm() / step.mm() + WHOLE).floor()
    }
}
