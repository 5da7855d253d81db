//! The inverse of the basis and what follows from it: prices, values, columns in terms of the basis. A pivot brings it
//! up to date; after enough of them it is worked out anew, so that what rounding leaves behind does not add up.

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

    pub(super) fn keep_fresh(&mut self) -> bool {
        !self.is_stale() || self.refresh()
    }

    /// Whether the inverse is to be worked out anew: after many pivots, or where it no longer holds, which is looked at
    /// now and then.
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

/// The inverse of the matrix with these columns: (row, coefficient). Columns with a single entry, as those of slacks are,
/// are solved for at once; what is left, a matrix of its own, is inverted by elimination.
fn inverted(columns: &[&[(usize, f64)]]) -> Option<Vec<f64>> {
    let size = columns.len();
    // The column that is alone in each row, and its entry.
    let mut alone: Vec<Option<(usize, f64)>> = vec![None; size];
    for (at, entries) in columns.iter().enumerate() {
        if let [(row, part)] = entries[..]
            && alone[row].is_none()
        {
            alone[row] = Some((at, part));
        }
    }
    let rows: Vec<usize> = (0..size).filter(|row| alone[*row].is_none()).collect();
    let mut left = vec![true; size];
    alone.iter().flatten().for_each(|(at, _)| left[*at] = false);
    let left: Vec<usize> = (0..size).filter(|at| left[*at]).collect();
    let mut place = vec![usize::MAX; size];
    rows.iter().enumerate().for_each(|(at, row)| place[*row] = at);
    let rest = rows.len();
    let mut core = vec![0.0; rest * rest];
    for (at, column) in left.iter().enumerate() {
        for (row, part) in columns[*column].iter().filter(|(row, _)| place[*row] < rest) {
            core[place[*row] * rest + at] += *part;
        }
    }
    invert(&mut core, rest)?;
    let mut inverse = vec![0.0; size * size];
    for (row, (at, part)) in alone.iter().enumerate().filter_map(|(row, found)| Some((row, found.as_ref()?))) {
        inverse[at * size + row] = 1.0 / part;
    }
    for (column, line) in left.iter().zip(core.chunks_exact(rest.max(1))) {
        rows.iter().zip(line).for_each(|(row, part)| inverse[column * size + row] = *part);
        for (at, part) in columns[*column].iter().filter_map(|(row, part)| Some((alone[*row]?, *part))) {
            let (at, factor) = (at.0, part / at.1);
            rows.iter().zip(line).for_each(|(row, part)| inverse[at * size + row] -= factor * part);
        }
    }
    Some(inverse)
}

/// Inverts a square matrix in its place by elimination with the largest pivot of each column; none where it cannot be
/// inverted.
fn invert(matrix: &mut [f64], size: usize) -> Option<()> {
    let mut swapped = Vec::with_capacity(size);
    let mut pivots = vec![0.0; size];
    for at in 0..size {
        let largest = |a: &usize, b: &usize| matrix[a * size + at].abs().total_cmp(&matrix[b * size + at].abs());
        let row = (at..size).max_by(largest)?;
        let pivot = matrix[row * size + at];
        if pivot.abs() < 1e-11 {
            return None;
        }
        swapped.push(row);
        if row != at {
            let (above, below) = matrix.split_at_mut(row * size);
            above[at * size..(at + 1) * size].swap_with_slice(&mut below[..size]);
        }
        let line = &mut matrix[at * size..(at + 1) * size];
        line[at] = 1.0;
        for part in &mut *line {
            *part /= pivot;
        }
        pivots.copy_from_slice(line);
        for (other, line) in matrix.chunks_exact_mut(size).enumerate() {
            let factor = line[at];
            if other != at && factor != 0.0 {
                line[at] = 0.0;
                line.iter_mut().zip(&pivots).for_each(|(to, from)| *to -= factor * from);
            }
        }
    }
    for (at, row) in swapped.into_iter().enumerate().rev().filter(|(at, row)| at != row) {
        matrix.chunks_exact_mut(size).for_each(|line| line.swap(at, row));
    }
    Some(())
}

#[cfg(test)]
mod tests {
    use super::super::{Column, Outcome};
    use super::*;
    use proptest::prelude::*;

    /// Row-major, as the inverse is.
    fn dense(columns: &[Vec<(usize, f64)>]) -> Vec<f64> {
        let size = columns.len();
        let mut matrix = vec![0.0; size * size];
        for (at, entries) in columns.iter().enumerate() {
            for (row, part) in entries {
                matrix[row * size + at] = *part;
            }
        }
        matrix
    }

    /// By the entries of the first row and the determinants beside them. Entries are halves, so it is a multiple of 2^-7:
    /// no rounding passes for one.
    fn determinant(matrix: &[f64], size: usize) -> f64 {
        let beside = |at: usize| -> Vec<f64> {
            let lines = matrix.chunks_exact(size).skip(1);
            lines.flat_map(|line| line[..at].iter().chain(&line[at + 1..])).copied().collect()
        };
        let signs = [1.0, -1.0].into_iter().cycle();
        let of = |(at, sign): (usize, f64)| sign * matrix[at] * determinant(&beside(at), size - 1);
        if size == 0 { 1.0 } else { (0..size).zip(signs).map(of).sum() }
    }

    fn inverted_of(columns: &[Vec<(usize, f64)>]) -> Option<Vec<f64>> {
        inverted(&columns.iter().map(Vec::as_slice).collect::<Vec<_>>())
    }

    /// By hand: of columns (2, 0), (1, -1) the inverse is (1/2, 1/2), (0, -1).
    #[test]
    fn a_column_with_one_entry_is_solved_for_at_once() {
        let inverse = inverted_of(&[vec![(0, 2.0)], vec![(0, 1.0), (1, -1.0)]]).expect("it can be inverted");
        assert_eq!(inverse, [0.5, 0.5, 0.0, -1.0]);
    }

    #[test]
    fn an_entry_kept_free_changes_nothing() {
        let with =
            |free: &[(usize, f64)]| inverted_of(&[[&[(0, 2.0), (1, 1.0)], free].concat(), vec![(0, 1.0), (1, 3.0)]]);
        assert_eq!(with(&[(0, 0.0)]), with(&[]));
    }

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

    #[test]
    fn what_cannot_be_inverted_is_not() {
        assert_eq!(inverted_of(&[vec![(0, 1.0), (1, 2.0)], vec![(0, 2.0), (1, 4.0)]]), None);
        assert_eq!(inverted_of(&[vec![(0, 1.0)], vec![(0, 3.0)]]), None);
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn a_matrix_times_its_inverse_is_one(
            parts in prop::collection::vec(prop::collection::vec(-3..=3_i32, 7), 7),
            alone in prop::collection::vec(prop::option::of(prop::sample::select(vec![-1.0, 1.0, 2.5])), 7),
        ) {
            let column = |(at, (parts, alone)): (usize, (&Vec<i32>, &Option<f64>))| match alone {
                Some(part) => vec![((at + 2) % 7, *part)],
                None => (0..7).map(|row| (row, f64::from(parts[row]))).filter(|(_, part)| *part != 0.0).collect(),
            };
            let columns: Vec<Vec<(usize, f64)>> = parts.iter().zip(&alone).enumerate().map(column).collect();
            let matrix = dense(&columns);
            let inverse = inverted_of(&columns);
            prop_assert_eq!(inverse.is_none(), determinant(&matrix, 7).abs() < 1e-6);
            if let Some(inverse) = inverse {
                for row in 0..7 {
                    for at in 0..7 {
                        let product: f64 = (0..7).map(|k| matrix[row * 7 + k] * inverse[k * 7 + at]).sum();
                        let one = if row == at { 1.0 } else { 0.0 };
                        prop_assert!((product - one).abs() < 1e-7, "row {row}, column {at}: {product}");
                    }
                }
            }
        }
    }
}
