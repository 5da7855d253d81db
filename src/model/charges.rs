//! What the order costs, in the whole numbers that the solver works with.
//!
//! Where a sheet kind has no price, buying fewer of it must still count: such sheets cost one unit each beside money
//! counted in large units, so that money stays first.

use crate::data::{Cents, FreePer, Job};

/// Units that one cent counts where some sheet has no price.
const CENT_BESIDE_FREE_SHEETS: i64 = 1024;

/// Prices in whole units.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Charges {
    /// Units in one cent.
    pub cent: i64,
    /// Of one sheet of each kind.
    pub sheets: Vec<i64>,
    /// Of one paid cut.
    pub cut: i64,
    /// Cuts that cost nothing.
    pub free: u32,
    /// Whether the free cuts are counted over the whole order.
    pub per_order: bool,
    /// Most cuts on one sheet.
    pub most_cuts: Option<u32>,
}

impl Charges {
    pub(super) fn of(job: &Job) -> Charges {
        let unpriced = job.sheets.iter().any(|sheet| sheet.price == Cents::ZERO);
        let cent = if unpriced { CENT_BESIDE_FREE_SHEETS } else { 1 };
        let price = |price: Cents| if price == Cents::ZERO { 1 } else { price.0 * cent };
        Charges {
            cent,
            sheets: job.sheets.iter().map(|sheet| price(sheet.price)).collect(),
            cut: job.yard.cut_price.0 * cent,
            free: job.yard.free_cuts,
            per_order: job.yard.free_per == FreePer::Order && job.yard.cut_price != Cents::ZERO,
            most_cuts: job.yard.most_cuts,
        }
    }

    /// Price of the cuts of one sheet where free cuts are counted by the sheet; 0 where they are counted by the order.
    pub fn of_cuts(&self, cuts: u32) -> i64 {
        if self.per_order { 0 } else { self.cut * i64::from(cuts.saturating_sub(self.free)) }
    }

    /// Price of all cuts where free cuts are counted by the order; 0 where they are counted by the sheet.
    pub fn of_order(&self, cuts: i64) -> i64 {
        if self.per_order { self.cut * (cuts - i64::from(self.free)).max(0) } else { 0 }
    }

    /// Whether the number of cuts on a sheet matters at all.
    pub fn cuts_matter(&self) -> bool {
        self.cut > 0 || self.most_cuts.is_some()
    }

    /// The number that every possible cost is a multiple of.
    pub fn step(&self) -> i64 {
        self.sheets.iter().fold(self.cut, |step, price| gcd(step, *price)).max(1)
    }
}

/// The greatest common divisor of two numbers that are not negative.
pub(crate) fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { gcd(b, a % b) }
}
