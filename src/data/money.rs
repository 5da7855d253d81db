//! Money in whole cents.

use serde::{Deserialize, Serialize};
use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Sub};

/// An amount of money in cents (hundredths of the job's currency); exact.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Cents(pub i64);

impl Cents {
    /// Nothing to pay.
    pub const ZERO: Cents = Cents(0);

    /// With the sign of its currency before it: `$38.50`, and `CHF 38.50` where that is a word.
    pub fn in_currency(self, sign: &str) -> String {
        let gap = if sign.ends_with(|c: char| c.is_alphabetic() || c == '.') { " " } else { "" };
        format!("{sign}{gap}{self}")
    }
}

impl fmt::Display for Cents {
    /// With two decimals and no currency sign: `38.50`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        f.pad(&format!("{sign}{}.{:02}", self.0.abs() / 100, self.0.abs() % 100))
    }
}

impl Add for Cents {
    type Output = Cents;
    fn add(self, other: Cents) -> Cents {
        Cents(self.0 + other.0)
    }
}

impl Sub for Cents {
    type Output = Cents;
    fn sub(self, other: Cents) -> Cents {
        Cents(self.0 - other.0)
    }
}

impl AddAssign for Cents {
    fn add_assign(&mut self, other: Cents) {
        self.0 += other.0;
    }
}

impl Mul<i64> for Cents {
    type Output = Cents;
    fn mul(self, times: i64) -> Cents {
        Cents(self.0 * times)
    }
}

impl Sum for Cents {
    fn sum<I: Iterator<Item = Cents>>(amounts: I) -> Cents {
        amounts.fold(Cents::ZERO, Add::add)
    }
}
