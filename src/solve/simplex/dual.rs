//! The dual method: from a basis that is optimal but for bounds that moved back to an optimum, or to the ray that shows
//! that nothing meets the rows. It stops where the cost passes a limit; probes tell what moved bounds would cost.

use super::{Moved, Outcome, PIVOT, Place, REFRESH, Simplex};

const FEASIBLE: f64 = 1e-8;

/// What the dual method keeps up to date from pivot to pivot.
#[derive(Clone)]
struct Work {
    /// What the cost of each column is above its worth.
    reduced: Vec<f64>,
    /// Which way each column outside the basis can move: up, down or not at all.
    ways: Vec<f64>,
    /// How long the line of the inverse at each position is, squared, where that is known.
    lengths: Vec<Option<f64>>,
    /// What each column does to the basic column that leaves.
    parts: Vec<f64>,
}

impl Work {
    fn of(lp: &Simplex) -> Work {
        let ways = (0..lp.columns.count()).map(|column| lp.way(column)).collect();
        Work { reduced: lp.all_reduced(), ways, lengths: vec![None; lp.right.len()], parts: Vec::new() }
    }

    /// Begins anew as another began, in the same lists.
    fn begin_as(&mut self, other: &Work) {
        self.reduced.clone_from(&other.reduced);
        self.ways.clone_from(&other.ways);
        self.lengths.clone_from(&other.lengths);
    }
}

impl Simplex {
    /// Runs the dual method from a basis that is optimal but for bounds that moved; stops when the cost passes `limit`.
    pub(in crate::solve) fn dual(&mut self, limit: f64) -> Outcome {
        self.dual_for(limit, 5_000 + 20 * self.right.len())
    }

    /// The cost that so many pivots of the dual method come to where a column's bounds move, for each of these moves
    /// (column, least, most) alone; all stays as it is.
    pub(in crate::solve) fn probes(&mut self, moves: &[Moved], limit: f64, pivots: usize) -> Vec<f64> {
        self.begin();
        let (start, values, from) = (self.standing(), self.values.clone(), Work::of(self));
        let mut work = from.clone();
        let mut probe = |(column, least, most): &Moved| {
            work.begin_as(&from);
            let bounds = self.bounds(*column);
            self.set_bounds(*column, *least, *most);
            if !matches!(self.places[*column], Place::Basic(_)) {
                work.ways[*column] = self.way(*column);
            }
            let outcome = self.dual_from(&mut work, limit, pivots);
            let cost = if matches!(outcome, Outcome::Infeasible(_)) { limit } else { self.cost() };
            (self.columns.least[*column], self.columns.most[*column]) = bounds;
            self.stand_as(&start);
            self.values.clone_from(&values);
            cost
        };
        moves.iter().map(&mut probe).collect()
    }

    fn dual_for(&mut self, limit: f64, most: usize) -> Outcome {
        self.begin();
        self.dual_from(&mut Work::of(self), limit, most)
    }

    fn dual_from(&mut self, work: &mut Work, limit: f64, most: usize) -> Outcome {
        let Work { reduced, ways, lengths, parts } = work;
        for turn in 0..most {
            let Some((position, below)) = self.broken(lengths) else { return Outcome::Optimal };
            if turn % 8 == 7 && self.cost() > limit {
                return Outcome::PastLimit;
            }
            self.work += 9 * self.columns.count() as u64;
            self.line(position, parts);
            let sign = if below { -1.0 } else { 1.0 };
            let Some(column) = entering(parts, reduced, ways, sign) else {
                return Outcome::Infeasible(self.inverse_line(position).iter().map(|part| part * sign).collect());
            };
            let alpha = self.transformed(column);
            let theta = reduced[column] / parts[column];
            let leaving = self.basis[position];
            self.dual_advance(column, position, below, &alpha);
            (ways[column], ways[leaving]) = (0.0, self.way(leaving));
            if self.since_fresh >= REFRESH {
                if !self.refresh() {
                    return Outcome::Lost;
                }
                *reduced = self.all_reduced();
                lengths.fill(None);
            } else {
                reduced.iter_mut().zip(&*parts).for_each(|(reduced, part)| *reduced -= theta * part);
                (reduced[column], reduced[leaving]) = (0.0, -theta);
                lengths.iter_mut().zip(&alpha).filter(|(_, part)| **part != 0.0).for_each(|(length, _)| *length = None);
            }
        }
        Outcome::Lost
    }

    /// Which way a column can move: up, down or, in the basis or without room, not at all.
    fn way(&self, column: usize) -> f64 {
        match self.places[column] {
            _ if !self.moves(column) => 0.0,
            Place::Upper => -1.0,
            Place::Lower | Place::Basic(_) => 1.0,
        }
    }

    /// What the cost of each column is above its worth.
    fn all_reduced(&self) -> Vec<f64> {
        let prices = self.prices();
        (0..self.columns.count()).map(|at| self.reduced(at, &prices)).collect()
    }

    /// What each column does to the basic column at a position.
    fn line(&self, position: usize, parts: &mut Vec<f64>) {
        parts.clear();
        parts.resize(self.columns.count(), 0.0);
        for (entries, part) in self.lines.iter().zip(self.inverse_line(position)) {
            if *part != 0.0 {
                for (column, entry) in entries {
                    parts[*column] += part * entry;
                }
            }
        }
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
                let of = || self.inverse_line(position).iter().map(|part| part * part).sum::<f64>();
                let length = *lengths[position].get_or_insert_with(of);
                let weighed = far * far / length.max(1e-12);
                if worst.is_none_or(|(_, _, most)| weighed > most) {
                    worst = Some((position, under > over, weighed));
                }
            }
        }
        worst.map(|(position, below, _)| (position, below))
    }

    /// Whether a column outside the basis has room between its bounds.
    pub(super) fn moves(&self, column: usize) -> bool {
        !matches!(self.places[column], Place::Basic(_)) && self.columns.least[column] < self.columns.most[column]
    }

    fn dual_advance(&mut self, column: usize, position: usize, below: bool, alpha: &[f64]) {
        let out = self.basis[position];
        let (least, most) = self.bounds(out);
        let to = if below { least } else { most };
        let step = (self.values[position] - to) / alpha[position];
        let reached = self.value(column) + step;
        for (value, part) in self.values.iter_mut().zip(alpha) {
            *value -= step * part;
        }
        self.places[out] = if below { Place::Lower } else { Place::Upper };
        self.pivot(column, position, alpha);
        self.values[position] = reached;
    }
}

/// Of the columns whose move brings the leaving one back to its bound, the one that is first to stand at its worth as
/// prices move; of those that tie, the one that helps most.
fn entering(parts: &[f64], reduced: &[f64], ways: &[f64], sign: f64) -> Option<usize> {
    let mut best: Option<(usize, f64, f64)> = None;
    for (column, (part, way)) in parts.iter().zip(ways).enumerate() {
        let helps = way * part * sign;
        if helps > PIVOT {
            let ratio = reduced[column].abs() / helps;
            let better = best.is_none_or(|(_, least, strength)| {
                ratio < least - 1e-12 || (ratio <= least + 1e-12 && helps > strength)
            });
            if better {
                best = Some((column, ratio, helps));
            }
        }
    }
    best.map(|(column, _, _)| column)
}

#[cfg(test)]
mod tests {
    use super::super::Column;
    use super::*;
    use proptest::prelude::*;

    /// Least cost of columns from 0 to 10 that come to at least so much in each row, at its optimum.
    fn program(costs: &[u8], rows: &[(Vec<u8>, u8)]) -> Simplex {
        let mut lp = Simplex::default();
        for (_, right) in rows {
            lp.add_row(&[], f64::from(*right), (0.0, f64::INFINITY));
        }
        for (at, cost) in costs.iter().enumerate() {
            let entries = rows.iter().enumerate().map(|(row, (parts, _))| (row, f64::from(parts[at]))).collect();
            lp.add_column(&Column { entries, cost: f64::from(*cost), least: 0.0, most: 10.0 });
        }
        assert_eq!(lp.dual(f64::INFINITY), Outcome::Optimal);
        lp
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

    proptest! {
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
