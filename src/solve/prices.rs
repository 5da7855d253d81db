//! Prices in fixed point: what a panel, a sheet out of stock, a free cut is worth, as whole numbers. The linear
//! program proposes them in floating point; from here on only whole numbers judge.

use crate::model::Problem;

/// Bits that the cost of the dearest sheet fills in fixed point.
const BITS: u32 = 36;

/// Prices of the rows of the program, none below zero.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Prices {
    /// Fixed-point units in one unit of cost.
    pub scale: i64,
    /// Of one panel of each size.
    pub size: Vec<i64>,
    /// Of one sheet of a kind whose stock is limited, beyond its cost.
    pub stock: Vec<i64>,
    /// Of one paid cut of the order.
    pub cut: i64,
    /// Of one cent of an offcut worth keeping.
    pub keeping: i64,
}

impl Prices {
    /// Brings all prices down to a share of them: `share` rounds what a panel is worth down, and what a sheet out of
    /// stock or a cut costs up, so that rounding never leaves a layout worth more than its cost.
    pub(super) fn scale_down(&mut self, share: impl Fn(i64) -> i64) {
        self.size.iter_mut().for_each(|price| *price = share(*price));
        self.stock.iter_mut().chain([&mut self.cut]).for_each(|price| *price = -share(-*price));
    }
}

/// The fixed point of a problem: fine enough that rounding costs nothing that matters, coarse enough that sums of a
/// large order stay far inside an `i64`.
pub(super) fn scale(problem: &Problem) -> i64 {
    let dearest = dearest(problem);
    let mut scale = 1_i64 << BITS;
    while scale > 1 && dearest > (1_i64 << BITS) / scale {
        scale /= 2;
    }
    scale
}

/// The most that one sheet and its cuts can cost, in units.
pub(super) fn dearest(problem: &Problem) -> i64 {
    let charges = &problem.charges;
    let sheet = charges.sheets.iter().copied().max().unwrap_or(1);
    let cuts = charges.most_cuts.map_or(0, |cuts| charges.cut.saturating_mul(i64::from(cuts).min(64)));
    (sheet + cuts).max(charges.cut).max(1)
}

/// Rounds a price to fixed point; below zero is nothing.
#[allow(clippy::cast_possible_truncation, clippy::cast_precision_loss)] // the one place where floating point ends
pub(super) fn fixed(price: f64, scale: i64) -> i64 {
    if price.is_finite() { (price * scale as f64).round().clamp(0.0, 1e17) as i64 } else { 0 }
}
