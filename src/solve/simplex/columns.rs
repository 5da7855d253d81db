//! The columns of a program, one after the other in the same few lists: what is read together lies together.

use super::Column;

/// All columns.
#[derive(Clone, Debug, Default)]
pub(super) struct Columns {
    /// Cost of one of each.
    pub cost: Vec<f64>,
    /// Least value of each.
    pub least: Vec<f64>,
    /// Greatest value of each.
    pub most: Vec<f64>,
    /// Where the entries of each end.
    ends: Vec<usize>,
    /// With how many of the entries that the column before begins with each begins too, the last ones left aside.
    alike: Vec<usize>,
    entries: Vec<(usize, f64)>,
}

impl Columns {
    pub(super) fn count(&self) -> usize {
        self.cost.len()
    }

    /// The entries of a column: (row, coefficient).
    pub(super) fn entries(&self, column: usize) -> &[(usize, f64)] {
        let start = if column == 0 { 0 } else { self.ends[column - 1] };
        &self.entries[start..self.ends[column]]
    }

    /// With how many of the entries that the column before begins with a column begins too, at least.
    pub(super) fn alike(&self, column: usize) -> usize {
        self.alike[column]
    }

    pub(super) fn push(&mut self, column: &Column) {
        let before = self.count().checked_sub(1).map_or(&[][..], |before| self.entries(before));
        let most = before.len().min(column.entries.len()).saturating_sub(1);
        let alike = before[..most].iter().zip(&column.entries).take_while(|(before, now)| before == now).count();
        self.alike.push(alike);
        self.cost.push(column.cost);
        self.least.push(column.least);
        self.most.push(column.most);
        self.entries.extend(&column.entries);
        self.ends.push(self.entries.len());
    }

    /// Takes away the last column.
    pub(super) fn pop(&mut self) {
        let last = self.count() - 1;
        self.entries.truncate(if last == 0 { 0 } else { self.ends[last - 1] });
        self.ends.pop();
        self.alike.pop();
        for values in [&mut self.cost, &mut self.least, &mut self.most] {
            values.pop();
        }
    }

    /// Changes the last entry of a column.
    pub(super) fn set_last(&mut self, column: usize, entry: (usize, f64)) {
        self.entries[self.ends[column] - 1] = entry;
    }

    /// Adds the entries of a new row: (column, coefficient).
    pub(super) fn add_row(&mut self, row: usize, added: &[(usize, f64)]) {
        if added.is_empty() {
            return;
        }
        let mut of: Vec<Option<f64>> = vec![None; self.count()];
        for (column, coefficient) in added {
            of[*column] = Some(*coefficient);
        }
        let (mut entries, mut ends) = (Vec::with_capacity(self.entries.len() + added.len()), Vec::new());
        for (column, coefficient) in of.into_iter().enumerate() {
            entries.extend(self.entries(column));
            entries.extend(coefficient.map(|coefficient| (row, coefficient)));
            ends.push(entries.len());
        }
        (self.entries, self.ends) = (entries, ends);
    }
}

#[cfg(test)]
mod tests {
    use super::super::FREE;
    use super::*;

    #[test]
    fn a_new_row_joins_the_columns_that_it_has_entries_in() {
        let mut columns = Columns::default();
        for entries in [vec![(0, 1.0)], vec![], vec![(0, 2.0), (1, 3.0)]] {
            columns.push(&Column { entries, cost: 1.0, least: 0.0, most: 1.0 });
        }
        columns.add_row(2, &[(2, 7.0), (1, 5.0)]);
        columns.push(&Column { entries: vec![(2, -1.0)], cost: 0.0, least: 0.0, most: 0.0 });
        let entries: Vec<&[(usize, f64)]> = (0..columns.count()).map(|column| columns.entries(column)).collect();
        let expected: [&[(usize, f64)]; 4] = [&[(0, 1.0)], &[(2, 5.0)], &[(0, 2.0), (1, 3.0), (2, 7.0)], &[(2, -1.0)]];
        assert_eq!(entries, expected);
    }

    #[test]
    fn it_is_known_with_how_many_entries_columns_begin_alike_at_least() {
        let mut columns = Columns::default();
        let first = (0, -1.0);
        for rest in [&[(2, 3.0), (3, 1.0)][..], &[(2, 3.0), (3, 2.0), FREE], &[(2, 3.0), (3, 2.0), FREE], &[(2, 1.0)]] {
            let entries = [&[first], rest].concat();
            columns.push(&Column { entries, cost: 0.0, least: 0.0, most: 1.0 });
        }
        let alike = |columns: &Columns| (0..columns.count()).map(|column| columns.alike(column)).collect::<Vec<_>>();
        assert_eq!(alike(&columns), [0, 2, 3, 1]);
        columns.set_last(2, (4, 1.0));
        assert_eq!(alike(&columns), [0, 2, 3, 1], "an entry that was kept free is the last");
        columns.pop();
        assert_eq!(alike(&columns), [0, 2, 3]);
    }
}
