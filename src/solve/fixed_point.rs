//! Prices of a program judged in whole numbers: every column's reduced cost is worked out exactly, so that
//! `prices x right side + sum of reduced costs at their cheaper bounds` is a bound for any prices, provided that none
//! is below zero where its row may be overfilled. What the target leaves above it narrows the bounds of the columns.

use super::program::rounded;
use super::simplex::{Moved, Simplex};

/// A program in whole numbers, with its relaxation, whose bounds are those of now.
pub(super) struct Exact<'a> {
    /// The relaxation; what a row is overfilled by is a column without cost and entries here.
    pub lp: &'a Simplex,
    /// What each column costs.
    pub cost: &'a [i64],
    /// The entries of each column.
    pub entries: &'a [Vec<(usize, i64)>],
    /// The right side of each row.
    pub right: &'a [i64],
    /// Fixed-point units in one unit of cost.
    pub scale: i64,
}

impl Exact<'_> {
    /// The exact bound at these prices: none where it passes the target, else the bounds that can be tightened.
    pub(super) fn judge(&self, prices: &[i64], target: i64) -> Option<Vec<Moved>> {
        let mut total: i128 = prices.iter().zip(self.right).map(|(price, right)| wide(*price) * wide(*right)).sum();
        let mut reduced = vec![0; self.cost.len()];
        for (column, (reduced, entries)) in reduced.iter_mut().zip(self.entries).enumerate() {
            let (least, most) = self.lp.bounds(column);
            if most <= 0.0 {
                continue; // what cannot be had at all adds nothing
            }
            let worth: i128 = entries.iter().map(|(row, part)| wide(prices[*row]) * wide(*part)).sum();
            *reduced = wide(self.cost[column]) * wide(self.scale) - worth;
            if *reduced != 0 {
                total += *reduced * wide(rounded(if *reduced > 0 { least } else { most }));
            }
        }
        let left = wide(target) * wide(self.scale) - total;
        (left >= 0).then(|| self.tightened(&reduced, left))
    }

    /// Bounds that no plan within the target can pass, `left` being what the target leaves above the bound.
    #[allow(clippy::cast_precision_loss)] // counts of an order
    fn tightened(&self, reduced: &[i128], left: i128) -> Vec<Moved> {
        let mut tightened = Vec::new();
        for (column, reduced) in reduced.iter().enumerate().filter(|(_, reduced)| **reduced != 0) {
            let (least, most) = self.lp.bounds(column);
            if least >= most {
                continue;
            }
            let steps = left / reduced.abs();
            if steps < wide(rounded(most - least)) {
                let steps = steps as f64;
                let (least, most) = if *reduced > 0 { (least, least + steps) } else { (most - steps, most) };
                tightened.push((column, least, most));
            }
        }
        tightened
    }
}

fn wide(number: i64) -> i128 {
    i128::from(number)
}
