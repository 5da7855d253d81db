//! Prices of the worth program in fixed point: what a panel, a sheet out of stock, a cut is worth in cents of extras
//! and offcuts. The linear program proposes them; whole numbers judge.

use super::super::pattern::Blank;
use crate::model::Problem;
use std::collections::BTreeMap;

/// Prices of the rows, none below zero.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Prices {
    /// Of one panel of each size.
    pub size: Vec<i64>,
    /// Of one sheet of a kind whose stock is limited.
    pub stock: Vec<i64>,
    /// Of one cut of the order.
    pub cut: i64,
    /// Of one unit of money; only proposes, since the judge finds its own.
    pub money: f64,
    /// Of one strip; only proposes.
    pub strips: BTreeMap<Blank, i64>,
    /// Of one strip on hand; only proposes.
    pub on_hand: Vec<i64>,
}

/// What a missing panel costs, in cents: far more than an extra panel or an offcut is worth.
pub(super) fn missing_worth(problem: &Problem) -> i64 {
    let wishes = problem.sizes.iter().flat_map(|size| &size.wishes).map(|wish| wish.worth);
    let keepers = problem.keepers.iter().map(|keeper| keeper.worth.0);
    wishes.chain(keepers).max().unwrap_or(1).clamp(1, 1 << 32) * 1024
}

/// Fixed-point units in one cent: fine enough that rounding costs nothing that matters, coarse enough that the worth
/// of all panels of a sheet stays far inside an `i64`.
pub(super) fn scale(problem: &Problem) -> i64 {
    let mut scale = 1_i64 << 28;
    while scale > 1 && missing_worth(problem) > (1_i64 << 46) / scale {
        scale /= 2;
    }
    scale
}

/// What every worth is a multiple of, in cents.
pub(super) fn step(problem: &Problem) -> i64 {
    let wishes = problem.sizes.iter().flat_map(|size| &size.wishes).map(|wish| wish.worth);
    let keepers = problem.keepers.iter().map(|keeper| keeper.worth.0);
    wishes.chain(keepers).fold(0, crate::model::gcd).max(1)
}
