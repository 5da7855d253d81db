//! What the program's rows are worth: its prices, which other rooms judge in whole numbers.

use super::super::cover::Cover;
use super::super::pattern::Blank;
use super::super::prices::{Prices, fixed};
use super::{Master, Sum, real};
use std::collections::BTreeMap;

impl Master<'_> {
    /// The prices of the rows in fixed point.
    pub(in crate::solve) fn prices(&self) -> Prices {
        let prices = self.lp.prices();
        let of = |row: usize| self.fixed(prices[row]);
        let (covering, covered) = self.covering(&prices);
        Prices {
            covering,
            covered,
            scale: self.scale,
            size: self.sizes.iter().map(|sum| of(sum.row)).collect(),
            strip: self.used.keys().filter_map(|blank| Some((*blank, of(*self.given.get(blank)?)))).collect(),
            known: self.given.keys().copied().collect(),
            cut: self.cuts.map_or(0, |row| of(row).min(self.problem.charges.cut * self.scale)),
            keeping: 0,
        }
    }

    /// What a strip is worth because covers count it, and what all that they ask for is worth. Nothing where that would
    /// be more than prices may be.
    fn covering(&self, prices: &[f64]) -> (BTreeMap<Blank, i64>, i128) {
        let (mut covering, mut covered): (BTreeMap<Blank, i64>, i128) = (BTreeMap::new(), 0);
        for (cover, sum) in &self.covers {
            let each = self.fixed(prices[sum.row]) / cover.least;
            covered += i128::from(each) * i128::from(cover.least);
            for (blank, weight) in &cover.weights {
                let worth = covering.entry(*blank).or_default();
                *worth = each.saturating_mul(*weight).saturating_add(*worth);
            }
        }
        covering.retain(|_, worth| *worth > 0);
        if covering.values().any(|worth| *worth > self.highest) { (BTreeMap::new(), 0) } else { (covering, covered) }
    }

    fn fixed(&self, price: f64) -> i64 {
        fixed(price * self.unit, self.scale, self.highest)
    }

    /// What a strip must be worth for a pattern to pay.
    pub(in crate::solve) fn strip_prices(&self) -> BTreeMap<Blank, i64> {
        let prices = self.lp.prices();
        let given = |(blank, row): (&Blank, &usize)| {
            let count = self.used.get(blank).map_or(0.0, |sum| prices[sum.row]);
            (*blank, self.fixed(prices[*row] - count))
        };
        self.given.iter().map(given).collect()
    }

    /// The price of a strip on hand in fixed point.
    pub(in crate::solve) fn on_hand_prices(&self) -> Vec<i64> {
        let prices = self.lp.prices();
        self.on_hand.iter().map(|row| self.fixed(prices[*row])).collect()
    }

    /// What a sheet ripped each way is worth beside its strips, in fixed point; below zero where there are too few.
    #[allow(clippy::cast_possible_truncation)] // rounded to fixed point
    pub(in crate::solve) fn sheet_prices(&self) -> Vec<i64> {
        let prices = self.lp.prices();
        let of = |(ripping, sum): (&crate::model::Ripping, &Option<Sum>)| {
            let price = prices[self.kinds[ripping.sheet].row] + sum.map_or(0.0, |sum| prices[sum.row]);
            (price * self.unit * real(self.scale)).round().clamp(-1e18, 1e18) as i64
        };
        self.problem.rippings.iter().zip(&self.rippings).map(of).collect()
    }

    /// The covers that have a price.
    pub(in crate::solve) fn priced_covers(&self) -> Vec<Cover> {
        let prices = self.lp.prices();
        self.covers.iter().filter(|(_, sum)| prices[sum.row] > 1e-9).map(|(cover, _)| cover.clone()).collect()
    }
}
