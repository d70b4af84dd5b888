//! A length, exact to the nanometre, so that inches (25.4 mm) and their 64ths are exact, too.

use std::iter::Sum;
use std::ops::{Add, AddAssign, Neg, Sub, SubAssign};

/// A length in nanometres. A sheet, a crease or a trim is whole in it, whether it was given in mm or in inches.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Length(i64);

impl Length {
    /// No length.
    pub const ZERO: Self = Self(0);
    /// One millimetre.
    pub const MM: Self = Self(1_000_000);
    /// One inch: 25.4 mm exactly (international yard and pound agreement, 1959).
    pub const INCH: Self = Self(25_400_000);

    /// So many nanometres.
    #[must_use]
    pub const fn from_nm(nm: i64) -> Self {
        Self(nm)
    }

    /// So many whole micrometres.
    #[must_use]
    pub const fn from_um(um: i64) -> Self {
        Self(um * 1_000)
    }

    /// So many whole millimetres.
    #[must_use]
    pub const fn from_whole_mm(mm: i64) -> Self {
        Self(mm * 1_000_000)
    }

    /// The nearest length to so many millimetres; none for what is no number.
    #[must_use]
    pub fn from_mm(mm: f64) -> Self {
        // A cast of a float is bounded by the type, and 0 for what is no number.
        Self((mm * 1e6).round() as i64)
    }

    /// Nanometres.
    #[must_use]
    pub const fn nm(self) -> i64 {
        self.0
    }

    /// Millimetres.
    #[must_use]
    pub fn mm(self) -> f64 {
        self.0 as f64 / 1e6
    }

    /// So many times this length.
    #[must_use]
    pub const fn times(self, n: i64) -> Self {
        Self(self.0.saturating_mul(n))
    }

    /// A share of this length in whole nanometres, the rest left over at the end.
    #[must_use]
    pub const fn shared(self, n: i64) -> Self {
        Self(if n == 0 { 0 } else { self.0 / n })
    }

    /// Without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl SubAssign for Length {
    fn sub_assign(&mut self, other: Self) {
        *self = *self - other;
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::ZERO, Add::add)
    }
}
