//! The dual method: from a basis that is optimal but for bounds that moved back to an optimum, or to the ray that shows
//! that nothing meets the rows. It stops where the cost passes a limit; a probe tells what moved bounds would cost.

use super::{Outcome, PIVOT, Place, REFRESH, Simplex};

const FEASIBLE: f64 = 1e-8;

impl Simplex {
    /// Runs the dual method from a basis that is optimal but for bounds that moved; stops when the cost passes `limit`.
    pub(in crate::solve) fn dual(&mut self, limit: f64) -> Outcome {
        self.dual_for(limit, 5_000 + 20 * self.right.len())
    }

    /// The cost that so many pivots of the dual method come to where a column's bounds move; all stays as it is.
    pub(in crate::solve) fn probe(
        &mut self,
        column: usize,
        (least, most): (f64, f64),
        limit: f64,
        pivots: usize,
    ) -> f64 {
        let bounds = self.bounds(column);
        let (basis, places, since_fresh) = (self.basis.clone(), self.places.clone(), self.since_fresh);
        let (inverse, values) = (self.inverse.clone(), self.values.clone());
        self.set_bounds(column, least, most);
        let outcome = self.dual_for(limit, pivots);
        let cost = if matches!(outcome, Outcome::Infeasible(_)) { limit } else { self.cost() };
        self.columns[column].least = bounds.0;
        self.columns[column].most = bounds.1;
        (self.basis, self.places, self.since_fresh) = (basis, places, since_fresh);
        (self.inverse, self.values) = (inverse, values);
        cost
    }

    fn dual_for(&mut self, limit: f64, most: usize) -> Outcome {
        self.begin();
        let (mut reduced, mut parts) = (self.all_reduced(), Vec::new());
        for turn in 0..most {
            let Some((position, below)) = self.broken() else { return Outcome::Optimal };
            if turn % 8 == 7 && self.cost() > limit {
                return Outcome::PastLimit;
            }
            self.line(position, &mut parts);
            let Some(column) = self.dual_entering(&parts, &reduced, below) else {
                let sign = if below { -1.0 } else { 1.0 };
                return Outcome::Infeasible(self.inverse_line(position).iter().map(|part| part * sign).collect());
            };
            let alpha = self.transformed(column);
            let theta = reduced[column] / parts[column];
            let leaving = self.basis[position];
            self.dual_advance(column, position, below, &alpha);
            if self.since_fresh >= REFRESH {
                if !self.refresh() {
                    return Outcome::Lost;
                }
                reduced = self.all_reduced();
            } else {
                reduced.iter_mut().zip(&parts).for_each(|(reduced, part)| *reduced -= theta * part);
                (reduced[column], reduced[leaving]) = (0.0, -theta);
            }
        }
        Outcome::Lost
    }

    /// What the cost of each column is above its worth.
    fn all_reduced(&self) -> Vec<f64> {
        let prices = self.prices();
        (0..self.columns.len()).map(|at| self.reduced(at, &prices)).collect()
    }

    /// What each column does to the basic column at a position.
    fn line(&self, position: usize, parts: &mut Vec<f64>) {
        parts.clear();
        parts.resize(self.columns.len(), 0.0);
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
    fn broken(&self) -> Option<(usize, bool)> {
        let mut worst: Option<(usize, bool, f64)> = None;
        for (position, value) in self.values.iter().enumerate() {
            let bounds = &self.columns[self.basis[position]];
            let (under, over) = (bounds.least - value, value - bounds.most);
            let far = under.max(over);
            if far > FEASIBLE {
                let length: f64 = self.inverse_line(position).iter().map(|part| part * part).sum();
                let weighed = far * far / length.max(1e-12);
                if worst.is_none_or(|(_, _, most)| weighed > most) {
                    worst = Some((position, under > over, weighed));
                }
            }
        }
        worst.map(|(position, below, _)| (position, below))
    }

    /// Whether a column outside the basis has room between its bounds.
    fn moves(&self, column: usize) -> bool {
        let data = &self.columns[column];
        !matches!(self.places[column], Place::Basic(_)) && data.least < data.most
    }

    fn dual_entering(&self, parts: &[f64], reduced: &[f64], below: bool) -> Option<usize> {
        let mut best: Option<(usize, f64, f64)> = None;
        for (column, part) in parts.iter().enumerate() {
            let helps = if below { -part } else { *part };
            let helps = if self.places[column] == Place::Upper { -helps } else { helps };
            if helps <= PIVOT || !self.moves(column) {
                continue;
            }
            let ratio = reduced[column].abs() / helps;
            let better = best.is_none_or(|(_, least, strength)| {
                ratio < least - 1e-12 || (ratio <= least + 1e-12 && helps > strength)
            });
            if better {
                best = Some((column, ratio, helps));
            }
        }
        best.map(|(column, _, _)| column)
    }

    fn dual_advance(&mut self, column: usize, position: usize, below: bool, alpha: &[f64]) {
        let out = self.basis[position];
        let to = if below { self.columns[out].least } else { self.columns[out].most };
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
