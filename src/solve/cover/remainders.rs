//! What numbers of panels leave to a basis that may only be taken whole times, even below none: the remainders, which add
//! up each part on its own. Row and column steps in whole numbers bring the basis to a diagonal (as for the Smith normal
//! form, Smith 1861); a part for each entry that is not one.

/// The remainders that a basis leaves.
#[derive(Debug)]
pub(super) struct Remainders {
    /// Where each part comes from: panels of each size times these numbers.
    lines: Vec<Vec<i64>>,
    /// What each part is a remainder by.
    by: Vec<i64>,
}

impl Remainders {
    /// The remainders of a basis, given line by line; none where it has no inverse or numbers get too large.
    pub(super) fn new(mut basis: Vec<Vec<i64>>) -> Option<Remainders> {
        let size = basis.len();
        let mut steps: Vec<Vec<i64>> =
            (0..size).map(|line| (0..size).map(|at| i64::from(at == line)).collect()).collect();
        for from in 0..size {
            while let Some((line, column)) = smallest(&basis, from) {
                basis.swap(from, line);
                steps.swap(from, line);
                for entries in &mut basis {
                    entries.swap(from, column);
                }
                let pivot = basis[from][from];
                for line in from + 1..size {
                    let times = basis[line][from].div_euclid(pivot);
                    take_away(&mut basis, (line, from), times)?;
                    take_away(&mut steps, (line, from), times)?;
                }
                for column in from + 1..size {
                    let times = basis[from][column].div_euclid(pivot);
                    for entries in &mut basis[from..] {
                        entries[column] = entries[column].checked_sub(times.checked_mul(entries[from])?)?;
                    }
                }
            }
        }
        let diagonal = basis.iter().enumerate().map(|(at, line)| line[at].abs());
        let (lines, by): (Vec<_>, Vec<_>) = steps.into_iter().zip(diagonal).filter(|(_, by)| *by != 1).unzip();
        (!by.contains(&0)).then_some(Remainders { lines, by })
    }

    /// How many there are.
    pub(super) fn many(&self) -> usize {
        self.by.iter().fold(1, |many, by| many.saturating_mul(usize::try_from(*by).unwrap_or(usize::MAX)))
    }

    /// What so many panels leave, part by part.
    pub(super) fn of(&self, panels: &[i64]) -> Vec<i64> {
        let part = |(line, by): (&Vec<i64>, &i64)| {
            line.iter()
                .zip(panels)
                .fold(0, |sum, (times, panels)| (sum + times.rem_euclid(*by) * panels).rem_euclid(*by))
        };
        self.lines.iter().zip(&self.by).map(part).collect()
    }

    /// The place of a remainder among all.
    pub(super) fn place(&self, parts: &[i64]) -> usize {
        self.joined(parts.iter().copied())
    }

    /// The place of a remainder less another.
    pub(super) fn less(&self, parts: &[i64], other: &[i64]) -> usize {
        let less = parts.iter().zip(other).zip(&self.by);
        self.joined(less.map(|((part, other), by)| if part < other { part + by - other } else { part - other }))
    }

    fn joined(&self, parts: impl Iterator<Item = i64>) -> usize {
        let place = parts.zip(&self.by).fold(0, |place, (part, by)| place * by + part);
        usize::try_from(place).expect("not negative")
    }

    /// The remainder at a place.
    pub(super) fn split(&self, parts: &mut [i64], place: usize) {
        let mut place = i64::try_from(place).expect("there are not so many");
        for (part, by) in parts.iter_mut().zip(&self.by).rev() {
            *part = place % by;
            place /= by;
        }
    }
}

/// Where the smallest entry stands, from a line and column on: (line, column); none where nothing is left beside the one
/// that stands in both, or where all is nothing.
fn smallest(basis: &[Vec<i64>], from: usize) -> Option<(usize, usize)> {
    let others = |at: usize| basis[at][from] != 0 || basis[from][at] != 0;
    if basis[from][from] != 0 && !(from + 1..basis.len()).any(others) {
        return None;
    }
    let all = (from..basis.len()).flat_map(|line| (from..basis.len()).map(move |column| (line, column)));
    let some = all.filter(|(line, column)| basis[*line][*column] != 0);
    some.min_by_key(|(line, column)| basis[*line][*column].unsigned_abs())
}

/// Takes a line so many times from another.
fn take_away(lines: &mut [Vec<i64>], (from, line): (usize, usize), times: i64) -> Option<()> {
    let taken = lines[line].clone();
    for (entry, taken) in lines[from].iter_mut().zip(taken) {
        *entry = entry.checked_sub(times.checked_mul(taken)?)?;
    }
    Some(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// By hand: of strips that give two of one size or three of another, numbers of panels leave six remainders.
    #[test]
    fn panels_leave_what_no_whole_strips_give() {
        let remainders = Remainders::new(vec![vec![2, 0], vec![0, 3]]).expect("it has an inverse");
        assert_eq!(remainders.many(), 6);
        let place = |panels: [i64; 2]| remainders.place(&remainders.of(&panels));
        assert_eq!([[0, 0], [2, 0], [0, -3], [8, 9]].map(place), [0; 4]);
        let places: std::collections::BTreeSet<usize> =
            (0..2).flat_map(|one| (0..3).map(move |other| place([one, other]))).collect();
        assert_eq!(places, (0..6).collect());
        assert!(Remainders::new(vec![vec![1, 2], vec![2, 4]]).is_none(), "it has no inverse");
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 128, failure_persistence: None, ..ProptestConfig::default() })]

        /// There are as many as the determinant (here of three lines, by the rule of Sarrus), what a basis gives leaves
        /// nothing, and remainders add up.
        #[test]
        fn there_are_as_many_as_the_determinant(
            entries in prop::collection::vec(-6..12_i64, 9),
            [one, other] in [prop::collection::vec(-20..40_i64, 3), prop::collection::vec(-20..40_i64, 3)],
            times in prop::collection::vec(-9..9_i64, 3),
        ) {
            let basis: Vec<Vec<i64>> = entries.chunks(3).map(<[i64]>::to_vec).collect();
            let product = |columns: [usize; 3]| (0..3).map(|line| basis[line][columns[line]]).product::<i64>();
            let determinant = product([0, 1, 2]) + product([1, 2, 0]) + product([2, 0, 1])
                - product([2, 1, 0]) - product([0, 2, 1]) - product([1, 0, 2]);
            let remainders = Remainders::new(basis.clone());
            prop_assert_eq!(remainders.is_some(), determinant != 0);
            let Some(remainders) = remainders else { return Ok(()) };
            prop_assert_eq!(remainders.many() as u64, determinant.unsigned_abs());
            let given = |basis: &Vec<i64>| basis.iter().zip(&times).map(|(entry, times)| entry * times).sum::<i64>();
            let given: Vec<i64> = basis.iter().map(given).collect();
            prop_assert_eq!(remainders.place(&remainders.of(&given)), 0);
            let less: Vec<i64> = one.iter().zip(&other).map(|(one, other)| one - other).collect();
            let (from, by) = (remainders.of(&one), remainders.of(&other));
            prop_assert_eq!(remainders.less(&from, &by), remainders.place(&remainders.of(&less)));
            let mut parts = from.clone();
            remainders.split(&mut parts, remainders.place(&from));
            prop_assert_eq!(parts, from);
        }
    }
}
