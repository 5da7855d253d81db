//! The dual method: from a basis that is optimal but for bounds that moved back to an optimum, or to the ray that shows
//! that nothing meets the rows. It stops where the cost passes a limit; probes tell what moved bounds would cost.

use super::free::Free;
use super::{Moved, Outcome, Place, Simplex};

const FEASIBLE: f64 = 1e-8;
/// A pivot below this, or a ray longer than that, may be what rounding has left behind.
const DOUBTFUL: [f64; 2] = [1e-6, 1e4];

/// About what a column outside the basis takes at each pivot, in nanoseconds.
const COLUMN: u64 = 8;

/// What the dual method keeps up to date from pivot to pivot.
#[derive(Clone, Debug, Default)]
pub(super) struct Work {
    free: Free,
    /// How long the line of the inverse at each position is, squared, where that is known.
    lengths: Vec<Option<f64>>,
}

impl Work {
    /// Begins anew, in the same lists.
    fn renew(&mut self, lp: &Simplex) {
        self.free.renew(lp);
        self.lengths.clear();
        self.lengths.resize(lp.right.len(), None);
    }

    /// What follows from the inverse as it is now.
    fn begin(&mut self, lp: &Simplex) {
        self.free.begin(lp);
        self.lengths.fill(None);
    }

    /// Begins anew as another began, in the same lists.
    fn begin_as(&mut self, other: &Work) {
        self.free.begin_as(&other.free);
        self.lengths.clone_from(&other.lengths);
    }
}

impl Simplex {
    /// Runs the dual method from a basis that is optimal but for bounds that moved; stops when the cost passes `limit`.
    pub(in crate::solve) fn dual(&mut self, limit: f64) -> Outcome {
        self.begin();
        let mut work = std::mem::take(&mut self.dual_work);
        work.renew(self);
        let outcome = self.dual_from(&mut work, limit, 5_000 + 20 * self.right.len());
        self.dual_work = work;
        outcome
    }

    /// The cost that so many pivots of the dual method come to where a column's bounds move, for each of these moves
    /// (column, least, most) alone; all stays as it is.
    pub(in crate::solve) fn probes(&mut self, moves: &[Moved], limit: f64, pivots: usize) -> Vec<f64> {
        self.begin();
        let (start, values, mut from) = (self.standing(), self.values.clone(), Work::default());
        from.renew(self);
        let mut work = from.clone();
        let mut probe = |(column, least, most): &Moved| {
            work.begin_as(&from);
            let bounds = self.bounds(*column);
            self.set_bounds(*column, *least, *most);
            work.free.moved(self, *column);
            let outcome = self.dual_from(&mut work, limit, pivots);
            let cost = if matches!(outcome, Outcome::Infeasible(_)) { limit } else { self.cost() };
            (self.columns.least[*column], self.columns.most[*column]) = bounds;
            self.stand_as(&start);
            self.values.clone_from(&values);
            cost
        };
        moves.iter().map(&mut probe).collect()
    }

    fn dual_from(&mut self, work: &mut Work, limit: f64, most: usize) -> Outcome {
        let mut cost = self.cost();
        for _ in 0..most {
            let Some((position, below)) = self.broken(&mut work.lengths) else { return Outcome::Optimal };
            if cost > limit {
                return Outcome::PastLimit;
            }
            self.work += COLUMN * work.free.count() as u64;
            let sign = if below { -1.0 } else { 1.0 };
            let entering = work.free.entering(self.inverse_line(position), sign);
            if self.since_fresh > 0 && self.is_doubtful(position, entering.map(|place| work.free.part(place))) {
                if !self.refresh() {
                    return Outcome::Lost;
                }
                work.begin(self);
                cost = self.cost();
                continue;
            }
            let Some(place) = entering else {
                return Outcome::Infeasible(self.inverse_line(position).iter().map(|part| part * sign).collect());
            };
            let column = work.free.column(place);
            let alpha = self.transformed(column);
            let leaving = self.basis[position];
            let far = self.dual_advance(column, position, below, &alpha);
            cost += far * work.free.swap(self, place, leaving).abs();
            if self.is_stale() {
                if !self.refresh() {
                    return Outcome::Lost;
                }
                work.begin(self);
                cost = self.cost();
            } else {
                let changed = work.lengths.iter_mut().zip(&alpha).filter(|(_, part)| **part != 0.0);
                changed.for_each(|(length, _)| *length = None);
            }
        }
        Outcome::Lost
    }

    /// The basis position furthest outside its bounds for the length of its line of the inverse (dual steepest edge,
    /// Forrest and Goldfarb 1992), and whether it is below them.
    fn broken(&self, lengths: &mut [Option<f64>]) -> Option<(usize, bool)> {
        let mut worst: Option<(usize, bool, f64)> = None;
        for (position, value) in self.values.iter().enumerate() {
            let (least, most) = self.bounds(self.basis[position]);
            let (under, over) = (least - value, value - most);
            let far = under.max(over);
            if far > FEASIBLE {
                let length = *lengths[position].get_or_insert_with(|| squared(self.inverse_line(position)));
                let weighed = far * far / length.max(1e-12);
                if worst.is_none_or(|(_, _, most)| weighed > most) {
                    worst = Some((position, under > over, weighed));
                }
            }
        }
        worst.map(|(position, below, _)| (position, below))
    }

    /// Whether the pivot at this position, or the ray where there is none, may come of rounding.
    fn is_doubtful(&self, position: usize, pivot: Option<f64>) -> bool {
        let longest = || self.inverse_line(position).iter().fold(0.0, |longest: f64, part| longest.max(part.abs()));
        pivot.map_or_else(|| longest() > DOUBTFUL[1], |pivot| pivot.abs() < DOUBTFUL[0])
    }

    /// Whether a column outside the basis has room between its bounds.
    pub(super) fn moves(&self, column: usize) -> bool {
        !matches!(self.places[column], Place::Basic(_)) && self.columns.least[column] < self.columns.most[column]
    }

    /// Brings the column into the basis in the place of the one at this position, which goes to its bound; how far it was
    /// from that.
    fn dual_advance(&mut self, column: usize, position: usize, below: bool, alpha: &[f64]) -> f64 {
        let out = self.basis[position];
        let (least, most) = self.bounds(out);
        let to = if below { least } else { most };
        let far = self.values[position] - to;
        let step = far / alpha[position];
        let reached = self.value(column) + step;
        for (value, part) in self.values.iter_mut().zip(alpha) {
            *value -= step * part;
        }
        self.places[out] = if below { Place::Lower } else { Place::Upper };
        self.pivot(column, position, alpha);
        self.values[position] = reached;
        far.abs()
    }
}

/// The sum of squares, of every fourth part each for itself, which goes quicker.
fn squared(line: &[f64]) -> f64 {
    let fours = line.chunks_exact(4);
    let rest: f64 = fours.remainder().iter().map(|part| part * part).sum();
    let mut sums = [0.0; 4];
    fours.for_each(|four| sums.iter_mut().zip(four).for_each(|(sum, part)| *sum += part * part));
    sums.iter().sum::<f64>() + rest
}

#[cfg(test)]
mod tests {
    use super::super::Column;
    use super::*;
    use proptest::prelude::*;

    /// Least cost of columns from 0 to 10 that come to at least so much in each row, at its optimum; they can be counted.
    fn program(costs: &[u8], rows: &[(Vec<u8>, u8)]) -> Simplex {
        let mut lp = not_begun(costs, rows);
        assert_eq!(lp.dual(f64::INFINITY), Outcome::Optimal);
        lp
    }

    /// The same before anything was done.
    fn not_begun(costs: &[u8], rows: &[(Vec<u8>, u8)]) -> Simplex {
        let mut lp = Simplex::default();
        for (_, right) in rows {
            lp.add_row(&[], f64::from(*right), (0.0, f64::INFINITY));
        }
        for (at, cost) in costs.iter().enumerate() {
            let entries = rows.iter().enumerate().map(|(row, (parts, _))| (row, f64::from(parts[at])));
            let column = Column { entries: entries.collect(), cost: f64::from(*cost), least: 0.0, most: 10.0 };
            lp.add_column_with_room(&column, 1);
        }
        lp
    }

    /// Three rows that ask for 4, 5 and 6 of a column each, at 1 a piece: the one that asks for most is met first, for 6,
    /// the next for 11 in all.
    #[test]
    fn it_stops_at_the_very_pivot_where_the_cost_passes_the_limit() {
        let rows = [(vec![1, 0, 0], 4), (vec![0, 1, 0], 5), (vec![0, 0, 1], 6)];
        for (limit, outcome, cost) in [
            (5.9, Outcome::PastLimit, 6.0),
            (6.1, Outcome::PastLimit, 11.0),
            (11.1, Outcome::Optimal, 15.0),
            (15.1, Outcome::Optimal, 15.0),
        ] {
            let mut lp = not_begun(&[1; 3], &rows);
            assert_eq!(lp.dual(limit), outcome, "{limit}");
            assert!((lp.cost() - cost).abs() < 1e-9, "{} at {limit}", lp.cost());
        }
    }

    #[test]
    fn work_is_told_once_and_more_where_more_is_done() {
        let mut lp = program(&[3, 2], &[(vec![1, 2], 9), (vec![2, 1], 8)]);
        let work = lp.work();
        assert!(work > 0);
        assert_eq!(lp.work(), 0, "it was told");
        lp.probes(&[(2, 0.0, 1.0), (3, 0.0, 1.0)], 1e6, 10);
        let twice = lp.work();
        lp.probes(&[(2, 0.0, 1.0)], 1e6, 10);
        let once = lp.work();
        assert!(0 < once && once < twice, "{once} of {twice}");
    }

    #[test]
    fn a_ray_that_came_of_rounding_is_worked_out_anew() {
        let mut lp = program(&[1], &[(vec![1], 9)]);
        lp.set_bounds(1, 0.0, 1.0);
        lp.inverse.iter_mut().for_each(|part| *part *= 1e9);
        lp.since_fresh = 1;
        let Outcome::Infeasible(ray) = lp.dual(f64::INFINITY) else { panic!("one is less than nine") };
        assert_eq!(ray.len(), 1);
        assert!((ray[0].abs() - 1.0).abs() < 1e-9, "{ray:?}");
    }

    proptest! {
        #[test]
        fn it_stops_nowhere_but_past_the_limit(
            costs in prop::collection::vec(1_u8..9, 6),
            rows in prop::collection::vec((prop::collection::vec(0_u8..6, 6), 1_u8..20), 3..8),
            part in 0.1..1.1,
        ) {
            let mut lp = not_begun(&costs, &rows);
            prop_assume!(lp.dual(f64::INFINITY) == Outcome::Optimal);
            let (optimum, mut lp) = (lp.cost(), not_begun(&costs, &rows));
            let (limit, outcome) = (part * optimum, lp.dual(part * optimum));
            prop_assert!(matches!(outcome, Outcome::Optimal | Outcome::PastLimit));
            let cost = if outcome == Outcome::Optimal { optimum } else { lp.cost().max(limit) };
            prop_assert!((lp.cost() - cost).abs() < 1e-6, "{outcome:?} at {} of {limit}, {optimum} in all", lp.cost());
            prop_assert!(outcome == Outcome::Optimal || part < 1.0 + 1e-9);
        }

        #[test]
        fn a_count_is_a_row_as_good_as_any_and_leaves_no_trace(
            costs in prop::collection::vec(1_u8..9, 6),
            rows in prop::collection::vec((prop::collection::vec(1_u8..6, 6), 1_u8..60), 1..5),
            counted in prop::collection::vec(any::<bool>(), 6),
            (least, more) in (0_u8..12, 0_u8..12),
        ) {
            let mut lp = program(&costs, &rows);
            let columns: Vec<usize> = (0..6).filter(|at| counted[*at]).map(|at| rows.len() + at).collect();
            let (least, most) = (f64::from(least), f64::from(least) + f64::from(more));
            let mut other = lp.clone();
            let entries: Vec<(usize, f64)> = columns.iter().map(|column| (*column, 1.0)).collect();
            other.add_row(&entries, 0.0, (least, most));
            let there = other.dual(f64::INFINITY) == Outcome::Optimal;
            let before = (lp.save(), lp.cost(), lp.prices(), lp.values.clone());
            let basis = lp.standing();
            for _ in 0..2 {
                lp.count(&columns, (least, most));
                prop_assert_eq!(lp.dual(f64::INFINITY) == Outcome::Optimal, there);
                if there {
                    prop_assert!((lp.cost() - other.cost()).abs() < 1e-6, "{} for {}", lp.cost(), other.cost());
                    let sum: f64 = columns.iter().map(|column| lp.value(*column)).sum();
                    prop_assert!(least - 1e-6 <= sum && sum <= most + 1e-6, "{sum}");
                }
                lp.uncount(&columns);
                prop_assert!(lp.back_to(&basis));
                let after = (lp.save(), lp.cost(), lp.prices(), lp.values.clone());
                prop_assert_eq!(&after.0, &before.0);
                let near = |one: &[f64], other: &[f64]| one.iter().zip(other).all(|(one, other)| (one - other).abs() < 1e-9);
                prop_assert!(near(&after.2, &before.2) && near(&after.3, &before.3) && near(&[after.1], &[before.1]));
            }
        }

        #[test]
        fn probes_tell_what_moved_bounds_cost_and_leave_all_as_it_is(
            costs in prop::collection::vec(1_u8..9, 6),
            rows in prop::collection::vec((prop::collection::vec(1_u8..6, 6), 1_u8..60), 1..5),
            most in 0_u8..10,
        ) {
            let mut lp = program(&costs, &rows);
            let columns: Vec<usize> = (rows.len()..rows.len() + costs.len()).collect();
            let (most, limit) = (f64::from(most), 1e6);
            let moves: Vec<Moved> =
                columns.iter().flat_map(|column| [(*column, 0.0, most / 2.0), (*column, most, 10.0)]).collect();
            let before = (lp.save(), lp.cost(), lp.prices(), lp.values.clone());
            let costs = lp.probes(&moves, limit, 1_000);
            for ((column, least, most), cost) in moves.iter().zip(costs) {
                let mut alone = lp.clone();
                alone.set_bounds(*column, *least, *most);
                let there = alone.dual(f64::INFINITY) == Outcome::Optimal;
                let expected = if there { alone.cost() } else { limit };
                prop_assert!((cost - expected).abs() < 1e-6, "{cost} for {expected}");
            }
            prop_assert_eq!((lp.save(), lp.cost(), lp.prices(), lp.values.clone()), before);
            prop_assert!(columns.iter().all(|column| lp.bounds(*column) == (0.0, 10.0)));
        }
    }
}
