//! The primal method: from a basis that meets the rows to an optimum, a column at a time. Where it stands still for
//! long, the first column that saves enters and the first of those that tie leaves, so that it cannot go in circles.

use super::{Outcome, PIVOT, Place, Simplex};

const OPTIMAL: f64 = 1e-9;

impl Simplex {
    /// Runs the primal method from a basis that meets the rows.
    pub(in crate::solve) fn primal(&mut self) -> Outcome {
        self.begin();
        let (mut still, most) = (0, 20_000 + 50 * self.right.len());
        for _ in 0..most {
            let prices = self.prices();
            self.work += (self.right.len() * self.right.len()) as u64;
            let Some((column, falls)) = self.entering(&prices, still > 300) else { return Outcome::Optimal };
            let alpha = self.transformed(column);
            let (step, leaving) = self.ratio(column, falls, &alpha, still > 300);
            if !step.is_finite() {
                return Outcome::Lost;
            }
            still = if step > 1e-10 { 0 } else { still + 1 };
            self.advance(column, falls, step, leaving, &alpha);
            if leaving.is_some() && !self.keep_fresh() {
                return Outcome::Lost;
            }
        }
        Outcome::Lost
    }

    /// The column whose move saves most (or the first that saves), and whether it falls from its upper bound.
    fn entering(&self, prices: &[f64], first: bool) -> Option<(usize, bool)> {
        let mut best: Option<(usize, bool, f64)> = None;
        for column in 0..self.columns.count() {
            if !self.moves(column) {
                continue;
            }
            let reduced = self.reduced(column, prices);
            let falls = self.places[column] == Place::Upper;
            let gain = if falls { reduced } else { -reduced };
            if gain > OPTIMAL && best.is_none_or(|(_, _, most)| gain > most) {
                best = Some((column, falls, gain));
                if first {
                    break;
                }
            }
        }
        best.map(|(column, falls, _)| (column, falls))
    }

    /// How far the column can move, and the position that then leaves (none where it reaches its other bound).
    fn ratio(&self, column: usize, falls: bool, alpha: &[f64], first: bool) -> (f64, Option<usize>) {
        let own = self.columns.most[column] - self.columns.least[column];
        let (mut step, mut leaving, mut strongest) = (own, None, 0.0);
        for (position, part) in alpha.iter().enumerate() {
            let rate = if falls { *part } else { -part };
            if rate.abs() <= PIVOT {
                continue;
            }
            let bounds = self.bounds(self.basis[position]);
            let to = if rate < 0.0 { bounds.0 } else { bounds.1 };
            if !to.is_finite() {
                continue;
            }
            let far = ((to - self.values[position]) / rate).max(0.0);
            let ties = (far - step).abs() <= 1e-10;
            let stronger = if first {
                leaving.is_none_or(|at: usize| self.basis[position] < self.basis[at])
            } else {
                rate.abs() > strongest
            };
            if far < step - 1e-10 || (ties && stronger) {
                (step, leaving, strongest) = (far.min(step), Some(position), rate.abs());
            }
        }
        (step, leaving)
    }

    fn advance(&mut self, column: usize, falls: bool, step: f64, leaving: Option<usize>, alpha: &[f64]) {
        let signed = if falls { -step } else { step };
        let reached = self.value(column) + signed;
        for (value, part) in self.values.iter_mut().zip(alpha) {
            *value -= signed * part;
        }
        let Some(position) = leaving else {
            self.places[column] = if falls { Place::Lower } else { Place::Upper };
            return;
        };
        let rate = if falls { alpha[position] } else { -alpha[position] };
        let out = self.basis[position];
        self.places[out] = if rate < 0.0 { Place::Lower } else { Place::Upper };
        self.pivot(column, position, alpha);
        self.values[position] = reached;
    }
}
