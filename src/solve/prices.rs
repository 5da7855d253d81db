//! Prices in fixed point: what a panel, a strip, a free cut is worth, as whole numbers. The linear program proposes
//! them in floating point; from here on only whole numbers judge.

use super::pattern::Blank;
use crate::model::Problem;
use std::collections::BTreeMap;

/// Bits that the cost of the dearest sheet fills in fixed point.
const BITS: u32 = 36;
/// Bits that all panels of a sheet may fill together.
const SUM_BITS: u32 = 60;

/// Prices of the rows of the program, none below zero.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Prices {
    /// Fixed-point units in one unit of cost.
    pub scale: i64,
    /// Of one panel of each size.
    pub size: Vec<i64>,
    /// Of one strip, where the number of them is narrowed; any other strip is worth its best pattern.
    pub strip: BTreeMap<Blank, i64>,
    /// The strips that the program knows, whose patterns are worth while looking for.
    pub known: Vec<Blank>,
    /// What a strip is worth beside its panels, because covers count it.
    pub covering: BTreeMap<Blank, i64>,
    /// What all that the covers ask for is worth together.
    pub covered: i128,
    /// Of one paid cut of the order.
    pub cut: i64,
    /// Of one cent of an offcut worth keeping.
    pub keeping: i64,
}

impl Prices {
    /// What a strip is worth beside its panels.
    pub(super) fn covering(&self, blank: Blank) -> i64 {
        self.covering.get(&blank).copied().unwrap_or(0)
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

/// The highest price in fixed point of anything that a sheet gives, so that all that one sheet can give is worth less
/// than an `i64` holds.
pub(super) fn highest(problem: &Problem) -> i64 {
    let least = |lie: &crate::model::Laid| lie.along.raw();
    let shortest = problem.families.iter().flat_map(|family| &family.widths).flat_map(|width| &width.laid).map(least);
    let narrowest = problem.families.iter().flat_map(|family| &family.widths).map(|width| width.width.raw());
    let (shortest, narrowest) = (shortest.min().unwrap_or(1).max(1), narrowest.min().unwrap_or(1).max(1));
    let pieces = |ripping: &crate::model::Ripping| {
        (ripping.board.raw() / shortest + 1).saturating_mul(ripping.room.raw() / narrowest + 1)
    };
    let on_hand = problem.on_hand.iter().map(|strip| strip.usable.raw() / shortest + 1);
    let most = problem.rippings.iter().map(pieces).chain(on_hand).max().unwrap_or(1);
    (1_i64 << SUM_BITS) / most.max(1)
}

/// Rounds a price to fixed point; below zero is nothing.
#[allow(clippy::cast_possible_truncation, clippy::cast_precision_loss)] // the one place where floating point ends
pub(super) fn fixed(price: f64, scale: i64, highest: i64) -> i64 {
    if price.is_finite() { ((price * scale as f64).round().clamp(0.0, 1e18) as i64).min(highest) } else { 0 }
}
