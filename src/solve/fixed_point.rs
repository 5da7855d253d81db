//! Prices of a program judged in whole numbers: every column's reduced cost is worked out exactly, so that
//! `prices x right side + sum of reduced costs at their cheaper bounds` is a bound for any prices, provided that none
//! is below zero where its row may be overfilled. What the target leaves above it narrows the bounds of the columns.

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

/// What the columns of a program cost above their worth at some prices, and what the right sides come to.
pub(super) struct Reduced {
    pub right: i128,
    pub columns: Vec<i128>,
}

impl Exact<'_> {
    /// The exact bound at these prices: none where it passes the target, else the bounds that can be tightened.
    pub(super) fn judge(&self, prices: &[i64], target: i64) -> Option<Vec<Moved>> {
        // What cannot be had at all adds nothing.
        let reduced = self.reduced_of(prices, |column| self.lp.bounds(column).1 > 0.0);
        let mut left = self.fixed(target) - reduced.right;
        for (column, reduced) in reduced.columns.iter().enumerate().filter(|(_, reduced)| **reduced != 0) {
            let (least, most) = self.lp.bounds(column);
            left -= *reduced * wide(whole(if *reduced > 0 { least } else { most }));
        }
        (left >= 0).then(|| {
            let columns = reduced.columns.iter().enumerate();
            columns.filter_map(|(column, reduced)| tightened(self.lp, column, *reduced, left)).collect()
        })
    }

    /// What all columns cost above their worth at these prices, whatever their bounds.
    pub(super) fn reduced(&self, prices: &[i64]) -> Reduced {
        self.reduced_of(prices, |_| true)
    }

    /// A cost in fixed point.
    pub(super) fn fixed(&self, cost: i64) -> i128 {
        wide(cost) * wide(self.scale)
    }

    /// What some columns cost above their worth, and nothing for the others.
    fn reduced_of(&self, prices: &[i64], some: impl Fn(usize) -> bool) -> Reduced {
        let reduced = |(column, entries): (usize, &Vec<(usize, i64)>)| {
            let worth = || entries.iter().map(|(row, part)| wide(prices[*row]) * wide(*part)).sum::<i128>();
            if some(column) { self.fixed(self.cost[column]) - worth() } else { 0 }
        };
        let right = prices.iter().zip(self.right).map(|(price, right)| wide(*price) * wide(*right)).sum();
        Reduced { right, columns: self.entries.iter().enumerate().map(reduced).collect() }
    }
}

/// The bounds of a column that no plan can pass, where they are tighter than those of now: `left` is what the target
/// leaves above the bound of all plans at some prices, at which the column costs `reduced` above its worth.
#[allow(clippy::cast_precision_loss)] // counts of an order
pub(super) fn tightened(lp: &Simplex, column: usize, reduced: i128, left: i128) -> Option<Moved> {
    let (least, most) = lp.bounds(column);
    // Mostly it is not tightened, and dividing takes far longer than this.
    if reduced == 0 || least >= most || reduced.abs() * wide(whole(most - least)) <= left {
        return None;
    }
    let steps = (left / reduced.abs()) as f64;
    let (least, most) = if reduced > 0 { (least, least + steps) } else { (most - steps, most) };
    Some((column, least, most))
}

/// A bound of a column, which is whole: far quicker than to round it.
#[allow(clippy::cast_possible_truncation)] // counts of an order
pub(super) fn whole(bound: f64) -> i64 {
    debug_assert!(bound.fract() == 0.0, "{bound} is not whole");
    bound as i64
}

fn wide(number: i64) -> i128 {
    i128::from(number)
}
