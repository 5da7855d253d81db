//! Inverts a basis: by itself where a column is alone in a row, by elimination where not.

/// The inverse of the matrix with these columns: (row, coefficient). Columns with a single entry, as those of slacks are,
/// are solved for at once; what is left, a matrix of its own, is inverted by elimination.
pub(super) fn inverted(columns: &[&[(usize, f64)]]) -> Option<Vec<f64>> {
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
