//! Exact areas, in squares of the raw length unit.

use super::{Length, RAW_PER_INCH, RAW_PER_MM};
use std::iter::Sum;
use std::ops::{Add, Mul, Sub};

/// An exact area in raw units squared.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Area(i128);

impl Area {
    /// No area at all.
    pub const ZERO: Area = Area(0);

    /// The area of a rectangle.
    pub fn of(width: Length, height: Length) -> Area {
        Area(i128::from(width.raw()) * i128::from(height.raw()))
    }

    /// What this area costs where `whole` costs `price`, rounded down; nothing where it is not above zero.
    pub fn priced_at(self, whole: Area, price: i64) -> i64 {
        let part = (self.0.max(0) * i128::from(price)).checked_div(whole.0).unwrap_or(0);
        i64::try_from(part).unwrap_or(i64::MAX)
    }

    /// Square feet, for quantities to buy and for print.
    #[allow(clippy::cast_precision_loss)] // a quantity of paint, not a cut
    pub fn to_square_feet(self) -> f64 {
        let foot = (12 * RAW_PER_INCH) as f64;
        self.0 as f64 / (foot * foot)
    }

    /// Square metres, for weights, quantities and print.
    #[allow(clippy::cast_precision_loss)] // a weight, not a cut
    pub fn to_square_metres(self) -> f64 {
        let metre = (1000 * RAW_PER_MM) as f64;
        self.0 as f64 / (metre * metre)
    }

    /// This area as a share of `whole`, from 0 to 1; 0 where the whole is nothing.
    #[allow(clippy::cast_precision_loss)] // a percentage for print
    pub fn share_of(self, whole: Area) -> f64 {
        if whole.0 == 0 { 0.0 } else { self.0 as f64 / whole.0 as f64 }
    }
}

impl Add for Area {
    type Output = Area;
    fn add(self, other: Area) -> Area {
        Area(self.0 + other.0)
    }
}

impl Sub for Area {
    type Output = Area;
    fn sub(self, other: Area) -> Area {
        Area(self.0 - other.0)
    }
}

impl Mul<i64> for Area {
    type Output = Area;
    fn mul(self, times: i64) -> Area {
        Area(self.0 * i128::from(times))
    }
}

impl Sum for Area {
    fn sum<I: Iterator<Item = Area>>(areas: I) -> Area {
        areas.fold(Area::ZERO, Add::add)
    }
}
