//! The inverse of the basis and what follows from it: prices, values, columns in terms of the basis. A pivot brings it
//! up to date; after enough of them it is worked out anew, so that what rounding leaves behind does not add up.

use super::{Column, Place, REFRESH, Simplex};

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
            let cost = self.columns[*column].cost;
            if cost != 0.0 {
                prices.iter_mut().zip(self.inverse_line(position)).for_each(|(price, part)| *price += cost * part);
            }
        }
        prices
    }

    pub(super) fn reduced(&self, column: usize, prices: &[f64]) -> f64 {
        let column = &self.columns[column];
        column.cost - column.entries.iter().map(|(row, part)| prices[*row] * part).sum::<f64>()
    }

    /// The column in terms of the basis.
    pub(super) fn transformed(&self, column: usize) -> Vec<f64> {
        let rows = self.right.len();
        let entries = &self.columns[column].entries;
        let at = |position: usize| entries.iter().map(|(row, part)| self.inverse[position * rows + row] * part).sum();
        (0..rows).map(at).collect()
    }

    pub(super) fn pivot(&mut self, column: usize, position: usize, alpha: &[f64]) {
        let rows = self.right.len();
        let pivot = alpha[position];
        let line: Vec<f64> =
            self.inverse[position * rows..(position + 1) * rows].iter().map(|part| part / pivot).collect();
        for (at, part) in alpha.iter().enumerate() {
            let target = &mut self.inverse[at * rows..(at + 1) * rows];
            if at == position {
                target.copy_from_slice(&line);
            } else if *part != 0.0 {
                target.iter_mut().zip(&line).for_each(|(to, from)| *to -= part * from);
            }
        }
        self.basis[position] = column;
        self.places[column] = Place::Basic(position);
        self.since_fresh += 1;
    }

    pub(super) fn shift_values(&mut self, column: &Column, moved: f64) {
        for position in 0..self.values.len() {
            let line = self.inverse_line(position);
            self.values[position] -= moved * column.entries.iter().map(|(row, part)| line[*row] * part).sum::<f64>();
        }
    }

    pub(super) fn keep_fresh(&mut self) -> bool {
        self.since_fresh < REFRESH || self.refresh()
    }

    /// Inverts the basis anew; false where it cannot be inverted.
    pub(super) fn refresh(&mut self) -> bool {
        self.begun = true;
        let rows = self.right.len();
        let mut matrix = vec![0.0; rows * rows];
        for (position, column) in self.basis.iter().enumerate() {
            for (row, part) in &self.columns[*column].entries {
                matrix[row * rows + position] = *part;
            }
        }
        let Some(inverse) = invert(matrix, rows) else { return false };
        self.inverse = inverse;
        self.since_fresh = 0;
        self.find_values();
        true
    }

    /// The values of the basic columns from those of the others.
    pub(super) fn find_values(&mut self) {
        let rows = self.right.len();
        let mut rest = self.right.clone();
        for (column, data) in self.columns.iter().enumerate() {
            let value = match self.places[column] {
                Place::Basic(_) => continue,
                Place::Lower => data.least,
                Place::Upper => data.most,
            };
            if value != 0.0 {
                data.entries.iter().for_each(|(row, part)| rest[*row] -= part * value);
            }
        }
        self.values = (0..rows)
            .map(|at| self.inverse_line(at).iter().zip(&rest).map(|(part, right)| part * right).sum())
            .collect();
    }
}

/// The inverse of a square matrix by elimination with the largest pivot of each column.
fn invert(mut matrix: Vec<f64>, size: usize) -> Option<Vec<f64>> {
    let mut inverse = vec![0.0; size * size];
    (0..size).for_each(|at| inverse[at * size + at] = 1.0);
    for at in 0..size {
        let largest = |a: &usize, b: &usize| matrix[a * size + at].abs().total_cmp(&matrix[b * size + at].abs());
        let pivot_row = (at..size).max_by(largest)?;
        if matrix[pivot_row * size + at].abs() < 1e-11 {
            return None;
        }
        for column in 0..size {
            matrix.swap(at * size + column, pivot_row * size + column);
            inverse.swap(at * size + column, pivot_row * size + column);
        }
        let pivot = matrix[at * size + at];
        (at..size).for_each(|column| matrix[at * size + column] /= pivot);
        (0..size).for_each(|column| inverse[at * size + column] /= pivot);
        for row in (0..size).filter(|row| *row != at) {
            let factor = matrix[row * size + at];
            if factor != 0.0 {
                (at..size).for_each(|column| matrix[row * size + column] -= factor * matrix[at * size + column]);
                (0..size).for_each(|column| inverse[row * size + column] -= factor * inverse[at * size + column]);
            }
        }
    }
    Some(inverse)
}
