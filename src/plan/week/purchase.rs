//! The cheapest packages that hold what is needed: exact, by depth-first search over the counts of each package, the
//! cheapest by its content first, cut off where even content bought loose at the best price left could not win.

use crate::data::Cents;
use crate::data::week::{Amount, Package};

/// How many of each package to buy, as indices into `packages` with counts above zero; empty where nothing is needed
/// or nothing is sold. No other choice that holds `need` costs less.
pub fn cheapest(need: Amount, packages: &[Package]) -> Vec<(usize, u32)> {
    let mut order: Vec<usize> = (0..packages.len()).collect();
    order.sort_by(|&a, &b| by_content(&packages[a], &packages[b]).then(a.cmp(&b)));
    let mut search = Search { packages, order, counts: vec![0; packages.len()], best: None };
    if need.0 > 0 {
        search.choose(0, need.0, Cents::ZERO);
    }
    let counts = search.best.map_or_else(Vec::new, |(_, counts)| counts);
    counts.into_iter().enumerate().filter(|(_, count)| *count > 0).collect()
}

/// Price by content, the larger package first where it is the same.
fn by_content(a: &Package, b: &Package) -> std::cmp::Ordering {
    let (left, right) = (i128::from(a.price.0) * i128::from(b.holds.0), i128::from(b.price.0) * i128::from(a.holds.0));
    left.cmp(&right).then(b.holds.cmp(&a.holds))
}

struct Search<'a> {
    packages: &'a [Package],
    order: Vec<usize>,
    counts: Vec<u32>,
    best: Option<(Cents, Vec<u32>)>,
}

impl Search<'_> {
    /// Tries every count of the package at `depth` in the order, the most first.
    fn choose(&mut self, depth: usize, need: i64, paid: Cents) {
        if need <= 0 {
            if self.best.as_ref().is_none_or(|(best, _)| paid < *best) {
                self.best = Some((paid, self.counts.clone()));
            }
            return;
        }
        let Some(&package) = self.order.get(depth) else { return };
        let Package { holds, price, .. } = self.packages[package];
        let most = u32::try_from((need + holds.0 - 1) / holds.0).unwrap_or(u32::MAX);
        for count in (0..=most).rev() {
            let (rest, paid) = (need - holds.0 * i64::from(count), paid + price * i64::from(count));
            if rest > 0 && !self.can_win(depth + 1, rest, paid) {
                break; // fewer of the cheapest content only cost more
            }
            self.counts[package] = count;
            self.choose(depth + 1, rest, paid);
            self.counts[package] = 0;
        }
    }

    /// Whether the rest, bought loose at the best price by content from `depth` on, still beats the best choice.
    fn can_win(&self, depth: usize, rest: i64, paid: Cents) -> bool {
        let Some((best, _)) = &self.best else { return true };
        let Some(&package) = self.order.get(depth) else { return false };
        let Package { holds, price, .. } = &self.packages[package];
        i128::from(price.0) * i128::from(rest) < i128::from(best.0 - paid.0) * i128::from(holds.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn package(holds: i64, price: i64) -> Package {
        Package { name: format!("{holds}"), holds: Amount(holds), price: Cents(price) }
    }

    fn paid(packages: &[Package], chosen: &[(usize, u32)]) -> i64 {
        chosen.iter().map(|(at, count)| packages[*at].price.0 * i64::from(*count)).sum()
    }

    #[test]
    fn five_quarts_are_a_gallon_and_a_quart_when_the_gallon_is_cheaper_by_content() {
        let packages = [package(1, 1200), package(4, 4000)];
        assert_eq!(cheapest(Amount(5), &packages), vec![(0, 1), (1, 1)]);
        assert_eq!(cheapest(Amount(8), &packages), vec![(1, 2)]);
    }

    #[test]
    fn a_gallon_is_bought_for_three_quarts_when_it_costs_less_than_they_do() {
        assert_eq!(cheapest(Amount(3), &[package(1, 1500), package(4, 4000)]), vec![(1, 1)]);
        assert_eq!(cheapest(Amount(3), &[package(1, 1300), package(4, 4000)]), vec![(0, 3)]);
    }

    #[test]
    fn nothing_is_bought_where_nothing_is_needed_or_sold() {
        assert!(cheapest(Amount(0), &[package(1, 1)]).is_empty());
        assert!(cheapest(Amount(5), &[]).is_empty());
    }

    /// Every choice of at most enough of each package, the slow way.
    fn by_trying_all(need: i64, packages: &[Package]) -> Option<i64> {
        let Some((first, others)) = packages.split_first() else { return (need <= 0).then_some(0) };
        let most = (need.max(0) + first.holds.0 - 1) / first.holds.0;
        let totals = (0..=most).filter_map(|count| {
            by_trying_all(need - count * first.holds.0, others).map(|rest| rest + count * first.price.0)
        });
        totals.min()
    }

    proptest! {
        #[test]
        fn no_other_choice_is_cheaper(need in 1_i64..60, sold in prop::collection::vec((1_i64..20, 0_i64..50), 1..4)) {
            let packages: Vec<Package> = sold.into_iter().map(|(holds, price)| package(holds, price)).collect();
            let chosen = cheapest(Amount(need), &packages);
            let held: i64 = chosen.iter().map(|(at, count)| packages[*at].holds.0 * i64::from(*count)).sum();
            prop_assert!(held >= need);
            prop_assert_eq!(Some(paid(&packages, &chosen)), by_trying_all(need, &packages));
        }
    }
}
