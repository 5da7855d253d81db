//! Exact lengths and areas. One integer inside: the raw unit is 1/8128 in., so that 1/64 in. is 127
//! raw units and 0.1 mm is 32 (1 in. = 25.4 mm exactly). No length is ever an `f64`.
//!
//! `parse` reads what people write (`11 7/8`, `302 mm`, `4' 6 1/2"`); `print` writes what the shop reads.

mod area;
mod parse;
mod print;

pub use area::Area;
pub use parse::LengthError;

use serde::{Deserialize, Serialize};
use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Neg, Sub, SubAssign};

/// Raw units in one inch.
pub const RAW_PER_INCH: i64 = 8128;
/// Raw units in one millimetre (25.4 mm = 1 in. exactly).
pub const RAW_PER_MM: i64 = 320;

/// The unit of bare numbers in a job, and of the lengths printed for it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Unit {
    /// Inches, printed as fractions.
    #[default]
    In,
    /// Millimetres.
    Mm,
    /// Centimetres.
    Cm,
}

/// An exact length in raw units of 1/8128 in.; may be negative as a difference.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Length(i64);

impl Length {
    /// No length at all.
    pub const ZERO: Length = Length(0);
    /// The longest length that is read: 1,000,000 in. Sums of a great many such lengths stay far inside an `i64`.
    pub const MAX: Length = Length(1_000_000 * RAW_PER_INCH);

    /// A length of so many raw units (1/8128 in.).
    pub const fn from_raw(raw: i64) -> Self {
        Length(raw)
    }

    /// The raw units (1/8128 in.) inside.
    pub const fn raw(self) -> i64 {
        self.0
    }

    /// Whole inches.
    pub const fn inches(inches: i64) -> Self {
        Length(inches * RAW_PER_INCH)
    }

    /// So many 64ths of an inch.
    pub const fn sixty_fourths(n: i64) -> Self {
        Length(n * (RAW_PER_INCH / 64))
    }

    /// Whole millimetres.
    pub const fn mm(mm: i64) -> Self {
        Length(mm * RAW_PER_MM)
    }

    /// True for zero.
    pub const fn is_zero(self) -> bool {
        self.0 == 0
    }

    /// True above zero.
    pub const fn is_positive(self) -> bool {
        self.0 > 0
    }

    /// The largest multiple of `step` that is not above this length; `step` must be above zero.
    #[must_use]
    pub const fn round_down(self, step: Length) -> Self {
        Length(self.0.div_euclid(step.0) * step.0)
    }

    /// How often `other` goes into this length; `other` must be above zero.
    pub const fn times(self, other: Length) -> i64 {
        self.0.div_euclid(other.0)
    }

    /// Millimetres, for drawing and weighing only: never for a decision about a cut.
    #[allow(clippy::cast_precision_loss)] // lengths are far below 2^52 raw units
    pub fn to_mm(self) -> f64 {
        self.0 as f64 / RAW_PER_MM as f64
    }
}

impl Add for Length {
    type Output = Length;
    fn add(self, other: Length) -> Length {
        Length(self.0 + other.0)
    }
}

impl Sub for Length {
    type Output = Length;
    fn sub(self, other: Length) -> Length {
        Length(self.0 - other.0)
    }
}

impl Neg for Length {
    type Output = Length;
    fn neg(self) -> Length {
        Length(-self.0)
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Length) {
        self.0 += other.0;
    }
}

impl SubAssign for Length {
    fn sub_assign(&mut self, other: Length) {
        self.0 -= other.0;
    }
}

impl Mul<i64> for Length {
    type Output = Length;
    fn mul(self, times: i64) -> Length {
        Length(self.0 * times)
    }
}

impl Mul<Length> for Length {
    type Output = Area;
    fn mul(self, other: Length) -> Area {
        Area::of(self, other)
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Length>>(lengths: I) -> Length {
        lengths.fold(Length::ZERO, Add::add)
    }
}

impl Serialize for Length {
    /// As exact text with its unit, so that it reads back the same under any job's units.
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.with_unit())
    }
}

impl<'de> Deserialize<'de> for Length {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        Length::parse(&text, Unit::In).map_err(serde::de::Error::custom)
    }
}
