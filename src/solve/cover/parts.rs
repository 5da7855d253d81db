//! The linear program over parts of strips: what strips weigh at least that give all of a group's panels, where a part of
//! a strip weighs that part. It gives prices of panels, and a basis.

use super::super::simplex::{Column, Outcome, Place, Simplex};
use super::strip::{Strip, heaviest};

/// What one unit of weight is in fixed point.
pub(super) const FINE: i64 = 1 << 20;

/// Its optimum.
pub(super) struct Parts {
    prices: Vec<f64>,
    /// Which strips are in the basis.
    pub strips: Vec<bool>,
    /// Panels too many of which sizes are in the basis.
    pub too_many: Vec<bool>,
}

impl Parts {
    /// The optimum for so many panels of each size; none where no strips give all sizes.
    #[allow(clippy::cast_precision_loss)] // small weights
    pub(super) fn new(counts: &[u32], strips: &[Strip]) -> Option<Parts> {
        let mut lp = Simplex::default();
        let row = |count: &u32| lp.add_row(&[], f64::from(*count), (0.0, f64::INFINITY)).1;
        let slacks: Vec<usize> = counts.iter().map(row).collect();
        let mut column = |strip: &Strip| {
            let entries = strip.gives.iter().map(|(size, panels)| (*size, f64::from(*panels))).collect();
            lp.add_column(&Column { entries, cost: strip.weight as f64, least: 0.0, most: f64::INFINITY })
        };
        let columns: Vec<usize> = strips.iter().map(&mut column).collect();
        if lp.dual(f64::INFINITY) != Outcome::Optimal {
            return None;
        }
        let basic =
            |columns: Vec<usize>| columns.into_iter().map(|at| matches!(lp.place(at), Place::Basic(_))).collect();
        Some(Parts { prices: lp.prices(), strips: basic(columns), too_many: basic(slacks) })
    }

    /// The prices in fixed point, lowered where one of these strips would give more than it weighs.
    #[allow(clippy::cast_precision_loss, clippy::cast_possible_truncation)] // rounded to fixed point, once
    pub(super) fn fixed(&self, strips: &[Strip]) -> Vec<i64> {
        let dearest = (heaviest(strips) * FINE) as f64;
        let fixed = |price: &f64| (price * FINE as f64).clamp(0.0, dearest) as i64;
        let mut prices: Vec<i64> = self.prices.iter().map(fixed).collect();
        for strip in strips {
            let given = strip.gives.iter().map(|(size, panels)| prices[*size] * i64::from(*panels)).sum::<i64>();
            let mut over = given - strip.weight * FINE;
            for (size, panels) in strip.gives.iter().map(|(size, panels)| (*size, i64::from(*panels))) {
                let less = ((over + panels - 1) / panels).clamp(0, prices[size]);
                prices[size] -= less;
                over -= less * panels;
            }
        }
        prices
    }
}
