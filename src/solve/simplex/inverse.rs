//! The inverse of the basis and what follows from it: prices, values, columns in terms of the basis. A pivot brings it
//! up to date; now and then it is looked whether it still holds, and where it does not, or after very many pivots, it is
//! worked out anew, so that what rounding leaves behind does not add up.

use super::elimination::inverted;
use super::{Place, REFRESH, Simplex};

/// Smaller parts are what rounding left behind.
const NOISE: f64 = 1e-12;
/// What rows and prices may be off by where the inverse holds.
const HOLDS: f64 = 1e-9;

impl Simplex {
    /// The inverse of the slacks of all rows so far, if nothing was done yet: many rows at once cost no more than one.
    pub(super) fn begin(&mut self) {
        if !self.begun {
            self.begun = true;
            let rows = self.right.len();
            self.inverse = vec![0.0; rows * rows];
            (0..rows).for_each(|row| self.inverse[row * rows + row] = -1.0);
            self.find_values();
        }
    }

    pub(super) fn grow_inverse(&mut self, entries: &[(usize, f64)]) {
        let new = self.right.len();
        let old = new - 1;
        let mut inverse = vec![0.0; new * new];
        for position in 0..old {
            inverse[position * new..position * new + old]
                .copy_from_slice(&self.inverse[position * old..(position + 1) * old]);
        }
        for (column, coefficient) in entries {
            if let Place::Basic(position) = self.places[*column] {
                for row in 0..old {
                    inverse[old * new + row] += coefficient * self.inverse[position * old + row];
                }
            }
        }
        inverse[new * new - 1] = -1.0;
        self.inverse = inverse;
    }

    /// The line of the inverse at a position.
    pub(super) fn inverse_line(&self, position: usize) -> &[f64] {
        let rows = self.right.len();
        &self.inverse[position * rows..(position + 1) * rows]
    }

    /// The price of each row.
    pub(in crate::solve) fn prices(&self) -> Vec<f64> {
        let rows = self.right.len();
        let mut prices = vec![0.0; rows];
        for (position, column) in self.basis.iter().enumerate() {
            let cost = self.columns.cost[*column];
            if cost != 0.0 {
                prices.iter_mut().zip(self.inverse_line(position)).for_each(|(price, part)| *price += cost * part);
            }
        }
        prices
    }

    pub(super) fn reduced(&self, column: usize, prices: &[f64]) -> f64 {
        let worth: f64 = self.columns.entries(column).iter().map(|(row, part)| prices[*row] * part).sum();
        self.columns.cost[column] - worth
    }

    /// The column in terms of the basis.
    pub(super) fn transformed(&self, column: usize) -> Vec<f64> {
        let rows = self.right.len();
        let entries = self.columns.entries(column);
        let at = |position: usize| entries.iter().map(|(row, part)| self.inverse[position * rows + row] * part).sum();
        (0..rows).map(at).map(without_noise).collect()
    }

    pub(super) fn pivot(&mut self, column: usize, position: usize, alpha: &[f64]) {
        let rows = self.right.len();
        let pivot = alpha[position];
        let line: Vec<f64> = self.inverse[position * rows..(position + 1) * rows]
            .iter()
            .map(|part| without_noise(part / pivot))
            .collect();
        let mut changed = 1;
        for (at, part) in alpha.iter().enumerate() {
            let target = &mut self.inverse[at * rows..(at + 1) * rows];
            if at == position {
                target.copy_from_slice(&line);
            } else if *part != 0.0 {
                target.iter_mut().zip(&line).for_each(|(to, from)| *to -= part * from);
                changed += 1;
            }
        }
        self.work += (rows * changed / 2) as u64;
        self.basis[position] = column;
        self.places[column] = Place::Basic(position);
        self.since_fresh += 1;
    }

    pub(super) fn shift_values(&mut self, column: usize, moved: f64) {
        let rows = self.right.len();
        let entries = self.columns.entries(column);
        for (value, line) in self.values.iter_mut().zip(self.inverse.chunks_exact(rows.max(1))) {
            *value -= moved * entries.iter().map(|(row, part)| line[*row] * part).sum::<f64>();
        }
    }

    /// After a pivot: works the inverse out anew where that is time; false where it cannot be.
    pub(super) fn keep_fresh(&mut self) -> bool {
        !self.is_stale() || self.refresh()
    }

    /// After a pivot: whether the inverse is to be worked out anew, after very many of them or where it no longer holds,
    /// which is looked at now and then.
    pub(super) fn is_stale(&mut self) -> bool {
        let [look, most] = REFRESH;
        self.since_fresh >= most || (self.since_fresh.is_multiple_of(look) && !self.holds())
    }

    /// Whether the values that follow from the inverse meet the rows, and at its prices no basic column costs more or less
    /// than it is worth, but for what rounding may leave.
    fn holds(&mut self) -> bool {
        self.find_values();
        let (rest, prices) = (self.rest(|column| self.value(column)), self.prices());
        rest.iter().all(|rest| rest.abs() < HOLDS)
            && self.basis.iter().all(|column| self.reduced(*column, &prices).abs() < HOLDS)
    }

    /// Inverts the basis anew; false where it cannot be inverted.
    pub(super) fn refresh(&mut self) -> bool {
        self.begun = true;
        self.work += 2 * (self.right.len() * self.right.len()) as u64;
        let basis: Vec<&[(usize, f64)]> = self.basis.iter().map(|column| self.columns.entries(*column)).collect();
        let Some(inverse) = inverted(&basis) else { return false };
        self.inverse = inverse;
        self.since_fresh = 0;
        self.find_values();
        true
    }

    /// The values of the basic columns from those of the others.
    pub(super) fn find_values(&mut self) {
        let rest = self.rest(|column| match self.places[column] {
            Place::Basic(_) => 0.0,
            Place::Lower => self.columns.least[column],
            Place::Upper => self.columns.most[column],
        });
        self.values = (0..self.right.len())
            .map(|at| self.inverse_line(at).iter().zip(&rest).map(|(part, right)| part * right).sum())
            .collect();
    }

    /// What columns of these values leave of the right side of each row.
    fn rest(&self, value: impl Fn(usize) -> f64) -> Vec<f64> {
        let mut rest = self.right.clone();
        for (column, value) in (0..self.columns.count()).map(|column| (column, value(column))) {
            if value != 0.0 {
                self.columns.entries(column).iter().for_each(|(row, part)| rest[*row] -= part * value);
            }
        }
        rest
    }
}

/// Nothing where this is but what rounding left behind, which would only make work.
fn without_noise(part: f64) -> f64 {
    if part.abs() < NOISE { 0.0 } else { part }
}

#[cfg(test)]
mod tests {
    use super::super::{Column, Outcome};
    use super::*;

    #[test]
    fn a_program_without_rows_has_no_values_to_shift() {
        let mut lp = Simplex::default();
        lp.begin();
        let column = lp.add_column(&Column { entries: Vec::new(), cost: 1.0, least: 2.0, most: 3.0 });
        assert!((lp.value(column) - 2.0).abs() < 1e-12);
    }

    /// At each look, and not between: where rounding has spoilt it, and in any case after very many pivots.
    #[test]
    fn an_inverse_is_worked_out_anew_where_it_no_longer_holds() {
        let mut lp = Simplex::default();
        for right in [9.0, 8.0] {
            lp.add_row(&[], right, (0.0, f64::INFINITY));
        }
        for (cost, parts) in [(3.0, [1.0, 2.0]), (2.0, [2.0, 1.0])] {
            let entries = parts.into_iter().enumerate().collect();
            lp.add_column(&Column { entries, cost, least: 0.0, most: 10.0 });
        }
        assert_eq!(lp.dual(f64::INFINITY), Outcome::Optimal);
        let [look, most] = REFRESH;
        let stale = |since: usize, spoilt: f64| {
            let mut lp = lp.clone();
            lp.since_fresh = since;
            lp.inverse[0] += spoilt;
            lp.is_stale()
        };
        assert_eq!([stale(look, 0.0), stale(look, 1e-14), stale(look, 1e-6)], [false, false, true]);
        assert_eq!([stale(look - 1, 1e-6), stale(2 * look, 1e-6), stale(most, 0.0)], [false, true, true]);
    }
}
