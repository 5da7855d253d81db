//! Prices that have closed parts of a search. They bound every other part as well: as its bounds move, they close it at
//! once, or tighten what is left of it, without a linear program (Witzig, Berthold and Heinz 2021). So what was learned in
//! one part, that there is no way to make do with this or that, is not found out again in the next.

use super::super::fixed_point::{Exact, tightened, whole};
use super::super::simplex::Simplex;
use super::super::trail::Trail;
use std::collections::VecDeque;

/// Most that are kept.
const KEPT: usize = 16;

/// What a column may cost above or below its worth; prices at which some cost more are of no use.
const MOST: u64 = 1 << 62;

/// Those kept, the last that helped first.
#[derive(Default)]
pub(super) struct Proofs(VecDeque<Proof>);

/// What is known at some prices, in fixed point.
struct Proof {
    /// What the right sides of all rows come to.
    right: i128,
    /// What each column costs above its worth.
    reduced: Vec<i64>,
    /// The same or what it costs below its worth, to see quickly what may be tightened.
    apart: Vec<f64>,
    /// The columns that cost less than they are worth, ascending.
    below: Vec<usize>,
    /// The prices of the rows that count strips for a while.
    counted: Vec<i64>,
}

impl Proofs {
    /// Keeps prices that have closed a part; the last of them, so many, are those of rows that count strips for a while.
    pub(super) fn keep(&mut self, exact: &Exact, prices: &[i64], counted: usize) {
        let reduced = exact.reduced(prices);
        let few = |reduced: &i128| i64::try_from(*reduced).ok().filter(|reduced| reduced.unsigned_abs() < MOST);
        let Some(columns) = reduced.columns.iter().map(few).collect() else { return };
        self.0.truncate(KEPT - 1);
        self.0.push_front(Proof::new(reduced.right, columns, prices[prices.len() - counted..].to_vec()));
    }

    /// Whether some of these prices close the part with these bounds, as all of it costs more than `most` in fixed point;
    /// else what they tighten is tightened.
    pub(super) fn close(&mut self, lp: &mut Simplex, trail: &mut Trail, most: i128) -> bool {
        if self.0.is_empty() {
            return false;
        }
        let mut raised: Vec<usize> = (0..lp.columns()).filter(|column| lp.bounds(*column).0 != 0.0).collect();
        for at in 0..self.0.len() {
            let left = most - self.0[at].bound(lp, &raised);
            if left < 0 {
                let proof = self.0.remove(at).expect("it is there");
                self.0.push_front(proof);
                return true;
            }
            self.0[at].tighten(lp, trail, left, &mut raised);
        }
        false
    }

    /// A row is added that counts strips for a while, with a column.
    pub(super) fn count(&mut self) {
        for proof in &mut self.0 {
            proof.reduced.push(0);
            proof.apart.push(0.0);
            proof.counted.push(0);
        }
    }

    /// The last of those rows, which counts these columns, is taken away.
    pub(super) fn uncount(&mut self, columns: &[usize]) {
        self.0.iter_mut().for_each(|proof| proof.uncount(columns));
    }

    /// How many there are.
    pub(super) fn many(&self) -> usize {
        self.0.len()
    }
}

impl Proof {
    #[allow(clippy::cast_precision_loss)] // only for a first look
    fn new(right: i128, reduced: Vec<i64>, counted: Vec<i64>) -> Proof {
        let apart = reduced.iter().map(|reduced| reduced.unsigned_abs() as f64).collect();
        let below = (0..reduced.len()).filter(|column| reduced[*column] < 0).collect();
        Proof { right, reduced, apart, below, counted }
    }

    /// The bound of all plans within the bounds of now; the least of all other columns than those raised is nothing.
    fn bound(&self, lp: &Simplex, raised: &[usize]) -> i128 {
        let term = |column: usize, bound: f64| i128::from(self.reduced[column]) * i128::from(whole(bound));
        let below = self.below.iter().map(|column| (*column, lp.bounds(*column).1));
        let below = below.filter(|(_, most)| *most != 0.0).map(|(column, most)| term(column, most));
        let raised = raised.iter().filter(|column| self.reduced[**column] > 0);
        self.right + below.sum::<i128>() + raised.map(|column| term(*column, lp.bounds(*column).0)).sum::<i128>()
    }

    /// Tightens bounds that no plan can pass, `left` being what is left above the bound.
    #[allow(clippy::cast_precision_loss)] // a first look, which is wrong to the safe side
    fn tighten(&self, lp: &mut Simplex, trail: &mut Trail, left: i128, raised: &mut Vec<usize>) {
        let near = left as f64 * (1.0 - 1e-9);
        for column in lp.columns_beyond(&self.apart, near) {
            let Some(moved) = tightened(lp, column, i128::from(self.reduced[column]), left) else { continue };
            if moved.1 != 0.0 && lp.bounds(column).0 == 0.0 {
                raised.push(column);
            }
            trail.set(lp, moved);
        }
    }

    /// The row that was counted last is taken away with its column, and so is what it added to the worth of others.
    fn uncount(&mut self, columns: &[usize]) {
        let price = self.counted.pop().expect("as many as there are such rows");
        let last = self.reduced.len() - 1;
        self.set(last, 0);
        if price != 0 {
            for column in columns {
                self.set(*column, self.reduced[*column] + price);
            }
        }
        self.reduced.pop();
        self.apart.pop();
    }

    /// Sets what a column costs above its worth.
    #[allow(clippy::cast_precision_loss)] // as in `new`
    fn set(&mut self, column: usize, reduced: i64) {
        self.reduced[column] = reduced;
        self.apart[column] = reduced.unsigned_abs() as f64;
        match (self.below.binary_search(&column), reduced < 0) {
            (Err(at), true) => self.below.insert(at, column),
            (Ok(at), false) => drop(self.below.remove(at)),
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::simplex::Column;
    use super::super::real;
    use super::*;
    use proptest::prelude::*;

    const SCALE: i64 = 8;

    /// Two columns, of 3 and 5 and from 0 to 10 each, of which so many are needed at least; the first may be counted.
    fn on_a_program<T>(need: i64, counted: bool, then: impl Fn(&Exact, &mut Simplex) -> T) -> T {
        let mut lp = Simplex::default();
        lp.add_row(&[], real(need), (0.0, f64::INFINITY));
        for cost in [3.0, 5.0] {
            lp.add_column(&Column { entries: vec![(0, 1.0)], cost, least: 0.0, most: 10.0 });
        }
        let (mut cost, mut right) = (vec![0, 3, 5], vec![need]);
        let mut entries = vec![vec![], vec![(0, 1)], vec![(0, 1)]];
        if counted {
            lp.add_column(&Column { entries: vec![], cost: 0.0, least: 0.0, most: 10.0 });
            entries[1].push((1, 1));
            entries.push(vec![(1, -1)]);
            cost.push(0);
            right.push(0);
        }
        let exact = Exact { lp: &lp.clone(), cost: &cost, entries: &entries, right: &right, scale: SCALE };
        then(&exact, &mut lp)
    }

    fn close(proofs: &mut Proofs, lp: &mut Simplex, most: i64) -> bool {
        proofs.close(lp, &mut Trail::default(), i128::from(most * SCALE))
    }

    /// At a price of 3 four of the first cost 12 and one of the second 2 more; at a price of 4 all but three of the first
    /// bring it to 13 at most: 4 x 4 - 10 x 1 = 6, and 7 are left for 1 each.
    #[test]
    fn prices_close_a_part_or_tighten_it() {
        on_a_program(4, false, |exact, lp| {
            let mut proofs = Proofs::default();
            assert!(!close(&mut proofs, lp, 0), "there are none");
            proofs.keep(exact, &[3 * SCALE], 0);
            assert!(!close(&mut proofs, lp, 13));
            assert_eq!([1, 2].map(|column| lp.bounds(column)), [(0.0, 10.0), (0.0, 0.0)]);
            proofs.keep(exact, &[4 * SCALE], 0);
            assert!(!close(&mut proofs, lp, 13));
            assert_eq!(lp.bounds(1), (3.0, 10.0));
            lp.set_bounds(2, 1.0, 10.0);
            assert!(!close(&mut proofs, lp, 14), "one of the second and three of the first");
            assert!(close(&mut proofs, lp, 13), "but for less there are no four");
            assert_eq!(proofs.0[0].right, i128::from(4 * 3 * SCALE), "those that closed it come first");
        });
    }

    /// Two at most of each, and three are needed. At a price of 9 that is 27 - 2 x 6 - 2 x 4 = 7: where no more than 10 is
    /// to be spent all must be had, which costs 16; where 11 is, two of the first and one of the second.
    #[test]
    fn what_is_tightened_counts_for_the_prices_that_follow() {
        on_a_program(3, false, |exact, lp| {
            let mut closes = |most: i64| {
                for column in [1, 2] {
                    lp.set_bounds(column, 0.0, 2.0);
                }
                let mut proofs = Proofs::default();
                for price in [0, 9] {
                    proofs.keep(exact, &[price * SCALE], 0);
                }
                (close(&mut proofs, lp, most), [1, 2].map(|column| lp.bounds(column)))
            };
            assert!(closes(10).0);
            assert_eq!(closes(11), (false, [(2.0, 2.0), (1.0, 1.0)]));
        });
    }

    #[test]
    fn a_row_that_counts_for_a_while_leaves_no_trace() {
        let fields = |proofs: &Proofs| {
            let proof = &proofs.0[0];
            (proof.right, proof.reduced.clone(), proof.apart.clone(), proof.below.clone(), proof.counted.clone())
        };
        let kept = |counted: bool, prices: &[i64], rows: usize| {
            on_a_program(4, counted, |exact, _| {
                let mut proofs = Proofs::default();
                proofs.keep(exact, prices, rows);
                proofs
            })
        };
        // Without the row the first column costs more than it is worth at a price of 3, and less at 30; with it either.
        for least in [3, 30] {
            let alone = fields(&kept(false, &[least], 0));
            for price in [0, 2, -30, 30] {
                let mut proofs = kept(true, &[least, price], 1);
                proofs.uncount(&[1]);
                assert_eq!(fields(&proofs), alone, "a price of {price} is gone");
            }
        }
        let alone = fields(&kept(false, &[3], 0));
        let mut proofs = kept(false, &[3], 0);
        proofs.count();
        assert_eq!(fields(&proofs), fields(&kept(true, &[3, 0], 1)));
        proofs.uncount(&[1]);
        assert_eq!(fields(&proofs), alone);
    }

    #[test]
    fn the_last_ones_are_kept() {
        on_a_program(4, false, |exact, _| {
            let mut proofs = Proofs::default();
            (0..2 * KEPT).for_each(|price| proofs.keep(exact, &[i64::try_from(price).expect("few")], 0));
            assert_eq!(proofs.many(), KEPT);
            assert_eq!(proofs.0[0].right, 4 * (2 * KEPT as i128 - 1));
            proofs.keep(exact, &[i64::MAX], 0);
            assert_eq!(proofs.0[0].right, 4 * (2 * KEPT as i128 - 1), "too dear to reckon with");
        });
    }

    proptest! {
        /// Whatever the prices, nothing that is within the cost is ever cut off: by trying all there is.
        #[test]
        fn what_is_closed_or_tightened_holds_nothing_cheap_enough(
            need in 1_i64..12,
            prices in prop::collection::vec(0_i64..80, 1..6),
            bounds in prop::collection::vec((0_i64..4, 0_i64..6), 2),
            most in 0_i64..60,
        ) {
            on_a_program(need, false, |exact, lp| {
                let mut proofs = Proofs::default();
                for price in &prices {
                    proofs.keep(exact, &[*price], 0);
                }
                for (column, (least, more)) in [1, 2].into_iter().zip(&bounds) {
                    lp.set_bounds(column, real(*least), real(least + more));
                }
                let ranges = |lp: &Simplex| [1, 2].map(|column| lp.bounds(column)).map(|(least, most)| whole(least)..=whole(most));
                let [firsts, seconds] = ranges(lp);
                let all = firsts.flat_map(|first| seconds.clone().map(move |second| (first, second)));
                let cheap = |(first, second): &(i64, i64)| first + second >= need && 3 * first + 5 * second <= most;
                let cheap: Vec<(i64, i64)> = all.filter(cheap).collect();
                let closed = close(&mut proofs, lp, most);
                prop_assert!(!closed || cheap.is_empty(), "{cheap:?}");
                let [firsts, seconds] = ranges(lp);
                prop_assert!(cheap.iter().all(|(first, second)| firsts.contains(first) && seconds.contains(second)));
                Ok(())
            })?;
        }
    }
}
